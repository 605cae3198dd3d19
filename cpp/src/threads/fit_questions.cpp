// The questions of fits: whether two threads screw together, and a part cut to suit one that is there.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "answering.hpp"
#include "halfnut/core/error.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/gauging.hpp"
#include "halfnut/threads/precoat.hpp"
#include "halfnut/threads/questions.hpp"

namespace halfnut::threads {

namespace {

using std::string_view;

constexpr double kMicrometres = 1000.0;  // in a millimetre
constexpr double kRoomC = 20.0;          // where limits hold

// ---- whether two threads screw together -------------------------------------------------------------------

constexpr const Argument& fit_range(string_view key) {
    return range_in(kFitArguments, key);
}
#define ASKED(member, about) HALFNUT_ASKED(FitAsk, member, about)
constexpr std::array kFitAsked{
    ASKED(external, "External thread by its designation, or its limits, before coating or by sizes alone.")
        .or_a("Part")
        .required()
        .leads(),
    ASKED(internal, "Internal thread, likewise.").or_a("Part").required(),
    ASKED(build_up,
          "Coating of both parts: its name, or what it adds to each surface: \"8 um\", \"0.0002 in to 0.0003 "
          "in\", \"anodise II black 15 um\".")
        .or_a("BuildUp")
        .optioned("coating")
        .usually("none"),
    ASKED(build_up_external, "Coating of the external part alone.")
        .or_a("BuildUp")
        .optioned("coating_external"),
    ASKED(build_up_internal, "Coating of the internal part alone.")
        .or_a("BuildUp")
        .optioned("coating_internal"),
    ASKED(engagement_mm, "Full-form length of engagement, without chamfers and run-outs.")
        .in(measured("engagement_mm"))
        .usually("the nominal diameter"),
    ASKED(external_pitch_mm, "Pitch diameter of the external part as measured, bare, in place of its limits.")
        .in(measured("external_pitch_mm")),
    ASKED(external_major_mm, "Major diameter of the external part as measured.")
        .in(measured("external_major_mm")),
    ASKED(internal_pitch_mm, "Pitch diameter of the internal part as measured, bare, in place of its limits.")
        .in(measured("internal_pitch_mm")),
    ASKED(internal_minor_mm, "Minor diameter of the internal part as measured.")
        .in(measured("internal_minor_mm")),
    ASKED(external_lead_error_mm, "Error of lead of the external part, between any two flanks engaged.")
        .from(0, kLongestMm)
        .usually("none"),
    ASKED(internal_lead_error_mm, "Error of lead of the internal part.").from(0, kLongestMm).usually("none"),
    ASKED(external_alloy, "Alloy of the external part; needed for a temperature other than 20 C.")
        .or_a("Alloy")
        .listing(&material::alloy_names),
    ASKED(internal_alloy, "Alloy of the internal part; needed for a temperature other than 20 C.")
        .or_a("Alloy")
        .listing(&material::alloy_names),
    ASKED(temperature_c, "Temperature of both parts, degrees Celsius.")
        .in(fit_range("temperature_c"))
        .usually("20 C"),
    ASKED(tolerance_over_sigma, "Tolerance over the standard deviation of the shop's cutting.")
        .in(fit_range("tolerance_over_sigma"))
        .usually("6, which fills the zone"),
    ASKED(mean_shift,
          "Where the shop's mean lies in the zone: 0 the middle, 1 the maximum-material limit, -1 the other.")
        .in(fit_range("mean_shift"))
        .usually("0")
        .finer(),
};
#undef ASKED

constexpr double kRare = 1e-4;  // chance of a pair that binds below which only the rarest do

/// Clearance at the diameter that decides.
std::pair<double, double> deciding_clearance(const ThreadFit& fit) {
    const string_view deciding = enum_name(fit.deciding);
    if (deciding.starts_with("major")) {
        return {fit.major_clearance_min_mm, fit.major_clearance_max_mm};
    }
    if (deciding.starts_with("minor")) {
        return {fit.minor_clearance_min_mm, fit.minor_clearance_max_mm};
    }
    return {fit.pitch_clearance_min_mm, fit.pitch_clearance_max_mm};
}
double deciding_min_mm(const FitAnswer& answer) {
    return deciding_clearance(answer.fit).first;
}
std::optional<double> deciding_max_mm(const FitAnswer& answer) {
    const double most = deciding_clearance(answer.fit).second;
    return std::isnan(most) ? std::nullopt : std::optional(most);
}
bool goes_together(const FitAnswer& answer) {
    return enum_name(answer.fit.verdict) == "free";
}
bool rarely(const FitAnswer& answer) {
    return answer.fit.chance_of_interference < kRare && enum_name(answer.fit.deciding).starts_with("pitch");
}
std::string chance_said(const FitAnswer& answer) {
    constexpr double kWhole = 100.0;
    const double chance = answer.fit.chance_of_interference;
    if (chance <= 0.0) {
        return "none";
    }
    return chance >= 1.0    ? "certain"
           : chance < kRare ? "under 0.01 %"
                            : fmt::format("{:.2g} %", kWhole * chance);
}
double likely_end(const ThreadFit& fit, double sigmas) {
    return std::clamp(fit.clearance_mean_mm + sigmas * fit.clearance_sigma_mm, fit.pitch_clearance_min_mm,
                      fit.pitch_clearance_max_mm);
}
double likely_min_mm(const FitAnswer& answer) {
    return likely_end(answer.fit, -3.0);
}
double likely_max_mm(const FitAnswer& answer) {
    return likely_end(answer.fit, 3.0);
}

/// Upper over lower limit, or the one size that was measured.
std::string over(double high_mm, double low_mm, const std::string& unit) {
    const UnitSystem system = system_of(unit == "in");
    const std::string high = spell_number(high_mm, FigureKind::length, system);
    const std::string low = spell_number(low_mm, FigureKind::length, system);
    return high == low ? high : fmt::format("{}/{}", high, low);
}
std::string external_over(const FitAnswer& answer) {
    return over(answer.external_pitch_max_mm, answer.external_pitch_min_mm, answer.unit);
}
std::string internal_over(const FitAnswer& answer) {
    return over(answer.internal_pitch_max_mm, answer.internal_pitch_min_mm, answer.unit);
}
std::vector<std::string> coats_said(const FitAnswer& answer) {
    std::vector<std::string> out;
    const auto say = [&](double least, double most, string_view side) {
        if (least != 0.0 || most != 0.0) {
            out.push_back(
                fmt::format("{} a surface on the {} part",
                            spell_span(least, most, FigureKind::film, system_of(answer.unit == "in")), side));
        }
    };
    say(answer.build_up_external_min_um, answer.build_up_external_max_um, "external");
    say(answer.build_up_internal_min_um, answer.build_up_internal_max_um, "internal");
    return out;
}

#define FIGURE(member, about) HALFNUT_FIGURE(FitAnswer, member, about)
constexpr std::array kFitRows{
    FIGURE(external, "External part."),
    FIGURE(internal, "Internal part."),
    FIGURE(unit, "Unit of the external part."),
    FIGURE(fit.verdict, "Whether they screw together."),
    FIGURE(fit.deciding, "What decides it."),
    FIGURE(fit.pitch_clearance_min_mm, "Least clearance at the pitch diameter.").always(),
    FIGURE(fit.pitch_clearance_max_mm, "Greatest clearance at the pitch diameter.").always(),
    FIGURE(fit.major_clearance_min_mm, "Least clearance at the major diameter."),
    FIGURE(fit.major_clearance_max_mm, "Greatest clearance at the major diameter."),
    FIGURE(fit.minor_clearance_min_mm, "Least clearance at the minor diameter."),
    FIGURE(fit.minor_clearance_max_mm, "Greatest clearance at the minor diameter."),
    FIGURE(fit.radial_play_min_mm, "Least play side to side.").always(),
    FIGURE(fit.radial_play_max_mm, "Greatest play side to side.").always(),
    FIGURE(fit.axial_play_min_mm, "Least end play.").always(),
    FIGURE(fit.axial_play_max_mm, "Greatest end play.").always(),
    FIGURE(fit.tilt_min_deg, "Least tilt, either way.").always(),
    FIGURE(fit.tilt_max_deg, "Greatest tilt, either way.").always(),
    FIGURE(fit.clearance_mean_mm, "Mean of the clearance at the pitch diameter.").always(),
    FIGURE(fit.clearance_sigma_mm, "Standard deviation of that clearance.").always(),
    FIGURE(fit.chance_of_interference, "Share of the pairs that interfere.").always(),
    FIGURE(fit.engagement_mm, "Full-form length of engagement.").always(),
    FIGURE(fit.engagement_assumed, "That length was not given."),
    FIGURE(fit.lead_mismatch_mm, "Difference of the leads, a turn.").always(),
    FIGURE(fit.turns_to_bind, "Turns until a wrong lead binds."),
    FIGURE(build_up_external_min_um, "Least that a coating adds to a surface of the external part.").always(),
    FIGURE(build_up_external_max_um, "Most that it adds.").always(),
    FIGURE(build_up_internal_min_um, "Least that a coating adds to a surface of the internal part.").always(),
    FIGURE(build_up_internal_max_um, "Most that it adds.").always(),
    FIGURE(external_pitch_max_mm, "Greatest pitch diameter of the external part, bare.").always(),
    FIGURE(external_pitch_min_mm, "Least pitch diameter of the external part, bare.").always(),
    FIGURE(internal_pitch_max_mm, "Greatest pitch diameter of the internal part, bare.").always(),
    FIGURE(internal_pitch_min_mm, "Least pitch diameter of the internal part, bare.").always(),
    FIGURE(remedies, "What makes coated parts go together, each tried."),
    made_figure<&goes_together>("goes_together", "Whether every pair within the limits screws together."),
    made_figure<&deciding_min_mm>("deciding_min_mm", "Least clearance at the diameter that decides."),
    made_figure<&deciding_max_mm>("deciding_max_mm", "Greatest clearance there."),
    made_figure<&rarely>("rarely", "Only the rarest pairs bind."),
    made_figure<&chance_said>("chance_said", "The chance of interference in words."),
    made_figure<&likely_min_mm>("likely_min_mm", "Least likely clearance at the pitch diameter."),
    made_figure<&likely_max_mm>("likely_max_mm", "Greatest likely clearance."),
    made_figure<&external_over>("external_over",
                                "Bare pitch diameter of the external part, upper over lower limit."),
    made_figure<&internal_over>("internal_over", "That of the internal part."),
    made_figure<&coats_said>("coats_said", "What coatings add, each part in words."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kFitSays{
    SaidRow{"bare", "external {external_over}, internal {internal_over} {unit}, pitch diameters"},
    SaidRow{"*coated", "coats_said"},
    SaidRow{"clearance", "{pitch_clearance_min_mm..pitch_clearance_max_mm:both} at the pitch diameter"},
    SaidRow{"", "{major_clearance_min_mm..major_clearance_max_mm:both} at the major diameter"},
    SaidRow{"", "{major_clearance_max_mm!}{major_clearance_min_mm:both} or more at the major diameter"},
    SaidRow{"", "{minor_clearance_min_mm..minor_clearance_max_mm:both} at the minor diameter"},
    SaidRow{"", "{minor_clearance_max_mm!}{minor_clearance_min_mm:both} or more at the minor diameter"},
    SaidRow{"radial", "{radial_play_min_mm..radial_play_max_mm:both} side to side"},
    SaidRow{"axial", "{axial_play_min_mm..axial_play_max_mm:both} end play"},
    SaidRow{"tilt",
            "up to {tilt_max_deg:.2f} deg either way over {engagement_mm}[{engagement_assumed?} (assumed)]"},
    SaidRow{"likely",
            "{verdict!=mismatch}{likely_min_mm..likely_max_mm} at the pitch diameter; chance of interference "
            "{chance_said}"},
    SaidRow{"*or", "remedies"},
    SaidRow{"load", "{said/load}"},
};
constexpr RecordRow kFitRecord{
    "ThreadFit",
    "Fit of two threads; clearances are differences of diameters, below 0 where the parts interfere.",
    kFitRows,
    {},
    {"{external} in {internal}: "
     "[{verdict=free}screws together, {deciding_min_mm..deciding_max_mm} of clearance at the {deciding}]"
     "[{verdict=free}{deciding_max_mm!}screws together, {deciding_min_mm} or more of clearance at the "
     "{deciding}]"
     "[{verdict=may bind}{rarely!}may bind: ]"
     "[{verdict=may bind}{rarely?}screws together, save the rarest pairs: ]"
     "[{verdict=may bind}up to {-1*deciding_min_mm} of interference at the {deciding}]"
     "[{verdict=may bind}{rarely?}, chance {chance_said}]"
     "[{verdict=interferes}does not go together: {-1*deciding_min_mm} of interference at the {deciding} at "
     "worst, "
     "some always]"
     "[{deciding=hand}one is right-hand, the other left-hand: they do not go together]"
     "[{deciding=thread angle}not one thread: the thread angles differ]"
     "[{verdict=mismatch}{deciding!=hand}{deciding!=thread angle}{turns_to_bind!}not one thread: the starts "
     "differ]"
     "[{verdict=mismatch}{turns_to_bind=0}not one thread: the leads differ, and it does not start]"
     "[{verdict=mismatch}{turns_to_bind>0}not one thread: the leads differ by {lead_mismatch_mm} a turn, "
     "bound after "
     "{turns_to_bind:.1f} turns at most]",
     kFitSays,
     "axial, tilt, or",
     false,
     {},
     "{said/load}"},
    true};

/// One part of a fit: its limits, its coating, and what was measured in their place.
struct FitSide {
    PartLimits found;
    BuildUp coat;
    double pitch_mm = kNaN;
    double crest_mm = kNaN;
    double lead_error_mm = 0.0;
    double temperature_c = kRoomC;
    double expansion_um_m_k = 0.0;

    [[nodiscard]] FitPart met() const {
        FitPart part = found.sizes;
        part.build_up = coat;
        if (!std::isnan(pitch_mm)) {
            part.pitch = {pitch_mm, pitch_mm};
        }
        if (!std::isnan(crest_mm)) {
            (found.side == Side::external ? part.major : part.minor) = {crest_mm, crest_mm};
        }
        part.lead_error_mm = lead_error_mm;
        part.temperature_c = temperature_c;
        part.expansion_um_m_k = expansion_um_m_k;
        return part;
    }
    /// It is there already, so that its limits cannot be moved.
    [[nodiscard]] bool is_cut() const { return !std::isnan(pitch_mm) || !std::isnan(crest_mm); }
    [[nodiscard]] FitSide bare() const {
        FitSide out = *this;
        out.coat = {};
        return out;
    }
    [[nodiscard]] FitSide with(const PartLimits& limits) const {
        FitSide out = *this;
        out.found = limits;
        return out;
    }
};
using Pair = std::array<FitSide, 2>;

/// Thermal expansion that a temperature asks for; at 20 C no alloy is needed.
double expansion_at(const Catalogue& catalogue, const std::string& alloy, double temperature_c) {
    if (alloy.empty()) {
        if (temperature_c != kRoomC) {
            throw DomainError(fmt::format("at {:g} C the alloy of each part is needed: its expansion counts",
                                          temperature_c));
        }
        return 0.0;
    }
    const material::AlloyRow& found = material::find_alloy(catalogue, alloy);
    if (std::isnan(found.expansion_um_m_k)) {
        throw NotTabulatedError(
            fmt::format("no thermal expansion is tabulated for {}", material::full_name(found)));
    }
    return found.expansion_um_m_k;
}

Pair pair_of(const FitAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const auto coat = [&](const PartLimits& limits, const std::optional<BuildUp>& given, string_view name) {
        return coat_of(limits, given || asked.build_up.bare() ? given : std::optional(asked.build_up), name);
    };
    PartLimits male = limits_of(catalogue, asked.external, Side::external);
    PartLimits female = limits_of(catalogue, asked.internal, Side::internal);
    const BuildUp outer = coat(male, asked.build_up_external, "build_up_external");
    const BuildUp inner = coat(female, asked.build_up_internal, "build_up_internal");
    return {FitSide{std::move(male), outer, asked.external_pitch_mm, asked.external_major_mm,
                    asked.external_lead_error_mm, asked.temperature_c,
                    expansion_at(catalogue, asked.external_alloy, asked.temperature_c)},
            FitSide{std::move(female), inner, asked.internal_pitch_mm, asked.internal_minor_mm,
                    asked.internal_lead_error_mm, asked.temperature_c,
                    expansion_at(catalogue, asked.internal_alloy, asked.temperature_c)}};
}

FitRequest request_of(const FitAsk& asked, const Pair& pair) {
    const PartLimits& screw = pair[0].found;
    FitRequest request{.external = pair[0].met(),
                       .internal = pair[1].met(),
                       .engagement_mm = asked.engagement_mm,
                       .assumed_engagement_mm = screw.diameter_mm(),
                       .tolerance_over_sigma = asked.tolerance_over_sigma,
                       .mean_shift = asked.mean_shift};
    if (std::isnan(request.engagement_mm) && screw.part) {
        if (const auto* const own = std::get_if<Thread>(&screw.part->thread)) {
            request.engagement_mm = own->engagement_mm();
        }
    }
    return request;
}

/// A limit as a drawing has it, rounded into the zone.
std::string drawn(double value, bool inch, double (*into)(double)) {
    const int places = inch ? 4 : 3;
    const double scale = inch ? 1e4 : 1e3;
    constexpr double kSame = 1e6;
    return fmt::format("{:.{}f}", into(std::round(value * scale * kSame) / kSame) / scale, places);
}

/// What is tried to make a coated pair go together.
class Remedies {
   public:
    Remedies(const Pair& pair, const FitRequest& request, const Catalogue& catalogue)
        : pair_(pair), request_(request), catalogue_(catalogue) {}

    [[nodiscard]] std::vector<std::string> found(const ThreadFit& answer) {
        const bool coated = !pair_[0].coat.bare() || !pair_[1].coat.bare();
        if (!coated || (answer.verdict != FitVerdict::may_bind && answer.verdict != FitVerdict::interferes)) {
            return {};
        }
        cut_for_the_coat();
        mask();
        thin(answer);
        append(out_, std::move(refused_));
        return std::move(out_);
    }

   private:
    [[nodiscard]] bool mends(const Pair& pair) const {
        FitRequest request = request_;
        request.external = pair[0].met();
        request.internal = pair[1].met();
        return fit(request).verdict == FitVerdict::free;
    }

    /// Limits before coating, and those of a class whose allowance holds the coat.
    void cut_for_the_coat() {
        std::array<std::optional<PartLimits>, 2> moved;
        std::array<std::optional<PartLimits>, 2> roomier;
        bool own = false;
        for (std::size_t i = 0; i < pair_.size(); ++i) {
            const FitSide& side = pair_[i];
            if (side.coat.bare() || side.is_cut() || !side.found.part || side.found.coating) {
                continue;
            }
            try {
                const PartLimits before = precoat(catalogue_, side.found, side.coat);
                if (before.coating->way == PrecoatWay::deducted) {
                    moved[i] = before;
                    roomier[i] = roomier_limits(before);
                    own = own || before.by_form();
                }
            } catch (const DomainError& error) {
                refused_.emplace_back(error.what());
            }
        }
        const auto text = [&](const PartLimits& limits) {
            const auto& native = limits.inch ? limits.in : limits.mm;
            return fmt::format("{} to pitch {}/{} {}", limits.title(),
                               drawn(native[2], limits.inch, &std::floor),
                               drawn(native[3], limits.inch, &std::ceil), unit_of(limits));
        };
        offer(moved, text,
              "cut {} before coating (all limits: precoat), gauge at " +
                  std::string(own ? "its own limits" : "the basic size") + " after");
        offer(
            roomier, [](const PartLimits& limits) { return limits.title(); },
            "cut {}, whose allowance is larger");
    }

    template <class Text>
    void offer(const std::array<std::optional<PartLimits>, 2>& instead, const Text& text,
               const std::string& words) {
        Pair tried = pair_;
        std::string names;
        for (std::size_t i = 0; i < tried.size(); ++i) {
            if (instead[i]) {
                tried[i] = tried[i].with(*instead[i]);
                names += (names.empty() ? "" : " and ") + text(*instead[i]);
            }
        }
        if (!names.empty() && mends(tried)) {
            out_.push_back(fmt::format(fmt::runtime(words), names));
        }
    }

    /// Limits of the class whose allowance holds the coat, where there is one.
    [[nodiscard]] std::optional<PartLimits> roomier_limits(const PartLimits& before) const {
        const std::string wanted = roomier_class(before);
        if (wanted.empty()) {
            return std::nullopt;
        }
        std::string text = before.title();
        const std::string own = "-" + class_of(before.part->thread, before.side);
        const std::size_t at = text.find(own);
        if (at == std::string::npos) {
            return std::nullopt;
        }
        text.replace(at, own.size(), "-" + wanted);
        return limits_of(catalogue_, {parse_any_thread(text, catalogue_)});
    }

    void mask() {
        bool alone = false;
        for (std::size_t i = 0; i < pair_.size(); ++i) {
            Pair tried = pair_;
            tried[i] = tried[i].bare();
            if (!pair_[i].coat.bare() && mends(tried)) {
                alone = true;
                out_.push_back(masked(pair_[i].found.title()));
            }
        }
        if (!alone && mends({pair_[0].bare(), pair_[1].bare()})) {
            std::string names;
            for (const FitSide& side : pair_) {
                if (!side.coat.bare()) {
                    names += (names.empty() ? "" : " and of ") + side.found.title();
                }
            }
            out_.push_back(masked(names));
        }
    }

    static std::string masked(const std::string& names) {
        return fmt::format("mask the thread of {}, and leave it bare", names);
    }

    /// The greatest build-up that the bare parts' clearance holds, rounded down.
    void thin(const ThreadFit& answer) {
        constexpr double kLeastRoomUm = 0.001;  // less is rounding, and no coating is so thin
        const double half_angle = pair_[0].found.sizes.half_angle_deg;
        double room = kMicrometres * answer.pitch_clearance_min_mm;
        double coated = 0.0;
        for (const FitSide& side : pair_) {
            if (!side.coat.bare()) {
                room += coated_pitch_change_um(side.coat.max_um, half_angle);
                coated += 1.0;
            }
        }
        if (room / coated < kLeastRoomUm) {
            return;
        }
        const bool inch = pair_[0].found.inch;
        const double most = whole_films(greatest_build_up_um(room / coated, half_angle), inch);
        Pair tried = pair_;
        for (FitSide& side : tried) {
            if (!side.coat.bare()) {
                side.coat = build_up_between(0.0, most);
            }
        }
        if (most > 0.0 && mends(tried)) {
            out_.push_back(fmt::format("a coating that builds up at most {} a surface on {}",
                                       spell(most, FigureKind::film, system_of(inch)),
                                       coated > 1.0 ? "each of the parts" : "the coated part"));
        }
    }

    const Pair& pair_;
    FitRequest request_;
    const Catalogue& catalogue_;
    std::vector<std::string> out_;
    std::vector<std::string> refused_;
};

// ---- a part cut to suit one that is there -----------------------------------------------------------------

#define ASKED(member, about) HALFNUT_ASKED(SuitAsk, member, about)
constexpr std::array kSuitAsked{
    ASKED(thread, "Thread of the pair, by its designation or limits of the part to cut.")
        .or_a("Part")
        .required()
        .leads(),
    ASKED(clearance,
          "Clearance wanted at the pitch diameter once both are coated: \"0.02-0.06 mm\"; a single value is "
          "the "
          "least, and the greatest is that and the tolerance of the part's class.")
        .or_a("BuildUp")
        .required()
        .named(),
    ASKED(internal_pitch_mm, "Pitch diameter of the nut that is there; the screw is the one to cut.")
        .in(measured("internal_pitch_mm")),
    ASKED(external_pitch_mm, "Pitch diameter of the screw that is there; the nut is the one to cut.")
        .in(measured("external_pitch_mm")),
    ASKED(build_up, "Coating still to go on the part to cut.")
        .or_a("BuildUp")
        .optioned("coating")
        .usually("none"),
    ASKED(measured_build_up, "Coating still to go on the measured part.")
        .or_a("BuildUp")
        .optioned("measured_coating")
        .usually("none, it is finished"),
    ASKED(wire, "Wire at hand.").as_length().usually("the nearest of a set"),
    ASKED(over_wires_mm, "What the screw to cut reads over these wires now: then what is left is answered.")
        .in(measured("over_wires_mm")),
};
#undef ASKED

std::string suited_said(const SuitAnswer& answer) {
    const auto limits = [&](const std::string& unit) {
        return fmt::format("{} {}", over(answer.pitch_max_mm, answer.pitch_min_mm, unit), unit);
    };
    return answer.unit == "in" ? fmt::format("{} ({})", limits("in"), limits("mm"))
                               : fmt::format("{} ({})", limits("mm"), limits("in"));
}

#define FIGURE(member, about) HALFNUT_FIGURE(SuitAnswer, member, about)
constexpr std::array kSuitRows{
    FIGURE(thread, "Part to cut."),
    FIGURE(side, "Which part it is."),
    FIGURE(unit, "Unit of the thread."),
    FIGURE(pitch_min_mm, "Least pitch diameter to cut.").always(),
    FIGURE(pitch_max_mm, "Greatest pitch diameter to cut.").always(),
    FIGURE(clearance_min_mm, "Least clearance wanted.").always(),
    FIGURE(clearance_max_mm, "Greatest clearance wanted.").always(),
    FIGURE(measured_pitch_mm, "Pitch diameter of the part that is there.").always(),
    FIGURE(wire_mm, "Wire to measure an external part with."),
    FIGURE(over_min_mm, "Least reading over it."),
    FIGURE(over_max_mm, "Greatest reading over it."),
    HALFNUT_RECORD(SuitAnswer, plug, kPlugRecord, "Plug to try an internal part with."),
    FIGURE(now_pitch_mm, "Pitch diameter of the part as it is cut so far."),
    FIGURE(left_least_mm, "What has to come off it yet, on the diameter; below 0 nothing."),
    FIGURE(left_most_mm, "What may come off it; below 0 it is past the size."),
    made_figure<&suited_said>("limits_said", "The pitch diameter to cut, in both units."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE
constexpr std::array kSuitSays{
    SaidRow{"read", "{over_min_mm..over_max_mm:fine} over {wire_mm:fine} wires"},
    SaidRow{"plug",
            "go end {plug.go_pitch_mm:length} pitch, {plug.go_major_mm:length} major, "
            "{plug.go_over_wires_mm:fine} over {plug.wire_mm:fine} wires"},
    SaidRow{"=", "plug"},
    SaidRow{"left", "{left_most_mm<0}nothing: it is {-1*left_most_mm} past the size"},
    SaidRow{
        "left",
        "{left_most_mm>=0}{left_least_mm<=0}nothing has to come off; {left_most_mm} on a diameter dial may"},
    SaidRow{"left",
            "{left_least_mm>0}{left_least_mm..left_most_mm} to come off on a diameter dial, "
            "{left_least_mm..left_most_mm/2} on a radius dial"},
    SaidRow{
        "suits",
        "{measured_pitch_mm} measured, with a clearance of {clearance_min_mm..clearance_max_mm} once coated"},
};
constexpr RecordRow kSuitRecord{
    "Suited",
    "A part cut to suit one that is there: an external one is read over wires, an "
    "internal one tried with a plug.",
    kSuitRows,
    {},
    {"{thread}: cut the pitch diameter to {limits_said}", kSuitSays, "read, plug, not-go, left, suits"}};

/// Limits of the pitch diameter to cut to.
Suited suited(const SuitRequest& request) {
    Suited out;
    const Status status = evaluate(request, out);
    if (status.code == StatusCode::inconsistent) {
        throw DomainError(
            fmt::format("clearances from {:.4g} to {:.4g} mm leave no pitch diameter to cut to: the coatings "
                        "alone spread "
                        "by {:.4g} mm; allow more clearance, or hold the coating closer",
                        request.clearance_min_mm, request.clearance_max_mm,
                        (request.measured_change_max_um - request.measured_change_min_um +
                         request.change_max_um - request.change_min_um) /
                            kMicrometres));
    }
    if (!status.ok()) {
        throw DomainError(
            "measured pitch diameter, clearances and coatings must be finite, the diameter > 0");
    }
    return out;
}

}  // namespace

FitRequest fit_request(const FitAsk& asked, const Asking& asking) {
    return request_of(asked, pair_of(asked, asking));
}

FitAnswer fit(const FitAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    const Pair pair = pair_of(asked, asking);
    const FitRequest request = request_of(asked, pair);
    const PartLimits& screw = pair[0].found;
    const BuildUp& outer = pair[0].coat;
    const BuildUp& inner = pair[1].coat;
    FitAnswer out{.external = screw.title(),
                  .internal = pair[1].found.title(),
                  .unit = unit_of(screw),
                  .fit = fit(request),
                  .build_up_external_min_um = outer.min_um,
                  .build_up_external_max_um = outer.max_um,
                  .build_up_internal_min_um = inner.min_um,
                  .build_up_internal_max_um = inner.max_um,
                  .external_pitch_max_mm = request.external.pitch.max_mm,
                  .external_pitch_min_mm = request.external.pitch.min_mm,
                  .internal_pitch_max_mm = request.internal.pitch.max_mm,
                  .internal_pitch_min_mm = request.internal.pitch.min_mm};
    out.remedies = Remedies(pair, request, catalogue).found(out.fit);
    if (out.fit.engagement_assumed) {
        tell(out.told, "fit_engagement_assumed",
             {{"length", spell(out.fit.engagement_mm, FigureKind::length, system_of(screw.inch))}});
    }
    for (const FitSide& side : pair) {
        tell_of(out.told, catalogue, side.found, true);
    }
    append(out.told, coating_cautions(outer, catalogue));
    append(out.told, coating_cautions(inner, catalogue, true));
    keep_once(out.told);
    if (!asking.evidence) {
        return out;
    }
    append_evidence(out.fit.evidence.items(), kFitFigures, catalogue, out.evidence);
    append(out.evidence, evidence_of(catalogue, outer));
    if (inner.coating != outer.coating) {
        append(out.evidence, evidence_of(catalogue, inner));
    }
    for (const FitSide& side : pair) {
        append(out.evidence, evidence_of(catalogue, side.found));
    }
    return out;
}

SuitAnswer cut_to_suit(const SuitAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    if (std::isnan(asked.internal_pitch_mm) == std::isnan(asked.external_pitch_mm)) {
        throw DomainError("give the measured pitch diameter of one part: internal_pitch or external_pitch");
    }
    const bool external = std::isnan(asked.external_pitch_mm);
    if (!std::isnan(asked.over_wires_mm) && !external) {
        throw DomainError("over_wires is a reading of an external part, and the one to cut is internal");
    }
    const PartLimits own = limits_of(catalogue, asked.thread, external ? Side::external : Side::internal);
    const double angle = own.sizes.half_angle_deg;
    const double least = asked.clearance.min_um / kMicrometres;
    const double most = asked.clearance.min_um == asked.clearance.max_um
                            ? least + own.pitch_tolerance_mm
                            : asked.clearance.max_um / kMicrometres;
    const BuildUp coat = coat_of(own, asked.build_up, "build_up");
    const double measured = external ? asked.internal_pitch_mm : asked.external_pitch_mm;
    const Suited found =
        suited({.measured_mm = measured,
                .measured_change_min_um = coated_pitch_change_um(asked.measured_build_up.min_um, angle),
                .measured_change_max_um = coated_pitch_change_um(asked.measured_build_up.max_um, angle),
                .clearance_min_mm = least,
                .clearance_max_mm = most,
                .change_min_um = coated_pitch_change_um(coat.min_um, angle),
                .change_max_um = coated_pitch_change_um(coat.max_um, angle),
                .external = external});
    SuitAnswer out{.thread = own.title(),
                   .side = own.side,
                   .unit = unit_of(own),
                   .pitch_min_mm = found.pitch.min_mm,
                   .pitch_max_mm = found.pitch.max_mm,
                   .clearance_min_mm = least,
                   .clearance_max_mm = most,
                   .measured_pitch_mm = measured};
    out.told = coating_cautions(coat, catalogue, !external);
    if (external) {
        const FitPart& part = own.sizes;
        const double lead = part.starts * part.pitch_mm;
        out.wire_mm = wires({.thread = {own}, .wire = asked.wire}, asking).read.wire_mm;
        const auto read = [&](double pitch_diameter) {
            return over_wires_exact_mm(pitch_diameter, part.major.max_mm, part.pitch_mm, lead, angle,
                                       out.wire_mm);
        };
        out.over_min_mm = read(out.pitch_min_mm);
        out.over_max_mm = read(out.pitch_max_mm);
        if (!std::isnan(asked.over_wires_mm)) {
            out.now_pitch_mm = pitch_diameter_from_wires_exact_mm(asked.over_wires_mm, part.major.max_mm,
                                                                  part.pitch_mm, lead, angle, out.wire_mm);
            out.left_least_mm = out.now_pitch_mm - out.pitch_max_mm;
            out.left_most_mm = out.now_pitch_mm - out.pitch_min_mm;
            tell(out.told, "judge_major_assumed");
        }
    } else {
        out.plug = shop_plug(
            {.thread = {own}, .pitch_mm = {out.pitch_min_mm, out.pitch_max_mm}, .wire = asked.wire}, asking);
    }
    append_evidence(found.evidence.items(), kSuitFigures, catalogue, out.evidence);
    append(out.evidence, evidence_of(catalogue, coat));
    return out;
}

constinit const Question kFit = [] {
    Question out = question<FitAsk, FitAnswer, &fit>(
        "threads", "fit", "Whether two threads screw together, bare or coated, and with how much play.",
        kFitAsked, kFitRecord);
    out.sources = "Limits of the threads' standards; geometry; the rows of coatings that the evidence names.";
    out.example =
        "fit \"7/8-14 UNF-2A\" \"7/8-14 UNF-2B\" --coating \"anodise II black 15 um\"\n"
        "fit M10-6g M10-6H --internal-pitch 9.1mm --engagement 12mm";
    return out;
}();

constinit const Question kCutToSuit = [] {
    Question out = question<SuitAsk, SuitAnswer, &cut_to_suit>(
        "threads", "cut_to_suit", "Pitch diameter to cut so that a part suits one that is there.", kSuitAsked,
        kSuitRecord);
    out.sources = "Geometry; common practice for what is left on the dial.";
    out.example = "cut-to-suit M10 --clearance 0.02-0.06mm --internal-pitch 9.1mm --coating \"3-5 um\"";
    return out;
}();

}  // namespace halfnut::threads
