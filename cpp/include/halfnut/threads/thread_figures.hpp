#pragma once
/// What a designation says of a thread, as figures by their keys.

#include <span>

#include "halfnut/core/question.hpp"

namespace halfnut::threads {

/// A row a figure; get() takes an AnyThread.
[[nodiscard]] std::span<const FigureRow> thread_figures() noexcept;

}  // namespace halfnut::threads
