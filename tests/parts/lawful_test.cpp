// SPDX-License-Identifier: MIT
/// @file
/// The check of a part's contract finds each way of breaking it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <libflow/parts/hose.hpp>
#include <tests/support/lawful.hpp>
#include <tests/support/liquids.hpp>

namespace libflow {
namespace lawful_test {

using test::has_fault;

// Lawful alone: 1e6 q + 1e10 q|q|.
Drop<double> good(double q) { return {q * (1e6 + 1e10 * std::abs(q)), 1e6 + 2e10 * std::abs(q)}; }

template <class F>
Law with(F f) {
  Law law;
  law.functions.emplace_back(std::move(f));
  return law;
}

TEST(Lawful, AcceptsWhatKeepsTheContract) {
  EXPECT_TRUE(unlawful(with(good), Contract::passage).empty());
  Law valve = with(good);
  valve.passes = Passes::forward;
  valve.threshold = 2e4;
  EXPECT_TRUE(unlawful(valve, Contract::one_way).empty());
  EXPECT_TRUE(unlawful(valve.reversed(), Contract::one_way).empty());
}

TEST(Lawful, FindsASlopeThatIsNotTheDrops) {
  const auto wrong = [](const double& q) { return Drop<double>{good(q).dp, good(q).slope * 1.0001}; };
  EXPECT_TRUE(has_fault(unlawful(with(wrong), Contract::passage), "slope is not the drop's"));
  const auto wrong_at_rest = [](const double& q) { return Drop<double>{good(q).dp, q == 0.0 ? 2e6 : good(q).slope}; };
  EXPECT_TRUE(has_fault(unlawful(with(wrong_at_rest), Contract::passage), "slope at zero flow is not the drop's"));
}

TEST(Lawful, FindsAJump) {
  const auto jump = [](const double& q) {
    return Drop<double>{good(q).dp * (std::abs(q) > 3.33e-5 ? 1.001 : 1.0), good(q).slope};
  };
  EXPECT_TRUE(has_fault(unlawful(with(jump), Contract::passage), "drop jumps"));
  const auto kink = [](const double& q) {  // continuous, its slope is not
    const double over = std::max(0.0, std::abs(q) - 3.33e-5), sign = q < 0.0 ? -1.0 : 1.0;
    return Drop<double>{good(q).dp + sign * 5e3 * over, good(q).slope + (over > 0.0 ? 5e3 : 0.0)};
  };
  const auto faults = unlawful(with(kink), Contract::passage);
  EXPECT_TRUE(has_fault(faults, "slope jumps"));
  EXPECT_FALSE(has_fault(faults, "drop jumps"));
}

TEST(Lawful, FindsAJumpHoweverSmallTheDrop) {
  const auto tiny = [](const double& q) {  // tens of nanopascals
    return Drop<double>{1e-9 * good(q).dp * (std::abs(q) > 3.33e-5 ? 1.001 : 1.0), 1e-9 * good(q).slope};
  };
  EXPECT_TRUE(has_fault(unlawful(with(tiny), Contract::passage), "drop jumps"));
}

TEST(Lawful, SaysAtWhichFlow) {
  Law law = with(good);
  law.threshold = 2e4;
  EXPECT_TRUE(has_fault(unlawful(law, Contract::passage), "threshold in a passage at 0 m3/s: 20000 Pa"));
}

TEST(Lawful, FindsADropThatDoesNotRise) {
  const auto falls = [](const double& q) {  // rises, falls beyond 1e-3
    return Drop<double>{q * (1.0 - 1e6 * q * q / 3.0), 1.0 - 1e6 * q * q};
  };
  const auto faults = unlawful(with(falls), Contract::passage);
  EXPECT_TRUE(has_fault(faults, "drop does not rise"));
  EXPECT_TRUE(has_fault(faults, "slope is not positive"));
  EXPECT_TRUE(has_fault(unlawful(Law{}, Contract::passage), "drop does not rise"));
}

TEST(Lawful, FindsNoSlopeAtZeroFlow) {
  Law law;
  law.quadratic = 1e10;
  EXPECT_TRUE(has_fault(unlawful(law, Contract::passage), "slope at zero flow is not positive"));
}

TEST(Lawful, FindsADropWithoutFlow) {
  const auto offset = [](const double& q) { return Drop<double>{good(q).dp + 5.0, good(q).slope}; };
  EXPECT_TRUE(has_fault(unlawful(with(offset), Contract::passage), "drop without flow"));
  // A one-way part whose drop starts elsewhere than at its stated threshold.
  Law valve = with(offset);
  valve.passes = Passes::forward;
  EXPECT_TRUE(has_fault(unlawful(valve, Contract::one_way), "drop does not start at the threshold"));
}

TEST(Lawful, FindsWhatIsNotOdd) {
  const auto lopsided = [](const double& q) {
    const double more = q < 0.0 ? 1.1 : 1.0;
    return Drop<double>{good(q).dp * more, good(q).slope * more};
  };
  EXPECT_TRUE(has_fault(unlawful(with(lopsided), Contract::passage), "not the same in both directions"));
}

// From the least flow that is looked at to the greatest, both ends included.
TEST(Lawful, FindsWhatIsNotOddAtEitherEnd) {
  const LawfulOptions o{.lowest_flow = 1e-9, .highest_flow = 1e-9 * std::pow(1.1, 60) * 1.001};
  for (const double end : {o.lowest_flow, o.highest_flow / 1.001}) {
    const auto lopsided = [end](const double& q) {
      const double more = q < -0.96 * end && q > -1.04 * end ? 1.0 + 1e-9 : 1.0;
      return Drop<double>{good(q).dp * more, good(q).slope * more};
    };
    const auto faults = unlawful(with(lopsided), Contract::passage, o);
    ASSERT_EQ(faults.size(), 1U) << end;
    EXPECT_TRUE(has_fault(faults, "not the same in both directions")) << end;
  }
}

TEST(Lawful, FindsWhatIsNotANumber) {
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    const auto breaks = [bad](const double& q) { return Drop<double>{q > 1e-3 ? bad : good(q).dp, good(q).slope}; };
    EXPECT_TRUE(has_fault(unlawful(with(breaks), Contract::passage), "not a finite number"));
  }
}

TEST(Lawful, HoldsEachContractToItsDirection) {
  Law valve = with(good);
  valve.passes = Passes::forward;
  valve.threshold = 2e4;
  const auto as_passage = unlawful(valve, Contract::passage);
  EXPECT_TRUE(has_fault(as_passage, "passes the wrong way"));
  EXPECT_TRUE(has_fault(as_passage, "threshold in a passage"));
  EXPECT_TRUE(has_fault(unlawful(with(good), Contract::one_way), "passes the wrong way"));
  valve.threshold = -1e5;  // a gain: as lawful as a crack pressure
  EXPECT_TRUE(unlawful(valve, Contract::one_way).empty());
  valve.threshold = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(has_fault(unlawful(valve, Contract::one_way), "threshold is not a finite number"));
}

// Says that it passes liquid one way, and does not.
struct Crooked {
  static constexpr std::string_view kind = "crooked hose";
  static constexpr Contract contract = Contract::one_way;
  void check(std::string_view) const {}
  [[nodiscard]] Law law(const LiquidState&) const { return with(good); }
};

// What a one-way part would do backward nobody asks, and of a passage that differs by direction one line tells so; a
// passage that says that it does is held to its contract each way.
TEST(Lawful, LooksBackwardOnlyWhereLiquidGoes) {
  const auto breaks_back = [](const double& q) { return Drop<double>{q < -1e-6 ? 1.0 : good(q).dp, good(q).slope}; };
  Law valve = with(breaks_back);
  EXPECT_EQ(unlawful(valve, Contract::passage).size(), 1U);
  EXPECT_TRUE(has_fault(unlawful(valve, Contract::passage), "not the same in both directions"));
  const auto each_way = unlawful(valve, Contract::passage, {}, false);
  EXPECT_TRUE(has_fault(each_way, "drop does not rise"));
  EXPECT_FALSE(has_fault(each_way, "not the same in both directions"));
  valve.passes = Passes::forward;
  valve.threshold = 2e4;
  EXPECT_TRUE(unlawful(valve, Contract::one_way).empty());
  EXPECT_TRUE(unlawful(valve, Contract::one_way, {}, false).empty());
}

// The flow that a fault names is where it is: here a kink at 3.33e-5 m3/s, looked at in steps of 1.2 %.
TEST(Lawful, NamesTheFlowOfTheFault) {
  const auto kink = [](const double& q) {
    const double over = std::max(0.0, std::abs(q) - 3.33e-5), sign = q < 0.0 ? -1.0 : 1.0;
    return Drop<double>{good(q).dp + sign * 5e3 * over, good(q).slope + (over > 0.0 ? 5e3 : 0.0)};
  };
  Law valve = with(kink);
  valve.passes = Passes::forward;
  ASSERT_EQ(unlawful(valve, Contract::one_way).size(), 1U);
  EXPECT_EQ(unlawful(valve, Contract::one_way)[0].rfind("slope jumps at 3.3", 0), 0U);
  ASSERT_EQ(unlawful(valve.reversed(), Contract::one_way).size(), 1U);
  EXPECT_EQ(unlawful(valve.reversed(), Contract::one_way)[0].rfind("slope jumps at -3.3", 0), 0U);
}

TEST(Lawful, NamesThePartTheLiquidAndTheFlow) {
  const auto faults = unlawful(Part(Crooked{}), test::water());
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults[0].rfind("crooked hose with water: passes the wrong way at 0 m3/s", 0), 0u) << faults[0];
}

