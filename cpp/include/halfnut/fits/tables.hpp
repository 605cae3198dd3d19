#pragma once
/// Rows that limits of plain cylindrical parts are read from.

#include <string_view>
#include <tuple>

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
        std::tuple{required("grade", &Row::grade),   required("over_mm", &Row::over_mm),
                   required("to_mm", &Row::to_mm),   required("tolerance_um", &Row::tolerance_um),
                   required("source", &Row::source), optional("note", &Row::note)};
};

template <>
struct Schema<fits::IsoDeviationRow> {
    using Row = fits::IsoDeviationRow;
    static constexpr std::string_view table = "fits/iso_286_deviations";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::tuple{required("letter", &Row::letter),   required("grade_from", &Row::grade_from),
                   required("over_mm", &Row::over_mm), required("grade_to", &Row::grade_to),
                   required("to_mm", &Row::to_mm),     required("deviation_um", &Row::deviation_um),
                   required("source", &Row::source),   optional("note", &Row::note)};
};

template <>
struct Schema<fits::AnsiFitRow> {
    using Row = fits::AnsiFitRow;
    static constexpr std::string_view table = "fits/ansi_b4_1";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("fit", &Row::fit),
                                               required("over_in", &Row::over_in),
                                               required("to_in", &Row::to_in),
                                               required("hole_upper_thou", &Row::hole_upper_thou),
                                               required("shaft_upper_thou", &Row::shaft_upper_thou),
                                               required("shaft_lower_thou", &Row::shaft_lower_thou),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<fits::PreferredFitRow> {
    using Row = fits::PreferredFitRow;
    static constexpr std::string_view table = "fits/preferred_fits";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("fit", &Row::fit), required("basis", &Row::basis), required("name", &Row::name),
                   required("source", &Row::source)};
};

template <>
struct Schema<fits::HoldingTaperRow> {
    using Row = fits::HoldingTaperRow;
    static constexpr std::string_view table = "fits/self_holding_tapers";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::tuple{required("series", &Row::series),     required("size", &Row::size),
                   required("unit", &Row::unit),         required("large", &Row::large),
                   required("small", &Row::small),       required("length", &Row::length),
                   required("per_foot", &Row::per_foot), required("source", &Row::source),
                   optional("note", &Row::note)};
};

}  // namespace halfnut
