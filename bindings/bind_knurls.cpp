// Knurls: blanks as columns.

#include "asked.hpp"
#include "convert.hpp"
#include "halfnut/knurls/questions.hpp"

namespace halfnut::bind {

namespace {

using namespace halfnut::knurls;

constexpr std::size_t kMaxFigure = figure_index(kKnurlFigures, "finished_max_mm");
constexpr std::size_t kMinFigure = figure_index(kKnurlFigures, "finished_min_mm");
constexpr std::size_t kFirstWheelFigure = figure_index(kKnurlFigures, "wheel_diameter_mm");

/// One request for many diameters. Columns that the request leaves without a figure in every row (limits
/// without a class, a wheel where none was given) are left out, so that an ok row holds no NaN.
py::dict knurl_columns(const py::tuple& asked, const Doubles& diameter_mm, const SharedCatalogue& catalogue,
                       const std::string& on_error) {
    const double* const diameters = diameter_mm.data();
    AnswerColumns columns({diameter_mm.shape(), diameter_mm.shape() + diameter_mm.ndim()});
    columns.figures(kKnurlFigures);
    auto* const cautions = columns.codes<std::uint32_t>("cautions");
    std::array<bool, kKnurlFigures.size()> used{};
    bool told = false;
    Asking asking{catalogue.get()};
    KnurlRequest one =
        request_of(*std::static_pointer_cast<const KnurlAsk>(read_question("knurl_blank", asked, asking)),
                   catalogue.get());
    KnurlBlank blank;
    columns.run(on_error, "elements", [&](std::size_t row, std::string& why) {
        one.diameter_mm = diameters[row];
        const Status status = evaluate(one, catalogue.get(), blank);
        const auto values = blank.figures();
        columns.set_figures(row, values);
        for (std::size_t i = 0; i < values.size(); ++i) {
            used[i] = used[i] || !std::isnan(values[i]);
        }
        cautions[row] = blank.cautions;
        if (!status.ok() && !told) {  // only the first is told of
            told = true;
            try {
                (void)knurl_blank(one, catalogue.get());
            } catch (const Error& error) {
                why = error.what();
            }
        }
        return status;
    });
    for (std::size_t i = 0; i < used.size(); ++i) {
        const bool optional = i == kMaxFigure || i == kMinFigure || i >= kFirstWheelFigure;
        if (!used[i] && optional) {
            columns.dict().attr("pop")(text(kKnurlFigures[i]));
        }
    }
    return columns.dict();
}

}  // namespace

void bind_knurls(py::module_& module) {
    module.def(
        "parse_knurl_pattern",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return std::string(enum_name(parse_knurl_pattern(text, catalogue.get())));
        },
        py::arg("text"), py::arg("catalogue"), "Read a pattern by name or by metric form.");

    module.def(
        "knurl_columns", &knurl_columns, py::arg("asked"), py::arg("diameter_mm"), py::arg("catalogue"),
        py::arg("on_error") = "raise",
        "Blanks of one knurl on many diameters, as columns; `asked` as for ask(), whatever its diameter.");
}

}  // namespace halfnut::bind
