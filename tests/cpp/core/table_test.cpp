#include "halfnut/core/table.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "halfnut/core/builtin.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/core/overlay.hpp"
#include "halfnut/core/table_info.hpp"
#include "halfnut/core/tables.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut {
namespace {

const TableInfo& drills() {
    return *find_table("quantity/drills");
}

constexpr const char* kDrills =
    "# table: drills\n"
    "# S1: memory | somewhere\n"
    "name,diameter_in,source,note\n"
    "A,.234,S1,\"a, \"\"quoted\"\" cell; with a semicolon\"\n"
    "B,.238,S1,\n";

std::string error_of(std::string text, std::string_view from, std::string_view to) {
    text.replace(text.find(from), from.size(), to);
    try {
        static_cast<void>(read_rows(drills(), parse_table(text, "drills.csv"), 0));
    } catch (const TableError& error) {
        return error.what();
    }
    return "no error";
}

TEST(ParseTable, QuotedCells) {
    const ParsedTable table = parse_table(kDrills, "drills.csv");
    ASSERT_EQ(table.rows.size(), 2U);
    EXPECT_EQ(table.rows[0].cells[3], "a, \"quoted\" cell; with a semicolon");
    const RowBuffer read = read_rows(drills(), table, 7);
    const Rows<DrillRow> rows = read.as<DrillRow>();
    EXPECT_EQ(rows[0].diameter_in, 0.234);
    EXPECT_EQ(rows[1].source, SourceId{7});
}

TEST(ParseTable, ABadCellNamesFileAndLine) {
    EXPECT_EQ(error_of(kDrills, ".238", "wide"), "drills.csv:5: diameter_in must be a number, got 'wide'");
    EXPECT_EQ(error_of(kDrills, ".238", ""), "drills.csv:5: diameter_in must be a value, got ''");
    EXPECT_EQ(error_of(kDrills, ".238,S1", ".238,S2"),
              "drills.csv:5: source 'S2' is not declared; declare it as '# S2: kind | citation'");
    EXPECT_EQ(error_of(kDrills, "memory |", "rumour |").substr(0, 13), "drills.csv:2:");
    EXPECT_EQ(error_of(kDrills, "B,.238,S1,", "B,.238,S1"),
              "drills.csv:5: 3 cells, but the header has 4 columns");
    EXPECT_EQ(error_of(kDrills, "B,", "A,").substr(0, 36), "drills.csv:5: rows must be sorted an");
    EXPECT_EQ(error_of(kDrills, "diameter_in", "diametre_in"), "drills.csv:1: no column 'diameter_in'");
    EXPECT_EQ(error_of(kDrills, "note", "notes"),
              "drills.csv:1: unknown column 'notes'; did you mean 'note'?");
    EXPECT_EQ(error_of(kDrills, "\"a,", "\"a\","),
              "drills.csv:4: a quote inside the cell  \"\"quoted\"\" cell; with a semicolon\"; quote the "
              "whole cell and double "
              "the quote");
}

TEST(Builtin, IsConstexprAndEveryRowNamesASource) {
    const std::size_t kDrillCount = builtin().drills.size();
    EXPECT_EQ(kDrillCount, 97U + 26U);
    for (const DrillRow& drill : builtin().drills) {
        EXPECT_LT(drill.source.index, builtin().sources.size());
    }
    for (const RuleRow& rule : builtin().rules) {
        EXPECT_FALSE(rule.statement.empty());
        EXPECT_LT(rule.source.index, builtin().sources.size());
    }
}

/// A cell as text; a source not at all, for its place depends on what was read before.
struct AnyCell {
    std::string operator()(double cell) const { return std::isnan(cell) ? "" : std::to_string(cell); }
    std::string operator()(int cell) const { return std::to_string(cell); }
    std::string operator()(std::string_view cell) const { return std::string(cell); }
    std::string operator()(const EnumSpelling& cell) const { return std::string(cell.name); }
    std::string operator()(SourceId cell) const { return cell == SourceId{} ? "" : "a source"; }
};

TEST(Builtin, EqualsItsFilesReadAtRunTime) {
    for (const TableInfo& info : table_infos()) {
        if (info.id == TableId::rules) {
            continue;  // of many files
        }
        const std::string name = std::string(info.name) + ".csv";
        std::ifstream file(std::string(HALFNUT_DATA_DIR) + "/" + name, std::ios::binary);
        const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
        const ParsedTable table = parse_table(text, name);
        const RowBuffer rows = read_rows(info, table, 0);
        ASSERT_EQ(rows.size(), info.size(builtin())) << name;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            for (const ColumnInfo& column : info.columns) {
                EXPECT_EQ(visit_cell(rows[i], column, AnyCell{}),
                          visit_cell(info.row(builtin(), i), column, AnyCell{}))
                    << name << " row " << i << " " << column.name;
            }
        }
    }
}

