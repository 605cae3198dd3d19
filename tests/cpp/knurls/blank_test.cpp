#include "halfnut/knurls/blank.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "halfnut/builtin.hpp"
#include "halfnut/knurls/tables.hpp"
#include "reference.hpp"

namespace halfnut::knurls {
namespace {

KnurlRequest diametral(double diameter_in, double pitch, Pattern pattern) {
    KnurlRequest request;
    request.diameter_mm = diameter_in * kInchMm;
    request.system = PitchSystem::diametral;
    request.pitch = pitch;
    request.pattern = pattern;
    return request;
}

KnurlRequest metric(double diameter_mm, double pitch_mm, Pattern pattern) {
    KnurlRequest request;
    request.diameter_mm = diameter_mm;
    request.pitch = pitch_mm;
    request.pattern = pattern;
    return request;
}

// Derived rows: the blank by the standard's rule, before the teeth are made whole.
TEST(KnurlBlank, MetricBlankForAFinishedDiameter) {
    const test::Reference reference("knurls/din_82_blanks.csv");
    std::size_t read = 0;
    for (const auto& row : reference.rows()) {
        KnurlRequest request = metric(row.number("finished_mm"), row.number("pitch_mm"),
                                      parse_knurl_pattern(row.text("form"), builtin()));
        request.finished = true;
        const KnurlBlank blank = knurl_blank(request, builtin());
        EXPECT_NEAR(blank.given_diameter_mm, row.number("blank_mm"), 0.0005) << row.text("id");
        EXPECT_NEAR(blank.given_teeth, row.number("teeth_to_tenth"), 0.0501) << row.text("id");
        // the answer has whole teeth and is the nearest such blank
        EXPECT_EQ(blank.teeth, std::round(blank.given_teeth)) << row.text("id");
        EXPECT_NEAR(blank.finished_diameter_mm, row.number("finished_mm"),
                    0.5 * blank.transverse_pitch_mm / std::numbers::pi + 1e-9)
            << row.text("id");
        ++read;
    }
    EXPECT_EQ(read, 23U);
}

TEST(KnurlBlank, Depths) {
    const test::Reference reference("knurls/tooth_depths.csv");
    std::size_t printed = 0;
    std::size_t derived = 0;
    for (const auto& row : reference.rows()) {
        KnurlRequest request =
            metric(25.0, row.number("pitch"), parse_knurl_pattern(row.text("pattern"), builtin()));
        double unit = 1.0;
        if (row.text("system") == "circular") {
            request.system = PitchSystem::circular;
            unit = kInchMm;
        }
        EXPECT_NEAR(knurl_blank(request, builtin()).tooth_depth_mm / unit, row.number("depth"), 0.0005 / unit)
            << row.text("id");
        (row.text("grade") == "printed" ? printed : derived) += 1;
    }
    EXPECT_EQ(printed, 1U);
    EXPECT_EQ(derived, 3U);
}

TEST(KnurlBlank, PrintedExampleThroughTheRequest) {
    KnurlRequest request = diametral(1.0, 160.0, Pattern::right);
    request.set_over = true;
    const KnurlBlank blank = knurl_blank(request, builtin());
    EXPECT_NEAR(blank.given_teeth, 138.56, 0.005);
    EXPECT_EQ(blank.below_teeth, 138.0);
    EXPECT_NEAR(blank.below_diameter_mm / kInchMm, 0.996, 0.0005);
    EXPECT_EQ(blank.teeth, 139.0);
    request.prefer = Prefer::below;
    EXPECT_EQ(knurl_blank(request, builtin()).teeth, 138.0);
    // a wheel with diagonal teeth keeps the diametral pitch around the work
    request.set_over = false;
    EXPECT_NEAR(knurl_blank(request, builtin()).given_teeth, 160.0, 1e-9);
}

TEST(KnurlBlank, VolumeRuleMeetsTheStandardsFactorsAt90Degrees) {
    std::size_t read = 0;
    for (const MetricFormRow& form : builtin().knurl_forms) {
        const double by_volume =
            form_growth_mm(sharp_tooth_depth_mm(1.0, kStandardProfileDeg), growth_share(form.pattern));
        EXPECT_NEAR(by_volume, form.blank_factor, 0.005) << form.form;
        ++read;
    }
    EXPECT_EQ(read, 7U);
}

TEST(KnurlBlank, OtherProfileAnglesUseTheVolumeRule) {
    KnurlRequest request = metric(20.0, 1.0, Pattern::straight);
    request.profile_deg = 105.0;
    EXPECT_NEAR(knurl_blank(request, builtin()).growth_mm, 0.5 * 0.767, 0.0005);
    request.profile_deg = 70.0;
    EXPECT_NEAR(knurl_blank(request, builtin()).growth_mm, 0.5 * 1.428, 0.0005);
    request.profile_deg = 90.0;
    EXPECT_EQ(knurl_blank(request, builtin()).growth_mm, 0.5);
}

TEST(KnurlBlank, CutKnurlsDoNotGrow) {
    KnurlRequest request = metric(20.0, 1.0, Pattern::diamond_raised);
    request.process = Process::cut;
    const KnurlBlank blank = knurl_blank(request, builtin());
    EXPECT_EQ(blank.growth_mm, 0.0);
    EXPECT_EQ(blank.finished_diameter_mm, blank.blank_diameter_mm);
    request.pattern = Pattern::diamond_indented;
    KnurlBlank out;
    EXPECT_EQ(evaluate(request, builtin(), out).code, StatusCode::inconsistent);
    EXPECT_THROW((void)knurl_blank(request, builtin()), DomainError);
}

TEST(KnurlBlank, StandardWheelsByDiameter) {
    // a wheel by diametral pitch brings back the closed form
    KnurlRequest request = diametral(0.5, 96.0, Pattern::straight);
    request.wheel_diameter_mm = 0.75 * kInchMm;
    const KnurlBlank by_wheel = knurl_blank(request, builtin());
    EXPECT_EQ(by_wheel.wheel_teeth, 72.0);
    EXPECT_NEAR(by_wheel.blank_diameter_mm, 12.7, 1e-9);
    // a metric wheel carries its printed count, not the nearest whole number
    request = metric(20.0, 1.0, Pattern::straight);
    request.wheel_diameter_mm = 15.0;
    const KnurlBlank by_metric_wheel = knurl_blank(request, builtin());
    EXPECT_EQ(by_metric_wheel.wheel_teeth, 48.0);
    EXPECT_LT(by_metric_wheel.transverse_pitch_mm, 1.0);
    request.wheel_diameter_mm = 16.0;
    try {
        (void)knurl_blank(request, builtin());
        FAIL();
    } catch (const NotTabulatedError& error) {
        EXPECT_NE(std::string(error.what()).find("15 mm, 20 mm"), std::string::npos) << error.what();
    }
}

TEST(KnurlBlank, ToleranceClasses) {
    KnurlRequest request = diametral(0.5, 96.0, Pattern::straight);
    request.finished = true;
    request.tolerance_class = 1;
    const KnurlBlank blank = knurl_blank(request, builtin());
    EXPECT_NEAR(blank.finished_max_mm / kInchMm, 0.504, 1e-12);
    EXPECT_NEAR(blank.finished_min_mm / kInchMm, 0.490, 1e-12);
    EXPECT_NEAR(blank.blank_plus_minus_mm / kInchMm, 0.001, 1e-12);
    EXPECT_FALSE(blank.has(KnurlCaution::off_finished));
    request.tolerance_class = 3;  // closer than half a tooth
    EXPECT_NEAR(knurl_blank(request, builtin()).finished_max_mm / kInchMm, 0.5, 1e-12);
    request.pattern = Pattern::diamond_raised;
    KnurlBlank out;
    EXPECT_EQ(evaluate(request, builtin(), out).code, StatusCode::inconsistent);
    request = metric(20.0, 1.0, Pattern::straight);
    request.tolerance_class = 1;
    EXPECT_EQ(evaluate(request, builtin(), out).code, StatusCode::inconsistent);
    request = diametral(0.5, 80.0, Pattern::straight);
    request.tolerance_class = 1;
    EXPECT_EQ(evaluate(request, builtin(), out).code, StatusCode::not_tabulated);
}

TEST(KnurlBlank, BlankShareRuleIsWhatTheTableAmountsTo) {
    std::size_t read = 0;
    for (const DiametralToleranceRow& row : builtin().knurl_tolerances) {
        const double teeth = row.blank_plus_minus_in * row.diametral_pitch;
        EXPECT_GE(teeth, 0.08 - 1e-12);
        EXPECT_LE(teeth, 0.10);
        ++read;
    }
    EXPECT_EQ(read, 12U);
}

TEST(KnurlBlank, Cautions) {
    EXPECT_TRUE(
        knurl_blank(diametral(0.5, 64.0, Pattern::straight), builtin()).has(KnurlCaution::coarse_diametral));
    EXPECT_TRUE(
        knurl_blank(diametral(0.5, 80.0, Pattern::straight), builtin()).has(KnurlCaution::stray_pitch));
    EXPECT_TRUE(
        knurl_blank(diametral(1.5, 96.0, Pattern::straight), builtin()).has(KnurlCaution::large_diametral));
    EXPECT_TRUE(knurl_blank(metric(20.0, 2.0, Pattern::straight), builtin()).has(KnurlCaution::stray_pitch));
    EXPECT_TRUE(knurl_blank(metric(3.0, 1.0, Pattern::straight), builtin()).has(KnurlCaution::few_teeth));
    KnurlRequest request = metric(20.0, 1.0, Pattern::straight);
    EXPECT_EQ(knurl_blank(request, builtin()).cautions, 0U);
    request.width_mm = 30.0;
    EXPECT_EQ(knurl_blank(request, builtin()).cautions, static_cast<std::uint32_t>(KnurlCaution::wide_band));
    request.width_mm = kNaN;
    request.wheel_diameter_mm = 20.0;
    request.wheel_teeth = 59.0;
    EXPECT_TRUE(knurl_blank(request, builtin()).has(KnurlCaution::wheel_off_pitch));
}

TEST(KnurlBlank, FailedRequestsHoldNoFigure) {
    struct Case {
        const char* what;
        KnurlRequest request;
        StatusCode code;
    };
    const auto with = [](auto change) {
        KnurlRequest request = metric(20.0, 1.0, Pattern::diamond_raised);
        change(request);
        return request;
    };
    const Case cases[] = {
        {"no diameter", with([](KnurlRequest& r) { r.diameter_mm = kNaN; }), StatusCode::not_finite},
        {"no pitch", with([](KnurlRequest& r) { r.pitch = kNaN; }), StatusCode::not_finite},
        {"negative diameter", with([](KnurlRequest& r) { r.diameter_mm = -1.0; }), StatusCode::out_of_range},
        {"two teeth", with([](KnurlRequest& r) { r.diameter_mm = 0.8; }), StatusCode::out_of_range},
        {"eaten by growth", with([](KnurlRequest& r) {
             r.diameter_mm = 0.5;
             r.finished = true;
         }),
         StatusCode::out_of_range},
        {"steep helix", with([](KnurlRequest& r) { r.helix_deg = 80.0; }), StatusCode::out_of_range},
        {"flat profile", with([](KnurlRequest& r) { r.profile_deg = 150.0; }), StatusCode::out_of_range},
        {"class 4", with([](KnurlRequest& r) { r.tolerance_class = 4; }), StatusCode::out_of_range},
        {"helix on straight", with([](KnurlRequest& r) {
             r.pattern = Pattern::straight;
             r.helix_deg = 30.0;
         }),
         StatusCode::inconsistent},
        {"set over straight", with([](KnurlRequest& r) {
             r.pattern = Pattern::straight;
             r.set_over = true;
         }),
         StatusCode::inconsistent},
        {"teeth alone", with([](KnurlRequest& r) { r.wheel_teeth = 40.0; }), StatusCode::inconsistent},
        {"allowance alone", with([](KnurlRequest& r) { r.tracking_allowance_mm = 0.1; }),
         StatusCode::inconsistent},
        {"infinite width",
         with([](KnurlRequest& r) { r.width_mm = std::numeric_limits<double>::infinity(); }),
         StatusCode::not_finite},
    };
    for (const Case& c : cases) {
        KnurlBlank out;
        EXPECT_EQ(evaluate(c.request, builtin(), out).code, c.code) << c.what;
        for (const double value : out.figures()) {
            EXPECT_TRUE(std::isnan(value)) << c.what;
        }
        EXPECT_TRUE(out.evidence.items().empty()) << c.what;
        EXPECT_EQ(out.cautions, 0U) << c.what;
        try {
            (void)knurl_blank(c.request, builtin());
            ADD_FAILURE() << c.what;
        } catch (const Error& error) {
            EXPECT_EQ(std::string(error.what()).find("nan,"), std::string::npos) << error.what();
        }
    }
}

TEST(KnurlBlank, EvidenceNamesItsFiguresAndSources) {
    KnurlRequest request = diametral(0.5, 96.0, Pattern::straight);
    request.tolerance_class = 1;
    request.wheel_diameter_mm = 0.75 * kInchMm;
    const KnurlBlank blank = knurl_blank(request, builtin());
    std::set<std::string> named;
    for (const EvidenceItem& item : blank.evidence.items()) {
        const EvidenceText text = evidence_text(item, kKnurlFigures, builtin());
        EXPECT_FALSE(text.source.empty()) << text.figure;
        named.insert(text.figure);
    }
    for (const char* figure :
         {"blank_diameter_mm", "finished_diameter_mm", "growth_mm", "tooth_depth_mm", "transverse_pitch_mm",
          "normal_pitch_mm", "blank_plus_minus_mm", "finished_max_mm", "finished_min_mm",
          "tracking_allowance_mm", "given_mismatch_teeth"}) {
        EXPECT_EQ(named.count(figure), 1U) << figure;
    }
}

}  // namespace
}  // namespace halfnut::knurls
