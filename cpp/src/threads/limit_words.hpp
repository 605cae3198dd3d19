#pragma once
// What is said of limits of size, and the outline that they give.

#include <string>
#include <string_view>
#include <vector>

#include "halfnut/threads/questions.hpp"

namespace halfnut::threads {

/// "major 9.968/9.732, pitch 8.994/8.862, minor 8.344/7.938 mm": the greater limit first, in the order that
/// they are cut.
[[nodiscard]] std::string sizes_said(const LimitsAnswer& answer);

/// The minor diameter of an external Unified thread is for reference.
[[nodiscard]] bool minor_for_reference(const LimitsAnswer& answer);

/// How limits before a coating come about; empty of others.
[[nodiscard]] std::string coating_said(const LimitsAnswer& answer);

/// What keeps a class's own limits under a coating.
[[nodiscard]] std::vector<std::string> remedies(const PartLimits& limits);

/// Lines under the answer: limits in both units, what sets them and what they rest on, what a coating makes
/// of them.
[[nodiscard]] std::vector<std::string> printed_lines(const LimitsAnswer& answer);

/// "6g and 6H, the usual ones, taken"; empty where classes were given.
[[nodiscard]] std::string class_taken(const LimitsAnswer& answer);

/// Corners of a turn's outline, from groove to groove of the external part: place along the axis and radius,
/// one corner after the other, in the standard's own unit. Empty where a limit that it needs is not set.
[[nodiscard]] std::vector<double> profile_most(const LimitsAnswer& answer);
[[nodiscard]] std::vector<double> profile_least(const LimitsAnswer& answer);

}  // namespace halfnut::threads
