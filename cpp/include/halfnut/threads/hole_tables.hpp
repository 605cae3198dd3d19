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
    static constexpr auto columns = std::tuple{
        required("set_name", &Row::set_name), required("first", &Row::first), optional("last", &Row::last),
        optional("step", &Row::step),         required("unit", &Row::unit),   optional("name", &Row::name),
        required("source", &Row::source),     optional("note", &Row::note)};
};

template <>
struct Schema<threads::DrillOversizeRow> {
    using Row = threads::DrillOversizeRow;
    static constexpr std::string_view table = "threads/drill_oversize";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("diameter_in", &Row::diameter_in), required("least_in", &Row::least_in),
                   required("mean_in", &Row::mean_in),         required("greatest_in", &Row::greatest_in),
                   required("source", &Row::source),           optional("note", &Row::note)};
};

template <>
struct Schema<threads::TapLeadRow> {
    using Row = threads::TapLeadRow;
    static constexpr std::string_view table = "threads/tap_leads";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{required("lead", &Row::lead),
                                               required("threads_min", &Row::threads_min),
                                               required("threads_max", &Row::threads_max),
                                               required("name", &Row::name),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::MetricClearanceRow> {
    using Row = threads::MetricClearanceRow;
    static constexpr std::string_view table = "threads/iso_273";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("diameter_mm", &Row::diameter_mm), required("fine_mm", &Row::fine_mm),
                   required("medium_mm", &Row::medium_mm),     required("coarse_mm", &Row::coarse_mm),
                   required("source", &Row::source),           optional("note", &Row::note)};
};

template <>
struct Schema<threads::InchClearanceRow> {
    using Row = threads::InchClearanceRow;
    static constexpr std::string_view table = "threads/asme_b18_2_8";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{required("diameter_in", &Row::diameter_in),
                                               required("size", &Row::size),
                                               required("close_in", &Row::close_in),
                                               required("normal_in", &Row::normal_in),
                                               required("loose_in", &Row::loose_in),
                                               required("close_drill", &Row::close_drill),
                                               required("normal_drill", &Row::normal_drill),
                                               required("loose_drill", &Row::loose_drill),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::ScrewHeadRow> {
    using Row = threads::ScrewHeadRow;
    static constexpr std::string_view table = "threads/screw_heads";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns = std::tuple{required("unit", &Row::unit),
                                               required("head", &Row::head),
                                               required("diameter", &Row::diameter),
                                               optional("angle_deg", &Row::angle_deg),
                                               required("head_diameter", &Row::head_diameter),
                                               optional("head_height", &Row::head_height),
                                               optional("seat_diameter", &Row::seat_diameter),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

}  // namespace halfnut
