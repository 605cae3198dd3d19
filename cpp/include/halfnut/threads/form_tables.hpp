#pragma once
/// Rows of the thread forms beside ISO metric and Unified: trapezoidal, Acme, pipe, Whitworth.

#include <string_view>
#include <tuple>

#include "halfnut/schema.hpp"

namespace halfnut::threads {

/// A thread form beside ISO metric and Unified: its geometry, each length over the pitch.
struct ThreadFormRow {
    std::string_view form;  ///< "Tr", "Acme", "G", ...
    std::string_view name;
    bool inch = false;          ///< designated in inches
    double half_angle_deg = 0;  ///< between flank and a plane across the axis
    double pitch_drop = 0;      ///< (major - pitch diameter) / P, basic
    double minor_drop = 0;      ///< (major - minor diameter) / P, basic
    double root_radius = 0;     ///< r / P; 0 for a flat root
    double crest_flat = 0;      ///< flat of the basic crest / P; 0 for a round one
    double taper = 0;           ///< on the diameter, over the length
    SourceId source;
    std::string_view note;
};

/// A standard size of such a form.
struct FormSeriesRow {
    std::string_view form;
    double diameter = 0;    ///< basic major diameter: mm, or in for an inch form
    int choice = 0;         ///< 1 the pitch to take first
    std::string_view size;  ///< as it is called
    double pitch_mm = 0;    ///< of a metric form
    double tpi = 0;         ///< of the others
    SourceId source;
    std::string_view note;
};

/// What a trapezoidal thread takes from its pitch alone.
struct TrapezoidalPitchRow {
    double pitch_mm = 0;
    double crest_clearance_mm = 0;  ///< a_c
    double es_c_um = 0;
    double es_e_um = 0;
    double major_tolerance_um = 0;  ///< T_d, grade 4
    double minor_tolerance_um = 0;  ///< T_D1, grade 4
    SourceId clearance_source;
    SourceId c_source;
    SourceId e_source;
    SourceId major_source;
    SourceId minor_source;
};

/// Pitch diameter tolerances of a trapezoidal thread, um.
struct TrapezoidalToleranceRow {
    double over_mm = 0;
    double pitch_mm = 0;
    double to_mm = 0;
    double external_7_um = 0;
    double external_8_um = 0;
    double external_9_um = 0;
    double internal_7_um = 0;
    double internal_8_um = 0;
    double internal_9_um = 0;
    SourceId external_7_source;
    SourceId source;
};

/// A class of Acme threads: each coefficient times a square root, in.
struct AcmeClassRow {
    std::string_view form;
    std::string_view name;        ///< "2G", "2C"
    double allowance_d = 0;       ///< times sqrt D
    double tolerance_d = 0;       ///< times sqrt D
    double tolerance_p = 0;       ///< times sqrt P
    double external_major_d = 0;  ///< tolerance of the external major diameter, times sqrt D; empty: 0.05 P
    double internal_major_min_d =
        0;  ///< least clearance at the major diameter, times sqrt D; empty: the clearance
    double internal_major_d = 0;  ///< its tolerance, times sqrt D; empty: the clearance
    SourceId allowance_source;
    SourceId source;
};

/// Tolerances of parallel pipe threads.
struct PipeToleranceRow {
    double over_mm = 0;
    double to_mm = 0;
    double pitch_diameter_um = 0;  ///< class A, and internal
    double minor_um = 0;           ///< internal
    SourceId source;
};

/// A taper pipe thread.
struct TaperPipeRow {
    std::string_view form;
    double diameter = 0;  ///< outside diameter of the pipe, in (NPT); gauge diameter, mm (R)
    std::string_view size;
    double tpi = 0;
    double hand_engagement = 0;  ///< L1, in; gauge length, mm
    double wrench_turns = 0;     ///< L3 in threads; empty: none given
    double tolerance_turns = 0;  ///< of the gauge plane of an external thread, to either side
    double internal_turns = 0;   ///< of that of an internal one
    SourceId source;
    std::string_view note;
};

/// A class of Whitworth threads.
struct WhitworthClassRow {
    std::string_view name;  ///< "close", "medium", "free"
    double factor = 0;      ///< of the tolerance T
    double allowance = 0;   ///< of an external thread to 3/4 in, a share of T of the medium class
    double minor_p = 0;     ///< of an external thread's minor tolerance: beside T, times the root of P
    SourceId source;
};

}  // namespace halfnut::threads

