#pragma once
/// Batches: columns in, columns out. A batch is cut into blocks of rows that workers take one after the
/// other; a row's answer depends on that row alone, so it is the same for any number of workers.

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <exception>
#include <system_error>
#include <thread>
#include <vector>

#include "halfnut/core/error.hpp"
#include "halfnut/core/schema.hpp"

namespace halfnut::batch {

/// Rows of a block: few enough that what is kept of them stays near the processor.
inline constexpr std::size_t kBlockRows = 512;

/// Below these many rows one worker does it all: for rows of plain arithmetic, and for those that look tables
/// up.
inline constexpr std::size_t kSerialRows = 16384;
inline constexpr std::size_t kSerialLookUps = 256;

/// A column of numbers, or one number for all rows. NaN is not given.
struct Numbers {
    const double* data = nullptr;  ///< null: `all` for every row
    double all = kNaN;

    [[nodiscard]] double at(std::size_t row) const noexcept { return data == nullptr ? all : data[row]; }
    [[nodiscard]] bool given() const noexcept { return data != nullptr || all == all; }
};

/// A column of small whole numbers, or one for all rows.
struct Codes {
    const std::int32_t* data = nullptr;
    std::int32_t all = -1;

    [[nodiscard]] std::int32_t at(std::size_t row) const noexcept {
        return data == nullptr ? all : data[row];
    }
};

/// Why a row has no answer, in one number: 0 for an answer, else 256 times the status and the argument at
/// fault.
[[nodiscard]] constexpr std::uint16_t reason_code(Status status) noexcept {
    return status.ok()
               ? std::uint16_t{0}
               : static_cast<std::uint16_t>(static_cast<unsigned>(status.code) << 8U | status.argument);
}
[[nodiscard]] constexpr Status status_of(std::uint16_t reason) noexcept {
    return {static_cast<StatusCode>(reason >> 8U), static_cast<std::uint8_t>(reason & 0xffU)};
}

/// Status and reason of every row. A null column is left out.
struct Outcome {
    std::uint8_t* status = nullptr;
    std::uint16_t* reason = nullptr;

    void set(std::size_t row, Status of) const noexcept {
        if (reason != nullptr) {
            reason[row] = reason_code(of);
        }
        if (status != nullptr) {
            status[row] = static_cast<std::uint8_t>(of.code);
        }
    }
};

/// Workers for a batch: as asked, else one a core; never more than there are blocks.
[[nodiscard]] inline std::size_t workers_for(std::size_t rows, std::size_t serial_rows,
                                             std::size_t asked) noexcept {
    const std::size_t blocks = (rows + kBlockRows - 1) / kBlockRows;
    std::size_t workers = asked;
    if (asked == 0) {
        workers = rows < serial_rows ? 1 : std::thread::hardware_concurrency();
    }
    return workers > blocks ? (blocks == 0 ? 1 : blocks) : (workers == 0 ? 1 : workers);
}

/// Run work(first, last) over blocks of rows on several workers. `make` gives each worker its own work.
///
/// Where the system gives no further thread, those that run do all of it. What one of them throws ends the
/// others at their next block, and reaches the caller when every thread is joined.
template <class Make>
void run_blocks(std::size_t rows, std::size_t workers, std::size_t block_rows, const Make& make) {
    std::atomic<std::size_t> next{0};
    std::atomic_flag failed;
    std::exception_ptr thrown;
    const auto worker = [&]() noexcept {
        try {
            auto work = make();
            for (;;) {
                const std::size_t first = next.fetch_add(block_rows, std::memory_order_relaxed);
                if (first >= rows || failed.test(std::memory_order_relaxed)) {
                    return;
                }
                work(first, rows - first < block_rows ? rows : first + block_rows);
            }
        } catch (...) {
            if (!failed.test_and_set()) {
                thrown = std::current_exception();
            }
        }
    };
    std::vector<std::thread> others;
    others.reserve(workers);
    for (std::size_t i = 1; i < workers; ++i) {
        try {
            others.emplace_back(worker);
        } catch (const std::system_error&) {
            break;
        }
    }
    worker();
    for (std::thread& other : others) {
        other.join();
    }
    if (thrown) {
        std::rethrow_exception(thrown);
    }
}

}  // namespace halfnut::batch
