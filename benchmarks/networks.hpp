// SPDX-License-Identifier: MIT
/// @file
/// The networks that are measured: bars of 16 and 48 rows, looped grids and random trees of hoses.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/fluid.hpp>
#include <libflow/solve.hpp>
#include <libflow/toolbar.hpp>

namespace libflow::bench {

/// What flows, and with which orifice the bar meters it.
struct Product {
  std::string_view name;
  LiquidState liquid;
  double orifice_bore;  ///< [m]
};

/// 10-34-0 at 40 F: thick, laminar in every hose.
inline Product viscous() {
  return {"viscous", find_liquid("10-34-0").at(units::fahrenheit(40)), 0.046 * si(units::inch)};
}
/// Water at 68 F through larger orifices: turbulent in every row's hose, so the friction factor costs most.
inline Product water() { return {"water", find_liquid("water").at(units::fahrenheit(68)), 0.080 * si(units::inch)}; }

inline constexpr double bar_pressure = 30.0 * 6894.757293168361;  ///< [Pa]: 30 psi

/// A bar whose hoses are as short as the runs allow, so that all rows differ; check valve and orifice at each row.
/// @param manifolds   1: fed directly in the middle; more: each by a feed hose of its own
/// @param pressure    of the supply [Pa]; empty: it pushes in a flow
/// @param side_slope  [rad]: rows crack one after another
inline Plumbing bar(int rows, int manifolds, const Product& product, std::optional<double> pressure = bar_pressure,
                    double side_slope = 0.0) {
  using namespace units;
  Toolbar t;
  t.rows = rows;
  t.spacing = 30.0 * inch;
  t.side_slope = from_si<Angle>(side_slope);
  for (int m = 0; m < manifolds; ++m) {
    Manifold one{.first_row = m * rows / manifolds + 1, .last_row = (m + 1) * rows / manifolds, .bore = 1.0 * inch};
    if (manifolds > 1) one.feed_length = (4.0 + 8.0 * std::abs(m - 0.5 * (manifolds - 1))) * ft;
    t.manifolds.push_back(one);
  }
  t.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 3.0 * ft};
  t.hose_bore = 0.25 * inch;
  t.check_valve = CheckValveChoice{.crack = 4.0 * psi, .rated_flow = 0.5 * gpm, .rated_loss = 2.0 * psi};
  t.orifice = OrificeByBore{.bore = from_si<Length>(product.orifice_bore)};
  Job job;
  job.liquid = find_liquid("10-34-0");
  job.rate = 5.0 * gal_per_acre;
  job.speed = 5.0 * mph;
  if (pressure) job.pressure = from_si<Pressure>(*pressure);
  return build_network(t, job);
}

/// n x n places joined by hoses, an orifice to the air at each, one supply in a corner.
/// @param parts  about so many: 3 n^2
inline Network grid(std::size_t parts) {
  const auto n = static_cast<std::size_t>(std::lround(std::sqrt(static_cast<double>(parts) / 3.0)));
  Network network;
  const auto supply = network.add_supply("supply", from_si<Pressure>(3e5));
  std::vector<std::size_t> at(n * n);
  for (std::size_t i = 0; i < n * n; ++i) at[i] = network.add_place(fmt::format("p{}", i));
  const Part hose(Hose{.length = from_si<Length>(0.5), .bore = from_si<Length>(0.05)});
  const Part orifice(Orifice{.bore = from_si<Length>(0.5e-3)});
  network.add_part("feed", supply, at[0], hose);
  for (std::size_t y = 0; y < n; ++y) {
    for (std::size_t x = 0; x < n; ++x) {
      const std::size_t i = y * n + x;
      if (x + 1 < n) network.add_part(fmt::format("x{}", i), at[i], at[i + 1], hose);
      if (y + 1 < n) network.add_part(fmt::format("y{}", i), at[i], at[i + n], hose);
      network.add_part(fmt::format("o{}", i), at[i], network.add_air(fmt::format("a{}", i)), orifice);
    }
  }
  return network;
}

/// A random tree: each place hangs by a hose on an earlier one drawn at random, an orifice to the air at each leaf.
/// Bores grow with the outlets behind them, as in a plumbed tree.
/// @param parts  about so many: hoses and orifices
inline Network tree(std::size_t parts) {
  const std::size_t n = std::max<std::size_t>(2, parts * 2 / 3);  // half of the places are leaves
  std::mt19937_64 dice(20240607);
  std::vector<std::size_t> parent(n, 0), outlets(n, 0), children(n, 0);
  for (std::size_t i = 1; i < n; ++i) {
    parent[i] = static_cast<std::size_t>(dice() % i);
    ++children[parent[i]];
  }
  for (std::size_t i = n; i-- > 1;) {
    if (children[i] == 0) outlets[i] = 1;
    outlets[parent[i]] += outlets[i];
  }
  Network network;
  const auto root = network.add_supply("supply", from_si<Pressure>(3e5));
  std::vector<std::size_t> at(n, root);
  const Part orifice(Orifice{.bore = from_si<Length>(1e-3)});
  for (std::size_t i = 1; i < n; ++i) {
    at[i] = network.add_place(fmt::format("p{}", i));
    const double bore = std::min(0.5, 4e-3 * std::pow(static_cast<double>(outlets[i]), 0.4));
    network.add_part(fmt::format("h{}", i), at[parent[i]], at[i],
                     Part(Hose{.length = from_si<Length>(1.0), .bore = from_si<Length>(bore)}));
    if (children[i] == 0)
      network.add_part(fmt::format("o{}", i), at[i], network.add_air(fmt::format("a{}", i)), orifice);
  }
  return network;
}

}  // namespace libflow::bench
