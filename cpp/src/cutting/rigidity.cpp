#include "halfnut/cutting/rigidity.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/turning.hpp"

namespace halfnut::cutting {

namespace {

constexpr std::size_t kMostSections = 100;

Status refuse(std::span<double> bend, StatusCode code, std::string* why, std::string words) {
    std::fill(bend.begin(), bend.end(), std::numeric_limits<double>::quiet_NaN());
    if (why != nullptr) {
        *why = std::move(words);
    }
    return {code, 0};
}

/// A length of work with one bending stiffness E I, N mm2.
struct Span {
    double from_mm = 0.0;
    double to_mm = 0.0;
    double bending = 0.0;
};

std::vector<Span> spans_of(const WorkBeam& beam) {
    std::vector<Span> out;
    double at = 0.0;
    for (const WorkSection& s : beam.sections) {
        const double d = s.diameter_mm;
        const double b = s.bore_mm;
        const double second_moment = std::numbers::pi * (d * d + b * b) * (d + b) * (d - b) / 64.0;
        out.push_back({at, at + s.length_mm, 1000.0 * beam.youngs_modulus_gpa * second_moment});
        at += s.length_mm;
    }
    return out;
}

/// The beam with only as many supports as it cannot do without: a chuck, or two centres.
class BasicBeam {
   public:
    explicit BasicBeam(const WorkBeam& beam)
        : spans_(spans_of(beam)), length_(spans_.back().to_mm), chucked_(beam.hold != Hold::between_centres) {
        first_gives_ = (chucked_ ? 1.0 / beam.chuck_n_um : 1.0 / beam.centre_n_um) / 1000.0;
        last_gives_ = chucked_ ? 0.0 : 1.0 / beam.centre_n_um / 1000.0;
    }

    [[nodiscard]] double length() const noexcept { return length_; }

    /// Deflection at one place under a unit force at another, mm/N: the unit-load theorem, exact since both
    /// moments are straight between the places and the section ends.
    [[nodiscard]] double flexibility(double one, double other) const noexcept {
        double out = first_gives_ * first_share(one) * first_share(other) +
                     last_gives_ * (1.0 - first_share(one)) * (1.0 - first_share(other));
        const double low = std::min(one, other);
        const double high = std::max(one, other);
        for (const Span& span : spans_) {
            double from = span.from_mm;
            for (const double to :
                 {std::clamp(low, from, span.to_mm), std::clamp(high, from, span.to_mm), span.to_mm}) {
                const double middle = (from + to) / 2.0;
                out +=
                    (to - from) / (6.0 * span.bending) *
                    (moment(one, from) * moment(other, from) +
                     4.0 * moment(one, middle) * moment(other, middle) + moment(one, to) * moment(other, to));
                from = to;
            }
        }
        return out;
    }

   private:
    /// Share of a force at a place that the first support carries.
    [[nodiscard]] double first_share(double place) const noexcept {
        return chucked_ ? 1.0 : (length_ - place) / length_;
    }
    /// Bending moment at x under a unit force at a place, mm.
    [[nodiscard]] double moment(double place, double x) const noexcept {
        if (chucked_) {
            return std::max(place - x, 0.0);
        }
        return x <= place ? (length_ - place) * x / length_ : place * (length_ - x) / length_;
    }

