#pragma once
/// Cuts as a person asks for them: the work by its name, the tool by its name, the machine with its levers;
/// and the one answer they share. Below them stand the requests of <halfnut/cutting/turning.hpp> and its
/// neighbours.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/cutting/heat.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/turning.hpp"

namespace halfnut::cutting {

/// Bar or blank that is held: its diameter, or a hexagon across its flats. NaN: not said.
struct Stock {
    double diameter_mm = kNaN;
    double flats_mm = kNaN;
};
/// What of the machine holds the work: its name, or its place in the machine's list; the first where neither
/// is said.
struct Holder {
    std::string name;
    int place = -1;
};
void take(Stock& to, const Given& given, const AskedRow& row, Asking& asking);
void take(Holder& to, const Given& given, const AskedRow& row, Asking& asking);
void take(std::vector<WorkSection>& to, const Given& given, const AskedRow& row, Asking& asking);

/// A limit of a cut: what is used of it and what is left, as a share of the bound; below zero it is passed.
struct LimitLeft {
    std::string name;
    double value = kNaN;
    double bound = kNaN;
    double slack = kNaN;
};

/// One cut: the levers to set and what it comes to. NaN where a figure does not apply.
struct CutAnswer {
    CutResult cut;
    CutHeat heat;
    std::string operation;
    std::string alloy;
    std::string tool_material;
    std::string tool_name;
    std::optional<std::string> machine_name;
    bool inch = false;
    bool machine_inch = false;
    double diameter_mm = kNaN;
    double torque_low_nm = kNaN;
    double torque_high_nm = kNaN;
    double deflection_low_mm = kNaN;
    double deflection_high_mm = kNaN;
    std::optional<bool> force_verified;  ///< whether measured cuts bear the band out, where there is a force
    double chip_thinning = kNaN;
    std::vector<double> peck_depths_mm;
    std::optional<int> spindle_step;  ///< place in the machine's list
    std::optional<int> feed_step;     ///< the same, where the feed is a step of the machine
    std::vector<std::pair<std::string, std::string>> spindle_positions;
    std::vector<std::pair<std::string, std::string>> feed_positions;
    double feed_marked = kNaN;
    std::vector<LimitLeft> limits;
    std::vector<std::string> assumed;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const RecordRow kCutRecord;
extern const std::array<Question, 6> kLatheQuestions;

/// A cut at the lathe as it is asked for.
struct LatheAsk {
    TurnRequest cut;
    std::string alloy;
    std::string tool;
    const machine::Machine* machine = nullptr;
    Holder chuck;
    Stock stock;
    double pitch_mm = kNaN;             ///< of a thread
    std::vector<WorkSection> sections;  ///< of stepped work, in place of the overhang
    std::vector<double> steadies_mm;
};

/// The questions of the lathe.
///
/// Errors
///   DomainError         a number out of its range; a tool, a chuck or a hold that there is not
///   NotTabulatedError   no such alloy, or no speed for this material and tool
///   TableError          the shop's row of the alloy or the tool cannot be used
[[nodiscard]] CutAnswer turn(const LatheAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer face(const LatheAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer bore(const LatheAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer part_off(const LatheAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer knurl(const LatheAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer thread_speed(const LatheAsk& asked, const Asking& asking);

/// The life of an edge in turning as it is asked for.
struct LifeAsk {
    std::string alloy;
    std::string tool;
    double feed_mm_rev = kNaN;
    double depth_mm = kNaN;
    double speed_m_min = kNaN;
    double life_min = kNaN;
    double change_min = kNaN;
    double edge_cost = kNaN;  ///< in the currency of cost_per_min
    double cost_per_min = kNaN;
    double hardness_hb = kNaN;
    const machine::Machine* machine = nullptr;
    double diameter_mm = kNaN;
};

/// Life of an edge in turning. NaN where a figure was not asked for.
struct LifeAnswer {
    std::string alloy;
    std::string tool_material;
    bool inch = false;
    double feed_mm_rev = kNaN;
    double depth_mm = kNaN;
    double exponent = kNaN;
    double c_m_min = kNaN;
    double at_speed_m_min = kNaN;
    double life_min = kNaN;
    double life_low_min = kNaN;
    double life_high_min = kNaN;
    double for_life_min = kNaN;
    double speed_m_min = kNaN;
    double speed_low_m_min = kNaN;
    double speed_high_m_min = kNaN;
    double fastest_life_min = kNaN;
    double fastest_speed_m_min = kNaN;
    double economic_life_min = kNaN;
    double economic_speed_m_min = kNaN;
    double spindle_rpm = kNaN;
    double fastest_rpm = kNaN;
    double economic_rpm = kNaN;
    bool verified = false;
    std::vector<std::string> assumed;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kLifeQuestion;

/// Life of an edge at a speed, the speed for a life, and the lives for most and for cheapest parts.
///
/// Errors
///   DomainError         a number out of its range; no such tool; one cost without the other
///   NotTabulatedError   no such alloy, or no trials of it with this tool near this feed and depth
[[nodiscard]] LifeAnswer tool_life(const LifeAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
