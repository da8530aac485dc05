// SPDX-License-Identifier: MIT
/// @file
/// How the drops that come by corrections (tees, throttling regulators) answer to the solution: what derivatives need
/// of them.
#pragma once

#include <array>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <utility>
#include <vector>

#include <libflow/parts/inputs.hpp>
#include <libflow/physics/dual.hpp>
#include <libflow/solve/tees.hpp>

namespace libflow {

/// A flow of interest: a sum of parts' flows, each with a factor (a row: its last parts with factor 1).
using FlowSum = std::vector<std::pair<Network::PartIndex, double>>;

namespace derivatives_detail {

/// A drop on top of a part's law: one more unknown, with the condition that fixes it.
struct Extra {
  Network::PartIndex part = 0;                 ///< whose drop it adds to
  std::optional<Network::PlaceIndex> holds{};  ///< of a throttling regulator: it keeps this place's pressure
  double drop = 0;                             ///< of a tee: its value [Pa]
  FlowSum flows{};                             ///< of a tee: its slopes against flows [Pa per m3/s]
  double density = 0;                          ///< of a tee: its slope [Pa per kg/m3]
  /// Of a tee: the place where it stands and the drop's slopes against its own inputs (Tee::inputs).
  std::optional<Network::PlaceIndex> tee{};
  std::array<double, input_count<Tee>> sizes{};
  std::optional<std::size_t> set_input{};  ///< of a regulator: where its set pressure stands among all inputs
};

/// The drops of tees at the flows of a solution, with exact slopes: the tee's own formula on numbers that carry them.
/// @throws InputError for legs as tee_corrections
[[nodiscard]] inline std::vector<Extra> tee_extras(const Network& network, const std::vector<TeeAt>& tees,
                                                   const Solution& solution, double density) {
  using Tangent = physics::Dual<8>;  // left, right, branch, density, then the tee's own inputs
  constexpr std::size_t own = 4;
  std::vector<Extra> all;
  for (const TeeAt& at : tees) {
    const tees_detail::Legs tee = tees_detail::legs_of(network, at);
    const std::initializer_list<const std::vector<tees_detail::Leg>*> ways{&tee.left, &tee.right, &tee.branch};
    const auto out = [&](const std::vector<tees_detail::Leg>& legs, std::size_t k) {
      return Tangent::input(tees_detail::Legs::out(legs, solution), k);
    };
    const auto sizes =
        input_values<Tangent>(tee.tee, [](double x, std::size_t k) { return Tangent::input(x, own + k); });
    const BasicTeeLevels<Tangent> levels = Tee::levels_on<Tangent>(
        sizes, {.left = out(tee.left, 0), .right = out(tee.right, 1), .branch = out(tee.branch, 2)},
        Tangent::input(density, 3));
    const auto add = [&](const std::vector<tees_detail::Leg>& legs, const Tangent& level) {
      for (const tees_detail::Leg& leg : legs) {
        Extra extra{.part = leg.part, .drop = -leg.way * level.v, .density = -leg.way * level.d[3], .tee = at.place};
        for (std::size_t i = 0; i < extra.sizes.size(); ++i) extra.sizes[i] = -leg.way * level.d[own + i];
        std::size_t k = 0;
        for (const auto* way : ways) {
          for (const tees_detail::Leg& other : *way) {
            if (level.d[k] != 0.0) extra.flows.emplace_back(other.part, -leg.way * other.way * level.d[k]);
          }
          ++k;
        }
        all.push_back(std::move(extra));
      }
    };
    add(tee.left, levels.left);
    add(tee.right, levels.right);
    add(tee.branch, levels.branch);
  }
  return all;
}

}  // namespace derivatives_detail

}  // namespace libflow
