// Every question of the room.

#include <array>

#include "halfnut/threads/adjuster_questions.hpp"
#include "halfnut/threads/coating_questions.hpp"
#include "halfnut/threads/joint_questions.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/series_questions.hpp"

namespace halfnut::threads {

std::span<const Question* const> questions() noexcept {
    static constexpr std::array kAll{
        &kCoating,   &kCylindricalFit, &kPreferredFits, &kThreadLimits, &kPrecoat,     &kPlainThread,
        &kWires,     &kShopPlug,       &kJudge,         &kTappingHole,  &kBlindHole,   &kClearanceHole,
        &kScrewSeat, &kTaperPipe,      &kDrillSet,      &kFit,          &kCutToSuit,   &kMinimumStrength,
        &kGalling,   &kStrength,       &kTighten,       &kAdjuster,     &kThreadsNear, &kIdentifyThread};
    return kAll;
}

}  // namespace halfnut::threads
