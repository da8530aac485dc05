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

#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <vector>

#include <Eigen/Core>

#include <libflow/core/progress.hpp>
#include <libflow/core/range.hpp>

namespace libflow {

/// A number with its sampling error.
struct Estimate {
  double value = 0;                                        ///< the number
  double error = std::numeric_limits<double>::infinity();  ///< standard error; infinite when only one replicate is done
};

/// Mean over replicates and its standard error. @param x  by replicate, not empty
[[nodiscard]] Estimate mean_of(const std::vector<double>& x);

/// The indices of one group for one result.
struct VarianceShare {
  Estimate first_order, total;  ///< what would go if the group were held; what would stay if all others were [-]
};

/// How many points.
struct VarianceShareOptions {
  std::size_t points = 1024;   ///< of each replicate, a power of two, 16 to 2^24; solved (groups + 2) times
  std::size_t replicates = 8;  ///< 2 to 1000
  std::uint64_t seed = 1;      ///< of the drawing; the same seed draws the same

  /// @throws InputError naming field, value, allowed
  void check() const {
    require_in("variance shares, points", static_cast<double>(points), {16.0, 1.7e7}, "");
    if ((points & (points - 1)) != 0) {
      throw InputError("variance shares, points", fmt::format("{}", points), "a power of two, 16 to 16777216");
    }
    require_in("variance shares, replicates", static_cast<double>(replicates), {2.0, 1000.0}, "");
  }
};

/// The indices and how well they are known.
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
[[nodiscard]] VarianceShares variance_shares(const PointFunction& f, const std::vector<std::size_t>& group,
                                             const VarianceShareOptions& options = {}, const Progress& progress = {});

}  // namespace libflow
