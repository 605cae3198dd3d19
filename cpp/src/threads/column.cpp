#include "halfnut/threads/column.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/elementary.hpp"

namespace halfnut::threads {
namespace {

/// Stiffness of a segment under compression: moments and cross forces for unit turns and shifts of its ends.
struct Stiffness {
    double turn;        ///< moment at an end for a turn of that end
    double carry;       ///< moment at the other end
    double turn_shift;  ///< cross force for a turn, moment for a shift
    double shift;       ///< cross force for a shift
};

/// (sin h - h cos h) / h^3, without the cancellation of small h.
double bending_share(double h) noexcept {
    const double q = h * h;
    if (h < 0.5) {
        constexpr std::array kSeries{1.0 / 3.0,       -1.0 / 30.0,        1.0 / 840.0,        -1.0 / 45360.0,
                                     1.0 / 3991680.0, -1.0 / 518918400.0, 1.0 / 93405312000.0};
        double sum = 0.0;
        for (std::size_t k = kSeries.size(); k > 0; --k) {
            sum = sum * q + kSeries[k - 1];
        }
        return sum;
    }
    const auto [sine, cosine] = sine_cosine(h);
    return (sine - h * cosine) / (q * h);
}

/// Of a segment under a load below that of its clamped ends: h = L sqrt(P / (E I)) / 2 is above 0, below pi.
Stiffness stiffness(const ColumnSegment& segment, double load) noexcept {
    const double ei = segment.stiffness_n_mm2;
    const double length = segment.length_mm;
    const double h = 0.5 * length * std::sqrt(load / ei);
    const double u = bending_share(h);
    const auto [sine, cosine] = sine_cosine(h);
    const double sum = 2.0 * sine / (h * u);            // turn and carry, both ends alike
    const double difference = 2.0 * h * cosine / sine;  // ... ends opposed
    return {0.5 * (sum + difference) * ei / length, 0.5 * (sum - difference) * ei / length,
            sum * ei / (length * length), 4.0 * cosine / u * ei / (length * length * length)};
}

/// Number of negative pivots of the assembled stiffness: how many buckling loads lie below `load`, as long as
/// no segment buckles between clamped ends below it. Two unknowns a joint, shift and turn; `work` holds the
/// lower band of the matrix, four entries a row.
std::size_t buckled_below(std::span<const ColumnSegment> segments, ColumnEnd first, ColumnEnd second,
                          double load, std::vector<std::array<double, 4>>& work) noexcept {
    const std::size_t count = 2 * (segments.size() + 1);
    for (auto& row : work) {
        row = {};
    }
    // work[i][k]: entry of row i, column i - k.
    const auto add = [&](std::size_t i, std::size_t j, double value) { work[i][i - j] += value; };
    for (std::size_t n = 0; n < segments.size(); ++n) {
        const Stiffness k = stiffness(segments[n], load);
        const std::size_t at = 2 * n;
        add(at, at, k.shift);
        add(at + 1, at, k.turn_shift);
        add(at + 1, at + 1, k.turn);
        add(at + 2, at, -k.shift);
        add(at + 2, at + 1, -k.turn_shift);
        add(at + 2, at + 2, k.shift);
        add(at + 3, at, k.turn_shift);
        add(at + 3, at + 1, k.carry);
        add(at + 3, at + 2, -k.turn_shift);
        add(at + 3, at + 3, k.turn);
    }
    const auto held = [&](std::size_t unknown) {
        const bool at_first = unknown < 2;
        if (!at_first && unknown + 2 < count) {
            return false;
        }
        const ColumnEnd end = at_first ? first : second;
        return unknown % 2 == 0 ? end == ColumnEnd::pinned || end == ColumnEnd::fixed
                                : end == ColumnEnd::fixed || end == ColumnEnd::guided;
    };
    // Unknowns that are held drop out of L D L^T; the rest is eliminated in order within the band.
    constexpr double kTiny = 4.0 * std::numeric_limits<double>::epsilon();
    std::size_t negative = 0;
    for (std::size_t i = 0; i < count; ++i) {
        if (held(i)) {
            continue;
        }
        const std::size_t last = std::min(i + 3, count - 1);
        double pivot = work[i][0];
        double greatest = std::abs(pivot);
        for (std::size_t j = i + 1; j <= last; ++j) {
            greatest = held(j) ? greatest : std::max(greatest, std::abs(work[j][j - i]));
        }
        // A part of the column may be at its own critical load; the count of the whole survives a tiny shift.
        if (std::abs(pivot) <= kTiny * greatest) {
            pivot = std::copysign(kTiny * greatest, pivot);
        }
        negative += pivot < 0.0 ? 1U : 0U;
        for (std::size_t j = i + 1; j <= last; ++j) {
            if (held(j)) {
                continue;
            }
            const double factor = work[j][j - i] / pivot;
            for (std::size_t k = i + 1; k <= j; ++k) {
                if (!held(k)) {
                    work[j][j - k] -= factor * work[k][k - i];
                }
            }
        }
    }
    return negative;
}

}  // namespace

std::string TubeArea::refusal(double d, double b) {
    return fmt::format("bore_mm must be below diameter_mm, {} mm, got {} mm", d, b);
}

std::string JohnsonLoad::refusal(double /*a*/, double s, double e, double s_y) {
    return fmt::format("slenderness must be from 0 to {:.4g}, where Euler's formula begins, got {}",
                       TransitionSlenderness::compute(e, s_y), s);
}

Status stepped_column_load(std::span<const ColumnSegment> segments, ColumnEnd first, ColumnEnd second,
                           double& out_n) {
    out_n = kNaN;
    if (segments.empty()) {
        return {StatusCode::out_of_range, 0};
    }
    constexpr double kClamped = 4.0 * std::numbers::pi * std::numbers::pi;  // of a segment between fixed ends
    double high = std::numeric_limits<double>::infinity();
    for (const ColumnSegment& segment : segments) {
        const std::array given{segment.length_mm, segment.stiffness_n_mm2};
        for (std::size_t i = 0; i < given.size(); ++i) {
            const StatusCode code = check(kSegmentArguments[i], given[i]);
            if (code != StatusCode::ok) {
                return {code, static_cast<std::uint8_t>(i)};
            }
        }
        high = std::min(high, kClamped * segment.stiffness_n_mm2 / (segment.length_mm * segment.length_mm));
    }
    if (!column_ends_hold(first, second)) {
        return {StatusCode::inconsistent, 2};
    }
    if (!(high > 0.0) || !std::isfinite(high)) {
        return {StatusCode::no_result, 0};
    }
    std::vector<std::array<double, 4>> work(2 * (segments.size() + 1));
    double low = 0.0;
    // At `high` the segment it belongs to buckles whatever its neighbours do, so the answer is at or below
    // it.
    while (high - low > 4.0 * std::numeric_limits<double>::epsilon() * high) {
        const double middle = 0.5 * (low + high);
        (buckled_below(segments, first, second, middle, work) > 0 ? high : low) = middle;
    }
    out_n = high;
    return {};
}

double stepped_column_load_n(std::span<const ColumnSegment> segments, ColumnEnd first, ColumnEnd second) {
    double out = kNaN;
    const Status status = stepped_column_load(segments, first, second, out);
    if (status.ok()) {
        return out;
    }
    if (segments.empty()) {
        throw DomainError("a column needs at least one segment, got none");
    }
    if (status.code == StatusCode::inconsistent) {
        throw DomainError(
            fmt::format("ends {} and {} do not hold a column: it swings or slides away without bending; at "
                        "least one end must "
                        "be held in place, and the pair in direction (nearest: pinned and pinned)",
                        enum_name(first), enum_name(second)));
    }
    for (const ColumnSegment& segment : segments) {
        const std::array given{segment.length_mm, segment.stiffness_n_mm2};
        require(kSegmentArguments[status.argument], given[status.argument]);
    }
    throw DomainError("stepped_column_load_n: the loads of these segments are beyond what a double holds");
}

const ColumnEndRow* find_column_ends(const Catalogue& catalogue, ColumnEnd first, ColumnEnd second) noexcept {
    for (const ColumnEndRow& row : catalogue.column_ends) {
        if ((row.first == first && row.second == second) || (row.first == second && row.second == first)) {
            return &row;
        }
    }
    return nullptr;
}

}  // namespace halfnut::threads
