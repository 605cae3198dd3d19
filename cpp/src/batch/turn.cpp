#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <memory>
#include <type_traits>

#include "alloy_tables.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/kinematics.hpp"
#include "halfnut/cutting/window.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "turn_block.hpp"
#include "turn_cases.hpp"
#include "write_cut.hpp"

namespace halfnut::batch {

using namespace cutting;

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// Sizes, feeds and limits within these cannot overflow anywhere in a cut. What is outside goes to evaluate(),
// which says so where its argument's own bounds are passed.
constexpr Bounds kOrdinary{1e-3, bounds::kGreatestLengthMm};
constexpr Bounds kOrdinaryOrZero{1e-3, bounds::kGreatestLengthMm, false, true};

constexpr std::size_t argument(std::string_view name) {
    for (std::size_t i = 0; i < kTurnArguments.size(); ++i) {
        if (kTurnArguments[i].argument.name == name) {
            return i;
        }
    }
    return kTurnArguments.size();
}

constexpr std::size_t figure_place(std::string_view name) {
    for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
        if (kCutFigures[i].name == name) {
            return i;
        }
    }
    return kCutFigures.size();
}

// An input of the block and the numbers between which it is ordinary.
struct Input {
    std::size_t argument;
    const double* TurnBlock::* column;
    Bounds bounds;
    double usual = kNaN;  // what stands for a number that is not given; NaN: that it is not
};

constexpr std::array kInputs{
    Input{argument("diameter_mm"), &TurnBlock::diameter, {1e-3, bounds::kGreatestLengthMm, true}},
    Input{argument("length_mm"), &TurnBlock::length, kOrdinary},
    Input{argument("feed_mm_rev"), &TurnBlock::feed, kOrdinary},
    Input{argument("bore_mm"), &TurnBlock::bore, kOrdinaryOrZero, 0.0},
    Input{argument("stick_out_mm"), &TurnBlock::stick_out, kOrdinary},
    Input{argument("nose_radius_mm"), &TurnBlock::nose, kOrdinaryOrZero, kNoseRadiusMm},
    Input{argument("entering_deg"), &TurnBlock::entering, {10.0, 120.0}, kEnteringDeg},
    Input{argument("rake_deg"), &TurnBlock::rake, {-30.0, 40.0}},
    Input{argument("wear_factor"), &TurnBlock::wear, {1.0, 3.0}},
    Input{argument("roughness_limit_um"), &TurnBlock::roughness_limit, kOrdinary},
    Input{argument("deflection_limit_mm"), &TurnBlock::deflection_limit, kOrdinary},
    Input{argument("approach_mm"), &TurnBlock::approach, kOrdinaryOrZero, kApproachMm},
    Input{argument("overrun_mm"), &TurnBlock::overrun, kOrdinaryOrZero, 0.0},
};
static_assert(std::all_of(kInputs.begin(), kInputs.end(),
                          [](const Input& input) {
                              const Argument& own = kTurnArguments[input.argument].argument;
                              return own.accepts(input.bounds.low) && own.accepts(input.bounds.high);
                          }),
              "the block takes nothing that evaluate() refuses");
constexpr std::size_t kDepth = argument("depth_mm");
constexpr Bounds kDepthBounds = kOrdinary;

// Arguments that the block leaves to evaluate(): a row that gives one goes there.
constexpr std::array kLeft{argument("end_diameter_mm"),   argument("spindle_rpm"),
                           argument("bar_diameter_mm"),   argument("span_mm"),
                           argument("stock_diameter_mm"), argument("stock_flats_mm"),
                           argument("bar_length_mm"),     argument("bar_behind_mm")};

// Figures that only evaluate() gives.
constexpr std::array kOnlyAlone{figure_place("tool_life_min"), figure_place("tool_life_low_min"),
                                figure_place("tool_life_high_min"), figure_place("hand_turns_per_min"),
                                figure_place("hand_turns")};

bool rising(const std::vector<double>& steps) {
    return std::adjacent_find(steps.begin(), steps.end(), [](double a, double b) { return !(a < b); }) ==
               steps.end() &&
           (steps.empty() || steps.front() > 0.0);
}

