// SPDX-License-Identifier: MIT
#include <libflow/study/as_built.hpp>

#include <cmath>
#include <optional>
#include <variant>

#include <Eigen/Core>

#include <libflow/core/error.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/scenarios.hpp>
#include <libflow/study/scrambled_points.hpp>
#include <libflow/study/tolerance_draws.hpp>
#include <libflow/study/tolerance_first_order.hpp>

namespace libflow {

std::optional<AsBuilt> as_built(const Answer& answer) {
  const Layout& layout = answer.layout;
  if (layout.tolerances.empty() || !answer.solution.usable()) return std::nullopt;
  try {
    const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing);
    const ScenarioSolver solver = toolbar != nullptr ? ScenarioSolver(*toolbar, layout.job)
                                                     : ScenarioSolver(std::get<Plumbing>(layout.plumbing), layout.job);
    const ToleranceDraws draws(solver, layout.tolerances, toolbar);
    const FirstOrder linear = first_order(solver, draws, toolbar, answer.solution);
    const ScrambledPoints points(draws.group().size(), 1);
    const Eigen::ArrayXXd z = draws.differences(points.points(0, 0, AsBuilt::machines));
    // The slopes are about the layout itself; `deviation` holds the mean of the draws too.
    const Eigen::ArrayXXd rows = (z.matrix() * linear.slope.matrix().transpose()).array();
    AsBuilt out;
    double counted = 0.0;
    for (const RowResult& r : answer.evenness.rows) counted += r.shut ? 0.0 : 1.0;
    for (Eigen::Index i = 0; i < rows.rows(); ++i) {
      double worst = 0.0, squares = 0.0;
      for (Eigen::Index r = 0; r < rows.cols(); ++r) {
        const RowResult& row = answer.evenness.rows[static_cast<std::size_t>(r)];
        if (row.shut) continue;
        const double deviation = row.deviation + rows(i, r);
        worst = std::fmax(worst, std::abs(deviation));
        squares += deviation * deviation;
      }
      out.within += worst <= layout.job.tolerance ? 1.0 : 0.0;
      out.mean_cv += counted > 1.0 ? std::sqrt(squares / (counted - 1.0)) : 0.0;
    }
    out.within /= static_cast<double>(AsBuilt::machines);
    out.mean_cv /= static_cast<double>(AsBuilt::machines);
    return out;
  } catch (const Error&) {  // no derivatives here, or a tolerance that this layout does not take
    return std::nullopt;
  }
}

}  // namespace libflow
