// Strength of threads: areas, stripping, torque, walls.

#include <fmt/format.h>

#include <algorithm>

#include "convert.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/strengths.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/joint.hpp"
#include "halfnut/threads/joint_tables.hpp"
#include "halfnut/threads/strength.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

PartStrength part_strength(std::string_view side, const std::optional<double>& tensile_mpa,
                           const std::optional<double>& yield_mpa, const std::optional<double>& shear_mpa) {
    const auto given = [&](const char* what, const std::optional<double>& value) {
        return given_or_lacking(fmt::format("{}_{}_mpa", side, what), value);
    };
    return {given("tensile", tensile_mpa), given("yield", yield_mpa), given("shear", shear_mpa)};
}

/// What a joint of these sizes holds.
ThreadStrength joint_answer(const StrengthSizes& sizes, const PartStrength& external,
                            const PartStrength& internal, double overlap_mm, double external_chamfer_mm,
                            double external_run_out_mm, double internal_countersink_mm,
                            double internal_run_out_mm, double external_bore_mm,
                            const std::optional<double>& internal_outside_mm,
                            const std::optional<double>& load_n,
                            const std::optional<double>& factor_of_safety) {
    StrengthRequest request;
    request.sizes = sizes;
    request.external = external;
    request.internal = internal;
    request.overlap_mm = overlap_mm;
    request.external_chamfer_mm = external_chamfer_mm;
    request.external_run_out_mm = external_run_out_mm;
    request.internal_countersink_mm = internal_countersink_mm;
    request.internal_run_out_mm = internal_run_out_mm;
    request.external_bore_mm = external_bore_mm;
    request.internal_outside_mm = given_or_lacking("internal_outside_mm", internal_outside_mm);
    request.load_n = given_or_lacking("load_n", load_n);
    request.factor_of_safety = given_or_lacking("factor_of_safety", factor_of_safety);
    return strength(request);
}

void bind_answers(py::module_& module) {
    py::class_<PartStrength>(module, "PartStrength", "Strengths of one part of a joint, MPa.")
        .def(py::init(&part_strength), py::arg("side"), py::arg("tensile_mpa"),
             py::arg("yield_mpa") = py::none(), py::arg("shear_mpa") = py::none());
    py::class_<ThreadStrength> strength_class(module, "StrengthAnswer",
                                              "The core's answer on what a joint holds.");
    strength_class
        .def_property_readonly(
            "figures", [](const ThreadStrength& s) { return figures_by_name(kStrengthFigures, s.figures()); })
        .def_property_readonly("weakest",
                               [](const ThreadStrength& s) { return std::string(enum_name(s.weakest)); })
        .def_property_readonly("cautions",
                               [](const ThreadStrength& s) { return cautions_of<StrengthCaution>(s); })
        .def("engagement_for", &engagement_for, py::arg("load_n"));
    def_evidence(strength_class, kStrengthFigures);
    module.def(
        "strength_answer",
        [](const PartLimits& external, const PartLimits& internal, const PartStrength& external_strength,
           const PartStrength& internal_strength, double overlap_mm, double external_chamfer_mm,
           double external_run_out_mm, double internal_countersink_mm, double internal_run_out_mm,
           double external_bore_mm, std::optional<double> internal_outside_mm, std::optional<double> load_n,
           std::optional<double> factor_of_safety) {
            return joint_answer(strength_sizes(external, internal), external_strength, internal_strength,
                                overlap_mm, external_chamfer_mm, external_run_out_mm, internal_countersink_mm,
                                internal_run_out_mm, external_bore_mm, internal_outside_mm, load_n,
                                factor_of_safety);
        },
        py::arg("external"), py::arg("internal"), py::arg("external_strength"), py::arg("internal_strength"),
        py::arg("overlap_mm"), py::kw_only(), py::arg("external_chamfer_mm") = 0.0,
        py::arg("external_run_out_mm") = 0.0, py::arg("internal_countersink_mm") = 0.0,
        py::arg("internal_run_out_mm") = 0.0, py::arg("external_bore_mm") = 0.0,
        py::arg("internal_outside_mm") = py::none(), py::arg("load_n") = py::none(),
        py::arg("factor_of_safety") = py::none(), "What a joint holds.");

    py::class_<Tightening> tightening_class(module, "TighteningAnswer",
                                            "The core's answer on torque and preload.");
    tightening_class.def_property_readonly(
        "figures", [](const Tightening& t) { return figures_by_name(kTighteningFigures, t.figures()); });
    def_evidence(tightening_class, kTighteningFigures);
    module.def(
        "tightening_answer",
        [](double diameter_mm, double pitch_diameter_mm, double lead_mm, double half_angle_deg,
           double section_diameter_mm, double bore_mm, std::pair<double, double> thread_friction,
           std::pair<double, double> bearing_friction, double bearing_diameter_mm, double prevailing_nm,
           std::optional<double> preload_n, std::optional<double> torque_nm) {
            return tighten({.diameter_mm = diameter_mm,
                            .pitch_diameter_mm = pitch_diameter_mm,
                            .lead_mm = lead_mm,
                            .half_angle_deg = half_angle_deg,
                            .section_diameter_mm = section_diameter_mm,
                            .bore_mm = bore_mm,
                            .thread_friction_low = thread_friction.first,
                            .thread_friction_high = thread_friction.second,
                            .bearing_friction_low = bearing_friction.first,
                            .bearing_friction_high = bearing_friction.second,
                            .bearing_diameter_mm = bearing_diameter_mm,
                            .prevailing_nm = prevailing_nm,
                            .preload_n = given_or_lacking("preload_n", preload_n),
                            .torque_nm = given_or_lacking("torque_nm", torque_nm)});
        },
        py::kw_only(), py::arg("diameter_mm"), py::arg("pitch_diameter_mm"), py::arg("lead_mm"),
        py::arg("half_angle_deg"), py::arg("section_diameter_mm"), py::arg("bore_mm"),
        py::arg("thread_friction"), py::arg("bearing_friction"), py::arg("bearing_diameter_mm"),
        py::arg("prevailing_nm") = 0.0, py::arg("preload_n") = py::none(), py::arg("torque_nm") = py::none(),
        "Torque for a preload, or preload from a torque, over a range of friction.");
}