// What a machine gives, looked up once a call.
struct Levers {
    explicit Levers(const machine::Machine& of) : machine(of) {
        std::vector<double> speeds;
        for (std::size_t i = 0; i < of.spindle.size(); ++i) {
            const machine::SpindleStep& step = of.spindle[i];
            fixed = fixed && !step.variable();
            speeds.push_back(step.rpm);
            efficiency.push_back(machine::efficiency_at(of, i));
        }
        fixed = fixed && fill(spindle, speeds);
        if (fixed) {
            const auto power = [&](std::size_t step) {
                return machine::spindle_power_kw(of, step, speeds[step]);
            };
            const std::size_t fastest = speeds.size() - 1;
            const auto code_of = [&](std::size_t step) {
                return code(step, step == fastest ? kFastestFlag : 0U);
            };
            for (const StepTable::Bin& bin : spindle.steps.bins()) {
                const std::size_t before = bin.below == 0 ? 0 : bin.below - 1;
                const double slowest = bin.below == 0 ? code(0, kSlowestFlag) : 0.0;
                spindle.records.push_back({{bin.edge, speeds[before], power(bin.below), power(before),
                                            code_of(bin.below), code_of(before) + slowest}});
            }
        }
        std::vector<double> feed;
        for (const machine::FeedStep& step : of.carriage.steps) {
            feed.push_back(step.feed_mm);
        }
        any = &of == &any_machine();
        steps = !any && !feed.empty();
        in_order = !steps || fill(feeds, feed);
        if (steps && in_order) {
            const auto code_of = [](std::size_t step) { return code(step, step == 0 ? 0U : kFinerFlag); };
            for (const StepTable::Bin& bin : feeds.steps.bins()) {
                const std::size_t before = bin.below == 0 ? 0 : bin.below - 1;
                feeds.records.push_back({{bin.edge, feed[before], code_of(bin.below), code_of(before)}});
            }
        }
    }

    [[nodiscard]] bool ordinary() const { return !machine.spindle.empty() && in_order; }

    const machine::Machine& machine;
    bool any = false;
    bool fixed = true;     // every speed of the spindle is one, slow to fast, and the table serves them
    bool steps = false;    // feeds are steps
    bool in_order = true;  // fine to coarse, and the table serves them
    LeverTable spindle;
    LeverTable feeds;
    std::vector<double> efficiency;

   private:
    static bool fill(LeverTable& table, const std::vector<double>& values) {
        if (values.empty() || values.size() > 0xffffU || !rising(values)) {
            return false;
        }
        table.steps = StepTable(values);
        return !table.steps.crowded();
    }
    static double code(std::size_t step, std::uint64_t flags) {
        return static_cast<double>(step | flags << kCodeFlags);
    }
};

// The cases of an alloy, a tool and rough or finish, laid out for the look-ups of a call; two lines of the
// nearest cache.
struct alignas(128) SideCases {
    std::array<double, Steps::kNear> depths{};
    std::array<double, Steps::kNear> feeds{};
    std::uint32_t across = 1;
    std::uint32_t first = 0;  // of its cells
};

// Where work of an alloy whips or its chips take fire.
struct Dangers {
    double whirl = kInfinity;              // speed x overhang^2 / diameter left, at least, in rev/min mm
    double speed_never_m_min = kInfinity;  // of chips that burn
    double feed_least_mm = 0.0;            // the same

    [[nodiscard]] bool burns() const { return speed_never_m_min < kInfinity; }
};

// A call, as its workers share it.
struct Call {
    AlloyTables tables;
    const TurnCases& cases;
    const CutSetting& setting;
    const TurnColumns& columns;
    const CutColumns& out;
    const TurnPasses& passes;
    Levers levers;
    TurnShared shared{};
    std::vector<const TurnCases::Grid*> grids{};  // alloy by tool
    std::vector<SideCases> sides{};               // alloy by tool by rough or finish; the last is of no alloy
    std::array<double, 2> usual_depths{};         // rough and finish, where the diameter bears them
    std::vector<double> usual_feeds{};            // of each side
    std::vector<std::uint32_t> cells{};           // places of cases
    std::vector<std::uint32_t> first_cells{};     // of each side
    std::vector<const CaseNumbers*> numbers{};    // a case a place; the first has no answer
    std::vector<Record> records{};                // the same
    std::vector<Dangers> dangers{};               // of each alloy
    std::size_t depth_edges = 0;                  // most that any side has
    std::size_t feed_edges = 0;
    bool all_alone = false;  // every row goes through evaluate()
    bool wants_efficiency = false;
    bool wants_finish = false;                    // edges of the real surface
    bool wants_band = false;                      // its lower edge
    bool adjusted = false;                        // a rake or wear is given
    bool rough_asked = false;                     // a roughness is given
    std::array<Bounds, kInputs.size()> bounds{};  // of the inputs, on this machine
};

// The numbers that the machine has room for without a word; the others go through evaluate().
std::array<Bounds, kInputs.size()> bounds_on(const machine::Machine& machine, int chuck, Hold hold) {
    std::array<Bounds, kInputs.size()> out{};
    double widest = kInfinity;
    double thinnest = 0.0;
    double longest = kInfinity;
    if (machine.kind == machine::Kind::lathe) {
        widest = std::fmin(machine::swing_mm(machine), machine.swing_over_cross_slide_mm);
        if (hold != Hold::between_centres && chuck >= 0 &&
            static_cast<std::size_t>(chuck) < machine.chucks.size()) {
            const machine::Chuck& held = machine.chucks[static_cast<std::size_t>(chuck)];
            widest = std::fmin(widest, held.opening_greatest_mm);
            thinnest = std::fmax(thinnest, held.opening_least_mm);
        }
        if (hold != Hold::chuck) {
            longest = machine.between_centres_mm;
        }
    }
    double travels = longest;
    if (const machine::Slide* const carriage = machine::find_slide(machine, "carriage")) {
        travels = std::fmin(travels, carriage->travel_mm);
    }
    for (std::size_t i = 0; i < kInputs.size(); ++i) {
        out[i] = kInputs[i].bounds;
        if (kInputs[i].column == &TurnBlock::diameter) {
            out[i].high = std::fmin(out[i].high, widest);
            out[i].low = std::fmax(out[i].low, thinnest);
        } else if (kInputs[i].column == &TurnBlock::length) {
            out[i].high = std::fmin(out[i].high, travels);
        } else if (kInputs[i].column == &TurnBlock::stick_out) {
            out[i].high = std::fmin(out[i].high, longest);
        }
    }
    return out;
}

