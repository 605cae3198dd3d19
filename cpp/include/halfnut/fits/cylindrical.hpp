#pragma once
/// Plain holes and shafts: limits of size by ISO 286 and ANSI B4.1, and how a pair goes together.
///
///     25 H7   25 g6   25 H7/g6   1 in H7/g6   1 RC4   1 1/4 in LN2   25.4 mm RC4
///
/// A number without a unit is in millimetres for ISO 286 and in inches for ANSI B4.1. Sizes are whole
/// millionths of the standard's unit (nm or microinches), so that no sum of a table's figures is rounded.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/core/level1.hpp"

namespace halfnut::fits {

enum class FitSystem : std::uint8_t { iso_286, ansi_b4_1 };

/// Letters of ISO 286 in the order from most clearance to most interference; a hole's are capitals.
inline constexpr std::array<std::string_view, 28> kLetters{
    "a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "js", "j",  "k",
    "m", "n", "p", "r",  "s", "t", "u",  "v", "x",  "y", "z", "za", "zb", "zc"};

inline constexpr int kNoGrade = -2;

/// A tolerance class: letter and grade. Grade 0 is IT0, -1 is IT01.
struct ToleranceClass {
    std::uint8_t letter = 0;  ///< place in kLetters
    int grade = kNoGrade;
    bool hole = false;

    [[nodiscard]] constexpr bool given() const noexcept { return grade != kNoGrade; }
    friend constexpr bool operator==(const ToleranceClass&, const ToleranceClass&) = default;
};

/// A nominal size with its tolerance classes, or with its fit of ANSI B4.1.
struct Cylinder {
    FitSystem system{};
    std::int64_t nominal_units = 0;  ///< 1e-6 mm or 1e-6 in
    ToleranceClass hole;
    ToleranceClass shaft;
    std::string ansi_fit;  ///< such as "RC4"; empty for ISO 286

    [[nodiscard]] bool inch() const noexcept { return system == FitSystem::ansi_b4_1; }
    friend bool operator==(const Cylinder&, const Cylinder&) = default;
};

/// A reading that failed: where, and why.
struct CylinderProblem {
    std::size_t position = 0;  ///< byte from 0
    std::string message;
};

/// Read a size with its classes without throwing.
///
/// Returned
///   ok and `out`, or not_understood and `problem` if it is given
[[nodiscard]] Status read_cylinder(std::string_view text, const Catalogue& catalogue, Cylinder& out,
                                   CylinderProblem* problem = nullptr);

/// Read a size with its classes.
///
/// Errors
///   DesignationError  not understood, with the position
/// Example
///   parse_cylinder("25 H7/g6", builtin()).nominal_units = 25000000
[[nodiscard]] Cylinder parse_cylinder(std::string_view text, const Catalogue& catalogue);

/// The one canonical spelling: "25 H7/g6", "1.25 RC4".
[[nodiscard]] std::string format_cylinder(const Cylinder& cylinder);

/// "H7", "js6", "k01".
[[nodiscard]] std::string format_class(const ToleranceClass& tolerance_class);

/// Where limits come from, the least sure of their figures deciding.
enum class FigureKind : std::uint8_t {
    printed,  ///< every figure is a cell of a print
    derived,  ///< by the standard's rule from printed cells
    memory,   ///< a figure is recalled
    shop,     ///< a figure is the shop's own
};

constexpr auto enum_names(FigureKind /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FigureKind::printed, string_view("printed")},
                      std::pair{FigureKind::derived, string_view("derived")},
                      std::pair{FigureKind::memory, string_view("memory")},
                      std::pair{FigureKind::shop, string_view("shop")}};
}

/// Limits of one part: deviations from the nominal size, 1e-6 mm or 1e-6 in.
struct Zone {
    bool given = false;
    std::int64_t upper = 0;
    std::int64_t lower = 0;
    FigureKind kind{};

    [[nodiscard]] std::int64_t tolerance() const noexcept { return upper - lower; }
};

enum class FitCharacter : std::uint8_t { none, clearance, transition, interference };

constexpr auto enum_names(FitCharacter /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FitCharacter::none, string_view("none")},
                      std::pair{FitCharacter::clearance, string_view("clearance")},
                      std::pair{FitCharacter::transition, string_view("transition")},
                      std::pair{FitCharacter::interference, string_view("interference")}};
}

/// Figures of a CylinderLimits, for evidence.
inline constexpr std::array<std::string_view, 3> kCylinderFigures{"hole", "shaft", "clearance"};

struct CylinderLimits {
    Zone hole;
    Zone shaft;
    std::int64_t clearance_min = 0;  ///< hole minimum less shaft maximum; below 0 an interference
    std::int64_t clearance_max = 0;
    FitCharacter character{};
    Evidence<12> evidence;
};

