#pragma once
/// Rows that knurls are computed from.

#include <array>
#include <cstdint>
#include <string_view>
#include <tuple>
#include <utility>

#include "halfnut/schema.hpp"

namespace halfnut::knurls {

/// What the knurl looks like on the work.
enum class Pattern : std::uint8_t {
    straight,          ///< ridges along the axis
    left,              ///< ridges leaning as a left-hand thread
    right,             ///< ridges leaning as a right-hand thread
    diamond_raised,    ///< both hands crossing, points standing
    diamond_indented,  ///< both hands crossing, points sunk
    cross_raised,      ///< along the axis and around it, points standing
    cross_indented,    ///< along the axis and around it, points sunk
};

constexpr auto enum_names(Pattern /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Pattern::straight, string_view("straight")},
                      std::pair{Pattern::left, string_view("left")},
                      std::pair{Pattern::right, string_view("right")},
                      std::pair{Pattern::diamond_raised, string_view("diamond raised")},
                      std::pair{Pattern::diamond_indented, string_view("diamond indented")},
                      std::pair{Pattern::cross_raised, string_view("cross raised")},
                      std::pair{Pattern::cross_indented, string_view("cross indented")}};
}

/// A pitch by teeth per inch of blank diameter.
struct DiametralPitchRow {
    double diametral_pitch = 0;     ///< P, teeth per inch of diameter
    double tracking_factor_in = 0;  ///< Q, arc by which a tooth of the wheel is short of its nominal pitch
    double straight_depth_in = 0;   ///< h, wheels with straight teeth
    double diagonal_depth_in = 0;   ///< h, wheels with teeth at 30 degrees
    SourceId source;
    SourceId tracking_factor_source;
    SourceId depth_source;
};

/// Limits of a tolerance class for one diametral pitch.
struct DiametralToleranceRow {
    int tolerance_class = 0;  ///< 1, 2 or 3
    double diametral_pitch = 0;
    double outside_upper_in = 0;     ///< on the diameter after knurling
    double outside_lower_in = 0;     ///< on the diameter after knurling
    double blank_plus_minus_in = 0;  ///< on the blank
    SourceId source;
    SourceId lower_source;
};

/// A standard wheel for a diametral pitch.
struct DiametralWheelRow {
    double diametral_pitch = 0;
    double nominal_diameter_in = 0;
    int teeth = 0;
    SourceId source;
};

/// A pitch of the metric series.
struct MetricPitchRow {
    double pitch_mm = 0;    ///< t, across the teeth
    std::string_view code;  ///< as wheels are marked, such as "08"
    SourceId source;
};

/// A form of the metric system and the factor of its blank.
struct MetricFormRow {
    std::string_view form;  ///< such as "RGE"
    Pattern pattern{};
    double helix_deg = 0;
    std::string_view wheels;
    double blank_factor = 0;  ///< k in d2 = d1 - k t, at a profile angle of 90 degrees
    SourceId source;
};

/// A metric wheel with straight teeth.
struct MetricWheelRow {
    double diameter_mm = 0;
    double pitch_mm = 0;
    int teeth = 0;
    double bore_mm = 0;
    SourceId source;
    std::string_view note;
};

/// A name for a circular pitch.
struct CircularNameRow {
    std::string_view name;
    double teeth_per_inch = 0;
    SourceId source;
};

/// Depth in the work as a share of the circular pitch.
struct ToothDepthRow {
    Pattern pattern{};
    double depth_share = 0;
    SourceId source;
};

}  // namespace halfnut::knurls

namespace halfnut {

template <>
struct Schema<knurls::DiametralPitchRow> {
    using Row = knurls::DiametralPitchRow;
    static constexpr std::string_view table = "knurls/diametral_pitches";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("diametral_pitch", &Row::diametral_pitch),
                   required("tracking_factor_in", &Row::tracking_factor_in),
                   required("straight_depth_in", &Row::straight_depth_in),
                   required("diagonal_depth_in", &Row::diagonal_depth_in),
                   required("source", &Row::source),
                   required("tracking_factor_source", &Row::tracking_factor_source),
                   required("depth_source", &Row::depth_source)};
};

template <>
struct Schema<knurls::DiametralToleranceRow> {
    using Row = knurls::DiametralToleranceRow;
    static constexpr std::string_view table = "knurls/diametral_tolerances";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("tolerance_class", &Row::tolerance_class),
                                               required("diametral_pitch", &Row::diametral_pitch),
                                               required("outside_upper_in", &Row::outside_upper_in),
                                               required("outside_lower_in", &Row::outside_lower_in),
                                               required("blank_plus_minus_in", &Row::blank_plus_minus_in),
                                               required("source", &Row::source),
                                               required("lower_source", &Row::lower_source)};
};

template <>
struct Schema<knurls::DiametralWheelRow> {
    using Row = knurls::DiametralWheelRow;
    static constexpr std::string_view table = "knurls/diametral_wheels";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::tuple{required("diametral_pitch", &Row::diametral_pitch),
                   required("nominal_diameter_in", &Row::nominal_diameter_in), required("teeth", &Row::teeth),
                   required("source", &Row::source)};
};

template <>
struct Schema<knurls::MetricPitchRow> {
    using Row = knurls::MetricPitchRow;
    static constexpr std::string_view table = "knurls/metric_pitches";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{
        required("pitch_mm", &Row::pitch_mm), required("code", &Row::code), required("source", &Row::source)};
};

template <>
struct Schema<knurls::MetricFormRow> {
    using Row = knurls::MetricFormRow;
    static constexpr std::string_view table = "knurls/metric_forms";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{required("form", &Row::form),
                                               required("pattern", &Row::pattern),
                                               required("helix_deg", &Row::helix_deg),
                                               required("wheels", &Row::wheels),
                                               required("blank_factor", &Row::blank_factor),
                                               required("source", &Row::source)};
};

template <>
struct Schema<knurls::MetricWheelRow> {
    using Row = knurls::MetricWheelRow;
    static constexpr std::string_view table = "knurls/metric_wheels";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("diameter_mm", &Row::diameter_mm),
                                               required("pitch_mm", &Row::pitch_mm),
                                               required("teeth", &Row::teeth),
                                               required("bore_mm", &Row::bore_mm),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<knurls::CircularNameRow> {
    using Row = knurls::CircularNameRow;
    static constexpr std::string_view table = "knurls/circular_names";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("name", &Row::name), required("teeth_per_inch", &Row::teeth_per_inch),
                   required("source", &Row::source)};
};

template <>
struct Schema<knurls::ToothDepthRow> {
    using Row = knurls::ToothDepthRow;
    static constexpr std::string_view table = "knurls/tooth_depths";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("pattern", &Row::pattern), required("depth_share", &Row::depth_share),
                   required("source", &Row::source)};
};

}  // namespace halfnut
