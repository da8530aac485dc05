// SPDX-License-Identifier: MIT
/// @file
/// What the Newton and its linear solver share: the shape of the core network, and potentials that keep their digits.
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include <libflow/solve/star_mesh.hpp>

namespace libflow {

/// Shape of the core network: unknown places 0 .. unknowns-1, then the held places.
struct CoreShape {
  std::size_t unknowns = 0;       ///< number of places whose potential is sought
  std::vector<std::size_t> a, b;  ///< by edge; an index >= unknowns is a held place
  std::vector<bool> one_way;      ///< by edge: passes a to b only

  /// Edges between two unknown places, the others, and the symbolic part of eliminating those; made by eliminate().
  std::vector<std::size_t> joint_edge, held_edge;  ///< held_edge: those with a held place
  std::shared_ptr<const MeshShape> mesh;           ///< symbolic elimination of the joints

  /// Sorts the edges and makes `mesh`.
  void eliminate() {
    Joints joints;
    joint_edge.clear();
    held_edge.clear();
    for (std::size_t e = 0; e < a.size(); ++e) {
      if (a[e] < unknowns && b[e] < unknowns) {
        joints.push_back({static_cast<int>(a[e]), static_cast<int>(b[e])});
        joint_edge.push_back(e);
      } else {
        held_edge.push_back(e);
      }
    }
    mesh = std::make_shared<const MeshShape>(static_cast<int>(unknowns), joints);
  }
};

/// Potentials kept as a sum of two doubles, so that the difference of two nearly equal ones keeps its digits: a short
/// wide hose between places under high pressure drops almost nothing, and its flow is that difference over a tiny
/// resistance. Source: T. J. Dekker, Numer. Math. 18 (1971) 224 (from memory).
class Potentials {
 public:
  /// All zero.
  explicit Potentials(std::size_t places = 0) : level_(places) {}

  /// Potential of a less that of b [Pa].
  [[nodiscard]] double difference(std::size_t a, std::size_t b) const {
    return (level_[a].high - level_[b].high) + (level_[a].low - level_[b].low);
  }
  /// Puts a potential [Pa].
  void set(std::size_t i, double value) { level_[i] = {value, 0.0}; }
  /// Adds to a potential [Pa]; what rounding takes is kept.
  void add(std::size_t i, double step) {
    Level& l = level_[i];
    const double sum = l.high + step;
    const double part = sum - l.high;
    l.low += (l.high - (sum - part)) + (step - part);
    l.high = sum;
  }
  /// A potential as one double [Pa].
  [[nodiscard]] double value(std::size_t i) const { return level_[i].high + level_[i].low; }
  /// To about one digit in the last place: for sizes.
  [[nodiscard]] double rough(std::size_t i) const { return level_[i].high; }

 private:
  struct Level {
    double high = 0, low = 0;
  };
  std::vector<Level> level_;
};

}  // namespace libflow
