// SPDX-License-Identifier: MIT
/// @file
/// Given flows among one-way parts, drawn either way, and among shut ones.
#include <string>
#include <string_view>
#include <utility>

#include <gtest/gtest.h>

#include <libflow/network/network.hpp>
#include <libflow/network/structure.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace one_way_flows_test {

using namespace libflow::units;

const Hose hose{.length = 2.0 * m, .bore = 6.0 * mm};
const CheckValve valve{.crack = 20.0 * kPa, .passage_bore = 3.0 * mm};

/// The valve drawn from its outlet to its inlet.
struct ValveFromItsOutlet {
  static constexpr std::string_view kind = "valve from its outlet";
  static constexpr Contract contract = Contract::one_way;

  void check(std::string_view where) const { valve.check(where); }
  [[nodiscard]] Law law(const LiquidState& liquid) const { return valve.law(liquid).reversed(); }
  [[nodiscard]] static Passes passes() { return Passes::backward; }
};

/// A tank gives into a section, never takes from it; there a pump pushes in what a tap takes, through `middle`.
Network section(Part middle, bool turned) {
  Network n;
  n.add_supply("tank", 1.0 * bar);
  n.add_fed("pump", 1.0 * L_per_min);
  n.add_drawn("tap", 1.0 * L_per_min);
  n.add_part("in", "tank", "pump", valve);
  n.add_part("middle", turned ? 2 : 1, turned ? 1 : 2, std::move(middle));
  return n;
}

TEST(OneWayFlows, APartDrawnFromItsOutletPassesTheOtherWay) {
  EXPECT_NO_THROW((void)check_structure(section(valve, false)));
  EXPECT_NO_THROW((void)check_structure(section(ValveFromItsOutlet{}, true)));
  const Solution s = solve(section(ValveFromItsOutlet{}, true), test::water());
  ASSERT_TRUE(s.usable()) << s.message;
  EXPECT_NEAR(s.parts[1].flow, -1e-3 / 60.0, 1e-17);
  EXPECT_THROW((void)check_structure(section(valve, true)), IllPosedError);
  EXPECT_THROW((void)check_structure(section(ValveFromItsOutlet{}, false)), IllPosedError);
}

TEST(OneWayFlows, AShutTapPassesNothing) {
  const auto tap = [](double open) { return Valve{.kv = 4.0 * gpm, .bore = 19.0 * mm, .open = open}; };
  for (const bool turned : {false, true}) {
    EXPECT_NO_THROW((void)check_structure(section(tap(0.5), turned)));
    try {
      (void)check_structure(section(tap(0.0), turned));
      ADD_FAILURE() << "nothing thrown";
    } catch (const IllPosedError& e) {
      EXPECT_NE(std::string(e.what()).find("'pump'"), std::string::npos) << e.what();
    }
  }
}

// Where every part passes both ways, any given flow has its way.
TEST(OneWayFlows, WithoutOneWayPartsEverythingFits) {
  Network n;
  n.add_fed("pump", 1.0 * L_per_min);
  n.add_air("row");
  n.add_part("hose", "pump", "row", hose);
  const Incidence shape(n);
  ASSERT_TRUE(shape.two_way());
  EXPECT_NO_THROW(check_given_flows(n, shape));
}

}  // namespace one_way_flows_test
}  // namespace libflow
