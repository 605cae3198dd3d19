#pragma once
/// Rows that cutting is computed from: speeds and feeds, drilling factors.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

#include "halfnut/core/schema.hpp"
#include "halfnut/cutting/kinds.hpp"

namespace halfnut::cutting {

/// Speeds and feeds of one printed row. Empty cells are NaN.
struct SpeedRow {
    std::string_view key;  ///< alloy ids and groups that the row is for, separated by spaces
    Operation operation{};
    ToolMaterial tool_material{};
    int number = 0;  ///< tells rows of one key, operation and tool apart
    double hardness_low_hb = 0;
    double hardness_high_hb = 0;
    double diameter_low_mm = 0;
    double diameter_high_mm = 0;
    double depth_low_mm = 0;
    double depth_high_mm = 0;
    double speed_low_m_min = 0;
    double speed_high_m_min = 0;
    double feed_low_mm = 0;
    double feed_high_mm = 0;
    FeedPer feed_per{};
    Doubt doubt{};
    std::string_view label;  ///< the heading as printed
    SourceId source;
    std::string_view note;
};

/// Factors of a drill's chisel edge.
struct DrillPointRow {
    double chisel_ratio = 0;  ///< c/d, chisel edge over diameter
    double web_ratio = 0;     ///< w/d, web over diameter
    double torque_a = 0;
    double thrust_b = 0;
    double thrust_j = 0;
    SourceId source;
};

/// Work-material factor of drilling.
struct DrillMaterialRow {
    std::string_view group;
    double hardness_hb = 0;  ///< 0: not graded by hardness
    double kd_inch = 0;
    SourceId source;
};

/// What is left of a drill's speed and feed in a deep hole.
struct DeepHoleRow {
    double depth_ratio = 0;  ///< depth over diameter, from which the shares hold
    double speed_share = 0;
    double feed_share = 0;
    SourceId source;
};

/// Feeds of a drill in plain steel up to 250 HB.
struct DrillFeedRow {
    double diameter_mm = 0;
    double feed_low_mm = 0;
    double feed_high_mm = 0;
    SourceId source;
};

/// The most that a drill is fed, whatever the material.
struct DrillFeedBoundRow {
    double diameter_mm = 0;
    double feed_most_mm = 0;
    SourceId source;
    std::string_view note;
};

/// Feed of a drill as a share of that in plain steel.
struct DrillFeedShareRow {
    std::string_view group;
    double hardness_hb = 0;  ///< 0: not graded by hardness
    double share = 0;
    SourceId source;
    std::string_view note;
};

/// Feeds a tooth of an end mill in a slot, and of a face mill.
struct ToothFeedRow {
    std::string_view group;
    double hardness_hb = 0;  ///< 0: not graded by hardness
    double diameter_mm = 0;
    Operation operation{};  ///< end_mill: face mills so small too
    double feed_low_mm = 0;
    double feed_high_mm = 0;
    SourceId source;
    std::string_view note;
};

/// Limits that keep the chips of a material from taking fire, for every tool and operation.
struct FireLimitRow {
    std::string_view hazard;
    double speed_high_m_min = 0;   ///< highest that is chosen
    double speed_never_m_min = 0;  ///< nothing faster is answered
    double feed_least_mm = 0;      ///< a revolution; finer chips take fire more easily
    SourceId source;
    std::string_view note;
};

/// Speed of an operation as a share of that of another, and the bounds of that share. Empty cells are NaN.
struct OperationShareRow {
    std::string_view group;
    Operation operation{};
    Operation of{};  ///< the other operation; every chain of them ends at rough turning
    double share = 0;
    double least = 0;
    double most = 0;
    double speed_most_m_min = 0;
    SourceId source;
    std::string_view note;
};

/// Band of the measured force over the computed one. Empty cells are NaN.
struct ForceBandRow {
    std::string_view group;
    Process process{};
    double low = 0;
    double high = 0;
    Check check{};
    double papers = 0;
    double rows = 0;
    double median = 0;  ///< computed over measured
    SourceId source;
    std::string_view note;
};

/// Constants of Taylor's equation from one set of trials. Empty cells are NaN.
struct ToolLifeRow {
    std::string_view key;  ///< alloy id or group
    ToolMaterial tool_material{};
    int number = 0;  ///< tells rows of one key and tool apart
    double exponent = 0;
    double c_m_min = 0;
    double feed_mm = 0;
    double depth_mm = 0;
    double hardness_hb = 0;
    SourceId source;
    std::string_view note;
};

/// A tool by name: what it is made of, and what of its form is known. Empty cells are NaN.
struct ToolRow {
    std::string_view id;
    std::string_view name;
    ToolMaterial tool_material{};
    double diameter_mm = 0;  ///< of a drill or cutter
    double teeth = 0;
    double width_mm = 0;  ///< of a blade or saw
    double nose_radius_mm = 0;
    double entering_deg = 0;
    double rake_deg = 0;
    double point_deg = 0;        ///< of a drill or countersink, included
    double bar_diameter_mm = 0;  ///< of a boring bar
    double stick_out_mm = 0;     ///< from its holder
    SourceId source;
    std::string_view note;
};

/// Speed of a tool material in rough turning as a share of that of another, and the bounds of that share.
struct ToolShareRow {
    std::string_view group;
    ToolMaterial tool_material{};
    ToolMaterial of{};  ///< the other tool material; itself for the one that its family starts from
    double share = 0;
    double least = 0;
    double most = 0;
    SourceId source;
    std::string_view note;
};

/// Plates of a dividing head.
struct IndexPlateRow {
    std::string_view name;
    int ratio = 0;             ///< turns of the crank for one of the work
    std::string_view circles;  ///< as machine::index_plates reads them
    SourceId source;
    std::string_view note;
};

/// Gauge blocks of one series of a set.
struct GaugeBlockRow {
    std::string_view unit;
    double first = 0;
    double step = 0;
    int count = 0;
    SourceId source;
};

/// Roughness of a real surface over that of its geometry.
struct FinishBandRow {
    std::string_view group;
    ToolMaterial tool_material{};
    double low = 0;   ///< of a sharp edge on steady work
    double high = 0;  ///< the same
    double worn = 0;  ///< further factor of an edge in use
    double aim = 0;   ///< what is asked for over the geometry that is aimed at
    SourceId source;
    std::string_view note;
};

/// Kienzle's constants of a group on the scale of the unit powers.
struct ForceScaleRow {
    std::string_view group;
    double kienzle_over_unit_power = 0;  ///< of force, at the chip of the unit power
    double alloys = 0;                   ///< that have both
    double rake_deg = 0;                 ///< that a force of this scale stands for
    SourceId source;
    std::string_view note;
};

/// How far a tool stands out, over its own size, before it chatters.
struct OverhangRow {
    Overhung what{};
    double from_ratio = 0;             ///< a word on it from here on
    double most_ratio = 0;             ///< the most for ordinary cuts
    double youngs_modulus_gpa = kNaN;  ///< of a boring bar
    SourceId source;
    std::string_view note;
};

/// What the skin or form of the stock leaves of the speed.
struct SkinRow {
    std::string_view group;
    Skin skin{};
    double speed_share = 0;
    SourceId source;
    std::string_view note;
};

/// Core of a tap between its flutes, and the shear stress that breaks it.
struct TapCoreRow {
    double diameter_mm = 0;
    double core_ratio = 0;
    double shear_low_mpa = 0;
    double shear_high_mpa = 0;
    SourceId source;
};

}  // namespace halfnut::cutting

