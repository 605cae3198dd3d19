#pragma once
/// The file of a job: parts, their stock, and the operations that make them. Its keys are arguments of
/// questions and members of what the walk reads; name, unit, range and words of each stand there.
///
/// What is checked is shape: keys, types, texts with units, names that must exist, and what must go together
/// in one table. Whether a cut can be made is for its question to say, and for the walk.

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "halfnut/core/file_table.hpp"
#include "halfnut/job/lot.hpp"
#include "halfnut/job/part.hpp"

namespace halfnut::job {

/// A machine that a file names.
struct MachineNamed {
    std::string name{};                ///< by which it is found again
    std::string problem{};             ///< why there is none
    std::vector<std::string> known{};  ///< names that there are
};
using FindMachine = std::function<MachineNamed(std::string_view name)>;

/// Lines of a job's file, from 1, where a part begins and where each of its operations does.
struct PartLines {
    int part = 0;
    std::vector<int> operations{};
};

/// The lines of every part of a job's file, however its operations are written.
[[nodiscard]] std::vector<PartLines> lines_of(std::string_view text);

/// A job as its file says it: every key that a table may have, those that are not given as nothing or as what
/// is usual. `reading` has every mistake, and only without one is it whole.
///
/// Notes
///   1) That no two parts have one name is for the face to say: it knows which letters are alike.
///   2) With the `text` of the file a mistake's place has its line.
[[nodiscard]] FileEntries job_of_file(const Given& file, const FindMachine& find_machine,
                                      FileReading& reading, std::string_view text = {});

/// The JSON Schema (2020-12) of a job's file.
[[nodiscard]] std::string job_schema_json(const Catalogue& catalogue);

/// Keys of a kind of operation that its question calls otherwise: key and argument.
[[nodiscard]] std::vector<std::pair<std::string_view, std::string_view>> called_otherwise(const Kind& kind);

/// How a part of a job, as job_of_file() has it, is cut from its stock.
[[nodiscard]] StockAsk stock_of(const Given& part);

/// Bars of one stock, and what is sawn from each.
struct Sawn {
    std::string stock{};  ///< such as "6061-T6 bar 1 in, 72 in long"
    std::vector<Bar> bars{};
};

extern const RecordRow kSawn;

/// What is sawn from which bar. Of a lot the spares are not counted; stock without a length of its bars, and
/// what goes through the spindle, is left out.
[[nodiscard]] std::vector<Sawn> bars_of(const Given& job);

using MachineOf = std::function<const machine::Machine*(std::string_view name)>;

/// The parts of a job as they are walked: how long each blank is sawn, how far the holes of each pattern
/// spread, and the ends of an adjuster as joints.
///
/// Given
///   job         as job_of_file() had it without a mistake
///   machine_of  each machine that it names
///   text        of its file, for the lines of mistakes
[[nodiscard]] std::vector<Part> parts_of(const Given& job, const MachineOf& machine_of,
                                         const Catalogue& catalogue, std::string_view text = {});

}  // namespace halfnut::job
