// SPDX-License-Identifier: MIT
/// @file
/// The search for causes: which may explain what is left, and all sizes fitted together.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include <libflow/core/error.hpp>
#include <libflow/study/catch_fit.hpp>
#include <libflow/study/catch_model.hpp>

namespace libflow::catch_detail {

/// The bar with some causes in it, and what they leave of the cups.
struct CatchRest {
  std::vector<CatchCause> causes;  ///< in the bar
  std::optional<CatchModel> own;   ///< empty: the model without any
  CatchModel* model;               ///< with them
  CatchFit fit;                    ///< of the cups to it
  Eigen::VectorXd left;            ///< logarithms of the cups less the model's, by cell

  /// @param given  without causes
  CatchRest(std::vector<CatchCause> in, std::optional<CatchModel> with, CatchModel& given, const CatchData& data)
      : causes(std::move(in)),
        own(std::move(with)),
        model(own ? &*own : &given),
        fit(*model, data),
        left(data.log_flow - model->base()) {}

  /// A cause at the size that explains best what is left, by its curve.
  [[nodiscard]] CatchFit::Best best(const CatchCause& c) { return fit.best(c, left); }
  /// The same by exact solves: what its curve misses there is taken off.
  struct Fitted {
    CatchFit::Best best;
    Eigen::VectorXd left;  ///< less what the curve misses
  };
  [[nodiscard]] Fitted fitted(const CatchCause& c) { return settled({best(c), left}); }
  /// The same of one that was fitted to its curve.
  [[nodiscard]] Fitted settled(Fitted f) {
    constexpr int most_turns = 3;
    for (int turn = 0; f.best.fitted && turn < most_turns; ++turn) {
      const auto exact = model->exact({f.best.cause});
      if (!exact) break;  // between two sizes that have an answer
      const CatchEffect& e = model->effect(f.best.cause);
      Eigen::VectorXd beyond = *exact - model->base(), curve;
      e.at(f.best.cause.size, curve);
      for (std::size_t i = 0; i < e.cells.size(); ++i) beyond[e.cells[i]] -= curve[static_cast<Eigen::Index>(i)];
      const Eigen::VectorXd before = std::exchange(f.left, left - beyond);
      if ((f.left - before).cwiseAbs().maxCoeff() < 1e-5) break;
      f.best = fit.best(f.best.cause, f.left);
    }
    return f;
  }
  /// Schwarz's score; lower is better.
  [[nodiscard]] double score(const CatchFit::Best& b) const { return b.chi2 + (b.fitted ? fit.size_cost() : 0.0); }

  /// Every cause that may explain what is left: those of all rows that are off by more than a standard error and a
  /// half, of the whole bar, and swaps among the former.
  [[nodiscard]] std::vector<CatchFit::Best> candidates() {
    const Eigen::VectorXd g = fit.precision() * left;
    const double now = left.dot(g);
    std::vector<std::pair<double, int>> off;
    for (std::size_t i = 0; i < model->rows().size(); ++i) {
      const double x = fit.row_statistic(i, g);
      if (x > 2.25 * static_cast<double>(model->conditions().size())) off.emplace_back(x, model->rows()[i]);
    }
    std::sort(off.rbegin(), off.rend());
    if (off.size() > 6) off.resize(6);
    std::vector<CatchFit::Best> out;
    const auto consider = [&](const CatchCause& c) {
      if (std::any_of(causes.begin(), causes.end(), [&](const CatchCause& in) { return in.excludes(c); })) return;
      const CatchFit::Best b = fit.best(c, g, now);
      if (b.possible) out.push_back(b);
    };
    for (const auto& [x, row] : off) {
      for (const CatchCause& c : model->row_causes(row)) consider(c);
    }
    for (const CatchCause& c : model->common_causes()) consider(c);
    for (std::size_t a = 0; a < off.size(); ++a) {
      for (std::size_t b = a + 1; b < off.size(); ++b) {
        const int first = std::min(off[a].second, off[b].second), second = std::max(off[a].second, off[b].second);
        if (model->hoses_differ(first, second)) consider({CatchCauseKind::hoses_swapped, first, second, 0, 1.0});
      }
    }
    return out;
  }
  /// The one with the best score. @param of_bar  only what is of no row
  [[nodiscard]] std::optional<CatchFit::Best> strongest(bool of_bar = false) {
    std::optional<CatchFit::Best> found;
    for (const CatchFit::Best& b : candidates()) {
      if (of_bar && b.cause.row > 0) continue;
      if (!found || score(b) < score(*found)) found = b;
    }
    return found;
  }
};

/// A cause that may stand in the place of another, at the size that explains the cups best.
struct CatchAlternative {
  CatchFit::Best best;
  Eigen::VectorXd left;             ///< that `best` is fitted to
  std::shared_ptr<CatchRest> rest;  ///< the bar with all other causes in it
  std::vector<CatchCause> others;   ///< at the sizes that they have beside it
};

/// The causes so far. Each is fitted to the bar that has all others in it.
class CauseSearch {
 public:
  std::vector<CatchCause> causes;  ///< with their sizes
  /// Place by place, what may stand there as well, where that is known: beside it others may explain the cups.
  std::vector<std::vector<CatchCause>> stand_ins;

