#pragma once
/// Tool life, after Taylor.

#include <array>
#include <limits>
#include <string_view>

#include "halfnut/core/elementary.hpp"
#include "halfnut/core/level1.hpp"

namespace halfnut::cutting {

/// Exponent from two trials.
///
///     n = log(V_1 / V_2) / log(T_2 / T_1)
///
/// Given
///   speed_1_m_min, speed_2_m_min   V, m/min, > 0, not equal
///   life_1_min, life_2_min         T, min, > 0, not equal
/// Returned
///   n; negative when the faster edge lasted longer
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 23
/// Example
///   taylor_exponent(180.0, 4.25, 110.0, 35.0) = 0.2336
struct TaylorExponent {
    static constexpr std::string_view name = "taylor_exponent";
    static constexpr std::array arguments{positive("speed_1_m_min", "m/min"), positive("life_1_min", "min"),
                                          positive("speed_2_m_min", "m/min"), positive("life_2_min", "min")};
    static double compute(double v_1, double t_1, double v_2, double t_2) noexcept {
        return log2_of(v_1 / v_2) / log2_of(t_2 / t_1);
    }
};
inline double taylor_exponent(double speed_1_m_min, double life_1_min, double speed_2_m_min,
                              double life_2_min) {
    return scalar<TaylorExponent>(speed_1_m_min, life_1_min, speed_2_m_min, life_2_min);
}

/// Speed for a life.
///
///     V = C / T^n
///
/// Given
///   c_m_min    C, m/min, > 0: the speed for one minute
///   exponent   n, above 0, at most 1
///   life_min   T, min, > 0
/// Returned
///   m/min
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 23
/// Example
///   taylor_speed_m_min(229.0, 0.223, 41.0) = 100.0
struct TaylorSpeed {
    static constexpr std::string_view name = "taylor_speed_m_min";
    static constexpr std::array arguments{
        positive("c_m_min", "m/min"),
        Argument{
            .name = "exponent", .unit = "", .low = 0.0, .high = 1.0, .low_open = true, .high_open = false},
        positive("life_min", "min")};
    static double compute(double c, double n, double t) noexcept { return c / power_of(t, n); }
};
inline double taylor_speed_m_min(double c_m_min, double exponent, double life_min) {
    return scalar<TaylorSpeed>(c_m_min, exponent, life_min);
}

/// Life at a speed.
///
///     T = (C / V)^(1/n)
///
/// Given
///   c_m_min       C, m/min, > 0
///   exponent      n, above 0, at most 1
///   speed_m_min   V, m/min, > 0
/// Returned
///   min
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 23
/// Example
///   taylor_life_min(160.0, 0.25, 31.416) = 672.8
struct TaylorLife {
    static constexpr std::string_view name = "taylor_life_min";
    static constexpr std::array arguments{TaylorSpeed::arguments[0], TaylorSpeed::arguments[1],
                                          positive("speed_m_min", "m/min")};
    static double compute(double c, double n, double v) noexcept { return power_of(c / v, 1.0 / n); }
};
inline double taylor_life_min(double c_m_min, double exponent, double speed_m_min) {
    return scalar<TaylorLife>(c_m_min, exponent, speed_m_min);
}

/// Life for the most parts an hour.
///
///     T = (1/n - 1) t_c
///
/// Given
///   exponent     n, above 0 and below 1
///   change_min   t_c, min, > 0: to change the edge
/// Returned
///   min
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 24 (memory)
/// Example
///   fastest_life_min(0.25, 2.0) = 6.0
struct FastestLife {
    static constexpr std::string_view name = "fastest_life_min";
    static constexpr std::array arguments{inside("exponent", 0.0, 1.0), positive("change_min", "min")};
    static double compute(double n, double t_c) noexcept { return (1.0 / n - 1.0) * t_c; }
};
inline double fastest_life_min(double exponent, double change_min) {
    return scalar<FastestLife>(exponent, change_min);
}

/// Life for the lowest cost of a part.
///
///     T = (1/n - 1) (t_c + C_t / C_o)
///
/// Given
///   exponent       n, above 0 and below 1
///   change_min     t_c, min, >= 0: to change the edge
///   edge_cost      C_t, money, > 0: of one edge, with its share of grinding
///   cost_per_min   C_o, money a minute, > 0: of machine and person
/// Returned
///   min
/// Source
///   Groover, Fundamentals of Modern Manufacturing, ch. 24 (memory)
/// Example
///   economic_life_min(0.25, 2.0, 4.0, 1.0) = 18.0
struct EconomicLife {
    static constexpr std::string_view name = "economic_life_min";
    static constexpr std::array arguments{inside("exponent", 0.0, 1.0), not_negative("change_min", "min"),
                                          positive("edge_cost"), positive("cost_per_min", "1/min")};
    static double compute(double n, double t_c, double c_t, double c_o) noexcept {
        return (1.0 / n - 1.0) * (t_c + c_t / c_o);
    }
};
inline double economic_life_min(double exponent, double change_min, double edge_cost, double cost_per_min) {
    return scalar<EconomicLife>(exponent, change_min, edge_cost, cost_per_min);
}

/// How the life changes when speed, feed and depth change together.
///
///     T_2 / T_1 = (k_v k_f^x k_d^y)^(-1/n)
///
/// Given
///   exponent         n, above 0, at most 1
///   feed_exponent    x, >= 0
///   depth_exponent   y, >= 0
///   speed_factor     k_v, > 0; 1 for no change
///   feed_factor      k_f, > 0
///   depth_factor     k_d, > 0
/// Returned
///   ratio
/// Source
///   extended Taylor equation; P. N. Rao, Manufacturing Technology vol. 2 (memory)
/// Example
///   taylor_life_ratio(0.13, 0.6, 0.3, 1.25, 1.0, 1.0) = 0.1797
struct TaylorLifeRatio {
    static constexpr std::string_view name = "taylor_life_ratio";
    static constexpr std::array arguments{TaylorSpeed::arguments[1],      not_negative("feed_exponent"),
                                          not_negative("depth_exponent"), positive("speed_factor"),
                                          positive("feed_factor"),        positive("depth_factor")};
    static double compute(double n, double x, double y, double k_v, double k_f, double k_d) noexcept {
        return power_of(k_v * power_of(k_f, x) * power_of(k_d, y), -1.0 / n);
    }
};
inline double taylor_life_ratio(double exponent, double feed_exponent, double depth_exponent,
                                double speed_factor, double feed_factor, double depth_factor) {
    return scalar<TaylorLifeRatio>(exponent, feed_exponent, depth_exponent, speed_factor, feed_factor,
                                   depth_factor);
}

}  // namespace halfnut::cutting
