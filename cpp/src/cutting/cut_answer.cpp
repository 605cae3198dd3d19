#include "cut_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <limits>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/tables.hpp"
#include "halfnut/core/words.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/cutting/window.hpp"
#include "halfnut/machine/dial.hpp"
#include "halfnut/material/alloy.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

/// Names of tool materials that a person may say, beside those of the table.
constexpr std::array kOtherNames{
    std::pair{string_view("high speed steel"), string_view("hss")},
    std::pair{string_view("hss cobalt"), string_view("hss_cobalt")},
    std::pair{string_view("cobalt"), string_view("hss_cobalt")},
    std::pair{string_view("carbide coated"), string_view("carbide_coated")},
};

/// A name without its capitals, dashes and doubled blanks.
std::string plain(string_view name) {
    std::string out;
    for (const char letter : name) {
        const bool gap =
            letter == '_' || letter == '-' || std::isspace(static_cast<unsigned char>(letter)) != 0;
        if (!gap) {
            out += static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
        } else if (!out.empty() && out.back() != ' ') {
            out += ' ';
        }
    }
    while (out.ends_with(' ')) {
        out.pop_back();
    }
    return out;
}

string_view usual_id(string_view wanted) {
    for (const auto& [name, id] : kOtherNames) {
        if (name == wanted) {
            return id;
        }
    }
    return wanted;
}

constexpr double kShortLifeMin = 10.0;  // of an edge: a word on it; common practice
constexpr double kFineChipMm =
    0.05;  // aluminium milled finer than this is dust rather than chips; common practice

/// Cautions that go with work at the machine whatever its figures. Source: common practice.
std::vector<string_view> standing(const CutContext& context, const CutResult& result) {
    const string_view operation = context.operation;
    std::vector<string_view> codes = standing_cautions(operation, context.catalogue);
    if (context.hole && (context.machine == nullptr || context.machine->kind != machine::Kind::lathe)) {
        codes.emplace_back("clamp_work");
    }
    if (operation == "drill" && result.depth_mm < context.diameter_mm) {
        codes.emplace_back("breakthrough");
    }
    if (operation.starts_with("mill") && result.chip_thickness_mm < kFineChipMm &&
        in_group(context.catalogue, context.alloy, "aluminium")) {
        codes.emplace_back("aluminium_fines");
    }
    return codes;
}

/// Words of a cell that holds several, one after another.
template <class Each>
void each_word(string_view words, const Each& each) {
    while (!words.empty()) {
        const std::size_t gap = words.find(' ');
        if (gap != 0) {
            each(words.substr(0, gap));
        }
        words.remove_prefix(gap == string_view::npos ? words.size() : gap + 1);
    }
}

/// A machine's or the work's own limit that a caution shows: the less it is, the graver.
double bound_shown(string_view code, const CutResult& result) {
    const LimitCode limit = code == "work_whips"    ? LimitCode::work_whirl
                            : code == "bar_whips"   ? LimitCode::bar_whirl
                            : code == "over_travel" ? LimitCode::travel
                                                    : LimitCode::none;
    for (std::size_t i = 0; limit != LimitCode::none && i < result.limit_count; ++i) {
        if (result.limits[i].code == limit) {
            return result.limits[i].limit;
        }
    }
    return 0.0;
}

/// Whether carbide bears a speed that high-speed steel does not: at least twice its speed in metals, as a
/// training manual of the US Navy has it (NAVEDTRA 14345, p. 93); not where heat or fire sets the speed.
bool carbide_bears(const CutContext& context, const CutResult& result) {
    constexpr double kCarbideLeast = 2.0;
    const ToolMaterial tool = context.tool.row->tool_material;
    return (tool == ToolMaterial::hss || tool == ToolMaterial::hss_cobalt) &&
           result.cutting_speed_m_min <= kCarbideLeast * result.window_high_m_min &&
           !in_group(context.catalogue, context.alloy, "plastic", true) &&
           fire_limit(context.catalogue, context.alloy) == nullptr;
}

/// Whether a speed below the window tears the surface or hardens it; drills, reamers and taps may.
bool slow_harms(const CutContext& context) {
    constexpr std::array kCuts{string_view("turn"), string_view("face"), string_view("bore")};
    const bool cuts = context.operation.starts_with("mill") ||
                      std::find(kCuts.begin(), kCuts.end(), context.operation) != kCuts.end();
    return cuts && (material::has_word(context.alloy.traits, "built_up_edge") ||
                    material::has_word(context.alloy.traits, "work_hardening"));
}

