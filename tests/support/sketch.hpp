// SPDX-License-Identifier: MIT
/// @file
/// Networks that tests draw at random and change: a list of places and parts from which a Network is built.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/network/network.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/fitting.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>

namespace libflow::test {

/// Random numbers that are the same with every standard library.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  [[nodiscard]] double uniform(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53;
  }
  [[nodiscard]] double log_uniform(double low, double high) {
    return low * std::exp(uniform(0.0, std::log(high / low)));
  }
  /// 0 .. count - 1
  [[nodiscard]] std::size_t below(std::size_t count) { return static_cast<std::size_t>(engine_() % count); }
  [[nodiscard]] bool chance(double p) { return uniform(0.0, 1.0) < p; }
  template <class T>
  void shuffle(std::vector<T>& list) {
    for (std::size_t i = list.size(); i > 1; --i) std::swap(list[i - 1], list[below(i)]);
  }

 private:
  std::mt19937_64 engine_;
};

/// A network as data.
struct Sketch {
  struct SketchPart {
    std::string id;
    std::size_t a, b;
    Part part;
  };
  std::vector<Place> places;
  std::vector<SketchPart> parts;

  std::size_t add(Place place) {
    places.push_back(std::move(place));
    return places.size() - 1;
  }
  std::size_t join(std::size_t a, std::size_t b, Part part) {
    parts.push_back({fmt::format("part {}", parts.size()), a, b, std::move(part)});
    return parts.size() - 1;
  }

  [[nodiscard]] Network build() const {
    Network n;
    for (const Place& p : places) {
      const Length z = from_si<Length>(p.elevation);
      switch (p.kind) {
        case PlaceKind::junction:
          n.add_place(p.id, z);
          break;
        case PlaceKind::supply:
          n.add_supply(p.id, from_si<Pressure>(p.pressure), z);
          break;
        case PlaceKind::fed:
          n.add_fed(p.id, from_si<Flow>(p.flow), z);
          break;
        case PlaceKind::drawn:
          n.add_drawn(p.id, from_si<Flow>(p.flow), z);
          break;
        case PlaceKind::air:
          n.add_air(p.id, z);
          break;
      }
    }
    for (const SketchPart& p : parts) n.add_part(p.id, p.a, p.b, p.part);
    return n;
  }
};

inline Hose random_hose(Dice& dice) {
  return {.length = from_si<Length>(dice.log_uniform(0.05, 30.0)),
          .bore = from_si<Length>(dice.log_uniform(3e-3, 20e-3)),
          .roughness = from_si<Length>(dice.chance(0.5) ? 1.5e-6 : dice.uniform(0.0, 1e-4))};
}
inline Orifice random_orifice(Dice& dice) {
  const double bore = dice.log_uniform(0.4e-3, 4e-3);
  return {.bore = from_si<Length>(bore), .thickness = from_si<Length>(dice.chance(0.5) ? 0.0 : bore * 2.0)};
}
inline CheckValve random_check_valve(Dice& dice) {
  return {.crack = from_si<Pressure>(dice.chance(0.2) ? 0.0 : dice.log_uniform(1e3, 1e5)),
          .passage_bore = from_si<Length>(dice.log_uniform(1e-3, 8e-3))};
}
inline Part random_passage(Dice& dice) {
  const double which = dice.uniform(0.0, 1.0);
  if (which < 0.6) return random_hose(dice);
  if (which < 0.85) return random_orifice(dice);
  return Fitting::elbow_90(from_si<Length>(dice.log_uniform(3e-3, 20e-3)));
}
inline Part random_part(Dice& dice, double check_valves) {
  if (dice.chance(check_valves)) return random_check_valve(dice);
  return random_passage(dice);
}

/// How a random network is drawn.
struct SketchOptions {
  std::size_t fewest = 3, most = 20;  ///< junctions
  double check_valves = 0.2;          ///< share of parts
  double given_flows = 0.2;           ///< chance of a fed place
};

/// A connected network with loops, one to three supplies, one to six outlets (one part each), perhaps a fed place.
inline Sketch random_sketch(Dice& dice, const SketchOptions& o = {}) {
  Sketch s;
  const std::size_t n = o.fewest + dice.below(o.most - o.fewest + 1);
  const auto height = [&] { return dice.uniform(-2.0, 2.0); };
  for (std::size_t i = 0; i < n; ++i) s.add({.id = fmt::format("j{}", i), .elevation = height()});
  const auto either_way = [&](std::size_t a, std::size_t b) {
    Part part = random_part(dice, o.check_valves);
    dice.chance(0.5) ? s.join(a, b, std::move(part)) : s.join(b, a, std::move(part));
  };
  for (std::size_t i = 1; i < n; ++i) either_way(dice.below(i), i);
  for (std::size_t k = dice.below(n / 2 + 2); k > 0; --k) {
    const std::size_t a = dice.below(n), b = dice.below(n);
    if (a != b) either_way(a, b);
  }
  for (std::size_t k = 1 + dice.below(3); k > 0; --k) {
    const auto supply = s.add({.id = fmt::format("supply {}", k),
                               .elevation = height(),
                               .kind = PlaceKind::supply,
                               .pressure = dice.uniform(2e4, 5e5)});
    s.join(supply, dice.below(n), random_part(dice, o.check_valves));
  }
  std::size_t air = 0;
  for (std::size_t k = 1 + dice.below(6); k > 0; --k) {
    air = s.add({.id = fmt::format("air {}", k), .elevation = height(), .kind = PlaceKind::air});
    s.join(dice.below(n), air, random_part(dice, o.check_valves));
  }
  if (dice.chance(o.given_flows)) {
    // Well-posed whatever the one-way parts do: a hose leads from the fed place to an outlet of its own.
    const auto fed =
        s.add({.id = "fed", .elevation = height(), .kind = PlaceKind::fed, .flow = dice.log_uniform(1e-7, 1e-4)});
    const auto own = s.add({.id = "own air", .elevation = height(), .kind = PlaceKind::air});
    s.join(fed, dice.below(n), random_hose(dice));
    s.join(fed, own, random_hose(dice));
  }
  return s;
}

/// Largest size of the flows of a solution [m3/s].
template <class Solution>
[[nodiscard]] double largest_flow(const Solution& solution) {
  double most = 0.0;
  for (const auto& part : solution.parts) most = std::max(most, std::abs(part.flow));
  return most;
}

}  // namespace libflow::test
