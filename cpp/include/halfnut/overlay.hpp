#pragma once
/// A shop's own tables.

#include <cstddef>
#include <memory>
#include <span>
#include <string_view>

#include "halfnut/catalogue.hpp"

namespace halfnut {

/// A shop's own rows over another catalogue. A row with the key of a base row replaces it.
///
/// Every source of an overlay is of kind `shop`, whatever its own file says, so that evidence shows that
/// the number is the shop's. A row with a mistake is refused, listed in Catalogue::refused with every mistake
/// in it, and stops nothing else. An alloy's row may be "like" another alloy: what it leaves empty is that
/// one's.
class Overlay {
   public:
    explicit Overlay(const Catalogue& base);
    Overlay(const Overlay&) = delete;
    Overlay& operator=(const Overlay&) = delete;
    ~Overlay();

    /// Lay a table's text over what is there.
    ///
    /// Given
    ///   table  the table's name, such as "material/alloys"
    ///   text   the file's text, in the format of the built-in tables
    ///   name   what error messages call it
    ///   lines  where each row stands, for messages; its line in `text` when empty
    /// Errors
    ///   TableError         text that is no table, naming `name` and the line
    ///   NotTabulatedError  no table of that name; the message lists the names
    void add(std::string_view table, std::string_view text, std::string_view name,
             std::span<const std::size_t> lines = {});

    [[nodiscard]] const Catalogue& catalogue() const noexcept;

   private:
    struct Tables;
    std::unique_ptr<Tables> tables_;
};

}  // namespace halfnut
