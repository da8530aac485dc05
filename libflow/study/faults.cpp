// SPDX-License-Identifier: MIT
#include <libflow/study/faults.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/parts.hpp>
#include <libflow/study/fault_options.hpp>
#include <libflow/study/plumbing_edit.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

namespace faults_detail {

static const RowPlumbing& row_at(const Plumbing& p, int row) { return p.rows[static_cast<std::size_t>(row - 1)]; }

/// The inside bore of a row's hose, or nothing.
static std::optional<Length> hose_bore(const Plumbing& p, const RowPlumbing& row) {
  return row.hoses.empty() ? std::nullopt : p.network.part(row.hoses.front()).part.bore();
}

static PlumbingEdit plug_rows(const Plumbing& p, const std::vector<int>& rows, bool counted) {
  PlumbingEdit edit;
  for (const int row : rows) {
    for (const auto part : row_at(p, row).last_parts) edit.exchanged.emplace_back(part, shut_part());
    if (!counted) edit.rows_shut.push_back(row);
  }
  return edit;
}

/// The metering hole away: the tube behind it ends open.
static PlumbingEdit remove_orifice(const Plumbing& p, int row) {
  const RowPlumbing& r = row_at(p, row);
  const auto part = r.orifices.front();
  if (const auto* pulsed = p.network.part(part).part.as<PulsedValve>()) {
    PulsedValve without = *pulsed;
    without.outlet_bore.reset();
    return {.exchanged = {{part, Part(without, p.network.part(part).id)}}};
  }
  return {.exchanged = {{part, Part(OpenEnd{.bore = *hose_bore(p, r)}, p.network.part(part).id)}}};
}

static PlumbingEdit narrow_hoses(const Plumbing& p, int row, double left) {
  PlumbingEdit edit;
  for (const auto i : row_at(p, row).hoses) {
    const PlacedPart& placed = p.network.part(i);
    if (const auto* hose = placed.part.as<Hose>()) {
      Hose narrow = *hose;
      narrow.bore = left * hose->bore;
      edit.exchanged.emplace_back(i, Part(narrow, placed.id));
    } else if (const auto* thick = placed.part.as<SuspensionHose>()) {
      SuspensionHose narrow = *thick;
      narrow.bore = left * thick->bore;
      edit.exchanged.emplace_back(i, Part(narrow, placed.id));
    }
  }
  return edit;
}

static PlumbingEdit kink_hose(const Plumbing& p, int row, double area_left) {
  const auto i = row_at(p, row).hoses.front();
  const Orifice kink{.bore = std::sqrt(area_left) * *p.network.part(i).part.bore()};
  return {.throttled = {{i, Part(kink, p.network.part(i).id + " kink")}}};
}

static PlumbingEdit block_strainer(const Plumbing& p, Network::PartIndex i, double blocked) {
  Strainer s = *p.network.part(i).part.as<Strainer>();
  s.blocked += (1.0 - s.blocked) * blocked;
  return {.exchanged = {{i, Part(s, p.network.part(i).id)}}};
}

/// Nothing leaves the tank any more; what returns to it still can.
static PlumbingEdit empty_tank(const Plumbing& p, Network::PlaceIndex tank) {
  PlumbingEdit edit;
  for (Network::PartIndex i = 0; i < p.network.part_count(); ++i) {
    const Passes passes = p.network.part(i).part.passes();
    const bool leaves = (p.network.from(i) == tank && passes != Passes::backward) ||
                        (p.network.to(i) == tank && passes != Passes::forward);
    if (leaves) edit.exchanged.emplace_back(i, shut_part());
  }
  return edit;
}

/// Only heights of what is held at a pressure or open decide a flow; rows are tilted, the rest is in the middle.
static PlumbingEdit tilt(const Plumbing& p, double rise) {
  PlumbingEdit edit;
  for (const RowPlumbing& row : p.rows) {
    for (const auto air : row.airs) edit.raised.emplace_back(air, row.x * rise);
  }
  return edit;
}

/// How far a product can be cooled before it freezes, salts out, or its data end.
struct ColdEnd {
  double temperature;  ///< [K]
  std::string why;     ///< in words
};

/// @param cold  how cold is asked for [K]
static ColdEnd cold_end(const Liquid& liquid, double cold) {
  using fluid_detail::temperature_text;
  const LiquidRecord& record = liquid.record();
  ColdEnd end{.temperature = 0.0, .why = {}};
  const auto keep = [&](double temperature, const char* why) {
    if (temperature > end.temperature) end = {temperature, fmt::format("{} {}", why, temperature_text(temperature))};
  };
  if (record.freezing) keep(record.freezing->value, "it freezes at");
  for (const PropertyPoint& p : record.salt_out) keep(p.value, "it salts out at");
  const double lowest = record.iapws_water ? water_temperature.low : liquid_temperature.low;
  if (cold < lowest) keep(lowest, "nothing is computed below");
  try {
    const double at = std::max(cold, lowest);
    for (const Caution& c : liquid.at(from_si<Temperature>(at)).cautions) {
      if (c.code == "outside-measured" && c.limit > at) keep(c.limit, "its viscosity is known down to");
    }
  } catch (const InputError& error) {  // the figures of the product contradict each other there
    end = {HUGE_VAL, error.what()};
  }
  // What is not known to stay liquid in the cold is taken for water.
  if (end.why.empty()) keep(273.15, "nothing is known of its freezing, so that of water is taken,");
  return end;
}

static bool is_pump(const Part& part) {
  return part.as<CentrifugalPump>() != nullptr || part.as<PumpCurve>() != nullptr ||
         part.as<PositivePump>() != nullptr || part.as<GroundDrivenPump>() != nullptr;
}

/// What a positive pump sweeps; 0 for other parts.
static Flow swept_by(const Part& part) {
  if (const auto* p = part.as<PositivePump>()) return p->swept();
  if (const auto* p = part.as<GroundDrivenPump>()) return p->swept();
  return from_si<Flow>(0.0);
}

/// @param swept  by a positive pump as it turns without fault: what its gaps let back hangs on the pressure, not on how
///               fast the controller then turns it
static Part worn_pump(const Part& part, double wear, Flow swept, const std::string& id) {
  if (const auto* p = part.as<CentrifugalPump>()) {
    CentrifugalPump worn = *p;
    worn.shutoff = (1.0 - wear) * p->shutoff;
    return Part(worn, id);
  }
  if (const auto* p = part.as<PumpCurve>()) {
    PumpCurve worn = *p;
    for (PumpPoint& point : worn.points) point.gain = (1.0 - wear) * point.gain;
    return Part(worn, id);
  }
  if (const auto* p = part.as<PositivePump>()) {
    PositivePump worn = *p;
    worn.slip.flow += wear * swept;
    return Part(worn, id);
  }
  GroundDrivenPump worn = *part.as<GroundDrivenPump>();
  worn.slip.flow += wear * swept;
  return Part(worn, id);
}

static PlumbingEdit wear_pumps(const Plumbing& p, double wear, const std::vector<Flow>& swept) {
  PlumbingEdit edit;
  for (Network::PartIndex i = 0; i < p.network.part_count(); ++i) {
    const PlacedPart& placed = p.network.part(i);
    if (is_pump(placed.part)) edit.exchanged.emplace_back(i, worn_pump(placed.part, wear, swept[i], placed.id));
  }
  return edit;
}

bool any_pump(const Plumbing& p) {
  for (Network::PartIndex i = 0; i < p.network.part_count(); ++i) {
    if (is_pump(p.network.part(i).part)) return true;
  }
  return false;
}

/// The row at fault: as asked, or the open row nearest the middle of the list.
static int choose_row(const Plumbing& p, int asked) {
  const int count = static_cast<int>(p.rows.size());
  if (asked != 0) {
    require_in("what if, row", asked, {1, static_cast<double>(count)}, "");
    if (row_at(p, asked).shut) {
      throw InputError("what if, row", fmt::format("row {} is shut in this layout", asked), "an open row");
    }
    return asked;
  }
  int best = 0;
  for (int row = 1; row <= count; ++row) {
    const auto off = [&](int r) { return std::abs(2 * r - count); };
    if (!row_at(p, row).shut && (best == 0 || off(row) < off(best))) best = row;
  }
  return best;
}

/// Rows of each manifold of a bar, by manifold.
static std::vector<std::pair<std::string, std::vector<int>>> sections(const Toolbar& t) {
  std::vector<std::pair<std::string, std::vector<int>>> all;
  const auto rows = build_detail::make_rows(t);
  for (std::size_t m = 0; m < t.manifolds.size(); ++m) {
    all.emplace_back(build_detail::manifold_name(t, m), std::vector<int>{});
    for (const auto& row : rows) {
      if (row.manifold == m && !row.shut) all.back().second.push_back(row.number);
    }
  }
  std::erase_if(all, [](const auto& section) { return section.second.empty(); });
  return all;
}

}  // namespace faults_detail

