// SPDX-License-Identifier: MIT
/// @file
/// Pulsed metering valve: opens and shuts many times a second; its mean flow follows the share of time it is open.
#pragma once

#include <optional>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/physics/duty_cycle.hpp>

namespace libflow {

/// Law, averaged over the pulses: drop(q) = open drop(q / e), e the share of the time that the valve is open
/// (physics/duty_cycle.hpp). It holds for a pressure across the valve that hardly moves during a pulse.
///
/// Whatever pulses with the valve must be inside it: the metering orifice right behind it, `outlet_bore`. A hose
/// between valve and outlet sees the pulses smoothed by its own give; it joins as a part of its own with the mean flow,
/// and loses somewhat more than that says. Valves sold pass one way; give a check valve of its own where liquid could
/// return.
struct PulsedValve {
  Length passage_bore{};                             ///< of the sharp hole that loses the same, 0.05 mm to 50 mm
  std::optional<Length> outlet_bore = std::nullopt;  ///< sharp metering orifice right behind it, 0.05 mm to 50 mm
  double duty = 1.0;                                 ///< share of the time that the signal is on, more than 0 to 1
  double frequency = 10.0;                           ///< pulses a second [Hz], 0.1 to 100
  Time opening_lag = from_si<Time>(0.0);             ///< from signal to open, 0 to 1 s
  Time closing_lag = from_si<Time>(0.0);             ///< from its end to shut, 0 to 1 s
  /// Duty below this raises "duty-outside-usable"; 0.2 as an article on pulse-width modulation for sprayers says that
  /// 20 to 100 % is realistic (sprayers101.com).
  double least_usable_duty = 0.2;

  static constexpr std::string_view kind = "pulsed valve";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"passage bore", "m", &PulsedValve::passage_bore},
                                     Input{"outlet bore", "m", &PulsedValve::outlet_bore},
                                     Input{"duty", "", &PulsedValve::duty},
                                     Input{"frequency", "Hz", &PulsedValve::frequency},
                                     Input{"opening lag", "s", &PulsedValve::opening_lag},
                                     Input{"closing lag", "s", &PulsedValve::closing_lag}};
  static constexpr Range duty_range{1e-3, 1.0};        ///< share of the time [-]
  static constexpr Range frequency_range{0.1, 100.0};  ///< [Hz]
  static constexpr Range lag_range{0.0, 1.0};          ///< [s]

  /// A valve that held open loses `loss` at `flow` of water at 20 C; duty and the rest remain to be set.
  static PulsedValve rated(Flow flow, Pressure loss, std::string_view where = kind) {
    return {.passage_bore = Orifice::rated(flow, loss, where).bore};
  }

  /// Share of the time that the valve is open [-].
  [[nodiscard]] double open_share() const {
    return physics::effective_duty(duty, frequency, si(opening_lag), si(closing_lag));
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, passage bore", where), si(passage_bore), Orifice::bore_range, "m");
    if (outlet_bore) require_in(fmt::format("{}, outlet bore", where), si(*outlet_bore), Orifice::bore_range, "m");
    require_in(fmt::format("{}, duty", where), duty, duty_range, "");
    require_in(fmt::format("{}, frequency", where), frequency, frequency_range, "Hz");
    require_in(fmt::format("{}, opening lag", where), si(opening_lag), lag_range, "s");
    require_in(fmt::format("{}, closing lag", where), si(closing_lag), lag_range, "s");
    require_in(fmt::format("{}, least usable duty", where), least_usable_duty, {0.0, 1.0}, "");
    if (!(open_share() >= duty_range.low)) {
      throw InputError(
          fmt::format("{}, duty", where),
          fmt::format("a pulse of {:.6g} s with an opening lag of {:.6g} s opens the valve for {:.6g} of "
                      "the time",
                      duty / frequency, si(opening_lag), open_share()),
          fmt::format("pulses that open it for {} of the time or more: more duty, or fewer pulses a second",
                      duty_range.low));
    }
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 6>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law = Orifice::sharp_law<S>(in[0], liquid);
    if (outlet_bore) law += Orifice::sharp_law<S>(in[1], liquid);
    // q/e instead of q in each term.
    const S e = physics::effective_duty<S>(in[2], in[3], in[4], in[5]);
    for (physics::Hole<S>& hole : law.holes) {
      hole.creeping /= e;
      hole.inertia /= e * e;
      hole.re_per_flow /= e;
    }
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return passage_bore; }

  [[nodiscard]] Cautions cautions(double /*flow*/, double /*inlet_pressure*/, const LiquidState& /*liquid*/) const {
    Cautions found;
    if (duty < least_usable_duty) {
      found.push_back({"duty-outside-usable",
                       {},
                       "the valve's duty is below what is usable: its lags and the pulses' gaps then rule the rate",
                       duty,
                       least_usable_duty,
                       "least usable duty given; 0.2 by an article on pulse-width modulation for sprayers"});
    }
    if (duty < 1.0 && open_share() == 1.0) {
      found.push_back({"valve-never-shuts",
                       {},
                       "the pauses of the signal are shorter than the closing lag: the valve stays open",
                       (1.0 - duty) / frequency,
                       si(closing_lag),
                       "closing lag given"});
    }
    return found;
  }
};

static_assert(PartType<PulsedValve>);

}  // namespace libflow
