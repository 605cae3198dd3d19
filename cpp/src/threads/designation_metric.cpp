#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "designation_reader.hpp"
#include "halfnut/core/bounds.hpp"
#include "halfnut/threads/tables.hpp"

namespace halfnut::threads {
namespace {

class MetricReader : public DesignationReader {
   public:
    explicit MetricReader(const DesignationReader& from) : DesignationReader(from) {}

    Thread read() {
        thread_.system = System::iso_metric;
        ++at_;
        if (upper(peek()) == 'J') {
            thread_.form = Form::controlled_root;
            ++at_;
        }
        skip_blanks();
        const std::size_t size_at = at_;
        thread_.diameter_units = decimal(kNanometresPerMm, kMaxDiameterMm, "a diameter in millimetres");
        if (thread_.diameter_units == 0) {
            fail_at(size_at, "a diameter must be > 0 mm", StatusCode::out_of_range);
        }
        if (accept_times()) {
            iso_pitch();
        } else {
            coarse_pitch(size_at);
        }
        check_geometry(size_at);
        while (!at_end()) {
            const std::size_t from = at_;
            if (!accept_separator()) {
                break;
            }
            if (at_end()) {
                fail_at(from, "a dash with nothing after it");
            }
            iso_element();
        }
        return whole();
    }

   private:
    void iso_pitch() {
        if (upper(peek()) == 'P' && upper(peek(1)) == 'H') {
            at_ += 2;
            skip_blanks();
            const std::size_t lead_at = at_;
            const std::int64_t lead = decimal(kNanometresPerMm, kMaxDiameterMm, "a lead in millimetres");
            skip_blanks();
            if (upper(peek()) != 'P') {
                fail("P and the pitch are wanted after the lead, as in Ph3P1.5");
            }
            ++at_;
            skip_blanks();
            pitch_mm_here();
            set_starts(lead, thread_.pitch_units, 0, lead_at, "lead",
                       [](std::int64_t units) { return mm_text(units); });
            return;
        }
        if (upper(peek()) == 'P' && (is_digit(peek(1)) || peek(1) == '.')) {
            ++at_;
        }
        pitch_mm_here();
    }

    void pitch_mm_here() {
        const std::size_t from = at_;
        thread_.pitch_units = decimal(kNanometresPerMm, kMaxDiameterMm, "a pitch in millimetres");
        if (thread_.pitch_units == 0) {
            fail_at(from, "a pitch must be > 0 mm", StatusCode::out_of_range);
        }
    }

    void coarse_pitch(std::size_t size_at) {
        const auto rows = catalogue_.iso_series;
        const auto nm = [](double mm) { return bounds::nearest<std::int64_t>(mm * 1e6, 1, bounds::kUnits); };
        const auto low = std::partition_point(rows.begin(), rows.end(), [&](const auto& r) {
            return nm(r.diameter_mm) < thread_.diameter_units;
        });
        std::string pitches;
        for (auto row = low; row != rows.end() && nm(row->diameter_mm) == thread_.diameter_units; ++row) {
            if (row->series == IsoSeries::coarse) {
                thread_.pitch_units = nm(row->pitch_mm);
                return;
            }
            pitches = pitches.empty() ? mm_text(nm(row->pitch_mm))
                                      : fmt::format("{}, {}", mm_text(nm(row->pitch_mm)), pitches);
        }
        const std::string name = fmt::format("M{}", mm_text(thread_.diameter_units));
        if (!pitches.empty()) {
            fail_at(size_at,
                    fmt::format("{} has no coarse pitch; write one of its fine pitches: {}", name, pitches),
                    StatusCode::not_tabulated);
        }
        std::int64_t nearest = 0;
        for (const IsoSeriesRow& row : rows) {
            const std::int64_t d = nm(row.diameter_mm);
            if (row.series == IsoSeries::coarse &&
                std::abs(d - thread_.diameter_units) < std::abs(nearest - thread_.diameter_units)) {
                nearest = d;
            }
        }
        fail_at(size_at,
                fmt::format("{} is in no series, so its pitch must be written, as in {}x1; the nearest with "
                            "a coarse pitch is M{}",
                            name, name, mm_text(nearest)),
                StatusCode::not_tabulated);
    }

