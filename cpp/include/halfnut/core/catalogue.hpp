#pragma once
/// The tables as one value: built in, or built in with a shop's own rows over them.
///
/// A Catalogue is a light view. builtin() in <halfnut/core/builtin.hpp> shows those compiled in; an Overlay
/// (<halfnut/core/overlay.hpp>) owns the text and the merged rows of a shop's tables and shows itself as a
/// Catalogue. Every function that looks a row up takes `const Catalogue&`. The rows are only declared here:
/// who reads a table includes its room's header.

#include <cstddef>
#include <cstdint>
#include <span>

#include "halfnut/core/evidence.hpp"
#include "halfnut/core/schema.hpp"

/// Every table of the catalogue, in the order of TableId: namespace, header, member and row type. Rules come
/// from one file a domain, every other table from the one file that its Schema names.
// clang-format off: one line a table
#define HALFNUT_TABLES(X) \
    X(halfnut, "core/evidence.hpp", rules, RuleRow) \
    X(halfnut, "core/tables.hpp", drills, DrillRow) \
    X(halfnut, "core/tables.hpp", cautions, CautionRow) \
    X(halfnut, "core/tables.hpp", words, WordRow) \
    X(halfnut::material, "material/tables.hpp", alloys, AlloyRow) \
    X(halfnut::material, "material/tables.hpp", groups, GroupRow) \
    X(halfnut::material, "material/tables.hpp", aliases, AliasRow) \
    X(halfnut::material, "material/tables.hpp", cutting_fluids, CuttingFluidRow) \
    X(halfnut::cutting, "cutting/tables.hpp", speeds, SpeedRow) \
    X(halfnut::cutting, "cutting/tables.hpp", drill_points, DrillPointRow) \
    X(halfnut::cutting, "cutting/tables.hpp", drill_materials, DrillMaterialRow) \
    X(halfnut::cutting, "cutting/tables.hpp", deep_holes, DeepHoleRow) \
    X(halfnut::cutting, "cutting/tables.hpp", drill_feeds, DrillFeedRow) \
    X(halfnut::cutting, "cutting/tables.hpp", drill_feed_bounds, DrillFeedBoundRow) \
    X(halfnut::cutting, "cutting/tables.hpp", drill_feed_shares, DrillFeedShareRow) \
    X(halfnut::cutting, "cutting/tables.hpp", tooth_feeds, ToothFeedRow) \
    X(halfnut::cutting, "cutting/tables.hpp", fire_limits, FireLimitRow) \
    X(halfnut::cutting, "cutting/tables.hpp", force_bands, ForceBandRow) \
    X(halfnut::cutting, "cutting/tables.hpp", operation_shares, OperationShareRow) \
    X(halfnut::cutting, "cutting/tables.hpp", tool_lives, ToolLifeRow) \
    X(halfnut::cutting, "cutting/tables.hpp", tool_shares, ToolShareRow) \
    X(halfnut::cutting, "cutting/tables.hpp", tools, ToolRow) \
    X(halfnut::cutting, "cutting/tables.hpp", index_plates, IndexPlateRow) \
    X(halfnut::cutting, "cutting/tables.hpp", gauge_blocks, GaugeBlockRow) \
    X(halfnut::job, "job/tables.hpp", run_outs, RunOutRow) \
    X(halfnut::cutting, "cutting/tables.hpp", finish_bands, FinishBandRow) \
    X(halfnut::cutting, "cutting/tables.hpp", overhangs, OverhangRow) \
    X(halfnut::cutting, "cutting/tables.hpp", force_scales, ForceScaleRow) \
    X(halfnut::cutting, "cutting/tables.hpp", skins, SkinRow) \
    X(halfnut::cutting, "cutting/tables.hpp", tap_cores, TapCoreRow) \
    X(halfnut::knurls, "knurls/tables.hpp", knurl_diametral_pitches, DiametralPitchRow) \
    X(halfnut::knurls, "knurls/tables.hpp", knurl_tolerances, DiametralToleranceRow) \
    X(halfnut::knurls, "knurls/tables.hpp", knurl_diametral_wheels, DiametralWheelRow) \
    X(halfnut::knurls, "knurls/tables.hpp", knurl_metric_pitches, MetricPitchRow) \
    X(halfnut::knurls, "knurls/tables.hpp", knurl_forms, MetricFormRow) \
    X(halfnut::knurls, "knurls/tables.hpp", knurl_metric_wheels, MetricWheelRow) \
    X(halfnut::knurls, "knurls/tables.hpp", knurl_names, CircularNameRow) \
    X(halfnut::knurls, "knurls/tables.hpp", knurl_tooth_depths, ToothDepthRow) \
    X(halfnut::fits, "fits/tables.hpp", iso_grades, IsoGradeRow) \
    X(halfnut::fits, "fits/tables.hpp", iso_fundamental_deviations, IsoDeviationRow) \
    X(halfnut::fits, "fits/tables.hpp", ansi_fits, AnsiFitRow) \
    X(halfnut::fits, "fits/tables.hpp", preferred_fits, PreferredFitRow) \
    X(halfnut::fits, "fits/tables.hpp", holding_tapers, HoldingTaperRow) \
    X(halfnut::threads, "threads/tables.hpp", iso_deviations, IsoDeviationRow) \
    X(halfnut::threads, "threads/tables.hpp", iso_external_major, IsoExternalMajorRow) \
    X(halfnut::threads, "threads/tables.hpp", iso_internal_minor, IsoInternalMinorRow) \
    X(halfnut::threads, "threads/tables.hpp", iso_external_pitch, IsoExternalPitchRow) \
    X(halfnut::threads, "threads/tables.hpp", iso_internal_pitch, IsoInternalPitchRow) \
    X(halfnut::threads, "threads/tables.hpp", iso_engagement, IsoEngagementRow) \
    X(halfnut::threads, "threads/tables.hpp", iso_series, IsoSeriesRow) \
    X(halfnut::threads, "threads/tables.hpp", unified_series, UnifiedSeriesRow) \
    X(halfnut::threads, "threads/tables.hpp", unified_tolerance_diameters, UnifiedToleranceDiameterRow) \
    X(halfnut::threads, "threads/form_tables.hpp", thread_forms, ThreadFormRow) \
    X(halfnut::threads, "threads/form_tables.hpp", form_series, FormSeriesRow) \
    X(halfnut::threads, "threads/form_tables.hpp", trapezoidal_pitches, TrapezoidalPitchRow) \
    X(halfnut::threads, "threads/form_tables.hpp", trapezoidal_tolerances, TrapezoidalToleranceRow) \
    X(halfnut::threads, "threads/form_tables.hpp", acme_classes, AcmeClassRow) \
    X(halfnut::threads, "threads/form_tables.hpp", pipe_tolerances, PipeToleranceRow) \
    X(halfnut::threads, "threads/form_tables.hpp", taper_pipe, TaperPipeRow) \
    X(halfnut::threads, "threads/form_tables.hpp", whitworth_classes, WhitworthClassRow) \
    X(halfnut::threads, "threads/gauging_tables.hpp", wires, WireRow) \
    X(halfnut::threads, "threads/gauging_tables.hpp", measuring_forces, MeasuringForceRow) \
    X(halfnut::threads, "threads/gauging_tables.hpp", coatings, CoatingRow) \
    X(halfnut::material, "material/tables.hpp", strengths, StrengthRow) \
    X(halfnut::threads, "threads/joint_tables.hpp", bolt_grades, BoltGradeRow) \
    X(halfnut::threads, "threads/joint_tables.hpp", nut_factors, NutFactorRow) \
    X(halfnut::threads, "threads/joint_tables.hpp", thread_friction, ThreadFrictionRow) \
    X(halfnut::threads, "threads/joint_tables.hpp", galling, GallingRow) \
    X(halfnut::threads, "threads/joint_tables.hpp", engagement_practice, EngagementPracticeRow) \
    X(halfnut::threads, "threads/hole_tables.hpp", drill_sets, DrillSetRow) \
    X(halfnut::threads, "threads/hole_tables.hpp", drill_oversize, DrillOversizeRow) \
    X(halfnut::threads, "threads/hole_tables.hpp", tap_leads, TapLeadRow) \
    X(halfnut::threads, "threads/hole_tables.hpp", metric_clearance, MetricClearanceRow) \
    X(halfnut::threads, "threads/hole_tables.hpp", inch_clearance, InchClearanceRow) \
    X(halfnut::threads, "threads/hole_tables.hpp", screw_heads, ScrewHeadRow) \
    X(halfnut::threads, "threads/column_tables.hpp", column_ends, ColumnEndRow)
