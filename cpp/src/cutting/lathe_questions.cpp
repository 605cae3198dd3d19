// The questions of the lathe: turn, face, bore, part off, knurl, and the speed of single-point threading.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "cut_answer.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/machine/room.hpp"
#include "halfnut/material/alloy.hpp"
#include "lathe_rows.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

constexpr double kPartOut = 1.0;        // diameters from the jaws, beyond which parting is worth a caution
constexpr double kUsualDamping = 0.03;  // of a tool or bar without a damper: 0.02 to 0.05, recalled
constexpr double kNoticedBarMm =
    1000.0;  // bars are sold longer than this: a shorter one that whips is worth a word

// ---- what is asked ----------------------------------------------------------------------------------------

using namespace lathe;
#define ASKED(member, about) HALFNUT_ASKED(LatheAsk, member, about)

constexpr std::array kFaceAsked{
    kAlloy,       kDiameter.saying("Diameter where the cut starts."),
    kEndDiameter, kDepth.saying("Depth of the cut along the axis."),
    kMachine,     kTool,
    kFinish,      kFeed.saying("Feed of the cross slide wanted; the next finer of the machine is taken."),
    kSpindle,     Rows::hardness,
    kNose,        kRake,
    kWear,        kChuck,
    kStock,       kBarLength,
    kBarBehind,   Rows::stick_out,
    kBore,        kRoughness,
    kApproach,    kOverrun,
    Rows::skin,
};
constexpr std::array kBoreOwn{
    kAlloy,
    kDiameter.saying("Diameter after the cut."),
    kDepth,
    kLength,
    kMachine,
    kTool,
    kFinish,
    kFeed,
    kSpindle,
    Rows::hardness,
    kNose,
    kEntering,
    kRake,
    kWear,
    kChuck,
    kStock,
    kBarLength,
    kBarBehind,
    ASKED(cut.bar_diameter_mm, "Diameter of the boring bar; with its overhang it gives the deflection.")
        .in(range_in(kTurnArguments, "bar_diameter_mm")),
    ASKED(cut.bar_material, "What the boring bar is made of.").finer(),
    kStickOut.called("overhang").saying("Overhang of the boring bar from its holder."),
    kRoughness,
    kDeflection,
    kApproach,
    kOverrun,
    Rows::skin,
};
constexpr std::array<string_view, 0> kAll{};
constexpr auto kBoreAsked = with_those_of(kBoreOwn, kStabilityAsked, kAll);
constexpr auto kTurnWhole = with_those_of(kTurnAsked, kStabilityAsked, kAll);
constexpr std::array kKnurlAsked{
    kAlloy,
    kDiameter.saying("Diameter of the blank."),
    kLength.saying("Width of the knurled band; without it there is no time."),
    kMachine,
    kFeed,
    kSpindle,
    Rows::hardness,
    kChuck,
    kHold,
    kStock,
    kBarLength,
    kBarBehind,
    Rows::stick_out,
    kApproach,
    kOverrun,
};
constexpr std::array kThreadAsked{
    kAlloy,
    kDiameter.saying("Major diameter of the thread."),
    ASKED(pitch_mm, "Pitch of the thread, its lead where it has several starts.").above(0).required(),
    kLength.saying("Length of the thread; without it there is no time."),
    kMachine,
    kTool,
    kSpindle,
    Rows::hardness,
    kChuck,
    kStock,
    kBarLength,
    kBarBehind,
    Rows::stick_out,
    kSections,
    kCutAt.usually("the end").saying("Where on the sections the thread begins, from the end that is free."),
    kHold,
};
#undef ASKED

// ---- how it is answered -----------------------------------------------------------------------------------

bool is_faceplate(const machine::Machine& machine, int holder) {
    std::string name = machine.chucks[static_cast<std::size_t>(holder)].name;
    std::transform(name.begin(), name.end(), name.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return name.find("faceplate") != std::string::npos || name.find("face plate") != std::string::npos;
}

}  // namespace

