#include "halfnut/table.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/bounds.hpp"
#include "halfnut/schema.hpp"

namespace halfnut {
namespace {

std::string_view trim(std::string_view text) {
    const auto first = text.find_first_not_of(" \t\r");
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

/// Reads comma-separated records (RFC 4180) and comment lines, counting lines.
class Reader {
   public:
    Reader(std::string_view text, std::string_view name) : text_(text), name_(name) {
        constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
        if (text_.substr(0, kByteOrderMark.size()) == kByteOrderMark) {
            text_.remove_prefix(kByteOrderMark.size());
        }
    }

    [[nodiscard]] bool done() const { return at_ >= text_.size(); }
    [[nodiscard]] bool at_comment() const { return text_[at_] == '#'; }
    [[nodiscard]] std::size_t line() const { return line_; }

    std::string_view rest_of_line() {
        const std::size_t end = std::min(text_.find('\n', at_), text_.size());
        const std::string_view line = text_.substr(at_, end - at_);
        at_ = end + 1;
        ++line_;
        return trim(line);
    }

    std::vector<std::string> record() {
        std::vector<std::string> cells;
        for (;;) {
            cells.push_back(cell());
            if (done()) {
                break;
            }
            const char separator = text_[at_++];
            if (separator == '\n') {
                ++line_;
                break;
            }
        }
        return cells;
    }

    [[noreturn]] void fail(std::size_t line, const std::string& what) const {
        throw TableError(fmt::format("{}:{}: {}", name_, line, what));
    }

   private:
    std::string cell() {
        if (!done() && text_[at_] == '"') {
            return quoted();
        }
        const std::size_t end = std::min(text_.find_first_of(",\n", at_), text_.size());
        const std::string_view raw = text_.substr(at_, end - at_);
        if (raw.find('"') != std::string_view::npos) {
            fail(line_,
                 fmt::format("a quote inside the cell {}; quote the whole cell and double the quote", raw));
        }
        at_ = end;
        return std::string(trim(raw));
    }

    std::string quoted() {
        const std::size_t opened = line_;
        std::string cell;
        for (++at_; !done(); ++at_) {
            const char c = text_[at_];
            if (c != '"') {
                line_ += c == '\n' ? 1U : 0U;
                cell += c;
            } else if (at_ + 1 < text_.size() && text_[at_ + 1] == '"') {
                cell += '"';
                ++at_;
            } else {
                ++at_;
                if (!done() && text_[at_] == '\r') {
                    ++at_;
                }
                if (!done() && text_[at_] != ',' && text_[at_] != '\n') {
                    fail(line_, "text after a closing quote");
                }
                return cell;
            }
        }
        fail(opened, "a quote is not closed");
    }

    std::string_view text_;
    std::string_view name_;
    std::size_t at_ = 0;
    std::size_t line_ = 1;
};

void read_comment(ParsedTable& table, const Reader& reader, std::size_t line, std::string_view comment) {
    const auto colon = comment.find(':');
    const std::string_view key = trim(comment.substr(0, std::min(colon, comment.size())));
    const std::string_view value =
        colon == std::string_view::npos ? std::string_view{} : trim(comment.substr(colon + 1));
    if (key == "table") {
        table.title = value;
    } else if (is_source_key(key)) {
        const auto bar = value.find('|');
        SourceKind kind{};
        if (bar == std::string_view::npos || !enum_from_name(trim(value.substr(0, bar)), kind) ||
            trim(value.substr(bar + 1)).empty()) {
            std::string kinds;
            for (const auto& [candidate, name] : enum_names(SourceKind{})) {
                kinds += kinds.empty() ? "" : ", ";
                kinds += name;
            }
            reader.fail(line, fmt::format("source {} must read '# {}: kind | citation' with a kind of {}",
                                          key, key, kinds));
        }
        const auto same = [&](const ParsedSource& source) { return source.key == key; };
        if (std::any_of(table.sources.begin(), table.sources.end(), same)) {
            reader.fail(line, fmt::format("source {} is given twice", key));
        }
        table.sources.push_back({std::string(key), kind, std::string(trim(value.substr(bar + 1))), line});
    } else if (key != "note") {
        reader.fail(
            line, fmt::format("a comment line must begin '# table:', '# note:' or '# S<number>:', got '# {}'",
                              comment));
    }
}

}  // namespace

bool is_source_key(std::string_view key) noexcept {
    return key.size() > 1 && key.front() == 'S' &&
           std::all_of(key.begin() + 1, key.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::string_view source_kind_name(SourceKind kind) noexcept {
    return enum_name(kind);
}

std::string refusal(const RefusedRow& row) {
    std::string out = fmt::format("{}: {}{} cannot be used", row.where, row.table,
                                  row.names.empty() ? "" : fmt::format(" '{}'", row.names.front()));
    std::string_view before = ": ";
    for (const std::string& mistake : row.mistakes) {
        out += before;
        out += mistake;
        before = "; ";
    }
    return out;
}

ParsedTable parse_table(std::string_view text, std::string_view name, BadRows bad) {
    ParsedTable table;
    table.name = name;
    if (text.size() > bounds::kFileBytes) {
        throw TableError(fmt::format("{}:1: a table must be at most {} bytes, got {}", name,
                                     bounds::kFileBytes, text.size()));
    }
    Reader reader(text, name);
    while (!reader.done()) {
        const std::size_t line = reader.line();
        if (reader.at_comment()) {
            read_comment(table, reader, line, trim(reader.rest_of_line().substr(1)));
            continue;
        }
        std::vector<std::string> cells = reader.record();
        if (cells.size() == 1 && cells.front().empty()) {
            continue;
        }
        if (table.columns.empty()) {
            table.columns = std::move(cells);
            continue;
        }
        if (cells.size() != table.columns.size()) {
            const std::string mistake =
                fmt::format("{} cells, but the header has {} columns", cells.size(), table.columns.size());
            if (bad == BadRows::stop) {
                reader.fail(line, mistake);
            }
            cells.resize(table.columns.size());
            table.rows.push_back({line, std::move(cells), mistake});
            continue;
        }
        if (table.rows.size() == bounds::kRows) {
            reader.fail(line, fmt::format("a table must have at most {} rows", bounds::kRows));
        }
        table.rows.push_back({line, std::move(cells)});
    }
    if (table.title.empty()) {
        reader.fail(1, "no '# table:' line");
    }
    if (table.columns.empty()) {
        reader.fail(reader.line(), "no header line");
    }
    return table;
}

}  // namespace halfnut
