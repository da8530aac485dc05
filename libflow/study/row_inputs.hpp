// SPDX-License-Identifier: MIT
/// @file
/// Which single inputs make one row differ: its hose, its orifice, a piece of the bar.
#pragma once

#include <string>
#include <vector>

#include <libflow/study/main_job.hpp>

namespace libflow {

/// What one input does to the row.
struct RowInput {
  std::string name;      ///< as in "row 3 hose, length"
  std::string group;     ///< the cause it belongs to, as attribution.hpp names causes
  std::string unit;      ///< of the two values, SI; empty: a plain number
  double reference = 0;  ///< its value on an even bar
  double value = 0;      ///< its value in the layout
  double deviation = 0;  ///< its part of the row's deviation from the mean [-]
};

/// All of them for one row.
struct RowInputs {
  int row = 0;                   ///< 1-based
  std::vector<RowInput> inputs;  ///< largest part first; they add up to the deviation
  double deviation = 0;          ///< of the row from the mean of the rows [-]
  double left_over = 0;          ///< what the parts of any row miss of its deviation at most [-]
  std::string reference;         ///< the even bar in words
  std::string refused;           ///< why the inputs cannot be told apart here; empty where they can
};

/// By attribute_by_input (toolbar/attribution_by_input.hpp), at the total that the rows get. What it cannot take (a
/// layout place by place, rows with different parts) is said in `refused`.
/// @param row  1-based
/// @throws InputError for a row that the layout does not have
[[nodiscard]] RowInputs inputs_of_row(const Answer& answer, int row);

}  // namespace libflow
