#include "halfnut/core/file_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/level1.hpp"

namespace halfnut {

namespace {

using std::string_view;
using Tag = Given::Tag;

std::string least_and_most(string_view least) {
    return fmt::format("must be {} and at most {}", least, bounds::kCount);
}

}  // namespace

Given GivenTable::of(const FileEntries& table) {
    std::vector<Given>& items = items_.emplace_back();
    std::vector<string_view>& keys = keys_.emplace_back();
    items.reserve(table.size());
    keys.reserve(table.size());
    for (const FileEntry& entry : table) {
        keys.emplace_back(entry.key);
        items.push_back(of(entry.value));
    }
    return {.tag = Tag::object, .items = items, .keys = keys};
}

Given GivenTable::of(const FileValue& value) {
    return std::visit(
        [&](const auto& is) -> Given {
            using Is = std::remove_cvref_t<decltype(is)>;
            if constexpr (std::is_same_v<Is, std::monostate>) {
                return {};
            } else if constexpr (std::is_same_v<Is, FileEntries>) {
                return of(is);
            } else if constexpr (std::is_same_v<Is, std::vector<FileValue>>) {
                std::vector<Given>& items = items_.emplace_back();
                items.reserve(is.size());
                for (const FileValue& each : is) {
                    items.push_back(of(each));
                }
                return {.tag = Tag::list, .items = items};
            } else if constexpr (std::is_same_v<Is, Quantity>) {
                return {.tag = Tag::quantity, .number = is.value(), .unit = &is.unit()};
            } else if constexpr (std::is_same_v<Is, std::string>) {
                return {.tag = Tag::text, .text = is};
            } else {
                return {.tag = std::is_same_v<Is, bool> ? Tag::flag : Tag::number,
                        .number = static_cast<double>(is)};
            }
        },
        value.is);
}

std::string path_text(std::span<const FileStep> path) {
    std::string out;
    for (const FileStep& step : path) {
        out += step.place ? fmt::format("[{}]", *step.place)
                          : fmt::format("{}{}", out.empty() ? "" : ".", step.key);
    }
    return out;
}

std::string mistake_text(const FileMistake& mistake, const Given& file) {
    std::string out = mistake.place.empty() ? path_text(mistake.path) : mistake.place;
    out = out.empty() ? "the file" : out;
    if (mistake.of_value) {
        const Given* value = &file;
        for (const FileStep& step : mistake.path) {
            const auto at = std::find(value->keys.begin(), value->keys.end(), step.key) - value->keys.begin();
            value = &value->items[step.place ? *step.place : static_cast<std::size_t>(at)];
        }
        const bool quoted = value->tag == Tag::text;
        out +=
            fmt::format(" = {}", quoted ? fmt::format("\"{}\"", bounds::shown(value->text)) : value->shown());
    }
    out += fmt::format(": {}", mistake.problem);
    out += mistake.nearest.empty() ? "" : fmt::format("; nearest: {}", mistake.nearest);
    out += mistake.allowed.empty() ? "" : fmt::format("; allowed: {}", fmt::join(mistake.allowed, ", "));
    return out;
}

FileTable::FileTable(const Given& given, FilePath path, FileReading& reading)
    : given_(given), path_(std::move(path)), reading_(reading), mistakes_before_(reading.mistakes.size()) {}

FilePath FileTable::to(string_view key) const {
    FilePath out = path_;
    out.push_back({std::string(key)});
    return out;
}

const Given* FileTable::found(string_view key, Need need) {
    known_.push_back(key);
    if (reading_.keys != nullptr) {
        reading_.keys->emplace_back(key);
        return &given_;
    }
    for (std::size_t i = 0; i < given_.keys.size(); ++i) {
        if (given_.keys[i] == key && given_.items[i].tag != Tag::nothing) {
            return &given_.items[i];
        }
    }
    if (need == Need::required) {
        reading_.mistakes.push_back({to(key), "is missing", false});
    }
    return nullptr;
}

const Given* FileTable::value(string_view key, Need need) {
    const Given* const given = found(key, need);
    return reading_.keys == nullptr ? given : nullptr;
}

bool FileTable::has(string_view key) const {
    const auto at = std::find(given_.keys.begin(), given_.keys.end(), key);
    return at != given_.keys.end() &&
           given_.items[static_cast<std::size_t>(at - given_.keys.begin())].tag != Tag::nothing;
}

bool FileTable::sound() const {
    return reading_.keys == nullptr && reading_.mistakes.size() == mistakes_before_;
}

void FileTable::refuse(std::string problem) {
    reading_.mistakes.push_back({path_, std::move(problem), false});
}

void FileTable::refuse(string_view key, std::string problem) {
    reading_.mistakes.push_back({to(key), std::move(problem)});
}

void FileTable::refuse_name(string_view key, std::string problem, string_view given,
                            std::span<const string_view> known) {
    reading_.mistakes.push_back({to(key),
                                 std::move(problem),
                                 true,
                                 {known.begin(), known.end()},
                                 std::string(nearest_name(given, known))});
}

void FileTable::close() {
    if (std::exchange(closed_, true)) {
        return;
    }
    for (const string_view key : given_.keys) {
        if (reading_.keys == nullptr && std::find(known_.begin(), known_.end(), key) == known_.end()) {
            reading_.mistakes.push_back({to(key),
                                         "no such key",
                                         false,
                                         {known_.begin(), known_.end()},
                                         std::string(nearest_name(key, known_))});
        }
    }
}

void FileTable::text(string_view key, std::string& to, Need need) {
    if (const Given* const given = value(key, need)) {
        if (given->tag == Tag::text) {
            to = given->text;
        } else {
            refuse(key, "must be text in quotes");
        }
    }
}

void FileTable::name(string_view key, std::string& to, Need need) {
    if (const Given* const given = value(key, need)) {
        if (given->tag != Tag::text) {
            refuse(key, "must be text in quotes");
        } else if (given->text.empty()) {
            refuse(key, "must not be empty");
        } else {
            to = given->text;
        }
    }
}

void FileTable::texts(string_view key, std::vector<std::string>& to) {
    if (const Given* const given = value(key, Need::optional)) {
        for (std::size_t i = 0; i < items(*given, key); ++i) {
            if (given->items[i].tag == Tag::text) {
                to.emplace_back(given->items[i].text);
                continue;
            }
            FilePath path = this->to(key);
            path.push_back({{}, i});
            reading_.mistakes.push_back({std::move(path), "must be text in quotes"});
        }
    }
}

void FileTable::flag(string_view key, bool& to) {
    if (const Given* const given = value(key, Need::optional)) {
        if (given->tag == Tag::flag) {
            to = given->number != 0.0;
        } else {
            refuse(key, "must be true or false");
        }
    }
}

void FileTable::number(string_view key, double& to, Need need) {
    if (const Given* const given = value(key, need)) {
        if (given->tag != Tag::number) {
            refuse(key, "must be a number");
        } else if (!(given->number > 0.0 && given->number <= bounds::kCount)) {
            refuse(key, least_and_most("more than 0"));
        } else {
            to = given->number;
        }
    }
}

void FileTable::number(string_view key, double& to, const Argument& range, Need need) {
    if (const Given* const given = value(key, need)) {
        if (given->tag != Tag::number) {
            refuse(key, "must be a number");
        } else if (check(range, given->number) != StatusCode::ok) {
            refuse(key, fmt::format("must be {}", range_text(range)));
        } else {
            to = given->number;
        }
    }
}

void FileTable::count(string_view key, int& to, Need need, int least) {
    if (const Given* const given = value(key, need)) {
        if (given->tag != Tag::number || given->number != std::floor(given->number)) {
            refuse(key, "must be a whole number");
        } else if (!(given->number >= least && given->number <= bounds::kCount)) {
            refuse(key, least_and_most(least > 0 ? "more than 0" : "at least 0"));
        } else {
            to = bounds::whole<int>(given->number);
        }
    }
}

void FileTable::counts(string_view key, std::vector<int>& to) {
    if (const Given* const given = value(key, Need::optional)) {
        for (std::size_t i = 0; i < items(*given, key); ++i) {
            const Given& item = given->items[i];
            if (item.tag == Tag::number && item.number == std::floor(item.number) && item.number >= 1.0 &&
                item.number <= bounds::kCount) {
                to.push_back(bounds::whole<int>(item.number));
                continue;
            }
            FilePath path = this->to(key);
            path.push_back({{}, i});
            reading_.mistakes.push_back({std::move(path), least_and_most("a whole number of at least 1")});
        }
    }
}

std::optional<std::size_t> FileTable::one_of(string_view key, std::span<const string_view> words, Need need) {
    const Given* const given = value(key, need);
    if (given == nullptr) {
        return std::nullopt;
    }
    const bool is_text = given->tag == Tag::text;
    const auto at = is_text ? std::find(words.begin(), words.end(), given->text) : words.end();
    if (at != words.end()) {
        return static_cast<std::size_t>(at - words.begin());
    }
    refuse_name(key, "not one of the choices", is_text ? given->text : string_view(), words);
    return std::nullopt;
}

std::optional<Quantity> FileTable::quantity(string_view key, Dimension dimension, Need need, bool nothing) {
    const Given* const given = value(key, need);
    return given == nullptr ? std::nullopt : quantity_of(*given, to(key), dimension, nothing);
}

std::vector<Quantity> FileTable::quantities(string_view key, Dimension dimension) {
    std::vector<Quantity> out;
    if (const Given* const given = value(key, Need::optional)) {
        for (std::size_t i = 0; i < items(*given, key); ++i) {
            FilePath path = to(key);
            path.push_back({{}, i});
            if (const auto read = quantity_of(given->items[i], std::move(path), dimension, false)) {
                out.push_back(*read);
            }
        }
    }
    return out;
}

std::optional<Quantity> FileTable::quantity_of(const Given& given, FilePath path, Dimension dimension,
                                               bool nothing) {
    const auto refused = [&](std::string problem) {
        reading_.mistakes.push_back({std::move(path), std::move(problem)});
        return std::nullopt;
    };
    std::optional<Quantity> out;
    if (given.tag == Tag::text) {
        try {
            out = parse_quantity(given.text, dimension, reading_.catalogue);
        } catch (const Error& error) {
            return refused(error.what());
        }
    } else if (given.tag == Tag::quantity) {
        out = Quantity(given.number, *given.unit);
    }
    if (!out) {
        return refused(fmt::format(
            "{} has no unit; a bare number is never a {}: write text such as '{} {}'", given.shown(),
            dimension_name(dimension),
            given.tag == Tag::number && given.number > 0.0 ? fmt::format("{:g}", given.number) : "1",
            base_unit(dimension)));
    }
    if (out->dimension() != dimension) {
        return refused(fmt::format("{} is a {}, not a {}", given.shown(), dimension_name(out->dimension()),
                                   dimension_name(dimension)));
    }
    if (!(out->base() > 0.0 || (nothing && out->base() == 0.0))) {
        return refused(nothing ? "must be at least zero" : "must be more than zero");
    }
    return out;
}

void FileTable::size(string_view key, Dimension dimension, double& to, Need need, bool nothing) {
    if (const auto read = quantity(key, dimension, need, nothing)) {
        to = read->base();
    }
}

void FileTable::settings(string_view key, std::vector<std::pair<std::string, std::string>>& to) {
    const Given* const given = value(key, Need::optional);
    if (given == nullptr) {
        return;
    }
    if (given->tag != Tag::object) {
        refuse(key, "must be a table");
        return;
    }
    for (std::size_t i = 0; i < given->items.size(); ++i) {
        if (given->items[i].tag == Tag::text) {
            to.emplace_back(given->keys[i], given->items[i].text);
            continue;
        }
        FilePath path = this->to(key);
        path.push_back({std::string(given->keys[i])});
        reading_.mistakes.push_back({std::move(path), "must be text in quotes"});
    }
}

std::size_t FileTable::items(const Given& given, string_view key) {
    if (reading_.keys != nullptr) {
        return 1;
    }
    if (given.tag != Tag::list) {
        refuse(key, "must be a list");
        return 0;
    }
    return given.items.size();
}

}  // namespace halfnut
