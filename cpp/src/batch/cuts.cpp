#include "halfnut/batch/cuts.hpp"

#include "alloy_tables.hpp"
#include "write_cut.hpp"

namespace halfnut::batch {

using namespace cutting;

namespace {

// Rows through evaluate(); `start` is the request but for its numbers, material and tool.
template <class Request, std::size_t N>
void evaluate_rows(const CutSetting& setting, const WorkColumns& work, const std::array<Numbers, N>& numbers,
                   const std::array<RequestArgument<Request>, N>& arguments, const Request& start,
                   std::size_t rows, const CutColumns& out) {
    const AlloyTables tables(setting, rows);
    const auto worker = [&] {
        return [&, request = start](std::size_t first, std::size_t last) mutable {
            for (std::size_t row = first; row < last; ++row) {
                Status status = check_tool(work, row);
                if (!status.ok()) {
                    write_cut(out, row, status, {}, -1);
                    continue;
                }
                request.work = work_of(setting, work, row);
                request.tool_material = static_cast<ToolMaterial>(work.tool_material.at(row));
                for (std::size_t i = 0; i < N; ++i) {
                    request.*(arguments[i].member) = numbers[i].at(row);
                }
                CutResult result;
                status = evaluate(tables.of(work.alloy.at(row)), *setting.machine, request, result);
                write_cut(out, row, status, result, -1);
            }
        };
    };
    constexpr std::size_t kRows = 64;
    run_blocks(rows, workers_for(rows, kSerialLookUps, setting.workers), kRows, worker);
}

}  // namespace

void holes(const CutSetting& setting, const HoleColumns& columns, std::size_t rows, const CutColumns& out) {
    HoleRequest start;
    start.cut = columns.cut;
    start.chuck = setting.chuck;
    evaluate_rows(setting, columns.work, columns.numbers, kHoleArguments, start, rows, out);
}

void mill(const CutSetting& setting, const MillColumns& columns, std::size_t rows, const CutColumns& out) {
    MillRequest start;
    start.shape = columns.shape;
    evaluate_rows(setting, columns.work, columns.numbers, kMillArguments, start, rows, out);
}

}  // namespace halfnut::batch