/// Limits of size, without throwing.
///
/// Returned
///   ok and `out`; or, with `why` (if it is given) saying it in words,
///     out_of_range   a nominal size that no table reaches
///     not_tabulated  a letter or grade that the standard does not give at this size, or no such fit
/// Notes
///   1) js and JS stand half a tolerance to either side, odd ones too; ISO 286 allows rounding them to an
///      even number for IT7 to IT11, which is not done here.
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const Cylinder& cylinder, CylinderLimits& out,
                              std::string* why = nullptr);

/// Limits of size.
///
/// Errors
///   DomainError        the nominal size is out of range
///   NotTabulatedError  no such class at this size
/// Example
///   cylinder_limits(builtin(), parse_cylinder("25 H7/g6", builtin())).clearance_max = 41000
[[nodiscard]] CylinderLimits cylinder_limits(const Catalogue& catalogue, const Cylinder& cylinder);

struct ToleranceUnit {
    static constexpr std::string_view name = "tolerance_unit_um";
    static constexpr std::array arguments{between("diameter_mm", 1e-3, 3150.0, "mm")};
    static double compute(double diameter) noexcept {
        return diameter <= 500.0 ? 0.45 * cbrt_of(diameter) + 0.001 * diameter : 0.004 * diameter + 2.1;
    }
};

/// Standard tolerance unit of ISO 286.
///
///     i = 0.45 cbrt D + 0.001 D to 500 mm;  I = 0.004 D + 2.1 above
///
/// Given
///   diameter_mm  D, geometric mean of a range of sizes, mm, 0.001 to 3150
/// Returned
///   um
/// Errors
///   DomainError  out of range
/// Source
///   Narayana, Kannaiah, Venkata Reddy, Machine Drawing, table 15.4; above 500 mm recalled from ISO 286-1
/// Example
///   tolerance_unit_um(23.2379) = 1.307375
inline double tolerance_unit_um(double diameter_mm) {
    return scalar<ToleranceUnit>(diameter_mm);
}

/// One part as it meets the other.
struct MeetingPart {
    double min_mm = kNaN;  ///< bare, at 20 C; a measured size has both ends equal
    double max_mm = kNaN;
    double build_up_min_um = 0.0;  ///< of one surface
    double build_up_max_um = 0.0;
    double temperature_c = 20.0;
    double expansion_um_m_k = 0.0;  ///< 1e-6 per kelvin
};

struct MeetingRequest {
    MeetingPart hole;
    MeetingPart shaft;
    double tolerance_over_sigma = 6.0;
    double mean_shift = 0.0;  ///< 0 the middle of the zone, 1 the maximum-material limit, -1 the other
};

inline constexpr std::array kMeetingArguments{
    positive("hole_min_mm", "mm"),
    positive("hole_max_mm", "mm"),
    finite("hole_build_up_min_um", "um"),
    finite("hole_build_up_max_um", "um"),
    between("hole_temperature_c", -200.0, 1000.0, "C"),
    between("hole_expansion_um_m_k", -10.0, 200.0),
    positive("shaft_min_mm", "mm"),
    positive("shaft_max_mm", "mm"),
    finite("shaft_build_up_min_um", "um"),
    finite("shaft_build_up_max_um", "um"),
    between("shaft_temperature_c", -200.0, 1000.0, "C"),
    between("shaft_expansion_um_m_k", -10.0, 200.0),
    between("tolerance_over_sigma", 2.0, 100.0),
    between("mean_shift", -1.0, 1.0),
};

inline constexpr std::array<std::string_view, 5> kMeetingFigures{"clearance_min_mm", "clearance_max_mm",
                                                                 "clearance_mean_mm", "clearance_sigma_mm",
                                                                 "chance_of_interference"};

/// A hole and a shaft coated, at their temperatures, cut as a shop cuts them.
struct Meeting {
    double clearance_min_mm = kNaN;
    double clearance_max_mm = kNaN;
    double clearance_mean_mm = kNaN;
    double clearance_sigma_mm = kNaN;
    double chance_of_interference = kNaN;
    Evidence<4> evidence;

    [[nodiscard]] std::array<double, kMeetingFigures.size()> figures() const noexcept {
        return {clearance_min_mm, clearance_max_mm, clearance_mean_mm, clearance_sigma_mm,
                chance_of_interference};
    }
};

/// How a hole and a shaft meet, without throwing.
///
/// Returned
///   ok and `out`; not_finite or out_of_range with the argument (see kMeetingArguments); inconsistent where
///   a minimum is above its maximum
[[nodiscard]] Status evaluate(const MeetingRequest& request, Meeting& out) noexcept;

/// How a hole and a shaft meet.
///
/// Errors
///   DomainError  an input is out of its range
[[nodiscard]] Meeting meeting(const MeetingRequest& request);

}  // namespace halfnut::fits
