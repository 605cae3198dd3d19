#include "halfnut/material/alloy.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <set>
#include <string>

#include "halfnut/core/builtin.hpp"
#include "halfnut/cutting/tables.hpp"
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
    EXPECT_EQ(builtin().alloys.size(), 123U);
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
        EXPECT_TRUE(alias.alloy.empty() || ids.count(alias.alloy) == 1) << alias.alias;
        if (alias.alloy.empty()) {
            EXPECT_TRUE(match_alloy(builtin(), alias.alias).candidates.empty()) << alias.alias;
        }
    }
}

TEST(Alloy, ANameThatIsKnownButNotHeldSaysSoWithoutAGuess) {
    std::size_t known = 0;
    for (const AliasRow& alias : builtin().aliases) {
        if (!alias.alloy.empty()) {
            continue;
        }
        ++known;
        try {
            (void)find_alloy(builtin(), alias.alias);
            ADD_FAILURE() << alias.alias;
        } catch (const NotTabulatedError& error) {
            EXPECT_NE(std::string(error.what()).find("known but not held"), std::string::npos)
                << error.what();
        }
    }
    EXPECT_EQ(known, 79U);
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
    for (const std::string_view name :
         {"EN16",     "LM4",           "6005",      "6351",      "5160",      "6150", "1050", "4310",
          "1.4310",   "1.4410",        "C12200",    "C71500",    "M42",       "D3",   "O2",   "7005",
          "P91",      "nickel silver", "tungsten",  "zirconium", "tin",       "lead", "gold", "silver",
          "platinum", "cobalt",        "steal bar", "hard wood", "red brass", "bad",  "alu"}) {
        try {
            (void)find_alloy(builtin(), name);
            ADD_FAILURE() << name;
        } catch (const NotTabulatedError& error) {
            EXPECT_EQ(std::string(error.what()).find("did you mean"), std::string::npos) << error.what();
        }
    }
}

TEST(FindAlloy, WhatAShopMeetsWeeklyIsHeldByItsShortName) {
    for (const auto& [name, id] : {std::pair{"A36", "K02600"},        std::pair{"EN8", "G10400"},
                                   std::pair{"EN3B", "G10200"},       std::pair{"EN1A", "G12150"},
                                   std::pair{"DOM", "G10260"},        std::pair{"1144", "G11440"},
                                   std::pair{"6063", "A96063"},       std::pair{"2011", "A92011"},
                                   std::pair{"7050", "A97050"},       std::pair{"H13", "T20813"},
                                   std::pair{"1.2344", "T20813"},     std::pair{"S7", "T41907"},
                                   std::pair{"P20", "T51620"},        std::pair{"W1", "T72301"},
                                   std::pair{"M2", "T11302"},         std::pair{"52100", "G52986"},
                                   std::pair{"100Cr6", "G52986"},     std::pair{"410", "S41000"},
                                   std::pair{"2205", "S32205"},       std::pair{"1.4462", "S32205"},
                                   std::pair{"15-5", "S15500-H1025"}, std::pair{"655", "C65500"},
                                   std::pair{"544", "C54400"},        std::pair{"LM25", "A13560"},
                                   std::pair{"ABS", "ABS"},           std::pair{"polycarbonate", "PC"},
                                   std::pair{"phenolic", "PHENOLIC"}, std::pair{"zinc", "Z33520"},
                                   std::pair{"carbon fibre", "CFRP"}, std::pair{"F33100", "F33100"},
                                   std::pair{"65-45-12", "F33100"},   std::pair{"80-55-06", "F33800"},
                                   std::pair{"class 30", "F12101"}}) {
        EXPECT_EQ(find_alloy(builtin(), name).id, id) << name;
    }
}

TEST(Speeds, EveryRowIsThatOfSomeAlloy) {
    std::size_t rows = 0;
    for (const cutting::SpeedRow& row : builtin().speeds) {
        ++rows;
        EXPECT_TRUE(std::any_of(builtin().alloys.begin(), builtin().alloys.end(), [&](const AlloyRow& alloy) {
            std::string_view keys = row.key;
            while (!keys.empty()) {
                const std::size_t end = std::min(keys.find(' '), keys.size());
                if (kinship(builtin(), alloy, keys.substr(0, end)) >= 0) {
                    return true;
                }
                keys.remove_prefix(std::min(end + 1, keys.size()));
            }
            return false;
        })) << row.key;
    }
    EXPECT_GE(rows, 1000U);
}

TEST(CuttingFluids, EveryAlloyHasOneWordAnOperation) {
    for (const AlloyRow& alloy : builtin().alloys) {
        const CuttingFluidRow* const fluids = cutting_fluids(builtin(), alloy);
        ASSERT_NE(fluids, nullptr) << alloy.id;
        for (const std::string_view word :
             {fluids->turning, fluids->milling, fluids->drilling, fluids->reaming, fluids->tapping}) {
            EXPECT_EQ(word.find(' '), std::string_view::npos) << alloy.id;
            if (has_word(alloy.hazards, "magnesium_chips")) {
                EXPECT_EQ(word, "dry") << alloy.id << ": water on magnesium feeds a fire";
            }
        }
    }
    EXPECT_EQ(cutting_fluids(builtin(), find_alloy(builtin(), "C17200"))->key, "copper-beryllium");
    EXPECT_EQ(cutting_fluids(builtin(), find_alloy(builtin(), "1018"))->key, "steel");
    EXPECT_EQ(cutting_fluids(builtin(), find_alloy(builtin(), "ductile iron"))->key, "iron-ductile");
}

TEST(NearestName, IsASlipOfTheHandOrTheNameWrittenOut) {
    const std::array<std::string_view, 3> names{"diameter", "depth", "A2"};
    EXPECT_EQ(nearest_name("diametre", names), "diameter");
    EXPECT_EQ(nearest_name("dia", names), "diameter");
    EXPECT_EQ(nearest_name("alu", names), "");
    EXPECT_EQ(nearest_name("width", names), "");
}

}  // namespace halfnut::material
