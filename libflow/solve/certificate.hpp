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
  double mass_residual = 0;  ///< largest imbalance of a place over the largest flow (least_flow at least) [-]
  /// Largest misfit of a law over the largest drop or threshold of the parts at work (least_drop at least) [-]. A part
  /// is at work when it carries liquid or could carry it either way: what a shut valve holds back is no measure of the
  /// rest.
  double energy_residual = 0;
};

namespace certificate_detail {

/// The larger of the two; what is not a number is larger than everything, so that it cannot pass for an answer.
inline double larger_or_infinite(double most, double x) {
  return x <= most ? most : (std::isnan(x) ? std::numeric_limits<double>::infinity() : x);
}

/// True for places that parts join to a held one which carry liquid or could carry it either way. Every group of places
/// that parts join holds a pressure somewhere (check_structure).
inline std::vector<char> determined(const Network& network, const std::vector<Law>& laws,
                                    const std::vector<double>& flow) {
  const std::size_t n = network.place_count();
  const auto joins = [&](std::size_t e) { return laws[e].passes == Passes::both || flow[e] != 0.0; };
  bool all_join = true;
  for (std::size_t e = 0; e < laws.size() && all_join; ++e) all_join = joins(e);
  if (all_join) return std::vector<char>(n, 1);
  std::vector<std::size_t> group(n + 1);  // group n: everything held
  for (std::size_t i = 0; i <= n; ++i) group[i] = i;
  const auto find = [&](std::size_t i) {
    while (group[i] != i) i = group[i] = group[group[i]];
    return i;
  };
  for (std::size_t i = 0; i < n; ++i) {
    if (network.place(i).held()) group[find(i)] = find(n);
  }
  for (std::size_t e = 0; e < laws.size(); ++e) {
    if (joins(e)) group[find(network.from(e))] = find(network.to(e));
  }
  std::vector<char> known(n);
  for (std::size_t i = 0; i < n; ++i) known[i] = find(i) == find(n) ? 1 : 0;
  return known;
}

/// Bounds of the places that are cut off: what the parts around them would still withstand, passed on from place to
/// place until nothing changes (shortest paths; Bellman 1958, Ford 1956).
inline void bound_unknown(const Network& network, const std::vector<Law>& laws, const std::vector<char>& known,
                          std::vector<double>& low, std::vector<double>& high) {
  bool changed = true;
  for (std::size_t round = 0; changed && round <= known.size(); ++round) {
    changed = false;
    for (std::size_t e = 0; e < laws.size(); ++e) {
      const std::size_t a = network.from(e), b = network.to(e);
      if (known[a] != 0 && known[b] != 0) continue;
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
}

/// Rounding of the largest pressures that the potential of a cut-off place can hang on [Pa].
inline double rounding_of_chosen(const std::vector<Law>& laws, const std::vector<double>& potential,
                                 const std::vector<char>& known) {
  double pressure = 0.0, threshold = 0.0;
  for (std::size_t i = 0; i < known.size(); ++i) {
    if (known[i] != 0) pressure = std::max(pressure, std::abs(potential[i]));
  }
  for (const Law& law : laws) threshold = std::max(threshold, std::abs(law.threshold));
  return pressure_rounding(pressure, pressure, threshold);
}

/// Misfit of a one-way part: flow the wrong way is infinite, and shut it may hold back what it withstands.
inline double one_way_misfit(Passes passes, double flow, double miss) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  switch (passes) {
    case Passes::both:
      return miss;
    case Passes::forward:
      return flow < 0.0 ? infinite : (flow == 0.0 ? std::max(0.0, miss) : miss);
    case Passes::backward:
      return flow > 0.0 ? infinite : (flow == 0.0 ? std::min(0.0, miss) : miss);
    case Passes::neither:
      return flow != 0.0 ? infinite : 0.0;
  }
  return infinite;
}

}  // namespace certificate_detail

/// Checks an answer against the network and the parts' laws, and finds the places whose pressure is not unique with
/// the bounds that the shut parts around them leave.
/// @param laws       by part, in the liquid that was solved for
/// @param flow       by part [m3/s]
/// @param drop       each law at its flow, by part [Pa]
/// @param potential  by place: total pressure + rho g z, from that of `datum` [Pa]
/// @param weight     rho g [Pa/m]
/// @param places     out: determined, bounds (as total pressure)
inline Certificate certify(const Network& network, const std::vector<Law>& laws, const std::vector<double>& flow,
                           const std::vector<double>& drop, const std::vector<double>& potential, const Place& datum,
                           double weight, std::vector<PlaceResult>& places) {
  using certificate_detail::larger_or_infinite;
  const std::size_t n = network.place_count(), m = laws.size();
  std::vector<CompensatedSum> imbalance(n);  // thousands of parts may meet in one place
  double largest = 0.0, scale = 0.0, misfit = 0.0, worst = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    const double given = network.place(i).inflow();
    imbalance[i].add(given);
    largest = std::max(largest, std::abs(given));
  }
  const std::vector<char> known = certificate_detail::determined(network, laws, flow);
  const bool all_known = std::find(known.begin(), known.end(), 0) == known.end();
  // A pressure that was chosen for a cut-off place hangs on others by what shut parts hold back, and has their
  // rounding. No flow depends on it.
  const double chosen = all_known ? 0.0 : certificate_detail::rounding_of_chosen(laws, potential, known);
  for (std::size_t e = 0; e < m; ++e) {
    const std::size_t a = network.from(e), b = network.to(e);
    const double q = flow[e];
    imbalance[a].add(-q);
    imbalance[b].add(q);
    largest = std::max(largest, std::abs(q));
    const double between = potential[a] - potential[b];
    if (laws[e].passes == Passes::both || q != 0.0) {
      scale = std::max({scale, std::abs(drop[e]), std::abs(laws[e].threshold)});
      // Then both ends are known, or neither.
      if (known[a] != 0) scale = std::max(scale, std::abs(between));
    }
    double miss = between - drop[e];
    if (laws[e].passes != Passes::both) miss = certificate_detail::one_way_misfit(laws[e].passes, q, miss);
    double blur = pressure_rounding(potential[a], potential[b], drop[e]);
    if (known[a] == 0 || known[b] == 0) blur += chosen;
    misfit = larger_or_infinite(misfit, std::abs(miss) - blur);
  }

