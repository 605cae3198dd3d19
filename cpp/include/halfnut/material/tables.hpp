#pragma once
/// Rows that materials are described by: alloys, their groups, their names.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

#include "halfnut/core/schema.hpp"

namespace halfnut::material {

/// Group of work material by ISO 513: H hardened, K cast iron, M stainless, N non-ferrous, P steel,
/// S heat-resistant and titanium.
enum class Iso513 : std::uint8_t { h, k, m, n, p, s };

constexpr auto enum_names(Iso513 /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Iso513::h, string_view("H")}, std::pair{Iso513::k, string_view("K")},
                      std::pair{Iso513::m, string_view("M")}, std::pair{Iso513::n, string_view("N")},
                      std::pair{Iso513::p, string_view("P")}, std::pair{Iso513::s, string_view("S")}};
}

/// An alloy in one condition. Empty cells are NaN.
struct AlloyRow {
    std::string_view id;  ///< UNS number where there is one, with the condition where several are listed
    std::string_view name;
    std::string_view condition;
    Iso513 iso513{};
    std::string_view group;
    double hardness_hb = 0;
    double density_kg_m3 = 0;
    double youngs_modulus_gpa = 0;
    double yield_mpa = 0;
    double tensile_mpa = 0;
    double kc11_n_mm2 = 0;  ///< kc1.1, specific cutting force at 1 mm chip thickness
    double mc = 0;          ///< exponent of chip thickness
    double unit_power_hp_in3_min = 0;
    double unit_power_high_hp_in3_min = 0;  ///< upper end where the source prints a range
    double unit_power_thickness_mm = 0;     ///< chip thickness at which the unit power holds
    double expansion_um_m_k = 0;
    double conductivity_w_m_k = 0;
    double specific_heat_j_kg_k = 0;
    std::string_view hazards;  ///< words, separated by spaces
    std::string_view traits;   ///< words, separated by spaces
    SourceId source;
    SourceId kc_source;
    SourceId unit_power_source;
    SourceId thermal_source;
    std::string_view note;
    std::string_view like;  ///< id of the alloy that gives what a shop's row leaves out; else empty
};

/// A group of alloys that speeds are tabulated for, and the group above it.
struct GroupRow {
    std::string_view group;
    std::string_view parent;  ///< empty at the root
    std::string_view name;
    SourceId source;
};

/// A name of an alloy. A name with several alloys is refused with the choice; one without an alloy is known
/// to the trade and held by no row.
struct AliasRow {
    std::string_view alias;
    std::string_view alloy;
    SourceId source;
};

/// What is put on a cut of a group of materials, a word an operation.
struct CuttingFluidRow {
    std::string_view key;      ///< a group, or an alloy's id
    std::string_view turning;  ///< and facing, boring, parting, knurling
    std::string_view milling;
    std::string_view drilling;
    std::string_view reaming;
    std::string_view tapping;  ///< and every other way of threading
    SourceId source;
    std::string_view note;
};

/// Minimum strengths of an alloy in one form and range of thickness; printed in one of the two units, the
/// other NaN. Over, up to and including; NaN: open. Tensile and yield are along the grain where those across
/// it are given, else the specification's.
struct StrengthRow {
    std::string_view alloy;
    std::string_view form;  ///< "bar", "casting", "drawn tube", "extrusion", "plate", "sheet"
    int step = 0;           ///< 1, 2, ... with the thickness
    std::string_view temper;
    double over_mm = 0;
    double up_to_mm = 0;
    double over_in = 0;
    double up_to_in = 0;
    double tensile_mpa = 0;
    double yield_mpa = 0;
    double tensile_ksi = 0;
    double yield_ksi = 0;
    double tensile_across_ksi = 0;  ///< long transverse, LT, where along and across the grain are printed
    double yield_across_ksi = 0;
    double shear_ksi = 0;
    double bearing_ksi = 0;  ///< ultimate, edge distance of two diameters
    SourceId source;
    SourceId shear_source;  ///< of shear and bearing, where it is another
    std::string_view note;
};

}  // namespace halfnut::material

