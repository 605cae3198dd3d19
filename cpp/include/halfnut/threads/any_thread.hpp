#pragma once
/// A thread of any form that is known: ISO metric and Unified, or one of threads/thread_forms.
///
/// What a part's limits are to be used for (a fit, a size over wires, a verdict) takes sizes and a flank
/// angle only; this is where a designation of whatever form becomes them.

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "halfnut/catalogue.hpp"
#include "halfnut/threads/designation.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/forms.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

using AnyThread = std::variant<Thread, FormThread>;

/// Read a designation of any form without throwing.
///
/// Returned
///   ok and `out`; else a status of read_thread() or read_form_thread(), and `why` as the throwing readers
///   say it
[[nodiscard]] Status read_any_thread(std::string_view text, const Catalogue& catalogue, AnyThread& out,
                                     std::string* why = nullptr);

/// The one canonical spelling.
[[nodiscard]] std::string format_any_thread(const AnyThread& thread);

[[nodiscard]] double pitch_mm(const AnyThread& thread) noexcept;
/// Half of the thread angle: between a flank and a plane across the axis, degrees.
[[nodiscard]] double half_angle_deg(const Catalogue& catalogue, const AnyThread& thread);
/// Basic major diameter, mm; of a taper thread in its gauge plane.
[[nodiscard]] double basic_major_mm(const Catalogue& catalogue, const AnyThread& thread);

/// How a part is chosen that the asker did not name.
enum class PartChoice : std::uint8_t {
    named,  ///< the one that the designation names a class for: exactly one
    usual,  ///< that one, else the external one
};

/// One part of a thread, with its class or the usual one.
struct ThreadPart {
    AnyThread thread;
    Side side{};
};

/// The part that is meant, without throwing.
///
/// Given
///   thread  a thread; G without a class is the internal part, and so are Rc and Rp
///   side    which part is asked for; none: as `choice` says
/// Returned
///   ok and `out`; or inconsistent, with `why`: a class of the other part only, or (named) no class or two
[[nodiscard]] Status one_part(const AnyThread& thread, std::optional<Side> side, PartChoice choice,
                              ThreadPart& out, std::string* why = nullptr);

/// How answers call a part: its designation, and the side where that leaves it open.
[[nodiscard]] std::string part_title(const ThreadPart& part);

/// Limits of one part as sizes.
struct PartLimits {
    FitPart sizes;  ///< bare
    bool inch = false;
    double allowance_mm = kNaN;  ///< of the pitch diameter
    std::array<double, 6> mm{};  ///< major_max ... minor_min; NaN: none set
    std::array<double, 6> in{};
};

/// Limits of one part as sizes, without throwing. A status and its words as from evaluate() of its form.
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const ThreadPart& part, const LimitOptions& options,
                              PartLimits& out, std::string* why = nullptr);

/// The limits of a part of a form as sizes.
[[nodiscard]] FitPart fit_part(const Catalogue& catalogue, const FormThread& thread,
                               const FormLimits& limits);

}  // namespace halfnut::threads
