// SPDX-License-Identifier: MIT
/// @file
/// Row outlet: one tube or two, whether a hanging one runs full, and liquid that leaves into soil that pushes back.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include <libflow/network/network.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/row_outlet.hpp>
#include <libflow/solve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace row_outlet_test {

using namespace units;

TEST(RowOutlet, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double bore : {1e-4, 0.006, 0.5}) {
      test::expect_lawful(RowOutlet{.bore = bore * m}, liquid);
      test::expect_lawful(RowOutlet{.bore = bore * m, .count = 2, .fall = 0.6 * m}, liquid);
    }
  }
}

TEST(RowOutlet, TwoShareTheFlow) {
  const auto liquid = test::water();
  const Law one = OpenEnd{.bore = 6.0 * mm}.law(liquid), two = RowOutlet{.bore = 6.0 * mm, .count = 2}.law(liquid);
  for (const double flow : {1e-9, 1e-6, 1e-4}) EXPECT_NEAR(two(flow).dp / one(0.5 * flow).dp, 1.0, 1e-14);
  EXPECT_NEAR(RowOutlet{.bore = 6.0 * mm}.law(liquid)(1e-5).dp / one(1e-5).dp, 1.0, 1e-14);
  // The same mean velocity, whether one asks for one tube or for both.
  const double bore = si(RowOutlet{.bore = 6.0 * mm, .count = 2}.inside_bore());
  EXPECT_NEAR(physics::velocity_head<double>(2e-5, bore, 1000.0) / physics::velocity_head<double>(1e-5, 0.006, 1000.0),
              1.0, 1e-14);
}

// P. D. Hills 1983: below a Froude number of 0.3 air climbs, above 1 it is swept out; F. P. Bretherton 1961: never in a
// narrow tube (sources in physics/discharge.hpp).
TEST(RowOutlet, CautionsWhereATubeMayNotRunFull) {
  const auto found = [](double bore, double litres_a_minute, double fall, int count = 1) {
    const RowOutlet outlet{.bore = bore * mm, .count = count, .fall = fall * m};
    return Part(outlet).cautions(litres_a_minute / 6e4, 1e3, test::water());
  };
  EXPECT_TRUE(found(4.0, 0.01, 0.6).empty());     // narrow: its liquid hangs
  EXPECT_TRUE(found(12.7, 5.0, 0.6).empty());     // fast
  EXPECT_TRUE(found(12.7, 0.3, 0.0).empty());     // nothing hangs
  EXPECT_TRUE(found(12.7, 0.0, 0.6).empty());     // nothing flows
  EXPECT_EQ(found(12.7, 0.3, 0.005).size(), 1u);  // a short tube too
  EXPECT_EQ(found(12.7, 0.003, 0.6).size(), 1u);  // and a trickle
  const Cautions slow = found(12.7, 0.3, 0.6);
  ASSERT_EQ(slow.size(), 1u);
  EXPECT_EQ(slow[0].code, "may-not-run-full");
  EXPECT_NE(slow[0].text.find("runs partly full"), std::string::npos);
  EXPECT_NE(slow[0].text.find("5.87 kPa"), std::string::npos) << slow[0].text;  // 998.21 x 9.80665 x 0.6 m
  const Cautions between = found(12.7, 2.0, 0.6);
  ASSERT_EQ(between.size(), 1u);
  EXPECT_NE(between[0].text.find("may run full or partly full"), std::string::npos);
  EXPECT_LT(between[0].value, between[0].limit);
  // Two tubes carry half each.
  EXPECT_TRUE(found(12.7, 3.0, 0.6).empty());
  EXPECT_EQ(found(12.7, 3.0, 0.6, 2).size(), 1u);
}

// The place in the soil is held at what stands over it; the flow is that of the pressure that is left (an orifice and
// an outlet in series; by hand from their laws).
TEST(RowOutlet, SoilPushesBack) {
  const auto liquid = test::water();
  const Pressure soil = soil_back_pressure(0.5 * m, liquid);
  EXPECT_NEAR(si(soil), 998.21 * 9.80665 * 0.5, 1e-9);
  Network n;
  n.add_supply("bar", 20.0 * kPa);
  n.add_place("tube");
  n.add_supply("soil", soil);
  n.add_part("orifice", "bar", "tube", Orifice{.bore = 1.0 * mm});
  n.add_part("outlet", "tube", "soil", RowOutlet{.bore = 6.0 * mm});
  const Solution s = solve(n, liquid);
  const double flow = s.parts.at(0).flow;
  const double drop = Orifice{.bore = 1.0 * mm}.law(liquid)(flow).dp + RowOutlet{.bore = 6.0 * mm}.law(liquid)(flow).dp;
  EXPECT_NEAR(drop / (20e3 - si(soil)), 1.0, 1e-9);
  test::expect_refused([&] { (void)soil_back_pressure(-0.1 * m, liquid); }, "soil back pressure, depth");
}

TEST(RowOutlet, RefusesBadInput) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {0.0, -0.01, 0.51, nan}) {
    test::expect_refused([&] { RowOutlet{.bore = bad * m}.check("outlet 'r1'"); }, "outlet 'r1', bore");
  }
  for (const int bad : {-1, 0, 3}) {
    test::expect_refused([&] { RowOutlet{.bore = 6.0 * mm, .count = bad}.check("outlet 'r1'"); }, "outlet 'r1', count");
  }
  for (const double bad : {-0.1, 5.1, nan}) {
    test::expect_refused([&] { RowOutlet{.bore = 6.0 * mm, .fall = bad * m}.check("outlet 'r1'"); },
                         "outlet 'r1', fall");
    test::expect_refused([&] { RowOutlet{.bore = 6.0 * mm, .surface_tension = bad}.check("outlet 'r1'"); },
                         "outlet 'r1', surface tension");
  }
}

}  // namespace row_outlet_test
}  // namespace libflow
