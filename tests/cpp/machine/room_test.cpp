#include "halfnut/machine/room.hpp"

#include <gtest/gtest.h>

namespace halfnut::machine {
namespace {

Machine lathe() {
    Machine out;
    out.name = "test lathe";
    out.swing_over_bed_mm = 300.0;
    out.swing_over_cross_slide_mm = 180.0;
    out.swing_in_gap_mm = 420.0;
    out.between_centres_mm = 700.0;
    out.spindle_bore_mm = 38.0;
    SpindleStep step;
    step.rpm = 500.0;
    out.spindle.push_back(step);
    Chuck chuck;
    chuck.name = "three-jaw";
    chuck.jaws = 3;
    chuck.diameter_mm = 160.0;
    chuck.through_mm = 35.0;
    chuck.opening_least_mm = 3.0;
    chuck.opening_greatest_mm = 150.0;
    out.chucks.push_back(chuck);
    return out;
}

TEST(Room, EachSizeRefusesWhatIsOverItAndTakesWhatMeetsIt) {
    struct Case {
        Placed placed;
        Obstacle what;
        double bound;
    };
    const double kExactly = 180.0 + 1e-10;  // in another unit
    for (const Case& at : {Case{{.swings_mm = 421.0}, Obstacle::over_bed, 420.0},
                           Case{{.swings_mm = 400.0}, Obstacle::none, kNaN},
                           Case{{.swings_mm = 200.0, .passes_mm = 200.0}, Obstacle::cross_slide, 180.0},
                           Case{{.swings_mm = 180.0, .passes_mm = kExactly}, Obstacle::none, kNaN},
                           Case{{.between_mm = 701.0}, Obstacle::between_centres, 700.0},
                           Case{{.through_mm = 38.5}, Obstacle::spindle_bore, 38.0},
                           Case{{.through_mm = 36.0, .chuck = 0}, Obstacle::spindle_bore, 35.0},
                           Case{{.gripped_mm = 160.0, .chuck = 0}, Obstacle::jaws_open, 150.0},
                           Case{{.gripped_mm = 2.0, .chuck = 0}, Obstacle::jaws_closed, 3.0},
                           Case{{.gripped_mm = 160.0, .chuck = -1}, Obstacle::none, kNaN}}) {
        const Refusal found = refusal(lathe(), at.placed);
        EXPECT_EQ(found.what, at.what) << at.bound;
        if (at.what != Obstacle::none) {
            EXPECT_EQ(found.bound, at.bound);
            EXPECT_FALSE(obstacle_sentence(found.what).empty());
        }
    }
}

TEST(Room, ASizeThatIsNotGivenRefusesNothing) {
    const Machine silent;
    EXPECT_EQ(refusal(silent, {.swings_mm = 9000.0, .passes_mm = 9000.0, .between_mm = 9e4}).what,
              Obstacle::none);
}

TEST(Room, TheSwingIsTwiceTheCentreHeightWhereItIsNotGiven) {
    Machine machine;
    machine.centre_height_mm = 140.0;
    EXPECT_EQ(swing_mm(machine), 280.0);
    machine.swing_over_bed_mm = 275.0;
    EXPECT_EQ(swing_mm(machine), 275.0);
}

TEST(Room, TheTextHasBothFiguresAndACure) {
    const Machine machine = lathe();
    Placed placed;
    placed.gripped_mm = 160.0;
    placed.chuck = 0;
    const std::string jaws = refusal_text(machine, refusal(machine, placed), 0);
    for (const char* part : {"160 mm", "6.299 in", "three-jaw", "150 mm", "faceplate"}) {
        EXPECT_NE(jaws.find(part), std::string::npos) << part << " in: " << jaws;
    }
}

TEST(MachineProblems, SwingsOpeningsAndWeightsThatCannotBe) {
    Machine machine = lathe();
    machine.swing_over_cross_slide_mm = 310.0;
    machine.swing_in_gap_mm = 290.0;
    machine.chucks[0].opening_least_mm = 151.0;
    machine.chucks[0].jaw_mass_kg = -1.0;
    std::size_t found = 0;
    for (const Problem& problem : problems(machine)) {
        for (const char* where :
             {"swing_over_cross_slide", "swing_in_gap", "chuck[0].opening_least", "chuck[0].jaw_mass"}) {
            found += problem.where == where && !problem.odd ? 1U : 0U;
        }
    }
    EXPECT_EQ(found, 4U);
}

}  // namespace
}  // namespace halfnut::machine
