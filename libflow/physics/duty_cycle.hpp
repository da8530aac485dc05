// SPDX-License-Identifier: MIT
/// @file
/// Pulsed valves: for what share of the time they really stand open.
#pragma once

#include <libflow/physics/scalar.hpp>

namespace libflow::physics {

/// Share of the time that a pulsed valve stands open [-].
///
/// The signal is on for duty/frequency of each cycle; the valve opens `opening_lag` after it comes and shuts
/// `closing_lag` after it goes, both at once: duty + (closing_lag - opening_lag) frequency. A pulse not longer than the
/// opening lag never opens the valve (0); a pause not longer than the closing lag never shuts it (1).
/// @param duty       share of the time that the signal is on [-], 0 to 1
/// @param frequency  [Hz], > 0
/// @param opening_lag, closing_lag  [s], >= 0
/// Source: kinematics, derived here; no published worked values were found.
template <class S>
[[nodiscard]] S effective_duty(const S& duty, const S& frequency, const S& opening_lag, const S& closing_lag) {
  const S on = duty / frequency, off = (S(1.0) - duty) / frequency;
  const S pulsed = duty + (closing_lag - opening_lag) * frequency;
  // A signal that is always on has no pauses, one that never comes no pulses.
  const S shut_between = select<S>(off > closing_lag, pulsed, S(on * S(0.0) + S(1.0)));
  return select<S>(on > opening_lag, shut_between, S(on * S(0.0)));
}

}  // namespace libflow::physics
