#include "halfnut/fits/cylindrical.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cylinder_names.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/fits/rules.hpp"
#include "halfnut/fits/tables.hpp"

namespace halfnut::fits {
namespace {

constexpr std::int64_t kUnitsPerThousandth = 1000;  // um or 0.001 in
constexpr double kDeltaOverMm = 3.0;
constexpr double kDeltaToMm = 500.0;
constexpr int kDeltaFirstGrade = 3;

constexpr std::uint8_t letter_place(std::string_view name) {
    std::uint8_t place = 0;
    while (kLetters[place] != name) {
        ++place;
    }
    return place;
}
constexpr std::uint8_t kH = letter_place("h");
constexpr std::uint8_t kJs = letter_place("js");
constexpr std::uint8_t kJ = letter_place("j");
constexpr std::uint8_t kK = letter_place("k");
constexpr std::uint8_t kN = letter_place("n");

std::int64_t units_of(double thousandths) noexcept {
    return bounds::nearest<std::int64_t>(thousandths * static_cast<double>(kUnitsPerThousandth));
}

template <class Row>
bool holds(const Row& row, double size) noexcept {
    return size > row.over_mm && size <= row.to_mm;
}

class Iso {
   public:
    Iso(const Catalogue& catalogue, double size_mm, std::string* why)
        : catalogue_(catalogue), size_(size_mm), why_(why) {}

    /// Zone of one part; evidence under `figure`.
    Status zone(const ToleranceClass& asked, std::uint8_t figure, Evidence<12>& evidence, Zone& out) {
        figure_ = figure;
        evidence_ = &evidence;
        kind_ = FigureKind::printed;
        const IsoGradeRow* const grade = grade_row(asked.grade);
        if (grade == nullptr) {
            return refuse(no_grade(asked.grade));
        }
        if (size_ <= 1.0 && asked.grade >= 14) {
            return refuse(fmt::format("IT{} is not used for sizes to 1 mm", asked.grade));
        }
        if (size_ <= 1.0 && asked.letter <= letter_place("b")) {
            return refuse(
                fmt::format("{} is not used for sizes to 1 mm", letter_name(asked.letter, asked.hole)));
        }
        note(rule::standard_tolerance, row_ref(catalogue_.iso_grades, *grade), grade->source);
        tolerance_ = units_of(grade->tolerance_um);
        const Status status = asked.letter == kJs ? symmetrical(out)
                              : asked.hole        ? hole(asked, out)
                                                  : shaft(asked, out);
        out.given = status.ok();
        out.kind = kind_;
        return status;
    }

   private:
    Status refuse(std::string why) {
        if (why_ != nullptr) {
            *why_ = std::move(why);
        }
        return {StatusCode::not_tabulated, 0};
    }

    void note(RuleId rule, RowRef row, SourceId source) {
        evidence_->note(figure_, rule, row);
        switch (catalogue_.sources[source.index].kind) {
            case SourceKind::shop:
                kind_ = FigureKind::shop;
                break;
            case SourceKind::memory:
            case SourceKind::practice:
                worsen(FigureKind::memory);
                break;
            default:
                break;
        }
    }
    /// By the standard's rule rather than from a cell of its own.
    void derived() noexcept { worsen(FigureKind::derived); }
    void worsen(FigureKind kind) noexcept {
        if (kind_ != FigureKind::shop) {
            kind_ = std::max(kind_, kind);
        }
    }

    [[nodiscard]] const IsoGradeRow* grade_row(int grade) const noexcept {
        for (const IsoGradeRow& row : catalogue_.iso_grades) {
            if (row.grade == grade && holds(row, size_)) {
                return &row;
            }
        }
        return nullptr;
    }
    [[nodiscard]] std::string no_grade(int grade) const {
        double most = 0.0;
        for (const IsoGradeRow& row : catalogue_.iso_grades) {
            most = row.grade == grade ? std::max(most, row.to_mm) : most;
        }
        return fmt::format("IT{} is given to {:g} mm, got {:g} mm", grade_name(grade), most, size_);
    }

