#pragma once
/// Rows of the thread tables.

#include <cstdint>

#include "halfnut/schema.hpp"

namespace halfnut::threads {

/// Tolerance position of an ISO metric thread: lower case external, upper case internal.
enum class Position : std::uint8_t { a, b, c, d, e, f, g, h, az, G, H, AZ, AX };

constexpr auto enum_names(Position /*tag*/) {
    using std::pair;
    using std::string_view;
    return std::array{pair{Position::a, string_view("a")},   pair{Position::b, string_view("b")},
                      pair{Position::c, string_view("c")},   pair{Position::d, string_view("d")},
                      pair{Position::e, string_view("e")},   pair{Position::f, string_view("f")},
                      pair{Position::g, string_view("g")},   pair{Position::h, string_view("h")},
                      pair{Position::az, string_view("az")}, pair{Position::G, string_view("G")},
                      pair{Position::H, string_view("H")},   pair{Position::AZ, string_view("AZ")},
                      pair{Position::AX, string_view("AX")}};
}

constexpr bool is_internal(Position position) noexcept {
    return position >= Position::G;
}

enum class IsoSeries : std::uint8_t { coarse, fine };

constexpr auto enum_names(IsoSeries /*tag*/) {
    using std::string_view;
    return std::array{std::pair{IsoSeries::coarse, string_view("coarse")},
                      std::pair{IsoSeries::fine, string_view("fine")}};
}

/// Series of a Unified thread; `un` holds every constant-pitch series.
enum class UnifiedSeries : std::uint8_t { unc, unf, unef, un, uns };

constexpr auto enum_names(UnifiedSeries /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{UnifiedSeries::unc, string_view("UNC")}, std::pair{UnifiedSeries::unf, string_view("UNF")},
        std::pair{UnifiedSeries::unef, string_view("UNEF")}, std::pair{UnifiedSeries::un, string_view("UN")},
        std::pair{UnifiedSeries::uns, string_view("UNS")}};
}

/// Fundamental deviation: EI of an internal position, es of an external one.
struct IsoDeviationRow {
    Position position{};
    double pitch_mm = 0;
    int deviation_um = 0;
    SourceId source;
    std::string_view note;
};

/// Which of two tables of the same shape: the tolerance of the major diameter of external threads, or of
/// the minor diameter of internal threads.
enum class Crest : std::uint8_t { external_major, internal_minor };

template <Crest>
struct IsoCrestRow {
    double pitch_mm = 0;
    int grade = 0;
    int tolerance_um = 0;
    SourceId source;
    std::string_view note;
};
using IsoExternalMajorRow = IsoCrestRow<Crest::external_major>;  // T_d
using IsoInternalMinorRow = IsoCrestRow<Crest::internal_minor>;  // T_D1

enum class Side : std::uint8_t { external, internal };

/// Tolerance of the pitch diameter; d is over over_mm, up to and including up_to_mm.
template <Side>
struct IsoPitchRow {
    double over_mm = 0;
    double up_to_mm = 0;
    double pitch_mm = 0;
    int grade = 0;
    int tolerance_um = 0;
    SourceId source;
    std::string_view note;
};
using IsoExternalPitchRow = IsoPitchRow<Side::external>;  // T_d2
using IsoInternalPitchRow = IsoPitchRow<Side::internal>;  // T_D2

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
        std::tuple{required("position", &Row::position), required("pitch_mm", &Row::pitch_mm),
                   required("deviation_um", &Row::deviation_um), required("source", &Row::source),
                   optional("note", &Row::note)};
};

template <threads::Crest C>
struct Schema<threads::IsoCrestRow<C>> {
    using Row = threads::IsoCrestRow<C>;
    static constexpr std::string_view table = C == threads::Crest::external_major
                                                  ? "threads/iso_965_1_external_major"
                                                  : "threads/iso_965_1_internal_minor";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::tuple{required("pitch_mm", &Row::pitch_mm), required("grade", &Row::grade),
                   required("tolerance_um", &Row::tolerance_um), required("source", &Row::source),
                   optional("note", &Row::note)};
};

template <threads::Side S>
struct Schema<threads::IsoPitchRow<S>> {
    using Row = threads::IsoPitchRow<S>;
    static constexpr std::string_view table = S == threads::Side::external
                                                  ? "threads/iso_965_1_external_pitch"
                                                  : "threads/iso_965_1_internal_pitch";
    static constexpr std::size_t key_columns = 4;
    static constexpr auto columns = std::tuple{required("over_mm", &Row::over_mm),
                                               required("up_to_mm", &Row::up_to_mm),
                                               required("pitch_mm", &Row::pitch_mm),
                                               required("grade", &Row::grade),
                                               required("tolerance_um", &Row::tolerance_um),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::IsoEngagementRow> {
    using Row = threads::IsoEngagementRow;
    static constexpr std::string_view table = "threads/iso_965_1_engagement";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns = std::tuple{required("over_mm", &Row::over_mm),
                                               required("up_to_mm", &Row::up_to_mm),
                                               required("pitch_mm", &Row::pitch_mm),
                                               required("n_over_mm", &Row::n_over_mm),
                                               required("n_up_to_mm", &Row::n_up_to_mm),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::IsoSeriesRow> {
    using Row = threads::IsoSeriesRow;
    static constexpr std::string_view table = "threads/iso_261_series";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("diameter_mm", &Row::diameter_mm),
                                               required("pitch_mm", &Row::pitch_mm),
                                               required("series", &Row::series),
                                               required("choice", &Row::choice),
                                               required("iso_262", &Row::iso_262),
                                               required("source", &Row::source),
                                               required("choice_source", &Row::choice_source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::UnifiedSeriesRow> {
    using Row = threads::UnifiedSeriesRow;
    static constexpr std::string_view table = "threads/unified_series";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::tuple{required("diameter_in", &Row::diameter_in), required("tpi", &Row::tpi),
                   required("series", &Row::series),           required("size", &Row::size),
                   required("source", &Row::source),           optional("note", &Row::note)};
};

template <>
struct Schema<threads::UnifiedToleranceDiameterRow> {
    using Row = threads::UnifiedToleranceDiameterRow;
    static constexpr std::string_view table = "threads/unified_tolerance_diameters";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("diameter_in", &Row::diameter_in), required("at_in", &Row::at_in),
                   required("source", &Row::source), optional("note", &Row::note)};
};

}  // namespace halfnut
