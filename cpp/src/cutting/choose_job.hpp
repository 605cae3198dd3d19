#pragma once
// What the jobs that choose() can be asked about share: the levers, the dial, the tables' windows, the times.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "choose_shop.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/cutting/closing.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/kin_rows.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "steps.hpp"

namespace halfnut::cutting {

inline constexpr double kInfinite = std::numeric_limits<double>::infinity();

/// Room left for rounding: limits on speed and feed hold up to here above, all others from here below.
inline constexpr double kSame = 1e-9;
inline constexpr std::size_t kMostLevers = 20'000;  // speeds times feeds of one machine

/// Throw where the request contradicts itself or the tables do not hold it, and where the machine has no room
/// for the work.
void check_choice(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request);

/// The slide whose dial sets the depth, and what one line of it goes.
struct Dial {
    Dial(const machine::Machine& machine, const ChooseRequest& request) {
        switch (request.cut) {
            case ChooseCut::turn:
            case ChooseCut::bore:
                slide = machine::find_slide(machine, "cross");
                break;
            case ChooseCut::face:
                slide = machine::find_slide(machine, "compound");
                slide = slide == nullptr ? machine::find_slide(machine, "carriage") : slide;
                break;
            default:
                slide = machine::find_slide(machine, "z");
                slide = slide == nullptr ? machine::find_slide(machine, "quill") : slide;
        }
        line_mm = slide == nullptr ? value_or(request.line_mm, machine.inch ? kInchLineMm : kLineMm)
                                   : slide->graduation_mm / (slide->reads_diameter ? 2.0 : 1.0);
    }

    const machine::Slide* slide = nullptr;
    double line_mm = kNaN;
};

/// A depth in counted steps of whole lines, and what is left over.
struct Counted {
    Counted(double whole_mm, double line_mm) {
        const double lines = std::floor(whole_mm / line_mm + 1e-6);
        // a step that tens of lines are a whole number of, or that is one of tens
        for (const int next : {5, 2}) {
            if (lines > static_cast<double>(kMostLines) * lines_a_step) {
                lines_a_step *= next;
            }
        }
        while (lines > static_cast<double>(kMostLines) * lines_a_step) {
            lines_a_step = bounds::whole<int>(10.0 * lines_a_step, 1);
        }
        step_mm = line_mm * lines_a_step;
        steps = bounds::whole<int>(std::floor(whole_mm / step_mm + 1e-6), 0, kMostLines);
        rest_mm = whole_mm - steps * step_mm;
        if (std::abs(rest_mm) < 1e-6 * step_mm) {
            rest_mm = 0.0;
        }
    }

    [[nodiscard]] double left_mm(int from) const noexcept { return (steps - from) * step_mm + rest_mm; }
    /// Lines of the first of a free pair that takes all from a step on, or 0 where no pair can.
    [[nodiscard]] double first_of_pair(int from) const noexcept {
        const double line = step_mm / lines_a_step;
        const double whole = static_cast<double>(steps - from) * lines_a_step;
        const double first = std::floor((whole + rest_mm / line) / 2.0 + 0.5);
        return first >= 1.0 && (first < whole || rest_mm > 0.0) ? first : 0.0;
    }

    int lines_a_step = 1;
    double step_mm = kNaN;
    int steps = 0;
    double rest_mm = 0.0;
};

/// Speed windows and feeds, each row of the tables asked for once. What depth and feed have to do with the
/// choice of a row are comparisons with the rows' own depths and feeds; of one outcome of all of them there
/// is one answer.
class Windows {
   public:
    Windows(const Catalogue& catalogue, const WindowQuery& query, std::array<Operation, 2> operations,
            std::array<double, 2> usual_feeds)
        : catalogue_(catalogue), query_(query), operations_(operations), usual_feeds_(usual_feeds) {
        for (const KinRow<SpeedRow>& each : query.kin->speeds) {
            if (weighs(each.row->operation)) {
                rows_.push_back(each.row);
            }
        }
    }

