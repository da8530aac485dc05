// SPDX-License-Identifier: MIT
/// @file
/// What many scenarios give, and how they are to be solved.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include <Eigen/Core>

#include <libflow/core/range.hpp>
#include <libflow/solve/newton.hpp>

namespace libflow {

/// How one scenario ended.
enum class ScenarioStatus : std::uint8_t {
  not_reached,    ///< the study was stopped before it; its numbers are 0
  solved,         ///< residuals within the tolerances
  not_converged,  ///< no answer within the allowed steps; its numbers are not to be used
  no_answer       ///< its plumbing cannot have an answer (see ScenarioResults::failures)
};

/// How to solve many scenarios.
struct ScenarioOptions {
  int threads = 1;     ///< 1 to 1024; 0: one a core of this machine. The results do not depend on it.
  bool packed = true;  ///< side by side; false: each alone, slower, the same answers to about 1e-12
  /// Packs start from the answer of the layout itself; false: from nothing, slower.
  bool from_layout = true;
  SolveOptions solve{};  ///< tolerances of the certificate

  /// @throws InputError naming field, value, allowed
  void check() const {
    require_in("scenario options, threads", threads, {0, 1024}, "");
    solve.check();
  }
};

/// What every scenario gives. Columns are by scenario, tables scenario x row; SI.
struct ScenarioResults {
  /// Why a scenario has no answer.
  struct Failure {
    std::size_t scenario = 0;  ///< which
    std::string message;       ///< why, in words
  };

  Eigen::ArrayXXd flow;                ///< all outlets of a row together; 0 for a row that is shut [m3/s]
  std::vector<ScenarioStatus> status;  ///< by scenario
  Eigen::ArrayXd mean_rate;            ///< of the counted rows [m3 per m2]
  Eigen::ArrayXd cv;                   ///< coefficient of variation of the rates (n - 1) [-]
  Eigen::ArrayXd lowest, highest;      ///< deviation of the lowest and the highest counted row from the mean [-]
  Eigen::ArrayXd supply_pressure;      ///< total gauge pressure at the supply [Pa]
  Eigen::ArrayXd mass_residual;        ///< the certificate, as in Solution [-]
  Eigen::ArrayXd energy_residual;      ///< the certificate, as in Solution [-]

  std::size_t done = 0;           ///< scenarios that were reached
  std::size_t alone = 0;          ///< of these, solved one by one because the pack could not (or was not asked to)
  bool complete = false;          ///< false: stopped by `progress`
  std::vector<Failure> failures;  ///< of the scenarios that are not solved, in their order

  /// True where a scenario's numbers may be used.
  [[nodiscard]] bool usable(std::size_t scenario) const { return status[scenario] == ScenarioStatus::solved; }
};

}  // namespace libflow