namespace halfnut {

template <>
struct Schema<cutting::SpeedRow> {
    using Row = cutting::SpeedRow;
    static constexpr std::string_view table = "cutting/speeds";
    static constexpr std::size_t key_columns = 4;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(key),
                                               HALFNUT_REQUIRED(operation),
                                               HALFNUT_REQUIRED(tool_material),
                                               HALFNUT_REQUIRED(number),
                                               HALFNUT_OPTIONAL(hardness_low_hb),
                                               HALFNUT_OPTIONAL(hardness_high_hb),
                                               HALFNUT_OPTIONAL(diameter_low_mm),
                                               HALFNUT_OPTIONAL(diameter_high_mm),
                                               HALFNUT_OPTIONAL(depth_low_mm),
                                               HALFNUT_OPTIONAL(depth_high_mm),
                                               HALFNUT_OPTIONAL(speed_low_m_min),
                                               HALFNUT_OPTIONAL(speed_high_m_min),
                                               HALFNUT_OPTIONAL(feed_low_mm),
                                               HALFNUT_OPTIONAL(feed_high_mm),
                                               HALFNUT_OPTIONAL(feed_per),
                                               HALFNUT_OPTIONAL(doubt),
                                               HALFNUT_REQUIRED(label),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::DrillPointRow> {
    using Row = cutting::DrillPointRow;
    static constexpr std::string_view table = "cutting/drill_points";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(chisel_ratio), HALFNUT_REQUIRED(web_ratio), HALFNUT_REQUIRED(torque_a),
                   HALFNUT_REQUIRED(thrust_b),     HALFNUT_REQUIRED(thrust_j),  HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<cutting::DrillMaterialRow> {
    using Row = cutting::DrillMaterialRow;
    static constexpr std::string_view table = "cutting/drill_materials";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(group), HALFNUT_REQUIRED(hardness_hb),
                                               HALFNUT_REQUIRED(kd_inch), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<cutting::ForceBandRow> {
    using Row = cutting::ForceBandRow;
    static constexpr std::string_view table = "cutting/force_bands";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::array{
        HALFNUT_REQUIRED(group),  HALFNUT_REQUIRED(process), HALFNUT_REQUIRED(low),  HALFNUT_REQUIRED(high),
        HALFNUT_REQUIRED(check),  HALFNUT_OPTIONAL(papers),  HALFNUT_OPTIONAL(rows), HALFNUT_OPTIONAL(median),
        HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::ToolLifeRow> {
    using Row = cutting::ToolLifeRow;
    static constexpr std::string_view table = "cutting/tool_lives";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(key),      HALFNUT_REQUIRED(tool_material), HALFNUT_REQUIRED(number),
                   HALFNUT_REQUIRED(exponent), HALFNUT_REQUIRED(c_m_min),       HALFNUT_REQUIRED(feed_mm),
                   HALFNUT_REQUIRED(depth_mm), HALFNUT_OPTIONAL(hardness_hb),   HALFNUT_REQUIRED(source),
                   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::DeepHoleRow> {
    using Row = cutting::DeepHoleRow;
    static constexpr std::string_view table = "cutting/deep_holes";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(depth_ratio), HALFNUT_REQUIRED(speed_share),
                                               HALFNUT_REQUIRED(feed_share), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<cutting::DrillFeedRow> {
    using Row = cutting::DrillFeedRow;
    static constexpr std::string_view table = "cutting/drill_feeds";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(diameter_mm), HALFNUT_REQUIRED(feed_low_mm),
                                               HALFNUT_REQUIRED(feed_high_mm), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<cutting::DrillFeedBoundRow> {
    using Row = cutting::DrillFeedBoundRow;
    static constexpr std::string_view table = "cutting/drill_feed_bounds";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(diameter_mm), HALFNUT_REQUIRED(feed_most_mm),
                                               HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::DrillFeedShareRow> {
    using Row = cutting::DrillFeedShareRow;
    static constexpr std::string_view table = "cutting/drill_feed_shares";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(group), HALFNUT_REQUIRED(hardness_hb), HALFNUT_REQUIRED(share),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::ToothFeedRow> {
    using Row = cutting::ToothFeedRow;
    static constexpr std::string_view table = "cutting/tooth_feeds";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(group),     HALFNUT_REQUIRED(hardness_hb), HALFNUT_REQUIRED(diameter_mm),
                   HALFNUT_REQUIRED(operation), HALFNUT_REQUIRED(feed_low_mm), HALFNUT_REQUIRED(feed_high_mm),
                   HALFNUT_REQUIRED(source),    HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::FireLimitRow> {
    using Row = cutting::FireLimitRow;
    static constexpr std::string_view table = "cutting/fire_limits";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(hazard),
                                               HALFNUT_REQUIRED(speed_high_m_min),
                                               HALFNUT_REQUIRED(speed_never_m_min),
                                               HALFNUT_REQUIRED(feed_least_mm),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::ToolRow> {
    using Row = cutting::ToolRow;
    static constexpr std::string_view table = "cutting/tools";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(id),
                                               HALFNUT_REQUIRED(name),
                                               HALFNUT_REQUIRED(tool_material),
                                               HALFNUT_OPTIONAL(diameter_mm),
                                               HALFNUT_OPTIONAL(teeth),
                                               HALFNUT_OPTIONAL(width_mm),
                                               HALFNUT_OPTIONAL(nose_radius_mm),
                                               HALFNUT_OPTIONAL(entering_deg),
                                               HALFNUT_OPTIONAL(rake_deg),
                                               HALFNUT_OPTIONAL(point_deg),
                                               HALFNUT_OPTIONAL(bar_diameter_mm),
                                               HALFNUT_OPTIONAL(stick_out_mm),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::OperationShareRow> {
    using Row = cutting::OperationShareRow;
    static constexpr std::string_view table = "cutting/operation_shares";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(group),
                                               HALFNUT_REQUIRED(operation),
                                               HALFNUT_REQUIRED(of),
                                               HALFNUT_REQUIRED(share),
                                               HALFNUT_OPTIONAL(least),
                                               HALFNUT_OPTIONAL(most),
                                               HALFNUT_OPTIONAL(speed_most_m_min),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::ToolShareRow> {
    using Row = cutting::ToolShareRow;
    static constexpr std::string_view table = "cutting/tool_shares";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(group),  HALFNUT_REQUIRED(tool_material), HALFNUT_REQUIRED(of),
                   HALFNUT_REQUIRED(share),  HALFNUT_REQUIRED(least),         HALFNUT_REQUIRED(most),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::IndexPlateRow> {
    using Row = cutting::IndexPlateRow;
    static constexpr std::string_view table = "cutting/index_plates";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(name), HALFNUT_REQUIRED(ratio), HALFNUT_REQUIRED(circles),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::GaugeBlockRow> {
    using Row = cutting::GaugeBlockRow;
    static constexpr std::string_view table = "cutting/gauge_blocks";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(unit), HALFNUT_REQUIRED(first), HALFNUT_REQUIRED(step),
                   HALFNUT_REQUIRED(count), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<cutting::FinishBandRow> {
    using Row = cutting::FinishBandRow;
    static constexpr std::string_view table = "cutting/finish_bands";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(group),  HALFNUT_REQUIRED(tool_material), HALFNUT_REQUIRED(low),
                   HALFNUT_REQUIRED(high),   HALFNUT_REQUIRED(worn),          HALFNUT_REQUIRED(aim),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::ForceScaleRow> {
    using Row = cutting::ForceScaleRow;
    static constexpr std::string_view table = "cutting/force_scales";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(group),  HALFNUT_REQUIRED(kienzle_over_unit_power),
                   HALFNUT_REQUIRED(alloys), HALFNUT_REQUIRED(rake_deg),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::OverhangRow> {
    using Row = cutting::OverhangRow;
    static constexpr std::string_view table = "cutting/overhangs";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(what),       HALFNUT_REQUIRED(from_ratio),
                   HALFNUT_REQUIRED(most_ratio), HALFNUT_OPTIONAL(youngs_modulus_gpa),
                   HALFNUT_REQUIRED(source),     HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::SkinRow> {
    using Row = cutting::SkinRow;
    static constexpr std::string_view table = "cutting/skins";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(group), HALFNUT_REQUIRED(skin), HALFNUT_REQUIRED(speed_share),
                   HALFNUT_REQUIRED(source), HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<cutting::TapCoreRow> {
    using Row = cutting::TapCoreRow;
    static constexpr std::string_view table = "cutting/tap_cores";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(diameter_mm), HALFNUT_REQUIRED(core_ratio),
                                               HALFNUT_REQUIRED(shear_low_mpa),
                                               HALFNUT_REQUIRED(shear_high_mpa), HALFNUT_REQUIRED(source)};
};

}  // namespace halfnut
