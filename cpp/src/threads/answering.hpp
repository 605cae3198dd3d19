#pragma once
// What the answers on threads have in common.

#include <array>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/thread_figures.hpp"

namespace halfnut::threads {

using Words = std::vector<std::pair<std::string, std::string>>;

inline void tell(std::vector<Told>& out, std::string_view code, Words words = {}) {
    out.push_back({std::string(code), 0.0, std::move(words)});
}

/// Spellings of the cautions that a record has.
template <class Caution, class Answer>
void tell_all(std::vector<Told>& out, const Answer& answer) {
    for (const auto& [caution, spelling] : enum_names(Caution{})) {
        if (answer.has(caution)) {
            tell(out, spelling);
        }
    }
}

/// The range of an argument by its name.
template <std::size_t N>
constexpr const Argument& range_in(const std::array<Argument, N>& arguments, std::string_view name) {
    for (const Argument& each : arguments) {
        if (each.name == name) {
            return each;
        }
    }
    throw "no such argument";
}

/// What is measured on a part: at most 10 m, more is a slip of the pen.
inline constexpr double kLongestMm = 1e4;
constexpr Argument measured(std::string_view key) {
    return {.name = key, .unit = "mm", .low = 0.0, .high = kLongestMm, .low_open = true};
}

[[nodiscard]] inline std::string unit_name(bool inch) {
    return inch ? "in" : "mm";
}
[[nodiscard]] inline std::string unit_of(const PartLimits& limits) {
    return unit_name(limits.inch);
}
[[nodiscard]] inline UnitSystem system_of(bool inch) {
    return inch ? UnitSystem::inch : UnitSystem::metric;
}

/// A figure that is an item of an array of the answer.
template <class Answer, const auto& Names, std::size_t Place, auto Array>
constexpr FigureRow item_row(std::string_view about) {
    return {
        .key = Names[Place],
        .about = about,
        .kind = AnsweredKind::number,
        .unit = halfnut::detail::suffix_of(Names[Place]).unit,
        .is_always = false,
        .get = [](const void* answer) { return shown(Array(*static_cast<const Answer*>(answer))[Place]); }};
}

/// Whether a text is a word, in whatever case and with blanks about it.
[[nodiscard]] bool is_word(std::string_view text, std::string_view word);

/// What a person should know about limits; `class_only`: that their class is the usual one, and no more.
void tell_of(std::vector<Told>& out, const Catalogue& catalogue, const PartLimits& limits,
             bool class_only = false);

/// Codes once each, in the order of their first finding.
void keep_once(std::vector<Told>& told);

/// The build-up of a part: what is given, or what its limits before coating are made for. DomainError: both,
/// and they differ.
[[nodiscard]] BuildUp coat_of(const PartLimits& limits, const std::optional<BuildUp>& given,
                              std::string_view name);

/// What a build-up rests on.
[[nodiscard]] std::vector<EvidenceText> evidence_of(const Catalogue& catalogue, const BuildUp& coat);

/// The class of the same grades whose allowance holds the coating that limits are made for: "6f", "2A"; empty
/// where there is none.
[[nodiscard]] std::string roomier_class(const PartLimits& before);

/// A thickness that must not be passed, rounded down to what is spelled, um.
[[nodiscard]] double whole_films(double most_um, bool inch);

template <class Item>
void append(std::vector<Item>& to, std::vector<Item> more) {
    to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

/// Name of a thread's form, such as trapezoidal; empty of sizes alone.
[[nodiscard]] std::string form_name(const Catalogue& catalogue, const PartLimits& limits);

/// Limits of one part alone.
extern const RecordRow kPartLimitsRecord;
extern const RecordRow kWiresRecord;
extern const RecordRow kPlugRecord;
extern const RecordRow kTappingRecord;

}  // namespace halfnut::threads
