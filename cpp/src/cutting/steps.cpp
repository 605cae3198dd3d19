#include "steps.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/cutting/force.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {
namespace {

machine::Machine make_any_machine() {
    machine::Machine any;
    any.name = "any machine";
    machine::SpindleStep step;
    step.rpm_low = 1.0;
    step.rpm = 1e6;
    any.spindle.push_back(step);
    return any;
}

}  // namespace

const machine::Machine& any_machine() noexcept {
    static const machine::Machine any = make_any_machine();
    return any;
}

void throw_request(Status status, const Argument& argument, double value, std::string_view must) {
    if (status.code == StatusCode::inconsistent) {
        throw DomainError(fmt::format("{} must {}, got {:.6g}{}{}", argument.name, must, value,
                                      argument.unit.empty() ? "" : " ", argument.unit));
    }
    throw DomainError(argument_message(argument, value));
}

std::string no_modulus_text(std::string_view argument) {
    return fmt::format(
        "{} needs the alloy's youngs_modulus_gpa, which its row does not give: add it, or like = an alloy "
        "that has "
        "it",
        argument);
}

void throw_request(Status status, std::string_view operation) {
    // The only name among what a request holds is its alloy's.
    const std::string text =
        status.code == StatusCode::unknown_name
            ? fmt::format("{}: alloy must be a row of the catalogue's alloys, got none of them", operation)
            : fmt::format("{}: {}", operation, status_sentence(status.code));
    if (status.code == StatusCode::not_tabulated || status.code == StatusCode::unknown_name ||
        status.code == StatusCode::no_machine_step) {
        throw NotTabulatedError(text);
    }
    throw DomainError(text);
}

Status check_setting(const Catalogue& catalogue, const machine::Machine& machine, const Work& work) noexcept {
    if (work.alloy >= catalogue.alloys.size()) {
        return {StatusCode::unknown_name, kNoArgument};
    }
    if (!std::isnan(work.hardness_hb)) {
        if (const StatusCode code = check(kHardness, work.hardness_hb); code != StatusCode::ok) {
            return {code, kHardnessArgument};
        }
    }
    return machine.spindle.empty() ? Status{StatusCode::no_machine_step, kNoArgument} : Status{};
}

void note_window(const SpeedWindow& window, CutResult& out) noexcept {
    out.window_low_m_min = window.low_m_min;
    out.window_high_m_min = window.high_m_min;
    const std::uint8_t high = figure("window_high_m_min");
    out.evidence.note(high, rule::window_row, window.row);
    if (window.single_value) {
        out.evidence.note(figure("window_low_m_min"), rule::window_single);
    }
    if (window.hardness_shifted) {
        out.evidence.note(high, rule::window_hardness);
    }
    if (window.as_finishing) {
        out.evidence.note(high, rule::window_printed_feed);
    }
    if (window.other_operation) {
        out.evidence.note(high, rule::window_other_operation, window.operation_row);
        out.caution(CautionCode::window_stand_in);
    }
    if (window.other_tool) {
        out.evidence.note(high, rule::window_other_tool, window.tool_row);
        out.caution(CautionCode::window_stand_in);
    }
    if (!window.held_row.empty()) {
        out.evidence.note(high, rule::window_held, window.held_row);
    }
    if (!window.held_tool_row.empty()) {
        out.evidence.note(high, rule::window_held, window.held_tool_row);
    }
    if (window.weak) {
        out.evidence.note(high, rule::window_low_end);
        out.caution(CautionCode::window_doubtful);
    }
    if (window.held_by_life) {
        out.evidence.note(high, rule::window_life, window.life_row);
    }
    if (window.held_by_fire) {
        out.evidence.note(high, rule::fire_limit, window.fire_row);
    }
    if (!window.skin_row.empty()) {
        out.evidence.note(high, rule::window_skin, window.skin_row);
    }
    if (window.kinship >= kFarKinship) {
        out.caution(CautionCode::window_far);
    }
}

