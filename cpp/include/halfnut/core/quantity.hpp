#pragma once
/// Quantities with their units. A bare number is never a length.
///
/// A quantity keeps the number and the unit it was given in; base() converts exactly (25.4 mm to the
/// inch, by the international yard and pound agreement of 1959).

#include <compare>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "halfnut/core/error.hpp"

namespace halfnut {

struct Catalogue;

inline constexpr double kInchMm = 25.4;  ///< exact

enum class Dimension : std::uint8_t {
    length,
    speed,
    feed_per_rev,
    feed_rate,
    angle,
    power,
    force,
    torque,
    time,
    frequency,
    stress,
    hardness,
    mass
};

inline constexpr std::size_t kDimensions = 13;

enum class UnitSystem : std::uint8_t { metric, inch, both };

/// A unit: how it is written and what it is worth in its dimension's base unit
/// (mm, m/min, mm/rev, mm/min, deg, kW, N, N m, s, rev/min, MPa, HB, kg).
struct Unit {
    Dimension dimension{};
    std::string_view symbol;
    double numerator = 1;  ///< base = value * numerator / denominator
    double denominator = 1;
    UnitSystem system{};
};

/// Every unit that is understood, each once, by its symbol.
[[nodiscard]] std::span<const Unit> units() noexcept;

/// The unit that a spelling stands for within a dimension ("inches", "in", "\"" are one unit), or null.
[[nodiscard]] const Unit* find_unit(std::string_view spelling, Dimension dimension) noexcept;
/// The same in whatever dimension knows the spelling first.
[[nodiscard]] const Unit* find_unit(std::string_view spelling) noexcept;

/// The dimension's name and base unit, such as "length" and "mm".
[[nodiscard]] std::string_view dimension_name(Dimension dimension) noexcept;
[[nodiscard]] std::string_view base_unit(Dimension dimension) noexcept;

/// A number with its unit.
///
/// Arithmetic keeps the left operand's unit: 1 in + 25.4 mm is 2 in. Quantities of one dimension are equal,
/// and ordered, by what they come to in the base unit to twelve significant figures: 0.7 in is 17.78 mm,
/// though the two doubles differ in their last bit.
class Quantity {
   public:
    Quantity(double value, const Unit& unit) noexcept : value_(value), unit_(&unit) {}

    [[nodiscard]] double value() const noexcept { return value_; }
    [[nodiscard]] const Unit& unit() const noexcept { return *unit_; }
    [[nodiscard]] Dimension dimension() const noexcept { return unit_->dimension; }
    [[nodiscard]] UnitSystem system() const noexcept { return unit_->system; }
    /// In the dimension's base unit.
    [[nodiscard]] double base() const noexcept { return value_ * unit_->numerator / unit_->denominator; }
    /// In another unit of the same dimension; DomainError if it is of another.
    [[nodiscard]] double in(const Unit& other) const;
    /// As it was given, such as "1.25 in".
    [[nodiscard]] std::string text() const;
    /// In the dimension's base unit to twelve significant figures: what quantities are compared by.
    [[nodiscard]] double compared() const;

    friend bool operator==(const Quantity& a, const Quantity& b) {
        return a.dimension() == b.dimension() && a.compared() == b.compared();
    }
    /// Unordered where the dimensions differ.
    friend std::partial_ordering operator<=>(const Quantity& a, const Quantity& b) {
        return a.dimension() == b.dimension() ? a.compared() <=> b.compared()
                                              : std::partial_ordering::unordered;
    }
    /// A sum or difference below the least of its unit is 0.
    /// Errors
    ///   DomainError  the dimensions differ, or the result is out of the range of its unit
    friend Quantity operator+(const Quantity& a, const Quantity& b);
    friend Quantity operator-(const Quantity& a, const Quantity& b);
    friend Quantity operator*(const Quantity& a, double factor);
    friend Quantity operator/(const Quantity& a, double divisor);
    friend double operator/(const Quantity& a, const Quantity& b);

   private:
    double value_;
    const Unit* unit_;
};

/// A length. `Length::inches(0.25).mm()` is 6.35.
class Length : public Quantity {
   public:
    [[nodiscard]] static Length inches(double value);
    [[nodiscard]] static Length millimetres(double value);
    explicit Length(const Quantity& quantity);  ///< DomainError unless it is a length

    [[nodiscard]] double mm() const noexcept { return base(); }
    [[nodiscard]] double in() const noexcept { return unit_is_inch() ? value() : base() * 5.0 / 127.0; }

   private:
    [[nodiscard]] bool unit_is_inch() const noexcept { return unit().symbol == "in"; }
};

/// Read a quantity of a given dimension.
///
/// Understood: a decimal ("32", ".750", "1e-3"), a fraction ("3/16"), a whole number and a fraction
/// ("1-1/4", "1 1/4"), then the unit, with or without a space ("in", "inch", "inches", "\"", "mm", "thou",
/// "m/min", "ft/min", "mm/rev", "in/rev", "kW", "hp", "deg", ...). For a length also a drill by name:
/// "#7", "No. 7", "drill 7", "letter F", "drill F".
///
/// Given
///   text       UTF-8; blanks at either end are ignored
///   dimension  what is wanted
///   catalogue  where drills known by number or letter are looked up
/// Returned
///   the number as it was written, with its unit; a drill's size is in inches
/// Errors
///   UnitError         a number without a unit; the message shows how to write it
///   DesignationError  anything else that is not understood, with the position; a decimal comma, a
///                     negative number, a nought in front of a digit ("08 mm" may have lost a
///                     point) and a unit of another dimension are named as such
///   NotTabulatedError a drill number or letter that does not exist
/// Example
///   parse_quantity("1-1/4 in", Dimension::length, builtin()).base() = 31.75
[[nodiscard]] Quantity parse_quantity(std::string_view text, Dimension dimension, const Catalogue& catalogue);

/// A quantity that keeps to the range of its unit; DomainError otherwise, NaN included.
[[nodiscard]] Quantity bounded_quantity(double value, const Unit& unit);

/// The same number in a wanted unit, read from text with a unit of its dimension; an angle may have a sign.
///
/// Errors
///   DomainError  the wanted unit is not known; else as parse_quantity
/// Example
///   parse_number("63 uin", "um", builtin()) = 1.6002
[[nodiscard]] double parse_number(std::string_view text, std::string_view unit, const Catalogue& catalogue);

/// parse_quantity for a length. `parse_length("3/16 in", builtin()).mm()` is 4.7625.
[[nodiscard]] Length parse_length(std::string_view text, const Catalogue& catalogue);

/// A number with at most `places` decimals, trailing zeros dropped: trimmed(1.2500, 4) is "1.25".
[[nodiscard]] std::string trimmed(double value, int places);

}  // namespace halfnut
