// Fit, coating and gauging of threads.

#include <fmt/format.h>
#include <pybind11/stl.h>

#include <optional>

#include "bind.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/judge.hpp"
#include "halfnut/threads/precoat.hpp"
#include "halfnut/threads/wires.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

namespace py = pybind11;
using namespace threads;

namespace {

py::object optional_number(double value) {
    return std::isnan(value) ? py::object(py::none()) : py::object(py::float_(value));
}

template <class Names, class Values>
py::dict figure_dict(const Names& names, const Values& values) {
    py::dict out;
    for (std::size_t i = 0; i < names.size(); ++i) {
        out[py::str(names[i].data(), names[i].size())] = optional_number(values[i]);
    }
    return out;
}

/// NaN stands for "not given" in a request, so a NaN that was given is refused here.
double given_or_nan(std::string_view argument, const std::optional<double>& value) {
    if (value && std::isnan(*value)) {
        throw DomainError(fmt::format("{} must be finite, got nan", argument));
    }
    return value.value_or(kNaN);
}

template <class E>
E from_name(std::string_view argument, const std::string& name) {
    E value{};
    if (!enum_from_name(name, value)) {
        std::string list;
        for (const auto& [candidate, spelling] : enum_names(E{})) {
            list += list.empty() ? "" : ", ";
            list += spelling;
        }
        throw DomainError(fmt::format("{} must be one of {}, got '{}'", argument, list, name));
    }
    return value;
}

/// The size a person measured stands for both ends of a range.
void measured(SizeRange& range, std::string_view argument, const std::optional<double>& size) {
    if (size) {
        range = {given_or_nan(argument, size), *size};
    }
}

FitPart part_of(const Thread& thread, const ThreadLimits& limits, const BuildUp& build_up,
                std::optional<double> pitch_mm, std::optional<double> major_mm,
                std::optional<double> minor_mm, double lead_error_mm, double temperature_c,
                double expansion_um_m_k) {
    FitPart part = fit_part(thread, limits);
    part.build_up = build_up;
    measured(part.pitch, "pitch_mm", pitch_mm);
    measured(part.major, "major_mm", major_mm);
    measured(part.minor, "minor_mm", minor_mm);
    part.lead_error_mm = lead_error_mm;
    part.temperature_c = temperature_c;
    part.expansion_um_m_k = expansion_um_m_k;
    return part;
}

/// Columns of fits for many pairs of designations; a row that fails has NaN everywhere and a status.
py::dict fit_columns(const std::vector<std::string>& external, const std::vector<std::string>& internal,
                     const SharedCatalogue& catalogue, const std::vector<Doubles>& numbers,
                     const std::string& on_error) {
    constexpr std::size_t kNumbers =
        6;  // build-ups: external min, max, internal min, max; engagement; spread
    const bool raise = raises_on_error(on_error);
    const std::size_t rows = std::max(external.size(), internal.size());
    for (const auto* texts : {&external, &internal}) {
        if (texts->size() != rows && texts->size() != 1) {
            throw DomainError(fmt::format("{} external and {} internal designations do not go together",
                                          external.size(), internal.size()));
        }
    }
    for (const Doubles& column : numbers) {
        const auto size = static_cast<std::size_t>(column.size());
        if (size != rows && size != 1) {
            throw DomainError(fmt::format("a column has {} values for {} pairs", size, rows));
        }
    }
    if (numbers.size() != kNumbers) {
        throw DomainError("a fit takes six columns of numbers");
    }
    std::vector<py::array_t<double>> columns;
    columns.reserve(kFitFigures.size());
    for (std::size_t i = 0; i < kFitFigures.size(); ++i) {
        columns.emplace_back(static_cast<py::ssize_t>(rows));
    }
    py::array_t<std::uint8_t> verdict(static_cast<py::ssize_t>(rows));
    py::array_t<std::uint8_t> status(static_cast<py::ssize_t>(rows));
    std::vector<double*> out;
    out.reserve(columns.size());
    for (auto& column : columns) {
        out.push_back(column.mutable_data());
    }
    std::vector<const double*> in;
    in.reserve(numbers.size());
    for (const Doubles& column : numbers) {
        in.push_back(column.data());
    }
    std::uint8_t* const verdicts = verdict.mutable_data();
    std::uint8_t* const codes = status.mutable_data();
    std::size_t failed = 0;
    std::size_t first = 0;
    std::string why;
    const auto run = [&] {
        const auto number = [&](std::size_t column, std::size_t row) {
            return in[column][numbers[column].size() == 1 ? 0 : row];
        };
        const auto part = [&](const std::string& text, Side side, std::size_t column, std::size_t row,
                              FitPart& made, double& diameter_mm, std::string& reason) {
            Thread thread;
            ThreadLimits limits;
            DesignationProblem problem;
            Status answer = read_thread(text, catalogue.get(), thread, &problem);
            if (!answer.ok()) {
                reason = fmt::format("cannot read '{}' at position {}: {}", text, problem.position + 1,
                                     problem.message);
                return answer;
            }
            answer = evaluate(catalogue.get(), thread.part(side), LimitOptions{}, limits, &reason);
            made = fit_part(thread, limits);
            diameter_mm = thread.diameter_mm();
            const double least = number(column, row);
            const double most = number(column + 1, row);
            if (answer.ok() && !(std::isfinite(least) && std::isfinite(most) && least <= most)) {
                reason = fmt::format("a build-up must be finite, least before greatest, got {} to {} um",
                                     least, most);
                return Status{std::isfinite(least) && std::isfinite(most) ? StatusCode::inconsistent
                                                                          : StatusCode::not_finite,
                              0};
            }
            made.build_up.min_um = least;
            made.build_up.max_um = most;
            made.build_up.origin = least == 0.0 && most == 0.0 ? BuildUpOrigin::none : BuildUpOrigin::given;
            return answer;
        };
        for (std::size_t row = 0; row < rows; ++row) {
            FitRequest request;
            ThreadFit answer;
            std::string reason;
            double diameter_mm = kNaN;
            Status code = part(external[external.size() == 1 ? 0 : row], Side::external, 0, row,
                               request.external, diameter_mm, reason);
            if (code.ok()) {
                double other = kNaN;
                code = part(internal[internal.size() == 1 ? 0 : row], Side::internal, 2, row,
                            request.internal, other, reason);
            }
            if (code.ok()) {
                request.engagement_mm = number(4, row);
                request.assumed_engagement_mm = diameter_mm;
                request.tolerance_over_sigma = number(5, row);
                code = evaluate(request, answer);
                if (!code.ok()) {
                    reason = "a length or spread is out of its range";
                }
            }
            const auto figures = code.ok() ? answer.figures() : ThreadFit{}.figures();
            for (std::size_t i = 0; i < out.size(); ++i) {
                out[i][row] = code.ok() ? figures[i] : kNaN;
            }
            verdicts[row] = static_cast<std::uint8_t>(answer.verdict);
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
        result[py::str(kFitFigures[i].data(), kFitFigures[i].size())] = std::move(columns[i]);
    }
    result["verdict_code"] = std::move(verdict);
    result["status"] = std::move(status);
    return result;
}

py::dict judged_dict(const Judged& d) {
    py::dict out;
    out["measured_mm"] = optional_number(d.measured_mm);
    out["min_mm"] = optional_number(d.min_mm);
    out["max_mm"] = optional_number(d.max_mm);
    out["place"] = std::string(enum_name(d.place));
    out["to_enter_mm"] = d.to_enter_mm;
    out["to_middle_mm"] = d.to_middle_mm;
    out["to_last_mm"] = d.to_last_mm;
    return out;
}

std::string position_text(const Precoat& p) {
    return p.unified_class != 0 ? fmt::format("{}A", p.unified_class) : std::string(enum_name(p.position));
}

void bind_coatings(py::module_& module) {
    py::class_<BuildUp>(module, "BuildUp", "What a coating adds to one surface, from least to most, um.")
        .def(py::init(&build_up_between), py::arg("min_um"), py::arg("max_um"))
        .def_readonly("min_um", &BuildUp::min_um)
        .def_readonly("max_um", &BuildUp::max_um)
        .def_property_readonly("film_min_um", [](const BuildUp& b) { return optional_number(b.film_min_um); })
        .def_property_readonly("film_max_um", [](const BuildUp& b) { return optional_number(b.film_max_um); })
        .def_property_readonly("bare", &BuildUp::bare)
        .def_readonly("maximum_by_rule", &BuildUp::maximum_by_rule)
        .def_property_readonly("usual", [](const BuildUp& b) { return b.origin == BuildUpOrigin::usual; })
        .def_property_readonly("coating",
                               [](const BuildUp& b) {
                                   return b.coating < 0 ? py::object(py::none())
                                                        : py::object(py::int_(static_cast<int>(b.coating)));
                               })
        .def(
            "evidence",
            [](const BuildUp& b, const SharedCatalogue& catalogue) {
                static constexpr std::array<std::string_view, 1> kFigure{"build_up_um"};
                Evidence<4> evidence;
                note_build_up(catalogue.get(), b, 0, evidence);
                return evidence_list(evidence.items(), kFigure, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "parse_build_up",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return parse_build_up(text, catalogue.get());
        },
        py::arg("text"), py::arg("catalogue"), "Read a build-up or a coating.");
    module.def(
        "require_takes",
        [](int coating, const std::string& group, const std::string& title,
           const SharedCatalogue& catalogue) {
            require_takes(catalogue.get().coatings[static_cast<std::size_t>(coating)], group, title);
        },
        py::arg("coating"), py::arg("group"), py::arg("title"), py::arg("catalogue"),
        "Refuse a coating on a metal that does not take it.");

    py::class_<Precoat>(module, "PrecoatAnswer", "The core's answer on limits before coating.")
        .def_readonly("before", &Precoat::before)
        .def_readonly("uncoated", &Precoat::uncoated)
        .def_property_readonly("way", [](const Precoat& p) { return std::string(enum_name(p.way)); })
        .def_property_readonly(
            "figures",
            [](const Precoat& p) {
                return figure_dict(
                    std::array<std::string_view, 7>{"allowance_um", "pitch_change_um", "greatest_build_up_um",
                                                    "go_after_pitch_mm", "go_after_crest_mm",
                                                    "not_go_after_pitch_mm", "position_deviation_um"},
                    std::array{p.allowance_um, p.pitch_change_um, p.greatest_build_up_um, p.go_after_pitch_mm,
                               p.go_after_crest_mm, p.not_go_after_pitch_mm, p.position_deviation_um});
            })
        .def_property_readonly("position",
                               [](const Precoat& p) {
                                   return p.has_position ? py::object(py::str(position_text(p)))
                                                         : py::object(py::none());
                               })
        .def(
            "evidence",
            [](const Precoat& p, const SharedCatalogue& catalogue) {
                return evidence_list(p.evidence.items(), kPrecoatFigures, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "precoat_answer",
        [](const Thread& thread, const BuildUp& build_up, const SharedCatalogue& catalogue,
           const std::string& gauged_at, const std::string& rule, std::optional<double> engagement_mm) {
            PrecoatRequest request{thread, build_up};
            request.gauged_at = from_name<GaugedAt>("gauged_at", gauged_at);
            request.options.rule = rule == "handbook" ? UnifiedRule::handbook : UnifiedRule::current;
            request.options.engagement_mm = given_or_nan("engagement_mm", engagement_mm);
            return precoat(catalogue.get(), request);
        },
        py::arg("thread"), py::arg("build_up"), py::arg("catalogue"), py::arg("gauged_at") = "basic",
        py::arg("rule") = "current", py::arg("engagement_mm") = py::none(), "Limits to cut before coating.");
}

void bind_fits(py::module_& module) {
    py::class_<FitPart>(module, "FitPart", "One part of a fit, bare and at 20 C.")
        .def(py::init(&part_of), py::arg("thread"), py::arg("limits"), py::arg("build_up"), py::kw_only(),
             py::arg("pitch_mm") = py::none(), py::arg("major_mm") = py::none(),
             py::arg("minor_mm") = py::none(), py::arg("lead_error_mm") = 0.0,
             py::arg("temperature_c") = 20.0, py::arg("expansion_um_m_k") = 0.0);
    py::class_<ThreadFit>(module, "FitAnswer", "The core's answer on one fit.")
        .def_property_readonly("figures",
                               [](const ThreadFit& f) { return figure_dict(kFitFigures, f.figures()); })
        .def_property_readonly("verdict",
                               [](const ThreadFit& f) { return std::string(enum_name(f.verdict)); })
        .def_property_readonly("deciding",
                               [](const ThreadFit& f) { return std::string(enum_name(f.deciding)); })
        .def_readonly("engagement_assumed", &ThreadFit::engagement_assumed)
        .def(
            "evidence",
            [](const ThreadFit& f, const SharedCatalogue& catalogue) {
                return evidence_list(f.evidence.items(), kFitFigures, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "fit_answer",
        [](const FitPart& external, const FitPart& internal, std::optional<double> engagement_mm,
           double assumed_engagement_mm, double tolerance_over_sigma, double mean_shift) {
            FitRequest request;
            request.external = external;
            request.internal = internal;
            request.engagement_mm = given_or_nan("engagement_mm", engagement_mm);
            request.assumed_engagement_mm = assumed_engagement_mm;
            request.tolerance_over_sigma = tolerance_over_sigma;
            request.mean_shift = mean_shift;
            return fit(request);
        },
        py::arg("external"), py::arg("internal"), py::kw_only(), py::arg("engagement_mm") = py::none(),
        py::arg("assumed_engagement_mm"), py::arg("tolerance_over_sigma") = 6.0, py::arg("mean_shift") = 0.0,
        "Fit of two threads.");
    module.def("fit_columns", &fit_columns, py::arg("external"), py::arg("internal"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("on_error") = "raise", "Columns of fits for many pairs.");
    module.def(
        "cut_to_suit_mm",
        [](double measured_mm, double clearance_min_mm, double clearance_max_mm, bool external,
           double measured_change_min_um, double measured_change_max_um, double change_min_um,
           double change_max_um) {
            const SuitRequest request{
                measured_mm,      measured_change_min_um, measured_change_max_um, clearance_min_mm,
                clearance_max_mm, change_min_um,          change_max_um,          external};
            SizeRange out;
            const Status status = evaluate(request, out);
            if (status.code == StatusCode::inconsistent) {
                throw DomainError(fmt::format(
                    "clearances from {:.4g} to {:.4g} mm leave no pitch diameter to cut to: the coatings "
                    "alone spread "
                    "by {:.4g} mm; allow more clearance, or hold the coating closer",
                    clearance_min_mm, clearance_max_mm,
                    (measured_change_max_um - measured_change_min_um + change_max_um - change_min_um) /
                        1000.0));
            }
            if (!status.ok()) {
                throw DomainError(
                    "measured pitch diameter, clearances and coatings must be finite, the diameter > 0");
            }
            return py::make_tuple(out.min_mm, out.max_mm);
        },
        py::arg("measured_mm"), py::arg("clearance_min_mm"), py::arg("clearance_max_mm"), py::arg("external"),
        py::arg("measured_change_min_um") = 0.0, py::arg("measured_change_max_um") = 0.0,
        py::arg("change_min_um") = 0.0, py::arg("change_max_um") = 0.0,
        "Least and greatest pitch diameter of a part cut to suit a measured one.");
}

void bind_measuring(py::module_& module) {
    py::class_<OverWires>(module, "WiresAnswer", "The core's answer on sizes over wires.")
        .def_property_readonly("figures",
                               [](const OverWires& w) { return figure_dict(kWireFigures, w.figures()); })
        .def_property_readonly("choice", [](const OverWires& w) { return std::string(enum_name(w.choice)); })
        .def_property_readonly("cautions",
                               [](const OverWires& w) {
                                   std::vector<std::string> out;
                                   for (const auto& [caution, name] : enum_names(WireCaution{})) {
                                       if (w.has(caution)) {
                                           out.emplace_back(name);
                                       }
                                   }
                                   return out;
                               })
        .def(
            "evidence",
            [](const OverWires& w, const SharedCatalogue& catalogue) {
                return evidence_list(w.evidence.items(), kWireFigures, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "wires_answer",
        [](const Thread& thread, const ThreadLimits& limits, const SharedCatalogue& catalogue,
           std::optional<double> wire_mm, bool best, const std::string& set) {
            WireRequest request{thread, limits};
            request.wire_mm = given_or_nan("wire_mm", wire_mm);
            request.best = best;
            request.set = set;
            return over_wires(catalogue.get(), request);
        },
        py::arg("thread"), py::arg("limits"), py::arg("catalogue"), py::arg("wire_mm") = py::none(),
        py::arg("best") = false, py::arg("set") = "",
        "Sizes over wires, or across balls, for a part's limits.");

    py::class_<Verdict>(module, "VerdictAnswer", "The core's verdict on a measured part.")
        .def_property_readonly("place", [](const Verdict& v) { return std::string(enum_name(v.place())); })
        .def_property_readonly("functional_pitch_mm",
                               [](const Verdict& v) { return optional_number(v.functional_pitch_mm); })
        .def_property_readonly("diameters",
                               [](const Verdict& v) {
                                   py::dict out;
                                   for (std::size_t i = 0; i < kDiameters.size(); ++i) {
                                       out[py::str(kDiameters[i].data(), kDiameters[i].size())] =
                                           judged_dict(v.diameters[i]);
                                   }
                                   return out;
                               })
        .def_property_readonly("classes",
                               [](const Verdict& v) {
                                   py::list out;
                                   for (const ClassTried& c : v.classes) {
                                       py::dict places;
                                       for (std::size_t i = 0; i < kDiameters.size(); ++i) {
                                           places[py::str(kDiameters[i].data(), kDiameters[i].size())] =
                                               std::string(enum_name(c.places[i]));
                                       }
                                       out.append(py::make_tuple(c.name, c.met(), places));
                                   }
                                   return out;
                               })
        .def_readonly("limits", &Verdict::limits)
        .def(
            "evidence",
            [](const Verdict& v, const SharedCatalogue& catalogue) {
                return evidence_list(v.evidence.items(), kJudgeFigures, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "judge_answer",
        [](const Thread& thread, const SharedCatalogue& catalogue, std::optional<double> pitch_mm,
           std::optional<double> major_mm, std::optional<double> minor_mm, double lead_error_mm,
           double leading_error_deg, double following_error_deg, std::optional<double> engagement_mm) {
            JudgeRequest request;
            request.thread = thread;
            request.pitch_mm = given_or_nan("pitch_mm", pitch_mm);
            request.major_mm = given_or_nan("major_mm", major_mm);
            request.minor_mm = given_or_nan("minor_mm", minor_mm);
            request.lead_error_mm = lead_error_mm;
            request.leading_error_deg = leading_error_deg;
            request.following_error_deg = following_error_deg;
            request.options.engagement_mm = given_or_nan("engagement_mm", engagement_mm);
            return judge(catalogue.get(), request);
        },
        py::arg("thread"), py::arg("catalogue"), py::kw_only(), py::arg("pitch_mm") = py::none(),
        py::arg("major_mm") = py::none(), py::arg("minor_mm") = py::none(), py::arg("lead_error_mm") = 0.0,
        py::arg("leading_error_deg") = 0.0, py::arg("following_error_deg") = 0.0,
        py::arg("engagement_mm") = py::none(), "Verdict on a measured part.");
}

}  // namespace

void bind_gauging(py::module_& module) {
    level1<BestWire>(module, "Wire that touches the flanks at the pitch line, lead angle left aside, mm.");
    level1<SmallestWire>(module, "Smallest wire that still stands above the crest, mm.");
    level1<LargestWire>(module, "Largest wire that still touches below the end of the flank, mm.");
    level1<OverWiresPlain>(module, "Size over three wires by the plain formula, lead angle left aside, mm.");
    level1<OverWiresLead>(
        module, "Size over three wires with the lead-angle correction of the screw-thread standards, mm.");
    level1<OverWiresNormal>(module, "Size over three wires with the half angle of the normal plane, mm.");
    level1<OverWiresInvolute>(module, "Size over wires of a groove between involute helicoids, mm.");
    level1<OverWiresExact>(module,
                           "Size over three free wires, exactly, mm; refused out of the usable range.");
    level1<OverWiresHeld>(module, "Size over wires held at the lead angle of the pitch line, mm.");
    level1<WireTilt>(module,
                     "Tilt that a free wire finds, degrees from the plane square to the thread's axis.");
    level1<BestWireExact>(module, "Wire that touches at the pitch line, lead angle included, mm.");
    level1<PitchFromWiresPlain>(module, "Pitch diameter from a size over wires by the plain formula, mm.");
    level1<PitchFromWiresLead>(module,
                               "Pitch diameter from a size over wires with the lead-angle correction, mm.");
    level1<PitchFromWiresExact>(module, "Pitch diameter from a size over wires, exactly, mm.");
    level1<SmallestBall>(module, "Smallest ball that does not bottom in an internal thread, mm.");
    level1<LargestBall>(module, "Largest ball that touches an internal thread's flank, mm.");
    level1<AcrossBallsPlain>(module,
                             "Size across two balls in an internal thread, lead angle left aside, mm.");
    level1<AcrossBallsExact>(module, "Size across two balls in an internal thread, exactly, mm.");
    level1<PitchFromBallsExact>(module, "Pitch diameter from a size across two balls, mm.");
    level1<AcrossBallsSkew>(module,
                            "Size across two balls in grooves half a pitch apart along the axis, mm.");
    level1<PitchErrorEquivalent>(module,
                                 "What an error of lead takes from the pitch diameter's clearance, mm.");
    level1<FlankErrorEquivalent>(
        module, "What errors of the half angles take from the pitch diameter's clearance, mm.");
    level1<BuildUpOfFilm>(module, "Build-up of one surface by a film, growth x film - etch, um.");
    level1<MetalConsumed>(module, "Metal of one surface that an anodic film is made of, um.");
    level1<RecoatedBuildUp>(module,
                            "Build-up of one surface after the film was stripped and grown anew, um.");
    level1<CoatedDiameterChange>(
        module, "Change of a cylinder's, a crest's or a root's diameter under a build-up, um.");
    level1<CoatedPitchChange>(module, "Change of an external thread's pitch diameter under a build-up, um.");
    level1<GreatestBuildUp>(module, "Greatest build-up that an allowance on the pitch diameter holds, um.");
    level1<NeededDeviation>(module, "Fundamental deviation that a plate of known batch average needs, um.");
    level1<AxialPlay>(module, "End play of a thread from the clearance at its pitch diameter, mm.");
    level1<ThreadTilt>(module, "How far one part leans in the other, to either side, deg.");
    bind_coatings(module);
    bind_fits(module);
    bind_measuring(module);
}

}  // namespace halfnut::bind
