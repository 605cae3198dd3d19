// How far a force may lie from the one computed, as a question.

#include "halfnut/cutting/force_question.hpp"

#include <array>
#include <string_view>

#include "cut_rows.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/catalogue.hpp"
#include "halfnut/cutting/rules.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "steps.hpp"

namespace halfnut::cutting {

namespace {

constexpr std::array kAsked{
    alloy_row(HALFNUT_ASKED(BandAsk, alloy, "")),
    HALFNUT_ASKED(BandAsk, process, "What is done: turn counts for facing, boring and parting too.")
        .placed()
        .usually("turn"),
};

#define BAND(member, about) HALFNUT_FIGURE(BandAnswer, band.member, about)
#define OWN(member, about) HALFNUT_FIGURE(BandAnswer, member, about)
constexpr std::array kFigures{
    OWN(alloy, "The work's material.").made("Alloy"),
    OWN(process, "What is done."),
    BAND(low, "Lower edge as a share of the computed force; power and torque follow the force.").always(),
    BAND(high, "Upper edge as a share of the computed force.").always(),
    BAND(verified, "Whether measured cuts of the alloy's group bear the band out."),
    OWN(papers, "Papers whose measured cuts of the group are counted."),
    OWN(rows, "Measured cuts of the group."),
    BAND(median, "Median of computed over measured force in them."),
    HALFNUT_FIGURE(BandAnswer, constants.kc11_n_mm2,
                   "Specific cutting force of a chip 1 mm thick, tabulated or estimated."),
    HALFNUT_FIGURE(BandAnswer, constants.mc, "Exponent by which it falls with the chip's thickness."),
    OWN(told, "What a person should know."),
    OWN(evidence, "What the band rests on."),
};
#undef OWN
#undef BAND
constexpr std::array kForceBandSays{
    SaidRow{"", "[{verified?}{band/verified}][{verified!}{band/unverified}]"},
    SaidRow{
        "",
        "{rows!=0}{rows} measured cuts of the group, {papers} paper[{papers!=1}s][, computed over measured "
        "{median:.2f} in the middle]"},
};
constexpr RecordRow kRecord{
    "ForceBand",
    "Where a measured force lies, as shares of the computed one.",
    kFigures,
    "low high verified",
    {"{low:.2f} to {high:.2f} of the computed force  ({process} {alloy.title})", kForceBandSays}};

}  // namespace

BandAnswer force_band(const BandAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const material::AlloyRow& alloy = material::find_alloy(catalogue, asked.alloy);
    BandAnswer out;
    out.alloy = alloy.id;
    out.process = asked.process;
    out.constants = force_constants(catalogue, alloy, kNaN);
    out.band = force_band(catalogue, alloy, asked.process, out.constants.rough);
    out.papers = bounds::nearest<int>(out.band.papers);
    out.rows = bounds::nearest<int>(out.band.rows);
    out.evidence.push_back(rests_on("band", rule_of(out.band), catalogue, out.band.row));
    return out;
}

constinit const Question kForceBand = [] {
    Question out = question<BandAsk, BandAnswer, &force_band>(
        "cutting", "force_band",
        "How far a measured force may lie from the one computed, by alloy and process.", kAsked, kRecord);
    out.sources = "The table cutting/force_bands with the measured cuts that its rows name.";
    out.example = "force-band 6061-T6\nforce-band 304 drill";
    return out;
}();

}  // namespace halfnut::cutting