namespace halfnut {

template <>
struct Schema<threads::ThreadFormRow> {
    using Row = threads::ThreadFormRow;
    static constexpr std::string_view table = "threads/thread_forms";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{required("form", &Row::form),
                                               required("name", &Row::name),
                                               required("inch", &Row::inch),
                                               required("half_angle_deg", &Row::half_angle_deg),
                                               required("pitch_drop", &Row::pitch_drop),
                                               required("minor_drop", &Row::minor_drop),
                                               required("root_radius", &Row::root_radius),
                                               required("crest_flat", &Row::crest_flat),
                                               required("taper", &Row::taper),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::FormSeriesRow> {
    using Row = threads::FormSeriesRow;
    static constexpr std::string_view table = "threads/form_series";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::tuple{required("form", &Row::form),         required("diameter", &Row::diameter),
                   required("choice", &Row::choice),     required("size", &Row::size),
                   optional("pitch_mm", &Row::pitch_mm), optional("tpi", &Row::tpi),
                   required("source", &Row::source),     optional("note", &Row::note)};
};

template <>
struct Schema<threads::TrapezoidalPitchRow> {
    using Row = threads::TrapezoidalPitchRow;
    static constexpr std::string_view table = "threads/trapezoidal_pitches";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{required("pitch_mm", &Row::pitch_mm),
                                               required("crest_clearance_mm", &Row::crest_clearance_mm),
                                               optional("es_c_um", &Row::es_c_um),
                                               optional("es_e_um", &Row::es_e_um),
                                               required("major_tolerance_um", &Row::major_tolerance_um),
                                               required("minor_tolerance_um", &Row::minor_tolerance_um),
                                               required("clearance_source", &Row::clearance_source),
                                               optional("c_source", &Row::c_source),
                                               optional("e_source", &Row::e_source),
                                               required("major_source", &Row::major_source),
                                               required("minor_source", &Row::minor_source)};
};

template <>
struct Schema<threads::TrapezoidalToleranceRow> {
    using Row = threads::TrapezoidalToleranceRow;
    static constexpr std::string_view table = "threads/trapezoidal_tolerances";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("over_mm", &Row::over_mm),
                                               required("pitch_mm", &Row::pitch_mm),
                                               required("to_mm", &Row::to_mm),
                                               required("external_7_um", &Row::external_7_um),
                                               required("external_8_um", &Row::external_8_um),
                                               required("external_9_um", &Row::external_9_um),
                                               required("internal_7_um", &Row::internal_7_um),
                                               required("internal_8_um", &Row::internal_8_um),
                                               required("internal_9_um", &Row::internal_9_um),
                                               required("external_7_source", &Row::external_7_source),
                                               required("source", &Row::source)};
};

template <>
struct Schema<threads::AcmeClassRow> {
    using Row = threads::AcmeClassRow;
    static constexpr std::string_view table = "threads/acme_classes";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("form", &Row::form),
                                               required("name", &Row::name),
                                               required("allowance_d", &Row::allowance_d),
                                               required("tolerance_d", &Row::tolerance_d),
                                               required("tolerance_p", &Row::tolerance_p),
                                               optional("external_major_d", &Row::external_major_d),
                                               optional("internal_major_min_d", &Row::internal_major_min_d),
                                               optional("internal_major_d", &Row::internal_major_d),
                                               required("allowance_source", &Row::allowance_source),
                                               required("source", &Row::source)};
};

template <>
struct Schema<threads::PipeToleranceRow> {
    using Row = threads::PipeToleranceRow;
    static constexpr std::string_view table = "threads/pipe_tolerances";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("over_mm", &Row::over_mm), required("to_mm", &Row::to_mm),
                   required("pitch_diameter_um", &Row::pitch_diameter_um),
                   required("minor_um", &Row::minor_um), required("source", &Row::source)};
};

template <>
struct Schema<threads::TaperPipeRow> {
    using Row = threads::TaperPipeRow;
    static constexpr std::string_view table = "threads/taper_pipe";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("form", &Row::form),
                                               required("diameter", &Row::diameter),
                                               required("size", &Row::size),
                                               required("tpi", &Row::tpi),
                                               required("hand_engagement", &Row::hand_engagement),
                                               optional("wrench_turns", &Row::wrench_turns),
                                               required("tolerance_turns", &Row::tolerance_turns),
                                               required("internal_turns", &Row::internal_turns),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::WhitworthClassRow> {
    using Row = threads::WhitworthClassRow;
    static constexpr std::string_view table = "threads/whitworth_classes";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("name", &Row::name), required("factor", &Row::factor),
                   required("allowance", &Row::allowance), required("minor_p", &Row::minor_p),
                   required("source", &Row::source)};
};

}  // namespace halfnut
