// Setting out at the mill, as questions.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string_view>

#include "cut_answer.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/layout.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/machine/dial.hpp"
#include "halfnut/machine/dividing.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

constexpr double kWholeTurn = 360.0;
constexpr int kMostHoles = 1000;
constexpr int kMostDivisions = 1000;
constexpr double kSamePlace = 1e-6;  // mm
constexpr double kByDialMm = 0.1;    // rule::layout_within
constexpr double kByReadoutMm = 0.03;
constexpr int kMostMoves = 6;               // told of each kind
constexpr double kTwoCircleTurn = 0.00005;  // error of the crank that tables of two circles allow
constexpr double kSteepDeg = 60.0;          // rule::sine_bar
constexpr double kCountable = 1e-9;

bool given(double value) {
    return !std::isnan(value);
}

// ---- what is asked ----------------------------------------------------------------------------------------

#define ASKED(member, about) HALFNUT_ASKED(PositionsAsk, member, about)
constexpr std::array kPositionsAsked{
    ASKED(pattern, "How the holes lie: circle, row, grid, or a list of places.").required(),
    ASKED(holes, "Holes of a circle, or of each row.").from(1, kMostHoles),
    ASKED(diameter_mm, "Diameter of the circle through the holes.").above(0).leads(),
    ASKED(step_mm, "Distance between the holes of a row.").above(0).leads(2),
    ASKED(rows, "Rows of a grid.").from(1, kMostHoles),
    ASKED(row_step_mm, "Distance between the rows of a grid.").above(0).usually("the step within a row"),
    ASKED(angle_deg,
          "Direction of the first hole of a circle from its centre, or of a row; from +X, towards +Y.")
        .from(-kWholeTurn, kWholeTurn)
        .usually("0, along +X"),
    ASKED(over_deg, "Angle over which the holes of a circle lie, the first and the last at its ends.")
        .from(0.0, kWholeTurn)
        .usually("the whole circle"),
    ASKED(clockwise, "The holes of a circle are counted from +Y towards +X."),
    ASKED(x,
          "Centre of the circle, or the first hole, from the zero of the dials; below 0 on its other side.")
        .as_length()
        .leads(4)
        .usually("0"),
    ASKED(y, "The same along Y.").as_length().usually("0"),
    ASKED(at, "Places of a list, each as x and y from the zero, such as \"1 in, 2 in\".")
        .or_a("Place")
        .as_length()
        .leads(3),
    ASKED(edge_finder_mm, "Diameter of the edge finder's tip, for the way from the edge to the zero.")
        .above(0),
    ASKED(machine, "Mill whose dials or readout are read; without one there are coordinates alone."),
};
#undef ASKED

#define ASKED(member, about) HALFNUT_ASKED(DivideAsk, member, about)
constexpr AskedRow kDividingMachine =
    ASKED(machine, "Machine whose dividing head it is: its ratio and plates.");
constexpr std::array kDivideAsked{
    ASKED(part, "Divisions of a turn, or the angle to turn the work by, such as 13.5 deg.")
        .or_a("Turn")
        .required(),
    ASKED(ratio, "Turns of the crank for one turn of the work.")
        .from(1, machine::kMostDividingRatio)
        .usually("the machine's, or 40"),
    ASKED(plates, "Circles of holes, with commas between plates: \"15 16 17 18 19 20, 21 23 27\".")
        .usually("the machine's, or a usual set of three"),
    ASKED(direct, "Holes of the plate on the spindle itself.").from(2, machine::kMostCircle),
    ASKED(diameter_mm, "Diameter of the work, to tell an error as a length at its rim.").above(0).leads(),
    kDividingMachine,
};
#undef ASKED

#define ASKED(member, about) HALFNUT_ASKED(PolygonAsk, member, about)
constexpr std::array kPolygonAsked{
    ASKED(flats, "Flats around the work.").from(2, 100).required(),
    ASKED(across_flats_mm, "Distance of a flat from the one opposite; twice its distance from the axis.")
        .above(0)
        .leads(),
    ASKED(across_corners_mm, "Diameter of the circle through the corners, instead.").above(0).leads(2),
    ASKED(bar_mm, "Diameter of the round that they are milled on.")
        .above(0)
        .leads(3)
        .usually("that of the corners"),
    ASKED(machine, "Mill with its dividing head and the dial of its vertical slide."),
};
#undef ASKED

#define ASKED(member, about) HALFNUT_ASKED(SineBarAsk, member, about)
constexpr std::array kSineBarAsked{
    ASKED(angle, "Angle wanted, such as 27 deg; or the stack that is there, whose angle is the answer.")
        .or_a("Sine")
        .required()
        .leads(2),
    ASKED(bar_mm, "Length of the bar between its rollers.")
        .above(0)
        .leads()
        .usually("100 mm, or 5 in with a stack in inches"),
};
#undef ASKED

// ---- how it is answered -----------------------------------------------------------------------------------

#define FIGURE(member, about) HALFNUT_FIGURE(PlaceToGo, member, about)
constexpr std::array kPlaceFigures{
    FIGURE(hole, "Its number, as the pattern counts."),
    FIGURE(x_mm, "From the zero along X.").always(),
    FIGURE(y_mm, "From the zero along Y.").always(),
    FIGURE(back_x, "Go back past it along X first, so that the way ends with the approach."),
    FIGURE(back_y, "The same along Y."),
    FIGURE(x_turns, "Whole turns of the handle from the zero; below 0 on its other side."),
    FIGURE(x_line, "Line of the dial within the turn, to the nearest."),
    FIGURE(y_turns, "Whole turns of the handle of Y."),
    FIGURE(y_line, "Line of the dial of Y."),
    FIGURE(x_reading, "What dial or readout of X shows."),
    FIGURE(y_reading, "What dial or readout of Y shows."),
};
#undef FIGURE
constexpr RecordRow kPlaceToGoRecord{"PlaceToGo", "A place of a hole.", kPlaceFigures};

