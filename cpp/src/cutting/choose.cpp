#include "halfnut/cutting/choose.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <utility>

#include "choose_solver.hpp"
#include "halfnut/bounds.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/edge_life.hpp"
#include "halfnut/cutting/finish.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/cutting/tool_life.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "lathe.hpp"
#include "mill.hpp"

namespace halfnut::cutting {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

/// Room left for rounding: limits on speed and feed hold up to here above, all others from here below.
constexpr double kSame = 1e-9;

constexpr double kOneMoreRakeDeg = 6.0;
constexpr double kShorterStickOut = 0.75;
constexpr double kMostRakeDeg = 40.0;
constexpr double kMostRelaxed = 1e4;
constexpr std::size_t kMostLevers = 20'000;  // speeds times feeds of one machine
constexpr double kRelaxedTo = 1e-3;          // a relaxation is found to this share

constexpr std::uint8_t argument_place(std::string_view name) noexcept {
    for (std::size_t i = 0; i < kChooseArguments.size(); ++i) {
        if (kChooseArguments[i].argument.name == name) {
            return static_cast<std::uint8_t>(i);
        }
    }
    return kNoArgument;
}

[[noreturn]] void refuse(const ChooseRequest& request, std::string_view argument) {
    throw_if_failed(Status{StatusCode::inconsistent, argument_place(argument)}, enum_name(request.cut),
                    request, kChooseArguments);
    throw DomainError(std::string(argument));
}

void check(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request) {
    const std::string_view cut = enum_name(request.cut);
    throw_if_failed(check_request(request, kChooseArguments), cut, request, kChooseArguments);
    throw_if_failed(check_setting(catalogue, machine, request.work), cut, request, kChooseArguments);
    const bool milling = is_milling(request.cut);
    if (milling != (machine.kind == machine::Kind::mill)) {
        throw DomainError(std::string(cut) + (milling ? " needs a mill" : " needs a lathe") + ", got the " +
                          std::string(enum_name(machine.kind)) + " " + machine.name);
    }
    const auto given = [&](double value, std::string_view argument) {
        if (std::isnan(value)) {
            refuse(request, argument);
        }
    };
    switch (request.cut) {
        case ChooseCut::turn:
            given(request.length_mm, "length_mm");
            if (!(request.to_mm < request.diameter_mm)) {
                refuse(request, "to_mm");
            }
            if (request.bore_mm >= request.to_mm) {
                refuse(request, "bore_mm");
            }
            break;
        case ChooseCut::bore:
            given(request.length_mm, "length_mm");
            if (!(request.to_mm > request.diameter_mm)) {
                refuse(request, "to_mm");
            }
            if (request.bar_diameter_mm >= request.diameter_mm) {
                refuse(request, "bar_diameter_mm");
            }
            break;
        case ChooseCut::face:
            given(request.off_mm, "off_mm");
            if (request.end_diameter_mm >= request.diameter_mm) {
                refuse(request, "end_diameter_mm");
            }
            if (request.bore_mm >= request.diameter_mm) {
                refuse(request, "bore_mm");
            }
            break;
        default:
            given(request.off_mm, "off_mm");
            given(request.length_mm, "length_mm");
            if (request.cut != ChooseCut::mill_slot) {
                given(request.width_mm, "width_mm");
            }
            if ((request.cut == ChooseCut::mill_slot || request.cut == ChooseCut::mill_pocket) &&
                request.width_mm < request.diameter_mm * (1.0 - kSame)) {
                refuse(request, "width_mm");
            }
            if (request.step_over_mm > request.diameter_mm) {
                refuse(request, "step_over_mm");
            }
    }
}

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
        lines_a_step = bounds::whole<int>(std::ceil(lines / kMostLines), 1);
        step_mm = line_mm * lines_a_step;
        steps = bounds::whole<int>(std::floor(whole_mm / step_mm + 1e-6), 0, kMostLines);
        rest_mm = whole_mm - steps * step_mm;
        if (std::abs(rest_mm) < 1e-6 * step_mm) {
            rest_mm = 0.0;
        }
    }

    /// Steps of the first of a pair that takes all from a step on, or 0 where no pair can.
    [[nodiscard]] int first_of_pair(int from) const noexcept {
        const int left = steps - from;
        const int first = bounds::whole<int>(std::floor((left + rest_mm / step_mm) / 2.0 + 0.5), 0);
        return first >= 1 && (first < left || rest_mm > 0.0) ? first : 0;
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
    Windows(const Catalogue& catalogue, WindowQuery query, std::array<Operation, 2> operations,
            std::array<double, 2> usual_feeds)
        : catalogue_(catalogue), query_(query), operations_(operations), usual_feeds_(usual_feeds) {
        std::vector<std::string_view> keys{query.alloy->id};
        std::string_view group = query.alloy->group;
        constexpr std::size_t kDeepest = 16;
        while (keys.size() < kDeepest && !group.empty()) {
            keys.push_back(group);
            const material::GroupRow* row = material::find_group(catalogue, group);
            group = row == nullptr ? std::string_view{} : row->parent;
        }
        for (const SpeedRow& row : catalogue.speeds) {
            for (const std::string_view key : keys) {
                if (material::has_word(row.key, key)) {
                    rows_.push_back(&row);
                    break;
                }
            }
        }
    }

    [[nodiscard]] std::size_t depth_class(double depth) {
        return place(depths_, depth,
                     [](const SpeedRow& row, double at) { return row.depth_high_mm >= at - kDepthSlackMm; });
    }
    [[nodiscard]] std::size_t feed_class(double feed) {
        return place(feeds_, feed, [](const SpeedRow& row, double at) {
            const double low = std::isnan(row.feed_low_mm) ? 0.0 : row.feed_low_mm;
            return low <= kAboutFeed * at && row.feed_high_mm >= at / kAboutFeed;
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
        std::map<std::vector<bool>, std::size_t> places;
        std::vector<double> examples;
    };

    template <class Test>
    std::size_t place(Classes& classes, double value, Test test) {
        std::vector<bool> outcome;
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
        const machine::FeedLadder* ladder, double ratio, std::string_view fed, double whole_mm)
        : catalogue_(catalogue),
          machine_(machine),
          request_(request),
          alloy_(catalogue.alloys[request.work.alloy]),
          levers_(machine, ladder, ratio, machine::find_slide(machine, fed)),
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
    [[nodiscard]] int first_of_pair(int from) const noexcept { return counted_.first_of_pair(from); }
    [[nodiscard]] bool single() const noexcept { return request_.single; }
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
    /// Whether a share of a limit is allowed; `hard` ones are reckoned, the others are set.
    [[nodiscard]] bool allows(LimitCode code, double used, bool hard) const noexcept {
        return used <= relax_[static_cast<std::size_t>(code)] * (hard ? 1.0 - kSame : 1.0 + kSame);
    }
    [[nodiscard]] double relaxed(LimitCode code) const noexcept {
        return relax_[static_cast<std::size_t>(code)];
    }

    const Catalogue& catalogue_;
    const machine::Machine& machine_;
    const ChooseRequest& request_;
    const material::AlloyRow& alloy_;
    Levers levers_;
    Dial dial_;
    Counted counted_;
    const machine::Slide* fed_;
    const FireLimitRow* fire_;
    const machine::Chuck* chuck_ = nullptr;
    ForceConstants constants_;
    double high_ = 1.0;  // force at which limits are judged, over the reckoned one
    std::array<double, enum_names(LimitCode{}).size()> relax_{};
};

/// Which limits are wanted: all, or those that only grow with the depth, or those that do not hang on it.
enum class Which : std::uint8_t { all, growing, fixed };

TurnRequest turn_request(const ChooseRequest& request) {
    TurnRequest out;
    out.cut = request.cut == ChooseCut::turn   ? LatheCut::turn
              : request.cut == ChooseCut::face ? LatheCut::face
                                               : LatheCut::bore;
    out.work = request.work;
    out.tool_material = request.tool_material;
    out.diameter_mm = request.diameter_mm;
    out.end_diameter_mm = request.end_diameter_mm;
    out.length_mm = request.length_mm;
    out.bore_mm = request.bore_mm;
    out.stick_out_mm = request.stick_out_mm;
    out.bar_diameter_mm = request.bar_diameter_mm;
    out.nose_radius_mm = request.nose_radius_mm;
    out.entering_deg = request.entering_deg;
    out.rake_deg = request.rake_deg;
    out.wear_factor = request.wear_factor;
    out.approach_mm = request.approach_mm;
    out.overrun_mm = request.overrun_mm;
    out.span_mm = request.span_mm;
    out.stock_diameter_mm = request.stock_diameter_mm;
    out.stock_flats_mm = request.stock_flats_mm;
    out.bar_length_mm = request.bar_length_mm;
    out.bar_behind_mm = request.bar_behind_mm;
    out.hold = request.hold;
    out.chuck = request.chuck;
    return out;
}

/// The work of the whole job in the machine: it whips soonest when all is off.
Mounting mounting_of(const ChooseRequest& request) noexcept {
    return lathe::mounting_of(turn_request(request),
                              request.cut == ChooseCut::turn ? request.to_mm : request.diameter_mm);
}

/// Throw where the machine has no room for the work, or the sizes of how it is held contradict each other.
void check_mounting(const machine::Machine& machine, const ChooseRequest& request) {
    if (is_milling(request.cut)) {
        return;
    }
    if (request.cut != ChooseCut::face && request.stick_out_mm * kSameLength < request.length_mm) {
        throw_short_overhang("stick_out_mm", request.stick_out_mm, request.length_mm, machine);
    }
    if (request.stock_diameter_mm * kSameLength < std::fmax(request.diameter_mm, request.to_mm)) {
        refuse(request, "stock_diameter_mm");
    }
    if (!std::isnan(request.bar_length_mm) && !std::isnan(request.bar_behind_mm)) {
        refuse(request, "bar_behind_mm");
    }
    CutResult found;
    if (!check_room(machine, mounting_of(request), found).ok()) {
        throw_if_no_room(machine, found, request.chuck);
    }
}

const machine::FeedLadder* lathe_ladder(const machine::Machine& machine, ChooseCut cut) noexcept {
    const bool power = !machine.carriage.steps.empty() &&
                       (cut != ChooseCut::face || !std::isnan(machine.carriage.cross_ratio));
    return power ? &machine.carriage : nullptr;
}

double lathe_depth(const ChooseRequest& request) noexcept {
    return request.cut == ChooseCut::face ? request.off_mm
                                          : std::abs(request.diameter_mm - request.to_mm) / 2.0;
}

/// Turning, facing and boring.
class LatheJob : public Job {
   public:
    LatheJob(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request)
        : Job(catalogue, machine, request, lathe_ladder(machine, request.cut),
              request.cut == ChooseCut::face ? machine.carriage.cross_ratio : 1.0,
              request.cut == ChooseCut::face ? "cross" : "carriage", lathe_depth(request)),
          base_(turn_request(request)),
          windows_(catalogue,
                   {&alloy_, request.work.hardness_hb, {}, request.tool_material, kNaN, kNaN, kNaN},
                   {lathe::operation_of(base_.cut, false), lathe::operation_of(base_.cut, true)},
                   {usual_feed_mm(base_.cut, false), usual_feed_mm(base_.cut, true)}) {
        high_ = value_or(force_band(catalogue, alloy_, Process::turn, constants_.rough).high, 1.0) *
                (std::isnan(request.wear_factor) ? kTurningWear : 1.0);
        share_ = normal_share(request.wear_factor);
        correction_ = lathe::correction(base_, alloy_);
        nose_ = value_or(request.nose_radius_mm, kNoseRadiusMm);
        const double share = value_or(request.tolerance_share, kToleranceShare);
        most_bend_ = value_or(request.deflection_mm, kMostBendMm);
        finish_bend_ = std::isnan(request.tolerance_mm)
                           ? most_bend_
                           : std::min(most_bend_, share * request.tolerance_mm / 2.0);
        deepest_ = value_or(request.deepest_mm, kDeepestMm);
        work_whirl_ = work_whirl_rpm(alloy_, mounting_of(request));
        bar_whirl_ = bar_whirl_rpm(machine, alloy_, mounting_of(request));
        travel_ = lathe::travel_of(base_);
        fill_depths();
        fill_states();
        fill_feeds();
    }

    /// Deepest rough pass, in steps.
    [[nodiscard]] int cap() const noexcept {
        const double most = deepest_ * relaxed(LimitCode::edge_depth) * (1.0 + kSame);
        return most >= depths_[0].back()
                   ? steps()
                   : bounds::whole<int>(std::floor(most / counted_.step_mm + 1e-6), 0, steps());
    }
    [[nodiscard]] double pass_s(std::size_t s, std::size_t i) const noexcept {
        return FeedTime::compute(travel_, FeedRate::compute(feeds_[row(s, i)], levers_.speeds[s].rpm));
    }
    [[nodiscard]] double return_s() const noexcept { return wind_s(travel_); }
    [[nodiscard]] int side_by_side() const noexcept { return 1; }

    /// Whether the limits wanted hold.
    template <Which kWhich>
    [[nodiscard]] bool holds(const Bite& bite, std::size_t s, std::size_t i) const {
        return visit<kWhich>(bite, s, i,
                             [&](LimitCode code, double /*value*/, double /*limit*/, double used, bool hard) {
                                 return allows(code, used, hard);
                             });
    }
    /// False when no rough pass, or no pair, from here on can keep its limits with a lever, whatever its
    /// depth.
    [[nodiscard]] bool may_hold(bool finish, int from, std::size_t s, std::size_t i) const {
        const std::size_t r = row(s, i);
        // a shallow rough pass counts as fine
        const double coarsest = finish ? coarsest_[1] : std::max(coarsest_[0], coarsest_[1]);
        const double fastest = finish ? fastest_[1][r] : std::max(fastest_[0][r], fastest_[1][r]);
        const std::size_t x = base_.cut == LatheCut::turn   ? index(finish ? steps() : from)
                              : base_.cut == LatheCut::bore ? index(from) + 1
                                                            : 0;
        return allows(LimitCode::feed_guide, feeds_[r] / coarsest, false) &&
               allows(LimitCode::speed_window,
                      CuttingSpeed::compute(levers_.speeds[s].rpm, diameters_[x]) / fastest, false);
    }
    /// False when no rough pass from here, up to a depth, can bend little enough.
    [[nodiscard]] bool may_bend_little(int from, int most, std::size_t s, std::size_t i) const {
        if (bends_.empty()) {
            return true;
        }
        const std::vector<double>& least = least_passive(row(s, i));
        const std::size_t x = base_.cut == LatheCut::turn   ? index(from)
                              : base_.cut == LatheCut::bore ? finished()
                                                            : 0;
        const double bend = share_ * least[static_cast<std::size_t>(most)] *
                            (correction_ * speed_factor(x, s)) * bends_[index(from) + 1] * high_;
        return !(bend * (1.0 - 1e-6) > most_bend_ * relaxed(LimitCode::deflection));
    }

    [[nodiscard]] std::vector<Limit> limits(const Bite& bite, std::size_t s, std::size_t i) const {
        std::vector<Limit> out;
        (void)visit<Which::all>(
            bite, s, i, [&](LimitCode code, double value, double limit, double /*used*/, bool /*hard*/) {
                out.push_back({code, value, limit});
                return true;
            });
        return out;
    }
    [[nodiscard]] double depth_of(const Bite& bite) const noexcept {
        return depths_[bite.rest ? 1 : 0][static_cast<std::size_t>(bite.deep)];
    }

    /// The pass as a cut of its own.
    [[nodiscard]] CutResult as_cut(const Bite& bite, std::size_t s, std::size_t i) const {
        TurnRequest request = base_;
        request.diameter_mm = base_.cut == LatheCut::turn   ? diameter(index(bite.from))
                              : base_.cut == LatheCut::bore ? diameter(to_index(bite))
                                                            : base_.diameter_mm;
        request.depth_mm = depth_of(bite);
        request.feed_mm_rev = feeds_[row(s, i)];
        request.spindle_rpm = levers_.speeds[s].rpm;
        request.finish = bite.finish;
        request.deflection_limit_mm = bite.finish ? finish_bend_ : most_bend_;
        request.roughness_limit_um = bite.finish ? request_.roughness_um : kNaN;
        return cut(catalogue_, machine_, request);
    }
    void sizes(const Bite& bite, ChosenPass& out) const noexcept {
        if (base_.cut == LatheCut::face) {
            out.before_mm = bite.from * counted_.step_mm;
            out.after_mm = bite.last ? request_.off_mm : (bite.from + bite.deep) * counted_.step_mm;
        } else {
            out.before_mm = diameter(index(bite.from));
            out.after_mm = diameter(to_index(bite));
        }
    }

   private:
    static std::size_t index(int step) noexcept { return static_cast<std::size_t>(step); }
    [[nodiscard]] std::size_t finished() const noexcept { return index(steps()) + 1; }
    [[nodiscard]] std::size_t to_index(const Bite& bite) const noexcept {
        return bite.last ? finished() : index(bite.from + bite.deep);
    }
    [[nodiscard]] double diameter(std::size_t at) const noexcept { return diameters_[at]; }
    [[nodiscard]] std::size_t row(std::size_t s, std::size_t i) const noexcept {
        return per_rev_ ? i : s * levers_.feeds.size() + i;
    }

    void fill_depths() {
        const SineCosine edge = sine_cosine_deg(value_or(request_.entering_deg, kEnteringDeg));
        for (const std::size_t rest : {0U, 1U}) {
            for (int m = 0; m <= steps(); ++m) {
                const double depth = m * counted_.step_mm + (rest == 1 ? counted_.rest_mm : 0.0);
                const SineCosine kappa =
                    depth > 0.0 ? mean_entering(depth, nose_, edge) : SineCosine{kNaN, kNaN};
                depths_[rest].push_back(depth);
                sines_[rest].push_back(kappa.sine);
                cosines_[rest].push_back(kappa.cosine);
                classes_[rest].push_back(windows_.depth_class(depth));
            }
        }
    }
    void fill_states() {
        const double sign = base_.cut == LatheCut::turn ? -2.0 : base_.cut == LatheCut::bore ? 2.0 : 0.0;
        for (int k = 0; k <= steps(); ++k) {
            diameters_.push_back(base_.diameter_mm + sign * k * counted_.step_mm);
        }
        diameters_.push_back(sign == 0.0 ? base_.diameter_mm : request_.to_mm);
        const std::size_t across = base_.cut == LatheCut::face ? 1 : diameters_.size();
        factors_.assign(across * levers_.speeds.size(), kNaN);
        if (std::isnan(lathe::bend(base_, alloy_, base_.diameter_mm, 1.0).value)) {
            return;
        }
        for (const double left : diameters_) {
            bends_.push_back(lathe::bend(base_, alloy_, left, 1.0).value);
        }
        bends_.push_back(bends_.back());
    }
    void fill_feeds() {
        per_rev_ = levers_.source == FeedSource::step;
        if (per_rev_) {
            for (const Feed& feed : levers_.feeds) {
                feeds_.push_back(feed.per_rev);
            }
        } else {
            for (const Speed& speed : levers_.speeds) {
                for (const Feed& feed : levers_.feeds) {
                    feeds_.push_back(feed.per_min / speed.rpm);
                }
            }
        }
        for (const double feed : feeds_) {
            feed_classes_.push_back(windows_.feed_class(feed));
        }
        windows_.settle();
        for (const bool fine : {false, true}) {
            coarsest_[fine ? 1 : 0] = windows_.coarsest(fine, usual_feed_mm(base_.cut, fine));
            for (const std::size_t feed_class : feed_classes_) {
                fastest_[fine ? 1 : 0].push_back(windows_.fastest(fine, feed_class));
            }
        }
        const std::size_t count = feeds_.size() * depths_[0].size();
        for (std::vector<double>& forces : forces_) {
            forces.assign(count, kNaN);
        }
        least_.resize(feeds_.size());
        if (!std::isnan(request_.life_min)) {
            for (std::vector<EdgeLife>& lives : lives_) {
                lives.resize(count);
            }
        }
    }

    /// Factor of the speed on the force, at a state.
    [[nodiscard]] double speed_factor(std::size_t x, std::size_t s) const {
        double& known = factors_[x * levers_.speeds.size() + s];
        if (std::isnan(known)) {
            known = speed_correction(constants_, CuttingSpeed::compute(levers_.speeds[s].rpm, diameters_[x]));
        }
        return known;
    }
    /// Cutting force without corrections.
    [[nodiscard]] double force(std::size_t rest, int deep, std::size_t r) const {
        double& known = forces_[rest][r * depths_[0].size() + index(deep)];
        if (std::isnan(known)) {
            known = TurningForce::at(constants_.kc11_n_mm2, constants_.mc, depths_[rest][index(deep)],
                                     feeds_[r], feeds_[r] * sines_[rest][index(deep)], 1.0);
        }
        return known;
    }
    /// Least force across the work of all rough passes up to a depth, without corrections.
    const std::vector<double>& least_passive(std::size_t r) const {
        std::vector<double>& out = least_[r];
        if (out.empty()) {
            out.assign(depths_[0].size(), kInfinite);
            for (int m = 1; m <= steps(); ++m) {
                out[index(m)] = std::min(out[index(m) - 1], force(0, m, r) * cosines_[0][index(m)]);
            }
        }
        return out;
    }
    [[nodiscard]] double life_of(std::size_t rest, int deep, std::size_t r, double speed) const {
        EdgeLife& life = lives_[rest][r * depths_[0].size() + index(deep)];
        if (std::isnan(life.c_m_min)) {
            const LifeQuery query{&alloy_, request_.work.hardness_hb, request_.tool_material, feeds_[r],
                                  depths_[rest][index(deep)]};
            if (!edge_life(catalogue_, query, life).ok()) {
                life.c_m_min = 0.0;
            }
        }
        return life.c_m_min > 0.0
                   ? std::min(TaylorLife::compute(life.c_m_min, life.exponent, speed), kLongestLifeMin)
                   : 0.0;
    }

    /// Every limit in turn, until one is not liked: code, value, limit, share used, whether reckoned.
    template <Which kWhich, class Like>
    bool visit(const Bite& bite, std::size_t s, std::size_t i, Like like) const {
        const std::size_t r = row(s, i);
        const double feed = feeds_[r];
        const Speed& speed = levers_.speeds[s];
        const std::size_t rest = bite.rest ? 1 : 0;
        const double depth = depths_[rest][index(bite.deep)];
        const auto below = [&](LimitCode code, double value, double limit, bool hard) {
            return like(code, value, limit, value / limit, hard);
        };
        if constexpr (kWhich != Which::growing) {
            if (fire_ != nullptr && feed < fire_->feed_least_mm * (1.0 - kSame)) {
                return false;
            }
            if (nose_ > 0.0 && !below(LimitCode::nose_feed, feed, kFeedOverNose * nose_, false)) {
                return false;
            }
            if (bite.finish && nose_ > 0.0 && !std::isnan(request_.roughness_um)) {
                const double ra = RoughnessRa::compute(feed, nose_);
                if (!below(LimitCode::roughness, std::isnan(ra) ? kInfinite : ra, request_.roughness_um,
                           false)) {
                    return false;
                }
            }
            if (chuck_ != nullptr &&
                !below(LimitCode::chuck_speed, speed.rpm, machine::chuck_rpm_limit(*chuck_), false)) {
                return false;
            }
            if (!std::isnan(work_whirl_) && !below(LimitCode::work_whirl, speed.rpm, work_whirl_, false)) {
                return false;
            }
            if (!std::isnan(bar_whirl_) && !below(LimitCode::bar_whirl, speed.rpm, bar_whirl_, false)) {
                return false;
            }
        }
        if constexpr (kWhich == Which::fixed) {
            return true;
        }
        const std::size_t x = base_.cut == LatheCut::turn   ? index(bite.from)
                              : base_.cut == LatheCut::bore ? to_index(bite)
                                                            : 0;
        const double v = CuttingSpeed::compute(speed.rpm, diameters_[x]);
        const bool fine = bite.finish || depth <= kFinishDepthMm;
        if constexpr (kWhich == Which::all) {
            if (!below(LimitCode::edge_depth, depth, deepest_, false)) {
                return false;
            }
            const std::size_t depth_class = classes_[rest][index(bite.deep)];
            if (!below(LimitCode::feed_guide, feed,
                       value_or(windows_.feed(fine, depth_class), usual_feed_mm(base_.cut, fine)), false)) {
                return false;
            }
            if (!below(LimitCode::speed_window, v, windows_.speed(fine, depth_class, feed_classes_[r]),
                       false)) {
                return false;
            }
            const double chip = feed * sines_[rest][index(bite.deep)];
            if (!like(LimitCode::chip_thickness, chip, kRubbingThicknessMm, kRubbingThicknessMm / chip,
                      true)) {
                return false;
            }
        }
        const double f = force(rest, bite.deep, r) * (correction_ * speed_factor(x, s));
        if (!std::isnan(f)) {
            if (!std::isnan(speed.available_kw) &&
                !below(LimitCode::power, CuttingPower::compute(f, v) * high_, speed.available_kw, true)) {
                return false;
            }
            if (!std::isnan(machine_.torque_limit_nm) &&
                !below(LimitCode::torque, SpindleTorque::compute(f, diameters_[x]) * high_,
                       machine_.torque_limit_nm, true)) {
                return false;
            }
            if (!std::isnan(request_.force_n) &&
                !below(LimitCode::force, f * high_, request_.force_n, true)) {
                return false;
            }
            if (!std::isnan(request_.jaw_force_n)) {
                const double grip = value_or(request_.grip_diameter_mm, base_.diameter_mm);
                const double needed = JawForceNeeded::compute(f * high_, diameters_[x], grip, jaws(),
                                                              value_or(request_.friction, kGripFriction),
                                                              value_or(request_.grip_safety, kGripSafety));
                const double mass =
                    value_or(request_.jaw_mass_kg, chuck_ == nullptr ? kNaN : chuck_->jaw_mass_kg);
                const double radius =
                    value_or(request_.jaw_radius_mm, chuck_ == nullptr ? kNaN : chuck_->diameter_mm / 2.0);
                const double there =
                    std::isnan(mass) || std::isnan(radius)
                        ? request_.jaw_force_n
                        : JawForceAtSpeed::compute(request_.jaw_force_n, mass, radius, speed.rpm);
                if (!below(LimitCode::grip, needed, there, true)) {
                    return false;
                }
            }
            if constexpr (kWhich == Which::all) {
                if (!bends_.empty()) {
                    const double bend =
                        share_ * f * cosines_[rest][index(bite.deep)] * bends_[to_index(bite)] * high_;
                    if (!below(LimitCode::deflection, std::isnan(bend) ? kInfinite : bend,
                               bite.finish ? finish_bend_ : most_bend_, true)) {
                        return false;
                    }
                }
            }
        }
        if constexpr (kWhich == Which::all) {
            if (!std::isnan(request_.life_min)) {
                const double life = life_of(rest, bite.deep, r, v);
                return like(LimitCode::tool_life, life, request_.life_min, request_.life_min / life, true);
            }
        }
        return true;
    }
    [[nodiscard]] double jaws() const noexcept {
        return chuck_ == nullptr || chuck_->jaws < 2 ? 3.0 : static_cast<double>(chuck_->jaws);
    }

    TurnRequest base_;
    Windows windows_;
    double correction_ = 1.0;
    double share_ = kNaN;  // of the force, across the edge
    double nose_ = kNaN;
    double most_bend_ = kNaN;
    double finish_bend_ = kNaN;
    double deepest_ = kNaN;
    double travel_ = kNaN;
    double work_whirl_ = kNaN;  // half the first whirl
    double bar_whirl_ = kNaN;
    bool per_rev_ = true;
    std::array<std::vector<double>, 2> depths_;  // whole steps; and with the rest added
    std::array<std::vector<double>, 2> sines_;
    std::array<std::vector<double>, 2> cosines_;
    std::array<std::vector<std::size_t>, 2> classes_;
    std::vector<double> diameters_;  // after so many steps; the last: finished
    std::vector<double> bends_;      // under a unit force, by what is left
    std::vector<double> feeds_;
    std::vector<std::size_t> feed_classes_;
    std::array<double, 2> coarsest_{};            // rough, fine
    std::array<std::vector<double>, 2> fastest_;  // rough, fine; by feed
    mutable std::vector<double> factors_;
    mutable std::array<std::vector<double>, 2> forces_;
    mutable std::vector<std::vector<double>> least_;
    mutable std::array<std::vector<EdgeLife>, 2> lives_;
};

MillShape mill_shape(ChooseCut cut) noexcept {
    switch (cut) {
        case ChooseCut::mill_slot:
            return MillShape::slot;
        case ChooseCut::mill_side:
            return MillShape::side;
        case ChooseCut::mill_pocket:
            return MillShape::pocket;
        default:
            return MillShape::face;
    }
}

/// Passes side by side at each depth that are tried: from the fewest that the step over allows.
std::vector<int> across_tried(const ChooseRequest& request) {
    const double d = request.diameter_mm;
    const MillShape shape = mill_shape(request.cut);
    const double over = value_or(request.step_over_mm, milling::usual_over(shape, d));
    const double width = value_or(request.width_mm, d);
    const auto steps = [&](double whole) {
        constexpr int kMostSide = 1000;
        return bounds::whole<int>(std::ceil(whole / over - milling::kSameStep), 1, kMostSide);
    };
    if (shape == MillShape::slot || shape == MillShape::pocket) {
        const double rest = width - d;
        return {rest > milling::kSameStep * d ? 1 + steps(rest) : 1};
    }
    std::vector<int> out;
    for (int n = steps(width); n <= kMostAcross * steps(width); ++n) {
        out.push_back(n);
    }
    return out;
}

/// Milling, with so many passes side by side at each depth.
class MillJob : public Job {
   public:
    MillJob(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request,
            int across)
        : Job(catalogue, machine, request, machine.table.steps.empty() ? nullptr : &machine.table, 1.0, "x",
              request.off_mm),
          across_(across),
          windows_(
              catalogue,
              {&alloy_, request.work.hardness_hb, {}, request.tool_material, kNaN, kNaN, request.diameter_mm},
              {operation(request.cut), operation(request.cut)}, {kNaN, kNaN}) {
        base_.shape = mill_shape(request.cut);
        base_.work = request.work;
        base_.tool_material = request.tool_material;
        base_.cutter_diameter_mm = request.diameter_mm;
        base_.teeth = value_or(request.teeth, usual_teeth(request.diameter_mm));
        base_.length_mm = request.length_mm;
        base_.width_mm = request.width_mm;
        base_.entering_deg = request.entering_deg;
        base_.stick_out_mm = request.stick_out_mm;
        base_.wear_factor = request.wear_factor;
        high_ = value_or(force_band(catalogue, alloy_, Process::mill, constants_.rough).high, 1.0) *
                milling::ordinary_wear(base_);
        base_.nose_radius_mm = request.nose_radius_mm;
        base_.approach_mm = request.approach_mm;
        base_.overrun_mm = request.overrun_mm;
        const bool enclosed = base_.shape == MillShape::slot || base_.shape == MillShape::pocket;
        const double d = request.diameter_mm;
        base_.step_over_mm = enclosed ? request.step_over_mm : request.width_mm / across;
        bite_mm_ = enclosed ? d : std::min(d, base_.step_over_mm);
        travel_ = milling::pass_travel(base_, enclosed ? d : base_.step_over_mm);
        deepest_ = value_or(request.deepest_mm, milling::usual_down(base_.shape, d));
        most_bend_ = value_or(request.deflection_mm, kMostBendMm);
        finish_bend_ = std::isnan(request.tolerance_mm)
                           ? most_bend_
                           : std::min(most_bend_, value_or(request.tolerance_share, kToleranceShare) *
                                                      request.tolerance_mm);
        bend_ = milling::bend_mm(base_, 1.0);
        for (const std::size_t rest : {0U, 1U}) {
            for (int m = 0; m <= steps(); ++m) {
                depths_[rest].push_back(m * counted_.step_mm + (rest == 1 ? counted_.rest_mm : 0.0));
                classes_[rest].push_back(windows_.depth_class(depths_[rest].back()));
            }
        }
        for (const Speed& speed : levers_.speeds) {
            for (const Feed& feed : levers_.feeds) {
                fill_lever(speed, feed);
            }
        }
        windows_.settle();
    }

    [[nodiscard]] int cap() const noexcept {
        const double most = deepest_ * relaxed(LimitCode::edge_depth) * (1.0 + kSame);
        return most >= depths_[0].back()
                   ? steps()
                   : bounds::whole<int>(std::floor(most / counted_.step_mm + 1e-6), 0, steps());
    }
    [[nodiscard]] double pass_s(std::size_t /*s*/, std::size_t i) const noexcept {
        return FeedTime::compute(travel_, levers_.feeds[i].per_min);
    }
    [[nodiscard]] double return_s() const noexcept { return wind_s(travel_); }
    [[nodiscard]] int side_by_side() const noexcept { return across_; }

    template <Which kWhich>
    [[nodiscard]] bool holds(const Bite& bite, std::size_t s, std::size_t i) const {
        return visit<kWhich>(bite, s, i,
                             [&](LimitCode code, double /*value*/, double /*limit*/, double used, bool hard) {
                                 return allows(code, used, hard);
                             });
    }
    [[nodiscard]] bool may_hold(bool /*finish*/, int /*from*/, std::size_t s, std::size_t i) const {
        const PerDepth& one = cuts_[s * levers_.feeds.size() + i];
        return allows(LimitCode::feed_guide, one.per_tooth / guide_of(windows_.coarsest(false, kNaN)),
                      false) &&
               allows(LimitCode::speed_window, one.speed / windows_.fastest(false, one.feed_class), false);
    }
    [[nodiscard]] static bool may_bend_little(int /*from*/, int /*most*/, std::size_t /*s*/,
                                              std::size_t /*i*/) noexcept {
        return true;
    }
    [[nodiscard]] std::vector<Limit> limits(const Bite& bite, std::size_t s, std::size_t i) const {
        std::vector<Limit> out;
        (void)visit<Which::all>(
            bite, s, i, [&](LimitCode code, double value, double limit, double /*used*/, bool /*hard*/) {
                out.push_back({code, value, limit});
                return true;
            });
        return out;
    }
    [[nodiscard]] double depth_of(const Bite& bite) const noexcept {
        return depths_[bite.rest ? 1 : 0][static_cast<std::size_t>(bite.deep)];
    }
    [[nodiscard]] CutResult as_cut(const Bite& bite, std::size_t s, std::size_t i) const {
        MillRequest request = base_;
        request.depth_mm = depth_of(bite);
        request.step_down_mm = request.depth_mm;
        request.feed_per_tooth_mm = cuts_[s * levers_.feeds.size() + i].per_tooth;
        request.spindle_rpm = levers_.speeds[s].rpm;
        request.deflection_limit_mm = bite.finish ? finish_bend_ : most_bend_;
        request.roughness_limit_um = bite.finish ? request_.roughness_um : kNaN;
        return cut(catalogue_, machine_, request);
    }
    void sizes(const Bite& bite, ChosenPass& out) const noexcept {
        out.before_mm = bite.from * counted_.step_mm;
        out.after_mm = bite.last ? request_.off_mm : (bite.from + bite.deep) * counted_.step_mm;
    }

   private:
    /// What a lever comes to, for one mm of depth.
    struct PerDepth {
        double per_tooth = kNaN;
        double chip_max = kNaN;
        double speed = kNaN;
        double force = kNaN;
        double power = kNaN;
        double finish_um = kNaN;
        std::size_t feed_class = 0;
    };

    static Operation operation(ChooseCut cut) noexcept {
        return cut == ChooseCut::mill_face ? Operation::face_mill : Operation::end_mill;
    }
    void fill_lever(const Speed& speed, const Feed& feed) {
        PerDepth out;
        const double d = base_.cutter_diameter_mm;
        const double entering = value_or(base_.entering_deg, 90.0);
        out.per_tooth = feed.per_min / speed.rpm / base_.teeth;
        out.chip_max = MillingChipMax::compute(out.per_tooth, bite_mm_, d, entering);
        out.speed = CuttingSpeed::compute(speed.rpm, d);
        const double kc =
            SpecificCuttingForce::compute(constants_.kc11_n_mm2, constants_.mc,
                                          MillingChipMean::compute(out.per_tooth, bite_mm_, d, entering)) *
            milling::kForm * value_or(base_.wear_factor, 1.0) * speed_correction(constants_, out.speed);
        out.power = MillingRemoval::compute(1.0, bite_mm_, feed.per_min) * kc / 60000.0;
        out.force = out.power * 60000.0 / out.speed;
        out.finish_um = milling::finish_um(base_, feed.per_min / speed.rpm);
        out.feed_class = windows_.feed_class(out.per_tooth);
        cuts_.push_back(out);
    }

    /// Highest feed a tooth, from that of the tables.
    [[nodiscard]] double guide_of(double tabulated) const noexcept {
        return value_or(tabulated, milling::usual_feed(base_.cutter_diameter_mm));
    }

    template <Which kWhich, class Like>
    bool visit(const Bite& bite, std::size_t s, std::size_t i, Like like) const {
        if constexpr (kWhich == Which::fixed) {
            return true;
        }
        const PerDepth& one = cuts_[s * levers_.feeds.size() + i];
        const std::size_t rest = bite.rest ? 1 : 0;
        const double depth = depths_[rest][static_cast<std::size_t>(bite.deep)];
        const auto below = [&](LimitCode code, double value, double limit, bool hard) {
            return like(code, value, limit, value / limit, hard);
        };
        if constexpr (kWhich == Which::all) {
            if (!below(LimitCode::edge_depth, depth, deepest_, false)) {
                return false;
            }
            const std::size_t depth_class = classes_[rest][static_cast<std::size_t>(bite.deep)];
            if (bite.finish && !std::isnan(one.finish_um) && !std::isnan(request_.roughness_um) &&
                !below(LimitCode::roughness, one.finish_um, request_.roughness_um, false)) {
                return false;
            }
            if (!below(LimitCode::feed_guide, one.per_tooth, guide_of(windows_.feed(false, depth_class)),
                       false)) {
                return false;
            }
            if (!below(LimitCode::speed_window, one.speed, windows_.speed(false, depth_class, one.feed_class),
                       false)) {
                return false;
            }
            if (!like(LimitCode::chip_thickness, one.chip_max, milling::kRubbingChipMm,
                      milling::kRubbingChipMm / one.chip_max, true)) {
                return false;
            }
        }
        if (std::isnan(one.force)) {
            return true;
        }
        const double f = one.force * depth;
        if (!std::isnan(levers_.speeds[s].available_kw) &&
            !below(LimitCode::power, one.power * depth * high_, levers_.speeds[s].available_kw, true)) {
            return false;
        }
        if (!std::isnan(machine_.torque_limit_nm) &&
            !below(LimitCode::torque, SpindleTorque::compute(f, base_.cutter_diameter_mm) * high_,
                   machine_.torque_limit_nm, true)) {
            return false;
        }
        if (!std::isnan(request_.force_n) && !below(LimitCode::force, f * high_, request_.force_n, true)) {
            return false;
        }
        return std::isnan(bend_) ||
               below(LimitCode::deflection, f * bend_ * high_, bite.finish ? finish_bend_ : most_bend_, true);
    }

    int across_ = 1;
    Windows windows_;
    MillRequest base_;
    double bite_mm_ = kNaN;
    double travel_ = kNaN;
    double deepest_ = kNaN;
    double most_bend_ = kNaN;
    double finish_bend_ = kNaN;
    double bend_ = kNaN;
    std::array<std::vector<double>, 2> depths_;
    std::array<std::vector<std::size_t>, 2> classes_;
    std::vector<PerDepth> cuts_;
};

/// Limits in the order in which relaxing them is weighed; what keeps a person safe comes last.
constexpr std::array kRelaxable{LimitCode::feed_guide,  LimitCode::speed_window,   LimitCode::roughness,
                                LimitCode::edge_depth,  LimitCode::chip_thickness, LimitCode::tool_life,
                                LimitCode::nose_feed,   LimitCode::deflection,     LimitCode::power,
                                LimitCode::torque,      LimitCode::force,          LimitCode::grip,
                                LimitCode::chuck_speed, LimitCode::work_whirl,     LimitCode::bar_whirl};

/// A job that is asked again and again: with limits relaxed, or with a lever barred.
template <class OneJob>
class Question {
   public:
    explicit Question(std::vector<OneJob> jobs) : jobs_(std::move(jobs)) {}

    struct Answer {
        Sequence sequence;
        const OneJob* job = nullptr;
    };
    [[nodiscard]] Answer ask(Barred barred = {}) const {
        Answer best;
        for (const OneJob& job : jobs_) {
            Sequence found = Solver<OneJob, Which>(job, barred).solve();
            if (found.cost < best.sequence.cost) {
                best = {std::move(found), &job};
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

   private:
    std::vector<OneJob> jobs_;
};

Question<LatheJob> lathe_question(const Catalogue& catalogue, const machine::Machine& machine,
                                  const ChooseRequest& request) {
    std::vector<LatheJob> jobs;
    jobs.emplace_back(catalogue, machine, request);
    return Question<LatheJob>(std::move(jobs));
}

Question<MillJob> mill_question(const Catalogue& catalogue, const machine::Machine& machine,
                                const ChooseRequest& request) {
    std::vector<MillJob> jobs;
    for (const int across : across_tried(request)) {
        jobs.emplace_back(catalogue, machine, request, across);
    }
    return Question<MillJob>(std::move(jobs));
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
    out.line = bite.last
                   ? lines + bounds::nearest<int>(counted.rest_mm / job.dial().line_mm, 0, bounds::kCount)
                   : lines;
    out.finish = bite.finish;
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
        pass.measure_before = planned.bite.last && !request.single;
        pass.measure_s = pass.measure_before ? measure : 0.0;
        out.levers_moved += pass.levers_moved;
        out.passes.push_back(std::move(pass));
        before = &planned;
    }
    out.final_measure_s = measure;
    out.time_s = cost_s(answer.sequence.cost) + measure * (request.single ? 1.0 : 2.0);
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

Cost least_cost(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request) {
    return is_milling(request.cut) ? mill_question(catalogue, machine, request).ask().sequence.cost
                                   : lathe_question(catalogue, machine, request).ask().sequence.cost;
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
                const Sequence& answer, const Levers& levers, Passes& out) {
    const auto offer = [&](GainCode code, const machine::Machine& with, const ChooseRequest& asked) {
        const Cost cost = least_cost(catalogue, with, asked);
        if (cost < kNever && cost_s(cost) < cost_s(answer.cost)) {
            out.gains.push_back(
                {code, answer.cost < kNever ? cost_s(answer.cost) - cost_s(cost) : kInfinite});
        }
    };
    if (request.cut == ChooseCut::turn && request.hold == Hold::chuck &&
        !std::isnan(lathe::reach_of(turn_request(request)))) {
        ChooseRequest asked = request;
        asked.hold = Hold::chuck_and_centre;
        offer(GainCode::centre, machine, asked);
    }
    if (!is_milling(request.cut)) {
        ChooseRequest asked = request;
        const double usual = reference_rake_deg(catalogue.alloys[request.work.alloy]);
        asked.rake_deg = std::min(kMostRakeDeg, value_or(request.rake_deg, usual) + kOneMoreRakeDeg);
        offer(GainCode::rake, machine, asked);
    }
    // No less than the cut is long.
    if (!std::isnan(request.stick_out_mm) &&
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
    const double rest = any.counted().rest_mm;
    out.remainder_mm = rest - std::round(rest / out.line_mm) * out.line_mm;
    out.dial_assumed = slide == nullptr;
    out.return_assumed = any.return_assumed();
    out.hand_fed = any.levers().source == FeedSource::hand;
    const auto answer = question.ask();
    if (answer.sequence.cost < kNever) {
        fill_passes<OneJob>(answer, request, machine, out);
        if (explain) {
            find_prices(question, answer.sequence.cost, out);
            find_next(question, answer, out.time_s - cost_s(answer.sequence.cost), out);
        }
    } else {
        find_relaxations(question, out);
    }
    if (explain) {
        find_gains(catalogue, machine, request, answer.sequence, any.levers(), out);
    }
    return out;
}

/// Numbers of series R40 (ISO 3), ten times the first decade.
constexpr std::array kR40{1000, 1060, 1120, 1180, 1250, 1320, 1400, 1500, 1600, 1700, 1800, 1900, 2000, 2120,
                          2240, 2360, 2500, 2650, 2800, 3000, 3150, 3350, 3550, 3750, 4000, 4250, 4500, 4750,
                          5000, 5300, 5600, 6000, 6300, 6700, 7100, 7500, 8000, 8500, 9000, 9500};

/// Ends of every variable step: the low end of one is a speed of another that reaches it too.
std::vector<double> ends_of(const machine::Machine& machine) {
    std::vector<double> out;
    for (const machine::SpindleStep& step : machine.spindle) {
        if (step.variable()) {
            out.push_back(step.rpm_low);
            out.push_back(step.rpm);
        }
    }
    return out;
}

/// Speeds of a step that are tried.
std::vector<double> speeds_of(const machine::SpindleStep& step, const std::vector<double>& ends) {
    if (!step.variable()) {
        return {step.rpm};
    }
    std::vector<double> out{step.rpm_low};
    for (const double rpm : ends) {
        if (rpm > step.rpm_low && rpm < step.rpm) {
            out.push_back(rpm);
        }
    }
    for (double decade = 0.001; decade < 100.0; decade *= 10.0) {
        for (const int number : kR40) {
            const double rpm = std::round(number * decade * 1000.0) / 1000.0;
            if (rpm > step.rpm_low && rpm < step.rpm) {
                out.push_back(rpm);
            }
        }
    }
    out.push_back(step.rpm);
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

/// Controls that stand elsewhere for the second than for the first; at least one.
int moved(const std::vector<machine::Position>& from, const std::vector<machine::Position>& to) {
    int out = 0;
    for (const machine::Position& wanted : to) {
        const auto same = [&](const machine::Position& at) {
            return at.control == wanted.control && at.setting == wanted.setting;
        };
        out += std::none_of(from.begin(), from.end(), same) ? 1 : 0;
    }
    return std::clamp(out, 1, 7);
}

Cost change_cost(const machine::Machine& machine, bool stop, int levers) {
    return time_cost(stop ? machine.stop_change_s : machine.lever_change_s) | static_cast<Cost>(levers)
                                                                                  << kMovedShift;
}

}  // namespace

Levers::Levers(const machine::Machine& machine, const machine::FeedLadder* ladder, double ratio,
               const machine::Slide* fed) {
    const std::vector<double> ends = ends_of(machine);
    for (std::size_t step = 0; step < machine.spindle.size(); ++step) {
        for (const double rpm : speeds_of(machine.spindle[step], ends)) {
            if (machine::nearest_spindle(machine, rpm).step == step) {
                speeds.push_back({step, rpm, machine::spindle_power_kw(machine, step, rpm)});
            }
        }
    }
    std::stable_sort(speeds.begin(), speeds.end(),
                     [](const Speed& a, const Speed& b) { return a.rpm < b.rpm; });
    if (ladder != nullptr) {
        for (std::size_t step = 0; step < ladder->steps.size(); ++step) {
            const double feed = ladder->steps[step].feed_mm;
            feeds.push_back(ladder->kind == machine::FeedKind::per_rev ? Feed{step, feed * ratio, kNaN}
                                                                       : Feed{step, kNaN, feed});
        }
    } else if (fed != nullptr) {
        source = FeedSource::hand;
        for (const double rate : kHandRates) {
            feeds.push_back({feeds.size(), kNaN, rate * fed->travel_per_turn_mm});
        }
    }
    for (const Speed& from : speeds) {
        const machine::SpindleStep& a = machine.spindle[from.step];
        first_speed.push_back(change_cost(machine, a.stop_to_change, moved({}, a.positions)));
        for (const Speed& to : speeds) {
            const machine::SpindleStep& b = machine.spindle[to.step];
            const bool knob = from.step == to.step;
            speed_change.push_back(&from == &to ? 0
                                   : knob       ? change_cost(machine, false, 1)
                                                : change_cost(machine, a.stop_to_change || b.stop_to_change,
                                                              moved(a.positions, b.positions)));
        }
    }
    for (const Feed& from : feeds) {
        if (source == FeedSource::hand) {
            first_feed.push_back(0);
            feed_change.insert(feed_change.end(), feeds.size(), 0);
            continue;
        }
        const machine::FeedStep& a = ladder->steps[from.step];
        first_feed.push_back(change_cost(machine, a.stop_to_change, moved({}, a.positions)));
        for (const Feed& to : feeds) {
            const machine::FeedStep& b = ladder->steps[to.step];
            feed_change.push_back(&from == &to ? 0
                                               : change_cost(machine, a.stop_to_change || b.stop_to_change,
                                                             moved(a.positions, b.positions)));
        }
    }
}

Cost Levers::from_now(int spindle, int feed, std::size_t s, std::size_t i) const noexcept {
    Cost out = 0;
    std::size_t known = speeds.size();
    for (std::size_t at = 0; at < speeds.size(); ++at) {
        if (spindle >= 0 && speeds[at].step == static_cast<std::size_t>(spindle)) {
            known = at;
        }
    }
    out += known < speeds.size() ? speed_change[known * speeds.size() + s] : first_speed[s];
    out += feed >= 0 && static_cast<std::size_t>(feed) < feeds.size()
               ? feed_change[static_cast<std::size_t>(feed) * feeds.size() + i]
               : first_feed[i];
    return out;
}

Passes choose(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request,
              bool explain) {
    check(catalogue, machine, request);
    check_mounting(machine, request);
    return is_milling(request.cut)
               ? answer_to(mill_question(catalogue, machine, request), catalogue, machine, request, explain)
               : answer_to(lathe_question(catalogue, machine, request), catalogue, machine, request, explain);
}

}  // namespace halfnut::cutting
