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

KnurlAnswer answer(const SharedCatalogue& catalogue, double diameter_mm, const std::string& system,
                   double pitch, const std::string& pattern, const std::string& process,
                   const std::string& prefer, bool finished, bool set_over, std::optional<double> helix_deg,
                   std::optional<double> profile_deg, std::optional<double> wheel_diameter_mm,
                   std::optional<double> wheel_teeth, std::optional<double> tracking_allowance_mm,
                   int tolerance_class, std::optional<double> width_mm) {
    KnurlRequest request;
    request.diameter_mm = diameter_mm;
    request.system = from_name<PitchSystem>("system", system);
    request.pitch = pitch;
    request.pattern = parse_knurl_pattern(pattern, catalogue.get());
    request.process = from_name<Process>("process", process);
    request.prefer = from_name<Prefer>("prefer", prefer);
    request.finished = finished;
    request.set_over = set_over;
    request.helix_deg = given_or_nan("helix_deg", helix_deg);
    request.profile_deg = given_or_nan("profile_deg", profile_deg);
    request.wheel_diameter_mm = given_or_nan("wheel_diameter_mm", wheel_diameter_mm);
    request.wheel_teeth = given_or_nan("wheel_teeth", wheel_teeth);
    request.tracking_allowance_mm = given_or_nan("tracking_allowance_mm", tracking_allowance_mm);
    request.tolerance_class = tolerance_class;
    request.width_mm = given_or_nan("width_mm", width_mm);
    return {knurl_blank(request, catalogue.get()), catalogue};
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
    level1<PitchFromTeethPerInch>(module, "Circular pitch of a number of teeth per inch, mm.");
    level1<PitchFromDiametral>(module, "Circular pitch around the blank of a diametral pitch, mm.");
    level1<TransversePitch>(module, "Pitch around the work of teeth that lean by the helix angle, mm.");
    level1<NormalPitch>(module, "Pitch across teeth that lean by the helix angle, mm.");
    level1<WheelPitch>(module, "Pitch that a measured wheel prints around its own face, mm.");
    level1<DiametralWheelOutside>(module, "Outside diameter of a wheel by diametral pitch, in.");
    level1<TeethAround>(module, "Teeth that a pitch puts around a blank, not rounded.");
    level1<MismatchTeeth>(module, "How far the teeth around a blank are from a whole number, -0.5 to 0.5.");
    level1<TrackingBlank>(module, "Blank that takes a number of teeth, mm.");
    level1<BlankBelow>(module, "Largest blank with whole teeth that is not above a diameter, mm.");
    level1<BlankAbove>(module, "Smallest blank with whole teeth that is not below a diameter, mm.");
    level1<TrackingHelix>(module,
                          "Angle at which a straight wheel, set over, puts a number of teeth around.");
    level1<SharpToothDepth>(module, "Height of a full sharp tooth, mm.");
    level1<FormGrowth>(module, "What forming a full tooth adds to the diameter, mm.");

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
    module.def("knurl_answer", &answer, py::arg("catalogue"), py::kw_only(), py::arg("diameter_mm"),
               py::arg("system"), py::arg("pitch"), py::arg("pattern"), py::arg("process") = "form",
               py::arg("prefer") = "nearest", py::arg("finished") = false, py::arg("set_over") = false,
               py::arg("helix_deg") = py::none(), py::arg("profile_deg") = py::none(),
               py::arg("wheel_diameter_mm") = py::none(), py::arg("wheel_teeth") = py::none(),
               py::arg("tracking_allowance_mm") = py::none(), py::arg("tolerance_class") = 0,
               py::arg("width_mm") = py::none(), "Blank, whole teeth and finished diameter of a knurl.");
}

}  // namespace halfnut::bind
