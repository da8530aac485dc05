// SPDX-License-Identifier: MIT
/// Scenarios side by side: arithmetic, laws and elimination of packs against doubles and fifty digits, and the packed
/// Newton against the solver of single networks.
#include <cmath>
#include <cstddef>
#include <random>
#include <vector>

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <libflow/parts.hpp>
#include <libflow/solve/pack_twin.hpp>
#include <libflow/solve/packed_newton.hpp>
#include <libflow/solve/system.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/many_digits.hpp>
#include <tests/support/random_network.hpp>
#include <tests/support/test_parts.hpp>

namespace libflow {
namespace pack_test {

constexpr int pack_lanes = Twin::width;

Twin pack_of(const std::vector<double>& values) {
  Twin x;
  for (int lane = 0; lane < pack_lanes; ++lane) x.set(lane, values[static_cast<std::size_t>(lane) % values.size()]);
  return x;
}

TEST(PackNumbers, LogarithmAndExponentialAgainstFiftyDigits) {
  std::mt19937_64 dice(11);
  std::uniform_real_distribution<double> exponent(-40.0, 40.0);
  double worst_log = 0.0, worst_exp = 0.0;
  for (int i = 0; i < 4000; ++i) {
    const double e = exponent(dice);
    const double x = std::exp2(e);
    const test::Many exact_log = log(test::Many(x)), exact_exp = exp(test::Many(e));
    const double log_off = std::abs(static_cast<double>((test::Many(log(Twin(x))[1]) - exact_log) / exact_log));
    const double exp_off = std::abs(static_cast<double>((test::Many(exp(Twin(e))[1]) - exact_exp) / exact_exp));
    worst_log = std::max(worst_log, log_off);
    worst_exp = std::max(worst_exp, exp_off);
  }
  EXPECT_LT(worst_log, 4.5e-16);  // two units in the last place
  EXPECT_LT(worst_exp, 4.5e-16);
}

TEST(PackNumbers, OperationsAreThoseOfDoublesLaneByLane) {
  const std::vector<double> a{1.5, -2.25, 0.0, 1e-300, 7.0, -0.1, 1e20, 3.0},
      b{-3.0, 0.7, 4.0, 1e10, 7.0, 0.2, -1e-20, 2.0};
  const Twin x = pack_of(a), y = pack_of(b);
  const Twin sum = x + y, difference = x - y, product = x * y, ratio = x / y, size = abs(x), larger = max(x, y);
  const Twin chosen = (x < y).select(x, y), root = sqrt(abs(y)), negative = -x;
  for (int lane = 0; lane < pack_lanes; ++lane) {
    const double p = a[static_cast<std::size_t>(lane) % a.size()], q = b[static_cast<std::size_t>(lane) % b.size()];
    EXPECT_EQ(sum[lane], p + q);
    EXPECT_EQ(difference[lane], p - q);
    EXPECT_EQ(product[lane], p * q);
    EXPECT_EQ(ratio[lane], p / q);
    EXPECT_EQ(size[lane], std::abs(p));
    EXPECT_EQ(larger[lane], std::max(p, q));
    EXPECT_EQ(chosen[lane], std::min(p, q));
    EXPECT_EQ(root[lane], std::sqrt(std::abs(q)));
    EXPECT_EQ(negative[lane], -p);
    EXPECT_EQ((x < y)[lane], p < q);
    EXPECT_EQ((x > y)[lane], p > q);
    EXPECT_EQ((x <= y)[lane], p <= q);
    EXPECT_EQ((x >= y)[lane], p >= q);
  }
  EXPECT_TRUE((x < y).any());
  EXPECT_FALSE((x < y).all());
  EXPECT_TRUE(((x < y) || !(x < y)).all());
  EXPECT_FALSE(((x < y) && !(x < y)).any());
}

TEST(PackNumbers, NotANumberIsInNoComparison) {
  const Twin nan(std::nan("")), one(1.0);
  EXPECT_FALSE((nan < one).any());
  EXPECT_FALSE((nan >= one).any());
  EXPECT_EQ(max(nan, one)[0], 1.0);
}

/// Reynolds numbers of every regime and both edges of the band, in lanes beside each other in every mixture.
TEST(PackLaws, WallFrictionIsThatOfDoublesInEveryRegimeWhateverTheNeighbours) {
  std::mt19937_64 dice(5);
  const std::vector<double> corners{0.0,    1.0,      500.0,  1999.999, 2000.0, 2000.001,
                                    3000.0, 3999.999, 4000.0, 4000.001, 1e5};
  for (const double roughness : {0.0, 1.5e-6, 2e-4}) {
    const auto wall = physics::wall_friction<double>(4.0, 6.35e-3, roughness, 1000.0, 1e-3);
    const physics::BareFriction<Twin> bare{wall.re_per_flow, wall.scale, wall.rel_roughness};
    for (int turn = 0; turn < 300; ++turn) {
      Twin q;
      for (int lane = 0; lane < pack_lanes; ++lane) {
        const double re = corners[dice() % corners.size()];
        q.set(lane, (dice() % 2 == 0 ? 1.0 : -1.0) * re / wall.re_per_flow);
      }
      const Drop<Twin> d = physics::drop_wall_friction<Twin>(q, bare);
      for (int lane = 0; lane < pack_lanes; ++lane) {
        const Drop<double> one = physics::drop_wall_friction<double>(q[lane], wall);
        EXPECT_NEAR(d.dp[lane], one.dp, 1e-14 * std::abs(one.dp));
        EXPECT_NEAR(d.slope[lane], one.slope, 1e-13 * one.slope);
        const Drop<Twin> alone = physics::drop_wall_friction<Twin>(Twin(q[lane]), bare);
        EXPECT_EQ(d.dp[lane], alone.dp[0]);  // bit for bit
        EXPECT_EQ(d.slope[lane], alone.slope[0]);
      }
    }
  }
}

TEST(PackLaws, ColebrookHasTheDigitsOfADouble) {
  for (double re = 4e3; re < 1e8; re *= 1.7) {
    for (const double rough : {0.0, 1e-6, 1e-3, 0.05}) {
      const auto exact = physics::friction_colebrook<test::Many>(test::Many(re), test::Many(rough));
      const auto pack = physics::friction_colebrook<Twin>(Twin(re), Twin(rough));
      EXPECT_NEAR(pack.f[0], static_cast<double>(exact.f), 4e-15 * static_cast<double>(exact.f));
      EXPECT_NEAR(pack.slope[0], static_cast<double>(exact.slope), 1e-13 * std::abs(static_cast<double>(exact.slope)));
    }
  }
}

TEST(PackLaws, SimilarTubesAndHolesAreThoseMadeFromTheirSizes) {
  const auto unit = physics::bare_friction<double>(2.0, 6e-3, 1e-5, 1.0, 1.0);
  const auto direct = physics::bare_friction<double>(3.1, 7.3e-3, 4e-5, 1350.0, 0.08);
  const auto similar =
      physics::similar_friction<double>(unit, 3.1 / 2.0, 6.0 / 7.3, 4.0, 1350.0 / 0.08, 0.08 * 0.08 / 1350.0);
  EXPECT_NEAR(similar.re_per_flow, direct.re_per_flow, 1e-14 * direct.re_per_flow);
  EXPECT_NEAR(similar.scale, direct.scale, 1e-14 * direct.scale);
  EXPECT_NEAR(similar.rel_roughness, direct.rel_roughness, 1e-14 * direct.rel_roughness);
  const auto unit_hole = physics::hole<double>(1.2e-3, 6e-4, 1.0, 1.0, 0.7, 0.3);
  const auto direct_hole = physics::hole<double>(1.5e-3, 7.5e-4, 1350.0, 0.08, 0.7, 0.3);
  const auto similar_hole = physics::similar_hole<double>(unit_hole, 1.2 / 1.5, 1350.0, 0.08, 1350.0 / 0.08);
  EXPECT_NEAR(similar_hole.creeping, direct_hole.creeping, 1e-14 * direct_hole.creeping);
  EXPECT_NEAR(similar_hole.inertia, direct_hole.inertia, 1e-14 * direct_hole.inertia);
  EXPECT_NEAR(similar_hole.re_per_flow, direct_hole.re_per_flow, 1e-14 * direct_hole.re_per_flow);
  EXPECT_EQ(similar_hole.uncontracted, direct_hole.uncontracted);
}

TEST(PackMesh, PotentialsAreThoseOfADenseSolve) {
  std::mt19937_64 dice(3);
  std::uniform_real_distribution<double> decades(-3.0, 3.0), flows(-1.0, 1.0);
  for (int turn = 0; turn < 30; ++turn) {
    const std::size_t n = 2 + dice() % 12;
    std::vector<std::array<std::size_t, 2>> joints;
    for (std::size_t i = 1; i < n; ++i) joints.push_back({i, dice() % i});
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t a = dice() % n, b = dice() % n;
      if (a != b) joints.push_back({a, b});
    }
    const PackedMeshShape shape(n, joints);
    PackedMesh<Twin> mesh(shape);
    mesh.clear();
    std::vector<Eigen::MatrixXd> dense(
        static_cast<std::size_t>(pack_lanes),
        Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(n), static_cast<Eigen::Index>(n)));
    std::vector<Eigen::VectorXd> right(static_cast<std::size_t>(pack_lanes),
                                       Eigen::VectorXd::Zero(static_cast<Eigen::Index>(n)));
    for (int lane = 0; lane < pack_lanes; ++lane) {
      Eigen::MatrixXd& m = dense[static_cast<std::size_t>(lane)];
      for (std::size_t k = 0; k < joints.size(); ++k) {
        const double g = std::pow(10.0, decades(dice));
        Twin& slot = mesh.joint[static_cast<std::size_t>(shape.slot(k))];
        slot.set(lane, slot[lane] + g);
        const auto a = static_cast<Eigen::Index>(joints[k][0]), b = static_cast<Eigen::Index>(joints[k][1]);
        m(a, a) += g, m(b, b) += g, m(a, b) -= g, m(b, a) -= g;
      }
      for (std::size_t i = 0; i < n; ++i) {
        const double g = std::pow(10.0, decades(dice)), q = flows(dice);
        mesh.ground[shape.step_of(i)].set(lane, g);
        mesh.inflow[shape.step_of(i)].set(lane, q);
        m(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(i)) += g;
        right[static_cast<std::size_t>(lane)][static_cast<Eigen::Index>(i)] = q;
      }
    }
    mesh.solve();
    for (int lane = 0; lane < pack_lanes; ++lane) {
      const Eigen::VectorXd x =
          dense[static_cast<std::size_t>(lane)].llt().solve(right[static_cast<std::size_t>(lane)]);
      for (std::size_t i = 0; i < n; ++i) {
        EXPECT_NEAR(mesh.potential[shape.step_of(i)][lane], x[static_cast<Eigen::Index>(i)],
                    1e-9 * x.cwiseAbs().maxCoeff());
      }
    }
  }
}

