// What is said of plain holes and shafts, alone and together.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>

#include "halfnut/core/spell.hpp"
#include "halfnut/threads/coating_questions.hpp"

namespace halfnut::threads {

namespace {

using std::string_view;

constexpr double kUnits = 1e6;
constexpr double kThousandths = 1000.0;
constexpr double kAsExact = 1e-6;  // of a step
constexpr double kRoomC = 20.0;

/// Decimals that show both sizes whole, the unit's usual ones at least.
int places_of(const CylinderPart& part) {
    constexpr int kMost = 6;
    std::int64_t last = 1'000'000;
    for (int places = 0; places < kMost; ++places, last /= 10) {
        const bool whole = part.max_units % last == 0 && part.min_units % last == 0;
        if (places >= (part.unit == "mm" ? 3 : 4) && whole) {
            return places;
        }
    }
    return kMost;
}

/// The limits in the standard's unit, the other unit beside them rounded inward: the greater one first.
std::string sizes_of(const CylinderPart& part) {
    const bool metric = part.unit == "mm";
    const int places = places_of(part);
    const int digits = metric ? 5 : 4;
    const double step = metric ? 1e-5 : 1e-4;
    const double scale = (metric ? 1.0 / kInchMm : kInchMm) / kUnits / step;
    const double most = std::floor(static_cast<double>(part.max_units) * scale + kAsExact) * step;
    const double least = std::ceil(static_cast<double>(part.min_units) * scale - kAsExact) * step;
    return fmt::format("{:.{}f}/{:.{}f} {} ({:.{}f}/{:.{}f} {})",
                       static_cast<double>(part.max_units) / kUnits, places,
                       static_cast<double>(part.min_units) / kUnits, places, part.unit, most, digits, least,
                       digits, metric ? "in" : "mm");
}

/// The deviations as a table prints them: "+21/0 um", "-0.3/-0.7 thou".
std::string deviations_of(const CylinderPart& part) {
    const auto one = [](std::int64_t units) {
        return units == 0 ? std::string("0")
                          : fmt::format("{:+g}", static_cast<double>(units) / kThousandths);
    };
    return fmt::format("{}/{} {}", one(part.upper_units), one(part.lower_units),
                       part.unit == "mm" ? "um" : "thou");
}

/// One side of a fit as it is said.
struct Side {
    const CylinderPart& part;
    double film_least_um;
    double film_most_um;
    double cut_least_mm;
    double cut_most_mm;
    double temperature_c;
};

class Words {
   public:
    explicit Words(CylindricalFit& fit)
        : fit_(fit), system_(fit.unit == "in" ? UnitSystem::inch : UnitSystem::metric) {}

    void part(const Side& side) {
        const CylinderPart& part = side.part;
        const bool hole = part.side == "hole";
        (hole ? fit_.hole_said : fit_.shaft_said) =
            fmt::format("{}, {}, {}", part.sizes_said, part.deviations_said, enum_name(part.kind));
        if (side.temperature_c != kRoomC) {
            (hole ? fit_.hole_warm_said : fit_.shaft_warm_said) =
                fmt::format("at {:g} °C", side.temperature_c);
        }
        if (side.film_most_um == 0.0) {
            return;
        }
        fit_.coated_said.push_back(fmt::format(
            "{} a surface on the {}, twice that on its diameter",
            spell_span(side.film_least_um, side.film_most_um, FigureKind::film, system_), part.side));
        fit_.cut_said.push_back(
            std::isnan(side.cut_least_mm)
                ? "no size keeps the class once coated: the coating varies by more than the tolerance"
                : fmt::format("to be {} once coated: cut the {} {}", part.tolerance_class, part.side,
                              spell_span(side.cut_least_mm, side.cut_most_mm, FigureKind::length, system_)));
    }

    void whole(const CylinderPart& first) {
        const std::size_t gap = fit_.text.find(' ');
        fit_.said = fmt::format("{} {} {}: {}", fit_.text.substr(0, gap), fit_.unit,
                                fit_.text.substr(gap + 1), meets(first));
        if (!std::isnan(fit_.meeting.clearance_mean_mm) && !std::isnan(fit_.meeting.clearance_sigma_mm)) {
            fit_.likely_said = likely();
        }
    }

   private:
    [[nodiscard]] std::string span(double low, double high) const {
        return spell_span(low, high, FigureKind::length, system_);
    }

    [[nodiscard]] std::string meets(const CylinderPart& first) const {
        const double low = fit_.meeting.clearance_min_mm;
        const double high = fit_.meeting.clearance_max_mm;
        if (std::isnan(low) || std::isnan(high)) {
            return first.sizes_said;
        }
        const std::string named = fit_.name.empty() ? "" : fmt::format(" ({})", fit_.name);
        if (fit_.character == fits::FitCharacter::interference) {
            return fmt::format("interference{}, {}", named, span(-high, -low));
        }
        if (fit_.character == fits::FitCharacter::clearance) {
            return fmt::format("clearance{}, {}", named, span(low, high));
        }
        return fmt::format("transition{}, up to {} of interference or {} of clearance", named,
                           spell(-low, FigureKind::length, system_),
                           spell(high, FigureKind::length, system_));
    }

    [[nodiscard]] std::string likely() const {
        const fits::Meeting& meeting = fit_.meeting;
        const double three = 3.0 * meeting.clearance_sigma_mm;
        const double chance = meeting.chance_of_interference;
        const std::string share = !(chance > 0.0) ? "none"
                                  : chance >= 1.0 ? "certain"
                                  : chance < 1e-4 ? "under 0.01 %"
                                                  : fmt::format("{:.2g} %", 100.0 * chance);
        return fmt::format("{} of clearance; chance of interference {}",
                           span(std::max(meeting.clearance_min_mm, meeting.clearance_mean_mm - three),
                                std::min(meeting.clearance_max_mm, meeting.clearance_mean_mm + three)),
                           share);
    }

    CylindricalFit& fit_;
    UnitSystem system_;
};

}  // namespace

void say(CylindricalFit& fit) {
    Words words(fit);
    for (std::optional<CylinderPart>* part : {&fit.hole, &fit.shaft}) {
        if (*part) {
            (*part)->sizes_said = sizes_of(**part);
            (*part)->deviations_said = deviations_of(**part);
        }
    }
    if (fit.hole) {
        words.part({*fit.hole, fit.hole_build_up_min_um, fit.hole_build_up_max_um, fit.hole_cut_min_mm,
                    fit.hole_cut_max_mm, fit.hole_temperature_c});
    }
    if (fit.shaft) {
        words.part({*fit.shaft, fit.shaft_build_up_min_um, fit.shaft_build_up_max_um, fit.shaft_cut_min_mm,
                    fit.shaft_cut_max_mm, fit.shaft_temperature_c});
    }
    words.whole(fit.hole ? *fit.hole : *fit.shaft);
}

}  // namespace halfnut::threads