    std::vector<Span> spans_;
    double length_;
    bool chucked_;
    double first_gives_;
    double last_gives_;
};

/// Supports beyond the basic ones, and what they hold back: Cholesky factors of their flexibilities. A
/// support that others make needless (a steady in the chuck's mouth, one given twice) carries nothing.
class Redundants {
   public:
    Redundants(const WorkBeam& beam, const BasicBeam& basic) : places_(beam.steadies_mm) {
        std::vector<double> gives(places_.size(), 0.0);
        if (beam.hold == Hold::chuck_and_centre) {
            places_.push_back(basic.length());
            gives.push_back(1.0 / beam.centre_n_um / 1000.0);
        }
        const std::size_t n = places_.size();
        factor_.assign(n, std::vector<double>(n, 0.0));
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j <= i; ++j) {
                double left = basic.flexibility(places_[i], places_[j]) + (i == j ? gives[i] : 0.0);
                const double whole = left;
                for (std::size_t k = 0; k < j; ++k) {
                    left -= factor_[i][k] * factor_[j][k];
                }
                if (i != j) {
                    factor_[i][j] = factor_[j][j] > 0.0 ? left / factor_[j][j] : 0.0;
                } else {
                    factor_[i][i] = left > kNeedless * whole ? std::sqrt(left) : 0.0;
                }
            }
        }
    }

    /// Deflection at a place that the supports take back, mm/N.
    [[nodiscard]] double taken_back(const BasicBeam& basic, double place) const {
        double out = 0.0;
        std::vector<double> forward(places_.size(), 0.0);
        for (std::size_t i = 0; i < places_.size(); ++i) {
            if (factor_[i][i] > 0.0) {
                forward[i] = basic.flexibility(places_[i], place);
                for (std::size_t k = 0; k < i; ++k) {
                    forward[i] -= factor_[i][k] * forward[k];
                }
                forward[i] /= factor_[i][i];
                out += forward[i] * forward[i];
            }
        }
        return out;
    }

   private:
    static constexpr double kNeedless = 1e-12;
    std::vector<double> places_;
    std::vector<std::vector<double>> factor_;
};

Status check_beam(const WorkBeam& beam, double force, std::span<const double> places, std::span<double> bend,
                  std::string* why) {
    if (beam.sections.empty() || beam.sections.size() > kMostSections) {
        return refuse(bend, StatusCode::out_of_range, why,
                      fmt::format("sections: 1 to {} of them, got {}", kMostSections, beam.sections.size()));
    }
    double length = 0.0;
    for (std::size_t i = 0; i < beam.sections.size(); ++i) {
        const WorkSection& s = beam.sections[i];
        for (const auto& [argument, value] : {std::pair{positive("length_mm", "mm"), s.length_mm},
                                              std::pair{positive("diameter_mm", "mm"), s.diameter_mm},
                                              std::pair{not_negative("bore_mm", "mm"), s.bore_mm}}) {
            if (const StatusCode code = check(argument, value); code != StatusCode::ok) {
                return refuse(bend, code, why,
                              fmt::format("section {}: {}", i + 1, argument_message(argument, value)));
            }
        }
        if (s.bore_mm >= s.diameter_mm) {
            return refuse(bend, StatusCode::inconsistent, why,
                          fmt::format("section {}: bore_mm {:g} must be below diameter_mm {:g}", i + 1,
                                      s.bore_mm, s.diameter_mm));
        }
        length += s.length_mm;
    }
    for (const auto& [argument, value] :
         {std::pair{positive("youngs_modulus_gpa", "GPa"), beam.youngs_modulus_gpa},
          std::pair{finite("force_n", "N"), force}}) {
        if (const StatusCode code = check(argument, value); code != StatusCode::ok) {
            return refuse(bend, code, why, argument_message(argument, value));
        }
    }
    for (const auto& [name, value] :
         {std::pair{"centre_n_um", beam.centre_n_um}, std::pair{"chuck_n_um", beam.chuck_n_um}}) {
        if (!(value > 0.0)) {
            return refuse(bend, StatusCode::out_of_range, why,
                          fmt::format("{} must be > 0 N/um, got {:g}", name, value));
        }
    }
    const auto within = [&](std::string_view name, std::span<const double> list) {
        const Argument argument = between(name, 0.0, length, "mm");
        for (const double value : list) {
            if (const StatusCode code = check(argument, value); code != StatusCode::ok) {
                return refuse(bend, code, why, argument_message(argument, value));
            }
        }
        return Status{};
    };
    const Status status = within("places_mm", places);
    return status.ok() ? within("steadies_mm", beam.steadies_mm) : status;
}

}  // namespace

