#pragma once
// One part on its way through its operations: what the files of this room share.

#include <cmath>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/job/walk.hpp"

namespace halfnut::job {

inline constexpr double kTouch = 1e-6;  // mm: sizes and places that are the same
inline constexpr int kApart = 10;       // between the numbers of operations

/// What is not given counts nothing.
inline double or_zero(double value) {
    return std::isnan(value) ? 0.0 : value;
}

/// Sizes of a thread that a blank, a hole and a groove are judged by, mm.
struct ThreadSizes {
    double major_low = kNaN;  ///< limits to cut to, before a coating
    double major_high = kNaN;
    double minor_low = kNaN;
    double minor_high = kNaN;
    double root = kNaN;   ///< of an external thread, the least
    double major = kNaN;  ///< basic
    double pitch = kNaN;
    bool left_hand = false;
    bool tapers = false;
};

using Words = std::initializer_list<std::pair<std::string_view, std::string>>;

/// A mistake in the words of its code.
[[nodiscard]] Mistake mistake_of(const Catalogue& catalogue, bool inch, std::string_view code, int operation,
                                 double found = kNaN, double needed = kNaN, Words words = {},
                                 double most = kNaN);

class Walker {
   public:
    Walker(const Part& part, const Catalogue& catalogue);
    WalkedPart walk();

   private:
    // ---- where ----
    /// A place from the face of an end, as one along the axis; and back.
    [[nodiscard]] double along(End end, double from_face) const {
        return end == End::first ? from_face : part_.length_mm - from_face;
    }
    /// From and to along the axis, of what begins and ends so far from the face.
    [[nodiscard]] std::pair<double, double> span(const Step& step, double from, double to) const;
    /// How far from the face the work ends.
    [[nodiscard]] double far_end(End end) const;
    [[nodiscard]] double near_end(End end) const;
    /// Where the cut begins and ends, from the face.
    [[nodiscard]] std::pair<double, double> cut_of(const Step& step) const;
    [[nodiscard]] double knurl_place(const Step& step) const;
    [[nodiscard]] bool tracks(const Step& step, double diameter) const;
    [[nodiscard]] double groove_place(const Step& step) const;
    [[nodiscard]] bool on_lathe(const Step& step) const;
    [[nodiscard]] bool same_setting(const Step& before, const Step& after) const;
    /// Zones of the outside over a length from the face, the nearest first, measured from the face.
    [[nodiscard]] std::vector<Zone> seen_from(End end, const std::vector<Zone>& zones, double from,
                                              double to) const;

    // ---- what is wrong ----
    void mistake(std::string_view code, double found = kNaN, double needed = kNaN, Words words = {},
                 double most = kNaN);
    [[nodiscard]] std::string size(double mm) const;

    // ---- what is held ----
    void hold(const Step& step);
    void hold_bar(const Step& step, double reach);
    void hold_piece(const Step& step, double reach);
    void check_machine(const Step& step);
    void check_jaws(const Step& step, const Zone& gripped);
    void check_centre(const Step& step);
    void check_true();
    [[nodiscard]] double reach_of(const Step& step) const;
    /// How far the job says that the work stands out in the holding of an operation; NaN: it does not.
    [[nodiscard]] double said_stick_out(const Step& step) const;
    /// How far it stands out in an operation: as that says, else as it is held; NaN of inside work.
    [[nodiscard]] double overhang(const Step& step) const;
    void check_form(const Step& step);
    void check_steadies(const Step& step);
    [[nodiscard]] bool is_supported(const Step& step) const;
    [[nodiscard]] const machine::Chuck* chuck_of(const Step& step) const;
    [[nodiscard]] double run_out_mm(std::size_t place) const;
    [[nodiscard]] std::optional<std::size_t> feature(std::string_view name) const;

    /// How the work stands out of what holds it, as a cut along its outside finds it.
    void set_sections(const Step& step);