/// What a caution's text shows of a cut beside its figures: the tool, and limits as a person reads them.
std::vector<std::pair<std::string, std::string>> words_of(string_view code, const CutContext& context,
                                                          const CutResult& result) {
    std::vector<std::pair<std::string, std::string>> out;
    const CautionRow* const row = find_caution(code, context.catalogue);
    const auto shows = [&](string_view name) {
        return row != nullptr && row->text.find(fmt::format("{{{}}}", name)) != string_view::npos;
    };
    if (shows("tool")) {
        out.emplace_back("tool", context.tool.row->name);
    }
    for (std::size_t i = 0; i < result.limit_count; ++i) {
        const Limit& limit = result.limits[i];
        const string_view name = enum_name(limit.code);
        if (std::isfinite(limit.value) && std::isfinite(limit.limit) && shows(name)) {
            out.emplace_back(name, name.ends_with("_whirl") ? fmt::format("{:.0f}", limit.limit)
                                                            : size_text(limit.limit, context.inch));
        }
    }
    return out;
}

/// Whether the limits that follow the force hold at its upper edge; nothing without one.
std::optional<bool> holds_at_edge(const std::vector<LimitLeft>& limits) {
    std::optional<bool> out;
    for (const LimitLeft& limit : limits) {
        if (follows_force(limit.name) && !std::isnan(limit.slack)) {
            out = out.value_or(true) && limit.slack >= 0.0;
        }
    }
    return out;
}

std::vector<Told> told_of(const CutContext& context, const CutResult& result) {
    std::vector<Told> out;
    const auto tell = [&](std::string code) {
        const bool said =
            std::any_of(out.begin(), out.end(), [&](const Told& each) { return each.code == code; });
        if (!said) {
            const double bound = bound_shown(code, result);
            auto words = words_of(code, context, result);
            out.push_back({std::move(code), bound > 0.0 ? -bound : 0.0, std::move(words)});
        }
    };
    for (const string_view code : standing(context, result)) {
        tell(std::string(code));
    }
    for (const std::string& code : context.extra) {
        tell(code);
    }
    for (const auto& [code, name] : enum_names(CautionCode{})) {
        if (result.has(code)) {
            const bool asked =
                code == CautionCode::above_window && result.spindle_fit == machine::SpindleFit::given;
            tell(asked                                                            ? "asked_too_fast"
                 : code == CautionCode::speed_below_window && slow_harms(context) ? "slow_harms"
                                                                                  : std::string(name));
            if (code == CautionCode::above_window && carbide_bears(context, result)) {
                tell("carbide_bears");
            }
        }
    }
    const auto rests_on = [&](RuleId rule) {
        const auto items = result.evidence.items();
        return std::any_of(items.begin(), items.end(),
                           [&](const EvidenceItem& item) { return item.rule == rule; });
    };
    for (const EvidenceItem& item : result.evidence.items()) {
        for (std::size_t i = 0; item.rule == rule::overhang && i < result.limit_count; ++i) {
            const Limit& limit = result.limits[i];
            if (limit.code == LimitCode::overhang && limit.value <= limit.limit &&
                limit.value > context.catalogue.overhangs[item.row.row].from_ratio) {
                tell("overhang_near");
            }
        }
    }
    if (rests_on(rule::window_life)) {
        tell("life_holds");
    }
    if (result.tool_life_min < kShortLifeMin) {
        tell("short_life");
    }
    if (result.band.low > 0.0) {
        const bool plastic = in_group(context.catalogue, context.alloy, "plastic", true);
        const bool slow =
            result.cutting_speed_m_min < (result.window_low_m_min + result.window_high_m_min) / 2.0;
        each_word(context.alloy.traits, [&](string_view word) {
            const std::string code = fmt::format("trait_{}", word);
            const bool applies =
                !(plastic && word == "low_conductivity") && (slow || word != "built_up_edge");
            if (applies &&
                find_caution(code, context.catalogue) != nullptr) {  // an edge builds up at low speed
                tell(code);
            }
        });
        if (plastic) {
            tell("plastic_melts");
        }
    }
    tell_hazards(context.alloy, out);
    return out;
}

std::vector<std::pair<std::string, std::string>> positions_of(
    const std::vector<machine::Position>& positions) {
    std::vector<std::pair<std::string, std::string>> out;
    out.reserve(positions.size());
    for (const machine::Position& position : positions) {
        out.emplace_back(position.control, position.setting);
    }
    return out;
}

