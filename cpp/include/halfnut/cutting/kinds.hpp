#pragma once
/// Kinds of operation, tool material, feed and process.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

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
enum class Doubt : std::uint8_t {
    none,
    low_confidence,
    tool_assumed,
    negative_rake,
    misprint,
    garbled,
    out_of_order
};

constexpr auto enum_names(Doubt /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Doubt::none, string_view("none")},
                      std::pair{Doubt::low_confidence, string_view("low_confidence")},
                      std::pair{Doubt::tool_assumed, string_view("tool_assumed")},
                      std::pair{Doubt::negative_rake, string_view("negative_rake")},
                      std::pair{Doubt::misprint, string_view("misprint")},
                      std::pair{Doubt::garbled, string_view("garbled")},
                      std::pair{Doubt::out_of_order, string_view("out_of_order")}};
}

/// Kinds of cutting that forces are measured in.
enum class Process : std::uint8_t { drill, mill, tap, turn };

constexpr auto enum_names(Process /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{Process::drill, string_view("drill")}, std::pair{Process::mill, string_view("mill")},
        std::pair{Process::tap, string_view("tap")}, std::pair{Process::turn, string_view("turn")}};
}

/// What stands out of its holder.
enum class Overhung : std::uint8_t {
    steel_bar,  ///< as BarMaterial has them, in its order
    heavy_metal_bar,
    carbide_bar,
    damped_steel_bar,
    damped_carbide_bar,
    blade,
    carbide_cutter,
    cutter,
};

constexpr auto enum_names(Overhung /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Overhung::steel_bar, string_view("steel_bar")},
                      std::pair{Overhung::heavy_metal_bar, string_view("heavy_metal_bar")},
                      std::pair{Overhung::carbide_bar, string_view("carbide_bar")},
                      std::pair{Overhung::damped_steel_bar, string_view("damped_steel_bar")},
                      std::pair{Overhung::damped_carbide_bar, string_view("damped_carbide_bar")},
                      std::pair{Overhung::blade, string_view("blade")},
                      std::pair{Overhung::carbide_cutter, string_view("carbide_cutter")},
                      std::pair{Overhung::cutter, string_view("cutter")}};
}

/// What a boring bar is made of.
enum class BarMaterial : std::uint8_t { steel, heavy_metal, carbide, damped_steel, damped_carbide };

constexpr auto enum_names(BarMaterial /*tag*/) {
    using std::string_view;
    return std::array{std::pair{BarMaterial::steel, string_view("steel")},
                      std::pair{BarMaterial::heavy_metal, string_view("heavy metal")},
                      std::pair{BarMaterial::carbide, string_view("carbide")},
                      std::pair{BarMaterial::damped_steel, string_view("damped steel")},
                      std::pair{BarMaterial::damped_carbide, string_view("damped carbide")}};
}

constexpr Overhung overhung(BarMaterial bar) noexcept {
    return static_cast<Overhung>(static_cast<std::uint8_t>(bar));
}

/// Skin and form of the stock, as far as the trade cuts it otherwise.
enum class Skin : std::uint8_t { clean, scale, cast_skin, drawn_tube, interrupted };

constexpr auto enum_names(Skin /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Skin::clean, string_view("clean")},
                      std::pair{Skin::scale, string_view("scale")},
                      std::pair{Skin::cast_skin, string_view("cast skin")},
                      std::pair{Skin::drawn_tube, string_view("drawn tube")},
                      std::pair{Skin::interrupted, string_view("interrupted")}};
}

/// Whether measured cuts of a group bear out what is computed for it.
enum class Check : std::uint8_t { unverified, verified };

constexpr auto enum_names(Check /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Check::unverified, string_view("unverified")},
                      std::pair{Check::verified, string_view("verified")}};
}

}  // namespace halfnut::cutting
