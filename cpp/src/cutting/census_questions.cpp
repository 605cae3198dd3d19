// Every usual cut asked at once: of one alloy for its speeds, of all for what the answers rest on.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cut_answer.hpp"
#include "cut_rows.hpp"
#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/core/table_info.hpp"
#include "halfnut/cutting/census.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/questions.hpp"
#include "halfnut/cutting/tables.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/material/tables.hpp"
#include "kin.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;
using Pairs = std::vector<std::pair<std::string, std::string>>;

// ---- the usual cuts ---------------------------------------------------------------------------------------

/// What is given for an argument: the usual size of a metric question and that of one in inches; none of a
/// flag.
struct UsualValue {
    string_view name;
    string_view metric{};
    string_view inch{};
};

/// A cut of every week: its question, and what is given beside alloy and tool.
struct UsualCut {
    string_view name;
    string_view question;
    std::array<UsualValue, 4> values{};
    bool only_hss = false;
};

constexpr UsualValue kWork{"diameter", "30 mm", "1.25 in"};
constexpr UsualValue kHole{"diameter", "10 mm", "3/8 in"};
constexpr string_view kMetricSizes = "work of 30 mm, drill and reamer 10, end mill 12, face mill 50";
constexpr string_view kInchSizes = "work of 1.25 in, drill and reamer 3/8, end mill 1/2, face mill 2";

constexpr std::array kUsualCuts{
    UsualCut{"turn", "turn", {kWork}},
    UsualCut{"finish", "turn", {kWork, {"finish"}}},
    UsualCut{"bore", "bore", {kWork}},
    UsualCut{"part off", "part_off", {kWork}},
    UsualCut{"drill", "drill", {kHole}},
    UsualCut{"ream", "ream", {kHole}},
    UsualCut{"tap", "tap", {{{"thread", "M10", "3/8-16 UNC"}}}, true},
    UsualCut{"slot",
             "mill",
             {{{"cutter", "12 mm", "1/2 in"}, {"shape", "slot", "slot"}, {"depth", "3 mm", "1/8 in"}}}},
    UsualCut{"face mill",
             "mill",
             {{{"cutter", "50 mm", "2 in"},
               {"shape", "face", "face"},
               {"depth", "1 mm", "0.04 in"},
               {"width", "40 mm", "1.5 in"}}}},
    UsualCut{"knurl", "knurl", {kWork}, true},
};

constexpr std::array<string_view, 3> kTools{"HSS", "carbide", "coated carbide"};

/// The answer to a usual cut; none where it is refused.
std::optional<CutAnswer> answer_to(const UsualCut& cut, bool inch, string_view alloy, string_view tool,
                                   const Catalogue& catalogue) {
    const Question& question = find_question(cut.question);
    std::vector<Given> given(question.arguments.size());
    for (std::size_t i = 0; i < given.size(); ++i) {
        const string_view name = question.arguments[i].name;
        const auto* const value = std::find_if(cut.values.begin(), cut.values.end(),
                                               [&](const auto& each) { return each.name == name; });
        if (name == "alloy" || name == "tool") {
            given[i] = {.tag = Given::Tag::text, .text = name == "alloy" ? alloy : tool};
        } else if (value != cut.values.end()) {
            const string_view size = inch ? value->inch : value->metric;
            given[i] = size.empty() ? Given{.tag = Given::Tag::flag, .number = 1.0}
                                    : Given{.tag = Given::Tag::text, .text = size};
        }
    }
    try {
        return *static_cast<const CutAnswer*>(ask(question, given, catalogue).record.get());
    } catch (const Error&) {
        return std::nullopt;
    }
}

/// Where the window of a cut comes from: a row of the speeds, where it is one.
const EvidenceText& window_source(const CutAnswer& cut) {
    const EvidenceText* first = nullptr;
    for (const EvidenceText& each : cut.evidence) {
        if (each.figure == "window_high_m_min") {
            if (each.row.starts_with(Schema<SpeedRow>::table)) {
                return each;
            }
            first = first == nullptr ? &each : first;
        }
    }
    return *first;
}

// ---- speeds of an alloy -----------------------------------------------------------------------------------

constexpr std::array kSpeedsAsked{
    alloy_row(HALFNUT_ASKED(SpeedsAsk, alloy, "")),
    HALFNUT_ASKED(SpeedsAsk, inch, "Speeds in ft/min and feeds in inches."),
};

