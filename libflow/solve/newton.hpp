// SPDX-License-Identifier: MIT
/// @file
/// Newton's method on the core network: flows that balance at every place and keep every law.
///
/// The flows are the unique minimum of the content, the sum over the edges of the integral of the drop, among flows
/// that balance (J. C. Maxwell 1873, from memory; W. Millar, Phil. Mag. 42 (1951) 1150, first page seen; it is strictly
/// convex because drops rise with flow).
/// Each step minimises its quadratic model exactly, one-way edges included (linear_one_way.hpp), which gives a
/// descent direction along which every point still balances; the step is shortened until the content certainly falls.
/// Convexity then leaves nowhere to go but the answer, from any start, and near it the convergence is quadratic.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/parts/law.hpp>
#include <libflow/solve/law_table.hpp>
#include <libflow/solve/linear_one_way.hpp>
#include <libflow/solve/rounding.hpp>

namespace libflow {

/// How hard to try, and when to stop. Every default is stated once, here.
struct SolveOptions {
  double mass_tolerance = 1e-12;   ///< largest imbalance of a place over the largest flow [-], 1e-15 to 1e-3
  double energy_tolerance = 1e-9;  ///< largest misfit of a law over the largest drop [-], 1e-14 to 1e-3
  int max_iterations = 200;        ///< Newton steps, 1 to 100000

  /// @throws InputError naming field, value, allowed
  void check() const {
    require_in("solve options, mass_tolerance", mass_tolerance, {1e-15, 1e-3}, "");
    require_in("solve options, energy_tolerance", energy_tolerance, {1e-14, 1e-3}, "");
    require_in("solve options, max_iterations", max_iterations, {1, 100000}, "");
  }
};

/// Newton's method on one core network. Holds its work space, so that many scenarios of one shape cost no memory.
class Newton {
 public:
  /// @param laws  by edge of the shape; both must outlive this object
  Newton(const CoreShape& shape, const std::vector<Law>& laws) : shape_(&shape), laws_(&laws), linear_(shape) {
    const std::size_t m = laws.size();
    flow.assign(m, 0.0);
    drop_.resize(m);
    slope_.resize(m);
    intercept_.resize(m);
    change_.resize(m);
    before_.resize(m);
    trial_.resize(m);
    trial_drop_.resize(m);
    trial_slope_.resize(m);
    one_way_.assign(shape.one_way.begin(), shape.one_way.end());
    laws_changed();
  }

  /// To call when the numbers of the laws have changed.
  void laws_changed() { table_.read(*laws_); }

  std::vector<double> flow;  ///< answer, by edge; before solve(): a start when `warm`
  int iterations = 0;        ///< steps of the last solve

  /// Linear systems factored in the last solve.
  [[nodiscard]] int factorisations() const { return linear_.factorisations(); }

  /// @param inflow     pushed in (drawn out: negative), by unknown place
  /// @param potential  in: held values (and, when warm, a start); out: all
  /// @param terms      largest threshold of any part, by edge [Pa]
  /// @param warm       start from the flows and potentials of an earlier solution
  /// @return true when converged
  bool solve(const std::vector<double>& inflow, Potentials& potential, const std::vector<double>& terms,
             const SolveOptions& options, bool warm) {
    linear_.restart_count();
    if (warm) {
      evaluate(flow);
      (void)largest_misfit(potential);
      linearise();
    } else {
      start(inflow, potential);
    }
    // The quadratic convergence makes one step more than the tolerance asks for almost free.
    const double wanted = std::min(options.energy_tolerance, 1e-11);
    bool feasible = false;
    double before = 0.0;
    for (iterations = 1; iterations <= options.max_iterations; ++iterations) {
      const LinearOutcome outcome = linear_.solve(intercept_, slope_, inflow, potential);
      if (outcome == LinearOutcome::no_way) {
        throw IllPosedError(
            "liquid is pushed in or drawn out at a given flow, but no opening of the one-way parts lets it through");
      }
      if (!feasible) {
        flow = linear_.flow;
        feasible = true;
        evaluate(flow);
        if (!warm) temper(inflow, potential);
      } else {
        advance(potential);
      }
      double worst = largest_misfit(potential);
      if (worst <= wanted * scale_ && shut_what_rounding_opened(potential)) worst = largest_misfit(potential);
      if (worst <= wanted * scale_) return true;
      // Rounding stops the descent at about the last digit of the largest term of any law at work, thresholds that
      // cancel in a series run included.
      const bool stalled = worst >= 0.3 * before && before > 0.0;
      if (stalled && worst <= options.energy_tolerance * std::max(scale_, largest_at_work(terms))) {
        (void)shut_what_rounding_opened(potential);
        return true;
      }
      before = worst;
      linearise();
    }
    iterations = options.max_iterations;
    return false;
  }