    // ---- operations ----
    void step(const Step& step);
    void order(const Step& step);
    void check_reach(const Step& step, double to);
    /// What stands in front of a cut that begins behind the face, and what breaks it.
    void check_neck(const Step& step, double from, double to);
    void check_flats(const Step& step, double begin, double end);
    void check_broken(const Step& step);
    void check_finish(const Step& step);
    void check_start(const Step& step, double met);
    /// Whether what is turned suits a thread along its whole length.
    bool check_blank(const Step& step, const ThreadSizes& sizes);
    void check_run_out(const Step& step, const ThreadSizes& sizes);
    void check_cut_away(const std::vector<Zone>& zones, const Zone& zone, bool inside);
    /// Cut a zone out of the outside, where there is more than it leaves; out of the bore, where there is
    /// less.
    void cut_outside(const Zone& zone);
    void cut_bore(Zone zone);
    [[nodiscard]] Zone zone_of(const Step& step, double from, double to, double diameter,
                               Surface surface) const;
    void face(const Step& step);
    void turn(const Step& step);
    void groove(const Step& step);
    void thread_outside(const Step& step);
    void thread_inside(const Step& step);
    void knurl(const Step& step);
    void part_off(const Step& step);
    void bore(const Step& step);
    void spot(const Step& step);
    void drill(const Step& step);
    void ream(const Step& step);
    void tap(const Step& step);
    void widen(const Step& step);
    void mill(const Step& step);
    void saw(const Step& step);
    void check_lengths();
    void check_wall(const Step& step, double diameter, double from, double to);
    void check_tap_depth(const Step& step, const ThreadSizes& sizes, double hole_deep, bool through);
    void check_tap_hole(const Step& step, const ThreadSizes& sizes, double hole);
    void check_count(const Step& step, const Holes& holes);
    /// A wide drill has a pilot, but in metal that grabs.
    void check_pilot(const Step& step, double hole);
    void check_guided(bool guided);
    /// Whether its holes are measured from a corner, as far as the job's words say so.
    [[nodiscard]] static bool from_corner(const Step& step);
    void check_edges(const Step& step);
    void check_recess(const Step& step, double from);
    void check_thread_bar(const Step& step, const ThreadSizes& sizes, double hole);
    void check_tap(const Step& step, const ThreadSizes& sizes);
    [[nodiscard]] bool is_of(std::string_view group) const;
    /// Holes of a pattern on the work, and beside each other.
    void check_places(const Step& step);
    /// What is bought and put on: a finish for another metal.
    void check_coating();
    void ream_in(const Step& step, double hole, double hole_deep, bool through);
    /// The hole on the axis at a face, 0 where there is none, and how deep it goes.
    [[nodiscard]] double hole_at(End end) const;
    [[nodiscard]] bool goes_through(End end, double deep) const;
    [[nodiscard]] std::optional<ThreadSizes> sizes_of(const Step& step) const;
    /// The group of holes off the axis that an operation goes on with; null where there is none.
    Holes* holes_for(double least, double most);
    [[nodiscard]] double thickness_mm() const;
    [[nodiscard]] double hole_depth(const Step& step) const;
    [[nodiscard]] double beyond(const Step& step, double lead_mm) const;
    [[nodiscard]] bool on_axis(const Step& step) const;
    [[nodiscard]] const Step* maker(int operation) const;

    const Part& part_;
    const Catalogue& catalogue_;
    Profile now_;
    Walked at_;
    WalkedPart out_;
    std::vector<int> settings_;  ///< of each operation
    std::vector<Held> held_;     ///< of each operation
    int operation_ = 0;
    int parted_ = 0;  ///< operation that parted it off; 0: none yet
    bool spotted_[2] = {false, false};
    int spotted_by_[2] = {0, 0};           ///< operation that spotted each end
    double centre_mm_[2] = {0.0, 0.0};     ///< width of the spot in each end
    double centre_deg_[2] = {kNaN, kNaN};  ///< cone of the spot in each end; NaN: not said
    double planed_mm_ = 0.0;               ///< that face mills took off a plate
    bool broken_told_ = false;
    bool unguided_told_ = false;
    int deep_by_[2] = {0, 0};  ///< operation that sank a head into each side of a plate, the last
    std::vector<Holes> spots_;
};

/// Cautions that go with a part as a whole, each once.
[[nodiscard]] std::vector<Told> standing(const Part& part, const Catalogue& catalogue);

/// Joints whose threads nobody cuts, or cuts too short.
void check_joints(std::span<const Part> parts, const Catalogue& catalogue, WalkedJob& walked);

}  // namespace halfnut::job
