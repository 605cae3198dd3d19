#include "turn_cases.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <limits>
#include <mutex>

#include "halfnut/cutting/constants.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/kin_rows.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"

namespace halfnut::batch {

using namespace cutting;

namespace {

constexpr std::size_t kTools = enum_names(ToolMaterial{}).size();
constexpr double kAnyFeed = 0.2;
constexpr double kHuge = 1e6;

// A case's id: alloy, tool, place. Ten bits hold the places of an alloy and tool, three the tool.
constexpr unsigned kPlaceBits = 10;
constexpr unsigned kToolBits = 3;

std::int32_t case_id(std::uint16_t alloy, ToolMaterial tool, std::size_t place) {
    return static_cast<std::int32_t>(
        (static_cast<std::size_t>(alloy) << kToolBits | static_cast<std::size_t>(tool)) << kPlaceBits |
        place);
}

double above(double x) noexcept {
    return std::nextafter(x, std::numeric_limits<double>::infinity());
}
double below(double x) noexcept {
    return std::nextafter(x, 0.0);
}

/// The greatest depth that a row of a depth still reaches; see depth_order() of the windows.
double last_depth(double row_depth) noexcept {
    double depth = row_depth + kDepthSlackMm;
    while (depth - kDepthSlackMm > row_depth) {
        depth = below(depth);
    }
    while (above(depth) - kDepthSlackMm <= row_depth) {
        depth = above(depth);
    }
    return depth;
}

void sort_unique(std::vector<double>& edges) {
    std::sort(edges.begin(), edges.end());
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
}

bool same(const TurnTables& a, const TurnTables& b) noexcept {
    const SpeedWindow& v = a.window;
    const SpeedWindow& w = b.window;
    const FeedWindow& f = a.feeds;
    const FeedWindow& g = b.feeds;
    return v.row == w.row && v.low_m_min == w.low_m_min && v.high_m_min == w.high_m_min &&
           v.held_row == w.held_row && v.held_tool_row == w.held_tool_row &&
           v.held_by_life == w.held_by_life && v.weak == w.weak && v.hardness_shifted == w.hardness_shifted &&
           v.as_finishing == w.as_finishing && v.other_operation == w.other_operation &&
           v.other_tool == w.other_tool && a.has_feeds == b.has_feeds &&
           (!a.has_feeds || (f.row == g.row && f.low_mm == g.low_mm && f.high_mm == g.high_mm));
}

/// Works out the side of a grid: where its tables may change, what they give there, and what of it is
/// distinct.
class SideMaker {
   public:
    SideMaker(const Catalogue& catalogue, std::uint16_t alloy, ToolMaterial tool, bool finish)
        : catalogue_(catalogue), kin_(catalogue, catalogue.alloys[alloy]) {
        request_.work.alloy = alloy;
        request_.tool_material = tool;
        request_.finish = finish;
    }

    TurnCases::Grid::Side make(std::vector<TurnCase>& cases) {
        TurnCases::Grid::Side side;
        side.usual_feed = usual_feed_mm(LatheCut::turn, request_.finish);
        const TurnTables first = tables(usual_depth(), kAnyFeed);
        if (!first.window_status.ok()) {
            return side;
        }
        side.answered = true;
        find_edges(first);
        fill(side);
        drop_equal();
        number(side, cases);
        side.depths.set(depth_edges_);
        side.feeds.set(feed_edges_);
        side.across = feed_edges_.size() + 1;
        return side;
    }

   private:
    struct Cell {
        double depth;
        double feed;
        TurnTables tables;
    };

    [[nodiscard]] double usual_depth() const { return usual_depth_mm(kHuge, request_.finish, false); }

    TurnTables tables(double depth, double feed) {
        request_.depth_mm = depth;
        request_.diameter_mm = kHuge;
        request_.feed_mm_rev = kNaN;
        const TurnTables open = turn_tables(catalogue_, request_, &kin_);
        request_.feed_mm_rev = feed;
        TurnTables out = turn_tables(catalogue_, request_, &kin_);
        out.feeds = open.feeds;
        out.has_feeds = open.has_feeds;
        return out;
    }

