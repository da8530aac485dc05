// SPDX-License-Identifier: MIT
/// @file
/// Checks on the shape of a network before anything is solved: is every place fed, has every liquid a way out?
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>
#include <boost/graph/push_relabel_max_flow.hpp>
#include <fmt/core.h>

#include <libflow/core/caution.hpp>
#include <libflow/core/error.hpp>
#include <libflow/network/network.hpp>

namespace libflow {

namespace structure_detail {

/// 'a', 'b', 'c' and 4 more
inline std::string list_places(const Network& network, const std::vector<Network::PlaceIndex>& places) {
  constexpr std::size_t most = 6;
  std::string text;
  for (std::size_t i = 0; i < std::min(most, places.size()); ++i) {
    text += fmt::format("{}'{}'", i == 0 ? "" : ", ", network.place(places[i]).id);
  }
  if (places.size() > most) text += fmt::format(" and {} more", places.size() - most);
  return text;
}

/// Places that liquid can reach from `start` through parts in the direction they pass; against it when `upstream`.
inline std::vector<bool> reachable(const Network& network, const std::vector<Network::PlaceIndex>& start,
                                   bool upstream) {
  const auto& graph = network.graph();
  std::vector<bool> seen(network.place_count(), false);
  std::vector<Network::PlaceIndex> todo = start;
  for (const auto p : start) seen[p] = true;
  const auto visit = [&](Network::PlaceIndex next) {
    if (!seen[next]) {
      seen[next] = true;
      todo.push_back(next);
    }
  };
  while (!todo.empty()) {
    const auto p = todo.back();
    todo.pop_back();
    const auto passes = [&](auto edge, Passes way) {
      const Passes open = network.part(graph[edge].part).part.passes();
      return open == Passes::both || open == way;
    };
    for (auto [e, end] = boost::out_edges(p, graph); e != end; ++e) {
      if (passes(*e, upstream ? Passes::backward : Passes::forward)) visit(boost::target(*e, graph));
    }
    for (auto [e, end] = boost::in_edges(p, graph); e != end; ++e) {
      if (passes(*e, upstream ? Passes::forward : Passes::backward)) visit(boost::source(*e, graph));
    }
  }
  return seen;
}

/// Given flows among one-way parts: parts carry any amount the way they pass, places at a held pressure give and take
/// any amount. What a maximum flow from all that is pushed in to all that is drawn out leaves undone has no answer.
/// @return the places whose given flow does not fit, pushed in or drawn out
inline std::vector<Network::PlaceIndex> unfit_given_flows(const Network& network) {
  using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
  using Count = long long;
  using Flows = boost::adjacency_list<
      boost::vecS, boost::vecS, boost::directedS, boost::no_property,
      boost::property<boost::edge_capacity_t, Count,
                      boost::property<boost::edge_residual_capacity_t, Count,
                                      boost::property<boost::edge_reverse_t, Traits::edge_descriptor>>>>;
  const std::size_t n = network.place_count(), source = n, sink = n + 1, pool = n + 2;
  Flows flows(n + 3);
  auto capacity = get(boost::edge_capacity, flows);
  auto reverse = get(boost::edge_reverse, flows);
  const auto add = [&](std::size_t a, std::size_t b, Count most) {
    const auto there = boost::add_edge(a, b, flows).first, back = boost::add_edge(b, a, flows).first;
    capacity[there] = most;
    capacity[back] = 0;
    reverse[there] = back;
    reverse[back] = there;
    return there;
  };
  // The maximum flow wants whole numbers: a 1e15th of all given flows is one. Balance to 1e-12 is balance.
  double total = 0.0;
  for (Network::PlaceIndex i = 0; i < n; ++i) total += std::abs(network.place(i).inflow());
  constexpr double counts = 1e15;
  constexpr Count nothing = 1000;
  Count pushed = 0, drawn = 0;
  std::vector<std::pair<Network::PlaceIndex, Traits::edge_descriptor>> given;
  for (Network::PlaceIndex i = 0; i < n; ++i) {
    const double q = network.place(i).inflow();
    const auto count = static_cast<Count>(std::abs(q) / total * counts);
    if (q > 0.0) given.emplace_back(i, add(source, i, count));
    if (q < 0.0) given.emplace_back(i, add(i, sink, count));
    (q > 0.0 ? pushed : drawn) += count;
  }
  const Count any = pushed + drawn;
  for (Network::PlaceIndex i = 0; i < n; ++i) {
    if (!network.place(i).held()) continue;
    add(pool, i, any);
    add(i, pool, any);
  }
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    const Passes passes = network.part(i).part.passes();
    if (passes == Passes::both || passes == Passes::forward) add(network.from(i), network.to(i), any);
    if (passes == Passes::both || passes == Passes::backward) add(network.to(i), network.from(i), any);
  }
  // All held places together make up the difference.
  if (pushed < drawn) add(source, pool, drawn - pushed);
  if (drawn < pushed) add(pool, sink, pushed - drawn);
  boost::push_relabel_max_flow(flows, source, sink);
  const auto left = get(boost::edge_residual_capacity, flows);
  std::vector<Network::PlaceIndex> unfit;
  for (const auto& [place, edge] : given) {
    if (left[edge] > nothing) unfit.push_back(place);
  }
  return unfit;
}

}  // namespace structure_detail