 private:
  [[nodiscard]] double drop_between(std::size_t e, const Potentials& potential) const {
    return potential.difference(shape_->a[e], shape_->b[e]);
  }

  void evaluate(const std::vector<double>& q) { table_.evaluate(q, drop_, slope_); }

  /// A one-way edge shuts again when its flow and its drop beyond the threshold are both no more than rounding.
  /// @return true if one did
  bool shut_what_rounding_opened(const Potentials& potential) {
    bool any = false;
    for (std::size_t e = 0; e < flow.size(); ++e) {
      if (at_work(e) || flow[e] == 0.0) continue;
      const double threshold = table_.threshold(e);
      const double blur = pressure_rounding(potential.rough(shape_->a[e]), potential.rough(shape_->b[e]), threshold);
      // Among potentials that are equal to their last digit, as in a pocket at rest, the blur is nothing too.
      if (drop_[e] - threshold > blur && flow[e] >= no_flow) continue;
      flow[e] = 0.0;
      drop_[e] = threshold;
      any = true;
    }
    return any;
  }

  /// Tangent at the flows. A slope of nothing (a pump's curve at its top) would be a conductance without end: slopes
  /// get a floor, so low that at the largest flow it drops a share of the largest drop which no tolerance sees. It
  /// bends the path to the answer, never the answer. A floor in Pa per m3/s would not do: below it Newton's steps are
  /// too short, and the slope of a square law under a vanishing head is below any.
  void linearise() {
    const double floor = slope_floor(scale_, most_flow_);
    for (std::size_t e = 0; e < flow.size(); ++e) {
      slope_[e] = std::max(slope_[e], floor);
      intercept_[e] = drop_[e] - slope_[e] * flow[e];
    }
  }

  /// Cold start: each edge as a straight line from its threshold through its law at one flow of about the right size.
  void start(const std::vector<double>& inflow, const Potentials& potential) {
    const double q = typical_flow(inflow, potential);
    std::fill(before_.begin(), before_.end(), q);
    evaluate(before_);
    for (std::size_t e = 0; e < slope_.size(); ++e) {
      const double threshold = table_.threshold(e), slope = (drop_[e] - threshold) / q;
      intercept_[e] = threshold;
      if (q > 0.0) slope_[e] = slope > 0.0 && std::isfinite(slope) ? slope : (*laws_)[e](0.0).slope;
    }
    constexpr double least_share = 1e-15;  // as linearise: no conductance without end
    const double most = slope_.empty() ? 0.0 : *std::max_element(slope_.begin(), slope_.end());
    for (double& slope : slope_) slope = std::max(slope, least_share * most);
  }

  /// What an outlet carries, roughly: its share of the given flows, or, where there are none, the least that some of
  /// the edges at held places would carry under half the span of the held potentials. 0 where nothing drives anything.
  [[nodiscard]] double typical_flow(const std::vector<double>& inflow, const Potentials& potential) const {
    double pushed = 0.0, high = -HUGE_VAL, low = HUGE_VAL;
    const std::vector<std::size_t>& outlets = shape_->held_edge;
    for (const double q : inflow) pushed += std::abs(q);
    for (const std::size_t e : outlets) {
      for (const std::size_t end : {shape_->a[e], shape_->b[e]}) {
        if (end < shape_->unknowns) continue;
        high = std::max(high, potential.value(end));
        low = std::min(low, potential.value(end));
      }
    }
    if (pushed > 0.0) return pushed / static_cast<double>(std::max<std::size_t>(1, outlets.size()));
    const double span = 0.5 * (high - low);
    double least = 0.0;
    if (!(span > 0.0)) return least;
    constexpr std::size_t looks = 4;
    for (std::size_t k = 0; k < std::min(looks, outlets.size()); ++k) {
      const Law& law = (*laws_)[outlets[k * (outlets.size() - 1) / std::max<std::size_t>(1, looks - 1)]];
      double q = span / law(0.0).slope;
      for (int i = 0; i < 3 && q > 0.0; ++i) q *= std::sqrt(span / (law(q).dp - law.threshold));
      if (std::isfinite(q) && q > 0.0 && (least == 0.0 || q < least)) least = q;
    }
    return least;
  }

