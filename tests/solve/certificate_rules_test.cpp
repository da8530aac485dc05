// SPDX-License-Identifier: MIT
/// @file
/// The rules of the certificate one by one, on answers made up by hand: what counts as a misfit, what it is held
/// against, and what shut parts leave open.
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/solve/certificate.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace certificate_rules_test {

using namespace libflow::units;

constexpr double infinite = std::numeric_limits<double>::infinity();

TEST(CertificateRules, WhatIsNoNumberIsLargerThanEverything) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(certificate_detail::larger_or_infinite(2.0, 1.0), 2.0);
  EXPECT_EQ(certificate_detail::larger_or_infinite(1.0, 2.0), 2.0);
  EXPECT_EQ(certificate_detail::larger_or_infinite(1.0, nan), infinite);
}

TEST(CertificateRules, MisfitOfAPartThatPassesOneWay) {
  struct Row {
    Passes passes;
    double flow, miss, misfit;
  };
  for (const Row& r : {
           Row{Passes::both, -1.0, 3.0, 3.0},
           Row{Passes::both, 0.0, -3.0, -3.0},  // its law holds at any flow
           Row{Passes::forward, 1.0, -3.0, -3.0},
           Row{Passes::forward, 1.0, 3.0, 3.0},
           Row{Passes::forward, 0.0, 3.0, 3.0},
           Row{Passes::forward, 0.0, -3.0, 0.0},  // shut, it holds back
           Row{Passes::forward, -1e-30, 0.0, infinite},
           Row{Passes::backward, -1.0, 3.0, 3.0},
           Row{Passes::backward, -1.0, -3.0, -3.0},
           Row{Passes::backward, 0.0, -3.0, -3.0},
           Row{Passes::backward, 0.0, 3.0, 0.0},
           Row{Passes::backward, 1e-30, 0.0, infinite},
           Row{Passes::neither, 0.0, 3.0, 0.0},
           Row{Passes::neither, 0.0, -3.0, 0.0},
           Row{Passes::neither, 1e-30, 0.0, infinite},
           Row{Passes::neither, -1e-30, 0.0, infinite},
       }) {
    EXPECT_EQ(certificate_detail::one_way_misfit(r.passes, r.flow, r.miss), r.misfit)
        << static_cast<int>(r.passes) << " " << r.flow << " " << r.miss;
  }
}

// 2e-15 of two pressures and a threshold: of the known places the largest, by size.
TEST(CertificateRules, AChosenPressureHasTheRoundingOfWhatItHangsOn) {
  std::vector<Law> laws(3);
  laws[0].threshold = 2e5;
  laws[1].threshold = -5e5;
  const double blur = certificate_detail::rounding_of_chosen(laws, {3e5, 9e9, -4e5}, {1, 0, 1});
  EXPECT_NEAR(blur, 2e-15 * (4e5 + 4e5 + 5e5), 1e-24);
}

/// An answer made up by hand: flows and potentials of laws r q + threshold, whatever their network would do.
struct MadeUp {
  Network network;
  std::vector<Law> laws;
  std::vector<double> flow, potential;
  std::vector<PlaceResult> places;
  Place datum{};
  double weight = 1e4;

  void part(std::size_t from, std::size_t to, double slope, double q, double threshold = 0.0,
            Passes passes = Passes::both) {
    network.add_part("part " + std::to_string(laws.size()), from, to, Part(test::QuadraticPart{.k = 1.0}));
    laws.emplace_back();
    laws.back().linear = slope;
    laws.back().threshold = threshold;
    laws.back().passes = passes;
    flow.push_back(q);
  }
  Certificate certify() { return libflow::certify(network, laws, flow, potential, datum, weight, places); }
};

/// One part of 1000 Pa between two held places that are `apart`.
MadeUp one_part(double apart, double threshold = 0.0, Passes passes = Passes::both) {
  MadeUp a;
  a.network.add_supply("high", 1.0 * kPa);
  a.network.add_air("air");
  a.part(0, 1, 1e6, 1e-3, threshold, passes);
  a.potential = {apart, 0.0};
  return a;
}

