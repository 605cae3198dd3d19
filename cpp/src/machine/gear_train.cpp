#include "halfnut/machine/gear_train.hpp"
#include "halfnut/core/bounds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>
#include <numeric>
#include <tuple>

namespace halfnut::machine {

namespace {

constexpr int kFewestTeeth = 1;
constexpr int kMostTeeth = 400;
constexpr std::int64_t kLargestTerm = 1'000'000'000'000;  // a pair's product by it stays within 64 bits
constexpr double kSteep = 6.0;
constexpr double kAddendum = 1.0;      // modules
constexpr double kCollarTeeth = 15.0;  // teeth that a shaft and its nut take, where no collar is given
constexpr double kRounding = 1e-9;     // relative slack of a window, so that its edge is in it
constexpr std::int64_t kLargestDenominator = 10'000'000;

Ratio reduced(std::int64_t num, std::int64_t den) noexcept {
    const std::int64_t g = std::gcd(num, den);
    return g == 0 ? Ratio{0, 1} : Ratio{num / g, den / g};
}

/// a / b; 0 where a term is above the largest that products with gears still fit beside.
Ratio quotient(Ratio a, Ratio b) noexcept {
    if (a.num <= 0 || b.num <= 0) {
        return {0, 1};
    }
    constexpr double kLargestProduct = 1e13;
    const std::int64_t g1 = std::gcd(a.num, b.num);
    const std::int64_t g2 = std::gcd(a.den, b.den);
    const auto fits = [](std::int64_t one, std::int64_t other) {
        return static_cast<double>(one) * static_cast<double>(other) <= kLargestProduct;
    };
    if (!fits(a.num / g1, b.den / g2) || !fits(a.den / g2, b.num / g1)) {
        return {0, 1};
    }
    return reduced((a.num / g1) * (b.den / g2), (a.den / g2) * (b.num / g1));
}

/// One gear or two that turn at one end of a ratio: of a single gear `second` is 0 and `product` its teeth.
struct Side {
    std::int64_t product = 0;
    int first = 0;
    int second = 0;
};

/// The gears at hand: each size once, with how many there are.
class Stock {
   public:
    explicit Stock(std::vector<int> gears) {
        std::sort(gears.begin(), gears.end());
        for (const int teeth : gears) {
            if (sizes_.empty() || sizes_.back() != teeth) {
                sizes_.push_back(teeth);
            }
            ++count_[static_cast<std::size_t>(teeth)];
        }
    }

    [[nodiscard]] const std::vector<int>& sizes() const noexcept { return sizes_; }

    /// Whether the gears can all be taken at once; 0 stands for none.
    [[nodiscard]] bool holds(const std::array<int, 4>& wanted) const noexcept {
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            int same = 0;
            for (std::size_t k = 0; k <= i; ++k) {
                same += wanted[k] == wanted[i] ? 1 : 0;
            }
            if (wanted[i] != 0 && same > count_[static_cast<std::size_t>(wanted[i])]) {
                return false;
            }
        }
        return true;
    }

    [[nodiscard]] std::vector<Side> singles() const {
        std::vector<Side> out;
        for (const int teeth : sizes_) {
            out.push_back({teeth, teeth, 0});
        }
        return out;
    }

    [[nodiscard]] std::vector<Side> pairs() const {
        std::vector<Side> out;
        for (std::size_t i = 0; i < sizes_.size(); ++i) {
            for (std::size_t k = i; k < sizes_.size(); ++k) {
                if (k > i || count_[static_cast<std::size_t>(sizes_[i])] > 1) {
                    out.push_back({static_cast<std::int64_t>(sizes_[i]) * sizes_[k], sizes_[i], sizes_[k]});
                }
            }
        }
        std::sort(out.begin(), out.end(), [](const Side& a, const Side& b) {
            return a.product * kMostTeeth + a.first < b.product * kMostTeeth + b.first;
        });
        return out;
    }

   private:
    std::vector<int> sizes_;
    std::array<int, kMostTeeth + 1> count_{};
};

/// Distances of the machine that a train must fit.
struct Room {
    double module = kNaN;
    double span = kNaN;  ///< stud to leadscrew
    double low = kNaN;
    double high = kNaN;
    double around_stud = kNaN;
    double collar = kNaN;  ///< radius

