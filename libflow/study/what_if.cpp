// SPDX-License-Identifier: MIT
#include <libflow/study/what_if.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/fault_bench.hpp>
#include <libflow/study/pressure_limit.hpp>

namespace libflow {

namespace what_if_detail {

static FaultEffect effect_of(const FaultBench& bench, const FaultBench::Run& run, const FaultCase& fault,
                             const Layout& layout, const WhatIfOptions& o) {
  const Evenness& before = bench.base().evenness;
  FaultEffect e;
  e.limit = run.message;
  e.setting = run.setting;
  e.evenness = run.evenness;
  e.gauge = run.solution.places[run.plumbing.supply].determined ? run.evenness.supply_pressure
                                                                : std::numeric_limits<double>::quiet_NaN();
  e.gauge_change = e.gauge - before.supply_pressure;

  std::vector<double> running;
  double mean = 0.0;
  const auto runs = [&](std::size_t i) {
    const RowResult& r = run.evenness.rows[i];
    return !r.shut && r.rate > 1e-6 * before.mean_rate;
  };
  for (std::size_t i = 0; i < before.rows.size(); ++i) {
    const RowResult &was = before.rows[i], &is = run.evenness.rows[i];
    if (was.shut) continue;
    e.total += is.flow;
    if (runs(i)) {
      running.push_back(is.rate);
      mean += is.rate;
    } else if (!is.shut) {
      e.dry.push_back(is.row);
    }
  }
  e.total_change = e.total / bench.base_total() - 1.0;
  mean /= static_cast<double>(std::max<std::size_t>(1, running.size()));
  e.cv = running.empty() ? std::numeric_limits<double>::quiet_NaN() : coefficient_of_variation(running);

  const auto at_fault = [&](int row) {
    return std::find(fault.rows.begin(), fault.rows.end(), row) != fault.rows.end();
  };
  const auto keep_larger = [](double& kept, double change) {
    if (!(std::abs(kept) >= std::abs(change))) kept = change;
  };
  for (std::size_t i = 0; i < before.rows.size(); ++i) {
    const RowResult &was = before.rows[i], &is = run.evenness.rows[i];
    if (was.shut) continue;
    const double change = was.rate > 0.0 ? is.rate / was.rate - 1.0 : 0.0;
    if (at_fault(was.row)) {
      if (fault.rows.size() == 1) e.row_change = change;
    } else if (runs(i)) {
      if (at_fault(was.row - 1) || at_fault(was.row + 1)) keep_larger(e.neighbour_change, change);
      keep_larger(e.largest_change, change);
    }
    if (!runs(i)) continue;
    const double deviation = is.rate / mean - 1.0;
    if (std::abs(deviation) > before.tolerance) e.outside.push_back(is.row);
    if (e.worst_row == 0 || std::abs(deviation) > std::abs(e.worst_deviation)) {
      e.worst_row = is.row;
      e.worst_deviation = deviation;
    }
  }

  const bool gauge = std::abs(e.gauge_change) >= si(o.gauge_step);
  const bool meter = std::abs(e.total_change) >= o.meter_step;
  e.notice = gauge && meter ? Notice::both : gauge ? Notice::gauge : meter ? Notice::meter : Notice::neither;

  for (const Caution& c : run.evenness.cautions) {
    const auto same = [&](const Caution& b) { return b.code == c.code && b.subject == c.subject; };
    // That nothing passes a plugged row or a shut section is said already.
    if (c.code == "check-valve-shut" || c.code == "unfed-outlet" ||
        std::any_of(before.cautions.begin(), before.cautions.end(), same))
      continue;
    e.cautions.push_back(c);
  }
  // A limit that is assumed counts as one that is stated.
  const auto above = [&](double pressure) {
    auto c = assumed_limit_caution(layout, pressure);
    return c && c->code == "above-assumed-limit" ? c : std::nullopt;
  };
  if (auto c = above(e.gauge); c && !above(before.supply_pressure)) e.cautions.push_back(std::move(*c));
  return e;
}

}  // namespace what_if_detail

WhatIf what_if(const Layout& layout, const WhatIfOptions& options, const Progress& progress) {
  const FaultBench bench(layout, options);
  if (!(bench.base_total() > 0.0)) {
    throw InputError("what if", "nothing flows in this layout even without a fault", "a layout that delivers");
  }
  WhatIf out;
  out.layout = layout;
  out.options = options;
  out.liquid = bench.liquid();
  out.plumbing = bench.base().plumbing;
  out.base = bench.base().evenness;
  out.base_total = bench.base_total();
  out.base_setting = bench.base().setting;
  out.base_limit = bench.base().message;
  out.moved = bench.moved();
  out.kept = bench.kept();
  out.has_setting = bench.has_setting();
  const std::vector<FaultCase> cases = fault_cases(layout, bench.base().plumbing, options);
  for (const FaultCase& fault : cases) {
    if (!go_on(progress, out.answers.size(), cases.size())) return out;
    FaultAnswer answer{.fault = fault};
    const auto tried = [&](auto&& run) {
      FaultEffect none;
      if (!fault.applies()) {
        none.why_not = fault.why_not;
        return none;
      }
      try {
        return what_if_detail::effect_of(bench, run(), fault, layout, options);
      } catch (const Error& error) {
        none.why_not = error.what();
      }
      return none;
    };
    answer.setting_kept = tried([&] { return bench.keep_setting(fault); });
    if (bench.moved().empty()) {
      answer.total_held.why_not = "nothing can be moved to hold the total";
    } else {
      answer.total_held = tried([&] { return bench.hold_total(fault); });
    }
    out.answers.push_back(std::move(answer));
  }
  out.complete = true;
  (void)go_on(progress, cases.size(), cases.size());
  return out;
}

}  // namespace libflow
