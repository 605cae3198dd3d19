#pragma once
/// A question as it is declared, as a record: its arguments, and the figures of its answer. Stubs, commands
/// and batches are made of it.

#include "halfnut/core/question.hpp"

namespace halfnut {

/// Of a Question.
extern const RecordRow kDeclaredQuestion;

}  // namespace halfnut