    explicit Room(const Threading& t)
        : module(t.module_mm),
          span(t.stud_to_screw_mm),
          low(t.banjo_low_mm),
          high(t.banjo_high_mm),
          around_stud(t.stud_clearance_mm),
          collar(std::isnan(t.collar_mm) ? kCollarTeeth / 2.0 * t.module_mm - kAddendum * t.module_mm
                                         : t.collar_mm / 2.0) {}

    [[nodiscard]] bool known() const noexcept { return !std::isnan(module + span + low + high); }
    [[nodiscard]] double tip(int teeth) const noexcept { return module * (teeth / 2.0 + kAddendum); }
    [[nodiscard]] double centres(int one, int two) const noexcept { return module * (one + two) / 2.0; }

    /// Least room that a train of two meshes has, mm; below 0 it does not close.
    /// `on_stud` and `on_screw` are the outer gears; `first` meshes with the one, `second` with the other.
    [[nodiscard]] double least(int on_stud, int first, int second, int on_screw,
                               bool one_plane) const noexcept {
        const double a = centres(on_stud, first);
        const double c = centres(second, on_screw);
        double out = std::min({a + c - span, span - std::abs(a - c), c - low, high - c});
        const auto clears = [&](double distance, double taken) { out = std::min(out, distance - taken); };
        if (one_plane) {
            clears(span, tip(on_stud) + tip(on_screw));
        } else {
            clears(a, tip(second) + collar);
            clears(c, tip(first) + collar);
            clears(span, tip(on_stud) + collar);
            clears(span, tip(on_screw) + collar);
        }
        if (!std::isnan(around_stud)) {
            clears(around_stud, tip(on_stud));
        }
        return out;
    }
};

bool steep_mesh(int one, int two) noexcept {
    return std::max(one, two) > kSteep * std::min(one, two);
}

/// The order of drivers and driven gears, or the idler, that closes with most room. False: none closes.
bool place(const Room& room, const Stock& stock, GearTrain& train) {
    if (train.driver_2 == 0) {
        train.steep = false;
        if (!room.known()) {
            return true;
        }
        double best = -1.0;
        for (const int idler : stock.sizes()) {
            if (!stock.holds({train.driver_1, train.driven_2, idler, 0})) {
                continue;
            }
            const double least = room.least(train.driver_1, idler, idler, train.driven_2, true);
            if (least >= 0.0 && least > best) {
                best = least;
                train.idler = idler;
            }
        }
        if (train.idler != 0) {
            train.stud_to_banjo_mm = room.centres(train.driver_1, train.idler);
            train.banjo_to_screw_mm = room.centres(train.idler, train.driven_2);
            train.mounting = Mounting::closes;
            train.steep = steep_mesh(train.driver_1, train.idler) || steep_mesh(train.idler, train.driven_2);
        }
        return train.idler != 0;
    }
    const GearTrain given = train;
    double best = 0.0;
    bool found = false;
    for (const bool drivers_turned : {false, true}) {
        for (const bool driven_turned : {false, true}) {
            const int driver_1 = drivers_turned ? given.driver_2 : given.driver_1;
            const int driver_2 = drivers_turned ? given.driver_1 : given.driver_2;
            const int driven_1 = driven_turned ? given.driven_2 : given.driven_1;
            const int driven_2 = driven_turned ? given.driven_1 : given.driven_2;
            const bool steep = steep_mesh(driver_1, driven_1) || steep_mesh(driver_2, driven_2);
            // where distances are not known the rule of 15 teeth alone, in teeth
            const double least =
                room.known() ? room.least(driver_1, driven_1, driver_2, driven_2, false)
                             : std::min(driver_1 + driven_1 - driver_2, driver_2 + driven_2 - driven_1) -
                                   kCollarTeeth - (steep ? kMostTeeth : 0);
            if ((!room.known() || least >= 0.0) && (!found || least > best)) {
                found = true;
                best = least;
                train.driver_1 = driver_1;
                train.driver_2 = driver_2;
                train.driven_1 = driven_1;
                train.driven_2 = driven_2;
                train.steep = steep;
            }
        }
    }
    if (found) {
        train.stud_to_banjo_mm = room.centres(train.driver_1, train.driven_1);
        train.banjo_to_screw_mm = room.centres(train.driver_2, train.driven_2);
        train.mounting = room.known() ? Mounting::closes : Mounting::unchecked;
    }
    return found;
}

int smallest_gear(const GearTrain& t) noexcept {
    return t.compound() ? std::min({t.driver_1, t.driven_1, t.driver_2, t.driven_2})
                        : std::min(t.driver_1, t.driven_2);
}

bool better(const GearTrain& a, const GearTrain& b) noexcept {
    if (a.exact != b.exact) {
        return a.exact;
    }
    if (std::abs(a.error) != std::abs(b.error)) {
        return std::abs(a.error) < std::abs(b.error);
    }
    const auto key = [](const GearTrain& t) {
        return std::tuple(!t.standard, t.steep, t.compound(), -smallest_gear(t), t.driver_1, t.driven_1,
                          t.driver_2, t.driven_2, t.box);
    };
    return key(a) < key(b);
}

Status refuse(StatusCode code, std::string* why, std::string words) {
    if (why != nullptr) {
        *why = std::move(words);
    }
    return {code, 0};
}

/// The gears at hand, and those of the gearbox's own train where they are not counted among them.
std::vector<int> with_standard(const Threading& threading, bool gearbox) {
    std::vector<int> out = threading.gears;
    if (gearbox && !threading.gearbox.empty()) {
        const int driver = threading.standard_driver;
        const int driven = threading.standard_driven;
        const auto held = [&](int teeth) { return std::count(out.begin(), out.end(), teeth); };
        if (held(driver) < 1) {
            out.push_back(driver);
        }
        if (held(driven) < (driver == driven ? 2 : 1)) {
            out.push_back(driven);
        }
    }
    return out;
}

Status check_question(const Threading& threading, const GearQuestion& q, std::string* why) {
    if (q.gearbox && !threading.gearbox.empty() &&
        (threading.standard_driver < 1 || threading.standard_driven < 1)) {
        return refuse(StatusCode::inconsistent, why, "a gearbox needs the train that its chart is for");
    }
    for (const int teeth : with_standard(threading, q.gearbox)) {
        if (teeth < kFewestTeeth || teeth > kMostTeeth) {
            return refuse(
                StatusCode::out_of_range, why,
                fmt::format("gears must have {} to {} teeth, got {}", kFewestTeeth, kMostTeeth, teeth));
        }
    }
    const std::array given{std::pair{positive("lead_mm", "mm"), q.lead_mm.value()},
                           std::pair{positive("leadscrew lead", "mm"), threading.lead_mm},
                           std::pair{positive("spindle_to_stud"), threading.spindle_to_stud},
                           std::pair{between("error_limit", 0.0, 1.0), q.error_limit}};
    for (const auto& each : given) {
        if (const StatusCode code = check(each.first, each.second); code != StatusCode::ok) {
            return refuse(code, why, argument_message(each.first, each.second));
        }
    }
    if (q.lead_mm.num > kLargestTerm || q.lead_mm.den > kLargestTerm) {
        return refuse(StatusCode::out_of_range, why,
                      fmt::format("lead_mm must be a ratio of terms up to {}, got {}/{}", kLargestTerm,
                                  q.lead_mm.num, q.lead_mm.den));
    }
    return {};
}

/// Ratios of drivers over driven gears that are wanted, one for each step of the gearbox.
std::vector<std::pair<int, Ratio>> wanted_ratios(const Threading& threading, const GearQuestion& q) {
    const Ratio turns =
        quotient(q.lead_mm, simplest_ratio(threading.lead_mm));  // leadscrew's, for one of the spindle
    std::vector<std::pair<int, Ratio>> out;
    if (!q.gearbox || threading.gearbox.empty()) {
        out.emplace_back(-1, quotient(turns, simplest_ratio(threading.spindle_to_stud)));
        return out;
    }
    const Ratio standard = reduced(threading.standard_driver, threading.standard_driven);
    for (std::size_t i = 0; i < threading.gearbox.size(); ++i) {
        const Ratio step = simplest_ratio(threading.gearbox[i].ratio);
        if (step.num > 0) {
            out.emplace_back(static_cast<int>(i), quotient(turns, quotient(step, standard)));
        }
    }
    return out;
}

/// Calls visit(driver side, driven side, error, exact) for all sides within the limit. Both lists are in the
/// order of their products, so that the first driver within the limit moves up only.
template <class Visit>
void within(const std::vector<Side>& drivers, const std::vector<Side>& driven, Ratio wanted, double limit,
            const Visit& visit) {
    const double target = wanted.value();
    auto first = drivers.begin();
    for (const Side& below : driven) {
        const double centre = target * static_cast<double>(below.product);
        const double low = centre * (1.0 - limit) * (1.0 - kRounding);
        const double high = centre * (1.0 + limit) * (1.0 + kRounding);
        while (first != drivers.end() && static_cast<double>(first->product) < low) {
            ++first;
        }
        for (auto at = first; at != drivers.end() && static_cast<double>(at->product) <= high; ++at) {
            const std::int64_t got = at->product * wanted.den;
            const std::int64_t asked = below.product * wanted.num;
            visit(*at, below, static_cast<double>(got - asked) / static_cast<double>(asked), got == asked);
        }
    }
}

}  // namespace

