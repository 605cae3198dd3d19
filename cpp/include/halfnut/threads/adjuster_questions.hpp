#pragma once
/// An adjuster or a turnbuckle as a person asks for it: threads by their designations, metals by their names.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/threads/adjuster.hpp"
#include "halfnut/threads/joint_questions.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::threads {

/// One threaded end as it is asked for.
struct AdjusterEndAsk {
    PartAsked external{};
    PartAsked internal{};
    AdjusterEnd sizes{};    ///< lengths, diameters, engagement by rule
    double bore_mm = kNaN;  ///< of the middle member; of a tube also under its thread
    double rod_bore_mm = 0.0;
    std::string base_alloy{};  ///< empty: that of the middle member
    std::string base_form = "bar";
};

/// How the joints hold the column; both pinned where nothing is given.
struct ColumnEndsAsked {
    ColumnEnd first = ColumnEnd::pinned;
    ColumnEnd second = ColumnEnd::pinned;
};
void take(ColumnEndsAsked& to, const Given& given, const AskedRow& row, Asking& asking);

struct AdjusterAsk {
    AdjusterEndAsk first{};
    std::optional<AdjusterEndAsk> second{};  ///< the first with what differs
    AdjusterRequest whole{};                 ///< the middle member's sizes, loads, factor, groove
    std::string alloy{};
    std::string form{};
    std::string nut_alloy{};  ///< empty: that of the middle member
    std::string nut_form = "bar";
    std::optional<BuildUp> coating{};
    std::optional<BuildUp> base_coating{};
    FrictionAsked friction{};
    std::string lubricant = "dry";
    int flats = 6;
    ColumnEndsAsked ends{};
};

/// One threaded end: what it is cut to, and what holds there.
struct AdjusterEndFound {
    std::string external{};
    std::string internal{};
    std::string unit{};
    AdjusterEnd given{};
    AdjusterMaterial external_metal{};
    AdjusterMaterial internal_metal{};
    AdjusterEndAnswer end{};
    std::string groove_under{};
    LimitsAnswer external_cut{};
    LimitsAnswer internal_cut{};
    WiresAnswer wires{};
    TappingAnswer hole{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};

/// An adjuster wound out by some turns, its elements by their names.
struct AdjusterStateFound {
    AdjusterState at{};
    std::string unit{};
    double tilt_max_deg = kNaN;
    std::string pull_element{};
    std::string push_element{};
    std::vector<Told> told{};
};

enum class AdjusterForm : std::uint8_t { adjuster, opposite_hands, equal_hands };
constexpr auto enum_names(AdjusterForm /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{AdjusterForm::adjuster, string_view("adjuster")},
        std::pair{AdjusterForm::opposite_hands, string_view("turnbuckle, opposite hands")},
        std::pair{AdjusterForm::equal_hands, string_view("turnbuckle, equal hands")},
    };
}

struct AdjusterAnswer {
    AdjusterForm form{};
    std::string unit{};
    Adjuster whole{};
    AdjusterEndFound first{};
    std::optional<AdjusterEndFound> second{};
    AdjusterStateFound shortest{};
    AdjusterStateFound half{};
    AdjusterStateFound longest{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kAdjuster;

/// How far a threaded tube or a turnbuckle may be wound out, with what play, and what it bears there.
///
/// Errors
///   DomainError        equal hands and equal leads, no safe range, threads that are not one pair, a number
///                      out of its range
///   NotTabulatedError  a thread, alloy, form or lubricant that is not tabulated
/// Notes
///   1) The threads of an end may be of any parallel form; of one without engagement or lock nuts in its
///      standard practice is used, and the answer says so.
[[nodiscard]] AdjusterAnswer adjuster(const AdjusterAsk& asked, const Asking& asking);

/// What gives way, and at which end where there are two: "external thread strips, first end".
[[nodiscard]] std::string element_text(const Adjuster& adjuster, AdjusterElement element, std::uint8_t end);

}  // namespace halfnut::threads