  /// @param model  without causes; both must outlive the search
  CauseSearch(CatchModel& model, const CatchData& data) : model_(&model), data_(&data) {}

  /// What all causes but one leave. @throws IllPosedError where the plumbing then has no answer
  [[nodiscard]] std::shared_ptr<CatchRest> without(std::size_t k) { return rest_of(others_of(causes, k)); }
  /// What all causes leave. @throws as without()
  [[nodiscard]] std::shared_ptr<CatchRest> rest() { return rest_of(causes); }

  /// The cause that explains best what all so far leave. Every effect is as in the bar without causes, which are there
  /// already: what is found so is fitted again.
  /// @param of_bar  only what is of no row
  [[nodiscard]] std::optional<CatchFit::Best> next(const CatchRest& now, bool of_bar) {
    CatchRest rough(now.causes, std::nullopt, *model_, *data_);
    rough.left = now.left;
    return rough.strongest(of_bar);
  }

  /// What may stand in the place of cause k, itself among them. What would do the same to the same rows is fitted
  /// together with the others, whose sizes may be others beside it. Needs without(k).
  [[nodiscard]] std::vector<CatchAlternative> alternatives(std::size_t k) {
    const std::shared_ptr<CatchRest> r = without(k);
    const CatchCause& own = causes[k];
    std::vector<CatchFit::Best> candidates = r->candidates();
    if (std::none_of(candidates.begin(), candidates.end(), [&](const auto& b) { return b.cause.same(own); })) {
      candidates.push_back(r->best(own));
    }
    double nearest = candidates.front().chi2;
    for (const CatchFit::Best& b : candidates) nearest = std::min(nearest, b.chi2);
    std::vector<CatchAlternative> all;
    for (const CatchFit::Best& b : candidates) {
      std::vector<CatchCause> together = causes;
      together[k] = b.cause;
      // What its curve misses does not bring one back that is so far behind.
      constexpr double far_behind = 50.0;
      CatchRest::Fitted f{b, r->left};
      if (b.chi2 <= nearest + far_behind) f = r->settled(f);
      CatchAlternative best{f.best, std::move(f.left), r, others_of(together, k)};
      const auto consider = [&](const std::vector<CatchCause>& all_of_them) {
        try {
          CatchAlternative other = fitted_together(all_of_them, k);
          if (other.best.chi2 < best.best.chi2) best = std::move(other);
        } catch (const IllPosedError&) {
          return;  // no such bar
        }
      };
      const bool alike =
          own.of_row() ? b.cause.of_row() && b.cause.row == own.row : own.moves_all() && b.cause.moves_all();
      if (alike && !b.cause.same(own) && causes.size() > 1) {
        consider(together);
        constexpr double about_as_good = 4.0;
        for (std::size_t j = 0; j < stand_ins.size(); ++j) {
          for (const CatchCause& c : stand_ins[j]) {
            if (j == k || c.excludes(b.cause) || best.best.chi2 < nearest + about_as_good) continue;
            std::vector<CatchCause> exchanged = together;
            exchanged[j] = c;
            consider(exchanged);
          }
        }
      }
      all.push_back(std::move(best));
    }
    return all;
  }

