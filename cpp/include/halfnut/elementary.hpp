#pragma once
/// Logarithm, power, sine and cosine as plain arithmetic: no branch and no table, so that a compiler can run
/// many rows at once, and the same bits come out for one row, an array and a batch, whatever the processor.
///
/// Only +, -, *, / and whole-number steps are used, without contraction into fused operations. The stated
/// errors are relative, seen over ten million arguments against mpmath; checked in the tests.

#include <bit>
#include <cstdint>
#include <limits>
#include <numbers>

namespace halfnut {

namespace elementary {

inline constexpr std::uint64_t kOne = 0x3ff0000000000000U;        ///< bits of 1
inline constexpr std::uint64_t kRootHalf = 0x3fe6a09e667f3bcdU;   ///< bits of sqrt(1/2)
inline constexpr std::uint64_t kFraction = 0x000fffffffffffffU;   ///< bits after the point
inline constexpr std::uint64_t kWholeBits = 0x4330000000000000U;  ///< bits of 2^52
inline constexpr double kWhole = 4503599627370496.0;              ///< 2^52
inline constexpr double kRound = 6755399441055744.0;              ///< 1.5 * 2^52: added, it rounds to whole
inline constexpr double kInfinity = std::numeric_limits<double>::infinity();

}  // namespace elementary

/// Logarithm to the base 2 of a normal number; the same bits as log2_of().
///
/// Given
///   x   positive, neither subnormal nor infinite; any other gives a meaningless number
/// Returned
///   error at most 4e-16 of max(1, |log2 x|), and relative beside x = 1
/// Source
///   log((1 + s) / (1 - s)) = 2 s + s^3 P(s^2); coefficients of fdlibm 5.3 (1993)
constexpr double log2_of_normal(double x) noexcept {
    using namespace elementary;
    const std::uint64_t bits = std::bit_cast<std::uint64_t>(x) + (kOne - kRootHalf);
    const double exponent = std::bit_cast<double>((bits >> 52U) | kWholeBits) - (kWhole + 1023.0);
    const double f = std::bit_cast<double>((bits & kFraction) + kRootHalf) - 1.0;
    const double s = f / (2.0 + f);
    const double z = s * s;
    const double w = z * z;
    const double even = w * (0.3999999999940941908 + w * (0.2222219843214978396 + w * 0.1531383769920937332));
    const double odd =
        z * (0.6666666666666735130 +
             w * (0.2857142874366239149 + w * (0.1818357216161805012 + w * 0.1479819860511658591)));
    const double half_square = 0.5 * f * f;
    const double log = f - (half_square - s * (half_square + (even + odd)));
    return exponent + log * std::numbers::log2e;
}

/// Logarithm to the base 2.
///
/// Given
///   x   any number
/// Returned
///   -inf at 0, inf at inf, NaN below 0 and at NaN; error as log2_of_normal()
constexpr double log2_of(double x) noexcept {
    using namespace elementary;
    const bool small = x < std::numeric_limits<double>::min();
    const double log = log2_of_normal(small ? x * 18014398509481984.0 : x);  // 2^54: subnormal numbers
    const double out = small ? log - 54.0 : log;
    return x > 0.0 ? (x < kInfinity ? out : x)
                   : (x == 0.0 ? -kInfinity : std::numeric_limits<double>::quiet_NaN());
}

/// 2 to a power that is near; the same bits as exp2_of().
///
/// Given
///   x   |x| < 1021; any other gives a meaningless number
/// Returned
///   error at most 6e-16
/// Source
///   Taylor's series of exp(r ln 2), |r| <= 1/2, to the twelfth power
constexpr double exp2_of_near(double x) noexcept {
    using namespace elementary;
    const double rounded = x + kRound;
    const double r = x - (rounded - kRound);
    // (ln 2)^k / k!
    const double r2 = r * r;
    const double r4 = r2 * r2;
    const double p01 = 1.0 + r * 0.693147180559945309;
    const double p23 = 0.240226506959100712 + r * 0.0555041086648215800;
    const double p45 = 0.00961812910762847716 + r * 0.00133335581464284434;
    const double p67 = 0.000154035303933816099 + r * 0.0000152527338040598403;
    const double p89 = 1.32154867901443095e-6 + r * 1.01780860092396998e-7;
    const double p1011 = 7.05491162080112333e-9 + r * 4.44553827187081150e-10;
    const double p12 = 2.56784359934882051e-11;
    const double p = (p01 + r2 * p23) + r4 * ((p45 + r2 * p67) + r4 * ((p89 + r2 * p1011) + r4 * p12));
    return p * std::bit_cast<double>((std::bit_cast<std::uint64_t>(rounded) << 52U) + kOne);
}

/// 2 to a power.
///
/// Given
///   x   any number
/// Returned
///   0 from -1021.5 down, inf from 1023.5 up, NaN at NaN; error as exp2_of_near()
constexpr double exp2_of(double x) noexcept {
    using namespace elementary;
    const double out = exp2_of_near(x);
    return x < 1023.5 ? (x > -1021.5 ? out : 0.0) : (x >= 1023.5 ? kInfinity : x);
}

/// log2_of(), with -1e300 and 1e300 instead of the infinities: these times 0 would be NaN.
inline double finite_log2_of(double x) noexcept {
    constexpr double kFar = 1e300;
    const double log = log2_of(x);
    const double low = log < -kFar ? -kFar : log;
    return low > kFar ? kFar : low;
}

/// x to the power y.
///
/// Given
///   x   >= 0
///   y   any number
/// Returned
///   1 at y = 0; 0 below 2^-1021, inf above 2^1023; error at most 5e-16 (1 + |y log2 x|): 1e-14 and
///   less while the result is between 2e-6 and 5e5
inline double power_of(double x, double y) noexcept {
    return exp2_of(y * finite_log2_of(x));
}

/// Logarithm and power of two as a formula takes them for a number of which nothing is known, and for those
/// of a block, which are ordinary. Both give the same bits.
struct AnyNumber {
    static constexpr bool any = true;
    static double log2(double x) noexcept { return finite_log2_of(x); }
    static double exp2(double x) noexcept { return exp2_of(x); }
};
struct OrdinaryNumber {
    static constexpr bool any = false;
    static double log2(double x) noexcept { return log2_of_normal(x); }
    static double exp2(double x) noexcept { return exp2_of_near(x); }
};

/// Sine and cosine of an angle in degrees.
struct SineCosine {
    double sine;
    double cosine;
};

/// Sine and cosine of an angle in degrees; exact at whole quarters of a turn.
///
/// Given
///   degrees   |degrees| <= 1e6
/// Returned
///   error at most 4e-16, also beside the zeros
/// Source
///   reduction by 90 degrees is exact; series with the coefficients of fdlibm 5.3 (1993)
inline SineCosine sine_cosine_deg(double degrees) noexcept {
    using namespace elementary;
    const double rounded = degrees * (1.0 / 90.0) + kRound;
    const std::uint64_t quarter = std::bit_cast<std::uint64_t>(rounded);
    const double r = (degrees - 90.0 * (rounded - kRound)) * (std::numbers::pi / 180.0);
    const double z = r * r;
    const double w = z * z;
    const double tail_s =
        (8.33333333332248946124e-03 + z * -1.98412698298579493134e-04) +
        w * ((2.75573137070700676789e-06 + z * -2.50507602534068634195e-08) + w * 1.58969099521155010221e-10);
    const double sine = r + r * z * (-1.66666666666666324348e-01 + z * tail_s);
    const double tail_c = (4.16666666666666019037e-02 + z * -1.38888888888741095749e-03) +
                          w * ((2.48015872894767294178e-05 + z * -2.75573143513906633035e-07) +
                               w * (2.08757232129817482790e-09 + z * -1.13596475577881948265e-11));
    const double cosine = (1.0 - 0.5 * z) + w * tail_c;
    // Bits, not comparisons: whole numbers of 64 bits are not compared in the smallest instruction set.
    const std::uint64_t swap = 0U - (quarter & 1U);
    const auto sine_bits = std::bit_cast<std::uint64_t>(sine);
    const auto cosine_bits = std::bit_cast<std::uint64_t>(cosine);
    const std::uint64_t exchanged = (sine_bits ^ cosine_bits) & swap;
    const std::uint64_t sine_sign = (quarter & 2U) << 62U;
    const std::uint64_t cosine_sign = ((quarter + 1U) & 2U) << 62U;
    // Adding 0 leaves no negative zero.
    return {0.0 + std::bit_cast<double>(sine_bits ^ exchanged ^ sine_sign),
            0.0 + std::bit_cast<double>(cosine_bits ^ exchanged ^ cosine_sign)};
}

}  // namespace halfnut
