#include "halfnut/material/strengths.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "halfnut/core/error.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/material/alloy.hpp"

namespace halfnut::material {
namespace {

constexpr double kMpaPerKsi = 6.894757293168361;
constexpr double kMmPerInch = 25.4;

/// The number that is printed, in the metric unit.
double either(double metric, double inch, double scale) {
    return std::isnan(metric) ? inch * scale : metric;
}

MinimumStrength read(const StrengthRow& row) {
    MinimumStrength out;
    out.row = &row;
    out.tensile_mpa = either(row.tensile_mpa, row.tensile_ksi, kMpaPerKsi);
    out.yield_mpa = either(row.yield_mpa, row.yield_ksi, kMpaPerKsi);
    out.shear_mpa = row.shear_ksi * kMpaPerKsi;
    out.bearing_mpa = row.bearing_ksi * kMpaPerKsi;
    out.over_mm = either(row.over_mm, row.over_in, kMmPerInch);
    out.up_to_mm = either(row.up_to_mm, row.up_to_in, kMmPerInch);
    return out;
}

std::string title(const AlloyRow& alloy) {
    return fmt::format("{} {}", alloy.name, alloy.condition);
}

std::string range(const MinimumStrength& strength) {
    const auto length = [](double mm) { return fmt::format("{:.4g} mm ({:.4g} in)", mm, mm / kMmPerInch); };
    if (std::isnan(strength.up_to_mm)) {
        return strength.over_mm > 0.0 ? "over " + length(strength.over_mm) : "any";
    }
    return strength.over_mm > 0.0
               ? fmt::format("over {} up to {}", length(strength.over_mm), length(strength.up_to_mm))
               : "up to " + length(strength.up_to_mm);
}

/// Alloys near this one that have minimum strengths.
std::string kin(const Catalogue& catalogue, const AlloyRow& alloy) {
    std::string out;
    std::string_view last;
    for (const StrengthRow& row : catalogue.strengths) {
        if (row.alloy == last) {
            continue;
        }
        last = row.alloy;
        const auto at = std::find_if(catalogue.alloys.begin(), catalogue.alloys.end(),
                                     [&](const AlloyRow& each) { return each.id == row.alloy; });
        if (at != catalogue.alloys.end() && kinship(catalogue, *at, alloy.group) >= 0) {
            out += (out.empty() ? "" : ", ") + title(*at);
        }
    }
    return out.empty() ? "" : "; of its group there are " + out;
}

}  // namespace

MinimumStrength minimum_strength(const Catalogue& catalogue, const AlloyRow& alloy, std::string_view form,
                                 double thickness_mm) {
    std::vector<const StrengthRow*> rows;
    std::vector<std::string_view> forms;
    for (const StrengthRow& row : catalogue.strengths) {
        if (row.alloy == alloy.id) {
            if (forms.empty() || forms.back() != row.form) {
                forms.push_back(row.form);
            }
            if (row.form == form) {
                rows.push_back(&row);
            }
        }
    }
    if (forms.empty()) {
        throw NotTabulatedError(
            fmt::format("no minimum strengths are tabulated for {}: give its tensile and yield strength{}",
                        title(alloy), kin(catalogue, alloy)));
    }
    if (rows.empty()) {
        const std::string list = fmt::format("{}", fmt::join(forms, ", "));
        const std::string_view near = nearest_name(form, forms);
        throw NotTabulatedError(
            form.empty()
                ? fmt::format("say the form of {}: {}", title(alloy), list)
                : fmt::format("no minimum strengths of {} as {}{}; its forms are {}", title(alloy), form,
                              near.empty() ? "" : fmt::format("; did you mean '{}'?", near), list));
    }
    if (std::isnan(thickness_mm)) {
        MinimumStrength out = read(*rows.front());
        for (const StrengthRow* row : rows) {
            const MinimumStrength other = read(*row);
            if (other.tensile_mpa < out.tensile_mpa ||
                (other.tensile_mpa == out.tensile_mpa && other.yield_mpa < out.yield_mpa)) {
                out = other;
            }
        }
        out.weakest_of_several = rows.size() > 1;
        return out;
    }
    const Argument argument = positive("thickness_mm", "mm");
    if (check(argument, thickness_mm) != StatusCode::ok) {
        throw DomainError(argument_message(argument, thickness_mm));
    }
    std::string ranges;
    for (const StrengthRow* row : rows) {
        const MinimumStrength found = read(*row);
        if (!(thickness_mm <= found.over_mm) && !(thickness_mm > found.up_to_mm)) {
            return found;
        }
        ranges += (ranges.empty() ? "" : ", ") + range(found);
    }
    throw NotTabulatedError(
        fmt::format("no minimum strengths of {} as {} of {} mm ({:.4g} in); tabulated: {}", title(alloy),
                    form, thickness_mm, thickness_mm / kMmPerInch, ranges));
}

}  // namespace halfnut::material
