// SPDX-License-Identifier: MIT
/// @file
/// Fitting: a local loss that rises at low Reynolds number (two- or three-constant method).
#pragma once

#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/fluid/water.hpp>
#include <libflow/parts/part.hpp>

namespace libflow {

/// Which published table a named fitting is taken from. Their laminar constants are the same. At high Reynolds number
/// and bores of a quarter to two inches their elbows and tee branches differ by up to a factor of 2.1, tee runs of 2.6,
/// ball valves of 5 (tested); below, the two-constant size correction grows faster.
enum class LossMethod {
  two_constant,   ///< K1/Re + K (1 + 1/D): W. B. Hooper, Chem. Eng., 24 August 1981, p. 97
  three_constant  ///< K1/Re + Ki (1 + Kd/D^0.3): P. Silverberg, R. Darby, Chem. Eng. 106 (7), July 1999, p. 101
};

/// Law: K = k1/Re + k_inf on the velocity in `bore` (physics/minor_loss.hpp).
/// The named ones are screwed (threaded) fittings; both tables as seen in an open package.
struct Fitting {
  Length bore{};     ///< 0.1 mm to 0.5 m
  double k1 = 0;     ///< laminar constant [-], 1 to 1e5
  double k_inf = 0;  ///< loss coefficient at high Reynolds number [-], 0 to 1e5

  static constexpr std::string_view kind = "fitting";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"bore", "m", &Fitting::bore}, Input{"k1", "", &Fitting::k1},
                                     Input{"k_inf", "", &Fitting::k_inf}};
  static constexpr Range bore_range{1e-4, 0.5};  ///< [m]
  static constexpr Range k1_range{1.0, 1e5};     ///< of the laminar constant K1 [-]
  static constexpr Range k_inf_range{0.0, 1e5};  ///< of the turbulent coefficient [-]

  /// A threaded elbow of 90 degrees, standard radius.
  static Fitting elbow_90(Length bore, LossMethod method = LossMethod::two_constant) {
    return named(bore, method, {800, 0.4}, {800, 0.14, 4.0});
  }
  /// A threaded elbow of 45 degrees.
  static Fitting elbow_45(Length bore, LossMethod method = LossMethod::two_constant) {
    return named(bore, method, {500, 0.2}, {500, 0.071, 4.2});
  }
  /// Straight through a tee.
  static Fitting tee_run(Length bore, LossMethod method = LossMethod::two_constant) {
    return named(bore, method, {200, 0.1}, {200, 0.091, 4.0});
  }
  /// Round the corner of a tee.
  static Fitting tee_branch(Length bore, LossMethod method = LossMethod::two_constant) {
    return named(bore, method, {500, 0.7}, {500, 0.274, 4.0});
  }
  /// Full-line ball valve, open; one that can be shut is a Valve.
  static Fitting ball_valve(Length bore, LossMethod method = LossMethod::two_constant) {
    return named(bore, method, {300, 0.1}, {300, 0.017, 3.5});
  }

  /// Laminar constant of a device of which only one rating point is known: the middle of 300 to 2000, the constants of
  /// all valves in Hooper's table.
  static constexpr double rated_k1 = 1000.0;

  /// The loss that a device (meter, strainer body, filter) has by one rating point: exactly `loss` at `flow` of water
  /// at 20 C, near the square law above, more in thick liquids by its laminar constant.
  /// @param bore  of its ports, for the Reynolds number
  /// @throws InputError for a value out of range, or when the laminar part alone loses more than `loss`
  static Fitting rated(Length bore, Flow flow, Pressure loss, double k1 = rated_k1, std::string_view where = kind) {
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    require_in(fmt::format("{}, rated flow", where), si(flow), {1e-9, 1.0}, "m3/s");
    require_in(fmt::format("{}, rated loss", where), si(loss), {1.0, 1e7}, "Pa");
    require_in(fmt::format("{}, k1", where), k1, k1_range, "");
    const double density = water_density<double>(293.15), viscosity = water_viscosity<double>(293.15);
    const double heads = si(loss) / physics::velocity_head(si(flow), si(bore), density);
    const double laminar = k1 / physics::reynolds_number(si(flow), si(bore), density, viscosity);
    if (!k_inf_range.contains(heads - laminar)) {
      throw InputError(
          fmt::format("{}, rated loss", where),
          fmt::format("{:.6g} Pa are {:.6g} velocity heads in the bore", si(loss), heads),
          fmt::format("{:.6g} to {:.6g} velocity heads; is the bore right?", laminar, laminar + k_inf_range.high));
    }
    return {.bore = bore, .k1 = k1, .k_inf = rated_k_inf<double>(si(bore), si(flow), si(loss), k1)};
  }
  /// The k_inf that gives `loss` [Pa] at `flow` [m3/s] of water at 20 C.
  template <class S>
  [[nodiscard]] static S rated_k_inf(const S& bore, const S& flow, const S& loss, const S& k1) {
    const S density(water_density<double>(293.15)), viscosity(water_viscosity<double>(293.15));
    return loss / physics::velocity_head<S>(flow, bore, density) -
           k1 / physics::reynolds_number<S>(flow, bore, density, viscosity);
  }
  /// The law of K = k1/Re + k_inf in a bore.
  template <class S>
  [[nodiscard]] static BasicLaw<S> loss_law(const S& bore, const S& k1, const S& k_inf,
                                            const LiquidNumbers<S>& liquid) {
    const auto loss = physics::local_loss<S>(k1, k_inf, bore, liquid.density, liquid.viscosity);
    BasicLaw<S> law;
    law.linear = loss.linear;
    law.quadratic = loss.quadratic;
    return law;
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, bore", where), si(bore), bore_range, "m");
    require_in(fmt::format("{}, k1", where), k1, k1_range, "");
    require_in(fmt::format("{}, k_inf", where), k_inf, k_inf_range, "");
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 3>& in, const LiquidNumbers<S>& liquid) const {
    return loss_law<S>(in[0], in[1], in[2], liquid);
  }

  [[nodiscard]] Length inside_bore() const { return bore; }

 private:
  struct Hooper {
    double k1, k;
  };
  struct Darby {
    double k1, ki, kd;
  };
  static Fitting named(Length bore, LossMethod method, const Hooper& two, const Darby& three) {
    if (method == LossMethod::two_constant) {
      return {.bore = bore, .k1 = two.k1, .k_inf = physics::hooper_k_inf<double>(two.k, si(bore))};
    }
    return {.bore = bore, .k1 = three.k1, .k_inf = physics::darby_k_inf<double>(three.ki, three.kd, si(bore))};
  }
};

static_assert(PartType<Fitting>);

}  // namespace libflow
