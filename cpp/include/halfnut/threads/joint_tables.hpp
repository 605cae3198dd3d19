#pragma once
/// Rows of the tables for threaded joints: bolts, friction, galling, engagement by practice.

#include <array>
#include <cstdint>

#include "halfnut/schema.hpp"

namespace halfnut::threads {

/// A grade or property class of bolts over a range of sizes; printed in one of the two units, the other NaN.
struct BoltGradeRow {
    std::string_view grade;
    int step = 0;
    double over_mm = 0;
    double up_to_mm = 0;
    double over_in = 0;
    double up_to_in = 0;
    double proof_mpa = 0;
    double tensile_mpa = 0;
    double yield_mpa = 0;
    double proof_ksi = 0;
    double tensile_ksi = 0;
    double yield_ksi = 0;
    SourceId source;
    std::string_view note;
};

/// Nut factor K.
struct NutFactorRow {
    std::string_view condition;
    double nut_factor = 0;
    SourceId source;
    std::string_view note;
};

/// Friction of a metal, keyed to a group of alloys, with a lubricant.
struct ThreadFrictionRow {
    std::string_view group;
    std::string_view lubricant;
    double friction_low = 0;
    double friction_high = 0;
    SourceId source;
    std::string_view note;
};

enum class Galling : std::uint8_t { unknown, low, moderate, high, severe };

constexpr auto enum_names(Galling /*tag*/) {
    using std::string_view;
    return std::array{
        std::pair{Galling::unknown, string_view("unknown")}, std::pair{Galling::low, string_view("low")},
        std::pair{Galling::moderate, string_view("moderate")}, std::pair{Galling::high, string_view("high")},
        std::pair{Galling::severe, string_view("severe")}};
}

/// How a pair of metals goes together in a thread.
struct GallingRow {
    std::string_view group;
    std::string_view other_group;
    Galling severity{};
    std::string_view advice;  ///< words, separated by spaces
    SourceId source;
    std::string_view note;
};

enum class Loading : std::uint8_t { shock, steady };

constexpr auto enum_names(Loading /*tag*/) {
    using std::string_view;
    return std::array{std::pair{Loading::shock, string_view("shock")},
                      std::pair{Loading::steady, string_view("steady")}};
}

/// Length of engagement by practice, in the metal of the internal thread.
struct EngagementPracticeRow {
    std::string_view group;
    Loading loading{};
    double diameters = 0;
    double extra_in = 0;  ///< NaN: none
    SourceId source;
    std::string_view note;
};

}  // namespace halfnut::threads

namespace halfnut {

template <>
struct Schema<threads::BoltGradeRow> {
    using Row = threads::BoltGradeRow;
    static constexpr std::string_view table = "threads/bolt_grades";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("grade", &Row::grade),
                                               required("step", &Row::step),
                                               optional("over_mm", &Row::over_mm),
                                               optional("up_to_mm", &Row::up_to_mm),
                                               optional("over_in", &Row::over_in),
                                               optional("up_to_in", &Row::up_to_in),
                                               optional("proof_mpa", &Row::proof_mpa),
                                               optional("tensile_mpa", &Row::tensile_mpa),
                                               optional("yield_mpa", &Row::yield_mpa),
                                               optional("proof_ksi", &Row::proof_ksi),
                                               optional("tensile_ksi", &Row::tensile_ksi),
                                               optional("yield_ksi", &Row::yield_ksi),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::NutFactorRow> {
    using Row = threads::NutFactorRow;
    static constexpr std::string_view table = "threads/nut_factors";
    static constexpr std::size_t key_columns = 1;
    static constexpr auto columns =
        std::tuple{required("condition", &Row::condition), required("nut_factor", &Row::nut_factor),
                   required("source", &Row::source), optional("note", &Row::note)};
};

template <>
struct Schema<threads::ThreadFrictionRow> {
    using Row = threads::ThreadFrictionRow;
    static constexpr std::string_view table = "threads/thread_friction";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns = std::tuple{required("group", &Row::group),
                                               required("lubricant", &Row::lubricant),
                                               required("friction_low", &Row::friction_low),
                                               required("friction_high", &Row::friction_high),
                                               required("source", &Row::source),
                                               optional("note", &Row::note)};
};

template <>
struct Schema<threads::GallingRow> {
    using Row = threads::GallingRow;
    static constexpr std::string_view table = "threads/galling";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::tuple{required("group", &Row::group),       required("other_group", &Row::other_group),
                   required("severity", &Row::severity), optional("advice", &Row::advice),
                   required("source", &Row::source),     optional("note", &Row::note)};
};

template <>
struct Schema<threads::EngagementPracticeRow> {
    using Row = threads::EngagementPracticeRow;
    static constexpr std::string_view table = "threads/engagement_practice";
    static constexpr std::size_t key_columns = 2;
    static constexpr auto columns =
        std::tuple{required("group", &Row::group),         required("loading", &Row::loading),
                   required("diameters", &Row::diameters), optional("extra_in", &Row::extra_in),
                   required("source", &Row::source),       optional("note", &Row::note)};
};

}  // namespace halfnut