void note_bar(const machine::Machine* machine, const TurnRequest& request, const material::AlloyRow& alloy,
              bool asking_inch, CutAnswer& out) {
    const bool told = !std::isnan(request.bar_length_mm) || !std::isnan(request.bar_behind_mm);
    if (machine == nullptr || machine->kind != machine::Kind::lathe || told ||
        request.hold == Hold::between_centres) {
        return;
    }
    const double size = !std::isnan(request.stock_diameter_mm) ? request.stock_diameter_mm
                        : !std::isnan(request.stock_flats_mm)  ? request.stock_flats_mm
                                                               : request.diameter_mm;
    const bool outside = request.cut != LatheCut::bore && request.cut != LatheCut::thread;
    if (!outside || size > machine->spindle_bore_mm) {
        return;
    }
    double free_mm = 0.0;  // without a modulus no length behind the spindle is known to be safe
    if (!std::isnan(alloy.youngs_modulus_gpa)) {
        const double bore = std::isnan(request.bore_mm) ? 0.0 : request.bore_mm;
        const double whirl =
            first_whirl_rpm(size, bore, 1.0, alloy.youngs_modulus_gpa, alloy.density_kg_m3, kWhirlRootChuck);
        free_mm = std::sqrt(kWhirlShare * whirl / out.cut.spindle_rpm);
    }
    if (!(free_mm >= kNoticedBarMm)) {
        out.told.push_back(
            {"bar_behind",
             -free_mm,
             {{"bar_free", asking_inch ? fmt::format("{} in", std::floor(free_mm / kInchMm))
                                       : fmt::format("{} mm", 10.0 * std::floor(free_mm / 10.0))}}});
    }
}

