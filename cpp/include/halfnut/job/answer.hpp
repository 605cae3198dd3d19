#pragma once
/// A job's operations answered: the question that each asks of the core, with what the job says of it and
/// what the walk finds, and of the answer its levers, passes with dial readings, time and remarks.

#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/cutting/knurling.hpp"
#include "halfnut/cutting/questions.hpp"
#include "halfnut/job/lot.hpp"
#include "halfnut/job/part.hpp"
#include "halfnut/job/walk.hpp"
#include "halfnut/threads/any_thread.hpp"

namespace halfnut::job {

/// Levers that belong together: what they are for, and where each stands.
struct Levers {
    std::string group{};
    std::vector<std::pair<std::string, std::string>> positions{};
    bool stop = false;  ///< the spindle must stand still to set them

    friend bool operator==(const Levers&, const Levers&) = default;
};

/// One pass: its depth on the radius or along the axis, the size it leaves, and the dial from zero.
struct Pass {
    int number = 0;
    double depth_mm = kNaN;
    double size_mm = kNaN;
    std::optional<cutting::DialAt> reading{};  ///< none: the measurement sets it, or there is no dial
    bool measure = false;                      ///< the work is measured before it
    std::vector<Levers> levers{};  ///< to set before it, where they are not those of the pass before
};

/// What an operation starts from and ends at: a number or a text by its key.
struct Size {
    std::string key{};
    double number = kNaN;
    std::string text{};
};

/// A question that was asked, with the values of its arguments.
struct Asked {
    Answer answer{};
    std::vector<Given> values{};

    template <class Record>
    [[nodiscard]] const Record& as() const {
        return *static_cast<const Record*>(answer.record.get());
    }
};

/// What a card says beside the figures. Where it is of an answer, by its name among Answered::answers, it is
/// a template of that answer's own figures: see `Says`.
struct Remark {
    std::string text{};
    std::string_view of{};
};

/// An operation answered, or why it is not.
struct Answered {
    std::string error{};
    /// By what they are: "record", the answer itself; "cut", where that is another; "chosen" passes, whose
    /// first cut is the answer; "knurling", whose blank is; of a thread its "chasing", "mate" and "wires";
    /// the limits of a "plain" diameter; the "holding" of slender work; the "entry" of a mill; what is
    /// "placed" or "divided".
    std::vector<std::pair<std::string_view, const Asked*>> answers{};
    const cutting::CutAnswer* cut = nullptr;
    std::vector<const cutting::CutAnswer*> cuts{};  ///< each pass's, where they are chosen; else the one
    std::vector<Levers> levers{};
    std::optional<std::vector<Levers>> left{};  ///< how they stand afterwards, where that is not as at first
    std::vector<Pass> passes{};
    std::vector<Size> sizes{};
    double time_s = kNaN;  ///< for one piece: cutting, changes and measuring
    std::string dial{};
    std::vector<Remark> remarks{};
    std::vector<Told> told{};  ///< of the plan's own
};
extern const RecordRow kAnswered;

/// What was asked, and what of it stands nowhere else.
struct Kept {
    std::deque<Asked> asked{};
    std::deque<std::string> texts{};
    std::deque<std::vector<Given>> lists{};
    std::deque<threads::AnyThread> threads{};
};

/// A part's operations answered. They stand as long as the job's tables, its parts and the machines do.
struct AnsweredPart {
    std::vector<Answered> operations{};
    std::unique_ptr<const Kept> kept{};
};

/// Another order of its operations that moves fewer levers, or none: see better_order().
[[nodiscard]] std::optional<Order> better_order(const Part& part, const AnsweredPart& answered,
                                                const Catalogue& catalogue);

/// Answer a part's operations in order; neighbours share spindle steps where that costs less than the stops.
///
/// Given
///   job     as job_of_file() had it without a mistake
///   place   of the part in it
///   part    the same as it is walked
///   walked  what the walk found
/// Errors
///   none for what a job can say: an operation without an answer has the reason
[[nodiscard]] AnsweredPart answer_part(const Given& job, std::size_t place, const Part& part,
                                       const WalkedPart& walked, const Catalogue& catalogue);

}  // namespace halfnut::job
