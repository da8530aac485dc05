// SPDX-License-Identifier: MIT
#include <libflow/study/catch_plan.hpp>

#include <cmath>
#include <cstddef>
#include <limits>
#include <variant>

#include <fmt/core.h>

#include <libflow/fluid/catalogue.hpp>
#include <libflow/study/catch_statistics.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

namespace catch_detail {

Layout with_water(const Answer& product, const CatchSetup& setup, bool& same_pressure) {
  Layout layout = product.layout;
  layout.job.liquid = find_liquid("water");
  layout.job.temperature = setup.water_temperature;
  if (auto* bar = std::get_if<Toolbar>(&layout.plumbing)) {
    bar->drive.reset();
    layout.job.pressure = from_si<Pressure>(product.evenness.supply_pressure);
  } else {
    const auto& plumbing = std::get<Plumbing>(layout.plumbing);
    same_pressure = plumbing.network.place(plumbing.supply).kind != PlaceKind::fed;
  }
  return layout;
}

}  // namespace catch_detail

CatchPlan plan_catch(const Layout& layout, const CatchSetup& setup) {
  setup.check();
  CatchPlan plan;
  plan.setup = setup;
  plan.product = main_job(layout);
  if (!plan.product.solution.usable()) throw IllPosedError(plan.product.solution.message);
  if (!(plan.product.evenness.mean_rate > 0.0)) {
    throw InputError("catch test", "nothing flows out of any row at this setting", "a setting at which rows deliver");
  }
  plan.water = main_job(catch_detail::with_water(plan.product, setup, plan.water_at_same_pressure));
  if (!plan.water.solution.usable()) throw IllPosedError(plan.water.solution.message);
  int open = 0;
  const double time = si(setup.time);
  for (std::size_t i = 0; i < plan.product.evenness.rows.size(); ++i) {
    const RowResult& p = plan.product.evenness.rows[i];
    CatchPlanRow row{.row = p.row, .shut = p.shut};
    if (!p.shut) {
      ++open;
      row.product = p.flow * time;
      row.water = plan.water.evenness.rows[i].flow * time;
      row.strip_length = si(setup.strip) / p.width;
      row.strip_time = row.strip_length / p.speed;
      row.strip_volume = p.flow * row.strip_time;
    }
    plan.rows.push_back(row);
  }
  if (open >= 2) {
    plan.provable_row = provable_row_difference(setup.cup_error(), open, setup.repeats, setup.power);
    plan.provable_cv = provable_cv(setup.cup_error(), open, setup.repeats, setup.power);
  }
  // As it is shown, to a tenth of a percent: 5.04 % is said as 5.0 % and is no more than a tolerance of 5 %.
  const double tolerance = plan.product.evenness.tolerance;
  if (std::round(1000.0 * plan.provable_row) > std::round(1000.0 * tolerance)) {
    plan.cautions.push_back({"cups-prove-too-little", "catch test",
                             fmt::format("only a row that is off by {:.1f} % or more is proved, so one that is off by "
                                         "just the tolerance of {:.3g} % is not: more repeats, a longer time or a "
                                         "better measure are wanted",
                                         100.0 * plan.provable_row, 100.0 * tolerance),
                             plan.provable_row, tolerance, "NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.2.2"});
  }
  plan.cautions.push_back(
      {"handle-with-care", "catch test",
       "stay clear of moving parts and of liquid under pressure; wear what the product's label asks for",
       std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN(),
       "common practice; label and safety data sheet decide"});
  if (plan.product.liquid.viscosity > 3e-3) {
    plan.cautions.push_back({"catch-the-product-too", "catch test",
                             "the product is much thicker than water: rows that are even with water need not be even "
                             "with it, so catch the product too",
                             plan.product.liquid.viscosity, 3e-3, "common practice, no source"});
  }
  return plan;
}

}  // namespace libflow
