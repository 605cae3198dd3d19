#pragma once
// The block of turning: plain arithmetic on at most kBlockRows rows, in passes that a compiler turns into
// vector instructions. Only the case of a row is found row by row before them (turn.cpp).

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "halfnut/batch/cuts.hpp"
#include "step_table.hpp"

namespace halfnut::batch {

// Columns that start a page apart would share their places in the nearest cache; a line more sets them off.
inline constexpr std::size_t kPadding = 8;
using Row = std::array<double, kBlockRows + kPadding>;
using Bits = std::array<std::uint64_t, kBlockRows + kPadding>;

// What rows take from a table, one line of the nearest cache; the passes turn records into columns.
struct alignas(64) Record {
    std::array<double, 8> values{};
};

// Of a case: window in m/min, kc1.1, mc, logarithm of the speed correction at the constants' own speed
// (NaN: they hold for any), upper edge of the band, Young's modulus, and bits of cautions with kAlone and
// kMayBurn.
inline constexpr std::size_t kCaseValues = 8;
inline constexpr std::uint64_t kAlone = std::uint64_t{1} << 63U;  // no answer: evaluate()
// What only a few alloys do is settled row by row, among the rows that it may befall.
inline constexpr std::uint64_t kMayBurn = std::uint64_t{1} << 62U;
inline constexpr std::uint64_t kMayWhip = 2;

// Of a bin of spindle steps: its edge, which is the speed from it on, the speed before it, the power from it
// on and before, and both codes.
inline constexpr std::size_t kSpindleValues = 6;
// Of a bin of feeds: its edge, which is the feed from it on, the feed before it, and both codes.
inline constexpr std::size_t kFeedValues = 4;
// A code, as a number: the step, and flags above it.
inline constexpr unsigned kCodeFlags = 16;

// Steps of spindle or feed as records, and where a row's is.
struct LeverTable {
    StepTable steps;
    std::vector<Record> records;
};

// What all rows of a call share.
struct TurnShared {
    const Record* cases = nullptr;
    double alloys = 0;                    // how many are known
    double nobody = 0;                    // the side of no alloy
    const LeverTable* spindle = nullptr;  // null: the steps of every row are there already
    const LeverTable* feeds = nullptr;    // null: any feed can be set
    double chuck_rpm = 0;                 // infinite without a chuck
    double top_rpm = 0;                   // of the machine
    double torque_limit_nm = 0;           // infinite where there is none
    double slender = 0;                   // diameters
    double whirl = 0;                     // speed x overhang^2 / diameter left from which some alloy whips
    std::uint64_t cautions = 0;           // that every row has
    std::uint8_t at_top = 0;              // limit where the machine has no faster step
    cutting::Hold hold{};
    bool steps = false;            // feeds are steps of the machine
    bool entering_varies = false;  // else sine and cosine are there already
    bool adjusted = false;         // a rake or wear is given
    bool limits = false;           // what limits is asked for
    bool rare = false;             // a limit of roughness or torque, or a bore
    bool codes = false;            // steps are asked for, or what follows from them
};

// A column's bounds within which arithmetic cannot overflow.
struct Bounds {
    double low;
    double high;
    bool required = false;  // else NaN, which is not given, is ordinary too
    bool zero = false;      // 0 is ordinary too
};

// Columns of one block: inputs as given, what the look-ups found, what comes out. NaN is not given; nose,
// entering angle, bore, approach and overrun have their usual numbers then.
struct TurnBlock {
    std::size_t rows = 0;
    bool open_feeds = false;  // some feed was not given
    const double* asked_depth = nullptr;
    const std::int32_t* alloy = nullptr;
    const std::int32_t* tool = nullptr;
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
    const double* depth = nullptr;  // as asked for, or with the usual one
    // Computed for every row; they stand in the caller's columns where those are wanted.
    double* chosen_rpm = nullptr;
    double* chosen_feed = nullptr;
    std::uint64_t* cautions = nullptr;

    alignas(
        64) Bits special{};  // not 0: the row goes through evaluate(); kMayWhip alone: where its alloy whips
    bool some_special = false;
    alignas(64) Row reach{};    // stick-out, as given or as long as the cut
    alignas(64) Row finish{};   // 0 or 1
    alignas(64) Bits places{};  // of the records that a pass spreads
    // of the case
    alignas(64) Row low_m_min{};
    alignas(64) Row high_m_min{};
    alignas(64) Row kc11{};
    alignas(64) Row mc{};
    alignas(64) Row reference_log2{};
    alignas(64) Row band_low{};
    alignas(64) Row band_high{};
    alignas(64) Row upper{};  // band_high with ordinary wear
    alignas(64) Row modulus{};
    alignas(64) Row reference_rake{};
    alignas(64) Bits lasting{};  // cautions of the case
    alignas(64) Row usual_feed{};
    alignas(64) Row feed_low{};
    alignas(64) Row feed_high{};
    alignas(64) Row finish_aim{};  // where a roughness is asked for
    alignas(64) Row finish_low{};  // where the real surface is asked for
    alignas(64) Row finish_high{};
    // levers
    alignas(64) Row low_rpm{};
    alignas(64) Row high_rpm{};
    alignas(64) Row limit_rpm{};
    const double* wanted_feed = nullptr;  // the feed asked for, or own_wanted
    const double* most_feed = nullptr;
    alignas(64) Row own_wanted{};
    alignas(64) Row own_most{};
    alignas(64) Row available{};
    alignas(64) Row efficiency{};
    alignas(64) Row edge{};  // of a bin
    alignas(64) Row before{};
    alignas(64) Row before_available{};
    alignas(64) Row code_from_edge{};
    alignas(64) Row code_before{};
    alignas(64) Bits spindle_code{};
    alignas(64) Bits feed_code{};
    alignas(64) Bits flags{};  // see kSlowestFlag to kFinerFlag
    alignas(64) Row sine{};
    alignas(64) Row cosine{};
    alignas(64) Row mean_sine{};
    alignas(64) Row mean_cosine{};
    alignas(64) Row factor_log2{};
    alignas(64) Bits limited{};

    std::array<double*, cutting::kCutFigures.size()> out{};  // places for every figure that is computed
};

// Flags of a row.
inline constexpr std::uint64_t kSlowestFlag = 1;    // no step is slow enough
inline constexpr std::uint64_t kFastestFlag = 2;    // the fastest step
inline constexpr std::uint64_t kRoughnessFlag = 4;  // the roughness holds the feed
inline constexpr std::uint64_t kOpenFlag = 8;       // the feed was left open
inline constexpr std::uint64_t kFinerFlag = 16;     // a finer feed is there

struct TurnPasses {
    // Mark rows that a column puts out of the ordinary; whether some row leaves it open.
    bool (*check)(const double* column, Bounds bounds, std::size_t rows, std::uint64_t* special);
    // How far the work stands out.
    void (*reach)(TurnBlock& block);
    // The place of a row's alloy, tool and rough or finish among the sides of the call.
    void (*sides)(const TurnShared& shared, TurnBlock& block);
    // Constants of the cases whose places were found, window in rev/min, and the feed that is wanted.
    void (*want)(const TurnShared& shared, TurnBlock& block);
    // Steps of spindle and feed.
    void (*set)(const TurnShared& shared, TurnBlock& block);
    // Forces, power, finish, deflection, time.
    void (*compute)(const TurnShared& shared, TurnBlock& block);
    // Cautions, what limits, and rows whose feed must be made finer.
    void (*judge)(const TurnShared& shared, TurnBlock& block);
};

[[nodiscard]] const TurnPasses& turn_passes(Clone clone) noexcept;

}  // namespace halfnut::batch