Status evaluate(const WorkBeam& beam, double force_n, std::span<const double> places_mm,
                std::span<double> bend_mm, std::string* why) {
    if (bend_mm.size() != places_mm.size()) {
        return refuse(bend_mm, StatusCode::inconsistent, why, "one deflection is wanted for each place");
    }
    if (const Status status = check_beam(beam, force_n, places_mm, bend_mm, why); !status.ok()) {
        return status;
    }
    const BasicBeam basic(beam);
    const Redundants redundants(beam, basic);
    for (std::size_t i = 0; i < places_mm.size(); ++i) {
        const double place = std::min(places_mm[i], basic.length());
        const double bend = basic.flexibility(place, place) - redundants.taken_back(basic, place);
        bend_mm[i] = force_n * std::max(bend, 0.0);
    }
    return {};
}

BeamBend bend_along(const WorkBeam& beam, double force_n, int places) {
    BeamBend out;
    double area = 0.0;
    for (const WorkSection& section : beam.sections) {
        out.length_mm += section.length_mm;
        area += section.length_mm * section.diameter_mm;
    }
    const int last = places - 1;
    const double step = out.length_mm / last;
    for (int i = 0; i <= last; ++i) {
        out.places_mm.push_back(i == last ? out.length_mm : i * step);
    }
    out.bend_mm.resize(out.places_mm.size());
    std::string why;
    if (!evaluate(beam, force_n, out.places_mm, out.bend_mm, &why).ok()) {
        throw DomainError(why);
    }
    for (std::size_t i = 0; i < out.bend_mm.size(); ++i) {
        if (std::abs(out.bend_mm[i]) > out.worst_mm) {
            out.worst_mm = std::abs(out.bend_mm[i]);
            out.worst_at_mm = out.places_mm[i];
        }
    }
    std::vector<double> ends = beam.steadies_mm;
    ends.push_back(0.0);
    ends.push_back(out.length_mm);
    std::sort(ends.begin(), ends.end());
    const double mean = area / out.length_mm;
    for (std::size_t i = 1; i < ends.size(); ++i) {
        const double slenderness = (ends[i] - ends[i - 1]) / mean;
        const bool free = beam.hold == Hold::chuck && i + 1 == ends.size();
        out.slenderness = std::max(out.slenderness, slenderness);
        out.slender = out.slender || slenderness > (free ? kSlenderChuck : kSlenderCentre);
    }
    return out;
}

double whirl_span_mm(Hold hold, double length_mm, std::span<const double> steadies_mm) {
    if (steadies_mm.empty()) {
        return length_mm;
    }
    std::vector<double> supports(steadies_mm.begin(), steadies_mm.end());
    supports.push_back(0.0);
    if (hold != Hold::chuck) {
        supports.push_back(length_mm);
    }
    std::sort(supports.begin(), supports.end());
    const double root = hold == Hold::chuck              ? kWhirlRootChuck
                        : hold == Hold::chuck_and_centre ? kWhirlRootChuckAndCentre
                                                         : kWhirlRootCentres;
    double out = (length_mm - supports.back()) * root / kWhirlRootChuck;
    for (std::size_t i = 1; i < supports.size(); ++i) {
        out = std::max(out, (supports[i] - supports[i - 1]) * root / kWhirlRootCentres);
    }
    return out;
}

std::string RingOutOfRound::refusal(double /*force*/, double jaws, double mean, double wall, double /*width*/,
                                    double /*modulus*/) {
    if (jaws != std::floor(jaws)) {
        return fmt::format("jaws must be a whole number, got {:g}", jaws);
    }
    return fmt::format("wall_mm {:g} must be below half of mean_diameter_mm {:g}", wall, mean);
}

}  // namespace halfnut::cutting
