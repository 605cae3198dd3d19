// Fuzz target: cuts and passes asked for in numbers. Bytes become a request: sizes from a millionth of a
// millimetre to far beyond the bounds, and now and then 0, a negative number, an infinite one or none. What
// must hold: no crash, no exception but Halfnut's own, nothing infinite in an answer, evidence that fits.

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <limits>

#include "halfnut/core/builtin.hpp"
#include "halfnut/cutting/choose.hpp"
#include "halfnut/cutting/hole_making.hpp"
#include "halfnut/cutting/kinds.hpp"
#include "halfnut/cutting/milling.hpp"
#include "halfnut/cutting/turning.hpp"
#include "halfnut/material/tables.hpp"

namespace {

using namespace halfnut;
using namespace halfnut::cutting;

void must(bool holds) {
    if (!holds) {
        std::abort();
    }
}

/// Takes one choice after another from the bytes; 0 when they are used up.
class Bytes {
   public:
    Bytes(const std::uint8_t* data, std::size_t size) : data_(data), size_(size) {}

    std::uint8_t byte() { return at_ < size_ ? data_[at_++] : 0; }
    std::size_t below(std::size_t count) { return byte() % count; }
    /// A number: usual ones between bytes 32 and 223, a tenth of a decade apart about the `usual` one.
    double number(double usual) {
        constexpr double kInfinity = std::numeric_limits<double>::infinity();
        constexpr std::array kOdd{kNaN, kNaN, 0.0, -1.0, kInfinity, -kInfinity, 1e-320, 1e-7,
                                  1e-6, 1e5,  1e6, 1e11, 1e18,      1e300,      1e308,  3e9};
        const std::uint8_t chosen = byte();
        if (chosen < 16) {
            return kOdd[chosen];
        }
        return chosen < 96 ? kNaN : usual * std::pow(10.0, (chosen - 160) / 24.0);
    }