  /// The first model may let many times too much through. Where nothing but held pressures drives the flows, one factor
  /// on all of them leaves them balanced: it is chosen so that they use up about what the supplies give.
  void temper(const std::vector<double>& inflow, const Potentials& potential) {
    constexpr int rounds = 4;
    constexpr double close = 0.9;
    if (std::any_of(inflow.begin(), inflow.end(), [](double q) { return q != 0.0; })) return;
    double given = 0.0;
    for (std::size_t e = 0; e < flow.size(); ++e) given += drop_between(e, potential) * flow[e];
    for (int i = 0; i < rounds; ++i) {
      double used = 0.0;
      for (std::size_t e = 0; e < flow.size(); ++e) used += drop_[e] * flow[e];
      const double factor = std::sqrt(given / used);  // right where drops go with the square of the flows
      if (!(factor > 0.0 && factor < close)) return;
      given *= factor;
      for (double& q : flow) q *= factor;
      evaluate(flow);
    }
  }

  /// Moves the flows to the model's minimum, or part of the way, so that the content falls; evaluates the laws there.
  void advance(const Potentials& potential) {
    for (std::size_t e = 0; e < flow.size(); ++e) change_[e] = linear_.flow[e] - flow[e];
    std::swap(flow, before_);
    flow = linear_.flow;
    evaluate(flow);
    double full = 0.0;
    for (std::size_t e = 0; e < flow.size(); ++e) full += (drop_[e] - drop_between(e, potential)) * change_[e];
    // The content's slope rises along the step, so its mean is at most the mean of the slopes at the middle and the
    // end.
    if (full <= 0.0 || full + content_slope(0.5, potential) <= 0.0) return;
    // The content may have risen: stop short of its minimum along the step, where its slope is still falling but at
    // most a third of what it was.
    const double wanted = 0.33 * content_slope(0.0, potential);
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 60; ++i) {
      const double middle = 0.5 * (low + high);
      const double s = content_slope(middle, potential);
      (s > 0.0 ? high : low) = middle;
      if (s <= 0.0 && s >= wanted) break;
    }
    if (low == 0.0) return;
    for (std::size_t e = 0; e < flow.size(); ++e) flow[e] = before_[e] + low * change_[e];
    evaluate(flow);
  }

  /// Slope of the content at share t of the step: sum of (law(q + t dq) - drop of the potentials) dq. The potentials
  /// add nothing, since the change balances at every unknown place, but they take out what would cancel.
  [[nodiscard]] double content_slope(double t, const Potentials& potential) {
    for (std::size_t e = 0; e < before_.size(); ++e) trial_[e] = before_[e] + t * change_[e];
    table_.evaluate(trial_, trial_drop_, trial_slope_);
    double sum = 0.0;
    for (std::size_t e = 0; e < before_.size(); ++e) {
      if (change_[e] != 0.0) sum += (trial_drop_[e] - drop_between(e, potential)) * change_[e];
    }
    return sum;
  }

  /// False for a one-way edge that is shut or carries no more than rounding: what it holds back is no drop, and beyond
  /// it a potential may be anything.
  [[nodiscard]] bool at_work(std::size_t e) const { return !one_way_[e] || flow[e] > 1e-15 * most_flow_; }

  [[nodiscard]] double largest_at_work(const std::vector<double>& terms) const {
    double most = 0.0;
    for (std::size_t e = 0; e < flow.size(); ++e) {
      if (at_work(e)) most = std::max(most, terms[e]);
    }
    return most;
  }

  /// Largest misfit of a law [Pa]; finds the largest flow, and the largest drop of the edges at work.
  [[nodiscard]] double largest_misfit(const Potentials& potential) {
    double worst = 0.0;
    scale_ = least_drop;
    most_flow_ = least_flow;
    for (const double q : flow) most_flow_ = std::max(most_flow_, std::abs(q));
    for (std::size_t e = 0; e < flow.size(); ++e) {
      const double between = drop_between(e, potential);
      double miss = between - drop_[e];
      if (at_work(e)) {
        scale_ = std::max({scale_, std::abs(drop_[e]), std::abs(between)});
      } else if (flow[e] == 0.0) {
        miss = std::max(0.0, miss);
      }
      const double blur = pressure_rounding(potential.rough(shape_->a[e]), potential.rough(shape_->b[e]), drop_[e]);
      worst = std::max(worst, std::abs(miss) - blur);
    }
    return worst;
  }

  const CoreShape* shape_;
  const std::vector<Law>* laws_;
  LinearOneWay linear_;
  LawTable table_;
  std::vector<double> drop_, slope_, intercept_, change_, before_, trial_, trial_drop_, trial_slope_;
  std::vector<char> one_way_;
  double scale_ = least_drop, most_flow_ = least_flow;  // of the last look at the misfit
};

}  // namespace libflow
