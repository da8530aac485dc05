// SPDX-License-Identifier: MIT
/// @file
/// Random networks solved a second time by another method in fifty digits: no reduction, potentials as the unknowns
/// (the dual problem), every law inverted, dense elimination.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include <Eigen/Dense>
#include <boost/multiprecision/eigen.hpp>
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/many_digits_law.hpp>
#include <tests/support/sketch.hpp>

namespace libflow {
namespace independent_truth_test {

using test::Dice;
using test::Many;
using test::Sketch;

using Matrix = Eigen::Matrix<Many, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<Many, Eigen::Dynamic, 1>;

/// Minimum of the co-content over the potentials of the places that are not held, by Newton with a line search on the
/// slope along the step. The co-content is convex, so its slope along any line rises.
class Dual {
 public:
  Dual(const Network& network, const LiquidState& liquid) : network_(network) {
    const Many weight = Many(liquid.density) * Many(standard_gravity);
    for (std::size_t i = 0; i < network.place_count(); ++i) {
      const Place& p = network.place(i);
      potential.push_back(p.held() ? Many(Many(p.pressure) + weight * Many(p.elevation)) : Many(0));
      number_.push_back(p.held() ? -1 : unknowns_++);
      if (p.held()) top_ = std::max(top_, Many(abs(potential.back())));
    }
    for (std::size_t e = 0; e < network.part_count(); ++e) {
      laws_.push_back(test::many_digits(network.part(e).part.law(liquid)));
      flow.emplace_back(0);
      slope_.emplace_back(0);
    }
    top_ += Many(1);
  }

  std::vector<Many> potential, flow;
  int steps = 0;

  /// @return largest imbalance of a place over the largest flow
  double solve() {
    for (std::size_t i = 0; i < potential.size(); ++i) {
      if (number_[i] >= 0) potential[i] = top_ / 3;
    }
    evaluate();
    for (steps = 0; steps < 400; ++steps) {
      const Vector left = imbalance();
      if (relative(left) <= 1e-35) break;
      const Vector step = newton_step(left);
      const std::vector<Many> before = potential;
      // Down from a full step until the slope along it is no longer uphill by much.
      const Many slope_at_start = -left.dot(step);
      Many t = std::min(Many(1), Many(10 * top_ / (step.cwiseAbs().maxCoeff() + Many(1e-40))));
      for (int halving = 0; halving < 200; ++halving) {
        for (std::size_t i = 0; i < potential.size(); ++i) {
          if (number_[i] >= 0) potential[i] = before[i] + t * step(number_[i]);
        }
        evaluate();
        if (-imbalance().dot(step) <= -slope_at_start / 2) break;
        t /= 2;
      }
    }
    return relative(imbalance());
  }

 private:
  void evaluate() {
    for (std::size_t e = 0; e < laws_.size(); ++e) {
      const Many drop = potential[network_.from(e)] - potential[network_.to(e)];
      const test::FlowAt at = test::flow_at(laws_[e], drop, flow[e]);
      flow[e] = at.flow;
      slope_[e] = at.slope;
    }
  }
  [[nodiscard]] Vector imbalance() const {
    Vector left(unknowns_);
    left.setZero();
    for (std::size_t i = 0; i < potential.size(); ++i) {
      if (number_[i] >= 0) left(number_[i]) += Many(network_.place(i).inflow());
    }
    for (std::size_t e = 0; e < laws_.size(); ++e) {
      const int a = number_[network_.from(e)], b = number_[network_.to(e)];
      if (a >= 0) left(a) -= flow[e];
      if (b >= 0) left(b) += flow[e];
    }
    return left;
  }
  [[nodiscard]] double relative(const Vector& left) const {
    Many most(1e-30), worst(0);
    for (const Many& q : flow) most = std::max(most, Many(abs(q)));
    for (int i = 0; i < unknowns_; ++i) worst = std::max(worst, Many(abs(left(i))));
    return static_cast<double>(Many(worst / most));
  }
  /// The Hessian is the Laplacian of the open parts; a trace of ground lets cut-off places have a step too.
  [[nodiscard]] Vector newton_step(const Vector& left) const {
    Matrix hessian(unknowns_, unknowns_);
    hessian.setZero();
    Many largest(1e-30);
    for (std::size_t e = 0; e < laws_.size(); ++e) {
      const int a = number_[network_.from(e)], b = number_[network_.to(e)];
      if (a >= 0) hessian(a, a) += slope_[e];
      if (b >= 0) hessian(b, b) += slope_[e];
      if (a >= 0 && b >= 0) {
        hessian(a, b) -= slope_[e];
        hessian(b, a) -= slope_[e];
      }
      largest = std::max(largest, slope_[e]);
    }
    for (int i = 0; i < unknowns_; ++i) hessian(i, i) += largest * Many(1e-22);
    return hessian.partialPivLu().solve(left);
  }

