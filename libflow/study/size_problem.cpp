// SPDX-License-Identifier: MIT
#include <libflow/study/size_problem.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <set>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/cut_length.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/toolbar.hpp>
#include <libflow/toolbar/drive_network.hpp>

namespace libflow {

namespace size_detail {

static std::vector<double> rounded_up(const std::vector<double>& runs, double step) {
  std::vector<double> lengths;
  for (const double run : runs) lengths.push_back(si(cut_length(from_si<Length>(run), from_si<Length>(step))));
  return lengths;
}

static std::vector<HosePlan> hose_plans(const SizeProblem& p, const std::vector<bool>& open) {
  std::vector<HosePlan> plans;
  const Toolbar& t = p.toolbar();
  const double hoses_a_row = t.metering == MeteringPlace::manifold ? t.outlets_per_row : 1.0;
  const double tape = si(*p.choices.cut_to);
  const auto add = [&](Cut cut, std::vector<double> lengths) {
    if (tape > 0.0 && cut != Cut::rounded) lengths = rounded_up(lengths, tape);
    HosePlan plan{cut, std::move(lengths), 0.0};
    for (std::size_t i = 0; i < plan.lengths.size(); ++i) plan.total += open[i] ? hoses_a_row * plan.lengths[i] : 0.0;
    plans.push_back(std::move(plan));
  };
  double longest = 0.0;
  std::vector<double> distinct;
  for (std::size_t i = 0; i < p.runs.size(); ++i) {
    if (!open[i]) continue;
    longest = std::max(longest, p.runs[i]);
    distinct.push_back(p.runs[i]);
  }
  std::sort(distinct.begin(), distinct.end());
  // Runs within a millimetre are one length; the longest of them is what is cut.
  std::vector<double> steps;
  for (const double run : distinct)
    (!steps.empty() && run - steps.back() < 1e-3 ? steps.back() : steps.emplace_back()) = run;
  for (const Cut cut : p.choices.cuts) {
    switch (cut) {
      case Cut::equal:
        add(cut, std::vector<double>(p.runs.size(), longest));
        break;
      case Cut::shortest:
        add(cut, p.runs);
        break;
      case Cut::rounded:
        add(cut, rounded_up(p.runs, si(p.choices.step)));
        break;
      case Cut::two_lengths:
        for (std::size_t k = 0; k + 1 < steps.size(); ++k) {
          std::vector<double> lengths;
          for (const double run : p.runs) lengths.push_back(run <= steps[k] ? steps[k] : longest);
          add(cut, std::move(lengths));
        }
        break;
    }
  }
  return plans;
}

/// What the drive can bring to the gauge at a flow: at the two ends of its control.
static Range drive_window(const Toolbar& t, const WorkingPoint& at, double flow, const LiquidState& liquid) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  Range window{infinite, -infinite};
  const Range settings = setting_range(*t.drive);
  for (const double setting : {settings.low, settings.high}) {
    double pressure = -infinite;
    try {
      Plumbing plumbing;
      Drive drive = *t.drive;
      drive.setting = setting;
      plumbing.supply = plumbing.network.add_drawn("supply", from_si<Flow>(flow), t.manifolds.front().height);
      add_drive(plumbing, drive, liquid,
                {.side = std::sin(si(at.side_slope)),
                 .fore_aft = std::sin(si(t.fore_aft_slope)),
                 .speed = at.speed,
                 .roughness = t.hose_roughness},
                plumbing.supply);
      const Solution s = solve_plumbing(plumbing, liquid);
      if (s.usable()) pressure = s.places[plumbing.supply].total_pressure;
    } catch (const IllPosedError&) {  // no way for that flow: the drive gives nothing there
    }
    window.low = std::min(window.low, pressure);
    window.high = std::max(window.high, pressure);
  }
  return window;
}

template <class T>
void fill(std::vector<T>& list, T otherwise) {
  if (list.empty()) list.push_back(std::move(otherwise));
}

static void fill_lists(SizeProblem& p) {
  const Toolbar& t = p.toolbar();
  SizeChoices& c = p.choices;
  if (c.orifices.empty()) c.orifices = generic_orifices();
  if (!c.cut_to) c.cut_to = cut_step(p.layout.units);
  require_in("size, cut to", si(*c.cut_to), {0.0, 1.0}, "m");
  if (c.cuts.empty()) c.cuts = {Cut::equal, Cut::shortest, Cut::rounded, Cut::two_lengths};
  fill(c.hose_bores, t.hose_bore);
  if (t.manifolds.empty()) throw InputError("toolbar", "no manifold", "at least one manifold that feeds the rows");
  fill(c.manifold_bores, t.manifolds.front().bore);
  fill(c.feeds, t.manifolds.front().feed);
  if (t.check_valve) fill(c.cracks, t.check_valve->crack);
  if (!t.check_valve && !c.cracks.empty()) {
    throw InputError("size, cracks", "the rows have no check valve", "a check valve for the toolbar first");
  }
  if (c.speeds.empty()) c.speeds = p.layout.range.speeds;
  if (c.rates.empty()) c.rates = p.layout.range.rates;
  fill(c.speeds, p.layout.job.speed);
  fill(c.rates, p.layout.job.rate);
  fill(c.temperatures, p.layout.job.temperature);
  fill(c.side_slopes, t.side_slope);
  if (!c.hose_prices.empty() && c.hose_prices.size() != c.hose_bores.size()) {
    throw InputError("size, hose prices",
                     fmt::format("{} prices for {} bores", c.hose_prices.size(), c.hose_bores.size()),
                     "one price for each bore");
  }
  for (const double price : c.hose_prices) require_in("size, hose price", price, {0.0, 1e9}, "");
  require_in("size, verify", static_cast<double>(c.verify), {1.0, 50.0}, "");
  require_in("size, step", si(c.step), {0.01, 100.0}, "m");
  if (c.extra) require_in("size, extra", si(*c.extra), layout_limits::not_negative, "m");
  require_in("size, least pressure", si(c.least_pressure), {0.0, layout_limits::pressure.high}, "Pa");
  require_in("size, most pressure", si(c.most_pressure), {si(c.least_pressure), layout_limits::pressure.high}, "Pa");
  for (const Angle& slope : c.side_slopes) require_in("size, side slope", si(slope), layout_limits::slope, "rad");
}

static void fill_groups(SizeProblem& p) {
  const int rows = p.toolbar().rows;
  std::set<int> named;
  for (const RowGroup& g : p.choices.groups) {
    for (const int row : g.rows) {
      require_in(fmt::format("size, group '{}'", g.name), row, {1, static_cast<double>(rows)}, "");
      if (!named.insert(row).second) {
        throw InputError(fmt::format("size, group '{}'", g.name), fmt::format("row {} is in two groups", row),
                         "each row in one group");
      }
    }
  }
  RowGroup rest{.name = named.empty() ? "all rows" : "other rows"};
  for (int row = 1; row <= rows; ++row) {
    if (!named.contains(row)) rest.rows.push_back(row);
  }
  if (!rest.rows.empty()) p.groups.push_back(std::move(rest));
  for (const RowGroup& g : p.choices.groups) {
    if (!g.rows.empty()) p.groups.push_back(g);
  }
}

static void fill_points(SizeProblem& p, const Plumbing& as_drawn) {
  const Toolbar& t = p.toolbar();
  for (const Angle& slope : p.choices.side_slopes) {
    for (const Temperature& temperature : p.choices.temperatures) {
      const LiquidState liquid = p.layout.job.liquid.at(temperature);
      for (const Speed& speed : p.choices.speeds) {
        for (const AreaRate& rate : p.choices.rates) {
          Job job = p.layout.job;
          job.speed = speed;
          job.rate = rate;
          check(job);
          const double flow = wanted_flow(as_drawn, job);
          // Without a drive only the flow counts: speed and rate that make the same flow are one point.
          bool known = false;
          for (std::size_t k = 0; k < p.points.size(); ++k) {
            known = known || (p.points[k].side_slope == slope && p.points[k].temperature == temperature &&
                              std::abs(p.flows[k] / flow - 1.0) < 1e-12 && (!t.drive || p.points[k].speed == speed));
          }
          if (known) continue;
          p.points.push_back({speed, rate, temperature, slope});
          p.flows.push_back(flow);
          p.liquids.push_back(liquid);
          p.supply.push_back(t.drive ? drive_window(t, p.points.back(), flow, liquid) : Range{});
        }
      }
    }
  }
}

}  // namespace size_detail

