// Fuzz target: every reader of text beside ISO metric and Unified threads, and what follows from what was
// read. The first byte chooses the reader. What must hold for any text: no crash, no exception but Halfnut's
// own, no NaN in an answer, and what has a canonical spelling comes back from it.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "halfnut/core/builtin.hpp"
#include "halfnut/core/overlay.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/core/table.hpp"
#include "halfnut/cutting/constants.hpp"
#include "halfnut/fits/cylindrical.hpp"
#include "halfnut/knurls/pitch.hpp"
#include "halfnut/material/alloy.hpp"
#include "halfnut/threads/any_thread.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/holes.hpp"
#include "halfnut/threads/kinds.hpp"

namespace {

using namespace halfnut;

void must(bool holds) {
    if (!holds) {
        std::abort();
    }
}

/// What throws Halfnut's own errors only, each with words.
template <class Read>
void read(Read reader) {
    try {
        reader();
    } catch (const Error& error) {
        must(*error.what() != '\0');
    }
}

void thread_of_any_form(std::string_view text) {
    threads::AnyThread thread;
    std::string why;
    if (!threads::read_any_thread(text, builtin(), thread, &why).ok()) {
        must(!why.empty());
        return;
    }
    const std::string spelling = threads::format_any_thread(thread);
    threads::AnyThread again;
    must(threads::read_any_thread(spelling, builtin(), again).ok() &&
         threads::format_any_thread(again) == spelling);
    must(threads::pitch_mm(thread) > 0.0 && std::isfinite(threads::pitch_mm(thread)));
    for (const auto side : {threads::Side::external, threads::Side::internal}) {
        threads::ThreadPart part;
        if (!threads::one_part(thread, side, part, &why).ok()) {
            continue;
        }
        threads::PartLimits limits;
        if (threads::evaluate(builtin(), part, {}, limits, &why).ok()) {
            for (const double mm : limits.mm) {
                must(!std::isinf(mm) && !(mm < 0.0));
            }
        } else {
            must(!why.empty());
        }
    }
    read([&] { must(threads::basic_major_mm(builtin(), thread) > 0.0); });
}

void cylinder(std::string_view text) {
    fits::Cylinder size;
    fits::CylinderProblem problem;
    if (!fits::read_cylinder(text, builtin(), size, &problem).ok()) {
        must(!problem.message.empty() && problem.position <= text.size());
        return;
    }
    const std::string spelling = fits::format_cylinder(size);
    fits::Cylinder again;
    must(fits::read_cylinder(spelling, builtin(), again).ok() && fits::format_cylinder(again) == spelling);
    fits::CylinderLimits limits;
    std::string why;
    if (fits::evaluate(builtin(), size, limits, &why).ok()) {
        must(!limits.hole.given || limits.hole.tolerance() >= 0);
        must(!limits.shaft.given || limits.shaft.tolerance() >= 0);
        must(limits.clearance_max >= limits.clearance_min);
    } else {
        must(!why.empty());
    }
}

void coating(std::string_view text) {
    const threads::BuildUp built = threads::parse_build_up(text, builtin());
    must(std::isfinite(built.min_um) && std::isfinite(built.max_um) && built.min_um <= built.max_um);
}

void knurl(std::string_view text) {
    read([&] { (void)knurls::parse_knurl_pattern(text, builtin()); });
    const knurls::KnurlPitch pitch = knurls::parse_knurl_pitch(text, builtin());
    must(pitch.value > 0.0 && std::isfinite(pitch.value));
    must(!knurls::knurl_pitch_text(pitch.system, pitch.value).empty());
}

/// A shop's table: its text alone, and laid over one of the built-in ones. What comes of its rows must not
/// crash either.
void table(std::string_view text, std::size_t which) {
    read([&] { (void)parse_table(text, "fuzz"); });
    constexpr std::string_view kTablesRead[] = {"threads/drill_sets",     "quantity/drills",
                                                "threads/unified_series", "threads/coatings",
                                                "material/alloys",        "cutting/speeds"};
    Overlay overlay(builtin());
    overlay.add(kTablesRead[which % std::size(kTablesRead)], text, "fuzz");
    const Catalogue& tables = overlay.catalogue();
    read([&] { (void)threads::drill_set(tables, threads::usual_drill_set(tables, false)); });
    threads::AnyThread thread;
    (void)threads::read_any_thread("1/4-20 UNC-2A", tables, thread);
    (void)material::match_alloy(tables, "6061-T6");
}

void holes(std::string_view text) {
    read([&] {
        for (const threads::DrillSize& drill : threads::drill_set(builtin(), text)) {
            must(drill.diameter_mm > 0.0 && std::isfinite(drill.diameter_mm));
        }
    });
    read([&] { (void)threads::tap_lead(builtin(), text); });
    read([&] { (void)threads::clearance_fit(text); });
}

/// A quantity of one dimension, or an alloy: of the readers that to look for the nearest name takes longest.
void quantity(std::string_view text, int which) {
    constexpr int kDimensions = static_cast<int>(Dimension::stress) + 1;
    if (which % (kDimensions + 1) == kDimensions) {
        (void)material::find_alloy(builtin(), text);
        return;
    }
    const auto wanted = static_cast<Dimension>(which % (kDimensions + 1));
    const Quantity found = parse_quantity(text, wanted, builtin());
    must(bounds::of_unit(base_unit(found.dimension())).holds(found.base()));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) {
        return 0;
    }
    const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
    read([&] {
        switch (data[0] % 8) {
            case 0:
            case 1:
                return thread_of_any_form(text);
            case 2:
                return cylinder(text);
            case 3:
                return coating(text);
            case 4:
                return knurl(text);
            case 5:
                return table(text, data[0] / 8);
            case 6:
                return holes(text);
            default:
                return quantity(text, data[0] / 8);
        }
    });
    return 0;
}