Status choose_speed(const machine::Machine& machine, double diameter_mm, double asked_rpm, int chuck,
                    const SpeedBounds& bounds, CutResult& out) noexcept {
    constexpr double kSame = 1.0 + 1e-9;
    const double window_low = SpindleSpeed::compute(out.window_low_m_min, diameter_mm);
    const double window_high = SpindleSpeed::compute(out.window_high_m_min, diameter_mm);
    double limit = window_high;
    double chuck_limit = std::numeric_limits<double>::infinity();
    if (chuck >= 0 && static_cast<std::size_t>(chuck) < machine.chucks.size()) {
        const machine::Chuck& held = machine.chucks[static_cast<std::size_t>(chuck)];
        chuck_limit = machine::chuck_rpm_limit(held);
        if (std::isnan(held.rpm_limit)) {
            out.caution(CautionCode::chuck_unmarked);
            out.evidence.note(figure("spindle_rpm"), rule::chuck_cautious);
        }
        limit = std::min(limit, chuck_limit);
    }
    double reversal = std::numeric_limits<double>::infinity();
    if (!std::isnan(bounds.pitch_mm)) {
        reversal = std::min(kThreadRpm, kThreadTravelMmMin / bounds.pitch_mm);
        out.evidence.note(figure("spindle_rpm"), rule::thread_reversal);
        limit = std::min(limit, reversal);
    }
    if (!std::isnan(bounds.hand_rpm)) {
        out.evidence.note(figure("spindle_rpm"), rule::hand_speed);
        limit = std::min(limit, bounds.hand_rpm);
    }
    const bool slowly = bounds.taps && std::isnan(asked_rpm) && !is_any(machine);
    if (slowly) {
        double slowest = std::numeric_limits<double>::infinity();
        for (const machine::SpindleStep& step : machine.spindle) {
            slowest = std::min(slowest, step.variable() ? step.rpm_low : step.rpm);
        }
        limit = std::min(limit, slowest);
        out.evidence.note(figure("spindle_rpm"), rule::tap_slowest);
        out.caution(CautionCode::tap_by_hand);
    }
    const double burning = bounds.fire == nullptr
                               ? std::numeric_limits<double>::infinity()
                               : SpindleSpeed::compute(bounds.fire->speed_never_m_min, diameter_mm);
    machine::SpindleChoice choice;
    if (std::isnan(asked_rpm)) {
        choice = machine::choose_spindle(machine, window_low, limit);
        out.evidence.note(figure("spindle_rpm"), rule::spindle_step);
    } else {
        choice = machine::nearest_spindle(machine, asked_rpm);
        out.evidence.note(figure("spindle_rpm"), rule::spindle_asked);
        if (choice.rpm > burning * kSame) {
            choice = machine::choose_spindle(machine, window_low, burning);
            out.caution(CautionCode::fire_speed);
        }
    }
    const double whirl = std::fmin(bounds.work_rpm, bounds.bar_rpm);  // of the two, the one that is known
    const bool of_bar = whirl == bounds.bar_rpm;
    const bool whips = choice.rpm > whirl * kSame;
    if (whips) {
        choice = machine::choose_spindle(machine, window_low, whirl);
        if (choice.rpm > whirl * kSame) {
            out.refusal = {of_bar ? machine::Obstacle::bar_whips : machine::Obstacle::work_whips, choice.rpm,
                           whirl};
            return no_room(out.refusal.what);
        }
        out.caution(of_bar ? CautionCode::bar_whips : CautionCode::work_whips);
        out.limit(of_bar ? LimitCode::bar_whirl : LimitCode::work_whirl, choice.rpm, whirl);
        out.evidence.note(figure("spindle_rpm"), of_bar ? rule::whirl_bar : rule::whirl_work);
    }
    if (!std::isnan(asked_rpm) && choice.rpm != asked_rpm) {
        out.caution(CautionCode::asked_speed_moved);
    }
    if (choice.rpm > burning * kSame) {
        return {StatusCode::fire, kNoArgument};
    }
    out.spindle_step = choice.step;
    out.spindle_rpm = choice.rpm;
    out.spindle_fit = choice.fit;
    out.cutting_speed_m_min = CuttingSpeed::compute(choice.rpm, diameter_mm);
    out.evidence.note(figure("cutting_speed_m_min"), rule::cutting_speed);
    if (choice.rpm > window_high * kSame) {
        out.caution(CautionCode::above_window);
    }
    if (choice.rpm > chuck_limit * kSame) {
        out.caution(CautionCode::above_chuck_limit);
    }
    const double by_hands = std::fmin(reversal, bounds.hand_rpm);
    if (!whips && !slowly && !(by_hands < window_low) && choice.rpm * kSame < window_low) {
        out.caution(CautionCode::speed_below_window);
    }
    out.limit(LimitCode::speed_window, out.cutting_speed_m_min, out.window_high_m_min);
    if (std::isfinite(chuck_limit)) {
        out.limit(LimitCode::chuck_speed, choice.rpm, chuck_limit);
    }
    if (std::isfinite(reversal)) {
        out.limit(LimitCode::reversal, choice.rpm, reversal);
    }
    if (!std::isnan(bounds.hand_rpm)) {
        out.limit(LimitCode::hand_speed, choice.rpm, bounds.hand_rpm);
    }
    if (whips) {
        out.limited_by = of_bar ? LimitCode::bar_whirl : LimitCode::work_whirl;
    } else if (choice.fit == machine::SpindleFit::given) {
        out.limited_by = LimitCode::asked;
    } else if (choice.fit == machine::SpindleFit::above_window) {
        out.limited_by = LimitCode::machine_slowest;
    } else if (slowly) {
        out.limited_by = LimitCode::reversal;
    } else if (choice.step + 1 == machine.spindle.size() && choice.rpm >= machine.spindle.back().rpm &&
               machine.spindle.back().rpm * kSame < limit) {
        out.limited_by = LimitCode::machine_top_speed;
    } else {
        out.limited_by = reversal <= limit          ? LimitCode::reversal
                         : chuck_limit <= limit     ? LimitCode::chuck_speed
                         : bounds.hand_rpm <= limit ? LimitCode::hand_speed
                                                    : LimitCode::speed_window;
    }
    return {};
}

