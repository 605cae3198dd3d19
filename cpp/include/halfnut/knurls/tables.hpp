#pragma once
/// Rows that knurls are computed from.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

#include "halfnut/knurls/kinds.hpp"
#include "halfnut/schema.hpp"

namespace halfnut::knurls {

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
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(diametral_pitch),
                                               HALFNUT_REQUIRED(tracking_factor_in),
                                               HALFNUT_REQUIRED(straight_depth_in),
                                               HALFNUT_REQUIRED(diagonal_depth_in),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_REQUIRED(tracking_factor_source),
                                               HALFNUT_REQUIRED(depth_source)};
};

template <>
struct Schema<knurls::DiametralToleranceRow> {
    using Row = knurls::DiametralToleranceRow;
    static constexpr std::string_view table = "knurls/diametral_tolerances";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(tolerance_class),     HALFNUT_REQUIRED(diametral_pitch),
                   HALFNUT_REQUIRED(outside_upper_in),    HALFNUT_REQUIRED(outside_lower_in),
                   HALFNUT_REQUIRED(blank_plus_minus_in), HALFNUT_REQUIRED(source),
                   HALFNUT_REQUIRED(lower_source)};
};

template <>
struct Schema<knurls::DiametralWheelRow> {
    using Row = knurls::DiametralWheelRow;
    static constexpr std::string_view table = "knurls/diametral_wheels";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(diametral_pitch), HALFNUT_REQUIRED(nominal_diameter_in),
                   HALFNUT_REQUIRED(teeth), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<knurls::MetricPitchRow> {
    using Row = knurls::MetricPitchRow;
    static constexpr std::string_view table = "knurls/metric_pitches";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(pitch_mm), HALFNUT_REQUIRED(code), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<knurls::MetricFormRow> {
    using Row = knurls::MetricFormRow;
    static constexpr std::string_view table = "knurls/metric_forms";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(form),   HALFNUT_REQUIRED(pattern),      HALFNUT_REQUIRED(helix_deg),
                   HALFNUT_REQUIRED(wheels), HALFNUT_REQUIRED(blank_factor), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<knurls::MetricWheelRow> {
    using Row = knurls::MetricWheelRow;
    static constexpr std::string_view table = "knurls/metric_wheels";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(diameter_mm), HALFNUT_REQUIRED(pitch_mm), HALFNUT_REQUIRED(teeth),
                   HALFNUT_REQUIRED(bore_mm),     HALFNUT_REQUIRED(source),   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<knurls::CircularNameRow> {
    using Row = knurls::CircularNameRow;
    static constexpr std::string_view table = "knurls/circular_names";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(name), HALFNUT_REQUIRED(teeth_per_inch), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<knurls::ToothDepthRow> {
    using Row = knurls::ToothDepthRow;
    static constexpr std::string_view table = "knurls/tooth_depths";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(pattern), HALFNUT_REQUIRED(depth_share), HALFNUT_REQUIRED(source)};
};

}  // namespace halfnut
