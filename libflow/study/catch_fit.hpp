// SPDX-License-Identifier: MIT
/// @file
/// The statistics of a diagnosis: the sizes of causes by weighted least squares, and how large a gain noise alone can
/// give.
///
/// A cup's logarithm is the row's logarithm plus reading error; a row's is the model's plus its parts' scatter (the
/// same at every setting) plus what the level of the setting adds (the gauge's error, or anything where none was read).
/// The level is eliminated exactly, so that what is left compares rows and settings. Sources: P. J. Huber, Robust
/// Estimation of a Location Parameter, Ann. Math. Statist. 35 (1964) 73 (from memory); generalised least squares and
/// profile likelihood as in any text.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <boost/math/tools/minima.hpp>
#include <boost/random/gamma_distribution.hpp>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>

#include <libflow/study/catch_data.hpp>
#include <libflow/study/catch_model.hpp>

namespace libflow {

/// The inverse covariance of the cells with the levels eliminated, and what follows from it.
class CatchFit {
 public:
  /// For one set of readings.
  CatchFit(CatchModel& model, const CatchData& data) : model_(&model), data_(&data) {
    const Eigen::Index n = model.cells();
    const std::size_t settings = model.conditions().size(), rows = model.rows().size();
    precision_ = Eigen::MatrixXd::Zero(n, n);
    const double scatter = model.setup().part_scatter;
    for (std::size_t i = 0; i < rows; ++i) {
      // Row i: diag(error^2 / repeats) + scatter^2 in all entries, inverted (Sherman and Morrison).
      double sum = 0.0;
      std::vector<double> w(settings, 0.0);
      for (std::size_t s = 0; s < settings; ++s) {
        w[s] = data.repeats[cell(s, i)] / (data.error * data.error);
        sum += w[s];
      }
      const double common = scatter * scatter / (1.0 + scatter * scatter * sum);
      for (std::size_t s = 0; s < settings; ++s) {
        for (std::size_t t = 0; t < settings; ++t) {
          precision_(model.cell(s, i), model.cell(t, i)) = (s == t ? w[s] : 0.0) - common * w[s] * w[t];
        }
      }
    }
    const auto levels = static_cast<Eigen::Index>(settings);
    Eigen::MatrixXd p = Eigen::MatrixXd::Zero(n, levels), a = Eigen::MatrixXd::Zero(levels, levels);
    for (std::size_t s = 0; s < settings; ++s) {
      const double sd = model.conditions()[s].gauge ? model.setup().gauge_error : 10.0;
      a(static_cast<Eigen::Index>(s), static_cast<Eigen::Index>(s)) = 1.0 / (sd * sd);
      for (std::size_t i = 0; i < rows; ++i) p(model.cell(s, i), static_cast<Eigen::Index>(s)) = slope(s, i);
    }
    const Eigen::MatrixXd lp = precision_ * p;
    a += p.transpose() * lp;
    const Eigen::LDLT<Eigen::MatrixXd> solver(a);
    const Eigen::MatrixXd solved = solver.solve(lp.transpose());
    precision_ -= lp * solved;
    level_ = solved;
    params_cost_ = 0.0;
    for (const int r : data.repeats) params_cost_ += r;
    params_cost_ = std::log(std::max(2.0, params_cost_));
  }

  /// Misfit of a residual [-].
  [[nodiscard]] double chi2(const Eigen::VectorXd& residual) const { return residual.dot(precision_ * residual); }
  /// Inverse covariance, cell by cell.
  [[nodiscard]] const Eigen::MatrixXd& precision() const { return precision_; }
  /// Change of each setting's logarithm of pressure that fits a residual best.
  [[nodiscard]] Eigen::VectorXd levels(const Eigen::VectorXd& residual) const { return level_ * residual; }
  /// Cells that were read, less the levels that nothing holds.
  [[nodiscard]] double degrees() const {
    double cells = 0.0;
    for (const int r : data_->repeats) cells += r > 0 ? 1.0 : 0.0;
    for (const CatchCondition& c : model_->conditions()) cells -= c.gauge ? 0.0 : 1.0;
    return cells;
  }
  /// Schwarz's cost of one fitted size: ln of the number of readings.
  [[nodiscard]] double size_cost() const { return params_cost_; }