void set_band(CutResult& out) noexcept {
    out.cutting_force_low_n = out.cutting_force_n * out.band.low;
    const double upper = out.band.high * out.ordinary_wear;
    out.cutting_force_high_n = out.cutting_force_n * upper;
    if (std::isnan(out.cutting_force_n)) {
        out.feed_force_low_n = out.feed_force_n * out.band.low;
        out.feed_force_high_n = out.feed_force_n * upper;
    }
    out.spindle_power_low_kw = out.spindle_power_kw * out.band.low;
    out.spindle_power_high_kw = out.spindle_power_kw * upper;
}

void note_band(std::string_view name, CutResult& out) noexcept {
    out.evidence.note(figure(name), rule_of(out.band), out.band.row);
}

void note_constants(std::uint8_t at, const ForceConstants& constants, CutResult& out) noexcept {
    out.evidence.note(at, constants.rule, constants.row);
    if (!constants.scale.empty()) {
        out.evidence.note(at, rule::kc_scale, constants.scale);
    }
    if (constants.shifted) {
        out.evidence.note(at, rule::kc_hardness);
    }
}

void note_finish_band(const Catalogue& catalogue, const FinishBandRow* band, CutResult& out) noexcept {
    if (band != nullptr && !std::isnan(out.roughness_ra_um)) {
        out.roughness_low_um = out.roughness_ra_um * band->low;
        out.roughness_high_um = out.roughness_ra_um * (band->high * band->worn);
        out.evidence.note(figure("roughness_high_um"), rule::finish_band,
                          row_ref(catalogue.finish_bands, *band));
    }
}

void note_fluid(const Catalogue& catalogue, const material::AlloyRow& alloy, Operation operation,
                CutResult& out) noexcept {
    const material::CuttingFluidRow* const row = material::cutting_fluids(catalogue, alloy);
    if (row == nullptr) {
        return;
    }
    switch (operation) {
        case Operation::tap:
        case Operation::thread:
            out.fluid = row->tapping;
            break;
        case Operation::ream:
            out.fluid = row->reaming;
            break;
        case Operation::drill:
        case Operation::spot:
        case Operation::countersink:
        case Operation::counterbore:
            out.fluid = row->drilling;
            break;
        case Operation::end_mill:
        case Operation::face_mill:
            out.fluid = row->milling;
            break;
        default:
            out.fluid = row->turning;
    }
}

void note_overhang(const Catalogue& catalogue, Overhung what, double ratio, CautionCode caution,
                   CutResult& out) noexcept {
    if (std::isnan(ratio)) {
        return;
    }
    const OverhangRow& row = overhang_of(catalogue, what);
    out.limit(LimitCode::overhang, ratio, row.most_ratio);
    out.evidence.note(figure("depth_mm"), rule::overhang, row_ref(catalogue.overhangs, row));
    if (ratio > row.most_ratio) {
        out.caution(caution);
    }
}

