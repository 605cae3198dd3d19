#pragma once
/// Tool life in turning: the constants of Taylor's equation that suit a material and a tool.

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/cutting/kin_rows.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// Exponents of feed and depth in V T^n f^x d^y = C, for high-speed steel and for carbide.
inline constexpr double kHssLifeFeed = 0.6;
inline constexpr double kHssLifeDepth = 0.15;
inline constexpr double kCarbideLifeFeed = 0.36;
inline constexpr double kCarbideLifeDepth = 0.06;

/// Furthest that a row is carried from the feed and depth of its trials, as factors.
inline constexpr double kFarthestFeed = 4.0;
inline constexpr double kFarthestDepth = 10.0;

/// Where the speed for a life may lie, as shares of the computed one: the recalled trials of steels up to 271
/// HB with high-speed steel lie within these of the textbook's one row for steel. A life follows as
/// share^(1/n).
inline constexpr double kLifeSpeedLow = 0.6;
inline constexpr double kLifeSpeedHigh = 1.4;

struct LifeQuery {
    const material::AlloyRow* alloy = nullptr;
    double hardness_hb = kNaN;  ///< the work's own; NaN for the tabulated one
    ToolMaterial tool_material{};
    double feed_mm_rev = kNaN;
    double depth_mm = kNaN;
    const KinRows* kin = nullptr;  ///< those of the alloy; null: the tables are searched
};

struct EdgeLife {
    double exponent = kNaN;  ///< n
    double c_m_min = kNaN;   ///< C at the feed, depth and hardness asked for
    double feed_exponent = kNaN;
    double depth_exponent = kNaN;
    RowRef row;
    int kinship = 0;
    bool moved = false;    ///< the row's feed or depth was another
    bool shifted = false;  ///< the row's hardness was another
};

/// Constants for an edge: of the nearest kin with a row for the tool material, of its rows the one whose
/// trials lie nearest in hardness, feed and depth, of equal ones the slowest.
///
/// C is carried to the feed and depth by the exponents above, and in proportion to the inverse of hardness
/// where the row states one and the work is not non-ferrous.
///
/// Returned
///   not_tabulated when no kin has a row for the tool, or the nearest is too far in feed or depth
[[nodiscard]] Status edge_life(const Catalogue& catalogue, const LifeQuery& query, EdgeLife& out) noexcept;

}  // namespace halfnut::cutting
