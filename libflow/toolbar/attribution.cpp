// SPDX-License-Identifier: MIT
#include <libflow/toolbar/attribution.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar/build.hpp>
#include <libflow/toolbar/evaluate.hpp>
#include <libflow/toolbar/junctions.hpp>

namespace libflow {

namespace attribution_detail {

/// One cause that this toolbar has.
struct Switch {
  const char* name;
  bool Causes::*on;  ///< nullptr: ground speed and row width, which act on the rate and not on the plumbing
};

static std::vector<Switch> switches(const Toolbar& t, const Job& job) {
  std::vector<Switch> found;
  const auto any = [&](auto&& test) { return std::any_of(t.row_changes.begin(), t.row_changes.end(), test); };
  const bool lengths =
      t.hose.kind == HoseSchedule::Kind::shortest ||
      std::adjacent_find(t.hose.lengths.begin(), t.hose.lengths.end(), std::not_equal_to<>()) != t.hose.lengths.end();
  if (lengths || any([](const RowChange& c) { return c.hose_length || c.hose_bore; })) {
    found.push_back({"hose lengths", &Causes::hoses});
  }
  found.push_back({"manifold", &Causes::manifold});
  const bool tilted = si(t.side_slope) != 0.0 || si(t.fore_aft_slope) != 0.0;
  if (tilted || any([](const RowChange& c) { return c.height.has_value(); })) {
    found.push_back({"slope and height", &Causes::slope});
  }
  if (any([](const RowChange& c) { return c.orifice.has_value(); })) found.push_back({"orifices", &Causes::orifices});
  if (any([](const RowChange& c) { return c.crack.has_value(); })) {
    found.push_back({"check valves", &Causes::check_valves});
  }
  if (job.turn_radius || any([](const RowChange& c) { return c.width.has_value(); })) {
    found.push_back({"ground speed and row width", nullptr});
  }
  return found;
}

/// Deviations of the rows with the causes in `mask` as they are and the others at the even reference.
static std::vector<double> deviations(const Toolbar& t, const Job& job, const LiquidState& liquid,
                                      const std::vector<Switch>& causes, unsigned mask) {
  Causes on;
  Job as = job;
  Toolbar bar = t;
  bool own_ground = true;
  for (std::size_t k = 0; k < causes.size(); ++k) {
    const bool active = (mask >> k & 1U) != 0;
    if (causes[k].on != nullptr) {
      on.*causes[k].on = active;
    } else {
      own_ground = active;
    }
  }
  Plumbing plumbing = build_network(bar, as, on);
  if (!own_ground) {
    // The same total through the plumbing, shared over equal strips at one speed.
    as.turn_radius.reset();
    for (RowPlumbing& row : plumbing.rows) row.width = si(t.spacing);
  }
  const Solution solution = solve_plumbing(plumbing, liquid);
  if (!solution.usable()) throw Error("attribution: " + solution.message);
  std::vector<double> d;
  for (const RowResult& r : evaluate(plumbing, as, solution, liquid).rows) d.push_back(r.deviation);
  return d;
}

}  // namespace attribution_detail

void attribute(const Toolbar& toolbar, const Job& job, const LiquidState& liquid, Evenness& evenness) {
  using namespace attribution_detail;
  const std::vector<Switch> causes = switches(toolbar, job);
  const std::size_t n = causes.size(), combinations = std::size_t{1} << n;
  std::vector<std::vector<double>> value(combinations);
  for (unsigned mask = 0; mask < combinations; ++mask) value[mask] = deviations(toolbar, job, liquid, causes, mask);

  // weight of a combination of s other causes: s! (n-1-s)! / n!
  std::vector<double> weight(n);
  for (std::size_t s = 0; s < n; ++s) {
    weight[s] = std::exp(std::lgamma(double(s) + 1.0) + std::lgamma(double(n - s)) - std::lgamma(double(n) + 1.0));
  }
  const std::vector<double>& whole = value.back();
  double variance = 0.0;
  for (const double d : whole) variance += d * d;
  // Below a billionth the rows differ by rounding only: no cause has a share of that.
  if (variance < 1e-18 * static_cast<double>(whole.size())) variance = 0.0;
  evenness.causes.clear();
  for (std::size_t k = 0; k < n; ++k) {
    Cause cause{.name = causes[k].name, .deviation = std::vector<double>(whole.size(), 0.0)};
    for (unsigned mask = 0; mask < combinations; ++mask) {
      if ((mask >> k & 1U) != 0) continue;
      const double w = weight[static_cast<std::size_t>(__builtin_popcount(mask))];
      for (std::size_t i = 0; i < whole.size(); ++i) {
        cause.deviation[i] += w * (value[mask | 1U << k][i] - value[mask][i]);
      }
    }
    for (std::size_t i = 0; i < whole.size(); ++i) cause.share += cause.deviation[i] * whole[i];
    cause.share = variance > 0.0 ? cause.share / variance : 0.0;
    evenness.causes.push_back(std::move(cause));
  }
  std::stable_sort(evenness.causes.begin(), evenness.causes.end(),
                   [](const Cause& a, const Cause& b) { return std::abs(a.share) > std::abs(b.share); });
  evenness.reference =
      "every row with the mean hose length and the common parts, bars and feed hoses without loss, level ground, equal "
      "strips at one speed";
}

}  // namespace libflow
