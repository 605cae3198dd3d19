#pragma once
/// What a job says of its parts and their operations: shapes and sizes, as far as a workpiece is walked
/// through them. NaN stands for "not given".

#include <cmath>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/job/profile.hpp"
#include "halfnut/knurls/blank.hpp"
#include "halfnut/machine/machine.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/kinds.hpp"

namespace halfnut::job {

enum class Do : std::uint8_t {
    turn,
    taper,
    face,
    bore,
    groove,
    part_off,
    spot,
    drill,
    countersink,
    counterbore,
    ream,
    tap,
    mill,
    saw,
    thread,
    knurl,
};

constexpr auto enum_names(Do /*tag*/) {
    using std::pair;
    using std::string_view;
    return std::array{pair{Do::turn, string_view("turn")},
                      pair{Do::taper, string_view("taper")},
                      pair{Do::face, string_view("face")},
                      pair{Do::bore, string_view("bore")},
                      pair{Do::groove, string_view("groove")},
                      pair{Do::part_off, string_view("part off")},
                      pair{Do::spot, string_view("spot")},
                      pair{Do::drill, string_view("drill")},
                      pair{Do::countersink, string_view("countersink")},
                      pair{Do::counterbore, string_view("counterbore")},
                      pair{Do::ream, string_view("ream")},
                      pair{Do::tap, string_view("tap")},
                      pair{Do::mill, string_view("mill")},
                      pair{Do::saw, string_view("saw")},
                      pair{Do::thread, string_view("thread")},
                      pair{Do::knurl, string_view("knurl")}};
}

enum class Hold : std::uint8_t { chuck, chuck_and_centre, between_centres };

constexpr auto enum_names(Hold /*tag*/) {
    using std::pair;
    using std::string_view;
    return std::array{pair{Hold::chuck, string_view("chuck")},
                      pair{Hold::chuck_and_centre, string_view("chuck and centre")},
                      pair{Hold::between_centres, string_view("between centres")}};
}

HALFNUT_ENUM(Form, bar, tube, hexagon, plate)

/// Machines that an operation is done on.
HALFNUT_ENUM(On, either, lathe, mill)

/// How an end mill goes down into a slot or a pocket at each level.
HALFNUT_ENUM(Entry, plunge, ramp)

/// One operation.
struct Step {
    Do what{};
    End end{};
    int line = 0;  ///< of the job's file, where it begins; 0: not known
    const machine::Machine* machine = nullptr;
    std::string name{};     ///< of the surface it makes
    std::string holding{};  ///< the chuck's name
    Hold hold{};
    Grip grips{};
    double grip_mm = kNaN;  ///< length in the jaws
    bool indicated = false;
    std::vector<double> steadies_mm{};  ///< places of steady rests
    bool masked = false;
    bool finish = false;
    std::string fit{};           ///< class of a cylindrical fit
    double tolerance_mm = kNaN;  ///< of a diameter, of the length that facing comes to
    double roughness_mm = kNaN;
    int times = 1;
    double at_mm = kNaN;        ///< where it begins, from the finished face of its end
    double to_mm = kNaN;        ///< diameter; of a face that where it stops
    double start_mm = kNaN;     ///< diameter that the job says it starts from
    double length_mm = kNaN;    ///< along the axis; of a mill or saw along its cut
    double depth_mm = kNaN;     ///< of a hole at full diameter, of a slot
    double diameter_mm = kNaN;  ///< of a drill, a reamer, a knurl
    double width_mm = kNaN;     ///< of a knurl, a groove, a slot
    double off_mm = kNaN;
    double blade_mm = kNaN;      ///< width of a blade; diameter of a saw
    double thickness_mm = kNaN;  ///< of a saw
    double point_deg = kNaN;     ///< of a spot
    double included_deg = kNaN;  ///< of a countersink; NaN: 90
    double stick_out_mm = kNaN;
    double bar_mm = kNaN;   ///< diameter of a boring bar
    double hole_mm = kNaN;  ///< that the job says is there
    double run_out_mm = kNaN;
    double cutter_mm = kNaN;
    std::string thread{};
    threads::Side side{};
    Entry entry{};
    double least_x_mm = kNaN;  ///< of the middles of its holes, from their zero
    double least_y_mm = kNaN;
    double spread_x_mm = kNaN;  ///< of a pattern of holes, between the middles of the outermost
    double spread_y_mm = kNaN;
    std::string zero{};      ///< what their places are measured from, in the job's words
    double apart_mm = kNaN;  ///< of the two holes of a pattern that are nearest to each other
    bool form = false;       ///< a tap that forms the thread
    std::string shape{};     ///< of milling
    std::string pitch{};     ///< of a knurl
    std::string pattern{};
    knurls::Process process{};
    bool finished = false;  ///< a knurl's diameter is wanted after knurling

