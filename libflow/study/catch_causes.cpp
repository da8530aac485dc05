// SPDX-License-Identifier: MIT
#include <libflow/study/catch_causes.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/toolbar.hpp>

namespace libflow {

namespace catch_detail {

Toolbar& bar_of(Layout& layout) {
  auto* bar = std::get_if<Toolbar>(&layout.plumbing);
  if (bar == nullptr) {
    throw InputError("diagnosis", "the layout is given place by place: what each part should be is not known by row",
                     "a layout with a [toolbar]");
  }
  return *bar;
}

RowChange& change_of(Toolbar& bar, int row) {
  const auto found =
      std::find_if(bar.row_changes.begin(), bar.row_changes.end(), [&](const RowChange& c) { return c.row == row; });
  if (found != bar.row_changes.end()) return *found;
  bar.row_changes.push_back({.row = row});
  return bar.row_changes.back();
}

const build_detail::Row& row_of(const std::vector<build_detail::Row>& rows, int row) {
  return rows.at(static_cast<std::size_t>(row - 1));
}

/// A row's orifice with another bore; what the layout says of its rim stays.
static OrificeByBore with_bore(const OrificeChoice& choice, double bore) {
  const Orifice now = build_detail::make_orifice(choice, "orifice");
  return {
      .bore = from_si<Length>(bore), .thickness = now.thickness, .discharge_coefficient = now.discharge_coefficient};
}

/// Least and most of something of the open rows.
template <class Of>
static std::pair<double, double> range_of(const std::vector<build_detail::Row>& rows, const Of& of) {
  double low = HUGE_VAL, high = 0.0;
  for (const build_detail::Row& r : rows) {
    if (r.shut) continue;
    low = std::min(low, of(r));
    high = std::max(high, of(r));
  }
  return {low, high};
}

bool equal_hose_lengths(const std::vector<build_detail::Row>& rows) {
  const auto [low, high] = range_of(rows, [](const build_detail::Row& r) { return r.hose_length; });
  return high - low <= 0.05 * high;
}

std::vector<double> other_schedule(const std::vector<build_detail::Row>& rows) {
  const auto run = [](const build_detail::Row& r) { return std::abs(r.x - r.port_x); };
  const double longest = range_of(rows, [](const build_detail::Row& r) { return r.hose_length; }).second;
  const double furthest = range_of(rows, run).second;
  const bool equal = equal_hose_lengths(rows);
  std::vector<double> lengths;
  for (const build_detail::Row& r : rows) lengths.push_back(equal ? longest - (furthest - run(r)) : longest);
  double most = 0.0;  // that any open row changes by
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].shut) continue;
    if (!(lengths[i] > 0.0)) return {};
    most = std::max(most, std::abs(lengths[i] - rows[i].hose_length));
  }
  return most > 0.05 * longest ? lengths : std::vector<double>();
}

double bore_of(const OrificeChoice& choice) { return si(build_detail::make_orifice(choice, "orifice").bore); }

double crack_of(const build_detail::Row& row) { return si(row.crack.value_or(row.check_valve->crack)); }

}  // namespace catch_detail

