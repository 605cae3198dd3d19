#pragma once
/// A thread of any form that is known: ISO metric and Unified, or one of threads/thread_forms.
///
/// What a part's limits are to be used for (a fit, a size over wires, a verdict) takes sizes and a flank
/// angle only; this is where a designation of whatever form becomes them.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "halfnut/core/catalogue.hpp"
#include "halfnut/core/evidence.hpp"
#include "halfnut/threads/coating.hpp"
#include "halfnut/threads/designation.hpp"
#include "halfnut/threads/fit.hpp"
#include "halfnut/threads/forms.hpp"
#include "halfnut/threads/kinds.hpp"
#include "halfnut/threads/limits.hpp"

namespace halfnut::threads {

struct AnyThread : std::variant<Thread, FormThread> {
    using variant::variant;
};

/// Read a designation of any form without throwing.
///
/// Returned
///   ok and `out`; else a status of read_thread() or read_form_thread(), and `why` as the throwing readers
///   say it
[[nodiscard]] Status read_any_thread(std::string_view text, const Catalogue& catalogue, AnyThread& out,
                                     std::string* why = nullptr);

/// Read a designation of any form.
///
/// Errors
///   DesignationError   not understood or contradictory, with the position
///   NotTabulatedError  no such size in the series that is named, or a system without figures here, by its
///   name
[[nodiscard]] AnyThread parse_any_thread(std::string_view text, const Catalogue& catalogue);

/// The one canonical spelling.
[[nodiscard]] std::string format_any_thread(const AnyThread& thread);

[[nodiscard]] bool is_inch(const AnyThread& thread) noexcept;
[[nodiscard]] bool is_left_hand(const AnyThread& thread) noexcept;
[[nodiscard]] int starts(const AnyThread& thread) noexcept;
[[nodiscard]] double diameter_mm(const AnyThread& thread) noexcept;
[[nodiscard]] double pitch_mm(const AnyThread& thread) noexcept;
/// Its diameter changes along it: it has a gauge plane and no limits.
[[nodiscard]] bool tapers(const AnyThread& thread) noexcept;
/// Whether a class is given for a part.
[[nodiscard]] bool has_class(const AnyThread& thread, Side side) noexcept;
/// The class that is given for a part; empty where none is.
[[nodiscard]] std::string class_of(const AnyThread& thread, Side side);
/// Half of the thread angle: between a flank and a plane across the axis, degrees.
[[nodiscard]] double half_angle_deg(const Catalogue& catalogue, const AnyThread& thread);
/// Basic major diameter, mm; of a taper thread in its gauge plane.
[[nodiscard]] double basic_major_mm(const Catalogue& catalogue, const AnyThread& thread);
/// Basic pitch diameter, mm; of a taper thread that over its diameter as designated.
[[nodiscard]] double basic_pitch_mm(const Catalogue& catalogue, const AnyThread& thread);

/// One part of a thread, with its class or the usual one.
struct ThreadPart {
    AnyThread thread;
    Side side{};
    bool class_assumed = false;  ///< the designation gives none
};

/// The part that is meant, without throwing.
///
/// Given
///   thread  a thread; G without a class is the internal part, and so are Rc and Rp
///   side    which part is asked for; none: the one that the designation names a class for, else the external
/// Returned
///   ok and `out`; or inconsistent, with `why`: a class of the other part only
[[nodiscard]] Status one_part(const AnyThread& thread, std::optional<Side> side, ThreadPart& out,
                              std::string* why = nullptr);

/// The part that goes with a part: of the class that the designation gives it; where it gives none, the usual
/// one, and of a Unified thread the class of the same number.
[[nodiscard]] ThreadPart mate(const AnyThread& thread, Side side);

/// How answers call a part: its designation, and the side where that leaves it open.
[[nodiscard]] std::string part_title(const ThreadPart& part);

/// How limits before coating come about.
enum class PrecoatWay : std::uint8_t {
    bare,      ///< no coating: the class's limits
    held,      ///< the class's limits; the allowance holds the coating
    deducted,  ///< the class's limits, moved by the coating
};

constexpr auto enum_names(PrecoatWay /*tag*/) {
    using std::string_view;
    return std::array{std::pair{PrecoatWay::bare, string_view("bare")},
                      std::pair{PrecoatWay::held, string_view("held")},
                      std::pair{PrecoatWay::deducted, string_view("deducted")}};
}

/// What is said of limits that a part is cut to before it is coated.
struct BeforeCoating {
    PrecoatWay way{};
    BuildUp build_up;  ///< still to come
    double allowance_um = kNaN;
    double pitch_change_um = kNaN;       ///< at the greatest build-up; magnitude
    double greatest_build_up_um = kNaN;  ///< that the allowance holds; 0 where there is none
    double go_after_pitch_mm = kNaN;     ///< go gauge of the coated part
    double go_after_crest_mm =
        kNaN;  ///< largest major diameter (smallest minor of an internal thread) coated
    double not_go_after_pitch_mm = kNaN;  ///< not-go gauge of the coated part
    double not_go_after_crest_mm = kNaN;  ///< the other limit of its crest
    /// A remedy: the nearest position or class whose allowance holds the coating; empty where there is none.
    std::string position;
    Evidence<10> evidence;
};

/// Limits of one part of a thread of any form, or of a part by its sizes alone.
struct PartLimits {
    std::optional<ThreadPart> part;  ///< none: sizes without a designation
    std::string name;                ///< how answers call such sizes
    Side side{};
    bool inch = false;
    FitPart sizes;                     ///< bare
    LimitOptions options{};            ///< that they were asked with
    double allowance_mm = kNaN;        ///< of the pitch diameter
    double pitch_tolerance_mm = kNaN;  ///< before any rounding of the limits
    std::array<double, 6> mm{};        ///< major_max ... minor_min; NaN: none set
    std::array<double, 6> in{};
    std::variant<std::monostate, ThreadLimits, FormLimits>
        standard;                          ///< as it sets them; none of other sizes
    std::optional<BeforeCoating> coating;  ///< limits to cut to before it

