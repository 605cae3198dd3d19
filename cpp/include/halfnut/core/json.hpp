#pragma once
/// Questions as JSON: what a program may send, what it gets, and the JSON Schema of both.
///
///     {"question": "turn", "values": {"alloy": "6061-T6", "diameter": "1.25 in", "length_mm": 50}}
///
/// A value is named as a person names it, with its unit in the text, or by its key, with its unit in the key.
/// The answer is one flat object of the figures that the question declares; `halfnut` is the version of this
/// form, `version` that of the question. A reader leaves keys that it does not know alone. With `"say": true`
/// beside the values, `said` has each figure as a person reads it, in the units of the question, and `leads`
/// the keys of those that are the answer. With `tables`, a list of {"table": "material/alloys", "text": ...,
/// "name": ...}, a shop's own stand over the built-in ones as Overlay::add() lays them; the question
/// "questions" with them has schemas_json() of both. JSON is written here and nowhere else; it is read by the
/// face that gets it.

#include <exception>
#include <string>
#include <string_view>

#include "halfnut/core/question.hpp"

namespace halfnut {

inline constexpr int kJsonForm = 1;

/// The answer to a question that came as JSON.
///
/// Given
///   asked  the whole question, an object; a machine is an object as machine_of() reads it
/// Errors
///   DomainError        no question, or a value that it has not; the nearest is named
///   NotTabulatedError  no question of that name
///   as the question's own
[[nodiscard]] std::string answered_json(const Given& asked, const Catalogue& catalogue);

/// An answer: figures by their keys, then what it tells, the gravest first, then its evidence. A number that
/// does not apply is null. `say`: then `said` and `leads`.
[[nodiscard]] std::string answer_json(const Answer& answer, const Catalogue& catalogue, bool say = false);

/// The JSON Schema (2020-12) of a question; that of its answer stands in `$defs`. Beside the standard's words
/// a value has `unit` of its key, `dimension` where a text with a unit is understood, `kin` and `finer` as
/// the declaration has them, in `examples` names to pick from, and at a key `of`, the name of the argument
/// that it gives.
[[nodiscard]] std::string schema_json(const Question& question, const Catalogue& catalogue);

/// The JSON Schema of every question: `oneOf` holds theirs, in the order of the rooms.
[[nodiscard]] std::string schemas_json(const Catalogue& catalogue);

/// The JSON Schema of an argument as a person gives it.
[[nodiscard]] std::string argument_schema_json(const AskedRow& row, const Catalogue& catalogue);

/// {"error": {"code", "message", "argument", "value", "allowed", "nearest"}}; what is not known is left out.
///
/// Codes: "unit", "not_tabulated", "designation", "table", "domain", "input"; "memory" and "unforeseen" of
/// what is no error of the core.
[[nodiscard]] std::string error_json(const std::exception& error);

/// A text as JSON has it, in quotes.
[[nodiscard]] std::string json_text(std::string_view text);

}  // namespace halfnut
