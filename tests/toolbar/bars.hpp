// SPDX-License-Identifier: MIT
/// @file
/// A plain bar and a job, for tests that change one thing at a time.
#pragma once

#include <libflow/toolbar.hpp>
#include <tests/support/liquids.hpp>

namespace libflow::test {

using namespace units;

/// Rows 30 in apart, one manifold fed in its middle, 2 m of 10 mm hose and a 1 mm orifice for every row.
inline Toolbar plain_bar(int rows) {
  Toolbar t;
  t.rows = rows;
  t.spacing = 30.0 * inch;
  t.manifolds = {Manifold{}};
  t.hose.length = 2.0 * m;
  t.hose_bore = 10.0 * mm;
  t.orifice = OrificeByBore{.bore = 1.0 * mm};
  return t;
}

inline Job plain_job() {
  Job job;
  job.rate = 100.0 * L_per_ha;
  job.speed = 8.0 * kmh;
  return job;
}

inline CheckValveChoice plain_valve() { return {.crack = 4.0 * psi, .rated_flow = 0.5 * gpm, .rated_loss = 2.0 * psi}; }

/// Everything there is to know about a bar in a liquid.
struct Case {
  Plumbing plumbing;
  Solution solution;
  Evenness evenness;
};

inline Case judge(const Toolbar& toolbar, const Job& job, const LiquidState& liquid, const Causes& causes = {}) {
  Case c;
  c.plumbing = build_network(toolbar, job, causes);
  c.solution = solve(c.plumbing.network, liquid);
  c.evenness = evaluate(c.plumbing, job, c.solution, liquid);
  return c;
}

}  // namespace libflow::test
