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
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/threads/any_thread.hpp"

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

/// The power feeds of a machine that a cut is fed by, whether or not the machine has them.
HALFNUT_ENUM(Feeds, carriage, quill, table)
[[nodiscard]] const machine::FeedLadder& ladder_of(const machine::Machine& machine, Feeds feeds) noexcept;

/// One cut: the levers to set and what it comes to. NaN where a figure does not apply.
struct CutAnswer {
    CutResult cut;
    CutHeat heat;
    std::string operation;
    std::string alloy;
    std::string tool_material;
    std::string tool_name;
    std::optional<std::string> machine_name;
    std::string unit = "mm";          ///< of the question: in or mm
    std::string machine_unit = "mm";  ///< of the machine's dials and charts
    double diameter_mm = kNaN;
    double torque_low_nm = kNaN;
    double torque_high_nm = kNaN;
    double deflection_low_mm = kNaN;
    double deflection_high_mm = kNaN;
    std::optional<bool> force_verified;  ///< whether measured cuts bear the band out, where there is a force
    double chip_thinning = kNaN;
    std::vector<double> peck_depths_mm;
    Feeds feeds{};
    std::optional<int> spindle_step;  ///< place in the machine's list
    std::optional<int> feed_step;     ///< the same, where the feed is a step of the machine
    std::vector<std::pair<std::string, std::string>> spindle_positions;
    std::vector<std::pair<std::string, std::string>> feed_positions;
    double feed_marked = kNaN;
    std::optional<std::string> dial_slide;  ///< that sets the depth, where the machine has its dial
    std::optional<int> dial_turns;          ///< of its handle, from where the tool touches
    std::optional<int> dial_line;           ///< within the turn, to the nearest
    std::optional<std::string> feed_said;   ///< the feed to set; by hand, turns of the handle a minute
    std::vector<LimitLeft> limits;
    std::optional<bool> holds_at_edge;  ///< none: no limit follows the force
    std::optional<std::string> fluid;   ///< in one word
    std::vector<std::string> lacking;   ///< what the alloy's row is too poor to tell
    std::vector<std::string> assumed;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const RecordRow kCutRecord;
extern const std::array<Question, 6> kLatheQuestions;
extern const std::array<Question, 6> kHoleQuestions;
extern const std::array<Question, 4> kMillQuestions;

/// Where the jaws grip, and what of the work may not suffer. NaN: not said.
struct Grip {
    int jaws = 3;
    double grip_diameter_mm = kNaN;
    double grip_width_mm = kNaN;
    double friction = kNaN;  ///< with safety: tells the grip; never assumed
    double safety = kNaN;
    double tolerance_mm = kNaN;
    double out_of_round_mm = kNaN;
};

/// Large end of a taper: its diameter, or a self-holding taper by its name.
struct LargeEnd {
    double mm = kNaN;
    std::string name;
};
void take(LargeEnd& to, const Given& given, const AskedRow& row, Asking& asking);

/// A taper as it is asked for. NaN: not said.
struct TaperEnds {
    LargeEnd large;
    double small_mm = kNaN;
    double between_centres_mm = kNaN;
};

/// A groove as it is asked for. NaN: as wide as the blade.
struct GrooveSize {
    double width_mm = kNaN;
};

/// A cut at the lathe as it is asked for.
struct LatheAsk {
    TurnRequest cut;
    std::string alloy;
    std::string tool;
    const machine::Machine* machine = nullptr;
    Holder chuck;
    Stock stock;
    double pitch_mm = kNaN;             ///< of a thread
    double stiffness_n_um = kNaN;       ///< measured at the edge
    double damping = kNaN;              ///< ratio
    std::vector<WorkSection> sections;  ///< of stepped work, in place of the overhang
    double cut_at_mm = kNaN;            ///< where on them the cut begins, from the end that is free or last
    std::vector<double> steadies_mm;
    Grip grip;  ///< of work whose holding is asked about
    TaperEnds taper;
    GrooveSize groove;
};
/// A hole as it is asked for.
struct HoleAsk {
    HoleRequest cut;
    std::string alloy;
    std::string tool;
    const machine::Machine* machine = nullptr;
    Holder chuck;
    Stock stock;
    int flutes = 0;             ///< 0: not said
    threads::AnyThread thread;  ///< of a tap
    bool form = false;          ///< of a tap, without a chip
};

/// What a slitting saw cuts.
struct Slit {
    double blade_mm = kNaN;
    double thickness_mm = kNaN;
    double depth_mm = kNaN;
};

inline constexpr MillShape kUsualShape = MillShape::side;

/// A cut at the mill as it is asked for.
struct MillAsk {
    MillRequest cut{.shape = kUsualShape, .work = {}};
    std::string alloy;
    std::string tool;
    const machine::Machine* machine = nullptr;
    int flutes = 0;          ///< 0: not said
    double angle_deg = 3.0;  ///< of a way down
    double hole_mm = kNaN;   ///< that a helix leaves
    Slit slit;
};

/// How an end mill goes down into the work: a slope or a helix, and the slot cut at full depth.
struct EntryAnswer {
    std::string way;
    std::string unit = "mm";  ///< of the question: in or mm
    double angle_deg = kNaN;
    double turns = kNaN;
    double pitch_mm = kNaN;
    double length_mm = kNaN;
    double feed_mm_min = kNaN;
    double time_s = kNaN;
    CutAnswer cut;
    std::vector<Told> told;
};

/// A taper: how to set the lathe, and the cut at its large end.
struct TaperAnswer {
    std::string unit = "mm";  ///< of the question, or of the named taper
    double angle_deg = kNaN;  ///< between side and axis
    double taper_per_foot_in = kNaN;
    double setover_mm = kNaN;
    CutAnswer cut;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};

/// A groove: plunges side by side, each a cut of the blade.
struct GrooveAnswer {
    std::string unit = "mm";
    int plunges = 1;
    std::string plunges_said;
    double step_mm = 0.0;
    double time_s = kNaN;
    CutAnswer cut;
};
extern const std::array<Question, 2> kShapeQuestions;

/// The questions of the lathe, of holes and of the mill.
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
[[nodiscard]] TaperAnswer taper(const LatheAsk& asked, const Asking& asking);
[[nodiscard]] GrooveAnswer groove(const LatheAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer drill(const HoleAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer spot(const HoleAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer countersink(const HoleAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer counterbore(const HoleAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer ream(const HoleAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer tap(const HoleAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer mill(const MillAsk& asked, const Asking& asking);
[[nodiscard]] EntryAnswer ramp(const MillAsk& asked, const Asking& asking);
[[nodiscard]] EntryAnswer helix(const MillAsk& asked, const Asking& asking);
[[nodiscard]] CutAnswer saw(const MillAsk& asked, const Asking& asking);

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
    std::string unit = "mm";  ///< of the question: in or mm
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
