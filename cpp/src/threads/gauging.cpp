#include "halfnut/threads/gauging.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "halfnut/core/elementary.hpp"

namespace halfnut::threads {
namespace detail {
namespace {

constexpr double kNothing = std::numeric_limits<double>::quiet_NaN();
constexpr int kSteps = 100;

/// Two unknowns' second derivatives; negative definite at a true maximum.
struct Curvature {
    double rr = 0.0;
    double rf = 0.0;
    double ff = 0.0;

    [[nodiscard]] bool maximum() const noexcept { return rr < 0.0 && rr * ff - rf * rf > 0.0; }
};

/// The flank through a radius: its normal and where the wire's axis then is.
struct Flank {
    const Groove& groove;
    double wire;  // radius
    double k = groove.lead / (2.0 * std::numbers::pi);
    double a = groove.sense * groove.tan_half_angle;

    [[nodiscard]] double q(double r) const noexcept { return std::sqrt(1.0 + a * a + k * k / (r * r)); }
    /// Angle of the point whose normal meets the radial line that the wire's middle lies on.
    [[nodiscard]] double angle(double r) const noexcept {
        return -atan_of(wire * k / (r * (r * q(r) + wire * a)));
    }
    /// Axial distance from the wire's middle to the end of that normal; zero at contact.
    [[nodiscard]] double gap(double r) const noexcept {
        return groove.half_width + a * (r - groove.pitch_radius) + k * angle(r) - wire / q(r);
    }
    [[nodiscard]] double gap_slope(double r) const noexcept {
        const double q_r = q(r);
        const double q_slope = -k * k / (r * r * r * q_r);
        const double d = r * (r * q_r + wire * a);
        const double d_slope = 2.0 * r * q_r + r * r * q_slope + wire * a;
        const double u = wire * k / d;
        return a + k * (u / d) * d_slope / (1.0 + u * u) + wire * q_slope / (q_r * q_r);
    }
};

/// How the distance to a wire's axis changes about a point of the flank (r, f): the function whose maximum
/// over the flank is where the axis comes to lie, F = r cos f + sqrt(w^2 - v^2).
struct HeldWire {
    const Flank& flank;
    SineCosine tilt;

