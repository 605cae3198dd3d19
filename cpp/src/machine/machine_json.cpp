#include "halfnut/machine/machine_json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <type_traits>
#include <vector>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/json.hpp"
#include "halfnut/machine/members.hpp"

namespace halfnut::machine {

namespace {

using std::string_view;

// ---- read -------------------------------------------------------------------------------------------------

[[noreturn]] void refuse(const std::string& where, string_view wanted, const Given& given) {
    throw DomainError(fmt::format("machine: {} must be {}, got {}", where, wanted, given.shown()),
                      {"machine", given.shown(), {std::string(wanted)}, {}});
}

void read(double& to, const Given& given, const std::string& where) {
    if (given.tag != Given::Tag::number || !std::isfinite(given.number)) {
        refuse(where, "a number", given);
    }
    to = given.number;
}
void read(int& to, const Given& given, const std::string& where) {
    constexpr double kMost = bounds::kCount;
    if (given.tag != Given::Tag::number || given.number != std::floor(given.number) ||
        !(std::abs(given.number) <= kMost)) {
        refuse(where, "a whole number", given);
    }
    to = static_cast<int>(given.number);
}
void read(bool& to, const Given& given, const std::string& where) {
    if (given.tag != Given::Tag::flag) {
        refuse(where, "true or false", given);
    }
    to = given.number != 0.0;
}
void read(std::string& to, const Given& given, const std::string& where) {
    if (given.tag != Given::Tag::text) {
        refuse(where, "text", given);
    }
    bounds::require_text(where, given.text, bounds::kTextBytes);
    to = given.text;
}
template <class E>
    requires std::is_enum_v<E>
void read(E& to, const Given& given, const std::string& where) {
    if (given.tag != Given::Tag::text) {
        refuse(where, "text", given);
    }
    if (!enum_from_name(given.text, to)) {
        refuse_choice("machine: " + where, kSpellings<E>, given.text);
    }
}
void read(std::vector<Position>& to, const Given& given, const std::string& where) {
    if (given.tag != Given::Tag::object) {
        refuse(where, "an object of settings", given);
    }
    to.clear();
    for (std::size_t i = 0; i < given.keys.size(); ++i) {
        Position position{std::string(given.keys[i]), {}};
        read(position.setting, given.items[i], fmt::format("{}.{}", where, bounds::shown(given.keys[i])));
        to.push_back(std::move(position));
    }
}
template <class Record>
    requires std::is_class_v<Record>
void read(Record& to, const Given& given, const std::string& where);

template <class Item>
void read(std::vector<Item>& to, const Given& given, const std::string& where) {
    if (given.tag != Given::Tag::list || given.items.size() > bounds::kItems) {
        refuse(where, fmt::format("a list of at most {}", bounds::kItems), given);
    }
    to.clear();
    for (std::size_t i = 0; i < given.items.size(); ++i) {
        read(to.emplace_back(), given.items[i], fmt::format("{}[{}]", where, i));
    }
}

template <class Record>
    requires std::is_class_v<Record>
void read(Record& to, const Given& given, const std::string& where) {
    if (given.tag != Given::Tag::object) {
        refuse(where.empty() ? "it" : where, "an object", given);
    }
    members(&to, [&](const auto&... each) {
        for (std::size_t i = 0; i < given.keys.size(); ++i) {
            const string_view key = given.keys[i];
            const std::string path =
                where.empty() ? bounds::shown(key) : fmt::format("{}.{}", where, bounds::shown(key));
            const auto take = [&](const auto& named) {
                if (named.name != key) {
                    return false;
                }
                if (given.items[i].tag != Given::Tag::nothing) {
                    read(to.*named.member, given.items[i], path);
                }
                return true;
            };
            if (!(take(each) || ...)) {
                const std::array known{each.name...};
                const string_view near = nearest_name(key, known);
                throw DomainError(fmt::format("machine: no key '{}'{}", path,
                                              near.empty() ? "" : fmt::format("; did you mean '{}'?", near)),
                                  {"machine", path, {known.begin(), known.end()}, std::string(near)});
            }
        }
    });
}

// ---- write ------------------------------------------------------------------------------------------------

std::string written(double value) {
    return fmt::format("{}", value);
}
std::string written(int value) {
    return fmt::format("{}", value);
}
std::string written(bool value) {
    return value ? "true" : "false";
}
std::string written(const std::string& value) {
    return json_text(value);
}
template <class E>
    requires std::is_enum_v<E>
std::string written(E value) {
    return json_text(enum_name(value));
}
std::string written(const std::vector<Position>& positions) {
    std::string out;
    for (const Position& position : positions) {
        out += fmt::format("{}{}: {}", out.empty() ? "" : ", ", json_text(position.control),
                           json_text(position.setting));
    }
    return "{" + out + "}";
}
template <class Record>
    requires std::is_class_v<Record>
std::string written(const Record& record);

template <class Item>
std::string written(const std::vector<Item>& items) {
    std::string out;
    for (const Item& item : items) {
        out += (out.empty() ? "" : ", ") + written(item);
    }
    return "[" + out + "]";
}

template <class M>
bool is_given(const M& value, const M& fresh) {
    if constexpr (std::is_same_v<M, double>) {
        return !std::isnan(value) && !(value == fresh);
    } else if constexpr (std::is_arithmetic_v<M> || std::is_enum_v<M> || std::is_same_v<M, std::string>) {
        return value != fresh;
    } else {
        return written(value) != written(fresh);
    }
}

template <class Record>
    requires std::is_class_v<Record>
std::string written(const Record& record) {
    const Record fresh{};
    std::string out;
    members(&record, [&](const auto&... each) {
        const auto put = [&](const auto& named) {
            if (is_given(record.*named.member, fresh.*named.member)) {
                out += fmt::format("{}{}: {}", out.empty() ? "" : ", ", json_text(named.name),
                                   written(record.*named.member));
            }
        };
        (put(each), ...);
    });
    return "{" + out + "}";
}

}  // namespace

Machine machine_of(const Given& object) {
    Machine out;
    read(out, object, "");
    for (const Problem& problem : problems(out)) {
        if (!problem.odd) {
            throw DomainError(fmt::format("machine: {}: {}", problem.where, problem.text),
                              {"machine", problem.where, {}, {}});
        }
    }
    return out;
}

std::string machine_json(const Machine& machine) {
    return written(machine);
}

}  // namespace halfnut::machine

namespace halfnut {

void take(const machine::Machine*& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag == Given::Tag::machine) {
        to = given.machine;
    } else if (given.tag == Given::Tag::object) {
        auto made = std::make_shared<const machine::Machine>(machine::machine_of(given));
        to = made.get();
        asking.kept.push_back(std::move(made));
    } else {
        throw DomainError(fmt::format("{} must be a machine, got {}", row.name, given.shown()));
    }
}

}  // namespace halfnut
