#pragma once
// Arguments that most cuts have: each sentence stands here once, for whatever struct holds the member.

#include <array>
#include <string_view>
#include <type_traits>
#include <utility>

#include "cut_answer.hpp"
#include "halfnut/core/question.hpp"
#include "halfnut/cutting/questions.hpp"
#include "halfnut/material/alloy.hpp"

namespace halfnut::cutting {

/// The range of a request's number, of the request's own list.
template <class List>
constexpr const Argument& range_in(const List& list, std::string_view key) {
    for (const auto& each : list) {
        if (each.argument.name == key) {
            return each.argument;
        }
    }
    throw "no such argument";
}

/// The work's material, whatever member holds its name.
constexpr AskedRow alloy_row(const AskedRow& row) {
    return row.saying("The work's material, by any of its names.")
        .required()
        .or_a("Alloy")
        .listing(&material::alloy_names);
}

/// The hardness of the very work, whatever member holds it.
constexpr AskedRow hardness_row(const AskedRow& row) {
    return row.saying("The work's own Brinell hardness.")
        .in(positive("hardness_hb", "HB"))
        .usually("as tabulated for the alloy");
}

/// Rows of what is asked, `Asked`, whose member `cut` is a request with the ranges of `kList`.
template <class Asked, const auto& kList>
struct CutRows {
#define ROW(member, about) HALFNUT_ASKED(Asked, member, about)
#define NUMBER(member, about) ROW(cut.member, about).in(range_in(kList, #member))
    static constexpr AskedRow alloy = alloy_row(ROW(alloy, ""));
    static constexpr AskedRow machine =
        ROW(machine, "Machine whose levers to choose from; without one speed and feed are exact.");
    static constexpr AskedRow tool =
        ROW(tool, "HSS, cobalt HSS, cast cobalt, carbide, coated carbide, or a tool of the shop's tables.")
            .usually("HSS")
            .listing(&tool_names);
    static constexpr AskedRow feed =
        NUMBER(feed_mm_rev, "Feed wanted, such as 0.1 mm/rev; the next finer of the machine is taken.");
    static constexpr AskedRow spindle =
        NUMBER(spindle_rpm, "Spindle speed wanted; the nearest of the machine is taken.");
    static constexpr AskedRow hardness = hardness_row(ROW(cut.work.hardness_hb, ""));
    static constexpr AskedRow wear =
        NUMBER(wear_factor,
               "Factor on the force, 1 of a sharp tool, 1.4 of a blunt one. Where it is not given the force "
               "is that of a sharp edge, while limits and upper edges of force and power are those of an "
               "edge in use.")
            .finer();
    static constexpr AskedRow chuck =
        ROW(chuck, "What holds the work, by the name or the place that the machine file gives it.")
            .or_a("Holder")
            .usually("the first");
    static constexpr AskedRow stock =
        ROW(stock, "Bar or blank that is held: its diameter, or \"30 mm hex\" across the flats.")
            .or_a("Stock")
            .as_length();
    static constexpr AskedRow bar_length =
        NUMBER(bar_length_mm, "Length of a whole bar that goes through the spindle.");
    static constexpr AskedRow bar_behind =
        NUMBER(bar_behind_mm, "Length of a bar that is free behind the spindle.");
    static constexpr AskedRow stick_out = NUMBER(stick_out_mm, "Overhang of the work from the jaws.");
    static constexpr AskedRow approach =
        NUMBER(approach_mm, "Travel of the tool before the cut.").usually("2 mm").finer();
    static constexpr AskedRow overrun =
        NUMBER(overrun_mm, "Travel of the tool past the cut.").usually("none").finer();
    static constexpr AskedRow deflection =
        NUMBER(deflection_limit_mm, "Deflection that is allowed.").called("deflection").finer();
    static constexpr AskedRow skin =
        ROW(cut.skin,
            "Skin or form of the stock where the cut goes: scale of rolling or forging, the skin of a "
            "casting, drawn tube, a cut that is interrupted.");
    static constexpr AskedRow roughness =
        NUMBER(
            roughness_limit_um,
            "Ra that is asked for; the feed aims finer, since a real surface is rougher than its geometry.")
            .called("roughness_um");
#undef NUMBER
#undef ROW
};

/// Own arguments, then those of another question but for some, by their keys.
template <std::size_t Own, std::size_t Others, std::size_t Left>
constexpr auto with_those_of(const std::array<AskedRow, Own>& own, const std::array<AskedRow, Others>& others,
                             const std::array<std::string_view, Left>& left) {
    std::array<AskedRow, Own + Others - Left> out{};
    std::size_t count = 0;
    for (const AskedRow& row : own) {
        out[count++] = row;
    }
    for (const AskedRow& row : others) {
        bool is_left = false;
        for (const std::string_view key : left) {
            is_left = is_left || row.key == key;
        }
        if (!is_left) {
            out.at(count++) = row;
        }
    }
    return count == out.size() ? out : throw "no such argument to leave";
}

/// Arguments of what is asked, `Base`, for what is asked beside more, `Derived`.
template <class Derived, class Base, const auto& kRows>
constexpr auto inherited() {
    const auto one = []<std::size_t Place>(std::integral_constant<std::size_t, Place> /*tag*/) {
        AskedRow out = kRows[Place];
        out.take = [](void* asked, const Given& given, const AskedRow& row, Asking& asking) {
            kRows[Place].take(static_cast<Base*>(static_cast<Derived*>(asked)), given, row, asking);
        };
        if (out.set != nullptr) {
            out.set = [](void* asked, double value) {
                kRows[Place].set(static_cast<Base*>(static_cast<Derived*>(asked)), value);
            };
        }
        return out;
    };
    return [&]<std::size_t... Places>(std::index_sequence<Places...> /*tag*/) {
        return std::array{one(std::integral_constant<std::size_t, Places>{})...};
    }(std::make_index_sequence<kRows.size()>{});
}

inline constexpr std::string_view kCutSources =
    "Kienzle's force with the rows that the evidence names; ISO 3685 for the edge's life.";

/// A question of this room.
template <class Asked, class Answered, Answered (*Evaluate)(const Asked&, const Asking&)>
constexpr Question cut_question(std::string_view name, std::string_view about, std::span<const AskedRow> rows,
                                const RecordRow& record, std::string_view example) {
    Question out = question<Asked, Answered, Evaluate>("cutting", name, about, rows, record);
    out.sources = kCutSources;
    out.example = example;
    return out;
}

}  // namespace halfnut::cutting