constexpr std::size_t kTools = enum_names(ToolMaterial{}).size();

const TurnCases::Grid* grid_of(const Call& call, std::size_t row) {
    const auto alloy = static_cast<std::size_t>(call.columns.work.alloy.at(row));
    const auto tool = static_cast<std::size_t>(call.columns.work.tool_material.at(row));
    return alloy < call.setting.alloys.size() && tool < kTools ? call.grids[alloy * kTools + tool] : nullptr;
}

TurnRequest request_of(const Call& call, std::size_t row) {
    TurnRequest request;
    const TurnColumns& columns = call.columns;
    request.cut = LatheCut::turn;
    request.work = work_of(call.setting, columns.work, row);
    request.tool_material = static_cast<ToolMaterial>(columns.work.tool_material.at(row));
    for (std::size_t i = 0; i < kTurnArguments.size(); ++i) {
        request.*(kTurnArguments[i].member) = columns.numbers[i].at(row);
    }
    request.finish = columns.finish == nullptr ? columns.finish_all : columns.finish[row] != 0;
    request.inch = columns.inch;
    request.hold = columns.hold;
    request.chuck = call.setting.chuck;
    return request;
}

// Place of a row's case: small, though found with 64 bits.
std::size_t place_of(const TurnBlock& block, std::size_t row) {
    return static_cast<std::size_t>(block.places[row]);
}

// One worker's scratch, and the passes over a block.
class Worker {
   public:
    explicit Worker(const Call& call) : call_(call), block_(std::make_unique<TurnBlock>()) {
        for (std::size_t i = 0; i < kInputs.size(); ++i) {
            all_[i].fill(or_usual(kInputs[i], call.columns.numbers[kInputs[i].argument].all));
        }
        all_depth_.fill(call.columns.numbers[kDepth].all);
        const double entering = call.columns.numbers[argument("entering_deg")].all;
        const SineCosine edge = sine_cosine_deg(entering == entering ? entering : kEnteringDeg);
        alloys_.fill(call.columns.work.alloy.all);
        tools_.fill(call.columns.work.tool_material.all);
        block_->finish.fill(call.columns.finish_all ? 1.0 : 0.0);
        block_->finish_aim.fill(1.0);
        block_->sine.fill(edge.sine);
        block_->cosine.fill(edge.cosine);
    }

    void operator()(std::size_t first, std::size_t last) {
        for (std::size_t row = first; row < last; row += kBlockRows) {
            block(row, std::min(row + kBlockRows, last));
        }
    }

   private:
    void block(std::size_t first, std::size_t last) {
        if (!call_.all_alone) {
            ordinary(first, last - first);
        }
        for (std::size_t row = first; (call_.all_alone || block_->some_special) && row < last; ++row) {
            if (call_.all_alone || block_->special[row - first] != 0) {
                alone(row);
            }
        }
    }

    static double or_usual(const Input& input, double given) { return given == given ? given : input.usual; }

    void alone(std::size_t row) {
        const Status tool = check_tool(call_.columns.work, row);
        if (!tool.ok()) {
            write_cut(call_.out, row, tool, {}, -1);
            return;
        }
        const TurnRequest request = request_of(call_, row);
        const TurnCase* found = nullptr;
        if (std::isnan(request.work.hardness_hb)) {
            if (const TurnCases::Grid* const grid = grid_of(call_, row)) {
                const double depth = depth_of(request);
                const bool finish = request.finish || depth <= kFinishDepthMm;
                const TurnCases::Grid::Side& side = grid->sides[finish ? 1 : 0];
                if (side.answered) {
                    found = &grid->cases[TurnCases::Grid::place(side, depth, feed_of(side, request))];
                }
            }
        }
        CutResult result;
        const Catalogue& catalogue = call_.tables.of(call_.columns.work.alloy.at(row));
        const Status status = found == nullptr
                                  ? evaluate(catalogue, call_.levers.machine, request, result)
                                  : evaluate(catalogue, call_.levers.machine, request, found->tables, result);
        write_cut(call_.out, row, status, result, status.ok() && found != nullptr ? found->id : -1);
    }

