// Pressing a knurl in: the header's examples.

#include "halfnut/knurls/rolling.hpp"

#include <gtest/gtest.h>

namespace halfnut::knurls {
namespace {

TEST(Rolling, HeaderExamples) {
    EXPECT_NEAR(knurl_contact_mm(0.05, 20.0, 20.0), 0.70711, 5e-6);
    EXPECT_DOUBLE_EQ(knurl_force_n(250.0, 6.0, 0.7, 1.0), 3150.0);
    EXPECT_THROW((void)knurl_force_n(250.0, 6.0, 0.7, 1.5), DomainError);
}

}  // namespace
}  // namespace halfnut::knurls
