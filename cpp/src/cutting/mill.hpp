#pragma once
// What a milling cut is made of, shared by one cut and by the choice of passes.

#include "halfnut/cutting/milling.hpp"
#include "steps.hpp"

namespace halfnut::cutting::milling {

inline constexpr double kForm = 1.2;  // Tschaetsch: interrupted chips are harder to form
inline constexpr double kRubbingChipMm = 0.005;
inline constexpr double kUsualFeedShare = 0.003;  // of the diameter a tooth, where no table has a feed,
inline constexpr double kUsualFeedMostMm = 0.05;  // and the most then
inline constexpr double kEndMillWear = 1.1;       // Machinery's Handbook, milling, recalled
inline constexpr double kFaceWear = 1.25;

/// 10 mm in steps of 2.5 is four passes, whatever the last bit says.
inline constexpr double kSameStep = 1e-9;

/// Most down in one pass where nothing is given.
[[nodiscard]] double usual_down(MillShape shape, double cutter_diameter_mm) noexcept;

/// Most across in one pass where nothing is given.
[[nodiscard]] double usual_over(MillShape shape, double cutter_diameter_mm) noexcept;

/// Feed a tooth where no table has one.
[[nodiscard]] double usual_feed(double cutter_diameter_mm) noexcept;

/// Factor on the force of a sharp edge at which limits are judged; 1 where a wear is given.
[[nodiscard]] double ordinary_wear(const MillRequest& request) noexcept;

/// Deflection of the cutter under a force across it, mm; NaN without a stick-out.
[[nodiscard]] double bend_mm(const MillRequest& request, double force_n) noexcept;

/// Mean roughness that the marks of a leading tooth leave, um; NaN for a slot, whose floor an end mill's
/// sharp corners cut.
[[nodiscard]] double finish_um(const MillRequest& request, double feed_mm_rev) noexcept;

/// Travel of one pass that bites so wide: length, run-in to full width, gap, and a face mill's run-out.
[[nodiscard]] double pass_travel(const MillRequest& request, double bite_mm) noexcept;

}  // namespace halfnut::cutting::milling