    [[nodiscard]] std::size_t depth_class(double depth) {
        return place(depths_, depth, [](const SpeedRow& row, double at) {
            return static_cast<std::uint8_t>(row.depth_high_mm >= at - kDepthSlackMm);
        });
    }
    [[nodiscard]] std::size_t feed_class(double feed) {
        return place(feeds_, feed, [](const SpeedRow& row, double at) {
            const double low = std::isnan(row.feed_low_mm) ? 0.0 : row.feed_low_mm;
            const bool about = low <= kAboutFeed * at && row.feed_high_mm >= at / kAboutFeed;
            const bool same = low / kSameFeed <= at && at <= kSameFeed * row.feed_high_mm;
            return static_cast<std::uint8_t>((about ? 1U : 0U) | (same ? 2U : 0U));
        });
    }
    /// Ask for every class once; to be called when all depths and feeds are known.
    void settle() {
        const std::size_t depths = depths_.examples.size();
        const std::size_t feeds = feeds_.examples.size();
        for (const bool finish : {false, true}) {
            for (std::size_t depth = 0; depth < depths; ++depth) {
                FeedWindow guide;
                const WindowQuery usual = at(finish, depth);
                guides_.push_back(feed_window(catalogue_, usual, guide).ok() ? guide.high_mm : kNaN);
                for (std::size_t feed = 0; feed < feeds; ++feed) {
                    WindowQuery query = usual;
                    query.feed_mm = feeds_.examples[feed];
                    SpeedWindow window;
                    speeds_.push_back(speed_window(catalogue_, query, window).ok() ? window.high_m_min : 0.0);
                }
            }
        }
    }
    /// Highest cutting speed; 0 where none is tabulated.
    [[nodiscard]] double speed(bool finish, std::size_t depth, std::size_t feed) const noexcept {
        return speeds_[((finish ? depths_.examples.size() : 0) + depth) * feeds_.examples.size() + feed];
    }
    /// Highest feed of the tables; NaN where they have none.
    [[nodiscard]] double feed(bool finish, std::size_t depth) const noexcept {
        return guides_[(finish ? depths_.examples.size() : 0) + depth];
    }
    /// Highest speed and feed of any depth.
    [[nodiscard]] double fastest(bool finish, std::size_t feed_class) const noexcept {
        double out = 0.0;
        for (std::size_t depth = 0; depth < depths_.examples.size(); ++depth) {
            out = std::max(out, speed(finish, depth, feed_class));
        }
        return out;
    }
    [[nodiscard]] double coarsest(bool finish, double otherwise) const noexcept {
        double out = 0.0;
        for (std::size_t depth = 0; depth < depths_.examples.size(); ++depth) {
            out = std::max(out, value_or(feed(finish, depth), otherwise));
        }
        return out;
    }

   private:
    struct Classes {
        std::map<std::vector<std::uint8_t>, std::size_t> places;
        std::vector<double> examples;
    };

    /// Whether depth and feed have to do with the choice among an operation's rows: those of what else its
    /// speed may rest on are asked for of an ordinary cut, rough turning of the depth too.
    [[nodiscard]] bool weighs(Operation operation) const noexcept {
        return operation == operations_[0] || operation == operations_[1] ||
               operation == Operation::turn_rough || operation == Operation::turn_finish;
    }
    template <class Test>
    std::size_t place(Classes& classes, double value, Test test) {
        std::vector<std::uint8_t> outcome;
        outcome.reserve(rows_.size());
        for (const SpeedRow* row : rows_) {
            outcome.push_back(test(*row, value));
        }
        const auto [found, is_new] = classes.places.emplace(std::move(outcome), classes.examples.size());
        if (is_new) {
            classes.examples.push_back(value);
        }
        return found->second;
    }
    [[nodiscard]] WindowQuery at(bool finish, std::size_t depth) const {
        WindowQuery query = query_;
        query.operation = operations_[finish ? 1 : 0];
        query.depth_mm = depths_.examples[depth];
        query.feed_mm = usual_feeds_[finish ? 1 : 0];
        return query;
    }

    const Catalogue& catalogue_;
    WindowQuery query_;
    std::array<Operation, 2> operations_;
    std::array<double, 2> usual_feeds_;
    std::vector<const SpeedRow*> rows_;
    Classes depths_;
    Classes feeds_;
    std::vector<double> speeds_;  // by finish, depth, feed
    std::vector<double> guides_;  // by finish, depth
};

/// What both kinds of job share: the levers, the depth, the times, the relaxed limits.
class Job {
   public:
    Job(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request,
        const KinRows& kin, const machine::FeedLadder* ladder, double ratio, std::string_view fed,
        double whole_mm)
        : catalogue_(catalogue),
          machine_(machine),
          request_(request),
          kin_(kin),
          alloy_(catalogue.alloys[request.work.alloy]),
          levers_(machine, ladder, ratio, machine::find_slide(machine, fed), request.only_spindle),
          dial_(machine, request),
          counted_(whole_mm, dial_.line_mm),
          fed_(machine::find_slide(machine, fed)),
          fire_(fire_limit(catalogue, alloy_)),
          constants_(force_constants(catalogue, alloy_, request.work.hardness_hb)) {
        if (levers_.feeds.empty()) {
            throw NotTabulatedError(std::string(enum_name(request.cut)) + ": " + machine.name +
                                    " has no power feed here and no dial on its " + std::string(fed) +
                                    " slide: give the slide in the machine file");
        }
        if (levers_.count() > kMostLevers) {
            throw DomainError(fmt::format("{}: {} speeds with {} feeds are {} settings; at most {}",
                                          machine.name, levers_.speeds.size(), levers_.feeds.size(),
                                          levers_.count(), kMostLevers));
        }
        relax_.fill(1.0);
        if (request.chuck >= 0 && static_cast<std::size_t>(request.chuck) < machine.chucks.size()) {
            chuck_ = &machine.chucks[static_cast<std::size_t>(request.chuck)];
        }
    }