// clang-format on

#define HALFNUT_TABLE(space, header, member, row) \
    namespace space {                             \
    struct row;                                   \
    }
HALFNUT_TABLES(HALFNUT_TABLE)
#undef HALFNUT_TABLE

namespace halfnut {

struct Catalogue {
    std::span<const SourceRow> sources;
    std::span<const std::uint16_t> rule_starts;  ///< place in `rules` of each domain's first
    std::span<const RefusedRow> refused;         ///< rows of a shop's tables that cannot be used
#define HALFNUT_TABLE(space, header, member, row) Rows<space::row> member;
    HALFNUT_TABLES(HALFNUT_TABLE)
#undef HALFNUT_TABLE
};

/// A table of the catalogue; RowRef::table holds it.
enum class TableId : std::uint8_t {
#define HALFNUT_TABLE(space, header, member, row) member,
    HALFNUT_TABLES(HALFNUT_TABLE)
#undef HALFNUT_TABLE
};

/// The table of a row type.
template <class Row>
inline constexpr TableId kTableOf =
    [] { static_assert(sizeof(Row) == 0, "no table has rows of this type"); }();
#define HALFNUT_TABLE(space, header, member, row) \
    template <>                                   \
    inline constexpr TableId kTableOf<space::row> = TableId::member;
HALFNUT_TABLES(HALFNUT_TABLE)
#undef HALFNUT_TABLE

/// Reference to a row of one of the catalogue's tables, for evidence. `source` is the place among the row's
/// source columns of the one to cite; see source_place().
template <class Row>
constexpr RowRef row_ref(Rows<Row> table, const Row& row, std::uint8_t source = 0) noexcept {
    return {static_cast<std::uint8_t>(kTableOf<Row>), static_cast<std::uint16_t>(&row - table.data()),
            source};
}

/// The rule at a place of Catalogue::rules.
[[nodiscard]] constexpr RuleId rule_at(const Catalogue& catalogue, std::size_t place) noexcept {
    std::size_t domain = catalogue.rule_starts.size();
    while (domain > 1 && catalogue.rule_starts[domain - 1] > place) {
        --domain;
    }
    return {static_cast<std::uint8_t>(domain - 1),
            static_cast<std::uint16_t>(place - catalogue.rule_starts[domain - 1])};
}

}  // namespace halfnut