    static double depth_of(const TurnRequest& request) {
        return std::isnan(request.depth_mm)
                   ? usual_depth_mm(request.diameter_mm, request.finish, request.inch)
                   : request.depth_mm;
    }
    static double feed_of(const TurnCases::Grid::Side& side, const TurnRequest& request) {
        return std::isnan(request.feed_mm_rev) ? side.usual_feed : request.feed_mm_rev;
    }

    void ordinary(std::size_t first, std::size_t rows) {
        place_columns(first, rows);
        check(first, rows);
        find_cases(first, rows);
        call_.passes.want(call_.shared, *block_);
        if (!call_.levers.fixed) {
            choose_speeds(rows);
        }
        call_.passes.set(call_.shared, *block_);
        if (call_.wants_efficiency) {
            for (std::size_t i = 0; i < rows; ++i) {
                block_->efficiency[i] = call_.levers.efficiency[step_of(block_->spindle_code[i])];
            }
        }
        call_.passes.compute(call_.shared, *block_);
        call_.passes.judge(call_.shared, *block_);
        if (block_->some_special) {
            settle_dangers(rows);
        }
        write(first, rows);
    }

    // The passes mark what some alloy of the call would do; here each row's own decides.
    void settle_dangers(std::size_t rows) {
        TurnBlock& b = *block_;
        b.some_special = false;
        for (std::size_t i = 0; i < rows; ++i) {
            if (b.special[i] != 0 && (b.special[i] & ~(kMayBurn | kMayWhip)) == 0) {
                const Dangers& own = call_.dangers[static_cast<std::size_t>(b.alloy[i])];
                const double out = b.stick_out[i];
                const double left = b.diameter[i] - 2.0 * b.depth[i];
                const double rpm = b.chosen_rpm[i];
                const bool open = b.feed[i] != b.feed[i];
                const bool whips = rpm * out * out > own.whirl * left;
                const bool burns = own.burns() && (open || rpm > SpindleSpeed::compute(own.speed_never_m_min,
                                                                                       b.diameter[i]));
                b.special[i] = whips || burns ? 1U : 0U;
                if (b.feed[i] < own.feed_least_mm) {
                    b.cautions[i] |= std::uint64_t{1} << static_cast<unsigned>(CautionCode::fine_feed_fire);
                }
            }
            b.some_special = b.some_special || b.special[i] != 0;
        }
    }

    static std::uint16_t step_of(std::uint64_t code) { return static_cast<std::uint16_t>(code & 0xffffU); }