namespace halfnut {

template <>
struct Schema<material::AlloyRow> {
    using Row = material::AlloyRow;
    static constexpr std::string_view table = "material/alloys";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(id),
                                               HALFNUT_REQUIRED(name),
                                               HALFNUT_REQUIRED(condition),
                                               HALFNUT_REQUIRED(iso513),
                                               HALFNUT_REQUIRED(group),
                                               HALFNUT_OPTIONAL(hardness_hb),
                                               HALFNUT_REQUIRED(density_kg_m3),
                                               HALFNUT_OPTIONAL(youngs_modulus_gpa),
                                               HALFNUT_OPTIONAL(yield_mpa),
                                               HALFNUT_OPTIONAL(tensile_mpa),
                                               HALFNUT_OPTIONAL(kc11_n_mm2),
                                               HALFNUT_OPTIONAL(mc),
                                               HALFNUT_OPTIONAL(unit_power_hp_in3_min),
                                               HALFNUT_OPTIONAL(unit_power_high_hp_in3_min),
                                               HALFNUT_OPTIONAL(unit_power_thickness_mm),
                                               HALFNUT_OPTIONAL(expansion_um_m_k),
                                               HALFNUT_OPTIONAL(conductivity_w_m_k),
                                               HALFNUT_OPTIONAL(specific_heat_j_kg_k),
                                               HALFNUT_OPTIONAL(hazards),
                                               HALFNUT_OPTIONAL(traits),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(kc_source),
                                               HALFNUT_OPTIONAL(unit_power_source),
                                               HALFNUT_OPTIONAL(thermal_source),
                                               HALFNUT_OPTIONAL(note),
                                               HALFNUT_OPTIONAL(like)};
};

template <>
struct Schema<material::GroupRow> {
    using Row = material::GroupRow;
    static constexpr std::string_view table = "material/groups";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(group), HALFNUT_OPTIONAL(parent),
                                               HALFNUT_REQUIRED(name), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<material::AliasRow> {
    using Row = material::AliasRow;
    static constexpr std::string_view table = "material/aliases";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(alias), HALFNUT_OPTIONAL(alloy), HALFNUT_REQUIRED(source)};
};

template <>
struct Schema<material::CuttingFluidRow> {
    using Row = material::CuttingFluidRow;
    static constexpr std::string_view table = "material/cutting_fluids";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::array{HALFNUT_REQUIRED(key),      HALFNUT_REQUIRED(turning), HALFNUT_REQUIRED(milling),
                   HALFNUT_REQUIRED(drilling), HALFNUT_REQUIRED(reaming), HALFNUT_REQUIRED(tapping),
                   HALFNUT_REQUIRED(source),   HALFNUT_OPTIONAL(note)};
};

template <>
struct Schema<material::StrengthRow> {
    using Row = material::StrengthRow;
    static constexpr std::string_view table = "material/strengths";
    static constexpr std::size_t key_columns = 3;
    static constexpr auto columns = std::array{HALFNUT_REQUIRED(alloy),
                                               HALFNUT_REQUIRED(form),
                                               HALFNUT_REQUIRED(step),
                                               HALFNUT_REQUIRED(temper),
                                               HALFNUT_OPTIONAL(over_mm),
                                               HALFNUT_OPTIONAL(up_to_mm),
                                               HALFNUT_OPTIONAL(over_in),
                                               HALFNUT_OPTIONAL(up_to_in),
                                               HALFNUT_OPTIONAL(tensile_mpa),
                                               HALFNUT_OPTIONAL(yield_mpa),
                                               HALFNUT_OPTIONAL(tensile_ksi),
                                               HALFNUT_OPTIONAL(yield_ksi),
                                               HALFNUT_OPTIONAL(tensile_across_ksi),
                                               HALFNUT_OPTIONAL(yield_across_ksi),
                                               HALFNUT_OPTIONAL(shear_ksi),
                                               HALFNUT_OPTIONAL(bearing_ksi),
                                               HALFNUT_REQUIRED(source),
                                               HALFNUT_OPTIONAL(shear_source),
                                               HALFNUT_OPTIONAL(note)};
};

}  // namespace halfnut
