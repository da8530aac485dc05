// SPDX-License-Identifier: MIT
/// @file
/// One scenario by itself: its plumbing, its liquid, its job, and the answer of the solver for single networks.
#pragma once

#include <cstddef>
#include <vector>

#include <libflow/study/scenario_inputs.hpp>

namespace libflow {

/// A scenario written out, ready for solve_plumbing and evaluate.
struct Scenario {
  Plumbing plumbing;   ///< its network
  Job job;             ///< what it has to do
  LiquidState liquid;  ///< at its temperature
};

namespace scenarios_detail {

/// How a layout's elevations follow the ground: z = level + side sin(side slope) + fore_aft sin(fore-aft slope) [m].
struct Elevations {
  std::vector<double> level, side, fore_aft;  ///< by place; empty: the slopes cannot change
  double side_slope = 0, fore_aft_slope = 0;  ///< as the layout has them [rad]

  [[nodiscard]] bool known() const { return !level.empty(); }
  [[nodiscard]] double at(std::size_t place, double sin_side, double sin_fore_aft) const {
    return level[place] + sin_side * side[place] + sin_fore_aft * fore_aft[place];
  }
};

/// The toolbar's elevations, found by building it on the level and on two slopes.
Elevations elevations_of(Toolbar toolbar, const Job& job);

double value_or(const Eigen::ArrayXd& column, std::size_t scenario, double otherwise);

/// Density and viscosity of a scenario.
struct DensityViscosity {
  double density, viscosity;
};
DensityViscosity liquid_numbers(const Scenarios& s, std::size_t i, const Liquid& liquid, const LiquidState& nominal);

/// Everything that the scenarios of one layout share.
struct Base {
  Plumbing plumbing;
  Job job;
  LiquidState liquid;
  Elevations elevations;
  bool ends_follow = false;  ///< open ends of rows have the bore of the row's hose

  [[nodiscard]] const Place& supply() const { return plumbing.network.place(plumbing.supply); }
  /// The supply's flow is what the job asks for, unless it is held at a pressure.
  [[nodiscard]] bool fed() const { return supply().kind == PlaceKind::fed; }
};

/// True when density or viscosity differs between scenarios.
bool moves_liquid(const Scenarios& s);

/// The parts that some column changes, each once.
std::vector<Network::PartIndex> parts_of(const std::vector<Binding>& bound);

/// One scenario written out. @throws InputError naming the scenario
Scenario scenario_of(const Base& base, const Scenarios& s, const std::vector<Binding>& bound, std::size_t i);

}  // namespace scenarios_detail

}  // namespace libflow
