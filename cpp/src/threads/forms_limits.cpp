#include "halfnut/threads/forms.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/elementary.hpp"
#include "halfnut/core/spell.hpp"
#include "halfnut/threads/rules.hpp"
#include "or_throw.hpp"

namespace halfnut::threads {
namespace {

constexpr std::size_t kMajorMax = 0;
constexpr std::size_t kMajorMin = 1;
constexpr std::size_t kPitchMax = 2;
constexpr std::size_t kPitchMin = 3;
constexpr std::size_t kMinorMax = 4;
constexpr std::size_t kMinorMin = 5;
constexpr std::uint8_t kEverySize = figure_index(kFormFigures, "every size");
constexpr std::uint8_t kPitchFigure = figure_index(kFormFigures, "pitch_min");
constexpr std::int32_t kNoSize = 0;  // of a limit that would be at or below 0, or beyond all threads

class Limiter {
   public:
    Limiter(const Catalogue& catalogue, const FormThread& thread, Side side, double engagement,
            FormLimits& out, std::string* why)
        : catalogue_(catalogue),
          thread_(thread),
          external_(side == Side::external),
          engagement_(engagement),
          out_(out),
          why_(why),
          row_(form_row(catalogue, thread)) {
        out_.side = side;
        out_.inch = thread.inch;
        out_.figures.fill(kNoLimit);
        const std::string& given = external_ ? thread.external_class : thread.internal_class;
        class_ = given.empty() ? thread.usual_class(side) : given;
        d_ = thread.diameter;
        p_ = thread.pitch;
        pitch_ = d_ - row_.pitch_drop * p_;
        minor_ = d_ - row_.minor_drop * p_;
        out_.evidence.note(kEverySize, rule::form_basic, row_ref(catalogue.thread_forms, row_));
    }

    Status answer() {
        if (thread_.parallel_internal()) {
            return parallel_in_taper();
        }
        switch (thread_.rule) {
            case FormRule::trapezoidal:
                return trapezoidal();
            case FormRule::acme:
                return acme();
            case FormRule::whitworth:
                return whitworth();
            case FormRule::parallel_pipe:
                return pipe();
            default:
                return taper();
        }
    }

   private:
    Status refuse(std::string why) {
        if (why_ != nullptr) {
            *why_ = std::move(why);
        }
        out_.figures.fill(kNoLimit);
        return {StatusCode::not_tabulated, 0};
    }
    void set(std::size_t figure, double size) {
        constexpr double kRepresented = 1e-6;  // a half that a binary number falls just short of
        const double places = std::floor(size * (out_.inch ? 1e4 : 1e3) + 0.5 + kRepresented);
        constexpr double kMost = 2e9;
        out_.figures[figure] = places > 0.0 && places < kMost ? bounds::whole<std::int32_t>(places) : kNoSize;
    }
    /// A figure of an inch print, to four places, a half going to the even one.
    static double four_places(double inch) noexcept {
        constexpr double kPlaces = 1e4;
        constexpr double kHalf = 1e-6;  // how near a binary number comes to a half
        const double places = inch * kPlaces;
        const double below = std::floor(places);
        const double rest = places - below;
        if (std::abs(rest - 0.5) < kHalf) {
            return (std::fmod(below, 2.0) == 0.0 ? below : below + 1.0) / kPlaces;
        }
        return (rest < 0.5 ? below : below + 1.0) / kPlaces;
    }
    template <class Row>
    void note(RuleId rule, Rows<Row> table, const Row& row, std::uint8_t source = 0) {
        out_.evidence.note(kPitchFigure, rule, row_ref(table, row, source));
    }

    const TaperPipeRow* taper_row() const {
        for (const TaperPipeRow& each : catalogue_.taper_pipe) {
            if (each.form == thread_.form && each.size == thread_.size) {
                return &each;
            }
        }
        return nullptr;
    }

    /// A taper thread is gauged, not measured: say by what.
    Status taper() {
        const TaperPipeRow* const row = taper_row();
        if (row == nullptr) {
            return refuse(fmt::format("no pipe thread of size {}", thread_.size));
        }
        const double turns = external_ ? row->tolerance_turns : row->internal_turns;
        return refuse(fmt::format(
            "{} is a taper thread: its standard sets a gauge plane and turns, no limits of size; "
            "gauge it by a taper {} of its standard, its gauging notch or step within {:g} turn{}, {}, "
            "of the {}; see taper_pipe",
            format_form_thread(thread_), external_ ? "ring" : "plug", turns, turns == 1.0 ? "" : "s",
            spell(turns * thread_.pitch_mm(), FigureKind::length,
                  thread_.inch ? UnitSystem::inch : UnitSystem::metric),
            external_ ? "end of the pipe" : "mouth"));
    }

