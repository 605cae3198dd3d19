#pragma once
// Milling, as choose() asks about it.

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "choose_job.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/kinematics.hpp"
#include "mill.hpp"

namespace halfnut::cutting {

inline MillShape mill_shape(ChooseCut cut) noexcept {
    switch (cut) {
        case ChooseCut::mill_slot:
            return MillShape::slot;
        case ChooseCut::mill_side:
            return MillShape::side;
        case ChooseCut::mill_pocket:
            return MillShape::pocket;
        default:
            return MillShape::face;
    }
}

/// Least depth of the last pass after others, mm.
inline constexpr double kMilledLowMm = 0.2;

/// Passes side by side at each depth that are tried: from the fewest that the step over allows.
inline std::vector<int> across_tried(const ChooseRequest& request) {
    const double d = request.diameter_mm;
    const MillShape shape = mill_shape(request.cut);
    const double over = value_or(request.step_over_mm, milling::usual_over(shape, d));
    const double width = value_or(request.width_mm, d);
    const auto steps = [&](double whole) {
        constexpr int kMostSide = 1000;
        return bounds::whole<int>(std::ceil(whole / over - milling::kSameStep), 1, kMostSide);
    };
    if (shape == MillShape::slot || shape == MillShape::pocket) {
        const double rest = width - d;
        return {rest > milling::kSameStep * d ? 1 + steps(rest) : 1};
    }
    std::vector<int> out;
    for (int n = steps(width); n <= kMostAcross * steps(width); ++n) {
        out.push_back(n);
    }
    return out;
}

/// Milling, with so many passes side by side at each depth.
class MillJob : public Job {
   public:
    MillJob(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request,
            const KinRows& kin, int across)
        : Job(catalogue, machine, request, kin, machine.table.steps.empty() ? nullptr : &machine.table, 1.0,
              "x", request.off_mm),
          windows_(catalogue,
                   {&alloy_,
                    request.work.hardness_hb,
                    {},
                    request.tool_material,
                    kNaN,
                    kNaN,
                    request.diameter_mm,
                    &kin},
                   {operation(request.cut), operation(request.cut)}, {kNaN, kNaN}) {
        base_.shape = mill_shape(request.cut);
        base_.work = request.work;
        base_.tool_material = request.tool_material;
        base_.cutter_diameter_mm = request.diameter_mm;
        base_.teeth = value_or(request.teeth, usual_teeth(request.diameter_mm));
        base_.length_mm = request.length_mm;
        base_.width_mm = request.width_mm;
        base_.entering_deg = request.entering_deg;
        base_.stick_out_mm = request.stick_out_mm;
        base_.wear_factor = request.wear_factor;
        aim_ = finish_aim(catalogue, alloy_, request.tool_material);
        high_ = value_or(force_band(catalogue, alloy_, Process::mill, constants_.rough).high, 1.0) *
                milling::ordinary_wear(base_);
        base_.nose_radius_mm = request.nose_radius_mm;
        base_.approach_mm = request.approach_mm;
        base_.overrun_mm = request.overrun_mm;
        deepest_ = value_or(request.deepest_mm, milling::usual_down(base_.shape, request.diameter_mm));
        most_bend_ = value_or(request.deflection_mm, kMostBendMm);
        finish_bend_ = std::isnan(request.tolerance_mm)
                           ? most_bend_
                           : std::min(most_bend_, value_or(request.tolerance_share, kToleranceShare) *
                                                      request.tolerance_mm);
        bend_ = milling::bend_mm(base_, 1.0);
        if (!request.free) {
            closing_ = closed();
        }
        each_depth([&](std::size_t group, bool used, double depth) {
            depths_[group].push_back(depth);
            classes_[group].push_back(used ? windows_.depth_class(depth) : 0);
        });
        divide(across);
        windows_.settle();
    }

    /// Ask for so many passes side by side: depths and feeds a tooth, and so their windows, stay.
    void divide(int across) {
        across_ = across;
        const bool enclosed = base_.shape == MillShape::slot || base_.shape == MillShape::pocket;
        const double d = request_.diameter_mm;
        base_.step_over_mm = enclosed ? request_.step_over_mm : request_.width_mm / across;
        bite_mm_ = enclosed ? d : std::min(d, base_.step_over_mm);
        travel_ = milling::pass_travel(base_, enclosed ? d : base_.step_over_mm);
        cuts_.clear();
        for (const Speed& speed : levers_.speeds) {
            for (const Feed& feed : levers_.feeds) {
                fill_lever(speed, feed);
            }
        }
    }

