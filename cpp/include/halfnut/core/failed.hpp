#pragma once
/// An error that keeps the status of the evaluation that failed: what a row's status column says.

#include <string>
#include <utility>

#include "halfnut/core/error.hpp"

namespace halfnut {

class Failed : public DomainError {
   public:
    Failed(StatusCode code, const std::string& message, Fault fault = {})
        : DomainError(message, std::move(fault)), code_(code) {}
    [[nodiscard]] StatusCode code() const noexcept { return code_; }

   private:
    StatusCode code_;
};

/// What an error is to a row: the status that it keeps, else that of its kind.
[[nodiscard]] inline StatusCode code_of(const Error& error) noexcept {
    if (const auto* const failed = dynamic_cast<const Failed*>(&error)) {
        return failed->code();
    }
    if (dynamic_cast<const NotTabulatedError*>(&error) != nullptr) {
        return StatusCode::not_tabulated;
    }
    return dynamic_cast<const DomainError*>(&error) != nullptr ? StatusCode::out_of_range
                                                               : StatusCode::not_understood;
}

}  // namespace halfnut
