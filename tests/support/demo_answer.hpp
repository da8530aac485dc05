// SPDX-License-Identifier: MIT
/// @file
/// A small answer with known numbers, for tests of what is written about answers.
#pragma once

#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow::test {

/// Four rows with the given deviations, made by hand: nothing is solved.
inline Answer demo_answer(const std::string& name, const std::vector<double>& deviations, double cv) {
  Answer a;
  a.layout.name = name;
  a.layout.job.rate = from_si<AreaRate>(5 * si(units::gal_per_acre));
  a.layout.job.speed = from_si<Speed>(5 * si(units::mph));
  a.liquid = a.layout.job.liquid.at(a.layout.job.temperature);
  a.plumbing.hose_total = 100 * 0.3048;
  a.solution.status = Status::converged;
  a.solution.message = "converged";
  a.solution.iterations = 3;
  a.solution.mass_residual = 1e-15;
  a.solution.energy_residual = 2e-14;
  Evenness& e = a.evenness;
  e.mean_rate = e.target_rate = si(a.layout.job.rate);
  e.total_flow = 4 * 0.126 * si(units::gpm);
  e.supply_pressure = 30 * si(units::psi);
  e.cv = cv;
  e.christiansen = 0.95;
  e.low_quarter = 0.93;
  Cause hoses{.name = "hose lengths", .deviation = deviations, .share = 0.9};
  Cause bar{.name = "manifold", .deviation = std::vector<double>(deviations.size(), 0.001), .share = 0.1};
  for (std::size_t i = 0; i < deviations.size(); ++i) {
    RowResult r;
    r.row = static_cast<int>(i) + 1;
    r.width = 0.762;
    r.speed = si(a.layout.job.speed);
    r.deviation = deviations[i];
    r.rate = e.mean_rate * (1.0 + deviations[i]);
    r.flow = r.rate * r.width * r.speed;
    r.hose_length = 3.048;
    r.orifice_drop = 12 * si(units::psi);
    r.check_valve_drop = 4 * si(units::psi);
    r.line_drop = 14 * si(units::psi);
    r.orifice_share = 0.4;
    r.hose_reynolds = 50;
    r.regime = Regime::laminar;
    r.valve = ValveState::open;
    if (std::abs(r.deviation) > e.tolerance) e.outside.push_back(r.row);
    e.rows.push_back(r);
  }
  e.even = e.outside.empty();
  e.causes = {hoses, bar};
  e.reference = "every row with the mean hose length";
  e.cautions.push_back({"above-working-pressure", "hose 1", "pressure is above the hose's working pressure", 9e5, 7e5,
                        "rating given in the layout"});
  e.cautions.push_back({"demo", "hose 2", "a caution without a number", std::numeric_limits<double>::infinity(),
                        std::numeric_limits<double>::quiet_NaN(), ""});
  return a;
}

/// Two such answers: the second one is uneven.
inline Comparison demo_comparison() {
  Comparison c;
  c.answers.push_back(demo_answer("Long hoses", {0.01, -0.01, 0.0, 0.0}, 0.008));
  c.answers.push_back(demo_answer("Short, \"cheap\" hoses", {-0.12, 0.04, 0.05, 0.03}, 0.08));
  c.evenest = 0;
  c.least_even = 1;
  c.deciding_cause = "hose lengths";
  return c;
}

}  // namespace libflow::test