/// The slide whose dial sets the depth of a cut; null where the machine has none.
const machine::Slide* depth_slide(const machine::Machine& machine, string_view operation) noexcept {
    const auto either = [&](string_view first, string_view second) {
        const machine::Slide* const found = find_slide(machine, first);
        return found == nullptr ? find_slide(machine, second) : found;
    };
    if (operation == "turn" || operation == "bore") {
        return find_slide(machine, "cross");
    }
    if (operation == "face") {
        return either("compound", "carriage");
    }
    if (operation == "drill" || operation == "ream" || operation == "counterbore") {
        return either("tailstock", "quill");
    }
    return operation.starts_with("mill") ? either("z", "quill") : nullptr;
}

/// The feed to set, or turns of a handle.
std::optional<std::string> feed_said(const CutResult& result, const CutAnswer& answer) {
    const bool by_hand = result.feed_source == FeedSource::hand;
    const UnitSystem system = answer.unit == "in" ? UnitSystem::inch : UnitSystem::metric;
    std::optional<std::string> feed;
    if (std::isnan(result.feed_per_tooth_mm) && !std::isnan(result.feed_mm_rev)) {
        feed = spell(result.feed_mm_rev, FigureKind::feed, system);
    } else if (!std::isnan(result.feed_mm_min)) {
        feed = spell(result.feed_mm_min, FigureKind::feed_rate, system);
    }
    if (by_hand && !std::isnan(result.hand_turns_per_min)) {
        // beside power feeds that are all too coarse, how fine it is to be
        const std::string fine =
            feed && result.has(CautionCode::below_smallest_feed) ? fmt::format(" ({})", *feed) : "";
        return fmt::format("by hand, {:.2g} turns of the handle a minute{}", result.hand_turns_per_min, fine);
    }
    return feed ? fmt::format("{}{}", by_hand ? "" : "feed ", *feed) + (by_hand ? " by hand" : "") : feed;
}

/// What the answer rests on: the tool's row, the result's own, the heat's rules.
std::vector<EvidenceText> evidence_of(const CutContext& context, const CutResult& result,
                                      const CutHeat& heat) {
    std::vector<EvidenceText> out;
    const auto add = [&](const EvidenceItem& item, std::span<const string_view> names) {
        out.push_back(evidence_text(item, names, context.catalogue));
    };
    const auto of_rule = [&](string_view figure, RuleId rule, RowRef row = {}) {
        add({0, rule, row}, std::array{figure});
    };
    if (context.tool.tells) {
        of_rule("tool", rule::tool_row, row_ref(context.catalogue.tools, *context.tool.row));
    }
    for (const EvidenceItem& item : result.evidence.items()) {
        add(item, kCutFigureNames);
    }
    if (!std::isnan(heat.chip_rise_k)) {
        of_rule("chip_rise_k", rule::heat_chip);
        of_rule("heat_to_work_w", rule::heat_to_work);
    }
    return out;
}

}  // namespace

std::vector<Given> sizes_of(const Given& sizes) {
    if (sizes.tag == Given::Tag::list) {
        return {sizes.items.begin(), sizes.items.end()};
    }
    std::vector<Given> out;
    string_view rest = sizes.tag == Given::Tag::text ? sizes.text : string_view{};
    while (!rest.empty()) {
        const std::size_t comma = rest.find(',');
        out.push_back({.tag = Given::Tag::text, .text = rest.substr(0, comma)});
        rest = comma == string_view::npos ? string_view{} : rest.substr(comma + 1);
    }
    return out;
}

LimitLeft limit_left(const Limit& limit) {
    return {std::string(enum_name(limit.code)), limit.value, limit.limit, limit.slack()};
}

std::vector<std::string> tool_names(const Catalogue& catalogue) {
    std::vector<std::string> out;
    for (const ToolRow& each : catalogue.tools) {
        out.emplace_back(each.name);
    }
    return out;
}

Tool find_tool(const Catalogue& catalogue, string_view name) {
    const std::string wanted = name.empty() ? "hss" : plain(name);
    for (const RefusedRow& row : catalogue.refused) {
        const auto meant = [&](const std::string& each) { return plain(each) == wanted; };
        if (row.table == Schema<ToolRow>::table && std::any_of(row.names.begin(), row.names.end(), meant)) {
            throw TableError(refusal(row));
        }
    }
    const auto find = [&](const auto& is) {
        const auto at = std::find_if(catalogue.tools.begin(), catalogue.tools.end(), is);
        return at == catalogue.tools.end() ? nullptr : &*at;
    };
    const ToolRow* row =
        find([&](const ToolRow& each) { return plain(each.id) == wanted || plain(each.name) == wanted; });
    if (row == nullptr) {
        row = find([&](const ToolRow& each) { return each.id == usual_id(wanted); });
    }
    if (row == nullptr) {
        const std::vector<std::string> names = tool_names(catalogue);
        const std::vector<string_view> views(names.begin(), names.end());
        refuse_choice("tool", views, name);
    }
    const std::array form{row->diameter_mm,    row->teeth,           row->width_mm,
                          row->nose_radius_mm, row->entering_deg,    row->rake_deg,
                          row->point_deg,      row->bar_diameter_mm, row->stick_out_mm};
    const bool shops = catalogue.sources[row->source.index].kind == SourceKind::shop;
    return {row, !name.empty(),
            shops || std::any_of(form.begin(), form.end(), [](double x) { return !std::isnan(x); })};
}

