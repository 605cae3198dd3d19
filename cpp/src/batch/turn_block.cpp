#include "turn_block.hpp"

#include <bit>
#include <cmath>
#include <initializer_list>
#include <utility>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/finish.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/kinds.hpp"

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
static_assert(kRoughDepthMm > kFinishDepthMm && kRoughDepthIn * kInchMm > kFinishDepthMm);

constexpr unsigned kHeldShift = 8;  // flags above it: limits that a cut breaks

constexpr std::size_t place(std::string_view name) {
    for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
        if (kCutFigures[i].name == name) {
            return i;
        }
    }
    return kCutFigures.size();
}

// Bits that conditions set are added up as numbers and made bits at the end: the smallest instruction set can
// choose among numbers for several rows at once, but not among bits.
HALFNUT_INLINE double when(bool condition, double bits, double other = 0.0) noexcept {
    return condition ? bits : other;
}
HALFNUT_INLINE std::uint64_t as_bits(double sum) noexcept {
    return std::bit_cast<std::uint64_t>(sum + elementary::kWhole) & elementary::kFraction;
}
constexpr double weight(CautionCode code) {
    return static_cast<double>(std::uint64_t{1} << static_cast<unsigned>(code));
}
static_assert(enum_names(CautionCode{}).size() <= 52, "a sum of their weights is exact");

HALFNUT_INLINE double or_else(double value, double fallback) noexcept {
    return value == value ? value : fallback;
}

HALFNUT_INLINE double* as_numbers(Bits& bits) noexcept {
    return reinterpret_cast<double*>(bits.data());
}

HALFNUT_INLINE double least(double a, double b) noexcept {
    return b < a ? b : a;
}

// Records side by side become columns: Lanes of them at once, as many values as a register holds.
template <std::size_t Lanes>
using Lane [[gnu::vector_size(Lanes * sizeof(double)), gnu::may_alias]] = double;

template <std::size_t Step, class V, std::size_t... J>
HALFNUT_INLINE void exchange(V& a, V& b, std::index_sequence<J...> /*lanes*/) noexcept {
    constexpr std::size_t kLanes = sizeof...(J);
    const V low = __builtin_shufflevector(a, b, ((J & Step) != 0 ? kLanes + J - Step : J)...);
    b = __builtin_shufflevector(a, b, ((J & Step) != 0 ? kLanes + J : J + Step)...);
    a = low;
}

template <std::size_t Step, std::size_t Lanes>
HALFNUT_INLINE void turn_over(Lane<Lanes> (&lines)[Lanes]) noexcept {
    if constexpr (Step < Lanes) {
        for (std::size_t i = 0; i < Lanes; ++i) {
            if ((i & Step) == 0) {
                exchange<Step>(lines[i], lines[i + Step], std::make_index_sequence<Lanes>{});
            }
        }
        turn_over<2 * Step, Lanes>(lines);
    }
}

// Records and columns start at a line of the nearest cache; columns have room for a whole number of lanes.
template <std::size_t Lanes, std::size_t Values>
HALFNUT_INLINE void spread(const Record* records, const std::uint64_t* places, std::size_t rows,
                           std::initializer_list<double*> columns) noexcept {
    for (std::size_t i = 0; i < rows; i += Lanes) {
        for (std::size_t part = 0; part < Values; part += Lanes) {
            Lane<Lanes> lines[Lanes];
            for (std::size_t k = 0; k < Lanes; ++k) {
                lines[k] = *reinterpret_cast<const Lane<Lanes>*>(records[places[i + k]].values.data() + part);
            }
            turn_over<1, Lanes>(lines);
            for (std::size_t k = 0; k < Lanes && part + k < Values; ++k) {
                *reinterpret_cast<Lane<Lanes>*>(columns.begin()[part + k] + i) = lines[k];
            }
        }
    }
}

// Whether every number of a column is within bounds above 0. Bits of positive numbers stand in their order; a
// number below the low one, above the high one, negative or none at all makes one of the differences
// negative.
HALFNUT_INLINE bool all_inside(const double* column, Bounds bounds, std::size_t rows) noexcept {
    const auto low = std::bit_cast<std::uint64_t>(bounds.low);
    const auto high = std::bit_cast<std::uint64_t>(bounds.high);
    std::uint64_t outside = 0;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const auto bits = std::bit_cast<std::uint64_t>(column[i]);
        outside |= (bits - low) | (high - bits);
    }
    return outside >> 63U == 0;
}

