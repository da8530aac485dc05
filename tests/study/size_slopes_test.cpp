// SPDX-License-Identifier: MIT
/// @file
/// How a bar answers to its choices where rows are missing: valved off, dry, alone, all alike; and whichever way the
/// last part of a row is drawn.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/plumbing_edit.hpp>
#include <libflow/study/size_slopes.hpp>
#include <tests/support/rows_by_hand.hpp>
#include <tests/toolbar/bars.hpp>

namespace libflow {
namespace size_slopes_test {

using namespace units;

Toolbar sloped_bar(int rows) {
  Toolbar t = test::plain_bar(rows);
  t.check_valve = test::plain_valve();
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 1.0 * m};
  t.hose_bore = 6.0 * mm;
  return t;
}
LiquidState product() { return test::plain_job().liquid.at(test::plain_job().temperature); }
const ChoiceSlope* slope_of(const std::vector<ChoiceSlope>& all, const std::string& choice) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const ChoiceSlope& s) { return s.choice == choice; });
  return found == all.end() ? nullptr : &*found;
}
/// The bar with orifices that much wider, solved by itself.
Evenness with_wider_orifices(Toolbar t, const Job& job, double more) {
  auto& plate = std::get<OrificeByBore>(*t.orifice);
  plate.bore = from_si<Length>(si(plate.bore) + more);
  return test::judge(t, job, product()).evenness;
}
/// Slopes by the orifices' bore are those of differences.
void expect_as_differences(const Toolbar& t, const Job& job) {
  const std::vector<ChoiceSlope> slopes = choice_slopes(t, job, product());
  const ChoiceSlope* bore = slope_of(slopes, "orifice bore");
  ASSERT_NE(bore, nullptr);
  const double h = 1e-8;
  const Evenness more = with_wider_orifices(t, job, h), less = with_wider_orifices(t, job, -h);
  const auto row = static_cast<std::size_t>(bore->row - 1);
  const double deviation = (std::abs(more.rows[row].deviation) - std::abs(less.rows[row].deviation)) / (2.0 * h);
  const double cv = (more.cv - less.cv) / (2.0 * h), gauge = (more.supply_pressure - less.supply_pressure) / (2.0 * h);
  EXPECT_NEAR(bore->deviation, deviation, 1e-3 * std::abs(deviation) + 1e-5);
  EXPECT_NEAR(bore->cv, cv, 1e-3 * std::abs(cv) + 1e-5);
  EXPECT_NEAR(bore->pressure / gauge, 1.0, 1e-4);
}

TEST(SizeSlopes, OfABarWithARowThatIsValvedOff) {
  Toolbar t = sloped_bar(5);
  t.row_changes = {{.row = 1, .shut = true}};
  const Job job = test::plain_job();
  expect_as_differences(t, job);
  // The same row shut by a plug, as a fault does it: its hose is still there, and none of the choice.
  const Plumbing whole = build_network(sloped_bar(5), job);
  Plumbing plugged = edited(whole, {.throttled = {{whole.rows[0].hoses.front(), shut_part()}}, .rows_shut = {1}});
  feed_wanted_flow(plugged, plugged.supply, job);
  const Solution s = solve_plumbing(plugged, product());
  ASSERT_TRUE(s.usable()) << s.message;
  const std::vector<ChoiceSlope> by_plug = choice_slopes(plugged, product(), s, evaluate(plugged, job, s, product()));
  const std::vector<ChoiceSlope> by_valve = choice_slopes(t, job, product());
  ASSERT_EQ(by_plug.size(), by_valve.size());
  for (std::size_t k = 0; k < by_plug.size(); ++k) {
    EXPECT_EQ(by_plug[k].choice, by_valve[k].choice);
    EXPECT_EQ(by_plug[k].row, by_valve[k].row);
    EXPECT_NEAR(by_plug[k].deviation, by_valve[k].deviation, 1e-6 * std::abs(by_valve[k].deviation) + 1e-9);
    EXPECT_NEAR(by_plug[k].pressure, by_valve[k].pressure, 1e-6 * std::abs(by_valve[k].pressure) + 1e-9);
  }
}

