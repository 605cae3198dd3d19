#include "halfnut/batch/cuts.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <bit>
#include <cmath>
#include <functional>
#include <limits>
#include <random>
#include <set>
#include <string>
#include <vector>

#include "halfnut/core/builtin.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/material/tables.hpp"
#include "sanitized.hpp"

namespace halfnut::batch {
namespace {

using namespace cutting;

machine::Machine lathe() {
    machine::Machine out;
    out.name = "test lathe";
    out.motor_kw = 1.1;
    out.torque_limit_nm = 90.0;
    for (const double rpm : {70.0, 115.0, 190.0, 300.0, 460.0, 600.0, 755.0, 920.0, 1255.0, 1600.0, 2000.0}) {
        machine::SpindleStep step;
        step.rpm = rpm;
        step.back_gear = rpm < 400.0;
        out.spindle.push_back(step);
    }
    for (int i = 0; i < 36; ++i) {
        const double feed = 0.03 * std::pow(20.0, i / 35.0);
        out.carriage.steps.push_back({feed, feed, false, {}});
    }
    machine::Chuck chuck;
    chuck.jaws = 3;
    chuck.diameter_mm = 160.0;
    out.chucks.push_back(chuck);
    return out;
}

/// The same with sizes that many jobs are over.
machine::Machine small_lathe() {
    machine::Machine out = lathe();
    out.swing_over_bed_mm = 120.0;
    out.swing_over_cross_slide_mm = 70.0;
    out.swing_in_gap_mm = 125.0;
    out.between_centres_mm = 220.0;
    out.spindle_bore_mm = 25.0;
    out.spindle_length_mm = 300.0;
    out.chucks[0].opening_least_mm = 5.0;
    out.chucks[0].opening_greatest_mm = 100.0;
    out.slides.push_back(
        {.name = "carriage", .travel_per_turn_mm = 20.0, .graduation_mm = 0.1, .travel_mm = 150.0});
    return out;
}

machine::Machine variable_lathe() {
    machine::Machine out = lathe();
    for (machine::SpindleStep& step : out.spindle) {
        step.rpm_low = step.rpm * 0.7;
    }
    out.carriage.steps.clear();
    out.slides.push_back({.name = "carriage", .travel_per_turn_mm = 20.0, .graduation_mm = 0.1});
    return out;
}

template <class Request, std::size_t N>
std::size_t place(const std::array<RequestArgument<Request>, N>& arguments, std::string_view name) {
    for (std::size_t i = 0; i < N; ++i) {
        if (arguments[i].argument.name == name) {
            return i;
        }
    }
    ADD_FAILURE() << name;
    return 0;
}

/// Columns of cuts with room for every figure.
struct Answers {
    explicit Answers(std::size_t rows, bool all_figures = true)
        : figures(kCutFigures.size(), std::vector<double>(rows, -7.0)),
          spindle_step(rows),
          feed_step(rows),
          passes(rows),
          limited_by(rows),
          cautions(rows),
          case_id(rows),
          status(rows, 99),
          reason(rows) {
        for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
            const std::string_view name = kCutFigures[i].name;
            if (all_figures || (!name.starts_with("tool_life") && !name.starts_with("hand_turns"))) {
                to.figures[i] = figures[i].data();
            }
        }
        to.spindle_step = spindle_step.data();
        to.feed_step = feed_step.data();
        to.passes = passes.data();
        to.limited_by = limited_by.data();
        to.cautions = cautions.data();
        to.case_id = case_id.data();
        to.outcome = {status.data(), reason.data()};
    }

    /// What of a row is not what evaluate() gave, or nothing.
    [[nodiscard]] std::string differs(std::size_t row, Status with, const CutResult& cut) const {
        if (status[row] != static_cast<std::uint8_t>(with.code) || reason[row] != reason_code(with)) {
            return "status";
        }
        for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
            if (to.figures[i] == nullptr) {
                continue;
            }
            const double wanted = with.ok() ? cut.*(kCutFigures[i].member) : kNaN;
            const double got = figures[i][row];
            const bool both_nan = std::isnan(wanted) && std::isnan(got);
            if (!both_nan && std::bit_cast<std::uint64_t>(wanted) != std::bit_cast<std::uint64_t>(got)) {
                return std::string(kCutFigures[i].name) + " " + std::to_string(wanted) + " " +
                       std::to_string(got);
            }
        }
        if (!with.ok()) {
            return "";
        }
        return cautions[row] != cut.cautions                                  ? "cautions"
               : spindle_step[row] != cut.spindle_step                        ? "spindle step"
               : feed_step[row] != cut.feed_step                              ? "feed step"
               : passes[row] != cut.passes                                    ? "passes"
               : limited_by[row] != static_cast<std::uint8_t>(cut.limited_by) ? "limited by"
                                                                              : "";
    }