    /// Of a form beside ISO metric and Unified, or of sizes alone.
    [[nodiscard]] bool by_form() const noexcept {
        return !part || std::holds_alternative<FormThread>(part->thread);
    }
    /// Limits that a coating is still to come on: the part does not gauge as it is cut.
    [[nodiscard]] bool before_coating() const noexcept { return coating && coating->way != PrecoatWay::bare; }
    [[nodiscard]] std::string title() const { return part ? part_title(*part) : name; }
    /// The nominal diameter; of sizes alone their largest.
    [[nodiscard]] double diameter_mm() const noexcept;
    /// Sizes in place of those that the standard sets, such as those before coating.
    void set_sizes(const FitPart& moved);
};

/// Limits of one part, without throwing. A status and its words as from evaluate() of its form.
[[nodiscard]] Status evaluate(const Catalogue& catalogue, const ThreadPart& part, const LimitOptions& options,
                              PartLimits& out, std::string* why = nullptr);

/// Limits of one part.
///
/// Errors
///   DomainError        a length of engagement out of its range, a size that no thread can have
///   NotTabulatedError  a class, position or form without figures, a taper thread
[[nodiscard]] PartLimits limits(const Catalogue& catalogue, const ThreadPart& part,
                                const LimitOptions& options = {});

/// Limits of a part by its sizes alone, of any straight-sided form.
[[nodiscard]] PartLimits sized_limits(const FitPart& sizes, Side side, bool inch, std::string name);

/// Sizes of a taper pipe thread. NotTabulatedError: it does not taper.
[[nodiscard]] TaperPipe taper_pipe(const Catalogue& catalogue, const AnyThread& thread);

/// A taper thread in its gauge plane: its pitch diameter moves with the gauge, and has the gauge's tolerance.
[[nodiscard]] PartLimits gauge_plane_limits(const Catalogue& catalogue, const AnyThread& thread);

/// The limits of a thread that its standard has rounded, as those of a part.
void take_limits(const Thread& thread, const ThreadLimits& limits, PartLimits& out);

/// The basic pitch diameter; of sizes alone that of the greatest part.
[[nodiscard]] double basic_pitch_mm(const Catalogue& catalogue, const PartLimits& limits);

/// What a person should know about limits, by its code.
[[nodiscard]] std::vector<std::string_view> limit_cautions(const Catalogue& catalogue,
                                                           const PartLimits& limits);

}  // namespace halfnut::threads
