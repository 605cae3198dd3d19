// The shop's knurl wheels on a diameter, as a question.

#include "halfnut/knurls/wheel_questions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <string_view>
#include <tuple>
#include <utility>

#include "halfnut/core/bounds.hpp"
#include "halfnut/knurls/asked.hpp"

namespace halfnut::knurls {

namespace {

constexpr std::string_view kLacking =
    "suitable_wheels needs wheels: File of wheels, or wheels each by the keys of one.";

#define ASKED(member, about) HALFNUT_ASKED(SuitableAsk, member, about)
constexpr std::array kAsked{
    ASKED(diameter_mm, "Diameter of the blank; of the knurl when finished.")
        .in(range_of("diameter_mm"))
        .required()
        .leads(),
    ASKED(pattern, "Only wheels that print this pattern, as for a knurl's blank."),
    ASKED(finished, "The diameter is the one wanted after knurling."),
    [] {
        AskedRow out =
            ASKED(wheels, "File of wheels, or wheels each by the keys of one.").or_a("KnurlWheels");
        out.kind = AskedKind::list;
        return out.usually("those of the shop");
    }(),
};
#undef ASKED

std::optional<double> off_teeth(const WheelOnDiameter& wheel) {
    return wheel.refusal.empty() ? std::optional(std::abs(wheel.mismatch_teeth)) : std::nullopt;
}
std::string in_column(const WheelOnDiameter& wheel) {
    return fmt::format("{:<28}", wheel.wheel);
}

#define FIGURE(member, about) HALFNUT_FIGURE(WheelOnDiameter, member, about)
constexpr std::array kWheelFigures{
    FIGURE(wheel, "Its name."),
    FIGURE(pattern, "Pattern that it prints."),
    FIGURE(pitch, "Its pitch."),
    FIGURE(tracks, "The diameter takes nearly a whole number of its teeth."),
    FIGURE(mismatch_teeth, "How far from a whole number of teeth the diameter is, -0.5 to 0.5."),
    FIGURE(mismatch_limit_teeth, "Mismatch beyond which it is likely to print a second set."),
    FIGURE(blank_diameter_mm, "Nearest blank that tracks."),
    FIGURE(finished_diameter_mm, "Diameter expected over the points of that blank."),
    FIGURE(below_diameter_mm, "Largest blank that tracks, not above the diameter."),
    FIGURE(below_teeth, "Teeth around that."),
    FIGURE(above_diameter_mm, "Smallest blank that tracks, not below it."),
    FIGURE(above_teeth, "Teeth around that."),
    FIGURE(refusal, "Why there is no blank."),
    made_figure<&off_teeth>("off_teeth", "How far the teeth are from whole ones, either way."),
    made_figure<&in_column>("in_column", "The name, as wide as a column of names."),
};
#undef FIGURE
constexpr RecordRow kWheelRecord{
    "WheelOnDiameter", "One wheel on one diameter; None where a figure does not apply.", kWheelFigures};

std::vector<std::string> tracking(const WheelChoice& answer) {
    std::vector<std::string> out;
    out.reserve(answer.wheels.size());
    for (const WheelOnDiameter& each : answer.wheels) {
        if (each.tracks) {
            out.push_back(each.wheel);
        }
    }
    return out;
}

#define FIGURE(member, about) HALFNUT_FIGURE(WheelChoice, member, about)
constexpr std::array kFigures{
    FIGURE(diameter_mm, "The diameter that was given.").always(),
    FIGURE(unit, "Unit that the answer is shown in first: that of the diameter given."),
    HALFNUT_RECORDS(WheelChoice, wheels, kWheelRecord,
                    "Each wheel, those first that are nearest to whole teeth."),
    made_figure<&tracking>("tracking", "Names of the wheels that track."),
    FIGURE(told, "What a person should know of the best wheel's blank."),
    FIGURE(evidence, "What the best wheel's blank rests on."),
};
#undef FIGURE

constexpr std::array kSays{
    SaidRow{"",
            "{in_column}  [{refusal}][{off_teeth?}{tracks?}tracks][{off_teeth?}{tracks!}no][, "
            "{off_teeth:.2f} of a "
            "tooth off; suits {below_diameter_mm}][{below_teeth!=above_teeth} or {above_diameter_mm}, "
            "{below_teeth} or {above_teeth} teeth]",
            "wheels"},
};
}  // namespace

constinit const RecordRow kWheelChoice{
    "WheelChoice",
    "The shop's wheels on one diameter, best first.",
    kFigures,
    "wheels",
    {"{diameter_mm}: [{tracking} track][{tracking!}none of the shop's wheels tracks]", kSays, "*"}};

namespace {

/// Whether a wheel prints a pattern; one whose pattern is not understood stays, to say so.
bool prints(const Wheel& wheel, Pattern wanted, const Catalogue& catalogue) {
    try {
        return parse_knurl_pattern(wheel.pattern, catalogue) == wanted;
    } catch (const Error&) {
        return true;
    }
}

WheelOnDiameter named(const Wheel& wheel) {
    WheelOnDiameter out;
    out.wheel = wheel.name;
    out.refusal = wheel.refusal;
    return out;
}

/// A wheel on the diameter, with its blank where there is one.
struct Tried {
    WheelOnDiameter wheel;
    std::shared_ptr<const BlankAnswer> blank;