   private:
    const std::uint8_t* data_;
    std::size_t size_;
    std::size_t at_ = 0;
};

/// Fill a request's numbers, each about what is usual for its unit.
template <class Request, std::size_t N>
void fill(Bytes& bytes, Request& request, const std::array<RequestArgument<Request>, N>& arguments) {
    for (const RequestArgument<Request>& each : arguments) {
        const Argument& argument = each.argument;
        const double usual = std::isfinite(argument.high) ? 0.5 * (argument.low + argument.high)
                             : argument.unit == "mm"      ? 10.0
                             : argument.unit == "mm/rev"  ? 0.1
                             : argument.unit == "N"       ? 1000.0
                                                          : 50.0;
        request.*(each.member) = bytes.number(usual);
    }
    request.work.alloy = static_cast<std::uint16_t>(bytes.byte() % builtin().alloys.size());
    request.work.hardness_hb = bytes.number(150.0);
    request.tool_material = static_cast<ToolMaterial>(bytes.below(enum_names(ToolMaterial{}).size()));
}

machine::Machine machine_of(Bytes& bytes, machine::Kind kind) {
    machine::Machine out;
    out.kind = kind;
    out.name = "fuzzed";
    out.motor_kw = 1.1;
    for (const double rpm : {70.0, 280.0, 1200.0}) {
        machine::SpindleStep step;
        step.rpm = rpm;
        out.spindle.push_back(step);
    }
    const std::uint8_t shape = bytes.byte();
    if ((shape & 1U) != 0) {  // power feeds
        machine::FeedLadder& ladder = kind == machine::Kind::mill ? out.table : out.carriage;
        ladder.kind =
            kind == machine::Kind::mill ? machine::FeedKind::per_minute : machine::FeedKind::per_rev;
        for (const double feed : {0.05, 0.2}) {
            machine::FeedStep step;
            step.feed_mm = kind == machine::Kind::mill ? feed * 500.0 : feed;
            ladder.steps.push_back(step);
        }
        ladder.cross_ratio = (shape & 2U) != 0 ? 0.5 : kNaN;
    }
    if ((shape & 4U) != 0) {  // dials
        for (const char* name : {"cross", "compound", "carriage", "x", "z", "quill"}) {
            machine::Slide slide;
            slide.name = name;
            slide.travel_per_turn_mm = 3.0;
            slide.graduation_mm = 0.05;
            slide.reads_diameter = (shape & 8U) != 0;
            out.slides.push_back(slide);
        }
    }
    if ((shape & 16U) != 0) {
        machine::Chuck chuck;
        chuck.jaws = 3;
        chuck.diameter_mm = 160.0;
        out.chucks.push_back(chuck);
    }
    return out;
}

template <class Request>
void cut_once(const machine::Machine& machine, const Request& request) {
    CutResult out;
    const Status status = evaluate(builtin(), machine, request, out);
    for (const CutFigure& figure : kCutFigures) {
        must(!std::isinf(out.*(figure.member)));
    }
    must(out.passes >= 0 && out.passes <= bounds::kPasses + 1);
    if (status.ok()) {
        (void)out.evidence.items();
        return;
    }
    try {
        (void)cut(builtin(), machine, request);
        must(false);
    } catch (const Error& error) {
        must(*error.what() != '\0');
    }
}

void turn_once(Bytes& bytes) {
    TurnRequest request;
    request.cut = static_cast<LatheCut>(bytes.below(enum_names(LatheCut{}).size()));
    request.hold = static_cast<Hold>(bytes.below(enum_names(Hold{}).size()));
    request.finish = bytes.below(2) == 1;
    const machine::Machine machine = machine_of(bytes, machine::Kind::lathe);
    request.chuck = static_cast<int>(bytes.below(4)) - 1;
    fill(bytes, request, kTurnArguments);
    cut_once(bytes.below(2) == 0 ? any_machine() : machine, request);
}

void hole_once(Bytes& bytes) {
    HoleRequest request;
    request.cut = static_cast<HoleCut>(bytes.below(enum_names(HoleCut{}).size()));
    const machine::Machine machine = machine_of(bytes, machine::Kind::lathe);
    request.chuck = static_cast<int>(bytes.below(4)) - 1;
    fill(bytes, request, kHoleArguments);
    cut_once(bytes.below(2) == 0 ? any_machine() : machine, request);
}

void mill_once(Bytes& bytes) {
    MillRequest request;
    request.shape = static_cast<MillShape>(bytes.below(enum_names(MillShape{}).size()));
    const machine::Machine machine = machine_of(bytes, machine::Kind::mill);
    fill(bytes, request, kMillArguments);
    cut_once(bytes.below(2) == 0 ? any_machine() : machine, request);
}

void choose_once(Bytes& bytes) {
    ChooseRequest request;
    request.cut = static_cast<ChooseCut>(bytes.below(enum_names(ChooseCut{}).size()));
    request.hold = static_cast<Hold>(bytes.below(enum_names(Hold{}).size()));
    const auto way = bytes.below(3);
    request.single = way == 1;
    request.free = way == 2;
    const machine::Machine machine =
        machine_of(bytes, is_milling(request.cut) ? machine::Kind::mill : machine::Kind::lathe);
    request.chuck = static_cast<int>(bytes.below(4)) - 1;
    request.now_spindle = static_cast<int>(bytes.below(6)) - 1;
    request.now_feed = static_cast<int>(bytes.below(6)) - 1;
    const bool explain = bytes.below(16) == 15;
    fill(bytes, request, kChooseArguments);
    try {
        const Passes found = choose(builtin(), machine, request, explain);
        must(found.passes.size() <= static_cast<std::size_t>(kMostLines) + 2);
        for (const ChosenPass& pass : found.passes) {
            must(std::isfinite(pass.depth_mm) && pass.depth_mm > 0.0);
            must(std::isfinite(pass.cut_s) && std::isfinite(pass.return_s) && std::isfinite(pass.dial_s));
        }
        must(found.passes.empty() || (std::isfinite(found.time_s) && found.time_s > 0.0));
    } catch (const Error& error) {
        must(*error.what() != '\0');
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Bytes bytes(data, size);
    switch (bytes.below(8)) {
        case 0:
        case 1:
            turn_once(bytes);
            break;
        case 2:
            hole_once(bytes);
            break;
        case 3:
            mill_once(bytes);
            break;
        default:
            choose_once(bytes);
    }
    return 0;
}