// A row whose valve stays shut gets nothing whatever the others get: its deviation is -1 and stays there.
TEST(SizeSlopes, ADryRowStaysDry) {
  Toolbar t = sloped_bar(4);
  t.orifice = OrificeByBore{.bore = 2.0 * mm};
  t.row_changes = {{.row = 2, .crack = 5.0 * bar}};
  const Job job = test::plain_job();
  ASSERT_EQ(test::judge(t, job, product()).evenness.rows[1].flow, 0.0);
  const std::vector<ChoiceSlope> slopes = choice_slopes(t, job, product());
  ASSERT_FALSE(slopes.empty());
  for (const ChoiceSlope& s : slopes) {
    EXPECT_EQ(s.row, 2) << s.choice;
    EXPECT_NEAR(s.deviation, 0.0, 1e-12) << s.choice;
  }
  expect_as_differences(t, job);
  // Where no row gets anything there is nothing to answer.
  Job low = job;
  low.pressure = 0.9 * test::plain_valve().crack;
  EXPECT_TRUE(choice_slopes(t, low, product()).empty());
}

TEST(SizeSlopes, OneRowAnswersByItsPressureAlone) {
  const Job job = test::plain_job();
  const std::vector<ChoiceSlope> slopes = choice_slopes(sloped_bar(1), job, product());
  EXPECT_EQ(slope_of(slopes, "hose length towards equal"), nullptr);
  const ChoiceSlope* bore = slope_of(slopes, "orifice bore");
  ASSERT_NE(bore, nullptr);
  EXPECT_EQ(bore->deviation, 0.0);
  EXPECT_EQ(bore->cv, 0.0);
  const double h = 1e-8;
  const double gauge = (with_wider_orifices(sloped_bar(1), job, h).supply_pressure -
                        with_wider_orifices(sloped_bar(1), job, -h).supply_pressure) /
                       (2.0 * h);
  EXPECT_NEAR(bore->pressure / gauge, 1.0, 1e-4);
}

/// Rows on one supply; their holes drawn from the hose to the air, or the other way round.
Plumbing drawn(bool forward, double second_length) {
  Plumbing p;
  Network& n = p.network;
  p.supply = n.add_fed("pump", 2.0 * L_per_min);
  for (int row = 1; row <= 3; ++row) {
    const std::string name = fmt::format("row {}", row);
    const auto end = n.add_place(name + " end"), air = n.add_air(name);
    const double length = row == 2 ? second_length : 2.0;
    const auto hose =
        n.add_part(name + " hose", p.supply, end, Part(Hose{.length = length * m, .bore = 6.0 * mm}, "h"));
    const auto hole =
        n.add_part(name + " hole", forward ? end : air, forward ? air : end, Part(Orifice{.bore = 1.5 * mm}, "hole"));
    p.rows.push_back(test::row_by_hand(row, 0.0, 0.76, air, hole, {.orifices = {hole}, .hoses = {hose}}));
  }
  return p;
}
std::vector<ChoiceSlope> slopes_of(const Plumbing& p) {
  const Solution s = solve_plumbing(p, product());
  return choice_slopes(p, product(), s, evaluate(p, test::plain_job(), s, product()));
}

TEST(SizeSlopes, DoNotAskWhichWayTheLastPartIsDrawn) {
  const std::vector<ChoiceSlope> along = slopes_of(drawn(true, 4.0)), against = slopes_of(drawn(false, 4.0));
  ASSERT_EQ(along.size(), 3U);
  ASSERT_EQ(against.size(), 3U);
  for (std::size_t k = 0; k < along.size(); ++k) {
    ASSERT_NE(along[k].deviation, 0.0);
    EXPECT_NEAR(against[k].deviation / along[k].deviation, 1.0, 1e-9) << along[k].choice;
    EXPECT_NEAR(against[k].cv / along[k].cv, 1.0, 1e-9) << along[k].choice;
    EXPECT_NEAR(against[k].pressure / along[k].pressure, 1.0, 1e-9) << along[k].choice;
  }
}

