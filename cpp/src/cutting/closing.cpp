#include "halfnut/cutting/closing.hpp"

#include <algorithm>
#include <cmath>

#include "halfnut/fits/tables.hpp"

namespace halfnut::cutting {
namespace {

constexpr double kRoundoff = 1e-9;

constexpr double kKeenMm = 0.05;
constexpr double kHonedMm = 0.1;
constexpr double kHardeningMm = 0.1;
constexpr double kHonedOverNose = 1.0 / 3.0;

// An instrument errs by at most a fifth of the band.
constexpr double kCaliperBandMm = 0.15;
constexpr double kTelescopicBandMm = 0.05;
constexpr double kMicrometerBandMm = 0.02;
constexpr double kCaliperMm = 0.03;
constexpr double kTelescopicMm = 0.01;
constexpr double kOnGaugeMm = 0.002;
constexpr int kCloseGrade = 6;

double screw_error_mm(double size_mm) noexcept {
    return 0.004 + 0.001 * std::max(0.0, std::ceil(size_mm / 50.0) - 1.0);
}

bool six_or_closer(const Catalogue& catalogue, double size_mm, double band_mm) noexcept {
    for (const fits::IsoGradeRow& row : catalogue.iso_grades) {
        if (row.grade == kCloseGrade && size_mm > row.over_mm && size_mm <= row.to_mm) {
            return band_mm <= row.tolerance_um / 1000.0 * (1.0 + 1e-6);
        }
    }
    return false;
}

}  // namespace

Measured measured_with(bool inside, bool along, double size_mm, double band_mm) noexcept {
    if (!(band_mm < kCaliperBandMm * (1.0 - kRoundoff))) {
        return {Instrument::caliper, kCaliperMm};
    }
    if (along) {
        return {Instrument::depth_micrometer, screw_error_mm(size_mm)};
    }
    if (inside) {
        return band_mm >= kTelescopicBandMm ? Measured{Instrument::telescopic_gauge, kTelescopicMm}
                                            : Measured{Instrument::bore_gauge, screw_error_mm(size_mm)};
    }
    return band_mm >= kMicrometerBandMm ? Measured{Instrument::micrometer, screw_error_mm(size_mm)}
                                        : Measured{Instrument::micrometer_on_gauge, kOnGaugeMm};
}

Closing closing(const Catalogue& catalogue, const ClosingRequest& asked) noexcept {
    Closing out;
    const double band = asked.band_mm;
    const bool halves = band < kWideBandMm;
    out.low_mm = std::max(asked.least_mm, halves ? kHalfLowMm : kOneCutLowMm);
    out.high_mm = std::max(halves ? kHalfHighMm : kOneCutHighMm, 1.5 * out.low_mm);
    out.aim_mm = std::max(halves ? (kHalfLowMm + kHalfHighMm) / 2.0 : kOneCutAimMm, out.low_mm);
    out.way = std::isnan(band) ? ClosingWay::one_unmeasured
              : halves         ? ClosingWay::halves
                               : ClosingWay::one_measured;
    const Measured with = measured_with(asked.inside, asked.along, asked.size_mm, band);
    out.instrument = with.instrument;
    out.error_mm = with.error_mm;
    if (std::isnan(band)) {
        return out;
    }
    const double warm = kWarmthK * asked.expansion_um_m_k * 1e-6 * asked.size_mm;  // NaN: not known
    out.cold = warm > kWarmthShare * band;
    out.third = !asked.along && six_or_closer(catalogue, asked.size_mm, band);
    const double on_size = asked.along ? 0.5 : 1.0;  // half a line of the slide, twice that on a diameter
    const double most = kDialShare * band / 2.0;
    out.reach_mm = on_size * asked.line_mm + out.error_mm;
    if (out.reach_mm > most && !std::isnan(asked.fine_line_mm)) {
        out.compound = true;
        out.reach_mm = on_size * asked.fine_line_mm + out.error_mm;
    }
    out.coarse = out.reach_mm > most;
    return out;
}

double least_depth_mm(const material::AlloyRow& alloy, ToolMaterial tool, double nose_radius_mm) noexcept {
    using material::Iso513;
    const bool carbide = tool == ToolMaterial::carbide || tool == ToolMaterial::carbide_coated;
    const bool ground = tool == ToolMaterial::carbide && alloy.iso513 == Iso513::n;
    const double edge = !carbide || ground ? kKeenMm : std::max(kHonedMm, kHonedOverNose * nose_radius_mm);
    const bool hardens = alloy.iso513 == Iso513::m || alloy.iso513 == Iso513::s;
    return hardens ? std::max(edge, kHardeningMm) : edge;
}

}  // namespace halfnut::cutting