    Status parallel_in_taper() {
        if (external_) {
            return refuse(fmt::format("{} is an internal thread; the taper thread R{} goes into it",
                                      format_form_thread(thread_), thread_.size));
        }
        const TaperPipeRow* const row = taper_row();
        if (row == nullptr) {
            return refuse(fmt::format("no pipe thread of size {}", thread_.size));
        }
        note(rule::pipe_parallel_in_taper, catalogue_.taper_pipe, *row);
        const double t = row->internal_turns * p_ * row_.taper;
        out_.pitch_tolerance = 2.0 * t;
        set(kMajorMin, d_ - t);
        set(kPitchMax, pitch_ + t);
        set(kPitchMin, pitch_ - t);
        set(kMinorMax, minor_ + t);
        set(kMinorMin, minor_ - t);
        return {};
    }

    Status trapezoidal() {
        const TrapezoidalPitchRow* at_pitch = nullptr;
        std::string pitches;
        for (const TrapezoidalPitchRow& row : catalogue_.trapezoidal_pitches) {
            pitches += fmt::format("{}{:g}", pitches.empty() ? "" : ", ", row.pitch_mm);
            if (std::abs(row.pitch_mm - p_) < 1e-9) {
                at_pitch = &row;
            }
        }
        if (at_pitch == nullptr) {
            return refuse(fmt::format("no tolerances for a pitch of {:g} mm; tabulated: {}", p_, pitches));
        }
        const TrapezoidalToleranceRow* tolerance = nullptr;
        std::string ranges;
        for (const TrapezoidalToleranceRow& row : catalogue_.trapezoidal_tolerances) {
            if (std::abs(row.pitch_mm - p_) < 1e-9) {
                ranges +=
                    fmt::format("{}over {:g} to {:g}", ranges.empty() ? "" : ", ", row.over_mm, row.to_mm);
                if (d_ > row.over_mm && d_ <= row.to_mm) {
                    tolerance = &row;
                }
            }
        }
        if (tolerance == nullptr) {
            return refuse(fmt::format("no pitch tolerance for Tr{:g}x{:g}; this pitch is tabulated {} mm", d_,
                                      p_, ranges));
        }
        const int grade = class_[0] - '0';
        const auto pick = [&](double seven, double eight, double nine) {
            return grade == 7 ? seven : grade == 8 ? eight : nine;
        };
        static constexpr std::array<double, 5> kStarts{1.0, 1.12, 1.25, 1.4, 1.6};
        const double factor = kStarts[static_cast<std::size_t>(std::min(thread_.starts, 5) - 1)];
        const double um =
            factor *
            (external_ ? pick(tolerance->external_7_um, tolerance->external_8_um, tolerance->external_9_um)
                       : pick(tolerance->internal_7_um, tolerance->internal_8_um, tolerance->internal_9_um));
        const double t2 = std::round(um) / 1000.0;
        const double clearance = at_pitch->crest_clearance_mm;
        constexpr std::uint8_t kSevenSource = source_place<TrapezoidalToleranceRow>("external_7_source");
        constexpr std::uint8_t kOtherSource = source_place<TrapezoidalToleranceRow>("source");
        note(external_ ? rule::trapezoidal_external : rule::trapezoidal_internal,
             catalogue_.trapezoidal_tolerances, *tolerance,
             external_ && grade == 7 ? kSevenSource : kOtherSource);
        if (thread_.starts > 1) {
            out_.evidence.note(kPitchFigure, rule::trapezoidal_starts);
        }
        const auto note_pitch = [&](RuleId rule, std::uint8_t source) {
            note(rule, catalogue_.trapezoidal_pitches, *at_pitch, source);
        };
        note_pitch(rule::form_basic, source_place<TrapezoidalPitchRow>("clearance_source"));
        out_.pitch_tolerance = t2;
        if (external_) {
            const bool e = class_.back() == 'e';
            const double es = (e ? at_pitch->es_e_um : at_pitch->es_c_um) / 1000.0;
            note_pitch(rule::trapezoidal_external, e ? source_place<TrapezoidalPitchRow>("e_source")
                                                     : source_place<TrapezoidalPitchRow>("c_source"));
            note_pitch(rule::trapezoidal_external, source_place<TrapezoidalPitchRow>("major_source"));
            out_.allowance = -es;
            set(kMajorMax, d_);
            set(kMajorMin, d_ - at_pitch->major_tolerance_um / 1000.0);
            set(kPitchMax, pitch_ + es);
            set(kPitchMin, pitch_ + es - t2);
            set(kMinorMax, minor_ - 2.0 * clearance);
            // print rounds this tolerance by itself, halves to even: 212.5 is 212, 237.5 is 238
            set(kMinorMin, minor_ - 2.0 * clearance - std::nearbyint(1.25 * std::round(um)) / 1000.0 + es);
            return {};
        }
        note_pitch(rule::trapezoidal_internal, source_place<TrapezoidalPitchRow>("minor_source"));
        set(kMajorMin, d_ + 2.0 * clearance);
        set(kPitchMax, pitch_ + t2);
        set(kPitchMin, pitch_);
        set(kMinorMax, minor_ + at_pitch->minor_tolerance_um / 1000.0);
        set(kMinorMin, minor_);
        return {};
    }

