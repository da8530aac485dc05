// SPDX-License-Identifier: MIT
#include <libflow/study/limits.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <libflow/fluid/liquid.hpp>
#include <libflow/study/pressure_limit.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

const Limit* binding_limit(const Limits& limits, bool stopping) {
  const Limit* least = nullptr;
  for (const Limit& l : limits) {
    if (stopping && l.kind != LimitKind::stops) continue;
    if (least == nullptr || l.margin < least->margin) least = &l;
  }
  return least;
}

namespace limits_detail {

constexpr std::string_view given = "given in the layout";

/// Capacity beyond outlets and agitation, for wear (Virginia Tech publication 442-452).
constexpr double wear_reserve = 0.2;

// standard [Pa]
constexpr double default_velocity = 6.0 * 0.3048;

static Limit at_most(std::string name, std::string subject, double value, double limit, std::string unit,
                     LimitKind kind, std::string_view source) {
  return {std::move(name),    std::move(subject), value, limit, std::move(unit), true, 1.0 - value / limit, kind,
          std::string(source)};
}

static Limit at_least(std::string name, std::string subject, double value, double limit, std::string unit,
                      LimitKind kind, std::string_view source) {
  return {std::move(name),    std::move(subject), value, limit, std::move(unit), false, value / limit - 1.0, kind,
          std::string(source)};
}

/// Keeps the worst of several candidates for one limit.
static void keep_worst(std::optional<Limit>& worst, Limit candidate) {
  if (!worst || candidate.margin < worst->margin) worst = std::move(candidate);
}

/// Ratings and velocities of hoses. @param skip  suction hoses, which have limits of their own
static void hose_limits(const Plumbing& p, const Solution& s, double velocity, std::optional<Limit>& rating,
                        std::optional<Limit>& fastest, const std::vector<Network::PartIndex>& skip = {}) {
  for (Network::PartIndex i = 0; i < p.network.part_count(); ++i) {
    const auto* hose = p.network.part(i).part.as<Hose>();
    if (hose == nullptr) continue;
    const std::string& id = p.network.part(i).id;
    if (hose->rating) {
      const double pressure =
          std::max(s.places[p.network.from(i)].total_pressure, s.places[p.network.to(i)].total_pressure);
      keep_worst(rating, at_most("hose rating", id, pressure, si(*hose->rating), "Pa", LimitKind::stops, given));
    }
    if (std::find(skip.begin(), skip.end(), i) != skip.end()) continue;
    keep_worst(fastest, at_most("velocity", id, std::abs(s.parts[i].velocity), velocity, "m/s", LimitKind::advised,
                                "extension and pump texts, from memory"));
  }
}

static void row_limits(Limits& all, const Plumbing& p, const Solution& s, const Toolbar* toolbar, double weight) {
  std::optional<Limit> valve, least, most;
  for (const RowPlumbing& row : p.rows) {
    if (row.shut) continue;
    const std::string subject = fmt::format("row {}", row.row);
    for (std::size_t k = 0; k < row.check_valves.size(); ++k) {
      const auto* part = p.network.part(row.check_valves[k]).part.as<CheckValve>();
      if (part == nullptr || si(part->crack) <= 0.0 || row.airs.empty()) continue;
      const auto air = row.airs[std::min(k, row.airs.size() - 1)];  // of two in a row both open to one
      const auto ahead = p.network.from(row.check_valves[k]);
      const double head =
          s.places[ahead].total_pressure + weight * (p.network.place(ahead).elevation - p.network.place(air).elevation);
      Limit l = at_least("check valve opens", subject, head, si(part->crack), "Pa", LimitKind::stops, given);
      // What another valve of the row holds back may be pressure enough for this one.
      if (s.parts[row.check_valves[k]].valve == ValveState::closed) l.margin = std::min(l.margin, -1e-12);
      keep_worst(valve, std::move(l));
    }
    for (const auto orifice : row.orifices) {
      const double drop = s.parts[orifice].drop;
      if (toolbar != nullptr && toolbar->orifice_least) {
        keep_worst(least, at_least("least orifice drop", subject, drop, si(*toolbar->orifice_least), "Pa",
                                   LimitKind::wanted, given));
      }
      if (toolbar != nullptr && toolbar->orifice_most) {
        keep_worst(most, at_most("most orifice drop", subject, drop, si(*toolbar->orifice_most), "Pa",
                                 LimitKind::wanted, given));
      }
    }
  }
  for (auto* limit : {&valve, &least, &most}) {
    if (*limit) all.push_back(std::move(**limit));
  }
}

static void pump_limits(Limits& all, const Drive& drive, const PumpDuty& duty, const LiquidState& liquid,
                        const Job& job) {
  const auto flow_limit = [&](double most) {
    all.push_back(
        at_most("pump flow", "", duty.flow, most, "m3/s", LimitKind::stops, "the pump's curve by the speed law"));
  };
  const auto pressure_limit = [&](const std::optional<Pressure>& most) {
    if (most) all.push_back(at_most("pump pressure", "", duty.outlet, si(*most), "Pa", LimitKind::stops, given));
  };
  if (const auto* p = std::get_if<CentrifugalPump>(&drive.pump)) flow_limit(si(p->free_flow) * p->speed);
  if (const auto* p = std::get_if<PumpCurve>(&drive.pump)) flow_limit(si(p->points.back().flow) * p->speed);
  if (const auto* p = std::get_if<PositivePump>(&drive.pump)) pressure_limit(p->max_pressure);
  if (const auto* p = std::get_if<GroundDrivenPump>(&drive.pump)) pressure_limit(p->max_pressure);
  if (job.pump_limit) {
    all.push_back(
        at_most(pressure_limit_name(true), "", duty.outlet, si(*job.pump_limit), "Pa", LimitKind::stops, given));
  }
  all.push_back(at_least("pump reserve", "", duty.reserve, wear_reserve, "1", LimitKind::advised,
                         "20 % for wear: Virginia Tech publication 442-452"));
  if (duty.suction_required && *duty.suction_required > 0.0) {
    all.push_back(at_least("suction head", "pump", duty.suction_available, *duty.suction_required, "m",
                           LimitKind::stops, "the pump's points by the speed law; vapour pressure of water"));
  } else {
    all.push_back(at_least("suction above boiling", "pump", duty.inlet + atmosphere, liquid.vapour_pressure, "Pa",
                           LimitKind::stops, "vapour pressure of water; standard atmosphere"));
  }
  if (drive.suction_limit) {
    Limit l = at_least("suction vacuum", "pump", duty.inlet, si(*drive.suction_limit), "Pa", LimitKind::stops, given);
    l.margin = (l.value - l.limit) / atmosphere;  // a gauge pressure near zero is no scale
    all.push_back(std::move(l));
  }
}

/// Pumps, relief valves and meters of a free form: what each part says of itself, the worst of a kind.
static void part_limits(Limits& all, const LimitView& v) {
  std::optional<Limit> flow, pressure, suction, boiling, relief, meter_most, meter_least;
  const Network& network = v.rows.network;
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    const Part& part = network.part(i).part;
    const std::string& id = network.part(i).id;
    const double q = v.rows_solution.parts[i].flow;
    const double inlet = v.rows_solution.places[network.from(i)].total_pressure;
    const double outlet = v.rows_solution.places[network.to(i)].total_pressure;
    bool pump = false;
    const auto most_flow = [&](double most) {
      pump = true;
      keep_worst(flow,
                 at_most("pump flow", id, q, most, "m3/s", LimitKind::stops, "the pump's curve by the speed law"));
    };
    const auto most_pressure = [&](const std::optional<Pressure>& most) {
      pump = true;
      if (most) keep_worst(pressure, at_most("pump pressure", id, outlet, si(*most), "Pa", LimitKind::stops, given));
    };
    if (const auto* p = part.as<CentrifugalPump>()) most_flow(si(p->free_flow) * p->speed);
    if (const auto* p = part.as<PositivePump>()) most_pressure(p->max_pressure);
    if (const auto* p = part.as<GroundDrivenPump>()) most_pressure(p->max_pressure);
    if (const auto* p = part.as<PumpCurve>()) {
      most_flow(si(p->points.back().flow) * p->speed);
      const auto required = p->duty(from_si<Flow>(std::max(0.0, q)), v.liquid).head_required;
      if (required && *required > 0.0) {
        keep_worst(suction,
                   at_least("suction head", id, p->head_available(from_si<Pressure>(inlet), v.liquid), *required, "m",
                            LimitKind::stops, "the pump's points by the speed law; vapour pressure of water"));
      }
    }
    if (pump) {
      keep_worst(boiling, at_least("suction above boiling", id, inlet + atmosphere, v.liquid.vapour_pressure, "Pa",
                                   LimitKind::stops, "vapour pressure of water; standard atmosphere"));
    }
    if (const auto* r = part.as<ReliefValve>()) {
      Limit l =
          at_most("relief valve shut", id, v.rows_solution.parts[i].drop, si(r->set), "Pa", LimitKind::advised, given);
      if (q > 0.0) l.margin = std::min(l.margin, -1e-12);
      keep_worst(relief, std::move(l));
    }
    if (const auto* m = part.as<FlowMeter>()) {
      const double metered = std::abs(q);
      keep_worst(meter_most, at_most("most meter flow", id, metered, si(m->most), "m3/s", LimitKind::wanted, given));
      if (si(m->least) > 0.0) {
        keep_worst(meter_least,
                   at_least("least meter flow", id, metered, si(m->least), "m3/s", LimitKind::wanted, given));
      }
    }
  }
  for (auto* limit : {&flow, &pressure, &suction, &boiling, &relief, &meter_most, &meter_least}) {
    if (*limit) all.push_back(std::move(**limit));
  }
}

}  // namespace limits_detail

