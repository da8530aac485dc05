// SPDX-License-Identifier: MIT
/// @file
/// What a network's answer is differentiated by: every numeric input of its parts, its places and its liquid.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/fluid/liquid.hpp>
#include <libflow/network/network.hpp>
#include <libflow/network/tee_at.hpp>
#include <libflow/parts/inputs.hpp>

namespace libflow {

/// One numeric input of a network.
struct NetworkInput {
  /// What it is a number of.
  enum class Kind {
    part,             ///< a numeric input of a part (parts/inputs.hpp)
    density,          ///< of the liquid
    viscosity,        ///< of the liquid
    supply_pressure,  ///< total gauge pressure of a supply
    tank_level,       ///< of a supply that add_tank made, above the tank's inside bottom
    given_flow,       ///< pushed in at a fed place or taken out at a drawn one
    elevation,        ///< of a place
    tee               ///< a numeric input of the tee that stands at a place (Tee::inputs)
  };
  Kind kind = Kind::part;  ///< what it is a number of
  std::size_t index = 0;   ///< of the part or the place
  std::size_t field = 0;   ///< which of the part's or the tee's inputs

  friend bool operator==(const NetworkInput&, const NetworkInput&) = default;
};

/// All of them: part by part, then density and viscosity, then place by place, then tee by tee. What a part does not
/// set is left out.
[[nodiscard]] inline std::vector<NetworkInput> inputs_of(const Network& network, std::span<const TeeAt> tees = {}) {
  using InputKind = NetworkInput::Kind;
  std::vector<NetworkInput> all;
  for (std::size_t e = 0; e < network.part_count(); ++e) {
    const Part& part = network.part(e).part;
    for (std::size_t k = 0; k < part.input_count(); ++k) {
      if (part.input(k).value) all.push_back({InputKind::part, e, k});
    }
  }
  all.push_back({InputKind::density});
  all.push_back({InputKind::viscosity});
  for (std::size_t i = 0; i < network.place_count(); ++i) {
    const PlaceKind kind = network.place(i).kind;
    if (kind == PlaceKind::supply) all.push_back({InputKind::supply_pressure, i});
    if (network.place(i).tank) all.push_back({InputKind::tank_level, i});
    if (kind == PlaceKind::fed || kind == PlaceKind::drawn) all.push_back({InputKind::given_flow, i});
    all.push_back({InputKind::elevation, i});
  }
  for (const TeeAt& at : tees) {
    for (std::size_t k = 0; k < input_count<Tee>; ++k) all.push_back({InputKind::tee, at.place, k});
  }
  return all;
}

/// In words, as in "row 3 hose, bore".
[[nodiscard]] inline std::string name_of(const Network& network, const NetworkInput& input) {
  switch (input.kind) {
    case NetworkInput::Kind::part: {
      const PlacedPart& placed = network.part(input.index);
      return fmt::format("{}, {}", placed.id, placed.part.input(input.field).name);
    }
    case NetworkInput::Kind::density:
      return "liquid, density";
    case NetworkInput::Kind::viscosity:
      return "liquid, viscosity";
    case NetworkInput::Kind::supply_pressure:
      return fmt::format("{}, pressure", network.place(input.index).id);
    case NetworkInput::Kind::tank_level:
      return fmt::format("{}, level", network.place(input.index).id);
    case NetworkInput::Kind::given_flow:
      return fmt::format("{}, flow", network.place(input.index).id);
    case NetworkInput::Kind::elevation:
      return fmt::format("{}, elevation", network.place(input.index).id);
    case NetworkInput::Kind::tee:
      return fmt::format("{} tee, {}", network.place(input.index).id, input_of(Tee{}, input.field).name);
  }
  return {};
}

/// SI unit; empty for a plain number.
[[nodiscard]] inline std::string_view unit_of(const Network& network, const NetworkInput& input) {
  switch (input.kind) {
    case NetworkInput::Kind::part:
      return network.part(input.index).part.input(input.field).unit;
    case NetworkInput::Kind::density:
      return "kg/m3";
    case NetworkInput::Kind::viscosity:
      return "Pa s";
    case NetworkInput::Kind::supply_pressure:
      return "Pa";
    case NetworkInput::Kind::given_flow:
      return "m3/s";
    case NetworkInput::Kind::tank_level:
    case NetworkInput::Kind::elevation:
      return "m";
    case NetworkInput::Kind::tee:
      return input_of(Tee{}, input.field).unit;
  }
  return {};
}

/// Its present value [SI]. @param tees  those of the network, where the input is a tee's
[[nodiscard]] inline double value_of(const Network& network, const LiquidState& liquid, const NetworkInput& input,
                                     std::span<const TeeAt> tees = {}) {
  switch (input.kind) {
    case NetworkInput::Kind::part:
      return network.part(input.index).part.input(input.field).value.value_or(0.0);
    case NetworkInput::Kind::density:
      return liquid.density;
    case NetworkInput::Kind::viscosity:
      return liquid.viscosity;
    case NetworkInput::Kind::supply_pressure:
      return network.place(input.index).pressure;
    case NetworkInput::Kind::tank_level: {
      const auto& tank = network.place(input.index).tank;
      return tank ? tank->level : 0.0;
    }
    case NetworkInput::Kind::given_flow:
      return network.place(input.index).flow;
    case NetworkInput::Kind::elevation:
      return network.place(input.index).elevation;
    case NetworkInput::Kind::tee:
      for (const TeeAt& at : tees) {
        if (at.place == input.index) return input_of(at.tee, input.field).value.value_or(0.0);
      }
      break;
  }
  return 0.0;
}

}  // namespace libflow