  /// A cause at the size that fits a residual best.
  struct Best {
    CatchCause cause;       ///< with its size
    double chi2 = 0;        ///< misfit that is left [-]
    bool fitted = true;     ///< its size is a number that was fitted
    bool possible = false;  ///< the size lies in its range
  };
  /// @param gradient  precision() times the residual; @param chi2_now  of the residual
  [[nodiscard]] Best best(const CatchCause& cause, const Eigen::VectorXd& gradient, double chi2_now) {
    const CatchEffect& e = model_->effect(cause);
    Best b{.cause = cause, .chi2 = chi2_now, .fitted = e.fitted};
    if (e.cells.empty() || e.sizes.empty()) return b;
    const Profile profile = profile_of(e, gradient, chi2_now);
    Eigen::VectorXd v;
    const auto at = [&](double x) {
      e.at(e.size_at(x), v);
      return profile(v);
    };
    std::size_t k = 0;
    double least = 0.0;
    for (std::size_t i = 0; i < e.sizes.size(); ++i) {
      v = e.solved.col(static_cast<Eigen::Index>(i));
      const double c = profile(v);
      if (i == 0 || c < least) {
        least = c;
        k = i;
      }
    }
    b.possible = true;
    b.cause.size = e.sizes[k];
    b.chi2 = least;
    if (e.fitted) {
      const double low = e.abscissa(e.sizes[k == 0 ? 0 : k - 1]);
      const double high = e.abscissa(e.sizes[std::min(k + 1, e.sizes.size() - 1)]);
      std::uintmax_t steps = 40;
      const auto [x, c] = boost::math::tools::brent_find_minima(at, low, high, 20, steps);
      if (c < least) {
        b.cause.size = e.size_at(x);
        b.chi2 = c;
      }
    }
    return b;
  }
  /// The same, the gradient made here.
  [[nodiscard]] Best best(const CatchCause& cause, const Eigen::VectorXd& residual) {
    const Eigen::VectorXd g = precision_ * residual;
    return best(cause, g, residual.dot(g));
  }

  /// Sizes between which chi-squared rises by less than `rise`; the ends of what was solved where it never does.
  [[nodiscard]] std::pair<double, double> interval(const CatchCause& cause, const Eigen::VectorXd& residual,
                                                   double rise) {
    const CatchEffect& e = model_->effect(cause);
    if (!e.fitted || e.cells.empty()) return {cause.size, cause.size};
    const Eigen::VectorXd g = precision_ * residual;
    const Profile profile = profile_of(e, g, residual.dot(g));
    Eigen::VectorXd v;
    const auto at = [&](double x) {
      e.at(e.size_at(x), v);
      return profile(v);
    };
    const double x0 = e.abscissa(cause.size), limit = at(x0) + rise;
    const auto side = [&](double end) {
      if (at(end) <= limit) return e.size_at(end);
      double in = x0, out = end;
      for (int turn = 0; turn < 50; ++turn) {
        const double middle = 0.5 * (in + out);
        (at(middle) <= limit ? in : out) = middle;
      }
      return e.size_at(in);
    };
    return {side(e.abscissa(e.sizes.front())), side(e.abscissa(e.sizes.back()))};
  }

  /// How far a row is off by all its cells, chi-squared with at most as many degrees of freedom as settings.
  [[nodiscard]] double row_statistic(std::size_t row, const Eigen::VectorXd& gradient) const {
    const auto settings = static_cast<Eigen::Index>(model_->conditions().size());
    Eigen::MatrixXd block(settings, settings);
    Eigen::VectorXd g(settings);
    for (Eigen::Index s = 0; s < settings; ++s) {
      const int a = model_->cell(static_cast<std::size_t>(s), row);
      g[s] = gradient[a];
      for (Eigen::Index t = 0; t < settings; ++t) {
        block(s, t) = precision_(a, model_->cell(static_cast<std::size_t>(t), row));
      }
      if (data_->repeats[static_cast<std::size_t>(a)] == 0) block(s, s) += 1.0;  // not read: nothing to invert
    }
    return g.dot(block.ldlt().solve(g));
  }