  std::vector<double> low, high;
  if (!all_known) {
    constexpr double infinite = std::numeric_limits<double>::infinity();
    low.resize(n);
    high.resize(n);
    for (std::size_t i = 0; i < n; ++i) {
      low[i] = known[i] != 0 ? potential[i] : -infinite;
      high[i] = known[i] != 0 ? potential[i] : infinite;
    }
    certificate_detail::bound_unknown(network, laws, known, low, high);
  }
  places.resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    const Place& place = network.place(i);
    if (!place.held()) worst = larger_or_infinite(worst, std::abs(imbalance[i].value()));
    const double lift = weight * (place.elevation - datum.elevation) - datum.pressure, at = potential[i] - lift;
    places[i] = {.total_pressure = at, .determined = known[i] != 0, .lower = at, .upper = at};
    if (known[i] == 0) {
      places[i].lower = low[i] - lift;
      places[i].upper = high[i] - lift;
    }
  }
  return {worst / std::max(largest, least_flow), misfit / std::max(scale, least_drop)};
}

/// The same; the drops are computed.
inline Certificate certify(const Network& network, const std::vector<Law>& laws, const std::vector<double>& flow,
                           const std::vector<double>& potential, const Place& datum, double weight,
                           std::vector<PlaceResult>& places) {
  std::vector<double> drop(laws.size());
  for (std::size_t e = 0; e < laws.size(); ++e) drop[e] = laws[e](flow[e]).dp;
  return certify(network, laws, flow, drop, potential, datum, weight, places);
}

}  // namespace libflow
