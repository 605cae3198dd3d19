#pragma once
/// A hole for a screw in one answer: clearance, seat of the head, spot, drills in steps, and the tapped part.

#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/cutting/questions.hpp"

namespace halfnut::cutting {

struct ScrewHoleAsk {
    std::string alloy;
    threads::AnyThread thread;
    std::string head = "socket";
    std::string fit = "normal";
    double thickness_mm = kNaN;
    double recess_mm = 0.0;
    std::string tool;
    const machine::Machine* machine = nullptr;
};

struct ScrewHole {
    std::string size;
    std::string unit = "mm";
    std::string alloy;
    std::string fit;
    double hole_mm = kNaN;
    std::string drill;
    std::string head;
    double seat_mm = kNaN;
    double seat_depth_mm = kNaN;
    double seat_deg = kNaN;
    double spot_mm = kNaN;
    double point_mm = kNaN;  ///< how far the drill's point goes beyond the far face
    std::string tapping_drill;
    double tapping_drill_mm = kNaN;
    CutAnswer spot;
    std::vector<CutAnswer> drills;
    std::optional<CutAnswer> seat;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kScrewHole;

/// A clearance hole and the seat of its screw's head: sizes, and the cuts in their order.
///
/// Errors
///   DomainError        no such head or fit; a thickness that the seat goes through
///   NotTabulatedError  no such alloy or screw
/// Example
///   M6, socket head: hole 6.6 mm, counterbore 11 mm, 6 deep; tapped part drilled 5 mm
[[nodiscard]] ScrewHole screw_hole(const ScrewHoleAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