    Status acme() {
        const AcmeClassRow* row = nullptr;
        for (const AcmeClassRow& each : catalogue_.acme_classes) {
            if (each.form == thread_.form && each.name == class_) {
                row = &each;
            }
        }
        if (row == nullptr) {
            return refuse(fmt::format("{} has no class {}", thread_.form, class_));
        }
        constexpr double kCoarsestPitch = 0.1;  // 10 threads per inch
        const double clearance = p_ >= kCoarsestPitch - 1e-9 ? 0.020 : 0.010;
        const double root_d = std::sqrt(d_);
        const double tolerance = row->tolerance_d * root_d + row->tolerance_p * std::sqrt(p_);
        note(external_ ? rule::acme_external : rule::acme_internal, catalogue_.acme_classes, *row,
             source_place<AcmeClassRow>("source"));
        note(rule::acme_external, catalogue_.acme_classes, *row,
             source_place<AcmeClassRow>("allowance_source"));
        // print forms the pitch diameters of figures of four places, and the others of unrounded tolerances
        const auto print = [&](std::size_t figure, double size) { set(figure, four_places(size)); };
        const double pitch = four_places(pitch_);
        out_.evidence.note(kEverySize, rule::acme_rounding);
        out_.pitch_tolerance = four_places(tolerance);
        const bool centralizing = !std::isnan(row->external_major_d);
        if (external_) {
            out_.allowance = four_places(row->allowance_d * root_d);
            const double major = centralizing ? row->external_major_d * root_d : std::max(0.05 * p_, 0.005);
            const double root = four_places(minor_ - clearance);
            print(kMajorMax, d_);
            print(kMajorMin, d_ - major);
            print(kPitchMax, pitch - out_.allowance);
            print(kPitchMin, pitch - out_.allowance - out_.pitch_tolerance);
            print(kMinorMax, root);
            print(kMinorMin, root - 1.5 * tolerance);
            return {};
        }
        const double least = centralizing ? row->internal_major_min_d * root_d : clearance;
        const double more = centralizing ? row->internal_major_d * root_d : clearance;
        const double minor = four_places(centralizing ? d_ - 0.9 * p_ : minor_);
        print(kMajorMax, d_ + least + more);
        print(kMajorMin, d_ + least);
        print(kPitchMax, pitch + out_.pitch_tolerance);
        print(kPitchMin, pitch);
        print(kMinorMax, minor + 0.05 * p_);
        print(kMinorMin, minor);
        return {};
    }

    Status pipe() {
        for (const PipeToleranceRow& row : catalogue_.pipe_tolerances) {
            if (!(d_ > row.over_mm && d_ <= row.to_mm)) {
                continue;
            }
            note(rule::pipe_parallel, catalogue_.pipe_tolerances, row);
            const double t = row.pitch_diameter_um / 1000.0;
            out_.pitch_tolerance = external_ && class_ == "B" ? 2.0 * t : t;
            set(kMajorMin, external_ ? d_ - 2.0 * t : d_);
            set(kPitchMax, external_ ? pitch_ : pitch_ + t);
            set(kPitchMin, external_ ? pitch_ - out_.pitch_tolerance : pitch_);
            if (external_) {
                set(kMajorMax, d_);
                set(kMinorMax, minor_);
            } else {
                set(kMinorMin, minor_);
                set(kMinorMax, minor_ + row.minor_um / 1000.0);
            }
            return {};
        }
        return refuse(fmt::format("no tolerances for a major diameter of {:g} mm", d_));
    }