Layout with_cause(Layout layout, const CatchCause& c) {
  using namespace catch_detail;
  using Of = CatchCauseKind;
  Toolbar& bar = bar_of(layout);
  const auto scaled_liquid = [&](double density, double viscosity) {
    Job& job = layout.job;
    const LiquidState now = job.liquid.at(job.temperature);
    job.liquid = density != 1.0
                     ? job.liquid.with_density(from_si<Density>(now.density * density), job.temperature)
                     : job.liquid.with_viscosity(from_si<Viscosity>(now.viscosity * viscosity), job.temperature);
  };
  if (c.kind == Of::bar_bore || c.kind == Of::feed_hose || c.kind == Of::feed_place) {
    const auto last = static_cast<double>(bar.manifolds.size()) - 1.0;
    require_in("cause, manifold", static_cast<double>(c.manifold), {0.0, last}, "");
  }
  switch (c.kind) {
    case Of::side_slope:
      bar.side_slope = from_si<Angle>(si(bar.side_slope) + c.size);
      return layout;
    case Of::bar_bore:
      bar.manifolds.at(c.manifold).bore = c.size * bar.manifolds.at(c.manifold).bore;
      return layout;
    case Of::feed_hose:
      bar.manifolds.at(c.manifold).feed_bore = c.size * bar.manifolds.at(c.manifold).feed_bore;
      return layout;
    case Of::feed_place:
      require_in("cause, feed place", c.size, {0.0, static_cast<double>(static_cast<int>(ManifoldFeed::both_ends))},
                 "");
      bar.manifolds.at(c.manifold).feed = static_cast<ManifoldFeed>(static_cast<int>(std::lround(c.size)));
      return layout;
    case Of::density:
      scaled_liquid(c.size, 1.0);
      return layout;
    case Of::viscosity:
      scaled_liquid(1.0, c.size);
      return layout;
    case Of::gauge:
      if (layout.job.pressure) layout.job.pressure = c.size * *layout.job.pressure;
      return layout;
    case Of::measure:  // the bar is sound: its cups were read wrong
      return layout;
    case Of::orifice_set:
      for (const build_detail::Row& row : build_detail::make_rows(bar)) {
        if (!row.shut && row.orifice) {
          change_of(bar, row.number).orifice = with_bore(*row.orifice, c.size * bore_of(*row.orifice));
        }
      }
      return layout;
    case Of::hose_schedule: {
      const std::vector<build_detail::Row> made = build_detail::make_rows(bar);
      const std::vector<double> other = other_schedule(made);
      for (std::size_t i = 0; i < made.size() && i < other.size(); ++i) {
        if (made[i].shut) continue;
        const double own = made[i].hose_length;
        change_of(bar, made[i].number).hose_length = from_si<Length>(own + c.size * (other[i] - own));
      }
      return layout;
    }
    default:
      break;
  }
  const std::vector<build_detail::Row> rows = build_detail::make_rows(bar);
  for (const int number : {c.row, c.kind == Of::hoses_swapped ? c.other : c.row}) {
    require_in("cause, row", static_cast<double>(number), {1.0, static_cast<double>(rows.size())}, "");
  }
  const build_detail::Row& row = row_of(rows, c.row);
  const auto needs = [&](bool has, std::string_view part) {
    if (!has)
      throw InputError(fmt::format("row {}", c.row), fmt::format("has no {}", part), "a cause of a part it has");
  };
  RowChange change = change_of(bar, c.row);
  switch (c.kind) {
    case Of::orifice:
      needs(row.orifice.has_value(), "orifice");
      change.orifice = with_bore(*row.orifice, c.size * bore_of(*row.orifice));
      break;
    case Of::other_orifice:
      needs(row.orifice.has_value(), "orifice");
      change.orifice = with_bore(*row.orifice, c.size);
      break;
    case Of::hose_length:
      change.hose_length = from_si<Length>(c.size * row.hose_length);
      break;
    case Of::hose_bore:
      change.hose_bore = from_si<Length>(c.size * row.hose_bore);
      break;
    case Of::check_valve:
      needs(row.check_valve.has_value(), "check valve");
      change.crack = from_si<Pressure>(crack_of(row) + c.size);
      break;
    case Of::hoses_swapped: {
      const build_detail::Row& other = row_of(rows, c.other);
      change.hose_length = from_si<Length>(other.hose_length);
      change.hose_bore = from_si<Length>(other.hose_bore);
      RowChange& second = change_of(bar, c.other);
      second.hose_length = from_si<Length>(row.hose_length);
      second.hose_bore = from_si<Length>(row.hose_bore);
      break;
    }
    default:
      break;
  }
  change_of(bar, c.row) = change;
  return layout;
}

Layout with_causes(Layout layout, const std::vector<CatchCause>& causes) {
  const auto own = [](const CatchCause& c) { return c.of_row(); };
  const auto swap = [](const CatchCause& c) { return c.kind == CatchCauseKind::hoses_swapped; };
  for (const CatchCause& c : causes) {
    if (!own(c) && !swap(c)) layout = with_cause(std::move(layout), c);
  }
  for (const CatchCause& c : causes) {
    if (swap(c)) layout = with_cause(std::move(layout), c);
  }
  for (const CatchCause& c : causes) {
    if (own(c)) layout = with_cause(std::move(layout), c);
  }
  return layout;
}

