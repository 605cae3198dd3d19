#include "halfnut/cutting/rigidity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

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
    explicit BasicBeam(const WorkBeam& beam) : BasicBeam(beam, spans_of(beam)) {
        first_gives_ = (chucked_ ? 1.0 / beam.chuck_n_um : 1.0 / beam.centre_n_um) / 1000.0;
        last_gives_ = chucked_ ? 0.0 : 1.0 / beam.centre_n_um / 1000.0;
    }
    /// On supports that do not give.
    BasicBeam(const WorkBeam& beam, std::vector<Span> spans)
        : spans_(std::move(spans)),
          length_(spans_.back().to_mm),
          chucked_(beam.hold != Hold::between_centres) {}

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
    double first_gives_ = 0.0;
    double last_gives_ = 0.0;
};

/// Supports beyond the basic ones, and what they hold back: Cholesky factors of their flexibilities. A
/// support that others make needless (a steady in the chuck's mouth, one given twice) carries nothing.
class Redundants {
   public:
    /// Given
    ///   n         how many
    ///   flexible  deflection at one under 1 N at another, what it gives itself included, mm/N
    template <class Flexible>
    Redundants(std::size_t n, Flexible flexible) : factor_(n, std::vector<double>(n, 0.0)) {
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j <= i; ++j) {
                double left = flexible(i, j);
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

    /// Deflection that the supports take back, mm/N; `flexible` is that at each under 1 N at the place.
    template <class Flexible>
    [[nodiscard]] double taken_back(Flexible flexible) const {
        double out = 0.0;
        std::vector<double> forward(factor_.size(), 0.0);
        for (std::size_t i = 0; i < factor_.size(); ++i) {
            if (factor_[i][i] > 0.0) {
                forward[i] = flexible(i);
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
    std::vector<double> held = beam.steadies_mm;
    std::vector<double> gives(held.size(), 0.0);
    if (beam.hold == Hold::chuck_and_centre) {
        held.push_back(basic.length());
        gives.push_back(1.0 / beam.centre_n_um / 1000.0);
    }
    const Redundants redundants(held.size(), [&](std::size_t i, std::size_t j) {
        return basic.flexibility(held[i], held[j]) + (i == j ? gives[i] : 0.0);
    });
    for (std::size_t i = 0; i < places_mm.size(); ++i) {
        const double place = std::min(places_mm[i], basic.length());
        const double bend = basic.flexibility(place, place) - redundants.taken_back([&](std::size_t j) {
            return basic.flexibility(held[j], place);
        });
        bend_mm[i] = force_n * std::max(bend, 0.0);
    }
    return {};
}

struct TurnedBeam::Parts {
    WorkBeam beam;             ///< its sections cut at the ends of the length that is turned
    std::vector<bool> turned;  ///< of each section
    double bore_mm = 0.0;      ///< the greatest of what is turned
    double length_mm = 0.0;
    /// Deflections under 1 N: of all that stays, and of what is turned as if its second moment were 1 mm4.
    struct Share {
        double stays = 0.0;
        double turned = 0.0;
        [[nodiscard]] double at(double second_moment) const noexcept {
            return stays + turned / second_moment;
        }
    };
    std::vector<Share> own;                  ///< of each place under a force there
    std::vector<std::vector<Share>> across;  ///< of each place under a force at each support beyond the basic
    std::vector<std::vector<Share>> supports;
};

TurnedBeam::~TurnedBeam() = default;
TurnedBeam::TurnedBeam(TurnedBeam&&) noexcept = default;

TurnedBeam::TurnedBeam(WorkBeam beam, double from_mm, double to_mm, double finished_mm) {
    constexpr double kTouch = 1e-6;  // mm: sizes and places that are the same
    std::string why;
    double bend = 0.0;
    if (!evaluate(beam, 1.0, std::array{from_mm}, {&bend, 1}, &why).ok()) {
        throw DomainError(why);
    }
    auto parts = std::make_unique<Parts>();
    double at = 0.0;
    for (const WorkSection& section : std::exchange(beam.sections, {})) {
        const double end = at + section.length_mm;
        double from = at;
        for (const double to : {std::clamp(from_mm, at, end), std::clamp(to_mm, at, end), end}) {
            if (to - from > kTouch) {
                const bool turned = from > from_mm - kTouch && to < to_mm + kTouch &&
                                    section.diameter_mm > finished_mm - kTouch;
                beam.sections.push_back({to - from, section.diameter_mm, section.bore_mm});
                parts->turned.push_back(turned);
                parts->bore_mm = turned ? std::max(parts->bore_mm, section.bore_mm) : parts->bore_mm;
                from = to;
            }
        }
        at = end;
    }
    parts->length_mm = at;
    std::vector<Span> stays = spans_of(beam);
    std::vector<Span> turned = stays;
    for (std::size_t i = 0; i < stays.size(); ++i) {
        (parts->turned[i] ? stays : turned)[i].bending = std::numeric_limits<double>::infinity();
        if (parts->turned[i]) {
            turned[i].bending = 1000.0 * beam.youngs_modulus_gpa;
        }
    }
    const BasicBeam firm(beam, std::move(stays));
    const BasicBeam cut(beam, std::move(turned));
    const auto share = [&](double one, double other) {
        return Parts::Share{firm.flexibility(one, other), cut.flexibility(one, other)};
    };
    std::vector<double> held = beam.steadies_mm;
    if (beam.hold == Hold::chuck_and_centre) {
        held.push_back(at);
    }
    const auto all_of = [&](double one) {
        std::vector<Parts::Share> out;
        out.reserve(held.size());
        for (const double other : held) {
            out.push_back(share(one, other));
        }
        return out;
    };
    parts->supports.reserve(held.size());
    for (const double place : held) {
        parts->supports.push_back(all_of(place));
    }
    constexpr int kPlaces = 21;
    parts->own.reserve(kPlaces);
    parts->across.reserve(kPlaces);
    for (int i = 0; i < kPlaces; ++i) {
        const double place = std::min(at, from_mm + (to_mm - from_mm) * i / (kPlaces - 1));
        parts->own.push_back(share(place, place));
        parts->across.push_back(all_of(place));
    }
    parts->beam = std::move(beam);
    parts_ = std::move(parts);
}

double TurnedBeam::length_mm() const noexcept {
    return parts_->length_mm;
}

double TurnedBeam::worst_mm_n(double left_mm) const noexcept {
    const Parts& parts = *parts_;
    const double i = SecondMoment::compute(left_mm, parts.bore_mm);
    if (!(i > 0.0)) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const Redundants redundants(parts.supports.size(), [&](std::size_t one, std::size_t other) {
        return parts.supports[one][other].at(i);
    });
    double worst = 0.0;
    for (std::size_t place = 0; place < parts.own.size(); ++place) {
        const double back =
            redundants.taken_back([&](std::size_t support) { return parts.across[place][support].at(i); });
        worst = std::max(worst, parts.own[place].at(i) - back);
    }
    return worst;
}

bool TurnedBeam::slender(double left_mm) const noexcept {
    const Parts& parts = *parts_;
    const double i = SecondMoment::compute(left_mm, parts.bore_mm);
    const double e = parts.beam.youngs_modulus_gpa;
    const double out = (parts.beam.hold == Hold::chuck ? kSlenderChuck : kSlenderCentre) * left_mm;
    const double plain = parts.beam.hold == Hold::chuck ? CantileverDeflection::compute(1.0, out, e, i)
                         : parts.beam.hold == Hold::chuck_and_centre
                             ? chuck_and_centre_deflection(1.0, out, e, i)
                             : CentresDeflection::compute(1.0, out / 2.0, out, e, i);
    return worst_mm_n(left_mm) > plain * (1.0 + 1e-9);
}

WorkBeam TurnedBeam::with(double left_mm) const {
    WorkBeam out = parts_->beam;
    for (std::size_t i = 0; i < out.sections.size(); ++i) {
        out.sections[i].diameter_mm = parts_->turned[i] ? left_mm : out.sections[i].diameter_mm;
    }
    return out;
}

double TurnedBeam::whirl_rpm(double left_mm, double density_kg_m3) const {
    const WorkBeam beam = with(left_mm);
    constexpr int kLumps = 20;  // of each section
    std::vector<double> places;
    std::vector<double> masses_kg;
    places.reserve(kLumps * beam.sections.size());
    masses_kg.reserve(kLumps * beam.sections.size());
    double at = 0.0;
    for (const WorkSection& section : beam.sections) {
        const double length = section.length_mm / kLumps;
        const double area = std::numbers::pi / 4.0 * (section.diameter_mm + section.bore_mm) *
                            (section.diameter_mm - section.bore_mm);
        for (int i = 0; i < kLumps; ++i) {
            places.push_back(at + (i + 0.5) * length);
            masses_kg.push_back(1e-9 * density_kg_m3 * area * length);
        }
        at += section.length_mm;
    }
    std::vector<double> bends(places.size());
    if (!evaluate(beam, 1.0, places, bends).ok()) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    double square_s2 = 0.0;
    for (std::size_t i = 0; i < places.size(); ++i) {
        square_s2 += masses_kg[i] * bends[i] / 1000.0;
    }
    return 60.0 / (2.0 * std::numbers::pi * std::sqrt(square_s2));
}

BeamBend bend_along(const WorkBeam& beam, double force_n, int places, double from_mm, double to_mm) {
    BeamBend out;
    double area = 0.0;
    for (const WorkSection& section : beam.sections) {
        out.length_mm += section.length_mm;
        area += section.length_mm * section.diameter_mm;
    }
    const int last = places - 1;
    const double end = std::min(to_mm, out.length_mm);
    const double step = (end - from_mm) / last;
    for (int i = 0; i <= last; ++i) {
        out.places_mm.push_back(i == last ? end : from_mm + i * step);
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
