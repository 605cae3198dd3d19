// Fuzz target: designations and quantities as a person might mistype them. The first byte chooses what is
// read. What must hold for any text: no crash, no exception but Halfnut's own, no NaN in an answer, and a
// designation that is read comes back from its canonical spelling.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "halfnut/core/builtin.hpp"
#include "halfnut/core/quantity.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"

namespace {

using namespace halfnut;

void must(bool holds) {
    if (!holds) {
        std::abort();
    }
}

void limits_are_whole(const threads::Thread& thread, threads::UnifiedRule rule) {
    threads::ThreadLimits limits;
    const Status status = threads::evaluate(builtin(), thread, {.rule = rule}, limits);
    const double high = limits.native(threads::Limit::pitch_max);
    const double low = limits.native(threads::Limit::pitch_min);
    must(status.ok() ? std::isfinite(high) && std::isfinite(low) && high >= low
                     : std::isnan(high) && std::isnan(low));
}

void read_a_thread(std::string_view text) {
    threads::Thread thread;
    threads::DesignationProblem problem;
    if (!threads::read_thread(text, builtin(), thread, &problem).ok()) {
        must(!problem.message.empty() && problem.position <= text.size());
        return;
    }
    threads::Thread again;
    must(threads::read_thread(threads::format_thread(thread), builtin(), again).ok() && again == thread);
    for (const auto rule : {threads::UnifiedRule::formula, threads::UnifiedRule::printed}) {
        limits_are_whole(thread, rule);
        limits_are_whole(thread.part(threads::Side::external), rule);
        limits_are_whole(thread.part(threads::Side::internal), rule);
    }
}

void read_a_quantity(std::string_view text, Dimension dimension) {
    try {
        const Quantity quantity = parse_quantity(text, dimension, builtin());
        must(std::isfinite(quantity.base()) && quantity.base() >= 0.0 && !quantity.text().empty());
    } catch (const Error& error) {
        must(*error.what() != '\0');
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) {
        return 0;
    }
    const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
    constexpr std::uint8_t kHowMany = static_cast<std::uint8_t>(Dimension::stress) + 1;
    if (data[0] % 4 != 0) {
        read_a_thread(text);
    } else {
        read_a_quantity(text, static_cast<Dimension>(data[0] / 4 % kHowMany));
    }
    return 0;
}
