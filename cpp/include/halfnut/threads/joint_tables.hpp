#pragma once
/// Rows of the tables for threaded joints: bolts, friction, galling, engagement by practice.

#include <array>
#include <cstdint>

#include "halfnut/schema.hpp"
#include "halfnut/threads/kinds.hpp"

namespace halfnut::threads {

/// A grade or property class of bolts over a range of sizes; printed in one of the two units, the other NaN.
struct BoltGradeRow {
    std::string_view grade;
    int step = 0;
    double over_mm = 0;
    double up_to_mm = 0;
    double over_in = 0;
    double up_to_in = 0;
    double proof_mpa = 0;
    double tensile_mpa = 0;
    double yield_mpa = 0;
    double proof_ksi = 0;
    double tensile_ksi = 0;
    double yield_ksi = 0;
    SourceId source;
    std::string_view note;
};

/// Nut factor K.
struct NutFactorRow {
    std::string_view condition;
    double nut_factor = 0;
    SourceId source;
    std::string_view note;
};

/// Friction of a metal, keyed to a group of alloys, with a lubricant.
struct ThreadFrictionRow {
    std::string_view group;
    std::string_view lubricant;
    double friction_low = 0;
    double friction_high = 0;
    SourceId source;
    std::string_view note;
};

/// How a pair of metals goes together in a thread.
struct GallingRow {
    std::string_view group;
    std::string_view other_group;
    Galling severity{};
    std::string_view advice;  ///< words, separated by spaces
    SourceId source;
    std::string_view note;
};

/// Length of engagement by practice, in the metal of the internal thread.
struct EngagementPracticeRow {
    std::string_view group;
    Loading loading{};
    double diameters = 0;
    double extra_in = 0;  ///< NaN: none
    SourceId source;
    std::string_view note;
};

}  // namespace halfnut::threads

namespace halfnut {

template <>
struct Schema<threads::BoltGradeRow> {
    using Row = threads::BoltGradeRow;
    static constexpr std::string_view table = "threads/bolt_grades";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(grade),     HALFNUT_REQUIRED(step),        HALFNUT_OPTIONAL(over_mm),
                   HALFNUT_OPTIONAL(up_to_mm),  HALFNUT_OPTIONAL(over_in),     HALFNUT_OPTIONAL(up_to_in),
                   HALFNUT_OPTIONAL(proof_mpa), HALFNUT_OPTIONAL(tensile_mpa), HALFNUT_OPTIONAL(yield_mpa),
                   HALFNUT_OPTIONAL(proof_ksi), HALFNUT_OPTIONAL(tensile_ksi), HALFNUT_OPTIONAL(yield_ksi),
                   HALFNUT_REQUIRED(source),    HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::NutFactorRow> {
    using Row = threads::NutFactorRow;
    static constexpr std::string_view table = "threads/nut_factors";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(condition), HALFNUT_REQUIRED(nut_factor),
                                               HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::ThreadFrictionRow> {
    using Row = threads::ThreadFrictionRow;
    static constexpr std::string_view table = "threads/thread_friction";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::array{
        HALFNUT_REQUIRED(group),         HALFNUT_REQUIRED(lubricant), HALFNUT_REQUIRED(friction_low),
        HALFNUT_REQUIRED(friction_high), HALFNUT_REQUIRED(source),    HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::GallingRow> {
    using Row = threads::GallingRow;
    static constexpr std::string_view table = "threads/galling";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(group),  HALFNUT_REQUIRED(other_group), HALFNUT_REQUIRED(severity),
                   HALFNUT_OPTIONAL(advice), HALFNUT_REQUIRED(source),      HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::EngagementPracticeRow> {
    using Row = threads::EngagementPracticeRow;
    static constexpr std::string_view table = "threads/engagement_practice";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(group),    HALFNUT_REQUIRED(loading), HALFNUT_REQUIRED(diameters),
                   HALFNUT_OPTIONAL(extra_in), HALFNUT_REQUIRED(source),  HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
