#pragma once
/// Setting out at the mill: places of holes, divisions of a turn, flats, the stack of a sine bar.

#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/machine/machine.hpp"

namespace halfnut::cutting {

HALFNUT_ENUM(HolePattern, circle, row, grid, list)

/// A coordinate: a length that may be below zero.
struct Coordinate {
    double mm = 0.0;
};
void take(Coordinate& to, const Given& given, const AskedRow& row, Asking& asking);

struct HolePlace {
    double x_mm = 0.0;
    double y_mm = 0.0;
};
void take(std::vector<HolePlace>& to, const Given& given, const AskedRow& row, Asking& asking);

struct PositionsAsk {
    HolePattern pattern{};
    int holes = 0;  ///< of a circle, or of a row
    int rows = 0;
    double diameter_mm = kNaN;
    double step_mm = kNaN;
    double row_step_mm = kNaN;
    double angle_deg = 0.0;
    double over_deg = 360.0;
    bool clockwise = false;
    Coordinate x{};
    Coordinate y{};
    std::vector<HolePlace> at{};
    double edge_finder_mm = kNaN;
    const machine::Machine* machine = nullptr;
};

/// A place to go to.
struct PlaceToGo {
    int hole = 0;  ///< as the pattern counts
    double x_mm = 0.0;
    double y_mm = 0.0;
    bool back_x = false;  ///< go back past it first, so that the last of the way is with the approach
    bool back_y = false;
    std::optional<int> x_turns;
    std::optional<int> x_line;
    std::optional<int> y_turns;
    std::optional<int> y_line;
    std::optional<std::string> x_reading;  ///< of the dial or the readout
    std::optional<std::string> y_reading;
};

/// Places of holes from a zero, in the order in which they are gone to.
struct Positions {
    std::string pattern;
    std::string unit = "mm";
    int holes = 0;
    std::vector<PlaceToGo> places;
    double chord_mm = kNaN;  ///< between neighbours on a circle
    int check_from = 0;
    int check_to = 0;
    double check_mm = kNaN;  ///< between the two that are farthest apart
    double edge_mm = kNaN;
    std::optional<std::string> edge_reading;
    double within_mm = kNaN;
    std::optional<std::string> approach;
    // as it is said
    std::string said;
    std::optional<std::string> zero_said;
    std::vector<std::pair<std::string, std::string>> places_said;
    std::optional<std::string> check_said;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kPositions;

/// Places of holes by rows, grids, bolt circles or a list, from a stated zero, with dial or readout.
///
/// Errors
///   DomainError  what a pattern needs is lacking, or what it does not have is given
/// Example
///   circle of 6 holes, 4 in: the first at 2.0000, 0.0000
[[nodiscard]] Positions positions(const PositionsAsk& asked, const Asking& asking);

/// A part of a turn: how many make one, or its angle.
struct TurnPart {
    int divisions = 0;
    double angle_deg = kNaN;
};
void take(TurnPart& to, const Given& given, const AskedRow& row, Asking& asking);

struct DivideAsk {
    TurnPart part{};
    int ratio = 0;
    std::string plates;
    int direct = 0;
    double diameter_mm = kNaN;
    const machine::Machine* machine = nullptr;
};

/// Turns of the crank and holes of one circle, or of two of a plate.
struct DivideMove {
    int turns = 0;
    int holes = 0;
    int circle = 0;
    int other_holes = 0;
    int other_circle = 0;
    double error_deg = 0.0;  ///< of the work
};

/// One of the divisions, counted from the start.
struct DivideStep {
    int division = 0;
    int turns = 0;
    int holes = 0;
    double error_deg = 0.0;
};

/// A part of a turn by the dividing head.
struct Division {
    std::optional<int> divisions;
    double angle_deg = kNaN;
    std::string unit = "mm";
    int ratio = 0;
    std::string plates;
    double crank_turns = kNaN;
    bool exact = false;
    DivideMove move;  ///< exact on the largest circle; else the nearest
    std::vector<DivideMove> also;
    std::vector<DivideMove> two_circles;
    std::vector<DivideStep> steps;
    std::optional<int> direct_step;
    std::optional<int> direct_holes;
    double error_mm = kNaN;
    // as it is said
    std::string said;
    std::string move_said;
    std::optional<std::string> arms_said;
    std::string also_said;
    std::optional<std::string> direct_said;
    std::vector<std::string> two_said;
    std::vector<std::string> count_said;
    std::vector<std::string> assumed;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kDivide;

/// How a dividing head is turned for a division or an angle.
///
/// Errors
///   DomainError  fewer than two divisions, more than a turn, or plates that cannot be read
/// Example
///   6 divisions, 40 : 1: 6 turns and 12 holes of 18
[[nodiscard]] Division divide(const DivideAsk& asked, const Asking& asking);

struct PolygonAsk {
    int flats = 0;
    double across_flats_mm = kNaN;
    double across_corners_mm = kNaN;
    double bar_mm = kNaN;
    const machine::Machine* machine = nullptr;
};

/// Flats on a round.
struct Polygon {
    int flats = 0;
    std::string unit = "mm";
    double across_flats_mm = kNaN;
    double across_corners_mm = kNaN;
    double bar_mm = kNaN;
    double depth_mm = kNaN;
    std::optional<std::string> depth_reading;
    double flat_mm = kNaN;        ///< width of a flat as it comes
    double over_first_mm = kNaN;  ///< from the first flat to the round opposite
    double measure_mm = kNaN;
    std::string measured;
    std::optional<Division> division;
    std::optional<std::string> dividing;  ///< in words
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kPolygon;

/// Flats on a round: sizes, depth of each, what to measure, how to divide.
///
/// Errors
///   DomainError  no size, or two; a polygon that does not lie in the bar
/// Example
///   6 flats, 19 mm across: corners 21.939 mm
[[nodiscard]] Polygon polygon(const PolygonAsk& asked, const Asking& asking);

/// An angle, or the stack that makes it.
struct SineOf {
    double angle_deg = kNaN;
    double stack_mm = kNaN;
};
void take(SineOf& to, const Given& given, const AskedRow& row, Asking& asking);

struct SineBarAsk {
    SineOf angle{};
    double bar_mm = kNaN;
};

/// A sine bar on a stack.
struct SineBar {
    double angle_deg = kNaN;
    std::string unit = "mm";
    double bar_mm = kNaN;
    double stack_mm = kNaN;
    double set_mm = kNaN;  ///< to the last place of gauge blocks
    double set_deg = kNaN;
    double error_deg = kNaN;
    double error_each_deg = kNaN;  ///< of the last place of the stack
    std::vector<double> blocks_mm;
    std::string said;
    std::string error_said;
    std::vector<std::string> assumed;
    std::vector<Told> told;
    std::vector<EvidenceText> evidence;
};
extern const Question kSineBar;

/// The stack under a sine bar for an angle, or the angle of a stack.
///
/// Errors
///   DomainError  an angle of more than 90 degrees, or a stack as long as the bar
/// Example
///   27 degrees on 5 in: stack_mm = 57.657, 2.2700 in
[[nodiscard]] SineBar sine_bar(const SineBarAsk& asked, const Asking& asking);

}  // namespace halfnut::cutting