    void place_columns(std::size_t first, std::size_t rows) {
        TurnBlock& block = *block_;
        block.rows = rows;
        for (std::size_t i = 0; i < kInputs.size(); ++i) {
            const double* const data = call_.columns.numbers[kInputs[i].argument].data;
            block.*(kInputs[i].column) = data == nullptr ? all_[i].data() : data + first;
        }
        const auto own = [&](std::string_view name, Row& here) {
            double* const column = call_.out.figures[figure_place(name)];
            return column == nullptr ? here.data() : column + first;
        };
        depth_to_ = own("depth_mm", own_depth_);
        block.chosen_rpm = own("spindle_rpm", own_rpm_);
        block.chosen_feed = own("feed_mm_rev", own_feed_);
        block.cautions = call_.out.cautions == nullptr ? own_cautions_.data() : call_.out.cautions + first;
        const double* const depths = call_.columns.numbers[kDepth].data;
        block.asked_depth = depths == nullptr ? all_depth_.data() : depths + first;
        const WorkColumns& work = call_.columns.work;
        block.alloy = work.alloy.data == nullptr ? alloys_.data() : work.alloy.data + first;
        block.tool = work.tool_material.data == nullptr ? tools_.data() : work.tool_material.data + first;
        for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
            block.out[i] =
                call_.out.figures[i] == nullptr ? scratch_[i].data() : call_.out.figures[i] + first;
        }
    }

    void check(std::size_t first, std::size_t rows) {
        TurnBlock& block = *block_;
        block.special.fill(0);
        const auto left_open = [&](std::size_t at, const double* column, Bounds bounds) {
            const Numbers& numbers = call_.columns.numbers[at];
            return numbers.data == nullptr ? !numbers.given()
                                           : call_.passes.check(column, bounds, rows, block.special.data());
        };
        for (std::size_t at = 0; at < kInputs.size(); ++at) {
            const Input& input = kInputs[at];
            const double*& column = block.*(input.column);
            const bool open = left_open(input.argument, column, call_.bounds[at]);
            if (input.column == &TurnBlock::feed) {
                block.open_feeds = open;
            }
            if (open && input.usual == input.usual && column != all_[at].data()) {
                for (std::size_t i = 0; i < rows; ++i) {
                    filled_[at][i] = or_usual(input, column[i]);
                }
                column = filled_[at].data();
            }
        }
        call_.passes.reach(block);
        open_depths_ = left_open(kDepth, block.asked_depth, kDepthBounds);
        for (const std::size_t at : kLeft) {
            if (const double* const data = call_.columns.numbers[at].data) {
                for (std::size_t i = 0; i < rows; ++i) {
                    block.special[i] |= data[first + i] == data[first + i] ? 1U : 0U;
                }
            }
        }
        if (const double* const hardness = call_.columns.work.hardness_hb.data) {
            for (std::size_t i = 0; i < rows; ++i) {
                block.special[i] |= hardness[first + i] == hardness[first + i] ? 1U : 0U;
            }
        }
    }

    // Places of the rows' cases, and depths.
    void find_cases(std::size_t first, std::size_t rows) {
        TurnBlock& b = *block_;
        if (const std::uint8_t* const finish = call_.columns.finish) {
            std::copy_n(finish + first, rows, b.finish.data());
        }
        call_.passes.sides(call_.shared, b);
        if (call_.depth_edges == 0 && call_.feed_edges == 0 && !open_depths_) {
            for (std::size_t i = 0; i < rows; ++i) {
                b.places[i] = call_.first_cells[place_of(b, i)];
            }
        } else {
            find_among_edges(rows);
        }
        b.depth = open_depths_ ? depth_to_ : b.asked_depth;
        if (!open_depths_ && depth_to_ != own_depth_.data()) {
            std::copy_n(b.asked_depth, rows, depth_to_);
        }
        // What only some calls need.
        const auto copy = [&](bool needed, Row& to, double CaseNumbers::* member) {
            if (needed) {
                for (std::size_t i = 0; i < rows; ++i) {
                    to[i] = call_.numbers[place_of(b, i)]->*member;
                }
            }
        };
        copy(call_.wants_band, b.band_low, &CaseNumbers::band_low);
        copy(call_.adjusted, b.reference_rake, &CaseNumbers::reference_rake);
        copy(b.open_feeds, b.usual_feed, &CaseNumbers::usual_feed);
        copy(b.open_feeds, b.feed_low, &CaseNumbers::feed_low);
        copy(b.open_feeds, b.feed_high, &CaseNumbers::feed_high);
        copy(call_.rough_asked, b.finish_aim, &CaseNumbers::finish_aim);
        copy(call_.wants_finish, b.finish_low, &CaseNumbers::finish_low);
        copy(call_.wants_finish, b.finish_high, &CaseNumbers::finish_high);
        if (call_.out.case_id != nullptr) {
            for (std::size_t i = 0; i < rows; ++i) {
                call_.out.case_id[first + i] = call_.numbers[place_of(b, i)]->id;
            }
        }
    }

    template <unsigned DepthLevels, unsigned FeedLevels, bool Open>
    void find_among(std::size_t rows) {
        TurnBlock& b = *block_;
        const std::uint32_t* const cells = call_.cells.data();
        const SideCases* const sides = call_.sides.data();
        for (std::size_t i = 0; i < rows; ++i) {
            const std::size_t place = place_of(b, i);
            const SideCases& side = sides[place];
            double depth = b.asked_depth[i];
            double feed = b.feed[i];
            if constexpr (Open) {
                const bool finish = b.finish[i] != 0.0;
                depth = depth == depth ? depth
                                       : std::min(call_.usual_depths[finish ? 1 : 0], b.diameter[i] / 8.0);
                feed = feed == feed ? feed : call_.usual_feeds[place];
                depth_to_[i] = depth;
            }
            b.places[i] =
                cells[side.first + edges_below<DepthLevels>(side.depths.data(), depth) * side.across +
                      edges_below<FeedLevels>(side.feeds.data(), feed)];
        }
    }

    void find_among_edges(std::size_t rows) {
        const bool open = block_->open_feeds || open_depths_;
        with_levels(call_.depth_edges, [&](auto depth_levels) {
            with_levels(call_.feed_edges, [&](auto feed_levels) {
                open ? find_among<depth_levels(), feed_levels(), true>(rows)
                     : find_among<depth_levels(), feed_levels(), false>(rows);
            });
        });
    }

    // Calls with as many levels as reach so many edges.
    template <class Call>
    static void with_levels(std::size_t edges, const Call& with) {
        switch (std::bit_width(edges)) {
            case 0:
                return with(std::integral_constant<unsigned, 0>{});
            case 1:
                return with(std::integral_constant<unsigned, 1>{});
            case 2:
                return with(std::integral_constant<unsigned, 2>{});
            default:
                return with(std::integral_constant<unsigned, Steps::kLevels>{});
        }
    }

    // The speeds of a variable drive, row by row.
    void choose_speeds(std::size_t rows) {
        TurnBlock& b = *block_;
        const machine::Machine& machine = call_.levers.machine;
        for (std::size_t i = 0; i < rows; ++i) {
            const machine::SpindleChoice choice =
                machine::choose_spindle(machine, b.low_rpm[i], b.limit_rpm[i]);
            b.spindle_code[i] = choice.step;
            b.chosen_rpm[i] = choice.rpm;
            b.available[i] = machine::spindle_power_kw(machine, choice.step, choice.rpm);
            const bool top =
                choice.step + 1 == machine.spindle.size() && choice.rpm >= machine.spindle.back().rpm;
            b.flags[i] |= (choice.fit == machine::SpindleFit::above_window ? kSlowestFlag : 0U) |
                          (top ? kFastestFlag : 0U);
        }
    }

    void write(std::size_t first, std::size_t rows) {
        const TurnBlock& b = *block_;
        const CutColumns& out = call_.out;
        const auto copy = [&](std::string_view name, const Row& from) {
            if (double* const to = out.figures[figure_place(name)]) {
                std::copy_n(from.data(), rows, to + first);
            }
        };
        const auto times = [&](std::string_view name, std::string_view of, const Row& factor) {
            if (double* const to = out.figures[figure_place(name)]) {
                const double* const from = b.out[figure_place(of)];
                for (std::size_t i = 0; i < rows; ++i) {
                    to[first + i] = from[i] * factor[i];
                }
            }
        };
        copy("window_low_m_min", b.low_m_min);
        copy("window_high_m_min", b.high_m_min);
        copy("available_power_kw", b.available);
        times("cutting_force_low_n", "cutting_force_n", b.band_low);
        times("roughness_low_um", "roughness_ra_um", b.finish_low);
        times("roughness_high_um", "roughness_ra_um", b.finish_high);
        times("cutting_force_high_n", "cutting_force_n", b.upper);
        times("spindle_power_low_kw", "spindle_power_kw", b.band_low);
        times("spindle_power_high_kw", "spindle_power_kw", b.upper);
        if (double* const to = out.figures[figure_place("motor_power_kw")]) {
            const double* const from = b.out[figure_place("spindle_power_kw")];
            for (std::size_t i = 0; i < rows; ++i) {
                to[first + i] = call_.levers.any ? kNaN : MotorPower::compute(from[i], b.efficiency[i]);
            }
        }
        for (const std::string_view name : {"feed_per_tooth_mm", "width_mm", "chip_thickness_max_mm",
                                            "feed_force_low_n", "feed_force_high_n"}) {
            if (double* const to = out.figures[figure_place(name)]) {
                std::fill_n(to + first, rows, kNaN);
            }
        }
        if (out.spindle_step != nullptr) {
            std::transform(b.spindle_code.begin(), b.spindle_code.begin() + rows, out.spindle_step + first,
                           step_of);
        }
        if (out.feed_step != nullptr) {
            std::transform(b.feed_code.begin(), b.feed_code.begin() + rows, out.feed_step + first, step_of);
        }
        if (out.passes != nullptr) {
            std::fill_n(out.passes + first, rows, std::uint16_t{1});
        }
        if (out.limited_by != nullptr) {
            for (std::size_t i = 0; i < rows; ++i) {
                out.limited_by[first + i] = static_cast<std::uint8_t>(b.limited[i]);
            }
        }
        if (out.outcome.reason != nullptr) {
            std::fill_n(out.outcome.reason + first, rows, std::uint16_t{0});
        }
        // The rows that are whole. The others are marked by alone(), so that none looks answered before it
        // is.
        if (out.outcome.status != nullptr && !b.some_special) {
            std::fill_n(out.outcome.status + first, rows, std::uint8_t{0});
        } else if (out.outcome.status != nullptr) {
            for (std::size_t i = 0; i < rows; ++i) {
                std::uint8_t& status = out.outcome.status[first + i];
                status = b.special[i] == 0 ? std::uint8_t{0} : status;
            }
        }
    }

    const Call& call_;
    std::unique_ptr<TurnBlock> block_;
    std::array<Row, kInputs.size()> all_{};
    std::array<Row, kInputs.size()> filled_{};  // columns with the usual numbers where none are given
    std::array<std::int32_t, kBlockRows> alloys_{};
    std::array<std::int32_t, kBlockRows> tools_{};
    Row all_depth_{};
    double* depth_to_ = nullptr;
    bool open_depths_ = false;  // some depth was not given
    std::array<Row, kCutFigures.size()> scratch_{};
    Row own_depth_{};
    Row own_rpm_{};
    Row own_feed_{};
    Bits own_cautions_{};
};

