#include "halfnut/threads/joint.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "halfnut/core/error.hpp"
#include "halfnut/material/alloy.hpp"

namespace halfnut::threads {
namespace {

using material::AlloyRow;
using material::kinship;

constexpr double kMpaPerKsi = 6.894757293168361;
constexpr double kMmPerInch = 25.4;
/// Tolerance on a nominal diameter at the end of a range: an inch size has no exact millimetres.
constexpr double kSameSize = 1e-6;

std::string title(const AlloyRow& alloy) {
    return fmt::format("{} {}", alloy.name, alloy.condition);
}

/// The nearest row of a lubricant for one metal, or null.
const ThreadFrictionRow* nearest_friction(const Catalogue& catalogue, const AlloyRow& alloy,
                                          std::string_view lubricant) {
    const ThreadFrictionRow* best = nullptr;
    int distance = 0;
    for (const ThreadFrictionRow& row : catalogue.thread_friction) {
        const int here = row.lubricant == lubricant ? kinship(catalogue, alloy, row.group) : -1;
        if (here >= 0 && (best == nullptr || here < distance)) {
            best = &row;
            distance = here;
        }
    }
    return best;
}

}  // namespace

const GallingRow& galling(const Catalogue& catalogue, const AlloyRow& one, const AlloyRow& other) {
    const GallingRow* best = nullptr;
    int distance = 0;
    for (const GallingRow& row : catalogue.galling) {
        for (const auto& [first, second] : {std::pair{&one, &other}, std::pair{&other, &one}}) {
            const int a = kinship(catalogue, *first, row.group);
            const int b = kinship(catalogue, *second, row.other_group);
            if (a >= 0 && b >= 0 && (best == nullptr || a + b < distance)) {
                best = &row;
                distance = a + b;
            }
        }
    }
    if (best == nullptr) {
        throw NotTabulatedError(
            fmt::format("nothing is tabulated on galling of {} with {}", title(one), title(other)));
    }
    return *best;
}

const ThreadFrictionRow& thread_friction(const Catalogue& catalogue, const AlloyRow& one,
                                         const AlloyRow& other, std::string_view lubricant) {
    const ThreadFrictionRow* first = nearest_friction(catalogue, one, lubricant);
    const ThreadFrictionRow* second = nearest_friction(catalogue, other, lubricant);
    if (first == nullptr || second == nullptr) {
        const AlloyRow& lacking = first == nullptr ? one : other;
        std::set<std::string_view> known;
        for (const ThreadFrictionRow& row : catalogue.thread_friction) {
            if (kinship(catalogue, lacking, row.group) >= 0) {
                known.insert(row.lubricant);
            }
        }
        throw NotTabulatedError(
            fmt::format("no friction is tabulated for {} with '{}'; there is {}", title(lacking), lubricant,
                        known.empty() ? "none" : fmt::format("{}", fmt::join(known, ", "))));
    }
    return first->friction_high >= second->friction_high ? *first : *second;
}

const EngagementPracticeRow& engagement_practice(const Catalogue& catalogue, const AlloyRow& internal,
                                                 Loading loading) {
    const EngagementPracticeRow* best = nullptr;
    int distance = 0;
    for (const EngagementPracticeRow& row : catalogue.engagement_practice) {
        const int here = row.loading == loading ? kinship(catalogue, internal, row.group) : -1;
        if (here >= 0 && (best == nullptr || here < distance)) {
            best = &row;
            distance = here;
        }
    }
    if (best == nullptr) {
        throw NotTabulatedError(
            fmt::format("no length of engagement by practice is tabulated for {}", title(internal)));
    }
    return *best;
}

double engagement_by_practice_mm(const EngagementPracticeRow& row, double diameter_mm) noexcept {
    return row.diameters * diameter_mm + (std::isnan(row.extra_in) ? 0.0 : row.extra_in * kMmPerInch);
}

BoltStrength bolt_strength(const Catalogue& catalogue, std::string_view grade, double diameter_mm) {
    std::string sizes;
    std::vector<std::string_view> grades;
    for (const BoltGradeRow& row : catalogue.bolt_grades) {
        grades.push_back(row.grade);
        if (row.grade != grade) {
            continue;
        }
        const double over = std::isnan(row.over_in) ? row.over_mm : row.over_in * kMmPerInch;
        const double up_to = std::isnan(row.up_to_in) ? row.up_to_mm : row.up_to_in * kMmPerInch;
        const double below = row.step == 1 ? over - kSameSize : over + kSameSize;
        if (!(diameter_mm <= below) && !(diameter_mm > up_to + kSameSize)) {
            const auto mpa = [](double metric, double inch) {
                return std::isnan(metric) ? inch * kMpaPerKsi : metric;
            };
            return {&row, mpa(row.proof_mpa, row.proof_ksi), mpa(row.tensile_mpa, row.tensile_ksi),
                    mpa(row.yield_mpa, row.yield_ksi)};
        }
        sizes += fmt::format("{}{}up to {:.4g} mm", sizes.empty() ? "" : ", ",
                             std::isnan(over) ? "" : fmt::format("{:.4g} mm ", over), up_to);
    }
    if (!sizes.empty()) {
        throw NotTabulatedError(
            fmt::format("no strengths of bolts {} at {:.4g} mm ({:.4g} in); tabulated: {}", grade,
                        diameter_mm, diameter_mm / kMmPerInch, sizes));
    }
    const std::string_view near = nearest_name(grade, grades);
    throw NotTabulatedError(near.empty()
                                ? fmt::format("no grade of bolts '{}'", grade)
                                : fmt::format("no grade of bolts '{}'; did you mean '{}'?", grade, near));
}

}  // namespace halfnut::threads
