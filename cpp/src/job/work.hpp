#pragma once
// A part as it comes from operation to operation, and the questions about the one in hand: what the files of
// this room that answer operations share.

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "halfnut/core/spell.hpp"
#include "halfnut/cutting/questions.hpp"
#include "halfnut/job/answer.hpp"
#include "halfnut/job/lot.hpp"
#include "said_table.hpp"

namespace halfnut::job {

inline constexpr double kApproachMm = 2.0;  // of drills, reamers, taps
inline constexpr double kSame = 1e-9;       // of a size within its limits, of a count

/// Arguments by their names; of those of one name the last counts, nothing is not given.
using Own = std::vector<std::pair<std::string_view, Given>>;

inline Given number(double value) {
    return {.tag = Given::Tag::number, .number = value};
}
inline Given flag(bool value) {
    return {.tag = Given::Tag::flag, .number = value ? 1.0 : 0.0};
}
/// A text that stands longer than the question.
inline Given text(std::string_view value) {
    return {.tag = Given::Tag::text, .text = value};
}
/// Numbers that are not there count nothing.
inline double known(double value) {
    return std::isnan(value) ? 0.0 : value;
}
/// A figure of an answer by its key.
[[nodiscard]] Value figure(const Answer& answer, std::string_view key);

class Work {
   public:
    Work(const Given& said, const Part& of, const WalkedPart& found, const Catalogue& tables, Kept& store)
        : part_said(said), part(of), walked_part(found), catalogue(tables), kept(store) {}

    /// Take an operation in hand, by its place; `keep` has the spindle step that it shares with a neighbour.
    void take(std::size_t place, const std::optional<StepAt>& keep);

    // ---- sizes in the part's own unit ----
    [[nodiscard]] UnitSystem system() const { return part.inch ? UnitSystem::inch : UnitSystem::metric; }
    [[nodiscard]] Quantity size_of(double mm) const;
    [[nodiscard]] Given length(double mm) const;
    [[nodiscard]] std::string spelled(double mm) const { return spell(mm, FigureKind::length, system()); }

    // ---- what the operation says ----
    [[nodiscard]] const Given& said(std::string_view key) const { return at(*step_said, key); }
    [[nodiscard]] double base(std::string_view key) const { return size_or_0(*step_said, key); }
    [[nodiscard]] bool is_said(std::string_view key) const { return is_given(*step_said, key); }
    /// A text, empty where it is not given.
    [[nodiscard]] std::string_view word(std::string_view key) const {
        const Given& found = said(key);
        return found.tag == Given::Tag::text ? found.text : std::string_view();
    }
    [[nodiscard]] Do what() const { return step->what; }
    [[nodiscard]] const machine::Machine& machine() const { return *step->machine; }
    [[nodiscard]] bool at_lathe() const { return machine().kind == machine::Kind::lathe; }
    [[nodiscard]] double times() const { return step->times; }

    // ---- what the walk finds ----
    [[nodiscard]] double outside_mm() const { return known(walked->start_mm); }
    [[nodiscard]] double hole_mm() const { return walked->hole_mm; }
    [[nodiscard]] Given bore() const { return std::isnan(hole_mm()) ? Given{} : length(hole_mm()); }
    /// Whether what the operation makes will bear a coating.
    [[nodiscard]] bool is_coated() const { return has_coating() && !step->masked; }
    [[nodiscard]] bool has_coating() const { return is_given(part_said, "coating"); }

    // ---- asking ----
    /// Ask about the operation: what is not given here the operation, its part or the walk tell.
    const Asked& ask(std::string_view question, const Own& own);
    /// Ask with what is given alone.
    const Asked& put(std::string_view question, const Own& own);
    /// An answer as another question takes it.
    [[nodiscard]] static Given given(const Asked& asked);
    [[nodiscard]] Given given(const threads::AnyThread& thread);
    [[nodiscard]] Given coating() const;
    std::string_view keep(std::string text) { return kept.texts.emplace_back(std::move(text)); }

