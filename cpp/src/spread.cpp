#include "halfnut/spread.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

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

double normal_below(double z) noexcept {
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}
double normal_density(double z) noexcept {
    return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
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
    const double scale =
        internal.fixed() && external.fixed() ? high - low : std::hypot(internal.sigma, external.sigma);
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
