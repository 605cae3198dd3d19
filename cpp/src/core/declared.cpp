#include "halfnut/core/declared.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace halfnut {

namespace {

extern const RecordRow kDeclaredArgument;
extern const RecordRow kDeclaredRecord;

std::vector<std::string> texts(std::span<const std::string_view> all) {
    return {all.begin(), all.end()};
}

// ---- an argument ------------------------------------------------------------------------------------------

std::optional<std::string_view> dimension(const AskedRow& row) {
    return row.has_dimension ? std::optional(dimension_name(row.dimension)) : std::nullopt;
}
std::string range(const AskedRow& row) {
    const std::string out = range_text(row.range);
    return out == "finite" ? std::string() : out;
}
std::vector<std::string> choices(const AskedRow& row) {
    return texts(row.choices);
}
std::vector<AskedRow> parts(const AskedRow& row) {
    const std::span<const AskedRow> all = row.parts == nullptr ? std::span<const AskedRow>() : row.parts();
    return {all.begin(), all.end()};
}

#define FIGURE(member, about) HALFNUT_FIGURE(AskedRow, member, about)
constexpr std::array kArgumentRows{
    FIGURE(name, "As a person gives it."),
    FIGURE(key, "As a column has it, with its unit."),
    FIGURE(kind, "What it is."),
    FIGURE(about, "A sentence."),
    FIGURE(unit, "Of the key."),
    made_figure<&dimension>("dimension", "Of the unit, where a text or a quantity is understood."),
    FIGURE(written, "A person gives it with its unit."),
    FIGURE(usual, "What is taken when it is not given."),
    FIGURE(kin, "A class that is understood beside text."),
    FIGURE(option, "A command's option for it, where that is not its name."),
    made_figure<&range>("range", "In words; empty where any finite number is."),
    FIGURE(range.low, "Least."),
    FIGURE(range.high, "Greatest."),
    FIGURE(range.low_open, "The least itself is outside."),
    FIGURE(range.high_open, "The greatest itself is outside."),
    made_figure<&choices>("choices", "Of a text that is one of these."),
    FIGURE(is_required, "There is no answer without it.").called("required"),
    FIGURE(is_placed, "Given by its place.").called("placed"),
    FIGURE(leading, "Rank of those whose unit is the answer's; 0 of others.").called("leads"),
    FIGURE(is_finer, "Left out of a command's shortest help.").called("finer"),
    made_records<kDeclaredArgument, &parts>("of", "Of an object: what may stand in it."),
};
#undef FIGURE
constexpr RecordRow kDeclaredArgument{"Argument", "An argument of a question.", kArgumentRows};

// ---- an answer --------------------------------------------------------------------------------------------

std::vector<std::string> figure_choices(const FigureRow& figure) {
    return texts(figure.choices);
}
std::vector<FigureRow> figures(const RecordRow& record) {
    return {record.figures.begin(), record.figures.end()};
}

#define FIGURE(member, about) HALFNUT_FIGURE(FigureRow, member, about)
constexpr std::array kFigureRows{
    FIGURE(key, "With its unit."),
    FIGURE(kind, "What it is."),
    FIGURE(about, "A sentence."),
    FIGURE(unit, "Of a number."),
    FIGURE(is_always, "Every answer has it.").called("always"),
    FIGURE(is_aside, "On no face; who asks by its key has it.").called("aside"),
    FIGURE(kin, "The class that a text is the name of."),
    made_figure<&figure_choices>("choices", "Of a text that is one of these."),
    FigureRow{.key = "of",
              .about = "Of a record, and of each of several.",
              .kind = AnsweredKind::record,
              .of = &kDeclaredRecord,
              .is_always = false,
              .get =
                  [](const void* figure) {
                      return record_value(kDeclaredRecord, static_cast<const FigureRow*>(figure)->of);
                  }},
};
#undef FIGURE
constexpr RecordRow kDeclaredFigure{"Figure", "A figure of an answer.", kFigureRows};

#define FIGURE(member, about) HALFNUT_FIGURE(RecordRow, member, about)
constexpr std::array kRecordRows{
    FIGURE(name, "Of its class."),
    FIGURE(about, "A sentence."),
    made_records<kDeclaredFigure, &figures>("figures", "In their order."),
    FIGURE(says.answer, "Template of the first line."),
    FIGURE(says.brief, "Labels of the rows of the short answer."),
    FIGURE(says.at_machine, "What comes before the figures is said with a caution."),
    FIGURE(items, "Key of the list that the answer comes to."),
    FIGURE(in_both, "The flat dictionary has both systems of units."),
};
#undef FIGURE
constexpr RecordRow kDeclaredRecord{"Record", "A record of figures.", kRecordRows};

// ---- a question -------------------------------------------------------------------------------------------

std::vector<AskedRow> arguments(const Question& question) {
    return {question.arguments.begin(), question.arguments.end()};
}

#define FIGURE(member, about) HALFNUT_FIGURE(Question, member, about)
constexpr std::array kQuestionRows{
    FIGURE(name, "Of function and command."),
    FIGURE(room, "Where it is."),
    FIGURE(about, "A sentence."),
    FIGURE(version, "Raised when a key goes or changes its meaning."),
    FIGURE(sources, "What its answers rest on."),
    FIGURE(example, "As commands, a line each."),
    made_records<kDeclaredArgument, &arguments>("arguments", "In their order."),
    FigureRow{.key = "answer",
              .about = "The record that is answered.",
              .kind = AnsweredKind::record,
              .of = &kDeclaredRecord,
              .get =
                  [](const void* question) {
                      return record_value(kDeclaredRecord, static_cast<const Question*>(question)->answer);
                  }},
};
#undef FIGURE

}  // namespace

constinit const RecordRow kDeclaredQuestion{"Question", "A question as it is declared.", kQuestionRows};

}  // namespace halfnut