namespace {

/// Width of the cut against the most that grows no chatter, where a stiffness was measured.
void note_stability(const LatheAsk& asked, const Catalogue& catalogue, CutAnswer& out) {
    const CutResult& cut = out.cut;
    const double width = cut.depth_mm * cut.feed_mm_rev / cut.chip_thickness_mm;
    if (std::isnan(asked.stiffness_n_um) || std::isnan(width)) {
        return;
    }
    const double damping = std::isnan(asked.damping) ? kUsualDamping : asked.damping;
    if (std::isnan(asked.damping)) {
        out.assumed.push_back(fmt::format("damping ratio {:g}", damping));
    }
    const double ks = cut.cutting_force_high_n / (cut.depth_mm * cut.feed_mm_rev);
    const double most = LimitingWidth::compute(asked.stiffness_n_um, damping, ks);
    out.limits.push_back({"stability", width, most, 1.0 - width / most});
    constexpr std::array<string_view, 1> kDepth{"depth_mm"};
    out.evidence.push_back(evidence_text({0, rule::stability, {}}, kDepth, catalogue));
    if (width > most) {
        out.told.push_back({"chatter", 0.0, {}});
    }
}

bool has_cut_at(const LatheAsk& asked) {
    return !std::isnan(asked.cut_at_mm);
}

struct Setting {
    string_view name;
    LatheCut cut{};
    std::span<const AskedRow> rows;
};

CutAnswer answer(const Setting& setting, const LatheAsk& asked, const TurnRequest& numbers,
                 const Asking& asking, const material::AlloyRow& alloy) {
    const Catalogue& catalogue = asking.catalogue;
    CutContext context(
        catalogue, setting.name, alloy,
        find_tool(catalogue, setting.cut == LatheCut::knurl ? "HSS" : string_view(asked.tool)));
    TurnRequest request = numbers;
    request.cut = setting.cut;
    if (setting.cut == LatheCut::thread) {
        request.feed_mm_rev = asked.pitch_mm;
    }
    request.work.alloy = static_cast<std::uint16_t>(&alloy - catalogue.alloys.data());
    request.tool_material = context.tool.row->tool_material;
    request.inch = asking.inch;
    set_stock(request, asked.stock);
    const ToolRow& form = *context.tool.row;
    const auto fill = [&](double TurnRequest::* number, string_view key, double of_tool) {
        if (asks(setting.rows, key)) {
            from_tool(request.*number, of_tool);
        }
    };
    fill(&TurnRequest::nose_radius_mm, "nose_radius_mm", form.nose_radius_mm);
    fill(&TurnRequest::entering_deg, "entering_deg", form.entering_deg);
    fill(&TurnRequest::rake_deg, "rake_deg", form.rake_deg);
    fill(&TurnRequest::bar_diameter_mm, "bar_diameter_mm", form.bar_diameter_mm);
    if (setting.cut == LatheCut::bore) {
        from_tool(request.stick_out_mm, form.stick_out_mm);
    }
    if (setting.cut == LatheCut::part_off) {
        from_tool(request.depth_mm, form.width_mm);
    }
    if (asks(setting.rows, "nose_radius_mm") && std::isnan(request.nose_radius_mm)) {
        context.assumed.push_back(fmt::format("nose radius {}", size_text(kNoseRadiusMm, asking.inch)));
    }
    request.chuck = holder_place(asked.machine, asked.chuck, request.hold, context.assumed);
    std::optional<TurnedBeam> beam;
    if (!asked.sections.empty() && (has_cut_at(asked) || setting.cut == LatheCut::thread)) {
        const double usual = usual_depth_mm(request.diameter_mm, request.finish, request.inch);
        const double deep = setting.cut == LatheCut::thread ? 0.0
                            : std::isnan(request.depth_mm)  ? usual
                                                            : request.depth_mm;
        beam.emplace(turned_beam(asked.sections, asked.steadies_mm, alloy,
                                 {request.hold, has_cut_at(asked) ? asked.cut_at_mm : 0.0, request.length_mm,
                                  request.diameter_mm - 2.0 * deep}));
        request.beam = &*beam;
        request.stick_out_mm = beam->length_mm();
    }

    const machine::Machine& machine = asked.machine == nullptr ? any_machine() : *asked.machine;
    const CutResult result = cut(catalogue, machine, request);
    if (asks(setting.rows, "depth_mm") && std::isnan(request.depth_mm) && !std::isnan(result.depth_mm)) {
        const string_view what = setting.cut == LatheCut::part_off ? "blade" : "depth";
        const std::string shown = size_text(result.depth_mm, asking.inch);
        context.assumed.insert(context.assumed.begin() + (context.tool.named ? 0 : 1),
                               fmt::format("{} {}", what, shown));
    }
    if (request.skin != Skin::clean) {
        context.extra.push_back(skin_code(request.skin));
    }
    if (setting.cut == LatheCut::turn && request.finish) {
        context.extra.emplace_back("emery_by_hand");
    }
    if (asked.machine != nullptr && request.chuck >= 0 && is_faceplate(*asked.machine, request.chuck)) {
        context.extra.emplace_back("faceplate_balance");
    }
    context.machine = asked.machine;
    context.feeds = Feeds::carriage;
    context.diameter_mm = request.diameter_mm;
    context.inch = asking.inch;
    CutAnswer out = answer_of(context, result);
    note_bar(asked.machine, request, alloy, asking.inch, out);
    note_stability(asked, catalogue, out);
    return out;
}

const material::AlloyRow& alloy_of(const LatheAsk& asked, const Asking& asking) {
    return material::find_alloy(asking.catalogue, asked.alloy);
}

CutAnswer plain(const Setting& setting, const LatheAsk& asked, const Asking& asking) {
    return answer(setting, asked, asked.cut, asking, alloy_of(asked, asking));
}

// ---- stepped or steadied work -----------------------------------------------------------------------------

/// How the work deflects under the cut.
BeamBend bend_of(const LatheAsk& asked, const CutAnswer& cut, double modulus_gpa) {
    WorkBeam beam{.sections = asked.sections, .hold = asked.cut.hold, .steadies_mm = asked.steadies_mm};
    beam.youngs_modulus_gpa = modulus_gpa;
    if (beam.sections.empty()) {
        const double depth = std::isnan(cut.cut.depth_mm) ? 0.0 : cut.cut.depth_mm;
        const double bore = std::isnan(asked.cut.bore_mm) ? 0.0 : asked.cut.bore_mm;
        beam.sections.push_back({asked.cut.stick_out_mm, cut.diameter_mm - 2.0 * depth, bore});
    }
    return bend_along(beam, cut.cut.passive_force_n);
}

double at_high_edge(const CutAnswer& cut, const BeamBend& bend) {
    return bend.worst_mm * cut.cut.cutting_force_high_n / cut.cut.cutting_force_n;
}

/// The cut with the beam's deflection in place of the plain bar's.
void set_bend(const BeamBend& bend, double allowed_mm, const Catalogue& catalogue, CutAnswer& out) {
    const double high = at_high_edge(out, bend);
    std::erase_if(out.told, [](const Told& each) { return each.code == "slender"; });
    const auto tell = [&](const char* code) { out.told.push_back({code, 0.0, {}}); };
    if (bend.slender) {
        tell("slender");
    }
    if (!std::isnan(allowed_mm)) {
        out.limits.push_back({"deflection", high, allowed_mm, 1.0 - high / allowed_mm});
        out.holds_at_edge = out.holds_at_edge.value_or(true) && high <= allowed_mm;
        if (high > allowed_mm) {
            tell("deflection_exceeded");
        }
    }
    if (high > (std::isnan(out.cut.depth_mm) ? 0.0 : out.cut.depth_mm)) {
        tell("climbs");
    }
    out.cut.deflection_mm = bend.worst_mm;
    out.deflection_low_mm = bend.worst_mm * out.cut.cutting_force_low_n / out.cut.cutting_force_n;
    out.deflection_high_mm = high;
    constexpr std::array<string_view, 1> kBend{"bend_mm"};
    out.evidence.push_back(evidence_text({0, rule::work_beam, {}}, kBend, catalogue));
}

CutAnswer turn_on_beam(const Setting& setting, const LatheAsk& given, const Asking& asking,
                       const material::AlloyRow& alloy) {
    if (std::isnan(alloy.youngs_modulus_gpa)) {
        throw NotTabulatedError(material::lacks_modulus(alloy, "deflection of stepped or steadied work"));
    }
    LatheAsk asked = given;
    double whole = 0.0;
    for (const WorkSection& section : asked.sections) {
        whole += section.length_mm;
    }
    whole = asked.sections.empty() ? asked.cut.stick_out_mm : whole;
    if (whole * (1.0 + 1e-9) < asked.cut.length_mm) {
        throw DomainError(fmt::format("sections must be at least as long as the cut, {:g} mm, got {:g} mm",
                                      asked.cut.length_mm, whole));
    }
    const double allowed = asked.cut.deflection_limit_mm;
    asked.cut.deflection_limit_mm = kNaN;
    asked.cut.stick_out_mm = whole;
    asked.cut.span_mm = whirl_span_mm(asked.cut.hold, whole, asked.steadies_mm);
    CutAnswer out = answer(setting, asked, asked.cut, asking, alloy);
    BeamBend bend = bend_of(asked, out, alloy.youngs_modulus_gpa);
    LimitCode bound = out.cut.feed_limited_by;
    const bool open = !std::isnan(allowed) && std::isnan(asked.cut.feed_mm_rev) && asked.machine != nullptr;
    for (int step = out.feed_step.value_or(0); open && step > 0 && at_high_edge(out, bend) > allowed;) {
        --step;
        TurnRequest finer = asked.cut;
        finer.feed_mm_rev = asked.machine->carriage.steps[static_cast<std::size_t>(step)].feed_mm;
        out = answer(setting, asked, finer, asking, alloy);
        out.cut.limited_by = LimitCode::deflection;
        bound = LimitCode::deflection;
        bend = bend_of(asked, out, alloy.youngs_modulus_gpa);
    }
    out.cut.feed_limited_by = bound;
    set_bend(bend, allowed, asking.catalogue, out);
    return out;
}

constexpr Setting kTurnSetting{"turn", LatheCut::turn, kTurnWhole};
constexpr Setting kFaceSetting{"face", LatheCut::face, kFaceAsked};
constexpr Setting kBoreSetting{"bore", LatheCut::bore, kBoreAsked};
constexpr Setting kPartOffSetting{"part_off", LatheCut::part_off, kPartOffAsked};
constexpr Setting kKnurlSetting{"knurl", LatheCut::knurl, kKnurlAsked};
constexpr Setting kThreadSetting{"thread", LatheCut::thread, kThreadAsked};

}  // namespace

