// SPDX-License-Identifier: MIT
/// @file
/// Random well-posed networks for the convergence property test: every feature that could trouble a solver, in every
/// combination, from a fixed seed.
#pragma once

#include <algorithm>
#include <array>
#include <bitset>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/network.hpp>
#include <libflow/parts.hpp>
#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/relief_valve.hpp>

namespace libflow::testing {

enum Feature : std::size_t {
  loops,
  orifices,
  valves_at_zero,
  valves_with_crack,
  relief_valves,
  pumps,
  several_supplies,
  suction,
  high_pressure,
  fed_flows,
  thick_liquid,
  thin_liquid,
  huge_ratio,
  dead_ends,
  still_loop,
  balanced_bridge,
  near_zero,
  large,
  hills,
  feature_count
};
inline constexpr std::array<std::string_view, feature_count> feature_names{"loops",
                                                                           "orifices",
                                                                           "valves at zero",
                                                                           "valves with crack",
                                                                           "relief valves",
                                                                           "pumps",
                                                                           "several supplies",
                                                                           "suction below air",
                                                                           "high pressure",
                                                                           "fed flows",
                                                                           "thick liquid",
                                                                           "thin liquid",
                                                                           "resistance ratio 1e10",
                                                                           "dead ends",
                                                                           "still loop",
                                                                           "balanced bridge",
                                                                           "near-zero flows",
                                                                           "100 places or more",
                                                                           "hills"};

struct RandomNetwork {
  Network network;
  LiquidState liquid;
  std::bitset<feature_count> features;  ///< what the network really holds
};

/// The network of a seed; the same on every machine (the standard's engine, our own distributions).
class RandomNetworkMaker {
 public:
  explicit RandomNetworkMaker(std::uint64_t seed) : engine_(seed) {}

  RandomNetwork make() {
    out_ = {};
    for (std::size_t f = 0; f < feature_count; ++f) wish_[f] = chance(0.5);
    wish_[near_zero] = chance(0.3);
    if (wish_[near_zero]) wish_[hills] = wish_[suction] = wish_[high_pressure] = false;
    if (wish_[suction] && wish_[high_pressure]) wish_[several_supplies] = true;
    if (wish_[thick_liquid] && wish_[thin_liquid]) wish_[chance(0.5) ? thick_liquid : thin_liquid] = false;
    choose_liquid();
    const auto n = static_cast<std::size_t>(wish_[large] ? logarithmic(100, 300) : logarithmic(2, 99));
    choose_tree(n);
    choose_places(n);
    for (std::size_t i = 1; i < n; ++i) add_random_part(parent_[i], i);
    if (wish_[loops] && n > 3) {
      const std::size_t extra = 1 + below(1 + n / 2);
      for (std::size_t k = 0; k < extra; ++k) {
        const std::size_t a = below(n), b = below(n);
        if (a != b) {
          add_random_part(a, b);
          out_.features.set(loops);
        }
      }
    }
    if (wish_[dead_ends]) {
      for (std::size_t k = 0, count = 1 + below(3); k < count; ++k) {
        const auto end = out_.network.add_place(name(), height());
        add(below(n), end, random_hose());
        if (chance(0.5)) add(end, out_.network.add_place(name(), height()), random_hose());
      }
      out_.features.set(dead_ends);
    }
    if (wish_[still_loop]) {  // three equal hoses in a ring that hangs on one place
      const std::size_t u = below(n);
      const auto a = out_.network.add_place(name()), b = out_.network.add_place(name());
      const Hose hose = random_hose();
      add(u, a, hose);
      add(a, b, hose);
      add(b, u, hose);
      out_.features.set(still_loop);
    }
    if (wish_[balanced_bridge] && n > 1) {  // no flow through the middle of a symmetric bridge
      const std::size_t u = below(n), v = (u + 1 + below(n - 1)) % n;
      const auto a = out_.network.add_place(name()), b = out_.network.add_place(name());
      const Hose first = random_hose(), second = random_hose();
      add(u, a, first);
      add(u, b, first);
      add(a, v, second);
      add(b, v, second);
      add(a, b, random_hose());
      out_.features.set(balanced_bridge);
    }
    if (wish_[huge_ratio]) {
      const auto a = out_.network.add_place(name()), b = out_.network.add_place(name());
      add(below(n), a, Hose{.length = from_si<Length>(0.01), .bore = from_si<Length>(0.06)});
      add(a, b, Hose{.length = from_si<Length>(100.0), .bore = from_si<Length>(0.001)});
      add(b, below(n), Hose{.length = from_si<Length>(0.01), .bore = from_si<Length>(0.06)});
      out_.features.set(huge_ratio);
    }
    if (n >= 100) out_.features.set(large);
    return std::move(out_);
  }

