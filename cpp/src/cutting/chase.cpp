#include "halfnut/cutting/chase.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace halfnut::cutting {

namespace {

constexpr double kWhole = 1e-6;  // of a line: less is rounding
constexpr int kMostLines = 100'000;

Status refuse(ChaseSchedule& out, StatusCode code, std::string* why, std::string words) {
    out = {};
    if (why != nullptr) {
        *why = std::move(words);
    }
    return {code, 0};
}

struct Named {
    Argument argument;
    double value;
};

Status check_all(const ChaseRequest& r, ChaseSchedule& out, std::string* why) {
    std::vector<Named> given{{inside("compound_deg", -1e-9, 60.0, "deg"), r.compound_deg},
                             {positive("graduation_mm", "mm"), r.graduation_mm},
                             {positive("first_mm", "mm"), r.first_mm},
                             {positive("least_mm", "mm"), r.least_mm}};
    const auto optional = [&](const Argument& argument, double value) {
        if (!std::isnan(value)) {
            given.push_back({argument, value});
        }
    };
    optional(not_negative("measure_left_mm", "mm"), r.measure_left_mm);
    optional(positive("kc11_n_mm2", "N/mm2"), r.kc11_n_mm2);
    optional(inside("mc", -1e-9, 1.0), r.mc);
    optional(positive("force_limit_n", "N"), r.force_limit_n);
    for (const Named& each : given) {
        if (const StatusCode code = check(each.argument, each.value); code != StatusCode::ok) {
            return refuse(out, code, why, argument_message(each.argument, each.value));
        }
    }
    if (r.least_mm > r.first_mm) {
        return refuse(out, StatusCode::inconsistent, why,
                      fmt::format("least_mm {:g} is above first_mm {:g}", r.least_mm, r.first_mm));
    }
    if (!std::isnan(r.force_limit_n) && (std::isnan(r.kc11_n_mm2) || std::isnan(r.mc))) {
        return refuse(out, StatusCode::inconsistent, why, "a force limit needs kc11_n_mm2 and mc");
    }
    if (r.infeed == Infeed::flank && r.compound_deg > r.half_angle_deg + 1e-9) {
        return refuse(
            out, StatusCode::inconsistent, why,
            fmt::format(
                "compound_deg {:g} is above the flank's {:g}: the other flank would be cut into steps",
                r.compound_deg, r.half_angle_deg));
    }
    return {};
}

/// The groove as the tip goes down.
struct Groove {
    double tangent;  ///< of the half angle
    double cosine;
    double bottom;  ///< width where a round or flat nose begins to widen with the flanks, mm

    /// Metal out of the groove when the tip is t below the blank. A round nose counts as the flat that has
    /// its width where the flanks touch it; the difference is below a hundredth of the chip.
    [[nodiscard]] double area(double t) const noexcept { return t * (bottom + tangent * t); }

    /// Edge that cuts: both flanks and the nose, or one flank and the nose.
    [[nodiscard]] double edge(double t, bool both) const noexcept {
        return (both ? 2.0 : 1.0) * t / cosine + bottom;
    }
};

}  // namespace

double ChasingDepth::compute(double blank, double pitch_diameter, double pitch, double half_angle,
                             double radius, double flat, double internal) noexcept {
    const double half_sharp = pitch / 4.0 / tangent_deg(half_angle);
    const double lack = lacking(half_angle, radius, flat);
    const double t =
        (internal == 0.0 ? blank - pitch_diameter : pitch_diameter - blank) / 2.0 + half_sharp - lack;
    const bool answered = (internal == 0.0 || internal == 1.0) && (radius == 0.0 || flat == 0.0) &&
                          lack < half_sharp && t > 0.0;
    return answered ? t : kNaN;
}

std::string RootFlat::refusal(double pitch, double pitch_diameter, double root, double half_angle) {
    const double deep = pitch / 2.0 / tangent_deg(half_angle);
    return fmt::format("the flanks meet before the root of {:g} mm, at {:g} mm", root,
                       root < pitch_diameter ? pitch_diameter - deep : pitch_diameter + deep);
}

