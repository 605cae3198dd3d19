#pragma once
/// The fastest passes as a person asks for them: the work, the tool and the machine by their names. Below it
/// stands <halfnut/cutting/choose.hpp>, which says what is chosen from and what is made least.

#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/cutting/choose.hpp"
#include "halfnut/cutting/knurling.hpp"
#include "halfnut/cutting/questions.hpp"

namespace halfnut::cutting {

/// A feed as the machine's chart has it: a revolution, or a minute at a table. NaN: not said.
struct ChartFeed {
    double mm = kNaN;
    bool per_minute = false;
};
void take(ChartFeed& to, const Given& given, const AskedRow& row, Asking& asking);

/// A choice of passes as it is asked for.
struct ChooseAsk {
    ChooseRequest cut;
    std::string alloy;
    std::string tool;
    const machine::Machine* machine = nullptr;
    Holder chuck;
    Stock stock;
    std::vector<double> steadies_mm;
    std::vector<WorkSection> sections;  ///< as for LatheAsk
    double cut_at_mm = 0.0;
    int flutes = 0;                 ///< 0: not said
    double now_spindle_rpm = kNaN;  ///< set now; NaN: not known, so that setting it counts
    ChartFeed now_feed;
    bool brief = false;  ///< passes alone: no prices, no gains, no next best
};

/// A limit or a gain by its name, and seconds.
struct Seconds {
    std::string name;
    double saved_s = kNaN;
};
/// What is left of a limit, or by what it would have to give.
struct Share {
    std::string name;
    double share = kNaN;
    double cost_s = kNaN;  ///< time that would be saved without it, where that is told beside it
    std::string said{};    ///< how far it would have to give
};

/// One pass: its cut, what it leaves, and where the dial stands.
struct PlannedPass {
    int number = 0;
    CutAnswer cut;
    ChosenPass chosen;
    std::optional<DialAt> dial;  ///< none: the measurement before sets it, or the machine has no dial for it
    std::string measure;         ///< what to measure before it and what to take then
    std::vector<LimitLeft> limits;
    std::vector<Told> told;
};

/// The fastest passes, or what stands in their way.
struct ChooseAnswer {
    Passes chosen;
    std::string work;  ///< what is done
    std::string alloy;
    std::string tool_material;
    std::string machine_name;
    std::string unit = "mm";
    double diameter_mm = kNaN;
    double to_mm = kNaN;
    double off_mm = kNaN;
    double depth_mm = kNaN;  ///< in all
    double edge_share = kNaN;
    std::string dial;  ///< slide whose dial sets the depth; empty where the machine has none
    std::vector<PlannedPass> passes;
    std::vector<Seconds> prices;
    std::vector<Share> slack;
    std::vector<Seconds> gains;
    std::vector<Share> relaxations;
    double next_s = kNaN;
    std::string next_words;
    std::vector<std::string> assumed;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kChoose;

/// The fastest passes over the machine's real steps and dial lines that keep every limit.
///
/// Errors
///   DomainError         a number out of its range, or one that contradicts another
///   NotTabulatedError   no such alloy, or no speed for this material and tool
///   TableError          the shop's row of the alloy or the tool cannot be used
[[nodiscard]] ChooseAnswer choose_passes(const ChooseAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
