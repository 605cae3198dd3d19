#pragma once
// Columns of texts as whole numbers.

#include <pybind11/numpy.h>

namespace halfnut::bind {

/// Texts by their distinct ones.
///
/// Given
///   values   a contiguous array of NumPy texts (kind U, native byte order), or a sequence of objects
/// Returned
///   (codes, texts): for each value its place among the distinct texts, which come in the order of their
///   first use; -1 for what is no text
pybind11::tuple code_texts(const pybind11::object& values);

}  // namespace halfnut::bind
