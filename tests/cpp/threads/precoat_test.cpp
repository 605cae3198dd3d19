// Limits before coating: the published rows, both ways of reaching them, and what the coated part then is.

#include "halfnut/threads/precoat.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>

#include "halfnut/builtin.hpp"
#include "halfnut/threads/kinds.hpp"
#include "reference.hpp"

namespace halfnut::threads {
namespace {

using test::ReferenceRow;

Precoat cut(std::string_view thread, std::string_view coating, GaugedAt at = GaugedAt::basic) {
    return precoat(builtin(),
                   {parse_thread(thread, builtin()), parse_build_up(coating, builtin()), at, LimitOptions{}});
}

double native(const Precoat& answer, Limit limit) {
    return answer.before.native(limit);
}

TEST(Precoat, PublishedLimits) {
    const test::Reference reference("threads/coatings.csv");
    std::map<std::string, int> counted;
    int count = 0;
    for (const ReferenceRow& row : reference.rows()) {
        const std::string& quantity = row.text("quantity");
        const bool limit = quantity.starts_with("pitch_m") || quantity.starts_with("major_m");
        const bool coated = quantity.starts_with("coated");
        if (!limit && !coated && quantity != "allowance" && quantity != "greatest_coating") {
            continue;
        }
        // The rows of the 27th edition are rounded as the tables of before 2003 are.
        const UnifiedRule rule = row.text("source").find("27th") == std::string::npos ? UnifiedRule::formula
                                                                                      : UnifiedRule::printed;
        const Thread thread = parse_thread(row.text("thread"), builtin());
        const Precoat answer = precoat(builtin(), {thread, parse_build_up("1 um", builtin()), GaugedAt::basic,
                                                   LimitOptions{.rule = rule}});
        const double unit = thread.inch() ? 25.4 : 1.0;
        double ours = 0.0;
        if (quantity == "allowance") {
            ours = answer.allowance_um / 25400.0;
        } else if (quantity == "greatest_coating") {
            ours = answer.greatest_build_up_um / 25400.0;
        } else if (quantity == "coated_pitch_max") {
            ours = answer.go_after_pitch_mm / unit;
        } else if (quantity == "coated_major_max") {
            ours = answer.go_after_crest_mm / unit;
        } else {
            const Limit which = quantity == "pitch_max"   ? Limit::pitch_max
                                : quantity == "pitch_min" ? Limit::pitch_min
                                : quantity == "major_max" ? Limit::major_max
                                                          : Limit::major_min;
            ours = answer.uncoated.native(which);
        }
        EXPECT_NEAR(ours, row.number("printed"), 1e-9) << row.text("row") << ' ' << quantity;
        ++counted[row.text("role")];
        ++count;
    }
    EXPECT_EQ(count, 41);
    EXPECT_EQ(counted["independent"], 38);
    EXPECT_EQ(counted["derived"], 3);
    fmt::print("before and after coating: {} independent, {} derived figures agree\n", counted["independent"],
               counted["derived"]);
}

TEST(Precoat, AnAllowanceThatHoldsKeepsTheClassLimits) {
    const Precoat answer = cut("M10-6g", "8 um");
    EXPECT_EQ(answer.way, PrecoatWay::held);
    EXPECT_EQ(native(answer, Limit::pitch_max), 8.994);
    EXPECT_EQ(native(answer, Limit::pitch_min), 8.862);
    EXPECT_DOUBLE_EQ(answer.greatest_build_up_um, 8.0);
    EXPECT_DOUBLE_EQ(answer.go_after_pitch_mm, 9.026);
    EXPECT_DOUBLE_EQ(answer.go_after_crest_mm, 10.0);
    EXPECT_DOUBLE_EQ(answer.not_go_after_pitch_mm, 8.862);
}

TEST(Precoat, WithoutAllowanceTheGreatestAndTheLeastThicknessAreTakenOff) {
    // The gauge maker's example: 0.0002 to 0.0003 in takes 0.0012 from the go and 0.0008 from the not-go
    // size.
    const Precoat inch = cut("1/4-20 UNC-3A", "0.0002-0.0003 in");
    EXPECT_EQ(inch.way, PrecoatWay::deducted);
    EXPECT_NEAR(inch.uncoated.native(Limit::pitch_max) - native(inch, Limit::pitch_max), 0.0012, 1e-12);
    EXPECT_NEAR(inch.uncoated.native(Limit::pitch_min) - native(inch, Limit::pitch_min), 0.0008, 1e-12);
    EXPECT_NEAR(inch.uncoated.native(Limit::major_max) - native(inch, Limit::major_max), 0.0006, 1e-12);
    EXPECT_NEAR(inch.uncoated.native(Limit::major_min) - native(inch, Limit::major_min), 0.0004, 1e-12);
    const Precoat metric = cut("M10-6h", "15 um");
    EXPECT_NEAR(metric.uncoated.native(Limit::pitch_max) - native(metric, Limit::pitch_max), 0.060, 1e-12);
    // 13.33 um on an internal pitch diameter: into the zone, to the last place.
    const Precoat internal = cut("M6-6H", "3.333333 um");
    EXPECT_EQ(native(internal, Limit::pitch_min), 5.364);
    EXPECT_EQ(native(internal, Limit::minor_min), 4.924);
}

TEST(Precoat, AnAllowanceTooSmallIsUsedUpAndARemedyNamed) {
    const Precoat answer = cut("M10-6g", "10 um");
    EXPECT_EQ(answer.way, PrecoatWay::deducted);
    EXPECT_EQ(native(answer, Limit::pitch_max), 8.986);  // 9.026 - 0.040
    EXPECT_EQ(native(answer, Limit::pitch_min), 8.822);  // 8.862 - 0.040
    ASSERT_TRUE(answer.has_position);
    EXPECT_EQ(answer.position, Position::f);
    EXPECT_GE(answer.position_deviation_um, 40.0);
    const Precoat inch = cut("1/4-20 UNC-3A", "0.0002 in");
    EXPECT_TRUE(inch.has_position);
    EXPECT_EQ(inch.unified_class, 2);
    EXPECT_FALSE(cut("1/4-20 UNC-2A", "hard anodise 0.002 in").has_position);
}

TEST(Precoat, OwnClassKeepsTheAllowanceAfterCoating) {
    const Precoat answer = cut("M10-6g", "5 um", GaugedAt::own_class);
    EXPECT_EQ(answer.way, PrecoatWay::deducted);
    EXPECT_EQ(native(answer, Limit::pitch_max), 8.974);
    EXPECT_DOUBLE_EQ(answer.go_after_pitch_mm, 8.994);
}

TEST(Precoat, ASpreadWiderThanTheToleranceIsRefused) {
    EXPECT_THROW((void)cut("M3-4h", "5-30 um"), DomainError);
    Precoat out;
    std::string why;
    const Status status = evaluate(
        builtin(), PrecoatRequest{parse_thread("M3-4h", builtin()), parse_build_up("5-30 um", builtin())},
        out, &why);
    EXPECT_EQ(status.code, StatusCode::inconsistent);
    EXPECT_TRUE(std::isnan(out.before.native(Limit::pitch_max)));
    EXPECT_NE(why.find("no part can be cut that gauges"), std::string::npos) << why;
    EXPECT_THROW((void)cut("M10", "5 um"), DomainError);
}

// Whatever the thread and the coating: every size within the limits before coating is, coated, within the
// gauges.
TEST(Precoat, EveryPartCutToTheLimitsGaugesAfterCoating) {
    int counted = 0;
    for (const char* name : {"M10-6g", "M10-6h", "M6-6H", "M6-6G", "M24x3-4h6h", "1/4-20 UNC-2A",
                             "1/4-20 UNC-3A", "1/2-13 UNC-2B", "M48x1.5-6g", "M8-6e"}) {
        for (const char* coating :
             {"2 um", "5-8 um", "0.0002 in min", "anodise II 10 um", "hard anodise 25 um"}) {
            for (const GaugedAt at : {GaugedAt::basic, GaugedAt::own_class}) {
                const Precoat answer = cut(name, coating, at);
                const BuildUp b = parse_build_up(coating, builtin());
                const bool external = answer.before.side == Side::external;
                const double sense = external ? 1.0 : -1.0;
                const Limit most_material = external ? Limit::pitch_max : Limit::pitch_min;
                const Limit least_material = external ? Limit::pitch_min : Limit::pitch_max;
                const double thick = sense * answer.before.mm(most_material) + 4.0 * b.max_um / 1000.0;
                EXPECT_LE(thick, sense * answer.go_after_pitch_mm + 1e-9) << name << ' ' << coating;
                if (answer.way == PrecoatWay::deducted) {
                    const double thin = sense * answer.before.mm(least_material) + 4.0 * b.min_um / 1000.0;
                    EXPECT_GE(thin, sense * answer.not_go_after_pitch_mm - 1e-9) << name << ' ' << coating;
                }
                ++counted;
            }
        }
    }
    EXPECT_EQ(counted, 100);
}

}  // namespace
}  // namespace halfnut::threads
