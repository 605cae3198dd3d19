#pragma once
/// Tables of a person's file, read key by key. To ask for a key is to declare it: what is never asked for is
/// no key of the table. Every mistake is found, not the first alone.

#include <cstddef>
#include <cstdint>
#include <deque>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "halfnut/core/quantity.hpp"
#include "halfnut/core/question.hpp"

namespace halfnut {

/// A step on the way to a value of a file: a key, or a place in a list.
struct FileStep {
    std::string key;
    std::optional<std::size_t> place{};
};
using FilePath = std::vector<FileStep>;

struct FileEntry;
/// A table as it was read, its keys in the order of their declaration.
using FileEntries = std::vector<FileEntry>;

/// What stands at a key: a value in its own unit, several of them, or tables.
struct FileValue {
    std::variant<std::monostate, bool, std::int64_t, double, std::string, Quantity, std::vector<FileValue>,
                 FileEntries>
        is;
};
struct FileEntry {
    std::string key;
    FileValue value;
};

/// What was read, as something that is given: a view of the table, which must outlive it.
class GivenTable {
   public:
    explicit GivenTable(const FileEntries& table) : given_(of(table)) {}
    [[nodiscard]] const Given& given() const { return given_; }

   private:
    [[nodiscard]] Given of(const FileEntries& table);
    [[nodiscard]] Given of(const FileValue& value);

    std::deque<std::vector<Given>> items_;  // a deque leaves what stands in it where it is
    std::deque<std::vector<std::string_view>> keys_;
    Given given_;
};

/// A mistake in a file.
struct FileMistake {
    FilePath path;
    std::string problem;
    bool of_value = true;  ///< false: of a table, or of what is not there; then no value is shown
    std::vector<std::string> allowed{};
    std::string nearest{};
    std::string place{};  ///< what it belongs to, in a person's words, and the key from there
};

/// A way as a person writes it: parts[0].stock.diameter.
[[nodiscard]] std::string path_text(std::span<const FileStep> path);

/// A mistake as a person reads it: where, what stands there, what is wrong, what is nearest and what is
/// allowed.
///
/// Given
///   file  what was read
/// Returned
///   such as `wheels[0].teeth = 0: must be more than 0 and at most 1e+09`
[[nodiscard]] std::string mistake_text(const FileMistake& mistake, const Given& file);

/// What a file is read against, and what is found while it is.
struct FileReading {
    const Catalogue& catalogue;
    std::vector<FileMistake> mistakes{};
    /// Where the keys of every table are listed, instead of reading any; null: the file is read.
    std::vector<std::string>* keys = nullptr;
};

enum class Need : bool { optional, required };

/// One table. What is not given, or is a mistake, leaves what it is read to as it is.
class FileTable {
   public:
    FileTable(const Given& given, FilePath path, FileReading& reading);

    void text(std::string_view key, std::string& to, Need need = Need::optional);
    /// A text that is not empty.
    void name(std::string_view key, std::string& to, Need need = Need::optional);
    void texts(std::string_view key, std::vector<std::string>& to);
    void flag(std::string_view key, bool& to);
    /// A number above 0.
    void number(std::string_view key, double& to, Need need = Need::optional);
    void number(std::string_view key, double& to, const Argument& range, Need need = Need::optional);
    void count(std::string_view key, int& to, Need need = Need::optional, int least = 1);
    void counts(std::string_view key, std::vector<int>& to);
    /// The place of one of several words.
    [[nodiscard]] std::optional<std::size_t> one_of(std::string_view key,
                                                    std::span<const std::string_view> words,
                                                    Need need = Need::optional);
    template <class E>
    void choice(std::string_view key, E& to, Need need = Need::optional) {
        if (const auto place = one_of(key, kSpellings<E>, need)) {
            to = enum_names(E{})[*place].first;
        }
    }
    /// A text with its unit: more than nothing, or at least where `nothing` is allowed.
    [[nodiscard]] std::optional<Quantity> quantity(std::string_view key, Dimension dimension,
                                                   Need need = Need::optional, bool nothing = false);
    [[nodiscard]] std::vector<Quantity> quantities(std::string_view key, Dimension dimension);
    /// The same in the base unit.
    void size(std::string_view key, Dimension dimension, double& to, Need need = Need::optional,
              bool nothing = false);
    /// Texts by keys of the person's own.
    void settings(std::string_view key, std::vector<std::pair<std::string, std::string>>& to);