HALFNUT_INLINE bool check_rows(const double* column, Bounds bounds, std::size_t rows,
                               std::uint64_t* special) noexcept {
    if (bounds.low > 0.0 && all_inside(column, bounds, rows)) {  // as in most columns
        return false;
    }
    const double low = bounds.zero ? 0.0 : 1.0;  // how a 0 counts
    const double none = bounds.required ? 1.0 : 0.0;
    std::uint64_t left_open = 0;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double x = column[i];
        const double small = when(x < bounds.low, when(x == 0.0, low, 1.0));
        special[i] |= as_bits(small + when(x > bounds.high, 1.0) + when(x != x, none));
        left_open |= as_bits(when(x != x, 1.0));
    }
    return left_open != 0;
}

// The work stands out at least as far as the cut is long, and as far where nothing is said.
HALFNUT_INLINE void reach_rows(TurnBlock& b) noexcept {
    const double* const given = b.stick_out;
    const std::size_t rows = b.rows;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double length = b.length[i];
        b.reach[i] = or_else(given[i], length);
        b.special[i] |= as_bits(when(given[i] < length, 1.0));
    }
    b.stick_out = b.reach.data();
}

HALFNUT_INLINE void find_sides(const TurnShared& shared, TurnBlock& b) noexcept {
    constexpr auto kTools = static_cast<double>(enum_names(ToolMaterial{}).size());
    const std::size_t rows = b.rows;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const auto alloy = static_cast<double>(b.alloy[i]);
        const auto tool = static_cast<double>(b.tool[i]);
        // A usual depth is above that of a finishing cut, unless the diameter holds it back.
        const double depth = or_else(b.asked_depth[i], b.diameter[i] / 8.0);
        const double finish = when(depth <= kFinishDepthMm, 1.0, b.finish[i]);
        double side = (alloy * kTools + tool) * 2.0 + finish;
        side = when(alloy >= 0.0, side, shared.nobody);
        side = when(alloy < shared.alloys, side, shared.nobody);
        side = when(tool >= 0.0, side, shared.nobody);
        side = when(tool < kTools, side, shared.nobody);
        b.places[i] = as_bits(side);
    }
}

template <std::size_t Lanes>
HALFNUT_INLINE void want_rows(const TurnShared& shared, TurnBlock& b) noexcept {
    const std::size_t rows = b.rows;
    spread<Lanes, kCaseValues>(
        shared.cases, b.places.data(), rows,
        {b.low_m_min.data(), b.high_m_min.data(), b.kc11.data(), b.mc.data(), b.reference_log2.data(),
         b.band_high.data(), b.modulus.data(), as_numbers(b.lasting)});
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double d = b.diameter[i];
        const double wrong = when(b.depth[i] > d / 2.0, 1.0) + when(b.bore[i] >= d, 1.0);
        b.special[i] |= as_bits(wrong) | (b.lasting[i] & (kAlone | kMayBurn));
    }
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
        b.wanted_feed = b.feed;
        b.most_feed = b.feed;
        b.flags.fill(0);
        return;
    }
    b.wanted_feed = b.own_wanted.data();
    b.most_feed = b.own_most.data();
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {  // the most that nose and roughness bear
        const double nose = b.nose[i];
        const double at_nose = nose > 0.0 ? kFeedOverNose * nose : elementary::kInfinity;
        const double wide = nose > 0.0 ? 32.0 * nose : elementary::kInfinity;
        b.own_wanted[i] = at_nose;
        b.own_most[i] = std::sqrt(
            wide * (or_else(b.roughness_limit[i], elementary::kInfinity) / b.finish_aim[i]) / 1000.0);
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double asked = b.feed[i];
        const double usual = b.usual_feed[i];
        const double low = or_else(b.feed_low[i], usual);  // no guide: the usual feed itself
        const double high = or_else(b.feed_high[i], usual);
        const double nose_limit = b.own_wanted[i];
        const double fine = b.own_most[i];
        const double shallow = least(low, b.depth[i] / kDepthOverFeed);
        const double raised = usual < shallow ? shallow : usual;
        const double guide = least(raised, high);
        const double at_nose = least(guide, nose_limit);
        const double open = least(at_nose, fine);
        const double most = least(least(high, nose_limit), fine);
        b.own_wanted[i] = or_else(asked, open);
        b.own_most[i] = or_else(asked, most);
        b.flags[i] = as_bits(when(asked != asked, kOpenFlag) + when(fine < at_nose, kRoughnessFlag));
    }
}

HALFNUT_INLINE void find_bins(BinFinder bin_of, const double* asked, double same, std::size_t rows,
                              std::uint64_t* places) noexcept {
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        places[i] = bin_of(asked[i] * same);
    }
}