  /// Adds a cause, fits all sizes again and puts better causes in the place of others.
  /// @throws as without(), and nothing is changed, also where one of the causes could not be taken out again
  void take(const CatchCause& c) {
    const std::vector<CatchCause> before = causes;
    try {
      causes.push_back(c);
      refine();
      exchange();
      static_cast<void>(rest());
      for (std::size_t k = 0; k < causes.size(); ++k) static_cast<void>(without(k));
    } catch (const IllPosedError&) {
      causes = before;
      throw;
    }
  }

  /// All sizes again, each with the others held, until they rest. @throws as without()
  void refine(int turns = most_turns) {
    for (int turn = 0; turn < turns; ++turn) {
      double moved = 0.0;
      for (std::size_t k = 0; k < causes.size(); ++k) {
        const auto r = without(k);
        const CatchCause fitted = r->fitted(causes[k]).best.cause;
        moved = std::max(moved, distance(r->model->effect(fitted), causes[k].size, fitted.size));
        causes[k] = fitted;
      }
      if (moved < 1e-4 || causes.size() < 2) break;
    }
  }

 private:
  static std::vector<CatchCause> others_of(std::vector<CatchCause> together, std::size_t k) {
    together.erase(together.begin() + static_cast<std::ptrdiff_t>(k));
    return together;
  }
  /// All sizes of these; cause k is what they are looked at for. @throws as without()
  CatchAlternative fitted_together(const std::vector<CatchCause>& together, std::size_t k) {
    CauseSearch trial = *this;
    trial.causes = together;
    constexpr int enough_to_compare = 5;
    trial.refine(enough_to_compare);
    const std::shared_ptr<CatchRest> beside = trial.without(k);
    CatchRest::Fitted f = beside->fitted(trial.causes[k]);
    return {f.best, std::move(f.left), beside, others_of(std::move(trial.causes), k)};
  }

  /// Puts a better cause in the place of each, now that the others are known. @throws as without()
  void exchange() {
    bool changed = false;
    for (std::size_t k = 0; k < causes.size() && causes.size() > 1; ++k) {
      const auto r = without(k);
      const CatchFit::Best b = r->strongest().value_or(r->best(causes[k]));
      if (b.cause.same(causes[k])) continue;
      causes[k] = b.cause;
      changed = true;
    }
    if (changed) refine();
  }

  /// One to three sizes rest after a few turns; more only where two do nearly the same to the cups.
  static constexpr int most_turns = 20;

  /// Of two sizes, over the span of all that were solved for [-].
  static double distance(const CatchEffect& e, double from, double to) {
    if (from == to) return 0.0;
    return std::abs(e.abscissa(to) - e.abscissa(from)) / (e.abscissa(e.sizes.back()) - e.abscissa(e.sizes.front()));
  }

  /// Kept as long as none of its sizes changes: its effects take solving.
  std::shared_ptr<CatchRest> rest_of(std::vector<CatchCause> in) {
    const auto equal = [](const CatchCause& a, const CatchCause& b) { return a.same(b) && a.size == b.size; };
    for (const auto& r : known_) {
      if (std::equal(r->causes.begin(), r->causes.end(), in.begin(), in.end(), equal)) return r;
    }
    std::optional<CatchModel> with;
    if (!in.empty()) {
      with = model_->with(in);
      if (!with) throw IllPosedError("the bar with what was found has no answer at the setting of the catch test");
    }
    if (known_.size() > 8) known_.erase(known_.begin());
    known_.push_back(std::make_shared<CatchRest>(std::move(in), std::move(with), *model_, *data_));
    return known_.back();
  }

  CatchModel* model_;
  const CatchData* data_;
  std::vector<std::shared_ptr<CatchRest>> known_;
};

}  // namespace libflow::catch_detail
