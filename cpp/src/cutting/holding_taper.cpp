// Self-holding tapers, as a question.

#include "halfnut/cutting/holding_taper.hpp"

#include <fmt/format.h>

#include <array>
#include <cctype>
#include <cmath>
#include <map>
#include <optional>
#include <string_view>

#include "halfnut/core/bounds.hpp"
#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/read_number.hpp"
#include "halfnut/cutting/path.hpp"
#include "halfnut/fits/rules.hpp"
#include "halfnut/fits/tables.hpp"

namespace halfnut::cutting {

namespace {

using std::string_view;

constexpr double kLeastJarno = 2.0;
constexpr double kMostJarno = 20.0;
constexpr double kSteepest = 0.1 + 1e-9;
constexpr double kSlightest = 1000.0;  // 1 in this much
constexpr double kInchesPerFoot = 12.0;

#define ASKED(member, about) HALFNUT_ASKED(HoldingTaperAsk, member, about)
constexpr std::array kAsked{
    ASKED(name, "Name of the taper: morse 3, jarno 6, metric 80; or a taper on the diameter such as 1:10.")
        .required(),
    ASKED(length_mm, "Length from the gauge plane.").above(0).usually("that of the table"),
    ASKED(large_mm, "Diameter at the gauge plane of a taper such as 1:10, which has none of its own.")
        .above(0)
        .leads(),
    ASKED(between_centres_mm, "Length of the whole work, for setting over the tailstock.").above(0),
    ASKED(sine_bar_mm, "Length of the sine bar between its rollers.")
        .above(0)
        .usually("5 in, or 100 mm for a metric taper"),
};
#undef ASKED

std::string ratio(const HoldingTaper& taper) {
    return fmt::format("1:{:.3f}", 1.0 / taper.taper_on_diameter);
}

/// Travel of the carriage over which the taper is proved.
double carriage_mm(const HoldingTaper& taper) {
    constexpr double kMetricMm = 25.0;
    return taper.unit == "mm" ? kMetricMm : kInchMm;
}
double rise_mm(const HoldingTaper& taper) {
    return carriage_mm(taper) * taper.taper_on_diameter / 2.0;
}
double small_step_mm(const HoldingTaper& taper) {
    constexpr double kMetricMm = 0.01;
    constexpr double kThousandth = 0.001;
    return taper.unit == "mm" ? kMetricMm : kThousandth * kInchMm;
}
double moves_mm(const HoldingTaper& taper) {
    return small_step_mm(taper) / taper.taper_on_diameter;
}

#define FIGURE(member, about) HALFNUT_FIGURE(HoldingTaper, member, about)
constexpr std::array kFigures{
    FIGURE(name, "Name of the taper."),
    FIGURE(unit, "Unit that the answer is shown in first."),
    FIGURE(large_mm, "Diameter at the gauge plane, the mouth of the socket.").always(),
    FIGURE(small_mm, "Diameter at the length from it, by the taper.").always(),
    FIGURE(length_mm, "Length from the gauge plane.").always(),
    FIGURE(taper_on_diameter, "Taper on the diameter.").always(),
    FIGURE(per_foot_in, "The same in inches a foot.").always(),
    FIGURE(angle_deg, "Angle between side and axis: what compound or attachment is set to.").always(),
    FIGURE(setover_mm, "How far the tailstock is set over, where a length between centres is given."),
    FIGURE(sine_stack_mm, "Stack under one roller of a sine bar that levels the top side of the taper.")
        .always(),
    FIGURE(sine_bar_mm, "Length of the sine bar.").always(),
    made_figure<&ratio>("ratio", "The taper on the diameter, as one in so much."),
    made_figure<&carriage_mm>("carriage_mm", "Travel of the carriage over which the taper is proved."),
    made_figure<&rise_mm>("rise_mm", "What a dial on the side then moves."),
    made_figure<&small_step_mm>("small_step_mm", "A small step on the diameter."),
    made_figure<&moves_mm>("moves_mm", "How far that step moves the gauge plane."),
    FIGURE(told, "What a person should know."),
    FIGURE(evidence, "What each figure rests on."),
};
#undef FIGURE

/// Reads a name from its start.
class Reader {
   public:
    explicit Reader(string_view text) : rest_(text) { skip_blanks(); }

