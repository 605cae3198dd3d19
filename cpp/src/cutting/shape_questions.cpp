// Shapes at the lathe that take more than one cut or a setting of their own: tapers and grooves.

#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "cut_answer.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/cutting/holding_taper.hpp"
#include "halfnut/cutting/path.hpp"
#include "lathe_rows.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

constexpr double kMostSetoverDeg = 8.0;  // from where a set-over wears the centre holes; common practice
constexpr double kInchesPerFoot = 12.0;
constexpr double kAsSaid = 1e-9;

// ---- what is asked ----------------------------------------------------------------------------------------

#define ASKED(member, about) HALFNUT_ASKED(LatheAsk, member, about)
constexpr auto kTaperAsked = with_those_of(
    std::array{
        lathe::kAlloy,
        ASKED(taper.large,
              "Diameter at the large end, or a self-holding taper by its name, such as morse 3, which has "
              "its own "
              "ends and length.")
            .required()
            .leads()
            .as_length(),
        ASKED(taper.small_mm, "Diameter at the small end.").above(0).placed(),
        lathe::kLength.saying("Distance between the ends along the axis.").placed(),
        ASKED(taper.between_centres_mm, "Length of the whole work, for setting over the tailstock.").above(0),
    },
    lathe::kTurnAsked, std::array<string_view, 3>{"alloy", "diameter_mm", "length_mm"});
constexpr auto kGrooveAsked = with_those_of(
    std::array{
        lathe::kAlloy,
        lathe::kDiameter.saying("Diameter of the work."),
        lathe::kEndDiameter.saying("Diameter at the bottom of the groove.").usually("").required(),
        ASKED(groove.width_mm, "Width of the groove.").above(0).usually("the blade's"),
    },
    lathe::kPartOffAsked, std::array<string_view, 3>{"alloy", "diameter_mm", "end_diameter_mm"});
#undef ASKED

// ---- how it is answered -----------------------------------------------------------------------------------

#define FIGURE(member, about) HALFNUT_FIGURE(TaperAnswer, member, about)
constexpr std::array kTaperFigures{
    FIGURE(unit, "Unit that the answer is shown in first."),
    FIGURE(angle_deg,
           "Angle between side and axis: what compound or attachment is set to; the included angle is twice.")
        .always(),
    FIGURE(taper_per_foot_in, "Taper on the diameter in inches a foot.").always(),
    FIGURE(setover_mm, "How far the tailstock is set over, where a length between centres is given."),
    HALFNUT_RECORD(TaperAnswer, cut, kCutRecord, "The cut at the large end."),
    FIGURE(told, "What a person should know of the setting."),
    FIGURE(evidence, "What a named taper rests on."),
};
#undef FIGURE
constexpr std::array kTaperSays{
    SaidRow{"spindle", "{cut.spindle_text}"},
    SaidRow{"=", "cut"},
    SaidRow{"prove", "with a gauge or over two measured places before the last pass"},
};
constexpr RecordRow kTaperRecord{
    "Taper",
    "A taper: how to set the machine, and the cut at its large end.",
    kTaperFigures,
    {},
    {"set {angle_deg:.3f}° from the axis ({taper_per_foot_in:.4f} in a foot on the "
     "diameter)[, or set the tailstock over {setover_mm}]",
     kTaperSays, "spindle, feed, depth, passes, limit", true}};

#define FIGURE(member, about) HALFNUT_FIGURE(GrooveAnswer, member, about)
constexpr std::array kGrooveFigures{
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(plunges, "Plunges side by side."),
    FIGURE(plunges_said, "How many, and how far apart."),
    FIGURE(step_mm, "Distance between them.").always(),
    FIGURE(time_s, "Time of all plunges."),
    HALFNUT_RECORD(GrooveAnswer, cut, kCutRecord, "One plunge."),
};
#undef FIGURE
constexpr std::array kGrooveSays{
    SaidRow{"spindle", "{cut.spindle_text}"},
    SaidRow{"=", "cut"},
};
constexpr RecordRow kGrooveRecord{
    "Groove",
    "A groove: plunges side by side, each a cut of the blade.",
    kGrooveFigures,
    {},
    {"{plunges_said}[, {time_s} in all]", kGrooveSays, "spindle, feed, depth, passes, limit", true}};

bool given(double value) {
    return !std::isnan(value);
}

/// Ends and length by sizes, or by the name of a self-holding taper, which also says the unit.
struct Ends {
    double large_mm = kNaN;
    double small_mm = kNaN;
    double length_mm = kNaN;
    bool inch = false;
    std::vector<EvidenceText> evidence;
};

Ends ends_of(const LatheAsk& asked, const Asking& asking) {
    const TaperEnds& taper = asked.taper;
    const double length = asked.cut.length_mm;
    if (taper.large.name.empty()) {
        if (!given(taper.small_mm) || !given(length)) {
            throw DomainError(
                fmt::format("{} is needed beside large", given(taper.small_mm) ? "length" : "small"));
        }
        return {taper.large.mm, taper.small_mm, length, asking.inch, {}};
    }
    if (given(taper.small_mm)) {
        throw DomainError(
            fmt::format("large: '{}' is no size; a self-holding taper has its own ends: leave small away",
                        bounds::shown(taper.large.name)));
    }
    HoldingTaperAsk named;
    named.name.text = taper.large.name;
    named.length_mm = length;
    HoldingTaper found = holding_taper(named, asking);
    return {found.large_mm, found.small_mm, found.length_mm, found.unit == "in", std::move(found.evidence)};
}

}  // namespace

