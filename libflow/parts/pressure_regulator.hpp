// SPDX-License-Identifier: MIT
/// @file
/// Pressure regulator: holds the pressure behind it at its set pressure as long as the pressure before it allows.
#pragma once

#include <cstddef>
#include <string_view>

#include <fmt/core.h>

#include <libflow/parts/orifice.hpp>
#include <libflow/parts/words.hpp>

namespace libflow {

/// Law: its wide-open passage, a sharp hole of `passage_bore`, one way. What it throttles beyond that depends on the
/// pressure behind it, which no law of the flow alone can say: solve_corrected adds it (solve/corrected.hpp), and
/// solve_plumbing (toolbar/junctions.hpp) does so by itself.
struct PressureRegulator {
  Pressure set{};         ///< gauge pressure to hold behind it, more than 0, at most 5 MPa
  Length passage_bore{};  ///< of the sharp hole that loses as much as the regulator wide open, 0.05 mm to 50 mm

  static constexpr std::string_view kind = "pressure regulator";
  static constexpr Contract contract = Contract::outer_corrected;
  static constexpr std::tuple inputs{Input{"passage bore", "m", &PressureRegulator::passage_bore},
                                     Input{"set", "Pa", &PressureRegulator::set}};
  static constexpr std::size_t set_input = 1;  ///< which of them no law knows: it works by the outer rounds
  static constexpr Range set_range{1.0, 5e6};  ///< [Pa]
  /// A pressure within this share of the set one is taken as held.
  static constexpr double held_within = 1e-5;

  /// A regulator that loses `loss` at `flow` of water at 20 C when wide open.
  static PressureRegulator rated(Pressure set, Flow flow, Pressure loss, std::string_view where = kind) {
    return {.set = set, .passage_bore = Orifice::rated(flow, loss, where).bore};
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, set", where), si(set), set_range, "Pa");
    require_in(fmt::format("{}, passage bore", where), si(passage_bore), Orifice::bore_range, "m");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 2>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law = Orifice::sharp_law<S>(in[0], liquid);
    law.passes = Passes::forward;
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return passage_bore; }

  /// "regulator-cannot-hold": wide open, and the pressure behind it is still below its set pressure.
  /// "regulator-not-throttled": a plain solve() took it as wide open although it would throttle.
  [[nodiscard]] Cautions cautions(const Working& working, const LiquidState& /*liquid*/) const {
    using parts_detail::pressure_words;
    if (!working.to_known) return {};
    if (working.to < si(set) * (1.0 - held_within)) {
      return {{"regulator-cannot-hold",
               {},
               fmt::format("it is set to {} but cannot hold that: wide open, with {} before it, only {} is left behind "
                           "it; raise the pressure before it, or take a larger or a lower-set regulator",
                           pressure_words(si(set)), pressure_words(working.from), pressure_words(working.to)),
               working.to,
               si(set),
               "set pressure given"}};
    }
    if (working.flow > 0.0 && working.to > si(set) * (1.0 + held_within)) {
      return {{"regulator-not-throttled",
               {},
               fmt::format("solved as wide open: the pressure behind it is {}, above its set pressure {}; solve with "
                           "its correction",
                           pressure_words(working.to), pressure_words(si(set))),
               working.to,
               si(set),
               "set pressure given"}};
    }
    return {};
  }
};

static_assert(PartType<PressureRegulator>);

}  // namespace libflow
