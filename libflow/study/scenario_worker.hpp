// SPDX-License-Identifier: MIT
/// @file
/// What one thread does with its scenarios: packs first, then alone those that the pack left.
#pragma once

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include <libflow/solve/system.hpp>
#include <libflow/study/scenario_packs.hpp>
#include <libflow/study/scenario_results.hpp>

namespace libflow::scenarios_detail {

/// A layout and its plan for packs, shared by all threads.
struct Shared {
  explicit Shared(Base&& b) : base(std::move(b)), plan(base) {}
  Base base;
  PackPlan plan;
};

/// Scenarios of one piece of work that were solved alone.
struct Alone {
  std::size_t count = 0;
  std::vector<ScenarioResults::Failure> failures;
};

class ScenarioWorker {
 public:
  /// All must outlive this object.
  ScenarioWorker(const Shared& shared, const Scenarios& s, const std::vector<Binding>& bound,
                 const ScenarioOptions& options, bool packed)
      : shared_(&shared), s_(&s), bound_(&bound), options_(&options) {
    if (packed) {
      packs_.emplace(shared.plan, s, bound);
      if (!options.from_layout) packs_->newton.start_cold();
    }
  }

  /// Scenarios [first, last) into `out`.
  Alone solve(std::size_t first, std::size_t last, ScenarioResults& out) {
    Alone alone;
    if (!packs_) {
      for (std::size_t i = first; i < last; ++i) solve_alone(i, out, alone);
      return alone;
    }
    constexpr auto width = static_cast<std::size_t>(Lanes::width);
    for (std::size_t i = first; i < last; i += width) {
      packs_->solve(i, options_->solve);
      const std::size_t lanes = std::min(width, last - i);
      store(i, lanes, out);
      for (std::size_t lane = 0; lane < lanes; ++lane) {
        if (packs_->answer.solved[static_cast<int>(lane)]) {
          out.status[i + lane] = ScenarioStatus::solved;
        } else {
          solve_alone(i + lane, out, alone);
        }
      }
    }
    return alone;
  }

 private:
  static void put(const Lanes& x, std::size_t lanes, double* to) {
    if (lanes == static_cast<std::size_t>(Lanes::width)) {
      x.store(to);
      return;
    }
    for (std::size_t lane = 0; lane < lanes; ++lane) to[lane] = x[static_cast<int>(lane)];
  }

  void store(std::size_t i, std::size_t lanes, ScenarioResults& out) const {
    const PackAnswer& a = packs_->answer;
    for (std::size_t r = 0; r < a.flow.size(); ++r) {
      put(a.flow[r], lanes, out.flow.col(static_cast<Eigen::Index>(r)).data() + i);
    }
    put(a.mean_rate, lanes, out.mean_rate.data() + i);
    put(a.cv, lanes, out.cv.data() + i);
    put(a.lowest, lanes, out.lowest.data() + i);
    put(a.highest, lanes, out.highest.data() + i);
    put(a.supply_pressure, lanes, out.supply_pressure.data() + i);
    put(packs_->newton.mass_residual, lanes, out.mass_residual.data() + i);
    put(packs_->newton.energy_residual, lanes, out.energy_residual.data() + i);
  }

  void solve_alone(std::size_t i, ScenarioResults& out, Alone& alone) const {
    const auto k = static_cast<Eigen::Index>(i);
    const Scenario one = scenario_of(shared_->base, *s_, *bound_, i);
    ++alone.count;
    Evenness e;
    Solution solution;
    try {
      solution = shared_->plan.possible() ? libflow::solve(one.plumbing.network, one.liquid, options_->solve)
                                          : solve_plumbing(one.plumbing, one.liquid);
      e = evaluate(one.plumbing, one.job, solution, one.liquid);
    } catch (const IllPosedError& error) {
      out.status[i] = ScenarioStatus::no_answer;
      alone.failures.push_back({i, error.what()});
      e.rows.resize(one.plumbing.rows.size());
      solution.places.resize(one.plumbing.network.place_count());
    }
    if (solution.status != Status::not_solved) {
      out.status[i] = solution.usable() ? ScenarioStatus::solved : ScenarioStatus::not_converged;
      if (!solution.usable()) alone.failures.push_back({i, solution.message});
    }
    out.mass_residual[k] = solution.mass_residual;
    out.energy_residual[k] = solution.energy_residual;
    out.supply_pressure[k] = solution.places[one.plumbing.supply].total_pressure;
    out.mean_rate[k] = e.mean_rate;
    out.cv[k] = e.cv;
    out.lowest[k] = out.highest[k] = 0.0;
    for (std::size_t r = 0; r < e.rows.size(); ++r) {
      out.flow(k, static_cast<Eigen::Index>(r)) = e.rows[r].flow;
      if (e.rows[r].shut) continue;
      out.lowest[k] = std::min(out.lowest[k], e.rows[r].deviation);
      out.highest[k] = std::max(out.highest[k], e.rows[r].deviation);
    }
  }

  const Shared* shared_;
  const Scenarios* s_;
  const std::vector<Binding>* bound_;
  const ScenarioOptions* options_;
  std::optional<PackWorker> packs_;
};

}  // namespace libflow::scenarios_detail