std::string ChasingDepth::refusal(double blank, double pitch_diameter, double pitch, double half_angle,
                                  double radius, double flat, double internal) {
    if (internal != 0.0 && internal != 1.0) {
        return fmt::format("internal must be 0 or 1, got {:g}", internal);
    }
    if (radius != 0.0 && flat != 0.0) {
        return fmt::format("a nose is round or flat: nose_radius_mm {:g} or nose_flat_mm {:g}", radius, flat);
    }
    const double half_sharp = pitch / 4.0 / tangent_deg(half_angle);
    if (lacking(half_angle, radius, flat) >= half_sharp) {
        return fmt::format(
            "the nose is too wide for a pitch of {:g} mm: at most nose_radius_mm {:.3f} or "
            "nose_flat_mm {:.3f}",
            pitch, half_sharp / (1.0 / sine_deg(half_angle) - 1.0),
            2.0 * half_sharp * tangent_deg(half_angle));
    }
    return fmt::format("blank_mm {:g} leaves nothing to cut for pitch_diameter_mm {:g}", blank,
                       pitch_diameter);
}

Status evaluate(const ChaseRequest& r, ChaseSchedule& out, std::string* why) {
    out = {};
    const double internal = r.internal ? 1.0 : 0.0;
    double depth = kNaN;
    if (const Status status =
            halfnut::evaluate<ChasingDepth>(depth, r.blank_mm, r.pitch_diameter_mm, r.pitch_mm,
                                            r.half_angle_deg, r.nose_radius_mm, r.nose_flat_mm, internal);
        !status.ok()) {
        const std::array given{r.blank_mm,       r.pitch_diameter_mm, r.pitch_mm, r.half_angle_deg,
                               r.nose_radius_mm, r.nose_flat_mm,      internal};
        return refuse(
            out, status.code, why,
            status.code == StatusCode::inconsistent
                ? ChasingDepth::refusal(r.blank_mm, r.pitch_diameter_mm, r.pitch_mm, r.half_angle_deg,
                                        r.nose_radius_mm, r.nose_flat_mm, internal)
                : argument_message(ChasingDepth::arguments[status.argument], given[status.argument]));
    }
    if (const Status status = check_all(r, out, why); !status.ok()) {
        return status;
    }
    const SineCosine a = sine_cosine_deg(r.half_angle_deg);
    const double lean = r.infeed == Infeed::flank ? cosine_deg(r.compound_deg) : 1.0;
    const double line = r.graduation_mm * lean;  // on the depth
    const Groove groove{a.sine / a.cosine, a.cosine, r.nose_flat_mm + 2.0 * r.nose_radius_mm * a.cosine};
    const int last = bounds::whole<int>(std::floor(depth / line + kWhole), 0, kMostLines + 1);
    if (last < 1 || last > kMostLines) {
        return refuse(
            out, StatusCode::inconsistent, why,
            fmt::format("graduation_mm {:g} does not suit a thread {:.3f} mm deep", r.graduation_mm, depth));
    }

    out.depth_mm = depth;
    out.travel_mm = depth / lean;
    const double left_over = last * r.graduation_mm - out.travel_mm;
    out.remainder_mm = std::abs(left_over) < kWhole * r.graduation_mm ? 0.0 : left_over;
    out.line_on_pitch_diameter_mm = 2.0 * line;
    out.area_limit_mm2 = groove.area(r.first_mm * lean);

    const int least = std::max(1, bounds::nearest<int>(r.least_mm / r.graduation_mm, 1, kMostLines + 1));
    const double left = std::isnan(r.measure_left_mm) ? 4.0 * least * 2.0 * line : r.measure_left_mm;
    const int stop =
        std::max(0, last - bounds::whole<int>(std::ceil(left / (2.0 * line) - kWhole), 0, kMostLines + 1));
    const bool both = r.infeed == Infeed::straight;
    const auto force_of = [&](double from, double to) {
        const double area = groove.area(to) - groove.area(from);
        const double thickness = area / groove.edge(to, both);
        return r.kc11_n_mm2 * power_of(thickness, -r.mc) * area;
    };
    const auto holds = [&](int from, int to) {
        const double before = from * line;
        const double after = to * line;
        if (to - from > 1 && after - before > r.first_mm * lean * (1.0 + 1e-12)) {
            return false;
        }
        if (!r.equal_depths && to - from > 1 &&
            groove.area(after) - groove.area(before) > out.area_limit_mm2 * (1.0 + 1e-12)) {
            return false;
        }
        return std::isnan(r.force_limit_n) || force_of(before, after) <= r.force_limit_n;
    };

    int at = 0;
    int number = 0;
    while (at < last) {
        const bool finishing = at >= stop;
        const int end = finishing ? last : stop;
        int next = std::min(at + least, end);
        if (!finishing) {
            while (next < end && holds(at, next + 1)) {
                ++next;
            }
        }
        while (next > at + 1 && !holds(at, next) && !std::isnan(r.force_limit_n)) {
            --next;
        }
        if (!std::isnan(r.force_limit_n) && force_of(at * line, next * line) > r.force_limit_n) {
            return refuse(
                out, StatusCode::inconsistent, why,
                fmt::format("force_limit_n {:g} is not kept by even one line of {:g} mm at {:.3f} mm depth, "
                            "which needs {:.0f} N",
                            r.force_limit_n, r.graduation_mm, next * line, force_of(at * line, next * line)));
        }
        ChasePass pass;
        pass.line = next;
        pass.travel_mm = next * r.graduation_mm;
        pass.depth_mm = next * line;
        pass.area_mm2 = groove.area(next * line) - groove.area(at * line);
        pass.force_n = std::isnan(r.kc11_n_mm2) ? kNaN : force_of(at * line, next * line);
        pass.pitch_diameter_mm = r.pitch_diameter_mm + (r.internal ? -2.0 : 2.0) * (depth - next * line);
        pass.measure = next == stop || next == last;
        if (r.infeed == Infeed::alternating && next < stop) {
            // the tool leans on one flank of the groove that it would cut on both, then on the other
            const double step = (next - at) * line * groove.tangent;
            pass.shift_mm = number % 2 == 0 ? step : -step;
        }
        out.passes.push_back(pass);
        at = next;
        ++number;
    }
    return {};
}