// The one line for a newcomer, without any test framework of ours.
TEST(Lawful, ExpectLawfulThrowsEverythingThatIsWrong) {
  try {
    expect_lawful(Crooked{}, test::water());
    ADD_FAILURE() << "not thrown";
  } catch (const UnlawfulPart& e) {
    EXPECT_EQ(std::string(e.what()), unlawful(Part(Crooked{}), test::water())[0]);
  }
}

TEST(Lawful, FindsASourceWithoutGain) {
  Law source = with(good);
  source.passes = Passes::forward;
  source.threshold = -3e5;
  EXPECT_TRUE(unlawful(source, Contract::source).empty());
  for (const double threshold : {0.0, 3e5}) {
    source.threshold = threshold;
    EXPECT_TRUE(has_fault(unlawful(source, Contract::source), "no gain at no flow")) << threshold;
  }
}

/// Says that it is shut; its law may not know.
struct ShutGate {
  bool law_knows = false;

  static constexpr std::string_view kind = "gate";
  static constexpr Contract contract = Contract::passage;

  void check(std::string_view /*where*/) const {}
  [[nodiscard]] Law law(const LiquidState& /*liquid*/) const {
    Law law = with(good);
    if (law_knows) law.passes = Passes::neither;
    return law;
  }
  [[nodiscard]] static Passes passes() { return Passes::neither; }
};

