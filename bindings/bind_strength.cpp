// Strength of threads: areas, stripping, torque, walls.

#include <fmt/format.h>
#include <pybind11/stl.h>

#include <algorithm>

#include "bind.hpp"
#include "figures.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/strengths.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/joint.hpp"
#include "halfnut/threads/joint_tables.hpp"
#include "halfnut/threads/strength.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

namespace py = pybind11;
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

py::list caution_codes(const ThreadStrength& strength) {
    py::list out;
    for (const auto& [caution, name] : enum_names(StrengthCaution{})) {
        if (strength.has(caution)) {
            out.append(py::str(name.data(), name.size()));
        }
    }
    return out;
}

void bind_answers(py::module_& module) {
    py::class_<PartStrength>(module, "PartStrength", "Strengths of one part of a joint, MPa.")
        .def(py::init(&part_strength), py::arg("side"), py::arg("tensile_mpa"),
             py::arg("yield_mpa") = py::none(), py::arg("shear_mpa") = py::none());
    py::class_<ThreadStrength>(module, "StrengthAnswer", "The core's answer on what a joint holds.")
        .def_property_readonly(
            "figures", [](const ThreadStrength& s) { return figures_by_name(kStrengthFigures, s.figures()); })
        .def_property_readonly("weakest",
                               [](const ThreadStrength& s) { return std::string(enum_name(s.weakest)); })
        .def_property_readonly("cautions", &caution_codes)
        .def("engagement_for", &engagement_for, py::arg("load_n"))
        .def(
            "evidence",
            [](const ThreadStrength& s, const SharedCatalogue& catalogue) {
                return evidence_list(s.evidence.items(), kStrengthFigures, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "strength_answer",
        [](const Thread& external, const ThreadLimits& external_limits, const ThreadLimits& internal_limits,
           const PartStrength& external_strength, const PartStrength& internal_strength, double overlap_mm,
           double external_chamfer_mm, double external_run_out_mm, double internal_countersink_mm,
           double internal_run_out_mm, double external_bore_mm, std::optional<double> internal_outside_mm,
           std::optional<double> load_n, std::optional<double> factor_of_safety) {
            return joint_answer(strength_sizes(external, external_limits, internal_limits), external_strength,
                                internal_strength, overlap_mm, external_chamfer_mm, external_run_out_mm,
                                internal_countersink_mm, internal_run_out_mm, external_bore_mm,
                                internal_outside_mm, load_n, factor_of_safety);
        },
        py::arg("external"), py::arg("external_limits"), py::arg("internal_limits"),
        py::arg("external_strength"), py::arg("internal_strength"), py::arg("overlap_mm"), py::kw_only(),
        py::arg("external_chamfer_mm") = 0.0, py::arg("external_run_out_mm") = 0.0,
        py::arg("internal_countersink_mm") = 0.0, py::arg("internal_run_out_mm") = 0.0,
        py::arg("external_bore_mm") = 0.0, py::arg("internal_outside_mm") = py::none(),
        py::arg("load_n") = py::none(), py::arg("factor_of_safety") = py::none(), "What a joint holds.");
    module.def(
        "sized_strength_answer",
        [](double diameter_mm, const FitPart& external, const FitPart& internal,
           const PartStrength& external_strength, const PartStrength& internal_strength, double overlap_mm,
           double external_chamfer_mm, double external_run_out_mm, double internal_countersink_mm,
           double internal_run_out_mm, double external_bore_mm, std::optional<double> internal_outside_mm,
           std::optional<double> load_n, std::optional<double> factor_of_safety) {
            return joint_answer(strength_sizes(diameter_mm, external, internal), external_strength,
                                internal_strength, overlap_mm, external_chamfer_mm, external_run_out_mm,
                                internal_countersink_mm, internal_run_out_mm, external_bore_mm,
                                internal_outside_mm, load_n, factor_of_safety);
        },
        py::arg("diameter_mm"), py::arg("external"), py::arg("internal"), py::arg("external_strength"),
        py::arg("internal_strength"), py::arg("overlap_mm"), py::kw_only(),
        py::arg("external_chamfer_mm") = 0.0, py::arg("external_run_out_mm") = 0.0,
        py::arg("internal_countersink_mm") = 0.0, py::arg("internal_run_out_mm") = 0.0,
        py::arg("external_bore_mm") = 0.0, py::arg("internal_outside_mm") = py::none(),
        py::arg("load_n") = py::none(), py::arg("factor_of_safety") = py::none(),
        "What a joint of threads by their sizes holds.");

    py::class_<Tightening>(module, "TighteningAnswer", "The core's answer on torque and preload.")
        .def_property_readonly(
            "figures", [](const Tightening& t) { return figures_by_name(kTighteningFigures, t.figures()); })
        .def(
            "evidence",
            [](const Tightening& t, const SharedCatalogue& catalogue) {
                return evidence_list(t.evidence.items(), kTighteningFigures, catalogue.get());
            },
            py::arg("catalogue"));
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
    const bool raise = raises_on_error(on_error);
    const std::size_t rows = std::max(external.size(), internal.size());
    const auto serves = [rows](std::size_t size) { return size == rows || size == 1; };
    if (!serves(external.size()) || !serves(internal.size()) || numbers.size() != kPairNumbers ||
        !std::all_of(numbers.begin(), numbers.end(), [&](const Doubles& column) {
            return serves(static_cast<std::size_t>(column.size()));
        })) {
        throw DomainError(
            fmt::format("designations and numbers must be one, or one for each of {} rows", rows));
    }
    std::vector<py::array_t<double>> columns;
    std::vector<double*> out;
    for (std::size_t i = 0; i < kStrengthFigures.size(); ++i) {
        out.push_back(columns.emplace_back(static_cast<py::ssize_t>(rows)).mutable_data());
    }
    std::vector<const double*> in;
    in.reserve(numbers.size());
    for (const Doubles& column : numbers) {
        in.push_back(column.data());
    }
    py::array_t<std::uint8_t> weakest(static_cast<py::ssize_t>(rows));
    py::array_t<std::uint16_t> cautions(static_cast<py::ssize_t>(rows));
    py::array_t<std::uint8_t> status(static_cast<py::ssize_t>(rows));
    std::uint8_t* const elements = weakest.mutable_data();
    std::uint16_t* const bits = cautions.mutable_data();
    std::uint8_t* const codes = status.mutable_data();
    std::size_t failed = 0;
    std::size_t first = 0;
    std::string why;
    const auto part = [&](const std::string& text, Side side, Thread& thread, ThreadLimits& limits,
                          std::string& reason) {
        DesignationProblem problem;
        const Status answer = read_thread(text, catalogue.get(), thread, &problem);
        if (!answer.ok()) {
            reason = fmt::format("cannot read '{}' at position {}: {}", text, problem.position + 1,
                                 problem.message);
            return answer;
        }
        thread = thread.part(side);
        return evaluate(catalogue.get(), thread, LimitOptions{}, limits, &reason);
    };
    const auto run = [&] {
        for (std::size_t row = 0; row < rows; ++row) {
            const auto number = [&](PairNumber column) {
                return in[column][numbers[column].size() == 1 ? 0 : row];
            };
            Thread male;
            Thread female;
            ThreadLimits male_limits;
            ThreadLimits female_limits;
            ThreadStrength answer;
            std::string reason;
            Status code =
                part(external[external.size() == 1 ? 0 : row], Side::external, male, male_limits, reason);
            if (code.ok()) {
                code = part(internal[internal.size() == 1 ? 0 : row], Side::internal, female, female_limits,
                            reason);
            }
            if (code.ok()) {
                StrengthRequest request;
                request.sizes = strength_sizes(male, male_limits, female_limits);
                request.overlap_mm = number(kOverlap);
                request.external_chamfer_mm = number(kExternalChamfer);
                request.external_run_out_mm = number(kExternalRunOut);
                request.internal_countersink_mm = number(kInternalCountersink);
                request.internal_run_out_mm = number(kInternalRunOut);
                request.external_bore_mm = number(kBore);
                request.internal_outside_mm = number(kOutside);
                request.external = {number(kExternalTensile), number(kExternalYield), number(kExternalShear)};
                request.internal = {number(kInternalTensile), number(kInternalYield), number(kInternalShear)};
                request.load_n = number(kLoad);
                request.factor_of_safety = number(kFactor);
                code = evaluate(request, answer);
                if (!code.ok()) {
                    reason = refusal(request, code);
                }
            }
            const auto figures = answer.figures();
            for (std::size_t i = 0; i < out.size(); ++i) {
                out[i][row] = figures[i];
            }
            elements[row] = static_cast<std::uint8_t>(answer.weakest);
            bits[row] = answer.cautions;
            codes[row] = static_cast<std::uint8_t>(code.code);
            if (!code.ok() && failed++ == 0) {
                first = row;
                why = reason;
            }
        }
    };
    {
        const py::gil_scoped_release release;
        run();
    }
    if (raise && failed > 0) {
        throw DomainError(fmt::format("{} at index {} ({} of {} pairs failed)", why, first, failed, rows));
    }
    py::dict result;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        result[py::str(kStrengthFigures[i].data(), kStrengthFigures[i].size())] = std::move(columns[i]);
    }
    result["weakest_code"] = std::move(weakest);
    result["cautions"] = std::move(cautions);
    result["status"] = std::move(status);
    return result;
}

template <class Row>
int place_of(Rows<Row> rows, const Row& row) {
    return static_cast<int>(&row - rows.data());
}

void bind_practice(py::module_& module) {
    module.def(
        "minimum_strength",
        [](int alloy, const std::string& form, std::optional<double> thickness_mm,
           const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            const material::MinimumStrength found =
                material::minimum_strength(tables, tables.alloys[static_cast<std::size_t>(alloy)], form,
                                           given_or_lacking("thickness_mm", thickness_mm));
            py::dict out;
            out["row"] = place_of(tables.strengths, *found.row);
            out["tensile_mpa"] = number_or_none(found.tensile_mpa);
            out["yield_mpa"] = number_or_none(found.yield_mpa);
            out["shear_mpa"] = number_or_none(found.shear_mpa);
            out["bearing_mpa"] = number_or_none(found.bearing_mpa);
            out["over_mm"] = number_or_none(found.over_mm);
            out["up_to_mm"] = number_or_none(found.up_to_mm);
            out["weakest_of_several"] = found.weakest_of_several;
            return out;
        },
        py::arg("alloy"), py::arg("form"), py::arg("thickness_mm"), py::arg("catalogue"),
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
            return place_of(tables.galling, galling(tables, tables.alloys[static_cast<std::size_t>(one)],
                                                    tables.alloys[static_cast<std::size_t>(other)]));
        },
        py::arg("one"), py::arg("other"), py::arg("catalogue"), "Row of threads/galling for two alloys.");
    module.def(
        "thread_friction_row",
        [](int one, int other, const std::string& lubricant, const SharedCatalogue& catalogue) {
            const Catalogue& tables = catalogue.get();
            return place_of(tables.thread_friction,
                            thread_friction(tables, tables.alloys[static_cast<std::size_t>(one)],
                                            tables.alloys[static_cast<std::size_t>(other)], lubricant));
        },
        py::arg("one"), py::arg("other"), py::arg("lubricant"), py::arg("catalogue"),
        "Row of threads/thread_friction for two alloys and a lubricant.");
    module.def(
        "engagement_practice",
        [](int internal, const std::string& loading, double diameter_mm, const SharedCatalogue& catalogue) {
            Loading wanted{};
            if (!enum_from_name(loading, wanted)) {
                throw DomainError(fmt::format("loading must be steady or shock, got '{}'", loading));
            }
            const Catalogue& tables = catalogue.get();
            const EngagementPracticeRow& row =
                engagement_practice(tables, tables.alloys[static_cast<std::size_t>(internal)], wanted);
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
