#pragma once
/// Logarithm, power, roots, sines and arcs as plain arithmetic, for every answer: the C library's own differ
/// from system to system, these give the same bits for one row, an array and a batch, whatever the processor,
/// the compiler and its optimiser. Square roots and roundings are exact everywhere and stay the C library's.
///
/// Only +, -, *, /, square roots and whole-number steps are used, without contraction into fused operations;
/// what a batch runs (logarithm, power, sine and cosine) has no branch and no table either, so that a
/// compiler can run many rows at once. The stated errors are relative, seen over ten million arguments
/// in quadruple precision; the tests check fewer, against mpmath.

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>

namespace halfnut {

inline constexpr double kDegree = std::numbers::pi / 180.0;  ///< radians

namespace elementary {

/// The bits of one as another; std::bit_cast, which not every standard library has.
template <class To, class From>
constexpr To bits_as(From from) noexcept {
    static_assert(sizeof(To) == sizeof(From));
    return __builtin_bit_cast(To, from);
}

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
    const std::uint64_t bits = bits_as<std::uint64_t>(x) + (kOne - kRootHalf);
    const double exponent = bits_as<double>((bits >> 52U) | kWholeBits) - (kWhole + 1023.0);
    const double f = bits_as<double>((bits & kFraction) + kRootHalf) - 1.0;
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
    return p * bits_as<double>((bits_as<std::uint64_t>(rounded) << 52U) + kOne);
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

/// Sine and cosine of one angle.
struct SineCosine {
    double sine;
    double cosine;
};

namespace elementary {

/// Of an angle in radians, at most pi/4 either way, past the quarters of a turn that the last bits count.
inline SineCosine past_quarters(double r, std::uint64_t quarter) noexcept {
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
    const auto sine_bits = bits_as<std::uint64_t>(sine);
    const auto cosine_bits = bits_as<std::uint64_t>(cosine);
    const std::uint64_t exchanged = (sine_bits ^ cosine_bits) & swap;
    const std::uint64_t sine_sign = (quarter & 2U) << 62U;
    const std::uint64_t cosine_sign = ((quarter + 1U) & 2U) << 62U;
    // Adding 0 leaves no negative zero.
    return {0.0 + bits_as<double>(sine_bits ^ exchanged ^ sine_sign),
            0.0 + bits_as<double>(cosine_bits ^ exchanged ^ cosine_sign)};
}

}  // namespace elementary

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
    const double r = (degrees - 90.0 * (rounded - kRound)) * kDegree;
    return past_quarters(r, bits_as<std::uint64_t>(rounded));
}

inline double sine_deg(double degrees) noexcept {
    return sine_cosine_deg(degrees).sine;
}
inline double cosine_deg(double degrees) noexcept {
    return sine_cosine_deg(degrees).cosine;
}

/// Tangent of an angle in degrees.
///
/// Given
///   degrees   |degrees| <= 1e6
/// Returned
///   infinite at odd quarters of a turn, one at 45 degrees; error at most 6e-16
inline double tangent_deg(double degrees) noexcept {
    const SineCosine of = sine_cosine_deg(degrees);
    return std::abs(degrees) == 45.0 ? std::copysign(1.0, degrees) : of.sine / of.cosine;
}

/// Sine and cosine of an angle in radians.
///
/// Given
///   radians   |radians| <= 1e5
/// Returned
///   error at most 4e-16, also beside the zeros
/// Source
///   pi/2 in three parts, of which the first two have 33 bits (fdlibm 5.3, 1993)
inline SineCosine sine_cosine(double radians) noexcept {
    using namespace elementary;
    const double rounded = radians * (2.0 / std::numbers::pi) + kRound;
    const double n = rounded - kRound;
    const double r = ((radians - n * 1.57079632673412561417e+00) - n * 6.07710050630396597660e-11) -
                     n * 2.02226624879595063154e-21;
    return past_quarters(r, bits_as<std::uint64_t>(rounded));
}

/// Sine and cosine of the angle, between -90 and 90 degrees, that has a tangent.
inline SineCosine sine_cosine_of_tangent(double x) noexcept {
    const double cosine = 1.0 / std::sqrt(1.0 + x * x);
    return {x * cosine, cosine};
}

/// Angle of a tangent, in radians.
///
/// Given
///   x   any number
/// Returned
///   -pi/2 to pi/2, NaN at NaN; error at most 2e-16
/// Source
///   arcs from 0, atan(1/2), pi/4, atan(3/2) and pi/2; coefficients of fdlibm 5.3 (1993)
inline double atan_of(double x) noexcept {
    const double t = std::abs(x);
    double u = t;
    double high = 0.0;
    double low = 0.0;
    if (t >= 2.4375) {
        u = -1.0 / t;
        high = 1.57079632679489655800e+00;
        low = 6.12323399573676603587e-17;
    } else if (t >= 1.1875) {
        u = (t - 1.5) / (1.0 + 1.5 * t);
        high = 9.82793723247329054082e-01;
        low = 1.39033110312309984516e-17;
    } else if (t >= 0.6875) {
        u = (t - 1.0) / (t + 1.0);
        high = 7.85398163397448278999e-01;
        low = 3.06161699786838301793e-17;
    } else if (t >= 0.4375) {
        u = (2.0 * t - 1.0) / (2.0 + t);
        high = 4.63647609000806093515e-01;
        low = 2.26987774529616870924e-17;
    }
    const double z = u * u;
    const double w = z * z;
    const double even =
        z * (3.33333333333329318027e-01 +
             w * (1.42857142725034663711e-01 +
                  w * (9.09088713343650656196e-02 +
                       w * (6.66107313738753120669e-02 +
                            w * (4.97687799461593236017e-02 + w * 1.62858201153657823623e-02)))));
    const double odd = w * (-1.99999999998764832476e-01 +
                            w * (-1.11111104054623557880e-01 +
                                 w * (-7.69187620504482999495e-02 +
                                      w * (-5.83357013379057348645e-02 + w * -3.65315727442169155270e-02))));
    return std::copysign(high - ((u * (even + odd) - low) - u), x);
}

/// Direction of a point (x, y) from the origin, in radians.
///
/// Given
///   y, x   finite, not both 0
/// Returned
///   -pi to pi; error at most 4e-16
inline double atan2_of(double y, double x) noexcept {
    const double past = atan_of(y / x);
    return x > 0.0 ? past : x < 0.0 ? past + std::copysign(std::numbers::pi, y) : past;
}

/// Angle of a cosine, in radians.
///
/// Given
///   x   -1 to 1
/// Returned
///   0 to pi, NaN outside; error at most 4e-16
inline double acos_of(double x) noexcept {
    return 2.0 * atan_of(std::sqrt((1.0 - x) / (1.0 + x)));
}

/// Angle of a sine, in radians.
///
/// Given
///   x   -1 to 1
/// Returned
///   -pi/2 to pi/2, NaN outside; error at most 4e-16
inline double asin_of(double x) noexcept {
    return atan_of(x / std::sqrt((1.0 - x) * (1.0 + x)));
}

/// Cube root.
///
/// Given
///   x   positive, neither subnormal nor infinite
/// Returned
///   error at most 2e-16; exact for cubes of numbers of up to 17 bits
/// Source
///   Halley's step from a root of so few bits that its square is exact, as in fdlibm 5.3 (1993)
inline double cbrt_of(double x) noexcept {
    constexpr std::uint64_t kHalf = 0x10000000U;  // of the last of 24 bits
    const auto near = elementary::bits_as<std::uint64_t>(exp2_of(log2_of(x) / 3.0));
    const auto t = elementary::bits_as<double>((near + kHalf) & ~(2U * kHalf - 1U));
    const double r = x / (t * t);
    return t + t * ((r - t) / (t + t + r));
}

}  // namespace halfnut
