// SPDX-License-Identifier: MIT
/// @file
/// Reducer: one bore becomes another, suddenly or along a cone, and loses more when it widens.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>

namespace libflow {

/// Law: K = K1/Re + K_inf on the velocity in the smaller bore, K_inf a contraction's or an expansion's after the way
/// the liquid goes (physics/minor_loss.hpp, with sources). The drop is of total pressure; what the static pressure
/// loses or regains by the change of velocity comes on top. Not the same in both directions.
struct Reducer {
  Length from_bore{};  ///< at its first place, 0.1 mm to 1 m
  Length to_bore{};    ///< at its second place, 0.1 mm to 1 m; at least 1 % wider or narrower
  Angle cone = from_si<Angle>(std::numbers::pi);  ///< full angle, 5 degrees to 180 (a sudden change)

  static constexpr std::string_view kind = "reducer";
  static constexpr Contract contract = Contract::passage;
  static constexpr bool symmetric = false;
  static constexpr std::tuple inputs{Input{"from bore", "m", &Reducer::from_bore},
                                     Input{"to bore", "m", &Reducer::to_bore}, Input{"cone", "rad", &Reducer::cone}};
  static constexpr Range bore_range{1e-4, 1.0};  ///< [m]

  void check(std::string_view where) const {
    require_in(fmt::format("{}, from bore", where), si(from_bore), bore_range, "m");
    require_in(fmt::format("{}, to bore", where), si(to_bore), bore_range, "m");
    if (!(ratio() <= most_ratio)) {
      throw InputError(fmt::format("{}, to bore", where),
                       fmt::format("{:.6g} m is nearly the from bore, {:.6g} m", si(to_bore), si(from_bore)),
                       "a bore at least 1 % wider or narrower; equal bores need no reducer");
    }
    require_in(fmt::format("{}, cone", where), si(cone), physics::cone_angle_range, "rad");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 3>& in, const LiquidNumbers<S>& liquid) const {
    const S &from_d = in[0], &to_d = in[1], &angle = in[2];
    const S small = physics::smaller<S>(from_d, to_d), bores = small / physics::larger<S>(from_d, to_d);
    const auto loss = [&](const S& k_inf) {
      return physics::local_loss<S>(physics::bore_change_k1<S>(bores, angle), k_inf, small, liquid.density,
                                    liquid.viscosity);
    };
    const auto narrower = loss(physics::contraction_k_inf<S>(bores, angle));
    const auto wider = loss(physics::expansion_k_inf<S>(bores, angle));
    const bool narrows = to_bore < from_bore;
    BasicLaw<S> law;
    law.linear = narrower.linear;
    law.functions.emplace_back([forward = narrows ? narrower.quadratic : wider.quadratic,
                                back = narrows ? wider.quadratic : narrower.quadratic](const S& q) {
      using std::abs;
      const S k = physics::select<S>(q < S(0.0), back, forward) * abs(q);
      return Drop<S>{S(k * q), S(S(2.0) * k)};
    });
    return law;
  }

  /// The smaller bore.
  [[nodiscard]] Length inside_bore() const { return std::min(from_bore, to_bore); }

 private:
  static constexpr double most_ratio = 1.0 / 1.01;
  [[nodiscard]] double ratio() const { return si(inside_bore()) / si(std::max(from_bore, to_bore)); }
};

static_assert(PartType<Reducer>);

}  // namespace libflow
