#pragma once
/// Which cutting speeds and feeds suit a material, an operation and a tool.

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/cutting/kin_rows.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::cutting {

/// A single printed speed is the upper end of the window; the lower end is this share of it.
inline constexpr double kSingleValueLow = 0.75;

/// A single printed feed is the upper end; the lower end is this share of it.
inline constexpr double kSingleFeedLow = 0.5;

/// A finishing feed is at most this share of that of roughing: course sheets, 0.15 to 0.6.
inline constexpr double kFinishFeedMost = 0.6;

/// Depth up to which a cut counts as finishing: 0.020 in, as the printed course notes have it.
inline constexpr double kFinishDepthMm = 0.51;

/// A row is for about the feed asked for within this factor, and for a depth that passes its own by less than
/// the slack.
inline constexpr double kAboutFeed = 2.0;
inline constexpr double kSameFeed = 1.02;  ///< 0.2 mm is 0.008 in
inline constexpr double kDepthSlackMm = 1e-9;

struct WindowQuery {
    const material::AlloyRow* alloy = nullptr;
    double hardness_hb = kNaN;  ///< the work's own; NaN for the tabulated one
    Operation operation{};
    ToolMaterial tool_material{};
    double depth_mm = kNaN;        ///< NaN: not asked
    double feed_mm = kNaN;         ///< per revolution or tooth; NaN: not asked
    double diameter_mm = kNaN;     ///< of a drill or cutter; NaN: not asked
    const KinRows* kin = nullptr;  ///< those of the alloy; null: the tables are searched
};

struct SpeedWindow {
    double low_m_min = kNaN;
    double high_m_min = kNaN;
    RowRef row;                     ///< the printed row
    int kinship = 0;                ///< 0: of the alloy itself, 1: of its group, 2: of the group above, ...
    bool single_value = false;      ///< one printed value: the lower end is ours
    bool hardness_shifted = false;  ///< the row is of another hardness
    bool graded = false;            ///< the row says for which hardness it is
    bool beyond_hardness = false;   ///< the work is harder than any row of that table
    bool as_finishing = false;      ///< rough turning fed as the finishing row of its table prints
    bool other_operation = false;   ///< taken from another operation's row
    bool other_tool = false;        ///< taken from another tool material's row
    RowRef operation_row;           ///< the share that other_operation was reckoned with
    RowRef tool_row;                ///< the share that other_tool was reckoned with
    RowRef held_row;                ///< the share of operations whose bounds moved the window, where they did
    RowRef held_tool_row;           ///< the same of tools
    bool weak = false;              ///< the row is recalled or marked with a doubt: its low end answers
    RowRef fire_row;                ///< the fire limit that holds the window, where one does
    bool held_by_fire = false;
    RowRef life_row;  ///< Taylor's constants that lowered the window, where they did
    bool held_by_life = false;
    RowRef skin_row;  ///< what the stock's skin left of the speed, where it took some
};

/// Limits that keep the chips of an alloy from taking fire; null where its chips do not burn.
[[nodiscard]] const FireLimitRow* fire_limit(const Catalogue& catalogue,
                                             const material::AlloyRow& alloy) noexcept;

/// Life of an edge that a turning speed leaves at least, at the usual feed and depth; common practice.
inline constexpr double kLeastLifeMin = 15.0;

/// The speed window.
///
/// Rough turning answers from a row of the tool asked for, else by its share of another tool's; fed as the
/// finishing row of that table and not as the roughing row, it has the finishing speed. A row of a farther
/// group gives way to a share of a nearer group's printed row of another operation where it is recalled, or
/// the faster and without a hardness. Every other operation answers from its own row of this tool, else by
/// the slower of two stand-ins: its share of the operation that its group names, and another tool's row by
/// the tools' shares (operation_shares, tool_shares). A row that is recalled or marked with a doubt gives way
/// to a share of a printed one. No faster than that share is a row of softer work, with none for harder, and
/// one of a farther group without a hardness where rough turning gave way.
/// Whatever answers is kept between the bounds of its share, end by end, so that the order of operations and
/// tools holds: reaming is never faster than drilling, nor boring than turning.
///
/// Rows are ranked so: of the alloy, before its group, before the group above; without doubt; for about
/// the feed asked for; by a printed standard, government source, handbook, textbook or paper, before a
/// printed rule of practice, before memory; graded by hardness; of one source the row of the least depth that
/// is not below the depth asked for; of the hardness nearest. Rows that are misprints, of another context or
/// out of order count only when all of this finds nothing.
///
/// Of a range that is recalled or doubted the low end answers: the upper end is at most that of a single
/// value whose lower end it is.
///
/// A row of another hardness is shifted: between two rows of its table by interpolation of the
/// logarithms, beyond them in inverse proportion to the hardness. A row without hardness holds for the
/// alloy it is keyed to, else for the softest condition of the asked alloy that is tabulated; non-ferrous
/// metals slow with hardness and are no faster when softer.
///
/// A speed of turning at which Taylor's constants for metal and tool, where there are any, leave an edge less
/// than kLeastLifeMin at the usual feed and depth of rough or finish turning is lowered to that which leaves
/// as much; what is a share of turning follows.
///
/// A fire limit holds the window of every tool and operation: it is no speed of one tool, so that no share
/// multiplies it, and a harder tool is no faster there.
///
/// Returned
///   not_tabulated when no row of any kin has a speed
[[nodiscard]] Status speed_window(const Catalogue& catalogue, const WindowQuery& query,
                                  SpeedWindow& out) noexcept;

/// What the skin of the stock leaves of a window.
void hold_skin(const Catalogue& catalogue, const material::AlloyRow& alloy, Skin skin,
               SpeedWindow& out) noexcept;

struct FeedWindow {
    double low_mm = kNaN;  ///< per revolution or per tooth, as asked
    double high_mm = kNaN;
    RowRef row;
    int kinship = 0;
    bool single_value = false;
    bool small_cutter = false;  ///< a shop's row, reduced for the cutter's size
    RowRef share_row;           ///< a drill's share for the material, where `shared`
    bool shared = false;
    RowRef fire_row;  ///< the least feed of a fire limit, where one raised the feeds
    bool held_by_fire = false;
};

/// Feeds for an operation.
///
/// Turning and boring: rows ranked as for speed_window; any tool material when the one asked for has none.
/// Drilling and milling, which ask for the tool's diameter: a shop's own row, else the tables of drill and
/// tooth feeds, continuous in the diameter, for the nearest group and between two hardnesses.
///
/// Where a fire limit holds, feeds of turning and boring are no finer than its least feed, and both ends of
/// the others are their coarse end.
///
/// Returned
///   not_tabulated when no row has a feed of the kind that the operation counts
[[nodiscard]] Status feed_window(const Catalogue& catalogue, const WindowQuery& query,
                                 FeedWindow& out) noexcept;

}  // namespace halfnut::cutting
