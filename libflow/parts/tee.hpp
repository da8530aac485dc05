// SPDX-License-Identifier: MIT
/// @file
/// Tee: what a branch at a right angle does to total pressure, whichever way its three legs flow.
#pragma once

#include <algorithm>
#include <cmath>
#include <string_view>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/tee_symmetric.hpp>

namespace libflow {

/// Flows out of a tee through its legs [m3/s]; in is negative. They add up to nothing.
struct TeeFlows {
  double left = 0;
  double right = 0;
  double branch = 0;
};

/// Total pressure just inside each leg over that of the tee's place [Pa]. One of them is 0: the leg that the place
/// stands for.
struct TeeLevels {
  double left = 0;
  double right = 0;
  double branch = 0;
};

/// Which way a tee flows.
enum class TeeState {
  still,      ///< nothing flows
  dividing,   ///< in by one end of the run, out by the other and the branch: a port of a bar
  combining,  ///< in by one end of the run and the branch, out by the other end: two lines become one
  meeting,    ///< in by both ends of the run, out by the branch: a port between two feeds
  parting     ///< in by the branch, out by both ends of the run: a bar's feed
};

/// A tee with a straight run of one bore and a branch at a right angle. It has three ends, so it is no two-ended part:
/// it stands at a place of a network where its legs' parts join, and adds to their drops by corrections around the
/// solve (tee_corrections, solve/tees.hpp): contract outer-corrected.
///
/// Law: dividing and combining by Crane TP-410 2009 (physics/tee.hpp), meeting and parting by Idelchik's diagram 7-29
/// (physics/tee_symmetric.hpp), all for turbulent flow. Where one leg's flow goes through zero one state becomes
/// another and the two published forms may disagree, by up to 0.4 run velocity heads in the still leg (by 1.4 in a
/// parting tee of equal bores). Levels must not jump, so over the last tenth of the share (`blend_share`, ours)
/// meeting and parting go over into Crane's, and combining into dividing.
struct Tee {
  Length run_bore{};                               ///< 1 mm to 0.5 m
  Length branch_bore{};                            ///< a tenth of the run's to the run's
  double parting = physics::tee_parting_threaded;  ///< k of a parting tee, 0 to 3; welded: 0.3

  static constexpr std::string_view kind = "tee";
  static constexpr Contract contract = Contract::outer_corrected;
  static constexpr Range bore_range{1e-3, 0.5};  ///< [m]
  static constexpr double blend_share = 0.1;
  /// Below this Reynolds number of the combined flow the coefficients were not measured: computed, cautioned.
  static constexpr double turbulent_from = 1e4;

  void check(std::string_view where) const {
    require_in(fmt::format("{}, run bore", where), si(run_bore), bore_range, "m");
    require_in(fmt::format("{}, branch bore", where), si(branch_bore),
               {std::sqrt(physics::tee_area_ratio.low) * si(run_bore), si(run_bore)}, "m");
    require_in(fmt::format("{}, parting", where), parting, physics::tee_parting_range, "");
  }

  /// Area of the branch over that of the run [-].
  [[nodiscard]] double area_ratio() const {
    const double ratio = si(branch_bore) / si(run_bore);
    return std::min(1.0, ratio * ratio);
  }

  [[nodiscard]] static TeeState state(const TeeFlows& out) {
    if (out.branch >= 0.0) {
      if (out.left < 0.0 && out.right < 0.0) return TeeState::meeting;
      return out.left < 0.0 || out.right < 0.0 ? TeeState::dividing : TeeState::still;
    }
    if (out.left > 0.0 && out.right > 0.0) return TeeState::parting;
    return out.left > 0.0 || out.right > 0.0 ? TeeState::combining : TeeState::still;
  }

  /// Continuous in the flows, odd in nothing: a tee that divides is not one that combines.
  /// @param density  [kg/m3]
  [[nodiscard]] TeeLevels levels(const TeeFlows& out, double density) const {
    // With the run so turned that `first` is the end with more flow into or out of the combined stream.
    switch (state(out)) {
      case TeeState::dividing: {
        const bool from_left = out.left < 0.0;
        const Run run = dividing(from_left ? -out.left : -out.right, out.branch, density);
        return from_left ? TeeLevels{run.first, run.second, run.branch} : TeeLevels{run.second, run.first, run.branch};
      }
      case TeeState::combining: {
        const bool to_left = out.left > 0.0;
        const Run run = combining(to_left ? out.left : out.right, -out.branch, density);
        return to_left ? TeeLevels{run.first, run.second, run.branch} : TeeLevels{run.second, run.first, run.branch};
      }
      case TeeState::meeting:
      case TeeState::parting: {
        const bool left_more = std::abs(out.left) >= std::abs(out.right);
        const double more = std::abs(left_more ? out.left : out.right);
        const double less = std::abs(left_more ? out.right : out.left);
        const Run run = state(out) == TeeState::meeting ? meet(more, less, density) : part(more, less, density);
        return left_more ? TeeLevels{run.first, run.second, run.branch} : TeeLevels{run.second, run.first, run.branch};
      }
      case TeeState::still:
        break;
    }
    return {};
  }

