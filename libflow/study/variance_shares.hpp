// SPDX-License-Identifier: MIT
/// @file
/// Which input makes how much of a result's variance: Sobol' indices of groups of independent inputs.
///
/// The first-order index of a group is the share of the variance that would go if its inputs were known; the total
/// index is the share that would stay if all others were known. Their difference is what it does together with others.
/// Inputs that depend on each other belong in one group.
/// Sources: I. M. Sobol', Math. Comput. Simul. 55 (2001) 271; estimators: first order, A. Saltelli and others, Comput.
/// Phys. Commun. 181 (2010) 259, table 2 (b); total, M. J. W. Jansen, Comput. Phys. Commun. 117 (1999) 35 (both from
/// memory; tested on a function with published indices).
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include <libflow/core/progress.hpp>
#include <libflow/core/range.hpp>
#include <libflow/study/scrambled_points.hpp>

namespace libflow {

/// A number with its sampling error.
struct Estimate {
  double value = 0;
  double error = std::numeric_limits<double>::infinity();  ///< standard error; infinite when only one replicate is done
};

/// Mean over replicates and its standard error. @param x  by replicate, not empty
[[nodiscard]] inline Estimate mean_of(const std::vector<double>& x) {
  const auto n = static_cast<double>(x.size());
  Estimate e{0.0};
  for (const double v : x) e.value += v / n;
  if (x.size() < 2) return e;
  double squares = 0.0;
  for (const double v : x) squares += (v - e.value) * (v - e.value);
  e.error = std::sqrt(squares / (n - 1.0) / n);
  return e;
}

/// The indices of one group for one result.
struct VarianceShare {
  Estimate first_order, total;
};

struct VarianceShareOptions {
  std::size_t points = 1024;   ///< of each replicate, a power of two, 16 to 2^24; solved (groups + 2) times
  std::size_t replicates = 8;  ///< 2 to 1000
  std::uint64_t seed = 1;

  /// @throws InputError naming field, value, allowed
  void check() const {
    require_in("variance shares, points", static_cast<double>(points), {16.0, 1.7e7}, "");
    if ((points & (points - 1)) != 0) {
      throw InputError("variance shares, points", fmt::format("{}", points), "a power of two, 16 to 16777216");
    }
    require_in("variance shares, replicates", static_cast<double>(replicates), {2.0, 1000.0}, "");
  }
};

struct VarianceShares {
  std::vector<std::vector<VarianceShare>> shares;  ///< by result, then by group
  std::vector<Estimate> variance;                  ///< by result
  std::size_t replicates = 0;                      ///< done
  bool complete = false;                           ///< false: stopped by `progress`; whole replicates only count
};

/// Results (columns) at points of the unit cube (rows). Empty when it was told to stop.
using PointFunction = std::function<Eigen::ArrayXXd(const Eigen::ArrayXXd& u)>;

/// @param group  by dimension of the cube: number of its group, 0 ... groups - 1, each with a dimension or more
/// @param progress  told after each matrix of points
/// @throws InputError
[[nodiscard]] inline VarianceShares variance_shares(const PointFunction& f, const std::vector<std::size_t>& group,
                                                    const VarianceShareOptions& options = {},
                                                    const Progress& progress = {}) {
  options.check();
  const std::size_t d = group.size(), groups = 1 + *std::max_element(group.begin(), group.end());
  const ScrambledPoints points(2 * d, options.seed);
  const std::size_t steps = options.replicates * (groups + 2);
  std::vector<std::vector<std::vector<double>>> first, total;  // by result, group, replicate
  std::vector<std::vector<double>> variance;
  VarianceShares out;
  std::size_t done = 0;
  const auto index = [](std::size_t i) { return static_cast<Eigen::Index>(i); };
  for (std::size_t r = 0; r < options.replicates; ++r) {
    const Eigen::ArrayXXd all = points.points(r, 0, options.points);
    const Eigen::ArrayXXd a = all.leftCols(index(d)), b = all.rightCols(index(d));
    const auto evaluate = [&](const Eigen::ArrayXXd& u) {
      Eigen::ArrayXXd y = f(u);
      if (y.size() != 0 && !go_on(progress, ++done, steps)) y.resize(0, 0);
      return y;
    };
    const Eigen::ArrayXXd fa = evaluate(a);
    if (fa.size() == 0) break;
    const Eigen::ArrayXXd fb = evaluate(b);
    if (fb.size() == 0) break;
    const std::size_t results = static_cast<std::size_t>(fa.cols());
    if (first.empty()) {
      first.assign(results, std::vector<std::vector<double>>(groups));
      total = first;
      variance.resize(results);
    }
    const Eigen::ArrayXd mean = 0.5 * (fa.colwise().mean() + fb.colwise().mean()).transpose();
    Eigen::ArrayXXd s1(index(groups), index(results)), st(index(groups), index(results));
    std::vector<double> v(results);
    for (std::size_t k = 0; k < results; ++k) {
      const Eigen::Index c = index(k);
      v[k] = 0.5 * ((fa.col(c) - mean[c]).square().mean() + (fb.col(c) - mean[c]).square().mean());
    }
    bool stopped = false;
    for (std::size_t g = 0; g < groups && !stopped; ++g) {
      Eigen::ArrayXXd mixed = a;
      for (std::size_t k = 0; k < d; ++k) {
        if (group[k] == g) mixed.col(index(k)) = b.col(index(k));
      }
      const Eigen::ArrayXXd fm = evaluate(mixed);
      stopped = fm.size() == 0;
      if (stopped) break;
      for (std::size_t k = 0; k < results; ++k) {
        const Eigen::Index c = index(k);
        const double safe = v[k] > 0.0 ? v[k] : 1.0;
        s1(index(g), c) = ((fb.col(c) - mean[c]) * (fm.col(c) - fa.col(c))).mean() / safe;
        st(index(g), c) = 0.5 * (fa.col(c) - fm.col(c)).square().mean() / safe;
      }
    }
    if (stopped) break;
    for (std::size_t k = 0; k < results; ++k) {
      variance[k].push_back(v[k]);
      for (std::size_t g = 0; g < groups; ++g) {
        first[k][g].push_back(s1(index(g), index(k)));
        total[k][g].push_back(st(index(g), index(k)));
      }
    }
    ++out.replicates;
  }
  out.complete = out.replicates == options.replicates;
  if (out.replicates == 0) return out;
  for (std::size_t k = 0; k < variance.size(); ++k) {
    out.variance.push_back(mean_of(variance[k]));
    out.shares.emplace_back();
    for (std::size_t g = 0; g < groups; ++g) out.shares[k].push_back({mean_of(first[k][g]), mean_of(total[k][g])});
  }
  return out;
}

}  // namespace libflow
