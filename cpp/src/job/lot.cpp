// Stock, times and spares of a lot, and spindle steps that neighbours share.

#include "halfnut/job/lot.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <utility>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/level1.hpp"

namespace halfnut::job {

namespace {

// Source: common practice of one-off shops, as the rules of job/rules.csv state them; doubted, so that only
// ranges are told.
constexpr Span kFirst{2.0, 4.0};    // rule::first_piece
constexpr Span kFurther{1.3, 1.6};  // rule::further_piece
constexpr double kSpareShare = 0.05;
constexpr int kSpareFrom = 10;          // up to so many pieces one spare: rule::spares
constexpr int kEvery = 5;               // of pieces one is measured wholly: rule::measured_wholly
constexpr double kSameLength = 1e-9;    // of a bar
constexpr double kLittleSlower = 0.75;  // rule::shared_speed
constexpr double kTenthSlower = 0.9;    // rule::shared_dial
constexpr double kBelowWindow = 0.45;
constexpr double kTrouble = 2.0;  // a stop costs attention, too
constexpr double kSameSpeed = 1.0 + 1e-9;

constexpr Argument kQuantity{.name = "quantity", .unit = "", .low = 1.0};
constexpr Argument kPieces{.name = "pieces", .unit = "", .low = 1.0};

}  // namespace

Span first_piece(double time_s) noexcept {
    return {kFirst.least_s * time_s, kFirst.most_s * time_s};
}

Span further_piece(double time_s) noexcept {
    return {kFurther.least_s * time_s, kFurther.most_s * time_s};
}

Span lot(double time_s, int quantity) noexcept {
    const Span first = first_piece(time_s);
    const Span more = further_piece((quantity - 1) * time_s);
    return {first.least_s + more.least_s, first.most_s + more.most_s};
}

int spares(int quantity) noexcept {
    return quantity <= kSpareFrom ? 1 : bounds::whole<int>(std::ceil(kSpareShare * quantity), 1, quantity);
}

Lot lot_of(double time_s, int quantity) {
    require(not_negative("time_s", "s"), time_s);
    require(kQuantity, quantity);
    return {first_piece(time_s), further_piece(time_s), lot(time_s, quantity), spares(quantity),
            measured_pieces(quantity)};
}

std::vector<int> measured_pieces(int quantity) {
    std::vector<int> out;
    for (int piece = 1; piece <= quantity; piece += kEvery) {
        out.push_back(piece);
    }
    return out;
}

std::pair<double, double> once_coated(double least_mm, double greatest_mm, bool inside,
                                      const threads::BuildUp& coating) noexcept {
    constexpr double kBothSides = 2e-3;  // of a surface's build-up, um, on the diameter, mm
    return inside
               ? std::pair{least_mm - kBothSides * coating.max_um, greatest_mm - kBothSides * coating.min_um}
               : std::pair{least_mm + kBothSides * coating.min_um, greatest_mm + kBothSides * coating.max_um};
}

CutUp cut_up(const StockAsk& asked) {
    require(positive("length_mm", "mm"), asked.length_mm);
    require(kQuantity, asked.quantity);
    require(kPieces, asked.pieces);
    require(not_negative("kerf_mm", "mm"), asked.kerf_mm);
    require(not_negative("facing_mm", "mm"), asked.facing_mm);
    require(not_negative("stub_mm", "mm"), asked.stub_mm);
    if (!std::isnan(asked.bar_mm)) {
        require(positive("bar_mm", "mm"), asked.bar_mm);
    }
    CutUp out;
    const int parted = asked.stub_mm > 0.0 ? asked.pieces : asked.pieces - 1;
    out.blank_mm =
        asked.pieces * (asked.length_mm + 2.0 * asked.facing_mm) + parted * asked.kerf_mm + asked.stub_mm;
    out.blanks = (asked.quantity + asked.pieces - 1) / asked.pieces;
    out.total_mm = out.blanks * (out.blank_mm + asked.kerf_mm);
    if (std::isnan(asked.bar_mm)) {
        return out;
    }
    // the last blank needs no saw cut after it
    const double room = (asked.bar_mm + asked.kerf_mm) / (out.blank_mm + asked.kerf_mm) + kSameLength;
    const int a_bar = bounds::whole<int>(std::floor(room), 0, std::numeric_limits<int>::max());
    if (a_bar < 1) {
        throw DomainError(
            fmt::format("a blank of {:g} mm, for {} of the part, is longer than the bar, {:g} mm",
                        out.blank_mm, asked.pieces, asked.bar_mm));
    }
    const int bars = (out.blanks + a_bar - 1) / a_bar;
    const int last = out.blanks - (bars - 1) * a_bar;
    out.blanks_a_bar = a_bar;
    out.bars = bars;
    out.left_mm = std::max(0.0, asked.bar_mm - last * (out.blank_mm + asked.kerf_mm));
    return out;
}

std::vector<Bar> first_fit(std::vector<Blank> blanks, double bar_mm) {
    std::vector<Bar> out;
    std::stable_sort(blanks.begin(), blanks.end(),
                     [](const Blank& a, const Blank& b) { return a.length_mm > b.length_mm; });
    for (Blank& each : blanks) {
        auto bar = std::find_if(out.begin(), out.end(),
                                [&](const Bar& one) { return each.length_mm <= one.left_mm + kSameLength; });
        if (bar == out.end()) {
            bar = out.insert(out.end(), Bar{{}, bar_mm});
        }
        bar->left_mm -= each.length_mm + each.kerf_mm;
        bar->blanks.push_back(std::move(each));
    }
    for (Bar& each : out) {
        each.left_mm = std::max(each.left_mm, 0.0);
    }
    return out;
}

namespace {

/// Neighbours on a variable step, or beside one, at the slower one's speed.
void share_speeds(std::span<const Setting> settings, std::span<const machine::Machine* const> machines,
                  std::vector<StepAt>& out) {
    const auto variable = [&](std::size_t i) {
        const machine::Machine& machine = *machines[static_cast<std::size_t>(settings[i].machine)];
        return machine.spindle[static_cast<std::size_t>(out[i].step)].variable();
    };
    const auto take = [&](std::size_t i, std::size_t from) {
        const bool known = settings[i].machine == settings[from].machine && !std::isnan(settings[i].rpm) &&
                           out[i].step >= 0 && out[from].step >= 0;
        if (known && (variable(i) || variable(from)) && out[from].rpm < out[i].rpm &&
            out[from].rpm >= kTenthSlower * settings[i].rpm) {
            out[i] = out[from];
        }
    };
    for (std::size_t i = out.size(); i-- > 1;) {
        take(i - 1, i);
    }
    for (std::size_t i = 1; i < out.size(); ++i) {
        take(i, i - 1);
    }
}

}  // namespace

std::vector<StepAt> shared_steps(std::span<const Setting> settings,
                                 std::span<const machine::Machine* const> machines) {
    constexpr double kNever = std::numeric_limits<double>::infinity();
    // by the step that an operation ends with: the least cost so far, and the step before that it comes from
    struct Way {
        int step = -1;
        double cost = 0.0;
        std::size_t before = 0;
    };
    std::vector<std::vector<Way>> ways;
    for (std::size_t i = 0; i < settings.size(); ++i) {
        const Setting& each = settings[i];
        const machine::Machine& machine = *machines[static_cast<std::size_t>(each.machine)];
        std::vector<Way>& here = ways.emplace_back();
        if (each.step < 0) {
            here.push_back({-1, 0.0, 0});
        } else {
            const double fastest = machine.spindle[static_cast<std::size_t>(each.step)].rpm;
            for (std::size_t step = 0; step < machine.spindle.size(); ++step) {
                const double rpm = machine.spindle[step].rpm;
                const bool own = step == static_cast<std::size_t>(each.step);
                const double share = fastest * kSameSpeed < each.least_rpm ? kBelowWindow : kLittleSlower;
                const double slower = each.cut_s * (fastest / rpm - 1.0);
                const bool suits = !machine.spindle[step].variable() && rpm < fastest &&
                                   rpm * kSameSpeed >= std::min(each.least_rpm, share * fastest);
                if (own || suits) {
                    here.push_back({static_cast<int>(step), own ? 0.0 : slower, 0});
                }
            }
        }
        for (Way& way : here) {
            double least = i == 0 ? 0.0 : kNever;
            for (std::size_t k = 0; i > 0 && k < ways[i - 1].size(); ++k) {
                const Way& from = ways[i - 1][k];
                const bool same = settings[i - 1].machine == each.machine && from.step == way.step;
                const double cost = from.cost + (same ? 0.0 : kTrouble * machine.stop_change_s);
                if (cost < least) {
                    least = cost;
                    way.before = k;
                }
            }
            way.cost += least;
        }
    }
    std::vector<StepAt> out(settings.size());
    std::size_t at = 0;
    for (std::size_t i = settings.size(); i-- > 0;) {
        if (i + 1 == settings.size()) {
            at = static_cast<std::size_t>(
                std::min_element(ways[i].begin(), ways[i].end(),
                                 [](const Way& a, const Way& b) { return a.cost < b.cost; }) -
                ways[i].begin());
        }
        const int step = ways[i][at].step;
        const bool moved = step >= 0 && step != settings[i].step;
        out[i] = {step, moved ? machines[static_cast<std::size_t>(settings[i].machine)]
                                    ->spindle[static_cast<std::size_t>(step)]
                                    .rpm
                              : settings[i].rpm};
        at = ways[i][at].before;
    }
    share_speeds(settings, machines, out);
    return out;
}

}  // namespace halfnut::job
