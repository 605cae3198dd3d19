#pragma once
/// Words of cautions, limits and advice, from the tables core/cautions and core/words.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/tables.hpp"

namespace halfnut {

/// A caution by its code; null where there is none.
[[nodiscard]] const CautionRow* find_caution(std::string_view code, const Catalogue& catalogue) noexcept;

/// Codes of the cautions that go with an operation, such as "part_off", whatever its figures.
[[nodiscard]] std::vector<std::string_view> standing_cautions(std::string_view operation,
                                                              const Catalogue& catalogue);

/// A text by its list and code, such as ("limit", "speed_window").
///
/// Errors
///   NotTabulatedError  no such text
[[nodiscard]] std::string_view find_words(std::string_view list, std::string_view code,
                                          const Catalogue& catalogue);

/// A text with its figures in their places.
///
/// Given
///   text    with places such as {limits}
///   figure  the text of the figure of a name
/// Example
///   filled("over {most}", figure) is "over 2 in" where figure("most") is "2 in"
[[nodiscard]] std::string filled(std::string_view text,
                                 const std::function<std::string(std::string_view name)>& figure);

}  // namespace halfnut