    [[nodiscard]] const IsoDeviationRow* deviation_row(std::string_view letter, int grade) const noexcept {
        for (const IsoDeviationRow& row : catalogue_.iso_fundamental_deviations) {
            if (row.letter == letter && grade >= row.grade_from && grade <= row.grade_to &&
                holds(row, size_)) {
                return &row;
            }
        }
        return nullptr;
    }
    /// Why a letter has no figure here: its grades at this size, or its sizes.
    [[nodiscard]] std::string no_deviation(std::string_view letter, int grade) const {
        std::string grades;
        double from = kNaN;
        double to = kNaN;
        for (const IsoDeviationRow& row : catalogue_.iso_fundamental_deviations) {
            if (row.letter != letter) {
                continue;
            }
            if (holds(row, size_)) {
                grades += grades.empty() ? "" : ", ";
                grades += row.grade_from == row.grade_to
                              ? grade_name(row.grade_from)
                              : fmt::format("{} to {}", grade_name(row.grade_from), grade_name(row.grade_to));
            }
            if (grade >= row.grade_from && grade <= row.grade_to) {
                from = std::isnan(from) ? row.over_mm : std::min(from, row.over_mm);
                to = std::isnan(to) ? row.to_mm : std::max(to, row.to_mm);
            }
        }
        if (!grades.empty()) {
            return fmt::format("{} has no grade {} at {:g} mm; it has {}", letter, grade_name(grade), size_,
                               grades);
        }
        if (!std::isnan(from)) {
            return fmt::format("{}{} is given for sizes over {:g} to {:g} mm, got {:g} mm", letter,
                               grade_name(grade), from, to, size_);
        }
        return fmt::format("{} has no grade {} at any size", letter, grade_name(grade));
    }

    Status symmetrical(Zone& out) {
        evidence_->note(figure_, rule::symmetrical);
        derived();
        out.upper = tolerance_ / 2;
        out.lower = -out.upper;
        return {};
    }

    Status shaft(const ToleranceClass& asked, Zone& out) {
        const std::string_view letter = kLetters[asked.letter];
        const IsoDeviationRow* const row = deviation_row(letter, asked.grade);
        if (row == nullptr) {
            return refuse(no_deviation(letter, asked.grade));
        }
        note(rule::shaft_deviation, row_ref(catalogue_.iso_fundamental_deviations, *row), row->source);
        const std::int64_t deviation = units_of(row->deviation_um);
        out.upper = asked.letter <= kH ? deviation : deviation + tolerance_;
        out.lower = out.upper - tolerance_;
        return {};
    }

    Status hole(const ToleranceClass& asked, Zone& out) {
        const std::string name = letter_name(asked.letter, true);
        if (const IsoDeviationRow* const own = deviation_row(name, asked.grade)) {
            note(rule::own_deviation, row_ref(catalogue_.iso_fundamental_deviations, *own), own->source);
            return from_upper(units_of(own->deviation_um), out);
        }
        if (asked.letter == kJ) {
            return refuse(no_deviation(name, asked.grade));
        }
        const bool to_h = asked.letter <= kH;
        constexpr int kGradeOfK = 6;  // k has its figures for grades 4 to 7, which the hole K takes
        const std::string_view letter = kLetters[asked.letter];
        const int shaft_grade = asked.letter == kK ? kGradeOfK : asked.grade;
        const IsoDeviationRow* const row = deviation_row(letter, shaft_grade);
        if (row == nullptr) {
            return refuse(fmt::format("the hole follows the shaft: {}", no_deviation(letter, shaft_grade)));
        }
        const std::int64_t deviation = units_of(row->deviation_um);
        const RowRef ref = row_ref(catalogue_.iso_fundamental_deviations, *row);
        if (to_h) {
            note(rule::mirrored, ref, row->source);
            if (asked.letter != kH) {
                derived();
            }
            out.lower = -deviation;
            out.upper = out.lower + tolerance_;
            return {};
        }
        return above_h(asked, deviation, ref, row->source, out);
    }

    /// K to ZC.
    Status above_h(const ToleranceClass& asked, std::int64_t deviation, RowRef ref, SourceId source,
                   Zone& out) {
        const bool to_n = asked.letter <= kN;
        const int last_with_delta = to_n ? 8 : 7;
        const bool delta_sizes = size_ > kDeltaOverMm && size_ <= kDeltaToMm;
        const std::string name = letter_name(asked.letter, true);
        derived();
        if (asked.letter == kN && size_ <= 1.0 && asked.grade > last_with_delta) {
            return refuse("N coarser than IT8 is not used for sizes to 1 mm");
        }
        if (asked.letter == kK && size_ > kDeltaOverMm && asked.grade > last_with_delta) {
            return refuse(
                fmt::format("K is given to IT8 over 3 mm, got IT{} at {:g} mm", asked.grade, size_));
        }
        if (delta_sizes && asked.grade <= last_with_delta) {
            if (asked.grade < kDeltaFirstGrade) {
                return refuse(
                    fmt::format("{} is given from IT3 at {:g} mm: the standard has no delta for IT{}", name,
                                size_, grade_name(asked.grade)));
            }
            const IsoGradeRow* const finer = grade_row(asked.grade - 1);
            if (finer == nullptr) {
                return refuse(no_grade(asked.grade - 1));
            }
            note(rule::with_delta, ref, source);
            note(rule::with_delta, row_ref(catalogue_.iso_grades, *finer), finer->source);
            return from_upper(-deviation + tolerance_ - units_of(finer->tolerance_um), out);
        }
        if (asked.letter == kN && delta_sizes) {
            evidence_->note(figure_, rule::n_coarse);
            return from_upper(0, out);
        }
        note(rule::without_delta, ref, source);
        return from_upper(-deviation, out);
    }

