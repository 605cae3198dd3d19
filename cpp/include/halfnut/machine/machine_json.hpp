#pragma once
/// A machine as JSON has it: the members of Machine by their names, sizes in the unit at the end of a name.
/// What is not given is as in a fresh Machine; positions of levers are an object, {"belt": "slow", "lever":
/// "2"}.

#include <string>

#include "halfnut/core/question.hpp"
#include "halfnut/machine/machine.hpp"

namespace halfnut::machine {

/// The machine of an object.
///
/// Errors
///   DomainError  a key that there is not, with the nearest; a value of the wrong kind; a machine that cannot
///                be, by problems()
[[nodiscard]] Machine machine_of(const Given& object);

/// The object of a machine; machine_of() reads the same machine from it.
[[nodiscard]] std::string machine_json(const Machine& machine);

}  // namespace halfnut::machine
