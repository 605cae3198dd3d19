#pragma once
/// Finding an alloy by any of its names.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::material {

/// Outcome of a look-up.
struct AlloyMatch {
    const AlloyRow* alloy = nullptr;          ///< the one alloy of that name, or null
    std::vector<const AlloyRow*> candidates;  ///< several alloys of that name; one or none otherwise
    const RefusedRow* refused = nullptr;      ///< the shop's row of that name, where it cannot be used
};

/// Alloys that a name stands for.
///
/// Given
///   name   an id, a name, a name with a condition ("4130 normalised"), or an alias; case, spaces and
///          punctuation do not count, nor do AISI, SAE, UNS and AA in front
/// Returned
///   the alloy, or the candidates when the name leaves the condition open
/// Notes
///   1) An id wins over a name with condition, that over an alias or a name.
[[nodiscard]] AlloyMatch match_alloy(const Catalogue& catalogue, std::string_view name);

/// The alloy of a name.
///
/// Given
///   name   as for match_alloy
/// Returned
///   its row
/// Errors
///   NotTabulatedError   nothing of that name (the message offers the nearest), or several (it lists them)
///   TableError          the shop's row of that name cannot be used (the message gives every mistake in it)
/// Example
///   find_alloy(builtin(), "6061-T6").id = "A96061"
[[nodiscard]] const AlloyRow& find_alloy(const Catalogue& catalogue, std::string_view name);

/// Name and condition, as a person says them.
[[nodiscard]] std::string full_name(const AlloyRow& alloy);

/// Full names of every alloy that is held, in the order of the table.
[[nodiscard]] std::vector<std::string> alloy_names(const Catalogue& catalogue);

/// What is said where a figure needs Young's modulus and the alloy's row gives none.
[[nodiscard]] std::string lacks_modulus(const AlloyRow& alloy, std::string_view figure);

/// What an alloy's row leaves out that forces and deflections of the work need, in words; nothing as a rule.
[[nodiscard]] std::vector<std::string> lacking(const AlloyRow& alloy);

/// A group's row, or null.
[[nodiscard]] const GroupRow* find_group(const Catalogue& catalogue, std::string_view group) noexcept;

/// How far a key is from an alloy: 0 its own id or that of the alloy it is like, 1 its group, 2 the group
/// above, ...; -1 not related.
[[nodiscard]] int kinship(const Catalogue& catalogue, const AlloyRow& alloy, std::string_view key) noexcept;

/// What is put on a cut of an alloy: the row of the nearest of its own id, its group and those above; null
/// where none is known.
[[nodiscard]] const CuttingFluidRow* cutting_fluids(const Catalogue& catalogue,
                                                    const AlloyRow& alloy) noexcept;

/// Whether a list of words, separated by spaces, holds a word.
[[nodiscard]] constexpr bool has_word(std::string_view words, std::string_view word) noexcept {
    while (!words.empty()) {
        const std::size_t end = words.find(' ');
        if (words.substr(0, end) == word) {
            return true;
        }
        words = end == std::string_view::npos ? std::string_view{} : words.substr(end + 1);
    }
    return false;
}

}  // namespace halfnut::material