    [[nodiscard]] int cap() const noexcept {
        const double most = deepest_ * relaxed(LimitCode::edge_depth) * (1.0 + kSame);
        return most >= depths_[0].back()
                   ? steps()
                   : bounds::whole<int>(std::floor(most / counted_.step_mm + 1e-6), 0, steps());
    }
    [[nodiscard]] double pass_s(std::size_t /*s*/, std::size_t i) const noexcept {
        return FeedTime::compute(travel_, levers_.feeds[i].per_min);
    }
    [[nodiscard]] double return_s() const noexcept { return wind_s(travel_); }
    [[nodiscard]] int side_by_side() const noexcept { return across_; }

    template <Which kWhich>
    [[nodiscard]] bool holds(const Bite& bite, std::size_t s, std::size_t i) const {
        return visit<kWhich>(bite, s, i,
                             [&](LimitCode code, double /*value*/, double /*limit*/, double used, bool hard) {
                                 return allows(code, used, hard);
                             });
    }
    [[nodiscard]] bool may_hold(bool /*finish*/, int /*from*/, std::size_t s, std::size_t i) const {
        const PerDepth& one = cuts_[s * levers_.feeds.size() + i];
        return allows(LimitCode::feed_guide, one.per_tooth / guide_of(windows_.coarsest(false, kNaN)),
                      false) &&
               allows(LimitCode::speed_window, one.speed / windows_.fastest(false, one.feed_class), false);
    }
    [[nodiscard]] static bool may_bend_little(int /*from*/, int /*most*/, std::size_t /*s*/,
                                              std::size_t /*i*/) noexcept {
        return true;
    }
    [[nodiscard]] std::vector<Limit> limits(const Bite& bite, std::size_t s, std::size_t i) const {
        std::vector<Limit> out;
        (void)visit<Which::all>(
            bite, s, i, [&](LimitCode code, double value, double limit, double /*used*/, bool /*hard*/) {
                out.push_back({code, value, limit});
                return true;
            });
        return out;
    }
    [[nodiscard]] double depth_of(const Bite& bite) const noexcept {
        return depths_[group(bite)][place(bite)];
    }
    [[nodiscard]] CutResult as_cut(const Bite& bite, std::size_t s, std::size_t i) const {
        MillRequest request = base_;
        request.depth_mm = depth_of(bite);
        request.step_down_mm = request.depth_mm;
        request.feed_per_tooth_mm = cuts_[s * levers_.feeds.size() + i].per_tooth;
        request.spindle_rpm = levers_.speeds[s].rpm;
        request.deflection_limit_mm = bite.finish() ? finish_bend_ : most_bend_;
        request.roughness_limit_um = bite.finish() ? request_.roughness_um : kNaN;
        return cut(catalogue_, machine_, request);
    }
    void sizes(const Bite& bite, ChosenPass& out) const noexcept {
        out.before_mm = bite.from * counted_.step_mm +
                        (bite.kind == PassKind::rest ? depth_at(PassKind::half, bite.from) : 0.0);
        out.after_mm = bite.last() ? request_.off_mm : out.before_mm + depth_of(bite);
    }

   private:
    /// What a lever comes to, for one mm of depth.
    struct PerDepth {
        double per_tooth = kNaN;
        double chip_max = kNaN;
        double speed = kNaN;
        double force = kNaN;
        double power = kNaN;
        double finish_um = kNaN;
        std::size_t feed_class = 0;
    };

