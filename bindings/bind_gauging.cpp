// Fit, coating and gauging of threads.

#include <fmt/format.h>
#include <pybind11/stl.h>

#include <algorithm>
#include <optional>

#include "bind.hpp"
#include "figures.hpp"
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

UnifiedRule rule_from(const std::string& name) {
    if (name != "current" && name != "handbook") {
        throw DomainError(fmt::format("rule must be 'current' or 'handbook', got '{}'", name));
    }
    return name == "handbook" ? UnifiedRule::handbook : UnifiedRule::current;
}

/// The size a person measured stands for both ends of a range.
void measured(SizeRange& range, std::string_view argument, const std::optional<double>& size) {
    if (size) {
        range = {given_or_lacking(argument, size), *size};
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

/// A part by its sizes, of any straight-sided form. NaN: no such size.
FitPart sized_part(const std::array<double, 6>& sizes_mm, double pitch_mm, int starts, double half_angle_deg,
                   bool left_hand, const BuildUp& build_up, double lead_error_mm, double temperature_c,
                   double expansion_um_m_k) {
    FitPart part;
    part.major = {sizes_mm[0], sizes_mm[1]};
    part.pitch = {sizes_mm[2], sizes_mm[3]};
    part.minor = {sizes_mm[4], sizes_mm[5]};
    part.pitch_mm = pitch_mm;
    part.starts = starts;
    part.half_angle_deg = half_angle_deg;
    part.left_hand = left_hand;
    part.build_up = build_up;
    part.lead_error_mm = lead_error_mm;
    part.temperature_c = temperature_c;
    part.expansion_um_m_k = expansion_um_m_k;
    return part;
}

/// How many rows columns have that go together: each holds one value for all, or one a row.
std::size_t common_rows(const std::vector<std::size_t>& sizes, std::string_view what) {
    std::size_t rows = 1;
    for (const std::size_t size : sizes) {
        if (size != 1) {
            rows = size;
        }
    }
    for (const std::size_t size : sizes) {
        if (size != rows && size != 1) {
            throw DomainError(
                fmt::format("columns of {} and {} values do not go together: each holds one "
                            "{}, or one a row",
                            rows, size, what));
        }
    }
    return rows;
}

/// Numbers that come as columns: one value for all rows, or one a row.
class NumberColumns {
   public:
    NumberColumns(const std::vector<Doubles>& columns, std::size_t expected) {
        if (columns.size() != expected) {
            throw DomainError(
                fmt::format("{} columns of numbers are wanted, got {}", expected, columns.size()));
        }
        for (const Doubles& column : columns) {
            sizes_.push_back(static_cast<std::size_t>(column.size()));
            data_.push_back(column.data());
        }
    }
    [[nodiscard]] const std::vector<std::size_t>& sizes() const noexcept { return sizes_; }
    [[nodiscard]] double operator()(std::size_t column, std::size_t row) const noexcept {
        return data_[column][sizes_[column] == 1 ? 0 : row];
    }

   private:
    std::vector<std::size_t> sizes_;
    std::vector<const double*> data_;
};

/// Columns of figures, of small codes and of texts, and the status; a row that fails has NaN, 0 and "".
class AnswerColumns {
   public:
    AnswerColumns(std::size_t rows, std::vector<std::string> figures, std::vector<std::string> codes = {})
        : rows_(rows), figures_(std::move(figures)), codes_(std::move(codes)) {
        const auto size = static_cast<py::ssize_t>(rows);
        for (std::size_t i = 0; i < figures_.size(); ++i) {
            values_.emplace_back(size);
            value_data_.push_back(values_.back().mutable_data());
            std::fill_n(value_data_.back(), rows, kNaN);
        }
        for (std::size_t i = 0; i < codes_.size(); ++i) {
            bytes_.emplace_back(size);
            byte_data_.push_back(bytes_.back().mutable_data());
            std::fill_n(byte_data_.back(), rows, std::uint8_t{0});
        }
    }

    void figure(std::size_t row, std::size_t column, double value) { value_data_[column][row] = value; }
    void code(std::size_t row, std::size_t column, std::uint8_t value) { byte_data_[column][row] = value; }

    /// Answer each row without the interpreter lock. `answer(row, reason)` fills a row and gives its status.
    template <class Answer>
    void run(const std::string& on_error, std::string_view what, const Answer& answer) {
        const bool raise = raises_on_error(on_error);
        status_ = py::array_t<std::uint8_t>(static_cast<py::ssize_t>(rows_));
        std::uint8_t* const status = status_.mutable_data();
        std::size_t failed = 0;
        std::size_t first = 0;
        std::string why;
        const auto all = [&] {
            for (std::size_t row = 0; row < rows_; ++row) {
                std::string reason;
                const Status found = answer(row, reason);
                status[row] = static_cast<std::uint8_t>(found.code);
                if (!found.ok() && failed++ == 0) {
                    first = row;
                    why = reason.empty() ? std::string(status_sentence(found.code)) : reason;
                }
            }
        };
        {
            const py::gil_scoped_release release;
            all();
        }
        if (raise && failed > 0) {
            throw DomainError(
                fmt::format("{} at index {} ({} of {} {} failed)", why, first, failed, rows_, what));
        }
    }

    py::dict dict() && {
        py::dict out;
        for (std::size_t i = 0; i < figures_.size(); ++i) {
            out[py::str(figures_[i])] = std::move(values_[i]);
        }
        for (std::size_t i = 0; i < codes_.size(); ++i) {
            out[py::str(codes_[i])] = std::move(bytes_[i]);
        }
        out["status"] = std::move(status_);
        return out;
    }

   private:
    std::size_t rows_;
    std::vector<std::string> figures_;
    std::vector<std::string> codes_;
    std::vector<py::array_t<double>> values_;
    std::vector<py::array_t<std::uint8_t>> bytes_;
    std::vector<double*> value_data_;
    std::vector<std::uint8_t*> byte_data_;
    py::array_t<std::uint8_t> status_;
};

template <class Names>
std::vector<std::string> names_of(const Names& names) {
    return {names.begin(), names.end()};
}

Status read_row(const std::string& text, const Catalogue& catalogue, Thread& thread, std::string& reason) {
    DesignationProblem problem;
    const Status status = read_thread(text, catalogue, thread, &problem);
    if (!status.ok()) {
        reason =
            fmt::format("cannot read '{}' at position {}: {}", text, problem.position + 1, problem.message);
    }
    return status;
}

/// The part that a designation means: the one it names a class for, else the external one.
Thread meant_part(const Thread& thread) {
    return thread.part(thread.has_internal() && !thread.has_external() ? Side::internal : Side::external);
}

Status build_up_row(double least, double most, BuildUp& out, std::string& reason) {
    if (!std::isfinite(least) || !std::isfinite(most) || least > most) {
        reason =
            fmt::format("a build-up must be finite, least before greatest, got {} to {} um", least, most);
        return {
            std::isfinite(least) && std::isfinite(most) ? StatusCode::inconsistent : StatusCode::not_finite,
            0};
    }
    out.min_um = least;
    out.max_um = most;
    out.origin = least == 0.0 && most == 0.0 ? BuildUpOrigin::none : BuildUpOrigin::given;
    return {};
}

/// Columns of fits for many pairs of designations.
py::dict fit_columns(const std::vector<std::string>& external, const std::vector<std::string>& internal,
                     const SharedCatalogue& catalogue, const std::vector<Doubles>& numbers,
                     const std::string& on_error) {
    // build-ups: external min, max, internal min, max; engagement; spread
    const NumberColumns number(numbers, 6);
    std::vector<std::size_t> sizes = number.sizes();
    sizes.insert(sizes.end(), {external.size(), internal.size()});
    const std::size_t rows = common_rows(sizes, "pair");
    AnswerColumns columns(rows, names_of(kFitFigures), {"verdict_code"});
    columns.run(on_error, "pairs", [&](std::size_t row, std::string& reason) {
        FitRequest request;
        const auto part = [&](const std::vector<std::string>& texts, Side side, std::size_t column,
                              FitPart& made, double& diameter_mm) {
            Thread thread;
            ThreadLimits limits;
            Status status = read_row(texts[texts.size() == 1 ? 0 : row], catalogue.get(), thread, reason);
            if (status.ok()) {
                status = evaluate(catalogue.get(), thread.part(side), LimitOptions{}, limits, &reason);
            }
            if (status.ok()) {
                made = fit_part(thread, limits);
                diameter_mm = thread.diameter_mm();
                status = build_up_row(number(column, row), number(column + 1, row), made.build_up, reason);
            }
            return status;
        };
        double other_mm = kNaN;
        Status status = part(external, Side::external, 0, request.external, request.assumed_engagement_mm);
        if (status.ok()) {
            status = part(internal, Side::internal, 2, request.internal, other_mm);
        }
        if (!status.ok()) {
            return status;
        }
        request.engagement_mm = number(4, row);
        request.tolerance_over_sigma = number(5, row);
        ThreadFit answer;
        status = evaluate(request, answer);
        if (!status.ok()) {
            reason = "a length or spread is out of its range";
            return status;
        }
        const auto figures = answer.figures();
        for (std::size_t i = 0; i < figures.size(); ++i) {
            columns.figure(row, i, figures[i]);
        }
        columns.code(row, 0, static_cast<std::uint8_t>(answer.verdict));
        return status;
    });
    return std::move(columns).dict();
}

/// Columns of sizes over wires for many designations.
py::dict wire_columns(const std::vector<std::string>& designations, const SharedCatalogue& catalogue,
                      const std::vector<Doubles>& numbers, bool best, const std::string& set,
                      const std::string& on_error) {
    const NumberColumns number(numbers, 1);  // the wire
    const std::size_t rows = common_rows({designations.size(), number.sizes()[0]}, "thread");
    std::vector<std::string> names = names_of(kWireFigures);
    names.insert(names.end(), {"pitch_max_mm", "pitch_min_mm"});
    AnswerColumns columns(rows, names, {"side_code"});
    columns.run(on_error, "threads", [&](std::size_t row, std::string& reason) {
        Thread thread;
        ThreadLimits limits;
        Status status =
            read_row(designations[designations.size() == 1 ? 0 : row], catalogue.get(), thread, reason);
        if (status.ok()) {
            thread = meant_part(thread);
            status = evaluate(catalogue.get(), thread, LimitOptions{}, limits, &reason);
        }
        if (!status.ok()) {
            return status;
        }
        WireRequest request = wire_request(thread, limits);
        request.wire_mm = number(0, row);
        request.best = best;
        request.set = set;
        OverWires answer;
        status = evaluate(catalogue.get(), request, answer, &reason);
        if (!status.ok()) {
            return status;
        }
        const auto figures = answer.figures();
        for (std::size_t i = 0; i < figures.size(); ++i) {
            columns.figure(row, i, figures[i]);
        }
        columns.figure(row, figures.size(), limits.mm(Limit::pitch_max));
        columns.figure(row, figures.size() + 1, limits.mm(Limit::pitch_min));
        columns.code(row, 0, static_cast<std::uint8_t>(answer.side));
        return status;
    });
    return std::move(columns).dict();
}

/// Columns of verdicts on many measured parts; the classes met as texts.
py::dict judge_columns(const std::vector<std::string>& designations, const SharedCatalogue& catalogue,
                       const std::vector<Doubles>& numbers, const std::string& on_error) {
    const NumberColumns number(numbers, 9);
    std::vector<std::size_t> sizes = number.sizes();
    sizes.push_back(designations.size());
    const std::size_t rows = common_rows(sizes, "part");
    std::vector<std::string> names{"functional_pitch_mm"};
    std::vector<std::string> codes{"place_code"};
    for (const std::string_view diameter : kDiameters) {
        for (const std::string_view what :
             {"_mm", "_min_mm", "_max_mm", "_to_enter_mm", "_to_middle_mm", "_to_last_mm"}) {
            names.push_back(std::string(diameter) + std::string(what));
        }
        codes.push_back(std::string(diameter) + "_place_code");
    }
    AnswerColumns columns(rows, names, codes);
    std::vector<std::string> met(rows);
    columns.run(on_error, "parts", [&](std::size_t row, std::string& reason) {
        JudgeRequest request;
        Status status = read_row(designations[designations.size() == 1 ? 0 : row], catalogue.get(),
                                 request.thread, reason);
        if (!status.ok()) {
            return status;
        }
        request.thread = meant_part(request.thread);
        request.pitch_mm = number(0, row);
        request.major_mm = number(1, row);
        request.minor_mm = number(2, row);
        request.lead_error_mm = number(3, row);
        request.leading_error_deg = number(4, row);
        request.following_error_deg = number(5, row);
        request.over_wires_mm = number(6, row);
        request.wire_mm = number(7, row);
        request.options.engagement_mm = number(8, row);
        Verdict answer;
        status = evaluate(catalogue.get(), request, answer, &reason);
        if (!status.ok()) {
            return status;
        }
        columns.figure(row, 0, answer.functional_pitch_mm);
        columns.code(row, 0, static_cast<std::uint8_t>(answer.place()));
        constexpr std::size_t kEach = 6;
        for (std::size_t i = 0; i < kDiameters.size(); ++i) {
            const Judged& d = answer.diameters[i];
            const bool there = d.place != Place::not_measured;
            const std::array<double, kEach> figures{d.measured_mm,
                                                    d.min_mm,
                                                    d.max_mm,
                                                    there ? d.to_enter_mm : kNaN,
                                                    there ? d.to_middle_mm : kNaN,
                                                    there ? d.to_last_mm : kNaN};
            for (std::size_t k = 0; k < kEach; ++k) {
                columns.figure(row, 1 + i * kEach + k, figures[k]);
            }
            columns.code(row, 1 + i, static_cast<std::uint8_t>(d.place));
        }
        for (const ClassTried& tried : answer.classes) {
            if (tried.met()) {
                met[row] += met[row].empty() ? "" : " ";
                met[row] += tried.name;
            }
        }
        return status;
    });
    py::dict out = std::move(columns).dict();
    out["classes_met"] = py::module_::import("numpy").attr("array")(met, py::arg("dtype") = "U");
    return out;
}

/// Columns of limits before coating for many designations.
py::dict precoat_columns(const std::vector<std::string>& designations, const SharedCatalogue& catalogue,
                         const std::vector<Doubles>& numbers, const std::string& gauged_at,
                         const std::string& rule, const std::string& on_error) {
    const NumberColumns number(numbers, 3);  // build-up, least and greatest; engagement
    std::vector<std::size_t> sizes = number.sizes();
    sizes.push_back(designations.size());
    const std::size_t rows = common_rows(sizes, "thread");
    const GaugedAt at = from_name<GaugedAt>("gauged_at", gauged_at);
    const UnifiedRule decimal_rule = rule_from(rule);
    constexpr std::size_t kSizes = 6;  // major_max ... minor_min
    std::vector<std::string> names;
    for (const char* unit : {"_mm", "_in"}) {
        for (std::size_t i = 0; i < kSizes; ++i) {
            names.push_back(std::string(kThreadLimitFigures[i]) + unit);
        }
    }
    for (std::size_t i = 1; i + 1 < kPrecoatFigures.size(); ++i) {
        names.emplace_back(kPrecoatFigures[i]);
    }
    AnswerColumns columns(rows, names, {"way_code"});
    columns.run(on_error, "threads", [&](std::size_t row, std::string& reason) {
        PrecoatRequest request;
        Status status = read_row(designations[designations.size() == 1 ? 0 : row], catalogue.get(),
                                 request.thread, reason);
        if (status.ok()) {
            status = build_up_row(number(0, row), number(1, row), request.build_up, reason);
        }
        if (!status.ok()) {
            return status;
        }
        request.thread = meant_part(request.thread);
        request.gauged_at = at;
        request.options = {.rule = decimal_rule, .engagement_mm = number(2, row)};
        Precoat answer;
        status = evaluate(catalogue.get(), request, answer, &reason);
        if (!status.ok()) {
            return status;
        }
        std::size_t column = 0;
        for (std::size_t i = 0; i < kSizes; ++i) {
            columns.figure(row, column++, answer.before.mm(static_cast<Limit>(i)));
        }
        for (std::size_t i = 0; i < kSizes; ++i) {
            columns.figure(row, column++, answer.before.in(static_cast<Limit>(i)));
        }
        for (const double value :
             {answer.allowance_um, answer.pitch_change_um, answer.greatest_build_up_um,
              answer.go_after_pitch_mm, answer.go_after_crest_mm, answer.not_go_after_pitch_mm}) {
            columns.figure(row, column++, value);
        }
        columns.code(row, 0, static_cast<std::uint8_t>(answer.way));
        return status;
    });
    return std::move(columns).dict();
}

py::dict judged_dict(const Judged& d) {
    py::dict out;
    out["measured_mm"] = number_or_none(d.measured_mm);
    out["min_mm"] = number_or_none(d.min_mm);
    out["max_mm"] = number_or_none(d.max_mm);
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
        .def_property_readonly("film_min_um", [](const BuildUp& b) { return number_or_none(b.film_min_um); })
        .def_property_readonly("film_max_um", [](const BuildUp& b) { return number_or_none(b.film_max_um); })
        .def_property_readonly("bare", &BuildUp::bare)
        .def(
            "recoated",
            [](const BuildUp& b, int strips, const SharedCatalogue& catalogue) {
                return recoated(b, strips, catalogue.get());
            },
            py::arg("strips"), py::arg("catalogue"))
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
                return figures_by_name(
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
            request.options.rule = rule_from(rule);
            request.options.engagement_mm = given_or_lacking("engagement_mm", engagement_mm);
            return precoat(catalogue.get(), request);
        },
        py::arg("thread"), py::arg("build_up"), py::arg("catalogue"), py::arg("gauged_at") = "basic",
        py::arg("rule") = "current", py::arg("engagement_mm") = py::none(), "Limits to cut before coating.");
    module.def("precoat_columns", &precoat_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("gauged_at") = "basic", py::arg("rule") = "current",
               py::arg("on_error") = "raise", "Columns of limits before coating for many designations.");
}

void bind_thread_fits(py::module_& module) {
    py::class_<FitPart>(module, "FitPart", "One part of a fit, bare and at 20 C.")
        .def(py::init(&part_of), py::arg("thread"), py::arg("limits"), py::arg("build_up"), py::kw_only(),
             py::arg("pitch_mm") = py::none(), py::arg("major_mm") = py::none(),
             py::arg("minor_mm") = py::none(), py::arg("lead_error_mm") = 0.0,
             py::arg("temperature_c") = 20.0, py::arg("expansion_um_m_k") = 0.0);
    module.def("sized_part", &sized_part, py::arg("sizes_mm"), py::arg("pitch_mm"), py::arg("starts"),
               py::arg("half_angle_deg"), py::arg("left_hand"), py::arg("build_up"),
               py::arg("lead_error_mm") = 0.0, py::arg("temperature_c") = 20.0,
               py::arg("expansion_um_m_k") = 0.0, "A part of a fit by its sizes.");
    py::class_<ThreadFit>(module, "FitAnswer", "The core's answer on one fit.")
        .def_property_readonly("figures",
                               [](const ThreadFit& f) { return figures_by_name(kFitFigures, f.figures()); })
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
            request.engagement_mm = given_or_lacking("engagement_mm", engagement_mm);
            request.assumed_engagement_mm = assumed_engagement_mm;
            request.tolerance_over_sigma = tolerance_over_sigma;
            request.mean_shift = mean_shift;
            return fit(request);
        },
        py::arg("external"), py::arg("internal"), py::kw_only(), py::arg("engagement_mm") = py::none(),
        py::arg("assumed_engagement_mm"), py::arg("tolerance_over_sigma") = 6.0, py::arg("mean_shift") = 0.0,
        "Fit of two threads.");
    py::class_<Suited>(module, "SuitAnswer", "The core's answer on a part cut to suit a measured one.")
        .def_property_readonly("pitch_min_mm", [](const Suited& s) { return s.pitch.min_mm; })
        .def_property_readonly("pitch_max_mm", [](const Suited& s) { return s.pitch.max_mm; })
        .def(
            "evidence",
            [](const Suited& s, const SharedCatalogue& catalogue) {
                return evidence_list(s.evidence.items(), kSuitFigures, catalogue.get());
            },
            py::arg("catalogue"));
    module.def(
        "fit_chances",
        [](const FitPart& external, const FitPart& internal, const Doubles& clearances_mm,
           double tolerance_over_sigma, double mean_shift) {
            FitRequest request;
            request.external = external;
            request.internal = internal;
            request.assumed_engagement_mm = 1.0;  // a length makes no difference to the chance
            request.tolerance_over_sigma = tolerance_over_sigma;
            request.mean_shift = mean_shift;
            (void)fit(request);  // checks the ranges
            py::array_t<double> out(clearances_mm.size());
            const double* const given = clearances_mm.data();
            double* const chances = out.mutable_data();
            const auto size = static_cast<std::size_t>(out.size());
            for (std::size_t i = 0; i < size; ++i) {
                if (!std::isfinite(given[i])) {
                    throw DomainError(
                        fmt::format("clearances_mm must be finite, got {} at index {}", given[i], i));
                }
                chances[i] = chance_below(request, given[i]);
            }
            return out;
        },
        py::arg("external"), py::arg("internal"), py::arg("clearances_mm"), py::kw_only(),
        py::arg("tolerance_over_sigma") = 6.0, py::arg("mean_shift") = 0.0,
        "Chance that the clearance of a pair is below each of some values.");
    module.def("fit_columns", &fit_columns, py::arg("external"), py::arg("internal"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("on_error") = "raise", "Columns of fits for many pairs.");
    module.def(
        "suit_answer",
        [](double measured_mm, double clearance_min_mm, double clearance_max_mm, bool external,
           double measured_change_min_um, double measured_change_max_um, double change_min_um,
           double change_max_um) {
            const SuitRequest request{
                measured_mm,      measured_change_min_um, measured_change_max_um, clearance_min_mm,
                clearance_max_mm, change_min_um,          change_max_um,          external};
            Suited out;
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
            return out;
        },
        py::arg("measured_mm"), py::arg("clearance_min_mm"), py::arg("clearance_max_mm"), py::arg("external"),
        py::arg("measured_change_min_um") = 0.0, py::arg("measured_change_max_um") = 0.0,
        py::arg("change_min_um") = 0.0, py::arg("change_max_um") = 0.0, "A part cut to suit a measured one.");
}

