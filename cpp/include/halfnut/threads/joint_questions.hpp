#pragma once
/// Threaded joints as a person asks for them: what a metal bears, whether two gall, what a joint holds, how
/// tight it is to be.

#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/material/strengths.hpp"
#include "halfnut/threads/joint.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/strength.hpp"

namespace halfnut::threads {

struct MinimumStrengthAsk {
    std::string alloy{};
    std::string form{};
    double thickness_mm = kNaN;
    material::Grain grain{};
};

/// Minimum strengths of an alloy in a form.
struct MinimumStrengthAnswer {
    std::string alloy{};
    std::string form{};
    std::string temper{};
    material::MinimumStrength found{};
    material::Grain grain{};
    std::string note{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kMinimumStrength;

/// Minimum strengths of an alloy in a form: what a load is to rest on.
///
/// Errors
///   NotTabulatedError  no minimum for this alloy, form, thickness or grain
///   DomainError        a thickness that is not > 0
/// Example
///   6061-T6, drawn tube: tensile_mpa = 289.58
[[nodiscard]] MinimumStrengthAnswer minimum_strength(const MinimumStrengthAsk& asked, const Asking& asking);

struct GallingAsk {
    std::string external_alloy{};
    std::string internal_alloy{};
};

/// Friction with a lubricant.
struct LubricantFriction {
    std::string lubricant{};
    double low = kNaN;
    double high = kNaN;
};

/// How two metals go together in a thread, and what is done about it.
struct GallingAnswer {
    std::string alloy{};
    std::string other{};
    Galling severity{};
    std::vector<std::string> advice{};
    std::vector<LubricantFriction> friction{};
    std::string note{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kGalling;

/// Whether two metals gall in a thread.
///
/// Errors
///   NotTabulatedError  an alloy of no such name
/// Example
///   6061-T6 in 6061-T6: high
[[nodiscard]] GallingAnswer galling(const GallingAsk& asked, const Asking& asking);

/// A friction, or its least and greatest: 0.12, "0.10-0.16", or two numbers.
struct FrictionAsked {
    double low = kNaN;
    double high = kNaN;

    [[nodiscard]] bool is_given() const { return low == low; }
};
void take(FrictionAsked& to, const Given& given, const AskedRow& row, Asking& asking);

/// What one part is made of: strengths of one's own, else of a grade of bolts, else of an alloy in a form.
struct PartMade {
    std::string alloy{};
    std::string form{};
    double thickness_mm = kNaN;
    std::string grade{};
    double tensile_mpa = kNaN;
    double yield_mpa = kNaN;
    double shear_mpa = kNaN;
};

struct StrengthAsk {
    PartAsked external{};
    PartAsked internal{};
    StrengthRequest joint{};
    PartMade outer{};  ///< of the external part
    PartMade inner{};  ///< of the internal part
    FrictionAsked friction{};
    Loading loading = Loading::steady;
    bool rotating = false;
};

/// What a threaded joint holds. No factor of safety is in any figure but allowable_n and
/// engagement_for_load_mm.
struct StrengthAnswer {
    std::string external{};
    std::string internal{};
    std::string unit{};
    double overlap_mm = kNaN;
    ThreadStrength joint{};
    PartStrength outer{};
    PartStrength inner{};
    std::string external_material{};
    std::string internal_material{};
    double factor_of_safety = kNaN;
    double load_n = kNaN;
    double engagement_practice_mm = kNaN;
    double flank_pressure_mpa = kNaN;
    double holding_friction = kNaN;
    double friction_low = kNaN;
    double friction_high = kNaN;
    double raising_torque_min_nm = kNaN;
    double raising_torque_max_nm = kNaN;
    bool by_form = false;
    double diameter_mm = kNaN;
    std::optional<Galling> galling{};
    std::vector<std::string> advice{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kStrength;

/// What a threaded joint of any form holds, what fails first, how far it is to be engaged, what turns a
/// screw.
///
/// Errors
///   DesignationError, NotTabulatedError  a thread, alloy, form or grade that is not understood or tabulated
///   DomainError                          a size, strength or factor out of its range, parts that are not of
///                                        one thread, no full form left, no wall left
/// Notes
///   1) Factors for dilation and bending are published for 60 degree threads only: for another form they are
///   a bound.
[[nodiscard]] StrengthAnswer strength(const StrengthAsk& asked, const Asking& asking);

struct TightenAsk {
    AnyThread thread{};
    double preload_n = kNaN;
    double torque_nm = kNaN;
    double share = kNaN;
    PartMade screw{};
    std::string internal_alloy{};
    std::string lubricant{};
    FrictionAsked friction{};
    FrictionAsked bearing_friction{};
    double bearing_diameter_mm = kNaN;
    double bore_mm = 0.0;
    double prevailing_nm = 0.0;
    std::string condition = "unknown";
};

enum class TightenAsked : std::uint8_t { preload, torque };
constexpr auto enum_names(TightenAsked /*tag*/) {
    using std::string_view;
    return std::array{std::pair{TightenAsked::preload, string_view("preload")},
                      std::pair{TightenAsked::torque, string_view("torque")}};
}

/// Torque and preload over the range of friction.
struct TightenAnswer {
    std::string thread{};
    std::string unit{};
    TightenAsked asked{};
    Tightening tight{};
    double prevailing_nm = kNaN;
    double practice_nut_factor = kNaN;
    double practice_torque_nm = kNaN;
    double yield_mpa = kNaN;
    std::string lubricant{};
    double thread_friction_low = kNaN;
    double thread_friction_high = kNaN;
    double bearing_friction_low = kNaN;
    double bearing_friction_high = kNaN;
    double bearing_diameter_mm = kNaN;
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kTighten;

/// Torque for a preload, or the preload that a torque brings, over the range of friction.
///
/// Errors
///   DomainError        neither or more than one of preload, torque and share; a friction out of its range
///   NotTabulatedError  no friction for this pair and lubricant; a taper pipe thread
/// Example
///   M10, preload 20 kN, friction 0.10 to 0.16: torque_min_nm = 27.8
[[nodiscard]] TightenAnswer tighten(const TightenAsk& asked, const Asking& asking);

}  // namespace halfnut::threads
