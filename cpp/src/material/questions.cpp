// What is known of an alloy, as a question.

#include "halfnut/material/questions.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>

#include "halfnut/material/alloy.hpp"

namespace halfnut::material {

namespace {

using std::string_view;

constexpr std::array kAsked{
    HALFNUT_ASKED(
        AlloyAsk, name,
        "UNS number, a trade name with or without its condition (\"6061-T6\", \"4130 normalised\"), "
        "an EN or a Werkstoff number; case, spaces and punctuation do not count.")
        .required()
        .listing(&alloy_names),
};

std::string title(const AlloyAnswer& answer) {
    return full_name(answer.row);
}

#define ROW(member, about) HALFNUT_FIGURE(AlloyAnswer, row.member, about)
#define OWN(member, about) HALFNUT_FIGURE(AlloyAnswer, member, about)
constexpr std::array kFigures{
    ROW(id, "UNS number where there is one, with the condition where several are listed."),
    ROW(name, "Name in the trade."),
    ROW(condition, "How it was treated."),
    ROW(iso513, "Group of work material by ISO 513."),
    ROW(group, "Group that speeds are tabulated for."),
    OWN(group_names, "Name of that group and of those above it."),
    made_figure<&title>("title", "Name and condition, as a person says them."),
    ROW(hardness_hb, "Brinell hardness."),
    ROW(density_kg_m3, "Density.").always(),
    ROW(youngs_modulus_gpa, "Young's modulus."),
    ROW(yield_mpa, "Yield strength."),
    ROW(tensile_mpa, "Tensile strength."),
    ROW(kc11_n_mm2, "Specific cutting force kc1.1."),
    ROW(mc, "Exponent mc of the chip's thickness."),
    ROW(unit_power_hp_in3_min, "Unit power."),
    ROW(unit_power_high_hp_in3_min, "Upper end of the unit power, where its source prints a range."),
    ROW(expansion_um_m_k, "Thermal expansion."),
    ROW(conductivity_w_m_k, "Thermal conductivity."),
    ROW(specific_heat_j_kg_k, "Specific heat."),
    OWN(hazards, "What is dangerous in machining it, in single words."),
    OWN(traits, "How it behaves in machining, in single words."),
    ROW(note, "What else is to be said."),
    OWN(fluids, "Operation and its cutting fluid, in one word each."),
    OWN(strengths, "Minimum strengths by form and thickness, each with the kind of its source."),
    OWN(lacking, "What its row leaves out that forces and deflections of the work need."),
    OWN(index, "Place in the table of alloys."),
    OWN(told, "What a person should know."),
    OWN(evidence, "Where each property comes from."),
};
#undef OWN
#undef ROW

/// A property with the place of its source among the row's.
struct Property {
    string_view figure;
    double AlloyRow::* value;
    std::uint8_t source;
};
#define PROPERTY(member, from)                                   \
    Property {                                                   \
        #member, &AlloyRow::member, source_place<AlloyRow>(from) \
    }
constexpr std::array kProperties{
    PROPERTY(hardness_hb, "source"),
    PROPERTY(density_kg_m3, "source"),
    PROPERTY(youngs_modulus_gpa, "source"),
    PROPERTY(yield_mpa, "source"),
    PROPERTY(tensile_mpa, "source"),
    PROPERTY(kc11_n_mm2, "kc_source"),
    PROPERTY(mc, "kc_source"),
    PROPERTY(unit_power_hp_in3_min, "unit_power_source"),
    PROPERTY(unit_power_high_hp_in3_min, "unit_power_source"),
    PROPERTY(expansion_um_m_k, "thermal_source"),
    PROPERTY(conductivity_w_m_k, "thermal_source"),
    PROPERTY(specific_heat_j_kg_k, "thermal_source"),
};
#undef PROPERTY

/// Minimum strengths in the units that they are printed in.
std::vector<std::string> strengths_of(const Catalogue& catalogue, const AlloyRow& alloy) {
    std::vector<std::string> out;
    const auto known = [](double value) { return !std::isnan(value); };
    for (const StrengthRow& row : catalogue.strengths) {
        if (row.alloy != alloy.id) {
            continue;
        }
        const bool inch = known(row.tensile_ksi) || known(row.yield_ksi);
        const string_view unit = inch ? "ksi" : "MPa";
        const double over = inch ? row.over_in : row.over_mm;
        const double up_to = inch ? row.up_to_in : row.up_to_mm;
        const double tensile = inch ? row.tensile_ksi : row.tensile_mpa;
        const double yield = inch ? row.yield_ksi : row.yield_mpa;
        std::string& text = out.emplace_back(row.form);
        if (known(up_to)) {
            text += fmt::format(" {:g} to {:g} {}", known(over) ? over : 0.0, up_to, inch ? "in" : "mm");
        }
        if (!row.temper.empty()) {
            text += fmt::format(", {}", row.temper);
        }
        text += ": ";
        if (known(tensile)) {
            text += fmt::format("at least {:g} {}, ", tensile, unit);
        }
        if (known(yield)) {
            text += fmt::format("yield {:g} {}, ", yield, unit);
        }
        text += as_tabulated("strengths", row_ref(catalogue.strengths, row), catalogue).kind;
    }
    return out;
}

std::vector<std::string> words_of(string_view list) {
    std::vector<std::string> out;
    while (!list.empty()) {
        const std::size_t gap = list.find(' ');
        if (gap != 0) {
            out.emplace_back(list.substr(0, gap));
        }
        list.remove_prefix(gap == string_view::npos ? list.size() : gap + 1);
    }
    return out;
}

}  // namespace

constexpr std::array kAlloySays{
    SaidRow{"fluid", "{fluids}"},
    SaidRow{"*strength", "strengths"},
    SaidRow{"", "hardness                      {hardness_hb:g} HB"},
    SaidRow{"", "density                       {density_kg_m3:g} kg/m3"},
    SaidRow{"", "Young's modulus               {youngs_modulus_gpa:g} GPa"},
    SaidRow{"", "yield strength                {yield_mpa:g} MPa"},
    SaidRow{"", "tensile strength              {tensile_mpa:g} MPa"},
    SaidRow{"", "specific cutting force kc1.1  {kc11_n_mm2:g} N/mm2"},
    SaidRow{"", "its exponent mc               {mc:g}"},
    SaidRow{"", "unit power                    {unit_power_hp_in3_min:g} hp/(in3/min)"},
    SaidRow{"", "unit power, upper end         {unit_power_high_hp_in3_min:g} hp/(in3/min)"},
    SaidRow{"", "thermal expansion             {expansion_um_m_k:g} um/(m K)"},
    SaidRow{"", "thermal conductivity          {conductivity_w_m_k:g} W/(m K)"},
    SaidRow{"", "specific heat                 {specific_heat_j_kg_k:g} J/(kg K)"},
    SaidRow{"note", "{note}"},
};
constinit const RecordRow kAlloyRecord{
    "Alloy",
    "An alloy in one condition. Properties that no source gives are None.",
    kFigures,
    "name condition iso513",
    {"{title}: {group_names.first}, ISO 513 group {iso513} ({id})", kAlloySays, "*"}};

AlloyAnswer alloy(const AlloyAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const AlloyRow& row = find_alloy(catalogue, asked.name);
    AlloyAnswer out{.row = row,
                    .group_names = {},
                    .hazards = words_of(row.hazards),
                    .traits = words_of(row.traits),
                    .fluids = {},
                    .strengths = strengths_of(catalogue, row),
                    .lacking = lacking(row),
                    .index = static_cast<int>(&row - catalogue.alloys.data()),
                    .told = {},
                    .evidence = {}};
    constexpr std::size_t kDeepest = 16;  // a shop's groups may run in a circle
    const GroupRow* group = find_group(catalogue, row.group);
    while (group != nullptr && out.group_names.size() < kDeepest) {
        out.group_names.emplace_back(group->name);
        group = find_group(catalogue, group->parent);
    }
    if (const CuttingFluidRow* const fluid = cutting_fluids(catalogue, row); fluid != nullptr) {
        for (const auto& [operation, word] :
             {std::pair{"turning", fluid->turning}, std::pair{"milling", fluid->milling},
              std::pair{"drilling", fluid->drilling}, std::pair{"reaming", fluid->reaming},
              std::pair{"threading", fluid->tapping}}) {
            out.fluids.push_back(fmt::format("{} {}", operation, word));
        }
    }
    for (const std::string& word : out.hazards) {
        out.told.push_back({fmt::format("hazard_{}", word), 0.0, {}});
    }
    const AlloyRow* const base = row.like.empty() ? nullptr : &find_alloy(catalogue, row.like);
    for (const Property& each : kProperties) {
        const double value = row.*each.value;
        if (std::isnan(value)) {
            continue;
        }
        const bool of_base = base != nullptr && base->*each.value == value;
        EvidenceText text = as_tabulated(
            each.figure, row_ref(catalogue.alloys, of_base ? *base : row, each.source), catalogue);
        if (!text.source.empty()) {
            out.evidence.push_back(std::move(text));
        }
    }
    return out;
}

namespace {

constexpr Question kAlloy = [] {
    Question out = question<AlloyAsk, AlloyAnswer, &alloy>(
        "material", "alloy", "What is known of an alloy in one condition, and where each figure comes from.",
        kAsked, kAlloyRecord);
    out.sources = "As its row and its evidence name them.";
    out.example = "alloy 6061-T6\nalloy \"4130 normalised\" --json";
    return out;
}();

}  // namespace

std::span<const Question* const> questions() noexcept {
    static constexpr std::array<const Question*, 1> kAll{&kAlloy};
    return kAll;
}

}  // namespace halfnut::material
