#pragma once
/// How an answer is told: the templates of `Says` filled with its figures, and what it cautions of and rests
/// on. What stands in a template, question.hpp says; beside its figures every record has {answer}, its own
/// first line, {unit}, that in which it is told, {cited}, the sources of its evidence, and {kinds}, theirs.

#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/core/question.hpp"
#include "halfnut/core/tables.hpp"

namespace halfnut {

/// Whether a record could be the answer to a question of its own: it tells something.
[[nodiscard]] bool answers_itself(const RecordRow& row);

/// The question that a class of things is told by, which takes their names: of "Alloy" that of an alloy.
[[nodiscard]] const Question& question_of(std::string_view kin);

/// The shortest digits that read back to the same bits, with a point so that a reader takes no whole number
/// for a count; "null" where there is no number.
[[nodiscard]] std::string number_text(double value);

/// A number, count or flag as a double; nothing of anything else.
[[nodiscard]] std::optional<double> number_in(const Value& value);

/// Texts as one, with a semicolon between them; of what is told the codes.
[[nodiscard]] std::string joined_text(const Value& value);

/// Where a figure stands in an answer.
struct FigurePlace {
    const FigureRow* within = nullptr;  ///< the record of the answer that it is of, if any
    std::size_t place = 0;              ///< in that record
    const FigureRow* figure = nullptr;
};

/// The figure of a key: an answer's own, or "hole_max_mm" of the figure max_mm within the record hole.
///
/// Errors
///   DomainError  there is none
[[nodiscard]] FigurePlace find_figure(const Question& question, std::string_view key);

/// A caution of an answer, in words.
struct ToldCaution {
    Rank rank{};
    std::string code;
    std::string text;
    double gravity = 0.0;
};

/// What an answer and the answers within it caution of and rest on, its own first, each once.
struct Tells {
    std::vector<ToldCaution> cautions;
    std::vector<EvidenceText> evidence;
};

[[nodiscard]] Tells tells_of(const RecordRow& row, const Values& values, const Catalogue& catalogue);

/// A place of a template: the list and the code of a text of the words, or what is told at a path.
struct Place {
    std::string_view list{};
    std::string_view code{};
    std::string_view times{};
    std::string_view path{};
    std::string_view test{};
    std::string_view than{};
    std::string_view last{};
    std::string_view over{};
    std::string_view kind{};
};

/// Every place of a template.
[[nodiscard]] std::vector<Place> places_in(std::string_view text);

/// A template with what stands at its paths by a function; nothing where one lacks outside square brackets.
///
/// Given
///   text    a template
///   figure  the value at a path
///   unit    what lengths are told in, "mm" or "in"
/// Example
///   filled_with("to {end}[, {depth_mm} deep]", figure, "mm", catalogue) is "to 2 in" where only
///   figure("end") is there
[[nodiscard]] std::optional<std::string> filled_with(
    std::string_view text, const std::function<Value(std::string_view path)>& figure, std::string_view unit,
    const Catalogue& catalogue);

/// A record that is told: an answer, whose figures are read when they are asked for, or one within it.
class Telling {
   public:
    /// The tables must outlive it.
    Telling(const Answer& answer, const Catalogue& catalogue);
    /// Of a record by its values; one that does not answer itself is told in the unit of its answer.
    Telling(const RecordRow& row, Values values, const Catalogue& catalogue, std::string_view unit = "mm");

    /// The same, told in another unit: "mm" or "in".
    [[nodiscard]] Telling in(std::string_view unit) const;

    [[nodiscard]] const RecordRow& row() const { return *row_; }
    /// The figure of a place in row().
    [[nodiscard]] Value figure(std::size_t place) const;
    /// All of them, in the order of row(); nothing for one that is made when it is asked for.
    [[nodiscard]] Values values() const;
    /// The records at a place: none, one or several.
    [[nodiscard]] std::vector<Telling> within(std::size_t place) const;

    /// A template with the record's figures; nothing where it lacks one outside square brackets.
    [[nodiscard]] std::optional<std::string> filled(std::string_view text) const;
    /// The answer in one line.
    [[nodiscard]] std::string answer() const;
    /// What stands under it: label and text.
    [[nodiscard]] std::vector<std::pair<std::string, std::string>> rows() const;

   private:
    const RecordRow* row_;
    const Catalogue* catalogue_;
    std::shared_ptr<const void> record_;    ///< of an answer
    std::shared_ptr<const Values> values_;  ///< of one within it
    std::string unit_ = "mm";
};

}  // namespace halfnut
