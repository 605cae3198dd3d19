#include "halfnut/threads/metric.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/threads/profile.hpp"

namespace halfnut::threads {
namespace {

// One decade of R40 (ISO 3), times 100.
constexpr std::array<int, 40> kR40{100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212,
                                   224, 236, 250, 265, 280, 300, 315, 335, 355, 375, 400, 425, 450, 475,
                                   500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950};
constexpr int kDecades = 5;
constexpr int kPlaces = kDecades * static_cast<int>(kR40.size());

/// The R40 number at a place, counted from 1 um.
double r40(int place) {
    constexpr std::array<int, kDecades> kDecade{1, 10, 100, 1'000, 10'000};
    return kR40[static_cast<std::size_t>(place % 40)] * kDecade[static_cast<std::size_t>(place / 40)] / 100.0;
}

/// As the tables print it: whole micrometres, a half going to the even one.
int r40_um(int place) {
    return bounds::whole<int>(std::nearbyint(r40(place)));
}

/// Place of the R40 number nearest by ratio.
std::optional<int> r40_place(double um) {
    if (!(um > 0.97) || um > 95'000.0) {
        return std::nullopt;
    }
    int below = 0;
    int above = kPlaces;
    while (above - below > 1) {
        const int middle = (below + above) / 2;
        (r40(middle) <= um ? below : above) = middle;
    }
    const auto apart = [um](int place) { return std::abs(log2_of(um / r40(place))); };
    return above < kPlaces && apart(above) < apart(below) ? above : below;
}

std::optional<int> stepped(std::optional<int> place, int steps) {
    if (!place || *place + steps < 0 || *place + steps >= kPlaces) {
        return std::nullopt;
    }
    return r40_um(*place + steps);
}

// R40 places from grade 6.
constexpr std::array<int, 10> kExternalMajorSteps{0, 0, 0, 0, -8, 0, 0, 0, 8, 0};
constexpr std::array<int, 10> kInternalMinorSteps{0, 0, 0, 0, -8, -4, 0, 4, 8, 0};
constexpr std::array<int, 10> kExternalPitchSteps{0, 0, 0, -12, -8, -4, 0, 4, 8, 12};
constexpr std::array<int, 10> kInternalPitchSteps{0, 0, 0, 0, -3, 1, 5, 9, 13, 0};  // from T_d2(6)

constexpr std::array<double, 10> kRanges{0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180, 355};

std::int64_t nm(double mm) {
    return bounds::nearest<std::int64_t>(mm * 1e6, -bounds::kUnits, bounds::kUnits);
}
double mm(std::int64_t units) {
    return static_cast<double>(units) / 1e6;
}

/// Diameter that stands for its range: the geometric mean of the limits; outside every range the diameter
/// itself.
double range_mean(double d) {
    for (std::size_t i = 0; i + 1 < kRanges.size(); ++i) {
        if (d > kRanges[i] && d <= kRanges[i + 1]) {
            return std::sqrt(kRanges[i] * kRanges[i + 1]);
        }
    }
    return d;
}

/// The row of a grade, or the nearest grade that has one. `rows` are those of one pitch (and range).
template <class Rows>
auto nearest_grade(const Rows& rows, int grade) {
    return std::min_element(rows.begin(), rows.end(), [&](const auto& a, const auto& b) {
        return std::abs(a.grade - grade) < std::abs(b.grade - grade);
    });
}

/// A grade from the rows at hand: the row itself, or stepped from the nearest grade that has one.
template <class Row>
std::optional<Micrometres> from_rows(Rows<Row> table, Rows<Row> rows, int grade,
                                     const std::array<int, 10>& steps) {
    if (rows.empty()) {
        return std::nullopt;
    }
    const auto row = nearest_grade(rows, grade);
    if (row->grade == grade) {
        return Micrometres{row->tolerance_um, Basis::table, row_ref(table, *row)};
    }
    const auto value = stepped(r40_place(row->tolerance_um), steps[static_cast<std::size_t>(grade)] -
                                                                 steps[static_cast<std::size_t>(row->grade)]);
    if (!value) {
        return std::nullopt;
    }
    return Micrometres{*value, Basis::not_provided, row_ref(table, *row)};
}

template <class Row>
Rows<Row> rows_of_pitch(Rows<Row> table, std::int64_t pitch_units) {
    const auto low = std::partition_point(table.begin(), table.end(),
                                          [&](const Row& row) { return nm(row.pitch_mm) < pitch_units; });
    const auto high = std::partition_point(low, table.end(),
                                           [&](const Row& row) { return nm(row.pitch_mm) == pitch_units; });
    return {low, high};
}

template <class Row>
Rows<Row> rows_of_range(Rows<Row> table, std::int64_t diameter_units, std::int64_t pitch_units) {
    const auto low = std::partition_point(table.begin(), table.end(), [&](const Row& row) {
        return nm(row.up_to_mm) < diameter_units ||
               (nm(row.over_mm) < diameter_units && nm(row.up_to_mm) >= diameter_units &&
                nm(row.pitch_mm) < pitch_units);
    });
    const auto high = std::partition_point(low, table.end(), [&](const Row& row) {
        return nm(row.over_mm) < diameter_units && nm(row.pitch_mm) == pitch_units;
    });
    return {low, high};
}

std::optional<Micrometres> formula(double um, int steps) {
    const auto value = stepped(r40_place(um), steps);
    return value ? std::optional(Micrometres{*value, Basis::formula, {}}) : std::nullopt;
}

template <class Row, class Formula>
std::optional<Micrometres> crest(Rows<Row> table, std::int64_t pitch_units, int grade,
                                 const std::array<int, 10>& steps, const Formula& grade_6_um) {
    if (const auto found = from_rows(table, rows_of_pitch(table, pitch_units), grade, steps)) {
        return found;
    }
    return formula(grade_6_um(), steps[static_cast<std::size_t>(grade)]);
}

}  // namespace

std::optional<Micrometres> iso_deviation(const Catalogue& catalogue, Position position,
                                         std::int64_t pitch_units) noexcept {
    const double pitch = mm(pitch_units);
    const auto whole = [](double um) { return bounds::whole<int>(std::floor(um + 0.5)); };
    switch (position) {
        case Position::h:
        case Position::H:
            return Micrometres{0, Basis::rule, {}};
        case Position::az:
            return Micrometres{-whole(300.0 + 20.0 * pitch), Basis::rule, {}};
        case Position::AZ:
            return Micrometres{whole(300.0 + 20.0 * pitch), Basis::rule, {}};
        case Position::AX:
            return Micrometres{whole(220.0 * pitch - 20.0), Basis::rule, {}};
        default:
            break;
    }
    const auto rows = catalogue.iso_deviations;
    const auto row = std::partition_point(rows.begin(), rows.end(), [&](const IsoDeviationRow& r) {
        return r.position < position || (r.position == position && nm(r.pitch_mm) < pitch_units);
    });
    if (row != rows.end() && row->position == position && nm(row->pitch_mm) == pitch_units) {
        return Micrometres{row->deviation_um, Basis::table, row_ref(rows, *row)};
    }
    switch (position) {
        case Position::e:
        case Position::g:
        case Position::G: {
            const auto size = formula((position == Position::e ? 50.0 : 15.0) + 11.0 * pitch, 0);
            return size ? std::optional(Micrometres{
                              position == Position::G ? size->value_um : -size->value_um, Basis::formula, {}})
                        : std::nullopt;
        }
        case Position::f:
            return Micrometres{-whole(30.0 + 11.0 * pitch), Basis::formula, {}};
        default:
            return std::nullopt;
    }
}

std::optional<Micrometres> iso_crest_tolerance(const Catalogue& catalogue, Side side,
                                               std::int64_t pitch_units, int grade) noexcept {
    const double pitch = mm(pitch_units);
    if (side == Side::external) {
        if (grade != 4 && grade != 6 && grade != 8) {
            return std::nullopt;
        }
        return crest(catalogue.iso_external_major, pitch_units, grade, kExternalMajorSteps, [pitch] {
            const double root = cbrt_of(pitch);
            return 180.0 * root * root - 3.15 / std::sqrt(pitch);
        });
    }
    if (grade < 4 || grade > 8) {
        return std::nullopt;
    }
    return crest(catalogue.iso_internal_minor, pitch_units, grade, kInternalMinorSteps, [pitch] {
        return pitch < 1.0 ? 433.0 * pitch - 190.0 * power_of(pitch, 1.22) : 230.0 * power_of(pitch, 0.7);
    });
}

std::optional<Micrometres> iso_pitch_tolerance(const Catalogue& catalogue, Side side,
                                               std::int64_t diameter_units, std::int64_t pitch_units,
                                               int grade) noexcept {
    const bool external = side == Side::external;
    if (grade < (external ? 3 : 4) || grade > (external ? 9 : 8)) {
        return std::nullopt;
    }
    const auto external_rows = rows_of_range(catalogue.iso_external_pitch, diameter_units, pitch_units);
    const int to = (external ? kExternalPitchSteps : kInternalPitchSteps)[static_cast<std::size_t>(grade)];
    if (!external) {
        const auto rows = rows_of_range(catalogue.iso_internal_pitch, diameter_units, pitch_units);
        if (const auto found = from_rows(catalogue.iso_internal_pitch, rows, grade, kInternalPitchSteps)) {
            return found;
        }
    }
    if (external) {
        if (const auto found =
                from_rows(catalogue.iso_external_pitch, external_rows, grade, kExternalPitchSteps)) {
            return found;
        }
    } else if (!external_rows.empty()) {
        const auto row = nearest_grade(external_rows, 6);
        const auto value = stepped(r40_place(row->tolerance_um),
                                   to - kExternalPitchSteps[static_cast<std::size_t>(row->grade)]);
        if (value) {
            return Micrometres{*value, Basis::not_provided, row_ref(catalogue.iso_external_pitch, *row)};
        }
    }
    return formula(90.0 * power_of(mm(pitch_units), 0.4) * power_of(range_mean(mm(diameter_units)), 0.1), to);
}

int iso_starts_factor(int starts) noexcept {
    constexpr std::array<int, 6> kFactors{100, 100, 112, 125, 140, 160};
    return kFactors[static_cast<std::size_t>(std::clamp(starts, 1, 5))];
}

const IsoEngagementRow* iso_engagement_row(const Catalogue& catalogue, std::int64_t diameter_units,
                                           std::int64_t pitch_units) noexcept {
    const auto rows = rows_of_range(catalogue.iso_engagement, diameter_units, pitch_units);
    return rows.empty() ? nullptr : rows.data();
}

std::int64_t iso_basic_pitch_um(std::int64_t diameter_units, std::int64_t pitch_units) noexcept {
    return bounds::nearest<std::int64_t>(
        (static_cast<double>(diameter_units) - 0.75 * kTriangleHeight * static_cast<double>(pitch_units)) /
        1000.0);
}

std::int64_t iso_basic_minor_um(std::int64_t diameter_units, std::int64_t pitch_units) noexcept {
    return bounds::nearest<std::int64_t>(
        (static_cast<double>(diameter_units) - 1.25 * kTriangleHeight * static_cast<double>(pitch_units)) /
        1000.0);
}

}  // namespace halfnut::threads
