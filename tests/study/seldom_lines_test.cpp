// SPDX-License-Identifier: MIT
/// @file
/// How a hose's own wall, and how a soil or crop is written, come through.
#include <gtest/gtest.h>

#include <cstddef>
#include <string>
#include <utility>

#include <libflow/study/lines.hpp>
#include <libflow/study/seed_limits.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace seldom_lines_test {

using namespace units;

/// A bar of two rows part by part; every hose's wall this share of its bore, or unsaid.
static Layout by_parts(double share) {
  Plumbing p = build_network(test::plain_bar(2), test::plain_job());
  for (std::size_t i = 0; i < p.network.part_count(); ++i) {
    if (const auto* hose = p.network.part(i).part.as<Hose>()) {
      Hose walled = *hose;
      if (share > 0.0) walled.wall_thickness = share * hose->bore;
      p.network.replace_part(i, walled);
    }
  }
  return {.name = "parts", .job = test::plain_job(), .plumbing = std::move(p)};
}

// A thinner wall gives way more, so a pressure wave is slower; a wall that a hose states goes before the assumed share.
TEST(SeldomLines, AHosesOwnWallGoesBeforeTheAssumedOne) {
  const Lines stated = lines(by_parts(0.05), {.wall_share = 0.4});
  const Lines assumed = lines(by_parts(0.0), {.wall_share = 0.05});
  const Lines thick = lines(by_parts(0.0), {.wall_share = 0.4});
  ASSERT_EQ(stated.rows.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(stated.rows[i].pressure_delay, assumed.rows[i].pressure_delay, 1e-12 * assumed.rows[i].pressure_delay);
    EXPECT_GT(stated.rows[i].pressure_delay, 1.1 * thick.rows[i].pressure_delay);
    EXPECT_NEAR(stated.rows[i].fill, thick.rows[i].fill, 1e-9 * thick.rows[i].fill);  // the bore is the same
  }
}

TEST(SeldomLines, SoilsAndCropsByEveryNameOfTheirHeader) {
  for (const char* name : {"medium", "fine", "medium or fine"}) {
    EXPECT_EQ(parse_soil(name), Soil::medium_or_fine) << name;
  }
  for (const char* name : {"dry bean", "dry-bean", "dry_bean"}) EXPECT_EQ(parse_crop(name), Crop::dry_bean) << name;
}

}  // namespace seldom_lines_test
}  // namespace libflow