    [[nodiscard]] const Levers& levers() const noexcept { return levers_; }
    [[nodiscard]] const Counted& counted() const noexcept { return counted_; }
    [[nodiscard]] const Dial& dial() const noexcept { return dial_; }
    [[nodiscard]] int steps() const noexcept { return counted_.steps; }
    [[nodiscard]] const Closing& closing() const noexcept { return closing_; }
    [[nodiscard]] bool single() const noexcept { return request_.single; }
    [[nodiscard]] bool free() const noexcept { return request_.free; }
    [[nodiscard]] double whole_mm() const noexcept { return counted_.left_mm(0); }
    /// Whether the work is measured before a pass. What the tool has not yet cut tells nothing of where it
    /// is.
    [[nodiscard]] bool measured_before(const Bite& bite) const noexcept {
        return !request_.single && (request_.free ? bite.kind == PassKind::rest
                                                  : bite.finish() && measures() &&
                                                        (bite.from > 0 || bite.kind == PassKind::rest));
    }
    /// How often the work is measured before finishing cuts from a step.
    [[nodiscard]] int measurements(int from) const noexcept {
        return !measures() ? 0 : from > 0 ? closes(from) : closes(from) - 1;
    }
    /// Whether the free pair can take all from a step on.
    [[nodiscard]] bool pairs(int from) const noexcept { return counted_.first_of_pair(from) > 0.0; }
    /// Whether what rough passes leave is measured.
    [[nodiscard]] bool measures() const noexcept {
        return closing_.way == ClosingWay::one_measured || closing_.way == ClosingWay::halves;
    }
    /// Whether two finishing cuts take all from a step on: of halves, and where nothing is cut before them.
    [[nodiscard]] bool halves(int from) const noexcept {
        return closing_.way == ClosingWay::halves || (closing_.way == ClosingWay::one_measured && from == 0);
    }
    /// Finishing cuts that take all from a step on; 0 where none may. What is on the work from the start may
    /// be less than roughing leaves, though never less than can be cut, and one line is not divided.
    [[nodiscard]] int closes(int from) const noexcept {
        const bool two = halves(from);
        const double left = counted_.left_mm(from);
        const double cut = two ? left / 2.0 : left;
        if (!(left > 0.0) || cut > closing_.high_mm * (1.0 + kSame)) {
            return 0;
        }
        const double least = from > 0 ? closing_.low_mm : two ? least_mm_ + dial_.line_mm / 2.0 : 0.0;
        const bool divides = !two || from > 0 || pairs(0);
        if (cut >= least * (1.0 - kSame) && divides) {
            return two ? 2 : 1;
        }
        return from == 0 ? 1 : 0;
    }
    /// How far the finishing cut from a step is from what is aimed at, mm.
    [[nodiscard]] double finish_off_aim(int from) const noexcept {
        return std::isnan(closing_.aim_mm)
                   ? 0.0
                   : std::abs(counted_.left_mm(from) / (halves(from) ? 2.0 : 1.0) - closing_.aim_mm);
    }
    /// Kinds of pass that may take what a step leaves.
    [[nodiscard]] bool used(PassKind kind, int from) const noexcept {
        if (request_.single) {
            return kind == PassKind::only && from == 0;
        }
        const int cuts = request_.free ? (pairs(from) ? 2 : 0) : closes(from);
        return kind == PassKind::only ? cuts == 1 : cuts == 2;
    }
    [[nodiscard]] int now_spindle() const noexcept { return request_.now_spindle; }
    [[nodiscard]] int now_feed() const noexcept { return request_.now_feed; }
    [[nodiscard]] double measure_s() const noexcept { return machine_.measure_s; }
    [[nodiscard]] double dial_s() const noexcept { return value_or(request_.dial_set_s, kDialSetS); }
    [[nodiscard]] bool return_assumed() const noexcept { return fed_ == nullptr; }

