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

/// The strength for a load's direction: across_ksi is NaN where the row does not tell the two apart.
double of_grain(double along_mpa, double across_ksi, Grain grain) {
    const double across_mpa = across_ksi * kMpaPerKsi;
    switch (grain) {
        case Grain::along:
            return along_mpa;
        case Grain::across:
            return across_mpa;
        case Grain::any:
            break;
    }
    return across_mpa < along_mpa ? across_mpa : along_mpa;
}

MinimumStrength read(const StrengthRow& row, Grain grain) {
    MinimumStrength out;
    out.row = &row;
    out.shear_row = std::isnan(row.shear_ksi) ? nullptr : &row;
    out.tensile_mpa =
        of_grain(either(row.tensile_mpa, row.tensile_ksi, kMpaPerKsi), row.tensile_across_ksi, grain);
    out.yield_mpa = of_grain(either(row.yield_mpa, row.yield_ksi, kMpaPerKsi), row.yield_across_ksi, grain);
    out.least_of_grain =
        grain == Grain::any && !(std::isnan(row.tensile_across_ksi) && std::isnan(row.yield_across_ksi));
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

/// The strengths of a row, which gives what is asked of it.
MinimumStrength given(const AlloyRow& alloy, const MinimumStrength& strength, Grain grain) {
    if (grain == Grain::across && (std::isnan(strength.tensile_mpa) || std::isnan(strength.yield_mpa))) {
        throw NotTabulatedError(fmt::format(
            "no strengths across the grain of {} as {} are tabulated; leave grain out for the least there is",
            title(alloy), strength.row->form));
    }
    return strength;
}

}  // namespace

MinimumStrength minimum_strength(const Catalogue& catalogue, const AlloyRow& alloy, std::string_view form,
                                 double thickness_mm, Grain grain) {
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
        MinimumStrength out = read(*rows.front(), grain);
        for (const StrengthRow* row : rows) {
            const MinimumStrength other = read(*row, grain);
            if (std::isnan(out.tensile_mpa) || other.tensile_mpa < out.tensile_mpa ||
                (other.tensile_mpa == out.tensile_mpa && other.yield_mpa < out.yield_mpa)) {
                out = other;
            }
        }
        for (const StrengthRow* row : rows) {  // the weakest in tension may be the stronger in another figure
            const MinimumStrength other = read(*row, grain);
            if (other.shear_mpa < out.shear_mpa) {
                out.shear_mpa = other.shear_mpa;
                out.shear_row = other.shear_row;
            }
            out.yield_mpa = other.yield_mpa < out.yield_mpa ? other.yield_mpa : out.yield_mpa;
            out.bearing_mpa = other.bearing_mpa < out.bearing_mpa ? other.bearing_mpa : out.bearing_mpa;
        }
        out.weakest_of_several = rows.size() > 1;
        return given(alloy, out, grain);
    }
    require(positive("thickness_mm", "mm"), thickness_mm);
    std::string ranges;
    for (const StrengthRow* row : rows) {
        const MinimumStrength found = read(*row, grain);
        if (!(thickness_mm <= found.over_mm) && !(thickness_mm > found.up_to_mm)) {
            return given(alloy, found, grain);
        }
        ranges += (ranges.empty() ? "" : ", ") + range(found);
    }
    throw NotTabulatedError(
        fmt::format("no minimum strengths of {} as {} of {} mm ({:.4g} in); tabulated: {}", title(alloy),
                    form, thickness_mm, thickness_mm / kMmPerInch, ranges));
}

}  // namespace halfnut::material
