#pragma once
/// Milling: slot, side, pocket and face.

#include "halfnut/cutting/cut.hpp"
#include "halfnut/cutting/kinds.hpp"

namespace halfnut::cutting {

enum class MillShape : std::uint8_t { slot, side, pocket, face };

constexpr auto enum_names(MillShape /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{MillShape::slot, string_view("slot")}, std::pair{MillShape::side, string_view("side")},
        std::pair{MillShape::pocket, string_view("pocket")}, std::pair{MillShape::face, string_view("face")}};
}

/// What is asked of a milling cut. NaN is not given.
struct MillRequest {
    MillShape shape{};
    Work work;
    ToolMaterial tool_material = ToolMaterial::hss;

    double cutter_diameter_mm = kNaN;
    double teeth = kNaN;      ///< NaN: usual_teeth()
    double length_mm = kNaN;  ///< of the cut, along the feed
    double width_mm = kNaN;  ///< to be cut away, across the feed; a slot's is the cutter's own when not given
    double depth_mm = kNaN;  ///< to be cut away, along the cutter's axis
    double step_over_mm = kNaN;       ///< most across in one pass; NaN: the cutter's usual, see below
    double step_down_mm = kNaN;       ///< most down in one pass
    double feed_per_tooth_mm = kNaN;  ///< wanted
    double spindle_rpm = kNaN;        ///< wanted
    double entering_deg = kNaN;       ///< NaN: 90
    double stick_out_mm = kNaN;       ///< of the cutter from its holder; NaN: no deflection
    double nose_radius_mm = kNaN;     ///< of a face mill's teeth; NaN: 0.8
    double roughness_limit_um = kNaN;
    double wear_factor = kNaN;
    double deflection_limit_mm = kNaN;
    double approach_mm = kNaN;  ///< NaN: 2
    double overrun_mm = kNaN;   ///< NaN: 0, a face mill half its diameter
    Skin skin{};                ///< of the stock
};

/// Usual steps where none are given: down half the diameter in a slot or pocket, one diameter at a side,
/// 2 mm with a face mill; across half the diameter in a pocket, a quarter at a side, 0.7 of it on a face.
inline constexpr double kSlotStepDown = 0.5;
inline constexpr double kSideStepDown = 1.0;
inline constexpr double kFaceStepDownMm = 2.0;
inline constexpr double kPocketStepOver = 0.5;
inline constexpr double kSideStepOver = 0.25;
inline constexpr double kFaceStepOver = 0.7;

/// Teeth of a cutter that nothing is said of: two below 5 mm, four from there on. Common practice.
[[nodiscard]] double usual_teeth(double cutter_diameter_mm) noexcept;

/// Cutter diameter below which a shop's own feed per tooth shrinks in proportion.
inline constexpr double kFullFeedDiameterMm = 12.0;

/// Nose radius of a face mill's teeth where none is given.
inline constexpr double kFaceNoseMm = 0.8;

/// Diameter of a cutter's core against bending, over its diameter, and moduli of cutters.
inline constexpr double kCutterCore = 0.8;
inline constexpr double kSteelCutterGpa = 210.0;
inline constexpr double kCarbideCutterGpa = 580.0;

/// The numbers of a request with their ranges.
inline constexpr std::array kMillArguments{
    RequestArgument<MillRequest>{positive("cutter_diameter_mm", "mm"), &MillRequest::cutter_diameter_mm,
                                 true},
    RequestArgument<MillRequest>{between("flutes", 1.0, 400.0), &MillRequest::teeth},
    RequestArgument<MillRequest>{positive("length_mm", "mm"), &MillRequest::length_mm},
    RequestArgument<MillRequest>{positive("width_mm", "mm"), &MillRequest::width_mm, false,
                                 "be given, and at least cutter_diameter_mm for a slot or pocket"},
    RequestArgument<MillRequest>{positive("depth_mm", "mm"), &MillRequest::depth_mm, true,
                                 "take at most 10000 passes, those across included"},
    RequestArgument<MillRequest>{positive("step_over_mm", "mm"), &MillRequest::step_over_mm, false,
                                 "be at most cutter_diameter_mm"},
    RequestArgument<MillRequest>{positive("step_down_mm", "mm"), &MillRequest::step_down_mm},
    RequestArgument<MillRequest>{positive("feed_per_tooth_mm", "mm"), &MillRequest::feed_per_tooth_mm},
    RequestArgument<MillRequest>{positive("spindle_rpm", "rev/min"), &MillRequest::spindle_rpm},
    RequestArgument<MillRequest>{between("entering_deg", 10.0, 90.0, "deg"), &MillRequest::entering_deg},
    RequestArgument<MillRequest>{positive("stick_out_mm", "mm"), &MillRequest::stick_out_mm},
    RequestArgument<MillRequest>{positive("nose_radius_mm", "mm"), &MillRequest::nose_radius_mm},
    RequestArgument<MillRequest>{positive("roughness_limit_um", "um"), &MillRequest::roughness_limit_um},
    RequestArgument<MillRequest>{between("wear_factor", 1.0, 3.0), &MillRequest::wear_factor},
    RequestArgument<MillRequest>{positive("deflection_limit_mm", "mm"), &MillRequest::deflection_limit_mm},
    RequestArgument<MillRequest>{not_negative("approach_mm", "mm"), &MillRequest::approach_mm},
    RequestArgument<MillRequest>{not_negative("overrun_mm", "mm"), &MillRequest::overrun_mm},
};

/// Milling with one cutter: spindle step, table feed, passes across and down of equal size, chip, mean
/// tangential force, force against the feed and across it (as passive force), power, torque, finish,
/// deflection of the cutter, time of all passes.
///
/// The finish is that of the wall that the cutter's side leaves, or of the face, with one tooth leading the
/// others, so that the marks are a revolution apart.
/// depth_mm and width_mm of the result are those of one pass. A pocket's passes run its length at each
/// step across; the way from one to the next is not counted.
///
/// Returned
///   ok and every figure that applies; or why not, and every figure NaN
///   status.argument counts in kMillArguments
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const machine::Machine& machine,
                              const MillRequest& request, CutResult& out) noexcept;

/// evaluate() that throws DomainError or NotTabulatedError.
[[nodiscard]] CutResult cut(const Catalogue& catalogue, const machine::Machine& machine,
                            const MillRequest& request);

}  // namespace halfnut::cutting
