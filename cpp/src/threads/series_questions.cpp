// The questions of series: standard threads near a size, and what a part found on the bench may be.

#include "halfnut/threads/series_questions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "answering.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/read_number.hpp"

namespace halfnut::threads {

namespace {

using std::string_view;

constexpr double kCloseMm = 0.05;       // of pitch, flank or diameter: the thread is still the standard one
constexpr double kShareOfPitch = 20.0;  // or a twentieth of the pitch outside
constexpr double kSameMatchMm = 0.02;   // two threads that measurements of a bench hardly tell apart
constexpr double kMostCandidates = 1000;

constexpr std::array kNearAsked{
    HALFNUT_ASKED(ThreadsNearAsk, diameter_mm, "Basic major diameter; of a taper thread in its gauge plane.")
        .above(0)
        .required()
        .leads(),
    HALFNUT_ASKED(ThreadsNearAsk, within_mm, "Largest difference.").least(0).usually("5 % of the diameter"),
};
#define FIGURE(member, about) HALFNUT_FIGURE(ThreadsNearAnswer, member, about)
constexpr std::array kNearRows{
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(diameter_mm, "Diameter that was asked for.").always(),
    FIGURE(within_mm, "Largest difference.").always(),
    FIGURE(threads, "Standard threads, preferred ones first, taper ones last."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What they rest on."),
};
#undef FIGURE
constexpr RecordRow kNearRecord{
    "ThreadsNear",
    "Standard threads near a diameter.",
    kNearRows,
    {},
    {"[{threads}][{threads!}no standard thread within {within_mm} of {diameter_mm}]"}};

#define ASKED(member, about) HALFNUT_ASKED(IdentifyAsk, member, about)
constexpr std::array kIdentifyAsked{
    ASKED(diameter_mm,
          "Crest as measured: major diameter of an external part, minor diameter of an internal one; of a "
          "taper "
          "thread in its gauge plane.")
        .above(0)
        .required()
        .leads(),
    ASKED(pitch, "Pitch as measured, not the lead of several starts, or threads per inch: \"20 tpi\".")
        .as_length()
        .required(),
    ASKED(side, "Which part was measured."),
    ASKED(engagement_mm, "Length over which it would engage.").above(0).usually("one diameter"),
    ASKED(flank_angle_deg,
          "Angle between the two flanks of a groove: 60 ISO metric and Unified, 55 Whitworth and pipe, 30 "
          "trapezoidal, 29 Acme.")
        .called("flank_angle")
        .from(20, 120),
    ASKED(count, "How many candidates.").from(1, kMostCandidates).usually("6"),
};
#undef ASKED

#define MATCH(member, about) HALFNUT_FIGURE(ThreadMatch, member, about)
constexpr std::array kMatchRows{
    FigureRow{.key = "thread",
              .about = "Standard thread, with the class it was judged by.",
              .kind = AnsweredKind::text,
              .get =
                  [](const void* match) {
                      return shown(format_any_thread(static_cast<const ThreadMatch*>(match)->part.thread));
                  }},
    FigureRow{.key = "title",
              .about = "Its designation, with the side where that leaves it open.",
              .kind = AnsweredKind::text,
              .get =
                  [](const void* match) {
                      return shown(part_title(static_cast<const ThreadMatch*>(match)->part));
                  }},
    MATCH(preference, "Order of choice."),
    MATCH(taper, "The diameter changes along it: sizes are those of the gauge plane."),
    MATCH(basic_diameter_mm, "Basic size of what was measured.").always(),
    MATCH(outside_mm, "How far the measured diameter is outside the limits.").always(),
    MATCH(pitch_difference_mm, "Measured pitch less the standard one.").always(),
    MATCH(mismatch_mm, "What that adds up to over the engagement.").always(),
    MATCH(pitch_diameter_equivalent_mm, "What it takes from the clearance at the pitch diameter.").always(),
    MATCH(flank_angle_deg, "Angle between the two flanks of the standard thread.").always(),
    MATCH(flank_difference_deg, "Measured angle less the standard one."),
    MATCH(flank_equivalent_mm, "What that takes from the clearance at the pitch diameter.").always(),
    MATCH(like_the_first, "These measurements do not tell it from the nearest thread."),
};
#undef MATCH
constexpr RecordRow kMatchRecord{
    "ThreadMatch",
    "A standard thread beside a measured part.",
    kMatchRows,
    {},
    {"{title}: diameter [{outside_mm=0}inside its limits][{outside_mm!=0}{outside_mm} outside its limits], "
     "pitch [{unit=mm}{pitch_difference_mm:+.4f} mm][{unit=in}{pitch_difference_mm/25.4:+.5f} in], "
     "{mismatch_mm} over the engagement, flanks {flank_angle_deg:g} deg"
     "[{flank_difference_deg!=0} ({flank_difference_deg:+.2g} deg measured)]"}};

double turns_per_inch(const IdentifyAnswer& answer) {
    return kInchMm / answer.pitch_mm;
}

#define FIGURE(member, about) HALFNUT_FIGURE(IdentifyAnswer, member, about)
constexpr std::array kIdentifyRows{
    FIGURE(verdict, "Whether the part is a standard thread, near one, or none."),
    FIGURE(unit, "Unit of the question: in or mm."),
    FIGURE(side, "Which part was measured."),
    FIGURE(diameter_mm, "Crest as measured.").always(),
    FIGURE(pitch_mm, "Pitch as measured.").always(),
    FIGURE(engagement_mm, "Length over which it would engage.").always(),
    FIGURE(flank_angle_deg, "Flank angle as measured."),
    FIGURE(thread, "The standard thread; none where no one is close."),
    FIGURE(nearest, "The nearest one."),
    FIGURE(outside_mm, "How far the part is outside its limits.").always(),
    FIGURE(pitch_difference_mm, "Measured pitch less its pitch.").always(),
    FIGURE(mismatch_mm, "What that adds up to over the engagement.").always(),
    FIGURE(alike, "Threads that these measurements do not tell from the nearest."),
    made_figure<&turns_per_inch>("tpi", "Turns in an inch, of the measured pitch."),
    HALFNUT_RECORDS(IdentifyAnswer, matches, kMatchRecord, "Nearest threads, the nearest first."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What they rest on."),
};
#undef FIGURE
constexpr std::array kIdentifySays{
    SaidRow{"measured",
            "[{side=external}major][{side=internal}minor] diameter {diameter_mm:both}, pitch "
            "[{unit=mm}{pitch_mm:.4f} mm ({tpi:.4g} tpi)][{unit=in}{tpi:.4g} tpi ({pitch_mm:.4f} mm)]"
            "[, flanks {flank_angle_deg:g} deg]; engagement {engagement_mm}"},
    SaidRow{"nearest", "{verdict=none}{matches.first}"},
    SaidRow{"is", "{verdict=near}{matches.first}"},
    SaidRow{"[{like_the_first?}like][{like_the_first!}or]", "{}", "matches+"},
};
constexpr RecordRow kIdentifyRecord{
    "Identification",
    "Standard threads nearest to a measured part.",
    kIdentifyRows,
    {},
    {"[{verdict=standard}{matches.first}]"
     "[{verdict=near}{matches.first.title}, though not to its usual class]"
     "[{verdict=none}no standard thread is close to {diameter_mm:both}, ]"
     "[{verdict=none}{unit=mm}{pitch_mm:.4f} mm][{verdict=none}{unit=in}{tpi:.4g} tpi]",
     kIdentifySays, "is, nearest, or"}};

/// Whether the nearest thread is the part's.
Identified verdict_of(const ThreadMatch& best, double pitch_mm) {
    if (best.mismatch_mm > kCloseMm || best.flank_equivalent_mm > kCloseMm) {
        return Identified::none;
    }
    if (best.outside_mm == 0.0) {
        return Identified::standard;
    }
    return best.outside_mm <= std::max(kCloseMm, pitch_mm / kShareOfPitch) ? Identified::near
                                                                           : Identified::none;
}

bool is_pipe(const ThreadMatch& match) {
    const FormThread* const form = std::get_if<FormThread>(&match.part.thread);
    return form != nullptr && form->pipe();
}

/// What would tell the nearest threads apart.
void tell_apart(std::vector<Told>& out, const std::vector<ThreadMatch>& found, bool angle_known) {
    const ThreadMatch& best = found.front();
    const auto alike = [&](const auto& holds) {
        return std::any_of(found.begin(), found.end(),
                           [&](const ThreadMatch& each) { return each.like_the_first && holds(each); });
    };
    if (!angle_known &&
        alike([&](const ThreadMatch& each) { return each.flank_angle_deg != best.flank_angle_deg; })) {
        tell(out, "flank_angle_tells");
    }
    if (alike([&](const ThreadMatch& each) { return each.taper != best.taper; })) {
        tell(out, "taper_tells");
    }
    const auto shaped = [&](const ThreadMatch& each) {
        return each.flank_angle_deg == best.flank_angle_deg && each.taper == best.taper;
    };
    if (alike(shaped)) {
        const bool pipes =
            is_pipe(best) && !alike([&](const ThreadMatch& each) { return shaped(each) && !is_pipe(each); });
        tell(out, pipes ? "nothing_tells" : "depth_tells");
    }
    const auto any = [](const ThreadMatch& /*each*/) { return true; };
    if (!alike(any) && found.size() > 1 && found[1].outside_mm == 0.0 &&
        found[1].mismatch_mm <= best.mismatch_mm + kSameMatchMm &&
        found[1].flank_equivalent_mm <= best.flank_equivalent_mm + kSameMatchMm) {
        tell(out, "close_matches");
    }
    if (best.taper || alike([](const ThreadMatch& each) { return each.taper; })) {
        tell(out, "taper_diameter");
    }
}

}  // namespace

void take(PitchAsked& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag == Given::Tag::text) {
        string_view text = given.text;
        while (text.starts_with(' ')) {
            text.remove_prefix(1);
        }
        double turns = kNaN;
        const char* const end = text.data() + text.size();
        const auto read = read_number(text.data(), end, turns);
        const bool lost = text.size() > 1 && text[0] == '0' && text[1] >= '0' && text[1] <= '9';
        if (read.ec == std::errc() && !lost && text.front() != '-' &&
            is_word({read.ptr, static_cast<std::size_t>(end - read.ptr)}, "tpi")) {
            if (!(turns > 0.0)) {
                throw DomainError(fmt::format("{}: threads per inch must be > 0, got {:g}", row.name, turns));
            }
            to.mm = kInchMm / turns;
            return;
        }
    }
    take(to.mm, given, row.above(0), asking);
}

ThreadsNearAnswer threads_near(const ThreadsNearAsk& asked, const Asking& asking) {
    constexpr double kWithin = 0.05;
    ThreadsNearAnswer out{
        .unit = unit_name(asking.inch),
        .diameter_mm = asked.diameter_mm,
        .within_mm = std::isnan(asked.within_mm) ? kWithin * asked.diameter_mm : asked.within_mm};
    for (const SeriesThread& each : threads_near(asking.catalogue, out.diameter_mm, out.within_mm)) {
        out.threads.push_back(format_any_thread(each.thread));
    }
    return out;
}

IdentifyAnswer identify_thread(const IdentifyAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    constexpr std::size_t kLeast = 2;  // the second tells how sure the first is
    const auto count = static_cast<std::size_t>(asked.count);
    IdentifyAnswer out{
        .unit = unit_name(asking.inch),
        .side = asked.side,
        .diameter_mm = asked.diameter_mm,
        .pitch_mm = asked.pitch.mm,
        .engagement_mm = std::isnan(asked.engagement_mm) ? asked.diameter_mm : asked.engagement_mm,
        .flank_angle_deg = asked.flank_angle_deg};
    std::vector<ThreadMatch> found = identify_thread(
        catalogue, {asked.side, out.diameter_mm, out.pitch_mm, out.engagement_mm, out.flank_angle_deg},
        std::max(count, kLeast));
    const ThreadMatch& best = found.front();
    out.verdict = verdict_of(best, out.pitch_mm);
    out.nearest = format_any_thread(best.part.thread);
    if (out.verdict != Identified::none) {
        out.thread = out.nearest;
    }
    out.outside_mm = best.outside_mm;
    out.pitch_difference_mm = best.pitch_difference_mm;
    out.mismatch_mm = best.mismatch_mm;
    if (out.verdict != Identified::standard) {
        tell(out.told, out.verdict == Identified::none ? "no_close_match" : "near_match");
    }
    tell_apart(out.told, found, !std::isnan(asked.flank_angle_deg));
    out.evidence = best.taper ? taper_pipe(TaperPipeAsk{best.part.thread}, asking).evidence
                              : evidence_of(catalogue, limits_of(catalogue, {best.part.thread}, asked.side));
    found.resize(std::min(found.size(), count));
    for (const ThreadMatch& each : found) {
        if (each.like_the_first) {
            out.alike.push_back(format_any_thread(each.part.thread));
        }
    }
    out.matches = std::move(found);
    return out;
}

constinit const Question kThreadsNear = [] {
    Question out = question<ThreadsNearAsk, ThreadsNearAnswer, &threads_near>(
        "threads", "threads_near", "Standard threads of every form near a diameter, preferred ones first.",
        kNearAsked, kNearRecord);
    out.sources = "Series of the threads' standards.";
    out.example = "threads-near 25mm";
    return out;
}();

constinit const Question kIdentifyThread = [] {
    Question out = question<IdentifyAsk, IdentifyAnswer, &identify_thread>(
        "threads", "identify_thread", "What a thread found on the bench may be, of every form at once.",
        kIdentifyAsked, kIdentifyRecord);
    out.sources = "Series and limits of the threads' standards.";
    out.example = "identify-thread 0.248in 20tpi\nidentify-thread 14mm 2mm --side internal";
    return out;
}();

}  // namespace halfnut::threads
