// SPDX-License-Identifier: MIT
/// @file
/// Flow meter: its rating point, its working range, its bounds.
#include <gtest/gtest.h>

#include <limits>
#include <string>

#include <libflow/fluid/water.hpp>
#include <libflow/parts/flow_meter.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace flow_meter_test {

using namespace units;

const FlowMeter meter{
    .bore = 15.0 * mm, .rated_flow = 10.0 * gpm, .rated_loss = 3.0 * psi, .least = 0.6 * gpm, .most = 13.0 * gpm};

TEST(FlowMeter, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) test::expect_lawful(meter, liquid);
}

TEST(FlowMeter, MeetsItsRatingPoint) {
  const auto water = test::liquid_of("water", water_density<double>(293.15), water_viscosity<double>(293.15));
  EXPECT_NEAR(meter.law(water)(si(10.0 * gpm)).dp / si(3.0 * psi), 1.0, 1e-9);
  EXPECT_NEAR(meter.law(water)(si(5.0 * gpm)).dp / si(3.0 * psi), 0.25, 0.005);
  // A heavier liquid loses more by its density, a thick one by more than that.
  const auto heavy = test::liquid_of("heavy", 1.3 * water.density, water.viscosity);
  EXPECT_NEAR(meter.law(heavy)(si(10.0 * gpm)).dp / si(3.0 * psi), 1.3, 0.01);
  EXPECT_GT(meter.law(test::thick())(si(1.0 * gpm)).dp, 1.5 * meter.law(water)(si(1.0 * gpm)).dp);
}

TEST(FlowMeter, WarnsOutsideItsWorkingRange) {
  const auto code_at = [](Flow q) {
    const Cautions found = meter.cautions(si(q), 0.0, test::water());
    return found.empty() ? std::string("none") : found[0].code;
  };
  for (const double inside : {0.6, 5.0, 13.0, -5.0, 0.0}) EXPECT_EQ(code_at(inside * gpm), "none") << inside;
  for (const double outside : {0.59, 13.1, -13.1, 1e-6}) EXPECT_EQ(code_at(outside * gpm), "meter-out-of-range");
  EXPECT_DOUBLE_EQ(meter.cautions(si(0.3 * gpm), 0.0, test::water())[0].limit, si(0.6 * gpm));
  EXPECT_DOUBLE_EQ(meter.cautions(si(-14.0 * gpm), 0.0, test::water())[0].limit, si(13.0 * gpm));
}

TEST(FlowMeter, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](auto change, const char* field) {
    FlowMeter part = meter;
    change(part);
    test::expect_refused([&] { Part(part, "meter 'f1'"); }, field);
  };
  for (const double bad : {0.0, -1.0, 2.0, nan}) {
    refused([&](FlowMeter& f) { f.rated_flow = bad * m3_per_s; }, "meter 'f1', rated flow");
    refused([&](FlowMeter& f) { f.most = bad * m3_per_s; }, "meter 'f1', most");
  }
  for (const double bad : {0.0, 2e6, nan}) {
    refused([&](FlowMeter& f) { f.rated_loss = bad * Pa; }, "meter 'f1', rated loss");
  }
  for (const double bad : {-1.0, 14.0, nan}) refused([&](FlowMeter& f) { f.least = bad * gpm; }, "meter 'f1', least");
  for (const double bad : {0.0, 0.6, nan}) refused([&](FlowMeter& f) { f.bore = bad * m; }, "meter 'f1', bore");
  // A loss of which the laminar part alone would be more.
  refused([&](FlowMeter& f) { f.rated_loss = 1.0 * Pa; }, "meter 'f1', rated loss");
  EXPECT_NO_THROW(meter.check("meter"));
}

}  // namespace flow_meter_test
}  // namespace libflow
