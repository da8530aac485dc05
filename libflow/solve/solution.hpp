// SPDX-License-Identifier: MIT
/// @file
/// The answer: flow in every part, pressure at every place, the state of every one-way part, and how good it is.
#pragma once

#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include <libflow/core/caution.hpp>
#include <libflow/core/error.hpp>

namespace libflow {

/// How far it got.
enum class Status {
  not_solved,      ///< nothing filled
  converged,       ///< all fields valid, residuals within the tolerances
  iteration_limit  ///< the last iterate, for study only: do not report its numbers as an answer
};

/// Of flow in a round tube, by Reynolds number (physics::laminar_limit_re, turbulent_limit_re).
enum class Regime { still, laminar, transition, turbulent };

/// State of a part that passes liquid one way only.
enum class ValveState { none, open, closed };

/// What is known of one part.
struct PartResult {
  double flow = 0;                      ///< [m3/s], + from its first place to its second
  double drop = 0;                      ///< total pressure with elevation, first place less second [Pa]
  double reynolds = 0;                  ///< on its bore [-]; 0 where it has none
  double velocity = 0;                  ///< in its bore [m/s]; 0 where it has none
  double inlet_static = 0;              ///< static gauge pressure just inside its first end [Pa]
  double outlet_static = 0;             ///< static gauge pressure just inside its second end [Pa]
  Regime regime = Regime::still;        ///< of a part with a bore
  ValveState valve = ValveState::none;  ///< none: it passes both ways
};

/// What is known of one place.
struct PlaceResult {
  double total_pressure = 0;    ///< gauge [Pa]: static plus velocity head
  bool determined = true;       ///< false: closed one-way parts cut it off; any pressure within the bounds is possible
  double lower = 0, upper = 0;  ///< bounds [Pa gauge]; equal to total_pressure where determined; may be infinite
};

/// The result of solve(). Starts not solved.
struct Solution {
  Status status = Status::not_solved;  ///< whether the numbers may be used
  std::string message;                 ///< in plain words, how it went
  std::vector<PartResult> parts;       ///< by part index of the network
  std::vector<PlaceResult> places;     ///< by place index of the network

  int iterations = 0;      ///< Newton steps
  int factorisations = 0;  ///< linear systems factored, valve states included
  /// The certificate, computed afresh from the flows, the pressures and the parts' laws. Its measure are the parts at
  /// work: what a shut valve holds back does not count. What the last digits of the pressures involved cannot tell is
  /// forgiven (rounding.hpp: about 1e-9 Pa at 2 bar), so a flow that hangs on a smaller difference of pressures is not
  /// certain; and where all drops are below 1e-9 Pa, or all flows below 1e-18 m3/s, residuals are held against these.
  double mass_residual =
      std::numeric_limits<double>::infinity();  ///< largest imbalance of a place over the largest flow
  double energy_residual =
      std::numeric_limits<double>::infinity();  ///< largest misfit of a part's law over the largest drop

  Cautions cautions;  ///< of the liquid, then of the parts

  /// True when the numbers may be used.
  [[nodiscard]] bool usable() const { return status == Status::converged; }
};

}  // namespace libflow
