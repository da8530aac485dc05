// SPDX-License-Identifier: MIT
// The layout of equal_hoses.toml built in code, and the same bar with the shortest hoses: which is evener?
#include <libflow/libflow.hpp>

using namespace libflow;
using namespace libflow::units;

int main() {
  Toolbar toolbar;
  toolbar.rows = 16;
  toolbar.spacing = 30.0 * inch;
  toolbar.manifolds = {Manifold{.bore = 1.0 * inch}};
  toolbar.hose = {.kind = HoseSchedule::Kind::same, .length = 22.0 * ft};
  toolbar.hose_bore = 0.25 * inch;
  toolbar.hose_rating = 100.0 * psi;
  toolbar.check_valve = CheckValveChoice{.crack = 4.0 * psi, .rated_flow = 0.5 * gpm, .rated_loss = 2.0 * psi};
  toolbar.orifice = OrificeByBore{.bore = 0.046 * inch};

  Layout equal;
  equal.name = "all hoses 22 ft";
  equal.job.liquid = find_liquid("10-34-0");
  equal.job.temperature = fahrenheit(40);
  equal.job.rate = 5.0 * gal_per_acre;
  equal.job.speed = 5.0 * mph;
  equal.plumbing = toolbar;

  Layout shortest = equal;
  shortest.name = "shortest hoses";
  toolbar.hose = {.kind = HoseSchedule::Kind::shortest, .extra = 3.0 * ft};
  shortest.plumbing = toolbar;

  const Comparison c = compare({equal, shortest});
  for (const Answer& a : c.answers) {
    fmt::print("{:16} CV {:5.2f} %, {:.1f} psi at the supply, {:.0f} ft of hose\n", a.layout.name,
               100.0 * a.evenness.cv, a.evenness.supply_pressure / si(psi), a.plumbing.hose_total / si(ft));
  }
  fmt::print("evenest: {}; what decides it: {}\n", c.answers[c.evenest].layout.name, c.deciding_cause);
}