    Status whitworth() {
        const WhitworthClassRow* row = nullptr;
        for (const WhitworthClassRow& each : catalogue_.whitworth_classes) {
            if (each.name == class_) {
                row = &each;
            }
        }
        if (row == nullptr) {
            return refuse(fmt::format("Whitworth threads have no class {}", class_));
        }
        const auto tolerance = [&](double d, double p) {
            const double length = std::isnan(engagement_) ? d : engagement_;
            return 0.002 * cbrt_of(d) + 0.003 * std::sqrt(length) + 0.005 * std::sqrt(p);
        };
        const double root_p = std::sqrt(p_);
        const double t = row->factor * tolerance(d_, p_);
        note(rule::whitworth_tolerance, catalogue_.whitworth_classes, *row);
        out_.evidence.note(kEverySize, rule::whitworth_limits);
        out_.pitch_tolerance = t;
        if (external_) {
            // below 1/4 in that of the series' 1/4 in size, above 3/4 in none
            constexpr double kLeast = 0.25;
            constexpr double kMost = 0.75;
            const bool small = d_ < kLeast - 1e-9;
            const double of_p = small ? series_pitch(kLeast) : p_;
            out_.allowance = d_ > kMost + 1e-9 ? 0.0 : row->allowance * tolerance(small ? kLeast : d_, of_p);
            const double a = out_.allowance;
            out_.evidence.note(kPitchFigure, rule::whitworth_allowance);
            set(kMajorMax, d_ - a);
            set(kMajorMin, d_ - a - t - 0.01 * root_p);
            set(kPitchMax, pitch_ - a);
            set(kPitchMin, pitch_ - a - t);
            set(kMinorMax, minor_ - a);
            set(kMinorMin, minor_ - a - t - row->minor_p * root_p);
            return {};
        }
        const double tpi = 1.0 / p_;
        const double more = tpi > 25.0 ? 0.004 : tpi > 21.0 ? 0.005 : 0.007;
        set(kMajorMin, d_);
        set(kPitchMax, pitch_ + t);
        set(kPitchMin, pitch_);
        set(kMinorMax, minor_ + 0.2 * p_ + more);
        set(kMinorMin, minor_);
        return {};
    }

    /// Pitch of the form's series at a diameter; the thread's own where there is none.
    [[nodiscard]] double series_pitch(double diameter) const {
        for (const FormSeriesRow& row : catalogue_.form_series) {
            if (row.form == thread_.form && row.diameter == diameter) {
                return 1.0 / row.tpi;
            }
        }
        return p_;
    }

    const Catalogue& catalogue_;
    const FormThread& thread_;
    bool external_;
    double engagement_;
    FormLimits& out_;
    std::string* why_;
    const ThreadFormRow& row_;
    std::string class_;
    double d_ = 0.0;
    double p_ = 0.0;
    double pitch_ = 0.0;
    double minor_ = 0.0;
};

}  // namespace

Status evaluate(const Catalogue& catalogue, const FormThread& thread, Side side, double engagement,
                FormLimits& out, std::string* why) {
    out = {};
    constexpr Argument kEngagement = positive("engagement");
    if (!std::isnan(engagement)) {
        const StatusCode code = check(kEngagement, engagement);
        if (code != StatusCode::ok) {
            if (why != nullptr) {
                *why = argument_message(kEngagement, engagement);
            }
            out.figures.fill(kNoLimit);
            return {code, 0};
        }
    }
    const Status status = Limiter(catalogue, thread, side, engagement, out, why).answer();
    const auto* const none = std::find(out.figures.begin(), out.figures.end(), kNoSize);
    if (status.ok() && none != out.figures.end()) {
        if (why != nullptr) {
            const auto figure = static_cast<std::size_t>(none - out.figures.begin());
            *why = fmt::format(
                "the tolerances of {} leave no {}: its size, pitch and engagement do not go together",
                format_form_thread(thread), kFormFigures[figure]);
        }
        out.figures.fill(kNoLimit);
        return {StatusCode::out_of_range, 0};
    }
    return status;
}

FormLimits form_limits(const Catalogue& catalogue, const FormThread& thread, Side side, double engagement) {
    return or_throw<FormLimits>([&](FormLimits& out, std::string* why) {
        return evaluate(catalogue, thread, side, engagement, out, why);
    });
}

}  // namespace halfnut::threads
