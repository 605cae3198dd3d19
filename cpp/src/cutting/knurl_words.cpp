// What is said of knurling a band, and of a dial's reading.

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <string_view>

#include "halfnut/cutting/knurling.hpp"
#include "halfnut/machine/dial.hpp"
#include "said.hpp"

namespace halfnut::cutting {

namespace {

constexpr double kRunsTrueMm = 0.03;
constexpr std::array<std::string_view, 3> kHolders{"one wheel, pushed in from the side",
                                                   "two wheels, above and below the work",
                                                   "three wheels around the work"};

std::vector<std::string> steps_of(const KnurlSetup& setup) {
    const knurls::KnurlBlank& blank = setup.blank.blank;
    const bool cut = setup.blank.process == knurls::Process::cut;
    const UnitSystem system = system_of(setup.unit);
    const auto length = [&](double mm) { return spell(mm, FigureKind::length, system); };
    std::vector<std::string> out{fmt::format(
        "Turn the blank to {} ± {}, running true within {}; chamfer its ends 45 degrees by {}. Knurl before "
        "slender ends are turned down and before the work is parted off.",
        length(blank.blank_diameter_mm), length(blank.blank_plus_minus_mm), length(kRunsTrueMm),
        length(setup.chamfer_mm))};
    if (!std::isnan(setup.groove_depth_mm)) {
        out.push_back(
            fmt::format("Turn a groove {} deep where the knurl ends, or run it off the end: a cut "
                        "knurl does not go to a shoulder.",
                        length(setup.groove_depth_mm)));
    }
    out.push_back(fmt::format("Holder: {}: {}, axes true to the work, faces clean of chips.",
                              kHolders[static_cast<std::size_t>(setup.wheels - 1)], setup.wheel_kind));
    const std::string speed = fmt::format("{:.0f} rev/min, flood oil", setup.spindle_rpm);
    if (cut) {
        out.push_back(fmt::format("Set the full depth of {} at the end of the work, {}.",
                                  length(setup.infeed_mm), speed));
    } else {
        const std::string dial =
            setup.dial ? fmt::format(", the cross slide's dial at {}", setup.dial->said) : "";
        out.push_back(fmt::format(
            "At {}: the first bite firmly, {} on the radius at once, so that the count is set; look that it "
            "shows {} teeth around and single lines. Then {} a turn to {}{}, in {} turns; dwell for {} more.",
            speed, length(setup.first_bite_mm), setup.blank.teeth, length(setup.infeed_mm_rev),
            length(setup.infeed_mm), dial, setup.turns, setup.dwell_turns));
    }
    if (!std::isnan(setup.feed_mm_rev)) {
        out.push_back(
            fmt::format("Start{} and feed along at {} a turn, {} pass{}; do not lift the wheels before "
                        "the end.",
                        cut ? "" : " with half of the wheels' face on the end of the work",
                        length(setup.feed_mm_rev), setup.passes, setup.passes == 1 ? "" : "es"));
    }
    out.push_back(
        fmt::format("It should measure {} over the points. A double pattern: stop, turn the band off "
                    "and take the blank that tracks.",
                    length(blank.finished_diameter_mm)));
    if (!std::isnan(setup.interference_max_mm) && !std::isnan(setup.interference_min_mm)) {
        out.push_back(fmt::format(
            "Press in by {} of interference; try one pair, the points shear rather than spring.",
            spell_span(setup.interference_min_mm, setup.interference_max_mm, FigureKind::length, system)));
    }
    return out;
}

}  // namespace

DialAt dial_at(const machine::Slide& slide, double travel_mm) {
    if (!(travel_mm >= 0.0 && travel_mm < std::numeric_limits<double>::infinity())) {
        throw DomainError(fmt::format("a dial's travel must be >= 0 mm, got {:g}", travel_mm));
    }
    DialAt out{slide.name,
               machine::dial_reading(slide, travel_mm),
               slide.graduation_mm,
               slide.marked_in_inch ? "in" : "mm",
               {}};
    const machine::DialReading& reading = out.reading;
    out.said =
        (reading.turns == 0 ? "" : counted(reading.turns, "turn") + " + ") + counted(reading.line, "line");
    if (reading.remainder_mm != 0.0) {
        out.said += fmt::format(" {}{}", reading.remainder_mm > 0.0 ? "+" : "−",
                                spell(std::abs(reading.remainder_mm), FigureKind::fine, system_of(out.unit)));
    }
    return out;
}

void say(KnurlSetup& setup) {
    const UnitSystem system = system_of(setup.unit);
    const auto length = [&](double mm) { return spell(mm, FigureKind::length, system); };
    setup.said =
        fmt::format("{} {} on {}, {} teeth: {}, {}", setup.blank.pitch, enum_name(setup.blank.pattern),
                    length(setup.blank.blank.blank_diameter_mm), setup.blank.teeth, setup.wheel_kind,
                    spell(setup.spindle_rpm, FigureKind::spindle, system));
    setup.infeed_said = setup.blank.process == knurls::Process::cut
                            ? fmt::format("{} at once, at the end of the work", length(setup.infeed_mm))
                            : fmt::format("{} at once: single lines? Then to {} in {} turns; dwell for {}",
                                          length(setup.first_bite_mm), length(setup.infeed_mm), setup.turns,
                                          setup.dwell_turns);
    setup.steps = steps_of(setup);
}

}  // namespace halfnut::cutting