    /// The dial down sets no side, and how deep the last pass goes down is free.
    [[nodiscard]] Closing closed() const noexcept {
        const bool limits = !std::isnan(request_.tolerance_mm);
        ClosingRequest asked;
        asked.size_mm = request_.width_mm;
        asked.band_mm = request_.tolerance_mm;
        asked.line_mm = 0.0;
        Closing out = cutting::closing(catalogue_, asked);
        out.way = limits ? ClosingWay::one_measured : ClosingWay::one_unmeasured;
        out.low_mm = kMilledLowMm;
        out.high_mm = kInfinite;
        out.aim_mm = kNaN;
        out.third = false;
        return out;
    }
    static Operation operation(ChooseCut cut) noexcept {
        return cut == ChooseCut::mill_face ? Operation::face_mill : Operation::end_mill;
    }
    void fill_lever(const Speed& speed, const Feed& feed) {
        PerDepth out;
        const double d = base_.cutter_diameter_mm;
        const double entering = value_or(base_.entering_deg, 90.0);
        out.per_tooth = feed.per_min / speed.rpm / base_.teeth;
        out.chip_max = MillingChipMax::compute(out.per_tooth, bite_mm_, d, entering);
        out.speed = CuttingSpeed::compute(speed.rpm, d);
        const double kc =
            SpecificCuttingForce::compute(constants_.kc11_n_mm2, constants_.mc,
                                          MillingChipMean::compute(out.per_tooth, bite_mm_, d, entering)) *
            milling::kForm * value_or(base_.wear_factor, 1.0) * speed_correction(constants_, out.speed);
        out.power = MillingRemoval::compute(1.0, bite_mm_, feed.per_min) * kc / 60000.0;
        out.force = out.power * 60000.0 / out.speed;
        out.finish_um = milling::finish_um(base_, feed.per_min / speed.rpm);
        out.feed_class = windows_.feed_class(out.per_tooth);
        cuts_.push_back(out);
    }

    /// Highest feed a tooth, from that of the tables.
    [[nodiscard]] double guide_of(double tabulated) const noexcept {
        return value_or(tabulated, milling::usual_feed(base_.cutter_diameter_mm));
    }

    template <Which kWhich, class Like>
    bool visit(const Bite& bite, std::size_t s, std::size_t i, Like like) const {
        if constexpr (kWhich == Which::fixed) {
            return true;
        }
        const PerDepth& one = cuts_[s * levers_.feeds.size() + i];
        const double depth = depth_of(bite);
        const auto below = [&](LimitCode code, double value, double limit, bool hard) {
            return like(code, value, limit, value / limit, hard);
        };
        if constexpr (kWhich == Which::all) {
            if (!below(LimitCode::edge_depth, depth, deepest_, false)) {
                return false;
            }
            const std::size_t depth_class = classes_[group(bite)][place(bite)];
            if (bite.finish() && !std::isnan(one.finish_um) && !std::isnan(request_.roughness_um) &&
                !below(LimitCode::roughness, one.finish_um, request_.roughness_um / aim_, false)) {
                return false;
            }
            if (!below(LimitCode::feed_guide, one.per_tooth, guide_of(windows_.feed(false, depth_class)),
                       false)) {
                return false;
            }
            if (!below(LimitCode::speed_window, one.speed, windows_.speed(false, depth_class, one.feed_class),
                       false)) {
                return false;
            }
            if (!like(LimitCode::chip_thickness, one.chip_max, milling::kRubbingChipMm,
                      milling::kRubbingChipMm / one.chip_max, true)) {
                return false;
            }
        }
        if (std::isnan(one.force)) {
            return true;
        }
        const double f = one.force * depth;
        if (!std::isnan(levers_.speeds[s].available_kw) &&
            !below(LimitCode::power, one.power * depth * high_, levers_.speeds[s].available_kw, true)) {
            return false;
        }
        if (!std::isnan(machine_.torque_limit_nm) &&
            !below(LimitCode::torque, SpindleTorque::compute(f, base_.cutter_diameter_mm) * high_,
                   machine_.torque_limit_nm, true)) {
            return false;
        }
        if (!std::isnan(request_.force_n) && !below(LimitCode::force, f * high_, request_.force_n, true)) {
            return false;
        }
        return std::isnan(bend_) || below(LimitCode::deflection, f * bend_ * high_,
                                          bite.finish() ? finish_bend_ : most_bend_, true);
    }

    int across_ = 1;
    Windows windows_;
    MillRequest base_;
    double bite_mm_ = kNaN;
    double aim_ = 1.0;  ///< roughness asked for over that of the geometry aimed at
    double travel_ = kNaN;
    double deepest_ = kNaN;
    double most_bend_ = kNaN;
    double finish_bend_ = kNaN;
    double bend_ = kNaN;
    std::array<std::vector<double>, kGroups> depths_;
    std::array<std::vector<std::size_t>, kGroups> classes_;
    std::vector<PerDepth> cuts_;
};

}  // namespace halfnut::cutting