namespace catch_detail {

Sizes sizes_of(const Layout& layout, const CatchCause& c, double pressure, const std::vector<double>& fitted_bores) {
  using Of = CatchCauseKind;
  const auto& bar = std::get<Toolbar>(layout.plumbing);
  const auto factor = [](double low, double high) { return Sizes{low, high, 1.0, true, {}}; };
  switch (c.kind) {
    case Of::orifice:
      return factor(0.05, 2.0);
    case Of::other_orifice: {
      Sizes s;
      const auto rows = build_detail::make_rows(bar);
      const double own = bore_of(*row_of(rows, c.row).orifice);
      for (const double b : fitted_bores) {
        if (std::abs(b / own - 1.0) > 1e-3) s.only.push_back(b);
      }
      return s;
    }
    case Of::hose_length:
      return factor(0.2, 10.0);
    case Of::hose_bore:
      return factor(0.3, 1.4);
    case Of::check_valve: {
      const auto rows = build_detail::make_rows(bar);
      const double crack = crack_of(row_of(rows, c.row));
      const double least = bar.check_valve && bar.check_valve->full_open ? 1.0 : 0.0;
      // Up to one that shuts its row, also where the outlets hang below the gauge.
      return {.low = std::min(0.0, least - crack),
              .high = std::min(CheckValve::crack_range.high - crack, std::max(1.1 * pressure - crack, 0.2 * pressure))};
    }
    case Of::hoses_swapped:
      return {.only = {1.0}};
    case Of::side_slope: {
      const double now = si(bar.side_slope);
      return {.low = std::max(-0.2, layout_limits::slope.low - now),
              .high = std::min(0.2, layout_limits::slope.high - now)};
    }
    case Of::bar_bore:
    case Of::feed_hose:
      return factor(0.15, 1.0);
    case Of::feed_place: {
      Sizes s;
      for (const ManifoldFeed f : {ManifoldFeed::middle, ManifoldFeed::left, ManifoldFeed::right}) {
        const ManifoldFeed now = bar.manifolds.at(c.manifold).feed;
        if (f != now) s.only.push_back(static_cast<double>(static_cast<int>(f)));
      }
      return s;
    }
    case Of::density:  // a product's density moves by a few per cent with its strength and temperature
      return factor(0.9, 1.1);
    case Of::viscosity:
      return factor(0.1, 10.0);
    case Of::gauge: {  // not below what opens the valves
      double crack = 0.0;
      for (const build_detail::Row& row : build_detail::make_rows(bar)) {
        if (!row.shut && row.check_valve) crack = std::max(crack, crack_of(row));
      }
      return factor(std::clamp(1.25 * crack / pressure, 0.1, 0.5), 4.0);
    }
    case Of::measure:
      return factor(0.01, 100.0);
    case Of::orifice_set:
      return factor(0.4, 2.5);
    case Of::hose_schedule: {  // half beyond the other schedule, if the shortest hose is something then
      const auto rows = build_detail::make_rows(bar);
      const std::vector<double> other = other_schedule(rows);
      double high = 1.5;
      for (std::size_t i = 0; i < other.size(); ++i) {
        const double own = rows[i].hose_length;
        if (!rows[i].shut && other[i] < own) high = std::min(high, 0.95 * own / (own - other[i]));
      }
      return {.high = high};
    }
  }
  return {};
}

std::vector<double> size_steps(const Sizes& s) {
  if (!s.only.empty() || s.low == s.high) return s.only;
  std::vector<double> steps;
  constexpr int half = 8;
  for (int k = -half; k <= half; ++k) {
    const double t = static_cast<double>(k) / half;
    const double end = k < 0 ? s.low : s.high;
    const double part = t * t;
    const double size = s.factor ? s.none * std::pow(end / s.none, part) : s.none + part * (end - s.none);
    if (k == 0 || std::abs(size - s.none) > 1e-12 * std::max(std::abs(s.low), std::abs(s.high))) steps.push_back(size);
  }
  return steps;
}

std::vector<double> fitted_bores(const Layout& layout, const std::vector<Length>& listed) {
  std::set<double> bores;
  for (const Length& b : listed) {
    require_in("diagnosis, orifice bore", si(b), Orifice::bore_range, "m");
    bores.insert(si(b));
  }
  for (const build_detail::Row& r : build_detail::make_rows(std::get<Toolbar>(layout.plumbing))) {
    if (r.orifice) bores.insert(bore_of(*r.orifice));
  }
  std::vector<double> out;
  for (const double b : bores) {
    if (out.empty() || b > out.back() * 1.001) out.push_back(b);
  }
  return out;
}

}  // namespace catch_detail

}  // namespace libflow