// Whether a number that all rows share keeps them ordinary.
bool within(double value, Bounds bounds) {
    return std::isnan(value) ? !bounds.required
                             : (value >= bounds.low && value <= bounds.high) || (value == 0.0 && bounds.zero);
}

bool ordinary_call(const Call& call) {
    const auto shared_fits = [&](std::size_t at, Bounds bounds) {
        const Numbers& numbers = call.columns.numbers[at];
        return numbers.data != nullptr || within(numbers.all, bounds);
    };
    bool fits = call.levers.ordinary() && shared_fits(kDepth, kDepthBounds);
    for (std::size_t i = 0; i < kInputs.size(); ++i) {
        fits = fits && shared_fits(kInputs[i].argument, call.bounds[i]);
    }
    for (const std::size_t at : kLeft) {
        const Numbers& numbers = call.columns.numbers[at];
        fits = fits && (numbers.data != nullptr || std::isnan(numbers.all));
    }
    for (const std::size_t at : kOnlyAlone) {
        fits = fits && call.out.figures[at] == nullptr;
    }
    const Numbers& hardness = call.columns.work.hardness_hb;
    return fits && (hardness.data != nullptr || std::isnan(hardness.all));
}

std::vector<Dangers> dangers_of(const CutSetting& setting, Hold hold) {
    const double root = hold == Hold::between_centres    ? kWhirlRootCentres
                        : hold == Hold::chuck_and_centre ? kWhirlRootChuckAndCentre
                                                         : kWhirlRootChuck;
    constexpr double kWithRoom = 1.0 - 1e-6;
    std::vector<Dangers> out(setting.alloys.size());
    for (std::size_t i = 0; i < out.size(); ++i) {
        const std::int32_t alloy = setting.alloys[i];
        if (alloy < 0 || static_cast<std::size_t>(alloy) >= setting.catalogue->alloys.size()) {
            continue;
        }
        const material::AlloyRow& row = setting.catalogue->alloys[static_cast<std::size_t>(alloy)];
        const double at_one_mm =
            FirstWhirl::compute(1.0, 0.0, 1.0, row.youngs_modulus_gpa, row.density_kg_m3, root);
        out[i].whirl = std::fmin(kInfinity, kWhirlShare * at_one_mm * kWithRoom);
        if (const FireLimitRow* const fire = fire_limit(*setting.catalogue, row)) {
            out[i].speed_never_m_min = fire->speed_never_m_min;
            out[i].feed_least_mm = fire->feed_least_mm;
        }
    }
    return out;
}

