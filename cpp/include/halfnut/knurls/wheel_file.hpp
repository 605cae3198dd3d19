#pragma once
/// The file of a shop's knurl wheels. Its keys are those that the reader asks for.

#include <string>
#include <vector>

#include "halfnut/core/file_table.hpp"

namespace halfnut::knurls {

/// A wheel of the shop, or a pair that goes together.
struct Wheel {
    std::string name;
    std::string pitch;
    std::string pattern;
    std::string measured;  ///< as the question of a blank takes it: "0.748 in, 33 teeth"; empty: not measured
    bool cuts = false;
    std::string refusal;  ///< every mistake in its row; empty: it can be used
};

/// The wheels of a file; `reading` has all mistakes.
[[nodiscard]] std::vector<Wheel> wheels_of_file(const Given& file, FileReading& reading);

}  // namespace halfnut::knurls