constexpr std::array kUsualFigures{
    HALFNUT_FIGURE(UsualSpeed, tool, "The tool's material."),
    HALFNUT_FIGURE(UsualSpeed, cut, "What is done."),
    HALFNUT_FIGURE(UsualSpeed, window_low_m_min, "Slowest cutting speed that suits.").always(),
    HALFNUT_FIGURE(UsualSpeed, window_high_m_min, "Fastest cutting speed that suits.").always(),
    HALFNUT_FIGURE(UsualSpeed, feed_mm, "Feed a revolution, in milling a tooth."),
};
constexpr RecordRow kUsualSpeed{"UsualSpeed", "Speed and feed of one usual cut.", kUsualFigures};

/// A line of the table: its label, and a cell under each cut, a bar where there is none.
std::pair<std::string, std::string> line_of(string_view label, const std::vector<string_view>& heads,
                                            const std::vector<std::string>& cells) {
    constexpr std::size_t kBefore = 17;  // columns of label and of what stands before and after it
    std::string text(kBefore - std::max<std::size_t>(12, label.size() + 3), ' ');
    for (std::size_t i = 0; i < heads.size(); ++i) {
        text += fmt::format("{:>10}", cells[i].empty() ? "-" : cells[i]);
    }
    return {std::string(label), std::move(text)};
}

/// The speeds as a table, a line of speeds and one of feeds a tool.
Pairs table(const SpeedsAnswer& answer) {
    if (answer.cuts.empty()) {
        return {{"speeds", "none is known"}};
    }
    const UnitSystem system = system_of(answer.unit);
    const bool inch = system == UnitSystem::inch;
    std::vector<string_view> heads;
    heads.reserve(kUsualCuts.size());
    for (const UsualCut& each : kUsualCuts) {
        if (std::any_of(answer.cuts.begin(), answer.cuts.end(),
                        [&](const UsualSpeed& speed) { return speed.cut == each.name; })) {
            heads.push_back(each.name);
        }
    }
    Pairs out{line_of(inch ? "ft/min" : "m/min", heads, {heads.begin(), heads.end()})};
    for (const string_view tool : kTools) {
        std::vector<std::string> speeds(heads.size());
        std::vector<std::string> feeds(heads.size());
        bool known = false;
        for (const UsualSpeed& each : answer.cuts) {
            if (each.tool != tool) {
                continue;
            }
            known = true;
            const auto at =
                static_cast<std::size_t>(std::find(heads.begin(), heads.end(), each.cut) - heads.begin());
            const std::string low = spell_number(each.window_low_m_min, FigureKind::speed, system);
            const std::string high = spell_number(each.window_high_m_min, FigureKind::speed, system);
            speeds[at] = low == high ? high : fmt::format("{}-{}", low, high);
            if (!std::isnan(each.feed_mm)) {
                feeds[at] = spell_number(each.feed_mm, FigureKind::feed, system);
            }
        }
        if (known) {
            out.push_back(line_of(tool, heads, speeds));
            out.push_back(line_of(inch ? "  in" : "  mm", heads, feeds));
        }
    }
    out.emplace_back("feeds",
                     fmt::format("a revolution, in milling a tooth; {}", inch ? kInchSizes : kMetricSizes));
    return out;
}

#define SPEEDS(member, about) HALFNUT_FIGURE(SpeedsAnswer, member, about)
constexpr std::array kSpeedsFigures{
    SPEEDS(alloy, "The work's material.").made("Alloy"),
    SPEEDS(unit, "Unit of the question: in or mm."),
    HALFNUT_RECORDS(SpeedsAnswer, cuts, kUsualSpeed, "The usual cuts, tool by tool."),
    SPEEDS(never_taken, "Speeds that are printed against the order of operations: no answer takes them."),
    made_figure<&table>("table", "Speeds and feeds by tool, a column a cut."),
    SPEEDS(evidence, "What the speeds rest on."),
};
#undef SPEEDS
constexpr std::array kSpeedsSays{SaidRow{"*", "table"}};
constexpr RecordRow kSpeedsRecord{
    "Speeds", "Speeds and feeds that suit an alloy, by tool and usual cut.", kSpeedsFigures,
    "cuts",   {"{alloy.title}: speeds and feeds", kSpeedsSays, "*"},         false,
    "cuts"};

