// SPDX-License-Identifier: MIT
/// @file
/// A network as plain equations, for the solvers that libflow is measured against: the same laws, the same numbers.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <libflow/fluid.hpp>
#include <libflow/solve.hpp>
#include <libflow/toolbar.hpp>

namespace libflow::bench {

/// Edges with laws between unknown places 0 .. unknowns-1 and held ones behind them. Every flow balances at an unknown
/// place; every edge keeps its law between the potentials (total pressure + rho g z) of its ends.
struct Equations {
  struct End {
    std::size_t edge;
    double sign;  ///< flow into the air per flow of the edge
  };
  std::size_t unknowns = 0;
  std::vector<std::size_t> a, b;  ///< by edge
  std::vector<Law> law;           ///< by edge
  std::vector<double> held;       ///< potential of place unknowns + k [Pa]
  std::vector<End> outlet;        ///< by air place of the network, in its order
  double span = 0;                ///< highest less lowest held potential [Pa]
  double flow_scale = 0;          ///< a flow of about the right size [m3/s]

  [[nodiscard]] std::size_t edges() const { return law.size(); }
  [[nodiscard]] double potential(std::size_t place, const double* free) const {
    return place < unknowns ? free[place] : held[place - unknowns];
  }
  /// What leaves at each outlet [m3/s].
  [[nodiscard]] std::vector<double> outflow(const double* flow) const {
    std::vector<double> q;
    q.reserve(outlet.size());
    for (const End& end : outlet) q.push_back(end.sign * flow[end.edge]);
    return q;
  }
};

namespace equations_detail {

struct Edge {
  std::size_t a, b;  ///< places of the network
  Law law;
};

inline Equations make(const Network& network, const LiquidState& liquid, const std::vector<Edge>& edges,
                      const std::vector<bool>& gone) {
  Equations eq;
  const std::size_t n = network.place_count();
  std::vector<std::size_t> number(n, 0);
  for (std::size_t i = 0; i < n; ++i) {
    if (!gone[i] && !network.place(i).held()) number[i] = eq.unknowns++;
  }
  double high = -HUGE_VAL, low = HUGE_VAL;
  for (std::size_t i = 0; i < n; ++i) {
    const Place& place = network.place(i);
    if (!place.held()) continue;
    number[i] = eq.unknowns + eq.held.size();
    eq.held.push_back(place.pressure + liquid.density * standard_gravity * place.elevation);
    high = std::max(high, eq.held.back());
    low = std::min(low, eq.held.back());
  }
  eq.span = high - low;
  std::vector<Equations::End> end_at(n, {0, 0.0});
  for (const Edge& edge : edges) {
    end_at[edge.a] = {eq.edges(), -1.0};
    end_at[edge.b] = {eq.edges(), 1.0};
    eq.a.push_back(number[edge.a]);
    eq.b.push_back(number[edge.b]);
    eq.law.push_back(edge.law);
  }
  // Outlets, and the flow that their laws pass at half the span, in the mean.
  for (std::size_t i = 0; i < n; ++i) {
    if (network.place(i).kind != PlaceKind::air) continue;
    eq.outlet.push_back(end_at[i]);
    const Law& law = eq.law[eq.outlet.back().edge];
    const Drop<double> still = law(0.0);
    double q = 0.5 * eq.span / still.slope;
    for (int k = 0; k < 4; ++k) q *= std::sqrt(0.5 * eq.span / (law(q).dp - still.dp));
    eq.flow_scale += q;
  }
  eq.flow_scale /= static_cast<double>(eq.outlet.size());
  return eq;
}

inline std::vector<Edge> edges_of(const Network& network, const LiquidState& liquid) {
  std::vector<Edge> edges;
  for (std::size_t e = 0; e < network.part_count(); ++e) {
    edges.push_back({network.from(e), network.to(e), network.part(e).part.law(liquid)});
  }
  return edges;
}

}  // namespace equations_detail

/// Every part an edge, every junction an unknown.
inline Equations whole(const Network& network, const LiquidState& liquid) {
  return equations_detail::make(network, liquid, equations_detail::edges_of(network, liquid),
                                std::vector<bool>(network.place_count(), false));
}

/// Series runs joined to one edge each, as an able user of a general solver would do by hand.
inline Equations collapsed(const Network& network, const LiquidState& liquid) {
  using equations_detail::Edge;
  std::vector<Edge> edges = equations_detail::edges_of(network, liquid);
  std::vector<std::vector<std::size_t>> at(network.place_count());
  for (std::size_t e = 0; e < edges.size(); ++e) {
    at[edges[e].a].push_back(e);
    at[edges[e].b].push_back(e);
  }
  std::vector<bool> gone(network.place_count(), false), used(edges.size(), false);
  for (std::size_t i = 0; i < at.size(); ++i) {
    if (network.place(i).kind != PlaceKind::junction || at[i].size() != 2) continue;
    const std::size_t into = at[i][0], next = at[i][1];
    for (const std::size_t e : {into, next}) {
      if ((edges[e].b == i) == (e == into)) continue;
      std::swap(edges[e].a, edges[e].b);
      edges[e].law = edges[e].law.reversed();
    }
    if (edges[into].a == edges[next].b) continue;
    edges[into].law += edges[next].law;
    edges[into].b = edges[next].b;
    std::replace(at[edges[next].b].begin(), at[edges[next].b].end(), next, into);
    gone[i] = used[next] = true;
  }
  std::vector<Edge> left;
  for (std::size_t e = 0; e < edges.size(); ++e) {
    if (used[e]) continue;
    if (edges[e].law.passes == Passes::backward) {
      std::swap(edges[e].a, edges[e].b);
      edges[e].law = edges[e].law.reversed();
    }
    left.push_back(std::move(edges[e]));
  }
  return equations_detail::make(network, liquid, left, gone);
}

/// What leaves at each outlet by libflow's answer, in the order of Equations::outlet [m3/s].
inline std::vector<double> outflow(const Network& network, const Solution& solution) {
  std::vector<double> at(network.place_count(), 0.0), q;
  for (std::size_t e = 0; e < network.part_count(); ++e) {
    at[network.to(e)] += solution.parts[e].flow;
    at[network.from(e)] -= solution.parts[e].flow;
  }
  for (std::size_t i = 0; i < network.place_count(); ++i) {
    if (network.place(i).kind == PlaceKind::air) q.push_back(at[i]);
  }
  return q;
}

/// Largest difference of two answers over `scale`; what is not a number differs infinitely.
inline double difference(const std::vector<double>& x, const std::vector<double>& y, double scale) {
  double worst = x.size() == y.size() ? 0.0 : HUGE_VAL;
  for (std::size_t i = 0; i < x.size() && worst < HUGE_VAL; ++i) {
    const double d = std::abs(x[i] - y[i]) / scale;
    worst = d <= worst ? worst : (std::isnan(d) ? HUGE_VAL : d);
  }
  return worst;
}

/// The same over the largest flow.
inline double difference(const std::vector<double>& x, const std::vector<double>& y) {
  double scale = 0.0;
  for (const double q : y) scale = std::max(scale, std::abs(q));
  return difference(x, y, scale);
}

}  // namespace libflow::bench
