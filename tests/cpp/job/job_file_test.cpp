// A job's file read by the core, and its parts as they are walked.

#include "halfnut/job/job_file.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <deque>
#include <initializer_list>
#include <utility>

#include "halfnut/core/builtin.hpp"
#include "halfnut/job/answer.hpp"
#include "halfnut/job/walk.hpp"
#include "halfnut/threads/coating.hpp"

namespace halfnut::job {
namespace {

using std::string_view;

/// Tables as a reader of TOML has them.
class Tables {
   public:
    using Pair = std::pair<string_view, Given>;

    Given table(std::initializer_list<Pair> pairs) {
        std::vector<Given>& items = items_.emplace_back();
        std::vector<string_view>& keys = keys_.emplace_back();
        for (const auto& [key, value] : pairs) {
            keys.push_back(key);
            items.push_back(value);
        }
        return {.tag = Given::Tag::object, .items = items, .keys = keys};
    }
    Given list(std::initializer_list<Given> items) {
        return {.tag = Given::Tag::list, .items = items_.emplace_back(items)};
    }
    static Given text(string_view words) { return {.tag = Given::Tag::text, .text = words}; }
    static Given number(double value) { return {.tag = Given::Tag::number, .number = value}; }

    /// A job of one plate with holes on a circle.
    Given plate(const Given& diameter) {
        const Given circle = table({{"pattern", text("circle")},
                                    {"holes", number(4)},
                                    {"diameter", text("2 in")},
                                    {"x", text("3 in")},
                                    {"y", text("2 in")}});
        const Given stock =
            table({{"form", text("plate")}, {"thickness", text("0.5 in")}, {"width", text("4 in")}});
        const Given drill = table({{"do", text("drill")}, {"diameter", diameter}, {"places", circle}});
        const Given coating = table({{"title", text("black")}, {"build_up", text("5 um")}});
        const Given part = table({{"name", text("cell plate")},
                                  {"quantity", number(2)},
                                  {"alloy", text("6061-T6")},
                                  {"length", text("6 in")},
                                  {"coating", text("film")},
                                  {"stock", stock},
                                  {"operations", list({drill})}});
        return table({{"title", text("Portable truss telescope")},
                      {"machine", text("mill")},
                      {"coatings", table({{"film", coating}})},
                      {"parts", list({part})}});
    }

