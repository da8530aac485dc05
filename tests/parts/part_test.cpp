// SPDX-License-Identifier: MIT
/// @file
/// Any part: what is kept of it, and a newcomer's own part in a network.
#include <gtest/gtest.h>

#include <optional>
#include <string>

#include <libflow/network/network.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace part_test {

using namespace units;

// What somebody from outside writes: a filter mat with a resistance proportional to viscosity (Darcy's law) and
// a little inertia, in terms that the library has.
struct FilterMat {
  double resistance = 0;  ///< [1/m3], drop = resistance x viscosity x flow

  static constexpr std::string_view kind = "filter mat";
  static constexpr Contract contract = Contract::passage;

  void check(std::string_view where) const {
    require_in(fmt::format("{}, resistance", where), resistance, {1.0, 1e15}, "1/m3");
  }
  [[nodiscard]] Law law(const LiquidState& liquid) const {
    Law law;
    law.linear = resistance * liquid.viscosity;
    law.quadratic = 1e3 * liquid.density;
    return law;
  }
};

static_assert(PartType<FilterMat>);
static_assert(PartType<Hose> && PartType<CheckValve>);
static_assert(!PartType<int> && !PartType<Part>);

TEST(Part, ANewcomersPartIsTestedInOneLine) { test::expect_lawful(FilterMat{.resistance = 1e9}, test::water()); }

TEST(Part, ANewcomersPartJoinsANetworkInOneLine) {
  Network n;
  n.add_supply("pump", 30.0 * psi);
  n.add_air("row 1");
  n.add_part("mat", "pump", "row 1", FilterMat{.resistance = 1e9});
  const Part& part = n.part(n.find_part("mat")).part;
  EXPECT_EQ(part.kind(), "filter mat");
  EXPECT_EQ(part.law(test::water())(2e-5).dp, FilterMat{.resistance = 1e9}.law(test::water())(2e-5).dp);
  test::expect_refused([&] { n.add_part("bad mat", "pump", "row 1", FilterMat{}); },
                       "filter mat 'bad mat', resistance");
  EXPECT_EQ(n.part_count(), 1u);  // what was refused is not in it
}

TEST(Part, KeepsWhatThePartSays) {
  const Part hose(Hose{.length = 2.0 * m, .bore = 9.0 * mm});
  EXPECT_EQ(hose.kind(), "hose");
  EXPECT_EQ(hose.contract(), Contract::passage);
  ASSERT_TRUE(hose.bore().has_value());
  EXPECT_EQ(si(*hose.bore()), si(9.0 * mm));
  const Part valve(CheckValve{.crack = 2.0 * psi, .passage_bore = 3.0 * mm});
  EXPECT_EQ(valve.kind(), "check valve");
  EXPECT_EQ(valve.contract(), Contract::one_way);
}

TEST(Part, WhatAPartDoesNotSayIsLeftOut) {
  const Part mat(FilterMat{.resistance = 1e9});
  EXPECT_FALSE(mat.bore().has_value());
  EXPECT_TRUE(mat.cautions(1.0, 1e9, test::water()).empty());
  EXPECT_EQ(mat.input_count(), 0u);
  EXPECT_TRUE(mat.input(0).name.empty());
  EXPECT_EQ(mat.shaft_power(1e-5, test::water()), std::nullopt);
  EXPECT_EQ(mat.reynolds_number(1e-5, test::water()), 0.0);
}

TEST(Part, GivesThePartBackAsItsOwnType) {
  const Part part(Hose{.length = 2.0 * m, .bore = 9.0 * mm});
  ASSERT_NE(part.as<Hose>(), nullptr);
  EXPECT_EQ(si(part.as<Hose>()->length), 2.0);
  EXPECT_EQ(part.as<CheckValve>(), nullptr);
  EXPECT_EQ(part.as<FilterMat>(), nullptr);
}

TEST(Part, CopiesShareThePart) {
  const Part part(Hose{.length = 2.0 * m, .bore = 9.0 * mm});
  const Part copy = part;
  EXPECT_EQ(copy.as<Hose>(), part.as<Hose>());
}

TEST(Part, IsCheckedWhenMade) {
  test::expect_refused([] { Part(Hose{.length = -2.0 * m, .bore = 9.0 * mm}); }, "hose, length");
  test::expect_refused([] { Part(Hose{.length = 2.0 * m, .bore = 0.0 * mm}, "row 4"); }, "row 4, bore");
}

}  // namespace part_test
}  // namespace libflow