// What stands on the row's side of its bin's edge.
HALFNUT_INLINE void take_side(const TurnBlock& b, const double* asked, double same, const double* from_edge,
                              const double* before, double* taken) noexcept {
    const std::size_t rows = b.rows;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double from = from_edge[i];  // both are read: a choice of reads would be a branch
        const double other = before[i];
        taken[i] = b.edge[i] <= asked[i] * same ? from : other;
    }
}
HALFNUT_INLINE void take_codes(TurnBlock& b, const double* asked, double same, Bits& codes) noexcept {
    const std::size_t rows = b.rows;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double from = b.code_from_edge[i];
        const double other = b.code_before[i];
        const std::uint64_t code = as_bits(when(b.edge[i] <= asked[i] * same, from, other));
        codes[i] = code;
        b.flags[i] |= code >> kCodeFlags;
    }
}

template <std::size_t Lanes, bool Codes>
HALFNUT_INLINE void set_rows(const TurnShared& shared, TurnBlock& b) noexcept {
    const std::size_t rows = b.rows;
    if (shared.spindle != nullptr) {
        // The same speed reached by another way of rounding still counts as not above the limit.
        constexpr double kSpeedSame = 1.0 + 1e-12;
        const double* const asked = b.limit_rpm.data();
        find_bins(shared.spindle->steps.finder(), asked, kSpeedSame, rows, b.places.data());
        spread<Lanes, Codes ? kSpindleValues : kSpindleValues - 2>(
            shared.spindle->records.data(), b.places.data(), rows,
            {b.edge.data(), b.before.data(), b.available.data(), b.before_available.data(),
             b.code_from_edge.data(), b.code_before.data()});
        take_side(b, asked, kSpeedSame, b.edge.data(), b.before.data(), b.chosen_rpm);
        take_side(b, asked, kSpeedSame, b.available.data(), b.before_available.data(), b.available.data());
        if constexpr (Codes) {
            take_codes(b, asked, kSpeedSame, b.spindle_code);
        }
    }
    if (shared.feeds != nullptr) {
        const double* const asked = b.wanted_feed;
        find_bins(shared.feeds->steps.finder(), asked, kSame, rows, b.places.data());
        spread<Lanes, Codes ? kFeedValues : kFeedValues - 2>(
            shared.feeds->records.data(), b.places.data(), rows,
            {b.edge.data(), b.before.data(), b.code_from_edge.data(), b.code_before.data()});
        take_side(b, asked, kSame, b.edge.data(), b.before.data(), b.chosen_feed);
        if constexpr (Codes) {
            take_codes(b, asked, kSame, b.feed_code);
        }
    } else {
        for (std::size_t i = 0; i < rows; ++i) {
            b.chosen_feed[i] = b.wanted_feed[i];
            b.feed_code[i] = 0;
        }
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
        const double bore = b.bore[i];
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

// Adjusted: a rake or wear is given, as few calls do.
template <bool Adjusted>
HALFNUT_INLINE void compute_rows(const TurnShared& shared, TurnBlock& b) noexcept {
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
            const SineCosine edge = sine_cosine_deg(b.entering[i]);
            b.sine[i] = edge.sine;
            b.cosine[i] = edge.cosine;
        }
    }
    // One loop for each stretch of the long way to the force: a processor looks ahead over a few hundred
    // instructions, which must be several rows for it to have work while it waits for a division.
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double speed = CuttingSpeed::compute(b.chosen_rpm[i], b.diameter[i]);
        const double reference = b.reference_log2[i];
        const double by_speed = SpeedCorrection::log2_at<OrdinaryNumber>(speed) - reference;
        speed_out[i] = speed;
        b.factor_log2[i] = reference == reference ? by_speed : 0.0;
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const SineCosine kappa =
            mean_entering<OrdinaryNumber>(b.depth[i], b.nose[i], {b.sine[i], b.cosine[i]});
        b.mean_sine[i] = kappa.sine;
        b.mean_cosine[i] = kappa.cosine;
        chip_out[i] = b.chosen_feed[i] * kappa.sine;
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        b.factor_log2[i] = TurningForce::log2_factor<OrdinaryNumber>(b.mc[i], chip_out[i], b.factor_log2[i]);
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double d = b.diameter[i];
        const double f = b.chosen_feed[i];
        const double depth = b.depth[i];
        const double speed = speed_out[i];
        double correction = 1.0;
        double share = kOrdinaryShare;
        double edge = kOrdinaryWear;
        if constexpr (Adjusted) {
            const double wear = b.wear[i];
            const double rake = b.rake[i];
            const double by_rake = RakeCorrection::compute(rake, b.reference_rake[i]);
            correction = or_else(wear, 1.0) * (rake == rake ? by_rake : 1.0);
            share = normal_share(wear);
            edge = when(wear == wear, 1.0, kOrdinaryWear);
        }
        const double force =
            TurningForce::with_log2<OrdinaryNumber>(b.kc11[i], b.factor_log2[i], depth, f, correction);
        force_out[i] = force;
        const double normal = share * force;
        b.upper[i] = b.band_high[i] * edge;
        pushed_out[i] = normal * b.mean_sine[i];
        passive_out[i] = normal * b.mean_cosine[i];
        power_out[i] = CuttingPower::compute(force, speed);
        torque_out[i] = SpindleTorque::compute(force, d);
        removal_out[i] = TurningRemoval::compute(speed, f, depth);
    }
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double f = b.chosen_feed[i];
        const double nose = b.nose[i];
        const double ra = RoughnessRa::compute(f, nose);
        finish_out[i] = nose > 0.0 ? ra : kNaN;
        const double rate = FeedRate::compute(f, b.chosen_rpm[i]);
        const double gaps = b.approach[i] + b.overrun[i];
        const double travel = b.length[i] + gaps;
        rate_out[i] = rate;
        travel_out[i] = travel;
        time_out[i] = FeedTime::compute(travel, rate);
    }
    bend_rows(shared, b, passive_out, bent_out);
}

