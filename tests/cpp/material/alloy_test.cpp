#include "halfnut/material/alloy.hpp"

#include <gtest/gtest.h>

#include <array>
#include <set>
#include <string>

#include "halfnut/builtin.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::material {
namespace {

TEST(Alloy, FoundByAnyOfItsNames) {
    for (const auto& [name, id] :
         {std::pair{"A96061", "A96061"}, std::pair{"6061", "A96061"}, std::pair{"6061-T6", "A96061"},
          std::pair{"6061 t6", "A96061"}, std::pair{"EN AW-6061", "A96061"}, std::pair{"3.3211", "A96061"},
          std::pair{"AISI 1018", "G10180"}, std::pair{"4130 normalised", "G41300-N"},
          std::pair{"G41300-N", "G41300-N"}, std::pair{"brass", "C36000"}, std::pair{"C360", "C36000"},
          std::pair{"Ti grade 2", "R50400"}, std::pair{"17-4PH H1025", "S17400-H1025"}}) {
        EXPECT_EQ(find_alloy(builtin(), name).id, id) << name;
    }
}

TEST(Alloy, OpenConditionIsRefusedWithTheChoice) {
    const AlloyMatch match = match_alloy(builtin(), "4130");
    EXPECT_EQ(match.alloy, nullptr);
    EXPECT_EQ(match.candidates.size(), 3U);
    try {
        (void)find_alloy(builtin(), "4130");
        FAIL() << "a choice was made for the person";
    } catch (const NotTabulatedError& error) {
        EXPECT_NE(std::string(error.what()).find("'4130 normalised'"), std::string::npos) << error.what();
    }
}

TEST(Alloy, UnknownNameOffersTheNearest) {
    try {
        (void)find_alloy(builtin(), "3l6");
        FAIL();
    } catch (const NotTabulatedError& error) {
        EXPECT_STREQ(error.what(), "no alloy '3l6'; did you mean '316'?");
    }
    EXPECT_THROW((void)find_alloy(builtin(), ""), NotTabulatedError);
}

TEST(Alloy, TablesAgreeWithEachOther) {
    EXPECT_GE(builtin().alloys.size(), 58U);
    for (const AlloyRow& alloy : builtin().alloys) {
        EXPECT_NE(find_group(builtin(), alloy.group), nullptr) << alloy.id;
        EXPECT_EQ(std::isnan(alloy.kc11_n_mm2), std::isnan(alloy.mc)) << alloy.id;
        EXPECT_EQ(kinship(builtin(), alloy, "any") > 0, true) << alloy.id;
        EXPECT_FALSE(std::isnan(alloy.kc11_n_mm2) && std::isnan(alloy.unit_power_hp_in3_min) &&
                     std::isnan(alloy.tensile_mpa))
            << alloy.id << " has nothing to compute a force from";
    }
    for (const GroupRow& group : builtin().groups) {
        EXPECT_EQ(group.parent.empty(), group.group == "any") << group.group;
        EXPECT_TRUE(group.parent.empty() || find_group(builtin(), group.parent) != nullptr) << group.group;
    }
    std::set<std::string_view> ids;
    for (const AlloyRow& alloy : builtin().alloys) {
        ids.insert(alloy.id);
    }
    for (const AliasRow& alias : builtin().aliases) {
        EXPECT_EQ(ids.count(alias.alloy), 1U) << alias.alias;
    }
}

TEST(Alloy, KinshipCountsStepsUp) {
    const AlloyRow& alloy = find_alloy(builtin(), "12L14");
    EXPECT_EQ(kinship(builtin(), alloy, "G12144"), 0);
    EXPECT_EQ(kinship(builtin(), alloy, "steel-leaded-12"), 1);
    EXPECT_EQ(kinship(builtin(), alloy, "steel-low-carbon"), 4);
    EXPECT_EQ(kinship(builtin(), alloy, "brass"), -1);
}

}  // namespace
TEST(FindAlloy, AnotherNumberIsAnotherMetalAndNoSlip) {
    for (const std::string_view name : {"A36", "EN8", "H13", "LM25", "1144", "6063", "bad", "alu"}) {
        try {
            (void)find_alloy(builtin(), name);
            ADD_FAILURE() << name;
        } catch (const NotTabulatedError& error) {
            EXPECT_EQ(std::string(error.what()).find("did you mean"), std::string::npos) << error.what();
        }
    }
}

TEST(NearestName, IsASlipOfTheHandOrTheNameWrittenOut) {
    const std::array<std::string_view, 3> names{"diameter", "depth", "A2"};
    EXPECT_EQ(nearest_name("diametre", names), "diameter");
    EXPECT_EQ(nearest_name("dia", names), "diameter");
    EXPECT_EQ(nearest_name("alu", names), "");
    EXPECT_EQ(nearest_name("width", names), "");
}

}  // namespace halfnut::material
