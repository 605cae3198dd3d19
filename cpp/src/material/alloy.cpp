#include "halfnut/material/alloy.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "halfnut/core/bounds.hpp"

namespace halfnut::material {
namespace {

constexpr std::array kPrefixes{std::string_view("aisi"), std::string_view("sae"), std::string_view("uns"),
                               std::string_view("aa")};

/// Lower case, letters and digits only, without a standard's name in front.
std::string plain(std::string_view name) {
    std::string out;
    for (const char c : name) {
        if ((c >= '0' && c <= '9') || (c >= 'a' && c <= 'z')) {
            out += c;
        } else if (c >= 'A' && c <= 'Z') {
            out += static_cast<char>(c - 'A' + 'a');
        }
    }
    for (const std::string_view prefix : kPrefixes) {
        if (out.size() > prefix.size() && out.compare(0, prefix.size(), prefix) == 0 &&
            out[prefix.size()] >= '0' && out[prefix.size()] <= '9') {
            return out.substr(prefix.size());
        }
    }
    return out;
}

const AlloyRow* row_of(const Catalogue& catalogue, std::string_view id) noexcept {
    const auto at =
        std::lower_bound(catalogue.alloys.begin(), catalogue.alloys.end(), id,
                         [](const AlloyRow& row, std::string_view wanted) { return row.id < wanted; });
    return at != catalogue.alloys.end() && at->id == id ? &*at : nullptr;
}

/// Letters and number that a name begins with, such as "en" and "8"; letters that pass for digits read as
/// digits.
struct Family {
    std::string letters;
    std::string number;
};

Family family_of(std::string_view plain_name) {
    std::string text(plain_name);
    for (std::size_t i = 0; i < text.size(); ++i) {  // 3l6, 6o61: a digit before or after makes them digits
        const auto digit = [&](std::size_t at) {
            return at < text.size() && text[at] >= '0' && text[at] <= '9';
        };
        if ((text[i] == 'o' || text[i] == 'l' || text[i] == 'i') && i > 0 && digit(i - 1) && digit(i + 1)) {
            text[i] = text[i] == 'o' ? '0' : '1';
        }
    }
    Family out;
    std::size_t at = 0;
    for (; at < text.size() && (text[at] < '0' || text[at] > '9'); ++at) {
        out.letters += text[at];
    }
    for (; at < text.size() && text[at] >= '0' && text[at] <= '9'; ++at) {
        out.number += text[at];
    }
    return out;
}

/// Whether two numbers are one, or one with its last digits in another order: 6016 may be a slip for 6061.
/// The digits that say the family stay: 4310 is no slip for 4130, nor 1.4310 for 1.4301.
bool same_digits(std::string_view a, std::string_view b) {
    constexpr std::size_t kFamilyDigits = 2;
    constexpr std::size_t kSeriesDigits = 4;  // AISI and AA; longer numbers count metals through
    return a == b || (a.size() == b.size() && a.size() <= kSeriesDigits &&
                      a.substr(0, kFamilyDigits) == b.substr(0, kFamilyDigits) &&
                      std::is_permutation(a.begin(), a.end(), b.begin()));
}

/// The shop's row that cannot be used and is meant by a plain name, or by an alloy that the name stands for.
const RefusedRow* refused_row(const Catalogue& catalogue, std::string_view wanted,
                              const std::vector<const AlloyRow*>& candidates) {
    for (const RefusedRow& row : catalogue.refused) {
        if (row.table != Schema<AlloyRow>::table || row.names.empty()) {
            continue;
        }
        const auto named = [&](const std::string& name) { return plain(name) == wanted; };
        const auto replaced = [&](const AlloyRow* alloy) { return alloy->id == row.names.front(); };
        if ((!wanted.empty() && std::any_of(row.names.begin(), row.names.end(), named)) ||
            std::any_of(candidates.begin(), candidates.end(), replaced)) {
            return &row;
        }
    }
    return nullptr;
}

/// What people would recognise as the nearest of all names: another number is another metal, never a slip.
std::string suggestion(const Catalogue& catalogue, std::string_view name) {
    const std::string wanted = plain(name);
    const Family family = family_of(wanted);
    std::string nearest;
    std::size_t best = wanted.size() + 1;
    const auto offer = [&](std::string_view candidate) {
        const std::string other = plain(candidate);
        const Family theirs = family_of(other);
        const bool numbers = !family.number.empty() && same_digits(family.number, theirs.number);
        if (!numbers && family.number != theirs.number) {
            return;
        }
        const std::size_t distance = edit_distance(wanted, other);
        const bool near = numbers && family.letters == theirs.letters
                              ? distance <= std::max<std::size_t>(1, wanted.size() / 2)
                              : family.number == theirs.number && wanted.size() > 3 &&
                                    near_enough(wanted, other, distance) &&
                                    (family.letters == theirs.letters || family.letters.size() > 3);
        if (near && distance < best) {
            best = distance;
            nearest = candidate;
        }
    };
    for (const AlloyRow& alloy : catalogue.alloys) {
        offer(alloy.name);
        offer(full_name(alloy));
        offer(alloy.id);
    }
    for (const AliasRow& alias : catalogue.aliases) {
        if (!alias.alloy.empty()) {
            offer(alias.alias);
        }
    }
    return nearest;
}

/// Names of the alloys of a family that a word such as "steel" or "alu" means; empty for no such family.
std::string family_choice(const Catalogue& catalogue, std::string_view name) {
    const std::string wanted = plain(name);
    const GroupRow* family = nullptr;
    for (const GroupRow& group : catalogue.groups) {
        const std::string id = plain(group.group);
        if (id == wanted || (family == nullptr && group.parent == "any" && written_out(wanted, id))) {
            family = &group;
        }
    }
    if (family == nullptr || family->group == "any") {
        return {};
    }
    std::vector<std::string_view> names;
    for (const AlloyRow& alloy : catalogue.alloys) {
        if (kinship(catalogue, alloy, family->group) > 0 &&
            std::find(names.begin(), names.end(), alloy.name) == names.end()) {
            names.push_back(alloy.name);
        }
    }
    return names.empty() ? std::string()
                         : fmt::format("; of {} there are '{}'", family->name, fmt::join(names, "', '"));
}

/// Whether a name is one that the trade knows and no row holds: a hint from its spelling would name another
/// metal.
bool known_only(const Catalogue& catalogue, std::string_view name) {
    const std::string wanted = plain(name);
    return std::any_of(catalogue.aliases.begin(), catalogue.aliases.end(), [&](const AliasRow& alias) {
        return alias.alloy.empty() && plain(alias.alias) == wanted;
    });
}

}  // namespace

std::vector<std::string> alloy_names(const Catalogue& catalogue) {
    std::vector<std::string> out;
    out.reserve(catalogue.alloys.size());
    for (const AlloyRow& alloy : catalogue.alloys) {
        out.push_back(full_name(alloy));
    }
    return out;
}

std::string full_name(const AlloyRow& alloy) {
    return fmt::format("{} {}", alloy.name, alloy.condition);
}

std::string lacks_modulus(const AlloyRow& alloy, std::string_view figure) {
    return fmt::format(
        "no {}: the row of {} gives no youngs_modulus_gpa; add it, or like = an alloy that has it", figure,
        full_name(alloy));
}

std::vector<std::string> lacking(const AlloyRow& alloy) {
    std::vector<std::string> out;
    if (std::isnan(alloy.kc11_n_mm2) && std::isnan(alloy.unit_power_hp_in3_min) &&
        std::isnan(alloy.tensile_mpa)) {
        out.push_back(
            fmt::format("no force, power or torque: the row of {} gives none of kc11_n_mm2 with mc, "
                        "unit_power_hp_in3_min with its thickness, tensile_mpa",
                        full_name(alloy)));
    }
    if (std::isnan(alloy.youngs_modulus_gpa)) {
        out.push_back(
            fmt::format("no deflection or whirl of the work: the row of {} gives no youngs_modulus_gpa",
                        full_name(alloy)));
    }
    return out;
}

AlloyMatch match_alloy(const Catalogue& catalogue, std::string_view name) {
    const std::string wanted = plain(name);
    AlloyMatch match;
    const auto add = [&](const AlloyRow* alloy) {
        if (alloy != nullptr &&
            std::find(match.candidates.begin(), match.candidates.end(), alloy) == match.candidates.end()) {
            match.candidates.push_back(alloy);
        }
    };
    for (const AlloyRow& alloy : catalogue.alloys) {
        if (plain(alloy.id) == wanted) {
            match.candidates = {&alloy};
            break;
        }
        if (plain(full_name(alloy)) == wanted) {
            add(&alloy);
        }
    }
    if (match.candidates.empty() && !wanted.empty()) {
        for (const AlloyRow& alloy : catalogue.alloys) {
            if (plain(alloy.name) == wanted) {
                add(&alloy);
            }
        }
        for (const AliasRow& alias : catalogue.aliases) {
            if (plain(alias.alias) == wanted) {
                add(row_of(catalogue, alias.alloy));
            }
        }
    }
    match.refused = refused_row(catalogue, wanted, match.candidates);
    if (match.refused != nullptr) {
        match.candidates.clear();
    }
    match.alloy = match.candidates.size() == 1 ? match.candidates.front() : nullptr;
    return match;
}

const AlloyRow& find_alloy(const Catalogue& catalogue, std::string_view name) {
    bounds::require_text("alloy", name, bounds::kDesignationBytes);
    const AlloyMatch match = match_alloy(catalogue, name);
    if (match.alloy != nullptr) {
        return *match.alloy;
    }
    if (match.refused != nullptr) {
        throw TableError(refusal(*match.refused));
    }
    if (match.candidates.empty()) {
        if (known_only(catalogue, name)) {
            throw NotTabulatedError(fmt::format(
                "no alloy '{}': it is known but not held; give it a row in the shop's alloys", name));
        }
        const std::string choice = family_choice(catalogue, name);
        if (!choice.empty()) {
            throw NotTabulatedError(fmt::format("no alloy '{}'{}", name, choice));
        }
        const std::string near = suggestion(catalogue, name);
        throw NotTabulatedError(
            near.empty() ? fmt::format("no alloy '{}'", name)
                         : fmt::format("no alloy '{}'; did you mean '{}'?", name, near),
            {.argument = "alloy", .value = std::string(name), .allowed = {}, .nearest = near});
    }
    std::string choice;
    for (const AlloyRow* alloy : match.candidates) {
        choice += fmt::format("{}'{}'", choice.empty() ? "" : ", ", full_name(*alloy));
    }
    throw NotTabulatedError(fmt::format("alloy '{}' is one of several: say which of {}", name, choice));
}

const GroupRow* find_group(const Catalogue& catalogue, std::string_view group) noexcept {
    const auto at =
        std::lower_bound(catalogue.groups.begin(), catalogue.groups.end(), group,
                         [](const GroupRow& row, std::string_view wanted) { return row.group < wanted; });
    return at != catalogue.groups.end() && at->group == group ? &*at : nullptr;
}

int kinship(const Catalogue& catalogue, const AlloyRow& alloy, std::string_view key) noexcept {
    if (key == alloy.id || (!alloy.like.empty() && key == alloy.like)) {
        return 0;
    }
    constexpr int kDeepest = 16;  // a shop's table may hold a circle of groups
    std::string_view group = alloy.group;
    for (int distance = 1; distance < kDeepest && !group.empty(); ++distance) {
        if (key == group) {
            return distance;
        }
        const GroupRow* row = find_group(catalogue, group);
        group = row == nullptr ? std::string_view{} : row->parent;
    }
    return -1;
}

const CuttingFluidRow* cutting_fluids(const Catalogue& catalogue, const AlloyRow& alloy) noexcept {
    const CuttingFluidRow* nearest = nullptr;
    int least = 0;
    for (const CuttingFluidRow& row : catalogue.cutting_fluids) {
        const int distance = kinship(catalogue, alloy, row.key);
        if (distance >= 0 && (nearest == nullptr || distance < least)) {
            nearest = &row;
            least = distance;
        }
    }
    return nearest;
}

}  // namespace halfnut::material
