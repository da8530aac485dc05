// SPDX-License-Identifier: MIT
#include <libflow/study/operating_control.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/parts/pulsed_valve.hpp>
#include <libflow/parts/pump_curve.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/parts/valve.hpp>

namespace libflow {

namespace operating_control_detail {

constexpr const char* what_can_be_set =
    "a pump, valve, pulsed valve, pressure regulator or relief valve, or a supply that is held at a pressure";
constexpr double slowest = 0.05;         ///< of a pump's full speed
constexpr double least_open = 0.01;      ///< of a valve: shut is another question
constexpr double lowest_pressure = 1.0;  ///< of a regulator or relief valve [Pa]

static PlumbingControl supply_control(const Plumbing& p, Network::PlaceIndex place, double most) {
  const Place& at = p.network.place(place);
  const bool tank = std::any_of(p.tanks.begin(), p.tanks.end(), [&](const PlumbedTank& t) { return t.place == place; });
  if (at.kind != PlaceKind::supply || tank) {
    throw InputError("control", fmt::format("nothing can be set on '{}'", at.id), what_can_be_set);
  }
  return {at.id, "pressure of " + at.id, "Pa", {0.0, std::isfinite(most) ? most : 5e6}, at.pressure, true};
}

}  // namespace operating_control_detail

PlumbingControl plumbing_control(const Plumbing& p, std::string_view id, double most) {
  using namespace operating_control_detail;
  std::vector<std::string> names;
  for (Network::PlaceIndex i = 0; i < p.network.place_count(); ++i) {
    if (p.network.place(i).id == id) return supply_control(p, i, most);
    if (p.network.place(i).kind == PlaceKind::supply) names.push_back(p.network.place(i).id);
  }
  for (Network::PartIndex i = 0; i < p.network.part_count(); ++i) {
    const PlacedPart& placed = p.network.part(i);
    const Part& part = placed.part;
    PlumbingControl c{.id = placed.id, .name = {}, .unit = "1", .settings = {0.0, 1.0}};
    if (const auto* centrifugal = part.as<CentrifugalPump>()) {
      c.present = centrifugal->speed;
      c.name = "speed of ";
    } else if (const auto* curve = part.as<PumpCurve>()) {
      c.present = curve->speed;
      c.name = "speed of ";
    } else if (const auto* positive = part.as<PositivePump>()) {
      c.present = 1.0;
      c.full_rpm = positive->rpm;
      c.name = "speed of ";
    } else if (const auto* valve = part.as<Valve>()) {
      c.present = valve->open;
      c.settings.low = least_open;
      c.name = "opening of ";
    } else if (const auto* pulsed = part.as<PulsedValve>()) {
      c.present = pulsed->duty;
      const double opens = si(pulsed->opening_lag) * pulsed->frequency + 2.0 * PulsedValve::duty_range.low;
      c.settings.low = std::max({least_open, pulsed->least_usable_duty, opens});
      c.name = "duty of ";
    } else if (const auto* regulator = part.as<PressureRegulator>()) {
      c.present = si(regulator->set);
      c.settings = {lowest_pressure, PressureRegulator::set_range.high};
      c.unit = "Pa";
      c.name = "setting of ";
    } else if (const auto* relief = part.as<ReliefValve>()) {
      c.present = si(relief->set);
      c.settings = {lowest_pressure, c.present};
      c.unit = "Pa";
      c.name = "setting of ";
    }
    if (c.name == "speed of ") c.settings = {slowest, std::max(1.0, c.present)};
    if (placed.id == id) {
      if (c.name.empty()) {
        throw InputError("control", fmt::format("nothing can be set on '{}'", placed.id), what_can_be_set);
      }
      c.name += placed.id;
      return c;
    }
    if (!c.name.empty()) names.push_back(placed.id);
  }
  throw InputError("control", fmt::format("there is no part or supply '{}'", id.substr(0, 60)), what_can_be_set,
                   nearest_name(id, names));
}

void set_control(Plumbing& p, const PlumbingControl& c, double setting) {
  if (c.supply) {
    p.network.set_supply_pressure(p.network.find_place(c.id), from_si<Pressure>(setting));
    return;
  }
  const Network::PartIndex i = p.network.find_part(c.id, "control");
  const Part& part = p.network.part(i).part;
  const auto put = [&](auto changed) { p.network.replace_part(i, Part(std::move(changed), c.id)); };
  if (const auto* centrifugal = part.as<CentrifugalPump>()) {
    CentrifugalPump changed = *centrifugal;
    changed.speed = setting;
    put(changed);
  } else if (const auto* curve = part.as<PumpCurve>()) {
    PumpCurve changed = *curve;
    changed.speed = setting;
    put(changed);
  } else if (const auto* positive = part.as<PositivePump>()) {
    PositivePump changed = *positive;
    changed.rpm = setting * c.full_rpm;  // the plumbing may stand at another setting
    put(changed);
  } else if (const auto* valve = part.as<Valve>()) {
    Valve changed = *valve;
    changed.open = setting;
    put(changed);
  } else if (const auto* pulsed = part.as<PulsedValve>()) {
    PulsedValve changed = *pulsed;
    changed.duty = setting;
    put(changed);
  } else if (const auto* regulator = part.as<PressureRegulator>()) {
    PressureRegulator changed = *regulator;
    changed.set = from_si<Pressure>(setting);
    put(changed);
  } else if (const auto* relief = part.as<ReliefValve>()) {
    ReliefValve changed = *relief;
    changed.set = from_si<Pressure>(setting);
    put(changed);
  }
}

}  // namespace libflow
