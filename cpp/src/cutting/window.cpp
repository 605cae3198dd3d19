#include "halfnut/cutting/window.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <tuple>

#include "halfnut/core/elementary.hpp"
#include "halfnut/cutting/edge_life.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/cutting/tool_life.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/material/alloy.hpp"
#include "kin.hpp"

namespace halfnut::cutting {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// A quantity between two points, as a power of the argument.
double power_between(double x, double x0, double y0, double x1, double y1) noexcept {
    return y0 * power_of(x / x0, log2_of(y1 / y0) / log2_of(x1 / x0));
}

/// Rows at rising sizes on both sides of a size; one and the same outside of them.
template <class Row>
struct Between {
    const Row* below = nullptr;
    const Row* above = nullptr;

    void meet(const Row& row, double at, double x) noexcept {
        if (below == nullptr || !(at > x)) {
            below = &row;
        }
        if (above == nullptr && !(at < x)) {
            above = &row;
        }
    }
    void close() noexcept { above = above == nullptr ? below : above; }
};

bool has_speed(const SpeedRow& row) noexcept {
    return !std::isnan(row.speed_low_m_min) || !std::isnan(row.speed_high_m_min);
}
double speed_high(const SpeedRow& row) noexcept {
    return std::isnan(row.speed_high_m_min) ? row.speed_low_m_min : row.speed_high_m_min;
}
bool single_speed(const SpeedRow& row) noexcept {
    return std::isnan(row.speed_low_m_min) || std::isnan(row.speed_high_m_min) ||
           row.speed_low_m_min == row.speed_high_m_min;
}
bool has_feed(const SpeedRow& row) noexcept {
    return !std::isnan(row.feed_high_mm) && row.feed_per != FeedPer::none;
}
bool graded(const SpeedRow& row) noexcept {
    return !std::isnan(row.hardness_low_hb) || !std::isnan(row.hardness_high_hb);
}

/// Whether a row says for which feed or depth its speed holds.
bool states_cut(const SpeedRow& row) noexcept {
    return has_feed(row) || !std::isnan(row.depth_high_mm);
}

/// How far outside a row's range of hardness; 0 inside or where the row has none.
double hardness_distance(const SpeedRow& row, double hb) noexcept {
    if (std::isnan(hb) || !graded(row)) {
        return 0.0;
    }
    const double low = std::isnan(row.hardness_low_hb) ? 0.0 : row.hardness_low_hb;
    const double high =
        std::isnan(row.hardness_high_hb) ? std::numeric_limits<double>::infinity() : row.hardness_high_hb;
    return hb < low ? low - hb : hb > high ? hb - high : 0.0;
}

/// Whether a row is for about the feed asked for.
bool fits_feed(const SpeedRow& row, double feed) noexcept {
    if (std::isnan(feed) || !has_feed(row)) {
        return true;
    }
    const double low = std::isnan(row.feed_low_mm) ? 0.0 : row.feed_low_mm;
    return low <= kAboutFeed * feed && row.feed_high_mm >= feed / kAboutFeed;
}

/// Whether a row prints a speed with the feed asked for.
bool prints_feed(const SpeedRow& row, double feed) noexcept {
    return has_feed(row) && !(feed < row.feed_low_mm / kSameFeed) && feed <= kSameFeed * row.feed_high_mm;
}

/// A row's depth against the one asked for: rows that reach it come first, the least first; then the
/// deepest of the others.
double depth_order(const SpeedRow& row, double depth) noexcept {
    if (std::isnan(depth) || std::isnan(row.depth_high_mm)) {
        return 0.0;
    }
    return row.depth_high_mm >= depth - kDepthSlackMm ? row.depth_high_mm : 1e6 - row.depth_high_mm;
}

bool fits_diameter(const SpeedRow& row, double diameter) noexcept {
    return std::isnan(diameter) || (!(diameter < row.diameter_low_mm) && !(diameter > row.diameter_high_mm));
}

/// Whether a row is for another context or wrong as printed; it is used when nothing else is left.
bool unfit(Doubt doubt) noexcept {
    return doubt == Doubt::negative_rake || doubt == Doubt::misprint || doubt == Doubt::garbled ||
           doubt == Doubt::out_of_order;
}

using Candidate = KinRow<SpeedRow>;

/// Whether a is to be preferred to b.
bool better(const Catalogue& catalogue, const WindowQuery& query, double hb, const Candidate& a,
            const Candidate& b) noexcept {
    const auto rank = [&](const Candidate& c) {
        const SpeedRow& row = *c.row;
        return std::tuple{unfit(row.doubt) && has_speed(row),
                          !fits_diameter(row, query.diameter_mm),
                          c.distance,
                          c.distance == 0 && !material::has_word(row.key, query.alloy->id),
                          row.doubt != Doubt::none,
                          !fits_feed(row, query.feed_mm),
                          !states_cut(row),
                          source_rank(catalogue.sources[row.source.index].kind),
                          !graded(row),
                          row.source.index,
                          depth_order(row, query.depth_mm),
                          hardness_distance(row, hb),
                          row.doubt};
    };
    return rank(a) < rank(b);
}

template <class Wanted>
std::optional<Candidate> best_row(const Catalogue& catalogue, const WindowQuery& query, const Kin& kin,
                                  double hb, Wanted wanted) noexcept {
    std::optional<Candidate> best;
    each_kin_row(
        catalogue.speeds, query.kin == nullptr ? nullptr : &query.kin->speeds, wanted,
        [&](const SpeedRow& row) { return kin.distance(row.key); },
        [&](const Candidate& candidate) {
            if (!best || better(catalogue, query, hb, candidate, *best)) {
                best = candidate;
            }
        });
    return best;
}

/// Hardness that a row without a range holds for: that of an alloy it is keyed to and that belongs to the
/// same kin, else the softest condition of the asked alloy that is tabulated.
double reference_hardness(const Catalogue& catalogue, const SpeedRow& row,
                          const material::AlloyRow& alloy) noexcept {
    double softest = alloy.hardness_hb;
    const Kin kin(catalogue, alloy);
    const int distance = kin.distance(row.key);
    for (const material::AlloyRow& other : catalogue.alloys) {
        if (material::has_word(row.key, other.id) && !std::isnan(other.hardness_hb) &&
            (other.id == alloy.id ||
             (distance > 0 && Kin(catalogue, other).distance(kin.key(distance)) > 0))) {
            return other.hardness_hb;
        }
        if (other.name == alloy.name && other.hardness_hb < softest) {
            softest = other.hardness_hb;
        }
    }
    return softest;
}

/// The row on the other side of the gap in hardness: same table, same cut; null beyond the last.
const SpeedRow* sister_of(const Catalogue& catalogue, const SpeedRow& row, double hb) noexcept {
    const bool harder = hb > row.hardness_high_hb;
    const SpeedRow* sister = nullptr;
    for (const SpeedRow& other : catalogue.speeds) {
        if (other.key != row.key || other.operation != row.operation ||
            other.tool_material != row.tool_material || other.source != row.source ||
            other.doubt != Doubt::none || !has_speed(other) || !graded(other) ||
            !(other.depth_high_mm == row.depth_high_mm ||
              (std::isnan(other.depth_high_mm) && std::isnan(row.depth_high_mm)))) {
            continue;
        }
        const double other_edge = harder ? other.hardness_low_hb : other.hardness_high_hb;
        if (!(harder ? other_edge > hb : other_edge < hb)) {
            continue;
        }
        if (sister == nullptr ||
            (harder ? other_edge < sister->hardness_low_hb : other_edge > sister->hardness_high_hb)) {
            sister = &other;
        }
    }
    return sister;
}

/// Whether work is harder than any row of a row's table is for.
bool beyond(const Catalogue& catalogue, const SpeedRow& row, double hb) noexcept {
    return hb > row.hardness_high_hb && sister_of(catalogue, row, hb) == nullptr;
}

/// Factor on a row's speed for a hardness outside its range.
double hardness_factor(const Catalogue& catalogue, const SpeedRow& row, const material::AlloyRow& alloy,
                       double hb) noexcept {
    if (std::isnan(hb)) {
        return 1.0;
    }
    if (!graded(row)) {
        const double reference = reference_hardness(catalogue, row, alloy);
        // Light metals and copper alloys grow gummy as they soften: none is faster than its row.
        const double most = alloy.iso513 == material::Iso513::n ? 1.0 : kInfinity;
        return std::isnan(reference) ? 1.0 : std::min(reference / hb, most);
    }
    if (hardness_distance(row, hb) == 0.0) {
        return 1.0;
    }
    const bool harder = hb > row.hardness_high_hb;
    const double edge = harder ? row.hardness_high_hb : row.hardness_low_hb;
    const SpeedRow* const sister = sister_of(catalogue, row, hb);
    if (sister == nullptr) {
        return edge / hb;
    }
    const double other_edge = harder ? sister->hardness_low_hb : sister->hardness_high_hb;
    const double along = log2_of(hb / edge) / log2_of(other_edge / edge);
    return power_of(speed_high(*sister) / speed_high(row), along);
}

/// The row of the nearest group among those that a test wants; null where none is of its kin.
template <class Row, class Wanted>
const Row* nearest_row(const Kin& kin, Rows<Row> rows, Wanted wanted) noexcept {
    const Row* nearest = nullptr;
    int least = 0;
    for (const Row& row : rows) {
        if (!wanted(row)) {
            continue;
        }
        const int distance = kin.distance(row.group);
        if (distance >= 0 && (nearest == nullptr || distance < least)) {
            nearest = &row;
            least = distance;
        }
    }
    return nearest;
}

const OperationShareRow* share_of(const Catalogue& catalogue, const Kin& kin, Operation operation) noexcept {
    return nearest_row(kin, Rows<OperationShareRow>(catalogue.operation_shares),
                       [&](const OperationShareRow& row) { return row.operation == operation; });
}

/// Null for the tool that a family starts from.
const ToolShareRow* share_of(const Catalogue& catalogue, const Kin& kin, ToolMaterial tool) noexcept {
    const ToolShareRow* const row =
        nearest_row(kin, Rows<ToolShareRow>(catalogue.tool_shares),
                    [&](const ToolShareRow& one) { return one.tool_material == tool; });
    return row == nullptr || row->of == tool ? nullptr : row;
}

/// How often a share may rest on another before a table is taken to run in a circle.
constexpr int kLongestChain = 6;

/// Speed of an operation over that of rough turning; NaN where no chain of shares leads there.
double over_turning(const Catalogue& catalogue, const Kin& kin, Operation operation) noexcept {
    double share = 1.0;
    for (int i = 0; i < kLongestChain; ++i) {
        if (operation == Operation::turn_rough) {
            return share;
        }
        const OperationShareRow* const row = share_of(catalogue, kin, operation);
        if (row == nullptr) {
            break;
        }
        share *= row->share;
        operation = row->of;
    }
    return kNaN;
}

/// Speed of a tool over that of the tool which its family starts from.
double over_first_tool(const Catalogue& catalogue, const Kin& kin, ToolMaterial tool) noexcept {
    double share = 1.0;
    for (int i = 0; i < kLongestChain; ++i) {
        const ToolShareRow* const row = share_of(catalogue, kin, tool);
        if (row == nullptr) {
            break;
        }
        share *= row->share;
        tool = row->of;
    }
    return share;
}

/// Operations to take rough turning from where no tool has a row of it, nearest in kind first.
constexpr std::array kStandIns{Operation::turn_finish, Operation::end_mill, Operation::face_mill,
                               Operation::bore,        Operation::drill,    Operation::part_off,
                               Operation::thread,      Operation::ream,     Operation::tap};

constexpr std::array kToolStandIns{ToolMaterial::hss, ToolMaterial::carbide, ToolMaterial::carbide_coated,
                                   ToolMaterial::hss_cobalt, ToolMaterial::cast_cobalt};

double hardness_of(const WindowQuery& query) noexcept {
    return std::isnan(query.hardness_hb) ? query.alloy->hardness_hb : query.hardness_hb;
}

/// Works a window out: rows first, shares of other windows where rows are missing, and the order of both.
class Windows {
   public:
    Windows(const Catalogue& catalogue, const WindowQuery& query) noexcept
        : catalogue_(catalogue), query_(query), kin_(catalogue, *query.alloy) {}

