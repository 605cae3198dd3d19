#pragma once
/// Batches of cuts: turning by blocks of plain arithmetic, drilling and milling by evaluate() row by row.

#include <array>
#include <cstdint>
#include <memory>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/batch/run.hpp"
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/cutting/turning.hpp"

namespace halfnut::batch {

/// Where the answers of cuts go; a null column is left out. Each has a place for every row.
struct CutColumns {
    std::array<double*, cutting::kCutFigures.size()> figures{};
    std::uint16_t* spindle_step = nullptr;
    std::uint16_t* feed_step = nullptr;
    std::uint16_t* passes = nullptr;
    std::uint8_t* limited_by = nullptr;  ///< a LimitCode
    std::uint64_t* cautions = nullptr;   ///< bits by CautionCode
    std::int32_t* case_id = nullptr;     ///< see TurnCases; -1 for none
    Outcome outcome;
};

/// Instruction sets that the block of turning is built for; all give the same bits.
enum class Clone : std::uint8_t { portable, avx2, avx512 };

constexpr auto enum_names(Clone /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Clone::portable, string_view("portable")},
                      std::pair{Clone::avx2, string_view("avx2")},
                      std::pair{Clone::avx512, string_view("avx512")}};
}

/// The widest that was built and that this processor has.
[[nodiscard]] Clone widest_clone() noexcept;

/// What all rows of a batch of cuts share.
struct CutSetting {
    const Catalogue* catalogue = nullptr;
    const machine::Machine* machine = nullptr;  ///< any_machine() for none in particular
    std::vector<std::int32_t> alloys;  ///< rows of the catalogue that the alloy column counts in; -1: unknown
    int chuck = -1;
    std::size_t workers = 0;  ///< 0: one a core
};

/// Columns that every kind of cut has.
struct WorkColumns {
    Codes alloy;  ///< places in CutSetting::alloys; any other number is an unknown alloy
    Numbers hardness_hb;
    Codes tool_material{nullptr, static_cast<std::int32_t>(cutting::ToolMaterial::hss)};
};

struct TurnColumns {
    WorkColumns work;
    std::array<Numbers, cutting::kTurnArguments.size()> numbers{};  ///< in the order of kTurnArguments
    const std::uint8_t* finish = nullptr;                           ///< 0 or 1 a row; null: `finish_all`
    bool finish_all = false;
    bool inch = false;  ///< the question is in inch units: so are the usual sizes
    cutting::Hold hold{};
};

/// One distinct case of turning: rows that share it rest on the same rows of the tables.
struct TurnCase {
    std::int32_t id = -1;
    std::uint16_t alloy = 0;
    cutting::ToolMaterial tool_material{};
    bool finish = false;
    double depth_mm = kNaN;  ///< a depth and a feed that it holds for
    double feed_mm_rev = kNaN;
    cutting::TurnTables tables;
};

/// The cases of turning in a catalogue: alloy by tool by rough or finish, and within these by depth and feed
/// where the tables have several rows. Their ids depend on the catalogue alone.
///
/// Cases are worked out for an alloy when it is first prepared, then kept. Reading is safe from many threads
/// at once, also while another prepares.
class TurnCases {
   public:
    explicit TurnCases(const Catalogue& catalogue);
    ~TurnCases();
    TurnCases(const TurnCases&) = delete;
    TurnCases& operator=(const TurnCases&) = delete;

    /// Work out what is missing for these alloys with this tool.
    void prepare(const std::vector<std::int32_t>& alloys, cutting::ToolMaterial tool) const;

    /// The case of an id, prepared where it was not yet; null where there is none.
    [[nodiscard]] const TurnCase* find(std::int32_t id) const;

    struct Grid;
    /// The cases of one alloy and tool, or null.
    [[nodiscard]] const Grid* grid(std::uint16_t alloy, cutting::ToolMaterial tool) const noexcept;

   private:
    struct State;
    const Catalogue* catalogue_;
    std::unique_ptr<State> state_;
};

/// Turn many diameters.
///
/// Every row is what cutting::evaluate() gives for the same numbers, bit for bit, for any clone and number of
/// workers. Rows of the ordinary kind go through blocks of plain arithmetic; the others (a number out of
/// range or of an extreme size, a spindle speed that was asked for, a hardness of the work's own, a feed that
/// was left open and that a limit holds back, figures of tool life or of handles) through evaluate() itself.
///
/// Given
///   cases     of the same catalogue; what the alloys need is prepared here
///   setting   what all rows share
///   columns   the rows
///   rows      how many
///   out       where the answers go
///   clone     instruction set; at most widest_clone()
void turn(const TurnCases& cases, const CutSetting& setting, const TurnColumns& columns, std::size_t rows,
          const CutColumns& out, Clone clone = widest_clone());

struct HoleColumns {
    WorkColumns work;
    std::array<Numbers, cutting::kHoleArguments.size()> numbers{};  ///< in the order of kHoleArguments
    cutting::HoleCut cut{};
};

/// Holes, row by row.
void holes(const CutSetting& setting, const HoleColumns& columns, std::size_t rows, const CutColumns& out);

struct MillColumns {
    WorkColumns work;
    std::array<Numbers, cutting::kMillArguments.size()> numbers{};  ///< in the order of kMillArguments
    cutting::MillShape shape{};
};

/// Milling, row by row.
void mill(const CutSetting& setting, const MillColumns& columns, std::size_t rows, const CutColumns& out);

}  // namespace halfnut::batch
