// SPDX-License-Identifier: MIT
/// @file
/// The core network that a pack of scenarios shares: which places and edges are left after the reduction, in the order
/// of their elimination.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/solve/packed_laws.hpp>
#include <libflow/solve/packed_mesh.hpp>
#include <libflow/solve/reduction.hpp>

namespace libflow {

/// Shape only, shared by all scenarios and threads.
class PackedCore {
 public:
  /// A run of parts, as in Reduction.
  struct Edge {
    int a = 0, b = 0;      ///< core places; from `unknowns()` on: held
    int slot = -1;         ///< of its conductance in the mesh; -1: it does not join two unknown places
    int ground = -1;       ///< the unknown place that it joins to a held one; -1: none
    bool one_way = false;  ///< passes a to b only
  };

  /// @param laws  by part of the network
  PackedCore(const Network& network, const std::vector<Law>& laws)
      : PackedCore(network, laws, Reduction(network, laws)) {}

  /// Number of places whose potential is sought.
  [[nodiscard]] std::size_t unknowns() const { return mesh_->places(); }
  /// Number of places, held ones included.
  [[nodiscard]] std::size_t places() const { return places_; }
  /// All edges.
  [[nodiscard]] const std::vector<Edge>& edges() const { return edges_; }
  /// Symbolic elimination.
  [[nodiscard]] const PackedMeshShape& mesh() const { return *mesh_; }
  /// By part.
  [[nodiscard]] const std::vector<PackedSeat>& seats() const { return seats_; }
  /// Number of a place of the network in the core; empty where the reduction took it out.
  [[nodiscard]] std::optional<std::size_t> number(Network::PlaceIndex place) const { return number_[place]; }
  /// The first held place of the network: potentials count from it.
  [[nodiscard]] Network::PlaceIndex datum() const { return datum_; }

 private:
  PackedCore(const Network& network, const std::vector<Law>& laws, const Reduction& reduction)
      : seats_(network.part_count()), number_(network.place_count()) {
    std::vector<std::size_t> unknown(network.place_count());
    std::size_t count = 0;
    for (std::size_t i = 0; i < network.place_count(); ++i) {
      if (reduction.in_core(i) && !network.place(i).held()) unknown[i] = count++;
    }
    const auto is_unknown = [&](std::size_t i) { return !network.place(i).held(); };
    std::vector<std::array<std::size_t, 2>> joints;
    for (const libflow::Edge& edge : reduction.core()) {
      if (is_unknown(edge.a) && is_unknown(edge.b)) joints.push_back({unknown[edge.a], unknown[edge.b]});
    }
    mesh_.emplace(count, joints);
    places_ = count;
    bool first = true;
    for (std::size_t i = 0; i < network.place_count(); ++i) {
      if (!reduction.in_core(i)) continue;
      if (is_unknown(i)) {
        number_[i] = mesh_->step_of(unknown[i]);
      } else {
        number_[i] = places_++;
        if (first) datum_ = i;
        first = false;
      }
    }
    seat_parts(reduction, laws);
    std::vector<Passes> passes(reduction.core().size(), Passes::both);
    for (std::size_t i = 0; i < laws.size(); ++i) {
      if (!seats_[i].in_core()) continue;
      Passes& p = passes[seats_[i].edge];
      p = p & (seats_[i].forward ? laws[i].passes : reversed(laws[i].passes));
    }
    std::size_t joint = 0;
    for (std::size_t e = 0; e < reduction.core().size(); ++e) {
      const libflow::Edge& edge = reduction.core()[e];
      Edge x{.a = static_cast<int>(*number_[edge.a]), .b = static_cast<int>(*number_[edge.b])};
      if (is_unknown(edge.a) && is_unknown(edge.b)) {
        x.slot = mesh_->slot(joint++);
      } else if (is_unknown(edge.a)) {
        x.ground = x.a;
      } else if (is_unknown(edge.b)) {
        x.ground = x.b;
      }
      x.one_way = passes[e] == Passes::forward;
      edges_.push_back(x);
    }
  }

  /// Which edge each part is on, and which way: the edges are given flows of their own number and expanded to parts.
  void seat_parts(const Reduction& reduction, const std::vector<Law>& laws) {
    std::vector<Law> blank(laws.size());
    for (std::size_t i = 0; i < laws.size(); ++i) blank[i].passes = laws[i].passes;
    std::vector<double> numbers(reduction.core().size()), flow, potential(number_.size(), 0.0);
    for (std::size_t e = 0; e < numbers.size(); ++e) numbers[e] = static_cast<double>(e + 1);
    reduction.expand(blank, numbers, flow, potential);
    for (std::size_t i = 0; i < flow.size(); ++i) {
      if (flow[i] == 0.0) continue;
      seats_[i] = {static_cast<std::size_t>(std::abs(flow[i])) - 1, flow[i] > 0.0};
    }
  }

  std::vector<PackedSeat> seats_;
  std::vector<std::optional<std::size_t>> number_;
  std::optional<PackedMeshShape> mesh_;
  std::vector<Edge> edges_;
  std::size_t places_ = 0;
  Network::PlaceIndex datum_ = 0;
};

}  // namespace libflow