    // ---- levers and time ----
    [[nodiscard]] std::vector<Levers> levers_of(const cutting::CutAnswer& cut) const;
    /// Seconds for the tool, the levers that differ from the operation before, and measuring.
    [[nodiscard]] double overhead_s(const std::vector<Levers>& levers, int measured = 1) const;
    /// Note how an operation leaves the machine.
    void leave(const Answered& found);

    const Given& part_said;
    const Part& part;
    const WalkedPart& walked_part;
    const Catalogue& catalogue;
    Kept& kept;
    const Given* step_said = nullptr;
    const Step* step = nullptr;
    const Kind* kind = nullptr;
    const Walked* walked = nullptr;
    std::optional<StepAt> shared{};
    const cutting::CutAnswer* set_to = nullptr;  ///< last cut of the operation before, where it was chosen
    const machine::Machine* set_on = nullptr;

   private:
    [[nodiscard]] Own told();
    [[nodiscard]] Given hold();
    void tell_stock(Own& out);
    void tell_sections(Own& out);

    std::vector<std::pair<std::string_view, std::string_view>>
        called_{};                            ///< keys that the question calls otherwise
    const machine::Machine* last_ = nullptr;  ///< machine of the operation before, and how it stands
    std::vector<Levers> last_levers_{};
    std::optional<std::pair<int, std::string_view>> centre_{};  ///< holding that one was brought up in, how
};

/// The answer of one cut that is repeated; `why` no passes were found, where they were looked for.
[[nodiscard]] Answered cut_answer(const Work& work, std::string_view name, const Asked& asked,
                                  const cutting::CutAnswer& cut, std::vector<Pass> passes,
                                  std::vector<Size> sizes, std::string dial = {},
                                  const std::string& why = {});
/// The answer from the fastest passes within every limit; or why there are none.
[[nodiscard]] std::variant<Answered, std::string> chosen_passes(Work& work, double diameter_mm,
                                                                std::vector<Size> sizes, Own own);
[[nodiscard]] std::vector<Remark> across_remark(const Work& work, int across);
/// Equal passes on the radius, each but the last ending on a line of the dial; the last is measured before.
[[nodiscard]] std::vector<Pass> passes_between(const Work& work, double start_mm, double to_mm);
/// Passes to depths along the axis, by what they reach or, `left`, by what is still on.
[[nodiscard]] std::vector<Pass> axial_passes(double total_mm, const std::vector<double>& depths,
                                             const machine::Slide* slide, bool left = false);
/// Passes of at most a depth that take a depth in all; a depth that needs too many is refused.
[[nodiscard]] int pass_count(const Work& work, double total_mm, double deepest_mm);
/// Depths reached after each of equal passes; all but the last on a line, the last two as equal as lines
/// allow.
[[nodiscard]] std::vector<double> shares_of(double total_mm, int count, double line_mm);
/// The depth of a pass where the job gives none.
[[nodiscard]] double deepest_pass_mm(const Work& work);
/// The reading of a dial that was set to nought.
[[nodiscard]] std::optional<cutting::DialAt> reading(const machine::Slide* slide, double travel_mm);
/// Limits to cut a thread to: those of its class, or those before the coating that it will bear.
[[nodiscard]] const Asked& limits_to_cut(Work& work, const threads::AnyThread& thread, threads::Side side,
                                         const Given& engagement = {});
/// What to mind of a thread that is to be coated; none: of a taper thread.
void coating_remarks(const Work& work, const Asked* limits, std::vector<Remark>& out);

// One a kind of operation.
[[nodiscard]] Answered answer_sized(Work& work);
[[nodiscard]] Answered answer_taper(Work& work);
[[nodiscard]] Answered answer_groove(Work& work);
[[nodiscard]] Answered answer_face(Work& work);
[[nodiscard]] Answered answer_part_off(Work& work);
[[nodiscard]] Answered answer_knurl(Work& work);
[[nodiscard]] Answered answer_thread(Work& work);
[[nodiscard]] Answered answer_hole(Work& work);
[[nodiscard]] Answered answer_tap(Work& work);
[[nodiscard]] Answered answer_mill(Work& work);
[[nodiscard]] Answered answer_saw(Work& work);

}  // namespace halfnut::job