    std::vector<std::vector<double>> figures;
    std::vector<std::uint16_t> spindle_step;
    std::vector<std::uint16_t> feed_step;
    std::vector<std::uint16_t> passes;
    std::vector<std::uint8_t> limited_by;
    std::vector<std::uint64_t> cautions;
    std::vector<std::int32_t> case_id;
    std::vector<std::uint8_t> status;
    std::vector<std::uint16_t> reason;
    CutColumns to;
};

/// Random jobs of turning, some of them with numbers left out, extreme or broken.
struct Jobs {
    explicit Jobs(std::size_t rows, unsigned seed) : numbers(kTurnArguments.size()) {
        std::mt19937_64 random(seed);
        const auto between = [&](double low, double high) {
            return std::uniform_real_distribution<double>(low, high)(random);
        };
        const auto one_in = [&](unsigned n) { return random() % n == 0; };
        constexpr double kInf = std::numeric_limits<double>::infinity();
        const std::array odd{0.0, -1.0, kNaN, kInf, -kInf, 5e-324, 1e-310, 1e-12, 1e12, 1e300};
        const auto column = [&](std::string_view name) -> std::vector<double>& {
            std::vector<double>& out = numbers[place(kTurnArguments, name)];
            out.assign(rows, kNaN);
            return out;
        };
        struct Range {
            std::string_view name;
            double low;
            double high;
            unsigned lacking;
        };
        for (const Range& range :
             {Range{"diameter_mm", 3.0, 130.0, 0}, Range{"depth_mm", 0.1, 3.0, 6},
              Range{"length_mm", 5.0, 200.0, 9}, Range{"feed_mm_rev", 0.02, 0.5, 4},
              Range{"stick_out_mm", 10.0, 300.0, 9}, Range{"nose_radius_mm", 0.1, 1.2, 9},
              Range{"entering_deg", 30.0, 110.0, 9}, Range{"rake_deg", -10.0, 25.0, 3},
              Range{"wear_factor", 1.0, 1.6, 3}, Range{"roughness_limit_um", 0.4, 6.0, 3},
              Range{"deflection_limit_mm", 0.01, 0.2, 3}, Range{"bore_mm", 1.0, 20.0, 2},
              Range{"approach_mm", 0.0, 4.0, 3}, Range{"spindle_rpm", 50.0, 2500.0, 0},
              Range{"bar_behind_mm", 50.0, 900.0, 0}}) {
            std::vector<double>& numbers_of = column(range.name);
            for (double& value : numbers_of) {
                const bool lacking = range.lacking == 0 && range.name != "diameter_mm"
                                         ? !one_in(40)
                                         : range.lacking && one_in(range.lacking);
                value = lacking ? kNaN : between(range.low, range.high);
                if (one_in(150)) {
                    value = odd[random() % odd.size()];
                }
            }
        }
        // Work stands out as far as the cut is long and more; a few contradict themselves.
        std::vector<double>& out = numbers[place(kTurnArguments, "stick_out_mm")];
        const std::vector<double>& lengths = numbers[place(kTurnArguments, "length_mm")];
        for (std::size_t row = 0; row < rows; ++row) {
            if (lengths[row] > 0.0 && !one_in(30)) {
                out[row] += lengths[row];
            }
        }
        std::vector<double>& noses = numbers[place(kTurnArguments, "nose_radius_mm")];
        hardness.assign(rows, kNaN);
        const std::size_t alloys = test::as_many(builtin().alloys.size());
        for (std::size_t row = 0; row < rows; ++row) {
            if (one_in(11)) {
                noses[row] = 0.0;
            }
            if (one_in(60)) {
                hardness[row] = between(60.0, 350.0);
            }
            alloy.push_back(one_in(100) ? -1 : static_cast<std::int32_t>(random() % alloys));
            tool.push_back(static_cast<std::int32_t>(random() % 5));
            finish.push_back(one_in(5) ? 1 : 0);
        }
    }

