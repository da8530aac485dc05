// SPDX-License-Identifier: MIT
/// @file
/// Every limit of a toolbar at one operating point, as data: how near it is and what it means to break it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <libflow/core/range.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/physics/pump.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

/// What it means to break a limit.
enum class LimitKind {
  stops,   ///< it cannot be run: not enough, nothing from a row, danger
  wanted,  ///< it runs, but not as asked: uneven, orifices outside their window, a meter outside its range
  advised  ///< good practice only
};

/// One limit. SI.
struct Limit {
  std::string name;     ///< fixed words, e.g. "hose rating"
  std::string subject;  ///< the part or row that is nearest to it; may be empty
  double value = 0;
  double limit = 0;
  std::string unit;   ///< "Pa", "m3/s", "m/s", "m"; "1" for a share
  bool upper = true;  ///< true: the value must not be above the limit; false: not below
  double margin = 0;  ///< room left as a share of the limit (of a control: of its range); negative: broken [-]
  LimitKind kind = LimitKind::advised;
  std::string source;  ///< where the limit comes from

  [[nodiscard]] bool broken() const { return margin < 0.0; }
};
using Limits = std::vector<Limit>;

/// The limit with the least margin, or nullptr where there is none. @param stopping  only among those that stop it
[[nodiscard]] inline const Limit* binding_limit(const Limits& limits, bool stopping = false) {
  const Limit* least = nullptr;
  for (const Limit& l : limits) {
    if (stopping && l.kind != LimitKind::stops) continue;
    if (least == nullptr || l.margin < least->margin) least = &l;
  }
  return least;
}

/// A pump at work. SI.
struct PumpDuty {
  double flow = 0;                               ///< through it [m3/s]
  double gain = 0;                               ///< total pressure behind it less ahead of it [Pa]
  double inlet = 0, outlet = 0;                  ///< total gauge pressure [Pa]
  double suction_available = 0;                  ///< net positive suction head [m]
  std::optional<double> suction_required{};      ///< [m], where its curve says so
  double hydraulic_power = 0;                    ///< flow times gain [W]
  double relief = 0, bypass = 0, agitation = 0;  ///< flows back to the tank [m3/s]
  /// How much more it could send to the rows at this gauge pressure with its control at the most, over what it sends
  /// now [-].
  double reserve = 0;
};

namespace limits_detail {

inline constexpr std::string_view given = "given in the layout";
/// Capacity beyond outlets and agitation, for wear (Virginia Tech publication 442-452).
inline constexpr double wear_reserve = 0.2;
inline constexpr double atmosphere = 101325.0;  // standard [Pa]
inline constexpr double default_velocity = 6.0 * 0.3048;

inline Limit at_most(std::string name, std::string subject, double value, double limit, std::string unit,
                     LimitKind kind, std::string_view source) {
  return {std::move(name),    std::move(subject), value, limit, std::move(unit), true, 1.0 - value / limit, kind,
          std::string(source)};
}
inline Limit at_least(std::string name, std::string subject, double value, double limit, std::string unit,
                      LimitKind kind, std::string_view source) {
  return {std::move(name),    std::move(subject), value, limit, std::move(unit), false, value / limit - 1.0, kind,
          std::string(source)};
}

/// Keeps the worst of several candidates for one limit.
inline void keep_worst(std::optional<Limit>& worst, Limit candidate) {
  if (!worst || candidate.margin < worst->margin) worst = std::move(candidate);
}

/// Ratings and velocities of hoses. @param skip  suction hoses, which have limits of their own
inline void hose_limits(const Plumbing& p, const Solution& s, double velocity, std::optional<Limit>& rating,
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

inline void row_limits(Limits& all, const Plumbing& p, const Solution& s, const Toolbar* toolbar, double weight) {
  std::optional<Limit> valve, least, most;
  for (const RowPlumbing& row : p.rows) {
    if (row.shut) continue;
    const std::string subject = fmt::format("row {}", row.row);
    for (std::size_t k = 0; k < row.check_valves.size(); ++k) {
      const auto* part = p.network.part(row.check_valves[k]).part.as<CheckValve>();
      if (part == nullptr || si(part->crack) <= 0.0 || k >= row.airs.size()) continue;
      const auto ahead = p.network.from(row.check_valves[k]);
      const double head = s.places[ahead].total_pressure +
                          weight * (p.network.place(ahead).elevation - p.network.place(row.airs[k]).elevation);
      keep_worst(valve, at_least("check valve opens", subject, head, si(part->crack), "Pa", LimitKind::stops, given));
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

inline void pump_limits(Limits& all, const Drive& drive, const PumpDuty& duty, const LiquidState& liquid,
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
    all.push_back(at_most("pump limit", "", duty.outlet, si(*job.pump_limit), "Pa", LimitKind::stops, given));
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

}  // namespace limits_detail

/// What limits are looked up in. The rows and the drive may be one network or two.
struct LimitView {
  const Toolbar* toolbar = nullptr;  ///< nullptr: free form
  const Job& job;
  const LiquidState& liquid;
  const Plumbing& rows;
  const Solution& rows_solution;
  const Evenness& evenness;
  const Drive* drive = nullptr;  ///< at its setting; nullptr: an ideal supply
  const Plumbing* drive_plumbing = nullptr;
  const Solution* drive_solution = nullptr;
  const PumpDuty* duty = nullptr;
};

/// Every limit but the control's own range, in no order.
[[nodiscard]] inline Limits find_limits(const LimitView& v) {
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
  } else if (v.job.pump_limit) {
    all.push_back(at_most("pump limit", "supply", v.evenness.supply_pressure, si(*v.job.pump_limit), "Pa",
                          LimitKind::stops, given));
  }
  for (auto* limit : {&rating, &fastest}) {
    if (*limit) all.push_back(std::move(**limit));
  }
  return all;
}

}  // namespace libflow
