#include "halfnut/core/read_number.hpp"

#include <cmath>
#include <cstdlib>
#include <string>
#include <system_error>

namespace halfnut {

namespace {

const char* past_digits(const char* at, const char* last) {
    while (at != last && *at >= '0' && *at <= '9') {
        ++at;
    }
    return at;
}

/// Past digits and a point; null where there is no digit.
const char* past_decimal(const char* at, const char* last) {
    const char* const whole = past_digits(at, last);
    if (whole == last || *whole != '.') {
        return whole == at ? nullptr : whole;
    }
    const char* const end = past_digits(whole + 1, last);
    return end == at + 1 ? nullptr : end;
}

/// Past an exponent; where it stood when there is none.
const char* past_exponent(const char* at, const char* last) {
    if (at == last || (*at != 'e' && *at != 'E')) {
        return at;
    }
    const char* const sign = at + 1;
    const char* const digits = sign != last && (*sign == '+' || *sign == '-') ? sign + 1 : sign;
    const char* const end = past_digits(digits, last);
    return end == digits ? at : end;
}

}  // namespace

std::from_chars_result read_number(const char* first, const char* last, double& value, bool scaled) {
    const char* const decimal = past_decimal(first != last && *first == '-' ? first + 1 : first, last);
    if (decimal == nullptr) {
        return {first, std::errc::invalid_argument};
    }
    const char* const end = scaled ? past_exponent(decimal, last) : decimal;
    double found = 0.0;
#if defined(__cpp_lib_to_chars)
    if (const auto [stop, error] = std::from_chars(first, end, found); error != std::errc{}) {
        return {end, error};
    }
#else
    found =
        std::strtod(std::string(first, end).c_str(), nullptr);  // rounds to the nearest, as from_chars does
    if (std::isinf(found) ||
        (found == 0.0 && std::string(first, decimal).find_first_of("123456789") != std::string::npos)) {
        return {end, std::errc::result_out_of_range};
    }
#endif
    value = found;
    return {end, std::errc{}};
}

}  // namespace halfnut
