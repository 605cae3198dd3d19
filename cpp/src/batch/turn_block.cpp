#include "turn_block.hpp"

#include <cmath>

#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/finish.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/elementary.hpp"

// Each pass is written once, as a function that is always inlined, and compiled once for each instruction
// set.
#define HALFNUT_INLINE inline __attribute__((always_inline))
#ifdef __clang__
#pragma clang diagnostic ignored "-Wpass-failed"  // a loop that it cannot widen is slower, not wrong
#define HALFNUT_ROWS _Pragma("clang loop vectorize(assume_safety)")
#else
#define HALFNUT_ROWS _Pragma("GCC ivdep")
#endif

namespace halfnut::batch {
namespace {

using namespace cutting;

constexpr double kSame = 1.0 + 1e-9;

constexpr std::uint64_t bit(CautionCode code) {
    return std::uint64_t{1} << static_cast<unsigned>(code);
}

constexpr std::size_t place(std::string_view name) {
    for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
        if (kCutFigures[i].name == name) {
            return i;
        }
    }
    return kCutFigures.size();
}

HALFNUT_INLINE double or_else(double value, double fallback) noexcept {
    return value == value ? value : fallback;
}

HALFNUT_INLINE double least(double a, double b) noexcept {
    return b < a ? b : a;
}

HALFNUT_INLINE void check_rows(const double* column, Bounds bounds, std::size_t rows,
                               std::uint64_t* special) noexcept {
    const double missing = bounds.required ? kNaN : bounds.low;  // what a number that is not given counts as
    const double zero = bounds.zero ? bounds.low : 0.0;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double given = or_else(column[i], missing);
        const double x = given == 0.0 ? zero : given;
        special[i] |= x >= bounds.low && x <= bounds.high ? std::uint64_t{0} : std::uint64_t{1};
    }
}

HALFNUT_INLINE void want_rows(const TurnShared& shared, TurnBlock& b) noexcept {
    const std::size_t rows = b.rows;
    const double chuck = shared.chuck_rpm;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double d = b.diameter[i];
        const double low = SpindleSpeed::compute(b.low_m_min[i], d);
        const double high = SpindleSpeed::compute(b.high_m_min[i], d);
        b.low_rpm[i] = low;
        b.high_rpm[i] = high;
        b.limit_rpm[i] = least(high, chuck);
    }
    if (!b.open_feeds) {
        for (std::size_t i = 0; i < rows; ++i) {
            b.wanted_feed[i] = b.feed[i];
            b.most_feed[i] = b.feed[i];
            b.flags[i] = 0;
        }
        return;
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {  // the most that nose and roughness bear
        const double nose = or_else(b.nose[i], kNoseRadiusMm);
        const double at_nose = nose > 0.0 ? kFeedOverNose * nose : elementary::kInfinity;
        const double wide = nose > 0.0 ? 32.0 * nose : elementary::kInfinity;
        b.wanted_feed[i] = at_nose;
        b.most_feed[i] = std::sqrt(wide * or_else(b.roughness_limit[i], elementary::kInfinity) / 1000.0);
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double asked = b.feed[i];
        const double usual = b.usual_feed[i];
        const double low = or_else(b.feed_low[i], usual);  // no guide: the usual feed itself
        const double high = or_else(b.feed_high[i], usual);
        const double nose_limit = b.wanted_feed[i];
        const double fine = b.most_feed[i];
        const double raised = usual < low ? low : usual;
        const double guide = least(raised, high);
        const double at_nose = least(guide, nose_limit);
        const double open = least(at_nose, fine);
        const double most = least(least(high, nose_limit), fine);
        b.wanted_feed[i] = or_else(asked, open);
        b.most_feed[i] = or_else(asked, most);
        const std::uint64_t given = asked == asked ? std::uint64_t{0} : std::uint64_t{8};
        const std::uint64_t rough = fine < at_nose ? std::uint64_t{4} : std::uint64_t{0};
        b.flags[i] = given | rough;
    }
}

