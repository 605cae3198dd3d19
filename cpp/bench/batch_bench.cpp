// The core alone: rows a second of a batch and of its parts.

#include <benchmark/benchmark.h>

#include <cmath>
#include <random>
#include <vector>

#include "halfnut/batch/cuts.hpp"
#include "halfnut/builtin.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/threads/designation.hpp"
#include "halfnut/threads/limits.hpp"

namespace {

using namespace halfnut;
using namespace halfnut::cutting;

machine::Machine lathe() {
    machine::Machine out;
    out.motor_kw = 1.5;
    for (const double rpm : {70.0, 115.0, 190.0, 300.0, 460.0, 600.0, 755.0, 920.0, 1255.0, 1600.0, 2000.0}) {
        machine::SpindleStep step;
        step.rpm = rpm;
        out.spindle.push_back(step);
    }
    for (int i = 0; i < 36; ++i) {
        const double feed = 0.03 * std::pow(20.0, i / 35.0);
        out.carriage.steps.push_back({feed, feed, false, {}});
    }
    return out;
}

std::size_t argument(std::string_view name) {
    for (std::size_t i = 0; i < kTurnArguments.size(); ++i) {
        if (kTurnArguments[i].argument.name == name) {
            return i;
        }
    }
    return 0;
}

/// Rows over every alloy of the tables.
class Rows {
   public:
    explicit Rows(std::size_t rows) {
        std::mt19937_64 random(7);
        setting.catalogue = &builtin();
        setting.machine = &machine_;
        for (std::size_t i = 0; i < builtin().alloys.size(); ++i) {
            setting.alloys.push_back(static_cast<std::int32_t>(i));
        }
        for (std::size_t row = 0; row < rows; ++row) {
            alloy_.push_back(static_cast<std::int32_t>(random() % setting.alloys.size()));
        }
        columns.work.alloy.data = alloy_.data();
        struct Range {
            std::string_view name;
            double low;
            double high;
        };
        for (const Range& range : {Range{"diameter_mm", 5.0, 120.0}, Range{"depth_mm", 0.2, 2.4},
                                   Range{"feed_mm_rev", 0.04, 0.4}, Range{"length_mm", 10.0, 200.0},
                                   Range{"stick_out_mm", 20.0, 200.0}, Range{"entering_deg", 45.0, 95.0}}) {
            std::vector<double>& column = inputs_.emplace_back(rows);
            for (double& value : column) {
                value = std::uniform_real_distribution<double>(range.low, range.high)(random);
            }
        }
        for (std::size_t i = 0; const std::string_view name : {"diameter_mm", "depth_mm", "feed_mm_rev",
                                                               "length_mm", "stick_out_mm", "entering_deg"}) {
            columns.numbers[argument(name)].data = inputs_[i++].data();
        }
        for (std::size_t i = 0; i < kCutFigures.size(); ++i) {
            for (const std::string_view name :
                 {"spindle_rpm", "cutting_speed_m_min", "feed_mm_rev", "cutting_force_n", "spindle_power_kw",
                  "torque_nm", "mrr_cm3_min", "deflection_mm", "roughness_ra_um", "time_s"}) {
                if (kCutFigures[i].name == name) {
                    outputs_.emplace_back(rows);
                    out.figures[i] = outputs_.back().data();
                }
            }
        }
        cautions_.resize(rows);
        status_.resize(rows);
        out.cautions = cautions_.data();
        out.outcome.status = status_.data();
    }

    batch::CutSetting setting;
    batch::TurnColumns columns;
    batch::CutColumns out;

   private:
    machine::Machine machine_ = lathe();
    std::vector<std::int32_t> alloy_;
    std::vector<std::vector<double>> inputs_;
    std::vector<std::vector<double>> outputs_;
    std::vector<std::uint64_t> cautions_;
    std::vector<std::uint8_t> status_;
};

void batch_turn(benchmark::State& state) {
    constexpr std::size_t kRows = 1'000'000;
    static Rows rows(kRows);
    static const batch::TurnCases cases(builtin());
    const auto clone = static_cast<batch::Clone>(state.range(0));
    rows.setting.workers = static_cast<std::size_t>(state.range(1));
    for (auto _ : state) {
        batch::turn(cases, rows.setting, rows.columns, kRows, rows.out, clone);
    }
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(kRows));
}
BENCHMARK(batch_turn)
    ->ArgNames({"clone", "workers"})
    ->ArgsProduct({{0, 1, 2}, {1, 2}})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

void evaluate_turn(benchmark::State& state) {
    const machine::Machine machine = lathe();
    TurnRequest request;
    request.diameter_mm = 32.0;
    request.depth_mm = 1.0;
    request.length_mm = 50.0;
    CutResult out;
    for (auto _ : state) {
        benchmark::DoNotOptimize(evaluate(builtin(), machine, request, out));
    }
    state.SetItemsProcessed(state.iterations());
}
BENCHMARK(evaluate_turn);

void limits_from_text(benchmark::State& state) {
    for (auto _ : state) {
        benchmark::DoNotOptimize(threads::limits(builtin(), threads::parse_thread("M10x1.5-6g", builtin()))
                                     .native(threads::Limit::pitch_max));
    }
    state.SetItemsProcessed(state.iterations());
}
BENCHMARK(limits_from_text);

}  // namespace
