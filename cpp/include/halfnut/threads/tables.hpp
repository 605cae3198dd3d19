#pragma once
/// Rows of the thread tables.

#include <cstdint>

#include "halfnut/schema.hpp"
#include "halfnut/threads/kinds.hpp"

namespace halfnut::threads {

/// Fundamental deviation: EI of an internal position, es of an external one.
struct IsoDeviationRow {
    Position position{};
    double pitch_mm = 0;
    int deviation_um = 0;
    SourceId source;
    std::string_view note;
};

/// Tolerance of the major diameter of an external thread, T_d.
struct IsoExternalMajorRow {
    double pitch_mm = 0;
    int grade = 0;
    int tolerance_um = 0;
    SourceId source;
    std::string_view note;
};

/// Tolerance of the minor diameter of an internal thread, T_D1.
struct IsoInternalMinorRow {
    double pitch_mm = 0;
    int grade = 0;
    int tolerance_um = 0;
    SourceId source;
    std::string_view note;
};

/// Tolerance of the pitch diameter of an external thread, T_d2; d is over over_mm, up to and including
/// up_to_mm.
struct IsoExternalPitchRow {
    double over_mm = 0;
    double up_to_mm = 0;
    double pitch_mm = 0;
    int grade = 0;
    int tolerance_um = 0;
    SourceId source;
    std::string_view note;
};

/// Tolerance of the pitch diameter of an internal thread, T_D2; D is over over_mm, up to and including
/// up_to_mm.
struct IsoInternalPitchRow {
    double over_mm = 0;
    double up_to_mm = 0;
    double pitch_mm = 0;
    int grade = 0;
    int tolerance_um = 0;
    SourceId source;
    std::string_view note;
};

/// Group N of the lengths of engagement: over n_over_mm, up to and including n_up_to_mm.
struct IsoEngagementRow {
    double over_mm = 0;
    double up_to_mm = 0;
    double pitch_mm = 0;
    double n_over_mm = 0;
    double n_up_to_mm = 0;
    SourceId source;
    std::string_view note;
};

struct IsoSeriesRow {
    double diameter_mm = 0;
    double pitch_mm = 0;
    IsoSeries series{};
    int choice = 0;        ///< 1, 2 or 3: prefer the lower
    bool iso_262 = false;  ///< in the shorter list of ISO 262 as well
    SourceId source;
    SourceId choice_source;
    std::string_view note;
};

struct UnifiedSeriesRow {
    double diameter_in = 0;
    double tpi = 0;
    UnifiedSeries series{};
    std::string_view size;  ///< as it is called: "10", "1 1/8"
    SourceId source;
    std::string_view note;
};

/// A diameter whose printed limits carry the pitch tolerance of another; threads toleranced over nine
/// pitches.
struct UnifiedToleranceDiameterRow {
    double diameter_in = 0;
    double at_in = 0;
    SourceId source;
    std::string_view note;
};

}  // namespace halfnut::threads

namespace halfnut {

template <>
struct Schema<threads::IsoDeviationRow> {
    using Row = threads::IsoDeviationRow;
    static constexpr std::string_view table = "threads/iso_965_1_deviations";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(position), HALFNUT_REQUIRED(pitch_mm), HALFNUT_REQUIRED(deviation_um),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::IsoExternalMajorRow> {
    using Row = threads::IsoExternalMajorRow;
    static constexpr std::string_view table = "threads/iso_965_1_external_major";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(pitch_mm), HALFNUT_REQUIRED(grade), HALFNUT_REQUIRED(tolerance_um),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::IsoInternalMinorRow> {
    using Row = threads::IsoInternalMinorRow;
    static constexpr std::string_view table = "threads/iso_965_1_internal_minor";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(pitch_mm), HALFNUT_REQUIRED(grade), HALFNUT_REQUIRED(tolerance_um),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::IsoExternalPitchRow> {
    using Row = threads::IsoExternalPitchRow;
    static constexpr std::string_view table = "threads/iso_965_1_external_pitch";
    static constexpr std::size_t key_columns = 4;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(over_mm), HALFNUT_REQUIRED(up_to_mm),     HALFNUT_REQUIRED(pitch_mm),
                   HALFNUT_REQUIRED(grade),   HALFNUT_REQUIRED(tolerance_um), HALFNUT_REQUIRED(source),
                   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::IsoInternalPitchRow> {
    using Row = threads::IsoInternalPitchRow;
    static constexpr std::string_view table = "threads/iso_965_1_internal_pitch";
    static constexpr std::size_t key_columns = 4;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(over_mm), HALFNUT_REQUIRED(up_to_mm),     HALFNUT_REQUIRED(pitch_mm),
                   HALFNUT_REQUIRED(grade),   HALFNUT_REQUIRED(tolerance_um), HALFNUT_REQUIRED(source),
                   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::IsoEngagementRow> {
    using Row = threads::IsoEngagementRow;
    static constexpr std::string_view table = "threads/iso_965_1_engagement";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(over_mm),   HALFNUT_REQUIRED(up_to_mm),   HALFNUT_REQUIRED(pitch_mm),
                   HALFNUT_REQUIRED(n_over_mm), HALFNUT_REQUIRED(n_up_to_mm), HALFNUT_REQUIRED(source),
                   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::IsoSeriesRow> {
    using Row = threads::IsoSeriesRow;
    static constexpr std::string_view table = "threads/iso_261_series";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(diameter_mm),   HALFNUT_REQUIRED(pitch_mm), HALFNUT_REQUIRED(series),
                   HALFNUT_REQUIRED(choice),        HALFNUT_REQUIRED(iso_262),  HALFNUT_REQUIRED(source),
                   HALFNUT_REQUIRED(choice_source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::UnifiedSeriesRow> {
    using Row = threads::UnifiedSeriesRow;
    static constexpr std::string_view table = "threads/unified_series";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(diameter_in), HALFNUT_REQUIRED(tpi),    HALFNUT_REQUIRED(series),
                   HALFNUT_REQUIRED(size),        HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<threads::UnifiedToleranceDiameterRow> {
    using Row = threads::UnifiedToleranceDiameterRow;
    static constexpr std::string_view table = "threads/unified_tolerance_diameters";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(diameter_in), HALFNUT_REQUIRED(at_in),
                                               HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