    [[nodiscard]] TurnColumns columns(Hold hold) const {
        TurnColumns out;
        out.work.alloy.data = alloy.data();
        out.work.tool_material.data = tool.data();
        out.work.hardness_hb.data = hardness.data();
        out.finish = finish.data();
        out.hold = hold;
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            if (!numbers[i].empty()) {
                out.numbers[i].data = numbers[i].data();
            }
        }
        return out;
    }
    [[nodiscard]] TurnRequest request(std::size_t row, Hold hold, int chuck) const {
        TurnRequest out;
        out.cut = LatheCut::turn;
        out.work = {static_cast<std::uint16_t>(alloy[row]), hardness[row]};
        out.tool_material = static_cast<ToolMaterial>(tool[row]);
        out.finish = finish[row] != 0;
        out.hold = hold;
        out.chuck = chuck;
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            if (!numbers[i].empty()) {
                out.*(kTurnArguments[i].member) = numbers[i][row];
            }
        }
        return out;
    }

    std::vector<std::vector<double>> numbers;
    std::vector<double> hardness;
    std::vector<std::int32_t> alloy;
    std::vector<std::int32_t> tool;
    std::vector<std::uint8_t> finish;
};

CutSetting setting(const machine::Machine& machine, int chuck, std::size_t workers) {
    CutSetting out;
    out.catalogue = &builtin();
    out.machine = &machine;
    out.chuck = chuck;
    out.workers = workers;
    for (std::size_t i = 0; i < test::as_many(builtin().alloys.size()); ++i) {
        out.alloys.push_back(static_cast<std::int32_t>(i));
    }
    return out;
}

void expect_rows(const machine::Machine& machine, Hold hold, int chuck, const Jobs& jobs, std::size_t rows,
                 bool all_figures, Clone clone, std::size_t workers, std::size_t least = 0) {
    const TurnCases cases(builtin());
    Answers answers(rows, all_figures);
    turn(cases, setting(machine, chuck, workers), jobs.columns(hold), rows, answers.to, clone);
    std::size_t ok = 0;
    std::size_t differing = 0;
    for (std::size_t row = 0; row < rows && differing < 5; ++row) {
        CutResult cut;
        const Status status = evaluate(builtin(), machine, jobs.request(row, hold, chuck), cut);
        ok += status.ok() ? 1U : 0U;
        const std::string what = answers.differs(row, status, cut);
        differing += what.empty() ? 0U : 1U;
        EXPECT_EQ(what, "") << "row " << row;
    }
    EXPECT_GT(ok, least == 0 ? rows / 2 : least);
    EXPECT_LT(ok, rows);
}

TEST(Batch, TurningIsEvaluateRowByRow) {
    constexpr std::size_t kRows = test::as_many(3000);
    const Jobs jobs(kRows, 3);
    const machine::Machine fixed = lathe();
    const machine::Machine variable = variable_lathe();
    expect_rows(fixed, Hold::chuck, 0, jobs, kRows, false, widest_clone(), 1);
    expect_rows(fixed, Hold::chuck_and_centre, -1, jobs, kRows, false, widest_clone(), 1);
    expect_rows(fixed, Hold::between_centres, 0, jobs, kRows, true, widest_clone(), 1);
    expect_rows(variable, Hold::chuck, 0, jobs, kRows, false, widest_clone(), 1);
    const machine::Machine small = small_lathe();
    constexpr std::size_t least = kRows / (test::kSanitized ? 8 : 5);  // of few rows, a few less
    expect_rows(small, Hold::chuck, 0, jobs, kRows, false, widest_clone(), 1, least);
    expect_rows(small, Hold::between_centres, 0, jobs, kRows, false, Clone::portable, 2, least);
    expect_rows(any_machine(), Hold::chuck, -1, jobs, kRows, false, widest_clone(), 1);
}