    void iso_element() {
        const std::size_t from = at_;
        if (hand()) {
            return;
        }
        if (is_letter(peek()) && !is_letter(peek(1)) && !is_digit(peek(1))) {
            const char letter = upper(peek());
            if (letter == 'S' || letter == 'N' || letter == 'L') {
                if (thread_.group != EngagementGroup::unstated || thread_.engagement_units != 0) {
                    fail("the engagement is stated twice");
                }
                thread_.group = letter == 'S'   ? EngagementGroup::s
                                : letter == 'N' ? EngagementGroup::n
                                                : EngagementGroup::l;
                ++at_;
                return;
            }
        }
        if (is_digit(peek()) && is_letter(peek(1)) && !(peek(1) == 'm' && peek(2) == 'm')) {
            iso_classes();
            return;
        }
        if (is_digit(peek()) || peek() == '.') {
            const std::int64_t length =
                decimal(kNanometresPerMm, kMaxDiameterMm, "a length of engagement in millimetres");
            skip_blanks();
            const bool unit = accept("mm");
            if (!unit && !thread_.has_external() && !thread_.has_internal()) {
                fail_at(from, fmt::format("{0} may be a class without its letter ({0}g, {0}H) or a length: "
                                          "write the letter, or '{0} mm'",
                                          mm_text(length)));
            }
            set_engagement(length, from);
            return;
        }
        fail("a tolerance class (6g, 4g6g, 6H), S, N, L, a length of engagement or LH is wanted here");
    }

    void iso_classes() {
        iso_class();
        skip_blanks();
        if (accept("/")) {
            skip_blanks();
            iso_class();
        }
    }

    void iso_class() {
        const std::size_t from = at_;
        IsoClass out;
        iso_symbol(out.pitch_grade, out.pitch_position);
        out.crest_grade = out.pitch_grade;
        out.crest_position = out.pitch_position;
        const std::size_t crest_at = at_;
        const bool two = is_digit(peek());
        if (two) {
            iso_symbol(out.crest_grade, out.crest_position);
        }
        const bool internal = is_internal(out.pitch_position);
        if (internal != is_internal(out.crest_position)) {
            fail_at(
                crest_at,
                "one class cannot hold an external and an internal position; a fit is written as in 6H/6g");
        }
        if (internal ? (out.pitch_grade < 4 || out.pitch_grade > 8)
                     : (out.pitch_grade < 3 || out.pitch_grade > 9)) {
            fail_at(from,
                    fmt::format("grade {} of an {} pitch diameter; the standard has {}", out.pitch_grade,
                                internal ? "internal" : "external", internal ? "4 to 8" : "3 to 9"),
                    StatusCode::not_tabulated);
        }
        const bool crest_known = internal
                                     ? (out.crest_grade >= 4 && out.crest_grade <= 8)
                                     : (out.crest_grade == 4 || out.crest_grade == 6 || out.crest_grade == 8);
        if (!crest_known) {
            const std::string hint =
                internal || two ? std::string()
                                : fmt::format("; write both, as in {}{}6{}", out.pitch_grade,
                                              enum_name(out.pitch_position), enum_name(out.pitch_position));
            fail_at(two ? crest_at : from,
                    fmt::format("grade {} of {}; the standard has {}{}", out.crest_grade,
                                internal ? "an internal minor diameter" : "an external major diameter",
                                internal ? "4 to 8" : "4, 6 and 8", hint),
                    StatusCode::not_tabulated);
        }
        IsoClass& place = internal ? thread_.internal_iso : thread_.external_iso;
        if (place.given()) {
            fail_at(from, fmt::format("two {} classes", internal ? "internal" : "external"));
        }
        place = out;
    }

    void iso_symbol(std::uint8_t& grade, Position& position) {
        if (!is_digit(peek())) {
            fail("a tolerance grade, such as the 6 of 6g, is wanted here");
        }
        grade = static_cast<std::uint8_t>(peek() - '0');
        ++at_;
        std::string_view best;
        for (const auto& [value, name] : enum_names(Position{})) {
            if (starts(name) && name.size() > best.size()) {
                best = name;
                position = value;
            }
        }
        if (best.empty()) {
            fail(peek() == '\0'
                     ? "a position letter is wanted after the grade, as in 6g or 6H"
                     : fmt::format(
                           "'{}' is no tolerance position; external a b c d e f g h az, internal G H AZ AX",
                           text_.substr(at_, 1)));
        }
        at_ += best.size();
    }
};

}  // namespace

Thread read_metric(const DesignationReader& from) {
    return MetricReader(from).read();
}

}  // namespace halfnut::threads