    [[nodiscard]] bool find(Operation operation, ToolMaterial tool, int chain,
                            SpeedWindow& out) const noexcept {
        if (chain > kLongestChain) {
            return false;
        }
        const bool found = operation == Operation::turn_rough ? turning(tool, chain, out)
                                                              : other(operation, tool, chain, out);
        if (found) {
            hold_life(operation, tool, out);
            hold_fire(out);
        }
        return found;
    }

   private:
    /// The question of one operation. What another rests on in rough turning is asked of the depth of the cut
    /// where that is a lathe tool's, else of an ordinary cut.
    [[nodiscard]] WindowQuery query_of(Operation operation) const noexcept {
        WindowQuery query = query_;
        if (operation != query_.operation) {
            const bool turning = operation == Operation::turn_rough;
            const bool deep =
                query_.operation == Operation::turn_finish || query_.operation == Operation::bore;
            query.diameter_mm = turning ? kNaN : query_.diameter_mm;
            query.feed_mm = turning ? kRoughFeedMm : kNaN;
            query.depth_mm =
                !turning ? kNaN : (deep && !std::isnan(query_.depth_mm) ? query_.depth_mm : kRoughDepthMm);
        }
        return query;
    }

    /// The window of the best row of an operation and tool; false when there is none.
    [[nodiscard]] bool own(Operation operation, ToolMaterial tool, bool unfit_rows,
                           SpeedWindow& out) const noexcept {
        const WindowQuery query = query_of(operation);
        const double hb = hardness_of(query);
        const auto best = best_row(catalogue_, query, kin_, hb, [&](const SpeedRow& row) {
            return row.operation == operation && row.tool_material == tool && has_speed(row) &&
                   unfit(row.doubt) == unfit_rows;
        });
        if (!best) {
            return false;
        }
        const SpeedRow& row = operation == Operation::turn_rough && has_feed(*best->row)
                                  ? at_feed(*best->row, query.feed_mm)
                                  : *best->row;
        const double factor = hardness_factor(catalogue_, row, *query.alloy, hb);
        out = {};
        out.beyond_hardness = beyond(catalogue_, row, hb);
        out.graded = graded(row);
        out.as_finishing = row.operation != operation;
        out.hardness_shifted = factor != 1.0;
        out.single_value = single_speed(row);
        out.high_m_min = speed_high(row) * factor;
        out.low_m_min = out.single_value ? out.high_m_min * kSingleValueLow : row.speed_low_m_min * factor;
        out.row = row_ref(catalogue_.speeds, row);
        out.kinship = best->distance;
        out.weak =
            row.doubt != Doubt::none || catalogue_.sources[row.source.index].kind == SourceKind::memory;
        if (out.weak && !out.single_value) {
            out.high_m_min = std::min(out.high_m_min, out.low_m_min / kSingleValueLow);
        }
        return true;
    }