    /// Where a step of depth or feed can change which row is preferred.
    void find_edges(const TurnTables& first) {
        const SpeedRow& won = catalogue_.speeds[first.window.row.row];
        for (const KinRow<SpeedRow>& each : kin_.speeds) {
            const SpeedRow& row = *each.row;
            // Rough turning of any tool may hold the window, or be what it is a share of.
            const bool counts = row.operation == won.operation || row.operation == Operation::turn_rough ||
                                row.operation == Operation::turn_finish || row.operation == first.operation;
            if (!counts) {
                continue;
            }
            // A cut as shallow as a finishing cut is one, so that no rough side has it.
            if (!std::isnan(row.depth_high_mm) &&
                (request_.finish || last_depth(row.depth_high_mm) > kFinishDepthMm)) {
                depth_edges_.push_back(last_depth(row.depth_high_mm));
            }
            if (!std::isnan(row.feed_high_mm)) {
                feed_edges_.push_back(kAboutFeed * row.feed_high_mm);
                feed_edges_.push_back(kSameFeed * row.feed_high_mm);
                if (row.feed_low_mm > 0.0) {
                    feed_edges_.push_back(below(row.feed_low_mm / kAboutFeed));
                    feed_edges_.push_back(below(row.feed_low_mm / kSameFeed));
                }
            }
        }
        sort_unique(depth_edges_);
        sort_unique(feed_edges_);
    }

    void fill(const TurnCases::Grid::Side& side) {
        for (std::size_t i = 0; i <= depth_edges_.size(); ++i) {
            const double depth = i < depth_edges_.size() ? depth_edges_[i]
                                 : i == 0                ? usual_depth()
                                                         : 2.0 * depth_edges_.back();
            std::vector<Cell>& line = grid_.emplace_back();
            for (std::size_t j = 0; j <= feed_edges_.size(); ++j) {
                const double feed = j < feed_edges_.size() ? feed_edges_[j]
                                    : j == 0               ? side.usual_feed
                                                           : 2.0 * feed_edges_.back();
                line.push_back({depth, feed, tables(depth, feed)});
            }
        }
    }

    void drop_equal() {
        for (std::size_t i = depth_edges_.size(); i-- > 0;) {
            bool equal = true;
            for (std::size_t j = 0; j < grid_[i].size(); ++j) {
                equal = equal && same(grid_[i][j].tables, grid_[i + 1][j].tables);
            }
            if (equal) {
                depth_edges_.erase(depth_edges_.begin() + static_cast<std::ptrdiff_t>(i));
                grid_.erase(grid_.begin() + static_cast<std::ptrdiff_t>(i) + 1);
            }
        }
        for (std::size_t j = feed_edges_.size(); j-- > 0;) {
            bool equal = true;
            for (const std::vector<Cell>& line : grid_) {
                equal = equal && same(line[j].tables, line[j + 1].tables);
            }
            if (equal) {
                feed_edges_.erase(feed_edges_.begin() + static_cast<std::ptrdiff_t>(j));
                for (std::vector<Cell>& line : grid_) {
                    line.erase(line.begin() + static_cast<std::ptrdiff_t>(j) + 1);
                }
            }
        }
    }

    void number(TurnCases::Grid::Side& side, std::vector<TurnCase>& cases) {
        const std::size_t before = cases.size();
        for (const std::vector<Cell>& line : grid_) {
            for (const Cell& cell : line) {
                const auto known =
                    std::find_if(cases.begin() + static_cast<std::ptrdiff_t>(before), cases.end(),
                                 [&](const TurnCase& at) { return same(at.tables, cell.tables); });
                side.cells.push_back(static_cast<std::uint16_t>(known - cases.begin()));
                if (known == cases.end()) {
                    cases.push_back({-1, request_.work.alloy, request_.tool_material, request_.finish,
                                     cell.depth, cell.feed, cell.tables});
                }
            }
        }
    }

