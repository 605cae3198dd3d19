#pragma once
/// How sizes spread within their limits, and the chance that two parts interfere.

namespace halfnut {

/// From low to high; both equal for one value.
struct Interval {
    double low = 0.0;
    double high = 0.0;
};

/// A size as a shop cuts it: normal about a mean, cut off at its limits; one value where low equals high.
struct Spread {
    double low;
    double high;
    double mean;
    double sigma;

    [[nodiscard]] bool fixed() const noexcept { return !(high > low); }
    [[nodiscard]] double expected() const noexcept;
    [[nodiscard]] double variance() const noexcept;
};

/// Share of a normal spread below so many sigma from its mean.
///
/// Given
///   z   any number
/// Returned
///   0 to 1, NaN at NaN; error of the smaller share at most 5e-16 (1 + z^2)
/// Source
///   the error function, with the coefficients of fdlibm 5.3 (1993)
[[nodiscard]] double normal_below(double z) noexcept;

/// Chance that an internal size less an external one, less two amounts each even over its range, is below 0.
///
/// Given
///   internal, external  sizes in one unit, sigma > 0 where they are not fixed
///   first, second       amounts such as build-ups on both diameters, in the same unit
/// Returned
///   0 to 1
[[nodiscard]] double chance_of_interference(const Spread& internal, const Spread& external,
                                            const Interval& first, const Interval& second) noexcept;

}  // namespace halfnut