TEST(PackMesh, WhatNoConductanceHoldsIsAnExactZeroInItsLaneOnly) {
  const PackedMeshShape shape(2, {{0, 1}});
  PackedMesh<Twin> mesh(shape);
  mesh.clear();
  mesh.joint[0] = Twin(2.0);
  for (int lane = 1; lane < pack_lanes; ++lane) mesh.ground[shape.step_of(0)].set(lane, 4.0);
  mesh.inflow = {Twin(0.0), Twin(0.0)};
  mesh.inflow[shape.step_of(1)] = Twin(8.0);
  mesh.solve();
  EXPECT_EQ(mesh.potential[1][0], 0.0);  // floats: its last place is at 0
  EXPECT_EQ(mesh.potential[shape.step_of(0)][1], 2.0);
  EXPECT_EQ(mesh.potential[shape.step_of(1)][1], 6.0);
}

/// Every lane another liquid, on random networks with loops, pumps, one-way parts and hills.
TEST(PackedNewton, FindsTheAnswersOfSingleSolvesOnRandomNetworks) {
  std::mt19937_64 dice(8);
  std::uniform_real_distribution<double> scatter(0.7, 1.4);
  int solved = 0, lanes = 0;
  double worst = 0.0;
  for (int turn = 0; turn < 400; ++turn) {
    const testing::RandomNetwork random = testing::RandomNetworkMaker(9000 + static_cast<std::uint64_t>(turn)).make();
    // Where resistances differ by 1e12 or everything nearly balances, flows hang on the last digits of potentials and
    // two good answers differ by more than is asked here.
    const auto& has = random.features;
    if (has.test(testing::huge_ratio) || has.test(testing::near_zero) || has.test(testing::balanced_bridge)) continue;
    const Network& network = random.network;
    const auto laws_in = [&](const LiquidState& liquid) {
      std::vector<Law> laws;
      for (std::size_t i = 0; i < network.part_count(); ++i) laws.push_back(network.part(i).part.law(liquid));
      return laws;
    };
    const PackedCore core(network, laws_in(random.liquid));
    if (core.edges().empty()) continue;
    PackedNewton<Twin> newton(core, laws_in(random.liquid));
    std::vector<LiquidState> liquids;
    for (int lane = 0; lane < pack_lanes; ++lane) {
      LiquidState liquid = random.liquid;
      liquid.density *= scatter(dice);
      liquid.viscosity *= scatter(dice);
      const std::vector<Law> laws = laws_in(liquid);
      for (std::size_t i = 0; i < laws.size(); ++i) newton.laws.set(i, lane, laws[i]);
      const Place& zero = network.place(core.datum());
      for (std::size_t i = 0; i < network.place_count(); ++i) {
        const Place& place = network.place(i);
        const auto number = core.number(i);
        if (!number) continue;
        if (place.held()) {
          newton.potential[*number].set(lane,
                                        (place.pressure - zero.pressure) +
                                            liquid.density * standard_gravity * (place.elevation - zero.elevation));
        } else {
          newton.inflow[*number].set(lane, place.inflow());
        }
      }
      liquids.push_back(liquid);
    }
    newton.laws.sum();
    const TwinMask done = newton.solve();
    for (int lane = 0; lane < pack_lanes; ++lane) {
      ++lanes;
      if (!done[lane]) continue;
      ++solved;
      EXPECT_LE(newton.mass_residual[lane], 1e-12);
      EXPECT_LE(newton.energy_residual[lane], 1e-9);
      const Solution single = solve(network, liquids[static_cast<std::size_t>(lane)]);
      ASSERT_TRUE(single.usable());
      double largest = least_flow, off = 0.0;
      for (const PartResult& p : single.parts) largest = std::max(largest, std::abs(p.flow));
      for (std::size_t i = 0; i < network.part_count(); ++i) {
        const PackedSeat& seat = core.seats()[i];
        const double q = seat.in_core() ? (seat.forward ? 1.0 : -1.0) * newton.flow[seat.edge][lane] : 0.0;
        off = std::max(off, std::abs(q - single.parts[i].flow) / largest);
      }
      worst = std::max(worst, off);
      EXPECT_LE(off, 1e-9) << "network " << turn;
    }
  }
  RecordProperty("solved_of_lanes", fmt::format("{} of {}, worst difference {:.1e}", solved, lanes, worst));
  EXPECT_GT(solved, lanes * 8 / 10) << lanes << " lanes, worst difference " << worst;
}