    [[nodiscard]] bool at_end() const { return rest_.empty(); }
    /// Letters, in lower case.
    std::string letters() {
        std::string out;
        while (!rest_.empty() && std::isalpha(static_cast<unsigned char>(rest_.front())) != 0) {
            out += static_cast<char>(std::tolower(static_cast<unsigned char>(rest_.front())));
            rest_.remove_prefix(1);
        }
        skip_blanks();
        return out;
    }
    bool skip(string_view sign) {
        if (!rest_.starts_with(sign)) {
            return false;
        }
        rest_.remove_prefix(sign.size());
        skip_blanks();
        return true;
    }
    /// A decimal number; a nought in front may have lost a point.
    std::optional<double> number() {
        std::size_t end = figures_from(0);
        if (end == 0 || (end > 1 && rest_.front() == '0')) {
            return std::nullopt;
        }
        if (end < rest_.size() && rest_[end] == '.' && figures_from(end + 1) > end + 1) {
            end = figures_from(end + 1);
        }
        double value = 0.0;
        (void)read_number(rest_.data(), rest_.data() + end, value);
        rest_.remove_prefix(end);
        skip_blanks();
        return value;
    }

   private:
    [[nodiscard]] std::size_t figures_from(std::size_t at) const {
        while (at < rest_.size() && rest_[at] >= '0' && rest_[at] <= '9') {
            ++at;
        }
        return at;
    }
    void skip_blanks() {
        while (!rest_.empty() && std::isspace(static_cast<unsigned char>(rest_.front())) != 0) {
            rest_.remove_prefix(1);
        }
    }
    string_view rest_;
};

/// Every name that there is.
std::string choice(const Catalogue& catalogue) {
    std::map<string_view, std::string> known{{"metric", {}}, {"morse", {}}};
    for (const fits::HoldingTaperRow& row : catalogue.holding_tapers) {
        std::string& list = known[row.series];
        list += fmt::format("{}{:g}", list.empty() ? "" : ", ", row.size);
    }
    return fmt::format("there is morse {}; metric {}; jarno 2 to 20; and 1:10 or its like", known["morse"],
                       known["metric"]);
}

/// Title, sizes and taper of a name; NaN where it has no sizes.
struct Named {
    std::string title;
    bool inch = false;
    double large_mm = kNaN;
    double length_mm = kNaN;
    double ratio = kNaN;
    std::vector<EvidenceText> evidence;
};

std::optional<double> ratio_of(string_view name) {
    Reader reader(name);
    if (!reader.skip("1") || !reader.skip(":")) {
        return std::nullopt;
    }
    const std::optional<double> out = reader.number();
    return out && reader.at_end() && *out > 0.0 && *out <= kSlightest ? out : std::nullopt;
}

Named find(string_view name, const Catalogue& catalogue) {
    if (const std::optional<double> ratio = ratio_of(name)) {
        return {fmt::format("1:{:g}", *ratio), false, kNaN, kNaN, 1.0 / *ratio, {}};
    }
    Reader reader(name);
    const std::string series = reader.letters();
    if (reader.skip("#")) {
    } else if (const std::string word = reader.letters(); word == "no") {
        reader.skip(".");
    } else if (!word.empty() && word != "taper") {
        reader = Reader("");
    }
    const std::optional<double> size = reader.number();
    if (size && reader.at_end()) {
        const bool whole = *size == std::floor(*size);
        if (series == "jarno" && whole && *size >= kLeastJarno && *size <= kMostJarno) {
            return {fmt::format("Jarno {:g}", *size),
                    true,
                    *size / 8 * kInchMm,
                    *size / 2 * kInchMm,
                    0.6 / kInchesPerFoot,
                    {rests_on("large_mm", fits::rule::taper_jarno, catalogue)}};
        }
        for (const fits::HoldingTaperRow& row : catalogue.holding_tapers) {
            if (row.series == series && row.size == *size) {
                const double scale = row.unit == "in" ? kInchMm : 1.0;
                std::string title = fmt::format("{} {:g}", series, *size);
                title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
                return {std::move(title),
                        row.unit == "in",
                        row.large * scale,
                        row.length * scale,
                        row.per_foot / kInchesPerFoot,
                        {as_tabulated("large_mm", row_ref(catalogue.holding_tapers, row), catalogue)}};
            }
        }
    }
    throw NotTabulatedError(
        fmt::format("no self-holding taper '{}'; {}", bounds::shown(name), choice(catalogue)));
}

bool given(double value) {
    return !std::isnan(value);
}

double positive_mm(double value, string_view name) {
    require(positive(name, "mm"), value);
    return value;
}

}  // namespace

void take(TaperName& to, const Given& given, const AskedRow& row, Asking& asking) {
    if (given.tag != Given::Tag::text) {
        throw DomainError(fmt::format("{} must be text such as 'morse 3', got {}; {}", row.name,
                                      given.shown(), choice(asking.catalogue)));
    }
    take(to.text, given, row, asking);
}

constexpr std::array kHoldingTaperSays{
    SaidRow{"taper", "{ratio} on the diameter, {per_foot_in:.5f} in per foot"},
    SaidRow{"set", "compound or attachment at {angle_deg:.4f}° from the axis"},
    SaidRow{"set over", "the tailstock by {setover_mm}"},
    SaidRow{"prove", "a dial on the side moves {rise_mm} in {carriage_mm:size} of carriage"},
    SaidRow{"sine bar", "{sine_stack_mm} under a bar of {sine_bar_mm:size}"},
    SaidRow{"gauge", "{small_step_mm} on the diameter moves the gauge plane {moves_mm} along"},
};
constinit const RecordRow kHoldingTaperRecord{
    "HoldingTaper",
    "A self-holding taper.",
    kFigures,
    "large_mm small_mm angle_deg per_foot_in",
    {"{name}: {large_mm} at the gauge plane, {small_mm} at {length_mm} from it", kHoldingTaperSays,
     "taper, set, set over, prove"}};

HoldingTaper holding_taper(const HoldingTaperAsk& asked, const Asking& asking) {
    Named found = find(asked.name.text, asking.catalogue);
    if (given(asked.large_mm)) {
        if (given(found.large_mm)) {
            throw DomainError(fmt::format("large: {} has its own, {}", found.title,
                                          both_sizes_text(found.large_mm, found.inch)));
        }
        found.large_mm = asked.large_mm;
        found.inch = asking.inch;
    }
    if (given(asked.length_mm)) {
        found.length_mm = asked.length_mm;
    }
    if (!given(found.large_mm) || !given(found.length_mm)) {
        throw DomainError(fmt::format("{} has no sizes of its own: give large and length", found.title));
    }
    HoldingTaper out;
    out.name = found.title;
    out.unit = found.inch ? "in" : "mm";
    out.large_mm = positive_mm(found.large_mm, "large");
    out.length_mm = positive_mm(found.length_mm, "length");
    out.taper_on_diameter = found.ratio;
    out.small_mm = out.large_mm - found.ratio * out.length_mm;
    if (!(out.small_mm > 0.0)) {
        throw DomainError(fmt::format("length must be below {}, where the taper ends in a point",
                                      size_text(out.large_mm / found.ratio, found.inch)));
    }
    if (given(asked.between_centres_mm)) {
        if (asked.between_centres_mm < out.length_mm) {
            throw DomainError(fmt::format("between_centres must be at least length, {}",
                                          size_text(out.length_mm, found.inch)));
        }
        out.setover_mm =
            tailstock_setover_mm(out.large_mm, out.small_mm, out.length_mm, asked.between_centres_mm);
    }
    const double usual = found.inch ? 5 * kInchMm : 100.0;
    out.sine_bar_mm = given(asked.sine_bar_mm) ? positive_mm(asked.sine_bar_mm, "sine_bar") : usual;
    out.per_foot_in = kInchesPerFoot * found.ratio;
    out.angle_deg = taper_angle_deg(out.large_mm, out.small_mm, out.length_mm);
    out.sine_stack_mm =
        out.sine_bar_mm * found.ratio / (1 + found.ratio * found.ratio / 4);  // sin 2a by tan a
    if (found.ratio > kSteepest) {
        out.told.push_back({"holding_taper_steep", 0.0, {}});
    }
    out.told.push_back({"holding_taper_blue", 0.0, {}});
    out.evidence = std::move(found.evidence);
    out.evidence.push_back(rests_on("angle_deg", fits::rule::taper_angle, asking.catalogue));
    return out;
}

constinit const Question kHoldingTaper = [] {
    Question out = question<HoldingTaperAsk, HoldingTaper, &holding_taper>(
        "fits", "holding_taper", "Ends, taper and settings of a self-holding taper.", kAsked,
        kHoldingTaperRecord);
    out.sources = "ISO 296 and ASME B5.10 as the rows of the evidence name them; Jarno's rule.";
    out.example =
        "holding-taper \"morse 3\"\nholding-taper \"jarno 6\" --between-centres 8in\nholding-taper 1:10 "
        "--large "
        "20mm --length 40mm";
    out.own_units = true;
    return out;
}();

}  // namespace halfnut::cutting