TEST(Lawful, FindsAShutPartWhoseLawPassesLiquid) {
  EXPECT_TRUE(unlawful(Part(ShutGate{.law_knows = true}), test::water()).empty());
  EXPECT_TRUE(has_fault(unlawful(Part(ShutGate{}), test::water()), "its law passes liquid"));
}

// Each fault names the flow at which it is seen: of 200 flows a decade the first beyond 1.005e-3 m3/s is 1.0116e-3,
// back as forward; a jump by 0.1 % upwards is 0.001/1.001 of the larger value.
TEST(Lawful, EveryFaultNamesItsFlow) {
  const auto expect = [](const Law& law, const std::string& fault, const std::string& rest) {
    Law valve = law;
    valve.passes = Passes::forward;
    EXPECT_TRUE(has_fault(unlawful(valve, Contract::one_way), fault + " at 0.00101157945 m3/s: " + rest)) << fault;
    EXPECT_TRUE(has_fault(unlawful(valve.reversed(), Contract::one_way), fault + " at -0.00101157945 m3/s: ")) << fault;
  };
  const auto beyond = [](double q) { return std::abs(q) > 1.005e-3; };
  const auto jumps = [=](const double& q) {
    return Drop<double>{good(q).dp * (beyond(q) ? 1.001 : 1.0), good(q).slope * (beyond(q) ? 1.001 : 1.0)};
  };
  expect(with(jumps), "drop jumps", "by 0.000987 of its value");
  expect(with(jumps), "slope jumps", "by 0.000993 of its value");
  const auto another = [=](const double& q) { return Drop<double>{q, beyond(q) ? 2.0 : 1.0}; };
  expect(with(another), "slope is not the drop's", "2, by differences ");
  const auto endless = [=](const double& q) { return Drop<double>{good(q).dp, beyond(q) ? HUGE_VAL : good(q).slope}; };
  expect(with(endless), "not a finite number", "drop ");
  // q - q^3/3.03e-6 rises up to 1.00499e-3.
  const auto falls = [](const double& q) { return Drop<double>{q * (1.0 - q * q / 3.03e-6), 1.0 - q * q / 1.01e-6}; };
  expect(with(falls), "drop does not rise", "0.00066994");
  expect(with(falls), "slope is not positive", "-0.0131");
}

