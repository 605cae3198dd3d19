#pragma once
/// A lot of pieces as a person plans it: stock, times, spares, levers that need not be moved, another order.

#include <cmath>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/job/part.hpp"

namespace halfnut::job {

/// A time from least to most.
struct Span {
    double least_s = 0.0;
    double most_s = 0.0;
};

/// Set-up and first piece, each further piece, and all of a lot, from a piece's time at the machine.
[[nodiscard]] Span first_piece(double time_s) noexcept;
[[nodiscard]] Span further_piece(double time_s) noexcept;
[[nodiscard]] Span lot(double time_s, int quantity) noexcept;

/// Pieces more to saw than are wanted.
[[nodiscard]] int spares(int quantity) noexcept;

/// Times of a lot, pieces more to saw than are wanted, and which pieces are measured wholly.
struct Lot {
    Span first{};    ///< set-up and first piece
    Span further{};  ///< each piece after it
    Span whole{};    ///< all pieces, the first with its set-up
    int spares = 0;
    std::vector<int> measured{};
};

/// Of pieces that take a time each at the machine.
///
/// Errors
///   DomainError  a time below 0 s, or fewer than one piece
[[nodiscard]] Lot lot_of(double time_s, int quantity);

/// Which pieces are measured wholly: the first, then every so many.
[[nodiscard]] std::vector<int> measured_pieces(int quantity);

/// Least and greatest of a plain diameter once both of its surfaces are coated, mm.
[[nodiscard]] std::pair<double, double> once_coated(double least_mm, double greatest_mm, bool inside,
                                                    const threads::BuildUp& coating) noexcept;

/// How stock is cut up for a lot, mm.
struct StockAsk {
    double length_mm = kNaN;  ///< of a finished piece
    int quantity = 1;
    double kerf_mm = 0.0;    ///< of the saw or the parting tool
    double facing_mm = 0.0;  ///< left on at each end
    double stub_mm = 0.0;    ///< stays in the chuck, of each blank
    int pieces = 1;          ///< of a blank
    double bar_mm = kNaN;    ///< NaN: the length of the bars is not known
};

struct CutUp {
    double blank_mm = kNaN;
    int blanks = 0;
    double total_mm = kNaN;  ///< saw cuts included
    std::optional<int> blanks_a_bar{};
    std::optional<int> bars{};
    double left_mm = kNaN;  ///< of the last bar
};

/// How a part's stock is cut up, with what was asked.
struct CutList {
    StockAsk asked{};
    CutUp cut{};
};

/// A blank is as long as its pieces, the facing at either end of each, one kerf to part each piece off the
/// stub that the chuck grips, and that stub. Without a stub and with one piece a blank nothing is parted off.
///
/// Errors
///   DomainError  a size or count out of its range; a blank is longer than a bar
[[nodiscard]] CutUp cut_up(const StockAsk& asked);

struct Blank {
    std::string name{};
    double length_mm = 0.0;
    double kerf_mm = 0.0;
};

struct Bar {
    std::vector<Blank> blanks{};
    double left_mm = 0.0;
};

/// Blanks laid over bars, the longest first, each on the first bar that it goes on; the last blank of a bar
/// needs no cut after it. Every blank must go on a bar.
[[nodiscard]] std::vector<Bar> first_fit(std::vector<Blank> blanks, double bar_mm);

/// The spindle of an operation: the fastest step that suits, and the least speed of its window.
struct Setting {
    int machine = 0;  ///< which
    int step = -1;    ///< -1: no step of the machine's, or several
    double least_rpm = 0.0;
    double cut_s = 0.0;  ///< at that step, of all pieces of the operation
    double rpm = kNaN;   ///< at that step; NaN: a speed of a variable step cannot be asked for
};

/// A spindle step, and the speed that it is set to.
struct StepAt {
    int step = -1;
    double rpm = kNaN;
};

/// The step of each operation, so that levers are not moved for a little: neighbours share a step that lies
/// in the window of each or a little below it, where cutting slower costs less than twice the stops that it
/// saves; and a speed of a variable step that is at most a tenth slower than their own.
///
/// Source
///   rule::shared_speed, rule::shared_dial
[[nodiscard]] std::vector<StepAt> shared_steps(std::span<const Setting> settings,
                                               std::span<const machine::Machine* const> machines);

/// Levers that an operation needs set: what they are for, where they stand, whether the spindle must stand.
struct LeverGroup {
    std::string group{};
    std::string positions{};
    bool stop = false;
};

/// The levers of an operation, before it and as it leaves them; none where it has no answer.
struct Moved {
    std::vector<LeverGroup> before{};
    std::vector<LeverGroup> left{};
    bool answered = false;
};

struct Order {
    std::vector<int> numbers{};  ///< 10, 20, ...
    double saves_s = 0.0;        ///< of a piece
    int saves_stops = 0;
};

/// An order of a part's operations that moves fewer levers and leaves every cut as it is.
///
/// Only operations of one holding change places, and of them none that the trade keeps where it is: a knurl
/// before what is slender or close, threads, reamed and tapped holes after the rest, milled shapes before
/// holes. Each order is walked: an operation that would meet other work, or a mistake that was not there,
/// rules it out.
[[nodiscard]] std::optional<Order> better_order(const Part& part, std::span<const Moved> moved,
                                                const Catalogue& catalogue);

// How a face reads them.
extern const RecordRow kLot;
extern const RecordRow kCutList;
extern const RecordRow kOrder;

}  // namespace halfnut::job
