// Alloys, tools, holders and windows by their names; the bend of work.

#include <limits>
#include <string>

#include "convert.hpp"
#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/questions.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/tooling.hpp"
#include "halfnut/cutting/window.hpp"
#include "halfnut/knurls/pitch.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::bind {

namespace {

using namespace cutting;
using namespace pybind11::literals;

constexpr double kInfinite = std::numeric_limits<double>::infinity();

int find_alloy(const std::string& name, const Catalogue& catalogue) {
    return static_cast<int>(&material::find_alloy(catalogue, name) - catalogue.alloys.data());
}

std::string_view tool(const std::string& name, const Catalogue& catalogue) {
    return enum_name(find_tool(catalogue, name).row->tool_material);
}

int place_of_holder(const machine::Machine* machine,
                    const std::variant<std::monostate, int, std::string>& chuck, const std::string& hold) {
    Holder asked;
    if (const auto* const name = std::get_if<std::string>(&chuck)) {
        asked.name = *name;
    } else if (const int* const place = std::get_if<int>(&chuck)) {
        asked.place = *place;
    }
    std::vector<std::string> assumed;
    return holder_place(machine, asked, from_name<Hold>("hold", hold), assumed);
}

/// Lowest and highest speed, finest and coarsest feed; None where the tables have none.
py::tuple windows(std::size_t alloy, const std::string& operation, const std::string& tool_material,
                  double depth_mm, double feed_mm, std::optional<double> hardness_hb,
                  const Catalogue& catalogue, std::optional<double> diameter_mm) {
    const WindowQuery query{.alloy = &catalogue.alloys[alloy],
                            .hardness_hb = hardness_hb.value_or(kNaN),
                            .operation = from_name<Operation>("operation", operation),
                            .tool_material = from_name<ToolMaterial>("tool", tool_material),
                            .depth_mm = depth_mm,
                            .feed_mm = feed_mm,
                            .diameter_mm = diameter_mm.value_or(kNaN)};
    SpeedWindow speed;
    FeedWindow feed;
    (void)speed_window(catalogue, query, speed);
    (void)feed_window(catalogue, query, feed);
    return py::make_tuple(number_or_none(speed.low_m_min), number_or_none(speed.high_m_min),
                          number_or_none(feed.low_mm), number_or_none(feed.high_mm));
}

std::vector<double> work_bend(const std::vector<std::array<double, 3>>& sections, const std::string& hold,
                              double force_n, const std::vector<double>& places_mm, double youngs_modulus_gpa,
                              const std::vector<double>& steadies_mm, double centre_n_um, double chuck_n_um) {
    WorkBeam beam;
    beam.hold = from_name<Hold>("hold", hold);
    for (const auto& [length, diameter, bore] : sections) {
        beam.sections.push_back({length, diameter, bore});
    }
    beam.youngs_modulus_gpa = youngs_modulus_gpa;
    beam.steadies_mm = steadies_mm;
    beam.centre_n_um = centre_n_um;
    beam.chuck_n_um = chuck_n_um;
    std::vector<double> bend(places_mm.size());
    std::string why;
    if (!evaluate(beam, force_n, places_mm, bend, &why).ok()) {
        throw DomainError("work_bend_mm: " + why);
    }
    return bend;
}

}  // namespace

void bind_cutting(py::module_& module) {
    module.def("find_alloy", &find_alloy, "name"_a, "catalogue"_a,
               "Row of the alloy of a name in the table material/alloys.");
    module.def("tool", &tool, "name"_a, "catalogue"_a,
               "Material of a tool by its name; \"\" is plain high-speed steel.");
    module.def("holder_place", &place_of_holder, "machine"_a, "chuck"_a, "hold"_a,
               "Place of the chuck that is meant, the first where nobody says; -1 where there is none.");
    module.def(
        "parse_knurl_pattern",
        [](const std::string& text, const Catalogue& catalogue) {
            return enum_name(knurls::parse_knurl_pattern(text, catalogue));
        },
        "text"_a, "catalogue"_a, "Read a pattern by name or by metric form.");
    module.def(
        "windows", &windows, "alloy"_a, "operation"_a, "tool_material"_a, "depth_mm"_a, "feed_mm"_a,
        "hardness_hb"_a, "catalogue"_a, "diameter_mm"_a = std::nullopt,
        "Lowest and highest cutting speed, m/min; finest and coarsest feed, mm a revolution or a tooth. "
        "feed_mm, of the row of speed, may be NaN; diameter_mm: of a cutter or drill.");
    module.def("work_bend_mm", &work_bend, "sections"_a, "hold"_a, "force_n"_a, "places_mm"_a,
               "youngs_modulus_gpa"_a, "steadies_mm"_a = std::vector<double>{}, "centre_n_um"_a = kInfinite,
               "chuck_n_um"_a = kInfinite,
               "Deflection of stepped work at the tool, mm, as the tool travels. sections: length, diameter "
               "and bore of each, mm; hold: 'chuck', 'chuck and centre' or 'between centres'.");
    module.def("caution_codes", &spellings<CautionCode>,
               "Every code of a caution on a cut, in the order of a batch's bits.");
    module.def("limit_codes", &spellings<LimitCode>,
               "Every name of a limit of a cut, in the order of a batch's places.");
}

}  // namespace halfnut::bind
