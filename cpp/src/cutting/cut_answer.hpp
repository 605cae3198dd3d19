#pragma once
// What the questions of all cuts have in common: work, tool and holder by their names, and the answer made of
// a result.

#include <span>
#include <string>
#include <string_view>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/question.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/questions.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/tooling.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// A usual number of the tool where none was given.
inline void from_tool(double& given, double of_tool) {
    given = std::isnan(given) ? of_tool : given;
}

/// A cut on stepped work: how that is held, where the cut begins from its free or last end, how long it is,
/// and the diameter that it leaves. NaN of the length: to the chuck or the first centre.
struct CutOnSteps {
    Hold hold{};
    double at_mm = 0.0;
    double length_mm = kNaN;
    double finished_mm = kNaN;
};
[[nodiscard]] TurnedBeam turned_beam(const std::vector<WorkSection>& sections,
                                     const std::vector<double>& steadies_mm, const material::AlloyRow& alloy,
                                     const CutOnSteps& cut);

/// Sizes that belong together: a list, or a text with commas between.
[[nodiscard]] std::vector<Given> sizes_of(const Given& sizes);

/// Whether a question has the argument of a key.
[[nodiscard]] bool asks(std::span<const AskedRow> rows, std::string_view key) noexcept;

/// The stock that is held, as a request of a cut has it.
template <class Request>
void set_stock(Request& request, const Stock& stock) {
    if (!std::isnan(stock.diameter_mm)) {
        request.stock_diameter_mm = stock.diameter_mm;
    }
    if (!std::isnan(stock.flats_mm)) {
        request.stock_flats_mm = stock.flats_mm;
    }
}

/// What a question knows of a cut beside its result.
struct CutContext {
    /// A tool that nobody named is assumed.
    CutContext(const Catalogue& tables, std::string_view what, const material::AlloyRow& of, Tool with);

    const Catalogue& catalogue;
    std::string_view operation;
    const material::AlloyRow& alloy;
    Tool tool;
    const machine::Machine* machine = nullptr;
    Feeds feeds{};
    bool hole = false;  ///< a hole is drilled, reamed, tapped or shaped at its mouth
    double diameter_mm = kNaN;
    bool inch = false;
    std::vector<std::string> assumed;
    std::vector<std::string> extra;  ///< codes of cautions that only the question tells of
};
/// Whether a limit, by its name, is one of the force: power, torque, deflection.
[[nodiscard]] inline bool follows_force(std::string_view limit) {
    return limit == enum_name(LimitCode::power) || limit == enum_name(LimitCode::torque) ||
           limit == enum_name(LimitCode::deflection);
}

[[nodiscard]] CutAnswer answer_of(const CutContext& context, const CutResult& result);

/// A word on how much of a bar may stand out behind the spindle, where nobody said.
void note_bar(const machine::Machine* machine, const TurnRequest& request, const material::AlloyRow& alloy,
              bool asking_inch, CutAnswer& out);

/// A limit as an answer tells it.
extern const RecordRow kLimitRecord;
[[nodiscard]] LimitLeft limit_left(const Limit& limit);

/// Tell what the alloy's chips, dust and fume can do.
void tell_hazards(const material::AlloyRow& alloy, std::vector<Told>& told);

/// Code of what a skin of the stock is told by.
[[nodiscard]] std::string skin_code(Skin skin);

/// Whether the alloy's group, or one above it, has this name, or begins with it.
[[nodiscard]] bool in_group(const Catalogue& catalogue, const material::AlloyRow& alloy,
                            std::string_view name, bool begins = false);

/// A size as notes and errors write it: "0.04 in", "1 mm".
inline std::string size_text(double mm, bool inch) {
    return spell(mm, FigureKind::size, inch ? UnitSystem::inch : UnitSystem::metric);
}

/// Unit of a question's lengths.
inline const char* unit_name(bool inch) {
    return inch ? "in" : "mm";
}

}  // namespace halfnut::cutting
