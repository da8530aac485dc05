// SPDX-License-Identifier: MIT
/// @file
/// How good an answer is, computed afresh from the flows, the pressures and the parts' own laws.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/parts/law.hpp>
#include <libflow/solve/rounding.hpp>
#include <libflow/solve/solution.hpp>

namespace libflow {

/// What the certificate found.
struct Certificate {
  double mass_residual = 0;    ///< largest imbalance of a place over the largest flow (least_flow at least) [-]
  double energy_residual = 0;  ///< largest misfit of a law over the largest drop or threshold (least_drop at least) [-]
};

namespace certificate_detail {

/// The larger of the two; what is not a number is larger than everything, so that it cannot pass for an answer.
inline double larger_or_infinite(double most, double x) {
  return x <= most ? most : (std::isnan(x) ? std::numeric_limits<double>::infinity() : x);
}

/// Group of each place: joined by parts that carry liquid or could carry it either way. Group of held places last.
inline std::vector<bool> determined(const Network& network, const std::vector<Law>& laws,
                                    const std::vector<double>& flow) {
  const std::size_t n = network.place_count();
  std::vector<std::size_t> group(n + 1);
  for (std::size_t i = 0; i <= n; ++i) group[i] = i;
  const auto find = [&](std::size_t i) {
    while (group[i] != i) i = group[i] = group[group[i]];
    return i;
  };
  for (std::size_t i = 0; i < n; ++i) {
    if (network.place(i).held()) group[find(i)] = find(n);
  }
  for (std::size_t e = 0; e < laws.size(); ++e) {
    if (laws[e].passes == Passes::both || flow[e] != 0.0) group[find(network.from(e))] = find(network.to(e));
  }
  std::vector<bool> known(n);
  for (std::size_t i = 0; i < n; ++i) known[i] = find(i) == find(n);
  return known;
}

}  // namespace certificate_detail

/// Checks an answer against the network and the parts' laws, and finds the places whose pressure is not unique with
/// the bounds that the shut parts around them leave.
/// @param laws       by part, in the liquid that was solved for
/// @param flow       by part [m3/s]
/// @param potential  by place: total pressure + rho g z, from that of `datum` [Pa]
/// @param weight     rho g [Pa/m]
/// @param places     out: determined, bounds (as total pressure)
inline Certificate certify(const Network& network, const std::vector<Law>& laws, const std::vector<double>& flow,
                           const std::vector<double>& potential, const Place& datum, double weight,
                           std::vector<PlaceResult>& places) {
  const std::size_t n = network.place_count(), m = laws.size();
  std::vector<double> imbalance(n, 0.0);
  double largest = 0.0, scale = 0.0, misfit = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    imbalance[i] = network.place(i).inflow();
    largest = std::max(largest, std::abs(imbalance[i]));
  }
  for (std::size_t e = 0; e < m; ++e) {
    imbalance[network.from(e)] -= flow[e];
    imbalance[network.to(e)] += flow[e];
    largest = std::max(largest, std::abs(flow[e]));
  }
  double worst = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    if (!network.place(i).held()) worst = certificate_detail::larger_or_infinite(worst, std::abs(imbalance[i]));
  }

  const std::vector<bool> known = certificate_detail::determined(network, laws, flow);
  constexpr double infinite = std::numeric_limits<double>::infinity();
  std::vector<double> low(n), high(n);
  for (std::size_t i = 0; i < n; ++i) {
    low[i] = known[i] ? potential[i] : -infinite;
    high[i] = known[i] ? potential[i] : infinite;
  }
  for (std::size_t e = 0; e < m; ++e) {
    const double between = potential[network.from(e)] - potential[network.to(e)];
    const bool both_known = known[network.from(e)] && known[network.to(e)];
    const double drop = laws[e](flow[e]).dp;
    scale = std::max({scale, std::abs(drop), std::abs(laws[e].threshold), both_known ? std::abs(between) : 0.0});
    double miss = between - drop;
    const double backward = flow[e] < 0.0 ? -flow[e] : 0.0, forward = flow[e] > 0.0 ? flow[e] : 0.0;
    switch (laws[e].passes) {
      case Passes::both:
        break;
      case Passes::forward:
        if (backward > 0.0) misfit = infinite;
        if (flow[e] == 0.0) miss = std::max(0.0, miss);
        break;
      case Passes::backward:
        if (forward > 0.0) misfit = infinite;
        if (flow[e] == 0.0) miss = std::min(0.0, miss);
        break;
      case Passes::neither:
        if (flow[e] != 0.0) misfit = infinite;
        miss = 0.0;
        break;
    }
    const double blur = pressure_rounding(potential[network.from(e)], potential[network.to(e)], drop);
    misfit = certificate_detail::larger_or_infinite(misfit, std::abs(miss) - blur);
  }

  // Bounds of the places that are cut off: what the parts around them would still withstand, passed on from place to
  // place until nothing changes (shortest paths; Bellman 1958, Ford 1956).
  bool changed = std::find(known.begin(), known.end(), false) != known.end();
  for (std::size_t round = 0; changed && round <= n; ++round) {
    changed = false;
    for (std::size_t e = 0; e < m; ++e) {
      const std::size_t a = network.from(e), b = network.to(e);
      if (known[a] && known[b]) continue;
      const double t = laws[e].threshold;
      const auto lower = [&](double& bound, double to) {
        if (to < bound) {
          bound = to;
          changed = true;
        }
      };
      const auto raise = [&](double& bound, double to) {
        if (to > bound) {
          bound = to;
          changed = true;
        }
      };
      const Passes p = laws[e].passes;
      if (p == Passes::both || p == Passes::forward) {  // shut: from - to <= threshold
        lower(high[a], high[b] + t);
        raise(low[b], low[a] - t);
      }
      if (p == Passes::both || p == Passes::backward) {
        raise(low[a], low[b] + t);
        lower(high[b], high[a] - t);
      }
    }
  }

  places.resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double lift = weight * (network.place(i).elevation - datum.elevation) - datum.pressure;
    places[i] = {.total_pressure = potential[i] - lift,
                 .determined = known[i],
                 .lower = known[i] ? potential[i] - lift : low[i] - lift,
                 .upper = known[i] ? potential[i] - lift : high[i] - lift};
  }
  return {worst / std::max(largest, least_flow), misfit / std::max(scale, least_drop)};
}

}  // namespace libflow
