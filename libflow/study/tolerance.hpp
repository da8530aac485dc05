// SPDX-License-Identifier: MIT
/// @file
/// How even will the machine be as built, and which tolerance matters?
///
/// Many machines are drawn within the tolerances (scrambled Sobol' points, fixed seed) and solved. Each of several
/// independent replicates gives every answer anew; their spread is the sampling error. Beside it stands the first-order
/// answer, from derivatives at the layout itself, which costs one solve: where the two part company, the rows answer by
/// more than a straight line (a valve near its crack pressure, a wide tolerance).
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/tolerance_first_order.hpp>
#include <libflow/study/variance_shares.hpp>

namespace libflow {

/// What is asked.
struct ToleranceOptions {
  std::size_t points = 4096;                    ///< machines of each replicate, a power of two, 16 to 2^24
  std::size_t replicates = 8;                   ///< 2 to 1000
  std::size_t share_points = 1024;              ///< of each replicate for the variance shares, a power of two; 0: none
  std::vector<double> levels{0.05, 0.5, 0.95};  ///< quantiles wanted, more than 0, less than 1
  std::uint64_t seed = 1;                       ///< of the drawing; the same seed draws the same
  int threads = 0;                              ///< 0: one a core. The results do not depend on it.

  /// @throws InputError naming field, value, allowed
  void check() const {
    VarianceShareOptions{.points = points, .replicates = replicates}.check();
    if (share_points != 0) VarianceShareOptions{.points = share_points, .replicates = replicates}.check();
    for (const double level : levels) require_in("tolerance study, level", level, {1e-6, 1.0 - 1e-6}, "");
    ScenarioOptions{.threads = threads}.check();
  }
};

/// A quantile of the machines.
struct ToleranceQuantile {
  double level = 0;  ///< this share of the machines is better
  Estimate cv;       ///< coefficient of variation [-]
  Estimate worst;    ///< largest deviation of any row from the mean, either way [-]
};

/// How one row scatters.
struct RowScatter {
  int row = 0;                                       ///< 1-based
  double nominal = 0;                                ///< deviation in the layout [-]
  Estimate mean, spread;                             ///< of its deviation [-]; spread: standard deviation
  std::optional<double> first_order = std::nullopt;  ///< spread from the derivatives [-]
  bool parts_company = false;  ///< the two differ by more than a tenth and by more than sampling error
};

/// What one tolerance does.
struct ToleranceShare {
  std::string name;                                  ///< of the tolerance
  VarianceShare cv, worst;                           ///< Sobol' indices for the CV and for the worst row
  std::optional<double> first_order = std::nullopt;  ///< its share of the rows' variances from the derivatives
};

/// How machines as built come out. SI.
struct ToleranceResult {
  std::string layout;                                       ///< its name
  double tolerance = 0;                                     ///< wanted: each row within this of the mean [-]
  double nominal_cv = 0, nominal_worst = 0;                 ///< of the layout itself [-]
  Estimate within;                                          ///< probability that every row is within the tolerance [-]
  Estimate mean_cv, rms_cv;                                 ///< mean and root mean square of the CV [-]
  std::optional<double> first_order_rms_cv = std::nullopt;  ///< root mean square of the CV from the derivatives [-]
  std::size_t at_crack = 0;    ///< one-way parts exactly at their crack pressure: the first-order answer is one-sided
  std::string no_first_order;  ///< why there is no first-order answer; empty where there is one
  std::vector<ToleranceQuantile> quantiles;  ///< by level
  std::vector<RowScatter> rows;              ///< from left to right
  std::vector<ToleranceShare> shares;        ///< by tolerance; indices are there when share_replicates > 0
  std::size_t machines = 0;                  ///< solved for the quantiles
  std::size_t judged = 0;                    ///< of these with an answer: what the figures are of
  std::size_t unsolved = 0;                  ///< of all drawn, without an answer: not counted in any figure
  std::size_t replicates = 0;                ///< whole ones; 0: stopped in the first, errors are not known
  std::size_t share_replicates = 0;          ///< whole ones of the variance shares
  bool complete = false;                     ///< false: stopped by `progress`
  std::uint64_t seed = 0;                    ///< of the drawing; the same seed draws the same
};

/// @param tolerances  what may differ from the layout; independent of each other
/// @param progress    told of the machines solved
/// @throws InputError for a layout or a tolerance that cannot be, IllPosedError when the layout itself has no answer
[[nodiscard]] ToleranceResult tolerance_study(const Layout& layout, const std::vector<Tolerance>& tolerances,
                                              const ToleranceOptions& options = {}, const Progress& progress = {});

}  // namespace libflow
