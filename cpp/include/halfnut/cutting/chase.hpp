#pragma once
/// Chasing: cutting a thread with a single point, pass by pass, on a lathe's own dial.

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/threads/designation.hpp"

namespace halfnut::cutting {

/// How the tool goes in.
enum class Infeed : std::uint8_t {
    straight,     ///< by the cross slide; both flanks cut
    flank,        ///< by the compound, set over to the flank or a little less; mostly one flank cuts
    alternating,  ///< by the cross slide, the compound along the work shifting the tool from flank to flank
};

constexpr auto enum_names(Infeed /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Infeed::straight, string_view("straight")},
                      std::pair{Infeed::flank, string_view("flank")},
                      std::pair{Infeed::alternating, string_view("alternating")}};
}

/// Depth of the tool's tip below the blank when the thread has its pitch diameter.
///
///     external   t = (D - E) / 2 + (P / 4) cot A - e,   e = r (csc A - 1) or (w / 2) cot A
///     internal   t = (E - D) / 2 + (P / 4) cot A - e
///
/// At 60 degrees (P / 4) cot A is half the height of the sharp triangle and e is r, or 0.866 w.
///
/// Given
///   blank_mm           D, mm, > 0: the diameter turned, or bored
///   pitch_diameter_mm  E, mm, > 0
///   pitch_mm           P, mm, > 0, axial
///   half_angle_deg     A, above 0 and below 60
///   nose_radius_mm     r, mm, >= 0, of a round nose; 0 for none
///   nose_flat_mm       w, mm, >= 0, of a flat nose; 0 for none
///   internal           0 or 1
/// Returned
///   mm on the radius
/// Errors
///   inconsistent       both noses given, a nose too wide for the pitch, a blank that the tool does not reach
/// Source
///   geometry of the thread form
/// Example
///   chasing_depth_mm(20.0, 18.376, 2.5, 30.0, 0.36084, 0.0, 0.0) = 1.5337
struct ChasingDepth {
    static constexpr std::string_view name = "chasing_depth_mm";
    static constexpr std::array arguments{
        positive("blank_mm", "mm"),           positive("pitch_diameter_mm", "mm"),
        positive("pitch_mm", "mm"),           inside("half_angle_deg", 0.0, 60.0, "deg"),
        not_negative("nose_radius_mm", "mm"), not_negative("nose_flat_mm", "mm"),
        between("internal", 0.0, 1.0)};
    /// What the nose lacks of a sharp tip, mm.
    static double lacking(double half_angle, double radius, double flat) noexcept {
        return radius * (1.0 / sine_deg(half_angle) - 1.0) + flat / 2.0 / tangent_deg(half_angle);
    }
    static double compute(double blank, double pitch_diameter, double pitch, double half_angle, double radius,
                          double flat, double internal) noexcept;
    static std::string refusal(double blank, double pitch_diameter, double pitch, double half_angle,
                               double radius, double flat, double internal);
};
inline double chasing_depth_mm(double blank_mm, double pitch_diameter_mm, double pitch_mm,
                               double half_angle_deg, double nose_radius_mm, double nose_flat_mm,
                               double internal) {
    return scalar<ChasingDepth>(blank_mm, pitch_diameter_mm, pitch_mm, half_angle_deg, nose_radius_mm,
                                nose_flat_mm, internal);
}

/// Width of a thread's groove at its root: the flat nose that cuts it.
///
///     w = P / 2 - |E - d| tan A
///
/// Given
///   pitch_mm           P, mm, > 0, axial
///   pitch_diameter_mm  E, mm, > 0, where the groove is P / 2 wide
///   root_diameter_mm   d, mm, > 0
///   half_angle_deg     A, above 0 and below 60
/// Returned
///   mm along the axis
/// Errors
///   inconsistent       the flanks meet before the root
/// Source
///   geometry of the thread form
/// Example
///   root_flat_mm(4.0, 18.0, 15.5, 15.0) = 1.3301
struct RootFlat {
    static constexpr std::string_view name = "root_flat_mm";
    static constexpr std::array arguments{positive("pitch_mm", "mm"), positive("pitch_diameter_mm", "mm"),
                                          positive("root_diameter_mm", "mm"),
                                          inside("half_angle_deg", 0.0, 60.0, "deg")};
    static double compute(double pitch, double pitch_diameter, double root, double half_angle) noexcept {
        const double w = pitch / 2.0 - std::abs(pitch_diameter - root) * tangent_deg(half_angle);
        return w > 0.0 ? w : std::numeric_limits<double>::quiet_NaN();
    }
    static std::string refusal(double pitch, double pitch_diameter, double root, double half_angle);
};
inline double root_flat_mm(double pitch_mm, double pitch_diameter_mm, double root_diameter_mm,
                           double half_angle_deg) {
    return scalar<RootFlat>(pitch_mm, pitch_diameter_mm, root_diameter_mm, half_angle_deg);
}

/// Travel of a compound that is set over, for a depth across the work.
///
///     s = t / cos a
///
/// Given
///   depth_mm    t, mm, >= 0
///   angle_deg   a, 0 to 75, from square to the axis
/// Returned
///   mm along the compound
/// Source
///   geometry
/// Example
///   compound_travel_mm(1.0, 29.5) = 1.149
struct CompoundTravel {
    static constexpr std::string_view name = "compound_travel_mm";
    static constexpr std::array arguments{not_negative("depth_mm", "mm"),
                                          between("angle_deg", 0.0, 75.0, "deg")};
    static double compute(double depth, double angle) noexcept { return depth / cosine_deg(angle); }
};
inline double compound_travel_mm(double depth_mm, double angle_deg) {
    return scalar<CompoundTravel>(depth_mm, angle_deg);
}