TEST(Batch, ClonesAndWorkersGiveTheSameBits) {
    constexpr std::size_t kRows = 5000;  // the last block is not a whole one
    const Jobs jobs(kRows, 4);
    const machine::Machine machine = lathe();
    const TurnCases cases(builtin());
    const TurnColumns columns = jobs.columns(Hold::chuck);
    Answers first(kRows, false);
    turn(cases, setting(machine, 0, 1), columns, kRows, first.to, Clone::portable);
    for (const Clone clone : {Clone::portable, Clone::avx2, Clone::avx512}) {
        for (const std::size_t workers : {1U, 2U, 3U, 7U}) {
            Answers other(kRows, false);
            turn(cases, setting(machine, 0, workers), columns, kRows, other.to, clone);
            for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
                for (std::size_t row = 0; row < kRows; ++row) {
                    ASSERT_TRUE(std::bit_cast<std::uint64_t>(first.figures[i][row]) ==
                                    std::bit_cast<std::uint64_t>(other.figures[i][row]) ||
                                (std::isnan(first.figures[i][row]) && std::isnan(other.figures[i][row])))
                        << kCutFigures[i].name << " " << row << " " << enum_name(clone) << " " << workers;
                }
            }
            EXPECT_EQ(first.cautions, other.cautions);
            EXPECT_EQ(first.status, other.status);
            EXPECT_EQ(first.reason, other.reason);
            EXPECT_EQ(first.limited_by, other.limited_by);
            EXPECT_EQ(first.case_id, other.case_id);
            EXPECT_EQ(first.spindle_step, other.spindle_step);
            EXPECT_EQ(first.feed_step, other.feed_step);
        }
    }
}

TEST(Batch, ACaseHoldsForItsRows) {
    constexpr std::size_t kRows = 2000;
    const Jobs jobs(kRows, 5);
    const machine::Machine machine = lathe();
    const TurnCases cases(builtin());
    Answers answers(kRows, false);
    turn(cases, setting(machine, 0, 1), jobs.columns(Hold::chuck), kRows, answers.to);
    std::set<std::int32_t> seen;
    for (std::size_t row = 0; row < kRows; ++row) {
        const TurnRequest request = jobs.request(row, Hold::chuck, 0);
        if (answers.case_id[row] < 0) {
            EXPECT_TRUE(answers.status[row] != 0 || !std::isnan(request.work.hardness_hb)) << row;
            continue;
        }
        const TurnCase* const found = cases.find(answers.case_id[row]);
        ASSERT_NE(found, nullptr);
        EXPECT_EQ(found->alloy, request.work.alloy);
        EXPECT_EQ(found->tool_material, request.tool_material);
        if (answers.status[row] == 0) {
            EXPECT_EQ(found->tables.window.row, turn_tables(builtin(), request, nullptr).window.row);
        }
        seen.insert(answers.case_id[row]);
    }
    EXPECT_GT(seen.size(), 100U);
    EXPECT_EQ(cases.find(-1), nullptr);
    EXPECT_EQ(cases.find(std::numeric_limits<std::int32_t>::max()), nullptr);
}

TEST(Batch, NoRowsAndOneRow) {
    const Jobs jobs(1, 6);
    const machine::Machine machine = lathe();
    const TurnCases cases(builtin());
    Answers one(1, false);
    turn(cases, setting(machine, 0, 2), jobs.columns(Hold::chuck), 0, one.to);
    EXPECT_EQ(one.status[0], 99) << "nothing is written for no rows";
    turn(cases, setting(machine, 0, 2), jobs.columns(Hold::chuck), 1, one.to);
    CutResult cut;
    const Status status = evaluate(builtin(), machine, jobs.request(0, Hold::chuck, 0), cut);
    EXPECT_EQ(one.differs(0, status, cut), "");
}

TEST(Batch, AMachineWithoutASpindleMarksEveryRow) {
    const Jobs jobs(600, 7);
    const machine::Machine nothing;
    const TurnCases cases(builtin());
    Answers answers(600, false);
    turn(cases, setting(nothing, -1, 1), jobs.columns(Hold::chuck), 600, answers.to);
    for (std::size_t row = 0; row < 600; ++row) {
        EXPECT_NE(answers.status[row], 0);
        EXPECT_TRUE(std::isnan(answers.figures[0][row]));
    }
}

