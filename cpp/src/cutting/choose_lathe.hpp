#pragma once
// Turning, facing and boring, as choose() asks about them.

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "choose_job.hpp"
#include "halfnut/cutting/chip.hpp"
#include "halfnut/cutting/deflection.hpp"
#include "halfnut/cutting/edge_life.hpp"
#include "halfnut/cutting/finish.hpp"
#include "halfnut/cutting/force.hpp"
#include "halfnut/cutting/kinematics.hpp"
#include "halfnut/cutting/rigidity.hpp"
#include "halfnut/cutting/tool_life.hpp"
#include "lathe.hpp"

namespace halfnut::cutting {

inline TurnRequest turn_request(const ChooseRequest& request) {
    TurnRequest out;
    out.cut = request.cut == ChooseCut::turn   ? LatheCut::turn
              : request.cut == ChooseCut::face ? LatheCut::face
                                               : LatheCut::bore;
    out.work = request.work;
    out.tool_material = request.tool_material;
    out.diameter_mm = request.diameter_mm;
    out.end_diameter_mm = request.end_diameter_mm;
    out.length_mm = request.length_mm;
    out.bore_mm = request.bore_mm;
    out.stick_out_mm = request.stick_out_mm;
    out.bar_diameter_mm = request.bar_diameter_mm;
    out.bar_material = request.bar_material;
    out.nose_radius_mm = request.nose_radius_mm;
    out.entering_deg = request.entering_deg;
    out.rake_deg = request.rake_deg;
    out.wear_factor = request.wear_factor;
    out.approach_mm = request.approach_mm;
    out.overrun_mm = request.overrun_mm;
    out.span_mm = request.span_mm;
    out.stock_diameter_mm = request.stock_diameter_mm;
    out.stock_flats_mm = request.stock_flats_mm;
    out.bar_length_mm = request.bar_length_mm;
    out.bar_behind_mm = request.bar_behind_mm;
    out.hold = request.hold;
    out.chuck = request.chuck;
    out.beam = request.beam;
    return out;
}

/// The work of the whole job in the machine: it whips soonest when all is off.
inline Mounting mounting_of(const ChooseRequest& request) noexcept {
    return lathe::mounting_of(turn_request(request),
                              request.cut == ChooseCut::turn ? request.to_mm : request.diameter_mm);
}

inline const machine::FeedLadder* lathe_ladder(const machine::Machine& machine, ChooseCut cut) noexcept {
    const bool power = !machine.carriage.steps.empty() &&
                       (cut != ChooseCut::face || !std::isnan(machine.carriage.cross_ratio));
    return power ? &machine.carriage : nullptr;
}

inline double lathe_depth(const ChooseRequest& request) noexcept {
    return request.cut == ChooseCut::face ? request.off_mm
                                          : std::abs(request.diameter_mm - request.to_mm) / 2.0;
}

/// Turning, facing and boring.
class LatheJob : public Job {
   public:
    LatheJob(const Catalogue& catalogue, const machine::Machine& machine, const ChooseRequest& request,
             const KinRows& kin)
        : Job(catalogue, machine, request, kin, lathe_ladder(machine, request.cut),
              request.cut == ChooseCut::face ? machine.carriage.cross_ratio : 1.0,
              request.cut == ChooseCut::face ? "cross" : "carriage", lathe_depth(request)),
          base_(turn_request(request)),
          windows_(catalogue,
                   {&alloy_, request.work.hardness_hb, {}, request.tool_material, kNaN, kNaN, kNaN, &kin},
                   {lathe::operation_of(base_.cut, false), lathe::operation_of(base_.cut, true)},
                   {usual_feed_mm(base_.cut, false), usual_feed_mm(base_.cut, true)}) {
        high_ = value_or(force_band(catalogue, alloy_, Process::turn, constants_.rough).high, 1.0) *
                (std::isnan(request.wear_factor) ? kOrdinaryWear : 1.0);
        share_ = normal_share(request.wear_factor);
        correction_ = lathe::correction(base_, force_scale(catalogue, alloy_).rake_deg);
        nose_ = value_or(request.nose_radius_mm, kNoseRadiusMm);
        aim_ = finish_aim(catalogue, alloy_, request.tool_material);
        bar_gpa_ = overhang_of(catalogue, overhung(base_.bar_material)).youngs_modulus_gpa;
        const double share = value_or(request.tolerance_share, kToleranceShare);
        most_bend_ = value_or(request.deflection_mm, kMostBendMm);
        finish_bend_ = std::isnan(request.tolerance_mm)
                           ? most_bend_
                           : std::min(most_bend_, share * request.tolerance_mm / 2.0);
        deepest_ = value_or(request.deepest_mm, kDeepestMm);
        least_mm_ = least_depth_mm(alloy_, request.tool_material, nose_);
        if (!request.free) {
            closing_ = cutting::closing(catalogue, closing_request());
        }
        work_whirl_ = work_whirl_rpm(alloy_, mounting_of(request));
        bar_whirl_ = bar_whirl_rpm(machine, alloy_, mounting_of(request));
        travel_ = lathe::travel_of(base_);
        fill_depths();
        fill_states();
        fill_feeds();
    }