   private:
    std::deque<std::vector<Given>> items_;
    std::deque<std::vector<string_view>> keys_;
};

MachineNamed find_machine(string_view name) {
    return name == "mill" ? MachineNamed{"the mill", {}, {}} : MachineNamed{"", "no machine", {"mill"}};
}

TEST(JobFile, PartsAreReadAsTheyAreWalked) {
    Tables made;
    FileReading reading{builtin()};
    const FileEntries read = job_of_file(made.plate(Tables::text("5 mm")), find_machine, reading);
    ASSERT_TRUE(reading.mistakes.empty()) << reading.mistakes.front().problem;
    const machine::Machine mill;
    const GivenTable tables(read);
    const std::vector<Part> parts = parts_of(
        tables.given(), [&](string_view name) { return name == "the mill" ? &mill : nullptr; }, builtin());
    ASSERT_EQ(parts.size(), 1U);
    const Part& part = parts.front();
    EXPECT_EQ(part.name, "cell plate");
    EXPECT_EQ(part.form, Form::plate);
    EXPECT_TRUE(part.inch);
    EXPECT_EQ(part.length_mm, 152.4);
    EXPECT_EQ(part.blank_mm, 152.4);
    EXPECT_DOUBLE_EQ(part.coating.max_um, 5.0);
    EXPECT_EQ(part.coating_name, "black");
    ASSERT_EQ(part.steps.size(), 1U);
    const Step& step = part.steps.front();
    EXPECT_EQ(step.what, Do::drill);
    EXPECT_EQ(step.machine, &mill);
    EXPECT_EQ(step.times, 4);
    EXPECT_EQ(step.diameter_mm, 5.0);
    EXPECT_NEAR(step.least_x_mm, 50.8, 1e-9);  // 3 in less the radius of the circle
    EXPECT_NEAR(step.spread_y_mm, 50.8, 1e-9);
    EXPECT_NEAR(step.apart_mm, 25.4 * std::sqrt(2.0), 1e-9);
    EXPECT_EQ(walk(parts, builtin()).parts.size(), 1U);
}

TEST(JobFile, ItsOperationsAreAnswered) {
    Tables made;
    FileReading reading{builtin()};
    const FileEntries read = job_of_file(made.plate(Tables::text("5 mm")), find_machine, reading);
    machine::Machine mill;
    mill.kind = machine::Kind::mill;
    mill.motor_kw = 1.5;
    mill.spindle.resize(2);
    mill.spindle.front().rpm = 500.0;
    mill.spindle.back().rpm = 1000.0;
    const GivenTable tables(read);
    const std::vector<Part> parts = parts_of(tables.given(), [&](string_view) { return &mill; }, builtin());
    const WalkedJob walked = walk(parts, builtin());
    const AnsweredPart found = answer_part(tables.given(), 0, parts.front(), walked.parts.front(), builtin());
    ASSERT_EQ(found.operations.size(), 1U);
    const Answered& drilled = found.operations.front();
    ASSERT_EQ(drilled.error, "");
    ASSERT_NE(drilled.cut, nullptr);
    EXPECT_EQ(drilled.cut->cut.spindle_rpm, 1000.0);
    EXPECT_EQ(drilled.levers.front().group, "spindle");
    EXPECT_EQ(drilled.sizes.front().number, 5.0);
    EXPECT_EQ(drilled.remarks.size(), 4U);  // a hole each
    EXPECT_GT(drilled.time_s, 4.0 * drilled.cut->cut.time_s);
    EXPECT_FALSE(better_order(parts.front(), found, builtin()).has_value());
}

TEST(JobFile, AMistakeSaysWhereItIs) {
    Tables made;
    FileReading reading{builtin()};
    (void)job_of_file(made.plate(Tables::number(5)), find_machine, reading);
    ASSERT_EQ(reading.mistakes.size(), 1U);
    const FileMistake& mistake = reading.mistakes.front();
    ASSERT_EQ(mistake.path.size(), 5U);
    EXPECT_EQ(mistake.path[0].key, "parts");
    EXPECT_EQ(mistake.path[3].place, 0U);
    EXPECT_EQ(mistake.path[4].key, "diameter");
    EXPECT_NE(mistake.problem.find("5 has no unit"), std::string::npos);
}

TEST(JobFile, AMachineThatIsNotThereIsNamed) {
    Tables made;
    FileReading reading{builtin()};
    const Given file = made.table(
        {{"title", Tables::text("x")}, {"machine", Tables::text("mil")}, {"parts", made.list({})}});
    (void)job_of_file(file, find_machine, reading);
    ASSERT_EQ(reading.mistakes.size(), 2U);
    EXPECT_EQ(reading.mistakes[0].problem, "no machine");
    EXPECT_EQ(reading.mistakes[0].nearest, "mill");
    EXPECT_EQ(reading.mistakes[1].problem, "must not be empty");
}

TEST(JobFile, LinesAreFoundHoweverOperationsAreWritten) {
    constexpr string_view kText = R"toml(title = "a [[parts]] of { a } text"
[[parts]]      # the first
name = "pin"
operations = [
    { do = "face" },  # { not one }
    { do = "thread",
      pitch = { x = 1 } },
]
[[ parts ]]
[[parts . operations]]
do = "turn"
[parts.stock]
note = """
[[parts]]
"""
more = """
\""" [[parts]]
[[parts]]"""
[[parts.operations]]
)toml";
    const std::vector<PartLines> lines = lines_of(kText);
    ASSERT_EQ(lines.size(), 2U);
    EXPECT_EQ(lines[0].part, 2);
    EXPECT_EQ(lines[0].operations, (std::vector<int>{5, 6}));
    EXPECT_EQ(lines[1].part, 9);
    EXPECT_EQ(lines[1].operations, (std::vector<int>{10, 19}));
    EXPECT_TRUE(lines_of("").empty());
    EXPECT_TRUE(lines_of("[[parts.operations]]\n\"").empty());
}

}  // namespace
}  // namespace halfnut::job
