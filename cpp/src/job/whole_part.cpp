// Cautions that go with a part as a whole.

#include <algorithm>
#include <cmath>
#include <numbers>

#include "halfnut/core/spell.hpp"
#include "halfnut/material/alloy.hpp"
#include "walker.hpp"

namespace halfnut::job {

namespace {

// Source: common practice, as are the conditions below unless one is named.
constexpr double kGripDiameters =
    0.75;  // Source: memory, lathe texts: grip at least 0.75 to 1 diameters, and 10 mm
constexpr double kLeastGripMm = 10.0;
constexpr double kHeavyKg = 20.0;

bool in_chuck(const Step& step) {
    return step.machine != nullptr && step.machine->kind == machine::Kind::lathe &&
           !step.machine->chucks.empty() && step.hold != Hold::between_centres;
}

double section_mm2(const Part& part) {
    if (part.form == Form::plate) {
        return part.thickness_mm * part.width_mm;
    }
    if (part.form == Form::hexagon) {
        return std::sqrt(3.0) / 2.0 * part.across_flats_mm * part.across_flats_mm;
    }
    const double inside = std::isnan(part.bore_mm) ? 0.0 : part.bore_mm;
    return std::numbers::pi / 4.0 * (part.diameter_mm - inside) * (part.diameter_mm + inside);
}

/// Whether the jaws alone hold a stub that is short for how far the blank stands out of them.
bool tips(const Part& part, bool alone) {
    const double across = std::isnan(part.diameter_mm) ? part.across_flats_mm : part.diameter_mm;
    return alone && part.stub_mm > 0.0 && part.stub_mm < std::max(kGripDiameters * across, kLeastGripMm) &&
           part.sawn_mm - part.stub_mm > across;
}

}  // namespace

std::vector<Told> standing(const Part& part, const Catalogue& catalogue) {
    std::vector<Told> out;
    bool chucked = false;
    bool turned = false;
    bool alone = false;
    for (const Step& step : part.steps) {
        if (in_chuck(step)) {
            chucked = true;
            turned = turned || (step.what == Do::turn && step.finish);
            alone = alone || step.hold == Hold::chuck;
        }
    }
    if (chucked) {
        out.push_back({"chuck_key", 0.0, {}});
    }
    if (turned) {
        out.push_back({"emery_by_hand", 0.0, {}});
    }
    if (tips(part, alone)) {
        out.push_back({"jaws_tip", 0.0, {}});
    }
    if (!std::isnan(part.sawn_mm) && !part.alloy.empty()) {
        const double mass_kg = section_mm2(part) * part.sawn_mm * 1e-9 *
                               material::find_alloy(catalogue, part.alloy).density_kg_m3;
        if (mass_kg > kHeavyKg) {
            const UnitSystem system = part.inch ? UnitSystem::inch : UnitSystem::metric;
            out.push_back({"heavy_work", mass_kg, {{"mass", spell(mass_kg, FigureKind::mass, system)}}});
        }
    }
    return out;
}

}  // namespace halfnut::job