    /// A table prints its speeds with feeds: a cut that is fed as its finishing row and not as its roughing
    /// row has the speed of that.
    [[nodiscard]] const SpeedRow& at_feed(const SpeedRow& rough, double feed) const noexcept {
        const auto finishes = [&](const SpeedRow& row) {
            return row.operation == Operation::turn_finish && row.key == rough.key &&
                   row.tool_material == rough.tool_material && row.source == rough.source &&
                   row.doubt == Doubt::none && has_speed(row) && prints_feed(row, feed);
        };
        const auto at = prints_feed(rough, feed)
                            ? catalogue_.speeds.end()
                            : std::find_if(catalogue_.speeds.begin(), catalogue_.speeds.end(), finishes);
        return at == catalogue_.speeds.end() ? rough : *at;
    }

    /// The same of another tool's row, by the tools' shares.
    [[nodiscard]] bool of_other_tool(Operation operation, ToolMaterial tool, bool unfit_rows,
                                     SpeedWindow& out) const noexcept {
        for (const ToolMaterial other : kToolStandIns) {
            if (other != tool && own(operation, other, unfit_rows, out)) {
                scale(over_first_tool(catalogue_, kin_, tool) / over_first_tool(catalogue_, kin_, other),
                      out);
                note_tool(tool, other, out);
                return true;
            }
        }
        return false;
    }

