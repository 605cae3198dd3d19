// Work that gives way: the beam against the closed forms beside it, the ring against the textbook's two
// forces, refusals that leave NaN. The comparison with other methods is in the Python tests.

#include "halfnut/cutting/rigidity.hpp"

#include <gtest/gtest.h>

#include "halfnut/cutting/deflection.hpp"

namespace halfnut::cutting {
namespace {

WorkBeam plain(Hold hold) {
    WorkBeam out;
    // four lengths of one section are one beam
    out.sections = {{50.0, 25.4, 10.0}, {100.0, 25.4, 10.0}, {100.0, 25.4, 10.0}, {50.0, 25.4, 10.0}};
    out.hold = hold;
    out.youngs_modulus_gpa = 70.0;
    return out;
}

TEST(Rigidity, OneSectionInPiecesMeetsTheClosedForms) {
    const double i = second_moment_mm4(25.4, 10.0);
    const std::array places{0.0, 50.0, 123.0, 150.0, 299.0, 300.0};
    std::array<double, 6> bend{};
    for (const Hold hold : {Hold::chuck, Hold::chuck_and_centre, Hold::between_centres}) {
        ASSERT_TRUE(evaluate(plain(hold), 100.0, places, bend).ok());
        for (std::size_t k = 0; k < places.size(); ++k) {
            const double want = hold == Hold::chuck ? cantilever_deflection_mm(100.0, places[k], 70.0, i)
                                : hold == Hold::chuck_and_centre
                                    ? chuck_centre_deflection_mm(100.0, places[k], 300.0, 70.0, i)
                                    : centres_deflection_mm(100.0, places[k], 300.0, 70.0, i);
            EXPECT_NEAR(bend[k], want, 1e-10 * want + 1e-15) << places[k];
        }
    }
}

TEST(Rigidity, ASupportThatGivesAddsItsOwnTravel) {
    WorkBeam beam = plain(Hold::between_centres);
    const std::array middle{150.0};
    std::array<double, 1> stiff{};
    std::array<double, 1> soft{};
    ASSERT_TRUE(evaluate(beam, 100.0, middle, stiff).ok());
    beam.centre_n_um = 20.0;
    ASSERT_TRUE(evaluate(beam, 100.0, middle, soft).ok());
    EXPECT_NEAR(soft[0] - stiff[0], 50.0 / 20000.0, 1e-9);  // half the force on each centre
}

TEST(Rigidity, RefusalsLeaveNothingButNaN) {
    std::string why;
    const std::array places{10.0};
    std::array bend{7.0};
    WorkBeam beam = plain(Hold::chuck);
    beam.sections[2].bore_mm = 26.0;
    EXPECT_EQ(evaluate(beam, 100.0, places, bend, &why).code, StatusCode::inconsistent);
    EXPECT_TRUE(std::isnan(bend[0]));
    EXPECT_EQ(why, "section 3: bore_mm 26 must be below diameter_mm 25.4");
    beam = plain(Hold::chuck);
    EXPECT_EQ(evaluate(beam, std::numeric_limits<double>::quiet_NaN(), places, bend).code,
              StatusCode::not_finite);
    EXPECT_EQ(evaluate(beam, 1.0, std::array{301.0}, bend).code, StatusCode::out_of_range);
    beam.chuck_n_um = 0.0;
    EXPECT_EQ(evaluate(beam, 1.0, places, bend).code, StatusCode::out_of_range);
}

TEST(Rigidity, HeaderExamples) {
    EXPECT_NEAR(ring_out_of_round_mm(1000.0, 3.0, 60.0, 3.0, 20.0, 70.0), 0.2588, 5e-5);
    EXPECT_NEAR(jaw_force_needed_n(800.0, 40.0, 50.0, 3.0, 0.15, 2.5), 3556.0, 0.5);
    EXPECT_NEAR(jaw_force_at_speed_n(5000.0, 0.8, 60.0, 1500.0), 3816.0, 0.5);
    EXPECT_EQ(jaw_force_at_speed_n(5000.0, 0.8, 60.0, 6000.0), 0.0);
    EXPECT_NEAR(size_at_20_mm(50.0, 60.0, 23.6e-6), 49.9528, 5e-5);
    EXPECT_THROW((void)ring_out_of_round_mm(1.0, 2.5, 60.0, 3.0, 20.0, 70.0), DomainError);
}

}  // namespace
}  // namespace halfnut::cutting