    /// Its size has limits, or a roughness.
    [[nodiscard]] bool exact() const {
        return !fit.empty() || !std::isnan(tolerance_mm) || !std::isnan(roughness_mm);
    }
};

/// A threaded joint of the part, or one end of an adjuster.
struct Joint {
    std::string external{};
    std::string internal{};
    double engagement_mm = kNaN;
    bool bought = false;  ///< the screw has a grade: it is bought
    bool adjuster = false;
    bool second_end = false;         ///< of an adjuster
    double thread_length_mm = kNaN;  ///< that an adjuster counts on
    double tube_diameter_mm = kNaN;  ///< of the part, as the joint has it
    double tube_bore_mm = kNaN;
};

/// Two features that must run true to each other: names of surfaces, or numbers of operations.
struct True {
    std::string feature{};
    std::string to{};
    double within_mm = kNaN;
};

struct Part {
    std::string name{};
    int line = 0;  ///< as of a step
    std::string alloy{};
    bool inch = false;  ///< sizes are told in inches
    Form form{};
    double length_mm = kNaN;
    double diameter_mm = kNaN;
    double bore_mm = kNaN;
    double across_flats_mm = kNaN;
    double thickness_mm = kNaN;
    double width_mm = kNaN;
    double kerf_mm = kNaN;
    double facing_mm = kNaN;  ///< left on at each end
    double stub_mm = kNaN;    ///< of a blank, that stays in the chuck
    double blank_mm = kNaN;   ///< length of the blank, or of the bar in the spindle
    double sawn_mm = kNaN;    ///< length of the blank as the lot is cut up
    int pieces = 1;           ///< of a blank
    bool through_spindle = false;
    threads::BuildUp coating;
    std::string coating_name{};
    std::vector<Step> steps{};
    std::vector<Joint> joints{};
    std::vector<True> true_to{};
};

/// What an operation cuts: the outside, or a thread within, where a centre stays as it is; an end, off or
/// clean; the bore; a hole with a tool of its diameter; a shape at the mill.
HALFNUT_ENUM(Cuts, outside, end, bore, hole, shape)

/// A kind of operation as a job's file has it: the question that it asks, and its keys.
struct Kind {
    Do what{};
    std::string_view question{};  ///< by its name
    /// Names of its keys, those that it must have with a star. A key is the question's argument of its name,
    /// `key=argument` one of another name, `key=question.argument` one of another question; all others are
    /// members of Step, as `key=step.member` are.
    std::string_view keys{};
    std::string_view about{};
    On on{};
    Cuts cuts{};
    /// What to lay out for it and how it is headed on papers, as templates: {key} is a key of the operation,
    /// {tool} what the tool is made of; what stands in square brackets is left out where one is lacking.
    std::string_view tool{};
    std::string_view title{};  ///< where it is not the operation's own name
    std::string_view size{};   ///< what it comes to, where no other paper of its own says so
};
[[nodiscard]] std::span<const Kind> kinds();
[[nodiscard]] const Kind& kind_of(Do what);
extern const RecordRow kKind;

/// How a face reads one of these: rows of its members, as a question's arguments.
[[nodiscard]] const Question& step_question();
[[nodiscard]] const Question& part_question();
[[nodiscard]] const Question& joint_question();
[[nodiscard]] const Question& true_question();

}  // namespace halfnut::job
