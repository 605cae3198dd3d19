#pragma once
// How much a long test asks under the sanitizers: they look for faults of memory, which the first rows show
// as well as the last; the figures of all are compared without them.

#include <cstddef>

namespace halfnut::test {

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
inline constexpr bool kSanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif
#else
inline constexpr bool kSanitized = false;
#endif

/// `all`, or a tenth of it under a sanitizer.
constexpr std::size_t as_many(std::size_t all) {
    return kSanitized ? all / 10 : all;
}

}  // namespace halfnut::test