/// Parts whose law is a function of their own, one of them drawn against the flow; every lane another liquid and
/// another resistance of the function.
TEST(PackedNewton, LawsThatNoTermFitsAreThoseOfSingleSolves) {
  using namespace units;
  const auto network = [](double r) {
    Network n;
    n.add_supply("supply", 30.0 * psi);
    n.add_place("port 1");
    n.add_place("port 2");
    n.add_air("row 1");
    n.add_air("row 2");
    n.add_part("feed", "supply", "port 1", test::PowerPart{.r = r});
    n.add_place("middle");
    n.add_part("bar", "port 1", "middle", test::PowerPart{.r = 2.0 * r});
    n.add_part("bar's rest", "port 2", "middle", test::PowerPart{.r = r});  // one run, drawn towards each other
    n.add_part("loop", "supply", "port 2", Hose{.length = 3.0 * m, .bore = 6.35 * mm});
    n.add_part("valve 1", "port 1", "row 1",
               CheckValve{.crack = 4.0 * psi, .passage_bore = 2.0 * mm, .full_open = 9.0 * psi});
    n.add_part("orifice 2", "port 2", "row 2", Orifice{.bore = 1.5 * mm});
    return n;
  };
  const auto laws_of = [](const Network& n, const LiquidState& liquid) {
    std::vector<Law> laws;
    for (std::size_t i = 0; i < n.part_count(); ++i) laws.push_back(n.part(i).part.law(liquid));
    return laws;
  };
  const LiquidState water = test::water();
  const Network base = network(1e13);
  ASSERT_FALSE(base.part(base.find_part("valve 1")).part.law(water).functions.empty());
  const PackedCore core(base, laws_of(base, water));
  PackedNewton<Twin> newton(core, laws_of(base, water));
  std::vector<Solution> single;
  for (int lane = 0; lane < pack_lanes; ++lane) {
    const Network one = network(1e13 * (1.0 + 2.0 * lane));
    LiquidState liquid = water;
    liquid.density *= 1.0 + 0.1 * lane;
    const std::vector<Law> laws = laws_of(one, liquid);
    for (std::size_t i = 0; i < laws.size(); ++i) newton.laws.set(i, lane, laws[i]);
    const Place& zero = base.place(core.datum());
    for (std::size_t i = 0; i < base.place_count(); ++i) {
      const Place& place = base.place(i);
      if (const auto number = core.number(i); number && place.held()) {
        newton.potential[*number].set(lane, place.pressure - zero.pressure);
      }
    }
    single.push_back(solve(one, liquid));
  }
  newton.laws.sum();
  const TwinMask done = newton.solve();
  for (int lane = 0; lane < pack_lanes; ++lane) {
    ASSERT_TRUE(done[lane]);
    const Solution& alone = single[static_cast<std::size_t>(lane)];
    for (std::size_t i = 0; i < base.part_count(); ++i) {
      const PackedSeat& seat = core.seats()[i];
      ASSERT_TRUE(seat.in_core()) << base.part(i).id;
      const double q = (seat.forward ? 1.0 : -1.0) * newton.flow[seat.edge][lane];
      EXPECT_NEAR(q / alone.parts[i].flow, 1.0, 1e-9) << base.part(i).id << ", lane " << lane;
    }
  }
  EXPECT_NE(core.seats()[base.find_part("bar")].forward, core.seats()[base.find_part("bar's rest")].forward);
}

}  // namespace pack_test
}  // namespace libflow