    /// A table within this one: `read(table)`.
    template <class Read>
    void table(std::string_view key, const Read& read, Need need = Need::optional) {
        if (const Given* const given = found(key, need)) {
            within(*given, to(key), read);
        }
    }
    /// Tables one after the other: `read(table)` each.
    template <class Read>
    void tables(std::string_view key, const Read& read, Need need = Need::optional) {
        if (const Given* const given = found(key, need)) {
            for (std::size_t i = 0; i < items(*given, key); ++i) {
                FilePath path = to(key);
                path.push_back({{}, i});
                within(reading_.keys == nullptr ? given->items[i] : *given, std::move(path), read);
            }
        }
    }
    /// Tables by names of the person's own: `read(table, name)` each.
    template <class Read>
    void named(std::string_view key, const Read& read) {
        const Given* const given = found(key, Need::optional);
        if (given == nullptr) {
            return;
        }
        if (reading_.keys != nullptr) {
            within(*given, {}, [&](FileTable& table) { read(table, key); });
        } else if (given->tag != Given::Tag::object) {
            refuse(key, "must be a table");
        } else {
            for (std::size_t i = 0; i < given->items.size(); ++i) {
                FilePath path = to(key);
                path.push_back({std::string(given->keys[i])});
                within(given->items[i], std::move(path),
                       [&](FileTable& table) { read(table, given->keys[i]); });
            }
        }
    }

    /// Whether a key is there.
    [[nodiscard]] bool has(std::string_view key) const;
    /// Whether nothing in the table was a mistake so far: only then do its values make sense together.
    [[nodiscard]] bool sound() const;
    /// The values do not go together.
    void refuse(std::string problem);
    /// A value that is a mistake.
    void refuse(std::string_view key, std::string problem);
    /// A name that is none of those that there are.
    void refuse_name(std::string_view key, std::string problem, std::string_view given,
                     std::span<const std::string_view> known);

    /// Say which keys of it are none; a reader that asks whether all of it is sound does so itself.
    void close();
    /// Which keys it may have is not known: none is said to be none.
    void leave() { closed_ = true; }

   private:
    template <class Read>
    void within(const Given& given, FilePath path, const Read& read) {
        if (reading_.keys == nullptr && given.tag != Given::Tag::object) {
            reading_.mistakes.push_back({std::move(path), "must be a table"});
            return;
        }
        FileTable table(given, std::move(path), reading_);
        read(table);
        table.close();
    }
    /// What stands at a key, which is one of the table's from here on; null where nothing is to be read.
    [[nodiscard]] const Given* found(std::string_view key, Need need);
    /// The same, where a value is read and not a table.
    [[nodiscard]] const Given* value(std::string_view key, Need need);
    [[nodiscard]] std::size_t items(const Given& given, std::string_view key);
    [[nodiscard]] std::optional<Quantity> quantity_of(const Given& given, FilePath path, Dimension dimension,
                                                      bool nothing);
    [[nodiscard]] FilePath to(std::string_view key) const;

    const Given& given_;
    FilePath path_;
    FileReading& reading_;
    std::vector<std::string_view> known_;
    std::size_t mistakes_before_;
    bool closed_ = false;
};

/// Read a file whose head is a table.
template <class Read>
void read_file(const Given& given, FileReading& reading, const Read& read) {
    FileTable table(given, {}, reading);
    if (reading.keys == nullptr && given.tag != Given::Tag::object) {
        reading.mistakes.push_back({{}, "must be a table"});
        return;
    }
    read(table);
    table.close();
}

}  // namespace halfnut