// The measure of a misfit is the largest of the drops of the laws, of the differences of the potentials, and of the
// thresholds, of parts at work.
TEST(CertificateRules, WhatAMisfitIsHeldAgainst) {
  EXPECT_NEAR(one_part(1001.0).certify().energy_residual, 1.0 / 1001.0, 1e-12);
  EXPECT_NEAR(one_part(999.0).certify().energy_residual, 1.0 / 1000.0, 1e-12);
  EXPECT_NEAR(one_part(-1999.0, -3000.0).certify().energy_residual, 1.0 / 3000.0, 1e-12);
  EXPECT_NEAR(one_part(1001.0, 0.0, Passes::forward).certify().energy_residual, 1.0 / 1001.0, 1e-12);
  // A part that carries nothing: one that could either way counts, a shut one does not.
  for (const Passes passes : {Passes::both, Passes::forward}) {
    MadeUp a = one_part(1001.0);
    a.part(0, 1, 1e6, 0.0, 5000.0, passes);
    const double scale = passes == Passes::both ? 5000.0 : 1001.0, miss = passes == Passes::both ? 3999.0 : 1.0;
    EXPECT_NEAR(a.certify().energy_residual, miss / scale, 1e-12);
  }
}

// Where every drop is far below a thousand-millionth of a pascal, that is the measure; and so for flows.
TEST(CertificateRules, WhereNothingMovesTheMeasureIsTheLeastDropAndTheLeastFlow) {
  MadeUp a = one_part(3e-10);
  a.flow[0] = 0.0;
  EXPECT_NEAR(a.certify().energy_residual, 0.3, 1e-9);
  MadeUp b;
  b.network.add_supply("high", 1.0 * kPa);
  b.network.add_place("middle");
  b.network.add_air("air");
  b.part(0, 1, 1e6, 4e-19);
  b.part(1, 2, 1e6, 1e-19);
  b.potential = {0.0, 0.0, 0.0};
  EXPECT_NEAR(b.certify().mass_residual, 0.3, 1e-12);
}

// What is missing at a place is held against the largest flow of all, given ones included; a held place may give what
// it likes.
TEST(CertificateRules, WhatAnImbalanceIsHeldAgainst) {
  MadeUp a;
  a.network.add_fed("pump", from_si<Flow>(4e-3));
  a.network.add_place("middle");
  a.network.add_drawn("tap", from_si<Flow>(1e-3));
  a.network.add_air("air");
  a.part(0, 1, 1e6, 3e-3);
  a.part(2, 1, 1e6, -1e-3);
  a.part(1, 3, 1e6, 2e-3);
  a.potential = {0.0, 0.0, 0.0, 0.0};
  EXPECT_NEAR(a.certify().mass_residual, 0.25, 1e-12);  // the pump's 4 less 3
  a.flow = {4e-3, -1e-3, 2e-3};
  EXPECT_NEAR(a.certify().mass_residual, 0.25, 1e-12);  // 4 into the middle, 3 out
  a.flow = {4e-3, -2e-3, 2e-3};
  EXPECT_NEAR(a.certify().mass_residual, 0.25, 1e-12);  // the tap takes 1 and gets 2
  a.flow = {4e-3, -1e-3, 3e-3};
  EXPECT_LE(a.certify().mass_residual, 1e-15);
  a.flow = {4e-3, -1e-3, 8e-3};
  EXPECT_NEAR(a.certify().mass_residual, 0.625, 1e-12);  // the largest flow is one of a part
}

// In a pocket behind a shut part no pressure is a measure of anything, but a law must hold there too.
TEST(CertificateRules, PressuresOfAPocketAreNoMeasure) {
  MadeUp a = one_part(1000.0);
  a.network.add_place("pocket");
  a.network.add_place("end");
  a.part(1, 2, 1e6, 0.0, 0.0, Passes::forward);
  a.part(2, 3, 1e6, 0.0);
  a.potential = {1000.0, 0.0, 2e6, 1e6};
  EXPECT_NEAR(a.certify().energy_residual, 1e6 / 1000.0, 1e-6);
  EXPECT_TRUE(a.places[0].determined);
  EXPECT_TRUE(a.places[1].determined);
  EXPECT_FALSE(a.places[2].determined);
  EXPECT_FALSE(a.places[3].determined);
  a.flow[1] = 1e-12;  // open it, and they are known
  EXPECT_LT(a.certify().energy_residual, 3.0);
  EXPECT_TRUE(a.places[2].determined);
  EXPECT_TRUE(a.places[3].determined);
}