    /// Rough turning: a tool's own row, held by the tool that it is a share of; else that share.
    [[nodiscard]] bool turning(ToolMaterial tool, int chain, SpeedWindow& out) const noexcept {
        const ToolShareRow* const share = share_of(catalogue_, kin_, tool);
        SpeedWindow reference;
        const bool known = share != nullptr && find(Operation::turn_rough, share->of, chain + 1, reference);
        if (own(Operation::turn_rough, tool, false, out)) {
            take_nearer(tool, out);
            if (known && hold(reference, share->least, share->most, out)) {
                out.held_tool_row = row_ref(catalogue_.tool_shares, *share);
            }
            return true;
        }
        if (known) {
            out = reference;
            scale(share->share, out);
            note_tool(tool, share->of, out);
            return true;
        }
        for (const bool unfit_rows : {false, true}) {
            if ((unfit_rows && own(Operation::turn_rough, tool, true, out)) ||
                of_other_tool(Operation::turn_rough, tool, unfit_rows, out) ||
                of_other_operation(tool, unfit_rows, out)) {
                return true;
            }
        }
        return false;
    }

    /// Rough turning of a farther group gives way to a share of a nearer group's printed row of another
    /// operation where it is only recalled, and where it is the faster and states no hardness: a general row
    /// knows of no hard kind.
    void take_nearer(ToolMaterial tool, SpeedWindow& out) const noexcept {
        const bool general = !out.graded;
        for (const Operation operation : kStandIns) {
            const OperationShareRow* const share = share_of(catalogue_, kin_, operation);
            SpeedWindow nearer;
            if (share == nullptr || !own(operation, tool, false, nearer) || nearer.weak ||
                nearer.kinship >= out.kinship) {
                continue;
            }
            scale(1.0 / over_turning(catalogue_, kin_, operation), nearer);
            if (out.weak || (general && nearer.high_m_min < out.high_m_min)) {
                out = nearer;
                note_operation(*share, out);
            }
        }
    }