    /// Deepest rough pass, in steps.
    [[nodiscard]] int cap() const noexcept {
        const double most = deepest_ * relaxed(LimitCode::edge_depth) * (1.0 + kSame);
        return most >= depths_[0].back()
                   ? steps()
                   : bounds::whole<int>(std::floor(most / counted_.step_mm + 1e-6), 0, steps());
    }
    [[nodiscard]] double pass_s(std::size_t s, std::size_t i) const noexcept {
        return FeedTime::compute(travel_, FeedRate::compute(feeds_[row(s, i)], levers_.speeds[s].rpm));
    }
    [[nodiscard]] double return_s() const noexcept { return wind_s(travel_); }
    [[nodiscard]] int side_by_side() const noexcept { return 1; }

    /// Whether the limits wanted hold.
    template <Which kWhich>
    [[nodiscard]] bool holds(const Bite& bite, std::size_t s, std::size_t i) const {
        return visit<kWhich>(bite, s, i,
                             [&](LimitCode code, double /*value*/, double /*limit*/, double used, bool hard) {
                                 return allows(code, used, hard);
                             });
    }
    /// False when no rough pass, or no pair, from here on can keep its limits with a lever, whatever its
    /// depth.
    [[nodiscard]] bool may_hold(bool finish, int from, std::size_t s, std::size_t i) const {
        const std::size_t r = row(s, i);
        // a shallow rough pass counts as fine
        const double coarsest = finish ? coarsest_[1] : std::max(coarsest_[0], coarsest_[1]);
        const double fastest = finish ? fastest_[1][r] : std::max(fastest_[0][r], fastest_[1][r]);
        const std::size_t x = base_.cut == LatheCut::turn   ? index(finish ? steps() : from)
                              : base_.cut == LatheCut::bore ? index(from) + 1
                                                            : 0;
        return allows(LimitCode::feed_guide, feeds_[r] / coarsest, false) &&
               allows(LimitCode::speed_window,
                      CuttingSpeed::compute(levers_.speeds[s].rpm, diameters_[x]) / fastest, false);
    }
    /// False when no rough pass from here, up to a depth, can bend little enough.
    [[nodiscard]] bool may_bend_little(int from, int most, std::size_t s, std::size_t i) const {
        if (bends_.empty()) {
            return true;
        }
        const std::vector<double>& least = least_passive(row(s, i));
        const std::size_t x = base_.cut == LatheCut::turn   ? index(from)
                              : base_.cut == LatheCut::bore ? finished()
                                                            : 0;
        const double bend = share_ * least[static_cast<std::size_t>(most)] *
                            (correction_ * speed_factor(x, s)) * bends_[index(from) + 1] * high_;
        return !(bend * (1.0 - 1e-6) > most_bend_ * relaxed(LimitCode::deflection));
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

    /// The pass as a cut of its own.
    [[nodiscard]] CutResult as_cut(const Bite& bite, std::size_t s, std::size_t i) const {
        TurnRequest request = base_;
        request.diameter_mm = base_.cut == LatheCut::turn   ? diameter(from_index(bite))
                              : base_.cut == LatheCut::bore ? diameter(to_index(bite))
                                                            : base_.diameter_mm;
        request.depth_mm = depth_of(bite);
        request.feed_mm_rev = feeds_[row(s, i)];
        request.spindle_rpm = levers_.speeds[s].rpm;
        request.finish = bite.finish();
        request.deflection_limit_mm = bends_.empty() ? kNaN : bend_limit(bite);
        request.roughness_limit_um = bite.finish() ? request_.roughness_um : kNaN;
        return cut(catalogue_, machine_, request);
    }
    void sizes(const Bite& bite, ChosenPass& out) const noexcept {
        if (base_.cut == LatheCut::face) {
            const double half = bite.kind == PassKind::rest ? depth_at(PassKind::half, bite.from) : 0.0;
            out.before_mm = bite.from * counted_.step_mm + half;
            out.after_mm = bite.last() ? request_.off_mm : out.before_mm + depth_of(bite);
        } else {
            out.before_mm = diameter(from_index(bite));
            out.after_mm = diameter(to_index(bite));
        }
    }

   private:
    static std::size_t index(int step) noexcept { return static_cast<std::size_t>(step); }
    [[nodiscard]] std::size_t finished() const noexcept { return index(steps()) + 1; }
    [[nodiscard]] std::size_t halved(int from) const noexcept { return finished() + 1 + index(from); }
    [[nodiscard]] std::size_t from_index(const Bite& bite) const noexcept {
        return bite.kind == PassKind::rest ? halved(bite.from) : index(bite.from);
    }
    [[nodiscard]] std::size_t to_index(const Bite& bite) const noexcept {
        return bite.last()                   ? finished()
               : bite.kind == PassKind::half ? halved(bite.from)
                                             : index(bite.from + bite.deep);
    }
    [[nodiscard]] double bend_limit(const Bite& bite) const noexcept {
        if (bite.kind == PassKind::before_measuring) {
            return std::min(most_bend_, spring_mm(bite.from + bite.deep));
        }
        if (bite.kind == PassKind::only && closing_.way == ClosingWay::one_measured) {
            return std::min(finish_bend_, kSpringBandShare * request_.tolerance_mm);
        }
        return bite.finish() ? finish_bend_ : most_bend_;
    }
    [[nodiscard]] ClosingRequest closing_request() const noexcept {
        ClosingRequest out;
        out.inside = base_.cut == LatheCut::bore;
        out.along = base_.cut == LatheCut::face;
        out.size_mm = out.along ? request_.off_mm : request_.to_mm;
        out.band_mm = request_.tolerance_mm;
        out.line_mm = dial_.line_mm;
        const machine::Slide* const compound = machine::find_slide(machine_, "compound");
        if (compound != nullptr && !out.along) {
            out.fine_line_mm = kFineShare * compound->graduation_mm / (compound->reads_diameter ? 2.0 : 1.0);
        }
        out.least_mm = least_mm_;
        out.expansion_um_m_k = alloy_.expansion_um_m_k;
        return out;
    }
    [[nodiscard]] double diameter(std::size_t at) const noexcept { return diameters_[at]; }
    [[nodiscard]] std::size_t row(std::size_t s, std::size_t i) const noexcept {
        return per_rev_ ? i : s * levers_.feeds.size() + i;
    }

    void fill_depths() {
        const SineCosine edge = sine_cosine_deg(value_or(request_.entering_deg, kEnteringDeg));
        each_depth([&](std::size_t group, bool used, double depth) {
            const SineCosine kappa =
                used && depth > 0.0 ? mean_entering(depth, nose_, edge) : SineCosine{kNaN, kNaN};
            depths_[group].push_back(depth);
            sines_[group].push_back(kappa.sine);
            cosines_[group].push_back(kappa.cosine);
            classes_[group].push_back(used ? windows_.depth_class(depth) : 0);
        });
    }
    void fill_states() {
        const double sign = base_.cut == LatheCut::turn ? -2.0 : base_.cut == LatheCut::bore ? 2.0 : 0.0;
        for (int k = 0; k <= steps(); ++k) {
            diameters_.push_back(base_.diameter_mm + sign * k * counted_.step_mm);
        }
        diameters_.push_back(sign == 0.0 ? base_.diameter_mm : request_.to_mm);
        for (int k = 0; k <= steps(); ++k) {
            diameters_.push_back(diameters_[index(k)] + sign * depth_at(PassKind::half, k));
        }
        const std::size_t across = base_.cut == LatheCut::face ? 1 : diameters_.size();
        factors_.assign(across * levers_.speeds.size(), kNaN);
        if (std::isnan(lathe::bend(base_, alloy_, bar_gpa_, base_.diameter_mm, 1.0).value)) {
            return;
        }
        for (const double left : diameters_) {
            bends_.push_back(lathe::bend(base_, alloy_, bar_gpa_, left, 1.0).value);
        }
    }
    void fill_feeds() {
        per_rev_ = levers_.source == FeedSource::step;
        if (per_rev_) {
            for (const Feed& feed : levers_.feeds) {
                feeds_.push_back(feed.per_rev);
            }
        } else {
            for (const Speed& speed : levers_.speeds) {
                for (const Feed& feed : levers_.feeds) {
                    feeds_.push_back(feed.per_min / speed.rpm);
                }
            }
        }
        for (const double feed : feeds_) {
            feed_classes_.push_back(windows_.feed_class(feed));
        }
        windows_.settle();
        for (const bool fine : {false, true}) {
            coarsest_[fine ? 1 : 0] = windows_.coarsest(fine, usual_feed_mm(base_.cut, fine));
            for (const std::size_t feed_class : feed_classes_) {
                fastest_[fine ? 1 : 0].push_back(windows_.fastest(fine, feed_class));
            }
        }
        for (std::vector<std::vector<double>>& forces : forces_) {
            forces.resize(feeds_.size());
        }
        least_.resize(feeds_.size());
        for (std::vector<std::vector<EdgeLife>>& lives : lives_) {
            lives.resize(feeds_.size());
        }
    }

    /// Factor of the speed on the force, at a state.
    [[nodiscard]] double speed_factor(std::size_t x, std::size_t s) const {
        double& known = factors_[x * levers_.speeds.size() + s];
        if (std::isnan(known)) {
            known = speed_correction(constants_, CuttingSpeed::compute(levers_.speeds[s].rpm, diameters_[x]));
        }
        return known;
    }
    /// Cutting force without corrections.
    [[nodiscard]] double force(std::size_t group, std::size_t place, std::size_t r) const {
        std::vector<double>& row = forces_[group][r];
        if (row.empty()) {
            row.assign(depths_[group].size(), kNaN);
        }
        double& known = row[place];
        if (std::isnan(known)) {
            known = TurningForce::at(constants_.kc11_n_mm2, constants_.mc, depths_[group][place], feeds_[r],
                                     feeds_[r] * sines_[group][place], 1.0);
        }
        return known;
    }
    /// Least force across the work of all rough passes up to a depth, without corrections.
    const std::vector<double>& least_passive(std::size_t r) const {
        std::vector<double>& out = least_[r];
        if (out.empty()) {
            out.assign(depths_[0].size(), kInfinite);
            for (int m = 1; m <= steps(); ++m) {
                out[index(m)] = std::min(out[index(m) - 1], force(0, index(m), r) * cosines_[0][index(m)]);
            }
        }
        return out;
    }
    [[nodiscard]] double life_of(std::size_t group, std::size_t place, std::size_t r, double speed) const {
        std::vector<EdgeLife>& row = lives_[group][r];
        if (row.empty()) {
            row.resize(depths_[group].size());
        }
        EdgeLife& life = row[place];
        if (std::isnan(life.c_m_min)) {
            const LifeQuery query{&alloy_,   request_.work.hardness_hb, request_.tool_material,
                                  feeds_[r], depths_[group][place],     &kin_};
            if (!edge_life(catalogue_, query, life).ok()) {
                life.c_m_min = 0.0;
            }
        }
        return life.c_m_min > 0.0
                   ? std::min(TaylorLife::compute(life.c_m_min, life.exponent, speed), kLongestLifeMin)
                   : 0.0;
    }

    /// Every limit in turn, until one is not liked: code, value, limit, share used, whether computed.
    template <Which kWhich, class Like>
    bool visit(const Bite& bite, std::size_t s, std::size_t i, Like like) const {
        const std::size_t r = row(s, i);
        const double feed = feeds_[r];
        const Speed& speed = levers_.speeds[s];
        const std::size_t kind = group(bite);
        const std::size_t at = place(bite);
        const double depth = depths_[kind][at];
        const auto below = [&](LimitCode code, double value, double limit, bool hard) {
            return like(code, value, limit, value / limit, hard);
        };
        if constexpr (kWhich != Which::growing) {
            if (fire_ != nullptr && feed < fire_->feed_least_mm * (1.0 - kSame)) {
                return false;
            }
            if (nose_ > 0.0 && !below(LimitCode::nose_feed, feed, kFeedOverNose * nose_, false)) {
                return false;
            }
            if (bite.finish() && nose_ > 0.0 && !std::isnan(request_.roughness_um)) {
                const double ra = RoughnessRa::compute(feed, nose_);
                if (!below(LimitCode::roughness, std::isnan(ra) ? kInfinite : ra,
                           request_.roughness_um / aim_, false)) {
                    return false;
                }
            }
            if (chuck_ != nullptr &&
                !below(LimitCode::chuck_speed, speed.rpm, machine::chuck_rpm_limit(*chuck_), false)) {
                return false;
            }
            if (!std::isnan(work_whirl_) && !below(LimitCode::work_whirl, speed.rpm, work_whirl_, false)) {
                return false;
            }
            if (!std::isnan(bar_whirl_) && !below(LimitCode::bar_whirl, speed.rpm, bar_whirl_, false)) {
                return false;
            }
        }
        if constexpr (kWhich == Which::fixed) {
            return true;
        }
        const std::size_t x = base_.cut == LatheCut::turn   ? from_index(bite)
                              : base_.cut == LatheCut::bore ? to_index(bite)
                                                            : 0;
        const double v = CuttingSpeed::compute(speed.rpm, diameters_[x]);
        const bool fine = bite.finish() || depth <= kFinishDepthMm;
        if constexpr (kWhich == Which::all) {
            if (!below(LimitCode::edge_depth, depth, deepest_, false)) {
                return false;
            }
            if (!like(LimitCode::least_depth, depth, least_mm_, least_mm_ / depth, false)) {
                return false;
            }
            const std::size_t depth_class = classes_[kind][at];
            if (!below(LimitCode::feed_guide, feed,
                       value_or(windows_.feed(fine, depth_class), usual_feed_mm(base_.cut, fine)), false)) {
                return false;
            }
            if (!below(LimitCode::speed_window, v, windows_.speed(fine, depth_class, feed_classes_[r]),
                       false)) {
                return false;
            }
            const double chip = feed * sines_[kind][at];
            if (!like(LimitCode::chip_thickness, chip, kRubbingThicknessMm, kRubbingThicknessMm / chip,
                      true)) {
                return false;
            }
        }
        const double f = force(kind, at, r) * (correction_ * speed_factor(x, s));
        if (!std::isnan(f)) {
            if (!std::isnan(speed.available_kw) &&
                !below(LimitCode::power, CuttingPower::compute(f, v) * high_, speed.available_kw, true)) {
                return false;
            }
            if (!std::isnan(machine_.torque_limit_nm) &&
                !below(LimitCode::torque, SpindleTorque::compute(f, diameters_[x]) * high_,
                       machine_.torque_limit_nm, true)) {
                return false;
            }
            if (!std::isnan(request_.force_n) &&
                !below(LimitCode::force, f * high_, request_.force_n, true)) {
                return false;
            }
            if (!std::isnan(request_.jaw_force_n)) {
                const double grip = value_or(request_.grip_diameter_mm, base_.diameter_mm);
                const double needed = JawForceNeeded::compute(f * high_, diameters_[x], grip, jaws(),
                                                              value_or(request_.friction, kGripFriction),
                                                              value_or(request_.grip_safety, kGripSafety));
                const double mass =
                    value_or(request_.jaw_mass_kg, chuck_ == nullptr ? kNaN : chuck_->jaw_mass_kg);
                const double radius =
                    value_or(request_.jaw_radius_mm, chuck_ == nullptr ? kNaN : chuck_->diameter_mm / 2.0);
                const double there =
                    std::isnan(mass) || std::isnan(radius)
                        ? request_.jaw_force_n
                        : JawForceAtSpeed::compute(request_.jaw_force_n, mass, radius, speed.rpm);
                if (!below(LimitCode::grip, needed, there, true)) {
                    return false;
                }
            }
            if constexpr (kWhich == Which::all) {
                if (!bends_.empty()) {
                    const double bend = share_ * f * cosines_[kind][at] * bends_[to_index(bite)] * high_;
                    if (!below(LimitCode::deflection, std::isnan(bend) ? kInfinite : bend, bend_limit(bite),
                               true)) {
                        return false;
                    }
                }
            }
        }
        if constexpr (kWhich == Which::all) {
            const double life = life_of(kind, at, r, v);
            const bool asked = !std::isnan(request_.life_min);
            if (asked || life > 0.0) {  // what is not tabulated holds nothing back unless it is asked for
                const double least =
                    asked ? request_.life_min : std::max(kLeastEdgeLifeMin, pass_s(s, i) / 60.0);
                return like(LimitCode::tool_life, life, least, least / life, true);
            }
        }
        return true;
    }
    [[nodiscard]] double jaws() const noexcept {
        return chuck_ == nullptr || chuck_->jaws < 2 ? 3.0 : static_cast<double>(chuck_->jaws);
    }

    TurnRequest base_;
    Windows windows_;
    double correction_ = 1.0;
    double share_ = kNaN;  // of the force, across the edge
    double nose_ = kNaN;
    double bar_gpa_ = kNaN;
    double aim_ = 1.0;  ///< roughness asked for over that of the geometry aimed at
    double most_bend_ = kNaN;
    double finish_bend_ = kNaN;
    double deepest_ = kNaN;
    double travel_ = kNaN;
    double work_whirl_ = kNaN;  // half the first whirl
    double bar_whirl_ = kNaN;
    bool per_rev_ = true;
    std::array<std::vector<double>, kGroups> depths_;
    std::array<std::vector<double>, kGroups> sines_;
    std::array<std::vector<double>, kGroups> cosines_;
    std::array<std::vector<std::size_t>, kGroups> classes_;
    std::vector<double> diameters_;  // after so many steps; finished; after half of what a step leaves
    std::vector<double> bends_;      // under a unit force, by what is left
    std::vector<double> feeds_;
    std::vector<std::size_t> feed_classes_;
    std::array<double, 2> coarsest_{};            // rough, fine
    std::array<std::vector<double>, 2> fastest_;  // rough, fine; by feed
    mutable std::vector<double> factors_;
    mutable std::array<std::vector<std::vector<double>>, kGroups> forces_;  // by group, feed, place
    mutable std::vector<std::vector<double>> least_;
    mutable std::array<std::vector<std::vector<EdgeLife>>, kGroups> lives_;
};

}  // namespace halfnut::cutting
