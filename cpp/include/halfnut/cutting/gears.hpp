#pragma once
/// Change gears as a person asks for them: trains for a thread, a lead or a feed, and how good they are.

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/machine/gear_train.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::cutting {

/// Limits of a part as it is cut: of a taper one in its gauge plane.
[[nodiscard]] threads::PartLimits cut_limits(const Catalogue& catalogue, const threads::PartAsked& part);

/// What the limits of a part rest on.
void append_evidence(const Catalogue& catalogue, const threads::PartLimits& part,
                     std::vector<EvidenceText>& out);

/// What the carriage is to travel for a turn of the spindle.
struct LeadWanted {
    std::string title;
    machine::Ratio mm;
    bool inch = false;
    bool feed = false;  ///< of a chart of feeds, not of the leadscrew
    int starts = 1;
    double engagement_mm = kNaN;
    double tolerance_mm = kNaN;  ///< of the pitch diameter; NaN: none is known
    double half_angle_deg = 30.0;
};
/// A thread's lead, over its engagement; of a taper one by hand, without a tolerance of the pitch diameter.
[[nodiscard]] LeadWanted lead_of(const Catalogue& catalogue, const threads::PartLimits& part);
void take(LeadWanted& to, const Given& given, const AskedRow& row, Asking& asking);

/// Teeth of gears, equal ones repeated.
struct Teeth {
    std::vector<int> teeth;
};
void take(Teeth& to, const Given& given, const AskedRow& row, Asking& asking);

struct GearAsk {
    LeadWanted lead;
    const machine::Machine* machine = nullptr;
    Teeth gears;  ///< in place of a machine
    LeadWanted leadscrew;
    double spindle_to_stud = kNaN;
    double engagement_mm = kNaN;
    double error_percent = 0.1;
    int most = 10;
    bool simple = false;
    bool no_gearbox = false;
};

/// A train of change gears. NaN where a figure does not apply.
struct GearTrainAnswer {
    std::string what;
    std::string unit = "mm";
    double wanted_mm = kNaN;
    double gives_mm = kNaN;
    double error = kNaN;
    bool exact = false;
    std::vector<int> drivers;
    std::vector<int> driven;
    std::optional<int> idler;
    std::string ends_on;
    std::vector<std::pair<std::string, std::string>> positions;
    double chart_mm = kNaN;
    bool standard = false;
    machine::Mounting mounting{};
    double stud_to_banjo_mm = kNaN;
    double banjo_to_screw_mm = kNaN;
    double stud_to_screw_mm = kNaN;
    std::string lathe_unit = "mm";
    double engagement_mm = kNaN;
    double lead_error_mm = kNaN;
    double on_pitch_diameter_mm = kNaN;
    double pitch_tolerance_mm = kNaN;
    std::optional<bool> good_enough;
    int starts = 1;
    std::optional<int> index_teeth;
    // as it is said
    std::string said;
    std::string gears;
    std::string error_said;
    std::string mounting_said;
    std::optional<std::string> judgement;
    std::optional<std::string> indexing;
    std::vector<std::pair<std::string, std::string>> shafts;
    std::vector<std::string> steps;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const RecordRow kGearTrainRecord;

/// Trains, best first, and how the search went.
struct GearTrainsAnswer {
    std::string title;
    std::vector<GearTrainAnswer> trains;
    int found = 0;
    int refused = 0;
    double asked_percent = kNaN;
    double error_percent = kNaN;
    std::string said;
    std::optional<std::string> wider;
    std::vector<std::string> others;
    std::string search;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kGearTrain;

/// Every train of change gears for a thread, a lead or a feed, best first.
///
/// Errors
///   DomainError  no leadscrew or no gears to work with, teeth out of range, a feed without a chart of feeds
/// Notes
///   1) Where no train is within the limit of error the nearest is answered.
/// Example
///   1.5 mm from 20, 30, 40, 50, 60, 120, 127 and 8 TPI: 60/127, exact
[[nodiscard]] GearTrainsAnswer gear_train(const GearAsk& asked, const Asking& asking);

/// What two gears turn into what.
enum class Translating : std::uint8_t { inches, millimetres };
constexpr auto enum_names(Translating /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Translating::inches, string_view("inches")},
                      std::pair{Translating::millimetres, string_view("millimetres")}};
}

struct PairsAsk {
    Teeth gears;
    const machine::Machine* machine = nullptr;
    Translating cut = Translating::inches;
    int simplest = 6;
    double error_percent = 0.1;
};

/// Pairs of gears that turn inches to millimetres, or back.
struct PairsAnswer {
    Translating cut{};
    std::vector<machine::TranslatingPair> pairs;
    std::string said;
    std::vector<std::string> each_said;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kTranslatingPairs;

/// Pairs of gears that turn inches to millimetres once a simple ratio is added, found by trying every pair.
///
/// Errors
///   DomainError  teeth out of range, machine and gears both
/// Example
///   100, 120, 127: 127/100 exact, then 127/120 with 6/5
[[nodiscard]] PairsAnswer translating_pairs(const PairsAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