    /// Rough turning by the row of another operation.
    [[nodiscard]] bool of_other_operation(ToolMaterial tool, bool unfit_rows,
                                          SpeedWindow& out) const noexcept {
        for (const bool other_tools : {false, true}) {
            for (const Operation operation : kStandIns) {
                const OperationShareRow* const share = share_of(catalogue_, kin_, operation);
                if (share != nullptr && (other_tools ? of_other_tool(operation, tool, unfit_rows, out)
                                                     : own(operation, tool, unfit_rows, out))) {
                    scale(1.0 / over_turning(catalogue_, kin_, operation), out);
                    note_operation(*share, out);
                    return true;
                }
            }
        }
        return false;
    }

    /// An operation that is a share of another.
    [[nodiscard]] bool other(Operation operation, ToolMaterial tool, int chain,
                             SpeedWindow& out) const noexcept {
        const OperationShareRow* const share = share_of(catalogue_, kin_, operation);
        SpeedWindow reference;
        if (share == nullptr || !find(share->of, tool, chain + 1, reference)) {
            return false;
        }
        // What is only recalled gives way to a share of what is printed.
        const auto counts = [&](bool found, SpeedWindow& window) {
            if (!found || (window.weak && !reference.weak)) {
                return false;
            }
            const bool general =
                !window.graded && reference.other_operation && reference.kinship < window.kinship;
            const double most = window.beyond_hardness || general ? share->share : share->most;
            if (hold(reference, share->least, most, window)) {
                window.held_row = row_ref(catalogue_.operation_shares, *share);
            }
            return true;
        };
        if (!counts(own(operation, tool, false, out), out)) {
            // Of two stand-ins the slower.
            SpeedWindow of_tool;
            const bool known = counts(of_other_tool(operation, tool, false, of_tool), of_tool);
            out = reference;
            scale(share->share, out);
            note_operation(*share, out);
            if (known && of_tool.high_m_min < out.high_m_min) {
                out = of_tool;
            }
        }
        if (out.high_m_min > share->speed_most_m_min) {
            scale(share->speed_most_m_min / out.high_m_min, out);
            out.held_row = row_ref(catalogue_.operation_shares, *share);
        }
        return true;
    }

    static void scale(double factor, SpeedWindow& out) noexcept {
        out.low_m_min *= factor;
        out.high_m_min *= factor;
    }

    /// Keep a window between shares of another, end by end; whether it had to move. Ends keep their order.
    static bool hold(const SpeedWindow& reference, double least, double most, SpeedWindow& out) noexcept {
        const auto held = [&](double end, double of) {
            return std::fmax(std::fmin(end, most * of), least * of);
        };
        const double low = held(out.low_m_min, reference.low_m_min);
        const double high = held(out.high_m_min, reference.high_m_min);
        const bool moved = low != out.low_m_min || high != out.high_m_min;
        out.low_m_min = low;
        out.high_m_min = high;
        return moved;
    }

    void note_tool(ToolMaterial tool, ToolMaterial other, SpeedWindow& out) const noexcept {
        const ToolShareRow* share = share_of(catalogue_, kin_, tool);
        if (share == nullptr) {
            share = share_of(catalogue_, kin_, other);
        }
        out.other_tool = true;
        if (share != nullptr) {
            out.tool_row = row_ref(catalogue_.tool_shares, *share);
        }
    }
    void note_operation(const OperationShareRow& share, SpeedWindow& out) const noexcept {
        out.other_operation = true;
        out.operation_row = row_ref(catalogue_.operation_shares, share);
    }