struct InChuck {
    HALFNUT_INLINE double operator()(double force, double out, double e, double i) const noexcept {
        return CantileverDeflection::compute(force, out, e, i);
    }
};
struct BetweenCentres {
    HALFNUT_INLINE double operator()(double force, double out, double e, double i) const noexcept {
        return CentresDeflection::compute(force, out / 2.0, out, e, i);
    }
};
struct ChuckAndCentre {
    HALFNUT_INLINE double operator()(double force, double out, double e, double i) const noexcept {
        return chuck_and_centre_deflection(force, out, e, i);
    }
};

template <class Formula>
HALFNUT_INLINE void bend_with(const TurnBlock& b, const double* passive, double* bent,
                              Formula formula) noexcept {
    HALFNUT_ROWS
    for (std::size_t i = 0; i < b.rows; ++i) {
        const double left = b.diameter[i] - 2.0 * b.depth[i];
        const double bore = or_else(b.bore[i], 0.0);
        const double moment = SecondMoment::compute(left, bore);
        const double bend = formula(passive[i], b.stick_out[i], b.modulus[i], moment);
        bent[i] = left > bore ? bend : kNaN;
    }
}

HALFNUT_INLINE void bend_rows(const TurnShared& shared, const TurnBlock& b, const double* passive,
                              double* bent) noexcept {
    switch (shared.hold) {
        case Hold::between_centres:
            bend_with(b, passive, bent, BetweenCentres{});
            return;
        case Hold::chuck_and_centre:
            bend_with(b, passive, bent, ChuckAndCentre{});
            return;
        default:
            bend_with(b, passive, bent, InChuck{});
    }
}

HALFNUT_INLINE void reckon_rows(const TurnShared& shared, TurnBlock& b) noexcept {
    const std::size_t rows = b.rows;
    double* const speed_out = b.out[place("cutting_speed_m_min")];
    double* const chip_out = b.out[place("chip_thickness_mm")];
    double* const force_out = b.out[place("cutting_force_n")];
    double* const pushed_out = b.out[place("feed_force_n")];
    double* const passive_out = b.out[place("passive_force_n")];
    double* const power_out = b.out[place("spindle_power_kw")];
    double* const torque_out = b.out[place("torque_nm")];
    double* const removal_out = b.out[place("mrr_cm3_min")];
    double* const finish_out = b.out[place("roughness_ra_um")];
    double* const bent_out = b.out[place("deflection_mm")];
    double* const rate_out = b.out[place("feed_mm_min")];
    double* const time_out = b.out[place("time_s")];
    double* const travel_out = b.out[place("travel_mm")];
    if (shared.entering_varies) {
        HALFNUT_ROWS
        for (std::size_t i = 0; i < rows; ++i) {
            const SineCosine edge = sine_cosine_deg(or_else(b.entering[i], kEnteringDeg));
            b.sine[i] = edge.sine;
            b.cosine[i] = edge.cosine;
        }
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double d = b.diameter[i];
        const double f = b.chosen_feed[i];
        const double depth = b.depth[i];
        const double nose = or_else(b.nose[i], kNoseRadiusMm);
        const double speed = CuttingSpeed::compute(b.chosen_rpm[i], d);
        const SineCosine kappa = mean_entering(depth, nose, {b.sine[i], b.cosine[i]});
        const double chip = f * kappa.sine;
        const double reference = b.at_reference[i];
        const double by_speed = SpeedCorrection::at(speed) / reference;
        const double rake = b.rake[i];
        const double by_rake = RakeCorrection::compute(rake, b.reference_rake[i]);
        const double correction = (rake == rake ? by_rake : 1.0) * or_else(b.wear[i], 1.0);
        const double force = TurningForce::at(b.kc11[i], b.mc[i], depth, f, chip,
                                              correction * (reference == reference ? by_speed : 1.0));
        speed_out[i] = speed;
        chip_out[i] = chip;
        force_out[i] = force;
        const double normal = kNormalForceShare * force;
        pushed_out[i] = normal * kappa.sine;
        passive_out[i] = normal * kappa.cosine;
        power_out[i] = CuttingPower::compute(force, speed);
        torque_out[i] = SpindleTorque::compute(force, d);
        removal_out[i] = TurningRemoval::compute(speed, f, depth);
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double f = b.chosen_feed[i];
        const double nose = or_else(b.nose[i], kNoseRadiusMm);
        const double ra = RoughnessRa::compute(f, nose);
        finish_out[i] = nose > 0.0 ? ra : kNaN;
        const double rate = FeedRate::compute(f, b.chosen_rpm[i]);
        const double gaps = or_else(b.approach[i], kApproachMm) + or_else(b.overrun[i], 0.0);
        const double travel = b.length[i] + gaps;
        rate_out[i] = rate;
        travel_out[i] = travel;
        time_out[i] = FeedTime::compute(travel, rate);
    }
    bend_rows(shared, b, passive_out, bent_out);
}

