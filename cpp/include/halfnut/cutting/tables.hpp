#pragma once
/// Rows that cutting is computed from: speeds and feeds, drilling factors.

#include <array>
#include <cstdint>
#include <string_view>
#include <tuple>
#include <utility>

#include "halfnut/schema.hpp"

namespace halfnut::cutting {

/// What a row of speeds is for, by the name in the table.
enum class Operation : std::uint8_t {
    bore,
    counterbore,
    countersink,
    drill,
    end_mill,
    face_mill,
    knurl,
    part_off,
    ream,
    spot,
    tap,
    thread,
    turn_finish,
    turn_rough,
};

constexpr auto enum_names(Operation /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Operation::bore, string_view("bore")},
                      std::pair{Operation::counterbore, string_view("counterbore")},
                      std::pair{Operation::countersink, string_view("countersink")},
                      std::pair{Operation::drill, string_view("drill")},
                      std::pair{Operation::end_mill, string_view("end_mill")},
                      std::pair{Operation::face_mill, string_view("face_mill")},
                      std::pair{Operation::knurl, string_view("knurl")},
                      std::pair{Operation::part_off, string_view("part_off")},
                      std::pair{Operation::ream, string_view("ream")},
                      std::pair{Operation::spot, string_view("spot")},
                      std::pair{Operation::tap, string_view("tap")},
                      std::pair{Operation::thread, string_view("thread")},
                      std::pair{Operation::turn_finish, string_view("turn_finish")},
                      std::pair{Operation::turn_rough, string_view("turn_rough")}};
}

/// What the cutting edge is made of.
enum class ToolMaterial : std::uint8_t { carbide, carbide_coated, cast_cobalt, hss, hss_cobalt };

constexpr auto enum_names(ToolMaterial /*tag*/) {
    using std::string_view;
    return std::array{std::pair{ToolMaterial::carbide, string_view("carbide")},
                      std::pair{ToolMaterial::carbide_coated, string_view("carbide_coated")},
                      std::pair{ToolMaterial::cast_cobalt, string_view("cast_cobalt")},
                      std::pair{ToolMaterial::hss, string_view("hss")},
                      std::pair{ToolMaterial::hss_cobalt, string_view("hss_cobalt")}};
}

/// What a printed feed counts.
enum class FeedPer : std::uint8_t { none, rev, tooth };

constexpr auto enum_names(FeedPer /*tag*/) {
    using std::string_view;
    return std::array{std::pair{FeedPer::none, string_view("none")},
                      std::pair{FeedPer::rev, string_view("rev")},
                      std::pair{FeedPer::tooth, string_view("tooth")}};
}

/// Why a row ranks behind the others.
enum class Doubt : std::uint8_t { none, low_confidence, tool_assumed, negative_rake, misprint, garbled };

constexpr auto enum_names(Doubt /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Doubt::none, string_view("none")},
                      std::pair{Doubt::low_confidence, string_view("low_confidence")},
                      std::pair{Doubt::tool_assumed, string_view("tool_assumed")},
                      std::pair{Doubt::negative_rake, string_view("negative_rake")},
                      std::pair{Doubt::misprint, string_view("misprint")},
                      std::pair{Doubt::garbled, string_view("garbled")}};
}

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

/// Speed of an operation as a share of that of rough turning.
struct OperationShareRow {
    Operation operation{};
    double share = 0;
    SourceId source;
};

/// Kinds of cutting that forces are measured in.
enum class Process : std::uint8_t { drill, mill, tap, turn };

constexpr auto enum_names(Process /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{Process::drill, string_view("drill")}, std::pair{Process::mill, string_view("mill")},
        std::pair{Process::tap, string_view("tap")}, std::pair{Process::turn, string_view("turn")}};
}

/// Whether measured cuts of a group bear out what is reckoned for it.
enum class Check : std::uint8_t { unverified, verified };

constexpr auto enum_names(Check /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Check::unverified, string_view("unverified")},
                      std::pair{Check::verified, string_view("verified")}};
}

/// Band of the measured force over the reckoned one. Empty cells are NaN.
struct ForceBandRow {
    std::string_view group;
    Process process{};
    double low = 0;
    double high = 0;
    Check check{};
    double papers = 0;
    double rows = 0;
    double median = 0;  ///< reckoned over measured
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

/// Speed of a tool material as a multiple of that of high-speed steel.
struct ToolShareRow {
    ToolMaterial tool_material{};
    double share = 0;
    SourceId source;
};

}  // namespace halfnut::cutting

