#pragma once
/// Limits of size of a thread, rounded as its standard rounds them.
///
/// A limit is a whole count of its standard's last place: 1 um for ISO metric threads, 1e-4 in for Unified
/// ones.

#include <array>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/threads/designation.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/unified.hpp"

namespace halfnut::threads {

enum class Limit : std::uint8_t {
    major_max,
    major_min,
    pitch_max,
    pitch_min,
    minor_max,
    minor_min,
    major_min_unfinished,
    unr_minor_max
};

/// Names of the figures of a ThreadLimits, in the order of Limit; the last stands for all of them in
/// evidence.
inline constexpr std::array<std::string_view, 9> kThreadLimitFigures{
    "major_max",     "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min", "major_min_unfinished",
    "unr_minor_max", "every size"};
inline constexpr std::size_t kLimits = 8;

/// The standard sets no such limit.
inline constexpr std::int32_t kNoLimit = std::numeric_limits<std::int32_t>::min();

/// What a person should know about limits; the words for each are in Python, keyed by the name.
enum class LimitCaution : std::uint16_t {
    not_tabulated = 1U << 0U,     ///< a figure is by formula: no row for this diameter or pitch
    not_provided = 1U << 1U,      ///< the standard provides no such grade or class at this size
    engagement_class = 1U << 2U,  ///< the class is not one recommended for this length of engagement
    special_engagement = 1U
        << 3U,  ///< Unified tolerance by the actual length of engagement; the drawing has to say so
    toleranced_as_series = 1U << 4U,  ///< toleranced by the rule of another series, which holds this thread
    not_in_series = 1U << 5U,         ///< no such thread in the series tables
    multi_start = 1U << 6U,           ///< Unified multiple-start thread with the tolerance of a single start
    doubtful_position = 1U << 7U,     ///< position a to d: sources disagree or are memory
    mixed_positions = 1U << 8U,       ///< pitch and crest diameter have different positions
};

constexpr auto enum_names(LimitCaution /*tag*/) {
    using std::string_view;
    return std::array{std::pair{LimitCaution::not_tabulated, string_view("not_tabulated")},
                      std::pair{LimitCaution::not_provided, string_view("not_provided")},
                      std::pair{LimitCaution::engagement_class, string_view("engagement_class")},
                      std::pair{LimitCaution::special_engagement, string_view("special_engagement")},
                      std::pair{LimitCaution::toleranced_as_series, string_view("toleranced_as_series")},
                      std::pair{LimitCaution::not_in_series, string_view("not_in_series")},
                      std::pair{LimitCaution::multi_start, string_view("multi_start")},
                      std::pair{LimitCaution::doubtful_position, string_view("doubtful_position")},
                      std::pair{LimitCaution::mixed_positions, string_view("mixed_positions")}};
}

struct LimitOptions {
    UnifiedRule rule = UnifiedRule::printed;
    double engagement_mm = kNaN;  ///< length of engagement; NaN: as the designation states, or normal
};

struct ThreadLimits {
    System system{};
    Side side{};
    std::array<std::int32_t, kLimits> figures{};  ///< last places; kNoLimit
    std::int32_t deviation = 0;                   ///< EI or es (Unified: less the allowance), last places
    std::int32_t pitch_tolerance = 0;             ///< 1 um, or 1e-6 in
    std::int32_t crest_tolerance = 0;             ///< 1 um, or 1e-6 in
    std::int32_t root_radius_min = 0;             ///< 1 um, or 1e-4 in; 0: none set
    EngagementGroup group{};                      ///< ISO: group of the stated length
    double engagement_over = kNaN;   ///< lengths of engagement served, mm or in: over (Unified: from) ...
    double engagement_up_to = kNaN;  ///< ... up to and including; NaN where there is no rule
    std::uint16_t cautions = 0;
    Evidence<24> evidence;

    [[nodiscard]] bool inch() const noexcept { return system == System::unified; }
    [[nodiscard]] bool has(LimitCaution caution) const noexcept {
        return (cautions & static_cast<std::uint16_t>(caution)) != 0;
    }
    /// In the standard's own unit (mm or in); NaN where there is no limit.
    [[nodiscard]] double native(Limit limit) const noexcept;
    [[nodiscard]] double mm(Limit limit) const noexcept;
    [[nodiscard]] double in(Limit limit) const noexcept;
};

/// Limits of one part of a thread, without throwing.
///
/// Given
///   catalogue  the tables
///   thread     a thread with exactly one class: the part that is meant (see Thread::part)
///   options    Unified rule, length of engagement
/// Returned
///   ok and `out`; or, with `why` (if it is given) saying it in words,
///     inconsistent   no class, or one for either part
///     not_tabulated  a class, position or thread form that has no figures
///     out_of_range   a length of engagement that is not finite and > 0, or sizes out of the formulas' range
///   and then every figure is kNoLimit
/// Notes
///   1) ISO 965-1 tolerances do not depend on the length of engagement; the class to choose does. Unified
///      ones do, outside the lengths that the standard tolerance serves.
///   2) The minor maximum of an external Unified thread is a reference size. ISO: d1 max of the flat form,
///      and minor min is d3 at the smallest root radius, reached from the unrounded pitch diameter and
///      rounded once.
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const Thread& thread, const LimitOptions& options,
                              ThreadLimits& out, std::string* why = nullptr);

/// Limits of one part of a thread.
///
/// Errors
///   DomainError        no class or two, or a length out of range
///   NotTabulatedError  a class, position or form without figures
/// Example
///   limits(builtin(), parse_thread("M10x1.5-6g", builtin())).native(Limit::pitch_max) = 8.994
[[nodiscard]] ThreadLimits limits(const Catalogue& catalogue, const Thread& thread,
                                  const LimitOptions& options = {});

}  // namespace halfnut::threads
