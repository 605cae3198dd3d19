#pragma once
/// Rows of the thread forms beside ISO metric and Unified: trapezoidal, Acme, pipe, Whitworth.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

#include "halfnut/core/schema.hpp"

namespace halfnut::threads {

/// How a form's designation is written.
enum class FormStyle : std::uint8_t {
    lead,    ///< Tr40x7-7e: name, diameter, lead, class
    prefix,  ///< G1/2 A: name, size, class
    inch,    ///< 1 1/2-4 Acme-2G: size, threads per inch, name, class
};

constexpr auto enum_names(FormStyle /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FormStyle::lead, string_view("lead")},
                      std::pair{FormStyle::prefix, string_view("prefix")},
                      std::pair{FormStyle::inch, string_view("inch")}};
}

/// By which rule a form's limits come about; a function of forms_limits.cpp each.
enum class FormRule : std::uint8_t { trapezoidal, acme, whitworth, parallel_pipe, npt, iso_taper_pipe };

constexpr auto enum_names(FormRule /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FormRule::trapezoidal, string_view("trapezoidal")},
                      std::pair{FormRule::acme, string_view("acme")},
                      std::pair{FormRule::whitworth, string_view("whitworth")},
                      std::pair{FormRule::parallel_pipe, string_view("parallel pipe")},
                      std::pair{FormRule::npt, string_view("npt")},
                      std::pair{FormRule::iso_taper_pipe, string_view("iso taper pipe")}};
}

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
    FormStyle written{};
    FormRule rule{};
    std::string_view external_class;  ///< usual one; empty where there is one only
    std::string_view internal_class;
    std::string_view external_classes;  ///< all, with blanks between; empty: those of the rule's own table
    std::string_view internal_classes;
    bool lead_screw = false;  ///< made to move a load
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
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(form),
                                               HALFNUT_REQUIRED(name),
                                               HALFNUT_REQUIRED(inch),
                                               HALFNUT_REQUIRED(half_angle_deg),
                                               HALFNUT_REQUIRED(pitch_drop),
                                               HALFNUT_REQUIRED(minor_drop),
                                               HALFNUT_REQUIRED(root_radius),
                                               HALFNUT_REQUIRED(crest_flat),
                                               HALFNUT_REQUIRED(taper),
                                               HALFNUT_REQUIRED(written),
                                               HALFNUT_REQUIRED(rule),
                                               HALFNUT_OPTIONAL(external_class),
                                               HALFNUT_OPTIONAL(internal_class),
                                               HALFNUT_OPTIONAL(external_classes),
                                               HALFNUT_OPTIONAL(internal_classes),
                                               HALFNUT_REQUIRED(lead_screw),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::FormSeriesRow> {
    using Row = threads::FormSeriesRow;
    static constexpr std::string_view table = "threads/form_series";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(form),   HALFNUT_REQUIRED(diameter), HALFNUT_REQUIRED(choice),
                   HALFNUT_REQUIRED(size),   HALFNUT_OPTIONAL(pitch_mm), HALFNUT_OPTIONAL(tpi),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::TrapezoidalPitchRow> {
    using Row = threads::TrapezoidalPitchRow;
    static constexpr std::string_view table = "threads/trapezoidal_pitches";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(pitch_mm),
                                               HALFNUT_REQUIRED(crest_clearance_mm),
                                               HALFNUT_OPTIONAL(es_c_um),
                                               HALFNUT_OPTIONAL(es_e_um),
                                               HALFNUT_REQUIRED(major_tolerance_um),
                                               HALFNUT_REQUIRED(minor_tolerance_um),
                                               HALFNUT_REQUIRED(clearance_source),
                                               HALFNUT_OPTIONAL(c_source),
                                               HALFNUT_OPTIONAL(e_source),
                                               HALFNUT_REQUIRED(major_source),
                                               HALFNUT_REQUIRED(minor_source)};
};

template <>
struct Schema<threads::TrapezoidalToleranceRow> {
    using Row = threads::TrapezoidalToleranceRow;
    static constexpr std::string_view table = "threads/trapezoidal_tolerances";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::array{
        HALFNUT_REQUIRED(over_mm),           HALFNUT_REQUIRED(pitch_mm),      HALFNUT_REQUIRED(to_mm),
        HALFNUT_REQUIRED(external_7_um),     HALFNUT_REQUIRED(external_8_um), HALFNUT_REQUIRED(external_9_um),
        HALFNUT_REQUIRED(internal_7_um),     HALFNUT_REQUIRED(internal_8_um), HALFNUT_REQUIRED(internal_9_um),
        HALFNUT_REQUIRED(external_7_source), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<threads::AcmeClassRow> {
    using Row = threads::AcmeClassRow;
    static constexpr std::string_view table = "threads/acme_classes";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(form),
                                               HALFNUT_REQUIRED(name),
                                               HALFNUT_REQUIRED(allowance_d),
                                               HALFNUT_REQUIRED(tolerance_d),
                                               HALFNUT_REQUIRED(tolerance_p),
                                               HALFNUT_OPTIONAL(external_major_d),
                                               HALFNUT_OPTIONAL(internal_major_min_d),
                                               HALFNUT_OPTIONAL(internal_major_d),
                                               HALFNUT_REQUIRED(allowance_source),
                                               HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<threads::PipeToleranceRow> {
    using Row = threads::PipeToleranceRow;
    static constexpr std::string_view table = "threads/pipe_tolerances";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(over_mm), HALFNUT_REQUIRED(to_mm), HALFNUT_REQUIRED(pitch_diameter_um),
                   HALFNUT_REQUIRED(minor_um), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<threads::TaperPipeRow> {
    using Row = threads::TaperPipeRow;
    static constexpr std::string_view table = "threads/taper_pipe";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(form),
                                               HALFNUT_REQUIRED(diameter),
                                               HALFNUT_REQUIRED(size),
                                               HALFNUT_REQUIRED(tpi),
                                               HALFNUT_REQUIRED(hand_engagement),
                                               HALFNUT_OPTIONAL(wrench_turns),
                                               HALFNUT_REQUIRED(tolerance_turns),
                                               HALFNUT_REQUIRED(internal_turns),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::WhitworthClassRow> {
    using Row = threads::WhitworthClassRow;
    static constexpr std::string_view table = "threads/whitworth_classes";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(name), HALFNUT_REQUIRED(factor), HALFNUT_REQUIRED(allowance),
                   HALFNUT_REQUIRED(minor_p), HALFNUT_REQUIRED(source)};
};

}  // namespace halfnut
