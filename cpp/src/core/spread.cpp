#include "halfnut/core/spread.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "halfnut/core/elementary.hpp"

namespace halfnut {
namespace {

/// 16-point Gauss-Legendre rule on -1 to 1; the other half by symmetry.
constexpr std::array<std::pair<double, double>, 8> kGauss{{
    {0.095012509837637441, 0.18945061045506864},
    {0.28160355077925892, 0.18260341504492364},
    {0.45801677765722737, 0.16915651939500265},
    {0.61787624440264377, 0.14959598881657671},
    {0.755404408355003, 0.12462897125553407},
    {0.86563120238783176, 0.095158511682492605},
    {0.9445750230732326, 0.062253523938647456},
    {0.98940093499164994, 0.027152459411754176},
}};

/// Integral in panels no wider than four times a scale on which the function changes.
template <class Function>
double integrate(double from, double to, double scale, const Function& function) noexcept {
    constexpr double kMostPanels = 64.0;
    const double panels = std::clamp(std::ceil((to - from) / (4.0 * scale)), 1.0, kMostPanels);
    const double half = 0.5 * (to - from) / panels;
    double sum = 0.0;
    for (double panel = 0.0; panel < panels; panel += 1.0) {
        const double middle = from + (2.0 * panel + 1.0) * half;
        for (const auto& [node, weight] : kGauss) {
            sum += weight * (function(middle - half * node) + function(middle + half * node));
        }
    }
    return half * sum;
}

/// Coefficients of a polynomial, the constant first.
template <std::size_t N>
constexpr double polynomial(const std::array<double, N>& coefficients, double x) noexcept {
    double sum = 0.0;
    for (std::size_t i = N; i > 0; --i) {
        sum = sum * x + coefficients[i - 1];
    }
    return sum;
}

/// A rational function of 1 / x^2 in the tail of the error function, from one x on.
struct Tail {
    std::array<double, 8> over;
    std::array<double, 9> under;
};
// fdlibm 5.3 (1993), s_erf.c: x < 0.84375, 0.84375 to 1.25, from there to 1 / 0.35, and beyond.
constexpr std::array kNearOver{1.28379167095512558561e-01, -3.25042107247001499370e-01,
                               -2.84817495755985104766e-02, -5.77027029648944159157e-03,
                               -2.37630166566501626084e-05};
constexpr std::array kNearUnder{1.0,
                                3.97917223959155352819e-01,
                                6.50222499887672944485e-02,
                                5.08130628187576562776e-03,
                                1.32494738004321644526e-04,
                                -3.96022827877536812320e-06};
constexpr double kErfOne = 8.45062911510467529297e-01;
constexpr std::array kOneOver{-2.36211856075265944077e-03, 4.14856118683748331666e-01,
                              -3.72207876035701323847e-01, 3.18346619901161753674e-01,
                              -1.10894694282396677476e-01, 3.54783043256182359371e-02,
                              -2.16637559486879084300e-03};
constexpr std::array kOneUnder{1.0,
                               1.06420880400844228286e-01,
                               5.40397917702171048937e-01,
                               7.18286544141962662868e-02,
                               1.26171219808761642112e-01,
                               1.36370839120290507362e-02,
                               1.19844998467991074170e-02};
constexpr Tail kMiddle{{-9.86494403484714822705e-03, -6.93858572707181764372e-01, -1.05586262253232909814e+01,
                        -6.23753324503260060396e+01, -1.62396669462573470355e+02, -1.84605092906711035994e+02,
                        -8.12874355063065934246e+01, -9.81432934416914548592e+00},
                       {1.0, 1.96512716674392571292e+01, 1.37657754143519042600e+02,
                        4.34565877475229228821e+02, 6.45387271733267880336e+02, 4.29008140027567833386e+02,
                        1.08635005541779435134e+02, 6.57024977031928170135e+00, -6.04244152148580987438e-02}};
constexpr Tail kFar{{-9.86494292470009928597e-03, -7.99283237680523006574e-01, -1.77579549177547519889e+01,
                     -1.60636384855821916062e+02, -6.37566443368389627722e+02, -1.02509513161107724954e+03,
                     -4.83519191608651397019e+02, 0.0},
                    {1.0, 3.03380607434824582924e+01, 3.25792512996573918826e+02, 1.53672958608443695994e+03,
                     3.19985821950859553908e+03, 2.55305040643316442583e+03, 4.74528541206955367215e+02,
                     -2.24409524465858183362e+01, 0.0}};

double exponential(double x) noexcept {
    return exp2_of(x * std::numbers::log2e);
}
double normal_density(double z) noexcept {
    return exponential(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
}

double share(const Spread& s) noexcept {
    return normal_below((s.high - s.mean) / s.sigma) - normal_below((s.low - s.mean) / s.sigma);
}
double density(const Spread& s, double x) noexcept {
    return normal_density((x - s.mean) / s.sigma) / (s.sigma * share(s));
}
double below(const Spread& s, double x) noexcept {
    if (x <= s.low) {
        return 0.0;
    }
    return x >= s.high
               ? 1.0
               : (normal_below((x - s.mean) / s.sigma) - normal_below((s.low - s.mean) / s.sigma)) / share(s);
}

/// Chance that an internal size less an external one is below a number.
double below(const Spread& internal, const Spread& external, double number) noexcept {
    if (internal.fixed() && external.fixed()) {
        return internal.low - external.low < number ? 1.0 : 0.0;
    }
    if (internal.fixed()) {
        return 1.0 - below(external, internal.low - number);
    }
    if (external.fixed()) {
        return below(internal, external.low + number);
    }
    std::array points{internal.low, std::clamp(external.low + number, internal.low, internal.high),
                      std::clamp(external.high + number, internal.low, internal.high), internal.high};
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        if (points[i + 1] > points[i]) {
            sum += integrate(
                points[i], points[i + 1], std::min(internal.sigma, external.sigma),
                [&](double x) { return density(internal, x) * (1.0 - below(external, x - number)); });
        }
    }
    return std::clamp(sum, 0.0, 1.0);
}

}  // namespace

double normal_below(double z) noexcept {
    const double x = std::abs(z) / std::numbers::sqrt2;
    double beyond = 0.5;  // half the complement of the error function
    if (x < 0.84375) {
        beyond = 0.5 - 0.5 * (x + x * (polynomial(kNearOver, x * x) / polynomial(kNearUnder, x * x)));
    } else if (x < 1.25) {
        const double s = x - 1.0;
        beyond = 0.5 * (1.0 - kErfOne - polynomial(kOneOver, s) / polynomial(kOneUnder, s));
    } else {
        const double s = 1.0 / (x * x);
        const Tail& tail = x < 1.0 / 0.35 ? kMiddle : kFar;
        beyond =
            0.5 * exponential(-x * x - 0.5625 + polynomial(tail.over, s) / polynomial(tail.under, s)) / x;
    }
    return z < 0.0 ? beyond : 1.0 - beyond;
}

double Spread::expected() const noexcept {
    if (fixed()) {
        return low;
    }
    const double a = (low - mean) / sigma;
    const double b = (high - mean) / sigma;
    return mean + sigma * (normal_density(a) - normal_density(b)) / share(*this);
}

double Spread::variance() const noexcept {
    if (fixed()) {
        return 0.0;
    }
    const double a = (low - mean) / sigma;
    const double b = (high - mean) / sigma;
    const double part = share(*this);
    const double shift = (normal_density(a) - normal_density(b)) / part;
    return sigma * sigma * (1.0 + (a * normal_density(a) - b * normal_density(b)) / part - shift * shift);
}

double chance_of_interference(const Spread& internal, const Spread& external, const Interval& first,
                              const Interval& second) noexcept {
    const double low = first.low + second.low;
    const double high = first.high + second.high;
    if (internal.low - external.high - high >= 0.0) {
        return 0.0;
    }
    if (internal.high - external.low - low < 0.0) {
        return 1.0;
    }
    const double wide = std::max(first.high - first.low, second.high - second.low);
    const double narrow = std::min(first.high - first.low, second.high - second.low);
    constexpr double kNoRange = 1e-12;  // a density over less would overflow
    if (!(wide > kNoRange)) {
        return below(internal, external, low);
    }
    // The sum of two even ranges rises, stays and falls; the difference of the sizes kinks where limits meet.
    const auto weight = [&](double s) {
        const double in = std::min(s - low, high - s);
        return narrow > 0.0 ? std::min(in / narrow, 1.0) / wide : 1.0 / wide;
    };
    std::array points{low,
                      low + narrow,
                      high - narrow,
                      high,
                      internal.low - external.high,
                      internal.low - external.low,
                      internal.high - external.high,
                      internal.high - external.low};
    for (double& point : points) {
        point = std::clamp(point, low, high);
    }
    std::sort(points.begin(), points.end());
    const double scale = internal.fixed() && external.fixed()
                             ? high - low
                             : std::sqrt(internal.sigma * internal.sigma + external.sigma * external.sigma);
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        if (points[i + 1] > points[i]) {
            sum += integrate(points[i], points[i + 1], scale,
                             [&](double s) { return weight(s) * below(internal, external, s); });
        }
    }
    return std::clamp(sum, 0.0, 1.0);
}

}  // namespace halfnut
