// A workpiece's zones: cut to a length, laid over one another, measured.

#include "halfnut/job/profile.hpp"

#include <algorithm>

namespace halfnut::job {

namespace {

constexpr double kTouch = 1e-6;  // mm: lengths that meet

/// The diameter of a zone at a place along it.
double diameter_at(const Zone& zone, double place) {
    const double length = zone.length_mm();
    const double share = length > 0.0 ? (place - zone.from_mm) / length : 0.0;
    return zone.from_diameter_mm + share * (zone.to_diameter_mm - zone.from_diameter_mm);
}

Zone cut_to(const Zone& zone, double from, double to) {
    Zone out = zone;
    out.from_mm = std::max(zone.from_mm, from);
    out.to_mm = std::min(zone.to_mm, to);
    out.from_diameter_mm = diameter_at(zone, out.from_mm);
    out.to_diameter_mm = diameter_at(zone, out.to_mm);
    return out;
}

}  // namespace

std::vector<Zone> Profile::within(const std::vector<Zone>& zones, double from_mm, double to_mm) {
    std::vector<Zone> out;
    for (const Zone& zone : zones) {
        if (zone.from_mm < to_mm - kTouch && zone.to_mm > from_mm + kTouch) {
            out.push_back(cut_to(zone, from_mm, to_mm));
        }
    }
    return out;
}

void Profile::lay(std::vector<Zone>& zones, const Zone& zone) {
    std::vector<Zone> out;
    for (const Zone& each : zones) {
        if (each.from_mm < zone.from_mm - kTouch) {
            out.push_back(cut_to(each, each.from_mm, zone.from_mm));
        }
        if (each.to_mm > zone.to_mm + kTouch) {
            out.push_back(cut_to(each, zone.to_mm, each.to_mm));
        }
    }
    out.erase(
        std::remove_if(out.begin(), out.end(), [](const Zone& each) { return each.length_mm() <= kTouch; }),
        out.end());
    out.push_back(zone);
    std::sort(out.begin(), out.end(), [](const Zone& a, const Zone& b) { return a.from_mm < b.from_mm; });
    zones = std::move(out);
}

double Profile::greatest_mm(double from, double to) const {
    double out = 0.0;
    for (const Zone& zone : within(outside, from, to)) {
        out = std::max(out, zone.greatest_mm());
    }
    return out;
}

double Profile::least_mm(double from, double to) const {
    double out = 0.0;
    for (const Zone& zone : within(outside, from, to)) {
        out = out > 0.0 ? std::min(out, zone.least_mm()) : zone.least_mm();
    }
    return out;
}

double Profile::bore_mm(double from, double to) const {
    double out = 0.0;
    for (const Zone& zone : within(bore, from, to)) {
        out = std::max(out, zone.greatest_mm());
    }
    return out;
}

double Profile::bored_deep_mm(End end, double diameter_mm, double length_mm) const {
    std::vector<Zone> zones = bore;
    if (end == End::second) {
        std::reverse(zones.begin(), zones.end());
    }
    double deep = end == End::first ? from_mm : length_mm - to_mm;
    for (const Zone& zone : zones) {
        const double near = end == End::first ? zone.from_mm : length_mm - zone.to_mm;
        const double far = end == End::first ? zone.to_mm : length_mm - zone.from_mm;
        if (near > deep + kTouch || zone.least_mm() < diameter_mm - kTouch) {
            break;
        }
        deep = far;
    }
    return std::max(deep, 0.0);
}

}  // namespace halfnut::job
