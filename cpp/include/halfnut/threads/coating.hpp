#pragma once
/// Coatings on threads: what a film adds to each surface and takes from a fit.
///
/// t is the build-up of one surface, outward from the bare metal: the whole thickness of a plate, a share of
/// an anodic film (the rest of it was metal), less what etching takes first. A build-up moves a crest or a
/// root by 2 t in diameter and the pitch diameter by 2 t / sin A, because it stands square on the flank: 4 t
/// at 60 degrees. On an external thread sizes grow, on an internal one they shrink.
///
/// Sources: Machinery's Handbook, 27th ed., p. 1793 (ASME B1.13M); ISO 4042; ASTM F1941, appendix.

#include <cstdint>
#include <limits>
#include <string_view>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/threads/gauging_tables.hpp"
#include "halfnut/threads/rules.hpp"

namespace halfnut::threads {

namespace detail {
inline constexpr Argument kFilm = not_negative("film_um", "um");
inline constexpr Argument kGrowth = between("growth_ratio", 0.0, 1.0);
inline constexpr Argument kEtch = not_negative("etch_um", "um");
inline constexpr Argument kBuildUp = finite("build_up_um", "um");
inline constexpr Argument kCoatedHalfAngle = between("half_angle_deg", 3.0, 60.0, "deg");
}  // namespace detail

struct BuildUpOfFilm {
    static constexpr std::string_view name = "build_up_um";
    static constexpr std::array arguments{detail::kFilm, detail::kGrowth, detail::kEtch};
    static double compute(double film, double growth, double etch) noexcept { return growth * film - etch; }
};

/// Build-up of one surface by a film.
///
///     t = g s - e
///
/// Given
///   film_um       s, thickness of the whole film, um, >= 0
///   growth_ratio  g, share of it that stands outside the bare surface, 0 to 1: 1 for a plate, 1/3 to 1/2 for
///                 a sulfuric acid anodise, 1/2 for a hard one
///   etch_um       e, metal taken off before, um, >= 0
/// Returned
///   um; below 0 when more metal goes than the film grows
/// Errors
///   DomainError  an input is out of its range
/// Source
///   coatings table: threads/coatings
/// Example
///   build_up_um(10.0, 0.5, 0.0) = 5.0
inline double build_up_um(double film_um, double growth_ratio, double etch_um) {
    return scalar<BuildUpOfFilm>(film_um, growth_ratio, etch_um);
}

struct MetalConsumed {
    static constexpr std::string_view name = "metal_consumed_um";
    static constexpr std::array arguments{detail::kFilm, detail::kGrowth};
    static double compute(double film, double growth) noexcept { return (1.0 - growth) * film; }
};

/// Metal of one surface that an anodic film is made of, and that is lost when the film is stripped.
///
///     (1 - g) s
///
/// Given
///   film_um       s, thickness of the whole film, um, >= 0
///   growth_ratio  g, 0 to 1
/// Returned
///   um
/// Errors
///   DomainError  an input is out of its range
/// Example
///   metal_consumed_um(15.0, 0.5) = 7.5
inline double metal_consumed_um(double film_um, double growth_ratio) {
    return scalar<MetalConsumed>(film_um, growth_ratio);
}

struct RecoatedBuildUp {
    static constexpr std::string_view name = "recoated_build_up_um";
    static constexpr std::array arguments{detail::kFilm, detail::kGrowth, detail::kEtch,
                                          not_negative("strips")};
    static double compute(double film, double growth, double etch, double strips) noexcept {
        return growth * film - etch - strips * ((1.0 - growth) * film + etch);
    }
};

/// Build-up of one surface after the film has been stripped and grown anew, etched each time.
///
///     t = g s - e - n ((1 - g) s + e)
///
/// Given
///   film_um, growth_ratio, etch_um  as for build_up_um
///   strips                          n, how often the film was stripped, >= 0
/// Returned
///   um; a stripped part comes out smaller (an internal thread larger) each time
/// Errors
///   DomainError  an input is out of its range
/// Example
///   recoated_build_up_um(12.0, 0.5, 0.0, 1.0) = 0.0
inline double recoated_build_up_um(double film_um, double growth_ratio, double etch_um, double strips) {
    return scalar<RecoatedBuildUp>(film_um, growth_ratio, etch_um, strips);
}

struct CoatedDiameterChange {
    static constexpr std::string_view name = "coated_diameter_change_um";
    static constexpr std::array arguments{detail::kBuildUp};
    static double compute(double build_up) noexcept { return 2.0 * build_up; }
};

/// Change of a cylinder's, a crest's or a root's diameter: 2 t; of a hole or an internal thread, its
/// negative.
///
/// Given
///   build_up_um  t, um
/// Returned
///   um
/// Errors
///   DomainError  not finite
/// Source
///   Machinery's Handbook, 27th ed., p. 1793
/// Example
///   coated_diameter_change_um(5.0) = 10.0
inline double coated_diameter_change_um(double build_up_um) {
    return scalar<CoatedDiameterChange>(build_up_um);
}

struct CoatedPitchChange {
    static constexpr std::string_view name = "coated_pitch_change_um";
    static constexpr std::array arguments{detail::kBuildUp, detail::kCoatedHalfAngle};
    static double compute(double build_up, double half_angle) noexcept {
        return 2.0 * build_up / sine_deg(half_angle);
    }
};

/// Change of an external thread's pitch diameter; of an internal one's, its negative.
///
///     2 t / sin A
///
/// Given
///   build_up_um     t, um
///   half_angle_deg  A, degrees, 3 to 60
/// Returned
///   um: 4 t at 60 degrees, 4.331 t at 55, 7.727 t at 30, 7.988 t at 29
/// Errors
///   DomainError  an input is out of its range
/// Source
///   Machinery's Handbook, 27th ed., p. 1793, for 60 degrees; the rest is the same geometry
/// Example
///   coated_pitch_change_um(5.0, 30.0) = 20.0
inline double coated_pitch_change_um(double build_up_um, double half_angle_deg) {
    return scalar<CoatedPitchChange>(build_up_um, half_angle_deg);
}

struct GreatestBuildUp {
    static constexpr std::string_view name = "greatest_build_up_um";
    static constexpr std::array arguments{not_negative("allowance_um", "um"), detail::kCoatedHalfAngle};
    static double compute(double allowance, double half_angle) noexcept {
        return allowance * sine_deg(half_angle) / 2.0;
    }
};

/// Greatest build-up that an allowance on the pitch diameter holds.
///
///     a sin A / 2
///
/// Given
///   allowance_um    a, fundamental deviation or allowance, um, >= 0
///   half_angle_deg  A, degrees, 3 to 60
/// Returned
///   um: a quarter of the allowance at 60 degrees
/// Errors
///   DomainError  an input is out of its range
/// Source
///   ASTM F1941, appendix
/// Example
///   greatest_build_up_um(32.0, 30.0) = 8.0
inline double greatest_build_up_um(double allowance_um, double half_angle_deg) {
    return scalar<GreatestBuildUp>(allowance_um, half_angle_deg);
}

struct NeededDeviation {
    static constexpr std::string_view name = "needed_deviation_um";
    static constexpr std::array arguments{not_negative("coating_um", "um"),
                                          between("length_diameters", 0.0, 15.0)};
    static double compute(double coating, double length) noexcept {
        return coating * (length <= 5.0 ? 4.0 : length <= 10.0 ? 5.0 : 6.0);
    }
};

/// Fundamental deviation that an external 60 degree thread needs to hold a coating whose average thickness
/// over a batch is known: long parts are coated less evenly.
///
///     4 s up to 5 d, 5 s up to 10 d, 6 s up to 15 d
///
/// Given
///   coating_um        s, batch average of the plate, um, >= 0; a local thickness needs 4 s whatever the
///   length length_diameters  length of the part over its nominal diameter, 0 to 15
/// Returned
///   um
/// Errors
///   DomainError  an input is out of its range
/// Source
///   ISO 4042, table as a web page reprints it
/// Example
///   needed_deviation_um(8.0, 7.0) = 40.0
inline double needed_deviation_um(double coating_um, double length_diameters) {
    return scalar<NeededDeviation>(coating_um, length_diameters);
}

/// Where a build-up's figures come from.
enum class BuildUpOrigin : std::uint8_t {
    none,   ///< bare
    given,  ///< the build-up itself was given
    film,   ///< a coating with a film thickness that was given
    usual,  ///< a coating with its usual range of thickness
};

/// What a coating adds to one surface, from least to most.
struct BuildUp {
    double min_um = 0.0;
    double max_um = 0.0;
    double film_min_um = kNaN;  ///< NaN where the build-up itself was given
    double film_max_um = kNaN;
    BuildUpOrigin origin{};
    bool maximum_by_rule = false;  ///< only a minimum is known: the maximum is half as much again
    std::int16_t coating = -1;     ///< row of Catalogue::coatings; -1: none named