    /// Hold a limit only to so many times its value; a speed that keeps chips from burning is never given up.
    void relax(LimitCode code, double factor) {
        if (code != LimitCode::speed_window || fire_ == nullptr) {
            relax_[static_cast<std::size_t>(code)] = factor;
        }
    }

    /// Time to wind a slide back over a travel.
    [[nodiscard]] double wind_s(double travel_mm) const noexcept {
        double rate = fed_ == nullptr ? kReturnMmMin
                                      : value_or(request_.hand_turns_per_min, kWindTurnsPerMin) *
                                            fed_->travel_per_turn_mm;
        for (const Feed& feed : levers_.feeds) {
            if (levers_.source == FeedSource::step && !std::isnan(feed.per_min)) {
                rate = std::max(rate, feed.per_min);
            }
        }
        return 60.0 * travel_mm / rate;
    }

   protected:
    /// Depth of what a kind of pass takes from a step on.
    [[nodiscard]] double depth_at(PassKind kind, int place) const noexcept {
        const double left = counted_.left_mm(place);
        // by the dial in whole lines, by a measurement whatever is left
        const double lines = counted_.first_of_pair(place);
        const double half = lines > 0.0 && (request_.free || place == 0) ? lines * dial_.line_mm : left / 2.0;
        switch (kind) {
            case PassKind::half:
                return half;
            case PassKind::rest:
                return left - half;
            case PassKind::only:
                return left;
            default:
                return place * counted_.step_mm;
        }
    }
    /// Where a pass's depth stands in tables: by steps deep for rough ones, by step from for the others.
    [[nodiscard]] static std::size_t group(const Bite& bite) noexcept {
        return bite.finish() ? static_cast<std::size_t>(bite.kind) - 1 : 0;
    }
    [[nodiscard]] static std::size_t place(const Bite& bite) noexcept {
        return static_cast<std::size_t>(bite.finish() ? bite.from : bite.deep);
    }
    /// Kind and place of everything in a group that may come up.
    template <class Fill>
    void each_depth(Fill fill) const {
        for (const PassKind kind : {PassKind::rough, PassKind::half, PassKind::rest, PassKind::only}) {
            for (int at = 0; at <= counted_.steps; ++at) {
                const bool used_here = kind == PassKind::rough || used(kind, at);
                fill(kind == PassKind::rough ? 0 : static_cast<std::size_t>(kind) - 1, used_here,
                     depth_at(kind, at));
            }
        }
    }
    /// Deflection that the pass before a measurement is held to, so that the cut after it is what was meant.
    [[nodiscard]] double spring_mm(int to) const noexcept {
        const double next = counted_.left_mm(to) / (halves(to) ? 2.0 : 1.0);
        return halves(to) ? kSpringShare * next
                          : std::min(kSpringShare * next, kSpringBandShare * request_.tolerance_mm);
    }

    /// Whether a share of a limit is allowed; `hard` ones are computed, the others are set.
    [[nodiscard]] bool allows(LimitCode code, double used, bool hard) const noexcept {
        return used <= relax_[static_cast<std::size_t>(code)] * (hard ? 1.0 - kSame : 1.0 + kSame);
    }
    [[nodiscard]] double relaxed(LimitCode code) const noexcept {
        return relax_[static_cast<std::size_t>(code)];
    }

    const Catalogue& catalogue_;
    const machine::Machine& machine_;
    const ChooseRequest& request_;
    const KinRows& kin_;
    const material::AlloyRow& alloy_;
    Levers levers_;
    Dial dial_;
    Counted counted_;
    const machine::Slide* fed_;
    const FireLimitRow* fire_;
    const machine::Chuck* chuck_ = nullptr;
    ForceConstants constants_;
    Closing closing_;
    double least_mm_ = 0.0;  // that edge and alloy can cut
    double high_ = 1.0;      // force at which limits are judged, over the computed one
    std::array<double, enum_names(LimitCode{}).size()> relax_{};
};

/// Which limits are wanted: all, or those that only grow with the depth, or those that do not hang on it.
enum class Which : std::uint8_t { all, growing, fixed };

inline constexpr std::size_t kGroups = 4;  // rough; half, rest, only

}  // namespace halfnut::cutting