/// Throws IllPosedError, naming the places, when one-way parts keep given flows from balancing. For flows that change
/// after check_structure.
inline void check_given_flows(const Network& network) {
  std::vector<Network::PlaceIndex> held;
  bool any = false;
  for (Network::PlaceIndex i = 0; i < network.place_count(); ++i) {
    if (network.place(i).held()) held.push_back(i);
    any = any || network.place(i).inflow() != 0.0;
  }
  if (!any) return;
  // Where every given flow has a held pressure to go to or to come from, any amount fits.
  const auto drains = structure_detail::reachable(network, held, true);
  const auto given = structure_detail::reachable(network, held, false);
  bool free = true;
  for (Network::PlaceIndex i = 0; i < network.place_count(); ++i) {
    const double q = network.place(i).inflow();
    free = free && (q == 0.0 || (q > 0.0 ? drains[i] : given[i]));
  }
  if (free) return;
  const auto unfit = structure_detail::unfit_given_flows(network);
  if (unfit.empty()) return;
  throw IllPosedError(fmt::format(
      "the given flow at {} has no way through: one-way parts let it pass only between places whose given flows do "
      "not balance; change a flow, turn a part round or open a way",
      structure_detail::list_places(network, unfit)));
}

/// Throws IllPosedError, naming the places, when the network cannot have an answer:
/// nothing joined, a part of it with no pressure held anywhere, liquid pushed in with no way out, liquid drawn out
/// with no way to it, given flows that one-way parts keep from balancing, or places that no supply is joined to.
/// Outlets that only a wrong-way one-way part cuts off have an answer (no flow): a caution.
inline Cautions check_structure(const Network& network) {
  using structure_detail::list_places;
  const std::size_t n = network.place_count();
  if (n == 0 || network.part_count() == 0) {
    throw IllPosedError("the network has no parts: join at least a supply and an outlet by a part");
  }

  boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS> joined(n);
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) boost::add_edge(network.from(i), network.to(i), joined);
  std::vector<std::size_t> component(n);
  const auto count = static_cast<std::size_t>(boost::connected_components(joined, component.data()));

  std::vector<std::vector<Network::PlaceIndex>> members(count);
  for (Network::PlaceIndex i = 0; i < n; ++i) members[component[i]].push_back(i);
  for (const auto& places : members) {
    const auto has = [&](PlaceKind kind) {
      return std::any_of(places.begin(), places.end(), [&](auto p) { return network.place(p).kind == kind; });
    };
    const bool fed = has(PlaceKind::fed), supply = has(PlaceKind::supply), air = has(PlaceKind::air);
    const bool drawn = has(PlaceKind::drawn);
    if (!fed && !supply) {
      throw IllPosedError(fmt::format("no supply is joined to {}: nothing can feed {}", list_places(network, places),
                                      places.size() == 1 ? "it" : "them"));
    }
    if (!supply && !air && drawn) {
      throw IllPosedError(fmt::format(
          "every flow into and out of {} is given, so nothing there has a pressure: hold one place at a pressure or "
          "open one to the air",
          list_places(network, places)));
    }
    if (!supply && !air) {
      throw IllPosedError(fmt::format(
          "liquid is pushed into {} but has no way out: no place there is open to the air or held at a pressure",
          list_places(network, places)));
    }
  }

  // Which places let liquid go, which give it: a held pressure does either.
  std::vector<Network::PlaceIndex> sources, givers, takers, cut_off;
  for (Network::PlaceIndex i = 0; i < n; ++i) {
    const Place& place = network.place(i);
    if (place.kind == PlaceKind::supply || place.kind == PlaceKind::fed) sources.push_back(i);
    if (place.held() || place.inflow() > 0.0) givers.push_back(i);
    if (place.held() || place.inflow() < 0.0) takers.push_back(i);
  }
  const auto drains = structure_detail::reachable(network, takers, true);
  const auto given = structure_detail::reachable(network, givers, false);
  for (Network::PlaceIndex i = 0; i < n; ++i) {
    if (network.place(i).inflow() > 0.0 && !drains[i]) {
      throw IllPosedError(
          fmt::format("liquid is pushed in at '{}' but every way out is shut by a one-way part or a shut valve: turn "
                      "the part round or open a way",
                      network.place(i).id));
    }
    if (network.place(i).inflow() < 0.0 && !given[i]) {
      throw IllPosedError(
          fmt::format("liquid is drawn out at '{}' but every way to it is shut by a one-way part or a shut valve: turn "
                      "the part round or open a "
                      "way",
                      network.place(i).id));
    }
  }
  check_given_flows(network);

  const auto fed = structure_detail::reachable(network, sources, false);
  for (Network::PlaceIndex i = 0; i < n; ++i) {
    if (network.place(i).kind == PlaceKind::air && !fed[i]) cut_off.push_back(i);
  }
  Cautions cautions;
  for (const auto p : cut_off) {
    cautions.push_back(
        {"unfed-outlet", network.place(p).id,
         "no liquid can reach this outlet: on every way to it a valve is shut or a one-way part points the other way"});
  }
  return cautions;
}

}  // namespace libflow