ThreadDial thread_dial(std::int64_t screw_num, std::int64_t screw_den, std::int64_t lead_num,
                       std::int64_t lead_den, int wheel_threads, int marks) noexcept {
    ThreadDial out;
    constexpr std::int64_t kLargestOne = 1'000'000'000;
    const auto holds = [](std::int64_t term) { return term > 0 && term <= kLargestOne; };
    if (!holds(screw_num) || !holds(screw_den) || !holds(lead_num) || !holds(lead_den) || wheel_threads < 1 ||
        wheel_threads > 400 || marks < 1 || marks > 100) {
        return out;
    }
    out.marks = marks;
    // S / L in lowest terms, each factor reduced before it is multiplied
    const std::int64_t g1 = std::gcd(screw_num, lead_num);
    const std::int64_t g2 = std::gcd(lead_den, screw_den);
    const std::int64_t num = screw_num / g1 * (lead_den / g2);
    const std::int64_t den = lead_num / g1 * (screw_den / g2);
    constexpr std::int64_t kLargest = 1'000'000'000'000'000;  // products with marks and threads fit
    if (num > kLargest || den > kLargest) {
        return out;
    }
    out.any_line = den == 1;
    // the least k for which k T num / (m den) is whole
    const std::int64_t whole = marks * den;
    const std::int64_t every = whole / std::gcd(whole, wheel_threads * num);
    out.every = every <= marks && marks % every == 0 ? static_cast<int>(every) : 0;
    return out;
}

std::pair<std::int64_t, std::int64_t> lead_fraction_mm(const threads::Thread& thread) noexcept {
    if (!thread.inch()) {
        const std::int64_t nm = thread.starts * thread.pitch_units;
        const std::int64_t g = std::gcd(nm, std::int64_t{1'000'000});
        return {nm / g, 1'000'000 / g};
    }
    std::int64_t num = 0;
    std::int64_t den = 0;
    if (thread.tpi_thousandths != 0) {
        num = std::int64_t{127'000} * thread.starts;  // 25.4 / tpi
        den = std::int64_t{5} * thread.tpi_thousandths;
    } else {
        num = std::int64_t{127} * thread.starts * thread.pitch_units;
        den = std::int64_t{5} * 100'000'000;
    }
    const std::int64_t g = std::gcd(num, den);
    return {num / g, den / g};
}

}  // namespace halfnut::cutting
