// SPDX-License-Identifier: MIT
#include <libflow/study/variance_shares.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include <libflow/core/progress.hpp>
#include <libflow/study/scrambled_points.hpp>

namespace libflow {

Estimate mean_of(const std::vector<double>& x) {
  const auto n = static_cast<double>(x.size());
  Estimate e{0.0};
  for (const double v : x) e.value += v / n;
  if (x.size() < 2) return e;
  double squares = 0.0;
  for (const double v : x) squares += (v - e.value) * (v - e.value);
  e.error = std::sqrt(squares / (n - 1.0) / n);
  return e;
}

VarianceShares variance_shares(const PointFunction& f, const std::vector<std::size_t>& group,
                               const VarianceShareOptions& options, const Progress& progress) {
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
    for (std::size_t g = 0; g < groups; ++g) {
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
