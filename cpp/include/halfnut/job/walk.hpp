#pragma once
/// A job's parts walked through their operations: the workpiece after each, and what is wrong with it.
///
/// Every operation is checked against the work as it then is, the operation before, and the machine. A
/// mistake stops nothing: the work is walked on as if the operation had been done, so that all are found at
/// once.

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/question.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/job/part.hpp"
#include "halfnut/job/profile.hpp"

namespace halfnut::job {

/// A mistake of a job: a code of the list `refused` of core/words, or of core/cautions.
struct Mistake {
    std::string code{};
    int operation = 0;  ///< 10, 20, ...; 0: the part as a whole
    bool refused = false;
    double found_mm = kNaN;
    double needed_mm = kNaN;
    double needed_most_mm = kNaN;  ///< of a range
    std::string text{};            ///< what is found and needed; of a caution the whole of it
    std::string cure{};            ///< the nearest
    std::optional<int> line{};     ///< of the job's file, where the operation begins, or the part
};

/// An operation as the work came to it and left it.
struct Walked {
    int operation = 0;
    double from_mm = kNaN;       ///< of what it cuts, along the axis; NaN of a hole off the axis
    double to_mm = kNaN;         ///< its other end
    double start_mm = kNaN;      ///< the greatest outside diameter that the tool meets
    double hole_mm = kNaN;       ///< the hole that is there before
    double hole_deep_mm = kNaN;  ///< depth of that hole
    double overhang_mm = kNaN;   ///< how far the work stands out: as said, else as found; of inside work not
    double reach_mm = kNaN;      ///< how far from the face the cuts of this holding go
    double length_mm = kNaN;     ///< of the work after it, between its faces
    bool through = false;        ///< its hole goes through
    double beyond_mm = 0.0;  ///< that reamer or tap goes on below the work, until their lead is clear of it
    /// What it comes to that makes cautions needless: states of the list `covers` of core/words.
    std::vector<std::string> covers{};
    /// Of a cut along the outside of stepped work: its sections before it, from the chuck or the first centre
    /// on, and where on them it begins, from the other end. None where the work is plain, or held in a way
    /// that is not known.
    std::vector<cutting::WorkSection> sections{};
    double cut_at_mm = kNaN;
    Profile after;
};

struct WalkedPart {
    std::string part{};
    std::vector<Walked> operations{};
    std::vector<Mistake> mistakes{};  ///< in the order of the operations; of the whole part last
    std::vector<Told> told{};         ///< what goes with the part as a whole, whatever its figures
};

struct WalkedJob {
    std::vector<WalkedPart> parts{};
};
extern const RecordRow kWalkedJob;

/// Walk every part, and look for the partner of every joint among them.
///
/// Errors
///   none for what a job can say: what cannot be read (a designation, a pitch) is a mistake of its own
[[nodiscard]] WalkedJob walk(std::span<const Part> parts, const Catalogue& catalogue);

}  // namespace halfnut::job
