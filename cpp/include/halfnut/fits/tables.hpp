#pragma once
/// Rows that limits of plain cylindrical parts are read from.

#include <string_view>

#include "halfnut/schema.hpp"

namespace halfnut::fits {

/// A standard tolerance of ISO 286.
struct IsoGradeRow {
    int grade = 0;       ///< 1 to 18; 0 is IT0, -1 is IT01
    double over_mm = 0;  ///< nominal sizes over ...
    double to_mm = 0;    ///< ... up to and including
    double tolerance_um = 0;
    SourceId source;
    std::string_view note;
};

/// A fundamental deviation of ISO 286.
struct IsoDeviationRow {
    std::string_view letter;  ///< lower case: a shaft; upper case: a hole with figures of its own
    int grade_from = 0;
    double over_mm = 0;
    int grade_to = 0;
    double to_mm = 0;
    double deviation_um = 0;  ///< es of a to h, ei of j to zc, ES of a hole
    SourceId source;
    std::string_view note;
};

/// A fit of ANSI B4.1, basic hole.
struct AnsiFitRow {
    std::string_view fit;  ///< such as "RC4"
    double over_in = 0;
    double to_in = 0;
    double hole_upper_thou = 0;
    double shaft_upper_thou = 0;
    double shaft_lower_thou = 0;
    SourceId source;
    std::string_view note;
};

/// A fit to choose first.
struct PreferredFitRow {
    std::string_view fit;  ///< such as "H7/g6", "RC4"
    std::string_view basis;
    std::string_view name;
    SourceId source;
};

/// A self-holding taper.
struct HoldingTaperRow {
    std::string_view series;  ///< "morse", "metric"
    double size = 0;
    std::string_view unit;
    double large = 0;     ///< at the gauge plane, mm or in
    double small = 0;     ///< as tabulated, a length from there
    double length = 0;    ///< mm or in
    double per_foot = 0;  ///< on the diameter, in
    SourceId source;
    std::string_view note;
};

}  // namespace halfnut::fits

namespace halfnut {

template <>
struct Schema<fits::IsoGradeRow> {
    using Row = fits::IsoGradeRow;
    static constexpr std::string_view table = "fits/iso_286_grades";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(grade),        HALFNUT_REQUIRED(over_mm), HALFNUT_REQUIRED(to_mm),
                   HALFNUT_REQUIRED(tolerance_um), HALFNUT_REQUIRED(source),  HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<fits::IsoDeviationRow> {
    using Row = fits::IsoDeviationRow;
    static constexpr std::string_view table = "fits/iso_286_deviations";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(letter),   HALFNUT_REQUIRED(grade_from), HALFNUT_REQUIRED(over_mm),
                   HALFNUT_REQUIRED(grade_to), HALFNUT_REQUIRED(to_mm),      HALFNUT_REQUIRED(deviation_um),
                   HALFNUT_REQUIRED(source),   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<fits::AnsiFitRow> {
    using Row = fits::AnsiFitRow;
    static constexpr std::string_view table = "fits/ansi_b4_1";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(fit),
                                               HALFNUT_REQUIRED(over_in),
                                               HALFNUT_REQUIRED(to_in),
                                               HALFNUT_REQUIRED(hole_upper_thou),
                                               HALFNUT_REQUIRED(shaft_upper_thou),
                                               HALFNUT_REQUIRED(shaft_lower_thou),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<fits::PreferredFitRow> {
    using Row = fits::PreferredFitRow;
    static constexpr std::string_view table = "fits/preferred_fits";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(fit), HALFNUT_REQUIRED(basis),
                                               HALFNUT_REQUIRED(name), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<fits::HoldingTaperRow> {
    using Row = fits::HoldingTaperRow;
    static constexpr std::string_view table = "fits/self_holding_tapers";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(series),   HALFNUT_REQUIRED(size),   HALFNUT_REQUIRED(unit),
                   HALFNUT_REQUIRED(large),    HALFNUT_REQUIRED(small),  HALFNUT_REQUIRED(length),
                   HALFNUT_REQUIRED(per_foot), HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