/// Numbers of a pair in strength_columns, in the order of its columns.
enum PairNumber : std::uint8_t {
    kOverlap,
    kExternalChamfer,
    kExternalRunOut,
    kInternalCountersink,
    kInternalRunOut,
    kBore,
    kOutside,
    kExternalTensile,
    kExternalYield,
    kExternalShear,
    kInternalTensile,
    kInternalYield,
    kInternalShear,
    kLoad,
    kFactor,
    kPairNumbers
};

/// Columns of joints for many pairs of designations; a row that fails has NaN everywhere and a status.
py::dict strength_columns(const std::vector<std::string>& external, const std::vector<std::string>& internal,
                          const SharedCatalogue& catalogue, const std::vector<Doubles>& numbers,
                          const std::string& on_error) {
    const NumberColumns number(numbers, kPairNumbers);
    const std::size_t rows = std::max(external.size(), internal.size());
    std::vector<std::size_t> sizes = number.sizes();
    sizes.insert(sizes.end(), {external.size(), internal.size()});
    if (!std::all_of(sizes.begin(), sizes.end(),
                     [rows](std::size_t size) { return size == rows || size == 1; })) {
        throw DomainError(
            fmt::format("designations and numbers must be one, or one for each of {} rows", rows));
    }
    AnswerColumns columns(rows);
    columns.figures(kStrengthFigures);
    std::uint8_t* const weakest = columns.codes("weakest_code");
    auto* const cautions = columns.codes<std::uint16_t>("cautions");
    const auto part = [&](const std::vector<std::string>& texts, std::size_t row, Side side,
                          PartLimits& limits, std::string& why) {
        AnyThread thread;
        ThreadPart found;
        Status status = read_any_thread(texts[texts.size() == 1 ? 0 : row], catalogue.get(), thread, &why);
        if (status.ok()) {
            status = one_part(thread, side, found, &why);
        }
        return status.ok() ? evaluate(catalogue.get(), found, LimitOptions{}, limits, &why) : status;
    };
    columns.run(on_error, "pairs", [&](std::size_t row, std::string& why) {
        PartLimits male;
        PartLimits female;
        Status status = part(external, row, Side::external, male, why);
        if (status.ok()) {
            status = part(internal, row, Side::internal, female, why);
        }
        if (!status.ok()) {
            return status;
        }
        StrengthRequest request;
        request.sizes = strength_sizes(male, female);
        request.overlap_mm = number(kOverlap, row);
        request.external_chamfer_mm = number(kExternalChamfer, row);
        request.external_run_out_mm = number(kExternalRunOut, row);
        request.internal_countersink_mm = number(kInternalCountersink, row);
        request.internal_run_out_mm = number(kInternalRunOut, row);
        request.external_bore_mm = number(kBore, row);
        request.internal_outside_mm = number(kOutside, row);
        request.external = {number(kExternalTensile, row), number(kExternalYield, row),
                            number(kExternalShear, row)};
        request.internal = {number(kInternalTensile, row), number(kInternalYield, row),
                            number(kInternalShear, row)};
        request.load_n = number(kLoad, row);
        request.factor_of_safety = number(kFactor, row);
        ThreadStrength answer;
        status = evaluate(request, answer);
        if (!status.ok()) {
            why = refusal(request, status);
            return status;
        }
        columns.set_figures(row, answer.figures());
        weakest[row] = static_cast<std::uint8_t>(answer.weakest);
        cautions[row] = answer.cautions;
        return status;
    });
    return columns.dict();
}