Ratio simplest_ratio(double value) noexcept {
    if (!(value > 0.0 && value < static_cast<double>(kLargestDenominator))) {
        return {0, 1};
    }
    // continued fraction: each convergent is the nearest ratio of its size
    std::int64_t num_before = 1;
    std::int64_t den_before = 0;
    auto num = bounds::whole<std::int64_t>(value);
    std::int64_t den = 1;
    double rest = value - std::floor(value);
    while (std::abs(static_cast<double>(num) / static_cast<double>(den) - value) > 1e-12 * value) {
        const double inverse = 1.0 / rest;
        if (!(inverse < static_cast<double>(kLargestDenominator))) {
            return {0, 1};
        }
        const auto whole = bounds::whole<std::int64_t>(inverse);
        rest = inverse - static_cast<double>(whole);
        if (static_cast<double>(whole) * static_cast<double>(den) >
            static_cast<double>(kLargestDenominator)) {
            return {0, 1};
        }
        num_before = std::exchange(num, whole * num + num_before);
        den_before = std::exchange(den, whole * den + den_before);
        if (den > kLargestDenominator) {
            return {0, 1};
        }
    }
    return {num, den};
}

Status gear_trains(const Threading& threading, const GearQuestion& question, GearAnswer& out,
                   std::string* why) {
    out = {};
    if (const Status status = check_question(threading, question, why); !status.ok()) {
        return status;
    }
    const Stock stock(with_standard(threading, question.gearbox));
    const Room room(threading);
    const std::vector<Side> singles = stock.singles();
    const std::vector<Side> pairs = question.compound ? stock.pairs() : std::vector<Side>{};
    const double limit = question.error_limit;
    const std::size_t most = std::min<std::size_t>(question.most, 1'000'000);

    const auto keep = [&](GearTrain train) {
        const bool fits = place(room, stock, train);
        if (train.standard) {  // it is on the lathe as it stands
            train.mounting = Mounting::closes;
        }
        if (!fits && !train.standard) {
            ++out.refused;
            if (!question.unmountable) {
                return;
            }
            train.mounting = Mounting::open;
        } else {
            ++out.found;
        }
        out.trains.push_back(train);
        if (out.trains.size() >= 4 * std::max<std::size_t>(most, 64)) {
            std::nth_element(out.trains.begin(), out.trains.begin() + static_cast<std::ptrdiff_t>(most),
                             out.trains.end(), better);
            out.trains.resize(most);
        }
    };
    for (const std::pair<int, Ratio>& each : wanted_ratios(threading, question)) {
        const Ratio wanted = each.second;
        if (wanted.num < 1 || wanted.num > kLargestTerm || wanted.den > kLargestTerm) {
            continue;
        }
        within(singles, singles, wanted, limit,
               [&](const Side& above, const Side& below, double error, bool exact) {
                   if (!stock.holds({above.first, below.first, 0, 0})) {
                       return;
                   }
                   GearTrain train;
                   train.driver_1 = above.first;
                   train.driven_2 = below.first;
                   train.box = each.first;
                   train.error = error;
                   train.exact = exact;
                   train.standard = each.first >= 0 && above.first == threading.standard_driver &&
                                    below.first == threading.standard_driven;
                   keep(train);
               });
        within(pairs, pairs, wanted, limit,
               [&](const Side& above, const Side& below, double error, bool exact) {
                   if (!stock.holds({above.first, above.second, below.first, below.second})) {
                       return;
                   }
                   GearTrain train;
                   train.driver_1 = above.first;
                   train.driver_2 = above.second;
                   train.driven_1 = below.first;
                   train.driven_2 = below.second;
                   train.box = each.first;
                   train.error = error;
                   train.exact = exact;
                   keep(train);
               });
    }
    const std::size_t told = std::min(most, out.trains.size());
    std::partial_sort(out.trains.begin(), out.trains.begin() + static_cast<std::ptrdiff_t>(told),
                      out.trains.end(), better);
    out.trains.resize(told);
    return {};
}

