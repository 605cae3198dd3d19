#pragma once
/// What a designation says of a thread, as figures by their keys, and one part of it alone.

#include <span>

#include "halfnut/core/question.hpp"
#include "halfnut/threads/any_thread.hpp"

namespace halfnut::threads {

/// A row a figure; get() takes an AnyThread.
[[nodiscard]] std::span<const FigureRow> thread_figures() noexcept;

/// One part of a thread alone, with the class that is meant where none is given.
[[nodiscard]] AnyThread part_of(const AnyThread& thread, Side side);

}  // namespace halfnut::threads