template <class Row>
int place_of(Rows<Row> rows, const Row& row) {
    return static_cast<int>(&row - rows.data());
}

void bind_practice(py::module_& module) {
    module.def(
        "minimum_strength",
        [](int alloy, const std::string& form, std::optional<double> thickness_mm, const std::string& grain,
           const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            const material::MinimumStrength found = material::minimum_strength(
                tables, alloy_at(tables, alloy), form, given_or_lacking("thickness_mm", thickness_mm),
                from_name<material::Grain>("grain", grain));
            py::dict out;
            out["row"] = place_of(tables.strengths, *found.row);
            out["shear_row"] = found.shear_row == nullptr
                                   ? std::nullopt
                                   : std::optional(place_of(tables.strengths, *found.shear_row));
            out["tensile_mpa"] = number_or_none(found.tensile_mpa);
            out["yield_mpa"] = number_or_none(found.yield_mpa);
            out["shear_mpa"] = number_or_none(found.shear_mpa);
            out["bearing_mpa"] = number_or_none(found.bearing_mpa);
            out["over_mm"] = number_or_none(found.over_mm);
            out["up_to_mm"] = number_or_none(found.up_to_mm);
            out["least_of_grain"] = found.least_of_grain;
            out["weakest_of_several"] = found.weakest_of_several;
            return out;
        },
        py::arg("alloy"), py::arg("form"), py::arg("thickness_mm"), py::arg("grain"), py::arg("catalogue"),
        "Minimum strengths of the alloy of a row in a form.");
    module.def(
        "bolt_strength",
        [](const std::string& grade, double diameter_mm, const SharedCatalogue& catalogue) {
            const BoltStrength found = bolt_strength(catalogue.get(), grade, diameter_mm);
            py::dict out;
            out["row"] = place_of(catalogue.get().bolt_grades, *found.row);
            out["proof_mpa"] = number_or_none(found.proof_mpa);
            out["tensile_mpa"] = number_or_none(found.tensile_mpa);
            out["yield_mpa"] = number_or_none(found.yield_mpa);
            return out;
        },
        py::arg("grade"), py::arg("diameter_mm"), py::arg("catalogue"),
        "Minimum strengths of a bolt of a grade.");
    module.def(
        "galling_row",
        [](int one, int other, const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            return place_of(tables.galling, galling(tables, alloy_at(tables, one), alloy_at(tables, other)));
        },
        py::arg("one"), py::arg("other"), py::arg("catalogue"), "Row of threads/galling for two alloys.");
    module.def(
        "thread_friction_row",
        [](int one, int other, const std::string& lubricant, const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            return place_of(tables.thread_friction, thread_friction(tables, alloy_at(tables, one),
                                                                    alloy_at(tables, other), lubricant));
        },
        py::arg("one"), py::arg("other"), py::arg("lubricant"), py::arg("catalogue"),
        "Row of threads/thread_friction for two alloys and a lubricant.");
    module.def(
        "engagement_practice",
        [](int internal, const std::string& loading, double diameter_mm, const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            const EngagementPracticeRow& row = engagement_practice(tables, alloy_at(tables, internal),
                                                                   from_name<Loading>("loading", loading));
            return std::pair{place_of(tables.engagement_practice, row),
                             engagement_by_practice_mm(row, diameter_mm)};
        },
        py::arg("internal"), py::arg("loading"), py::arg("diameter_mm"), py::arg("catalogue"),
        "Row of threads/engagement_practice for an alloy, and its length.");
    module.def("strength_columns", &strength_columns, py::arg("external"), py::arg("internal"),
               py::arg("catalogue"), py::arg("numbers"), py::arg("on_error") = "raise",
               "Columns of joints for many pairs of designations, with a status a row.");
}

}  // namespace

void bind_strength(py::module_& module) {
    bind_answers(module);
    bind_practice(module);
}

}  // namespace halfnut::bind
