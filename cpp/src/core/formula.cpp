#include "halfnut/core/formula.hpp"

namespace halfnut {

std::array<double, kMostArguments> ArgumentColumns::element(std::size_t count, std::size_t index) const {
    std::array<double, kMostArguments> out{};
    for (std::size_t i = 0; i < count; ++i) {
        out[i] = data[i][index * step[i]];
    }
    return out;
}

std::array<FormulaRoom, 5> formula_rooms() noexcept {
    return {{{"machine", machine::formulas()},
             {"fits", fits::formulas()},
             {"threads", threads::formulas()},
             {"knurls", knurls::formulas()},
             {"cutting", cutting::formulas()}}};
}

Status evaluate(const FormulaRow& formula, const double* values, double& out) noexcept {
    out = std::numeric_limits<double>::quiet_NaN();
    for (std::size_t i = 0; i < formula.arguments.size(); ++i) {
        const StatusCode code = check(formula.arguments[i], values[i]);
        if (code != StatusCode::ok) {
            return {code, static_cast<std::uint8_t>(i)};
        }
    }
    const double answer = formula.compute(values);
    if (!std::isfinite(answer)) {
        return {formula.refusal != nullptr ? StatusCode::inconsistent : StatusCode::no_result, 0};
    }
    out = answer;
    return {};
}

std::string failure_text(const FormulaRow& formula, Status status, const double* values) {
    switch (status.code) {
        case StatusCode::not_finite:
        case StatusCode::out_of_range:
            return argument_message(formula.arguments[status.argument], values[status.argument]);
        default:
            return std::string(formula.name) + ": " +
                   (formula.refusal != nullptr ? formula.refusal(values)
                                               : std::string(status_sentence(status.code)));
    }
}

}  // namespace halfnut
