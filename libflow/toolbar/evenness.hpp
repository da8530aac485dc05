// SPDX-License-Identifier: MIT
/// @file
/// Row by row: what each row gets, how far it is from the mean, and the verdict.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/core/caution.hpp>
#include <libflow/solve/solution.hpp>

namespace libflow {

/// What one row gets. SI.
struct RowResult {
  int row = 0;                    ///< 1-based
  bool shut = false;              ///< valved off: not counted in mean, CV and verdict
  double flow = 0;                ///< all its outlets together [m3/s]
  double width = 0;               ///< field width it covers [m]
  double speed = 0;               ///< its own ground speed [m/s]
  double rate = 0;                ///< flow / (width x speed) [m3 per m2]
  double deviation = 0;           ///< rate over the mean rate, less one [-]
  double hose_length = 0;         ///< [m]; 0 where it has none
  double orifice_drop = 0;        ///< [Pa]
  double check_valve_drop = 0;    ///< [Pa]
  double line_drop = 0;           ///< hose, bar and everything else between the supply and the air [Pa]
  double unused_fall = 0;         ///< height of hanging tubes that liquid falls through air, in no drop above [Pa]
  double lift = 0;                ///< static head from the supply up to the outlet; negative: the outlet is lower [Pa]
  double orifice_share = 0;       ///< orifice / (orifice + check valve + line) [-]; 0: a pump adds to it on the way
  double hose_reynolds = 0;       ///< in its hose [-]
  Regime regime = Regime::still;  ///< in the row's hose
  ValveState valve = ValveState::none;  ///< closed when any of its outlets is closed
};

/// One cause of unevenness. The deviations of all causes in a row add up to the row's deviation.
struct Cause {
  std::string name;               ///< "hose lengths", "manifold", "slope" ...
  std::vector<double> deviation;  ///< by row, in the order of Evenness::rows [-]
  double share = 0;  ///< of the variance of the rows' deviations; all shares add up to 1, some may be negative
};

/// The verdict on a toolbar at one setting.
struct Evenness {
  std::vector<RowResult> rows;  ///< from left to right
  double tolerance = 0.05;      ///< each counted row within this fraction of the mean
  bool even = false;            ///< every counted row is within the tolerance

  double mean_rate = 0;        ///< of the counted rows [m3 per m2]
  double target_rate = 0;      ///< what the job asked for [m3 per m2]
  double total_flow = 0;       ///< [m3/s]
  double supply_pressure = 0;  ///< total gauge pressure at the supply [Pa]
  double cv = 0;               ///< coefficient of variation of the rates, sample standard deviation (n-1) over mean [-]
  double christiansen = 0;     ///< Christiansen's uniformity coefficient [-], 1 is perfect
  double low_quarter = 0;      ///< low-quarter distribution uniformity [-], 1 is perfect
  int highest_row = 0, lowest_row = 0;  ///< 1-based; 0: none
  std::vector<int> outside;             ///< rows outside the tolerance

  std::vector<Cause> causes;  ///< largest absolute share first; empty for a free-form network
  std::string reference;      ///< the even reference in words
  Cautions cautions;          ///< what a person should know
};

}  // namespace libflow
