// SPDX-License-Identifier: MIT
/// @file
/// Which hose, which orifice: how much of every row's deviation each single input of a bar makes.
///
/// Every input that differs from an even reference is moved there and back along a straight line, all of them together;
/// an input's part of a row's deviation is the integral of the deviation's derivative by that input along the way. The
/// parts add up to the row's deviation (the fundamental theorem), and an input without effect has none. Derivatives are
/// exact (solve/derivatives.hpp); the way is cut finer (Gauss and Legendre's rule) until the parts add up, also where a
/// valve opens on the way.
/// Source: R. J. Aumann, L. S. Shapley, Values of Non-Atomic Games, 1974; M. Sundararajan, A. Taly, Q. Yan, Proc. 34th
/// Int. Conf. Machine Learning (2017) 3319, integrated gradients (both from memory).
#pragma once

#include <string>
#include <vector>

#include <libflow/core/range.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar/build.hpp>
#include <libflow/toolbar/drive.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// One input's part.
struct InputShare {
  std::string name;               ///< as in "row 3 hose, length"
  std::string group;              ///< the cause it belongs to, as attribution.hpp names causes
  std::string unit;               ///< of the two values, SI
  double reference = 0;           ///< its value on an even bar
  double value = 0;               ///< its value in the layout
  std::vector<double> deviation;  ///< by row, in the order of Plumbing::rows [-]
  double share = 0;  ///< of the variance of the rows' deviations; all shares add up to 1, some may be negative
};

/// The parts of all inputs.
struct InputAttribution {
  std::vector<InputShare> inputs;  ///< largest absolute share first
  std::vector<Cause> groups;       ///< the same added up by group, largest absolute share first
  std::vector<double> deviation;   ///< of every row [-]
  std::string reference;           ///< the even reference in words
  double left_over = 0;            ///< largest distance of a row's sum of parts from its deviation [-]
  int solves = 0;                  ///< networks solved
};

/// How exactly the parts add up.
struct InputAttributionOptions {
  double tolerance = 1e-7;  ///< of the sum of a row's parts [-], 1e-10 to 1e-3
  int max_solves = 100000;  ///< 100 to 1e9

  /// @throws InputError naming field, value, allowed
  void check() const {
    require_in("input attribution, tolerance", tolerance, {1e-10, 1e-3}, "");
    require_in("input attribution, max_solves", max_solves, {100, 1e9}, "");
  }
};

/// Every input's part of every row's deviation.
/// @throws InputError for a layout with a drive or whose rows have different parts, and as build_network; Error
///         when nothing flows on the way
[[nodiscard]] InputAttribution attribute_by_input(const Toolbar& toolbar, const Job& job, const LiquidState& liquid,
                                                  const InputAttributionOptions& options = {});

}  // namespace libflow