/// Fastest spindle at which a hand still opens the half nut within the run-out.
///
///     n = 60 l / (L t)
///
/// Given
///   run_out_mm   l, mm, > 0: free way between the end of the thread and the shoulder
///   lead_mm      L, mm, > 0
///   reaction_s   t, s, > 0: 0.5 is brisk, 1 is safe
/// Returned
///   rev/min
/// Source
///   the way of the carriage in the time
/// Example
///   stopping_rpm(5.0, 1.5, 1.0) = 200
struct StoppingRpm {
    static constexpr std::string_view name = "stopping_rpm";
    static constexpr std::array arguments{positive("run_out_mm", "mm"), positive("lead_mm", "mm"),
                                          positive("reaction_s", "s")};
    static double compute(double run_out, double lead, double reaction) noexcept {
        return 60.0 * run_out / (lead * reaction);
    }
};
inline double stopping_rpm(double run_out_mm, double lead_mm, double reaction_s) {
    return scalar<StoppingRpm>(run_out_mm, lead_mm, reaction_s);
}

/// A thread to chase and how: everything in mm of the slide that feeds in.
struct ChaseRequest {
    bool internal = false;
    double blank_mm = kNaN;           ///< turned or bored diameter
    double pitch_diameter_mm = kNaN;  ///< wanted
    double pitch_mm = kNaN;
    double half_angle_deg = 30.0;
    double nose_radius_mm = 0.0;
    double nose_flat_mm = 0.0;
    Infeed infeed = Infeed::flank;
    double compound_deg = 29.5;   ///< from square to the axis; counts for `flank` only
    bool equal_depths = false;    ///< else each pass takes the same area
    double graduation_mm = kNaN;  ///< travel of the slide for one line of its dial
    double first_mm = 0.25;       ///< greatest first pass, along the slide
    double least_mm = 0.04;       ///< least pass but the closing one, along the slide
    double measure_left_mm =
        kNaN;                  ///< left on the pitch diameter at the stop to measure; NaN: four least passes
    double kc11_n_mm2 = kNaN;  ///< specific cutting force; NaN: no forces
    double mc = kNaN;
    double force_limit_n = kNaN;  ///< NaN: none but the first pass
};

struct ChasePass {
    int line = 0;             ///< where the dial stands, lines from touching the blank
    double travel_mm = kNaN;  ///< the same, along the slide
    double depth_mm = kNaN;   ///< of the tip below the blank
    double shift_mm = 0.0;    ///< of the tool along the work, alternating: + towards the headstock
    double area_mm2 = kNaN;   ///< of the chip
    double force_n = kNaN;
    double pitch_diameter_mm = kNaN;  ///< of the thread after it, once the flanks reach there
    bool measure = false;             ///< stop and measure after this pass
};

struct ChaseSchedule {
    double depth_mm = kNaN;   ///< of the tip, at the pitch diameter wanted
    double travel_mm = kNaN;  ///< of the slide to there
    double remainder_mm =
        kNaN;  ///< of the travel, past the last line: - not reached, + gone past; 0 if whole
    double line_on_pitch_diameter_mm = kNaN;  ///< what one line takes off the pitch diameter
    double area_limit_mm2 = kNaN;
    std::vector<ChasePass> passes;
};

/// The passes that cut a thread to its pitch diameter on whole lines of the dial.
///
/// Every pass goes to the furthest line at which its chip is not above the limit (the area of the first pass,
/// or the force limit where that is less), and at least one line. Before `measure_left_mm` is left the
/// schedule stops for a measurement; what is left is cut in passes of the least depth. The last line is the
/// nearest that does not pass the wanted pitch diameter.
///
/// Errors
///   out_of_range   a number out of its range (why names it)
///   inconsistent   noses, blank and pitch diameter that do not go together; a line coarser than the thread
///                  is deep; a force limit that not even one line keeps
/// Source
///   geometry; constant chip area, common practice of turning texts; force after Kienzle on the area and the
///   length of edge that cuts
[[nodiscard]] Status evaluate(const ChaseRequest& request, ChaseSchedule& out, std::string* why = nullptr);

/// How often a thread dial's marks fit a lead.
struct ThreadDial {
    int every =
        0;  ///< engage at every so-many-th mark: 1 any, 2 every second, marks: one and the same; 0: none
    int marks = 0;
    bool any_line = false;  ///< the lead divides the leadscrew's: the half nut may close anywhere
};

/// Where the half nut may be closed again.
///
/// A mark fits when the carriage, moved by k marks, has moved a whole number of leads: k T S / (m L) whole,
/// where the dial's wheel counts T threads of the leadscrew of lead S a turn and has m marks. Computed in
/// whole numbers.
///
/// Given
///   screw_num, screw_den       lead S of the leadscrew, mm, as a fraction
///   lead_num, lead_den         lead L of the thread, mm, as a fraction
///   wheel_threads              T, whole, 1 to 400
///   marks                      m, 1 to 100
/// Returned
///   every 0 where no mark fits: keep the half nut closed and reverse the spindle
/// Source
///   arithmetic; Jones, Turning and Boring (1914), thread indicator
[[nodiscard]] ThreadDial thread_dial(std::int64_t screw_num, std::int64_t screw_den, std::int64_t lead_num,
                                     std::int64_t lead_den, int wheel_threads, int marks) noexcept;

/// Lead of a thread as an exact fraction of a millimetre.
[[nodiscard]] std::pair<std::int64_t, std::int64_t> lead_fraction_mm(const threads::Thread& thread) noexcept;

}  // namespace halfnut::cutting
