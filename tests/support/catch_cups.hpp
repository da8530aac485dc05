// SPDX-License-Identifier: MIT
/// @file
/// Cups of a bar with known causes, without noise.
#pragma once

#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <libflow/study/catch_model.hpp>

namespace libflow::test {

/// A setting of 30 s whose gauge was read [psi].
inline CatchReadings at_gauge(double psi) { return {.time = from_si<Time>(30.0), .gauge = psi * units::psi}; }

/// Three cups of every open row at each setting, one reading error apart about what an exact solve gives.
inline std::vector<CatchReadings> cups_with(const Layout& layout, std::vector<CatchReadings> settings,
                                            const std::vector<CatchCause>& causes, double error = 0.01) {
  const CatchModel model(layout, settings);
  const Eigen::VectorXd log_flow = model.exact(causes).value();
  for (std::size_t s = 0; s < settings.size(); ++s) {
    settings[s].reading_error = error;
    for (std::size_t i = 0; i < model.rows().size(); ++i) {
      for (int k = 1; k <= 3; ++k) {
        settings[s].readings.push_back(
            {.row = model.rows()[i],
             .repeat = k,
             .volume = std::exp(log_flow[model.cell(s, i)]) * si(settings[s].time) * (1.0 + error * (k - 2))});
      }
    }
  }
  return settings;
}

}  // namespace libflow::test
