// SPDX-License-Identifier: MIT
#include <libflow/study/drawdown.hpp>

#include <memory>
#include <utility>
#include <variant>

#include <libflow/study/drawdown_fill.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

namespace drawdown_detail {

static void check(const DrawdownOptions& o) {
  require_in("drawdown, samples", static_cast<double>(o.samples), {2, 10000}, "");
  require_in("drawdown, least flow", o.least_flow, {0.0, 0.9}, "");
  require_in("drawdown, longest", si(o.longest), {1.0, 366.0 * 86400.0}, "s");
  require_in("drawdown, tolerance", o.tolerance, {1e-12, 1e-3}, "");
}

/// The plumbing at the beginning, and what moves while the tanks empty.
static std::unique_ptr<Plant> plant_for(const Layout& layout, const LiquidState& liquid,
                                        const DrawdownOptions& options) {
  const auto* given = std::get_if<Toolbar>(&layout.plumbing);
  if (given == nullptr) return std::make_unique<Plant>(std::get<Plumbing>(layout.plumbing), liquid);
  if (!given->drive) {
    throw InputError("drawdown", "the layout has no tank",
                     "a [drive] with its [[tank]], or a free form with a tank among its places");
  }
  if (layout.job.pressure) {
    throw InputError("job, pressure", "the supply is held at a pressure whatever the tanks do",
                     "a job without pressure, so that tanks and pump push the liquid");
  }
  Toolbar toolbar = *given;
  if (options.from_full) {
    for (DriveTank& t : toolbar.drive->tanks) t.level = t.tank.height();
  }
  if (toolbar.drive->setting) return std::make_unique<Plant>(build_network(toolbar, layout.job), liquid);
  if (options.hold_rate) return std::make_unique<RatePlant>(std::move(toolbar), layout.job, liquid);
  Layout at = layout;
  at.plumbing = std::move(toolbar);
  return std::make_unique<Plant>(main_job(std::move(at)).plumbing, liquid);
}

static void add_cautions(Drawdown& out) {
  if (out.first_empty) {
    out.cautions.push_back(
        {"air-at-pump", out.tanks[*out.first_empty].id,
         out.tanks.size() == 1
             ? "when the tank is empty the pump draws air and the rows get none: stop before that"
             : "this tank is empty first: from then on its outlet draws air into the pump unless its valve is shut. "
               "What follows is as if it were shut at that moment"});
  }
  if (out.spilled > 0.0) {
    out.cautions.push_back({"overflow", "tanks",
                            "liquid runs from one tank into another until it stands at the brim and spills: put the "
                            "tanks at one height, fill the lower one less, or shut it off",
                            out.spilled});
  }
  const double wanted = si(out.job.rate);
  if (out.complete && out.lowest_rate < 0.99 * wanted && out.end == DrawdownEnd::all_empty) {
    out.cautions.push_back({"rate-falls-short", "rows", "the mean rate is below the wanted one during part of the fill",
                            out.lowest_rate, wanted});
  }
  out.cautions.push_back({"weight", "bar",
                          "the weight is that of the liquid alone: add tanks, bar and pump, and ask the maker what "
                          "frame, hitch, wheels and tyres may carry"});
}

}  // namespace drawdown_detail

Drawdown drawdown(const Layout& layout, const DrawdownOptions& options, const Progress& progress) {
  using namespace drawdown_detail;
  libflow::check(layout.job);
  drawdown_detail::check(options);
  Drawdown out;
  out.name = layout.name;
  out.units = layout.units;
  out.job = layout.job;
  out.options = options;
  out.liquid = layout.job.liquid.at(layout.job.temperature);
  const std::unique_ptr<Plant> plant = plant_for(layout, out.liquid, options);
  if (plant->plumbing().tanks.empty()) {
    throw InputError("drawdown", "the layout has no tank",
                     "a supply place with a tank, e.g. tank = { shape = \"upright_round\", ... }");
  }
  Fill(*plant, out, progress).run();
  drawdown_detail::add_cautions(out);
  return out;
}

}  // namespace libflow
