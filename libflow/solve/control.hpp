// SPDX-License-Identifier: MIT
/// @file
/// A controller: moves one setting until the network delivers a wanted total, or says what keeps it from it.
#pragma once

#include <cmath>
#include <cstdint>
#include <functional>
#include <string>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/solve/solution.hpp>

namespace libflow {

/// What is moved and what is wanted. More of the setting must give more of the total (or as much).
struct Control {
  std::string setting;                           ///< its name for messages, e.g. "supply pressure"
  std::string unit;                              ///< of the setting, e.g. "Pa"
  Range limits;                                  ///< what the setting can be; finite
  std::function<Solution(double)> solve_at;      ///< the network at a setting
  std::function<double(const Solution&)> total;  ///< what it delivers [m3/s]
  double wanted = 0;                             ///< [m3/s], > 0
};

/// How it ended.
struct ControlledSolution {
  Solution solution;     ///< at `setting`
  double setting = 0;    ///< where it stopped, in Control::unit
  double total = 0;      ///< delivered at it [m3/s]
  bool reached = false;  ///< the wanted total is delivered to 1e-9
  int solves = 0;        ///< how many networks were solved
  std::string message;   ///< in plain words
};

/// Finds the setting. Where the limits do not reach the wanted total, stops at the nearer limit and says so.
/// Bracketing root finding: G. E. Alefeld, F. A. Potra, Y. Shi, ACM TOMS 21 (1995) 327, algorithm 748 (Boost.Math).
/// @throws InputError for limits or a wanted total that make no sense; whatever solve_at throws
[[nodiscard]] inline ControlledSolution reach_total(const Control& control) {
  require_in("control, wanted total", control.wanted, {1e-18, 10.0}, "m3/s");
  require_in("control, low limit", control.limits.low, {}, control.unit);
  require_in("control, high limit", control.limits.high, {control.limits.low, HUGE_VAL}, control.unit);
  ControlledSolution out;
  const auto try_at = [&](double setting) {
    out.solution = control.solve_at(setting);
    ++out.solves;
    out.setting = setting;
    out.total = control.total(out.solution);
    out.reached = out.solution.usable() && std::abs(out.total - control.wanted) <= 1e-9 * control.wanted;
    return out.total / control.wanted - 1.0;
  };
  const double at_low = try_at(control.limits.low);
  if (out.reached || at_low > 0.0) {
    out.message = out.reached
                      ? fmt::format("{} {:.6g} {} gives the wanted total", control.setting, out.setting, control.unit)
                      : fmt::format("{} cannot go below {:.6g} {}, which gives {:.3g} % more than wanted",
                                    control.setting, control.limits.low, control.unit, 100.0 * at_low);
    return out;
  }
  const double at_high = try_at(control.limits.high);
  if (!out.reached && at_high < 0.0) {
    out.message = fmt::format("{} cannot go above {:.6g} {}, which gives {:.3g} % less than wanted", control.setting,
                              control.limits.high, control.unit, -100.0 * at_high);
    return out;
  }
  if (!out.reached) {
    std::uintmax_t steps = 200;
    const auto bracket =
        boost::math::tools::toms748_solve(try_at, control.limits.low, control.limits.high, at_low, at_high,
                                          boost::math::tools::eps_tolerance<double>(52), steps);
    const double low_miss = std::abs(try_at(bracket.first));
    if (std::abs(try_at(bracket.second)) > low_miss) try_at(bracket.first);
  }
  out.message = out.reached
                    ? fmt::format("{} {:.6g} {} gives the wanted total", control.setting, out.setting, control.unit)
                    : fmt::format("{} {:.6g} {} comes nearest: the total jumps over the wanted one there",
                                  control.setting, out.setting, control.unit);
  return out;
}

}  // namespace libflow
