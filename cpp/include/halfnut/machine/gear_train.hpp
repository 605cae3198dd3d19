#pragma once
/// Change gears: every simple and compound train of the gears at hand that gives a lead, or comes near it.
///
/// A simple train is a driver on the stud, one idler, and a driven gear on the leadscrew. A compound train is
/// a driver on the stud, two gears that turn together in the banjo, and a driven gear on the leadscrew:
///
///     stud  driver 1 -> driven 1 = driver 2 -> driven 2  leadscrew
///
/// Ratios are whole numbers over whole numbers, so that an exact train is known to be exact.

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/error.hpp"
#include "halfnut/core/level1.hpp"
#include "halfnut/machine/machine.hpp"

namespace halfnut::machine {

/// A ratio of whole numbers in lowest terms; den > 0.
struct Ratio {
    std::int64_t num = 0;
    std::int64_t den = 1;

    [[nodiscard]] double value() const noexcept {
        return static_cast<double>(num) / static_cast<double>(den);
    }
    friend constexpr bool operator==(const Ratio&, const Ratio&) = default;
};

/// The simplest ratio that a figure of a machine stands for: 25.4 / 8 is 127 / 40, 2.0 / 3.0 is 2 / 3.
///
/// Given
///   value   finite and > 0
/// Returned
///   the ratio of least denominator within 1e-12 of the value; 0 / 1 where it has none below ten million
/// Notes
///   1) Leads, threads an inch and stud ratios are written with a few digits, and the smallest ratios are
///      1e-14 apart at the least, so that the ratio found is the one meant.
[[nodiscard]] Ratio simplest_ratio(double value) noexcept;

/// Lead that a train gives.
///
///     L = S s (A C) / (B D)
///
/// Given
///   screw_lead_mm     S, mm, > 0: lead of the leadscrew
///   spindle_to_stud   s, > 0: turns of the stud for one of the spindle
///   drivers_teeth     A C, > 0: product of the drivers' teeth
///   driven_teeth      B D, > 0: product of the driven gears' teeth
/// Returned
///   mm of the carriage for a turn of the spindle
/// Source
///   F. D. Jones, Turning and Boring (1914), change gears
/// Example
///   train_lead_mm(3.175, 1.0, 40.0, 127.0) = 1
struct TrainLead {
    static constexpr std::string_view name = "train_lead_mm";
    static constexpr std::array arguments{positive("screw_lead_mm", "mm"), positive("spindle_to_stud"),
                                          positive("drivers_teeth"), positive("driven_teeth")};
    static double compute(double screw, double stud, double drivers, double driven) noexcept {
        return screw * stud * drivers / driven;
    }
};
inline double train_lead_mm(double screw_lead_mm, double spindle_to_stud, double drivers_teeth,
                            double driven_teeth) {
    return scalar<TrainLead>(screw_lead_mm, spindle_to_stud, drivers_teeth, driven_teeth);
}

/// Distance of the shafts of two gears in mesh.
///
///     a = m (z1 + z2) / 2
///
/// Given
///   teeth_1, teeth_2   z, > 0
///   module_mm          m, mm, > 0; 25.4 over the diametral pitch
/// Returned
///   mm
/// Source
///   geometry of gears without profile shift
/// Example
///   gear_centres_mm(40.0, 127.0, 1.5875) = 132.55625
struct GearCentres {
    static constexpr std::string_view name = "gear_centres_mm";
    static constexpr std::array arguments{positive("teeth_1"), positive("teeth_2"),
                                          positive("module_mm", "mm")};
    static double compute(double one, double two, double module) noexcept {
        return module * (one + two) / 2.0;
    }
};
inline double gear_centres_mm(double teeth_1, double teeth_2, double module_mm) {
    return scalar<GearCentres>(teeth_1, teeth_2, module_mm);
}

/// Whether a train can be put up.
enum class Mounting : std::uint8_t {
    closes,     ///< the gears mesh within the banjo's reach and clear every shaft
    unchecked,  ///< the machine's file lacks a distance
    open,       ///< it does not close
};

constexpr auto enum_names(Mounting /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Mounting::closes, string_view("closes")},
                      std::pair{Mounting::unchecked, string_view("unchecked")},
                      std::pair{Mounting::open, string_view("does not close")}};
}