    [[nodiscard]] bool bare() const noexcept { return origin == BuildUpOrigin::none; }
    [[nodiscard]] const CoatingRow* row(const Catalogue& catalogue) const noexcept {
        return coating < 0 ? nullptr : &catalogue.coatings[static_cast<std::size_t>(coating)];
    }
};

/// Read a build-up or a coating.
///
///     8 um                     a build-up, taken as exact
///     0.0002 in to 0.0003 in   a build-up with its range; also 5-8 um, 5..8 um
///     8 um min                 only a minimum (or a nominal) is known: the maximum is half as much again
///     anodise II               a coating with its usual range of film, growth and etch
///     hard anodise 0.002 in    a coating with the thickness of its film
///     bare
///
/// Given
///   text       UTF-8; "anodize", "type II anodise", "colour" or "color" and capitals make no difference
///   catalogue  where coatings are looked up
/// Returned
///   least and greatest build-up of a surface: least growth and most etch, most growth and least etch
/// Errors
///   UnitError          a number without a unit
///   NotTabulatedError  no such coating; the message names the nearest
///   DesignationError   not understood, with the position
/// Source
///   maximum from a minimum: ASME B1.1-2003, 7.4.2 and 7.5.2
/// Example
///   parse_build_up("anodise II 12 um", builtin()).max_um = 6.0
[[nodiscard]] BuildUp parse_build_up(std::string_view text, const Catalogue& catalogue);

/// Note what a build-up rests on, as the evidence of one figure.
template <std::size_t Capacity>
void note_build_up(const Catalogue& catalogue, const BuildUp& build_up, std::uint8_t figure,
                   Evidence<Capacity>& evidence) {
    if (build_up.bare()) {
        return;
    }
    if (const CoatingRow* row = build_up.row(catalogue)) {
        constexpr std::uint8_t kUsual = 1;  // the row's source columns, in their order
        constexpr std::uint8_t kGrowth = 2;
        if (build_up.origin == BuildUpOrigin::usual) {
            evidence.note(figure, rule::coat_film, row_ref(catalogue.coatings, *row, kUsual));
        }
        evidence.note(figure, rule::coat_build_up, row_ref(catalogue.coatings, *row, kGrowth));
    } else {
        evidence.note(figure, rule::coat_build_up);
    }
    if (build_up.maximum_by_rule) {
        evidence.note(figure, rule::coat_maximum);
    }
}

/// Refuse a coating on a metal that does not take it.
///
/// Given
///   row    the coating
///   group  group of the alloy, as the alloys table names it: "aluminium-wrought-aged", "brass-free"
///   title  the alloy, for the message
/// Errors
///   DomainError  the coating does not go on that metal: no anodise on brass or steel
void require_takes(const CoatingRow& row, std::string_view group, std::string_view title);

/// What a coating has added once its film was stripped and grown anew, from least to most.
///
/// Given
///   build_up   of a named coating
///   strips     how often, 0 to 10
///   catalogue  the one that the coating was read with
/// Errors
///   DomainError  not a named coating, or strips out of its range
/// Example
///   recoated(parse_build_up("anodise II 12 um", builtin()), 1, builtin()).max_um = 0.0
[[nodiscard]] BuildUp recoated(const BuildUp& build_up, int strips, const Catalogue& catalogue);

/// A build-up between two values, um.
///
/// Errors
///   DomainError  not finite, or the least above the greatest
[[nodiscard]] BuildUp build_up_between(double min_um, double max_um);

}  // namespace halfnut::threads
