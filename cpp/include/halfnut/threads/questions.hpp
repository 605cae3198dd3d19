#pragma once
/// Threads as a person asks for them: what a question takes, what it answers. Their arguments and figures are
/// declared in src/threads/*_questions.cpp.

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/coating_questions.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/holes.hpp"
#include "halfnut/threads/judge.hpp"
#include "halfnut/threads/precoat.hpp"
#include "halfnut/threads/wires.hpp"

namespace halfnut::threads {

/// A thread by its designation, of any form.
void take(AnyThread& to, const Given& given, const AskedRow& row, Asking& asking);

/// One part of a thread: by a designation, or by limits that an earlier answer gave.
struct PartAsked {
    std::variant<std::monostate, AnyThread, std::shared_ptr<const PartLimits>> is{};

    PartAsked() = default;
    PartAsked(AnyThread thread) : is(std::move(thread)) {}
    PartAsked(PartLimits limits) : is(std::make_shared<const PartLimits>(std::move(limits))) {}
    /// The limits that were given; null where a designation was.
    [[nodiscard]] const PartLimits* limits() const noexcept {
        const auto* const given = std::get_if<std::shared_ptr<const PartLimits>>(&is);
        return given == nullptr ? nullptr : given->get();
    }
};
void take(PartAsked& to, const Given& given, const AskedRow& row, Asking& asking);

/// Limits of the part that is meant: of the usual class where none is given; limits that are given as they
/// are.
///
/// Given
///   side  which part it is to be; none: the one that is named, else the external one
/// Errors
///   DomainError        the class, or the limits, of the other part; a length of engagement out of its range
///   NotTabulatedError  a class or form without figures, a taper thread
[[nodiscard]] PartLimits limits_of(const Catalogue& catalogue, const PartAsked& part,
                                   std::optional<Side> side = std::nullopt, const LimitOptions& options = {});

/// Limits to cut to before a coating; the same where there is none.
///
/// Errors
///   DomainError  these are limits before a coating already; the coating varies by more than the tolerance
[[nodiscard]] PartLimits before(const Catalogue& catalogue, const PartLimits& limits,
                                const BuildUp& build_up);

/// What limits rest on; of limits before coating what that rests on comes first.
[[nodiscard]] std::vector<EvidenceText> evidence_of(const Catalogue& catalogue, const PartLimits& limits);

struct LimitsAsk {
    PartAsked thread{};
    std::optional<Side> side{};
    double engagement_mm = kNaN;
    UnifiedRule rule{};
};

/// What the gauges for a part are made to, in the standard's own unit.
struct GaugeAnswer {
    double go_pitch = kNaN;
    double go_crest = kNaN;
    double not_go_pitch = kNaN;
    double plain_go = kNaN;
    double plain_not_go = kNaN;
};

/// Limits of one part. What there is to tell of them, and what they rest on, is made when it is read, of the
/// catalogue that they were asked of, which outlives them.
struct LimitsAnswer {
    PartLimits limits{};
    const Catalogue* catalogue = nullptr;
    /// The internal part, where a designation means both.
    std::shared_ptr<const LimitsAnswer> other{};
};
extern const Question kThreadLimits;

/// Limits of size of one part, or of both where the designation names neither; limits that are given come
/// back.
///
/// Errors
///   DomainError        the class, or the limits, of the other part; a length of engagement out of its range
///   NotTabulatedError  a class or form without figures, a taper thread
/// Example
///   M10x1.5-6g: pitch_max = 8.994
[[nodiscard]] LimitsAnswer limits(const LimitsAsk& asked, const Asking& asking);

struct PrecoatAsk {
    PartAsked thread{};
    BuildUp build_up{};
    GaugedAt gauged_at{};
    double engagement_mm = kNaN;
    UnifiedRule rule{};
    std::string on{};
};
extern const Question kPrecoat;

/// Limits to cut a part to so that it gauges once it is coated.
///
/// Errors
///   DomainError  the coating varies by more than the tolerance, the alloy does not take it, or these are
///                limits before a coating already
/// Example
///   M10-6h under 8 um: pitch_max = 8.994
[[nodiscard]] LimitsAnswer precoat(const PrecoatAsk& asked, const Asking& asking);

/// A pitch as a length, or as threads per inch: "20 tpi".
struct PitchAsked {
    double mm = kNaN;
};
void take(PitchAsked& to, const Given& given, const AskedRow& row, Asking& asking);

/// Smallest and largest of a diameter, or one that was measured.
struct SizesAsked {
    SizeRange mm{};
};
void take(SizesAsked& to, const Given& given, const AskedRow& row, Asking& asking);

struct PlainThreadAsk {
    Side side{};
    PitchAsked pitch{};
    double half_angle_deg = kNaN;
    SizesAsked pitch_diameter{};
    SizesAsked major{};
    SizesAsked minor{};
    int starts = 1;
    Hand hand{};
    std::string title{};
};
extern const Question kPlainThread;

/// One part of a thread by its sizes, for forms that have no designation here.
///
/// Errors
///   DomainError  a pair that is not in order, or a crest on the wrong side of the pitch diameter
/// Example
///   external, pitch 4 mm, 15 deg, pitch diameter 17.6 to 17.9 mm: pitch_max = 17.9
[[nodiscard]] LimitsAnswer plain_thread(const PlainThreadAsk& asked, const Asking& asking);

/// The wire at hand, or "best" for the one that touches at the pitch line.
struct WireAsked {
    double mm = kNaN;
    bool best = false;
};
void take(WireAsked& to, const Given& given, const AskedRow& row, Asking& asking);

struct WiresAsk {
    PartAsked thread{};
    WireAsked wire{};
    std::string set{};
    BuildUp build_up{};
};

/// Sizes over wires for the limits of a part.
struct WiresAnswer {
    std::string thread{};
    Side side{};
    std::string unit{};
    OverWires read{};
    double pitch_max_mm = kNaN;
    double pitch_min_mm = kNaN;
    bool before_coating = false;
    double coated_max_mm = kNaN;
    double coated_min_mm = kNaN;
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kWires;

/// What to read over wires for the limits of a thread.
///
/// Errors
///   DomainError        the wire is out of the usable range, or no wire measures so steep a thread
///   NotTabulatedError  no such set
/// Example
///   M10-6g: wire 0.895 mm, over_max_mm = 10.3817
[[nodiscard]] WiresAnswer wires(const WiresAsk& asked, const Asking& asking);

struct PlugAsk {
    PartAsked thread{};
    std::vector<double> pitch_mm{};  ///< least and greatest, in place of the limits
    WireAsked wire{};
    BuildUp build_up{};
};

/// Sizes of a plug that a shop cuts for itself to try an internal thread with.
struct PlugAnswer {
    std::string thread{};
    std::string unit{};
    double go_pitch_mm = kNaN;
    double go_major_mm = kNaN;
    double go_over_wires_mm = kNaN;
    double not_go_pitch_mm = kNaN;
    double not_go_major_mm = kNaN;
    double not_go_over_wires_mm = kNaN;
    double wire_mm = kNaN;
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kShopPlug;

/// Sizes of a go and not-go plug for an internal thread, with the readings over wires to cut them by.
///
/// Errors
///   DomainError  the thread is external, the pair is not in order, or the wire does not measure the plug
/// Notes
///   1) The go end has the form of the largest screw of the smallest nut; the not-go end touches on the
///   flanks about the pitch line only, so its crest is kept two thirds of the depth above it (of a 60 degree
///   thread a quarter of the triangle's height).
/// Example
///   M10-6H: go_pitch_mm = 9.026
[[nodiscard]] PlugAnswer shop_plug(const PlugAsk& asked, const Asking& asking);

struct JudgeAsk {
    PartAsked thread{};
    Measured found{};
    double engagement_mm = kNaN;
};

/// What a measured part is.
struct JudgeAnswer {
    std::string thread{};
    Side side{};
    std::string unit{};
    Place place{};
    Judged major{};
    Judged pitch{};
    Judged minor{};
    double functional_pitch_mm = kNaN;
    double over_wires_mm = kNaN;
    double wire_mm = kNaN;
    std::vector<ClassTried> classes{};
    std::vector<std::string> classes_met{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kJudge;

/// What a measured part is: which classes it meets, dimension by dimension, and what is left to take off.
///
/// Errors
///   DomainError  nothing measured, both a pitch diameter and a size over wires, or a wire that does not
///                measure this thread
/// Example
///   M10-6g with a pitch diameter of 9.050 mm: metal left, to_enter_mm = 0.056
[[nodiscard]] JudgeAnswer judge(const JudgeAsk& asked, const Asking& asking);

struct TaperPipeAsk {
    AnyThread thread{};
};

/// A taper pipe thread: what it is cut and gauged to.
struct TaperPipeAnswer {
    std::string thread{};
    std::string unit{};
    double tpi = 0.0;
    TaperPipe pipe{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kTaperPipe;

/// What a taper pipe thread is cut and gauged to: turns by hand, gauge plane, holes, setting of the lathe.
///
/// Errors
///   NotTabulatedError  not a taper form, or no such size
/// Example
///   1/2-14 NPT: hand_turns = 4.48
[[nodiscard]] TaperPipeAnswer taper_pipe(const TaperPipeAsk& asked, const Asking& asking);

/// Drills to choose from: sets by their names, or the drills at hand.
struct DrillsAsked {
    std::vector<DrillSize> drills{};  ///< smallest first; none: the set that is usual
};
void take(DrillsAsked& to, const Given& given, const AskedRow& row, Asking& asking);

struct DrillSetAsk {
    DrillsAsked drills{};
};

/// Drills, smallest first.
struct DrillSetAnswer {
    std::vector<std::string> names{};
    std::vector<double> diameters_mm{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kDrillSet;

/// The drills of one or more sets.
///
/// Errors
///   NotTabulatedError  no such set
/// Example
///   letter: names[0] is "letter A"
[[nodiscard]] DrillSetAnswer drill_set(const DrillSetAsk& asked, const Asking& asking);

/// What a drill cuts over its own size: nothing, "usual" (NaN), or a length.
struct OversizeAsked {
    double mm = 0.0;
};
void take(OversizeAsked& to, const Given& given, const AskedRow& row, Asking& asking);

enum class TapKind : std::uint8_t { cut, form };
constexpr auto enum_names(TapKind /*tag*/) {
    using std::string_view;
    return std::array{std::pair{TapKind::cut, string_view("cut")},
                      std::pair{TapKind::form, string_view("form")}};
}

struct TappingAsk {
    PartAsked thread{};
    double percent = kNaN;
    double engagement_mm = kNaN;
    double strength_ratio = kNaN;
    DrillsAsked drills{};
    OversizeAsked oversize{};
    TapKind tap{};
};

/// The drill for a tapped hole of any form; a taper thread has two drills, and no limits.
struct TappingAnswer {
    std::string thread{};
    std::string unit{};
    TapKind tap{};
    std::string drill{};
    TappingHole hole{};
    std::optional<std::string> below{};
    std::optional<std::string> above{};
    std::optional<std::string> within{};
    std::optional<bool> in_limits{};
    std::string beside_limits{};
    std::optional<std::string> ream_drill{};
    double ream_drill_mm = kNaN;
    double hole_at_face_mm = kNaN;
    double hole_at_end_mm = kNaN;
    double taper_on_diameter = kNaN;
    double hand_turns = kNaN;
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kTappingHole;

/// The drill for a tapped hole, of any form that is known.
///
/// Errors
///   DomainError        an argument out of its range, two that ask for a hole each, or one that no rule of
///                      the form makes use of
///   NotTabulatedError  no such drill set, or no drill small enough
/// Notes
///   1) Of another form than ISO metric and Unified no standard says which hole is best: it lies three
///   quarters of the way from the least to the greatest minor diameter.
/// Example
///   M6: drill 5 mm, percent = 77
[[nodiscard]] TappingAnswer tapping_hole(const TappingAsk& asked, const Asking& asking);

/// The drill of a blind hole: a length, or a drill that an earlier answer chose, by its name and size.
struct DrillAsked {
    std::string name{};
    double mm = kNaN;
};
void take(DrillAsked& to, const Given& given, const AskedRow& row, Asking& asking);

struct BlindAsk {
    AnyThread thread{};
    double full_thread_mm = kNaN;
    double drilled_mm = kNaN;
    std::string lead = "plug";
    DrillAsked drill{};
    double point_deg = 118.0;
    double chip_room_mm = kNaN;
    double thickness_mm = kNaN;
    TapKind tap{};
};

/// Depths of a blind tapped hole.
struct BlindAnswer {
    std::string thread{};
    std::string unit{};
    std::string lead{};
    double threads_min = kNaN;
    double threads_max = kNaN;
    std::string drill{};
    double hole_mm = kNaN;
    BlindHole hole{};
    double full_threads = kNaN;
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kBlindHole;

/// How deep to drill a blind hole for a length of full thread, or what full thread a drilled one takes.
///
/// Errors
///   DomainError        both or neither of the lengths, too shallow a hole, or metal too thin
///   NotTabulatedError  no such lead
/// Example
///   M6 for 12 mm of full thread: drill_depth_mm = 19.0
[[nodiscard]] BlindAnswer blind_hole(const BlindAsk& asked, const Asking& asking);

struct ClearanceAsk {
    AnyThread thread{};
    std::string fit = "normal";
};

/// A hole that a screw passes through.
struct ClearanceAnswer {
    std::string size{};
    std::string unit{};
    std::string fit{};
    std::string standard{};
    double hole_mm = kNaN;
    std::string drill{};
    double clearance_mm = kNaN;
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kClearanceHole;

/// A hole that a screw passes through.
///
/// Errors
///   DomainError        no such fit
///   NotTabulatedError  the standard has no such diameter
/// Example
///   M6: hole_mm = 6.6
[[nodiscard]] ClearanceAnswer clearance_hole(const ClearanceAsk& asked, const Asking& asking);

struct SeatAsk {
    AnyThread thread{};
    std::string head = "socket";
    std::string fit = "normal";
    double hole_mm = kNaN;
    double recess_mm = 0.0;
};

/// A counterbore or countersink over a clearance hole.
struct SeatAnswer {
    std::string size{};
    std::string unit{};
    std::string head{};
    ScrewSeat seat{};
    double recess_mm = 0.0;
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kScrewSeat;

/// Counterbore or countersink for the head of a screw.
///
/// Errors
///   DomainError        the hole is not smaller than the seat
///   NotTabulatedError  no such head, or none of this size
/// Example
///   M6, socket head: seat_diameter_mm = 11.0
[[nodiscard]] SeatAnswer screw_seat(const SeatAsk& asked, const Asking& asking);

void take(std::optional<BuildUp>& to, const Given& given, const AskedRow& row, Asking& asking);

struct FitAsk {
    PartAsked external{};
    PartAsked internal{};
    BuildUp build_up{};  ///< of both parts, where none is said of one
    std::optional<BuildUp> build_up_external{};
    std::optional<BuildUp> build_up_internal{};
    double engagement_mm = kNaN;
    double external_pitch_mm = kNaN;  ///< as measured, so the three that follow
    double external_major_mm = kNaN;
    double internal_pitch_mm = kNaN;
    double internal_minor_mm = kNaN;
    double external_lead_error_mm = 0.0;
    double internal_lead_error_mm = 0.0;
    std::string external_alloy{};
    std::string internal_alloy{};
    double temperature_c = 20.0;
    double tolerance_over_sigma = 6.0;
    double mean_shift = 0.0;
};

/// Fit of two threads. Clearances are differences of diameters, below 0 where the parts interfere.
struct FitAnswer {
    std::string external{};
    std::string internal{};
    std::string unit{};
    ThreadFit fit{};
    double build_up_external_min_um = 0.0;
    double build_up_external_max_um = 0.0;
    double build_up_internal_min_um = 0.0;
    double build_up_internal_max_um = 0.0;
    double external_pitch_max_mm = kNaN;  ///< bare, by limits or as measured; so the three that follow
    double external_pitch_min_mm = kNaN;
    double internal_pitch_max_mm = kNaN;
    double internal_pitch_min_mm = kNaN;
    std::vector<std::string> remedies{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kFit;

/// Whether an external and an internal thread screw together, and with how much play. What makes coated parts
/// go together is tried before it is offered.
///
/// Errors
///   DesignationError, NotTabulatedError  a thread or coating that is not understood or not tabulated
///   DomainError                          a size or length out of its range
/// Example
///   M10-6g in M10-6H: free, pitch_clearance_min_mm = 0.032
[[nodiscard]] FitAnswer fit(const FitAsk& asked, const Asking& asking);

/// The pair that is asked about, as sizes.
[[nodiscard]] FitRequest fit_request(const FitAsk& asked, const Asking& asking);

struct SuitAsk {
    PartAsked thread{};
    BuildUp clearance{};  ///< wanted, um
    double internal_pitch_mm = kNaN;
    double external_pitch_mm = kNaN;
    std::optional<BuildUp> build_up{};
    BuildUp measured_build_up{};
    WireAsked wire{};
    double over_wires_mm = kNaN;
};

/// A part cut to suit one that is there.
struct SuitAnswer {
    std::string thread{};
    Side side{};
    std::string unit{};
    double pitch_min_mm = kNaN;
    double pitch_max_mm = kNaN;
    double clearance_min_mm = kNaN;
    double clearance_max_mm = kNaN;
    double measured_pitch_mm = kNaN;
    double wire_mm = kNaN;
    double over_min_mm = kNaN;
    double over_max_mm = kNaN;
    std::optional<PlugAnswer> plug{};
    double now_pitch_mm = kNaN;
    double left_least_mm = kNaN;
    double left_most_mm = kNaN;
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kCutToSuit;

/// The pitch diameter to cut so that a part suits one that is there: usually the screw, to suit the nut.
///
/// Errors
///   DomainError  neither or both parts measured, the coatings spread more than the clearance may, or a wire
///                that does not do
/// Example
///   M10 in a nut of 9.100 mm, clearance 0.02 to 0.06 mm, build-up 3 to 5 um: pitch_min_mm = 9.028
[[nodiscard]] SuitAnswer cut_to_suit(const SuitAsk& asked, const Asking& asking);

}  // namespace halfnut::threads