  /// The gain that the best of all causes reaches by noise alone once in 1 / `chance` sound bars, by simulation with a
  /// fixed seed. A row counts with all that its cells can do, which is no less than what any cause of it can.
  [[nodiscard]] double threshold(double chance, int bars = 3000) {
    const Eigen::Index n = model_->cells();
    boost::random::mt19937_64 dice(20240229);
    boost::random::normal_distribution<double> normal;
    boost::random::gamma_distribution<double> gamma(0.5 * data_->error_dof, 2.0 / data_->error_dof);
    std::vector<std::pair<Eigen::VectorXd, double>> directions;
    for (const CatchCause& c : model_->common_causes()) {
      const CatchEffect& e = model_->effect(c);
      if (e.cells.empty()) continue;
      for (const std::size_t k : small_sizes(e)) {
        Eigen::VectorXd v = Eigen::VectorXd::Zero(n);
        for (std::size_t i = 0; i < e.cells.size(); ++i)
          v[e.cells[i]] = e.solved(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k));
        const double norm = chi2(v);
        if (norm > 1e-12) directions.emplace_back(v, norm);
      }
    }
    std::vector<double> most;
    const std::size_t settings = model_->conditions().size(), rows = model_->rows().size();
    Eigen::VectorXd r(n);
    for (int bar = 0; bar < bars; ++bar) {
      for (std::size_t i = 0; i < rows; ++i) {
        const double part = model_->setup().part_scatter * normal(dice);
        for (std::size_t s = 0; s < settings; ++s) {
          const int repeats = data_->repeats[cell(s, i)];
          r[model_->cell(s, i)] = repeats == 0 ? 0.0 : part + data_->error / std::sqrt(repeats) * normal(dice);
        }
      }
      for (std::size_t s = 0; s < settings; ++s) {
        const double sd = model_->conditions()[s].gauge ? model_->setup().gauge_error : 0.0;
        const double level = sd * normal(dice);
        for (std::size_t i = 0; i < rows; ++i) r[model_->cell(s, i)] += level * slope(s, i);
      }
      const Eigen::VectorXd g = precision_ * r;
      double best = 0.0;
      for (std::size_t i = 0; i < rows; ++i) best = std::max(best, row_statistic(i, g));
      for (const auto& [v, norm] : directions) best = std::max(best, v.dot(g) * v.dot(g) / norm);
      most.push_back(best / gamma(dice));
    }
    const auto k = static_cast<std::ptrdiff_t>((1.0 - chance) * static_cast<double>(bars));
    std::nth_element(most.begin(), most.begin() + k, most.end());
    return most[static_cast<std::size_t>(k)];
  }

 private:
  /// Chi-squared of a residual less an effect, from what does not change with the effect.
  struct Profile {
    Eigen::VectorXd gradient;
    Eigen::MatrixXd block;
    double now = 0;
    double operator()(const Eigen::VectorXd& v) const { return now - 2.0 * v.dot(gradient) + v.dot(block * v); }
  };
  [[nodiscard]] Profile profile_of(const CatchEffect& e, const Eigen::VectorXd& gradient, double now) const {
    const auto m = static_cast<Eigen::Index>(e.cells.size());
    Profile p{Eigen::VectorXd(m), Eigen::MatrixXd(m, m), now};
    for (Eigen::Index i = 0; i < m; ++i) {
      p.gradient[i] = gradient[e.cells[static_cast<std::size_t>(i)]];
      for (Eigen::Index j = 0; j < m; ++j) {
        p.block(i, j) = precision_(e.cells[static_cast<std::size_t>(i)], e.cells[static_cast<std::size_t>(j)]);
      }
    }
    return p;
  }
  [[nodiscard]] std::size_t cell(std::size_t s, std::size_t i) const {
    return static_cast<std::size_t>(model_->cell(s, i));
  }
  [[nodiscard]] double slope(std::size_t s, std::size_t i) const {
    return data_->repeats[cell(s, i)] == 0 ? 0.0 : model_->by_pressure()[model_->cell(s, i)];
  }
  /// Two sizes on either side of none: there the effect is a direction. Of causes without a size: all.
  static std::vector<std::size_t> small_sizes(const CatchEffect& e) {
    std::vector<std::size_t> out;
    if (!e.fitted) {
      for (std::size_t k = 0; k < e.sizes.size(); ++k) out.push_back(k);
      return out;
    }
    for (std::size_t k = 0; k < e.sizes.size(); ++k) {
      if (e.solved.col(static_cast<Eigen::Index>(k)).cwiseAbs().maxCoeff() > 0.0) continue;
      if (k >= 2) out.push_back(k - 2);
      if (k + 2 < e.sizes.size()) out.push_back(k + 2);
    }
    return out;
  }

  CatchModel* model_;
  const CatchData* data_;
  Eigen::MatrixXd precision_, level_;
  double params_cost_ = 0;
};

}  // namespace libflow
