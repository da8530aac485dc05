// SPDX-License-Identifier: MIT
/// @file
/// Flow meter: a loss known at one flow, and a range of flows in which it reads true.
#pragma once

#include <cmath>
#include <string_view>

#include <fmt/core.h>

#include <libflow/parts/fitting.hpp>

namespace libflow {

/// Law: a local loss that meets the rating point exactly (Fitting::rated): near the square law in water, more in thick
/// liquids. A meter whose loss is known at several flows is better given as a TablePart.
struct FlowMeter {
  Length bore{};          ///< of its ports, 0.1 mm to 0.5 m
  Flow rated_flow{};      ///< water, 20 C; 1e-9 to 1 m3/s
  Pressure rated_loss{};  ///< at rated_flow, 1 Pa to 1 MPa
  Flow least{};           ///< of its working range, 0 to `most`
  Flow most{};            ///< of its working range, 1e-9 to 1 m3/s

  static constexpr std::string_view kind = "flow meter";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"bore", "m", &FlowMeter::bore},
                                     Input{"rated flow", "m3/s", &FlowMeter::rated_flow},
                                     Input{"rated loss", "Pa", &FlowMeter::rated_loss}};
  static constexpr Range flow_range{1e-9, 1.0};  ///< [m3/s]
  static constexpr Range loss_range{1.0, 1e6};   ///< [Pa]

  void check(std::string_view where) const {
    require_in(fmt::format("{}, rated flow", where), si(rated_flow), flow_range, "m3/s");
    require_in(fmt::format("{}, rated loss", where), si(rated_loss), loss_range, "Pa");
    require_in(fmt::format("{}, most", where), si(most), flow_range, "m3/s");
    require_in(fmt::format("{}, least", where), si(least), {0.0, si(most)}, "m3/s");
    (void)Fitting::rated(bore, rated_flow, rated_loss, Fitting::rated_k1, where);
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 3>& in, const LiquidNumbers<S>& liquid) const {
    const S k1(Fitting::rated_k1);
    return Fitting::loss_law<S>(in[0], k1, Fitting::rated_k_inf<S>(in[0], in[1], in[2], k1), liquid);
  }

  [[nodiscard]] Length inside_bore() const { return bore; }

  [[nodiscard]] Cautions cautions(double flow, double /*inlet_pressure*/, const LiquidState& /*liquid*/) const {
    const double q = std::abs(flow);
    if (q == 0.0 || Range{si(least), si(most)}.contains(q)) return {};
    const bool low = q < si(least);
    return {{"meter-out-of-range",
             {},
             low ? "the flow is below the meter's working range: it may read low or nothing"
                 : "the flow is above the meter's working range: it may read wrong or wear out",
             q,
             low ? si(least) : si(most),
             "working range given"}};
  }
};

static_assert(PartType<FlowMeter>);

}  // namespace libflow
