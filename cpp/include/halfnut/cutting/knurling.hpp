#pragma once
/// Knurling at the lathe: which wheels, how deep and how fast, what force the work must bear.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "halfnut/cutting/questions.hpp"
#include "halfnut/knurls/questions.hpp"
#include "halfnut/machine/dial.hpp"

namespace halfnut::cutting {

/// The hole that a knurl is pressed into: one size, or its least and its greatest.
struct HoleSizes {
    double least_mm = kNaN;
    double greatest_mm = kNaN;
};
void take(HoleSizes& to, const Given& given, const AskedRow& row, Asking& asking);

/// How the work is held while it is knurled.
enum class KnurlHold : std::uint8_t { chuck, chuck_and_centre };

constexpr auto enum_names(KnurlHold /*tag*/) {
    using std::string_view;
    return std::array{std::pair{KnurlHold::chuck, string_view("chuck")},
                      std::pair{KnurlHold::chuck_and_centre, string_view("chuck and centre")}};
}

/// A blank and how it is to be knurled.
struct KnurlSetupAsk : knurls::KnurlAsk {
    std::string alloy;
    const machine::Machine* machine = nullptr;
    int wheels = 1;
    double wheel_width_mm = kNaN;
    double bore_mm = kNaN;
    double stick_out_mm = kNaN;  ///< from the chuck to the middle of the band
    KnurlHold hold = KnurlHold::chuck;
    HoleSizes hole;
    double hardness_hb = kNaN;
    Holder chuck;
    Stock stock;
    double bar_length_mm = kNaN;
    double bar_behind_mm = kNaN;
};

/// A dial's reading from nought.
struct DialAt {
    std::string slide;
    machine::DialReading reading;
    double graduation_mm = kNaN;
    std::string unit = "mm";  ///< of the dial
    std::string said;
};
extern const RecordRow kDialRecord;

/// The reading of a slide's dial after a travel from nought, mm. DomainError: it is below 0, or no number.
[[nodiscard]] DialAt dial_at(const machine::Slide& slide, double travel_mm);

/// How to knurl a band. NaN where a figure does not apply.
struct KnurlSetup {
    knurls::BlankAnswer blank;
    CutAnswer cut;
    std::string alloy;
    std::string unit = "mm";
    double width_mm = kNaN;
    int wheels = 1;
    std::string wheel_kind;
    double chamfer_mm = kNaN;
    double groove_depth_mm = kNaN;
    double infeed_mm = kNaN;
    double infeed_mm_rev = kNaN;
    double first_bite_mm = kNaN;
    int turns = 0;
    int dwell_turns = 0;
    int passes = 1;
    double feed_mm_rev = kNaN;
    double spindle_rpm = kNaN;
    std::optional<DialAt> dial;
    double force_n = kNaN;
    double side_force_n = kNaN;
    double bend_mm = kNaN;
    double wall_mm = kNaN;
    double least_wall_mm = kNaN;
    double interference_min_mm = kNaN;
    double interference_max_mm = kNaN;
    double bite_share = kNaN;
    // as it is said
    std::string said;
    std::string infeed_said;
    std::vector<std::string> steps;
    std::vector<std::string> assumed;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kKnurlSetup;

/// How to knurl a blank: wheels, infeed, feed, speed, passes, force and support, what to turn first.
///
/// Errors
///   as knurls::ask_blank() and knurl(); a bore as large as the blank, a hole out of order
/// Example
///   20 mm, RGE 0.8, brass, 12 mm wide, two wheels: side_force_n = 0
[[nodiscard]] KnurlSetup knurl_setup(const KnurlSetupAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
