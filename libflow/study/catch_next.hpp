// SPDX-License-Identifier: MIT
/// @file
/// The one extra measurement that tells causes apart best which look the same so far.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include <libflow/study/catch_model.hpp>

namespace libflow {

/// A cause that explains the readings about as well as the best.
struct LikelyCause {
  CatchCause cause;                  ///< with its size
  double low = 0, high = 0;          ///< interval of its size, other causes held
  double probability = 0;            ///< among all causes in its place
  double chi2 = 0;                   ///< misfit that is left [-]
  bool at_end = false;               ///< its size is the last that was tried: it may well be more than that
  std::vector<CatchCause> others{};  ///< what is found beside it, at the sizes that fit best then
};

/// What to measure next.
struct NextMeasurement {
  /// What is done.
  enum class Kind {
    pressure,         ///< catch the same rows at another supply pressure
    water,            ///< catch with water at the same pressure
    swap_orifices,    ///< two rows change orifices, then catch them
    swap_valves,      ///< two rows change check valves, then catch them
    swap_hoses,       ///< two rows change hoses, then catch them
    gauge_at_row,     ///< pressure between a row's hose and its check valve
    gauge_at_bar_end  ///< pressure at the port of an outer row
  };
  Kind kind = Kind::pressure;       ///< what is done
  int row = 0, other = 0;           ///< whose cup or gauge is compared; with which row parts are swapped
  double pressure = 0;              ///< at the supply meanwhile [Pa]
  std::vector<double> predicted{};  ///< of `row`, one for each likely cause: flow [m3/s], or pressure [Pa] for a gauge
  double apart = 0;                 ///< mean distance of two causes' predictions over its standard error, all rows [-]
  double resolved = 0;              ///< probability that it tells a pair of causes apart, mean over pairs [-]
};

/// A word for programs.
[[nodiscard]] constexpr std::string_view name_of(NextMeasurement::Kind kind) {
  constexpr std::string_view names[] = {"pressure",   "water",        "swap-orifices",   "swap-valves",
                                        "swap-hoses", "gauge-at-row", "gauge-at-bar-end"};
  return names[static_cast<std::size_t>(kind)];
}

/// The measurement that tells the likely causes in one place apart best, each with what is found beside it: the same
/// cups at another pressure (never above the job's pump limit and the hose's rating, nor more than half as much again),
/// with water, with parts of two rows exchanged, or a gauge in two places. Of those that do so about equally well, the
/// first in that order. Empty where none tells a pair apart more often than every second time.
/// @param error  standard deviation of one cup [-]
[[nodiscard]] std::optional<NextMeasurement> next_measurement(const CatchModel& model,
                                                              const std::vector<LikelyCause>& likely, double error);

}  // namespace libflow
