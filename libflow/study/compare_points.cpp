// SPDX-License-Identifier: MIT
#include <libflow/study/compare_points.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/progress.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/order_list.hpp>

namespace libflow {

namespace compare_detail {

static bool runs(const EnvelopePoint& p) { return p.state != PointState::cannot_run; }

static void summarise(PointComparison& c) {
  const std::size_t count = c.layouts.front().points.size();
  for (ComparedLayout& l : c.layouts) {
    for (const EnvelopePoint& p : l.points) {
      (p.state == PointState::even ? l.even : p.state == PointState::poor ? l.poor : l.cannot) += 1;
      if (!runs(p)) continue;
      l.gauge_low = std::fmin(l.gauge_low, p.gauge);
      l.gauge_high = std::fmax(l.gauge_high, p.gauge);
      l.least_reserve = std::fmin(l.least_reserve, p.reserve);
    }
  }
  for (std::size_t i = 0; i < count; ++i) {
    if (!std::all_of(c.layouts.begin(), c.layouts.end(), [&](const auto& l) { return runs(l.points[i]); })) continue;
    ++c.shared;
    for (ComparedLayout& l : c.layouts) {
      l.cv = std::fmax(l.cv, l.points[i].cv);
      if (std::isnan(l.worst) || std::abs(l.points[i].worst) > std::abs(l.worst)) {
        l.worst = l.points[i].worst;
        l.worst_row = l.points[i].worst_row;
      }
    }
  }
  const auto before = [&](const ComparedLayout& a, const ComparedLayout& b) {
    return a.even != b.even ? a.even > b.even : c.shared > 0 && a.cv < b.cv;
  };
  for (std::size_t k = 1; k < c.layouts.size(); ++k) {
    if (before(c.layouts[k], c.layouts[c.best])) c.best = k;
    if (before(c.layouts[c.worst], c.layouts[k])) c.worst = k;
  }
}

/// Asks compare() at the shared point where best and worst differ most.
static void decide(PointComparison& c) {
  const ComparedLayout &best = c.layouts[c.best], &worst = c.layouts[c.worst];
  double gap = 5e-4;  // less is no difference worth the name
  const EnvelopePoint* where = nullptr;
  for (std::size_t i = 0; i < best.points.size(); ++i) {
    if (!runs(best.points[i]) || !runs(worst.points[i])) continue;
    const double now = worst.points[i].cv - best.points[i].cv;
    if (now <= gap) continue;
    gap = now;
    where = &worst.points[i];
  }
  if (where == nullptr) return;
  std::vector<Layout> pair{worst.layout, best.layout};
  pair.front().job.speed = from_si<Speed>(where->speed);
  pair.front().job.rate = from_si<AreaRate>(where->rate);
  c.deciding_cause = compare(pair).deciding_cause;
  c.deciding_speed = where->speed;
  c.deciding_rate = where->rate;
}

}  // namespace compare_detail

PointComparison compare_points(const std::vector<Layout>& layouts, std::vector<Speed> speeds,
                               std::vector<AreaRate> rates, const Progress& progress) {
  if (layouts.size() < 2) throw InputError("compare", "one layout", "two layouts or more");
  const auto filled = [](auto& axis, const auto& range, auto job) {
    if (axis.empty()) axis = range;
    if (axis.empty()) axis.push_back(job);
  };
  filled(speeds, layouts.front().range.speeds, layouts.front().job.speed);
  filled(rates, layouts.front().range.rates, layouts.front().job.rate);
  PointComparison c;
  c.speeds = speeds;
  c.rates = rates;
  const std::size_t each = speeds.size() * rates.size();
  std::size_t rows = 0;
  for (const Layout& given : layouts) {
    ComparedLayout l;
    l.layout = given;
    l.layout.job.turn_radius = layouts.front().job.turn_radius;
    l.layout.job.tolerance = layouts.front().job.tolerance;
    l.layout.job.pressure.reset();
    const std::size_t done = c.layouts.size() * each;
    try {
      Envelope e =
          envelope(l.layout, {.speeds = speeds, .rates = rates}, {.usable_speeds = false},
                   [&](std::size_t n, std::size_t) { return go_on(progress, done + n, each * layouts.size()); });
      if (!e.complete) return c;  // layouts done so far; nothing can be ranked
      l.points = std::move(e.points);
      l.control = std::move(e.control);
      l.order = order_list(l.layout);
      const auto* bar = std::get_if<Toolbar>(&l.layout.plumbing);
      const std::size_t own =
          bar != nullptr ? static_cast<std::size_t>(bar->rows) : std::get<Plumbing>(l.layout.plumbing).rows.size();
      if (rows == 0) rows = own;
      if (own != rows) {
        throw InputError("", fmt::format("has {} rows, '{}' has {}", own, layouts.front().name, rows),
                         "layouts of one toolbar, with the same number of rows");
      }
    } catch (const InputError& error) {
      throw error.inside(given.name);
    } catch (const IllPosedError& error) {
      throw IllPosedError(fmt::format("{}: {}", given.name, error.what()));
    }
    for (const HoseOrder& hose : l.order.hoses) l.pieces += hose.cuts.size();
    for (const OrderItem& item : l.order.items) l.pieces += item.count;
    const Job &a = layouts.front().job, &b = given.job;
    if (a.liquid.name() != b.liquid.name() || a.temperature != b.temperature) {
      c.cautions.push_back({"different-product", given.name,
                            "product or temperature differs from the first layout's: the difference is not only the "
                            "plumbing's"});
    }
    c.layouts.push_back(std::move(l));
  }
  compare_detail::summarise(c);
  compare_detail::decide(c);
  c.complete = true;
  return c;
}

}  // namespace libflow
