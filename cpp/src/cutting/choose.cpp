#include "halfnut/cutting/choose.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <utility>
#include <vector>

#include "choose_lathe.hpp"
#include "choose_mill.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {
namespace {

constexpr double kOneMoreRakeDeg = 6.0;
constexpr double kShorterStickOut = 0.75;
constexpr double kMostRakeDeg = 40.0;
constexpr double kMostRelaxed = 1e4;
constexpr double kRelaxedTo = 1e-3;  // a relaxation is found to this share

/// Limits in the order in which relaxing them is weighed; what keeps a person safe comes last.
constexpr std::array kRelaxable{
    LimitCode::feed_guide,  LimitCode::speed_window,   LimitCode::roughness,  LimitCode::edge_depth,
    LimitCode::least_depth, LimitCode::chip_thickness, LimitCode::tool_life,  LimitCode::nose_feed,
    LimitCode::deflection,  LimitCode::power,          LimitCode::torque,     LimitCode::force,
    LimitCode::grip,        LimitCode::chuck_speed,    LimitCode::work_whirl, LimitCode::bar_whirl};

/// A job that is asked again and again: with limits relaxed, or with a lever barred.
template <class OneJob>
class Question {
   public:
    Question(std::unique_ptr<const KinRows> kin, std::vector<OneJob> jobs)
        : kin_(std::move(kin)), jobs_(std::move(jobs)) {}

    struct Answer {
        Sequence sequence;
        const OneJob* job = nullptr;
        int lines_apart = 1;
    };
    [[nodiscard]] Answer ask(Barred barred = {}) const {
        Answer best;
        for (const OneJob& job : jobs_) {
            Answer found = answer(job, barred);
            if (found.sequence.cost < best.sequence.cost) {
                best = std::move(found);
            }
        }
        return best;
    }
    [[nodiscard]] Cost cost_with(LimitCode code, double factor) {
        relax(code, factor);
        const Cost found = ask().sequence.cost;
        relax(code, 1.0);
        return found;
    }
    void relax(LimitCode code, double factor) {
        for (OneJob& job : jobs_) {
            job.relax(code, factor);
        }
    }
    [[nodiscard]] const OneJob& any() const noexcept { return jobs_.front(); }
    /// Ask from now on for readings so many lines apart alone, so that answers compare.
    void keep_apart(int lines) noexcept { apart_ = lines; }

   private:
    [[nodiscard]] Answer answer(const OneJob& job, Barred barred) const {
        if (job.single()) {
            return {LeverSearch<OneJob, Which>(job, barred).one_pass(), &job};
        }
        if (job.free()) {
            return {FreeSearch<OneJob, Which>(job, barred).solve(), &job};
        }
        // readings on any line, then those on tens and fives, of which the roundest that costs little is
        // taken
        const int lines = job.counted().lines_a_step;
        if (apart_ > 0) {
            return {ShopSearch<OneJob, Which>(job, barred, std::max(1, apart_ / lines)).solve(), &job,
                    apart_};
        }
        Answer exact{ShopSearch<OneJob, Which>(job, barred, 1).solve(), &job, lines};
        if (exact.sequence.cost >= kNever) {
            return exact;
        }
        for (const int apart : {10, 5}) {
            const int stride = apart / lines;
            if (stride <= 1) {
                break;
            }
            Answer round{ShopSearch<OneJob, Which>(job, barred, stride).solve(), &job, apart};
            const double measured = cost_s(time_cost(job.measure_s()));
            if (round.sequence.cost < kNever &&
                cost_s(round.sequence.cost) + measured <=
                    (1.0 + kTensCost) * (cost_s(exact.sequence.cost) + measured)) {
                return round;
            }
        }
        return exact;
    }