std::vector<TranslatingPair> translating_pairs(const std::vector<int>& gears, int simplest,
                                               double error_limit, bool inverse) {
    constexpr int kMostSimplest = 1000;
    if (simplest < 1 || simplest > kMostSimplest) {
        throw DomainError(fmt::format("simplest must be from 1 to {}, got {}", kMostSimplest, simplest));
    }
    const std::int64_t up = inverse ? 100 : 127;
    const std::int64_t down = inverse ? 127 : 100;
    std::vector<TranslatingPair> out;
    std::vector<int> sound;
    std::copy_if(gears.begin(), gears.end(), std::back_inserter(sound),
                 [](int teeth) { return teeth >= kFewestTeeth && teeth <= kMostTeeth; });
    const Stock stock(sound);
    for (const int a : stock.sizes()) {
        for (const int b : stock.sizes()) {
            if (a == b) {
                continue;
            }
            TranslatingPair best;
            for (int n = 1; n <= simplest; ++n) {
                // (a / b) (m / n) = up / down
                const std::int64_t over = up * b * n;
                const std::int64_t under = down * a;
                const std::int64_t m = (2 * over + under) / (2 * under);
                if (m < 1 || m > simplest || std::gcd(m, static_cast<std::int64_t>(n)) != 1) {
                    continue;
                }
                const double error = static_cast<double>(m * under - over) / static_cast<double>(over);
                if (std::abs(error) <= error_limit &&
                    (best.driver == 0 || m * n < std::int64_t{best.num} * best.den)) {
                    best = {a, b, static_cast<int>(m), n, error, m * under == over};
                }
            }
            if (best.driver != 0) {
                out.push_back(best);
            }
        }
    }
    std::sort(out.begin(), out.end(), [](const TranslatingPair& x, const TranslatingPair& y) {
        return std::tuple(!x.exact, x.num * x.den, std::abs(x.error), x.driver) <
               std::tuple(!y.exact, y.num * y.den, std::abs(y.error), y.driver);
    });
    return out;
}

double chart_lead_mm(const Threading& threading, const ChartRow& row) noexcept {
    double ratio = 1.0;
    for (const int teeth : row.drivers) {
        ratio *= teeth;
    }
    for (const int teeth : row.driven) {
        ratio /= teeth;
    }
    if (threading.gearbox.empty()) {
        return row.drivers.empty() ? kNaN : threading.lead_mm * threading.spindle_to_stud * ratio;
    }
    const auto same = [&](const GearboxStep& step) {
        return step.positions.size() == row.positions.size() &&
               std::all_of(row.positions.begin(), row.positions.end(), [&](const Position& wanted) {
                   return std::any_of(step.positions.begin(), step.positions.end(), [&](const Position& has) {
                       return has.control == wanted.control && has.setting == wanted.setting;
                   });
               });
    };
    const auto step = std::find_if(threading.gearbox.begin(), threading.gearbox.end(), same);
    if (step == threading.gearbox.end() || threading.standard_driver < 1 || threading.standard_driven < 1) {
        return kNaN;
    }
    const double standard = static_cast<double>(threading.standard_driver) / threading.standard_driven;
    return threading.lead_mm * step->ratio * (row.drivers.empty() ? 1.0 : ratio / standard);
}

}  // namespace halfnut::machine