CutContext::CutContext(const Catalogue& tables, string_view what, const material::AlloyRow& of, Tool with)
    : catalogue(tables), operation(what), alloy(of), tool(with) {
    if (!tool.named) {
        assumed.push_back(fmt::format("{} tool", tool.row->name));
    }
}

std::string skin_code(Skin skin) {
    std::string out = fmt::format("skin_{}", enum_name(skin));
    std::replace(out.begin(), out.end(), ' ', '_');
    return out;
}

bool asks(std::span<const AskedRow> rows, string_view key) noexcept {
    return std::any_of(rows.begin(), rows.end(), [&](const AskedRow& row) { return row.key == key; });
}

int holder_place(const machine::Machine* machine, const Holder& asked, Hold hold,
                 std::vector<std::string>& assumed) {
    if (machine == nullptr || machine->chucks.empty() || hold == Hold::between_centres) {
        return -1;
    }
    const auto count = static_cast<int>(machine->chucks.size());
    if (asked.name.empty() && asked.place < 0) {
        assumed.push_back(machine->chucks.front().name);
        return 0;
    }
    if (asked.name.empty() && asked.place < count) {
        return asked.place;
    }
    std::vector<string_view> names;
    for (const machine::Chuck& chuck : machine->chucks) {
        if (!asked.name.empty() && chuck.name == asked.name) {
            return static_cast<int>(names.size());
        }
        names.push_back(chuck.name);
    }
    refuse_choice("chuck", names, asked.name.empty() ? fmt::format("{}", asked.place) : asked.name);
}

void tell_hazards(const material::AlloyRow& alloy, std::vector<Told>& told) {
    each_word(alloy.hazards,
              [&](string_view word) { told.push_back({fmt::format("hazard_{}", word), 0.0, {}}); });
}

bool in_group(const Catalogue& catalogue, const material::AlloyRow& alloy, string_view name, bool begins) {
    constexpr int kDeepest = 16;  // a shop's table may hold a circle of groups
    const material::GroupRow* row = material::find_group(catalogue, alloy.group);
    for (int depth = 0; row != nullptr && depth < kDeepest; ++depth) {
        if (begins ? row->name.starts_with(name) : row->name == name) {
            return true;
        }
        row = material::find_group(catalogue, row->parent);
    }
    return false;
}

void take(Stock& to, const Given& given, const AskedRow& row, Asking& asking) {
    Given size = given;
    double* member = &to.diameter_mm;
    if (given.tag == Given::Tag::text) {
        const std::string lower = plain(given.text);
        for (const string_view hexagon : {"hexagon", "hex"}) {
            if (lower.ends_with(hexagon)) {
                member = &to.flats_mm;
                size.text = given.text.substr(0, given.text.find_last_not_of(" \t"));
                size.text = given.text.substr(0, size.text.size() + 1 - hexagon.size());
                break;
            }
        }
    }
    take(*member, size, row, asking);
}

void take(Holder& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag == Given::Tag::number) {
        take(to.place, given, row, asking);
        if (to.place < 0) {
            throw DomainError(
                fmt::format("{} must be a name or a place from 0 on, got {}", row.name, given.shown()));
        }
    } else {
        take(to.name, given, row, asking);
    }
}

void take(std::vector<WorkSection>& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag != Given::Tag::list) {
        throw DomainError(fmt::format("{} must be a sequence, got {}", row.name, given.shown()));
    }
    for (const Given& each : given.items) {
        const std::vector<Given> sizes = sizes_of(each);
        if (sizes.size() < 2 || sizes.size() > 3) {
            throw DomainError(
                fmt::format("{} must each be a length and a diameter, or these and a bore, got {}", row.name,
                            each.shown()));
        }
        WorkSection section;
        take(section.length_mm, sizes[0], row, asking);
        take(section.diameter_mm, sizes[1], row, asking);
        if (sizes.size() == 3) {
            take(section.bore_mm, sizes[2], row, asking);
        }
        to.push_back(section);
    }
}

