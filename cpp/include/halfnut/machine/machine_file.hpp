#pragma once
/// A machine file: one machine of the shop in its own terms, quantities as text with their unit. The keys of
/// the file are those that the reader asks for.

#include <string>
#include <vector>

#include "halfnut/core/file_table.hpp"
#include "halfnut/machine/machine.hpp"

namespace halfnut::machine {

/// The machine of a file's tables. Where there are mistakes, `reading` has them all, and the machine is none.
[[nodiscard]] Machine machine_of_file(const Given& file, FileReading& reading);

/// The machine as a person reads it, a line each: what it is, its spindle, its feeds, what goes into it, its
/// dials, in the words and units of its file, which was read without a mistake.
[[nodiscard]] std::vector<std::string> machine_lines(const Given& file, const Machine& machine);

/// Every key that a machine file may have.
[[nodiscard]] std::vector<std::string> machine_file_keys();

/// What a machine leaves out, and what the answers lack without it.
[[nodiscard]] std::vector<Problem> missing(const Machine& machine);

}  // namespace halfnut::machine
