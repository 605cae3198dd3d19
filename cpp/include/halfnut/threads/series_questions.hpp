#pragma once
/// Standard threads near a size, and what a part found on the bench may be, as a person asks.

#include <optional>
#include <string>
#include <vector>

#include "halfnut/core/question.hpp"
#include "halfnut/threads/questions.hpp"
#include "halfnut/threads/series.hpp"

namespace halfnut::threads {

struct ThreadsNearAsk {
    double diameter_mm = kNaN;
    double within_mm = kNaN;
};

/// Standard threads near a diameter, preferred ones first.
struct ThreadsNearAnswer {
    std::string unit{};
    double diameter_mm = kNaN;
    double within_mm = kNaN;
    std::vector<std::string> threads{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kThreadsNear;

/// Standard threads of every form near a diameter.
///
/// Errors
///   DomainError  a length out of its range
/// Notes
///   1) Metric ones by ISO 261's order of choice, coarse before fine; Unified ones UNC, UNF, UNEF, UN, UNS;
///   then trapezoidal, Acme, parallel pipe and Whitworth threads; taper pipe threads last.
[[nodiscard]] ThreadsNearAnswer threads_near(const ThreadsNearAsk& asked, const Asking& asking);

struct IdentifyAsk {
    double diameter_mm = kNaN;
    PitchAsked pitch{};
    Side side{};
    double engagement_mm = kNaN;
    double flank_angle_deg = kNaN;
    int count = 6;
};

/// How near a part comes to a standard thread.
enum class Identified : std::uint8_t { standard, near, none };
constexpr auto enum_names(Identified /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Identified::standard, string_view("standard")},
                      std::pair{Identified::near, string_view("near")},
                      std::pair{Identified::none, string_view("none")}};
}

/// Standard threads nearest to a measured part, nearest first.
struct IdentifyAnswer {
    Identified verdict{};
    std::string unit{};
    Side side{};
    double diameter_mm = kNaN;
    double pitch_mm = kNaN;
    double engagement_mm = kNaN;
    double flank_angle_deg = kNaN;
    std::optional<std::string> thread{};
    std::string nearest{};
    double outside_mm = kNaN;
    double pitch_difference_mm = kNaN;
    double mismatch_mm = kNaN;
    std::vector<std::string> alike{};
    std::vector<ThreadMatch> matches{};
    std::vector<Told> told{};
    std::vector<EvidenceText> evidence{};
};
extern const Question kIdentifyThread;

/// Standard threads nearest to a part found on the bench, of every form at once.
///
/// Errors
///   DomainError  a measurement out of its range
/// Notes
///   1) Outside the limits of its usual class by no more than 0.05 mm or a twentieth of the pitch a part is
///   near: worn, coated or of another class.
/// Example
///   0.248 in, 20 tpi: 1/4-20 UNC-2A; with flanks of 55 degrees 1/4-20 BSW-medium
[[nodiscard]] IdentifyAnswer identify_thread(const IdentifyAsk& asked, const Asking& asking);

}  // namespace halfnut::threads
