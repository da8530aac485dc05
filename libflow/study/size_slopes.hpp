// SPDX-License-Identifier: MIT
/// @file
/// How the evenness of a bar answers to choices that are continuous: the bore of all orifices, the bore of all hoses,
/// the way from these hoses to equal ones, the crack pressure. Exact derivatives (solve/derivatives.hpp).
#pragma once

#include <string>
#include <vector>

#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// What one choice, moved for all rows alike, does. SI.
struct ChoiceSlope {
  std::string choice;    ///< "orifice bore", "hose bore", "hose length towards equal", "crack pressure"
  std::string unit;      ///< of the choice: "m", "Pa"; "1": the share of the way to hoses as long as the longest
  double value = 0;      ///< of the choice, the mean of the rows; of the way to equal hoses 0
  int row = 0;           ///< the row furthest from the mean
  double deviation = 0;  ///< d |its deviation| / d choice [1/unit]; exact at this row, also where another takes over
  double cv = 0;         ///< d coefficient of variation / d choice [1/unit]; 0 where all rows are alike
  double pressure = 0;   ///< d gauge pressure / d choice [Pa/unit]
};

/// The slopes of a bar at one operating point with its total held. Without rows that have such a part there is no
/// slope of it. Where a one-way part stands exactly at its threshold they are those with it shut.
/// @param toolbar  from an ideal supply; with a drive the rows answer alike
/// @return where the junctions' losses count without that of the hose bore: their tees' branches would change with it
/// @throws InputError, IllPosedError as build_network and solve
[[nodiscard]] std::vector<ChoiceSlope> choice_slopes(const Toolbar& toolbar, const Job& job, const LiquidState& liquid);

/// The same of plumbing that is solved already, its supply fed.
[[nodiscard]] std::vector<ChoiceSlope> choice_slopes(const Plumbing& plumbing, const LiquidState& liquid,
                                                     const Solution& solution, const Evenness& evenness);

}  // namespace libflow
