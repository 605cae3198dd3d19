#pragma once
/// A dividing head: turns of its crank and holes of its plates for a part of a turn of the work.

#include <string_view>
#include <vector>

namespace halfnut::machine {

inline constexpr int kMostCircle = 400;          ///< holes of a circle
inline constexpr int kMostDividingRatio = 4000;  ///< turns of the crank for one of the work

/// Plates, each its circles of holes: "15 16 17, 21 23 27" are two.
///
/// Errors
///   DomainError  anything but whole numbers from 2 to kMostCircle, blanks and commas
[[nodiscard]] std::vector<std::vector<int>> index_plates(std::string_view argument, std::string_view text);

/// A movement of the crank: whole turns, and holes on one circle or, with a second, on two of one plate.
struct IndexMove {
    int turns = 0;
    int holes = 0;  ///< 0, and a circle of 0: whole turns alone
    int circle = 0;
    int back = 0;  ///< holes on the second circle, against the first where below 0; 0: none
    int back_circle = 0;
    double error_turn = 0.0;  ///< of the crank: what it makes more than is wanted
};

/// Every circle that gives a movement exactly, the largest first.
///
/// Given
///   turns, parts  the movement wanted, turns over parts of one turn of the crank; both above 0
[[nodiscard]] std::vector<IndexMove> index_moves(long long turns, long long parts,
                                                 const std::vector<std::vector<int>>& plates);

/// The nearest movement of each circle, the nearest of them first.
[[nodiscard]] std::vector<IndexMove> nearest_moves(double turns, const std::vector<std::vector<int>>& plates);

/// Movements over two circles of one plate within an error, the nearest first, then those of the fewest
/// holes.
///
/// Given
///   turns   of the crank; only its part of a turn is moved so
///   within  greatest error, turns of the crank
[[nodiscard]] std::vector<IndexMove> two_circle_moves(double turns,
                                                      const std::vector<std::vector<int>>& plates,
                                                      double within);

}  // namespace halfnut::machine
