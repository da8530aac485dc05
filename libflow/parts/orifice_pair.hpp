// SPDX-License-Identifier: MIT
/// @file
/// Two orifices in series in one body: a wider hole does the work of a finer one and clogs less.
#pragma once

#include <string_view>
#include <utility>

#include <fmt/core.h>

#include <libflow/parts/orifice.hpp>

namespace libflow {

/// Law: the sum of the two holes' drops. Each jet's velocity is lost before the next hole, which needs room between
/// them: where the second hole faces the jet of the first and is near, part of the jet goes straight through and the
/// pair passes more than this says. At high Reynolds number the pair passes what one hole of
/// (d1^-4 + d2^-4)^(-1/4) passes; two equal holes, 0.84 of their bore, 1/sqrt(2) of the flow of one.
struct OrificePair {
  Orifice first{};   ///< the one that liquid meets first
  Orifice second{};  ///< the one behind it
  Length gap{};      ///< between the plates, more than 0 to 1 m; under six bores of the first hole: caution

  static constexpr std::string_view kind = "orifice pair";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{
      Input{"first hole, bore", "m", [](auto& p) -> decltype(auto) { return (p.first.bore); }},
      Input{"first hole, thickness", "m", [](auto& p) -> decltype(auto) { return (p.first.thickness); }},
      Input{"first hole, discharge coefficient", "",
            [](auto& p) -> decltype(auto) { return (p.first.discharge_coefficient); }},
      Input{"second hole, bore", "m", [](auto& p) -> decltype(auto) { return (p.second.bore); }},
      Input{"second hole, thickness", "m", [](auto& p) -> decltype(auto) { return (p.second.thickness); }},
      Input{"second hole, discharge coefficient", "",
            [](auto& p) -> decltype(auto) { return (p.second.discharge_coefficient); }}};
  static constexpr Range gap_range{1e-5, 1.0};  ///< [m]
  /// Bores of the first hole: a free submerged jet keeps its core for about six (common practice, no source).
  static constexpr double gap_bores = 6.0;

  void check(std::string_view where) const {
    first.check(fmt::format("{}, first hole", where));
    second.check(fmt::format("{}, second hole", where));
    require_in(fmt::format("{}, gap", where), si(gap), gap_range, "m");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 6>& in, const LiquidNumbers<S>& liquid) const {
    BasicLaw<S> law = first.law_on<S>({in[0], in[1], in[2]}, liquid);
    law += second.law_on<S>({in[3], in[4], in[5]}, liquid);
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return si(first.bore) < si(second.bore) ? first.bore : second.bore; }

  [[nodiscard]] Cautions cautions(double flow, double inlet_pressure, const LiquidState& liquid) const {
    Cautions found = first.cautions(flow, inlet_pressure, liquid);
    for (Caution& c : second.cautions(flow, inlet_pressure, liquid)) found.push_back(std::move(c));
    if (si(gap) < gap_bores * si(first.bore)) {
      found.push_back(
          {"outside-range",
           {},
           "the second orifice is so near that the first one's jet may pass straight through it: the pair may "
           "pass more than computed",
           si(gap),
           gap_bores * si(first.bore),
           "common practice, no source"});
    }
    return found;
  }
};

static_assert(PartType<OrificePair>);

}  // namespace libflow
