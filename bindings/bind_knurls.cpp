// Knurls: pitches, tracking, growth, blanks.

#include "convert.hpp"
#include "halfnut/knurls/blank.hpp"

namespace halfnut::bind {

namespace {

using namespace halfnut::knurls;

constexpr std::size_t kMaxFigure = figure_index(kKnurlFigures, "finished_max_mm");
constexpr std::size_t kMinFigure = figure_index(kKnurlFigures, "finished_min_mm");
constexpr std::size_t kFirstWheelFigure = figure_index(kKnurlFigures, "wheel_diameter_mm");

/// A request's answer with the catalogue that it came from, so that its evidence can be read later.
struct KnurlAnswer {
    KnurlBlank blank;
    SharedCatalogue catalogue;
};

KnurlRequest knurl_request(const SharedCatalogue& catalogue, const std::string& system, double pitch,
                           const std::string& pattern, const std::string& process, const std::string& prefer,
                           bool finished, bool set_over, std::optional<double> helix_deg,
                           std::optional<double> profile_deg, std::optional<double> wheel_diameter_mm,
                           std::optional<double> wheel_teeth, std::optional<double> tracking_allowance_mm,
                           int tolerance_class, std::optional<double> width_mm) {
    KnurlRequest out;
    out.system = from_name<PitchSystem>("system", system);
    out.pitch = pitch;
    out.pattern = parse_knurl_pattern(pattern, catalogue.get());
    out.process = from_name<Process>("process", process);
    out.prefer = from_name<Prefer>("prefer", prefer);
    out.finished = finished;
    out.set_over = set_over;
    out.helix_deg = given_or_lacking("helix_deg", helix_deg);
    out.profile_deg = given_or_lacking("profile_deg", profile_deg);
    out.wheel_diameter_mm = given_or_lacking("wheel_diameter_mm", wheel_diameter_mm);
    out.wheel_teeth = given_or_lacking("wheel_teeth", wheel_teeth);
    out.tracking_allowance_mm = given_or_lacking("tracking_allowance_mm", tracking_allowance_mm);
    out.tolerance_class = tolerance_class;
    out.width_mm = given_or_lacking("width_mm", width_mm);
    return out;
}

KnurlAnswer knurl_answer(const KnurlRequest& asked, double diameter_mm, const SharedCatalogue& catalogue) {
    KnurlRequest one = asked;
    one.diameter_mm = diameter_mm;
    return {knurl_blank(one, catalogue.get()), catalogue};
}

/// One request for many diameters. Columns that the request leaves without a figure in every row (limits
/// without a class, a wheel where none was given) are left out, so that an ok row holds no NaN.
py::dict knurl_columns(const KnurlRequest& asked, const Doubles& diameter_mm,
                       const SharedCatalogue& catalogue, const std::string& on_error) {
    const double* const diameters = diameter_mm.data();
    AnswerColumns columns({diameter_mm.shape(), diameter_mm.shape() + diameter_mm.ndim()});
    columns.figures(kKnurlFigures);
    auto* const cautions = columns.codes<std::uint32_t>("cautions");
    std::array<bool, kKnurlFigures.size()> used{};
    bool told = false;
    KnurlRequest one = asked;
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
        "parse_knurl_pitch",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            const KnurlPitch pitch = parse_knurl_pitch(text, catalogue.get());
            std::optional<std::string> pattern;
            if (pitch.pattern) {
                pattern = std::string(enum_name(*pitch.pattern));
            }
            return py::make_tuple(std::string(enum_name(pitch.system)), pitch.value, pattern,
                                  pitch.profile_deg);
        },
        py::arg("text"), py::arg("catalogue"),
        "Read the pitch of a knurl: system, value, and the pattern and profile angle where the text names "
        "them.");
    module.def(
        "parse_knurl_pattern",
        [](const std::string& text, const SharedCatalogue& catalogue) {
            return std::string(enum_name(parse_knurl_pattern(text, catalogue.get())));
        },
        py::arg("text"), py::arg("catalogue"), "Read a pattern by name or by metric form.");

    py::class_<KnurlAnswer>(module, "KnurlAnswer", "The core's answer to one knurl request.")
        .def_property_readonly(
            "figures",
            [](const KnurlAnswer& self) { return figures_by_name(kKnurlFigures, self.blank.figures()); },
            "Figures by name; None where one does not apply.")
        .def_property_readonly(
            "cautions", [](const KnurlAnswer& self) { return cautions_of<KnurlCaution>(self.blank); },
            "Codes of what the shop should know.")
        .def_property_readonly("evidence", [](const KnurlAnswer& self) {
            return evidence_list(self.blank.evidence.items(), kKnurlFigures, self.catalogue.get());
        });
    py::class_<KnurlRequest>(module, "KnurlRequest", "What is asked of a knurl, but for the diameter.")
        .def(py::init(&knurl_request), py::arg("catalogue"), py::kw_only(), py::arg("system"),
             py::arg("pitch"), py::arg("pattern"), py::arg("process") = "form", py::arg("prefer") = "nearest",
             py::arg("finished") = false, py::arg("set_over") = false, py::arg("helix_deg") = py::none(),
             py::arg("profile_deg") = py::none(), py::arg("wheel_diameter_mm") = py::none(),
             py::arg("wheel_teeth") = py::none(), py::arg("tracking_allowance_mm") = py::none(),
             py::arg("tolerance_class") = 0, py::arg("width_mm") = py::none());
    module.def("knurl_answer", &knurl_answer, py::arg("request"), py::arg("diameter_mm"),
               py::arg("catalogue"), "Blank, whole teeth and finished diameter of a knurl.");
    module.def("knurl_columns", &knurl_columns, py::arg("request"), py::arg("diameter_mm"),
               py::arg("catalogue"), py::arg("on_error") = "raise",
               "The same for many diameters, as columns.");
}

}  // namespace halfnut::bind
