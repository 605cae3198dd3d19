#pragma once
/// Kinds of knurl.

#include <array>
#include <cstdint>
#include <string_view>
#include <utility>

namespace halfnut::knurls {

/// What the knurl looks like on the work.
enum class Pattern : std::uint8_t {
    straight,          ///< ridges along the axis
    left,              ///< ridges leaning as a left-hand thread
    right,             ///< ridges leaning as a right-hand thread
    diamond_raised,    ///< both hands crossing, points standing
    diamond_indented,  ///< both hands crossing, points sunk
    cross_raised,      ///< along the axis and around it, points standing
    cross_indented,    ///< along the axis and around it, points sunk
};

constexpr auto enum_names(Pattern /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Pattern::straight, string_view("straight")},
                      std::pair{Pattern::left, string_view("left")},
                      std::pair{Pattern::right, string_view("right")},
                      std::pair{Pattern::diamond_raised, string_view("diamond raised")},
                      std::pair{Pattern::diamond_indented, string_view("diamond indented")},
                      std::pair{Pattern::cross_raised, string_view("cross raised")},
                      std::pair{Pattern::cross_indented, string_view("cross indented")}};
}

}  // namespace halfnut::knurls
