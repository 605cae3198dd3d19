#include "halfnut/threads/designation.hpp"

#include <fmt/format.h>

#include <utility>

#include "designation_reader.hpp"
#include "halfnut/core/bounds.hpp"

namespace halfnut::threads {
namespace {

constexpr double kNanometresPerInch = 25'400'000.0;

}  // namespace

double Thread::diameter_mm() const noexcept {
    return inch() ? static_cast<double>(diameter_units) * 25.4 / 1e4
                  : static_cast<double>(diameter_units) / 1e6;
}
double Thread::diameter_in() const noexcept {
    return inch() ? static_cast<double>(diameter_units) / 1e4
                  : static_cast<double>(diameter_units) / kNanometresPerInch;
}
double Thread::pitch_in() const noexcept {
    if (!inch()) {
        return static_cast<double>(pitch_units) / kNanometresPerInch;
    }
    return tpi_thousandths != 0 ? 1000.0 / tpi_thousandths : static_cast<double>(pitch_units) / 1e8;
}
double Thread::pitch_mm() const noexcept {
    return inch() ? pitch_in() * 25.4 : static_cast<double>(pitch_units) / 1e6;
}

double Thread::engagement_mm() const noexcept {
    if (engagement_units == 0) {
        return kNaN;
    }
    return inch() ? static_cast<double>(engagement_units) * 25.4 / 1e6
                  : static_cast<double>(engagement_units) / 1e6;
}

Thread Thread::part(Side side) const noexcept {
    Thread out = *this;
    const bool small = !inch() && diameter_units <= 1'400'000;
    if (side == Side::external) {
        out.internal_iso = {};
        out.internal_unified = 0;
        if (!has_external()) {
            if (inch()) {
                out.external_unified = 2;
            } else {
                out.external_iso = small ? IsoClass{6, Position::h, 6, Position::h}
                                         : IsoClass{6, Position::g, 6, Position::g};
            }
        }
        return out;
    }
    out.external_iso = {};
    out.external_unified = 0;
    if (out.form == Form::rounded_root) {
        out.form = Form::plain;
    }
    if (!has_internal()) {
        if (inch()) {
            out.internal_unified = 2;
        } else {
            out.internal_iso =
                small ? IsoClass{5, Position::H, 5, Position::H} : IsoClass{6, Position::H, 6, Position::H};
        }
    }
    return out;
}

Thread DesignationReader::read() {
    skip_blanks();
    if (at_end()) {
        fail("no thread given; write it as 'M10x1.5-6g' or '1/4-20 UNC-2A'");
    }
    if (upper(peek()) == 'M') {
        return read_metric(*this);
    }
    if (is_digit(peek()) || peek() == '.' || peek() == '#' || upper(peek()) == 'N') {
        return read_unified(*this);
    }
    fail("a metric thread begins with M, a Unified one with its size");
}

Status read_thread(std::string_view text, const Catalogue& catalogue, Thread& out,
                   DesignationProblem* problem) {
    if (text.size() > bounds::kDesignationBytes) {
        out = {};
        if (problem != nullptr) {
            *problem = {{StatusCode::not_understood, 0},
                        0,
                        bounds::too_long("thread", text, bounds::kDesignationBytes)};
        }
        return {StatusCode::not_understood, 0};
    }
    try {
        out = DesignationReader(text, catalogue).read();
        return {};
    } catch (const Failure& failure) {
        out = Thread{};
        DesignationProblem found = failure.problem;
        if (std::string foreign = foreign_thread(text); !foreign.empty()) {
            found = {{StatusCode::not_tabulated, 0}, 0, std::move(foreign)};
        }
        if (problem != nullptr) {
            *problem = found;
        }
        return found.status;
    }
}

Thread parse_thread(std::string_view text, const Catalogue& catalogue) {
    Thread out;
    DesignationProblem problem;
    const Status status = read_thread(text, catalogue, out, &problem);
    if (status.ok()) {
        return out;
    }
    const std::string message = fmt::format("cannot read '{}' at position {}: {}", bounds::shown(text),
                                            problem.position + 1, problem.message);
    if (status.code == StatusCode::not_tabulated) {
        throw NotTabulatedError(message);
    }
    throw DesignationError(message, problem.position);
}

}  // namespace halfnut::threads