    const Catalogue& catalogue_;
    const KinRows kin_;
    TurnRequest request_;
    std::vector<double> depth_edges_;
    std::vector<double> feed_edges_;
    std::vector<std::vector<Cell>> grid_;
};

CaseNumbers numbers_of(const Catalogue& catalogue, const TurnCase& one) {
    const material::AlloyRow& alloy = catalogue.alloys[one.alloy];
    const TurnTables& tables = one.tables;
    CaseNumbers out;
    out.id = one.id;
    out.low_m_min = tables.window.low_m_min;
    out.high_m_min = tables.window.high_m_min;
    out.kc11 = tables.constants.kc11_n_mm2;
    out.mc = tables.constants.mc;
    if (!std::isnan(tables.constants.speed_m_min)) {
        out.reference_log2 = SpeedCorrection::log2_at(tables.constants.speed_m_min);
    }
    out.band_low = tables.band.low;
    out.band_high = std::isnan(tables.band.high) ? 1.0 : tables.band.high;
    out.modulus = alloy.youngs_modulus_gpa;
    out.reference_rake = tables.constants.rake_deg;
    out.burns = fire_limit(catalogue, alloy) != nullptr;
    out.usual_feed = usual_feed_mm(LatheCut::turn, one.finish);
    if (const FinishBandRow* const finish = finish_band(catalogue, alloy, one.tool_material)) {
        out.finish_aim = finish->aim;
        out.finish_low = finish->low;
        out.finish_high = finish->high * finish->worn;
    }
    if (tables.has_feeds) {
        out.feed_low = tables.feeds.low_mm;
        out.feed_high = tables.feeds.high_mm;
    }
    // Cautions of the tables are those that the case's own answer has, whatever the cut.
    TurnRequest request;
    request.work.alloy = one.alloy;
    request.tool_material = one.tool_material;
    request.finish = one.finish;
    request.diameter_mm = 1000.0;
    request.depth_mm = 0.5;
    request.feed_mm_rev = 0.1;
    CutResult cut;
    if (evaluate(catalogue, any_machine(), request, tables, cut).ok()) {
        for (const CautionCode code : {CautionCode::window_stand_in, CautionCode::window_doubtful,
                                       CautionCode::window_far, CautionCode::force_rough}) {
            out.cautions |= cut.has(code) ? std::uint64_t{1} << static_cast<unsigned>(code) : 0U;
        }
    }
    return out;
}

}  // namespace

struct TurnCases::State {
    std::mutex writing;
    // A grid is published by its pointer once it is whole, and never changed.
    std::vector<std::atomic<const Grid*>> grids;
    std::vector<std::unique_ptr<const Grid>> owned;

    explicit State(std::size_t count) : grids(count) {}
};

TurnCases::TurnCases(const Catalogue& catalogue)
    : catalogue_(&catalogue), state_(std::make_unique<State>(catalogue.alloys.size() * kTools)) {}

TurnCases::~TurnCases() = default;

const TurnCases::Grid* TurnCases::grid(std::uint16_t alloy, ToolMaterial tool) const noexcept {
    const std::size_t place = alloy * kTools + static_cast<std::size_t>(tool);
    return place < state_->grids.size() ? state_->grids[place].load(std::memory_order_acquire) : nullptr;
}

void TurnCases::prepare(const std::vector<std::int32_t>& alloys, ToolMaterial tool) const {
    for (const std::int32_t alloy : alloys) {
        if (alloy < 0 || static_cast<std::size_t>(alloy) >= catalogue_->alloys.size()) {
            continue;
        }
        const auto row = static_cast<std::uint16_t>(alloy);
        if (grid(row, tool) != nullptr) {
            continue;
        }
        auto made = std::make_unique<Grid>();
        for (const bool finish : {false, true}) {
            made->sides[finish ? 1 : 0] = SideMaker(*catalogue_, row, tool, finish).make(made->cases);
        }
        if (made->cases.size() >= std::size_t{1} << kPlaceBits) {
            throw DomainError("too many rows of speeds for one alloy");
        }
        for (std::size_t i = 0; i < made->cases.size(); ++i) {
            made->cases[i].id = case_id(row, tool, i);
            made->numbers.push_back(numbers_of(*catalogue_, made->cases[i]));
        }
        const std::lock_guard lock(state_->writing);
        if (grid(row, tool) == nullptr) {
            state_->grids[row * kTools + static_cast<std::size_t>(tool)].store(made.get(),
                                                                               std::memory_order_release);
            state_->owned.push_back(std::move(made));
        }
    }
}

const TurnCase* TurnCases::find(std::int32_t id) const {
    if (id < 0) {
        return nullptr;
    }
    const auto bits = static_cast<std::size_t>(id);
    const std::size_t tool = bits >> kPlaceBits & ((std::size_t{1} << kToolBits) - 1);
    if (tool >= kTools || bits >> (kPlaceBits + kToolBits) > 0xffffU) {
        return nullptr;
    }
    const auto alloy = static_cast<std::uint16_t>(bits >> (kPlaceBits + kToolBits));
    prepare({alloy}, static_cast<ToolMaterial>(tool));  // where no row of this process had it
    const Grid* const found = grid(alloy, static_cast<ToolMaterial>(tool));
    const std::size_t place = bits & ((std::size_t{1} << kPlaceBits) - 1);
    return found != nullptr && place < found->cases.size() ? &found->cases[place] : nullptr;
}

}  // namespace halfnut::batch
