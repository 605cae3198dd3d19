#pragma once
// What Python gives to a question, read by its declaration.

#include <pybind11/pybind11.h>

#include <memory>
#include <string_view>

#include "halfnut/core/question.hpp"
#include "halfnut/threads/any_thread.hpp"

namespace halfnut::bind {

/// What is asked, in the question's own struct; values in the order of its arguments.
std::shared_ptr<void> read_question(std::string_view name, const pybind11::tuple& values, Asking& asking);

/// Limits of a thread that an earlier answer gave.
const threads::PartLimits& limits_held(pybind11::handle answer);

}  // namespace halfnut::bind
