// SPDX-License-Identifier: MIT
/// @file
/// Checks on the shape of a network before anything is solved: is every place fed, has every liquid a way out?
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/push_relabel_max_flow.hpp>
#include <fmt/core.h>

#include <libflow/core/caution.hpp>
#include <libflow/core/error.hpp>
#include <libflow/network/incidence.hpp>
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
inline std::vector<char> reachable(const Incidence& shape, const std::vector<Network::PlaceIndex>& start,
                                   bool upstream) {
  std::vector<char> seen(shape.places(), 0);
  std::vector<Network::PlaceIndex> todo = start;
  for (const auto p : start) seen[p] = 1;
  const Passes along = upstream ? Passes::backward : Passes::forward;
  while (!todo.empty()) {
    const auto p = todo.back();
    todo.pop_back();
    for (const auto& [part, other] : shape.at(p)) {
      if (seen[other] != 0) continue;
      const Passes open = shape.passes(part);
      if (open != Passes::both && open != (shape.from(part) == p ? along : reversed(along))) continue;
      seen[other] = 1;
      todo.push_back(other);
    }
  }
  return seen;
}

/// Group of each place: all that parts join, whichever way they pass. @return how many
inline std::size_t connected_groups(const Incidence& shape, std::vector<std::uint32_t>& group) {
  constexpr std::uint32_t none = static_cast<std::uint32_t>(-1);
  group.assign(shape.places(), none);
  std::uint32_t count = 0;
  std::vector<std::uint32_t> todo;
  for (std::uint32_t i = 0; i < group.size(); ++i) {
    if (group[i] != none) continue;
    group[i] = count;
    todo.push_back(i);
    while (!todo.empty()) {
      const auto p = todo.back();
      todo.pop_back();
      for (const auto& meeting : shape.at(p)) {
        if (group[meeting.other] != none) continue;
        group[meeting.other] = count;
        todo.push_back(meeting.other);
      }
    }
    ++count;
  }
  return count;
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
inline void check_given_flows(const Network& network, const Incidence& shape) {
  if (shape.two_way()) return;
  std::vector<Network::PlaceIndex> held;
  bool any = false;
  for (Network::PlaceIndex i = 0; i < shape.places(); ++i) {
    if (network.place(i).held()) held.push_back(i);
    any = any || network.place(i).inflow() != 0.0;
  }
  if (!any) return;
  // Where every given flow has a held pressure to go to or to come from, any amount fits.
  const auto drains = structure_detail::reachable(shape, held, true);
  const auto given = structure_detail::reachable(shape, held, false);
  bool free = true;
  for (Network::PlaceIndex i = 0; i < shape.places(); ++i) {
    const double q = network.place(i).inflow();
    free = free && (q == 0.0 || (q > 0.0 ? drains[i] : given[i]) != 0);
  }
  if (free) return;
  const auto unfit = structure_detail::unfit_given_flows(network);
  if (unfit.empty()) return;
  throw IllPosedError(fmt::format(
      "the given flow at {} has no way through: one-way parts let it pass only between places whose given flows do "
      "not balance; change a flow, turn a part round or open a way",
      structure_detail::list_places(network, unfit)));
}

namespace structure_detail {

/// What the first group that cannot have an answer lacks.
inline void check_groups(const Network& network, const Incidence& shape) {
  std::vector<std::uint32_t> group;
  const std::size_t count = connected_groups(shape, group);
  std::vector<std::array<bool, 5>> has(count, std::array<bool, 5>{});
  for (Network::PlaceIndex i = 0; i < shape.places(); ++i)
    has[group[i]][static_cast<std::size_t>(shape.kind(i))] = true;
  for (std::size_t g = 0; g < count; ++g) {
    const auto holds = [&](PlaceKind kind) { return has[g][static_cast<std::size_t>(kind)]; };
    const bool fed = holds(PlaceKind::fed), supply = holds(PlaceKind::supply), air = holds(PlaceKind::air);
    if ((fed || supply) && (supply || air)) continue;
    std::vector<Network::PlaceIndex> places;
    for (Network::PlaceIndex i = 0; i < shape.places(); ++i) {
      if (group[i] == g) places.push_back(i);
    }
    if (!fed) {
      throw IllPosedError(fmt::format("no supply is joined to {}: nothing can feed {}", list_places(network, places),
                                      places.size() == 1 ? "it" : "them"));
    }
    if (holds(PlaceKind::drawn)) {
      throw IllPosedError(fmt::format(
          "every flow into and out of {} is given, so nothing there has a pressure: hold one place at a pressure or "
          "open one to the air",
          list_places(network, places)));
    }
    throw IllPosedError(fmt::format(
        "liquid is pushed into {} but has no way out: no place there is open to the air or held at a pressure",
        list_places(network, places)));
  }
}

}  // namespace structure_detail

/// Throws IllPosedError, naming the places, when the network cannot have an answer:
/// nothing joined, a part of it with no pressure held anywhere, liquid pushed in with no way out, liquid drawn out
/// with no way to it, given flows that one-way parts keep from balancing, or places that no supply is joined to.
/// Outlets that only a wrong-way one-way part cuts off have an answer (no flow): a caution.
/// @param shape  of this network
inline Cautions check_structure(const Network& network, const Incidence& shape) {
  const std::size_t n = shape.places();
  if (n == 0 || shape.parts() == 0) {
    throw IllPosedError("the network has no parts: join at least a supply and an outlet by a part");
  }
  structure_detail::check_groups(network, shape);
  // Where every part passes both ways, who is joined is reached.
  if (shape.two_way()) return {};

  // Which places let liquid go, which give it: a held pressure does either.
  std::vector<Network::PlaceIndex> sources, givers, takers, cut_off;
  for (Network::PlaceIndex i = 0; i < n; ++i) {
    const Place& place = network.place(i);
    if (place.kind == PlaceKind::supply || place.kind == PlaceKind::fed) sources.push_back(i);
    if (place.held() || place.inflow() > 0.0) givers.push_back(i);
    if (place.held() || place.inflow() < 0.0) takers.push_back(i);
  }
  const auto drains = structure_detail::reachable(shape, takers, true);
  const auto given = structure_detail::reachable(shape, givers, false);
  for (Network::PlaceIndex i = 0; i < n; ++i) {
    if (network.place(i).inflow() > 0.0 && drains[i] == 0) {
      throw IllPosedError(
          fmt::format("liquid is pushed in at '{}' but every way out is shut by a one-way part or a shut valve: turn "
                      "the part round or open a way",
                      network.place(i).id));
    }
    if (network.place(i).inflow() < 0.0 && given[i] == 0) {
      throw IllPosedError(
          fmt::format("liquid is drawn out at '{}' but every way to it is shut by a one-way part or a shut valve: turn "
                      "the part round or open a "
                      "way",
                      network.place(i).id));
    }
  }
  check_given_flows(network, shape);

  const auto fed = structure_detail::reachable(shape, sources, false);
  for (Network::PlaceIndex i = 0; i < n; ++i) {
    if (shape.kind(i) == PlaceKind::air && fed[i] == 0) cut_off.push_back(i);
  }
  Cautions cautions;
  for (const auto p : cut_off) {
    cautions.push_back(
        {"unfed-outlet", network.place(p).id,
         "no liquid can reach this outlet: on every way to it a valve is shut or a one-way part points the other way"});
  }
  return cautions;
}
/// The same, its incidence made here.
inline Cautions check_structure(const Network& network) { return check_structure(network, Incidence(network)); }

}  // namespace libflow
