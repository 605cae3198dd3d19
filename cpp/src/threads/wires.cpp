#include "halfnut/threads/wires.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/threads/gauging_tables.hpp"
#include "halfnut/threads/rules.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

/// The standards' limit for leaving the lead angle aside, Machinery's Handbook, 31st ed., p. 2127.
constexpr double kLeadMattersMm = 0.00015 * kInchMm;
/// Gauge practice: wires known to 0.00002 in.
constexpr double kWireKnownMm = 0.00002 * kInchMm;
/// The table of measuring forces is for 60 degree threads.
constexpr double kForceHalfAngleDeg = 30.0;
/// Half a degree of flank error then shows by a micrometre in a pitch of 1 mm.
constexpr double kOffBest = 0.1;

/// A part's limits as the gauging formulas take them.
struct Sizes {
    double pitch_max;
    double pitch_min;
    double crest_largest;   ///< the crest that stands farthest into the groove's mouth
    double crest_smallest;  ///< the crest that ends the flank soonest
    double root;            ///< internal: the least major diameter, where a ball would bottom
    double pitch;
    double lead;
    double half_angle;
    bool external;
};

Sizes sizes_of(const WireRequest& request) noexcept {
    const FitPart& part = request.part;
    const auto or_other = [](double value, double other) { return std::isnan(value) ? other : value; };
    Sizes out{};
    out.external = request.side == Side::external;
    out.pitch_max = part.pitch.max_mm;
    out.pitch_min = part.pitch.min_mm;
    out.pitch = part.pitch_mm;
    out.lead = part.pitch_mm * part.starts;
    out.half_angle = part.half_angle_deg;
    if (out.external) {
        out.crest_largest = part.major.max_mm;
        out.crest_smallest = or_other(part.major.min_mm, out.crest_largest);
    } else {
        out.crest_largest = part.minor.min_mm;
        out.crest_smallest = or_other(part.minor.max_mm, out.crest_largest);
        out.root = part.major.min_mm;
    }
    return out;
}

double exact(const Sizes& s, double pitch_diameter, double crest, double wire) noexcept {
    return s.external ? OverWiresExact::compute(pitch_diameter, crest, s.pitch, s.lead, s.half_angle, wire)
                      : AcrossBallsExact::compute(pitch_diameter, crest, s.pitch, s.lead, s.half_angle, wire);
}

/// Whether a wire measures every part within the limits.
bool measures(const Sizes& s, double wire) noexcept {
    if (!s.external && wire < SmallestBall::compute(s.root, s.pitch_max, s.pitch, s.half_angle)) {
        return false;
    }
    for (const double e : {s.pitch_max, s.pitch_min}) {
        for (const double crest : {s.crest_largest, s.crest_smallest}) {
            if (!std::isfinite(exact(s, e, crest, wire))) {
                return false;
            }
        }
    }
    return true;
}

/// Outermost wire still usable between a usable one and one that is not, by halving.
double edge(const Sizes& s, double usable, double beyond) noexcept {
    for (int step = 0; step < 60; ++step) {
        const double middle = 0.5 * (usable + beyond);
        (measures(s, middle) ? usable : beyond) = middle;
    }
    return usable;
}

double wire_size(const WireRow& row) noexcept {
    return std::isnan(row.diameter_mm) ? row.diameter_in * kInchMm : row.diameter_mm;
}

void note_evidence(const Catalogue& catalogue, const MeasuringForceRow* force, OverWires& out) {
    if (out.wire_row >= 0) {
        out.evidence.note(figure_index(kWireFigures, "wire_mm"), rule::wire_best,
                          row_ref(catalogue.wires, catalogue.wires[static_cast<std::size_t>(out.wire_row)]));
    }
    out.evidence.note(figure_index(kWireFigures, "best_wire_mm"), rule::wire_contact);
    out.evidence.note(figure_index(kWireFigures, "smallest_wire_mm"), rule::wire_range);
    out.evidence.note(figure_index(kWireFigures, "largest_wire_mm"), rule::wire_range);
    out.evidence.note(figure_index(kWireFigures, "over_max_mm"), rule::wire_contact);
    out.evidence.note(figure_index(kWireFigures, "over_min_mm"), rule::wire_contact);
    out.evidence.note(figure_index(kWireFigures, "over_max_plain_mm"), rule::wire_plain);
    if (out.side == Side::external) {
        out.evidence.note(figure_index(kWireFigures, "over_max_lead_mm"), rule::wire_lead);
    }
    out.evidence.note(figure_index(kWireFigures, "wire_error_factor"), rule::wire_accuracy);
    out.evidence.note(figure_index(kWireFigures, "wire_known_to_mm"), rule::wire_known);
    if (std::isfinite(out.micrometer_max_mm)) {
        out.evidence.note(figure_index(kWireFigures, "micrometer_max_mm"), rule::thread_micrometer);
    }
    if (force != nullptr) {
        out.evidence.note(figure_index(kWireFigures, "measuring_force_n"), rule::wire_force,
                          row_ref(catalogue.measuring_forces, *force));
    }
}

}  // namespace