Limits find_limits(const LimitView& v) {
  using namespace limits_detail;
  Limits all;
  double furthest = 0.0;
  std::string row;
  for (const RowResult& r : v.evenness.rows) {
    if (r.shut || (!row.empty() && std::abs(r.deviation) <= furthest)) continue;
    furthest = std::abs(r.deviation);
    row = fmt::format("row {}", r.row);
  }
  all.push_back(
      at_most("evenness", row, furthest, v.job.tolerance, "1", LimitKind::wanted, "tolerance " + std::string(given)));
  row_limits(all, v.rows, v.rows_solution, v.toolbar, v.liquid.density * standard_gravity);
  std::optional<Limit> rating, fastest;
  const double velocity = v.drive != nullptr ? si(v.drive->delivery_velocity) : default_velocity;
  const bool one_network = v.drive_plumbing == &v.rows;
  static const std::vector<Network::PartIndex> none;
  const auto& suction = v.drive != nullptr ? v.drive_plumbing->drive->suction_hoses : none;
  hose_limits(v.rows, v.rows_solution, velocity, rating, fastest, one_network ? suction : none);
  if (v.drive != nullptr) {
    if (!one_network) hose_limits(*v.drive_plumbing, *v.drive_solution, velocity, rating, fastest, suction);
    const DrivePlumbing& d = *v.drive_plumbing->drive;
    const auto& parts = v.drive_solution->parts;
    std::optional<Limit> suction_velocity;
    for (const auto i : suction) {
      keep_worst(suction_velocity, at_most("suction velocity", v.drive_plumbing->network.part(i).id,
                                           std::abs(parts[i].velocity), si(v.drive->suction_velocity), "m/s",
                                           LimitKind::advised, "extension and pump texts, from memory"));
    }
    if (suction_velocity) all.push_back(std::move(*suction_velocity));
    pump_limits(all, *v.drive, *v.duty, v.liquid, v.job);
    if (d.relief && v.drive->control != DriveControl::relief) {
      Limit l = at_most("relief valve shut", "", parts[*d.relief].drop, si(v.drive->relief->set), "Pa",
                        LimitKind::advised, given);
      if (parts[*d.relief].flow > 0.0) l.margin = std::min(l.margin, -1e-12);
      all.push_back(std::move(l));
    }
    if (d.meter) {
      const double q = std::abs(parts[*d.meter].flow);
      all.push_back(at_most("most meter flow", "", q, si(v.drive->meter->most), "m3/s", LimitKind::wanted, given));
      if (si(v.drive->meter->least) > 0.0) {
        all.push_back(at_least("least meter flow", "", q, si(v.drive->meter->least), "m3/s", LimitKind::wanted, given));
      }
    }
  } else if (const auto limit = pressure_limit(v.job, v.toolbar, &v.rows)) {
    all.push_back(at_most(pressure_limit_name(false), "supply", v.evenness.supply_pressure, limit->most, "Pa",
                          LimitKind::stops, limit->assumed ? assumed_limit_source : given));
  }
  if (v.toolbar == nullptr) part_limits(all, v);
  for (auto* limit : {&rating, &fastest}) {
    if (*limit) all.push_back(std::move(**limit));
  }
  return all;
}

}  // namespace libflow
