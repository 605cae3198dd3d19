#pragma once
/// The tables that Halfnut brings.

#include "halfnut/core/catalogue.hpp"

namespace halfnut {

/// The built-in tables; compiled in from cpp/data, initialised at compile time.
[[nodiscard]] const Catalogue& builtin() noexcept;

}  // namespace halfnut