std::array<double, kWireFigures.size()> OverWires::figures() const noexcept {
    return {wire_mm,           best_wire_mm,      smallest_wire_mm,  largest_wire_mm,   over_max_mm,
            over_min_mm,       over_max_plain_mm, over_min_plain_mm, over_max_lead_mm,  over_min_lead_mm,
            over_max_held_mm,  over_min_held_mm,  lead_angle_deg,    wire_tilt_deg,     wire_error_factor,
            measuring_force_n, skew_add_mm,       wire_known_to_mm,  micrometer_max_mm, micrometer_min_mm};
}

WireRequest wire_request(const Thread& thread, const ThreadLimits& limits) {
    return {fit_part(thread, limits), limits.side, thread.inch(), format_thread(thread)};
}

Status evaluate(const Catalogue& catalogue, const WireRequest& request, OverWires& out, std::string* why) {
    out = {};
    const auto refuse = [&](StatusCode code, const std::string& text) {
        if (why != nullptr) {
            *why = text;
        }
        out = {};
        return Status{code, 0};
    };
    const Sizes s = sizes_of(request);
    out.side = request.side;
    const double middle = 0.5 * (s.pitch_max + s.pitch_min);
    const detail::Groove groove{s.external ? 1.0 : -1.0, middle / 2.0, middle / 2.0,
                                s.pitch / 4.0,           s.lead,       tangent_deg(s.half_angle)};
    out.best_wire_mm = 2.0 * detail::best_wire_radius(groove);
    const std::string_view what = s.external ? "wire" : "ball";
    // Steep flanks and a wide tolerance: the best wire lies below the crest of the thinnest part, a larger
    // one not.
    double usable = out.best_wire_mm;
    constexpr double kLargest = 3.0;
    constexpr double kStep = 1.01;
    while (!measures(s, usable) && usable < kLargest * out.best_wire_mm) {
        usable *= kStep;
    }
    if (!measures(s, usable)) {
        return refuse(StatusCode::inconsistent,
                      fmt::format("no {} measures {}: the lead angle, {:.1f} deg, is too steep", what,
                                  request.title, atan_of(s.lead / (std::numbers::pi * middle)) / kDegree));
    }
    out.smallest_wire_mm = edge(s, usable, usable > out.best_wire_mm ? out.best_wire_mm : 0.0);
    out.largest_wire_mm = edge(s, usable, kLargest * out.best_wire_mm);
    if (!std::isnan(request.wire_mm)) {
        out.choice = WireChoice::given;
        out.wire_mm = request.wire_mm;
        if (!(request.wire_mm > 0.0) || !std::isfinite(request.wire_mm) || !measures(s, request.wire_mm)) {
            return refuse(
                StatusCode::inconsistent,
                fmt::format(
                    "a {} for {} must be from {:.4f} to {:.4f} mm ({:.5f} to {:.5f} in), got {:.6g} mm; best "
                    "{:.4f} mm ({:.5f} in)",
                    what, request.title, out.smallest_wire_mm, out.largest_wire_mm,
                    out.smallest_wire_mm / kInchMm, out.largest_wire_mm / kInchMm, request.wire_mm,
                    out.best_wire_mm, out.best_wire_mm / kInchMm));
        }
    } else if (request.best || !s.external) {
        out.choice = WireChoice::best;
        out.wire_mm = std::max(out.best_wire_mm, out.smallest_wire_mm);
    } else {
        const std::string_view wanted =
            !request.set.empty() ? request.set : std::string_view(request.inch ? "inch" : "metric");
        bool known = false;
        std::vector<std::string_view> sets;
        for (std::size_t i = 0; i < catalogue.wires.size(); ++i) {
            const WireRow& row = catalogue.wires[i];
            if (sets.empty() || sets.back() != row.set_name) {
                sets.push_back(row.set_name);
            }
            if (row.set_name != wanted) {
                continue;
            }
            known = true;
            const double size = wire_size(row);
            if (measures(s, size) && (out.wire_row < 0 || std::abs(size - out.best_wire_mm) <
                                                              std::abs(out.wire_mm - out.best_wire_mm))) {
                out.wire_mm = size;
                out.wire_row = static_cast<std::int16_t>(i);
            }
        }
        if (!known) {
            std::string list;
            for (const std::string_view name : sets) {
                list += list.empty() ? "" : ", ";
                list += name;
            }
            return refuse(StatusCode::unknown_name,
                          fmt::format("no set of wires '{}'; known: {}", wanted, list));
        }
        if (out.wire_row < 0) {
            return refuse(
                StatusCode::inconsistent,
                fmt::format(
                    "no wire of the set '{}' measures {}: it takes one from {:.4f} to {:.4f} mm, best "
                    "{:.4f} mm",
                    wanted, request.title, out.smallest_wire_mm, out.largest_wire_mm, out.best_wire_mm));
        }
        out.choice = WireChoice::nearest_of_set;
    }
    const double w = out.wire_mm;
    out.over_max_mm = exact(s, s.pitch_max, s.crest_largest, w);
    out.over_min_mm = exact(s, s.pitch_min, s.crest_largest, w);
    if (s.external) {
        out.over_max_plain_mm = OverWiresPlain::compute(s.pitch_max, s.pitch, s.half_angle, w);
        out.over_min_plain_mm = OverWiresPlain::compute(s.pitch_min, s.pitch, s.half_angle, w);
        out.over_max_lead_mm = OverWiresLead::compute(s.pitch_max, s.pitch, s.lead, s.half_angle, w);
        out.over_min_lead_mm = OverWiresLead::compute(s.pitch_min, s.pitch, s.lead, s.half_angle, w);
        out.over_max_held_mm =
            OverWiresHeld::compute(s.pitch_max, s.crest_largest, s.pitch, s.lead, s.half_angle, w);
        out.over_min_held_mm =
            OverWiresHeld::compute(s.pitch_min, s.crest_largest, s.pitch, s.lead, s.half_angle, w);
        out.wire_tilt_deg = WireTilt::compute(s.pitch_max, s.crest_largest, s.pitch, s.lead, s.half_angle, w);
        out.wire_error_factor = 1.0 + 1.0 / sine_deg(s.half_angle);
    } else {
        out.over_max_plain_mm = AcrossBallsPlain::compute(s.pitch_max, s.pitch, s.half_angle, w);
        out.over_min_plain_mm = AcrossBallsPlain::compute(s.pitch_min, s.pitch, s.half_angle, w);
        out.wire_error_factor = 1.0 / sine_deg(s.half_angle) - 1.0;
        if (request.part.starts % 2 == 1) {
            out.skew_add_mm = AcrossBallsSkew::compute(out.over_max_mm, s.pitch, w) - out.over_max_mm;
        }
    }
    out.wire_known_to_mm = kWireKnownMm;
    if (s.external && request.part.starts % 2 == 1) {
        out.micrometer_max_mm = s.pitch_max;
        out.micrometer_min_mm = s.pitch_min;
    }
    out.lead_angle_deg = atan_of(s.lead / (std::numbers::pi * middle)) / kDegree;
    const double tpi = kInchMm / s.pitch;
    const MeasuringForceRow* force = nullptr;
    for (const MeasuringForceRow& row : catalogue.measuring_forces) {
        if (s.external && s.half_angle == kForceHalfAngleDeg && tpi > row.over_tpi && tpi <= row.up_to_tpi) {
            force = &row;
            out.measuring_force_n = row.force_lbf * kPoundForceN;
        }
    }
    const auto caution = [&](WireCaution which, bool holds) {
        out.cautions |= holds ? static_cast<std::uint16_t>(which) : std::uint16_t{0};
    };
    caution(WireCaution::off_best, std::abs(w / out.best_wire_mm - 1.0) > kOffBest);
    caution(WireCaution::even_starts, request.part.starts % 2 == 0);
    caution(WireCaution::lead_matters, std::abs(out.over_max_mm - out.over_max_plain_mm) > kLeadMattersMm);
    note_evidence(catalogue, force, out);
    return {};
}

OverWires over_wires(const Catalogue& catalogue, const WireRequest& request) {
    return or_throw<OverWires>(
        [&](OverWires& out, std::string* why) { return evaluate(catalogue, request, out, why); });
}

}  // namespace halfnut::threads