void bind_measuring(py::module_& module) {
    py::class_<OverWires>(module, "WiresAnswer", "The core's answer on sizes over wires.")
        .def_property_readonly("figures",
                               [](const OverWires& w) { return figures_by_name(kWireFigures, w.figures()); })
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
            WireRequest request = wire_request(thread, limits);
            request.wire_mm = given_or_lacking("wire_mm", wire_mm);
            request.best = best;
            request.set = set;
            return over_wires(catalogue.get(), request);
        },
        py::arg("thread"), py::arg("limits"), py::arg("catalogue"), py::arg("wire_mm") = py::none(),
        py::arg("best") = false, py::arg("set") = "",
        "Sizes over wires, or across balls, for a part's limits.");

    module.def(
        "sized_wires_answer",
        [](const FitPart& part, const std::string& side, const std::string& unit, const std::string& title,
           const SharedCatalogue& catalogue, std::optional<double> wire_mm, bool best,
           const std::string& set) {
            WireRequest request{part, side == "external" ? Side::external : Side::internal, unit == "in",
                                title};
            request.wire_mm = given_or_lacking("wire_mm", wire_mm);
            request.best = best;
            request.set = set;
            return over_wires(catalogue.get(), request);
        },
        py::arg("part"), py::arg("side"), py::arg("unit"), py::arg("title"), py::arg("catalogue"),
        py::arg("wire_mm") = py::none(), py::arg("best") = false, py::arg("set") = "",
        "Sizes over wires, or across balls, for a part by its sizes.");

    py::class_<Verdict>(module, "VerdictAnswer", "The core's verdict on a measured part.")
        .def_property_readonly("place", [](const Verdict& v) { return std::string(enum_name(v.place())); })
        .def_property_readonly("functional_pitch_mm",
                               [](const Verdict& v) { return number_or_none(v.functional_pitch_mm); })
        .def_readonly("crest_assumed", &Verdict::crest_assumed)
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
           double leading_error_deg, double following_error_deg, std::optional<double> over_wires_mm,
           std::optional<double> wire_mm, std::optional<double> engagement_mm) {
            JudgeRequest request;
            request.thread = thread;
            request.pitch_mm = given_or_lacking("pitch_mm", pitch_mm);
            request.major_mm = given_or_lacking("major_mm", major_mm);
            request.minor_mm = given_or_lacking("minor_mm", minor_mm);
            request.lead_error_mm = lead_error_mm;
            request.leading_error_deg = leading_error_deg;
            request.following_error_deg = following_error_deg;
            request.over_wires_mm = given_or_lacking("over_wires_mm", over_wires_mm);
            request.wire_mm = given_or_lacking("wire_mm", wire_mm);
            request.options.engagement_mm = given_or_lacking("engagement_mm", engagement_mm);
            return judge(catalogue.get(), request);
        },
        py::arg("thread"), py::arg("catalogue"), py::kw_only(), py::arg("pitch_mm") = py::none(),
        py::arg("major_mm") = py::none(), py::arg("minor_mm") = py::none(), py::arg("lead_error_mm") = 0.0,
        py::arg("leading_error_deg") = 0.0, py::arg("following_error_deg") = 0.0,
        py::arg("over_wires_mm") = py::none(), py::arg("wire_mm") = py::none(),
        py::arg("engagement_mm") = py::none(), "Verdict on a measured part.");
    module.def("wire_columns", &wire_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("best") = false, py::arg("set") = "",
               py::arg("on_error") = "raise", "Columns of sizes over wires for many designations.");
    module.def("judge_columns", &judge_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("on_error") = "raise",
               "Columns of verdicts on many measured parts.");
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
    module.def(
        "over_wires_involute_working",
        [](double pitch_diameter_mm, double pitch_mm, double lead_mm, double half_angle_deg, double wire_mm) {
            const InvoluteWorking w =
                over_wires_involute_working(pitch_diameter_mm, pitch_mm, lead_mm, half_angle_deg, wire_mm);
            py::dict out;
            out["tan_lead_angle"] = w.tan_lead_angle;
            out["f_deg"] = w.f_deg;
            out["t_a_mm"] = w.t_a_mm;
            out["h_b_deg"] = w.h_b_deg;
            out["involute_g"] = w.involute_g;
            out["over_wires_mm"] = w.over_wires_mm;
            return out;
        },
        py::arg("pitch_diameter_mm"), py::arg("pitch_mm"), py::arg("lead_mm"), py::arg("half_angle_deg"),
        py::arg("wire_mm"), "Size over wires of a groove between involute helicoids, with the steps to it.");
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
    bind_thread_fits(module);
    bind_measuring(module);
}

}  // namespace halfnut::bind
