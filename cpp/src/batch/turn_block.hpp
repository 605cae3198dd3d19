#pragma once
// The block of turning: plain arithmetic on at most kBlockRows rows, in passes that a compiler turns into
// vector instructions. Between them stand two passes of look-ups, row by row (turn.cpp).

#include <array>
#include <cstddef>
#include <cstdint>

#include "halfnut/batch/cuts.hpp"

namespace halfnut::batch {

// Columns that start a page apart would share their places in the nearest cache; a line more sets them off.
inline constexpr std::size_t kPadding = 8;
using Row = std::array<double, kBlockRows + kPadding>;
using Bits = std::array<std::uint64_t, kBlockRows + kPadding>;

// What all rows of a call share.
struct TurnShared {
    double chuck_rpm = 0;        // infinite without a chuck
    double top_rpm = 0;          // of the machine
    double torque_limit_nm = 0;  // infinite where there is none
    double slender = 0;          // diameters
    std::uint64_t cautions = 0;  // that every row has
    std::uint8_t at_top = 0;     // limit where the machine has no faster step
    cutting::Hold hold{};
    bool steps = false;            // feeds are steps of the machine
    bool entering_varies = false;  // else sine and cosine are there already
};

// A column's bounds within which arithmetic cannot overflow.
struct Bounds {
    double low;
    double high;
    bool required = false;  // else NaN, which is not given, is ordinary too
    bool zero = false;      // 0 is ordinary too
};

// Columns of one block: inputs as given (NaN: not given), what the look-ups found, what comes out.
struct TurnBlock {
    std::size_t rows = 0;
    bool open_feeds = false;  // some feed was not given
    const double* diameter = nullptr;
    const double* length = nullptr;
    const double* feed = nullptr;
    const double* bore = nullptr;
    const double* stick_out = nullptr;
    const double* nose = nullptr;
    const double* entering = nullptr;
    const double* rake = nullptr;
    const double* wear = nullptr;
    const double* roughness_limit = nullptr;
    const double* deflection_limit = nullptr;
    const double* approach = nullptr;
    const double* overrun = nullptr;
    // Found or reckoned for every row; they stand in the caller's columns where those are wanted.
    double* depth = nullptr;
    double* chosen_rpm = nullptr;
    double* chosen_feed = nullptr;
    std::uint64_t* cautions = nullptr;

    alignas(64) Bits special{};  // not 0: the row goes through evaluate()
    // of the case
    alignas(64) Row low_m_min{};
    alignas(64) Row high_m_min{};
    alignas(64) Row kc11{};
    alignas(64) Row mc{};
    alignas(64) Row at_reference{};  // speed correction at the constants' own speed; NaN: they hold for any
    alignas(64) Row band_low{};
    alignas(64) Row band_high{};
    alignas(64) Row modulus{};
    alignas(64) Row reference_rake{};
    alignas(64) Row fire_speed{};
    alignas(64) Row usual_feed{};
    alignas(64) Row feed_low{};
    alignas(64) Row feed_high{};
    // levers
    alignas(64) Row low_rpm{};
    alignas(64) Row high_rpm{};
    alignas(64) Row limit_rpm{};
    alignas(64) Row wanted_feed{};
    alignas(64) Row most_feed{};
    alignas(64) Row available{};
    alignas(64) Row efficiency{};
    alignas(
        64) Bits flags{};  // 1: no step is slow enough, 2: the fastest step, 4: the roughness holds the feed
    alignas(64) Row sine{};
    alignas(64) Row cosine{};
    alignas(64) Bits limited{};

    std::array<double*, cutting::kCutFigures.size()> out{};  // places for every figure that is reckoned
};

struct TurnPasses {
    // Mark rows that a column puts out of the ordinary.
    void (*check)(const double* column, Bounds bounds, std::size_t rows, std::uint64_t* special);
    // Window in rev/min, and the feed that is wanted.
    void (*want)(const TurnShared& shared, TurnBlock& block);
    // Forces, power, finish, deflection, time.
    void (*reckon)(const TurnShared& shared, TurnBlock& block);
    // Cautions, what limits, and rows whose feed must be made finer.
    void (*judge)(const TurnShared& shared, TurnBlock& block);
};

[[nodiscard]] const TurnPasses& turn_passes(Clone clone) noexcept;

}  // namespace halfnut::batch
