// Knurls: pitches, tracking, growth, blanks.

#include <pybind11/stl.h>

#include <optional>

#include "bind.hpp"
#include "halfnut/knurls/blank.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

namespace py = pybind11;

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

template <class E>
E from_name(const std::string& argument, const std::string& name) {
    E value{};
    if (enum_from_name(name, value)) {
        return value;
    }
    std::string list;
    for (const auto& [candidate, spelling] : enum_names(E{})) {
        list += list.empty() ? "" : ", ";
        list += spelling;
    }
    throw DomainError(argument + " must be one of " + list + ", got '" + name + "'");
}

/// NaN stands for "not given" in a request, so a NaN that was given is refused here.
double given_or_nan(std::string_view argument, const std::optional<double>& value) {
    if (!value) {
        return kNaN;
    }
    if (std::isnan(*value)) {
        throw DomainError(std::string(argument) + " must be finite, got nan");
    }
    return *value;
}

KnurlRequest request(const SharedCatalogue& catalogue, const std::string& system, double pitch,
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
    out.helix_deg = given_or_nan("helix_deg", helix_deg);
    out.profile_deg = given_or_nan("profile_deg", profile_deg);
    out.wheel_diameter_mm = given_or_nan("wheel_diameter_mm", wheel_diameter_mm);
    out.wheel_teeth = given_or_nan("wheel_teeth", wheel_teeth);
    out.tracking_allowance_mm = given_or_nan("tracking_allowance_mm", tracking_allowance_mm);
    out.tolerance_class = tolerance_class;
    out.width_mm = given_or_nan("width_mm", width_mm);
    return out;
}

KnurlAnswer answer(const KnurlRequest& asked, double diameter_mm, const SharedCatalogue& catalogue) {
    KnurlRequest one = asked;
    one.diameter_mm = diameter_mm;
    return {knurl_blank(one, catalogue.get()), catalogue};
}

/// One request for many diameters. Columns that the request leaves without a figure in every row (limits
/// without a class, a wheel where none was given) are left out, so that an ok row holds no NaN.
py::dict columns(const KnurlRequest& asked, const Doubles& diameter_mm, const SharedCatalogue& catalogue,
                 const std::string& on_error) {
    const bool raise = raises_on_error(on_error);
    const auto rows = static_cast<std::size_t>(diameter_mm.size());
    const std::vector<py::ssize_t> shape(diameter_mm.shape(), diameter_mm.shape() + diameter_mm.ndim());
    const double* const diameters = diameter_mm.data();
    std::vector<py::array_t<double>> made;
    std::array<double*, kKnurlFigures.size()> cells{};
    for (double*& column : cells) {
        column = made.emplace_back(shape).mutable_data();
    }
    py::array_t<std::uint32_t> caution_bits(shape);
    py::array_t<std::uint8_t> codes(shape);
    std::uint32_t* const bits = caution_bits.mutable_data();
    std::uint8_t* const status_codes = codes.mutable_data();
    std::array<bool, kKnurlFigures.size()> used{};
    std::size_t failed = 0;
    std::size_t first = 0;
    {
        const py::gil_scoped_release release;
        KnurlRequest one = asked;
        KnurlBlank blank;
        for (std::size_t row = 0; row < rows; ++row) {
            one.diameter_mm = diameters[row];
            const Status status = evaluate(one, catalogue.get(), blank);
            const auto values = blank.figures();
            for (std::size_t i = 0; i < values.size(); ++i) {
                cells[i][row] = values[i];
                used[i] = used[i] || !std::isnan(values[i]);
            }
            bits[row] = blank.cautions;
            status_codes[row] = static_cast<std::uint8_t>(status.code);
            if (!status.ok() && failed++ == 0) {
                first = row;
            }
        }
    }
    if (raise && failed > 0) {
        try {
            (void)answer(asked, diameters[first], catalogue);
        } catch (const Error& error) {
            throw DomainError(std::string(error.what()) + " at index " + std::to_string(first) + " (" +
                              std::to_string(failed) + " of " + std::to_string(rows) + " elements failed)");
        }
    }
    py::dict out;
    for (std::size_t i = 0; i < made.size(); ++i) {
        const bool optional = i == kMaxFigure || i == kMinFigure || i >= kFirstWheelFigure;
        if (used[i] || !optional) {
            out[py::str(kKnurlFigures[i].data(), kKnurlFigures[i].size())] = made[i];
        }
    }
    out["cautions"] = caution_bits;
    out["status"] = codes;
    return out;
}

py::dict figures(const KnurlAnswer& self) {
    py::dict out;
    const auto values = self.blank.figures();
    for (std::size_t i = 0; i < values.size(); ++i) {
        const py::str name(kKnurlFigures[i].data(), kKnurlFigures[i].size());
        out[name] = std::isnan(values[i]) ? py::object(py::none()) : py::object(py::float_(values[i]));
    }
    return out;
}

py::list cautions(const KnurlAnswer& self) {
    py::list out;
    for (const auto& [caution, name] : enum_names(KnurlCaution{})) {
        if (self.blank.has(caution)) {
            out.append(py::str(name.data(), name.size()));
        }
    }
    return out;
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
        .def_property_readonly("figures", &figures, "Figures by name; None where one does not apply.")
        .def_property_readonly("cautions", &cautions, "Codes of what the shop should know.")
        .def_property_readonly("evidence", [](const KnurlAnswer& self) {
            return evidence_list(self.blank.evidence.items(), kKnurlFigures, self.catalogue.get());
        });
    py::class_<KnurlRequest>(module, "KnurlRequest", "What is asked of a knurl, but for the diameter.")
        .def(py::init(&request), py::arg("catalogue"), py::kw_only(), py::arg("system"), py::arg("pitch"),
             py::arg("pattern"), py::arg("process") = "form", py::arg("prefer") = "nearest",
             py::arg("finished") = false, py::arg("set_over") = false, py::arg("helix_deg") = py::none(),
             py::arg("profile_deg") = py::none(), py::arg("wheel_diameter_mm") = py::none(),
             py::arg("wheel_teeth") = py::none(), py::arg("tracking_allowance_mm") = py::none(),
             py::arg("tolerance_class") = 0, py::arg("width_mm") = py::none());
    module.def("knurl_answer", &answer, py::arg("request"), py::arg("diameter_mm"), py::arg("catalogue"),
               "Blank, whole teeth and finished diameter of a knurl.");
    module.def("knurl_columns", &columns, py::arg("request"), py::arg("diameter_mm"), py::arg("catalogue"),
               py::arg("on_error") = "raise", "The same for many diameters, as columns.");
}

}  // namespace halfnut::bind