    void hold_life(Operation operation, ToolMaterial tool, SpeedWindow& out) const noexcept {
        const bool finish = operation == Operation::turn_finish;
        if (!finish && operation != Operation::turn_rough) {
            return;
        }
        const LifeQuery query{query_.alloy,
                              query_.hardness_hb,
                              tool,
                              finish ? kFinishFeedMm : kRoughFeedMm,
                              finish ? kFinishDepthDefaultMm : kRoughDepthMm,
                              query_.kin};
        EdgeLife life;
        if (!edge_life(catalogue_, query, life).ok()) {
            return;
        }
        const double bearable = TaylorSpeed::compute(life.c_m_min, life.exponent, kLeastLifeMin);
        if (out.high_m_min > bearable) {
            out.high_m_min = bearable;
            out.low_m_min = std::min(out.low_m_min, bearable * kSingleValueLow);
            out.life_row = life.row;
            out.held_by_life = true;
        }
    }

    void hold_fire(SpeedWindow& out) const noexcept {
        const FireLimitRow* const fire = fire_limit(catalogue_, *query_.alloy);
        if (fire != nullptr && out.high_m_min > fire->speed_high_m_min) {
            out.high_m_min = fire->speed_high_m_min;
            out.low_m_min = std::min(out.low_m_min, out.high_m_min * kSingleValueLow);
            out.fire_row = row_ref(catalogue_.fire_limits, *fire);
            out.held_by_fire = true;
        }
    }