void take(LargeEnd& to, const Given& given, const AskedRow& row, Asking& asking) {
    const bool named = given.tag == Given::Tag::text && given.text.size() > 1 &&
                       (std::isalpha(static_cast<unsigned char>(given.text.front())) != 0 ||
                        given.text.find(':') != string_view::npos);
    if (named) {
        take(to.name, given, row, asking);
    } else {
        AskedRow size = row;
        size.range = positive(row.key, "mm");
        take(to.mm, given, size, asking);
    }
}

TaperAnswer taper(const LatheAsk& asked, const Asking& asking) {
    Ends ends = ends_of(asked, asking);
    Asking in_its_unit = asking;
    in_its_unit.inch = ends.inch;
    const auto size = [&](double mm) { return size_text(mm, ends.inch); };
    if (ends.small_mm >= ends.large_mm) {
        throw DomainError(
            fmt::format("small must be below large, {}, got {}", size(ends.large_mm), size(ends.small_mm)));
    }
    TaperAnswer out;
    out.unit = unit_name(ends.inch);
    out.angle_deg = taper_angle_deg(ends.large_mm, ends.small_mm, ends.length_mm);
    out.taper_per_foot_in = kInchesPerFoot * (ends.large_mm - ends.small_mm) / ends.length_mm;
    LatheAsk turned = asked;
    turned.cut.diameter_mm = ends.large_mm;
    turned.cut.length_mm = ends.length_mm;
    const double whole = asked.taper.between_centres_mm;
    if (given(whole)) {
        if (whole < ends.length_mm) {
            throw DomainError(fmt::format("between_centres must be at least length, {}, got {}",
                                          size(ends.length_mm), size(whole)));
        }
        out.setover_mm = tailstock_setover_mm(ends.large_mm, ends.small_mm, ends.length_mm, whole);
        if (out.angle_deg > kMostSetoverDeg) {
            out.told.push_back({"setover_steep", 0.0, {}});
        }
        if (asked.cut.hold == Hold::between_centres && asked.sections.empty()) {
            from_tool(turned.cut.stick_out_mm, whole);
        }
    }
    out.cut = turn(turned, in_its_unit);
    const double rise = (ends.large_mm - ends.small_mm) / 2.0;
    const machine::Slide* const compound =
        asked.machine == nullptr ? nullptr : machine::find_slide(*asked.machine, "compound");
    if (!given(whole) && compound != nullptr &&
        std::sqrt(ends.length_mm * ends.length_mm + rise * rise) > compound->travel_mm) {
        out.told.push_back({"compound_short", 0.0, {{"travel", size(compound->travel_mm)}}});
    }
    out.evidence = std::move(ends.evidence);
    return out;
}

GrooveAnswer groove(const LatheAsk& asked, const Asking& asking) {
    GrooveAnswer out;
    out.unit = unit_name(asking.inch);
    out.cut = part_off(asked, asking);
    out.cut.operation = "groove";
    std::erase_if(out.cut.told,
                  [](const Told& each) { return each.code == "part_centre" || each.code == "piece_falls"; });
    const double blade = out.cut.cut.depth_mm;
    const double width = given(asked.groove.width_mm) ? asked.groove.width_mm : blade;
    if (width < blade * (1.0 - kAsSaid)) {
        throw DomainError(fmt::format("width must be at least the blade's, {}, got {}",
                                      size_text(blade, asking.inch), size_text(width, asking.inch)));
    }
    out.plunges = bounds::whole(std::ceil(width / blade - kAsSaid), 1);
    out.step_mm = out.plunges == 1 ? 0.0 : (width - blade) / (out.plunges - 1);
    out.plunges_said = out.plunges == 1 ? "one plunge"
                                        : fmt::format("{} plunges, {} apart", out.plunges,
                                                      size_text(out.step_mm, asking.inch));
    out.time_s = out.plunges * out.cut.cut.time_s;
    return out;
}

constinit const std::array<Question, 2> kShapeQuestions{
    cut_question<LatheAsk, TaperAnswer, &taper>(
        "taper", "Turn a taper: the setting of compound or tailstock, and the cut at the large end.",
        kTaperAsked, kTaperRecord,
        "taper 1018 1in 0.84375in 3in --machine gap-bed --between-centres 8in\n"
        "taper 1018 \"morse 2\" --machine gap-bed"),
    cut_question<LatheAsk, GrooveAnswer, &groove>(
        "groove", "Cut a groove with a blade, in as many plunges as its width takes.", kGrooveAsked,
        kGrooveRecord, "groove 6061-T6 1.25in 1in --width 0.3in --blade 0.125in"),
};

}  // namespace halfnut::cutting