    std::unique_ptr<const KinRows> kin_;  // the jobs look at it
    std::vector<OneJob> jobs_;
    int apart_ = 0;
};

Question<LatheJob> lathe_question(const Catalogue& catalogue, const machine::Machine& machine,
                                  const ChooseRequest& request) {
    auto kin = std::make_unique<const KinRows>(catalogue, catalogue.alloys[request.work.alloy]);
    std::vector<LatheJob> jobs;
    jobs.emplace_back(catalogue, machine, request, *kin);
    return {std::move(kin), std::move(jobs)};
}

Question<MillJob> mill_question(const Catalogue& catalogue, const machine::Machine& machine,
                                const ChooseRequest& request) {
    auto kin = std::make_unique<const KinRows>(catalogue, catalogue.alloys[request.work.alloy]);
    std::vector<MillJob> jobs;
    for (const int across : across_tried(request)) {
        if (jobs.empty()) {
            jobs.emplace_back(catalogue, machine, request, *kin, across);
        } else {
            jobs.push_back(jobs.front());
            jobs.back().divide(across);
        }
    }
    return {std::move(kin), std::move(jobs)};
}

template <class OneJob>
ChosenPass chosen(const OneJob& job, const Planned& planned) {
    const Bite& bite = planned.bite;
    ChosenPass out;
    out.cut = job.as_cut(bite, planned.speed, planned.feed);
    out.depth_mm = job.depth_of(bite);
    job.sizes(bite, out);
    const Counted& counted = job.counted();
    const int lines = (bite.from + bite.deep) * counted.lines_a_step;
    out.line = lines;
    if (bite.finish()) {
        const double off =
            (bite.from * counted.step_mm + (bite.last() ? counted.left_mm(bite.from) : out.depth_mm));
        out.line = bounds::nearest<int>(off / job.dial().line_mm, 0, bounds::kCount);
    }
    out.finish = bite.finish();
    out.measure_before = job.measured_before(bite);
    out.by_measurement = out.measure_before && !job.free();
    const std::size_t speeds = job.levers().speeds.size();
    out.slower_holds =
        planned.speed > 0 && job.template holds<Which::all>(bite, planned.speed - 1, planned.feed);
    out.faster_holds =
        planned.speed + 1 < speeds && job.template holds<Which::all>(bite, planned.speed + 1, planned.feed);
    out.cut_s = cost_s(time_cost(job.pass_s(planned.speed, planned.feed))) * job.side_by_side();
    out.return_s = cost_s(time_cost(job.return_s())) * job.side_by_side();
    out.dial_s = cost_s(time_cost(job.dial_s())) * job.side_by_side();
    out.limits = job.limits(bite, planned.speed, planned.feed);
    return out;
}

template <class OneJob>
void fill_passes(const typename Question<OneJob>::Answer& answer, const ChooseRequest& request,
                 const machine::Machine& machine, Passes& out) {
    const OneJob& job = *answer.job;
    const Levers& levers = job.levers();
    const double measure = cost_s(time_cost(machine.measure_s));
    const Planned* before = nullptr;
    for (const Planned& planned : answer.sequence.passes) {
        ChosenPass pass = chosen(job, planned);
        Cost change = 0;
        if (before == nullptr) {
            change = levers.from_now(request.now_spindle, request.now_feed, planned.speed, planned.feed);
        } else {
            change = levers.speed_change[before->speed * levers.speeds.size() + planned.speed] +
                     levers.feed_change[before->feed * levers.feeds.size() + planned.feed];
        }
        pass.change_s = cost_s(change);
        pass.levers_moved = cost_moved(change);
        pass.measure_s = pass.measure_before ? measure : 0.0;
        out.levers_moved += pass.levers_moved;
        out.passes.push_back(std::move(pass));
        before = &planned;
    }
    out.final_measure_s = measure;
    out.time_s = cost_s(answer.sequence.cost) + measure;
    out.lines_apart = answer.lines_apart;
    const ChosenPass& last = out.passes.back();
    const double rest = job.whole_mm() - last.line * out.line_mm;
    out.remainder_mm = last.by_measurement || std::abs(rest) < 1e-6 * out.line_mm ? 0.0 : rest;
    out.across = job.side_by_side();
}

template <class OneJob>
void find_prices(Question<OneJob>& question, Cost least, Passes& out) {
    for (const LimitCode code : kRelaxable) {
        const Cost without = question.cost_with(code, kInfinite);
        if (cost_s(without) < cost_s(least)) {
            out.prices.push_back({code, cost_s(least) - cost_s(without)});
        }
    }
    std::stable_sort(out.prices.begin(), out.prices.end(),
                     [](const LimitPrice& a, const LimitPrice& b) { return a.saved_s > b.saved_s; });
    out.limited_by = out.prices.empty() ? LimitCode::none : out.prices.front().code;
}

template <class OneJob>
void find_next(const Question<OneJob>& question, const typename Question<OneJob>::Answer& answer,
               double measured_s, Passes& out) {
    const Planned& first = answer.sequence.passes.front();
    const auto next = question.ask({first.speed, first.feed});
    if (next.sequence.cost >= kNever) {
        return;
    }
    const Planned& other = next.sequence.passes.front();
    const Levers& levers = next.job->levers();
    const double rpm = levers.speeds[other.speed].rpm;
    const Feed& feed = levers.feeds[other.feed];
    out.next = {cost_s(next.sequence.cost) + measured_s, next.sequence.passes.size(), rpm,
                std::isnan(feed.per_rev) ? feed.per_min / rpm : feed.per_rev};
}

/// Smallest factor on a set of limits at which there is an answer, all of them relaxed alike.
template <class OneJob>
double least_factor(Question<OneJob>& question, const std::vector<LimitCode>& codes) {
    double low = 1.0;
    double high = kMostRelaxed;
    while (high > low * (1.0 + kRelaxedTo)) {
        const double middle = std::sqrt(low * high);
        for (const LimitCode code : codes) {
            question.relax(code, middle);
        }
        (question.ask().sequence.cost < kNever ? high : low) = middle;
    }
    for (const LimitCode code : codes) {
        question.relax(code, 1.0);
    }
    return high;
}

template <class OneJob>
void find_relaxations(Question<OneJob>& question, Passes& out) {
    for (const LimitCode code : kRelaxable) {
        if (question.cost_with(code, kMostRelaxed) < kNever) {
            out.relaxations.push_back({code, least_factor(question, {code})});
        }
    }
    if (out.relaxations.empty()) {
        for (const LimitCode code : kRelaxable) {
            question.relax(code, kMostRelaxed);
        }
        std::vector<LimitCode> needed;
        if (question.ask().sequence.cost < kNever) {
            for (auto code = kRelaxable.rbegin(); code != kRelaxable.rend(); ++code) {
                question.relax(*code, 1.0);
                if (question.ask().sequence.cost >= kNever) {
                    question.relax(*code, kMostRelaxed);
                    needed.push_back(*code);
                }
            }
        }
        for (const LimitCode code : kRelaxable) {
            question.relax(code, 1.0);
        }
        if (!needed.empty()) {
            out.together = true;
            const double factor = least_factor(question, needed);
            for (const LimitCode code : needed) {
                out.relaxations.push_back({code, factor});
            }
        }
    }
    std::stable_sort(out.relaxations.begin(), out.relaxations.end(),
                     [](const Relaxation& a, const Relaxation& b) { return a.factor < b.factor; });
}

Cost least_cost(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request,
                int apart) {
    const auto least = [apart](auto question) {
        question.keep_apart(apart);
        return question.ask().sequence.cost;
    };
    return is_milling(request.cut) ? least(mill_question(catalogue, machine, request))
                                   : least(lathe_question(catalogue, machine, request));
}

/// The machine with a speed between a step and the next; unchanged where there is no next one.
bool add_speed(machine::Machine& machine, std::size_t step, int& now) {
    if (step + 1 >= machine.spindle.size() || machine.spindle[step + 1].variable()) {
        return false;
    }
    machine::SpindleStep between = machine.spindle[step + 1];
    between.rpm = std::sqrt(machine.spindle[step].rpm * between.rpm);
    machine.spindle.insert(machine.spindle.begin() + static_cast<std::ptrdiff_t>(step) + 1, between);
    now += now > static_cast<int>(step) ? 1 : 0;
    return true;
}
bool add_feed(machine::FeedLadder& ladder, std::size_t step, int& now) {
    if (step + 1 >= ladder.steps.size()) {
        return false;
    }
    machine::FeedStep between = ladder.steps[step + 1];
    between.feed_mm = std::sqrt(ladder.steps[step].feed_mm * between.feed_mm);
    ladder.steps.insert(ladder.steps.begin() + static_cast<std::ptrdiff_t>(step) + 1, between);
    now += now > static_cast<int>(step) ? 1 : 0;
    return true;
}

/// What one more thing would buy, each by asking again.
void find_gains(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request,
                const Sequence& answer, const Levers& levers, int apart, Passes& out) {
    const auto offer = [&](GainCode code, const machine::Machine& with, const ChooseRequest& asked) {
        const Cost cost = least_cost(catalogue, with, asked, apart);
        if (cost < kNever && cost_s(cost) < cost_s(answer.cost)) {
            out.gains.push_back(
                {code, answer.cost < kNever ? cost_s(answer.cost) - cost_s(cost) : kInfinite});
        }
    };
    if (request.cut == ChooseCut::turn && request.hold == Hold::chuck && request.beam == nullptr &&
        !std::isnan(lathe::reach_of(turn_request(request)))) {
        ChooseRequest asked = request;
        asked.hold = Hold::chuck_and_centre;
        offer(GainCode::centre, machine, asked);
    }
    if (!is_milling(request.cut)) {
        ChooseRequest asked = request;
        const double usual = force_scale(catalogue, catalogue.alloys[request.work.alloy]).rake_deg;
        asked.rake_deg = std::min(kMostRakeDeg, value_or(request.rake_deg, usual) + kOneMoreRakeDeg);
        offer(GainCode::rake, machine, asked);
    }
    // No less than the cut is long.
    if (!std::isnan(request.stick_out_mm) && request.beam == nullptr &&
        (is_milling(request.cut) || request.cut == ChooseCut::face ||
         !(kShorterStickOut * request.stick_out_mm < request.length_mm))) {
        ChooseRequest asked = request;
        asked.stick_out_mm *= kShorterStickOut;
        offer(GainCode::stick_out, machine, asked);
    }
    if (!answer.passes.empty()) {
        const Planned& first = answer.passes.front();
        machine::Machine with = machine;
        ChooseRequest asked = request;
        if (add_speed(with, levers.speeds[first.speed].step, asked.now_spindle)) {
            offer(GainCode::spindle_step, with, asked);
        }
        with = machine;
        asked = request;
        machine::FeedLadder& ladder = is_milling(request.cut) ? with.table : with.carriage;
        if (levers.source == FeedSource::step &&
            add_feed(ladder, levers.feeds[first.feed].step, asked.now_feed)) {
            offer(GainCode::feed_step, with, asked);
        }
    }
    std::stable_sort(out.gains.begin(), out.gains.end(),
                     [](const Gain& a, const Gain& b) { return a.saved_s > b.saved_s; });
}

template <class OneJob>
Passes answer_to(Question<OneJob> question, const Catalogue& catalogue, const machine::Machine& machine,
                 const ChooseRequest& request, bool explain) {
    Passes out;
    const OneJob& any = question.any();
    out.line_mm = any.dial().line_mm;
    const machine::Slide* slide = any.dial().slide;
    out.readout = slide != nullptr && !std::isnan(slide->readout_mm);
    out.closing = any.closing();
    out.dial_assumed = slide == nullptr;
    out.return_assumed = any.return_assumed();
    out.hand_fed = any.levers().source == FeedSource::hand;
    const auto answer = question.ask();
    if (answer.sequence.cost < kNever) {
        fill_passes<OneJob>(answer, request, machine, out);
        question.keep_apart(answer.lines_apart);
        if (explain) {
            find_prices(question, answer.sequence.cost, out);
            find_next(question, answer, out.time_s - cost_s(answer.sequence.cost), out);
        }
    } else {
        find_relaxations(question, out);
    }
    if (explain) {
        find_gains(catalogue, machine, request, answer.sequence, any.levers(),
                   answer.sequence.passes.empty() ? 0 : answer.lines_apart, out);
    }
    return out;
}

}  // namespace

Passes choose(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request,
              bool explain) {
    check_choice(catalogue, machine, request);
    return is_milling(request.cut)
               ? answer_to(mill_question(catalogue, machine, request), catalogue, machine, request, explain)
               : answer_to(lathe_question(catalogue, machine, request), catalogue, machine, request, explain);
}

}  // namespace halfnut::cutting