/// The same with hoses that carry a suspension.
Plumbing with_suspension(double second_length) {
  Plumbing p = drawn(true, second_length);
  for (const RowPlumbing& row : p.rows) {
    const auto hose = row.hoses.front();
    const Hose& thin = *p.network.part(hose).part.as<Hose>();
    const SuspensionHose thick{.length = thin.length, .bore = thin.bore, .consistency = 0.02, .flow_index = 0.8};
    p.network.replace_part(hose, Part(thick, "h"));
  }
  return p;
}

// A hose of a suspension has a bore and a length as any other.
TEST(SizeSlopes, OfHosesThatCarryASuspension) {
  const std::vector<ChoiceSlope> slopes = slopes_of(with_suspension(4.0));
  ASSERT_EQ(slopes.size(), 3U);
  const ChoiceSlope *bore = slope_of(slopes, "hose bore"), *equal = slope_of(slopes, "hose length towards equal");
  ASSERT_NE(bore, nullptr);
  EXPECT_DOUBLE_EQ(bore->value, 0.006);
  EXPECT_LT(bore->deviation, 0.0) << "the wider, the less a hose's length counts";
  ASSERT_NE(equal, nullptr);
  EXPECT_EQ(equal->row, 2);
  // A part of the way to equal hoses, solved by itself: the two short ones get longer.
  const auto at = [](double share) {
    Plumbing p = with_suspension(4.0);
    for (const std::size_t row : {0U, 2U}) {
      const auto hose = p.rows[row].hoses.front();
      p.network.replace_part(hose, p.network.part(hose).part.with_input(0, 2.0 + 2.0 * share, "h"));
    }
    const Solution s = solve_plumbing(p, product());
    return evaluate(p, test::plain_job(), s, product());
  };
  const double h = 1e-5;
  const Evenness more = at(h), less = at(-h);
  const double deviation = (std::abs(more.rows[1].deviation) - std::abs(less.rows[1].deviation)) / (2.0 * h);
  EXPECT_NEAR(equal->deviation / deviation, 1.0, 1e-4);
  EXPECT_NEAR(equal->pressure / ((more.supply_pressure - less.supply_pressure) / (2.0 * h)), 1.0, 1e-4);
}

// A plate with a hole in the place of row 1's hose has no length to be made equal: the way to equal hoses is row 3's
// alone.
TEST(SizeSlopes, OfAPlateInTheHosesPlace) {
  const auto with_plate = [](double third_length) {
    Plumbing p = with_suspension(4.0);
    p.network.replace_part(p.rows[0].hoses.front(), Part(Orifice{.bore = 3.0 * mm}, "plate"));
    const auto hose = p.rows[2].hoses.front();
    p.network.replace_part(hose, p.network.part(hose).part.with_input(0, third_length, "h"));
    return p;
  };
  const std::vector<ChoiceSlope> slopes = slopes_of(with_plate(2.0));
  const ChoiceSlope* equal = slope_of(slopes, "hose length towards equal");
  ASSERT_NE(equal, nullptr);
  const double h = 1e-5;
  const auto gauge = [&](double share) {
    const Plumbing p = with_plate(2.0 + 2.0 * share);
    const Solution s = solve_plumbing(p, product());
    return evaluate(p, test::plain_job(), s, product()).supply_pressure;
  };
  EXPECT_NEAR(equal->pressure / ((gauge(h) - gauge(-h)) / (2.0 * h)), 1.0, 1e-4);
}

// Rows that are all alike are as even as can be: the coefficient of variation has no slope there, and it is told as 0.
TEST(SizeSlopes, OfRowsThatAreAllAlike) {
  const std::vector<ChoiceSlope> slopes = slopes_of(drawn(true, 2.0));
  ASSERT_EQ(slopes.size(), 2U) << "no hose is short of the longest";
  for (const ChoiceSlope& s : slopes) {
    EXPECT_EQ(s.cv, 0.0) << s.choice;
    EXPECT_NEAR(s.deviation * s.value, 0.0, 1e-9) << s.choice;
    EXPECT_LT(s.pressure, 0.0) << s.choice << ": wider takes less";
  }
}

}  // namespace size_slopes_test
}  // namespace libflow