TurnedBeam turned_beam(const std::vector<WorkSection>& sections, const std::vector<double>& steadies_mm,
                       const material::AlloyRow& alloy, const CutOnSteps& cut) {
    if (std::isnan(alloy.youngs_modulus_gpa)) {
        throw NotTabulatedError(material::lacks_modulus(alloy, "deflection of stepped or steadied work"));
    }
    double whole = 0.0;
    for (const WorkSection& section : sections) {
        whole += section.length_mm;
    }
    const double end = whole - cut.at_mm;
    const double from = std::isnan(cut.length_mm) ? 0.0 : end - cut.length_mm;
    if (!(from > -1e-9 * whole) || !(end > 0.0)) {
        throw DomainError(
            fmt::format("sections must be at least as long as the cut and what is before it, "
                        "{:g} mm, got {:g} mm",
                        cut.at_mm + (std::isnan(cut.length_mm) ? 0.0 : cut.length_mm), whole));
    }
    return {{.sections = sections,
             .hold = cut.hold,
             .steadies_mm = steadies_mm,
             .youngs_modulus_gpa = alloy.youngs_modulus_gpa},
            std::max(from, 0.0),
            end,
            cut.finished_mm};
}

const machine::FeedLadder& ladder_of(const machine::Machine& machine, Feeds feeds) noexcept {
    return feeds == Feeds::carriage ? machine.carriage
           : feeds == Feeds::quill  ? machine.quill
                                    : machine.table;
}

CutAnswer answer_of(const CutContext& context, const CutResult& result) {
    CutAnswer out;
    out.cut = result;
    out.operation = context.operation;
    out.alloy = context.alloy.id;
    out.tool_material = enum_name(context.tool.row->tool_material);
    out.tool_name = context.tool.row->name;
    out.unit = unit_name(context.inch);
    out.diameter_mm = context.diameter_mm;
    out.heat = heat_of(context.alloy, result);
    const double low = result.band.low;
    const double high = result.band.high * result.ordinary_wear;
    out.torque_low_nm = result.torque_nm * low;
    out.torque_high_nm = result.torque_nm * high;
    out.deflection_low_mm = result.deflection_mm * low;
    out.deflection_high_mm = result.deflection_mm * high;
    if (context.operation.starts_with("mill") && !std::isnan(result.width_mm)) {
        out.chip_thinning =
            chip_thinning_factor(std::min(result.width_mm, context.diameter_mm), context.diameter_mm);
    }
    if (context.operation == "drill" && result.passes > 1 && !std::isnan(result.depth_mm)) {
        const Pecks pecks = pecks_of(context.alloy, context.diameter_mm, result.depth_mm);
        for (int i = 0; i + 1 < pecks.count; ++i) {
            out.peck_depths_mm.push_back(pecks.first_mm + i * pecks.each_mm);
        }
        out.peck_depths_mm.push_back(result.depth_mm);
    }
    if (!std::isnan(low)) {
        out.force_verified = result.band.verified;
    }
    if (context.machine != nullptr) {
        const machine::Machine& machine = *context.machine;
        out.machine_name = machine.name;
        out.machine_unit = unit_name(machine.inch);
        out.spindle_step = static_cast<int>(result.spindle_step);
        out.spindle_positions = positions_of(machine.spindle[result.spindle_step].positions);
        const machine::Slide* const slide = depth_slide(machine, context.operation);
        if (slide != nullptr && std::isfinite(result.depth_mm)) {
            const machine::DialReading reading = machine::dial_reading(*slide, result.depth_mm);
            out.dial_slide = slide->name;
            out.dial_turns = reading.turns;
            out.dial_line = reading.line;
        }
    }
    out.feeds = context.feeds;
    if (context.machine != nullptr && result.feed_source == FeedSource::step) {
        const machine::FeedStep& step = ladder_of(*context.machine, out.feeds).steps[result.feed_step];
        out.feed_step = static_cast<int>(result.feed_step);
        out.feed_positions = positions_of(step.positions);
        out.feed_marked = step.marked;
    }
    out.feed_said = feed_said(result, out);
    for (std::size_t i = 0; i < result.limit_count; ++i) {
        const Limit& limit = result.limits[i];
        if (std::isfinite(limit.value)) {
            out.limits.push_back(limit_left(limit));
        }
    }
    out.holds_at_edge = holds_at_edge(out.limits);
    if (!result.fluid.empty()) {
        out.fluid = result.fluid;
    }
    out.lacking = material::lacking(context.alloy);
    out.assumed = context.assumed;
    out.told = told_of(context, result);
    out.evidence = evidence_of(context, result, out.heat);
    return out;
}

}  // namespace halfnut::cutting
