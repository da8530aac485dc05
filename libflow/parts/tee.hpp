// SPDX-License-Identifier: MIT
/// @file
/// Tee: what a branch at a right angle does to total pressure, whichever way its three legs flow.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <tuple>

#include <fmt/core.h>

#include <libflow/core/range.hpp>
#include <libflow/parts/inputs.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/tee_symmetric.hpp>

namespace libflow {

/// Flows out of a tee through its legs [m3/s]; in is negative. They add up to nothing.
/// @tparam S  double, or a number that carries slopes or more digits
template <class S>
struct BasicTeeFlows {
  S left = S(0.0);    ///< left end of the run
  S right = S(0.0);   ///< right end of the run
  S branch = S(0.0);  ///< the branch
};
/// On plain numbers.
using TeeFlows = BasicTeeFlows<double>;

/// Total pressure just inside each leg over that of the tee's place [Pa]. One of them is 0: the leg that the place
/// stands for.
template <class S>
struct BasicTeeLevels {
  S left = S(0.0);    ///< left end of the run
  S right = S(0.0);   ///< right end of the run
  S branch = S(0.0);  ///< the branch
};
/// On plain numbers.
using TeeLevels = BasicTeeLevels<double>;

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
  /// On all its published losses, 0 to 3. 1: as published; no source knows a tee to better than a tenth or two.
  double factor = 1.0;

  static constexpr std::tuple inputs{Input{"run bore", "m", &Tee::run_bore},
                                     Input{"branch bore", "m", &Tee::branch_bore}, Input{"parting", "", &Tee::parting},
                                     Input{"factor", "", &Tee::factor}};
  static constexpr std::size_t factor_input = 3;  ///< among inputs
  static constexpr std::string_view kind = "tee";
  static constexpr Contract contract = Contract::outer_corrected;
  static constexpr Range bore_range{1e-3, 0.5};   ///< [m]
  static constexpr Range factor_range{0.0, 3.0};  ///< [-]
  static constexpr double blend_share = 0.1;      ///< of the flow, over which one state passes into the next [-]
  /// Below this Reynolds number of the combined flow the coefficients were not measured: computed, cautioned.
  static constexpr double turbulent_from = 1e4;

  void check(std::string_view where) const {
    require_in(fmt::format("{}, run bore", where), si(run_bore), bore_range, "m");
    require_in(fmt::format("{}, branch bore", where), si(branch_bore),
               {std::sqrt(physics::tee_area_ratio.low) * si(run_bore), si(run_bore)}, "m");
    require_in(fmt::format("{}, parting", where), parting, physics::tee_parting_range, "");
    require_in(fmt::format("{}, factor", where), factor, factor_range, "");
  }

  /// Which state these flows are in.
  [[nodiscard]] static TeeState state(const TeeFlows& out) { return state_on<double>(out); }

