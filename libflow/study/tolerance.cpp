// SPDX-License-Identifier: MIT
#include <libflow/study/tolerance.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <variant>
#include <vector>

#include <Eigen/Core>

#include <libflow/core/progress.hpp>
#include <libflow/study/in_pieces.hpp>
#include <libflow/study/scenarios.hpp>
#include <libflow/study/scrambled_points.hpp>
#include <libflow/study/tolerance_draws.hpp>
#include <libflow/study/tolerance_first_order.hpp>
#include <libflow/study/variance_shares.hpp>

namespace libflow {

namespace tolerance_detail {

/// What a study keeps of one replicate.
struct Replicate {
  std::vector<double> cv, worst;
  Eigen::ArrayXd sum, squares;  ///< of the rows' deviations, from the layout's own
  double within = 0;
  std::size_t reached = 0, unsolved = 0;
};

static double quantile_of(std::vector<double>& x, double level) {
  const auto k = std::min(x.size() - 1, static_cast<std::size_t>(level * static_cast<double>(x.size())));
  std::nth_element(x.begin(), x.begin() + static_cast<std::ptrdiff_t>(k), x.end());
  return x[k];
}

class Study {
 public:
  Study(const Layout& layout, const std::vector<Tolerance>& tolerances, const ToleranceOptions& options)
      : options_(options),
        toolbar_(std::get_if<Toolbar>(&layout.plumbing)),
        solver_(toolbar_ != nullptr ? ScenarioSolver(*toolbar_, layout.job)
                                    : ScenarioSolver(std::get<Plumbing>(layout.plumbing), layout.job)),
        draws_(solver_, tolerances, toolbar_),
        weight_(row_weights(solver_.plumbing(), layout.job)),
        counted_((weight_ != 0.0).cast<double>()) {
    out_.layout = layout.name;
    out_.tolerance = layout.job.tolerance;
    out_.seed = options.seed;
    look_at_layout();
    const std::size_t groups = draws_.tolerances().size();
    total_ = options.replicates * (options.points + (groups + 2) * options.share_points);
  }

  ToleranceResult run(const Progress& progress) {
    const ScrambledPoints points(draws_.group().size(), options_.seed);
    std::vector<Replicate> replicates;
    bool going = true;
    for (std::size_t r = 0; r < options_.replicates && going; ++r) {
      Replicate one;
      one.sum = one.squares = Eigen::ArrayXd::Zero(weight_.size());
      for (std::size_t first = 0; first < options_.points && going; first += chunk) {
        const std::size_t count = std::min(chunk, options_.points - first);
        count_in(solve(draw(points, r, first, count), progress, going), one);
      }
      const bool whole = one.reached == options_.points;
      if (whole) ++out_.replicates;
      // A part of the first is better than nothing; a part of a later one would only blur the sampling error.
      if (whole || r == 0) replicates.push_back(std::move(one));
    }
    sum_up(replicates);
    if (going && options_.share_points > 0) going = find_shares(progress);
    out_.complete = going;
    return std::move(out_);
  }

 private:
  static constexpr std::size_t chunk = 16384;  // machines drawn at a time
  static constexpr std::size_t piece = 2048;   // of these, by one hand

  void look_at_layout() {
    const Plumbing& plumbing = solver_.plumbing();
    const Solution solution = solve_plumbing(plumbing, solver_.liquid());
    if (!solution.usable()) throw IllPosedError("the layout itself has no answer: " + solution.message);
    const Evenness e = evaluate(plumbing, solver_.job(), solution, solver_.liquid());
    if (!(e.mean_rate > 0.0)) throw IllPosedError("nothing flows in the layout itself");
    out_.nominal_cv = e.cv;
    for (const RowResult& r : e.rows) {
      if (!r.shut) out_.nominal_worst = std::max(out_.nominal_worst, std::abs(r.deviation));
      RowScatter row;
      row.row = r.row;
      row.nominal = r.deviation;
      out_.rows.push_back(row);
    }
    for (const Tolerance& t : draws_.tolerances()) {
      ToleranceShare share;
      share.name = t.shown_name();
      out_.shares.push_back(std::move(share));
    }
    try {
      const FirstOrder linear = first_order(solver_, draws_, toolbar_, solution);
      out_.first_order_rms_cv = linear.rms_cv;
      out_.at_crack = linear.at_crack;
      for (std::size_t r = 0; r < out_.rows.size(); ++r) {
        out_.rows[r].first_order = linear.spread[static_cast<Eigen::Index>(r)];
      }
      for (std::size_t j = 0; j < out_.shares.size(); ++j) {
        out_.shares[j].first_order = linear.share[static_cast<Eigen::Index>(j)];
      }
    } catch (const InputError& error) {
      out_.no_first_order = error.what();
    }
  }

  /// Scenarios of a piece of a replicate, drawn by all hands.
  Eigen::ArrayXXd draw(const ScrambledPoints& points, std::size_t replicate, std::size_t first,
                       std::size_t count) const {
    Eigen::ArrayXXd u(static_cast<Eigen::Index>(count), static_cast<Eigen::Index>(points.dimensions()));
    in_pieces(
        count, piece, options_.threads, {}, [] { return 0; },
        [&](int, std::size_t from, std::size_t to) {
          u.middleRows(static_cast<Eigen::Index>(from), static_cast<Eigen::Index>(to - from)) =
              points.points(replicate, first + from, to - from);
        });
    return u;
  }

