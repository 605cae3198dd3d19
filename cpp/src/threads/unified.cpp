#include "halfnut/threads/unified.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"

#include <algorithm>
#include <cmath>

namespace halfnut::threads {
namespace {

// Thread heights over the pitch, 1e-8.
constexpr std::int64_t kTwoAddenda = 64'951'905;      // 0.64951905 P
constexpr std::int64_t kTwoHeights = 108'253'175;     // 1.08253175 P
constexpr std::int64_t kTwoUnrHeights = 119'078'493;  // 1.19078493 P
constexpr std::int64_t kNumberSix = 1380;  // 1e-4 in: from #6 up, minor diameters have three places
constexpr std::int64_t kQuarterInch = 2500;

// Class factors on the 2A tolerance, thousandths.
constexpr std::int64_t kExternalFactor[] = {0, 1500, 1000, 750};
constexpr std::int64_t kInternalFactor[] = {0, 1950, 1300, 975};

/// n / d to the nearest whole number, a half going up. d > 0.
constexpr std::int64_t half_up(std::int64_t n, std::int64_t d) {
    const std::int64_t twice = 2 * n + d;
    const std::int64_t quotient = twice / (2 * d);
    return twice % (2 * d) < 0 ? quotient - 1 : quotient;
}

/// n / d to the nearest whole number, a half going to the even one. d > 0.
constexpr std::int64_t half_even(std::int64_t n, std::int64_t d) {
    const std::int64_t up = half_up(n, d);
    const bool tie = 2 * n == (2 * up - 1) * d;
    return tie && up % 2 != 0 ? up - 1 : up;
}

double inches(std::int64_t pitch_units) {
    return static_cast<double>(pitch_units) / 1e8;
}
double pitch_two_thirds(std::int64_t pitch_units) {
    const double root = cbrt_of(inches(pitch_units));
    return root * root;
}

/// A fraction of an inch in 1e-6, half up.
std::int64_t millionths(double inch) {
    return bounds::nearest<std::int64_t>(inch * 1e6, -bounds::kUnits, bounds::kUnits);
}

std::int32_t size(std::int64_t units) {
    return static_cast<std::int32_t>(units);
}

}  // namespace

UnifiedSeries unified_rule_series(const Catalogue& catalogue, const Thread& thread) noexcept {
    const auto rows = catalogue.unified_series;
    const auto units = [](const UnifiedSeriesRow& row) {
        return bounds::nearest<std::int64_t>(row.diameter_in * 1e4);
    };
    auto row = std::partition_point(rows.begin(), rows.end(), [&](const UnifiedSeriesRow& r) {
        return units(r) < thread.diameter_units;
    });
    for (; row != rows.end() && units(*row) == thread.diameter_units; ++row) {
        if (bounds::nearest<std::int64_t>(row->tpi * 1000) == thread.tpi_thousandths &&
            row->series <= UnifiedSeries::unef) {
            return row->series;
        }
    }
    return thread.series;
}

UnifiedEngagement unified_engagement(UnifiedSeries rule_series, const Thread& thread,
                                     std::int64_t stated_units) noexcept {
    const std::int64_t diameter = thread.diameter_units * 100;
    const bool one_inch_fine = thread.diameter_units == 10'000 && thread.tpi_thousandths == 14'000;
    const bool coarse_constant =
        rule_series == UnifiedSeries::un &&
        (thread.tpi_thousandths == 4000 || thread.tpi_thousandths == 6000 || thread.tpi_thousandths == 8000);
    UnifiedEngagement out;
    out.at_diameter = rule_series == UnifiedSeries::unc || rule_series == UnifiedSeries::unf ||
                      coarse_constant || one_inch_fine;
    if (out.at_diameter) {
        out.length_units = diameter;
        out.up_to_units = diameter * 3 / 2;
    } else {
        out.length_units = half_up(9 * thread.pitch_units, 100);
        out.from_units = half_up(5 * thread.pitch_units, 100);
        out.up_to_units = half_up(15 * thread.pitch_units, 100);
    }
    if (stated_units > 0 && (stated_units < out.from_units || stated_units > out.up_to_units)) {
        out.special = true;
        out.length_units = stated_units;
        out.from_units = stated_units;
        out.up_to_units = stated_units;
    }
    return out;
}

const UnifiedToleranceDiameterRow* unified_tolerance_diameter(const Catalogue& catalogue,
                                                              std::int64_t diameter_units) noexcept {
    for (const UnifiedToleranceDiameterRow& row : catalogue.unified_tolerance_diameters) {
        if (bounds::nearest<std::int64_t>(row.diameter_in * 1e4) == diameter_units) {
            return &row;
        }
    }
    return nullptr;
}

std::int64_t unified_tolerance_2a(UnifiedRule rule, std::int64_t diameter_units, std::int64_t length_units,
                                  std::int64_t pitch_units) noexcept {
    const double by_diameter = 0.0015 * cbrt_of(static_cast<double>(diameter_units) / 1e4);
    const double by_length = 0.0015 * std::sqrt(static_cast<double>(length_units) / 1e6);
    const double by_pitch = 0.015 * pitch_two_thirds(pitch_units);
    if (rule == UnifiedRule::formula) {
        return millionths(by_diameter + by_length + by_pitch);
    }
    return millionths(by_diameter) + millionths(by_length) + millionths(by_pitch);
}

std::int64_t unified_minor_tolerance(UnifiedRule rule, const Thread& thread) noexcept {
    const std::int64_t pitch = thread.pitch_units;
    const bool coarser_than_4 = pitch > 25'000'000;
    const bool from_13 = pitch <= 7'692'308;  // n >= 13
    const double diameter = static_cast<double>(thread.diameter_units) / 1e4;
    const double exact = 0.05 * pitch_two_thirds(pitch) + 0.03 * inches(pitch) / diameter - 0.002;
    const std::int64_t small = bounds::nearest<std::int64_t>(exact * 1e12);
    const std::int64_t most = 3940 * pitch;
    const auto square = [&](std::int64_t tenths) {
        return half_up(tenths * pitch * pitch, 100'000);
    };  // tenths of P^2, 1e-12
    if (thread.internal_unified == 3) {
        const std::int64_t least = from_13 ? 2300 * pitch - square(15) : 1200 * pitch;
        return std::max(least, std::min(small, most));
    }
    const std::int64_t coarse = 2500 * pitch - square(4);
    if (thread.diameter_units >= kQuarterInch) {
        return coarser_than_4 ? 1500 * pitch : coarse;
    }
    // The old tables give special threads below 1/4 in the tolerance of the larger sizes.
    if (rule == UnifiedRule::printed && thread.series == UnifiedSeries::uns) {
        return coarse;
    }
    return std::max(coarse, std::min(small, most));
}

UnifiedSizes unified_external(UnifiedRule rule, const Thread& thread, std::int64_t tolerance_2a) noexcept {
    const UnifiedClass grade = thread.external_unified;
    const std::int64_t pitch = thread.pitch_units;
    const std::int64_t basic = thread.diameter_units;
    const double p23 = pitch_two_thirds(pitch);
    const std::int64_t finished = millionths(0.06 * p23);
    const std::int64_t unfinished = millionths(0.09 * p23);
    const std::int64_t major = grade == 1 ? unfinished : finished;
    UnifiedSizes out;
    if (rule == UnifiedRule::formula) {
        out.allowance = grade == 3 ? 0 : size(half_up(3 * tolerance_2a, 1000));
        out.pitch_tolerance = half_up(kExternalFactor[grade] * tolerance_2a, 1000);
        out.crest_tolerance = major;
        const std::int64_t major_max = basic - out.allowance;
        const std::int64_t pitch_max =
            half_up(major_max * 100 - half_up(kTwoAddenda * pitch, 10'000'000'000), 100);
        const auto below_major = [&](std::int64_t height) {
            return size(half_up(major_max * 100 - half_up(height * pitch, 10'000'000'000), 100));
        };
        out.major_max = size(major_max);
        out.major_min = size(half_up(major_max * 100 - major, 100));
        out.major_min_unfinished = size(half_up(major_max * 100 - unfinished, 100));
        out.pitch_max = size(pitch_max);
        out.pitch_min = size(half_up(pitch_max * 100 - out.pitch_tolerance, 100));
        out.unr_minor_max = below_major(kTwoUnrHeights);
        out.minor_max = below_major(kTwoHeights);
    } else {
        constexpr std::int64_t kFourPlaces = 1'000'000'000'000;  // of 1e-16
        // the allowance is taken from the tolerance at five places
        out.allowance = grade == 3 ? 0 : size(half_even(3 * half_up(tolerance_2a, 10), 100));
        out.pitch_tolerance = half_even(kExternalFactor[grade] * tolerance_2a, 100'000) * 100;
        out.crest_tolerance =
            half_even(bounds::nearest<std::int64_t>(1e12 * (grade == 1 ? 0.09 : 0.06) * p23), 100'000'000) *
            100;
        const std::int64_t major_max = basic - out.allowance;
        const std::int64_t pitch_max = major_max - half_up(kTwoAddenda * pitch, kFourPlaces);
        out.major_max = size(major_max);
        out.major_min = size(major_max - out.crest_tolerance / 100);
        out.major_min_unfinished =
            size(major_max - half_even(bounds::nearest<std::int64_t>(1e12 * 0.09 * p23), 100'000'000));
        out.pitch_max = size(pitch_max);
        out.pitch_min = size(pitch_max - out.pitch_tolerance / 100);
        out.unr_minor_max = size(major_max - half_even(10'825 * pitch, 100'000'000) -
                                 half_even(10'825 * pitch, 1'000'000'000));
        out.minor_max = size(half_even(major_max * kFourPlaces - kTwoHeights * pitch, kFourPlaces));
    }
    if (thread.form == Form::rounded_root) {
        out.minor_max = out.unr_minor_max;
    }
    return out;
}

UnifiedSizes unified_internal(UnifiedRule rule, const Thread& thread, std::int64_t tolerance_2a) noexcept {
    const UnifiedClass grade = thread.internal_unified;
    const std::int64_t pitch = thread.pitch_units;
    const std::int64_t basic = thread.diameter_units;
    const std::int64_t minor_tolerance = unified_minor_tolerance(rule, thread);
    const bool four_places = basic < kNumberSix;
    UnifiedSizes out;
    out.major_min = size(basic);
    if (rule == UnifiedRule::formula) {
        out.pitch_tolerance = half_up(kInternalFactor[grade] * tolerance_2a, 1000);
        out.crest_tolerance = half_up(minor_tolerance, 1'000'000);
        const std::int64_t pitch_min =
            half_up(basic * 100 - half_up(kTwoAddenda * pitch, 10'000'000'000), 100);
        out.pitch_min = size(pitch_min);
        out.pitch_max = size(half_up(pitch_min * 100 + out.pitch_tolerance, 100));
        const std::int64_t minor = basic * 100 - half_up(kTwoHeights * pitch, 10'000'000'000);  // 1e-6
        const std::int64_t top = minor + out.crest_tolerance;
        out.minor_min = size(four_places ? half_up(minor, 100) : 10 * half_up(minor, 1000));
        out.minor_max = size(four_places || grade == 3 ? half_up(top, 100) : 10 * half_up(top, 1000));
        return out;
    }
    constexpr std::int64_t kFourPlaces = 1'000'000'000'000;  // of 1e-16
    out.pitch_tolerance = half_even(kInternalFactor[grade] * tolerance_2a, 100'000) * 100;
    out.crest_tolerance = half_even(minor_tolerance, 100'000'000) * 100;
    const std::int64_t pitch_min = half_even(basic * kFourPlaces - kTwoAddenda * pitch, kFourPlaces);
    out.pitch_min = size(pitch_min);
    out.pitch_max = size(pitch_min + out.pitch_tolerance / 100);
    const std::int64_t minor = half_even(basic * kFourPlaces - kTwoHeights * pitch, kFourPlaces);  // 1e-4
    const std::int64_t top = minor + out.crest_tolerance / 100;
    out.minor_min = size(four_places ? minor : 10 * half_even(minor, 10));
    out.minor_max = size(four_places || grade == 3 ? top : 10 * half_even(top, 10));
    return out;
}

}  // namespace halfnut::threads
