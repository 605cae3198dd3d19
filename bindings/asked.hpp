#pragma once
// What Python gives to a question, read by its declaration.

#include <pybind11/pybind11.h>

#include <memory>
#include <string_view>
#include <typeinfo>

#include "halfnut/core/question.hpp"

namespace halfnut::bind {

/// What is asked, in the question's own struct; values in the order of its arguments.
std::shared_ptr<void> read_question(std::string_view name, const pybind11::tuple& values, Asking& asking);

/// What the core answered to a question; DomainError where it was another question's.
const void* answer_held(pybind11::handle answer, const std::type_info& kind);

}  // namespace halfnut::bind