// Rare: what few calls give, see TurnShared::rare, or feeds left open.
template <bool Rare>
HALFNUT_INLINE void judge_each(const TurnShared& shared, TurnBlock& b) noexcept {
    const double* const chip = b.out[place("chip_thickness_mm")];
    const double* const power = b.out[place("spindle_power_kw")];
    const double* const torque = b.out[place("torque_nm")];
    const double* const finish = b.out[place("roughness_ra_um")];
    const double* const bent = b.out[place("deflection_mm")];
    const double if_moved = shared.steps ? weight(CautionCode::asked_feed_moved) : 0.0;
    const std::size_t rows = b.rows;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const double rpm = b.chosen_rpm[i];
        const double f = b.chosen_feed[i];
        const double wanted = b.wanted_feed[i];
        const double d = b.diameter[i];
        const double nose = b.nose[i];
        const double edge = b.upper[i];
        double c = 0.0;
        c += when(rpm > b.high_rpm[i] * kSame, weight(CautionCode::above_window));
        c += when(rpm > shared.chuck_rpm * kSame, weight(CautionCode::above_chuck_limit));
        c += when(rpm * kSame < b.low_rpm[i], weight(CautionCode::speed_below_window));
        const double far = when(std::abs(f - wanted) > 1e-9 * wanted, if_moved);
        c += Rare ? when(b.feed[i] == b.feed[i], far) : far;
        c += when(chip[i] < kRubbingThicknessMm, weight(CautionCode::chip_too_thin));
        // A nose that leaves no roughness is passed by more than this share already.
        const double above = when(f > kFeedOverNose * nose * kSame, weight(CautionCode::feed_above_nose));
        c += when(nose > 0.0, above);
        const double out = b.stick_out[i];
        const double depth = b.depth[i];
        c += when(out > shared.slender * d, weight(CautionCode::slender));
        const double whips =
            when(rpm * out * out > shared.whirl * (d - 2.0 * depth), static_cast<double>(kMayWhip));
        double held = when(power[i] * edge > b.available[i], weight(CautionCode::power_exceeded));
        held += when(bent[i] * edge > b.deflection_limit[i], weight(CautionCode::deflection_exceeded));
        c += when(bent[i] * edge > depth, weight(CautionCode::climbs));
        const double coarse =
            when(f > b.most_feed[i] * kSame, 1.0);  // every power feed is coarser than suits
        b.special[i] |= as_bits(whips + coarse);
        if constexpr (Rare) {
            held += when(torque[i] * edge > shared.torque_limit_nm, weight(CautionCode::torque_exceeded));
            c += when(finish[i] > b.roughness_limit[i] / b.finish_aim[i] * kSame,
                      weight(CautionCode::roughness_exceeded));
            const double least_ra = when(finish[i] == finish[i], weight(CautionCode::roughness_least));
            c += when(b.roughness_limit[i] == b.roughness_limit[i], least_ra);
            const double bore = b.bore[i];
            const double wall = (d - bore) / 2.0;
            const double thin = when(wall < kThinWall * d, weight(CautionCode::thin_wall));
            c += when(bore > 0.0, thin);
            // A feed left open, and a limit that it breaks: it must be made finer, step by step.
            b.flags[i] |= as_bits(held) << kHeldShift;
        }
        b.cautions[i] = as_bits(c + held) | (b.lasting[i] & ~kMayBurn) | shared.cautions;
    }
}

