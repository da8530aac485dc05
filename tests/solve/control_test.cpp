// SPDX-License-Identifier: MIT
/// @file
/// A controller finds its setting, or says plainly which limit keeps it from it.
#include <cmath>
#include <functional>

#include <gtest/gtest.h>

#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/solve.hpp>
#include <libflow/solve/control.hpp>

namespace libflow {
namespace control_test {

using namespace units;

double delivered(const Network& n, const Solution& s) {
  double sum = 0.0;
  for (Network::PartIndex i = 0; i < n.part_count(); ++i) {
    if (n.place(n.to(i)).kind == PlaceKind::air) sum += s.parts[i].flow;
  }
  return sum;
}

/// Rows behind check valves, from a supply held at a pressure.
Network rows_at(Pressure pressure) {
  Network n;
  n.add_supply("supply", pressure);
  for (int row = 1; row <= 8; ++row) {
    const std::string name = fmt::format("row {}", row);
    n.add_place(name + " end");
    n.add_air(name);
    n.add_part(name + " valve", "supply", name + " end",
               CheckValve{.crack = (2.0 + row) * psi, .passage_bore = 3.0 * mm});
    n.add_part(name + " orifice", name + " end", name, Orifice{.bore = 1.1 * mm});
  }
  return n;
}

Control pressure_control(double wanted, Range limits) {
  const Network shape = rows_at(1.0 * psi);
  return {.setting = "supply pressure",
          .unit = "Pa",
          .limits = limits,
          .solve_at = [](double p) { return solve(rows_at(p * Pa), {}); },
          .total = [shape](const Solution& s) { return delivered(shape, s); },
          .wanted = wanted};
}

// The pressure that a controller finds is the one that appears when the total is pushed in.
TEST(Control, AgreesWithAFedSupply) {
  for (const double share : {0.02, 0.3, 1.0, 2.0}) {
    const double wanted = share * si(1.0 * gpm);
    const ControlledSolution c = reach_total(pressure_control(wanted, {0.0, 5e6}));
    ASSERT_TRUE(c.reached) << c.message;
    EXPECT_NEAR(c.total / wanted, 1.0, 1e-9);
    Network fed;
    fed.add_fed("supply", from_si<Flow>(wanted));
    for (int row = 1; row <= 8; ++row) {
      const std::string name = fmt::format("row {}", row);
      fed.add_place(name + " end");
      fed.add_air(name);
      fed.add_part(name + " valve", "supply", name + " end",
                   CheckValve{.crack = (2.0 + row) * psi, .passage_bore = 3.0 * mm});
      fed.add_part(name + " orifice", name + " end", name, Orifice{.bore = 1.1 * mm});
    }
    EXPECT_NEAR(c.setting / solve(fed, {}).places[0].total_pressure, 1.0, 1e-7);
  }
}

TEST(Control, SaysWhichLimitStopsIt) {
  const ControlledSolution high = reach_total(pressure_control(si(5.0 * gpm), {0.0, si(40.0 * psi)}));
  EXPECT_FALSE(high.reached);
  EXPECT_EQ(high.setting, si(40.0 * psi));
  EXPECT_NE(high.message.find("cannot go above"), std::string::npos) << high.message;
  const ControlledSolution low = reach_total(pressure_control(si(0.01 * gpm), {si(20.0 * psi), si(40.0 * psi)}));
  EXPECT_FALSE(low.reached);
  EXPECT_NE(low.message.find("cannot go below"), std::string::npos) << low.message;
}

TEST(Control, PumpSpeed) {
  const auto at_speed = [](double speed) {
    Network with_pump;
    with_pump.add_supply("tank", 0.0 * psi);
    with_pump.add_place("supply");
    with_pump.add_part("pump", "tank", "supply",
                       CentrifugalPump{.shutoff = 60.0 * psi, .free_flow = 10.0 * gpm, .speed = speed});
    for (int row = 1; row <= 8; ++row) {
      const std::string name = fmt::format("row {}", row);
      with_pump.add_air(name);
      with_pump.add_part(name + " orifice", "supply", name, Orifice{.bore = 1.1 * mm});
    }
    return with_pump;
  };
  const Network shape = at_speed(1.0);
  const Control c{.setting = "pump speed",
                  .unit = "of full",
                  .limits = {0.05, 1.2},
                  .solve_at = [&](double v) { return solve(at_speed(v), {}); },
                  .total = [&](const Solution& s) { return delivered(shape, s); },
                  .wanted = si(1.0 * gpm)};
  const ControlledSolution found = reach_total(c);
  ASSERT_TRUE(found.reached) << found.message;
  EXPECT_GT(found.setting, 0.05);
  EXPECT_LT(found.setting, 1.0);
}

/// A controller of something that is no network: what it delivers at a setting is told by a function.
Control of_function(std::function<double(double)> total, double wanted, Status status = Status::converged) {
  return {.setting = "dial",
          .unit = "turns",
          .limits = {2.0, 8.0},
          .solve_at =
              [total, status](double x) {
                Solution s;
                s.status = status;
                s.parts.resize(1);
                s.parts[0].flow = total(x);
                return s;
              },
          .total = [](const Solution& s) { return s.parts[0].flow; },
          .wanted = wanted};
}

// A litre a second a turn, so the shares can be told by heart.
double litre_a_turn(double turns) { return 1e-3 * turns; }

TEST(Control, SaysByHowMuchALimitMissesTheTotal) {
  const ControlledSolution high = reach_total(of_function(litre_a_turn, 10e-3));
  EXPECT_FALSE(high.reached);
  EXPECT_EQ(high.setting, 8.0);
  EXPECT_EQ(high.total, 8e-3);
  EXPECT_EQ(high.solution.parts.at(0).flow, 8e-3);
  EXPECT_EQ(high.solves, 2);
  EXPECT_EQ(high.message, "dial cannot go above 8 turns, which gives 20 % less than wanted");
  const ControlledSolution low = reach_total(of_function(litre_a_turn, 1.6e-3));
  EXPECT_FALSE(low.reached);
  EXPECT_EQ(low.setting, 2.0);
  EXPECT_EQ(low.total, 2e-3);
  EXPECT_EQ(low.solves, 1);
  EXPECT_EQ(low.message, "dial cannot go below 2 turns, which gives 25 % more than wanted");
}

// Within a thousandth of a millionth of the wanted total it is reached, be that at a limit; beyond it is not.
TEST(Control, ALimitThatGivesTheTotalIsTheAnswer) {
  for (const double off : {0.0, 0.99e-9, -0.99e-9}) {
    const ControlledSolution low = reach_total(of_function(litre_a_turn, 2e-3 * (1.0 + off)));
    EXPECT_TRUE(low.reached) << off;
    EXPECT_EQ(low.solves, 1) << off;
    EXPECT_EQ(low.setting, 2.0) << off;
    EXPECT_EQ(low.message, "dial 2 turns gives the wanted total");
    const ControlledSolution high = reach_total(of_function(litre_a_turn, 8e-3 * (1.0 + off)));
    EXPECT_TRUE(high.reached) << off;
    EXPECT_EQ(high.solves, 2) << off;
    EXPECT_EQ(high.setting, 8.0) << off;
    EXPECT_EQ(high.message, "dial 8 turns gives the wanted total");
  }
  EXPECT_FALSE(reach_total(of_function(litre_a_turn, 2e-3 * (1.0 - 1.01e-9))).reached);
  EXPECT_FALSE(reach_total(of_function(litre_a_turn, 8e-3 * (1.0 + 1.01e-9))).reached);
}

// The total jumps from one litre to three at five turns: of the two sides the nearer one is taken.
TEST(Control, WhereTheTotalJumpsTheNearerSideIsTaken) {
  for (const double wanted : {1.8e-3, 2.2e-3}) {
    const double nearer = wanted < 2e-3 ? 1e-3 : 3e-3;
    const ControlledSolution c = reach_total(of_function([](double x) { return x < 5.0 ? 1e-3 : 3e-3; }, wanted));
    EXPECT_FALSE(c.reached);
    EXPECT_EQ(c.total, nearer);
    EXPECT_EQ(c.solution.parts.at(0).flow, nearer);
    EXPECT_EQ(c.setting < 5.0, wanted < 2e-3);
    EXPECT_NEAR(c.setting, 5.0, 1e-12);
    EXPECT_EQ(c.message, "dial 5 turns comes nearest: the total jumps over the wanted one there");
  }
}

TEST(Control, CountsItsSolvesAndEndsAtItsLastOne) {
  int calls = 0;
  double last = 0.0;
  const ControlledSolution c = reach_total(of_function(
      [&](double x) {
        ++calls;
        last = x;
        return 1e-5 * x * x * x;
      },
      3e-3));
  ASSERT_TRUE(c.reached) << c.message;
  EXPECT_NEAR(c.setting, std::cbrt(300.0), 1e-8);
  EXPECT_EQ(c.setting, last);
  EXPECT_EQ(c.solves, calls);
}

TEST(Control, AnAnswerThatIsNoneReachesNothing) {
  for (const double wanted : {2e-3, 5e-3, 8e-3}) {
    EXPECT_FALSE(reach_total(of_function(litre_a_turn, wanted, Status::iteration_limit)).reached) << wanted;
  }
}

TEST(Control, NonsenseIsRefused) {
  EXPECT_THROW((void)reach_total(pressure_control(0.0, {0.0, 1e5})), InputError);
  EXPECT_THROW((void)reach_total(pressure_control(1e-5, {1e5, 0.0})), InputError);
}

}  // namespace control_test
}  // namespace libflow
