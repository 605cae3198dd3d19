#pragma once
/// A workpiece as it stands after an operation: outside and bore by zones, holes, slots, faces, what holds
/// it.
///
/// Places are measured along the axis from the finished face of the first end, which is 0; the finished face
/// of the second end is at the part's length, and what is still to come off lies outside of the two.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/schema.hpp"

namespace halfnut::job {

HALFNUT_ENUM(End, first, second)

/// What a surface is.
HALFNUT_ENUM(Surface, stock, turned, taper, groove, thread, knurl, drilled, bored, reamed, tapped,
             counterbored, countersunk)

/// What holds the work.
enum class Grip : std::uint8_t {
    as_held,  ///< by the jaws of the chuck that is named; a collet where it has none
    hard_jaws,
    soft_jaws,   ///< bored to the work's size in place
    strip,       ///< hard jaws on copper or aluminium strip
    split_ring,  ///< hard jaws on a slit ring, bored to the work's size
    collet,
    mandrel,
    faceplate,
    vice,
    centres,
};

constexpr auto enum_names(Grip /*tag*/) {
    using std::pair;
    using std::string_view;
    return std::array{pair{Grip::as_held, string_view("as held")},
                      pair{Grip::hard_jaws, string_view("hard jaws")},
                      pair{Grip::soft_jaws, string_view("soft jaws")},
                      pair{Grip::strip, string_view("strip")},
                      pair{Grip::split_ring, string_view("split ring")},
                      pair{Grip::collet, string_view("collet")},
                      pair{Grip::mandrel, string_view("mandrel")},
                      pair{Grip::faceplate, string_view("faceplate")},
                      pair{Grip::vice, string_view("vice")},
                      pair{Grip::centres, string_view("centres")}};
}

/// A length of the outside or of the bore with one surface. Diameters differ at its ends only on a taper and
/// a countersink.
struct Zone {
    double from_mm = 0.0;
    double to_mm = 0.0;
    double from_diameter_mm = 0.0;
    double to_diameter_mm = 0.0;
    Surface surface = Surface::stock;
    std::string thread{};   ///< designation of a thread, pitch of a knurl
    std::string name{};     ///< as the job calls the surface
    int operation = 0;      ///< that cut it: 10, 20, ...; 0: stock
    bool finished = false;  ///< to a size that matters: limits, a finish, a reamer
    bool left_hand = false;
    double depth_mm = 0.0;  ///< of a thread or a knurl, on the radius

    [[nodiscard]] double length_mm() const noexcept { return to_mm - from_mm; }
    [[nodiscard]] double greatest_mm() const noexcept {
        return from_diameter_mm > to_diameter_mm ? from_diameter_mm : to_diameter_mm;
    }
    [[nodiscard]] double least_mm() const noexcept {
        return from_diameter_mm < to_diameter_mm ? from_diameter_mm : to_diameter_mm;
    }
};

/// Holes off the axis, alike: of a plate, or across a turned part.
struct Holes {
    int count = 1;
    double diameter_mm = 0.0;
    double depth_mm = 0.0;  ///< of the full diameter
    bool through = false;
    Surface surface = Surface::drilled;
    std::string thread{};
    int operation = 0;
    /// Where they lie: least along X and Y, and what they spread over; NaN where the job does not say.
    std::array<double, 4> place_mm{kNaN, kNaN, kNaN, kNaN};
};

/// What a mill or a saw has taken away.
struct Milled {
    std::string shape{};  ///< slot, pocket, side, face, slit
    double length_mm = 0.0;
    double width_mm = 0.0;
    double depth_mm = 0.0;
    int count = 1;
    int operation = 0;
};

/// What holds the work, and where.
struct Held {
    Grip grip = Grip::as_held;
    End end{};              ///< that is worked on: the other one is held
    double from_mm = kNaN;  ///< of the surface gripped; NaN: it is not known how long the jaws are on it
    double to_mm = kNaN;
    double diameter_mm = kNaN;
    Surface surface = Surface::stock;
    int setting = 0;             ///< counts the holdings of the part, from 1
    double stick_out_mm = kNaN;  ///< from the jaws to the face that is worked on
};

struct Profile {
    double from_mm = 0.0;  ///< where the work begins and ends now, stock beyond the finished faces included
    double to_mm = 0.0;
    bool on_bar = false;
    bool first_faced = false;
    bool second_faced = false;
    std::vector<Zone> outside{};  ///< from the first end to the second, without gaps; none of a plate
    std::vector<Zone> bore{};     ///< the same of the hole on the axis, with gaps where there is none
    std::vector<Holes> holes{};
    std::vector<Milled> milled{};
    Held held;

    /// Zones of a list that overlap a length, cut to it.
    [[nodiscard]] static std::vector<Zone> within(const std::vector<Zone>& zones, double from_mm,
                                                  double to_mm);
    /// Put a zone in the place of what lies under it.
    static void lay(std::vector<Zone>& zones, const Zone& zone);
    /// The greatest and the least diameter of the outside over a length; 0 where there is none.
    [[nodiscard]] double greatest_mm(double from, double to) const;
    [[nodiscard]] double least_mm(double from, double to) const;
    /// The greatest diameter of the bore over a length; 0 where there is none.
    [[nodiscard]] double bore_mm(double from, double to) const;
    /// How deep the hole on the axis is from a face, at a diameter or more; to the other face where it goes
    /// through.
    [[nodiscard]] double bored_deep_mm(End end, double diameter_mm, double length_mm) const;
};

}  // namespace halfnut::job