  ScenarioResults solve(const Eigen::ArrayXXd& u, const Progress& progress, bool& going) {
    const std::size_t before = done_;
    Eigen::ArrayXXd z(u.rows(), u.cols());
    in_pieces(
        static_cast<std::size_t>(u.rows()), piece, options_.threads, {}, [] { return 0; },
        [&](int, std::size_t from, std::size_t to) {
          const auto at = static_cast<Eigen::Index>(from), n = static_cast<Eigen::Index>(to - from);
          z.middleRows(at, n) = draws_.differences(u.middleRows(at, n));
        });
    ScenarioResults results =
        solver_.solve(draws_.scenarios(z), {.threads = options_.threads}, [&](std::size_t done, std::size_t) {
          going = go_on(progress, before + done, total_);
          return going;
        });
    done_ += results.done;
    return results;
  }

  void count_in(const ScenarioResults& results, Replicate& one) {
    const Eigen::ArrayXd inverse = (weight_ != 0.0).select(1.0 / weight_, 0.0);
    const double rows = counted_.sum();
    one.reached += results.done;
    for (std::size_t i = 0; i < results.status.size(); ++i) {
      const auto k = static_cast<Eigen::Index>(i);
      if (results.status[i] == ScenarioStatus::not_reached) continue;
      if (!results.usable(i) || !(results.mean_rate[k] > 0.0)) {
        ++one.unsolved;
        continue;
      }
      one.cv.push_back(results.cv[k]);
      one.worst.push_back(std::max(std::abs(results.lowest[k]), std::abs(results.highest[k])));
      one.within += one.worst.back() <= out_.tolerance ? 1.0 : 0.0;
      double mean = 0.0;
      for (Eigen::Index r = 0; r < inverse.size(); ++r) mean += results.flow(k, r) * inverse[r] / rows;
      for (Eigen::Index r = 0; r < inverse.size(); ++r) {
        const double moved = counted_[r] * (results.flow(k, r) * inverse[r] / mean - 1.0) -
                             out_.rows[static_cast<std::size_t>(r)].nominal;
        one.sum[r] += moved;
        one.squares[r] += moved * moved;
      }
    }
  }

  void sum_up(std::vector<Replicate>& replicates) {
    for (const Replicate& r : replicates) {
      out_.machines += r.reached;
      out_.judged += r.cv.size();
      out_.unsolved += r.unsolved;
    }
    std::erase_if(replicates, [](const Replicate& r) { return r.cv.empty(); });
    if (replicates.empty()) return;
    const auto over = [&](auto&& get) {
      std::vector<double> x;
      for (Replicate& r : replicates) x.push_back(get(r));
      return mean_of(x);
    };
    const auto size = [](const Replicate& r) { return static_cast<double>(r.cv.size()); };
    out_.within = over([&](Replicate& r) { return r.within / size(r); });
    out_.mean_cv = over([&](Replicate& r) {
      double sum = 0.0;
      for (const double v : r.cv) sum += v;
      return sum / size(r);
    });
    out_.rms_cv = over([&](Replicate& r) {
      double sum = 0.0;
      for (const double v : r.cv) sum += v * v;
      return std::sqrt(sum / size(r));
    });
    for (const double level : options_.levels) {
      out_.quantiles.push_back({level, over([&](Replicate& r) { return quantile_of(r.cv, level); }),
                                over([&](Replicate& r) { return quantile_of(r.worst, level); })});
    }
    for (std::size_t k = 0; k < out_.rows.size(); ++k) {
      RowScatter& row = out_.rows[k];
      const auto at = static_cast<Eigen::Index>(k);
      row.mean = over([&](Replicate& r) { return row.nominal + r.sum[at] / size(r); });
      row.spread = over([&](Replicate& r) {
        const double mean = r.sum[at] / size(r);
        return std::sqrt(std::max(0.0, r.squares[at] / size(r) - mean * mean));
      });
      if (!row.first_order) continue;
      const double apart = std::abs(row.spread.value - *row.first_order);
      row.parts_company = apart > 0.1 * std::max(row.spread.value, *row.first_order) && apart > 3.0 * row.spread.error;
    }
  }

  /// @return false when stopped
  bool find_shares(const Progress& progress) {
    bool going = true;
    const PointFunction f = [&](const Eigen::ArrayXXd& u) {
      Eigen::ArrayXXd y(u.rows(), 2);
      const ScenarioResults results = solve(u, progress, going);
      if (!going) return Eigen::ArrayXXd();
      y.col(0) = results.cv;
      y.col(1) = results.lowest.abs().max(results.highest.abs());
      for (std::size_t i = 0; i < results.done; ++i) {
        // Where nothing flows there is no evenness either.
        if (!results.usable(i) || !(results.mean_rate[static_cast<Eigen::Index>(i)] > 0.0)) ++unsolved_shares_;
      }
      return y;
    };
    const VarianceShares found =
        variance_shares(f, draws_.group(),
                        {.points = options_.share_points, .replicates = options_.replicates, .seed = ~options_.seed});
    // A machine without an answer has no figure to take part with: then there are no shares.
    out_.unsolved += unsolved_shares_;
    if (unsolved_shares_ > 0 || found.replicates == 0) return going;
    out_.share_replicates = found.replicates;
    for (std::size_t j = 0; j < out_.shares.size(); ++j) {
      out_.shares[j].cv = found.shares[0][j];
      out_.shares[j].worst = found.shares[1][j];
    }
    return going;
  }

  ToleranceOptions options_;
  const Toolbar* toolbar_;
  ScenarioSolver solver_;
  ToleranceDraws draws_;
  Eigen::ArrayXd weight_, counted_;
  ToleranceResult out_;
  std::size_t done_ = 0, total_ = 0, unsolved_shares_ = 0;
};

}  // namespace tolerance_detail

ToleranceResult tolerance_study(const Layout& layout, const std::vector<Tolerance>& tolerances,
                                const ToleranceOptions& options, const Progress& progress) {
  options.check();
  return tolerance_detail::Study(layout, tolerances, options).run(progress);
}

}  // namespace libflow