TEST(Overlay, ShopRowsReplaceAndJoinAndSaySo) {
    Overlay overlay(builtin());
    overlay.add("quantity/drills",
                "# table: ours\n# S1: handbook | reground\nname,diameter_in,source\nF,.2565,S1\nZZ,.5,S1\n",
                "ours.csv");
    const Catalogue& catalogue = overlay.catalogue();
    EXPECT_EQ(catalogue.drills.size(), builtin().drills.size() + 1);
    const auto find = [&](std::string_view name) {
        for (const DrillRow& drill : catalogue.drills) {
            if (drill.name == name) {
                return drill;
            }
        }
        return DrillRow{};
    };
    EXPECT_EQ(find("F").diameter_in, 0.2565);
    EXPECT_EQ(find("ZZ").diameter_in, 0.5);
    EXPECT_EQ(find("G").diameter_in, 0.261);
    EXPECT_EQ(catalogue.sources[find("F").source.index].kind, SourceKind::shop);
    EXPECT_THROW(overlay.add("quantity/drill", "# table: ours\na\n", "ours.csv"), NotTabulatedError);
}

TEST(Overlay, ABadRowIsRefusedWithEveryMistakeAndTheOthersStand) {
    Overlay overlay(builtin());
    const std::vector<std::size_t> lines{12, 20, 31};
    overlay.add("quantity/drills",
                "# table: ours\n# S1: shop | reground\nname,diameter_in,source,size_mm\n"
                "F,wide,S2,6\nZZ,.5,S1,\nYY,.5\n",
                "ours.toml", lines);
    const Catalogue& catalogue = overlay.catalogue();
    EXPECT_EQ(catalogue.drills.size(), builtin().drills.size());  // ZZ is new, F does not stand in
    ASSERT_EQ(catalogue.refused.size(), 2U);
    EXPECT_EQ(
        refusal(catalogue.refused[0]),
        "ours.toml:12: quantity/drills 'F' cannot be used: diameter_in must be a number, got 'wide'; source "
        "'S2' is not declared; declare it as '# S2: kind | citation'; unknown column 'size_mm'");
    EXPECT_EQ(refusal(catalogue.refused[1]),
              "ours.toml:31: quantity/drills 'YY' cannot be used: 2 cells, but the header has 4 columns");
    overlay.add("quantity/drills", "# table: ours\n# S1: shop | new\nname,diameter_in,source\nF,.25,S1\n",
                "more.csv");
    ASSERT_EQ(overlay.catalogue().refused.size(), 1U);
    EXPECT_EQ(overlay.catalogue().refused[0].names.front(), "YY");
}

// What an alloy's row leaves out is that of the alloy it is like; what it gives is the shop's.
TEST(Overlay, AnAlloyLikeAnother) {
    Overlay overlay(builtin());
    overlay.add("material/alloys",
                "# table: ours\n# S1: shop | label\nid,name,like,kc11_n_mm2,source\n"
                "LG2,gunmetal,bearing bronze,700,S1\nLG3,soft gunmetal,bearing brnz,,S1\n",
                "ours.csv");
    const Catalogue& catalogue = overlay.catalogue();
    const material::AlloyRow& own = material::find_alloy(catalogue, "gunmetal");
    const material::AlloyRow& base = material::find_alloy(catalogue, "C93200");
    EXPECT_EQ(own.kc11_n_mm2, 700.0);
    EXPECT_EQ(own.mc, base.mc);
    EXPECT_EQ(own.density_kg_m3, base.density_kg_m3);
    EXPECT_EQ(material::kinship(catalogue, own, base.id), 0);
    EXPECT_EQ(catalogue.sources[own.source.index].citation,
              "label; what the row leaves out is that of bearing bronze as cast");
    EXPECT_EQ(catalogue.sources[own.kc_source.index].citation, "label");
    EXPECT_EQ(own.thermal_source, base.thermal_source);
    EXPECT_THROW((void)material::find_alloy(catalogue, "soft gunmetal"), TableError);
    EXPECT_EQ(material::match_alloy(catalogue, "LG3").alloy, nullptr);
}

// The table compiler is the same parser behind a main(): it must stop with file and line.
TEST(CompileTables, StopsAtABadCell) {
    namespace fs = std::filesystem;
    const fs::path directory = fs::path(testing::TempDir()) / "halfnut_bad_table";
    fs::remove_all(directory);
    fs::create_directories(directory);
    fs::copy(HALFNUT_DATA_DIR, directory / "data", fs::copy_options::recursive);
    const std::string command = std::string(HALFNUT_COMPILE_TABLES) + " " + (directory / "data").string() +
                                " " + (directory / "out").string() + " 2> " +
                                (directory / "error.txt").string();
    EXPECT_EQ(std::system(command.c_str()), 0);
    std::ofstream(directory / "data/quantity/drills.csv", std::ios::app) << "zzz,wide,S1,\n";
    EXPECT_NE(std::system(command.c_str()), 0);
    std::ifstream error(directory / "error.txt");
    const std::string text{std::istreambuf_iterator<char>(error), std::istreambuf_iterator<char>()};
    EXPECT_NE(text.find("drills.csv:127: diameter_in must be a number, got 'wide'"), std::string::npos)
        << text;
    fs::remove_all(directory);
}

}  // namespace
}  // namespace halfnut