    [[nodiscard]] double across(double r, double f, double sin_f) const noexcept {
        const Groove& g = flank.groove;
        const double z = g.half_width + flank.a * (r - g.pitch_radius) + flank.k * f;
        return z * tilt.cosine - r * sin_f * tilt.sine;
    }
    [[nodiscard]] double axis(double r, double f) const noexcept {
        const auto [sin_f, cos_f] = sine_cosine(f);
        const double v = across(r, f, sin_f);
        return r * cos_f + std::sqrt(flank.wire * flank.wire - v * v);
    }
    void derivatives(double r, double f, double& d_r, double& d_f, Curvature& second) const noexcept {
        const auto [sin_f, cos_f] = sine_cosine(f);
        const double w = flank.wire;
        const double v = across(r, f, sin_f);
        const double s = std::sqrt(w * w - v * v);
        const double v_r = flank.a * tilt.cosine - sin_f * tilt.sine;
        const double v_f = flank.k * tilt.cosine - r * cos_f * tilt.sine;
        const double v_rf = -cos_f * tilt.sine;
        const double v_ff = r * sin_f * tilt.sine;
        const double bend = w * w / (s * s * s);
        d_r = cos_f - v * v_r / s;
        d_f = -r * sin_f - v * v_f / s;
        second.rr = -bend * v_r * v_r;
        second.rf = -sin_f - bend * v_r * v_f - v * v_rf / s;
        second.ff = -r * cos_f - bend * v_f * v_f - v * v_ff / s;
    }
};

/// The same for a ball: H = sense r cos f + sqrt(w^2 - y^2 - z^2).
Curvature ball_curvature(const Flank& flank, double r, double f) noexcept {
    const Groove& g = flank.groove;
    const auto [sin_f, cos_f] = sine_cosine(f);
    const double y = r * sin_f;
    const double z = g.half_width + flank.a * (r - g.pitch_radius) + flank.k * f;
    const double s = std::sqrt(flank.wire * flank.wire - y * y - z * z);
    const double y_f = r * cos_f;
    const double m_r = y * sin_f + z * flank.a;
    const double m_f = y * y_f + z * flank.k;
    const double s3 = s * s * s;
    Curvature out;
    out.rr = -(sin_f * sin_f + flank.a * flank.a) / s - m_r * m_r / s3;
    out.rf = -g.sense * sin_f - (sin_f * y_f + y * cos_f + flank.a * flank.k) / s - m_r * m_f / s3;
    out.ff = -g.sense * r * cos_f - (y_f * y_f - y * r * sin_f + flank.k * flank.k) / s - m_f * m_f / s3;
    return out;
}

/// Where the flank would end if groove or ridge ran to a sharp edge, kept clear of the axis.
double sharp_end(const Groove& groove) noexcept {
    const double run = groove.half_width / groove.tan_half_angle;
    return groove.sense > 0.0 ? std::max(groove.pitch_radius - run, 0.1 * groove.pitch_radius)
                              : groove.pitch_radius + run;
}

Groove external_groove(double pitch_diameter, double major_diameter, double pitch, double lead,
                       double half_angle) noexcept {
    return {1.0, pitch_diameter / 2.0, major_diameter / 2.0, pitch / 4.0, lead, tangent_deg(half_angle)};
}

Groove internal_groove(double pitch_diameter, double minor_diameter, double pitch, double lead,
                       double half_angle) noexcept {
    return {-1.0, pitch_diameter / 2.0, minor_diameter / 2.0, pitch / 4.0, lead, tangent_deg(half_angle)};
}

/// A wire can be measured over: it touches below the crest, at one point a flank, and stands above the crest.
bool usable(const Groove& groove, const Contact& contact, double wire_radius) noexcept {
    return contact.found && contact.single && contact.axis_radius + wire_radius > groove.crest_radius;
}

/// Pitch diameter at which `size` reads `wanted`. The reading moves by very nearly what the pitch diameter
/// moves, so that stepping by the miss converges at once.
template <class Size>
double invert(double start, double wanted, const Size& size) noexcept {
    double e = start;
    for (int step = 0; step < kSteps && e > 0.0; ++step) {
        const double miss = wanted - size(e);
        if (!std::isfinite(miss)) {
            return kNothing;
        }
        e += miss;
        if (std::abs(miss) <= 4.0 * std::numeric_limits<double>::epsilon() * wanted) {
            return e > 0.0 ? e : kNothing;
        }
    }
    return kNothing;
}

/// x from inv x = tan x - x, as tan x; Newton from above on a convex function.
double tan_from_involute(double involute) noexcept {
    double t = involute + std::numbers::pi / 2.0;
    if (involute < 1.0) {
        t = std::min(t, cbrt_of(3.0 * involute) * (1.0 + involute));
    }
    for (int step = 0; step < kSteps; ++step) {
        const double change = (t - atan_of(t) - involute) * (1.0 + t * t) / (t * t);
        t -= change;
        if (std::abs(change) <= 2.0 * std::numeric_limits<double>::epsilon() * t) {
            break;
        }
    }
    return t;
}

}  // namespace

Contact free_contact(const Groove& groove, double wire_radius) noexcept {
    const Flank flank{groove, wire_radius};
    double low = groove.sense > 0.0 ? sharp_end(groove) : groove.crest_radius;
    double high = groove.sense > 0.0 ? groove.crest_radius : sharp_end(groove);
    Contact contact;
    // sense * gap rises with the radius; no change of sign: the contact is off the flank.
    if (!(low < high) || !(groove.sense * flank.gap(low) <= 0.0) ||
        !(groove.sense * flank.gap(high) >= 0.0)) {
        return contact;
    }
    double r =
        groove.pitch_radius > low && groove.pitch_radius < high ? groove.pitch_radius : (low + high) / 2.0;
    for (int step = 0; step < kSteps; ++step) {
        const double gap = groove.sense * flank.gap(r);
        (gap < 0.0 ? low : high) = r;
        double next = r - gap / (groove.sense * flank.gap_slope(r));
        if (!(next > low && next < high)) {
            next = (low + high) / 2.0;
        }
        const double change = std::abs(next - r);
        r = next;
        if (change <= std::numeric_limits<double>::epsilon() * r) {
            break;
        }
    }
    const double f = flank.angle(r);
    const double q = flank.q(r);
    const double turn = flank.k / r;
    contact.contact_radius = r;
    contact.contact_angle = f;
    const auto [sin_f, cos_f] = sine_cosine(f);
    contact.axis_radius = r * cos_f + wire_radius * (flank.a * cos_f - turn * sin_f) / q;
    contact.tan_tilt = flank.a * sin_f + turn * cos_f;
    contact.found = contact.axis_radius > 0.0;
    if (groove.sense > 0.0) {
        const HeldWire wire{flank, sine_cosine_of_tangent(contact.tan_tilt)};
        double d_r = 0.0;
        double d_f = 0.0;
        Curvature second;
        wire.derivatives(r, f, d_r, d_f, second);
        contact.single = second.maximum();
    } else {
        contact.single = ball_curvature(flank, r, f).maximum();
    }
    return contact;
}

Contact held_contact(const Groove& groove, double wire_radius, double tan_tilt) noexcept {
    Contact contact = free_contact(groove, wire_radius);
    if (!contact.found || !contact.single) {
        return contact;
    }
    const Flank flank{groove, wire_radius};
    const HeldWire wire{flank, sine_cosine_of_tangent(tan_tilt)};
    double r = contact.contact_radius;
    double f = contact.contact_angle;
    double d_r = 0.0;
    double d_f = 0.0;
    Curvature second;
    contact.single = false;
    for (int step = 0; step < kSteps; ++step) {
        wire.derivatives(r, f, d_r, d_f, second);
        const double determinant = second.rr * second.ff - second.rf * second.rf;
        if (!(second.rr < 0.0 && determinant > 0.0)) {
            return contact;
        }
        const double move_r = (second.rf * d_f - second.ff * d_r) / determinant;
        const double move_f = (second.rf * d_r - second.rr * d_f) / determinant;
        r += move_r;
        f += move_f;
        // At a maximum the axis moves with the square of what is left.
        if (std::abs(move_r) + r * std::abs(move_f) <= 1e-12 * r) {
            contact.single = true;
            break;
        }
    }
    contact.contact_radius = r;
    contact.contact_angle = f;
    contact.axis_radius = wire.axis(r, f);
    contact.tan_tilt = tan_tilt;
    contact.found = r <= groove.crest_radius && std::isfinite(contact.axis_radius);
    return contact;
}

double best_wire_radius(const Groove& groove) noexcept {
    const double r = groove.pitch_radius;
    const double k = groove.lead / (2.0 * std::numbers::pi);
    const double a = groove.sense * groove.tan_half_angle;
    const double q = std::sqrt(1.0 + a * a + k * k / (r * r));
    double w = groove.half_width * q;
    for (int step = 0; step < kSteps; ++step) {
        const double d = r * (r * q + w * a);
        const double u = w * k / d;
        const double gap = groove.half_width - k * atan_of(u) - w / q;
        const double slope = -k * k * r * r * q / (d * d) / (1.0 + u * u) - 1.0 / q;
        const double change = gap / slope;
        w -= change;
        if (std::abs(change) <= std::numeric_limits<double>::epsilon() * w) {
            return w;
        }
    }
    return kNothing;
}

InvoluteSteps involute_steps(double pitch_diameter, double pitch, double lead, double half_angle,
                             double wire) noexcept {
    InvoluteSteps out;
    out.tan_lead_angle = lead / (std::numbers::pi * pitch_diameter);
    const double tan_f = tangent_deg(half_angle) / out.tan_lead_angle;
    out.f = atan_of(tan_f);
    const double cos_f = sine_cosine_of_tangent(tan_f).cosine;
    const double base_radius = pitch_diameter / 2.0 * cos_f;
    out.t_a = pitch / 2.0 / out.tan_lead_angle;
    const double tan_h_b = cos_f / out.tan_lead_angle;
    out.h_b = atan_of(tan_h_b);
    out.involute_g = out.t_a / pitch_diameter + (tan_f - out.f) +
                     wire * std::sqrt(1.0 + tan_h_b * tan_h_b) / (2.0 * base_radius) -
                     std::numbers::pi * pitch / lead;
    if (!(out.involute_g > 0.0)) {
        out.over_wires = kNothing;
        return out;
    }
    const double tan_g = tan_from_involute(out.involute_g);
    out.over_wires = 2.0 * base_radius * std::sqrt(1.0 + tan_g * tan_g) + wire;  // (4)
    return out;
}

double over_wires_exact(double pitch_diameter, double major_diameter, double pitch, double lead,
                        double half_angle, double wire) noexcept {
    const Groove groove = external_groove(pitch_diameter, major_diameter, pitch, lead, half_angle);
    const Contact contact = free_contact(groove, wire / 2.0);
    return usable(groove, contact, wire / 2.0) ? 2.0 * contact.axis_radius + wire : kNothing;
}

double over_wires_held(double pitch_diameter, double major_diameter, double pitch, double lead,
                       double half_angle, double wire) noexcept {
    const Groove groove = external_groove(pitch_diameter, major_diameter, pitch, lead, half_angle);
    const Contact contact = held_contact(groove, wire / 2.0, lead / (std::numbers::pi * pitch_diameter));
    return usable(groove, contact, wire / 2.0) ? 2.0 * contact.axis_radius + wire : kNothing;
}

double wire_tilt(double pitch_diameter, double major_diameter, double pitch, double lead, double half_angle,
                 double wire) noexcept {
    const Groove groove = external_groove(pitch_diameter, major_diameter, pitch, lead, half_angle);
    const Contact contact = free_contact(groove, wire / 2.0);
    return usable(groove, contact, wire / 2.0) ? atan_of(contact.tan_tilt) / kDegree : kNothing;
}

double best_wire_exact(double pitch_diameter, double pitch, double lead, double half_angle) noexcept {
    return 2.0 * best_wire_radius(external_groove(pitch_diameter, pitch_diameter, pitch, lead, half_angle));
}

double pitch_from_wires_lead(double over_wires, double pitch, double lead, double half_angle,
                             double wire) noexcept {
    return invert(PitchFromWiresPlain::compute(over_wires, pitch, half_angle, wire), over_wires,
                  [&](double e) { return OverWiresLead::compute(e, pitch, lead, half_angle, wire); });
}

double pitch_from_wires_exact(double over_wires, double major_diameter, double pitch, double lead,
                              double half_angle, double wire) noexcept {
    return invert(
        PitchFromWiresPlain::compute(over_wires, pitch, half_angle, wire), over_wires,
        [&](double e) { return over_wires_exact(e, major_diameter, pitch, lead, half_angle, wire); });
}

double across_balls_exact(double pitch_diameter, double minor_diameter, double pitch, double lead,
                          double half_angle, double ball) noexcept {
    const Groove groove = internal_groove(pitch_diameter, minor_diameter, pitch, lead, half_angle);
    const Contact contact = free_contact(groove, ball / 2.0);
    return contact.found && contact.single ? 2.0 * contact.axis_radius + ball : kNothing;
}

double pitch_from_balls_exact(double across_balls, double minor_diameter, double pitch, double lead,
                              double half_angle, double ball) noexcept {
    const double start =
        across_balls - pitch / 2.0 / tangent_deg(half_angle) + ball * (1.0 / sine_deg(half_angle) - 1.0);
    return invert(start, across_balls, [&](double e) {
        return across_balls_exact(e, minor_diameter, pitch, lead, half_angle, ball);
    });
}

std::string wire_refusal(double pitch_diameter, double major_diameter, double pitch, double lead,
                         double half_angle, double wire) {
    if (!(pitch_diameter < major_diameter)) {
        return fmt::format("the pitch diameter, {:.6g} mm, must be below the major diameter, {:.6g} mm",
                           pitch_diameter, major_diameter);
    }
    const Groove groove = external_groove(pitch_diameter, major_diameter, pitch, lead, half_angle);
    const Contact contact = free_contact(groove, wire / 2.0);
    if (contact.found && !contact.single) {
        return fmt::format(
            "a wire of {:.6g} mm touches each flank at two points at a lead angle of {:.3g} deg; measure "
            "over "
            "balls of that diameter",
            wire, atan_of(lead / (std::numbers::pi * pitch_diameter)) / kDegree);
    }
    const bool small = contact.found || Flank{groove, wire / 2.0}.gap(groove.crest_radius) > 0.0;
    const double limit = small ? SmallestWire::compute(major_diameter, pitch_diameter, pitch, half_angle)
                               : LargestWire::compute(major_diameter, pitch_diameter, pitch, half_angle);
    return fmt::format(
        "wire_mm must be {} about {:.4g} mm for this thread, got {:.6g}: it {}; best {:.4f} mm",
        small ? "above" : "below", limit, wire,
        small ? "does not stand above the crest" : "rides on the edge of the crest",
        best_wire_exact(pitch_diameter, pitch, lead, half_angle));
}

std::string ball_refusal(double pitch_diameter, double minor_diameter, double pitch, double lead,
                         double half_angle, double ball) {
    if (!(pitch_diameter > minor_diameter)) {
        return fmt::format("the pitch diameter, {:.6g} mm, must be above the minor diameter, {:.6g} mm",
                           pitch_diameter, minor_diameter);
    }
    const double best =
        2.0 * best_wire_radius(internal_groove(pitch_diameter, minor_diameter, pitch, lead, half_angle));
    return fmt::format("ball_mm must be at most about {:.4g} mm for this thread, got {:.6g}; best {:.4f} mm",
                       LargestBall::compute(pitch_diameter, minor_diameter, pitch, half_angle), ball, best);
}

std::string involute_refusal(double pitch_diameter, double pitch, double lead, double half_angle,
                             double wire) {
    const double best = BestWire::compute(pitch, half_angle);
    if (lead == 0.0) {
        return "lead_mm must be > 0 mm for an involute helicoid, got 0";
    }
    return fmt::format(
        "a wire of {:.6g} mm falls through a groove of pitch {:.6g} mm at pitch diameter {:.6g} mm; best "
        "{:.4f} mm",
        wire, pitch, pitch_diameter, best);
}

std::string reading_refusal(std::string_view reading, double value) {
    return fmt::format("{} {:.6g} mm leaves no pitch diameter > 0 mm over such wires", reading, value);
}

}  // namespace detail
}  // namespace halfnut::threads
