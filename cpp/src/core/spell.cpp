#include "halfnut/core/spell.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>

#include "halfnut/core/error.hpp"

namespace halfnut {
namespace {

enum class Digits : std::uint8_t {
    places,       ///< so many places
    significant,  ///< so many digits, zeros at the end dropped
};

/// How a figure is written in one system, up to a size from which the next way holds.
struct Way {
    std::string_view unit;
    double base;  ///< of the kind's unit in one of this
    Digits digits;
    int count;
    double below = std::numeric_limits<double>::infinity();
};

struct KindRow {
    FigureKind kind;
    std::string_view name;
    std::string_view suffix;  ///< of keys; empty where another kind has it
    std::array<Way, 2> metric;
    std::array<Way, 2> inch;
};

constexpr double kHorsepowerKw = 550 * kFootM * kPoundForceN / 1000;
constexpr double kFootPoundNm = kPoundForceN * kFootM;
constexpr double kMicroinchUm = 0.0254;

constexpr auto kPlaces = Digits::places;
constexpr auto kDigits = Digits::significant;

// Digits: sizes to what a micrometer reads, forces that are counted on to three figures, those
// of cutting, which are known to a third, to two, roughness to two.
constexpr std::array kKinds{
    KindRow{FigureKind::size, "size", "", {{{"mm", 1, kDigits, 4}}}, {{{"in", kInchMm, kDigits, 4}}}},
    KindRow{FigureKind::length, "length", "_mm", {{{"mm", 1, kPlaces, 3}}}, {{{"in", kInchMm, kPlaces, 4}}}},
    KindRow{FigureKind::fine, "fine", "", {{{"mm", 1, kPlaces, 4}}}, {{{"in", kInchMm, kPlaces, 5}}}},
    KindRow{FigureKind::travel, "travel", "", {{{"mm", 1, kPlaces, 1}}}, {{{"in", kInchMm, kPlaces, 3}}}},
    KindRow{FigureKind::film, "film", "", {{{"µm", 1, kDigits, 3}}}, {{{"in", 25400, kPlaces, 5}}}},
    KindRow{FigureKind::speed,
            "speed",
            "_m_min",
            {{{"m/min", 1, kPlaces, 0}}},
            {{{"ft/min", kFootM, kPlaces, 0}}}},
    KindRow{FigureKind::feed,
            "feed",
            "_mm_rev",
            {{{"mm/rev", 1, kPlaces, 3}}},
            {{{"in/rev", kInchMm, kPlaces, 4}}}},
    KindRow{FigureKind::feed_rate,
            "feed_rate",
            "_mm_min",
            {{{"mm/min", 1, kDigits, 3}}},
            {{{"in/min", kInchMm, kDigits, 3}}}},
    KindRow{FigureKind::spindle,
            "spindle",
            "_rpm",
            {{{"rev/min", 1, kPlaces, 0}}},
            {{{"rev/min", 1, kPlaces, 0}}}},
    KindRow{FigureKind::force,
            "force",
            "_n",
            {{{"N", 1, kDigits, 3, 10000}, {"kN", 1000, kDigits, 3}}},
            {{{"lbf", kPoundForceN, kDigits, 3}}}},
    KindRow{FigureKind::torque,
            "torque",
            "_nm",
            {{{"N m", 1, kDigits, 3}}},
            {{{"lbf in", kFootPoundNm / 12, kDigits, 3, 10 * kFootPoundNm},
              {"lbf ft", kFootPoundNm, kDigits, 3}}}},
    KindRow{
        FigureKind::power, "power", "_kw", {{{"kW", 1, kPlaces, 2}}}, {{{"hp", kHorsepowerKw, kPlaces, 2}}}},
    KindRow{FigureKind::cut_force,
            "cut_force",
            "",
            {{{"N", 1, kDigits, 2, 10000}, {"kN", 1000, kDigits, 2}}},
            {{{"lbf", kPoundForceN, kDigits, 2}}}},
    KindRow{FigureKind::cut_torque,
            "cut_torque",
            "",
            {{{"N m", 1, kDigits, 2}}},
            {{{"lbf in", kFootPoundNm / 12, kDigits, 2, 10 * kFootPoundNm},
              {"lbf ft", kFootPoundNm, kDigits, 2}}}},
    KindRow{FigureKind::cut_power,
            "cut_power",
            "",
            {{{"kW", 1, kDigits, 2}}},
            {{{"hp", kHorsepowerKw, kDigits, 2}}}},
    KindRow{FigureKind::stress,
            "stress",
            "_mpa",
            {{{"MPa", 1, kDigits, 3}}},
            {{{"psi", kPoundForceN / 645.16, kDigits, 3}}}},
    KindRow{FigureKind::time, "time", "_s", {{{"s", 1, kPlaces, 0}}}, {{{"s", 1, kPlaces, 0}}}},
    KindRow{FigureKind::life, "life", "_min", {{{"min", 1, kPlaces, 0}}}, {{{"min", 1, kPlaces, 0}}}},
    KindRow{FigureKind::roughness,
            "roughness",
            "_um",
            {{{"µm", 1, kDigits, 2}}},
            {{{"µin", kMicroinchUm, kDigits, 2}}}},
    KindRow{FigureKind::removal,
            "removal",
            "_cm3_min",
            {{{"cm³/min", 1, kDigits, 3}}},
            {{{"in³/min", kInchMm * kInchMm * kInchMm / 1000, kDigits, 3}}}},
    KindRow{FigureKind::mass, "mass", "_kg", {{{"kg", 1, kDigits, 2}}}, {{{"lb", kPoundKg, kDigits, 2}}}},
    KindRow{FigureKind::rise, "rise", "_k", {{{"°C", 1, kPlaces, 0}}}, {{{"°F", 1 / 1.8, kPlaces, 0}}}},
    KindRow{FigureKind::growth,
            "growth",
            "_um_k",
            {{{"µm/°C", 1, kDigits, 3}}},
            {{{"µin/°F", kMicroinchUm * 1.8, kDigits, 3}}}},
    KindRow{FigureKind::strip,
            "strip",
            "_n_mm",
            {{{"N/mm", 1, kDigits, 3}}},
            {{{"lbf/in", kPoundForceN / kInchMm, kDigits, 3}}}},
    KindRow{FigureKind::angle, "angle", "_deg", {{{"°", 1, kDigits, 4}}}, {{{"°", 1, kDigits, 4}}}},
};
static_assert(std::all_of(kKinds.begin(), kKinds.end(), [](const KindRow& row) {
    return &row == &kKinds[static_cast<std::size_t>(row.kind)];
}));

/// The way that a figure of this size is written.
const Way& way_of(double value, FigureKind kind, UnitSystem system) noexcept {
    const KindRow& row = kKinds[static_cast<std::size_t>(kind)];
    const auto& ways = system == UnitSystem::inch ? row.inch : row.metric;
    return std::abs(value) < ways[0].below ? ways[0] : ways[1];
}

/// "36300" as "36,300"; what stands behind a point stays.
std::string thousands_apart(std::string text) {
    std::size_t at = std::min(text.find('.'), text.size());
    const std::size_t first = text.starts_with('-') ? 1 : 0;
    while (at > first + 3) {
        at -= 3;
        text.insert(at, 1, ',');
    }
    return text;
}

/// Places of a figure, as it is rounded; below zero for whole tens, hundreds and so on.
int places_of(double value, const Way& way) {
    if (way.digits == Digits::places) {
        return way.count;
    }
    const std::string text = fmt::format("{:.{}e}", value / way.base, way.count - 1);
    const char* const exponent = text.data() + text.find('e') + 1;
    int power = 0;
    std::from_chars(exponent + (*exponent == '+' ? 1 : 0), text.data() + text.size(), power);
    return way.count - 1 - power;
}

std::string number(double value, const Way& way, int places) {
    const double shown = value / way.base;
    if (shown == 0.0) {
        return "0";
    }
    if (way.digits == Digits::significant) {
        double step = 1.0;
        for (int i = places; i < 0; ++i) {
            step *= 10.0;
        }
        const double rounded = places < 0 ? std::round(shown / step) * step : shown;
        return thousands_apart(trimmed(rounded, std::max(places, 0)));
    }
    std::string text = fmt::format("{:.{}f}", shown, places);
    const bool nought = text.find_first_not_of("-0.") == std::string::npos;
    return nought && text.starts_with('-') ? text.substr(1) : text;
}

std::string with_unit(std::string text, std::string_view unit) {
    return fmt::format("{}{}{}", text, unit == "°" ? "" : " ", unit);
}

/// To the second under an hour and to the minute above, under ten seconds to the tenth; rounded first, so
/// that no minute has 60 s.
std::string time_text(double seconds) {
    if (seconds < 9.95) {
        return trimmed(seconds, 1) + " s";
    }
    const double whole = std::round(seconds);
    if (whole < 60) {
        return fmt::format("{:.0f} s", whole);
    }
    const double minutes = whole < 3600 ? std::floor(whole / 60) : std::round(seconds / 60);
    const double big = whole < 3600 ? minutes : std::floor(minutes / 60);
    const double small = whole < 3600 ? whole - 60 * minutes : minutes - 60 * big;
    const std::string_view names = whole < 3600 ? "min s" : "h min";
    const std::size_t gap = names.find(' ');
    return small > 0
               ? fmt::format("{:.0f} {} {:.0f} {}", big, names.substr(0, gap), small, names.substr(gap + 1))
               : fmt::format("{:.0f} {}", big, names.substr(0, gap));
}

std::string life_text(double minutes) {
    if (minutes >= kLongestLifeMin) {
        return "8 h or more";
    }
    if (minutes < 1) {
        return "under 1 min";
    }
    return minutes < 10 ? trimmed(minutes, 1) + " min" : fmt::format("{:.0f} min", minutes);
}

}  // namespace

FigureKind figure_kind(std::string_view name) {
    const KindRow* best = nullptr;
    for (const KindRow& row : kKinds) {
        if (row.name == name) {
            return row.kind;
        }
        if (!row.suffix.empty() && name.ends_with(row.suffix) &&
            (best == nullptr || row.suffix.size() > best->suffix.size())) {
            best = &row;
        }
    }
    if (best == nullptr) {
        throw DomainError(fmt::format("'{}' is no kind of figure and does not end in a unit", name));
    }
    return best->kind;
}

std::string spell(double value, FigureKind kind, UnitSystem system) {
    if (kind == FigureKind::time) {
        return time_text(value);
    }
    if (kind == FigureKind::life) {
        return life_text(value);
    }
    const Way& way = way_of(value, kind, system);
    return with_unit(number(value, way, places_of(value, way)), way.unit);
}

std::string spell_number(double value, FigureKind kind, UnitSystem system) {
    const Way& way = way_of(value, kind, system);
    return number(value, way, places_of(value, way));
}

std::string spell_span(double low, double high, FigureKind kind, UnitSystem system) {
    if (kind == FigureKind::time || kind == FigureKind::life) {
        const std::string first = spell(low, kind, system);
        const std::string last = spell(high, kind, system);
        return first == last ? first : first + " to " + last;
    }
    const double larger = std::max(std::abs(low), std::abs(high));
    const Way& way = way_of(larger, kind, system);
    const int places = places_of(larger, way);  // of both: the lesser is no surer
    const std::string first = number(low, way, places);
    const std::string last = number(high, way, places);
    return with_unit(first == last ? first : fmt::format("{} to {}", first, last), way.unit);
}

}  // namespace halfnut
