// SPDX-License-Identifier: MIT
/// @file
/// Which parts meet at which places, in compact lists. A large network's own records lie far apart in memory; what
/// walks through it again and again walks here.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include <libflow/network/network.hpp>

namespace libflow {

/// The shape of a network: ends and passages of its parts, kinds of its places. Pressures and flows may change after
/// it is made, parts and places not.
class Incidence {
 public:
  /// A part that meets a place, and the place at its other end.
  struct Meeting {
    std::uint32_t part, other;  ///< the part, and the place at its far end
  };

  /// Of a network as it stands.
  explicit Incidence(const Network& network)
      : begin_(network.place_count() + 2, 0), meeting_(2 * network.part_count()) {
    const std::size_t n = network.place_count(), m = network.part_count();
    kind_.reserve(n);
    for (std::size_t i = 0; i < n; ++i) kind_.push_back(network.place(i).kind);
    from_.reserve(m);
    to_.reserve(m);
    passes_.reserve(m);
    for (std::size_t e = 0; e < m; ++e) {
      const PlacedPart& placed = network.part(e);
      from_.push_back(static_cast<std::uint32_t>(placed.from));
      to_.push_back(static_cast<std::uint32_t>(placed.to));
      passes_.push_back(placed.part.passes());
      two_way_ = two_way_ && passes_.back() == Passes::both;
    }
    for (std::size_t e = 0; e < m; ++e) {
      ++begin_[from_[e] + 2];
      ++begin_[to_[e] + 2];
    }
    for (std::size_t i = 2; i < begin_.size(); ++i) begin_[i] += begin_[i - 1];
    for (std::size_t e = 0; e < m; ++e) {
      const auto part = static_cast<std::uint32_t>(e);
      meeting_[begin_[from_[e] + 1]++] = {part, to_[e]};
      meeting_[begin_[to_[e] + 1]++] = {part, from_[e]};
    }
    begin_.pop_back();
  }

  /// Number of places.
  [[nodiscard]] std::size_t places() const { return kind_.size(); }
  /// Number of parts.
  [[nodiscard]] std::size_t parts() const { return from_.size(); }
  /// First place of a part.
  [[nodiscard]] std::size_t from(std::size_t part) const { return from_[part]; }
  /// Second place of a part.
  [[nodiscard]] std::size_t to(std::size_t part) const { return to_[part]; }
  /// The end of a part that is not `place`.
  [[nodiscard]] std::size_t other_end(std::size_t part, std::size_t place) const {
    return from_[part] == place ? to_[part] : from_[part];
  }
  /// Which way a part passes.
  [[nodiscard]] Passes passes(std::size_t part) const { return passes_[part]; }
  /// True when every part passes both ways.
  [[nodiscard]] bool two_way() const { return two_way_; }
  /// Kind of a place.
  [[nodiscard]] PlaceKind kind(std::size_t place) const { return kind_[place]; }
  /// Parts at a place, in the order in which they were added.
  [[nodiscard]] std::span<const Meeting> at(std::size_t place) const {
    return {meeting_.data() + begin_[place], meeting_.data() + begin_[place + 1]};
  }

 private:
  std::vector<std::size_t> begin_;
  std::vector<Meeting> meeting_;
  std::vector<std::uint32_t> from_, to_;
  std::vector<PlaceKind> kind_;
  std::vector<Passes> passes_;
  bool two_way_ = true;
};

}  // namespace libflow
