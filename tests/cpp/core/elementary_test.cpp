#include "halfnut/core/elementary.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <random>

#include "halfnut/core/schema.hpp"
#include "halfnut/core/spread.hpp"
#include "halfnut/cutting/chip.hpp"

namespace halfnut {
namespace {

constexpr int kTrials = 200'000;
constexpr double kInf = std::numeric_limits<double>::infinity();

/// Extended precision of the C library: eleven bits more than a double.
double error(double got, long double true_value) {
    return static_cast<double>(std::abs((got - true_value) / true_value));
}

TEST(Elementary, Log2IsWithinItsStatedError) {
    std::mt19937_64 random(1);
    std::uniform_real_distribution<double> exponents(-1074.0, 1023.9);
    std::uniform_real_distribution<double> near(0.5, 2.0);
    double worst = 0.0;
    double worst_near_one = 0.0;
    for (int i = 0; i < kTrials; ++i) {
        const double x = std::exp2(exponents(random));
        const long double log = std::log2(static_cast<long double>(x));
        worst =
            std::max(worst, static_cast<double>(std::abs(log2_of(x) - log) / std::max(1.0L, std::abs(log))));
        const double y = near(random);
        worst_near_one = std::max(worst_near_one, error(log2_of(y), std::log2(static_cast<long double>(y))));
    }
    EXPECT_LE(worst, 4e-16);
    EXPECT_LE(worst_near_one, 4e-16);
    EXPECT_EQ(log2_of(1.0), 0.0);
    EXPECT_EQ(log2_of(8.0), 3.0);
    EXPECT_EQ(log2_of(std::numeric_limits<double>::denorm_min()), -1074.0);
    EXPECT_EQ(log2_of(0.0), -kInf);
    EXPECT_EQ(log2_of(kInf), kInf);
    EXPECT_TRUE(std::isnan(log2_of(-1.0)));
    EXPECT_TRUE(std::isnan(log2_of(kNaN)));
}

TEST(Elementary, Exp2IsWithinItsStatedError) {
    std::mt19937_64 random(2);
    std::uniform_real_distribution<double> exponents(-1021.4, 1023.4);
    double worst = 0.0;
    for (int i = 0; i < kTrials; ++i) {
        const double x = exponents(random);
        worst = std::max(worst, error(exp2_of(x), std::exp2(static_cast<long double>(x))));
    }
    EXPECT_LE(worst, 6e-16);
    EXPECT_EQ(exp2_of(0.0), 1.0);
    EXPECT_EQ(exp2_of(-3.0), 0.125);
    EXPECT_EQ(exp2_of(-1e300), 0.0);
    EXPECT_EQ(exp2_of(-kInf), 0.0);
    EXPECT_EQ(exp2_of(1e300), kInf);
    EXPECT_EQ(exp2_of(kInf), kInf);
    EXPECT_TRUE(std::isnan(exp2_of(kNaN)));
}

TEST(Elementary, PowerIsWithinItsStatedError) {
    std::mt19937_64 random(3);
    std::uniform_real_distribution<double> logs(-30.0, 30.0);
    std::uniform_real_distribution<double> exponents(-1.0, 1.0);
    for (int i = 0; i < kTrials; ++i) {
        const double x = std::exp2(logs(random));
        const double y = exponents(random);
        const long double true_value = std::pow(static_cast<long double>(x), static_cast<long double>(y));
        ASSERT_LE(error(power_of(x, y), true_value), 5e-16 * (1.0 + std::abs(y * std::log2(x))))
            << x << " " << y;
    }
    for (const double x : {0.0, 1e-300, 1.0, 7.5, kInf}) {
        EXPECT_EQ(power_of(x, 0.0), 1.0) << x;
    }
    EXPECT_EQ(power_of(0.0, -0.2), kInf);
    EXPECT_EQ(power_of(0.0, 0.2), 0.0);
    EXPECT_EQ(power_of(1.0, 0.3), 1.0);
    EXPECT_TRUE(std::isnan(power_of(kNaN, 0.5)));
}

TEST(Elementary, SineAndCosineAreWithinTheirStatedError) {
    std::mt19937_64 random(4);
    std::uniform_real_distribution<double> angles(-720.0, 720.0);
    const long double degree = std::acos(-1.0L) / 180.0L;
    for (int i = 0; i < kTrials; ++i) {
        const double angle = angles(random);
        const SineCosine got = sine_cosine_deg(angle);
        const long double sine = std::sin(angle * degree);
        const long double cosine = std::cos(angle * degree);
        ASSERT_NEAR(got.sine, static_cast<double>(sine), 4e-16 * std::abs(static_cast<double>(sine)) + 1e-18)
            << angle;
        ASSERT_NEAR(got.cosine, static_cast<double>(cosine),
                    4e-16 * std::abs(static_cast<double>(cosine)) + 1e-18)
            << angle;
    }
    for (int quarter = -8; quarter <= 8; ++quarter) {
        const SineCosine got = sine_cosine_deg(90.0 * quarter);
        EXPECT_EQ(got.sine, quarter % 2 == 0 ? 0.0 : (quarter & 2) != 0 ? -1.0 : 1.0) << quarter;
        EXPECT_EQ(got.cosine, quarter % 2 != 0 ? 0.0 : (quarter & 2) != 0 ? -1.0 : 1.0) << quarter;
        EXPECT_FALSE(std::signbit(got.sine) && got.sine == 0.0);
    }
    EXPECT_TRUE(std::isnan(sine_cosine_deg(kNaN).sine));
}

/// Worst error of a function over arguments between two numbers, against the C library in extended precision.
template <class Function, class True>
double worst_error(double low, double high, Function function, True true_value) {
    std::mt19937_64 random(6);
    std::uniform_real_distribution<double> arguments(low, high);
    double worst = 0.0;
    for (int i = 0; i < kTrials; ++i) {
        const double x = arguments(random);
        worst = std::max(worst, error(function(x), true_value(static_cast<long double>(x))));
    }
    return worst;
}

TEST(Elementary, ArcsAreWithinTheirStatedError) {
    const auto atan = [](long double x) { return std::atan(x); };
    EXPECT_LE(worst_error(0.0, 3.0, atan_of, atan), 2e-16);
    EXPECT_LE(worst_error(-1e3, 1e3, atan_of, atan), 2e-16);
    EXPECT_LE(worst_error(-1.0, 1.0, acos_of, [](long double x) { return std::acos(x); }), 4e-16);
    EXPECT_LE(worst_error(-1.0, 1.0, asin_of, [](long double x) { return std::asin(x); }), 4e-16);
    const auto at = [](double turn) { return atan2_of(std::sin(turn), std::cos(turn)); };
    EXPECT_LE(worst_error(
                  -3.14, 3.14, [&](double turn) { return at(turn); },
                  [](long double turn) {
                      const auto y = static_cast<long double>(std::sin(static_cast<double>(turn)));
                      return std::atan2(y, static_cast<long double>(std::cos(static_cast<double>(turn))));
                  }),
              4e-16);
    EXPECT_EQ(atan_of(0.0), 0.0);
    EXPECT_EQ(atan_of(kInf), std::numbers::pi / 2.0);
    EXPECT_EQ(atan_of(-1.0), -std::numbers::pi / 4.0);
    EXPECT_EQ(atan2_of(0.0, -1.0), std::numbers::pi);
    EXPECT_EQ(atan2_of(-1.0, 0.0), -std::numbers::pi / 2.0);
    EXPECT_EQ(acos_of(-1.0), std::numbers::pi);
    EXPECT_EQ(acos_of(1.0), 0.0);
    EXPECT_EQ(asin_of(1.0), std::numbers::pi / 2.0);
    for (const double outside : {-1.0000001, 1.0000001, kNaN}) {
        EXPECT_TRUE(std::isnan(acos_of(outside))) << outside;
        EXPECT_TRUE(std::isnan(asin_of(outside))) << outside;
    }
    EXPECT_TRUE(std::isnan(atan_of(kNaN)));
}

TEST(Elementary, SinesOfRadiansAndTangentsAreWithinTheirStatedError) {
    for (const double most : {0.1, 10.0, 1e5}) {
        EXPECT_LE(worst_error(
                      -most, most, [](double x) { return sine_cosine(x).sine; },
                      [](long double x) { return std::sin(x); }),
                  4e-16)
            << most;
        EXPECT_LE(worst_error(
                      -most, most, [](double x) { return sine_cosine(x).cosine; },
                      [](long double x) { return std::cos(x); }),
                  4e-16)
            << most;
    }
    EXPECT_LE(
        worst_error(-89.99, 89.99, tangent_deg,
                    [](long double x) { return std::tan(x * (std::numbers::pi_v<long double> / 180.0L)); }),
        6e-16);
    EXPECT_EQ(tangent_deg(90.0), kInf);
    EXPECT_EQ(tangent_deg(-45.0), -1.0);
    for (const double x : {-3.0, 0.0, 1e-9, 0.75, 1e6}) {
        const SineCosine got = sine_cosine_of_tangent(x);
        EXPECT_NEAR(got.sine, std::sin(std::atan(x)), 4e-16) << x;
        EXPECT_NEAR(got.cosine, std::cos(std::atan(x)), 4e-16) << x;
    }
}

TEST(Elementary, CubeRootIsWithinItsStatedError) {
    const auto cbrt = [](long double x) { return std::cbrt(x); };
    EXPECT_LE(worst_error(0.01, 1e3, cbrt_of, cbrt), 2e-16);
    EXPECT_LE(worst_error(1e-300, 1e-299, cbrt_of, cbrt), 2e-16);
    for (int i = 1; i < 1 << 17; ++i) {
        const double root = i;
        ASSERT_EQ(cbrt_of(root * root * root), root);
    }
}

TEST(Elementary, ShareOfANormalSpreadIsWithinItsStatedError) {
    std::mt19937_64 random(8);
    std::uniform_real_distribution<double> sigmas(-37.0, 37.0);
    for (int i = 0; i < kTrials; ++i) {
        const double z = i % 2 == 0 ? sigmas(random) : sigmas(random) / 12.0;
        const long double below =
            std::erfc(-static_cast<long double>(z) / std::numbers::sqrt2_v<long double>) / 2.0L;
        const long double beyond =
            std::erfc(static_cast<long double>(z) / std::numbers::sqrt2_v<long double>) / 2.0L;
        ASSERT_NEAR(normal_below(z), static_cast<double>(below),
                    5e-16 * static_cast<double>(z < 0.0 ? below * (1.0L + z * z) : 1.0L + beyond))
            << z;
    }
    EXPECT_EQ(normal_below(0.0), 0.5);
    EXPECT_EQ(normal_below(-kInf), 0.0);
    EXPECT_EQ(normal_below(kInf), 1.0);
    EXPECT_TRUE(std::isnan(normal_below(kNaN)));
}

/// The angle itself goes by way of the inverse tangent; its sine and cosine do not.
TEST(Elementary, MeanEnteringAgreesWithItsAngle) {
    std::mt19937_64 random(5);
    std::uniform_real_distribution<double> depths(0.01, 4.0);
    std::uniform_real_distribution<double> noses(0.0, 1.6);
    std::uniform_real_distribution<double> edges(15.0, 120.0);
    for (int i = 0; i < kTrials; ++i) {
        const double depth = depths(random);
        const double nose = i % 7 == 0 ? 0.0 : noses(random);
        const double edge = edges(random);
        const double angle = cutting::mean_entering_deg(depth, nose, edge) * kDegree;
        const SineCosine got = cutting::mean_entering(depth, nose, sine_cosine_deg(edge));
        ASSERT_NEAR(got.sine, std::sin(angle), 1e-14) << depth << " " << nose << " " << edge;
        ASSERT_NEAR(got.cosine, std::abs(std::cos(angle)), 1e-14) << depth << " " << nose << " " << edge;
    }
}

}  // namespace
}  // namespace halfnut