// ---- what the figures rest on -----------------------------------------------------------------------------

// Alloys that a shop meets weekly, by name or id, and how often each counts.
constexpr std::array<string_view, 11> kWeekly{"6061",  "7075", "5083", "C36000",    "1018",
                                              "4130",  "4140", "304",  "Ti-6Al-4V", "titanium grade 2",
                                              "acetal"};
constexpr int kWeight = 5;

/// The kinds in the order in which they are told, with their heads.
constexpr std::array<std::pair<SourceKind, string_view>, 9> kHeads{{
    {SourceKind::shop, "shop"},
    {SourceKind::standard, "stand."},
    {SourceKind::government, "gov."},
    {SourceKind::handbook, "handb."},
    {SourceKind::textbook, "textb."},
    {SourceKind::paper, "paper"},
    {SourceKind::transcription, "transc."},
    {SourceKind::practice, "pract."},
    {SourceKind::memory, "memory"},
}};

#define KIND(kind, about) \
    HALFNUT_FIGURE(Resting, of_kind[static_cast<std::size_t>(SourceKind::kind)], about).called(#kind)
constexpr std::array kRestingFigures{
    HALFNUT_FIGURE(Resting, name, "The table, or the operation."),
    KIND(shop, "A shop's own."),
    KIND(standard, "Standards."),
    KIND(government, "Government publications."),
    KIND(handbook, "Handbooks."),
    KIND(textbook, "Textbooks."),
    KIND(paper, "Papers."),
    KIND(transcription, "Copies of a source whose own page was not seen."),
    KIND(practice, "Common practice."),
    KIND(memory, "Sources as they are remembered."),
};
#undef KIND
constexpr RecordRow kResting{"Resting", "How many rest on each kind of source.", kRestingFigures};

std::pair<std::string, std::string> line_of(const Resting& what) {
    std::string text;
    for (const auto& [kind, head] : kHeads) {
        const int count = what.of_kind[static_cast<std::size_t>(kind)];
        text += fmt::format("{:>8}", count == 0 ? "-" : std::to_string(count));
    }
    return {fmt::format("{:<35}", what.name), std::move(text)};
}

/// Both lists as one table.
Pairs counted(const DataAnswer& answer) {
    std::string heads;
    Resting all{.name = "all"};
    for (const auto& [kind, head] : kHeads) {
        heads += fmt::format("{:>8}", head);
    }
    Pairs out{{fmt::format("{:<35}", "cells with a source"), heads}};
    for (const Resting& each : answer.tables) {
        out.push_back(line_of(each));
    }
    out.emplace_back(fmt::format("{:<35}", "answers, by operation"), heads);
    for (const Resting& each : answer.answers) {
        out.push_back(line_of(each));
        for (std::size_t i = 0; i < all.of_kind.size(); ++i) {
            all.of_kind[i] += each.of_kind[i];
        }
    }
    out.push_back(line_of(all));
    return out;
}

constexpr std::array kDataFigures{
    HALFNUT_RECORDS(DataAnswer, tables, kResting, "Cells that name a source, by table."),
    HALFNUT_RECORDS(DataAnswer, answers, kResting,
                    "Speeds that are answered, by operation; an alloy that a shop meets weekly counts five "
                    "times."),
    HALFNUT_FIGURE(DataAnswer, memory_share, "Share of the answers that rest on memory.").always(),
    made_figure<&counted>("counted", "Both lists as one table."),
};
constexpr std::array kDataSays{SaidRow{"*", "counted"}};
constexpr RecordRow kDataRecord{"Data",
                                "What the figures rest on.",
                                kDataFigures,
                                "memory_share",
                                {"from memory: {memory_share:.0%} of the answers", kDataSays, "*"}};

Resting of_table(const TableInfo& table, const Catalogue& catalogue) {
    Resting out{.name = std::string(table.name)};
    for (std::size_t place = 0; place < table.size(catalogue); ++place) {
        for (const ColumnInfo& column : table.columns) {
            if (column.kind == CellKind::source) {
                const auto source = cell_at<SourceId>(table.row(catalogue, place), column);
                if (source.index < catalogue.sources.size()) {
                    ++out.of_kind[static_cast<std::size_t>(catalogue.sources[source.index].kind)];
                }
            }
        }
    }
    return out;
}

SourceKind kind_of(const EvidenceText& text) {
    for (const auto& [kind, name] : enum_names(SourceKind{})) {
        if (name == text.kind) {
            return kind;
        }
    }
    return SourceKind::practice;  // which evidence spells otherwise
}

}  // namespace