/// A train. Of a simple one `driver_2` and `driven_1` are 0 and `idler` lies between the two.
struct GearTrain {
    int driver_1 = 0;  ///< on the stud
    int driven_1 = 0;  ///< in the banjo
    int driver_2 = 0;  ///< in the banjo, with driven_1
    int driven_2 = 0;  ///< on the leadscrew, or on the gearbox's shaft
    int idler = 0;     ///< 0: none, or, where mounting is unchecked, any that fits
    int box = -1;      ///< place in Threading::gearbox; -1: no gearbox
    double error = 0;  ///< relative, of the lead: + is long
    bool exact = false;
    bool standard = false;  ///< the train that the gearbox's chart is for
    bool steep = false;     ///< a mesh above 6 to 1
    Mounting mounting = Mounting::unchecked;
    double stud_to_banjo_mm = kNaN;  ///< shaft distances; NaN: no module is known
    double banjo_to_screw_mm = kNaN;

    [[nodiscard]] bool compound() const noexcept { return driver_2 != 0; }
};

struct GearQuestion {
    Ratio lead_mm;               ///< wanted travel of the carriage for a turn of the spindle
    double error_limit = 0.001;  ///< relative; trains beyond it are not answered
    std::size_t most = 20;       ///< trains to answer
    bool compound = true;        ///< else simple ones only
    bool gearbox = true;         ///< take the gearbox's steps, where there is one
    bool unmountable = false;    ///< answer also trains that do not close
};

struct GearAnswer {
    std::vector<GearTrain> trains;  ///< best first, at most GearQuestion::most
    std::size_t found = 0;          ///< trains within the error limit that can be, or may be, put up
    std::size_t refused = 0;        ///< of the right ratio, that do not close
};

/// Every train of the gears at hand within the error limit, best first.
///
/// Exact trains come first, then by the size of the error; among equals the gearbox's own train, then those
/// without a steep mesh, then simple before compound, then the larger smallest gear. A set of drivers and a
/// set of driven gears is one train: of its up to four orders the one that closes with most room is answered.
///
/// Given
///   threading   lead_mm, spindle_to_stud, gears; gearbox with its standard train; module_mm,
///               stud_to_screw_mm, banjo_low_mm, banjo_high_mm, stud_clearance_mm and collar_mm for mounting
///   question    what is wanted
///   out         the answer
///   why         words for a status other than ok
/// Returned
///   ok, also with no train found; out_of_range or not_finite; inconsistent: a gearbox without its train
/// Notes
///   1) The search looks each driven pair's product up among the sorted driver pairs: it visits the trains
///      within the error limit, not all of them.
///   2) A train closes when its shaft distances and the distance from stud to leadscrew make a triangle, the
///      banjo's stud lies within its reach, and each gear clears the shafts that pass it by a collar's
///      radius; without collar_mm by the rule of 15 teeth. The two gears of a simple train that face each
///      other must not touch.
///   3) The gearbox's own train is on the lathe as it stands: its gears count as at hand, and it closes.
///   4) Longer trains (two idlers, three pairs) are not searched.
/// Source
///   F. D. Jones, Turning and Boring (1914), change gears; geometry; the 15 teeth are common practice,
///   recalled
[[nodiscard]] Status gear_trains(const Threading& threading, const GearQuestion& question, GearAnswer& out,
                                 std::string* why = nullptr);

/// Two gears that turn inches to millimetres once small whole numbers are added: (a / b) (m / n) is near
/// 127/100.
struct TranslatingPair {
    int driver = 0;
    int driven = 0;
    int num = 1;  ///< m
    int den = 1;  ///< n
    double error = 0;
    bool exact = false;
};

/// Translating pairs among gears, found by trying all of them.
///
/// Given
///   gears        teeth, 1 to 400; others are passed over
///   simplest     greatest m and n, 1 to 60
///   error_limit  relative, >= 0
///   inverse      pairs for 100/127, millimetres on an inch leadscrew, in place of 127/100
/// Returned
///   pairs, exact first, then by m n, then by error; for each driver and driven gear the m / n of least m n
/// Source
///   1 in = 25.4 mm exactly; arithmetic
[[nodiscard]] std::vector<TranslatingPair> translating_pairs(const std::vector<int>& gears, int simplest,
                                                             double error_limit, bool inverse);

/// Lead that a row of the machine's threading chart gives, mm; NaN where it cannot be computed.
[[nodiscard]] double chart_lead_mm(const Threading& threading, const ChartRow& row) noexcept;

}  // namespace halfnut::machine