HALFNUT_INLINE void judge_rows(const TurnShared& shared, TurnBlock& b) noexcept {
    const std::size_t rows = b.rows;
    const double* const speed = b.out[place("cutting_speed_m_min")];
    const double* const chip = b.out[place("chip_thickness_mm")];
    const double* const power = b.out[place("spindle_power_kw")];
    const double* const torque = b.out[place("torque_nm")];
    const double* const finish = b.out[place("roughness_ra_um")];
    const double* const bent = b.out[place("deflection_mm")];
    constexpr std::uint64_t kNone = 0;
    const std::uint64_t if_moved = shared.steps ? bit(CautionCode::asked_feed_moved) : kNone;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {  // what the levers say
        const double rpm = b.chosen_rpm[i];
        const double f = b.chosen_feed[i];
        const double wanted = b.wanted_feed[i];
        std::uint64_t c = b.cautions[i] | shared.cautions;
        c |= rpm > b.high_rpm[i] * kSame ? bit(CautionCode::above_window) : kNone;
        c |= rpm > shared.chuck_rpm * kSame ? bit(CautionCode::above_chuck_limit) : kNone;
        c |= rpm * kSame < b.low_rpm[i] ? bit(CautionCode::speed_below_window) : kNone;
        c |= speed[i] > b.fire_speed[i] ? bit(CautionCode::fire_speed) : kNone;
        const double moved = std::abs(f - wanted);
        const bool given = b.feed[i] == b.feed[i];
        const std::uint64_t far = moved > 1e-9 * wanted ? if_moved : kNone;
        c |= given ? far : kNone;
        const bool coarser = f > wanted * kSame;
        const std::uint64_t finest =
            f > b.most_feed[i] * kSame ? bit(CautionCode::below_smallest_feed) : kNone;
        c |= coarser ? finest : kNone;
        b.cautions[i] = c;
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {  // what the cut says
        const double d = b.diameter[i];
        const double nose = or_else(b.nose[i], kNoseRadiusMm);
        const double ra = finish[i];
        const double edge = or_else(b.band_high[i], 1.0);
        std::uint64_t c = b.cautions[i];
        c |= chip[i] < kRubbingThicknessMm ? bit(CautionCode::chip_too_thin) : kNone;
        const double high_feed = kFeedOverNose * nose * kSame;
        // A nose that leaves no roughness is passed by more than this share already.
        const std::uint64_t above = b.chosen_feed[i] > high_feed ? bit(CautionCode::feed_above_nose) : kNone;
        c |= nose > 0.0 ? above : kNone;
        c |= ra > b.roughness_limit[i] * kSame ? bit(CautionCode::roughness_exceeded) : kNone;
        std::uint64_t held = kNone;
        held |= power[i] * edge > b.available[i] ? bit(CautionCode::power_exceeded) : kNone;
        held |= torque[i] * edge > shared.torque_limit_nm ? bit(CautionCode::torque_exceeded) : kNone;
        held |= bent[i] * edge > b.deflection_limit[i] ? bit(CautionCode::deflection_exceeded) : kNone;
        c |= held;
        c |= b.stick_out[i] > shared.slender * d ? bit(CautionCode::slender) : kNone;
        const double bore = or_else(b.bore[i], 0.0);
        const double wall = (d - bore) / 2.0;
        const std::uint64_t thin = wall < kThinWall * d ? bit(CautionCode::thin_wall) : kNone;
        c |= bore > 0.0 ? thin : kNone;
        b.cautions[i] = c;
        // A feed left open, and a limit that it breaks: it must be made finer, step by step.
        b.flags[i] |= held << 8U;
    }
    constexpr auto kWindow = static_cast<std::uint64_t>(LimitCode::speed_window);
    constexpr auto kChuck = static_cast<std::uint64_t>(LimitCode::chuck_speed);
    constexpr auto kSlowest = static_cast<std::uint64_t>(LimitCode::machine_slowest);
    constexpr auto kRoughness = static_cast<std::uint64_t>(LimitCode::roughness);
    const auto at_top = static_cast<std::uint64_t>(shared.at_top);
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const std::uint64_t flags = b.flags[i];
        const double limit = b.limit_rpm[i];
        const std::uint64_t held = shared.chuck_rpm <= limit ? kChuck : kWindow;
        const std::uint64_t free = shared.top_rpm * kSame < limit ? at_top : held;
        const std::uint64_t top = 0U - ((flags >> 1U) & 1U);
        const std::uint64_t slow = 0U - (flags & 1U);
        std::uint64_t limited = (top & free) | (~top & held);
        limited = (slow & kSlowest) | (~slow & limited);
        const std::uint64_t coarser =
            b.chosen_feed[i] > b.wanted_feed[i] * kSame ? std::uint64_t{0} : ~std::uint64_t{0};
        const std::uint64_t open = 0U - ((flags >> 3U) & 1U);
        const std::uint64_t rough = coarser & open & (0U - ((flags >> 2U) & 1U));
        b.limited[i] = (rough & kRoughness) | (~rough & limited);
        // Bit 4 says that a finer step is there.
        const std::uint64_t finer = open & (0U - ((flags >> 4U) & 1U));
        b.special[i] |= finer & (flags >> 8U);
    }
}

