// What is known of a finish, as a question.

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>

#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/coating_questions.hpp"

namespace halfnut::threads {

namespace {

constexpr double kMicrometres = 1000.0;  // in a millimetre
constexpr double kSame = 1e-9;           // um
constexpr double kSixtyDegrees = 30.0;   // half of them

constexpr std::array kAsked{
    HALFNUT_ASKED(
        CoatingAsk, text,
        "Finish by its name, with or without the thickness of its film: \"anodise II\", \"anodise II "
        "black 15 um\", \"hard anodise 0.002 in\", \"electroless nickel B\".")
        .required(),
    HALFNUT_ASKED(CoatingAsk, on, "Alloy it is to go on; one that does not take it is refused.")
        .or_a("Alloy")
        .listing(&material::alloy_names),
    HALFNUT_ASKED(CoatingAsk, strips,
                  "How often the film was stripped and grown anew, which takes metal each time.")
        .from(0, 10)
        .usually("never"),
};

double diameter_min_um(const CoatingAnswer& answer) {
    return 2.0 * answer.build_up_min_um;
}
double diameter_max_um(const CoatingAnswer& answer) {
    return 2.0 * answer.build_up_max_um;
}

#define FIGURE(member, about) HALFNUT_FIGURE(CoatingAnswer, member, about)
constexpr std::array kFigures{
    FIGURE(id, "Name in the table of coatings."),
    FIGURE(name, "Name of the finish."),
    FIGURE(text, "Finish as it was asked for."),
    FIGURE(strips, "How often it was stripped."),
    FIGURE(process, "How it is made."),
    FIGURE(base, "Metal that it goes on."),
    FIGURE(film_min_um, "Least thickness of the film.").always(),
    FIGURE(film_max_um, "Greatest thickness of the film.").always(),
    FIGURE(build_up_min_um, "Least that it adds to a surface.").always(),
    FIGURE(build_up_max_um, "Most that it adds to a surface.").always(),
    made_figure<&diameter_min_um>("diameter_min_um", "What it adds to a diameter, at least."),
    made_figure<&diameter_max_um>("diameter_max_um", "What it adds to a diameter, at most."),
    FIGURE(pitch_change_min_um, "Least change of the pitch diameter of a 60 degree thread.").always(),
    FIGURE(pitch_change_max_um, "Greatest change of it.").always(),
    FIGURE(note, "What else is to be said."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What the build-up rests on."),
};
#undef FIGURE
constexpr std::array kCoatingSays{
    SaidRow{"film", "{film_min_um..film_max_um:film}"},
    SaidRow{"diameter", "{diameter_min_um..diameter_max_um:film}; a hole shrinks by as much"},
    SaidRow{"pitch", "{pitch_change_min_um..pitch_change_max_um:film} on a 60 degree thread"},
    SaidRow{"note", "{note}"},
};
constexpr RecordRow kRecord{"Coating",
                            "A finish: its film, what it adds to a surface, and what to mind.",
                            kFigures,
                            "build_up_min_um build_up_max_um",
                            {"{name}: {build_up_min_um..build_up_max_um:film} a surface "
                             "({build_up_min_um..build_up_max_um:film other})",
                             kCoatingSays, "diameter, pitch"}};

double thickness_um(const Given& given, const AskedRow& row, Asking& asking) {
    double mm = kNaN;
    take(mm, given, row.as_length(), asking);
    return kMicrometres * mm;
}

}  // namespace

void take(BuildUp& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (const auto* const known = given.as<BuildUp>()) {
        to = *known;
        return;
    }
    try {
        if (given.tag == Given::Tag::text) {
            to = parse_build_up(given.text, asking.catalogue);
            return;
        }
        if (given.tag == Given::Tag::list && given.items.size() == 2) {
            to = build_up_between(thickness_um(given.items[0], row, asking),
                                  thickness_um(given.items[1], row, asking));
            return;
        }
        const double exact = thickness_um(given, row, asking);
        to = build_up_between(exact, exact);
    } catch (const Error&) {
        rethrow_of(row.name);
    }
}

std::vector<Told> coating_cautions(const BuildUp& coat, const Catalogue& catalogue, bool internal) {
    std::vector<Told> out;
    const auto tell = [&](const char* code, std::vector<std::pair<std::string, std::string>> words = {}) {
        out.push_back({code, 0.0, std::move(words)});
    };
    if (coat.maximum_by_rule) {
        tell("coat_maximum_by_rule");
    }
    const CoatingRow* const row = coat.row(catalogue);
    if (row == nullptr) {
        return out;
    }
    const bool open = std::isnan(row->film_max_um);
    if (coat.film_min_um < row->film_min_um - kSame ||
        (!open && coat.film_max_um > row->film_max_um + kSame)) {
        tell("coat_film_outside",
             {{"film", open ? fmt::format("{:g}", row->film_min_um)
                            : fmt::format("{:g} to {:g}", row->film_min_um, row->film_max_um)}});
    }
    if (coat.origin == BuildUpOrigin::usual) {
        tell("coat_usual_film");
    }
    switch (row->process) {
        case CoatingProcess::anodise:
            if (row->growth_low != row->growth_high) {
                tell("coat_growth_range");
            }
            if (row->etch_high_um > 0.0) {
                tell("coat_etch", {{"etch", fmt::format("{:g}", row->etch_high_um)}});
            }
            tell("coat_strip");
            if (internal) {
                tell("coat_blind_hole");
            }
            break;
        case CoatingProcess::plating:
            tell("coat_uneven");
            break;
        case CoatingProcess::conversion:
            if (row->name.find("chromate") != std::string_view::npos) {
                tell("coat_chromate");
            }
            break;
        default:
            break;
    }
    return out;
}

CoatingAnswer coating(const CoatingAsk& asked, const Asking& asking) {
    const Catalogue& catalogue = asking.catalogue;
    BuildUp found;
    try {
        found = parse_build_up(asked.text, catalogue);
    } catch (const Error&) {
        rethrow_of("coating");
    }
    const CoatingRow* const row = found.row(catalogue);
    if (row == nullptr) {
        throw NotTabulatedError(
            fmt::format("'{}' is a build-up; a coating has a name, such as 'anodise II'", asked.text));
    }
    if (!asked.on.empty()) {
        const material::AlloyRow& metal = material::find_alloy(catalogue, asked.on);
        require_takes(*row, metal.group, material::full_name(metal));
    }
    if (asked.strips != 0) {
        found = recoated(found, asked.strips, catalogue);
    }
    const auto film = [](double thickness) { return std::isnan(thickness) ? 0.0 : thickness; };
    CoatingAnswer out{.id = std::string(row->id),
                      .name = std::string(row->name),
                      .text = asked.text,
                      .strips = asked.strips,
                      .process = row->process,
                      .base = row->base,
                      .film_min_um = film(found.film_min_um),
                      .film_max_um = film(found.film_max_um),
                      .build_up_min_um = found.min_um,
                      .build_up_max_um = found.max_um,
                      .pitch_change_min_um = coated_pitch_change_um(found.min_um, kSixtyDegrees),
                      .pitch_change_max_um = coated_pitch_change_um(found.max_um, kSixtyDegrees),
                      .note = std::string(row->note),
                      .told = coating_cautions(found, catalogue),
                      .evidence = {}};
    constexpr std::array<std::string_view, 1> kFigure{"build_up_um"};
    Evidence<4> evidence;
    note_build_up(catalogue, found, 0, evidence);
    append_evidence(evidence.items(), kFigure, catalogue, out.evidence);
    return out;
}

constinit const Question kCoating = [] {
    Question out = question<CoatingAsk, CoatingAnswer, &coating>(
        "material", "coating", "What is known of a finish, for a film of a given or its usual thickness.",
        kAsked, kRecord);
    out.sources = "Machinery's Handbook, ISO 4042 and rows of the trade, as the evidence names them.";
    out.example = "coating \"anodise II 12 um\"";
    out.own_units = true;
    return out;
}();

}  // namespace halfnut::threads