/// Random holes and cuts of milling, as many as make an alloy worth tables of its own, or few.
void expect_evaluate_row_by_row(std::size_t rows) {
    std::mt19937_64 random(8);
    const auto column = [&](double low, double high) {
        std::vector<double> out(rows);
        for (double& value : out) {
            value = random() % 50 == 0 ? -1.0 : std::uniform_real_distribution<double>(low, high)(random);
        }
        return out;
    };
    const machine::Machine machine = lathe();
    const std::vector<double> diameter = column(1.0, 25.0);
    const std::vector<double> depth = column(2.0, 60.0);
    const std::vector<double> teeth = column(2.0, 6.0);
    const std::vector<double> small = column(0.2, 1.0);  // pitch and pilot
    const std::vector<double> width = column(20.0, 60.0);
    std::vector<double> hardness = column(60.0, 350.0);
    std::vector<std::int32_t> alloy(rows);
    std::vector<std::int32_t> tool(rows);
    const std::size_t alloys = test::as_many(builtin().alloys.size());
    for (std::size_t row = 0; row < rows; ++row) {
        alloy[row] = static_cast<std::int32_t>(random() % alloys);
        tool[row] = static_cast<std::int32_t>(random() % enum_names(ToolMaterial{}).size());
        hardness[row] = random() % 2 == 0 ? kNaN : hardness[row];
    }
    const auto work = [&](WorkColumns& of) {
        of.alloy.data = alloy.data();
        of.tool_material.data = tool.data();
        of.hardness_hb.data = hardness.data();
    };
    const auto asked = [&](auto& request, std::size_t row) {
        request.work = {static_cast<std::uint16_t>(alloy[row]), hardness[row]};
        request.tool_material = static_cast<ToolMaterial>(tool[row]);
    };
    CutResult cut;
    for (const auto& [kind, name] : enum_names(HoleCut{})) {
        HoleColumns columns;
        work(columns.work);
        columns.cut = kind;
        columns.numbers[place(kHoleArguments, "diameter_mm")].data = diameter.data();
        columns.numbers[place(kHoleArguments, "depth_mm")].data = depth.data();
        columns.numbers[place(kHoleArguments, "pitch_mm")].data = small.data();
        columns.numbers[place(kHoleArguments, "pilot_mm")].data = small.data();
        std::size_t answered = 0;
        Answers answers(rows);
        holes(setting(machine, 0, 3), columns, rows, answers.to);
        for (std::size_t row = 0; row < rows; ++row) {
            HoleRequest hole;
            asked(hole, row);
            hole.cut = kind;
            hole.diameter_mm = diameter[row];
            hole.depth_mm = depth[row];
            hole.pitch_mm = small[row];
            hole.pilot_mm = small[row];
            hole.chuck = 0;
            const Status status = evaluate(builtin(), machine, hole, cut);
            ASSERT_EQ(answers.differs(row, status, cut), "") << name << " " << row;
            answered += status.ok() ? 1U : 0U;
        }
        EXPECT_GT(answered, rows / 2) << name;
    }
    for (const auto& [shape, name] : enum_names(MillShape{})) {
        MillColumns columns;
        work(columns.work);
        columns.shape = shape;
        columns.numbers[place(kMillArguments, "cutter_diameter_mm")].data = diameter.data();
        columns.numbers[place(kMillArguments, "flutes")].data = teeth.data();
        columns.numbers[place(kMillArguments, "depth_mm")].data = depth.data();
        columns.numbers[place(kMillArguments, "width_mm")].data = width.data();
        std::size_t answered = 0;
        Answers answers(rows);
        mill(setting(machine, -1, 1), columns, rows, answers.to);
        for (std::size_t row = 0; row < rows; ++row) {
            MillRequest slot;
            asked(slot, row);
            slot.shape = shape;
            slot.cutter_diameter_mm = diameter[row];
            slot.teeth = teeth[row];
            slot.depth_mm = depth[row];
            slot.width_mm = width[row];
            const Status status = evaluate(builtin(), machine, slot, cut);
            ASSERT_EQ(answers.differs(row, status, cut), "") << name << " " << row;
            answered += status.ok() ? 1U : 0U;
        }
        EXPECT_GT(answered, rows / 2) << name;
    }
}