// One set of passes for an instruction set. An attribute cannot stand in parentheses.
// NOLINTBEGIN(bugprone-macro-parentheses)
#define HALFNUT_PASSES(name, attribute)                                                \
    attribute void check_##name(const double* column, Bounds bounds, std::size_t rows, \
                                std::uint64_t* special) {                              \
        check_rows(column, bounds, rows, special);                                     \
    }                                                                                  \
    attribute void want_##name(const TurnShared& shared, TurnBlock& block) {           \
        want_rows(shared, block);                                                      \
    }                                                                                  \
    attribute void reckon_##name(const TurnShared& shared, TurnBlock& block) {         \
        reckon_rows(shared, block);                                                    \
    }                                                                                  \
    attribute void judge_##name(const TurnShared& shared, TurnBlock& block) {          \
        judge_rows(shared, block);                                                     \
    }                                                                                  \
    constexpr TurnPasses k_##name{check_##name, want_##name, reckon_##name, judge_##name};
// NOLINTEND(bugprone-macro-parentheses)

HALFNUT_PASSES(portable, )
#ifdef HALFNUT_CLONES
HALFNUT_PASSES(avx2, __attribute__((target("avx2"))))
HALFNUT_PASSES(avx512, __attribute__((target("arch=x86-64-v4,prefer-vector-width=512"))))
#endif

}  // namespace

const TurnPasses& turn_passes(Clone clone) noexcept {
#ifdef HALFNUT_CLONES
    switch (clone) {
        case Clone::avx512:
            return k_avx512;
        case Clone::avx2:
            return k_avx2;
        default:
            break;
    }
#endif
    (void)clone;
    return k_portable;
}

Clone widest_clone() noexcept {
#ifdef HALFNUT_CLONES
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512bw") &&
        __builtin_cpu_supports("avx512cd") && __builtin_cpu_supports("avx512dq") &&
        __builtin_cpu_supports("avx512vl")) {
        return Clone::avx512;
    }
    if (__builtin_cpu_supports("avx2")) {
        return Clone::avx2;
    }
#endif
    return Clone::portable;
}

}  // namespace halfnut::batch