std::vector<FaultCase> fault_cases(const Layout& layout, const Plumbing& plumbing, const WhatIfOptions& o) {
  using namespace faults_detail;
  o.check();
  std::vector<FaultCase> cases;
  const int row = choose_row(plumbing, o.row);
  const RowPlumbing& at = row_at(plumbing, row);
  const auto add = [&](Fault fault, std::string name, std::vector<int> rows, std::string why_not,
                       std::function<PlumbingEdit(const Plumbing&)> edit) {
    cases.push_back({.fault = fault,
                     .name = std::move(name),
                     .rows = std::move(rows),
                     .why_not = std::move(why_not),
                     .edit = std::move(edit)});
  };
  const auto need = [](bool has, const char* why_not) { return has ? std::string() : std::string(why_not); };

  add(Fault::row_plugged, fmt::format("row {} plugged", row), {row}, {},
      [row](const Plumbing& p) { return plug_rows(p, {row}, true); });
  // A pulsed valve keeps its own passage without the orifice in it.
  const bool open_known =
      !at.orifices.empty() &&
      (hose_bore(plumbing, at) || plumbing.network.part(at.orifices.front()).part.as<PulsedValve>() != nullptr);
  add(Fault::orifice_missing, fmt::format("row {}: orifice missing", row), {row},
      at.orifices.empty() ? "its rows have no orifice"
                          : need(open_known, "its row has no hose of its own whose open end would be left"),
      [row](const Plumbing& p) { return remove_orifice(p, row); });
  const std::string no_hose = need(!at.hoses.empty(), "its row has no hose of its own");
  add(Fault::hose_kinked,
      fmt::format("row {}: hose kinked at one point to {:.3g} % of its area", row, 100.0 * o.kink_left), {row}, no_hose,
      [row, left = o.kink_left](const Plumbing& p) { return kink_hose(p, row, left); });
  add(Fault::hose_half_bore,
      fmt::format("row {}: whole hose at {} its bore", row,
                  o.bore_left == 0.5 ? std::string("half") : fmt::format("{:.3g} % of", 100.0 * o.bore_left)),
      {row}, no_hose, [row, left = o.bore_left](const Plumbing& p) { return narrow_hoses(p, row, left); });

  // Sections: the manifolds of a bar; the valves of a free form.
  std::size_t found = 0;
  if (const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing)) {
    const auto all = sections(*toolbar);
    for (const auto& [name, rows] : all) {
      if (all.size() < 2) break;
      ++found;
      add(Fault::section_shut, fmt::format("'{}' shut", name), rows, {},
          [rows = rows](const Plumbing& p) { return plug_rows(p, rows, false); });
    }
  } else {
    for (Network::PartIndex i = 0; i < plumbing.network.part_count(); ++i) {
      const auto* valve = plumbing.network.part(i).part.as<Valve>();
      if (valve == nullptr || valve->open == 0.0) continue;
      ++found;
      add(Fault::section_shut, fmt::format("valve '{}' shut", plumbing.network.part(i).id), {}, {},
          [i](const Plumbing&) {
            return PlumbingEdit{.exchanged = {{i, shut_part()}}};
          });
    }
  }
  if (found == 0) {
    add(Fault::section_shut, "a section shut", {},
        std::holds_alternative<Toolbar>(layout.plumbing) ? "one manifold feeds all rows" : "there is no valve", {});
  }

  found = 0;
  for (Network::PartIndex i = 0; i < plumbing.network.part_count(); ++i) {
    if (plumbing.network.part(i).part.as<Strainer>() == nullptr) continue;
    ++found;
    add(Fault::strainer_blocked,
        fmt::format("strainer '{}' {:.3g} % blocked", plumbing.network.part(i).id, 100.0 * o.screen_blocked), {}, {},
        [i, b = o.screen_blocked](const Plumbing& p) { return block_strainer(p, i, b); });
  }
  if (found == 0) add(Fault::strainer_blocked, "a strainer half blocked", {}, "there is no strainer in the layout", {});

  for (const PlumbedTank& tank : plumbing.tanks) {
    if (plumbing.tanks.size() < 2) break;
    add(Fault::tank_empty, fmt::format("'{}' empty", plumbing.network.place(tank.place).id), {}, {},
        [place = tank.place](const Plumbing& p) { return empty_tank(p, place); });
  }
  if (plumbing.tanks.size() < 2) {
    add(Fault::tank_empty, "one tank empty", {},
        plumbing.tanks.empty() ? "there is no tank in the layout" : "there is one tank: empty, nothing flows", {});
  }

  // Colder than its data hold, or frozen, is no day of work.
  constexpr double least_step = 1.0;  // [K]
  const double now = si(layout.job.temperature);
  const ColdEnd end = cold_end(layout.job.liquid, now - o.colder);
  const double step = std::min(o.colder, now - end.temperature);
  const std::string asked = fmt::format("{:.3g} °F ({:.3g} °C) colder would be {}, and {}", 1.8 * o.colder, o.colder,
                                        fluid_detail::temperature_text(now - o.colder), end.why);
  add(Fault::colder, fmt::format("product {:.3g} °C colder", step < least_step ? o.colder : step), {},
      step < std::min(least_step, o.colder) ? asked : std::string(), [](const Plumbing&) { return PlumbingEdit{}; });
  if (cases.back().applies()) {
    cases.back().temperature = from_si<Temperature>(now - step);
    if (step < o.colder) cases.back().limited = asked;
  }

  // sin(atan(slope + more)) - sin(atan(slope)): how much higher a row gets for each metre along the bar.
  const auto* bar = std::get_if<Toolbar>(&layout.plumbing);
  const double own = bar == nullptr ? 0.0 : std::tan(si(bar->side_slope)), all = own + o.side_slope;
  const double rise = all / std::hypot(1.0, all) - own / std::hypot(1.0, own);
  const bool wide = std::any_of(plumbing.rows.begin(), plumbing.rows.end(), [](const auto& r) { return r.x != 0.0; });
  add(Fault::side_slope,
      fmt::format("{:.3g} % {}side slope", 100.0 * std::abs(o.side_slope), own == 0.0 ? "" : "more "), {},
      need(wide, "all its rows are in the middle of the bar"), [rise](const Plumbing& p) { return tilt(p, rise); });

  std::vector<Flow> swept;
  for (Network::PartIndex i = 0; i < plumbing.network.part_count(); ++i) {
    swept.push_back(swept_by(plumbing.network.part(i).part));
  }
  add(Fault::pump_worn, fmt::format("pump {:.3g} % worn", 100.0 * o.pump_wear), {},
      need(any_pump(plumbing), "there is no pump in the layout: its supply is ideal"),
      [wear = o.pump_wear, swept = std::move(swept)](const Plumbing& p) { return wear_pumps(p, wear, swept); });
  return cases;
}

}  // namespace libflow
