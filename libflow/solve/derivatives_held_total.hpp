// SPDX-License-Identifier: MIT
/// @file
/// Derivatives where a controller keeps a total: it moves one setting with every other input, and the wanted total is
/// an input of its own.
///
/// With x the answer, p an input and s the setting, x(p, s) moves by dx = x_p dp + x_s ds while the total keeps
/// dQ = Q_p dp + Q_s ds. So dx/dp = x_p - x_s Q_p / Q_s and dx/dQ = x_s / Q_s: the two gradients that Derivatives
/// gives, of x and of the total, are all that is needed. Source: the implicit function theorem.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>

namespace libflow {

/// How something answers to the inputs of a network whose total is held.
struct HeldTotalGradient {
  std::vector<double> by_input;  ///< in the order of Derivatives::inputs(); 0 for the setting, which is no input then
  double by_total = 0;           ///< by the wanted total [unit of the answer per m3/s]
};

/// @param of_answer  gradient of a flow or a pressure at a fixed setting (Derivatives::of_flow, of_pressure)
/// @param of_total   gradient of the total that is held, in the same order
/// @param setting    which input the controller moves
/// @throws InputError for gradients of different length, a setting beyond them, or one that does not move the total:
///         the controller stands at a limit, nothing is held
[[nodiscard]] inline HeldTotalGradient with_total_held(std::span<const double> of_answer,
                                                       std::span<const double> of_total, std::size_t setting) {
  if (of_answer.size() != of_total.size() || setting >= of_total.size()) {
    throw InputError(
        "held total",
        fmt::format("gradients by {} and {} inputs, setting {}", of_answer.size(), of_total.size(), setting),
        "two gradients of one network and the index of one of its inputs");
  }
  const double per_setting = of_total[setting];
  if (per_setting == 0.0) {
    throw InputError("held total, setting", "moving it does not move the total: nothing holds it",
                     "a setting between its limits that the total answers to");
  }
  HeldTotalGradient held;
  held.by_total = of_answer[setting] / per_setting;
  held.by_input.reserve(of_answer.size());
  for (std::size_t k = 0; k < of_answer.size(); ++k)
    held.by_input.push_back(of_answer[k] - held.by_total * of_total[k]);
  held.by_input[setting] = 0.0;
  return held;
}

/// The same of the setting itself: how far the controller moves it for each input, and for the total.
/// @throws InputError as with_total_held
[[nodiscard]] inline HeldTotalGradient setting_with_total_held(std::span<const double> of_total, std::size_t setting) {
  std::vector<double> itself(of_total.size(), 0.0);
  if (setting < itself.size()) itself[setting] = 1.0;
  return with_total_held(itself, of_total, setting);
}

}  // namespace libflow