SpeedsAnswer speeds(const SpeedsAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const material::AlloyRow& alloy = material::find_alloy(catalogue, asked.alloy);
    SpeedsAnswer out;
    out.alloy = alloy.id;
    out.unit = unit_name(asked.inch);
    for (const string_view tool : kTools) {
        for (const UsualCut& usual : kUsualCuts) {
            const bool suits = tool == kTools.front() || !usual.only_hss;
            const auto found = suits ? answer_to(usual, asked.inch, alloy.id, tool, catalogue) : std::nullopt;
            if (!found) {
                continue;
            }
            const double a_tooth = found->cut.feed_per_tooth_mm;
            out.cuts.push_back({.tool = std::string(tool),
                                .cut = std::string(usual.name),
                                .window_low_m_min = found->cut.window_low_m_min,
                                .window_high_m_min = found->cut.window_high_m_min,
                                .feed_mm = usual.question == "tap" ? kNaN
                                           : std::isnan(a_tooth)   ? found->cut.feed_mm_rev
                                                                   : a_tooth});
            const EvidenceText& source = window_source(*found);
            if (std::none_of(out.evidence.begin(), out.evidence.end(), [&](const EvidenceText& each) {
                    return each.rule_id == source.rule_id && each.row == source.row;
                })) {
                out.evidence.push_back(source);
            }
        }
    }
    const Kin kin(catalogue, alloy);
    for (const SpeedRow& row : catalogue.speeds) {
        if (row.doubt == Doubt::out_of_order && kin.distance(row.key) >= 0) {
            const EvidenceText text =
                as_tabulated("speed_high_m_min", row_ref(catalogue.speeds, row), catalogue);
            out.never_taken.push_back(fmt::format("{} {} to {:g} m/min; {}; {} ({})",
                                                  enum_name(row.operation), enum_name(row.tool_material),
                                                  row.speed_high_m_min, row.note, text.source, text.kind));
        }
    }
    return out;
}

DataAnswer data_census(const DataAsk& /*asked*/, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    DataAnswer out;
    for (const TableInfo& table : table_infos()) {
        Resting cells = of_table(table, catalogue);
        if (std::any_of(cells.of_kind.begin(), cells.of_kind.end(), [](int count) { return count != 0; })) {
            out.tables.push_back(std::move(cells));
        }
    }
    int memory = 0;
    int all = 0;
    for (const UsualCut& usual : kUsualCuts) {
        Resting& operation = out.answers.emplace_back(Resting{.name = std::string(usual.name)});
        for (const material::AlloyRow& alloy : catalogue.alloys) {
            const bool weekly = std::any_of(kWeekly.begin(), kWeekly.end(), [&](string_view each) {
                return each == alloy.name || each == alloy.id;
            });
            for (std::size_t tool = 0; tool < (usual.only_hss ? 1U : 2U); ++tool) {
                if (const auto found = answer_to(usual, false, alloy.id, kTools[tool], catalogue)) {
                    const int weight = weekly ? kWeight : 1;
                    const SourceKind kind = kind_of(window_source(*found));
                    operation.of_kind[static_cast<std::size_t>(kind)] += weight;
                    memory += kind == SourceKind::memory ? weight : 0;
                    all += weight;
                }
            }
        }
    }
    out.memory_share = all == 0 ? 0.0 : static_cast<double>(memory) / all;
    return out;
}

constinit const std::array<Question, 2> kCensusQuestions{
    [] {
        Question out = question<SpeedsAsk, SpeedsAnswer, &speeds>(
            "cutting", "speeds", "Speeds and feeds that suit an alloy, tool by tool and cut by cut.",
            kSpeedsAsked, kSpeedsRecord);
        out.sources = "As its evidence names them.";
        out.example = "speeds 6061-T6\nspeeds \"4130 normalised\" --inch";
        return out;
    }(),
    [] {
        Question out = question<DataAsk, DataAnswer, &data_census>(
            "cutting", "data",
            "What the figures rest on, by kind of source: every table, and the speeds of the usual cuts.", {},
            kDataRecord);
        out.sources = "As each row names its own.";
        out.example = "data";
        return out;
    }(),
};

}  // namespace halfnut::cutting
