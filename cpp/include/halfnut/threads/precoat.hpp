#pragma once
/// Limits to cut a thread to before it is coated.
///
/// Both standards let a class with an allowance (6g, 2A) keep its limits before coating: the coating uses the
/// allowance up, and the coated part is gauged at the basic size (the go gauge of position h or H, of class
/// 3A). Where there is no allowance, or too little, the limits move by what the coating adds: the
/// maximum-material ones by its greatest build-up, the minimum-material ones by its least.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

/// Where the coated part is to gauge.
enum class GaugedAt : std::uint8_t {
    basic,      ///< go at the basic size, as both standards say of coated threads
    own_class,  ///< go at the class's own limit, so that the allowance is there after coating, too
};

constexpr auto enum_names(GaugedAt /*tag*/) {
    using std::string_view;
    return std::array{std::pair{GaugedAt::basic, string_view("basic")},
                      std::pair{GaugedAt::own_class, string_view("class")}};
}

struct PrecoatRequest {
    Thread thread;  ///< with exactly one class: the part that is meant
    BuildUp build_up;
    GaugedAt gauged_at = GaugedAt::basic;
    LimitOptions options{};
};

inline constexpr std::array<std::string_view, 8> kPrecoatFigures{
    "every size",        "allowance_um",      "pitch_change_um",       "greatest_build_up_um",
    "go_after_pitch_mm", "go_after_crest_mm", "not_go_after_pitch_mm", "position_deviation_um"};

struct Precoat {
    ThreadLimits before;    ///< to cut to, rounded into the zone to the standard's last place
    ThreadLimits uncoated;  ///< of the class as it is written
    PrecoatWay way{};
    double allowance_um = kNaN;
    double pitch_change_um = kNaN;       ///< at the greatest build-up; magnitude
    double greatest_build_up_um = kNaN;  ///< that the allowance holds; 0 where there is none
    double go_after_pitch_mm = kNaN;     ///< go gauge of the coated part
    double go_after_crest_mm =
        kNaN;  ///< largest major diameter (smallest minor of an internal thread) coated
    double not_go_after_pitch_mm = kNaN;  ///< not-go gauge of the coated part
    /// A remedy: the nearest ISO position (or 2A for a class 3A) whose allowance holds the coating.
    bool has_position = false;
    Position position{};
    UnifiedClass unified_class = 0;
    double position_deviation_um = kNaN;
    Evidence<10> evidence;
};

/// Limits before coating, without throwing.
///
/// Returned
///   ok and `out`; else a status of evaluate() for limits, or, with `why` saying it in words,
///     inconsistent  the spread of the coating is more than the tolerance: no part can be cut that gauges
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const PrecoatRequest& request, Precoat& out,
                              std::string* why = nullptr);

/// Limits before coating.
///
/// Errors
///   DomainError        no class or two, or the spread of the coating is more than the tolerance
///   NotTabulatedError  a class, position or form without figures
/// Source
///   ASME B1.1-2003, 7.4.2 and 7.5.2, as a gauge maker quotes them; Machinery's Handbook, 27th ed., p. 1793
/// Example
///   M10-6h under 8 um: pitch 8.994/8.862, 32 um below 9.026/8.894
[[nodiscard]] Precoat precoat(const Catalogue& catalogue, const PrecoatRequest& request);

/// Sizes to cut a part to so that it is within its own once it is coated, of any flank angle.
///
/// Given
///   limits  sizes of the coated part, with the coating still to come in `build_up`
///   side    which part
///   title   how messages call it
/// Returned
///   ok and `out`, not rounded; or inconsistent, with `why`: the coating varies by more than a tolerance
/// Notes
///   1) The pitch diameter moves by 2 / sin A times the build-up, a crest or root by twice the build-up; the
///   maximum-material limit by the greatest, the other by the least. No allowance is taken to hold the
///   coating.
[[nodiscard]] Status sizes_before_coating(const FitPart& limits, Side side, std::string_view title,
                                          FitPart& out, std::string* why = nullptr);

/// Limits before coating of one part, without throwing.
///
/// Given
///   bare      its limits; of ISO metric and Unified threads rounded into the zone as they are, of other
///             forms and of sizes alone moved by the coating and not rounded (sizes_before_coating())
///   gauged_at of ISO metric and Unified threads: no standard of another form lets an allowance hold a
///             coating, so that they gauge at their own limits
/// Returned
///   as evaluate() above; what they are made for in `coating` of `out`
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const PartLimits& bare, const BuildUp& build_up,
                              GaugedAt gauged_at, PartLimits& out, std::string* why = nullptr);

/// Limits before coating of one part of any form. Errors as of precoat() above.
[[nodiscard]] PartLimits precoat(const Catalogue& catalogue, const PartLimits& bare, const BuildUp& build_up,
                                 GaugedAt gauged_at = GaugedAt::basic);

}  // namespace halfnut::threads
