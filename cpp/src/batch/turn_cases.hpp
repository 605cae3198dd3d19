#pragma once
// What the block of turning takes from a case, and where the cases of an alloy change.

#include <array>
#include <cstdint>
#include <limits>
#include <vector>

#include "halfnut/batch/cuts.hpp"

namespace halfnut::batch {

// A case as the look-up pass copies it into columns.
struct CaseNumbers {
    double low_m_min = kNaN;
    double high_m_min = kNaN;
    double kc11 = kNaN;
    double mc = kNaN;
    double reference_log2 = kNaN;
    double band_high = kNaN;
    double modulus = kNaN;
    std::uint64_t cautions = 0;
    double band_low = kNaN;
    double reference_rake = kNaN;
    double usual_feed = kNaN;
    double feed_low = kNaN;
    double feed_high = kNaN;
    double finish_aim = 1.0;
    double finish_low = kNaN;
    double finish_high = kNaN;
    std::int32_t id = -1;
    bool burns = false;  // fire limits hold
};

// Edges below a number, among 2^Levels - 1 of them, rising, with infinity after the last; without a branch,
// since rows of many alloys come in no order.
template <unsigned Levels>
std::size_t edges_below(const double* edges, double x) noexcept {
    std::size_t below = 0;
    for (std::size_t half = (std::size_t{1} << Levels) / 2; half > 0; half /= 2) {
        below += half * static_cast<std::size_t>(x > edges[below + half - 1]);
    }
    return below;
}

// Steps of depth or of feed: a number above so many edges is in that step. The first edges stand near.
struct Steps {
    static constexpr unsigned kLevels = 3;
    static constexpr std::size_t kNear = (1U << kLevels) - 1;
    std::array<double, kNear> near = endless();
    std::vector<double> far;  // the edges after these
    std::size_t count = 0;    // of all edges

    static constexpr std::array<double, kNear> endless() {
        std::array<double, kNear> out{};
        out.fill(std::numeric_limits<double>::infinity());
        return out;
    }
    void set(const std::vector<double>& edges) {
        count = edges.size();
        for (std::size_t i = 0; i < edges.size(); ++i) {
            if (i < kNear) {
                near[i] = edges[i];
            } else {
                far.push_back(edges[i]);
            }
        }
    }
    [[nodiscard]] std::size_t of(double x) const noexcept {
        std::size_t step = edges_below<kLevels>(near.data(), x);
        if (!far.empty()) {
            for (const double edge : far) {
                step += static_cast<std::size_t>(x > edge);
            }
        }
        return step;
    }
};

// Cases of one alloy and tool, rough (0) and finish (1): a case for each pair of steps of depth and feed.
struct TurnCases::Grid {
    struct Side {
        Steps depths;
        Steps feeds;
        std::size_t across = 1;            // steps of feed
        std::vector<std::uint16_t> cells;  // places in `cases`, depth by feed
        double usual_feed = kNaN;
        bool answered = false;  // false: no speed is tabulated

        [[nodiscard]] bool near() const noexcept {
            return answered && depths.far.empty() && feeds.far.empty();
        }
    };
    std::array<Side, 2> sides;
    std::vector<CaseNumbers> numbers;
    std::vector<TurnCase> cases;

    // Place of the case of a row; the side must be answered.
    [[nodiscard]] static std::size_t place(const Side& side, double depth, double feed) noexcept {
        return side.cells[side.depths.of(depth) * side.across + side.feeds.of(feed)];
    }
};

}  // namespace halfnut::batch
