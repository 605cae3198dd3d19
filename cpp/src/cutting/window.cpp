#include "halfnut/cutting/window.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "halfnut/material/alloy.hpp"

namespace halfnut::cutting {
namespace {

constexpr std::size_t kDeepest = 16;

/// The keys that an alloy answers to, nearest first.
class Kin {
   public:
    Kin(const Catalogue& catalogue, const material::AlloyRow& alloy) noexcept {
        keys_[count_++] = alloy.id;
        std::string_view group = alloy.group;
        while (count_ < kDeepest && !group.empty()) {
            keys_[count_++] = group;
            const material::GroupRow* row = material::find_group(catalogue, group);
            group = row == nullptr ? std::string_view{} : row->parent;
        }
    }

    /// Distance of the nearest of several keys, separated by spaces; -1 when none is kin.
    [[nodiscard]] int distance(std::string_view keys) const noexcept {
        for (std::size_t i = 0; i < count_; ++i) {
            if (material::has_word(keys, keys_[i])) {
                return static_cast<int>(i);
            }
        }
        return -1;
    }

    [[nodiscard]] std::string_view key(int distance) const noexcept {
        return keys_[static_cast<std::size_t>(distance)];
    }

   private:
    std::array<std::string_view, kDeepest> keys_{};
    std::size_t count_ = 0;
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
    return doubt == Doubt::negative_rake || doubt == Doubt::misprint || doubt == Doubt::garbled;
}

struct Candidate {
    const SpeedRow* row = nullptr;
    int distance = 0;
};

/// Whether a is to be preferred to b.
bool better(const Catalogue& catalogue, const WindowQuery& query, double hb, const Candidate& a,
            const Candidate& b) noexcept {
    const auto rank = [&](const Candidate& c) {
        const SpeedRow& row = *c.row;
        return std::tuple{unfit(row.doubt) && has_speed(row),
                          !fits_diameter(row, query.diameter_mm),
                          c.distance,
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
    for (const SpeedRow& row : catalogue.speeds) {
        if (!wanted(row)) {
            continue;
        }
        const int distance = kin.distance(row.key);
        if (distance < 0) {
            continue;
        }
        const Candidate candidate{&row, distance};
        if (!best || better(catalogue, query, hb, candidate, *best)) {
            best = candidate;
        }
    }
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

/// Factor on a row's speed for a hardness outside its range.
double hardness_factor(const Catalogue& catalogue, const SpeedRow& row, const material::AlloyRow& alloy,
                       double hb) noexcept {
    if (std::isnan(hb) || alloy.iso513 == material::Iso513::n) {
        return 1.0;  // hardness does not set the speed of non-ferrous metals and plastics
    }
    if (!graded(row)) {
        const double reference = reference_hardness(catalogue, row, alloy);
        return std::isnan(reference) ? 1.0 : reference / hb;
    }
    if (hardness_distance(row, hb) == 0.0) {
        return 1.0;
    }
    const bool harder = hb > row.hardness_high_hb;
    const double edge = harder ? row.hardness_high_hb : row.hardness_low_hb;
    // A sister row on the other side of the gap: same table, same cut.
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
    if (sister == nullptr) {
        return edge / hb;
    }
    const double other_edge = harder ? sister->hardness_low_hb : sister->hardness_high_hb;
    const double along = std::log(hb / edge) / std::log(other_edge / edge);
    return std::pow(speed_high(*sister) / speed_high(row), along);
}

const OperationShareRow* share_row(const Catalogue& catalogue, Operation operation) noexcept {
    for (const OperationShareRow& row : catalogue.operation_shares) {
        if (row.operation == operation) {
            return &row;
        }
    }
    return nullptr;
}

const ToolShareRow* share_row(const Catalogue& catalogue, ToolMaterial tool) noexcept {
    for (const ToolShareRow& row : catalogue.tool_shares) {
        if (row.tool_material == tool) {
            return &row;
        }
    }
    return nullptr;
}

/// Operations to take a speed from, nearest in kind first.
constexpr std::array kStandIns{Operation::turn_rough, Operation::turn_finish, Operation::end_mill,
                               Operation::face_mill,  Operation::bore,        Operation::drill,
                               Operation::part_off,   Operation::thread,      Operation::ream,
                               Operation::tap,        Operation::knurl};
constexpr std::array kHoleStandIns{Operation::drill,    Operation::turn_rough, Operation::turn_finish,
                                   Operation::end_mill, Operation::face_mill,  Operation::bore,
                                   Operation::part_off, Operation::thread,     Operation::ream,
                                   Operation::tap,      Operation::knurl};

/// Whether an operation without rows of its own is nearest to drilling.
bool makes_hole(Operation operation) noexcept {
    return operation == Operation::spot || operation == Operation::countersink ||
           operation == Operation::counterbore;
}

constexpr std::array kToolStandIns{ToolMaterial::hss, ToolMaterial::carbide, ToolMaterial::carbide_coated,
                                   ToolMaterial::hss_cobalt, ToolMaterial::cast_cobalt};

double hardness_of(const WindowQuery& query) noexcept {
    return std::isnan(query.hardness_hb) ? query.alloy->hardness_hb : query.hardness_hb;
}

/// Fill the window from the best row of one operation and tool; false when there is none.
bool from_rows(const Catalogue& catalogue, const WindowQuery& query, const Kin& kin, Operation operation,
               ToolMaterial tool, bool unfit_rows, SpeedWindow& out) noexcept {
    const double hb = hardness_of(query);
    const auto best = best_row(catalogue, query, kin, hb, [&](const SpeedRow& row) {
        return row.operation == operation && row.tool_material == tool && has_speed(row) &&
               unfit(row.doubt) == unfit_rows;
    });
    if (!best) {
        return false;
    }
    const SpeedRow& row = *best->row;
    double factor = hardness_factor(catalogue, row, *query.alloy, hb);
    out.hardness_shifted = factor != 1.0;
    out.other_operation = operation != query.operation;
    if (out.other_operation) {
        const OperationShareRow* wanted = share_row(catalogue, query.operation);
        const OperationShareRow* given = share_row(catalogue, operation);
        if (wanted == nullptr || given == nullptr) {
            return false;
        }
        factor *= wanted->share / given->share;
        out.operation_row = row_ref(catalogue.operation_shares, *wanted);
    }
    out.other_tool = tool != query.tool_material;
    if (out.other_tool) {
        const ToolShareRow* wanted = share_row(catalogue, query.tool_material);
        const ToolShareRow* given = share_row(catalogue, tool);
        if (wanted == nullptr || given == nullptr) {
            return false;
        }
        factor *= wanted->share / given->share;
        out.tool_row = row_ref(catalogue.tool_shares, *wanted);
    }
    out.single_value = single_speed(row);
    out.high_m_min = speed_high(row) * factor;
    out.low_m_min = out.single_value ? out.high_m_min * kSingleValueLow : row.speed_low_m_min * factor;
    out.row = row_ref(catalogue.speeds, row);
    out.kinship = best->distance;
    out.doubtful = row.doubt != Doubt::none;
    return true;
}

}  // namespace

Status speed_window(const Catalogue& catalogue, const WindowQuery& query, SpeedWindow& out) noexcept {
    out = {};
    const Kin kin(catalogue, *query.alloy);
    const auto try_tools = [&](Operation operation, bool others, bool unfit_rows) {
        for (const ToolMaterial tool : kToolStandIns) {
            if ((tool != query.tool_material) == others &&
                from_rows(catalogue, query, kin, operation, tool, unfit_rows, out)) {
                return true;
            }
        }
        return false;
    };
    const auto try_all = [&](bool unfit_rows) {
        if (try_tools(query.operation, false, unfit_rows) || try_tools(query.operation, true, unfit_rows)) {
            return true;
        }
        for (const bool other_tools : {false, true}) {
            for (const Operation operation : makes_hole(query.operation) ? kHoleStandIns : kStandIns) {
                if (operation != query.operation && try_tools(operation, other_tools, unfit_rows)) {
                    return true;
                }
            }
        }
        return false;
    };
    if (try_all(false) || try_all(true)) {
        return {};
    }
    return {StatusCode::not_tabulated, 0};
}

Status feed_window(const Catalogue& catalogue, const WindowQuery& query, FeedWindow& out) noexcept {
    out = {};
    const FeedPer per = query.operation == Operation::end_mill || query.operation == Operation::face_mill
                            ? FeedPer::tooth
                            : FeedPer::rev;
    const Kin kin(catalogue, *query.alloy);
    const double hb = hardness_of(query);
    for (const bool any_tool : {false, true}) {
        const auto best = best_row(catalogue, query, kin, hb, [&](const SpeedRow& row) {
            return row.operation == query.operation &&
                   (any_tool || row.tool_material == query.tool_material) && has_feed(row) &&
                   row.feed_per == per;
        });
        if (best) {
            const SpeedRow& row = *best->row;
            out.single_value = std::isnan(row.feed_low_mm) || row.feed_low_mm == row.feed_high_mm;
            out.high_mm = row.feed_high_mm;
            out.low_mm = out.single_value ? kSingleFeedLow * row.feed_high_mm : row.feed_low_mm;
            out.row = row_ref(catalogue.speeds, row);
            out.kinship = best->distance;
            return {};
        }
    }
    return {StatusCode::not_tabulated, 0};
}

}  // namespace halfnut::cutting
