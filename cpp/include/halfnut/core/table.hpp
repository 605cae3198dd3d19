#pragma once
/// Tables as text: the one parser, shared by the build's table compiler and by a shop's own files.
///
///     # table: fundamental deviations, ISO metric threads
///     # S1: handbook | Machinery's Handbook 31st ed., p. 2025, table 10
///     pitch_mm,es_g_um,source,note
///     1,-26,S1,
///
/// Comment lines name the table, notes and the sources; then comma-separated values by RFC 4180
/// (quoted cells may hold commas, quotes and semicolons). Every row names a source.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/error.hpp"

namespace halfnut {

/// How far a number can be trusted, by where it comes from.
enum class SourceKind : std::uint8_t {
    standard,
    government,
    handbook,
    textbook,
    paper,
    transcription,  ///< read in a copy of the named source, whose own page was not seen
    practice,       ///< common practice: a rule of thumb
    memory,         ///< recalled from the named source, not read in it
    shop,           ///< a shop's own table
};

struct ParsedSource {
    std::string key;  ///< as cells name it, such as "S1"
    SourceKind kind;
    std::string citation;
    std::size_t line;
};

struct ParsedRow {
    std::size_t line;  ///< where the row starts, counted from 1
    std::vector<std::string> cells;
    std::string mistake{};  ///< what is wrong with the row as a whole; only where bad rows are kept
};

/// A row of a shop's table that cannot be used, with every mistake in it.
struct RefusedRow {
    std::string table;               ///< such as "material/alloys"
    std::string where;               ///< file and line
    std::vector<std::string> names;  ///< its key first, then its other names, as far as they are written
    std::vector<std::string> mistakes;
};

/// Where and what, every mistake: "ours.toml:3: material/alloys 'X1' cannot be used: ...; ...".
[[nodiscard]] std::string refusal(const RefusedRow& row);

/// What becomes of a row with too many or too few cells.
enum class BadRows : std::uint8_t {
    stop,  ///< TableError
    keep,  ///< the row says what is wrong, and is as long as the header
};

struct ParsedTable {
    std::string name;   ///< what messages call it: a file's path, or what the caller gave
    std::string title;  ///< the '# table:' line
    std::vector<ParsedSource> sources;
    std::vector<std::string> columns;
    std::vector<ParsedRow> rows;
};

/// Read a table's text.
///
/// Given
///   text  the whole file, UTF-8, LF or CRLF
///   name  what error messages call the table
///   bad   what becomes of a row of the wrong length
/// Returned
///   header, sources and cells as text; every row has as many cells as there are columns
/// Errors
///   TableError  naming file and line: no title, no header, a repeated or unknown source kind, an
///               unclosed quote, a row of the wrong length
[[nodiscard]] ParsedTable parse_table(std::string_view text, std::string_view name,
                                      BadRows bad = BadRows::stop);

/// Is this how a table's own lines name a source: "S" and a number?
[[nodiscard]] bool is_source_key(std::string_view key) noexcept;

/// The kind's name as tables write it ("practice" is shown to people as "common practice").
[[nodiscard]] std::string_view source_kind_name(SourceKind kind) noexcept;

}  // namespace halfnut