Record record_of(const CaseNumbers& from) {
    return {{from.low_m_min, from.high_m_min, from.kc11, from.mc, from.reference_log2, from.band_high,
             from.modulus,
             std::bit_cast<double>(from.cautions | (from.id < 0 || std::isnan(from.modulus) ? kAlone : 0U) |
                                   (from.burns ? kMayBurn : 0U))}};
}

// Lay the cases of the call's alloys out for its look-ups.
void lay_out(Call& call) {
    static const CaseNumbers kNothing{};
    call.numbers.push_back(&kNothing);
    call.cells.push_back(0);
    for (std::size_t i = 0; i <= call.grids.size(); ++i) {
        const TurnCases::Grid* const grid = i < call.grids.size() ? call.grids[i] : nullptr;
        const std::size_t first = call.numbers.size();
        if (grid != nullptr) {
            for (const CaseNumbers& numbers : grid->numbers) {
                call.numbers.push_back(&numbers);
            }
        }
        for (const bool finish : {false, true}) {
            SideCases out;
            double usual_feed = 1.0;
            out.depths.fill(kInfinity);
            out.feeds.fill(kInfinity);
            // A side with more edges than are kept near goes row by row.
            if (grid != nullptr && grid->sides[finish ? 1 : 0].near()) {
                const TurnCases::Grid::Side& side = grid->sides[finish ? 1 : 0];
                out.depths = side.depths.near;
                out.feeds = side.feeds.near;
                out.across = static_cast<std::uint32_t>(side.across);
                usual_feed = side.usual_feed;
                out.first = static_cast<std::uint32_t>(call.cells.size());
                for (const std::uint16_t cell : side.cells) {
                    call.cells.push_back(static_cast<std::uint32_t>(first + cell));
                }
                call.depth_edges = std::max(call.depth_edges, side.depths.count);
                call.feed_edges = std::max(call.feed_edges, side.feeds.count);
            }
            call.sides.push_back(out);
            call.usual_feeds.push_back(usual_feed);
            call.first_cells.push_back(call.cells[out.first]);
        }
    }
    for (const CaseNumbers* const numbers : call.numbers) {
        call.records.push_back(record_of(*numbers));
    }
}

}  // namespace