    const Catalogue& catalogue_;
    const WindowQuery& query_;
    Kin kin_;
};

double hardness_or(const WindowQuery& query, double otherwise) noexcept {
    const double hb = hardness_of(query);
    return std::isnan(hb) ? otherwise : hb;
}

/// Nearest kinship of an alloy to the groups of a table; -1 when there is none.
template <class Row>
int nearest_group(const Catalogue& catalogue, const material::AlloyRow& alloy, Rows<Row> rows) noexcept {
    int nearest = -1;
    for (const Row& row : rows) {
        const int distance = material::kinship(catalogue, alloy, row.group);
        if (distance >= 0 && (nearest < 0 || distance < nearest)) {
            nearest = distance;
        }
    }
    return nearest;
}

/// Share of a drill's feed for the material; null where no row is of its kin.
const DrillFeedShareRow* drill_share(const Catalogue& catalogue, const WindowQuery& query,
                                     double& share) noexcept {
    const int nearest = nearest_group(catalogue, *query.alloy, catalogue.drill_feed_shares);
    if (nearest < 0) {
        return nullptr;
    }
    const double hb = hardness_or(query, 0.0);
    Between<DrillFeedShareRow> at;
    for (const DrillFeedShareRow& row : catalogue.drill_feed_shares) {  // sorted by group, then hardness
        if (material::kinship(catalogue, *query.alloy, row.group) == nearest) {
            at.meet(row, row.hardness_hb, hb);
        }
    }
    at.close();
    const double width = at.above->hardness_hb - at.below->hardness_hb;
    share = width > 0.0 && hb > at.below->hardness_hb
                ? at.below->share + (at.above->share - at.below->share) * (hb - at.below->hardness_hb) / width
                : at.below->share;
    return at.below;
}

/// The most that a drill is fed.
double drill_bound(const Catalogue& catalogue, double d) noexcept {
    const DrillFeedBoundRow& first = catalogue.drill_feed_bounds.front();
    if (d <= first.diameter_mm || catalogue.drill_feed_bounds.size() == 1) {
        return first.feed_most_mm * d / first.diameter_mm;
    }
    std::size_t i = 1;
    while (i + 1 < catalogue.drill_feed_bounds.size() && catalogue.drill_feed_bounds[i].diameter_mm < d) {
        ++i;
    }
    const DrillFeedBoundRow& below = catalogue.drill_feed_bounds[i - 1];
    const DrillFeedBoundRow& above = catalogue.drill_feed_bounds[i];
    return power_between(d, below.diameter_mm, below.feed_most_mm, above.diameter_mm, above.feed_most_mm);
}

Status drill_feeds(const Catalogue& catalogue, const WindowQuery& query, FeedWindow& out) noexcept {
    const double d = query.diameter_mm;
    double share = kNaN;
    const DrillFeedShareRow* const shared = drill_share(catalogue, query, share);
    if (std::isnan(d) || shared == nullptr || catalogue.drill_feeds.empty() ||
        catalogue.drill_feed_bounds.empty()) {
        return {StatusCode::not_tabulated, 0};
    }
    Between<DrillFeedRow> at;
    for (const DrillFeedRow& row : catalogue.drill_feeds) {
        at.meet(row, row.diameter_mm, d);
    }
    at.close();
    const DrillFeedRow& below = *at.below;
    const DrillFeedRow& above = *at.above;
    const double small = std::min(1.0, d / below.diameter_mm);
    const auto at_size = [&](double low, double high) {
        return above.diameter_mm > below.diameter_mm && d > below.diameter_mm
                   ? power_between(d, below.diameter_mm, low, above.diameter_mm, high)
                   : low * small;
    };
    const double most = drill_bound(catalogue, d);
    const auto held = [&](double feed) { return std::min(most, share * std::min(most, feed)); };
    out.low_mm = held(at_size(below.feed_low_mm, above.feed_low_mm));
    out.high_mm = held(at_size(below.feed_high_mm, above.feed_high_mm));
    out.row = row_ref(catalogue.drill_feeds, below);
    out.share_row = row_ref(catalogue.drill_feed_shares, *shared);
    out.shared = true;
    return {};
}

/// Feeds a tooth of one hardness at the cutter's size.
struct ToothFeed {
    const ToothFeedRow* row = nullptr;
    double low = kNaN;
    double high = kNaN;
};

Status tooth_feeds(const Catalogue& catalogue, const WindowQuery& query, FeedWindow& out) noexcept {
    const double d = query.diameter_mm;
    const int nearest = nearest_group(catalogue, *query.alloy, catalogue.tooth_feeds);
    if (std::isnan(d) || nearest < 0) {
        return {StatusCode::not_tabulated, 0};
    }
    const auto counts = [&](const ToothFeedRow& row) {
        return (row.operation == Operation::end_mill || row.operation == query.operation) &&
               material::kinship(catalogue, *query.alloy, row.group) == nearest;
    };
    const double hb = hardness_or(query, 0.0);
    Between<ToothFeedRow> hardness;  // sorted by group, hardness, diameter
    for (const ToothFeedRow& row : catalogue.tooth_feeds) {
        if (counts(row)) {
            hardness.meet(row, row.hardness_hb, hb);
        }
    }
    hardness.close();
    const auto of_hardness = [&](double graded) {
        Between<ToothFeedRow> at;
        for (const ToothFeedRow& row : catalogue.tooth_feeds) {
            if (counts(row) && row.hardness_hb == graded) {
                at.meet(row, row.diameter_mm, d);
            }
        }
        at.close();
        const ToothFeedRow& below = *at.below;
        const ToothFeedRow& above = *at.above;
        if (!(above.diameter_mm > below.diameter_mm) || !(d > below.diameter_mm)) {
            const double small = std::min(1.0, d / below.diameter_mm);
            return ToothFeed{&below, below.feed_low_mm * small, below.feed_high_mm * small};
        }
        return ToothFeed{
            &below,
            power_between(d, below.diameter_mm, below.feed_low_mm, above.diameter_mm, above.feed_low_mm),
            power_between(d, below.diameter_mm, below.feed_high_mm, above.diameter_mm, above.feed_high_mm)};
    };
    const double soft = hardness.below->hardness_hb;
    const double hard = hardness.above->hardness_hb;
    const ToothFeed first = of_hardness(soft);
    out.low_mm = first.low;
    out.high_mm = first.high;
    if (hard > soft && hb > soft) {
        const ToothFeed second = of_hardness(hard);
        out.low_mm = power_between(hb, soft, first.low, hard, second.low);
        out.high_mm = power_between(hb, soft, first.high, hard, second.high);
    }
    out.row = row_ref(catalogue.tooth_feeds, *first.row);
    return {};
}

/// Whether an operation's feed hangs on the tool's diameter.
bool sized(Operation operation) noexcept {
    return operation == Operation::drill || operation == Operation::end_mill ||
           operation == Operation::face_mill;
}

/// Keep a finishing feed well below that of roughing, whatever its own row has.
void hold_finish(const Catalogue& catalogue, const WindowQuery& query, FeedWindow& out) noexcept {
    if (query.operation != Operation::turn_finish) {
        return;
    }
    WindowQuery rough = query;
    rough.operation = Operation::turn_rough;
    rough.feed_mm = kRoughFeedMm;
    FeedWindow window;
    const double feed = feed_window(catalogue, rough, window).ok()
                            ? std::clamp(kRoughFeedMm, window.low_mm, window.high_mm)
                            : kRoughFeedMm;
    out.high_mm = std::min(out.high_mm, kFinishFeedMost * feed);
    out.low_mm = std::min(out.low_mm, kSingleFeedLow * out.high_mm);
}

/// Keep chips from being so fine that they take fire.
void hold_fire(const Catalogue& catalogue, const WindowQuery& query, FeedWindow& out) noexcept {
    const FireLimitRow* const fire = fire_limit(catalogue, *query.alloy);
    if (fire == nullptr) {
        return;
    }
    const double least = sized(query.operation) ? out.high_mm : fire->feed_least_mm;
    out.held_by_fire = out.low_mm < least;
    out.low_mm = std::max(out.low_mm, least);
    out.high_mm = std::max(out.high_mm, least);
    out.fire_row = row_ref(catalogue.fire_limits, *fire);
}

}  // namespace