#define FIGURE(member, about) HALFNUT_FIGURE(Positions, member, about)
constexpr std::array kPositionsFigures{
    FIGURE(pattern, "How the holes lie."),
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(holes, "How many."),
    HALFNUT_RECORDS(Positions, places, kPlaceToGoRecord,
                    "The places in the order in which they are gone to."),
    FIGURE(chord_mm, "Distance between neighbours on a circle."),
    FIGURE(check_from, "Of the two holes that are farthest apart one; 0: there is one hole."),
    FIGURE(check_to, "The other."),
    FIGURE(check_mm, "Their distance: measure it before anything is drilled."),
    FIGURE(edge_mm, "Way from where the edge finder touches to where the spindle stands over the edge."),
    FIGURE(edge_reading, "The same on the dial of X."),
    FIGURE(within_mm, "How near to its place a hole comes."),
    FIGURE(approach, "The sides from which every reading is come to."),
    FIGURE(said, "How many, how, and the sides to come from."),
    FIGURE(zero_said, "Way from where the edge finder touches, in words."),
    FIGURE(places_said, "Each hole: its coordinates, and what dial or readout shows."),
    FIGURE(check_said, "What to measure before anything is drilled."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kPositionsSays{
    SaidRow{"zero", "{zero_said}"},
    SaidRow{"*", "places_said"},
    SaidRow{"check", "{check_said}"},
    SaidRow{"neighbours", "{chord_mm} apart"},
    SaidRow{"within", "{within_mm} of its place"},
};
constexpr RecordRow kPositionsRecord{"Positions",
                                     "Places of holes from a zero, in the order in which they are gone to.",
                                     kPositionsFigures,
                                     {},
                                     {"{said}", kPositionsSays, "*"}};

#define FIGURE(member, about) HALFNUT_FIGURE(DivideMove, member, about)
constexpr std::array kMoveFigures{
    FIGURE(turns, "Whole turns of the crank."),
    FIGURE(holes, "Further holes of the circle; 0: none."),
    FIGURE(circle, "Holes of the circle; 0: any."),
    FIGURE(other_holes,
           "Holes of a second circle of the same plate, by turning it; below 0 against the crank."),
    FIGURE(other_circle, "Holes of that circle; 0: none."),
    FIGURE(error_deg, "How much more than wanted the work turns.").always(),
};
#undef FIGURE
constexpr RecordRow kMoveRecord{"DivideMove", "Turns of the crank and holes of a plate.", kMoveFigures};

#define FIGURE(member, about) HALFNUT_FIGURE(DivideStep, member, about)
constexpr std::array kStepFigures{
    FIGURE(division, "Which, from 1; the start is 0."),
    FIGURE(turns, "Whole turns of the crank from the start."),
    FIGURE(holes, "Further holes of the circle."),
    FIGURE(error_deg, "How far beyond its place the work stands.").always(),
};
#undef FIGURE
constexpr RecordRow kStepRecord{"DivideStep", "A division counted from the start.", kStepFigures};

#define FIGURE(member, about) HALFNUT_FIGURE(Division, member, about)
constexpr std::array kDivisionFigures{
    FIGURE(divisions, "Parts of a turn."),
    FIGURE(angle_deg, "Angle of one of them.").always(),
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(ratio, "Turns of the crank for one turn of the work."),
    FIGURE(plates, "The plates, with commas between."),
    FIGURE(crank_turns, "Turns of the crank for one.").always(),
    FIGURE(exact, "A circle gives it without error."),
    HALFNUT_RECORD(Division, move, kMoveRecord,
                   "How to turn: on the largest circle that gives it; else on the nearest."),
    HALFNUT_RECORDS(Division, also, kMoveRecord, "Other circles that give it."),
    HALFNUT_RECORDS(Division, two_circles, kMoveRecord,
                    "Where one circle does not: two of a plate, the nearest first."),
    HALFNUT_RECORDS(
        Division, steps, kStepRecord,
        "Where no circle gives it: each division on the largest circle, counted from the start, so "
        "that errors do not add up."),
    FIGURE(direct_step, "Holes of the plate on the spindle, where that divides it."),
    FIGURE(direct_holes, "Holes of that plate."),
    FIGURE(error_mm, "Greatest error at the rim of the work."),
    FIGURE(said, "How to turn the crank, in one line."),
    FIGURE(move_said, "The movement in words."),
    FIGURE(arms_said, "Where the sector arms stand."),
    FIGURE(also_said, "Other circles in words."),
    FIGURE(direct_said, "Holes of the plate on the spindle, in words."),
    FIGURE(two_said, "Two circles of a plate, each in words."),
    FIGURE(count_said, "The first divisions counted from the start, each in words."),
    FIGURE(assumed, "What was not said and therefore taken."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kDivisionSays{
    SaidRow{"arms", "{arms_said}"},     SaidRow{"or", "{also_said}"},
    SaidRow{"direct", "{direct_said}"}, SaidRow{"*two", "two_said"},
    SaidRow{"*count", "count_said"},    SaidRow{"error", "{error_mm:fine} at the rim at most"},
    SaidRow{"assumed", "{assumed}"},
};
constexpr RecordRow kDivisionRecord{"Division",
                                    "A part of a turn by the dividing head.",
                                    kDivisionFigures,
                                    {},
                                    {"{said}", kDivisionSays, "or, direct, two, error"}};

#define FIGURE(member, about) HALFNUT_FIGURE(Polygon, member, about)
constexpr std::array kPolygonFigures{
    FIGURE(flats, "Flats around the work."),
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(across_flats_mm, "Twice the distance of a flat from the axis.").always(),
    FIGURE(across_corners_mm, "Diameter of the circle through the corners; two flats have none."),
    FIGURE(bar_mm, "Diameter of the round.").always(),
    FIGURE(depth_mm, "Depth of each flat below the round.").always(),
    FIGURE(depth_reading, "The same on the dial of the vertical slide, from where the cutter touches."),
    FIGURE(flat_mm, "Width of a flat as it comes.").always(),
    FIGURE(over_first_mm, "From the first flat to the round opposite: measure it before the next.").always(),
    FIGURE(measure_mm, "What the finished work measures.").always(),
    FIGURE(measured, "Between what."),
    HALFNUT_RECORD(Polygon, division, kDivisionRecord, "How to divide."),
    FIGURE(dividing, "How to turn from flat to flat, in words."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kPolygonSays{
    SaidRow{"first", "measures {over_first_mm} from the first flat to the round opposite"},
    SaidRow{"finished", "{measure_mm} {measured}"},
    SaidRow{"divide", "{dividing}"},
    SaidRow{"corners", "{across_corners_mm} across"},
    SaidRow{"flat", "{flat_mm} wide"},
};
constexpr RecordRow kPolygonRecord{"Polygon",
                                   "Flats on a round.",
                                   kPolygonFigures,
                                   {},
                                   {"{flats} flats {depth_mm} deep[ ({depth_reading})] on {bar_mm}",
                                    kPolygonSays, "first, finished, divide, corners"}};

#define FIGURE(member, about) HALFNUT_FIGURE(SineBar, member, about)
constexpr std::array kSineBarFigures{
    FIGURE(angle_deg, "The angle.").always(),
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(bar_mm, "Length of the bar between its rollers.").always(),
    FIGURE(stack_mm, "Stack under one roller.").always(),
    FIGURE(set_mm, "The same to the last place of gauge blocks.").always(),
    FIGURE(set_deg, "Angle of that.").always(),
    FIGURE(error_deg, "How much more it is than wanted.").always(),
    FIGURE(error_each_deg, "Error for each 0.001 mm, or 0.0001 in, of the stack.").always(),
    FIGURE(blocks_mm, "Gauge blocks that make the stack."),
    FIGURE(said, "The stack and its angle."),
    FIGURE(error_said, "How far the stack is off, and what its last place does."),
    FIGURE(assumed, "What was not said and therefore taken."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kSineBarSays{
    SaidRow{"blocks", "{blocks_mm:length}"},
    SaidRow{"error", "{error_said}"},
    SaidRow{"assumed", "{assumed}"},
};
constexpr RecordRow kSineBarRecord{
    "SineBar", "A sine bar on its stack.", kSineBarFigures, {}, {"{said}", kSineBarSays, "blocks, error"}};

// ---- places -----------------------------------------------------------------------------------------------

/// A reading to the nearest line, counted the way the dial runs.
struct Read {
    int turns = 0;
    int line = 0;
    std::string text;
};

Read read_of(const machine::Slide& slide, double mm, bool inch) {
    const UnitSystem system = slide.marked_in_inch ? UnitSystem::inch : UnitSystem::metric;
    if (given(slide.readout_mm)) {
        return {0, 0,
                spell(std::nearbyint(mm / slide.readout_mm) * slide.readout_mm, FigureKind::length,
                      inch ? UnitSystem::inch : UnitSystem::metric)};
    }
    const int turn = machine::lines_a_turn(slide);
    const double lines = mm * (slide.reads_diameter ? 2.0 : 1.0) / slide.graduation_mm;
    const double nearest = std::nearbyint(lines);
    const double turns = std::floor(nearest / turn);
    Read out;
    out.turns = bounds::whole(turns, -bounds::kCount, bounds::kCount);
    out.line = bounds::whole(nearest - turns * turn, 0);
    const double off = std::abs(lines - nearest) < kSamePlace ? 0.0 : (lines - nearest) * slide.graduation_mm;
    out.text = out.turns == 0 ? "" : fmt::format("{} turn{} + ", out.turns, out.turns == 1 ? "" : "s");
    out.text += fmt::format("{} line{}", out.line, out.line == 1 ? "" : "s");
    if (off != 0.0) {
        out.text +=
            fmt::format(" {}{}", off > 0.0 ? "+" : "−", spell(std::abs(off), FigureKind::fine, system));
    }
    return out;
}

[[noreturn]] void refuse(string_view what) {
    throw DomainError(std::string(what));
}

std::vector<HolePlace> on_circle(const PositionsAsk& asked) {
    if (asked.holes < 1 || !given(asked.diameter_mm)) {
        refuse("a circle needs holes and diameter");
    }
    const bool whole = asked.over_deg == kWholeTurn;
    const int parts = whole ? asked.holes : std::max(1, asked.holes - 1);
    const double radius = asked.diameter_mm / 2.0;
    std::vector<HolePlace> out;
    for (int i = 0; i < asked.holes; ++i) {
        const double turned = asked.over_deg * i / parts;
        const SineCosine of = sine_cosine_deg(asked.angle_deg + (asked.clockwise ? -turned : turned));
        out.push_back({asked.x.mm + radius * of.cosine, asked.y.mm + radius * of.sine});
    }
    return out;
}

std::vector<HolePlace> in_rows(const PositionsAsk& asked) {
    const bool grid = asked.pattern == HolePattern::grid;
    if (asked.holes < 1 || !given(asked.step_mm) || (grid && asked.rows < 1)) {
        refuse(grid ? "a grid needs holes, step and rows" : "a row needs holes and step");
    }
    const int rows = grid ? asked.rows : 1;
    if (static_cast<long long>(rows) * asked.holes > kMostHoles) {
        refuse(fmt::format("rows times holes must be at most {}, got {}", kMostHoles,
                           static_cast<long long>(rows) * asked.holes));
    }
    const double apart = given(asked.row_step_mm) ? asked.row_step_mm : asked.step_mm;
    const SineCosine along = sine_cosine_deg(asked.angle_deg);
    std::vector<HolePlace> out;
    for (int row = 0; row < rows; ++row) {
        for (int i = 0; i < asked.holes; ++i) {
            const double u = i * asked.step_mm;
            const double v = row * apart;
            out.push_back({asked.x.mm + u * along.cosine - v * along.sine,
                           asked.y.mm + u * along.sine + v * along.cosine});
        }
    }
    return out;
}

/// What belongs to another pattern is refused, not left unsaid.
void refuse_strangers(const PositionsAsk& asked) {
    const bool circle = asked.pattern == HolePattern::circle;
    const bool list = asked.pattern == HolePattern::list;
    const bool grid = asked.pattern == HolePattern::grid;
    const string_view name = enum_name(asked.pattern);
    for (const auto& [is_given, belongs, argument] :
         {std::tuple{asked.holes > 0, !list, "holes"},
          std::tuple{given(asked.diameter_mm), circle, "diameter"},
          std::tuple{given(asked.step_mm), grid || asked.pattern == HolePattern::row, "step"},
          std::tuple{asked.rows > 0, grid, "rows"}, std::tuple{given(asked.row_step_mm), grid, "row_step"},
          std::tuple{asked.over_deg != kWholeTurn || asked.clockwise, circle, "over_deg and clockwise"},
          std::tuple{!asked.at.empty(), list, "at"}}) {
        if (is_given && !belongs) {
            refuse(fmt::format("a {} has no {}", name, argument));
        }
    }
}

struct Order {
    std::vector<std::size_t> places;
    int backs = 0;
};

/// The order along one slide, and within it along the other; how often a slide goes back in it.
Order order_of(const std::vector<HolePlace>& places, double x_sign, double y_sign, bool along_x) {
    const auto rounded = [](double mm) { return std::nearbyint(mm / kSamePlace); };
    Order out;
    out.places.resize(places.size());
    std::iota(out.places.begin(), out.places.end(), std::size_t{0});
    std::stable_sort(out.places.begin(), out.places.end(), [&](std::size_t a, std::size_t b) {
        const double ax = rounded(x_sign * places[a].x_mm);
        const double bx = rounded(x_sign * places[b].x_mm);
        const double ay = rounded(y_sign * places[a].y_mm);
        const double by = rounded(y_sign * places[b].y_mm);
        return along_x ? ay < by || (ay == by && ax < bx) : ax < bx || (ax == bx && ay < by);
    });
    for (std::size_t i = 1; i < out.places.size(); ++i) {
        const HolePlace& before = places[out.places[i - 1]];
        const HolePlace& now = places[out.places[i]];
        out.backs += x_sign * (now.x_mm - before.x_mm) < -kSamePlace ? 1 : 0;
        out.backs += y_sign * (now.y_mm - before.y_mm) < -kSamePlace ? 1 : 0;
    }
    return out;
}

void check_apart(HolePattern pattern, const std::vector<HolePlace>& places, Positions& out) {
    const string_view argument = pattern == HolePattern::circle ? "over_deg"
                                 : pattern == HolePattern::list ? "at"
                                                                : "step";
    for (std::size_t i = 0; i < places.size(); ++i) {
        for (std::size_t j = i + 1; j < places.size(); ++j) {
            const double dx = places[j].x_mm - places[i].x_mm;
            const double dy = places[j].y_mm - places[i].y_mm;
            const double apart = std::sqrt(dx * dx + dy * dy);
            if (apart < kSamePlace) {
                refuse(fmt::format("{} puts holes {} and {} in the same place", argument, i + 1, j + 1));
            }
            if (!(apart <= out.check_mm + kSamePlace)) {
                out.check_mm = apart;
                out.check_from = static_cast<int>(i) + 1;
                out.check_to = static_cast<int>(j) + 1;
            }
        }
    }
}

double sign_of(const machine::Slide* slide) {
    return slide != nullptr && slide->approach_minus ? -1.0 : 1.0;
}

void check_travel(const std::vector<HolePlace>& places, const machine::Slide* slide,
                  double HolePlace::* along, bool inch, Positions& out) {
    if (slide == nullptr) {
        return;
    }
    const auto [low, high] =
        std::minmax_element(places.begin(), places.end(),
                            [along](const HolePlace& a, const HolePlace& b) { return a.*along < b.*along; });
    if ((*high).*along - (*low).*along > slide->travel_mm) {
        out.told.push_back({"layout_travel", 0.0, {{"travel", size_text(slide->travel_mm, inch)}}});
    }
}

// ---- dividing ---------------------------------------------------------------------------------------------

DivideMove move_of(const machine::IndexMove& found, int ratio) {
    return {found.turns, found.holes,       found.circle,
            found.back,  found.back_circle, found.error_turn * kWholeTurn / ratio};
}

void with_moves(std::vector<DivideMove>& to, const std::vector<machine::IndexMove>& found, int ratio) {
    for (const machine::IndexMove& each : found) {
        if (to.size() == static_cast<std::size_t>(kMostMoves)) {
            return;
        }
        to.push_back(move_of(each, ratio));
    }
}

/// Each division on a circle, from the start.
void count_from_start(Division& out, int circle) {
    const double whole = static_cast<double>(out.ratio) * circle;  // holes of a turn of the work
    for (int i = 1; i < *out.divisions; ++i) {
        const double wanted = whole * i / *out.divisions;
        const double holes = std::floor(wanted + 0.5);
        const double turns = std::floor(holes / circle);
        out.steps.push_back({i, bounds::whole(turns, 0), bounds::whole(holes - turns * circle, 0),
                             (holes - wanted) * kWholeTurn / whole});
    }
}

int largest_circle(const std::vector<std::vector<int>>& plates) {
    int out = 0;
    for (const std::vector<int>& plate : plates) {
        out = std::max(out, *std::max_element(plate.begin(), plate.end()));
    }
    return out;
}

double error_at_rim(const Division& found, double diameter_mm) {
    double most = std::abs(found.move.error_deg);
    if (!found.steps.empty()) {
        most = 0.0;
        for (const DivideStep& each : found.steps) {
            most = std::max(most, std::abs(each.error_deg));
        }
    }
    return most / kWholeTurn * std::numbers::pi * diameter_mm;
}

// ---- gauge blocks -----------------------------------------------------------------------------------------

/// Fewest of 1 to `count` that make a sum, the largest first; nothing where there are none.
std::vector<long long> summands(long long sum, int count) {
    std::vector<long long> out;
    for (long long each = count; each >= 1 && sum > 0; --each) {
        if (each <= sum) {
            out.push_back(each);
            sum -= each;
        }
    }
    return sum == 0 ? out : std::vector<long long>{-1};
}

/// Sizes of the fewest blocks that make a height, the smallest first; none where no blocks do.
std::vector<double> blocks_for(const Catalogue& catalogue, double height_mm, bool inch) {
    const double scale = inch ? kInchMm : 1.0;
    const double place = (inch ? 1e-4 : 1e-3) * scale;
    std::vector<const GaugeBlockRow*> series;
    for (const GaugeBlockRow& row : catalogue.gauge_blocks) {
        if (row.unit == unit_name(inch)) {
            series.push_back(&row);
        }
    }
    std::sort(series.begin(), series.end(),
              [](const GaugeBlockRow* a, const GaugeBlockRow* b) { return a->step < b->step; });
    if (series.size() != 4) {
        return {};
    }
    const auto places = [&](double size) { return std::llround(size * scale / place); };
    const long long whole = std::llround(height_mm / place);
    const long long large = places(series[3]->step);
    std::vector<long long> best;
    // at most one of each of the three finer series; 0: none
    std::array<long long, 3> one{};
    const auto of = [&](std::size_t s, int n) {
        return n == 0 ? 0 : places(series[s]->first) + (n - 1) * places(series[s]->step);
    };
    for (int a = 0; a <= series[0]->count; ++a) {
        one[0] = of(0, a);
        for (int b = 0; b <= series[1]->count; ++b) {
            one[1] = of(1, b);
            for (int c = 0; c <= series[2]->count; ++c) {
                one[2] = of(2, c);
                const long long rest = whole - one[0] - one[1] - one[2];
                if (rest < 0 || rest % large != 0) {
                    continue;
                }
                std::vector<long long> blocks;
                std::copy_if(one.begin(), one.end(), std::back_inserter(blocks),
                             [](long long size) { return size > 0; });
                for (const long long each : summands(rest / large, series[3]->count)) {
                    blocks.push_back(each * large);
                }
                const bool made =
                    std::none_of(blocks.begin(), blocks.end(), [](long long s) { return s < 0; });
                if (made && !blocks.empty() && (best.empty() || blocks.size() < best.size())) {
                    best = std::move(blocks);
                }
            }
        }
    }
    std::vector<double> out;
    out.reserve(best.size());
    for (const long long each : best) {
        out.push_back(static_cast<double>(each) * place);
    }
    return out;
}

/// Angle of a sine, degrees.
double angle_of_sine(double sine) {
    return atan_of(sine / std::sqrt((1.0 - sine) * (1.0 + sine))) * 180.0 / std::numbers::pi;
}

}  // namespace

void take(Coordinate& to, const Given& given, const AskedRow& row, Asking& asking) {
    Given size = given;
    bool below = false;
    if (given.tag == Given::Tag::text) {
        size.text.remove_prefix(std::min(size.text.find_first_not_of(' '), size.text.size()));
        for (const string_view sign : {string_view("-"), string_view("−")}) {
            if (size.text.starts_with(sign)) {
                size.text.remove_prefix(sign.size());
                below = true;
            }
        }
    }
    halfnut::take(to.mm, size, row, asking);
    to.mm = below ? -to.mm : to.mm;
}

namespace {

/// The row as one of angles.
AskedRow as_angle(const AskedRow& row, double most_deg) {
    AskedRow out = row;
    out.unit = "deg";
    out.dimension = Dimension::angle;
    out.has_dimension = true;
    out.leading = 0;
    out.range = {.name = row.name, .unit = "deg", .low = 0.0, .high = most_deg, .low_open = true};
    return out;
}

bool is_bare(const Given& given) {
    return given.tag == Given::Tag::number ||
           (given.tag == Given::Tag::text &&
            given.text.find_first_not_of("0123456789. ") == string_view::npos);
}

}  // namespace

void take(TurnPart& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (!is_bare(given)) {
        halfnut::take(to.angle_deg, given, as_angle(row, kWholeTurn), asking);
        return;
    }
    double number = 0.0;
    halfnut::take(number, given, as_angle(row, bounds::kCount), asking);
    if (number != std::floor(number) || number < 2.0 || number > kMostDivisions) {
        throw DomainError(
            fmt::format("{} must be from 2 to {} divisions, or an angle such as '13.5 deg', got {}", row.name,
                        kMostDivisions, given.shown()));
    }
    to.divisions = bounds::whole(number, 2);
}

void take(SineOf& to, const Given& given, const AskedRow& row, Asking& asking) {
    bool is_angle = true;
    if (given.tag == Given::Tag::quantity) {
        is_angle = given.unit->dimension != Dimension::length;
    } else if (given.tag == Given::Tag::text && !is_bare(given)) {
        try {
            (void)parse_quantity(given.text, Dimension::length, asking.catalogue);
            is_angle = false;
        } catch (const Error&) {  // an angle, or what its reader refuses
        }
    }
    if (is_angle) {
        halfnut::take(to.angle_deg, given, as_angle(row, 90.0), asking);
        return;
    }
    AskedRow stack = row.as_length();
    stack.range = positive(row.name, "mm");
    halfnut::take(to.stack_mm, given, stack, asking);
}

void take(std::vector<HolePlace>& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag != Given::Tag::list) {
        throw DomainError(fmt::format("{} must be a sequence, got {}", row.name, given.shown()));
    }
    for (const Given& each : given.items) {
        const std::vector<Given> sizes = sizes_of(each);
        if (sizes.size() != 2) {
            throw DomainError(
                fmt::format("{} must each be x and y, such as '1 in, 2 in', got {}", row.name, each.shown()));
        }
        HolePlace& place = to.emplace_back();
        Coordinate at;
        take(at, sizes[0], row, asking);
        place.x_mm = at.mm;
        take(at, sizes[1], row, asking);
        place.y_mm = at.mm;
    }
    if (to.size() > static_cast<std::size_t>(kMostHoles)) {
        throw DomainError(fmt::format("{} must be at most {}, got {}", row.name, kMostHoles, to.size()));
    }
}

Positions positions(const PositionsAsk& asked, const Asking& asking) {
    refuse_strangers(asked);
    if (asked.pattern == HolePattern::list && asked.at.empty()) {
        refuse("a list needs at, its places");
    }
    const std::vector<HolePlace> places = asked.pattern == HolePattern::circle ? on_circle(asked)
                                          : asked.pattern == HolePattern::list ? asked.at
                                                                               : in_rows(asked);
    const machine::Slide* const x =
        asked.machine == nullptr ? nullptr : machine::find_slide(*asked.machine, "x");
    const machine::Slide* const y =
        asked.machine == nullptr ? nullptr : machine::find_slide(*asked.machine, "y");
    if (asked.machine != nullptr && (x == nullptr || y == nullptr)) {
        refuse(fmt::format("machine: {} has no slides x and y", bounds::shown(asked.machine->name)));
    }
    Positions out;
    out.pattern = enum_name(asked.pattern);
    out.unit = unit_name(asking.inch);
    out.holes = static_cast<int>(places.size());
    check_apart(asked.pattern, places, out);
    if (asked.pattern == HolePattern::circle && asked.holes > 1) {
        const int parts = asked.over_deg == kWholeTurn ? asked.holes : asked.holes - 1;
        out.chord_mm = asked.diameter_mm * sine_deg(asked.over_deg / parts / 2.0);
    }
    const double x_sign = sign_of(x);
    const double y_sign = sign_of(y);
    const Order rows = order_of(places, x_sign, y_sign, true);
    const Order columns = order_of(places, x_sign, y_sign, false);
    const Order& order = columns.backs < rows.backs ? columns : rows;
    for (const std::size_t place : order.places) {
        const HolePlace& at = places[place];
        PlaceToGo to;
        to.hole = static_cast<int>(place) + 1;
        to.x_mm = at.x_mm;
        to.y_mm = at.y_mm;
        if (!out.places.empty()) {
            to.back_x = x_sign * (at.x_mm - out.places.back().x_mm) < -kSamePlace;
            to.back_y = y_sign * (at.y_mm - out.places.back().y_mm) < -kSamePlace;
        }
        if (x != nullptr) {
            Read read = read_of(*x, at.x_mm, asking.inch);
            if (!given(x->readout_mm)) {
                to.x_turns = read.turns;
                to.x_line = read.line;
            }
            to.x_reading = std::move(read.text);
            read = read_of(*y, at.y_mm, asking.inch);
            if (!given(y->readout_mm)) {
                to.y_turns = read.turns;
                to.y_line = read.line;
            }
            to.y_reading = std::move(read.text);
        }
        out.places.push_back(std::move(to));
    }
    if (x != nullptr) {
        out.within_mm = given(x->readout_mm) && given(y->readout_mm) ? kByReadoutMm : kByDialMm;
        out.evidence.push_back(rests_on("within_mm", rule::layout_within, asking.catalogue));
        out.approach = fmt::format("{}X, {}Y", x_sign > 0.0 ? "+" : "−", y_sign > 0.0 ? "+" : "−");
        check_travel(places, x, &HolePlace::x_mm, asking.inch, out);
        check_travel(places, y, &HolePlace::y_mm, asking.inch, out);
    }
    if (given(asked.edge_finder_mm)) {
        out.edge_mm = asked.edge_finder_mm / 2.0;
        if (x != nullptr) {
            out.edge_reading = read_of(*x, out.edge_mm, asking.inch).text;
        }
    }
    out.evidence.push_back(rests_on("places", rule::layout_places, asking.catalogue));
    say(out);
    return out;
}

Division divide(const DivideAsk& asked, const Asking& asking) {
    const bool by_angle = given(asked.part.angle_deg);
    const int divisions = asked.part.divisions;
    const machine::Machine* const machine = asked.machine;
    const bool has_head = machine != nullptr && machine->dividing_ratio > 0;
    Division out;
    out.unit = unit_name(asking.inch);
    out.ratio = asked.ratio > 0 ? asked.ratio : has_head ? machine->dividing_ratio : 0;
    out.plates = !asked.plates.empty() ? asked.plates : has_head ? machine->dividing_plates : "";
    const IndexPlateRow& usual = asking.catalogue.index_plates.back();
    if (out.ratio == 0) {
        out.ratio = usual.ratio;
        out.assumed.push_back(fmt::format("ratio {} : 1", out.ratio));
    }
    if (out.plates.empty()) {
        out.plates = usual.circles;
        out.assumed.push_back(fmt::format("{}: {}", usual.name, usual.circles));
        out.evidence.push_back(
            as_tabulated("plates", row_ref(asking.catalogue.index_plates, usual), asking.catalogue));
    }
    const std::vector<std::vector<int>> plates = machine::index_plates("plates", out.plates);
    if (!by_angle) {
        out.divisions = divisions;
    }
    out.angle_deg = by_angle ? asked.part.angle_deg : kWholeTurn / divisions;
    out.crank_turns =
        by_angle ? asked.part.angle_deg * out.ratio / kWholeTurn : static_cast<double>(out.ratio) / divisions;
    std::vector<machine::IndexMove> found;
    if (by_angle) {
        found = machine::nearest_moves(out.crank_turns, plates);
        const auto inexact = std::find_if(found.begin(), found.end(), [](const machine::IndexMove& each) {
            return each.error_turn != 0.0;
        });
        out.exact = inexact != found.begin();
        if (out.exact) {
            found.erase(inexact, found.end());
        }
    } else {
        found = machine::index_moves(out.ratio, divisions, plates);
        out.exact = !found.empty();
        if (!out.exact) {
            found = machine::nearest_moves(out.crank_turns, plates);
        }
    }
    out.move = move_of(found.front(), out.ratio);
    if (out.exact) {
        found.erase(found.begin());
        with_moves(out.also, found, out.ratio);
    } else {
        with_moves(out.two_circles, machine::two_circle_moves(out.crank_turns, plates, kTwoCircleTurn),
                   out.ratio);
        if (!by_angle) {
            count_from_start(out, largest_circle(plates));
        }
        out.told.push_back({"divide_inexact", 0.0, {}});
    }
    const int direct = asked.direct > 0 ? asked.direct : has_head ? machine->direct_holes : 0;
    if (direct > 0) {
        const double step = direct * out.angle_deg / kWholeTurn;
        if (std::abs(step - std::nearbyint(step)) < kCountable) {
            out.direct_holes = direct;
            out.direct_step = bounds::nearest(step, 1);
        }
    }
    if (given(asked.diameter_mm)) {
        out.error_mm = error_at_rim(out, asked.diameter_mm);
    }
    out.evidence.push_back(rests_on("move", rule::dividing, asking.catalogue));
    say(out);
    return out;
}

Polygon polygon(const PolygonAsk& asked, const Asking& asking) {
    const double n = asked.flats;
    const double cosine = cosine_deg(180.0 / n);
    if (given(asked.across_flats_mm) && given(asked.across_corners_mm)) {
        refuse("across_flats and across_corners say the same: give one");
    }
    const bool corners = asked.flats > 2;
    if (!corners && given(asked.across_corners_mm)) {
        refuse("two flats have no corners: give across_flats and bar");
    }
    Polygon out;
    out.flats = asked.flats;
    out.unit = unit_name(asking.inch);
    if (given(asked.across_flats_mm)) {
        out.across_flats_mm = asked.across_flats_mm;
    } else if (given(asked.across_corners_mm)) {
        out.across_flats_mm = asked.across_corners_mm * cosine;
    } else if (given(asked.bar_mm) && corners) {
        out.across_flats_mm = asked.bar_mm * cosine;
    } else {
        refuse(corners ? "polygon needs across_flats, across_corners or bar"
                       : "two flats need across_flats and bar");
    }
    if (corners) {
        out.across_corners_mm = out.across_flats_mm / cosine;
    }
    out.bar_mm = given(asked.bar_mm) ? asked.bar_mm : out.across_corners_mm;
    if (!given(out.bar_mm)) {
        refuse("two flats need across_flats and bar");
    }
    if (out.across_flats_mm >= out.bar_mm) {
        refuse(fmt::format("across_flats must be below bar, {}, got {}", size_text(out.bar_mm, asking.inch),
                           size_text(out.across_flats_mm, asking.inch)));
    }
    const double a = out.across_flats_mm;
    const double b = out.bar_mm;
    out.depth_mm = (b - a) / 2.0;
    const double chord = std::sqrt((b - a) * (b + a));
    out.flat_mm = corners ? std::min(chord, a * tangent_deg(180.0 / n)) : chord;
    out.over_first_mm = (a + b) / 2.0;
    const bool even = asked.flats % 2 == 0;
    out.measure_mm = even ? a : (a + std::min(b, out.across_corners_mm)) / 2.0;
    out.measured = even ? "across the flats" : "from a flat to the corner opposite";
    if (corners && b < out.across_corners_mm * (1.0 - kCountable)) {
        out.told.push_back(
            {"corners_round", 0.0, {{"corners", size_text(out.across_corners_mm, asking.inch)}}});
    }
    const machine::Slide* const z =
        asked.machine == nullptr ? nullptr : machine::find_slide(*asked.machine, "z");
    if (z != nullptr) {
        out.depth_reading = read_of(*z, out.depth_mm, asking.inch).text;
    }
    DivideAsk head;
    head.part.divisions = asked.flats;
    head.machine = asked.machine;
    out.division = divide(head, asking);
    out.evidence.push_back(rests_on("across_corners_mm", rule::polygon, asking.catalogue));
    say(out);
    return out;
}

SineBar sine_bar(const SineBarAsk& asked, const Asking& asking) {
    const bool by_stack = given(asked.angle.stack_mm);
    const bool inch = asking.inch;
    SineBar out;
    out.unit = unit_name(inch);
    out.bar_mm = asked.bar_mm;
    if (!given(out.bar_mm)) {
        out.bar_mm = inch ? 5.0 * kInchMm : 100.0;
        out.assumed.push_back(fmt::format("a bar of {}", size_text(out.bar_mm, inch)));
    }
    if (by_stack && asked.angle.stack_mm >= out.bar_mm) {
        refuse(fmt::format("stack must be below bar, {}, got {}", size_text(out.bar_mm, inch),
                           size_text(asked.angle.stack_mm, inch)));
    }
    out.angle_deg = by_stack ? angle_of_sine(asked.angle.stack_mm / out.bar_mm) : asked.angle.angle_deg;
    out.stack_mm = by_stack ? asked.angle.stack_mm : out.bar_mm * sine_deg(asked.angle.angle_deg);
    const double place = inch ? 1e-4 * kInchMm : 1e-3;
    out.set_mm = std::nearbyint(out.stack_mm / place) * place;
    out.set_deg = out.set_mm < out.bar_mm ? angle_of_sine(out.set_mm / out.bar_mm) : 90.0;
    out.error_deg = out.set_deg - out.angle_deg;
    out.error_each_deg = place / (out.bar_mm * cosine_deg(out.angle_deg)) * 180.0 / std::numbers::pi;
    out.blocks_mm = blocks_for(asking.catalogue, out.set_mm, inch);
    if (out.angle_deg > kSteepDeg) {
        out.told.push_back({"sine_steep", 0.0, {}});
    }
    out.evidence.push_back(rests_on("stack_mm", rule::sine_bar, asking.catalogue));
    if (out.blocks_mm.empty()) {
        out.told.push_back({"sine_low", 0.0, {}});
    } else {
        for (const GaugeBlockRow& row : asking.catalogue.gauge_blocks) {
            if (row.unit == unit_name(inch)) {
                out.evidence.push_back(
                    as_tabulated("blocks_mm", row_ref(asking.catalogue.gauge_blocks, row), asking.catalogue));
                break;
            }
        }
    }
    say(out);
    return out;
}

// ---- the questions ----------------------------------------------------------------------------------------

namespace {

template <class Asked, class Answered, Answered (*Evaluate)(const Asked&, const Asking&)>
constexpr Question layout_question(string_view name, string_view about, std::span<const AskedRow> rows,
                                   const RecordRow& record, string_view example) {
    Question out = question<Asked, Answered, Evaluate>("cutting", name, about, rows, record);
    out.sources = "Plane geometry and the practice of setting out, as the rules of the evidence state them.";
    out.example = example;
    return out;
}

}  // namespace

constinit const Question kPositions = layout_question<PositionsAsk, Positions, &positions>(
    "positions",
    "Places of holes from a zero: bolt circle, row, grid or list, in dial turns and lines or readout "
    "figures.",
    kPositionsAsked, kPositionsRecord,
    "positions circle --holes 6 --diameter 4in --x 3in --y 3in --machine bench-mill\n"
    "positions grid --holes 4 --step 20mm --rows 2 --row-step 30mm\n"
    "positions list --at \"0.5in, 0.5in\" --at \"2.25in, 0.75in\" --machine bench-mill");

constinit const Question kDivide = layout_question<DivideAsk, Division, &divide>(
    "divide", "Turns and holes of a dividing head for a number of divisions or an angle.", kDivideAsked,
    kDivisionRecord, "divide 28\ndivide 13.5deg --plates \"18 54\" --ratio 40\ndivide 51 --diameter 3in");

constinit const Question kPolygon = layout_question<PolygonAsk, Polygon, &polygon>(
    "polygon", "Flats on a round: depth of each, what to measure, and how to divide.", kPolygonAsked,
    kPolygonRecord, "polygon 6 --across-flats 3/4in --bar 7/8in --machine bench-mill\npolygon 4 --bar 20mm");

constinit const Question kSineBar = layout_question<SineBarAsk, SineBar, &sine_bar>(
    "sine_bar", "The stack under a sine bar for an angle, its gauge blocks and its error.", kSineBarAsked,
    kSineBarRecord, "sine-bar 27 --bar 5in\nsine-bar 25mm --bar 100mm");

}  // namespace halfnut::cutting
