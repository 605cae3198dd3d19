#pragma once
/// Level-1 formulas as rows of plain data: what a face needs to describe and to call any of them.
///
/// A formula's type (see level1.hpp) is registered by one line in its room's formulas.cpp:
///
///     row<SpindleSpeed>("Spindle speed that gives a cutting speed at a diameter, rev/min."),
///
/// The sentence ends with the unit of the result. Nothing outside row() is a template.

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "halfnut/core/level1.hpp"

namespace halfnut {

inline constexpr std::size_t kMostArguments = 16;

/// What went wrong in a block of elements: how many failed, and where and why the first did.
struct Failures {
    std::size_t count = 0;
    std::size_t first_index = 0;
    Status first{};
};

/// Columns of arguments: the data of each, and 0 or 1 as the step from element to element.
struct ArgumentColumns {
    std::array<const double*, kMostArguments> data{};
    std::array<std::size_t, kMostArguments> step{};

    [[nodiscard]] std::array<double, kMostArguments> element(std::size_t count, std::size_t index) const;
};

struct FormulaRow {
    std::string_view name;
    std::string_view summary;
    std::span<const Argument> arguments;
    /// The result for arguments that are each in range; not finite where they do not go together.
    double (*compute)(const double* values) noexcept = nullptr;
    /// Why arguments that are each in range do not go together; null where the formula has no words for it.
    std::string (*refusal)(const double* values) = nullptr;
    /// Evaluate many elements: `out` as by evaluate(), `codes` (or null) the status of each.
    Failures (*block)(const ArgumentColumns& in, std::size_t size, double* out,
                      std::uint8_t* codes) noexcept = nullptr;
};

struct FormulaRoom {
    std::string_view name;
    std::span<const FormulaRow> formulas;
};

namespace cutting {
[[nodiscard]] std::span<const FormulaRow> formulas() noexcept;
}
namespace fits {
[[nodiscard]] std::span<const FormulaRow> formulas() noexcept;
}
namespace knurls {
[[nodiscard]] std::span<const FormulaRow> formulas() noexcept;
}
namespace machine {
[[nodiscard]] std::span<const FormulaRow> formulas() noexcept;
}
namespace threads {
[[nodiscard]] std::span<const FormulaRow> formulas() noexcept;
}

/// Every level-1 formula, room by room.
[[nodiscard]] std::array<FormulaRoom, 5> formula_rooms() noexcept;

/// Evaluate a formula without throwing: `out` is the answer, or NaN with a status other than ok.
[[nodiscard]] Status evaluate(const FormulaRow& formula, const double* values, double& out) noexcept;

/// Why there is no answer: the argument at fault with its value and range, or why they do not go together.
[[nodiscard]] std::string failure_text(const FormulaRow& formula, Status status, const double* values);

namespace detail {

template <class Formula>
using Places = std::make_index_sequence<Formula::arguments.size()>;

template <class Formula, std::size_t... I>
double compute(const double* values, std::index_sequence<I...> /*places*/) noexcept {
    return Formula::compute(values[I]...);
}
template <class Formula, std::size_t... I>
std::string refusal(const double* values, std::index_sequence<I...> /*places*/) {
    return Formula::refusal(values[I]...);
}
/// Asked of the call, not of the name: a refusal() may be a template.
template <class Formula, std::size_t... I>
constexpr bool refuses(std::index_sequence<I...> /*places*/) {
    return kRefuses<Formula, std::conditional_t<I == I, double, void>...>;
}
/// The loop over arrays, the one part that is made for each formula for the sake of speed.
template <class Formula, std::size_t... I>
Failures block(const ArgumentColumns& in, std::size_t size, double* out, std::uint8_t* codes,
               std::index_sequence<I...> /*places*/) noexcept {
    Failures failures;
    for (std::size_t k = 0; k < size; ++k) {
        const Status status = halfnut::evaluate<Formula>(out[k], in.data[I][k * in.step[I]]...);
        if (codes != nullptr) {
            codes[k] = static_cast<std::uint8_t>(status.code);
        }
        if (!status.ok() && failures.count++ == 0) {
            failures.first_index = k;
            failures.first = status;
        }
    }
    return failures;
}

}  // namespace detail

/// A formula's row; `summary` is one sentence that ends with the unit of the result.
template <class Formula>
constexpr FormulaRow row(std::string_view summary) {
    using Places = detail::Places<Formula>;
    static_assert(Formula::arguments.size() <= kMostArguments);
    FormulaRow out{.name = Formula::name, .summary = summary, .arguments = Formula::arguments};
    out.compute = [](const double* values) noexcept { return detail::compute<Formula>(values, Places{}); };
    if constexpr (detail::refuses<Formula>(Places{})) {
        out.refusal = [](const double* values) { return detail::refusal<Formula>(values, Places{}); };
    }
    out.block = [](const ArgumentColumns& in, std::size_t size, double* to, std::uint8_t* codes) noexcept {
        return detail::block<Formula>(in, size, to, codes, Places{});
    };
    return out;
}

}  // namespace halfnut
