#include "halfnut/material/alloy.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

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

std::string full_name(const AlloyRow& alloy) {
    return fmt::format("{} {}", alloy.name, alloy.condition);
}

const AlloyRow* row_of(const Catalogue& catalogue, std::string_view id) noexcept {
    const auto at =
        std::lower_bound(catalogue.alloys.begin(), catalogue.alloys.end(), id,
                         [](const AlloyRow& row, std::string_view wanted) { return row.id < wanted; });
    return at != catalogue.alloys.end() && at->id == id ? &*at : nullptr;
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

/// What people would recognise as the nearest of all names.
std::string suggestion(const Catalogue& catalogue, std::string_view name) {
    std::string nearest;
    std::size_t best = std::max<std::size_t>(2, name.size() / 3) + 1;
    const std::string wanted = plain(name);
    const auto offer = [&](std::string_view candidate) {
        const std::size_t distance = edit_distance(wanted, plain(candidate));
        if (distance < best) {
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
        offer(alias.alias);
    }
    return nearest;
}

}  // namespace

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
    const AlloyMatch match = match_alloy(catalogue, name);
    if (match.alloy != nullptr) {
        return *match.alloy;
    }
    if (match.refused != nullptr) {
        throw TableError(refusal(*match.refused));
    }
    if (match.candidates.empty()) {
        const std::string near = suggestion(catalogue, name);
        throw NotTabulatedError(near.empty() ? fmt::format("no alloy '{}'", name)
                                             : fmt::format("no alloy '{}'; did you mean '{}'?", name, near));
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

}  // namespace halfnut::material
