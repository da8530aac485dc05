// SPDX-License-Identifier: MIT
/// @file
/// Pulsed valve: its mean flow, its lags, its usable duty.
#include <gtest/gtest.h>

#include <limits>
#include <string>

#include <libflow/parts/pulsed_valve.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace pulsed_valve_test {

using namespace units;

PulsedValve valve(double duty) {
  return {.passage_bore = 2.0 * mm,
          .outlet_bore = 1.2 * mm,
          .duty = duty,
          .frequency = 10.0,
          .opening_lag = from_si<Time>(0.005),
          .closing_lag = from_si<Time>(0.003)};
}

TEST(PulsedValve, IsLawful) {
  for (const auto& liquid : {test::water(), test::thick(), test::thin()}) {
    for (const double duty : {0.06, 0.2, 0.5, 0.97, 1.0}) test::expect_lawful(valve(duty), liquid);
    test::expect_lawful(PulsedValve{.passage_bore = 0.05 * mm, .duty = 0.001}, liquid);
  }
}

TEST(PulsedValve, MeanFlowIsTheOpenFlowTimesTheOpenShare) {
  for (const auto& liquid : {test::water(), test::thick()}) {
    PulsedValve open = valve(1.0);
    for (const double duty : {0.2, 0.5, 0.8}) {
      const PulsedValve pulsed = valve(duty);
      const double share = duty - 0.002 * 10.0;
      EXPECT_NEAR(pulsed.open_share(), share, 1e-15);
      for (const double flow : {1e-9, 1e-6, 2e-5}) {
        const Drop<double> one = open.law(liquid)(flow), two = pulsed.law(liquid)(share * flow);
        EXPECT_NEAR(two.dp / one.dp, 1.0, 1e-13);
        EXPECT_NEAR(two.slope * share / one.slope, 1.0, 1e-13);
      }
    }
  }
}

// Derived, no publication: at 10 Hz and 20 % the pulse is 20 ms, so an actuator lag of 5 ms is an error of 25 %.
TEST(PulsedValve, LagTakesItsShareOfThePulse) {
  PulsedValve v{.passage_bore = 2.0 * mm, .duty = 0.2, .opening_lag = from_si<Time>(0.005)};
  EXPECT_NEAR(v.open_share() / v.duty, 0.75, 1e-14);
}

TEST(PulsedValve, RatedLosesItsRatingHeldOpen) {
  const auto water = test::liquid_of("water", water_density(293.15), water_viscosity(293.15));
  PulsedValve v = PulsedValve::rated(0.5 * gpm, 2.0 * psi);
  EXPECT_NEAR(v.law(water)(si(0.5 * gpm)).dp / si(2.0 * psi), 1.0, 1e-11);
  v.duty = 0.5;
  EXPECT_NEAR(v.law(water)(0.5 * si(0.5 * gpm)).dp / si(2.0 * psi), 1.0, 1e-11);
}

TEST(PulsedValve, Cautions) {
  const auto codes = [](const PulsedValve& v) {
    std::string all;
    for (const Caution& c : Part(v).cautions(1e-5, 2e5, test::water())) all += c.code + " ";
    return all;
  };
  EXPECT_EQ(codes(valve(0.5)), "");
  EXPECT_EQ(codes(valve(1.0)), "");
  EXPECT_EQ(codes(valve(0.19)), "duty-outside-usable ");
  EXPECT_EQ(codes(valve(0.98)), "valve-never-shuts ");  // 2 ms pause, 3 ms to shut
  PulsedValve own = valve(0.4);
  own.least_usable_duty = 0.5;
  EXPECT_EQ(codes(own), "duty-outside-usable ");
}

// 4 % of a twentieth of a second is 2 ms, less than the 5 ms that it takes to open.
TEST(PulsedValve, APulseTooShortToOpenItIsRefusedWithItsLength) {
  PulsedValve v = valve(0.04);
  v.frequency = 20.0;
  test::expect_message([&] { v.check("valve"); }, "a pulse of 0.002 s with an opening lag of 0.005 s");
}

TEST(PulsedValve, RefusesBadInput) {
  const auto refused = [](const auto& change, const std::string& field) {
    PulsedValve v = valve(0.5);
    change(v);
    test::expect_refused([&] { v.check("valve 'v1'"); }, "valve 'v1', " + field);
  };
  const double nan = std::numeric_limits<double>::quiet_NaN(), inf = std::numeric_limits<double>::infinity();
  for (const double bad : {-1.0, 1e3, nan, inf}) {
    refused([=](PulsedValve& v) { v.passage_bore = bad * m; }, "passage bore");
    refused([=](PulsedValve& v) { v.outlet_bore = bad * m; }, "outlet bore");
    refused([=](PulsedValve& v) { v.duty = bad; }, "duty");
    refused([=](PulsedValve& v) { v.frequency = bad; }, "frequency");
    refused([=](PulsedValve& v) { v.opening_lag = from_si<Time>(bad); }, "opening lag");
    refused([=](PulsedValve& v) { v.closing_lag = from_si<Time>(bad); }, "closing lag");
    refused([=](PulsedValve& v) { v.least_usable_duty = bad; }, "least usable duty");
  }
  refused([](PulsedValve& v) { v.duty = 0.0; }, "duty");
  refused([](PulsedValve& v) { v.duty = 0.04; }, "duty");  // 4 ms pulse, 5 ms to open: never opens
  test::expect_refused([] { Part(PulsedValve{}, "valve 'empty'"); }, "valve 'empty', passage bore");
}

}  // namespace pulsed_valve_test
}  // namespace libflow