HALFNUT_INLINE void judge_rows(const TurnShared& shared, TurnBlock& b) noexcept {
    const std::size_t rows = b.rows;
    if (shared.rare || b.open_feeds) {
        judge_each<true>(shared, b);
    } else {
        judge_each<false>(shared, b);
    }
    if (b.open_feeds) {
        HALFNUT_ROWS
        for (std::size_t i = 0; i < rows; ++i) {
            const std::uint64_t flags = b.flags[i];
            const std::uint64_t open = 0U - ((flags / kOpenFlag) & 1U);
            const std::uint64_t finer = open & (0U - ((flags / kFinerFlag) & 1U));
            b.special[i] |= finer & (flags >> kHeldShift);
        }
    }
    std::uint64_t some = 0;
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        some |= b.special[i];
    }
    b.some_special = some != 0;
    if (!shared.limits) {
        return;
    }
    constexpr auto kWindow = static_cast<double>(LimitCode::speed_window);
    constexpr auto kChuck = static_cast<double>(LimitCode::chuck_speed);
    constexpr auto kSlowest = static_cast<std::uint64_t>(LimitCode::machine_slowest);
    constexpr auto kRoughness = static_cast<std::uint64_t>(LimitCode::roughness);
    const auto at_top = static_cast<double>(shared.at_top);
    HALFNUT_ROWS
    for (std::size_t i = 0; i < rows; ++i) {
        const std::uint64_t flags = b.flags[i];
        const double limit = b.limit_rpm[i];
        const double fastest = when(shared.chuck_rpm <= limit, kChuck, kWindow);
        const std::uint64_t held = as_bits(fastest);
        const std::uint64_t free = as_bits(when(shared.top_rpm * kSame < limit, at_top, fastest));
        const std::uint64_t top = 0U - ((flags / kFastestFlag) & 1U);
        const std::uint64_t slow = 0U - (flags & kSlowestFlag);
        std::uint64_t limited = (top & free) | (~top & held);
        limited = (slow & kSlowest) | (~slow & limited);
        const std::uint64_t coarser = as_bits(when(b.chosen_feed[i] > b.wanted_feed[i] * kSame, 1.0)) - 1U;
        const std::uint64_t open = 0U - ((flags / kOpenFlag) & 1U);
        const std::uint64_t rough = coarser & open & (0U - ((flags / kRoughnessFlag) & 1U));
        b.limited[i] = (rough & kRoughness) | (~rough & limited);
    }
}

// One set of passes for an instruction set. An attribute cannot stand in parentheses.
// NOLINTBEGIN(bugprone-macro-parentheses)
#define HALFNUT_PASSES(name, lanes, attribute)                                                    \
    attribute bool check_##name(const double* column, Bounds bounds, std::size_t rows,            \
                                std::uint64_t* special) {                                         \
        return check_rows(column, bounds, rows, special);                                         \
    }                                                                                             \
    attribute void reach_##name(TurnBlock& block) {                                               \
        reach_rows(block);                                                                        \
    }                                                                                             \
    attribute void sides_##name(const TurnShared& shared, TurnBlock& block) {                     \
        find_sides(shared, block);                                                                \
    }                                                                                             \
    attribute void want_##name(const TurnShared& shared, TurnBlock& block) {                      \
        want_rows<lanes>(shared, block);                                                          \
    }                                                                                             \
    attribute void set_##name(const TurnShared& shared, TurnBlock& block) {                       \
        shared.codes || block.open_feeds ? set_rows<lanes, true>(shared, block)                   \
                                         : set_rows<lanes, false>(shared, block);                 \
    }                                                                                             \
    attribute void compute_##name(const TurnShared& shared, TurnBlock& block) {                   \
        shared.adjusted ? compute_rows<true>(shared, block) : compute_rows<false>(shared, block); \
    }                                                                                             \
    attribute void judge_##name(const TurnShared& shared, TurnBlock& block) {                     \
        judge_rows(shared, block);                                                                \
    }                                                                                             \
    constexpr TurnPasses k_##name{check_##name, reach_##name,   sides_##name, want_##name,        \
                                  set_##name,   compute_##name, judge_##name};
// NOLINTEND(bugprone-macro-parentheses)

HALFNUT_PASSES(portable, 2, )
#ifdef HALFNUT_CLONES
HALFNUT_PASSES(avx2, 4, __attribute__((target("avx2"))))
HALFNUT_PASSES(avx512, 8, __attribute__((target("arch=x86-64-v4,prefer-vector-width=512"))))
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