 private:
  double uniform() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }
  double uniform(double a, double b) { return a + (b - a) * uniform(); }
  double logarithmic(double a, double b) { return a * std::pow(b / a, uniform()); }
  bool chance(double p) { return uniform() < p; }
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(uniform() * static_cast<double>(n)); }
  std::string name() { return fmt::format("{}", next_++); }
  Length height() { return from_si<Length>(wish_[hills] ? uniform(-3.0, 3.0) : 0.0); }

  void choose_liquid() {
    double mu = logarithmic(1e-3, 1e-1);
    if (wish_[thick_liquid]) mu = logarithmic(0.2, 2.0);
    if (wish_[thin_liquid]) mu = logarithmic(0.5e-3, 0.7e-3);
    out_.liquid.viscosity = mu;
    out_.liquid.density = uniform(950.0, 1500.0);
    if (mu >= 0.2) out_.features.set(thick_liquid);
    if (mu <= 0.7e-3) out_.features.set(thin_liquid);
    if (wish_[hills]) out_.features.set(hills);
  }

  void choose_tree(std::size_t n) {
    parent_.assign(n, 0);
    const double chain = uniform();  // 0: bushy, 1: one long run
    for (std::size_t i = 1; i < n; ++i) parent_[i] = chance(chain) ? i - 1 : below(i);
  }

  double supply_pressure() {
    if (wish_[near_zero]) return 1e5 + uniform(0.0, 1e-4);
    const bool second = supplies_++ % 2 == 1;
    if (wish_[suction] && (!second || chance(0.3))) {
      out_.features.set(suction);
      return uniform(-5e4, -1e3);
    }
    if (wish_[high_pressure] && (second || !wish_[suction])) {
      out_.features.set(high_pressure);
      return uniform(6e5, 1e6);
    }
    return logarithmic(1e3, 5e5);
  }

  /// Place 0 is a supply; leaves of the tree are open to the air or supplies, inner places now and then.
  void choose_places(std::size_t n) {
    std::vector<bool> leaf(n, true);
    for (std::size_t i = 1; i < n; ++i) leaf[parent_[i]] = false;
    const double held = uniform(0.2, 1.0);
    std::size_t supplies = 0;
    for (std::size_t i = 0; i < n; ++i) {
      if (i == 0 || (wish_[several_supplies] && chance(leaf[i] ? 0.3 : 0.05))) {
        out_.network.add_supply(name(), from_si<Pressure>(supply_pressure()), height());
        ++supplies;
      } else if (leaf[i] && !wish_[near_zero] && chance(held)) {
        out_.network.add_air(name(), height());
      } else if (leaf[i] && wish_[near_zero] && chance(held)) {
        out_.network.add_supply(name(), from_si<Pressure>(supply_pressure()), height());
        ++supplies;
      } else if (wish_[fed_flows] && chance(0.1)) {
        to_feed_.push_back(i);
        out_.network.add_place(name(), height());
      } else {
        out_.network.add_place(name(), height());
      }
    }
    if (supplies > 1) out_.features.set(several_supplies);
    if (wish_[near_zero] && !wish_[hills]) out_.features.set(near_zero);
    // Liquid is pushed in through a place of its own, which a hose joins: a way out through the tree is not promised
    // beyond that, so the pushed-in place also gets a relief of its own to the air.
    for (const std::size_t i : to_feed_) {
      const auto fed = out_.network.add_fed(name(), from_si<Flow>(logarithmic(1e-8, 1e-4)), height());
      add(fed, i, random_hose());
      const auto air = out_.network.add_air(name(), height());
      add(fed, air,
          ReliefValve{.set = from_si<Pressure>(logarithmic(1e4, 1e6)),
                      .passage_bore = from_si<Length>(logarithmic(1e-3, 1e-2))});
      out_.features.set(fed_flows);
      out_.features.set(relief_valves);
    }
    to_feed_.clear();
  }

  Hose random_hose() {
    return {.length = from_si<Length>(logarithmic(0.01, 100.0)), .bore = from_si<Length>(logarithmic(0.001, 0.06))};
  }

  template <class P>
  void add(std::size_t a, std::size_t b, P part) {
    out_.network.add_part(name(), a, b, Part(std::move(part)));
  }

  void add_random_part(std::size_t a, std::size_t b) {
    if (chance(0.5)) std::swap(a, b);
    const double kind = uniform();
    if (wish_[orifices] && kind < 0.2) {
      add(a, b,
          Orifice{.bore = from_si<Length>(logarithmic(3e-4, 1e-2)),
                  .thickness = from_si<Length>(chance(0.5) ? 0.0 : uniform(0.0, 3e-3))});
      out_.features.set(orifices);
    } else if (wish_[valves_at_zero] && kind < 0.3) {
      add(a, b, CheckValve{.crack = from_si<Pressure>(0.0), .passage_bore = from_si<Length>(logarithmic(1e-3, 2e-2))});
      out_.features.set(valves_at_zero);
    } else if (wish_[valves_with_crack] && kind < 0.42) {
      add(a, b,
          CheckValve{.crack = from_si<Pressure>(logarithmic(1e3, 3e5)),
                     .passage_bore = from_si<Length>(logarithmic(1e-3, 2e-2))});
      out_.features.set(valves_with_crack);
    } else if (wish_[relief_valves] && kind < 0.48) {
      add(a, b,
          ReliefValve{.set = from_si<Pressure>(logarithmic(1e4, 1e6)),
                      .passage_bore = from_si<Length>(logarithmic(1e-3, 2e-2))});
      out_.features.set(relief_valves);
    } else if (wish_[pumps] && kind < 0.54) {
      add(a, b,
          CentrifugalPump{.shutoff = from_si<Pressure>(logarithmic(1e4, 8e5)),
                          .free_flow = from_si<Flow>(logarithmic(1e-5, 1e-2)),
                          .linear_share = logarithmic(0.001, 1.0)});
      out_.features.set(pumps);
    } else if (kind > 0.9) {
      add(a, b, Fitting::elbow_90(from_si<Length>(logarithmic(0.003, 0.06))));
    } else {
      add(a, b, random_hose());
    }
  }

  std::mt19937_64 engine_;
  std::array<bool, feature_count> wish_{};
  std::vector<std::size_t> parent_, to_feed_;
  RandomNetwork out_;
  int next_ = 0, supplies_ = 0;
};

}  // namespace libflow::testing