CutAnswer turn(const LatheAsk& asked, const Asking& asking) {
    const material::AlloyRow& alloy = alloy_of(asked, asking);
    const bool stands_out = !std::isnan(asked.cut.stick_out_mm);
    if (!asked.sections.empty() && stands_out) {
        throw DomainError("sections say how far the work stands out: leave stick_out away");
    }
    if (!asked.steadies_mm.empty() && asked.sections.empty() && !stands_out) {
        throw DomainError("steadies need stick_out or sections");
    }
    if (!std::isnan(asked.cut.deflection_limit_mm) && std::isnan(alloy.youngs_modulus_gpa)) {
        throw NotTabulatedError(material::lacks_modulus(alloy, "limit of deflection"));
    }
    if (has_cut_at(asked) && asked.sections.empty()) {
        throw DomainError("cut_at needs sections");
    }
    return has_cut_at(asked) || (asked.sections.empty() && asked.steadies_mm.empty())
               ? answer(kTurnSetting, asked, asked.cut, asking, alloy)
               : turn_on_beam(kTurnSetting, asked, asking, alloy);
}

CutAnswer face(const LatheAsk& asked, const Asking& asking) {
    return plain(kFaceSetting, asked, asking);
}

CutAnswer bore(const LatheAsk& asked, const Asking& asking) {
    return plain(kBoreSetting, asked, asking);
}