const FireLimitRow* fire_limit(const Catalogue& catalogue, const material::AlloyRow& alloy) noexcept {
    for (const FireLimitRow& row : catalogue.fire_limits) {
        if (material::has_word(alloy.hazards, row.hazard)) {
            return &row;
        }
    }
    return nullptr;
}

Status speed_window(const Catalogue& catalogue, const WindowQuery& query, SpeedWindow& out) noexcept {
    out = {};
    // A knurl is rolled: what its wheels are made of does not count.
    const ToolMaterial tool = query.operation == Operation::knurl ? ToolMaterial::hss : query.tool_material;
    return Windows(catalogue, query).find(query.operation, tool, 0, out)
               ? Status{}
               : Status{StatusCode::not_tabulated, 0};
}

void hold_skin(const Catalogue& catalogue, const material::AlloyRow& alloy, Skin skin,
               SpeedWindow& out) noexcept {
    if (skin == Skin::clean) {
        return;
    }
    const Kin kin(catalogue, alloy);
    const SkinRow* const row = nearest_row(kin, Rows<SkinRow>(catalogue.skins),
                                           [&](const SkinRow& one) { return one.skin == skin; });
    if (row != nullptr) {
        out.low_m_min *= row->speed_share;
        out.high_m_min *= row->speed_share;
        out.skin_row = row_ref(catalogue.skins, *row);
    }
}

Status feed_window(const Catalogue& catalogue, const WindowQuery& query, FeedWindow& out) noexcept {
    out = {};
    const FeedPer per = query.operation == Operation::end_mill || query.operation == Operation::face_mill
                            ? FeedPer::tooth
                            : FeedPer::rev;
    const Kin kin(catalogue, *query.alloy);
    const double hb = hardness_of(query);
    const bool by_size = sized(query.operation);
    for (const bool any_tool : {false, true}) {
        const auto best = best_row(catalogue, query, kin, hb, [&](const SpeedRow& row) {
            return row.operation == query.operation &&
                   (any_tool || row.tool_material == query.tool_material) && has_feed(row) &&
                   row.feed_per == per &&
                   (!by_size || catalogue.sources[row.source.index].kind == SourceKind::shop);
        });
        if (best) {
            const SpeedRow& row = *best->row;
            out.single_value = std::isnan(row.feed_low_mm) || row.feed_low_mm == row.feed_high_mm;
            out.high_mm = row.feed_high_mm;
            out.low_mm = out.single_value ? kSingleFeedLow * row.feed_high_mm : row.feed_low_mm;
            if (per == FeedPer::tooth && query.diameter_mm < kFullFeedDiameterMm) {
                out.small_cutter = true;
                out.low_mm *= query.diameter_mm / kFullFeedDiameterMm;
                out.high_mm *= query.diameter_mm / kFullFeedDiameterMm;
            }
            out.row = row_ref(catalogue.speeds, row);
            out.kinship = best->distance;
            hold_finish(catalogue, query, out);
            hold_fire(catalogue, query, out);
            return {};
        }
    }
    if (!by_size) {
        return {StatusCode::not_tabulated, 0};
    }
    const Status status = query.operation == Operation::drill ? drill_feeds(catalogue, query, out)
                                                              : tooth_feeds(catalogue, query, out);
    if (status.ok()) {
        hold_fire(catalogue, query, out);
    }
    return status;
}

}  // namespace halfnut::cutting