void turn(const TurnCases& cases, const CutSetting& setting, const TurnColumns& columns, std::size_t rows,
          const CutColumns& out, Clone clone) {
    // Whether many rows may go through evaluate().
    const bool many = columns.work.hardness_hb.given() ||
                      std::any_of(kLeft.begin(), kLeft.end(),
                                  [&](std::size_t at) { return columns.numbers[at].given(); }) ||
                      std::any_of(kOnlyAlone.begin(), kOnlyAlone.end(),
                                  [&](std::size_t at) { return out.figures[at] != nullptr; });
    const auto wants = [&](std::string_view name) { return out.figures[figure_place(name)] != nullptr; };
    Call call{.tables = AlloyTables(setting, many ? rows : 0),
              .cases = cases,
              .setting = setting,
              .columns = columns,
              .out = out,
              .passes = turn_passes(std::min(clone, widest_clone())),
              .levers = Levers(*setting.machine),
              .wants_efficiency = wants("motor_power_kw"),
              .wants_finish = wants("roughness_low_um") || wants("roughness_high_um"),
              .wants_band = wants("cutting_force_low_n") || wants("spindle_power_low_kw"),
              .adjusted = columns.numbers[argument("rake_deg")].given() ||
                          columns.numbers[argument("wear_factor")].given(),
              .rough_asked = columns.numbers[argument("roughness_limit_um")].given(),
              .bounds = bounds_on(*setting.machine, setting.chuck, columns.hold)};
    std::array<bool, kTools> used{};
    if (columns.work.tool_material.data == nullptr) {
        const auto tool = static_cast<std::size_t>(columns.work.tool_material.all);
        if (tool < kTools) {
            used[tool] = true;
        }
    } else {
        for (std::size_t i = 0; i < rows; ++i) {
            const auto tool = static_cast<std::size_t>(columns.work.tool_material.data[i]);
            if (tool < kTools) {
                used[tool] = true;
            }
        }
    }
    call.grids.assign(setting.alloys.size() * kTools, nullptr);
    for (std::size_t tool = 0; tool < kTools; ++tool) {
        if (!used[tool]) {
            continue;
        }
        cases.prepare(setting.alloys, static_cast<ToolMaterial>(tool));
        for (std::size_t i = 0; i < setting.alloys.size(); ++i) {
            const std::int32_t alloy = setting.alloys[i];
            if (alloy >= 0 && static_cast<std::size_t>(alloy) < setting.catalogue->alloys.size()) {
                call.grids[i * kTools + tool] =
                    cases.grid(static_cast<std::uint16_t>(alloy), static_cast<ToolMaterial>(tool));
            }
        }
    }
    lay_out(call);
    for (const bool finish : {false, true}) {
        call.usual_depths[finish ? 1 : 0] = usual_depth_mm(kInfinity, finish, columns.inch);
    }
    const machine::Machine& machine = *setting.machine;
    TurnShared& shared = call.shared;
    const auto caution = [&](CautionCode code) {
        shared.cautions |= std::uint64_t{1} << static_cast<unsigned>(code);
    };
    shared.chuck_rpm = kInfinity;
    if (setting.chuck >= 0 && static_cast<std::size_t>(setting.chuck) < machine.chucks.size()) {
        const machine::Chuck& chuck = machine.chucks[static_cast<std::size_t>(setting.chuck)];
        shared.chuck_rpm = machine::chuck_rpm_limit(chuck);
        if (std::isnan(chuck.rpm_limit)) {
            caution(CautionCode::chuck_unmarked);
        }
    }
    shared.top_rpm = machine.spindle.empty() ? 0.0 : machine.spindle.back().rpm;
    shared.torque_limit_nm = kInfinity;
    if (!std::isnan(machine.torque_limit_nm)) {
        shared.torque_limit_nm = machine.torque_limit_nm;
    }
    call.dangers = dangers_of(setting, columns.hold);
    shared.whirl = kInfinity;
    for (const Dangers& own : call.dangers) {
        shared.whirl = std::fmin(shared.whirl, own.whirl);
    }
    shared.slender = columns.hold == Hold::chuck ? kSlenderChuck : kSlenderCentre;
    shared.at_top =
        static_cast<std::uint8_t>(call.levers.any ? LimitCode::speed_window : LimitCode::machine_top_speed);
    shared.hold = columns.hold;
    shared.steps = call.levers.steps;
    shared.adjusted = call.adjusted;
    const auto given = [&](std::string_view name) { return columns.numbers[argument(name)].given(); };
    shared.rare = shared.torque_limit_nm < kInfinity || given("roughness_limit_um") || given("bore_mm");
    shared.limits = out.limited_by != nullptr;
    shared.codes =
        shared.limits || call.wants_efficiency || out.spindle_step != nullptr || out.feed_step != nullptr;
    shared.cases = call.records.data();
    shared.alloys = static_cast<double>(setting.alloys.size());
    shared.nobody = static_cast<double>(call.sides.size() - 1);
    shared.spindle = call.levers.fixed ? &call.levers.spindle : nullptr;
    shared.feeds = call.levers.steps ? &call.levers.feeds : nullptr;
    shared.entering_varies = columns.numbers[argument("entering_deg")].data != nullptr;
    if (!call.levers.any && !call.levers.steps) {
        caution(CautionCode::hand_feed);
    }
    call.all_alone =
        !ordinary_call(call) || call.depth_edges > Steps::kNear || call.feed_edges > Steps::kNear;
    const std::size_t workers =
        workers_for(rows, call.all_alone ? kSerialLookUps : kSerialRows, setting.workers);
    // Neighbouring blocks go to one worker, so that each reads and writes memory in long runs; a worker has
    // several runs still, for one that is held up.
    constexpr std::size_t kLongestRun = 16;
    constexpr std::size_t kRunsEach = 4;
    const std::size_t run =
        std::clamp<std::size_t>(rows / (kBlockRows * workers * kRunsEach), 1, kLongestRun);
    run_blocks(rows, workers, call.all_alone ? kBlockRows : run * kBlockRows, [&] { return Worker(call); });
}

}  // namespace halfnut::batch
