// Columns of threads of any form: limits, fits, sizes over wires, verdicts, limits before coating.

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <unordered_map>

#include "convert.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/judge.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/precoat.hpp"
#include "halfnut/threads/wires.hpp"

namespace halfnut::bind {

using namespace threads;

namespace {

constexpr double kGreatestMeasuredMm = 1e4;  // what is measured on a part is at most 10 m long

/// The bounds of a length of engagement; one that is lacking or infinite is judged where it is used.
Status engagement_row(double mm, double greatest, std::string& reason) {
    if (!std::isfinite(mm) || bounds::Range{bounds::kLeastLengthMm, greatest}.holds(mm)) {
        return {};
    }
    reason = fmt::format("engagement_mm must be 0, or from {} to {} mm, got {}", bounds::kLeastLengthMm,
                         greatest, mm);
    return {StatusCode::out_of_range, 0};
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

/// The parts that a column of designations means: each distinct text is read once.
class Parts {
   public:
    Parts(const std::vector<std::string>& texts, const Catalogue& catalogue, std::optional<Side> side)
        : catalogue_(catalogue) {
        const py::gil_scoped_release release;
        std::unordered_map<std::string_view, std::size_t> seen;
        for (const std::string& text : texts) {
            const auto [found, fresh] = seen.try_emplace(text, parts_.size());
            if (fresh) {
                parts_.push_back(read(text, side));
            }
            places_.push_back(found->second);
        }
    }

    [[nodiscard]] std::size_t size() const noexcept { return places_.size(); }

    /// The part of a row, or why there is none.
    Status part(std::size_t row, const ThreadPart*& out, std::string& why) const {
        const Part& found = parts_[places_[size() == 1 ? 0 : row]];
        out = &found.part;
        if (!found.status.ok()) {
            why = found.why;
        }
        return found.status;
    }

    /// Its limits, worked out once as long as the options stay the same; or why there are none.
    Status limits(std::size_t row, const LimitOptions& options, const ThreadPart*& out_part,
                  const PartLimits*& out, std::string& why) {
        Status status = part(row, out_part, why);
        if (!status.ok()) {
            return status;
        }
        Part& found = parts_[places_[size() == 1 ? 0 : row]];
        const bool same = options.engagement_mm == found.options.engagement_mm ||
                          (std::isnan(options.engagement_mm) && std::isnan(found.options.engagement_mm));
        if (!found.known || !same) {
            found.limits_status = evaluate(catalogue_, found.part, options, found.limits, &found.why);
            found.options = options;
            found.known = true;
        }
        out = &found.limits;
        if (!found.limits_status.ok()) {
            why = found.why;
        }
        return found.limits_status;
    }

   private:
    struct Part {
        Status status;
        std::string why;
        ThreadPart part;
        bool known = false;
        LimitOptions options;
        Status limits_status;
        PartLimits limits;
    };

    [[nodiscard]] Part read(const std::string& text, std::optional<Side> side) const {
        Part out;
        AnyThread thread;
        out.status = read_any_thread(text, catalogue_, thread, &out.why);
        if (out.status.ok()) {
            out.status = one_part(thread, side, out.part, &out.why);
        }
        return out;
    }

    const Catalogue& catalogue_;
    std::vector<Part> parts_;
    std::vector<std::size_t> places_;
};

constexpr std::size_t kSizeColumns = 6;  // major_max ... minor_min

/// Columns of sizes, in mm and in inches.
void size_columns(AnswerColumns& columns) {
    for (const char* unit : {"_mm", "_in"}) {
        for (std::size_t i = 0; i < kSizeColumns; ++i) {
            columns.figures(std::string(kThreadLimitFigures[i]) + unit);
        }
    }
}

/// Columns of limits for many designations.
py::dict limit_columns(const std::vector<std::string>& designations, const SharedCatalogue& catalogue,
                       const std::vector<Doubles>& numbers, const std::string& rule,
                       const std::string& on_error) {
    const NumberColumns number(numbers, 1);  // engagement
    Parts parts(designations, catalogue.get(), std::nullopt);
    const std::size_t rows = common_rows({parts.size(), number.sizes()[0]}, "thread");
    const UnifiedRule decimal_rule = from_name<UnifiedRule>("rule", rule);
    AnswerColumns columns(rows);
    size_columns(columns);
    std::uint8_t* const units = columns.codes("unit_code");
    columns.run(on_error, "designations", [&](std::size_t row, std::string& reason) {
        const ThreadPart* part = nullptr;
        const PartLimits* limits = nullptr;
        Status status = engagement_row(number(0, row), bounds::kGreatestLengthMm, reason);
        if (status.ok()) {
            status = parts.limits(row, {.rule = decimal_rule, .engagement_mm = number(0, row)}, part, limits,
                                  reason);
        }
        if (status.ok()) {
            columns.set_figures(row, std::span(limits->mm).first(kSizeColumns));
            columns.set_figures(row, std::span(limits->in).first(kSizeColumns), kSizeColumns);
            units[row] = limits->inch ? 1 : 0;
        }
        return status;
    });
    return columns.dict();
}

/// Columns of fits for many pairs of designations.
py::dict fit_columns(const std::vector<std::string>& external, const std::vector<std::string>& internal,
                     const SharedCatalogue& catalogue, const std::vector<Doubles>& numbers,
                     const std::string& on_error) {
    // build-ups: external min, max, internal min, max; engagement; spread
    const NumberColumns number(numbers, 6);
    Parts males(external, catalogue.get(), Side::external);
    Parts females(internal, catalogue.get(), Side::internal);
    std::vector<std::size_t> sizes = number.sizes();
    sizes.insert(sizes.end(), {external.size(), internal.size()});
    const std::size_t rows = common_rows(sizes, "pair");
    AnswerColumns columns(rows);
    columns.figures(kFitFigures);
    std::uint8_t* const verdicts = columns.codes("verdict_code");
    columns.run(on_error, "pairs", [&](std::size_t row, std::string& reason) {
        FitRequest request;
        const ThreadPart* part = nullptr;
        const PartLimits* limits = nullptr;
        Status status = engagement_row(number(4, row), kGreatestMeasuredMm, reason);
        if (status.ok()) {
            status = males.limits(row, {}, part, limits, reason);
        }
        if (status.ok()) {
            request.external = limits->sizes;
            request.assumed_engagement_mm = diameter_mm(part->thread);
            const Thread* const thread = std::get_if<Thread>(&part->thread);
            request.engagement_mm =
                thread != nullptr && std::isnan(number(4, row)) ? thread->engagement_mm() : number(4, row);
            status = build_up_row(number(0, row), number(1, row), request.external.build_up, reason);
        }
        if (status.ok()) {
            status = females.limits(row, {}, part, limits, reason);
        }
        if (status.ok()) {
            request.internal = limits->sizes;
            status = build_up_row(number(2, row), number(3, row), request.internal.build_up, reason);
        }
        if (!status.ok()) {
            return status;
        }
        request.tolerance_over_sigma = number(5, row);
        ThreadFit answer;
        status = evaluate(request, answer);
        if (!status.ok()) {
            reason = "a length or spread is out of its range";
            return status;
        }
        columns.set_figures(row, answer.figures());
        verdicts[row] = static_cast<std::uint8_t>(answer.verdict);
        return status;
    });
    return columns.dict();
}

/// Columns of sizes over wires for many designations.
py::dict wire_columns(const std::vector<std::string>& designations, const SharedCatalogue& catalogue,
                      const std::vector<Doubles>& numbers, bool best, const std::string& set,
                      const std::string& on_error) {
    const NumberColumns number(numbers, 1);  // the wire
    Parts parts(designations, catalogue.get(), std::nullopt);
    const std::size_t rows = common_rows({parts.size(), number.sizes()[0]}, "thread");
    AnswerColumns columns(rows);
    columns.figures(kWireFigures);
    double* const pitch_max = columns.figures("pitch_max_mm");
    double* const pitch_min = columns.figures("pitch_min_mm");
    std::uint8_t* const sides = columns.codes("side_code");
    columns.run(on_error, "threads", [&](std::size_t row, std::string& reason) {
        const ThreadPart* part = nullptr;
        const PartLimits* limits = nullptr;
        Status status = parts.limits(row, {}, part, limits, reason);
        if (!status.ok()) {
            return status;
        }
        WireRequest request = wire_request(*limits);
        request.wire_mm = number(0, row);
        request.best = best;
        request.set = set;
        OverWires answer;
        status = evaluate(catalogue.get(), request, answer, &reason);
        if (!status.ok()) {
            return status;
        }
        columns.set_figures(row, answer.figures());
        pitch_max[row] = limits->sizes.pitch.max_mm;
        pitch_min[row] = limits->sizes.pitch.min_mm;
        sides[row] = static_cast<std::uint8_t>(answer.side);
        return status;
    });
    return columns.dict();
}

/// Columns of verdicts on many measured parts; the classes met as texts.
py::dict judge_columns(const std::vector<std::string>& designations, const SharedCatalogue& catalogue,
                       const std::vector<Doubles>& numbers, const std::string& on_error) {
    const NumberColumns number(numbers, 9);
    Parts parts(designations, catalogue.get(), std::nullopt);
    std::vector<std::size_t> sizes = number.sizes();
    sizes.push_back(designations.size());
    const std::size_t rows = common_rows(sizes, "part");
    AnswerColumns columns(rows);
    double* const functional = columns.figures("functional_pitch_mm");
    for (const std::string_view diameter : kDiameters) {
        for (const char* what :
             {"_mm", "_min_mm", "_max_mm", "_to_enter_mm", "_to_middle_mm", "_to_last_mm"}) {
            columns.figures(std::string(diameter) + what);
        }
    }
    std::uint8_t* const places = columns.codes("place_code");
    std::array<std::uint8_t*, kDiameters.size()> diameter_places{};
    for (std::size_t i = 0; i < kDiameters.size(); ++i) {
        diameter_places[i] = columns.codes(std::string(kDiameters[i]) + "_place_code");
    }
    std::vector<std::string> met(rows);
    columns.run(on_error, "parts", [&](std::size_t row, std::string& reason) {
        const Measured measured{number(0, row), number(1, row), number(2, row), number(3, row),
                                number(4, row), number(5, row), number(6, row), number(7, row)};
        Verdict answer;
        const ThreadPart* part = nullptr;
        const PartLimits* limits = nullptr;
        Status status = engagement_row(number(8, row), kGreatestMeasuredMm, reason);
        if (status.ok()) {
            status = parts.limits(row, {.rule = UnifiedRule::printed, .engagement_mm = number(8, row)}, part,
                                  limits, reason);
        }
        if (status.ok()) {
            status = evaluate(catalogue.get(), PartJudgeRequest{measured, *limits, false}, answer, &reason);
        }
        if (!status.ok()) {
            return status;
        }
        functional[row] = answer.functional_pitch_mm;
        places[row] = static_cast<std::uint8_t>(answer.place());
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
            columns.set_figures(row, figures, 1 + i * kEach);
            diameter_places[i][row] = static_cast<std::uint8_t>(d.place);
        }
        for (const ClassTried& tried : answer.classes) {
            if (tried.met()) {
                met[row] += met[row].empty() ? "" : " ";
                met[row] += tried.name;
            }
        }
        return status;
    });
    columns.dict()["classes_met"] = text_column(met);
    return columns.dict();
}

/// Columns of limits before coating for many designations.
py::dict precoat_columns(const std::vector<std::string>& designations, const SharedCatalogue& catalogue,
                         const std::vector<Doubles>& numbers, const std::string& gauged_at,
                         const std::string& rule, const std::string& on_error) {
    const NumberColumns number(numbers, 3);  // build-up, least and greatest; engagement
    Parts parts(designations, catalogue.get(), std::nullopt);
    std::vector<std::size_t> sizes = number.sizes();
    sizes.push_back(designations.size());
    const std::size_t rows = common_rows(sizes, "thread");
    const GaugedAt at = from_name<GaugedAt>("gauged_at", gauged_at);
    const UnifiedRule decimal_rule = from_name<UnifiedRule>("rule", rule);
    AnswerColumns columns(rows);
    size_columns(columns);
    columns.figures(std::span(kPrecoatFigures).subspan(1, kPrecoatFigures.size() - 2));
    std::uint8_t* const ways = columns.codes("way_code");
    columns.run(on_error, "threads", [&](std::size_t row, std::string& reason) {
        const ThreadPart* part = nullptr;
        BuildUp build_up;
        Status status = engagement_row(number(2, row), bounds::kGreatestLengthMm, reason);
        if (status.ok()) {
            status = parts.part(row, part, reason);
        }
        if (status.ok()) {
            status = build_up_row(number(0, row), number(1, row), build_up, reason);
        }
        const PartLimits* limits = nullptr;
        if (status.ok()) {
            status = parts.limits(row, {.rule = decimal_rule, .engagement_mm = number(2, row)}, part, limits,
                                  reason);
        }
        PartLimits answer;
        if (status.ok()) {
            status = evaluate(catalogue.get(), *limits, build_up, at, answer, &reason);
        }
        if (!status.ok()) {
            return status;
        }
        columns.set_figures(row, answer.mm);
        columns.set_figures(row, answer.in, kSizeColumns);
        const BeforeCoating& coat = *answer.coating;
        const std::array figures{coat.allowance_um,      coat.pitch_change_um,   coat.greatest_build_up_um,
                                 coat.go_after_pitch_mm, coat.go_after_crest_mm, coat.not_go_after_pitch_mm};
        columns.set_figures(row, figures, 2 * kSizeColumns);
        ways[row] = static_cast<std::uint8_t>(coat.way);
        return status;
    });
    return columns.dict();
}

/// Columns of taper pipe threads for many designations.
py::dict taper_columns(const std::vector<std::string>& designations, const SharedCatalogue& catalogue,
                       const std::string& on_error) {
    const Parts parts(designations, catalogue.get(), std::nullopt);
    AnswerColumns columns(parts.size());
    columns.figures(kTaperPipeFigures);
    std::uint8_t* const units = columns.codes("unit_code");
    columns.run(on_error, "threads", [&](std::size_t row, std::string& reason) {
        const ThreadPart* part = nullptr;
        Status status = parts.part(row, part, reason);
        TaperPipe answer;
        if (status.ok()) {
            try {
                answer = taper_pipe(catalogue.get(), part->thread);
            } catch (const NotTabulatedError& error) {
                reason = error.what();
                status = {StatusCode::not_tabulated, 0};
            }
        }
        if (status.ok()) {
            columns.set_figures(row, answer.figures);
            units[row] = is_inch(part->thread) ? 1 : 0;
        }
        return status;
    });
    return columns.dict();
}

}  // namespace

void bind_thread_columns(py::module_& module) {
    module.def("thread_limit_columns", &limit_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("rule") = "printed", py::arg("on_error") = "raise",
               "Columns of limits for many designations, with a status a row.");
    module.def("fit_columns", &fit_columns, py::arg("external"), py::arg("internal"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("on_error") = "raise", "Columns of fits for many pairs.");
    module.def("wire_columns", &wire_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("best") = false, py::arg("set") = "",
               py::arg("on_error") = "raise", "Columns of sizes over wires for many designations.");
    module.def("judge_columns", &judge_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("on_error") = "raise",
               "Columns of verdicts on many measured parts.");
    module.def("taper_pipe_columns", &taper_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("on_error") = "raise", "Columns of taper pipe threads for many designations.");
    module.def("precoat_columns", &precoat_columns, py::arg("designations"), py::arg("catalogue"),
               py::arg("numbers"), py::arg("gauged_at") = "basic", py::arg("rule") = "printed",
               py::arg("on_error") = "raise", "Columns of limits before coating for many designations.");
}

}  // namespace halfnut::bind