namespace halfnut {

template <>
struct Schema<cutting::SpeedRow> {
    using Row = cutting::SpeedRow;
    static constexpr std::string_view table = "cutting/speeds";
    static constexpr std::size_t key_columns = 4;
    static constexpr auto columns = std::tuple{required("key", &Row::key),
                                               required("operation", &Row::operation),
                                               required("tool_material", &Row::tool_material),
                                               required("number", &Row::number),
                                               optional("hardness_low_hb", &Row::hardness_low_hb),
                                               optional("hardness_high_hb", &Row::hardness_high_hb),
                                               optional("diameter_low_mm", &Row::diameter_low_mm),
                                               optional("diameter_high_mm", &Row::diameter_high_mm),
                                               optional("depth_low_mm", &Row::depth_low_mm),
                                               optional("depth_high_mm", &Row::depth_high_mm),
                                               optional("speed_low_m_min", &Row::speed_low_m_min),
                                               optional("speed_high_m_min", &Row::speed_high_m_min),
                                               optional("feed_low_mm", &Row::feed_low_mm),
                                               optional("feed_high_mm", &Row::feed_high_mm),
                                               optional("feed_per", &Row::feed_per),
                                               optional("doubt", &Row::doubt),
                                               required("label", &Row::label),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<cutting::DrillPointRow> {
    using Row = cutting::DrillPointRow;
    static constexpr std::string_view table = "cutting/drill_points";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("chisel_ratio", &Row::chisel_ratio), required("web_ratio", &Row::web_ratio),
                   required("torque_a", &Row::torque_a),         required("thrust_b", &Row::thrust_b),
                   required("thrust_j", &Row::thrust_j),         required("source", &Row::source)};
};

template <>
struct Schema<cutting::DrillMaterialRow> {
    using Row = cutting::DrillMaterialRow;
    static constexpr std::string_view table = "cutting/drill_materials";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::tuple{required("group", &Row::group), required("hardness_hb", &Row::hardness_hb),
                   required("kd_inch", &Row::kd_inch), required("source", &Row::source)};
};

template <>
struct Schema<cutting::ForceBandRow> {
    using Row = cutting::ForceBandRow;
    static constexpr std::string_view table = "cutting/force_bands";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{
        required("group", &Row::group), required("process", &Row::process), required("low", &Row::low),
        required("high", &Row::high),   required("check", &Row::check),     optional("papers", &Row::papers),
        optional("rows", &Row::rows),   optional("median", &Row::median),   required("source", &Row::source),
        optional("note", &Row::note)};
};

template <>
struct Schema<cutting::ToolLifeRow> {
    using Row = cutting::ToolLifeRow;
    static constexpr std::string_view table = "cutting/tool_lives";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns =
        std::tuple{required("key", &Row::key),           required("tool_material", &Row::tool_material),
                   required("number", &Row::number),     required("exponent", &Row::exponent),
                   required("c_m_min", &Row::c_m_min),   required("feed_mm", &Row::feed_mm),
                   required("depth_mm", &Row::depth_mm), optional("hardness_hb", &Row::hardness_hb),
                   required("source", &Row::source),     optional("note", &Row::note)};
};

template <>
struct Schema<cutting::DeepHoleRow> {
    using Row = cutting::DeepHoleRow;
    static constexpr std::string_view table = "cutting/deep_holes";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("depth_ratio", &Row::depth_ratio), required("speed_share", &Row::speed_share),
                   required("feed_share", &Row::feed_share), required("source", &Row::source)};
};

template <>
struct Schema<cutting::DrillFeedRow> {
    using Row = cutting::DrillFeedRow;
    static constexpr std::string_view table = "cutting/drill_feeds";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("diameter_mm", &Row::diameter_mm), required("feed_low_mm", &Row::feed_low_mm),
                   required("feed_high_mm", &Row::feed_high_mm), required("source", &Row::source)};
};

template <>
struct Schema<cutting::DrillFeedBoundRow> {
    using Row = cutting::DrillFeedBoundRow;
    static constexpr std::string_view table = "cutting/drill_feed_bounds";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("diameter_mm", &Row::diameter_mm), required("feed_most_mm", &Row::feed_most_mm),
                   required("source", &Row::source), optional("note", &Row::note)};
};

template <>
struct Schema<cutting::DrillFeedShareRow> {
    using Row = cutting::DrillFeedShareRow;
    static constexpr std::string_view table = "cutting/drill_feed_shares";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{
        required("group", &Row::group), required("hardness_hb", &Row::hardness_hb),
        required("share", &Row::share), required("source", &Row::source), optional("note", &Row::note)};
};

template <>
struct Schema<cutting::ToothFeedRow> {
    using Row = cutting::ToothFeedRow;
    static constexpr std::string_view table = "cutting/tooth_feeds";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns = std::tuple{required("group", &Row::group),
                                               required("hardness_hb", &Row::hardness_hb),
                                               required("diameter_mm", &Row::diameter_mm),
                                               required("operation", &Row::operation),
                                               required("feed_low_mm", &Row::feed_low_mm),
                                               required("feed_high_mm", &Row::feed_high_mm),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<cutting::FireLimitRow> {
    using Row = cutting::FireLimitRow;
    static constexpr std::string_view table = "cutting/fire_limits";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{required("hazard", &Row::hazard),
                                               required("speed_high_m_min", &Row::speed_high_m_min),
                                               required("speed_never_m_min", &Row::speed_never_m_min),
                                               required("feed_least_mm", &Row::feed_least_mm),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<cutting::ToolRow> {
    using Row = cutting::ToolRow;
    static constexpr std::string_view table = "cutting/tools";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::tuple{required("id", &Row::id),
                                               required("name", &Row::name),
                                               required("tool_material", &Row::tool_material),
                                               optional("diameter_mm", &Row::diameter_mm),
                                               optional("teeth", &Row::teeth),
                                               optional("width_mm", &Row::width_mm),
                                               optional("nose_radius_mm", &Row::nose_radius_mm),
                                               optional("entering_deg", &Row::entering_deg),
                                               optional("rake_deg", &Row::rake_deg),
                                               optional("point_deg", &Row::point_deg),
                                               optional("bar_diameter_mm", &Row::bar_diameter_mm),
                                               optional("stick_out_mm", &Row::stick_out_mm),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<cutting::OperationShareRow> {
    using Row = cutting::OperationShareRow;
    static constexpr std::string_view table = "cutting/operation_shares";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("operation", &Row::operation), required("share", &Row::share),
                   required("source", &Row::source)};
};

template <>
struct Schema<cutting::ToolShareRow> {
    using Row = cutting::ToolShareRow;
    static constexpr std::string_view table = "cutting/tool_shares";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("tool_material", &Row::tool_material), required("share", &Row::share),
                   required("source", &Row::source)};
};

}  // namespace halfnut