bool power_holds(const machine::Machine& machine, const CutResult& out) noexcept {
    const double available = machine::spindle_power_kw(machine, out.spindle_step, out.spindle_rpm);
    return !(at_edge(out.spindle_power_kw, out) > available) &&
           !(at_edge(out.torque_nm, out) > machine.torque_limit_nm);
}

void note_power(const machine::Machine& machine, CutResult& out) noexcept {
    const double available = machine::spindle_power_kw(machine, out.spindle_step, out.spindle_rpm);
    if (!is_any(machine)) {
        out.motor_power_kw =
            MotorPower::compute(out.spindle_power_kw, machine::efficiency_at(machine, out.spindle_step));
        out.evidence.note(figure("motor_power_kw"), rule::motor_power);
        if (std::isnan(machine.efficiency)) {
            out.evidence.note(figure("motor_power_kw"), rule::efficiency_typical);
        }
    }
    if (!std::isnan(available)) {
        out.available_power_kw = available;
        out.limit(LimitCode::power, at_edge(out.spindle_power_kw, out), available);
        if (at_edge(out.spindle_power_kw, out) > available) {
            out.caution(CautionCode::power_exceeded);
        }
    }
    if (!std::isnan(machine.torque_limit_nm)) {
        out.limit(LimitCode::torque, at_edge(out.torque_nm, out), machine.torque_limit_nm);
        if (at_edge(out.torque_nm, out) > machine.torque_limit_nm) {
            out.caution(CautionCode::torque_exceeded);
        }
    }
}

void note_travel(const machine::Machine& machine, std::string_view slide, double travel_mm,
                 CutResult& out) noexcept {
    if (std::isnan(out.feed_mm_min)) {
        out.feed_mm_min = FeedRate::compute(out.feed_mm_rev, out.spindle_rpm);
    }
    if (!std::isnan(travel_mm)) {
        out.travel_mm = travel_mm;
        out.time_s = FeedTime::compute(travel_mm, out.feed_mm_min);
        out.evidence.note(figure("time_s"), rule::time);
    }
    if (out.feed_source == FeedSource::hand) {
        out.caution(CautionCode::hand_feed);
        const machine::Slide* const at = machine::find_slide(machine, slide);
        if (at != nullptr) {
            out.hand_turns_per_min = out.feed_mm_min / at->travel_per_turn_mm;
            out.hand_turns = travel_mm / at->travel_per_turn_mm;
            out.limit(LimitCode::hand_feed, out.hand_turns_per_min,
                      machine::hand_turns_per_min(machine, slide));
        }
    }
}

double hand_feed_mm_min(const machine::Machine& machine, std::string_view slide) noexcept {
    const machine::Slide* const at = machine::find_slide(machine, slide);
    return at == nullptr ? kNaN : machine::hand_turns_per_min(machine, slide) * at->travel_per_turn_mm;
}

void note_binding(const machine::Machine& machine, CutResult& out) noexcept {
    const bool feed_binds =
        out.feed_limited_by == LimitCode::power || out.feed_limited_by == LimitCode::torque ||
        out.feed_limited_by == LimitCode::deflection || out.feed_limited_by == LimitCode::roughness ||
        out.feed_limited_by == LimitCode::hand_feed;
    if (feed_binds) {
        out.limited_by = out.feed_limited_by;
    }
    if (is_any(machine) && out.limited_by == LimitCode::machine_top_speed) {
        out.limited_by = LimitCode::speed_window;
    }
}

void clear(CutResult& out) noexcept {
    for (const CutFigure& at : kCutFigures) {
        out.*(at.member) = kNaN;
    }
}

Status finished(CutResult& out) noexcept {
    for (const CutFigure& at : kCutFigures) {
        if (std::isinf(out.*(at.member))) {
            clear(out);
            return {StatusCode::no_result, 0};
        }
    }
    if (!(out.spindle_rpm > 0.0) || std::isnan(out.cutting_speed_m_min)) {
        clear(out);
        return {StatusCode::no_result, 0};
    }
    return {};
}

}  // namespace halfnut::cutting