    Status from_upper(std::int64_t upper, Zone& out) const noexcept {
        out.upper = upper;
        out.lower = upper - tolerance_;
        return {};
    }

    const Catalogue& catalogue_;
    double size_;
    std::string* why_;
    std::uint8_t figure_ = 0;
    Evidence<12>* evidence_ = nullptr;
    FigureKind kind_{};
    std::int64_t tolerance_ = 0;
};

Status ansi_limits(const Catalogue& catalogue, const Cylinder& cylinder, CylinderLimits& out,
                   std::string* why) {
    const double size = static_cast<double>(cylinder.nominal_units) / kUnits;
    double from = kNaN;
    double to = kNaN;
    for (const AnsiFitRow& row : catalogue.ansi_fits) {
        if (row.fit != cylinder.ansi_fit) {
            continue;
        }
        from = std::isnan(from) ? row.over_in : std::min(from, row.over_in);
        to = std::isnan(to) ? row.to_in : std::max(to, row.to_in);
        if (!(size > row.over_in && size <= row.to_in)) {
            continue;
        }
        const SourceKind kind = catalogue.sources[row.source.index].kind;
        const FigureKind figure = kind == SourceKind::shop ? FigureKind::shop
                                  : kind == SourceKind::memory || kind == SourceKind::practice
                                      ? FigureKind::memory
                                      : FigureKind::printed;
        out.hole = {true, units_of(row.hole_upper_thou), 0, figure};
        out.shaft = {true, units_of(row.shaft_upper_thou), units_of(row.shaft_lower_thou), figure};
        out.evidence.note(0, rule::ansi_limits, row_ref(catalogue.ansi_fits, row));
        out.evidence.note(1, rule::ansi_limits, row_ref(catalogue.ansi_fits, row));
        return {};
    }
    if (why != nullptr) {
        *why = std::isnan(from) ? fmt::format("no fit '{}'", cylinder.ansi_fit)
                                : fmt::format("{} is given for sizes over {:g} to {:g} in, got {:g} in",
                                              cylinder.ansi_fit, from, to, size);
    }
    return {StatusCode::not_tabulated, 0};
}

}  // namespace

Status evaluate(const Catalogue& catalogue, const Cylinder& cylinder, CylinderLimits& out, std::string* why) {
    out = {};
    const double size = static_cast<double>(cylinder.nominal_units) / kUnits;
    double most = 0.0;
    if (cylinder.inch()) {
        for (const AnsiFitRow& row : catalogue.ansi_fits) {
            most = std::max(most, row.to_in);
        }
    } else {
        for (const IsoGradeRow& row : catalogue.iso_grades) {
            most = std::max(most, row.to_mm);
        }
    }
    if (!(size > 0.0 && size <= most)) {
        if (why != nullptr) {
            *why = fmt::format("the nominal size must be > 0 and at most {:g} {}, got {:g}", most,
                               cylinder.inch() ? "in" : "mm", size);
        }
        return {StatusCode::out_of_range, 0};
    }
    Status status;
    if (cylinder.inch()) {
        status = ansi_limits(catalogue, cylinder, out, why);
    } else {
        Iso iso(catalogue, size, why);
        if (cylinder.hole.given()) {
            status = iso.zone(cylinder.hole, 0, out.evidence, out.hole);
        }
        if (status.ok() && cylinder.shaft.given()) {
            status = iso.zone(cylinder.shaft, 1, out.evidence, out.shaft);
        }
        if (!cylinder.hole.given() && !cylinder.shaft.given()) {
            if (why != nullptr) {
                *why = "no class is given";
            }
            status = {StatusCode::inconsistent, 0};
        }
    }
    if (!status.ok()) {
        out = {};
        return status;
    }
    if (out.hole.given && out.shaft.given) {
        out.clearance_min = out.hole.lower - out.shaft.upper;
        out.clearance_max = out.hole.upper - out.shaft.lower;
        out.character = out.clearance_min >= 0   ? FitCharacter::clearance
                        : out.clearance_max <= 0 ? FitCharacter::interference
                                                 : FitCharacter::transition;
        out.evidence.note(figure_index(kCylinderFigures, "clearance"), rule::fit_clearance);
    }
    return {};
}

CylinderLimits cylinder_limits(const Catalogue& catalogue, const Cylinder& cylinder) {
    CylinderLimits out;
    std::string why;
    const Status status = evaluate(catalogue, cylinder, out, &why);
    if (status.code == StatusCode::not_tabulated) {
        throw NotTabulatedError(fmt::format("{}: {}", format_cylinder(cylinder), why));
    }
    if (!status.ok()) {
        throw DomainError(fmt::format("{}: {}", format_cylinder(cylinder), why));
    }
    return out;
}

}  // namespace halfnut::fits
