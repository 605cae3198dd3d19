// The blank of a knurl, as a question.

#include "halfnut/knurls/questions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <string_view>

#include "halfnut/core/bounds.hpp"
#include "halfnut/knurls/asked.hpp"
#include "halfnut/knurls/wheel_questions.hpp"

namespace halfnut::knurls {

namespace {

using std::string_view;

bool pattern_assumed(const BlankAnswer& answer) {
    return std::find(answer.assumed.begin(), answer.assumed.end(), "pattern") != answer.assumed.end();
}
double off_teeth(const BlankAnswer& answer) {
    return std::abs(answer.blank.given_mismatch_teeth);
}

#define BLANK(member, about) HALFNUT_FIGURE(BlankAnswer, blank.member, about)
#define OWN(member, about) HALFNUT_FIGURE(BlankAnswer, member, about)
constexpr std::array kFigures{
    OWN(pitch, "Pitch as it was asked for."),
    OWN(pattern, "What the knurl looks like on the work."),
    OWN(process, "How the teeth are made."),
    OWN(finished_wanted, "The diameter that was given is wanted after knurling."),
    OWN(unit, "Unit that the answer is shown in first: that of the diameter given."),
    OWN(assumed, "What was not said and therefore taken."),
    BLANK(blank_diameter_mm, "Diameter to turn.").always(),
    OWN(teeth, "Whole teeth around it."),
    BLANK(blank_plus_minus_mm, "Tolerance of the blank to either side.").always(),
    BLANK(finished_diameter_mm, "Diameter expected over the points.").always(),
    BLANK(finished_max_mm, "Greatest diameter over the points by the tolerance class."),
    BLANK(finished_min_mm, "Least diameter over the points by the tolerance class."),
    BLANK(growth_mm, "Growth of the diameter.").always(),
    BLANK(tooth_depth_mm, "Full depth of the teeth.").always(),
    BLANK(given_diameter_mm, "Blank that was given, or that leaves the finished diameter.").always(),
    BLANK(given_teeth, "Teeth around that one, not rounded.").always(),
    BLANK(given_mismatch_teeth, "How far these are from whole ones, -0.5 to 0.5.").always(),
    BLANK(given_mismatch_mm, "The same along the surface.").always(),
    BLANK(mismatch_limit_teeth, "Mismatch beyond which the wheel is likely to print a second set.").always(),
    OWN(given_tracks, "The diameter that was given is near enough to whole teeth as it is."),
    BLANK(below_diameter_mm, "Largest blank that tracks, not above it.").always(),
    OWN(below_teeth, "Teeth around that."),
    BLANK(above_diameter_mm, "Smallest blank that tracks, not below it.").always(),
    OWN(above_teeth, "Teeth around that."),
    BLANK(normal_pitch_mm, "Pitch across the teeth, as called for.").always(),
    BLANK(transverse_pitch_mm, "Pitch around the work, as the wheel prints it.").always(),
    BLANK(helix_deg, "Angle of the teeth from the axis.").always(),
    BLANK(wheel_diameter_mm, "Diameter of the wheel over the points."),
    OWN(wheel_teeth, "Teeth of the wheel."),
    BLANK(tracking_allowance_mm, "How much larger than measured the wheel tracks."),
    made_figure<&pattern_assumed>("pattern_assumed", "Whether the pattern was not said."),
    made_figure<&off_teeth>("off_teeth", "How far the teeth are from whole ones, either way."),
    OWN(told, "What a person should know."),
    OWN(evidence, "What each figure rests on."),
};
#undef OWN
#undef BLANK

string_view trimmed(string_view text) {
    const auto blank = [](char letter) { return std::isspace(static_cast<unsigned char>(letter)) != 0; };
    while (!text.empty() && blank(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && blank(text.back())) {
        text.remove_suffix(1);
    }
    return text;
}

bool is_figure(char letter) {
    return letter >= '0' && letter <= '9';
}

/// "0.750 in, 47 teeth" is a diameter and teeth; of any other text there are none.
struct Counted {
    string_view diameter;
    double teeth = kNaN;
};
Counted counted(string_view text) {
    string_view rest = trimmed(text);
    std::string lower(rest);
    for (char& letter : lower) {
        letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
    }
    for (const string_view word : {"teeth", "tooth", "t"}) {
        if (!string_view(lower).ends_with(word)) {
            continue;
        }
        rest = trimmed(rest.substr(0, rest.size() - word.size()));
        std::size_t at = rest.size();
        while (at > 0 && is_figure(rest[at - 1])) {
            --at;
        }
        const string_view teeth = rest.substr(at);
        const string_view before = rest.substr(0, at);
        std::size_t end = before.size();
        while (end > 0 && (before[end - 1] == ',' || trimmed(before.substr(end - 1, 1)).empty())) {
            --end;
        }
        constexpr std::size_t kMost = 15;  // figures that a number holds
        if (teeth.empty() || teeth.size() > kMost || end == 0 || end == before.size()) {
            return {};
        }
        return {before.substr(0, end), std::stod(std::string(teeth))};
    }
    return {};
}

}  // namespace

void take(PitchAsk& to, const Given& given, const AskedRow& row, Asking& /*asking*/) {
    if (given.tag != Given::Tag::text) {
        throw UnitError(fmt::format("{}: {} has no unit; write \"96 DP\", \"21 TPI\" or \"0.8 mm\"", row.name,
                                    given.shown()));
    }
    bounds::require_text(row.name, given.text, bounds::kDesignationBytes);
    to.text = trimmed(given.text);
}

void take(WheelAsk& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag == Given::Tag::list) {
        const bool pair = given.items.size() == 2 && given.items[1].tag == Given::Tag::number;
        if (!pair || given.items[1].number != std::floor(given.items[1].number)) {
            throw DomainError(
                fmt::format("{} must be a diameter and a number of teeth, got {}", row.name, given.shown()));
        }
        take(to.diameter_mm, given.items[0], row, asking);
        to.teeth = given.items[1].number;
        return;
    }
    if (const Counted of = given.tag == Given::Tag::text ? counted(given.text) : Counted{};
        !of.diameter.empty()) {
        take(to.diameter_mm, {.tag = Given::Tag::text, .text = of.diameter}, row, asking);
        to.teeth = of.teeth;
        return;
    }
    take(to.diameter_mm, given, row, asking);
}

void take(ClassAsk& to, const Given& given, const AskedRow& row, Asking& /*asking*/) {
    constexpr std::array<string_view, 3> kRoman{"I", "II", "III"};
    for (std::size_t i = 0; i < kRoman.size(); ++i) {
        const auto number = static_cast<int>(i) + 1;
        if ((given.tag == Given::Tag::text && given.text == kRoman[i]) ||
            (given.tag == Given::Tag::number && given.number == number)) {
            to.number = number;
            return;
        }
    }
    throw DomainError(fmt::format("{} must be 1, 2 or 3 (or I, II, III), got {}", row.name, given.shown()));
}

KnurlRequest request_of(const KnurlAsk& asked, const Catalogue& catalogue) {
    const KnurlPitch pitch = parse_knurl_pitch(asked.pitch.text, catalogue);
    KnurlRequest out = asked.blank;
    out.system = pitch.system;
    out.pitch = pitch.value;
    out.pattern = !asked.pattern.empty() ? parse_knurl_pattern(asked.pattern, catalogue)
                                         : pitch.pattern.value_or(out.pattern);
    if (pitch.pattern && *pitch.pattern != out.pattern) {
        throw DomainError(fmt::format("pattern '{}' contradicts pitch '{}', which names {}", asked.pattern,
                                      asked.pitch.text, enum_name(*pitch.pattern)));
    }
    if (std::isnan(out.profile_deg)) {
        out.profile_deg = pitch.profile_deg.value_or(kNaN);
    } else if (pitch.profile_deg && *pitch.profile_deg != out.profile_deg) {
        throw DomainError(fmt::format("profile_deg {:g} contradicts pitch '{}', which names {:g}",
                                      out.profile_deg, asked.pitch.text, *pitch.profile_deg));
    }
    out.wheel_diameter_mm = asked.wheel.diameter_mm;
    out.wheel_teeth = asked.wheel.teeth;
    out.tolerance_class = asked.tolerance_class.number;
    return out;
}

constexpr std::array kKnurlBlankSays{
    SaidRow{"knurled",
            "{finished_diameter_mm}, [{process=cut}cut, so it does not grow][{process!=cut}grows "
            "{growth_mm}]; teeth {tooth_depth_mm} deep"},
    SaidRow{"wheel",
            "{wheel_teeth} teeth on {wheel_diameter_mm}, tracks as if {tracking_allowance_mm} larger"},
    SaidRow{"limits", "blank ± {blank_plus_minus_mm}[; knurled {finished_min_mm..finished_max_mm}]"},
    SaidRow{
        "tracks",
        "[{below_teeth!=above_teeth}{below_diameter_mm} with {below_teeth} teeth, {above_diameter_mm} with "
        "{above_teeth}; ]{given_diameter_mm} [{finished_wanted?}is left for that finished size]"
        "[{finished_wanted!}was given][{below_teeth=above_teeth} and tracks as it is]"
        "[{below_teeth!=above_teeth}: {given_teeth:.2f} teeth, {off_teeth:.2f} of a tooth off, ]"
        "[{below_teeth!=above_teeth}{given_tracks?}still tracks]"
        "[{below_teeth!=above_teeth}{given_tracks!}does not track]"},
};
constinit const RecordRow kBlankRecord{
    "KnurlBlank",
    "The blank to turn before knurling, and what comes of it; None where a figure does not apply.",
    kFigures,
    "blank_diameter_mm teeth finished_diameter_mm",
    {"blank {blank_diameter_mm}: {teeth} teeth, {pitch}, {pattern}[{pattern_assumed?} (assumed)]",
     kKnurlBlankSays, "knurled, limits, tracks"}};

BlankAnswer ask_blank(const KnurlAsk& asked, const Asking& asking) {
    const KnurlRequest request = request_of(asked, asking.catalogue);
    BlankAnswer out;
    out.blank = knurl_blank(request, asking.catalogue);
    out.pitch = asked.pitch.text;
    out.pattern = request.pattern;
    out.process = request.process;
    out.finished_wanted = request.finished;
    out.unit = asking.inch ? "in" : "mm";
    if (asked.pattern.empty() && !parse_knurl_pitch(asked.pitch.text, asking.catalogue).pattern) {
        out.assumed.emplace_back("pattern");
    }
    const auto whole = [](double teeth) { return static_cast<std::int64_t>(teeth); };
    out.teeth = whole(out.blank.teeth);
    out.given_tracks = std::abs(out.blank.given_mismatch_teeth) <= out.blank.mismatch_limit_teeth;
    out.below_teeth = whole(out.blank.below_teeth);
    out.above_teeth = whole(out.blank.above_teeth);
    if (!std::isnan(out.blank.wheel_teeth)) {
        out.wheel_teeth = whole(out.blank.wheel_teeth);
    }
    for (const auto& [caution, spelling] : enum_names(KnurlCaution{})) {
        if (out.blank.has(caution)) {
            out.told.push_back({std::string(spelling), 0.0, {}});
        }
    }
    if (asking.evidence) {
        append_evidence(out.blank.evidence.items(), kKnurlFigures, asking.catalogue, out.evidence);
    }
    return out;
}

constinit const Question kBlankQuestion = [] {
    Question out = question<KnurlAsk, BlankAnswer, &ask_blank>(
        "knurls", "knurl_blank",
        "The blank to turn so that a knurl closes on itself, and the diameter it comes out at.", kBlankAsked,
        kBlankRecord);
    out.sources = "ANSI/ASME B94.6, DIN 82 and rules of the trade, as the evidence names them.";
    out.example = "knurl-blank 0.75in \"96 DP\" --pattern \"diamond raised\"";
    out.own_units = true;
    return out;
}();

std::span<const Question* const> questions() noexcept {
    static constexpr std::array<const Question*, 2> kAll{&kBlankQuestion, &kSuitableWheels};
    return kAll;
}

}  // namespace halfnut::knurls