  const Network& network_;
  std::vector<test::ManyLaw> laws_;
  std::vector<Many> slope_;
  std::vector<int> number_;
  int unknowns_ = 0;
  Many top_{0};
};

/// Solves both ways and compares flows, valve states and pressures.
void compare(const Sketch& sketch, const LiquidState& liquid) {
  const Network network = sketch.build();
  const Solution s = solve(network, liquid);
  ASSERT_TRUE(s.usable()) << s.message;
  Dual dual(network, liquid);
  ASSERT_LE(dual.solve(), 1e-30) << "the reference did not converge in " << dual.steps << " steps";
  const double largest = std::max(test::largest_flow(s), 1e-12);
  double range = 1.0;
  for (const auto& p : s.places) range = std::max(range, std::abs(p.total_pressure));
  for (std::size_t e = 0; e < s.parts.size(); ++e) {
    const auto truth = static_cast<double>(dual.flow[e]);
    EXPECT_NEAR(s.parts[e].flow, truth, 1e-9 * largest) << network.part(e).id;
    if (s.parts[e].valve != ValveState::none && std::abs(truth) > 1e-9 * largest) {
      EXPECT_EQ(s.parts[e].valve, ValveState::open) << network.part(e).id;
    }
  }
  const Many weight = Many(liquid.density) * Many(standard_gravity);
  for (std::size_t i = 0; i < s.places.size(); ++i) {
    const auto truth = static_cast<double>(Many(dual.potential[i] - weight * Many(network.place(i).elevation)));
    // Where shut parts leave a range, the other method's pressure lies in it too.
    EXPECT_GE(truth, s.places[i].lower - 1e-9 * range) << network.place(i).id;
    EXPECT_LE(truth, s.places[i].upper + 1e-9 * range) << network.place(i).id;
  }
}

class IndependentTruth : public testing::TestWithParam<std::uint64_t> {};

TEST_P(IndependentTruth, AgreesTo1e9) {
  Dice dice(GetParam());
  for (int k = 0; k < 6 && !HasFailure(); ++k) {
    SCOPED_TRACE(fmt::format("network {} of seed {}", k, GetParam()));
    const Sketch sketch = test::random_sketch(
        dice, {.fewest = 10, .most = 30, .check_valves = dice.uniform(0.0, 0.5), .given_flows = 0.3});
    compare(sketch, test::liquid_of("any", dice.uniform(900.0, 1500.0), dice.log_uniform(5e-4, 2.0)));
  }
}

INSTANTIATE_TEST_SUITE_P(Seeds, IndependentTruth, testing::Values(41u, 42u, 43u, 44u, 45u, 46u));

TEST(IndependentTruth, AGridOfHosesWithDraw) {
  // Five by five places, a tank in one corner, outlets and taps about: many loops, turbulent near the tank, laminar
  // far from it.
  Dice dice(47);
  Sketch s;
  for (int i = 0; i < 25; ++i) {
    const bool tap = i % 7 == 3;
    s.add({.id = fmt::format("{}", i),
           .elevation = dice.uniform(-0.5, 0.5),
           .kind = tap ? PlaceKind::drawn : PlaceKind::junction,
           .flow = tap ? 2e-5 : 0.0});
  }
  for (std::size_t i = 0; i < 25; ++i) {
    if (i % 5 != 4) s.join(i, i + 1, test::random_hose(dice));
    if (i + 5 < 25) s.join(i, i + 5, test::random_hose(dice));
  }
  const auto tank = s.add({.id = "tank", .kind = PlaceKind::supply, .pressure = 2.5e5});
  s.join(tank, 0, Hose{.length = from_si<Length>(2.0), .bore = from_si<Length>(0.02)});
  for (const std::size_t i : {8u, 16u, 24u}) {
    const auto air = s.add({.id = fmt::format("row {}", i), .kind = PlaceKind::air});
    s.join(i, air, Orifice{.bore = from_si<Length>(1.5e-3)});
  }
  compare(s, test::water());
  compare(s, test::thick());
}

TEST(IndependentTruth, AValveExactlyAtItsCrackPressure) {
  Sketch s;
  const auto tank = s.add({.id = "tank", .kind = PlaceKind::supply, .pressure = 8e4});
  const auto tee = s.add({.id = "tee"});
  const auto end = s.add({.id = "end"});
  const auto row = s.add({.id = "row", .kind = PlaceKind::air});
  s.join(tank, tee, CheckValve{.crack = from_si<Pressure>(5e4), .passage_bore = from_si<Length>(3e-3)});
  s.join(tee, end, Hose{.length = from_si<Length>(1.0), .bore = from_si<Length>(6e-3)});
  s.join(end, row, CheckValve{.crack = from_si<Pressure>(3e4), .passage_bore = from_si<Length>(3e-3)});
  compare(s, test::water());
}

}  // namespace independent_truth_test
}  // namespace libflow
