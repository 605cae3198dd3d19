// How a face reads a lot: its times, its stock and bars, another order, and what may be done.

#include <array>

#include "halfnut/job/job_file.hpp"
#include "halfnut/job/lot.hpp"

namespace halfnut::job {

namespace {

constexpr std::array kSpan{
    HALFNUT_FIGURE(Span, least_s, "Least."),
    HALFNUT_FIGURE(Span, most_s, "Most."),
};
constexpr RecordRow kSpanRecord{"Span", "A time from least to most.", kSpan};

constexpr std::array kLotFigures{
    HALFNUT_RECORD(Lot, first, kSpanRecord, "Set-up and first piece."),
    HALFNUT_RECORD(Lot, further, kSpanRecord, "Each piece after it."),
    HALFNUT_RECORD(Lot, whole, kSpanRecord, "All pieces, the first with its set-up."),
    HALFNUT_FIGURE(Lot, spares, "Pieces more to saw than are wanted."),
    HALFNUT_FIGURE(Lot, measured, "Which pieces are measured wholly."),
};

#define ASKED(member, about) HALFNUT_FIGURE(CutList, asked.member, about)
#define CUT(member, about) HALFNUT_FIGURE(CutList, cut.member, about)
constexpr std::array kCutFigures{
    CUT(blank_mm, "Length of a blank."),
    CUT(blanks, "How many."),
    ASKED(pieces, "Pieces of a blank.").called("pieces_a_blank"),
    ASKED(kerf_mm, "Width of a cut."),
    ASKED(facing_mm, "Left on at each end."),
    ASKED(stub_mm, "What stays in the chuck.").called("grip_mm"),
    CUT(total_mm, "Stock that the lot takes, saw cuts included."),
    CUT(blanks_a_bar, "Blanks of a bar."),
    CUT(bars, "Bars."),
    CUT(left_mm, "What the last bar leaves."),
};
#undef ASKED
#undef CUT

constexpr std::array kOrderFigures{
    HALFNUT_FIGURE(Order, numbers, "Numbers of the operations."),
    HALFNUT_FIGURE(Order, saves_s, "Time that it saves of a piece."),
    HALFNUT_FIGURE(Order, saves_stops, "Stops that it saves."),
};

constexpr std::array kBlank{
    HALFNUT_FIGURE(Blank, name, "Part that it is for."),
    HALFNUT_FIGURE(Blank, length_mm, "Its length."),
};
constexpr RecordRow kBlankRecord{"Blank", "What is sawn.", kBlank};
constexpr std::array kBar{
    HALFNUT_RECORDS(Bar, blanks, kBlankRecord, "In this order."),
    HALFNUT_FIGURE(Bar, left_mm, "What it leaves."),
};
constexpr RecordRow kBarRecord{"Bar", "A bar.", kBar};
constexpr std::array kSawnFigures{
    HALFNUT_FIGURE(Sawn, stock, "Alloy and section."),
    HALFNUT_RECORDS(Sawn, bars, kBarRecord, "Its bars."),
};

std::string titled(const Kind& kind) {
    return std::string(kind.title.empty() ? enum_name(kind.what) : kind.title);
}
constexpr std::array kKindFigures{
    HALFNUT_FIGURE(Kind, what, "What is done.").called("do"),
    HALFNUT_FIGURE(Kind, question, "The question that it asks."),
    HALFNUT_FIGURE(Kind, on, "Machines that it is done on."),
    HALFNUT_FIGURE(Kind, tool, "What to lay out for it."),
    made_figure<&titled>("title", "How it is headed."),
    HALFNUT_FIGURE(Kind, size, "What it comes to."),
};

}  // namespace

const RecordRow kLot{"Lot", "A lot.", kLotFigures};
const RecordRow kCutList{"CutList", "How stock is cut up.", kCutFigures};
const RecordRow kOrder{"Order", "Another order of a part's operations.", kOrderFigures};
const RecordRow kSawn{"Sawn", "Bars of one stock, and what is sawn from each.", kSawnFigures};
const RecordRow kKind{"Kind", "A kind of operation.", kKindFigures};

}  // namespace halfnut::job
