// Threaded joints: who cuts either half, and over what length.

#include <algorithm>
#include <cmath>

#include "halfnut/threads/any_thread.hpp"
#include "walker.hpp"

namespace halfnut::job {

namespace {

constexpr double kSame = 1e-6;  // mm

bool screws_into(const threads::AnyThread& a, const threads::AnyThread& b) {
    return std::abs(threads::diameter_mm(a) - threads::diameter_mm(b)) < kSame &&
           std::abs(threads::pitch_mm(a) - threads::pitch_mm(b)) < kSame &&
           threads::starts(a) == threads::starts(b) && threads::is_left_hand(a) == threads::is_left_hand(b);
}

bool alike(const threads::AnyThread& a, const threads::AnyThread& b) {
    return screws_into(a, b) && threads::tapers(a) == threads::tapers(b);
}

/// The longest thread of a designation that a part has on a side; 0 where it has none.
double cut_length(const Part& part, std::string_view designation, threads::Side side,
                  const Catalogue& catalogue, std::optional<End> end = std::nullopt) {
    threads::AnyThread wanted;
    if (!threads::read_any_thread(designation, catalogue, wanted).ok()) {
        return kNaN;  // said where the joint itself is asked for
    }
    double out = 0.0;
    for (const Step& step : part.steps) {
        const bool cuts = step.what == Do::thread || step.what == Do::tap;
        const threads::Side made = step.what == Do::tap ? threads::Side::internal : step.side;
        threads::AnyThread read;
        if (!cuts || made != side || (end && step.end != *end) ||
            !threads::read_any_thread(step.thread, catalogue, read).ok() || !alike(wanted, read)) {
            continue;
        }
        const double through = part.form == Form::plate ? part.thickness_mm : part.length_mm;
        const double length = step.what == Do::thread ? step.length_mm : step.depth_mm;
        out = std::max(out, std::isnan(length) ? through : length);
    }
    return out;
}

}  // namespace

void check_joints(std::span<const Part> parts, const Catalogue& catalogue, WalkedJob& walked) {
    using threads::Side;
    const auto anyone = [&](std::string_view designation, Side side) {
        double out = 0.0;
        for (const Part& part : parts) {
            const double cut = cut_length(part, designation, side, catalogue);
            out = std::isnan(cut) ? cut : std::max(out, cut);
        }
        return out;
    };
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Part& part = parts[i];
        const auto mistake = [&](std::string_view code, double found, double needed, std::string_view thread,
                                 std::string_view more = {}) {
            walked.parts[i].mistakes.push_back(
                mistake_of(catalogue, part.inch, code, 0, found, needed,
                           {{"thread", std::string(thread)}, {"end", std::string(more)}}));
        };
        for (const Joint& joint : part.joints) {
            if (part.form == Form::tube && std::abs(joint.tube_diameter_mm - part.diameter_mm) > kTouch) {
                mistake("adjuster_size", joint.tube_diameter_mm, part.diameter_mm, {});
            } else if (part.form == Form::tube && std::abs(joint.tube_bore_mm - part.bore_mm) > kTouch) {
                mistake("adjuster_size", joint.tube_bore_mm, part.bore_mm, {});
            }
            if (joint.adjuster) {
                const End end = joint.second_end ? End::second : End::first;
                const double cut = cut_length(part, joint.external, Side::external, catalogue, end);
                if (cut == 0.0) {
                    mistake("adjuster_end", kNaN, joint.thread_length_mm, joint.external, enum_name(end));
                } else if (cut < joint.thread_length_mm - kTouch) {
                    mistake("joint_short", cut, joint.thread_length_mm, joint.external);
                }
                if (anyone(joint.internal, Side::internal) == 0.0) {
                    mistake("joint_partner", kNaN, kNaN, joint.internal);
                }
                continue;
            }
            threads::AnyThread one;
            threads::AnyThread two;
            if (threads::read_any_thread(joint.external, catalogue, one).ok() &&
                threads::read_any_thread(joint.internal, catalogue, two).ok() && !screws_into(one, two)) {
                mistake("joint_unlike", kNaN, kNaN, joint.external, joint.internal);
            }
            const double outer = cut_length(part, joint.external, Side::external, catalogue);
            const double inner = cut_length(part, joint.internal, Side::internal, catalogue);
            if (outer == 0.0 && inner == 0.0) {
                mistake("joint_own", kNaN, kNaN, joint.external, joint.internal);
                continue;
            }
            const double screw = outer > 0.0 ? outer : anyone(joint.external, Side::external);
            const double nut = inner > 0.0 ? inner : anyone(joint.internal, Side::internal);
            if (nut == 0.0) {
                mistake("joint_partner", kNaN, kNaN, joint.internal);
            } else if (nut < joint.engagement_mm - kTouch) {
                mistake("joint_short", nut, joint.engagement_mm, joint.internal);
            }
            if (screw == 0.0 && !joint.bought) {
                mistake("joint_partner", kNaN, kNaN, joint.external);
            } else if (screw > 0.0 && screw < joint.engagement_mm - kTouch) {
                mistake("joint_short", screw, joint.engagement_mm, joint.external);
            }
        }
    }
}

}  // namespace halfnut::job
