#pragma once
// Answers of those evaluate() functions that say in words why there is none.

#include <string>

#include "halfnut/core/failed.hpp"

namespace halfnut::threads {

/// The answer of evaluate(out, why), or its words as an error: NotTabulatedError where a table or a name is
/// lacking, else DomainError.
template <class Answer, class Evaluate>
Answer or_throw(const Evaluate& evaluate) {
    Answer out;
    std::string why;
    const Status status = evaluate(out, &why);
    if (status.code == StatusCode::not_tabulated || status.code == StatusCode::unknown_name) {
        throw NotTabulatedError(why);
    }
    if (!status.ok()) {
        throw Failed(status.code, why);
    }
    return out;
}

}  // namespace halfnut::threads