// A square root's slope at no flow is without end; the drop itself is well.
TEST(Lawful, FindsASlopeWithoutEndAtNoFlow) {
  const auto root = [](const double& q) {
    const double size = std::sqrt(std::abs(q));
    return Drop<double>{std::copysign(size, q), 0.5 / size};
  };
  EXPECT_TRUE(has_fault(unlawful(with(root), Contract::passage), "slope at zero flow is not positive"));
}

// Drops that are odd, while the slope said of a flow back differs in its tenth digit: only that comparison sees it.
TEST(Lawful, FindsASlopeThatDiffersBackward) {
  const auto crooked = [](const double& q) { return Drop<double>{q, q < 0.0 ? 1.0 + 1e-10 : 1.0}; };
  const std::vector<std::string> faults = unlawful(with(crooked), Contract::passage);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_TRUE(has_fault(faults, "not the same in both directions"));
  EXPECT_TRUE(unlawful(with(crooked), Contract::passage, {}, false).empty());
}

/// No drop at all: neither its drop rises nor has it a slope.
struct NoLoss {
  static constexpr std::string_view kind = "no loss";
  static constexpr Contract contract = Contract::passage;
  void check(std::string_view /*where*/) const {}
  [[nodiscard]] static Law law(const LiquidState& /*liquid*/) { return {}; }
};

// The line for tests of one's own parts: every fault on a line of its own, nothing thrown where there is none.
TEST(Lawful, TheLineForTestsThrowsAllFaults) {
  EXPECT_NO_THROW(libflow::expect_lawful(Part(ShutGate{.law_knows = true}), test::water()));
  const std::vector<std::string> faults = unlawful(Part(NoLoss{}), test::water());
  ASSERT_GT(faults.size(), 1U);
  std::string all = faults[0];
  for (std::size_t i = 1; i < faults.size(); ++i) all += "\n" + faults[i];
  try {
    libflow::expect_lawful(Part(NoLoss{}), test::water());
    ADD_FAILURE() << "nothing thrown";
  } catch (const UnlawfulPart& e) {
    EXPECT_EQ(e.what(), all);
  }
}

// A rise is a rise, however flat.
TEST(Lawful, AcceptsAnyRise) {
  Law law;
  law.linear = 1e-3;
  EXPECT_TRUE(unlawful(law, Contract::passage).empty());
}

}  // namespace lawful_test
}  // namespace libflow
