#include "halfnut/threads/coating_questions.hpp"

#include <gtest/gtest.h>

#include "halfnut/core/builtin.hpp"

namespace halfnut::threads {
namespace {

CylindricalFit fit(const char* text, const BuildUp& on_shaft = {}) {
    CylindricalFitAsk asked;
    asked.text = text;
    asked.shaft_build_up = on_shaft;
    return cylindrical_fit(asked, Asking{builtin()});
}

TEST(CylindricalFitQuestion, NamesPartsAndHowTheyMeet) {
    const CylindricalFit found = fit("25 H7/g6");
    ASSERT_TRUE(found.hole && found.shaft);
    EXPECT_DOUBLE_EQ(found.hole->max_mm, 25.021);  // ISO 286: H7 +21/0, g6 -7/-20 um over 18 to 30 mm
    EXPECT_DOUBLE_EQ(found.shaft->max_mm, 24.993);
    EXPECT_EQ(found.character, fits::FitCharacter::clearance);
    EXPECT_FALSE(fit("25 g6").hole);
}

TEST(CylindricalFitQuestion, LeavesRoomForTheCoating) {
    const CylindricalFit found = fit("12 H7/g6", build_up_between(5.0, 5.0));
    EXPECT_DOUBLE_EQ(found.shaft_cut_max_mm, found.shaft->max_mm - 0.010);
    EXPECT_TRUE(std::isnan(fit("12 H7/g6", build_up_between(0.0, 8.0)).shaft_cut_max_mm));
}

TEST(CoatingQuestion, RefusesWhatDoesNotTakeIt) {
    const Asking asking{builtin()};
    EXPECT_DOUBLE_EQ(coating({.text = "hard anodise 0.002 in", .on = "6061-T6"}, asking).build_up_max_um,
                     25.4);
    EXPECT_THROW((void)coating({.text = "anodise II", .on = "C36000"}, asking), DomainError);
    EXPECT_THROW((void)coating({.text = "8 um", .on = ""}, asking), NotTabulatedError);
}

}  // namespace
}  // namespace halfnut::threads