SizeProblem size_problem(const Layout& layout, const SizeChoices& choices) {
  using namespace size_detail;
  SizeProblem p;
  p.layout = layout;
  p.choices = choices;
  auto* toolbar = std::get_if<Toolbar>(&p.layout.plumbing);
  if (toolbar == nullptr) {
    throw InputError("size", "a free-form layout has no rows and hoses to choose for", "a layout with a [toolbar]");
  }
  p.layout.job.pressure.reset();
  if (toolbar->drive) toolbar->drive->setting.reset();
  fill_lists(p);
  fill_groups(p);
  Toolbar shortest = *toolbar;
  const bool drawn_shortest = toolbar->hose.kind == HoseSchedule::Kind::shortest;
  shortest.hose = {.kind = HoseSchedule::Kind::shortest,
                   .extra = p.choices.extra.value_or(drawn_shortest ? toolbar->hose.extra : from_si<Length>(0.0))};
  p.choices.extra = shortest.hose.extra;
  build_detail::check(shortest);
  std::vector<bool> open;
  for (const build_detail::Row& row : build_detail::make_rows(shortest)) {
    p.runs.push_back(row.hose_length);
    open.push_back(!row.shut);
    p.open_rows += row.shut ? 0 : 1;
  }
  p.plans = hose_plans(p, open);
  fill_points(p, build_network(shortest, p.layout.job));
  return p;
}

