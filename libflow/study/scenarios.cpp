// SPDX-License-Identifier: MIT
#include <libflow/study/scenarios.hpp>

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <limits>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/network/structure.hpp>
#include <libflow/study/in_pieces.hpp>
#include <libflow/study/scenario_worker.hpp>
#include <libflow/toolbar/build.hpp>
#include <libflow/toolbar/ground.hpp>

namespace libflow {

using scenarios_detail::Base;
using scenarios_detail::Binding;

ScenarioSolver::ScenarioSolver(const Toolbar& toolbar, const Job& job)
    : ScenarioSolver(Base{.plumbing = build_network(toolbar, job),
                          .job = job,
                          .liquid = job.liquid.at(job.temperature),
                          .elevations = scenarios_detail::elevations_of(toolbar, job),
                          .ends_follow = si(toolbar.outlet_bore) == 0.0}) {}

ScenarioSolver::ScenarioSolver(Plumbing plumbing, const Job& job)
    : ScenarioSolver(Base{
          .plumbing = std::move(plumbing), .job = job, .liquid = job.liquid.at(job.temperature), .elevations = {}}) {}

ScenarioSolver::ScenarioSolver(Base&& base) {
  check(base.job);
  static_cast<void>(check_structure(base.plumbing.network));
  shared_ = std::make_shared<const scenarios_detail::Shared>(std::move(base));
}

const Base& ScenarioSolver::base() const { return shared_->base; }
const Plumbing& ScenarioSolver::plumbing() const { return base().plumbing; }
const Job& ScenarioSolver::job() const { return base().job; }
const LiquidState& ScenarioSolver::liquid() const { return base().liquid; }

Scenario ScenarioSolver::scenario(const Scenarios& s, std::size_t i) const {
  if (i >= s.count) {
    throw InputError("scenario", fmt::format("{} of {}", i, s.count), fmt::format("less than {}", s.count));
  }
  return scenarios_detail::scenario_of(base(), s, checked(s), i);
}

ScenarioResults ScenarioSolver::solve(const Scenarios& s, const ScenarioOptions& options,
                                      const Progress& progress) const {
  using Worker = scenarios_detail::ScenarioWorker;
  options.check();
  const std::vector<scenarios_detail::Binding> bound = checked(s);
  ScenarioResults out = empty_results(s.count);
  // A scenario is always in the same lane of the same pack, and a piece of work is a number of packs: who does it
  // makes no difference.
  constexpr std::size_t piece = 64 * static_cast<std::size_t>(Pack::width);
  // A tank's pressure goes with the liquid's density, which packs do not know.
  const bool tanks_change = scenarios_detail::moves_liquid(s) && !shared_->base.plumbing.tanks.empty();
  // Nor do they turn pumps with the ground speed.
  const bool pumps_turn = s.speed.size() != 0 && has_ground_driven_pump(shared_->base.plumbing.network);
  const bool packed = options.packed && shared_->plan.possible() && !tanks_change && !pumps_turn;
  std::mutex gather;
  in_pieces(
      s.count, piece, options.threads, progress, [&] { return Worker(*shared_, s, bound, options, packed); },
      [&](Worker& worker, std::size_t first, std::size_t last) {
        scenarios_detail::Alone alone = worker.solve(first, last, out);
        const std::lock_guard lock(gather);
        out.done += last - first;
        out.alone += alone.count;
        std::move(alone.failures.begin(), alone.failures.end(), std::back_inserter(out.failures));
      });
  std::sort(out.failures.begin(), out.failures.end(),
            [](const auto& a, const auto& b) { return a.scenario < b.scenario; });
  out.complete = out.done == s.count;
  return out;
}

std::vector<Binding> ScenarioSolver::checked(const Scenarios& s) const {
  using scenarios_detail::check_column;
  check_column("speed", s.speed, s.count, layout_limits::speed, "m/s");
  check_column("rate", s.rate, s.count, layout_limits::rate, "m3/m2");
  check_column("pressure", s.pressure, s.count, layout_limits::pressure, "Pa");
  check_column("temperature", s.temperature, s.count, liquid_temperature, "K");
  check_column("density", s.density, s.count, liquid_density, "kg/m3");
  check_column("viscosity", s.viscosity, s.count, liquid_viscosity, "Pa s");
  check_column("side slope", s.side_slope, s.count, layout_limits::slope, "rad");
  check_column("fore-aft slope", s.fore_aft_slope, s.count, layout_limits::slope, "rad");
  if (s.pressure.size() != 0 && base().supply().kind != PlaceKind::supply) {
    throw InputError("scenarios, pressure", "the supply of this layout is not held at a pressure",
                     "a job with a pressure, or scenarios of rate and speed");
  }
  if ((s.side_slope.size() != 0 || s.fore_aft_slope.size() != 0) && !base().elevations.known()) {
    throw InputError("scenarios, slope", "this plumbing was given place by place", "a toolbar");
  }
  if (base().fed() && (s.rate.size() != 0 || s.speed.size() != 0)) {
    // The scenario that asks for least tells whether each asks for more than other places give.
    Job job = base().job, least = job;
    double lowest = std::numeric_limits<double>::infinity();
    std::size_t which = 0;
    for (std::size_t i = 0; i < s.count; ++i) {
      job.rate = from_si<AreaRate>(scenarios_detail::value_or(s.rate, i, si(base().job.rate)));
      job.speed = from_si<Speed>(scenarios_detail::value_or(s.speed, i, si(base().job.speed)));
      const double wanted = si(job.rate) * si(job.speed);
      if (wanted < lowest) {
        lowest = wanted;
        least = job;
        which = i;
      }
    }
    Plumbing trial = base().plumbing;
    try {
      feed_wanted_flow(trial, trial.supply, least);
    } catch (const InputError& error) {
      throw error.inside(fmt::format("scenario {}", which));
    }
  }
  auto bound = scenarios_detail::bind(s, base().plumbing, base().ends_follow);
  scenarios_detail::check_parts(base().plumbing.network, bound, s.count);
  return bound;
}

ScenarioResults ScenarioSolver::empty_results(std::size_t count) const {
  ScenarioResults out;
  const auto n = static_cast<Eigen::Index>(count);
  out.flow = Eigen::ArrayXXd::Zero(n, static_cast<Eigen::Index>(base().plumbing.rows.size()));
  out.status.assign(count, ScenarioStatus::not_reached);
  for (Eigen::ArrayXd* column : {&out.mean_rate, &out.cv, &out.lowest, &out.highest, &out.supply_pressure,
                                 &out.mass_residual, &out.energy_residual}) {
    *column = Eigen::ArrayXd::Zero(n);
  }
  return out;
}

ScenarioResults solve_many(const Toolbar& toolbar, const Job& job, const Scenarios& scenarios,
                           const ScenarioOptions& options, const Progress& progress) {
  return ScenarioSolver(toolbar, job).solve(scenarios, options, progress);
}

}  // namespace libflow
