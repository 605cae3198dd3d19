// Every question of the room.

#include <array>

#include "halfnut/threads/coating_questions.hpp"

namespace halfnut::threads {

std::span<const Question* const> questions() noexcept {
    static constexpr std::array<const Question*, 2> kAll{&kCoating, &kCylindricalFit};
    return kAll;
}

}  // namespace halfnut::threads