SizeProblem whole_envelope(const SizeProblem& p) {
  SizeProblem fine = p;
  const auto refine = [](auto& values, std::size_t count) {
    const auto [low, high] =
        std::minmax_element(values.begin(), values.end(), [](const auto& a, const auto& b) { return si(a) < si(b); });
    const double from = si(*low), to = si(*high);
    if (count < 2 || !(to > from)) return;
    using Q = std::remove_cvref_t<decltype(*low)>;
    values.clear();
    for (std::size_t i = 0; i < count; ++i) {
      values.push_back(from_si<Q>(from + (to - from) * static_cast<double>(i) / static_cast<double>(count - 1)));
    }
  };
  const std::size_t count = p.choices.verify;
  refine(fine.choices.speeds, count);
  refine(fine.choices.rates, count);
  refine(fine.choices.temperatures, (count + 1) / 2);
  refine(fine.choices.side_slopes, (count + 1) / 2);
  fine.points.clear();
  fine.flows.clear();
  fine.liquids.clear();
  fine.supply.clear();
  SizeChoice shortest;
  shortest.orifices.assign(p.groups.size(), 0);
  size_detail::fill_points(fine, build_network(toolbar_for(p, shortest), p.layout.job));
  return fine;
}

std::optional<SizeProblem> at_band_end(const SizeProblem& p, bool upper) {
  SizeProblem end = p;
  bool known = false;
  end.products.clear();
  end.supply.clear();
  for (std::size_t k = 0; k < p.points.size(); ++k) {
    const LiquidState& likely = p.liquids[k];
    const std::optional<double>& viscosity = upper ? likely.viscosity_high : likely.viscosity_low;
    Liquid product = p.layout.job.liquid;
    if (viscosity && *viscosity != likely.viscosity) {
      known = true;
      product = product.with_viscosity(from_si<Viscosity>(*viscosity), p.points[k].temperature);
      end.liquids[k] = product.at(p.points[k].temperature);
    }
    const Toolbar& t = p.toolbar();
    end.supply.push_back(t.drive ? size_detail::drive_window(t, p.points[k], p.flows[k], end.liquids[k]) : Range{});
    end.products.push_back(std::move(product));
  }
  if (!known) return std::nullopt;
  return end;
}

void add_point(SizeProblem& p, const SizeProblem& from, std::size_t point) {
  p.points.push_back(from.points.at(point));
  p.flows.push_back(from.flows.at(point));
  p.liquids.push_back(from.liquids.at(point));
  p.supply.push_back(from.supply.at(point));
}

Toolbar toolbar_for(const SizeProblem& p, const SizeChoice& choice) {
  Toolbar t = p.toolbar();
  t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {}};
  for (const double length : p.plans[choice.plan].lengths) t.hose.lengths.push_back(from_si<Length>(length));
  t.hose_bore = p.choices.hose_bores[choice.hose_bore];
  for (Manifold& m : t.manifolds) {
    m.bore = p.choices.manifold_bores[choice.manifold_bore];
    m.feed = p.choices.feeds[choice.feed];
  }
  if (t.check_valve) t.check_valve->crack = p.choices.cracks[choice.crack];
  for (RowChange& change : t.row_changes) change.hose_length.reset();
  t.orifice = p.choices.orifices[choice.orifices.front()];
  for (std::size_t g = 1; g < p.groups.size(); ++g) {
    for (const int row : p.groups[g].rows) {
      auto change =
          std::find_if(t.row_changes.begin(), t.row_changes.end(), [&](const auto& c) { return c.row == row; });
      if (change == t.row_changes.end()) change = t.row_changes.insert(change, RowChange{.row = row});
      if (!change->orifice) change->orifice = p.choices.orifices[choice.orifices[g]];
    }
  }
  return t;
}

double hose_needed(const SizeProblem& p, const SizeChoice& choice) {
  double total = p.plans[choice.plan].total;
  for (const Manifold& m : p.toolbar().manifolds) {
    if (!(si(m.feed_length) > 0.0)) continue;
    total += si(cut_length(m.feed_length, *p.choices.cut_to)) *
             (p.choices.feeds[choice.feed] == ManifoldFeed::both_ends ? 2.0 : 1.0);
  }
  return total;
}

double price_of(const SizeProblem& p, const SizeChoice& choice) {
  if (p.choices.hose_prices.empty()) return hose_needed(p, choice);
  return p.plans[choice.plan].total * p.choices.hose_prices[choice.hose_bore];
}

}  // namespace libflow