TEST(Batch, HolesAndMillingAreEvaluateRowByRow) {
    expect_evaluate_row_by_row(test::as_many(300));
    expect_evaluate_row_by_row(test::as_many(1900));
}

TEST(Batch, AnUnknownToolMarksItsRow) {
    Jobs jobs(700, 9);
    jobs.tool.assign(700, 3);
    jobs.tool[5] = -1;
    jobs.tool[699] = 17;
    const machine::Machine machine = lathe();
    const TurnCases cases(builtin());
    Answers answers(700, false);
    turn(cases, setting(machine, 0, 1), jobs.columns(Hold::chuck), 700, answers.to);
    for (const std::size_t row : {std::size_t{5}, std::size_t{699}}) {
        EXPECT_EQ(status_of(answers.reason[row]).code, StatusCode::unknown_name);
        EXPECT_TRUE(std::isnan(answers.figures[0][row]));
    }
}

// Whatever a worker throws, first or later, the caller gets it, and every thread is joined before.
TEST(Batch, AnExceptionOfAWorkerReachesTheCaller) {
    for (const std::size_t bad : {std::size_t{0}, std::size_t{640}, std::size_t{9984}}) {
        std::atomic<int> running{0};
        const auto make = [&] {
            return [&](std::size_t first, std::size_t last) {
                running.fetch_add(1);
                const bool has_it = first <= bad && bad < last;
                running.fetch_sub(1);
                if (has_it) {
                    throw DomainError("row " + std::to_string(bad));
                }
            };
        };
        try {
            run_blocks(10000, 4, 64, make);
            ADD_FAILURE() << "no exception for row " << bad;
        } catch (const DomainError& error) {
            EXPECT_EQ(error.what(), "row " + std::to_string(bad));
        }
        EXPECT_EQ(running.load(), 0);
    }
    // One that cannot even begin.
    const auto never = []() -> std::function<void(std::size_t, std::size_t)> {
        throw DomainError("no work");
    };
    EXPECT_THROW(run_blocks(10000, 4, 64, never), DomainError);
}

// A depth that is left out is usual in the system of the question; one that the diameter holds back finishes.
TEST(Batch, WhatIsLeftOutIsUsualInTheSystemOfTheQuestion) {
    const machine::Machine machine = lathe();
    const TurnCases cases(builtin());
    const std::vector<double> diameter{1.0, 2.0, 3.9, 4.08, 4.2, 8.0, 25.4, 60.0};
    const std::size_t rows = diameter.size();
    for (const bool inch : {false, true}) {
        for (const bool finish : {false, true}) {
            Answers answers(rows, false);
            TurnColumns columns;
            columns.work.alloy.all = 0;
            columns.numbers[place(kTurnArguments, "diameter_mm")].data = diameter.data();
            columns.finish_all = finish;
            columns.inch = inch;
            const CutSetting shared = setting(machine, 0, 1);
            turn(cases, shared, columns, rows, answers.to);
            for (std::size_t row = 0; row < rows; ++row) {
                TurnRequest request;
                request.work.alloy = static_cast<std::uint16_t>(shared.alloys[0]);
                request.diameter_mm = diameter[row];
                request.finish = finish;
                request.inch = inch;
                request.chuck = 0;
                CutResult cut;
                const Status status = evaluate(builtin(), machine, request, cut);
                ASSERT_EQ(answers.differs(row, status, cut), "") << diameter[row];
                // 1 and 0.25 mm, 0.040 and 0.010 in = 1.016 and 0.254 mm, at most a quarter of the radius.
                const double usual = inch ? (finish ? 0.254 : 1.016) : (finish ? 0.25 : 1.0);
                EXPECT_DOUBLE_EQ(cut.depth_mm, std::min(usual, diameter[row] / 8.0)) << diameter[row];
            }
        }
    }
}

TEST(Batch, ReasonsKeepStatusAndArgument) {
    EXPECT_EQ(reason_code({}), 0);
    const Status status{StatusCode::out_of_range, 3};
    EXPECT_EQ(status_of(reason_code(status)), status);
    const Status nobody{StatusCode::no_result, 0xff};
    EXPECT_EQ(status_of(reason_code(nobody)), nobody);
}

}  // namespace
}  // namespace halfnut::batch