  /// Continuous in the flows, odd in nothing: a tee that divides is not one that combines.
  /// @param density  [kg/m3]
  [[nodiscard]] TeeLevels levels(const TeeFlows& out, double density) const {
    return levels_on<double>(input_values<double>(*this, [](double x, std::size_t) { return x; }), out, density);
  }
  /// The same on any scalar. Of equal bores the slope by either is that towards a smaller branch.
  /// @param in  the inputs in their order, instead of the tee's own
  template <class S>
  [[nodiscard]] static BasicTeeLevels<S> levels_on(const std::array<S, 4>& in, const BasicTeeFlows<S>& out,
                                                   const S& density) {
    const Sizes<S> sizes{in[0], in[1], in[2], area_ratio_on<S>(in[0], in[1])};
    BasicTeeLevels<S> levels = sizes.published(out, density);
    levels.left = levels.left * in[factor_input];
    levels.right = levels.right * in[factor_input];
    levels.branch = levels.branch * in[factor_input];
    return levels;
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
  template <class S>
  struct Run {
    S first, second, branch;
  };
  template <class S>
  [[nodiscard]] static TeeState state_on(const BasicTeeFlows<S>& out) {
    if (out.branch >= 0.0) {
      if (out.left < 0.0 && out.right < 0.0) return TeeState::meeting;
      return out.left < 0.0 || out.right < 0.0 ? TeeState::dividing : TeeState::still;
    }
    if (out.left > 0.0 && out.right > 0.0) return TeeState::parting;
    return out.left > 0.0 || out.right > 0.0 ? TeeState::combining : TeeState::still;
  }
  template <class S>
  [[nodiscard]] static S area_ratio_on(const S& run_bore, const S& branch_bore) {
    const S ratio = branch_bore / run_bore, square = ratio * ratio;
    return square > S(1.0) ? S(1.0) : square;
  }

  /// The sizes on one scalar, and what the published forms say of them.
  template <class S>
  struct Sizes {
    S run_bore, branch_bore, parting, area_ratio;

    [[nodiscard]] BasicTeeLevels<S> published(const BasicTeeFlows<S>& out, const S& density) const {
      using std::abs;
      using Levels = BasicTeeLevels<S>;
      // With the run so turned that `first` is the end with more flow into or out of the combined stream.
      const TeeState now = state_on<S>(out);
      switch (now) {
        case TeeState::dividing: {
          const bool from_left = out.left < 0.0;
          const Run<S> run = dividing(from_left ? S(-out.left) : S(-out.right), out.branch, density);
          return from_left ? Levels{run.first, run.second, run.branch} : Levels{run.second, run.first, run.branch};
        }
        case TeeState::combining: {
          const bool to_left = out.left > 0.0;
          const Run<S> run = combining(to_left ? out.left : out.right, S(-out.branch), density);
          return to_left ? Levels{run.first, run.second, run.branch} : Levels{run.second, run.first, run.branch};
        }
        case TeeState::meeting:
        case TeeState::parting: {
          const bool left_more = S(abs(out.left)) >= S(abs(out.right));
          const S more(abs(left_more ? out.left : out.right));
          const S less(abs(left_more ? out.right : out.left));
          const Run<S> run = now == TeeState::meeting ? meet(more, less, density) : part(more, less, density);
          return left_more ? Levels{run.first, run.second, run.branch} : Levels{run.second, run.first, run.branch};
        }
        case TeeState::still:
          break;
      }
      return {};
    }

   private:
    [[nodiscard]] physics::BasicTeeShape<S> shape() const { return {.area_ratio = area_ratio}; }
    /// Weight of the neighbouring state where a leg carries this share of the combined flow: 1 to 0, level at its end.
    [[nodiscard]] static S near(const S& share) {
      const S left = physics::larger<S>(S(0.0), S(S(1.0) - share / S(blend_share)));
      return left * left;
    }

    /// `first` brings the flow, `second` takes what the branch leaves. The place has the pressure of `first`.
    [[nodiscard]] Run<S> dividing(const S& combined, const S& branch, const S& density) const {
      const auto k = physics::tee_dividing<S>(physics::smaller<S>(S(1.0), S(branch / combined)), shape());
      const auto drops = physics::tee_drops<S>(k, combined, run_bore, density);
      return {S(0.0), S(-drops.run), S(-drops.branch)};
    }
    /// `first` takes the flow. The place has the pressure of `first`.
    [[nodiscard]] Run<S> combining(const S& combined, const S& branch, const S& density) const {
      const S q = physics::smaller<S>(S(1.0), S(branch / combined));
      auto k = physics::tee_combining<S>(q, shape());
      const S still = -physics::tee_dividing<S>(S(0.0), shape()).branch;
      k.branch += near(q) * S(still - physics::tee_combining<S>(S(0.0), shape()).branch);
      const auto drops = physics::tee_drops<S>(k, combined, run_bore, density);
      return {S(0.0), drops.run, drops.branch};
    }
    /// `first` brings at least half. The place has the pressure of `first`, as where it divides.
    [[nodiscard]] Run<S> meet(const S& more, const S& less, const S& density) const {
      const S& a = area_ratio;
      const S combined = more + less, q = less / combined;
      const S head = physics::velocity_head<S>(combined, branch_bore, density);
      const S still = physics::tee_dividing<S>(S(1.0), shape()).run * a * a;
      return {S(0.0), S(-near(q) * still * head), S(-physics::tee_meeting<S, S>(q, a) * head)};
    }
    /// `first` takes at least half. The place has the pressure of `first`, as where they combine.
    [[nodiscard]] Run<S> part(const S& more, const S& less, const S& density) const {
      const S& a = area_ratio;
      const S combined = more + less, q = less / combined, rest = S(1.0) - q;
      const S head = physics::velocity_head<S>(combined, branch_bore, density);
      const auto alone = physics::tee_combining<S>(S(1.0), shape());
      const auto to = [&](const S& share) { return physics::tee_parting<S, S>(share, a, parting); };
      const S branch = to(rest) + near(q) * S(alone.branch * a * a - to(S(1.0)));
      const S second = to(rest) - to(q) + near(q) * S(alone.run * a * a - (to(S(1.0)) - to(S(0.0))));
      return {S(0.0), S(second * head), S(branch * head)};
    }
  };
};

}  // namespace libflow
