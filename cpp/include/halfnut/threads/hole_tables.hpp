#pragma once
/// Rows of the tables for holes: drills, taps, clearance, heads of screws.

#include "halfnut/schema.hpp"

namespace halfnut::threads {

/// A drill, or a run of drills from first to last by a step; in the row's unit, "mm" or "in".
struct DrillSetRow {
    std::string_view set_name;
    double first = 0;
    double last = 0;  ///< NaN: the one drill
    double step = 0;
    std::string_view unit;
    std::string_view name;  ///< what is stamped on a single drill
    SourceId source;
    std::string_view note;
};

/// How much larger than itself a drill cuts.
struct DrillOversizeRow {
    double diameter_in = 0;
    double least_in = 0;
    double mean_in = 0;
    double greatest_in = 0;
    SourceId source;
    std::string_view note;
};

/// Chamfer of a tap, in threads.
struct TapLeadRow {
    std::string_view lead;
    double threads_min = 0;
    double threads_max = 0;
    std::string_view name;
    SourceId source;
    std::string_view note;
};

struct MetricClearanceRow {
    double diameter_mm = 0;
    double fine_mm = 0;
    double medium_mm = 0;
    double coarse_mm = 0;
    SourceId source;
    std::string_view note;
};

struct InchClearanceRow {
    double diameter_in = 0;
    std::string_view size;
    double close_in = 0;
    double normal_in = 0;
    double loose_in = 0;
    std::string_view close_drill;
    std::string_view normal_drill;
    std::string_view loose_drill;
    SourceId source;
    std::string_view note;
};

/// Head of a screw and its seat, in the row's unit, "mm" or "in".
struct ScrewHeadRow {
    std::string_view unit;
    std::string_view head;
    double diameter = 0;       ///< nominal, of the screw
    double angle_deg = 0;      ///< included; NaN: a cylindrical head
    double head_diameter = 0;  ///< of a countersunk head to its sharp corner
    double head_height = 0;    ///< of a cylindrical head
    double seat_diameter = 0;  ///< of the counterbore
    SourceId source;
    std::string_view note;
};

}  // namespace halfnut::threads

namespace halfnut {

template <>
struct Schema<threads::DrillSetRow> {
    using Row = threads::DrillSetRow;
    static constexpr std::string_view table = "threads/drill_sets";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(set_name), HALFNUT_REQUIRED(first), HALFNUT_OPTIONAL(last),
                   HALFNUT_OPTIONAL(step),     HALFNUT_REQUIRED(unit),  HALFNUT_OPTIONAL(name),
                   HALFNUT_REQUIRED(source),   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::DrillOversizeRow> {
    using Row = threads::DrillOversizeRow;
    static constexpr std::string_view table = "threads/drill_oversize";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(diameter_in), HALFNUT_REQUIRED(least_in), HALFNUT_REQUIRED(mean_in),
                   HALFNUT_REQUIRED(greatest_in), HALFNUT_REQUIRED(source),   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::TapLeadRow> {
    using Row = threads::TapLeadRow;
    static constexpr std::string_view table = "threads/tap_leads";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(lead), HALFNUT_REQUIRED(threads_min), HALFNUT_REQUIRED(threads_max),
                   HALFNUT_REQUIRED(name), HALFNUT_REQUIRED(source),      HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::MetricClearanceRow> {
    using Row = threads::MetricClearanceRow;
    static constexpr std::string_view table = "threads/iso_273";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(diameter_mm), HALFNUT_REQUIRED(fine_mm), HALFNUT_REQUIRED(medium_mm),
                   HALFNUT_REQUIRED(coarse_mm),   HALFNUT_REQUIRED(source),  HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::InchClearanceRow> {
    using Row = threads::InchClearanceRow;
    static constexpr std::string_view table = "threads/asme_b18_2_8";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(diameter_in),  HALFNUT_REQUIRED(size),
                                               HALFNUT_REQUIRED(close_in),     HALFNUT_REQUIRED(normal_in),
                                               HALFNUT_REQUIRED(loose_in),     HALFNUT_REQUIRED(close_drill),
                                               HALFNUT_REQUIRED(normal_drill), HALFNUT_REQUIRED(loose_drill),
                                               HALFNUT_REQUIRED(source),       HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::ScrewHeadRow> {
    using Row = threads::ScrewHeadRow;
    static constexpr std::string_view table = "threads/screw_heads";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns = std::array{
        HALFNUT_REQUIRED(unit),          HALFNUT_REQUIRED(head),          HALFNUT_REQUIRED(diameter),
        HALFNUT_OPTIONAL(angle_deg),     HALFNUT_REQUIRED(head_diameter), HALFNUT_OPTIONAL(head_height),
        HALFNUT_OPTIONAL(seat_diameter), HALFNUT_REQUIRED(source),        HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
