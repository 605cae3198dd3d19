#pragma once
/// What suits an alloy in the cuts of every week, and what the figures rest on, as questions.

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "halfnut/core/question.hpp"

namespace halfnut::cutting {

struct SpeedsAsk {
    std::string alloy;
    bool inch = false;
};

/// Speed and feed of one usual cut.
struct UsualSpeed {
    std::string tool;
    std::string cut;
    double window_low_m_min = kNaN;
    double window_high_m_min = kNaN;
    double feed_mm = kNaN;  ///< a revolution, in milling a tooth
};

struct SpeedsAnswer {
    std::string alloy;
    std::string unit = "mm";
    std::vector<UsualSpeed> cuts;
    std::vector<std::string> never_taken;  ///< printed against the order of operations
    std::vector<EvidenceText> evidence;
};

/// Speeds and feeds of an alloy's usual cuts, tool by tool; a cut without an answer is left out.
///
/// Errors
///   NotTabulatedError   no such alloy
///   TableError          the shop's row of the alloy cannot be used
[[nodiscard]] SpeedsAnswer speeds(const SpeedsAsk& asked, const Asking& asking);

struct DataAsk {};

/// How many of something rest on each kind of source.
struct Resting {
    std::string name;
    std::array<int, enum_names(SourceKind{}).size()> of_kind{};  ///< by SourceKind
};

struct DataAnswer {
    std::vector<Resting> tables;
    std::vector<Resting> answers;
    double memory_share = 0.0;
};

/// Cells that name a source by table, and the speeds that are answered by operation, both by kind of source.
///
/// Notes
///   1) Answers are the usual cuts of every alloy with high-speed steel and carbide; one of an alloy that a
///      shop meets weekly counts five times. What is refused is no answer.
[[nodiscard]] DataAnswer data_census(const DataAsk& asked, const Asking& asking);

extern const std::array<Question, 2> kCensusQuestions;

}  // namespace halfnut::cutting
