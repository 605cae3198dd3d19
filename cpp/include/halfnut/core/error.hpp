#pragma once
/// Errors and status codes.
///
/// One non-throwing evaluation serves scalars, arrays and batches: it returns a Status. A scalar call
/// turns a Status other than ok into one of the exceptions below; an array call or a batch keeps it.

#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace halfnut {

/// What of the things given was wrong, for programs; empty where it is not one argument's fault, or the
/// message alone knows.
struct Fault {
    std::string argument;              ///< by the name that a person gives
    std::string value;                 ///< as it was given
    std::vector<std::string> allowed;  ///< every choice, or one range in words
    std::string nearest;               ///< what was probably meant
};

/// Base of every error that Halfnut throws.
class Error : public std::runtime_error {
   public:
    explicit Error(const std::string& message, Fault fault = {})
        : std::runtime_error(message), fault_(std::move(fault)) {}
    [[nodiscard]] const Fault& fault() const noexcept { return fault_; }

   private:
    Fault fault_;
};

/// An argument outside its stated range. Python: also a ValueError.
class DomainError : public Error {
   public:
    using Error::Error;
};

/// A bare number where a length or another quantity with its unit is needed. Python: also a ValueError.
class UnitError : public Error {
   public:
    using Error::Error;
};

/// No row for this, and no rule to go between rows. Python: also a LookupError.
class NotTabulatedError : public Error {
   public:
    using Error::Error;
};

/// Text that is not understood; position() counts bytes from 0. Python: also a ValueError.
class DesignationError : public Error {
   public:
    DesignationError(const std::string& message, std::size_t position, Fault fault = {})
        : Error(message, std::move(fault)), position_(position) {}
    [[nodiscard]] std::size_t position() const noexcept { return position_; }

   private:
    std::size_t position_;
};

/// A table's text that cannot be read; the message begins with file and line. Python: also a ValueError.
class TableError : public Error {
   public:
    using Error::Error;
};

/// Why a row has no answer. The numbers are written to status columns: append, never renumber.
enum class StatusCode : std::uint8_t {
    ok = 0,
    not_finite = 1,       ///< an argument is NaN or infinite
    out_of_range = 2,     ///< an argument is outside its stated range
    no_result = 3,        ///< the arguments are in range but the answer is not a finite number
    unknown_name = 4,     ///< an alloy, machine, tool or class of that name is not in the catalogue
    not_tabulated = 5,    ///< the standard's table has no such row and no rule goes between rows
    not_understood = 6,   ///< a designation or a quantity cannot be read
    no_machine_step = 7,  ///< the machine has no step, feed or travel that does this
    inconsistent = 8,     ///< two arguments contradict each other
    fire = 9,  ///< even the machine's slowest speed is above the limit that keeps chips from burning
};

/// Outcome of one evaluation: the code, and which argument is at fault (index in the function's own list).
struct Status {
    StatusCode code = StatusCode::ok;
    std::uint8_t argument = 0;

    [[nodiscard]] constexpr bool ok() const noexcept { return code == StatusCode::ok; }
    friend constexpr bool operator==(Status, Status) = default;
};

/// The code's name as it is written to status columns, such as "out_of_range".
[[nodiscard]] std::string_view status_name(StatusCode code) noexcept;

/// One plain sentence for a code, without argument or value.
[[nodiscard]] std::string_view status_sentence(StatusCode code) noexcept;

/// Number of letters to change, add or leave out between two texts, case ignored.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// Whether a name may be a slip of the hand for a candidate that is `distance` letters away.
///
/// At most a third of the name's letters differ, one at least of three and more; a letter in front stays a
/// letter and a digit a digit. Of two letters the first is right.
[[nodiscard]] bool near_enough(std::string_view name, std::string_view candidate, std::size_t distance);

/// Whether a candidate is a name written out: it begins with the name's three or more letters, case ignored.
[[nodiscard]] bool written_out(std::string_view name, std::string_view candidate);

/// Nearest of the candidates to a name by edit distance, or an empty view when none is near.
///
/// Given
///   name        what was asked for
///   candidates  a range of std::string_view
/// Returned
///   the candidate with the smallest edit distance (case ignored) among those near enough, the first among
///   equals; else the first that is the name written out; else empty
template <class Range>
[[nodiscard]] std::string_view nearest_name(std::string_view name, const Range& candidates) {
    std::string_view best;
    std::string_view longer;
    std::size_t best_distance = name.size() + 1;
    for (std::string_view candidate : candidates) {
        const std::size_t apart =
            candidate.size() > name.size() ? candidate.size() - name.size() : name.size() - candidate.size();
        if (apart <= name.size() / 3 + 1) {  // a distance is at least that: what is further is not compared
            const std::size_t distance = edit_distance(name, candidate);
            if (distance < best_distance && near_enough(name, candidate, distance)) {
                best_distance = distance;
                best = candidate;
            }
        }
        if (longer.empty() && written_out(name, candidate)) {
            longer = candidate;
        }
    }
    return best.empty() ? longer : best;
}

}  // namespace halfnut