    /// Those with a blank first, then those nearest to whole teeth.
    [[nodiscard]] std::tuple<bool, double, std::string_view> rank() const {
        return {blank == nullptr, blank == nullptr ? 0.0 : std::abs(wheel.mismatch_teeth), wheel.wheel};
    }
};

/// Its blank as the question of one answers it.
Tried tried_on(const Wheel& wheel, const SuitableAsk& asked, const Catalogue& catalogue) {
    static_assert(kBlankAsked[0].name == "diameter" && kBlankAsked[1].name == "pitch" &&
                  kBlankAsked[2].name == "pattern" && kBlankAsked[3].name == "wheel" &&
                  kBlankAsked[4].name == "finished" && kBlankAsked[5].name == "process");
    const auto text = [](std::string_view of) {
        return of.empty() ? Given{} : Given{.tag = Given::Tag::text, .text = of};
    };
    const std::array given{
        Given{.tag = Given::Tag::quantity,
              .number = asked.diameter_mm,
              .unit = find_unit("mm", Dimension::length)},
        Given{.tag = Given::Tag::text, .text = wheel.pitch},
        text(wheel.pattern),
        text(wheel.measured),
        Given{.tag = Given::Tag::flag, .number = asked.finished ? 1.0 : 0.0},
        text(enum_name(wheel.cuts ? Process::cut : Process::form)),
    };
    Tried out{.wheel = named(wheel), .blank = {}};
    out.wheel.pattern = wheel.pattern;
    out.wheel.pitch = wheel.pitch;
    try {
        out.blank = std::static_pointer_cast<const BlankAnswer>(ask(kBlankQuestion, given, catalogue).record);
    } catch (const Error& error) {
        out.wheel.refusal = error.what();
        return out;
    }
    const KnurlBlank& blank = out.blank->blank;
    out.wheel.tracks = out.blank->given_tracks;
    out.wheel.mismatch_teeth = blank.given_mismatch_teeth;
    out.wheel.mismatch_limit_teeth = blank.mismatch_limit_teeth;
    out.wheel.blank_diameter_mm = blank.blank_diameter_mm;
    out.wheel.finished_diameter_mm = blank.finished_diameter_mm;
    out.wheel.below_diameter_mm = blank.below_diameter_mm;
    out.wheel.below_teeth = out.blank->below_teeth;
    out.wheel.above_diameter_mm = blank.above_diameter_mm;
    out.wheel.above_teeth = out.blank->above_teeth;
    return out;
}

}  // namespace

void take(std::optional<std::vector<Wheel>>& to, const Given& given, const AskedRow& row, Asking& asking) {
    const bool tables = given.tag == Given::Tag::list &&
                        std::all_of(given.items.begin(), given.items.end(),
                                    [](const Given& each) { return each.tag == Given::Tag::object; });
    if (!tables) {
        throw DomainError(
            fmt::format("{} must be a file of wheels or a list of them, got {}", row.name, given.shown()));
    }
    const std::string_view key = "wheels";
    FileReading reading{asking.catalogue};
    to = wheels_of_file({.tag = Given::Tag::object, .items = {&given, 1}, .keys = {&key, 1}}, reading);
}

WheelChoice suitable_wheels(const SuitableAsk& asked, const Asking& asking) {
    if (!asked.wheels) {
        throw DomainError(std::string(kLacking));
    }
    std::optional<Pattern> wanted;
    if (!asked.pattern.empty()) {
        wanted = parse_knurl_pattern(asked.pattern, asking.catalogue);
    }
    WheelChoice out;
    out.diameter_mm = asked.diameter_mm;
    out.unit = asking.inch ? "in" : "mm";
    std::vector<Tried> tried;
    tried.reserve(asked.wheels->size());
    for (const Wheel& wheel : *asked.wheels) {
        if (wheel.refusal.empty() && (!wanted || prints(wheel, *wanted, asking.catalogue))) {
            tried.push_back(tried_on(wheel, asked, asking.catalogue));
        }
    }
    std::sort(tried.begin(), tried.end(), [](const Tried& a, const Tried& b) { return a.rank() < b.rank(); });
    if (!tried.empty() && tried.front().blank != nullptr) {
        out.told = tried.front().blank->told;
        out.evidence = tried.front().blank->evidence;
    }
    out.wheels.reserve(asked.wheels->size());
    for (Tried& each : tried) {
        out.wheels.push_back(std::move(each.wheel));
    }
    for (const Wheel& wheel : *asked.wheels) {
        if (!wheel.refusal.empty()) {
            out.wheels.push_back(named(wheel));
        }
    }
    return out;
}

constinit const Question kSuitableWheels = [] {
    Question out = question<SuitableAsk, WheelChoice, &suitable_wheels>(
        "knurls", "suitable_wheels",
        "Which of the shop's knurl wheels tracks on a diameter, and what diameter suits each.", kAsked,
        kWheelChoice);
    out.sources = "ANSI/ASME B94.6, DIN 82 and rules of the trade, as the evidence names them.";
    out.example = "suitable-wheels 0.5in --pattern straight";
    out.own_units = true;
    return out;
}();

}  // namespace halfnut::knurls
