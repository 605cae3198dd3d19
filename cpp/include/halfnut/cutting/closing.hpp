#pragma once
/// How a turned, bored, faced or milled size is closed on: in how many measured cuts, how deep they are, what
/// the size is measured with, and which dial sets the cut.
///
///   no limits given       rough, one cut; to the general tolerance, by the dial
///   band >= 0.1 mm        rough, measure, one cut by what is left
///   band <  0.1 mm        rough, measure, half of what is left, measure, the rest: the same depth, feed and
///                         speed, so that work and tool spring alike and the first cut tells what the second
///                         takes
///   IT6 or closer         as the last, and a third time, or filed, honed or ground to size
///
/// The band is on the diameter in turning and boring, along the axis in facing; depths are those of the
/// slide.

#include "halfnut/core/catalogue.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// How the last cuts are divided.
HALFNUT_ENUM(ClosingWay, free, one_unmeasured, one_measured, halves)

/// What a size is measured with.
HALFNUT_ENUM(Instrument, none, caliper, micrometer, micrometer_on_gauge, telescopic_gauge, bore_gauge,
             depth_micrometer)

/// Band from which one measured cut does, mm.
inline constexpr double kWideBandMm = 0.1;
/// Finishing cuts, mm of the slide: one alone, and each of two.
inline constexpr double kOneCutLowMm = 0.125;
inline constexpr double kOneCutHighMm = 0.5;
inline constexpr double kOneCutAimMm = 0.2;
inline constexpr double kHalfLowMm = 0.1;
inline constexpr double kHalfHighMm = 0.25;
/// Share of the cut that follows by which the pass before a measurement may deflect.
inline constexpr double kSpringShare = 0.25;
/// Share of the band by which a single measured cut and the pass before it may deflect, on the radius.
inline constexpr double kSpringBandShare = 0.1;
/// Warmth that work is measured at where nothing is said, and share of the band above which that counts, K.
inline constexpr double kWarmthK = 10.0;
inline constexpr double kWarmthShare = 0.1;
/// Share of half the band that dial and instrument may take before a finer dial is wanted.
inline constexpr double kDialShare = 0.8;
/// A compound at 5.74 degrees from the bed goes a tenth of its dial across: sin 5.74 deg = 0.1.
inline constexpr double kFineShare = 0.1;

struct ClosingRequest {
    bool inside = false;
    bool along = false;          ///< a length, along the axis
    double size_mm = kNaN;       ///< finished
    double band_mm = kNaN;       ///< NaN: no limits
    double line_mm = kNaN;       ///< travel for one line of the slide that sets the cut
    double fine_line_mm = kNaN;  ///< the same with the compound set over; NaN: there is none
    double least_mm = 0.0;       ///< that edge and alloy can cut
    double expansion_um_m_k = kNaN;
};

struct Closing {
    ClosingWay way{};
    Instrument instrument{};
    double low_mm = kNaN;  ///< of each finishing cut
    double high_mm = kNaN;
    double aim_mm = kNaN;
    double error_mm = kNaN;  ///< of the instrument, either way
    double reach_mm = kNaN;  ///< half a line of the dial and the instrument, either way on the size
    bool cold = false;       ///< warm work would measure too large by more than a tenth of the band
    bool compound = false;   ///< the last cuts by the compound, set over
    bool coarse = false;     ///< dial and instrument take more of the band than they may
    bool third = false;      ///< IT6 or closer
};

struct Measured {
    Instrument instrument{};
    double error_mm = kNaN;  ///< either way
};

/// What a size is measured with: the handiest instrument that errs by at most a fifth of the band between its
/// limits, as far as one does.
///
/// Errors of instruments, either way, mm: caliper 0.03; outside micrometer, three-point bore gauge and depth
/// micrometer 0.004 to 50 mm, 0.001 more each further 50 mm; micrometer set on a gauge of the size 0.002;
/// telescopic gauge in a practised hand 0.01.
///
/// Given
///   inside, along  a hole; a length along the axis
///   size_mm        finished
///   band_mm        between its limits; NaN: it has none
/// Source
///   instruments: common practice; errors: ISO 13385-1 and ISO 3611, recalled
[[nodiscard]] Measured measured_with(bool inside, bool along, double size_mm, double band_mm) noexcept;

/// How a size is closed on.
///
/// Source
///   way, cuts: common practice; grades: ISO 286
[[nodiscard]] Closing closing(const Catalogue& catalogue, const ClosingRequest& request) noexcept;

/// Least depth that an edge cuts without rubbing, mm of the slide.
///
///     high-speed steel, cast cobalt           0.05
///     carbide, ground, for aluminium, copper  0.05
///     carbide, honed                          0.1, a third of the nose radius if that is more
///     stainless, titanium, nickel             0.1 at least
///
/// Source
///   common practice
[[nodiscard]] double least_depth_mm(const material::AlloyRow& alloy, ToolMaterial tool,
                                    double nose_radius_mm) noexcept;

}  // namespace halfnut::cutting
