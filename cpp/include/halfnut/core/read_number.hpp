#pragma once
/// Numbers read from digits, the same bits with every standard library.

#include <charconv>

namespace halfnut {

/// A decimal number at the start of a text: digits with a point among, before or after them, a minus sign in
/// front, and where `scaled` an exponent behind.
///
/// Given
///   first, last  the text
///   value        left as it is where there is no number
/// Returned
///   where the number ends; an error where there is none, or where it is too large or too small for a double
/// Notes
///   1) As std::from_chars, which not every standard library has for a double, but for infinities and NaN:
///      those are no numbers here.
[[nodiscard]] std::from_chars_result read_number(const char* first, const char* last, double& value,
                                                 bool scaled = true);

}  // namespace halfnut