// Total pressure: the datum's, and the weight of the liquid from the place down to it.
TEST(CertificateRules, PressuresCountFromTheDatumsPressureAndHeight) {
  MadeUp a = one_part(1000.0);
  a.datum.pressure = 250.0;
  a.datum.elevation = 0.5;
  a.network.set_elevation(0, 0.7 * m);
  a.network.set_elevation(1, 0.2 * m);
  (void)a.certify();
  EXPECT_NEAR(a.places[0].total_pressure, 1000.0 + 250.0 - 1e4 * 0.2, 1e-9);
  EXPECT_NEAR(a.places[1].total_pressure, 0.0 + 250.0 + 1e4 * 0.3, 1e-9);
  for (const PlaceResult& p : a.places) {
    EXPECT_EQ(p.lower, p.total_pressure);
    EXPECT_EQ(p.upper, p.total_pressure);
  }
}

// Between shut parts, each drawn either way: from the supply's 1000 Pa the pocket has at least 1000 - 300, to the air
// at most 450, whichever is drawn how. A part that passes neither way says nothing of it.
TEST(CertificateRules, BoundsOfAPocketHoweverItsPartsAreDrawn) {
  for (int ways = 0; ways < 8; ++ways) {
    MadeUp a = one_part(1000.0);
    a.network.add_place("pocket", 0.1 * m);
    a.network.add_place("end");
    const auto shut = [&](std::size_t from, std::size_t to, double crack, bool turned) {
      if (turned) return a.part(to, from, 1e6, 0.0, -crack, Passes::backward);
      a.part(from, to, 1e6, 0.0, crack, Passes::forward);
    };
    shut(0, 2, 300.0, (ways & 1) != 0);
    shut(3, 1, 450.0, (ways & 2) != 0);
    a.part((ways & 4) != 0 ? 3 : 2, (ways & 4) != 0 ? 2 : 3, 1e6, 0.0, (ways & 4) != 0 ? -20.0 : 20.0);
    a.part(2, 1, 1e6, 0.0, 0.0, Passes::neither);
    a.potential = {1000.0, 0.0, 460.0, 440.0};
    (void)a.certify();
    EXPECT_NEAR(a.places[2].lower, 700.0 - 1e3, 1e-9) << ways;
    EXPECT_NEAR(a.places[2].upper, 470.0 - 1e3, 1e-9) << ways;
    EXPECT_NEAR(a.places[3].lower, 680.0, 1e-9) << ways;
    EXPECT_NEAR(a.places[3].upper, 450.0, 1e-9) << ways;
  }
}

// A hose between a shut valve and a dead end: nothing is known of either side's pressure.
TEST(CertificateRules, BehindAPartThatIsShutBothWaysAnyPressureMayStand) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_place("tee");
  n.add_air("row");
  n.add_place("pocket");
  n.add_place("far end");
  n.add_part("feed", "tank", "tee", Hose{.length = 2.0 * m, .bore = 6.0 * mm});
  n.add_part("tip", "tee", "row", Hose{.length = 2.0 * m, .bore = 6.0 * mm});
  n.add_part("tap", "tee", "pocket", Valve{.kv = 4.0 * gpm, .bore = 19.0 * mm, .open = 0.0});
  n.add_part("spur", "pocket", "far end", Hose{.length = 2.0 * m, .bore = 6.0 * mm});
  const Solution s = solve(n, test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_EQ(s.parts[2].valve, ValveState::closed);
  for (const std::size_t i : {3u, 4u}) {
    EXPECT_FALSE(s.places[i].determined);
    EXPECT_EQ(s.places[i].lower, -infinite);
    EXPECT_EQ(s.places[i].upper, infinite);
  }
}

}  // namespace certificate_rules_test
}  // namespace libflow
