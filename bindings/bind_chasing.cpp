// Chasing of threads, and stepped work.

#include <limits>
#include <map>

#include "convert.hpp"
#include "halfnut/cutting/chase.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/machine/gear_train.hpp"

namespace halfnut::bind {

using namespace cutting;
using namespace pybind11::literals;

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

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

/// The numbers of a request by name; a name that it does not know is an error.
void fill(ChaseRequest& request, const std::map<std::string, double>& numbers) {
    const std::map<std::string, double ChaseRequest::*> known{
        {"blank_mm", &ChaseRequest::blank_mm},
        {"pitch_diameter_mm", &ChaseRequest::pitch_diameter_mm},
        {"pitch_mm", &ChaseRequest::pitch_mm},
        {"half_angle_deg", &ChaseRequest::half_angle_deg},
        {"nose_radius_mm", &ChaseRequest::nose_radius_mm},
        {"nose_flat_mm", &ChaseRequest::nose_flat_mm},
        {"compound_deg", &ChaseRequest::compound_deg},
        {"graduation_mm", &ChaseRequest::graduation_mm},
        {"first_mm", &ChaseRequest::first_mm},
        {"least_mm", &ChaseRequest::least_mm},
        {"measure_left_mm", &ChaseRequest::measure_left_mm},
        {"kc11_n_mm2", &ChaseRequest::kc11_n_mm2},
        {"mc", &ChaseRequest::mc},
        {"force_limit_n", &ChaseRequest::force_limit_n},
    };
    for (const auto& [name, value] : numbers) {
        const auto found = known.find(name);
        if (found == known.end()) {
            throw DomainError("chase_schedule has no number '" + name + "'");
        }
        if (std::isnan(value)) {
            throw DomainError(name + " must be finite, got nan");
        }
        request.*(found->second) = value;
    }
}

py::dict chase_schedule(bool internal, const std::string& infeed, bool equal_depths,
                        const std::map<std::string, double>& numbers) {
    ChaseRequest request;
    request.internal = internal;
    request.infeed = from_name<Infeed>("infeed", infeed);
    request.equal_depths = equal_depths;
    fill(request, numbers);
    ChaseSchedule found;
    std::string why;
    if (!evaluate(request, found, &why).ok()) {
        throw DomainError("chase_schedule: " + why);
    }
    py::list passes;
    for (const ChasePass& pass : found.passes) {
        passes.append(py::dict("line"_a = pass.line, "travel_mm"_a = pass.travel_mm,
                               "depth_mm"_a = pass.depth_mm, "shift_mm"_a = pass.shift_mm,
                               "area_mm2"_a = pass.area_mm2, "force_n"_a = number_or_none(pass.force_n),
                               "pitch_diameter_mm"_a = pass.pitch_diameter_mm, "measure"_a = pass.measure));
    }
    return py::dict("depth_mm"_a = found.depth_mm, "travel_mm"_a = found.travel_mm,
                    "remainder_mm"_a = found.remainder_mm,
                    "line_on_pitch_diameter_mm"_a = found.line_on_pitch_diameter_mm,
                    "area_limit_mm2"_a = found.area_limit_mm2, "passes"_a = passes);
}

py::dict dial_marks(std::pair<std::int64_t, std::int64_t> lead, std::pair<std::int64_t, std::int64_t> screw,
                    int wheel_threads, int marks) {
    const ThreadDial found =
        thread_dial(screw.first, screw.second, lead.first, lead.second, wheel_threads, marks);
    return py::dict("every"_a = found.every, "marks"_a = found.marks, "any_line"_a = found.any_line);
}

}  // namespace

void bind_chasing(pybind11::module_& module) {
    module.def("work_bend_mm", &work_bend, "sections"_a, "hold"_a, "force_n"_a, "places_mm"_a,
               "youngs_modulus_gpa"_a, "steadies_mm"_a = std::vector<double>{}, "centre_n_um"_a = kInfinite,
               "chuck_n_um"_a = kInfinite,
               "Deflection of stepped work at the tool, mm, as the tool travels. sections: length, diameter "
               "and bore of "
               "each, mm; hold: 'chuck', 'chuck and centre' or 'between centres'.");
    module.def("chase_schedule", &chase_schedule, "internal"_a, "infeed"_a, "equal_depths"_a, "numbers"_a,
               "Passes that cut a thread to its pitch diameter on whole lines of a dial; see ChaseRequest.");
    module.def("thread_dial", &dial_marks, "lead_mm"_a, "screw_lead_mm"_a, "wheel_threads"_a, "marks"_a,
               "How often the marks of a thread dial fit; leads of thread and leadscrew in mm as fractions.");
}

}  // namespace halfnut::bind