  /// "outside-range": the combined flow is not turbulent enough for the published coefficients, and what they give is
  /// more than a hundredth of `matters`.
  /// @param matters  [Pa], a drop against which the tee's losses are small, such as a row's orifice
  [[nodiscard]] Cautions cautions(const TeeFlows& out, const LiquidState& liquid, double matters) const {
    const TeeLevels l = levels(out, liquid.density);
    const auto [low, high] = std::minmax({l.left, l.right, l.branch});
    const bool by_branch = state(out) == TeeState::meeting || state(out) == TeeState::parting;
    const double combined = by_branch ? std::abs(out.branch) : std::max(std::abs(out.left), std::abs(out.right));
    const double re = physics::reynolds_number<double>(combined, si(by_branch ? branch_bore : run_bore), liquid.density,
                                                       liquid.viscosity);
    if (re >= turbulent_from || !(high - low > 0.01 * matters)) return {};
    return {{"outside-range",
             {},
             "flow in this tee is not turbulent enough for its published losses, and they count here",
             re,
             turbulent_from,
             "libflow/physics/tee.hpp"}};
  }

 private:
  struct Run {
    double first, second, branch;
  };
  [[nodiscard]] physics::TeeShape shape() const { return {.area_ratio = area_ratio()}; }
  /// Weight of the neighbouring state where a leg carries this share of the combined flow: 1 to 0, level at its end.
  [[nodiscard]] static double near(double share) {
    const double left = std::max(0.0, 1.0 - share / blend_share);
    return left * left;
  }

  /// `first` brings the flow, `second` takes what the branch leaves. The place has the pressure of `first`.
  [[nodiscard]] Run dividing(double combined, double branch, double density) const {
    const auto k = physics::tee_dividing<double>(std::min(1.0, branch / combined), shape());
    const auto drops = physics::tee_drops<double>(k, combined, si(run_bore), density);
    return {0.0, -drops.run, -drops.branch};
  }
  /// `first` takes the flow. The place has the pressure of `first`.
  [[nodiscard]] Run combining(double combined, double branch, double density) const {
    const double q = std::min(1.0, branch / combined);
    auto k = physics::tee_combining<double>(q, shape());
    const double still = -physics::tee_dividing<double>(0.0, shape()).branch;
    k.branch += near(q) * (still - physics::tee_combining<double>(0.0, shape()).branch);
    const auto drops = physics::tee_drops<double>(k, combined, si(run_bore), density);
    return {0.0, drops.run, drops.branch};
  }
  /// `first` brings at least half. The place has the pressure of `first`, as where it divides.
  [[nodiscard]] Run meet(double more, double less, double density) const {
    const double a = area_ratio(), combined = more + less, q = less / combined;
    const double head = physics::velocity_head<double>(combined, si(branch_bore), density);
    const double still = physics::tee_dividing<double>(1.0, shape()).run * a * a;
    return {0.0, -near(q) * still * head, -physics::tee_meeting<double>(q, a) * head};
  }
  /// `first` takes at least half. The place has the pressure of `first`, as where they combine.
  [[nodiscard]] Run part(double more, double less, double density) const {
    const double a = area_ratio(), combined = more + less, q = less / combined;
    const double head = physics::velocity_head<double>(combined, si(branch_bore), density);
    const auto alone = physics::tee_combining<double>(1.0, shape());
    const auto to = [&](double share) { return physics::tee_parting<double>(share, a, parting); };
    const double branch = to(1.0 - q) + near(q) * (alone.branch * a * a - to(1.0));
    const double second = to(1.0 - q) - to(q) + near(q) * (alone.run * a * a - (to(1.0) - to(0.0)));
    return {0.0, second * head, branch * head};
  }
};

}  // namespace libflow
