// SPDX-License-Identifier: MIT
#include <libflow/study/catch_data.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <Eigen/Core>
#include <fmt/core.h>

#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_readings.hpp>

namespace libflow {

namespace catch_detail {

/// Huber's location of some numbers: least squares near it, least absolute deviations beyond 1.5 standard deviations.
static double robust_mean(const std::vector<double>& x, double sigma) {
  std::vector<double> sorted = x;
  std::sort(sorted.begin(), sorted.end());
  double centre = sorted[sorted.size() / 2];
  if (sorted.size() % 2 == 0) centre = 0.5 * (centre + sorted[sorted.size() / 2 - 1]);
  for (int turn = 0; turn < 30; ++turn) {
    double sum = 0.0, weights = 0.0;
    for (const double v : x) {
      const double w = 1.0 / std::max(1.0, std::abs(v - centre) / (1.5 * sigma));
      sum += w * v;
      weights += w;
    }
    const double next = sum / weights;
    if (std::abs(next - centre) < 1e-10) return next;
    centre = next;
  }
  return centre;
}

}  // namespace catch_detail

CatchData catch_data(const CatchModel& model, const std::vector<CatchReadings>& catches) {
  if (catches.size() != model.conditions().size()) {
    throw InputError("diagnosis", fmt::format("{} catches for {} settings", catches.size(), model.conditions().size()),
                     "one for each setting");
  }
  CatchData d;
  const auto n = static_cast<std::size_t>(model.cells());
  std::vector<std::vector<double>> logs(n);
  const std::vector<int>& rows = model.rows();
  double given = 0.0;
  for (std::size_t s = 0; s < catches.size(); ++s) {
    require_in("catch test, time", si(catches[s].time), {1.0, 3600.0}, "s");
    require_in("catch test, reading error", catches[s].reading_error, {1e-6, 0.5}, "");
    given += catches[s].reading_error / static_cast<double>(catches.size());
    double mean = 0.0;
    for (const CatchReading& r : catches[s].readings) {
      const std::string where = r.where.empty() ? fmt::format("row {}", r.row) : r.where;
      if (std::find(rows.begin(), rows.end(), r.row) == rows.end()) {
        throw InputError(where, fmt::format("there is no open row {}", r.row), fmt::format("1 to {}", rows.back()));
      }
      require_in(where + ", volume", r.volume, {0.0, 1.0}, "m3");
      mean += r.volume / static_cast<double>(catches[s].readings.size());
    }
    if (!(mean > 0.0)) throw InputError("catch test", "every cup is empty", "at least one reading above zero");
    for (const CatchReading& r : catches[s].readings) {
      const auto i = static_cast<std::size_t>(std::find(rows.begin(), rows.end(), r.row) - rows.begin());
      logs[static_cast<std::size_t>(model.cell(s, i))].push_back(
          std::log(std::max(r.volume, catch_detail::least_share * mean) / si(catches[s].time)));
    }
    int read = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
      read += logs[static_cast<std::size_t>(model.cell(s, i))].empty() ? 0 : 1;
    if (read < 2) throw InputError("catch test", fmt::format("rows that were read: {}", read), "two rows or more");
  }
  constexpr double given_counts = 8.0;
  double dof = 0.0;
  for (const auto& l : logs) dof += l.size() > 1 ? static_cast<double>(l.size()) - 1.0 : 0.0;
  d.error = given;
  d.error_from_repeats = dof >= 1.0;
  d.error_dof = dof + given_counts;
  d.log_flow = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(n));
  for (int turn = 0; turn < 3; ++turn) {
    double squares = 0.0;
    for (std::size_t k = 0; k < n; ++k) {
      if (logs[k].empty()) continue;
      const double mean = catch_detail::robust_mean(logs[k], d.error);
      d.log_flow[static_cast<Eigen::Index>(k)] = mean;
      for (const double x : logs[k]) squares += std::pow(std::min(std::abs(x - mean), 2.5 * d.error), 2);
    }
    if (turn < 2) d.error = std::sqrt((given_counts * given * given + squares) / d.error_dof);
  }
  for (const auto& l : logs) d.repeats.push_back(static_cast<int>(l.size()));
  return d;
}

}  // namespace libflow
