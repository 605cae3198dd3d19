#include <fmt/format.h>

#include <optional>
#include <string>

#include "designation_reader.hpp"

namespace halfnut::threads {

std::string decimal_text(std::int64_t units, std::int64_t per_one, int min_places) {
    int places = 0;
    for (std::int64_t scale = per_one; scale > 1; scale /= 10) {
        ++places;
    }
    std::string text = fmt::format("{}.{:0{}}", units / per_one, units % per_one, places);
    const std::size_t keep = text.find('.') + 1 + static_cast<std::size_t>(min_places);
    while (text.size() > keep && text.back() == '0') {
        text.pop_back();
    }
    if (text.back() == '.') {
        text.pop_back();
    }
    return text;
}

std::string mm_text(std::int64_t nanometres) {
    return decimal_text(nanometres, kNanometresPerMm, 0);
}
std::string inch_text(std::int64_t units) {
    return decimal_text(units, 10'000, 3);
}
std::string tpi_text(std::int32_t thousandths) {
    return decimal_text(thousandths, 1000, 0);
}

namespace {

/// A pitch or lead in inches to the places that bring the threads per inch back: four, six from 40 up.
std::string pitch_text(const Thread& thread, std::int64_t times) {
    const std::int64_t step = thread.tpi_thousandths == 0       ? 1
                              : thread.tpi_thousandths < 40'000 ? 10'000
                                                                : 100;
    return decimal_text(rounded_quotient(thread.pitch_units * times, step) * step, 100'000'000, 4);
}

/// "1 1/8" where the size is a multiple of 1/64 rounded to four places, else nothing.
std::optional<std::string> fraction_text(std::int64_t units) {
    const std::int64_t whole = units / 10'000;
    const std::int64_t rest = units % 10'000;
    if (rest == 0) {
        return fmt::format("{}", whole);
    }
    for (std::int64_t over = 2; over <= 64; over *= 2) {
        for (std::int64_t n = 1; n < over; n += 2) {
            if (rounded_quotient(n * 10'000, over) == rest) {
                return whole == 0 ? fmt::format("{}/{}", n, over) : fmt::format("{} {}/{}", whole, n, over);
            }
        }
    }
    return std::nullopt;
}

std::string series_text(Form form, UnifiedSeries series) {
    std::string text = form == Form::rounded_root ? "UNR" : form == Form::controlled_root ? "UNJ" : "UN";
    text += std::string_view(enum_name(series)).substr(2);
    return text;
}

std::string iso_class_text(const IsoClass& iso) {
    std::string text = fmt::format("{}{}", iso.pitch_grade, enum_name(iso.pitch_position));
    if (iso.crest_grade != iso.pitch_grade || iso.crest_position != iso.pitch_position) {
        text += fmt::format("{}{}", iso.crest_grade, enum_name(iso.crest_position));
    }
    return text;
}

}  // namespace

std::string size_text(const Thread& thread) {
    if (!thread.inch()) {
        return fmt::format("M{}{}", thread.form == Form::controlled_root ? "J" : "",
                           mm_text(thread.diameter_units));
    }
    if (thread.style == SizeStyle::number) {
        const std::int64_t number = (thread.diameter_units - numbered_size(0)) / 130;
        return number >= 0 ? fmt::format("#{}", number)
                           : fmt::format("#{}", std::string(static_cast<std::size_t>(1 - number), '0'));
    }
    if (thread.style == SizeStyle::fraction) {
        if (const auto fraction = fraction_text(thread.diameter_units)) {
            return *fraction;
        }
    }
    return inch_text(thread.diameter_units);
}

std::string class_text(const Thread& thread) {
    std::string external;
    std::string internal;
    if (thread.inch()) {
        external = thread.external_unified == 0 ? "" : fmt::format("{}A", thread.external_unified);
        internal = thread.internal_unified == 0 ? "" : fmt::format("{}B", thread.internal_unified);
        return external + (!external.empty() && !internal.empty() ? "/" : "") + internal;
    }
    internal = thread.internal_iso.given() ? iso_class_text(thread.internal_iso) : "";
    external = thread.external_iso.given() ? iso_class_text(thread.external_iso) : "";
    return internal + (!external.empty() && !internal.empty() ? "/" : "") + external;
}

std::string format_thread(const Thread& thread) {
    std::string text = size_text(thread);
    if (thread.inch()) {
        // whole inches that could be a numbered size say so, unless the series leaves no doubt
        const std::int64_t whole = thread.diameter_units / 10'000;
        const bool doubtful = thread.style == SizeStyle::fraction && thread.diameter_units % 10'000 == 0 &&
                              is_number_size(whole);
        if (doubtful && (thread.series == UnifiedSeries::uns || thread.series == UnifiedSeries::un)) {
            text += " in";
        }
        if (thread.starts == 1 && thread.tpi_thousandths != 0) {
            text += fmt::format("-{}", tpi_text(thread.tpi_thousandths));
        } else {
            text +=
                fmt::format("-{}P-{}L({} START{})", pitch_text(thread, 1), pitch_text(thread, thread.starts),
                            thread.starts, thread.starts == 1 ? "" : "S");
        }
        text += ' ' + series_text(thread.form, thread.series);
    } else if (thread.starts == 1) {
        text += fmt::format("x{}", mm_text(thread.pitch_units));
    } else {
        text +=
            fmt::format("xPh{}P{}", mm_text(thread.pitch_units * thread.starts), mm_text(thread.pitch_units));
    }
    const std::string tolerance = class_text(thread);
    if (!tolerance.empty()) {
        text += '-' + tolerance;
    }
    if (thread.group != EngagementGroup::unstated) {
        text += thread.group == EngagementGroup::s ? "-S" : thread.group == EngagementGroup::n ? "-N" : "-L";
    }
    if (thread.engagement_units != 0 && !thread.inch()) {
        text += fmt::format("-{}{}", mm_text(thread.engagement_units), tolerance.empty() ? " mm" : "");
    }
    if (thread.hand == Hand::left) {
        text += "-LH";
    }
    if (thread.engagement_units != 0 && thread.inch()) {
        text += fmt::format(", LE={}", decimal_text(thread.engagement_units, 1'000'000, 3));
    }
    return text;
}

}  // namespace halfnut::threads
