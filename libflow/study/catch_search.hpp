// SPDX-License-Identifier: MIT
/// @file
/// The search for causes: which may explain what is left, and all sizes fitted together.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include <libflow/study/catch_fit.hpp>
#include <libflow/study/catch_model.hpp>

namespace libflow::catch_detail {

/// The causes so far, each with its effect at its size.
struct CauseSearch {
  CatchModel& model;
  CatchFit& fit;
  Eigen::VectorXd residual;  ///< cups less the layout, less what the causes do together beyond their sum
  std::vector<CatchCause> causes;

  void add(const CatchCause& c, double sign, Eigen::VectorXd& to) const {
    const CatchEffect& e = model.effect(c);
    Eigen::VectorXd v;
    e.at(c.size, v);
    for (std::size_t i = 0; i < e.cells.size(); ++i) to[e.cells[i]] += sign * v[static_cast<Eigen::Index>(i)];
  }
  /// What the causes leave, but for one of them.
  [[nodiscard]] Eigen::VectorXd rest(std::size_t without = static_cast<std::size_t>(-1)) const {
    Eigen::VectorXd r = residual;
    for (std::size_t k = 0; k < causes.size(); ++k) {
      if (k != without) add(causes[k], -1.0, r);
    }
    return r;
  }
  /// Every cause that may explain a rest: those of all rows that are off by more than a standard error and a half,
  /// of the whole bar, and swaps among the former.
  [[nodiscard]] std::vector<CatchFit::Best> candidates(const Eigen::VectorXd& rest,
                                                       std::size_t without = static_cast<std::size_t>(-1)) const {
    const Eigen::VectorXd g = fit.precision() * rest;
    const double now = rest.dot(g);
    std::vector<std::pair<double, int>> off;
    for (std::size_t i = 0; i < model.rows().size(); ++i) {
      const double x = fit.row_statistic(i, g);
      if (x > 2.25 * static_cast<double>(model.conditions().size())) off.emplace_back(x, model.rows()[i]);
    }
    std::sort(off.rbegin(), off.rend());
    if (off.size() > 6) off.resize(6);
    std::vector<CatchFit::Best> out;
    const auto consider = [&](const CatchCause& c) {
      for (std::size_t k = 0; k < causes.size(); ++k) {
        if (k != without && causes[k].excludes(c)) return;
      }
      const CatchFit::Best b = fit.best(c, g, now);
      if (b.possible) out.push_back(b);
    };
    for (const auto& [x, row] : off) {
      for (const CatchCause& c : model.row_causes(row)) consider(c);
    }
    for (const CatchCause& c : model.common_causes()) consider(c);
    for (std::size_t a = 0; a < off.size(); ++a) {
      for (std::size_t b = a + 1; b < off.size(); ++b) {
        const int first = std::min(off[a].second, off[b].second), second = std::max(off[a].second, off[b].second);
        if (model.hoses_differ(first, second)) consider({CatchCauseKind::hoses_swapped, first, second, 0, 1.0});
      }
    }
    return out;
  }
  /// Lower is better.
  [[nodiscard]] double score(const CatchFit::Best& b) const { return b.chi2 + (b.fitted ? fit.size_cost() : 0.0); }

  [[nodiscard]] std::optional<CatchFit::Best> strongest(const Eigen::VectorXd& rest,
                                                        std::size_t without = static_cast<std::size_t>(-1)) const {
    std::optional<CatchFit::Best> best;
    for (const CatchFit::Best& b : candidates(rest, without)) {
      if (!best || score(b) < score(*best)) best = b;
    }
    return best;
  }
  /// All sizes again, each with the others held, until they rest.
  void refine() {
    for (int turn = 0; causes.size() > 1 && turn < 6; ++turn) {
      double moved = 0.0;
      for (std::size_t k = 0; k < causes.size(); ++k) {
        const CatchFit::Best b = fit.best(causes[k], rest(k));
        if (!b.possible) continue;
        moved = std::max(moved, std::abs(b.cause.size - causes[k].size) / (1e-12 + std::abs(causes[k].size)));
        causes[k] = b.cause;
      }
      if (moved < 1e-4) break;
    }
  }
  /// Puts a better cause in the place of each, now that the others are known.
  void exchange() {
    if (causes.size() < 2) return;
    bool changed = false;
    for (std::size_t k = 0; k < causes.size(); ++k) {
      const std::optional<CatchFit::Best> b = strongest(rest(k), k);
      if (!b || b->cause.same(causes[k])) continue;
      causes[k] = b->cause;
      changed = true;
    }
    if (changed) refine();
  }
  /// What the causes do together beyond the sum of what each does, by an exact solve; sizes follow.
  void correct() {
    if (causes.empty()) return;
    const Eigen::VectorXd cups = residual;
    for (int turn = 0; turn < 3; ++turn) {
      const auto exact = model.exact(causes);
      if (!exact) return;  // at the end of what parts can be
      Eigen::VectorXd beyond = *exact - model.base();
      for (const CatchCause& c : causes) add(c, -1.0, beyond);
      residual = cups - beyond;
      if (beyond.cwiseAbs().maxCoeff() < 1e-5) return;
      for (std::size_t k = 0; k < causes.size(); ++k) {
        const CatchFit::Best b = fit.best(causes[k], rest(k));
        if (b.possible) causes[k] = b.cause;
      }
    }
  }
};

}  // namespace libflow::catch_detail