CutAnswer part_off(const LatheAsk& asked, const Asking& asking) {
    CutAnswer out = plain(kPartOffSetting, asked, asking);
    if (asked.cut.stick_out_mm > kPartOut * out.diameter_mm) {
        out.told.push_back({"part_slender", 0.0, {}});
    }
    return out;
}

CutAnswer knurl(const LatheAsk& asked, const Asking& asking) {
    return plain(kKnurlSetting, asked, asking);
}

CutAnswer thread_speed(const LatheAsk& asked, const Asking& asking) {
    return plain(kThreadSetting, asked, asking);
}

namespace {

template <CutAnswer (*Evaluate)(const LatheAsk&, const Asking&)>
constexpr Question lathe_question(string_view name, string_view about, std::span<const AskedRow> rows,
                                  string_view example) {
    return cut_question<LatheAsk, CutAnswer, Evaluate>(name, about, rows, kCutRecord, example);
}

}  // namespace

constinit const std::array<Question, 6> kLatheQuestions{
    lathe_question<&turn>(
        "turn", "Turn a diameter: spindle step, feed, force, power, finish, deflection and time of one cut.",
        kTurnWhole, "turn 6061-T6 1.25in --machine gap-bed --length 2in"),
    lathe_question<&face>(
        "face", "Face an end: the spindle keeps the speed of the outer diameter, the cross slide feeds.",
        kFaceAsked, "face 6061-T6 1.25in --machine gap-bed"),
    lathe_question<&bore>("bore",
                          "Bore a hole with a single-point bar: spindle step, feed and what comes of them.",
                          kBoreAsked, "bore 6061-T6 25mm --bar-diameter 16mm --overhang 60mm"),
    lathe_question<&part_off>("part_off", "Part off, or cut a groove that ends at a diameter.", kPartOffAsked,
                              "part-off brass 20mm --machine metric-lathe --blade 2mm"),
    lathe_question<&knurl>("knurl",
                           "Speed and feed for knurling with form wheels; the blank is another question.",
                           kKnurlAsked, "knurl brass 20mm --machine metric-lathe"),
    lathe_question<&thread_speed>("thread_speed",
                                  "Spindle step for single-point threading, and the time of one pass.",
                                  kThreadAsked, "thread-speed 6061-T6 24mm 1.5mm --machine gap-bed"),
};

}  // namespace halfnut::cutting
