// SPDX-License-Identifier: MIT
/// @file
/// In words and numbers, step by step: where the pressure to one row goes, and why the row is off: by causes and by
/// single inputs (study/row_inputs.hpp).
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/report/words.hpp>
#include <libflow/study/path.hpp>

namespace libflow {

namespace report_detail {

/// Steps of the same kind and bore in a row are one line of the account: a bar is many short pieces.
struct PathStretch {
  std::string kind;
  std::size_t parts = 0;
  std::string first{}, last{};  ///< ids
  double length = 0;            ///< of its hoses [m]
  double bore = 0;              ///< [m]; 0 where it has none
  double most_flow = 0, least_flow = 0;
  double loss = 0, unused_fall = 0, lift = 0, after = 0;
  Regime regime = Regime::still;
};

std::vector<PathStretch> stretches(const Answer& a, const RowPath& path);

}  // namespace report_detail

/// The account of one row, at most TextOptions::width columns wide.
/// @throws InputError as path_to_row
[[nodiscard]] std::string explain_text(const Answer& answer, int row, const TextOptions& options = {});

}  // namespace libflow
