#pragma once
/// What practice says of a threaded joint: which metals gall, with what friction they turn, how far they are
/// to engage, what a bolt of a grade bears.

#include <string_view>

#include "halfnut/catalogue.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/threads/joint_tables.hpp"

namespace halfnut::threads {

/// How two alloys go together in a thread: the row nearest to both in the tree of groups, in either order.
[[nodiscard]] const GallingRow& galling(const Catalogue& catalogue, const material::AlloyRow& one,
                                        const material::AlloyRow& other);

/// Friction of two alloys with a lubricant: the row of the metal that slides worse.
///
/// Errors
///   NotTabulatedError  no such lubricant for either metal; the message lists those there are
[[nodiscard]] const ThreadFrictionRow& thread_friction(const Catalogue& catalogue,
                                                       const material::AlloyRow& one,
                                                       const material::AlloyRow& other,
                                                       std::string_view lubricant);

/// Length of engagement by practice for an internal thread in an alloy.
[[nodiscard]] const EngagementPracticeRow& engagement_practice(const Catalogue& catalogue,
                                                               const material::AlloyRow& internal,
                                                               Loading loading);

/// The row's length for a nominal diameter, mm, full form.
[[nodiscard]] double engagement_by_practice_mm(const EngagementPracticeRow& row, double diameter_mm) noexcept;

struct BoltStrength {
    const BoltGradeRow* row = nullptr;
    double proof_mpa = kNaN;  ///< NaN: the standard sets none
    double tensile_mpa = kNaN;
    double yield_mpa = kNaN;
};

/// Minimum strengths of a bolt of a grade or property class.
///
/// Errors
///   NotTabulatedError  no such grade (the message offers the nearest), or not at this diameter
/// Example
///   bolt_strength(builtin(), "8.8", 10.0).tensile_mpa = 800.0
[[nodiscard]] BoltStrength bolt_strength(const Catalogue& catalogue, std::string_view grade,
                                         double diameter_mm);

}  // namespace halfnut::threads
