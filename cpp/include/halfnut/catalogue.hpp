#pragma once
/// The tables as one value: built in, or built in with a shop's own rows over them.
///
/// A Catalogue is a light view (spans). builtin() in <halfnut/builtin.hpp> shows those compiled in; an
/// Overlay owns the text and the merged rows of a shop's tables and shows itself as a Catalogue. Every
/// function that looks a row up takes `const Catalogue&`.

#include <deque>
#include <memory>
#include <span>
#include <string>
#include <tuple>
#include <vector>

#include "halfnut/cutting/tables.hpp"
#include "halfnut/evidence.hpp"
#include "halfnut/fits/tables.hpp"
#include "halfnut/knurls/tables.hpp"
#include "halfnut/material/tables.hpp"
#include "halfnut/quantity_tables.hpp"
#include "halfnut/schema.hpp"
#include "halfnut/threads/column_tables.hpp"
#include "halfnut/threads/form_tables.hpp"
#include "halfnut/threads/gauging_tables.hpp"
#include "halfnut/threads/hole_tables.hpp"
#include "halfnut/threads/joint_tables.hpp"
#include "halfnut/threads/tables.hpp"

namespace halfnut {

struct Catalogue {
    std::span<const SourceRow> sources;
    std::span<const RuleRow> rules;
    std::span<const std::uint16_t> rule_starts;  ///< place in `rules` of each domain's first
    std::span<const DrillRow> drills;
    std::span<const material::AlloyRow> alloys;
    std::span<const material::GroupRow> groups;
    std::span<const material::AliasRow> aliases;
    std::span<const cutting::SpeedRow> speeds;
    std::span<const cutting::DrillPointRow> drill_points;
    std::span<const cutting::DrillMaterialRow> drill_materials;
    std::span<const cutting::DeepHoleRow> deep_holes;
    std::span<const cutting::DrillFeedRow> drill_feeds;
    std::span<const cutting::DrillFeedBoundRow> drill_feed_bounds;
    std::span<const cutting::DrillFeedShareRow> drill_feed_shares;
    std::span<const cutting::ToothFeedRow> tooth_feeds;
    std::span<const cutting::FireLimitRow> fire_limits;
    std::span<const cutting::ForceBandRow> force_bands;
    std::span<const cutting::OperationShareRow> operation_shares;
    std::span<const cutting::ToolLifeRow> tool_lives;
    std::span<const cutting::ToolShareRow> tool_shares;
    std::span<const cutting::ToolRow> tools;
    std::span<const knurls::DiametralPitchRow> knurl_diametral_pitches;
    std::span<const knurls::DiametralToleranceRow> knurl_tolerances;
    std::span<const knurls::DiametralWheelRow> knurl_diametral_wheels;
    std::span<const knurls::MetricPitchRow> knurl_metric_pitches;
    std::span<const knurls::MetricFormRow> knurl_forms;
    std::span<const knurls::MetricWheelRow> knurl_metric_wheels;
    std::span<const knurls::CircularNameRow> knurl_names;
    std::span<const knurls::ToothDepthRow> knurl_tooth_depths;
    std::span<const fits::IsoGradeRow> iso_grades;
    std::span<const fits::IsoDeviationRow> iso_fundamental_deviations;
    std::span<const fits::AnsiFitRow> ansi_fits;
    std::span<const fits::PreferredFitRow> preferred_fits;
    std::span<const fits::HoldingTaperRow> holding_tapers;
    std::span<const threads::IsoDeviationRow> iso_deviations;
    std::span<const threads::IsoExternalMajorRow> iso_external_major;
    std::span<const threads::IsoInternalMinorRow> iso_internal_minor;
    std::span<const threads::IsoExternalPitchRow> iso_external_pitch;
    std::span<const threads::IsoInternalPitchRow> iso_internal_pitch;
    std::span<const threads::IsoEngagementRow> iso_engagement;
    std::span<const threads::IsoSeriesRow> iso_series;
    std::span<const threads::UnifiedSeriesRow> unified_series;
    std::span<const threads::UnifiedToleranceDiameterRow> unified_tolerance_diameters;
    std::span<const threads::ThreadFormRow> thread_forms;
    std::span<const threads::FormSeriesRow> form_series;
    std::span<const threads::TrapezoidalPitchRow> trapezoidal_pitches;
    std::span<const threads::TrapezoidalToleranceRow> trapezoidal_tolerances;
    std::span<const threads::AcmeClassRow> acme_classes;
    std::span<const threads::PipeToleranceRow> pipe_tolerances;
    std::span<const threads::TaperPipeRow> taper_pipe;
    std::span<const threads::WhitworthClassRow> whitworth_classes;
    std::span<const threads::WireRow> wires;
    std::span<const threads::MeasuringForceRow> measuring_forces;
    std::span<const threads::CoatingRow> coatings;
    std::span<const material::StrengthRow> strengths;
    std::span<const threads::BoltGradeRow> bolt_grades;
    std::span<const threads::NutFactorRow> nut_factors;
    std::span<const threads::ThreadFrictionRow> thread_friction;
    std::span<const threads::GallingRow> galling;
    std::span<const threads::EngagementPracticeRow> engagement_practice;
    std::span<const threads::DrillSetRow> drill_sets;
    std::span<const threads::DrillOversizeRow> drill_oversize;
    std::span<const threads::TapLeadRow> tap_leads;
    std::span<const threads::MetricClearanceRow> metric_clearance;
    std::span<const threads::InchClearanceRow> inch_clearance;
    std::span<const threads::ScrewHeadRow> screw_heads;
    std::span<const threads::ColumnEndRow> column_ends;
    std::span<const RefusedRow> refused;  ///< rows of a shop's tables that cannot be used
};

/// Every table of the catalogue, in a fixed order (RowRef::table counts in it). Rules come from one file
/// a domain, every other table from the one file that its Schema names.
// clang-format off: one line a table
inline constexpr auto kTables = std::tuple{
    &Catalogue::rules,
    &Catalogue::drills,
    &Catalogue::alloys,
    &Catalogue::groups,
    &Catalogue::aliases,
    &Catalogue::speeds,
    &Catalogue::drill_points,
    &Catalogue::drill_materials,
    &Catalogue::deep_holes,
    &Catalogue::drill_feeds,
    &Catalogue::drill_feed_bounds,
    &Catalogue::drill_feed_shares,
    &Catalogue::tooth_feeds,
    &Catalogue::fire_limits,
    &Catalogue::force_bands,
    &Catalogue::operation_shares,
    &Catalogue::tool_lives,
    &Catalogue::tool_shares,
    &Catalogue::tools,
    &Catalogue::knurl_diametral_pitches,
    &Catalogue::knurl_tolerances,
    &Catalogue::knurl_diametral_wheels,
    &Catalogue::knurl_metric_pitches,
    &Catalogue::knurl_forms,
    &Catalogue::knurl_metric_wheels,
    &Catalogue::knurl_names,
    &Catalogue::knurl_tooth_depths,
    &Catalogue::iso_grades,
    &Catalogue::iso_fundamental_deviations,
    &Catalogue::ansi_fits,
    &Catalogue::preferred_fits,
    &Catalogue::holding_tapers,
    &Catalogue::iso_deviations,
    &Catalogue::iso_external_major,
    &Catalogue::iso_internal_minor,
    &Catalogue::iso_external_pitch,
    &Catalogue::iso_internal_pitch,
    &Catalogue::iso_engagement,
    &Catalogue::iso_series,
    &Catalogue::unified_series,
    &Catalogue::unified_tolerance_diameters,
    &Catalogue::thread_forms,
    &Catalogue::form_series,
    &Catalogue::trapezoidal_pitches,
    &Catalogue::trapezoidal_tolerances,
    &Catalogue::acme_classes,
    &Catalogue::pipe_tolerances,
    &Catalogue::taper_pipe,
    &Catalogue::whitworth_classes,
    &Catalogue::wires,
    &Catalogue::measuring_forces,
    &Catalogue::coatings,
    &Catalogue::strengths,
    &Catalogue::bolt_grades,
    &Catalogue::nut_factors,
    &Catalogue::thread_friction,
    &Catalogue::galling,
    &Catalogue::engagement_practice,
    &Catalogue::drill_sets,
    &Catalogue::drill_oversize,
    &Catalogue::tap_leads,
    &Catalogue::metric_clearance,
    &Catalogue::inch_clearance,
    &Catalogue::screw_heads,
    &Catalogue::column_ends,
};
// clang-format on

template <class Row>
using TableMember = std::span<const Row> Catalogue::*;

namespace detail {
template <class Row>
Row row_of(TableMember<Row> member);
}

/// Row type of an entry of kTables.
template <class Member>
using TableRow = decltype(detail::row_of(std::declval<Member>()));

namespace detail {
template <class Row, std::size_t I = 0>
constexpr std::uint8_t table_index() {
    using Entry = std::tuple_element_t<I, std::remove_const_t<decltype(kTables)>>;
    if constexpr (std::is_same_v<TableRow<Entry>, Row>) {
        return static_cast<std::uint8_t>(I);
    } else {
        return table_index<Row, I + 1>();
    }
}
}  // namespace detail

/// Reference to a row of one of the catalogue's spans, for evidence. `source` is the place among the row's
/// source columns of the one to cite; see source_place().
template <class Row>
constexpr RowRef row_ref(std::span<const Row> table, const Row& row, std::uint8_t source = 0) noexcept {
    return {detail::table_index<Row>(), static_cast<std::uint16_t>(&row - table.data()), source};
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

/// A shop's own rows over another catalogue. A row with the key of a base row replaces it.
///
/// Every source of an overlay is of kind `shop`, whatever its own file says, so that evidence shows that
/// the number is the shop's. A row with a mistake is refused, listed in Catalogue::refused with every mistake
/// in it, and stops nothing else. An alloy's row may be "like" another alloy: what it leaves empty is that
/// one's.
class Overlay {
   public:
    explicit Overlay(const Catalogue& base);
    Overlay(const Overlay&) = delete;
    Overlay& operator=(const Overlay&) = delete;
    ~Overlay();

    /// Lay a table's text over what is there.
    ///
    /// Given
    ///   table  the table's name, such as "material/alloys"
    ///   text   the file's text, in the format of the built-in tables
    ///   name   what error messages call it
    ///   lines  where each row stands, for messages; its line in `text` when empty
    /// Errors
    ///   TableError         text that is no table, naming `name` and the line
    ///   NotTabulatedError  no table of that name; the message lists the names
    void add(std::string_view table, std::string_view text, std::string_view name,
             std::span<const std::size_t> lines = {});

    [[nodiscard]] const Catalogue& catalogue() const noexcept;

   private:
    struct Rows;
    std::unique_ptr<Rows> rows_;
};

}  // namespace halfnut
