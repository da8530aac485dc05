// SPDX-License-Identifier: MIT
#include <libflow/toolbar/drive_network.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <variant>

#include <libflow/core/error.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/network/network.hpp>
#include <libflow/network/tank_supply.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/toolbar/drive.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

void add_drive(Plumbing& plumbing, const Drive& given, const LiquidState& liquid, const DriveGround& ground,
               Network::PlaceIndex gauge) {
  check(given);
  if (!given.setting) throw InputError("drive, setting", "is not given", "a setting of the control");
  const Drive drive = with_setting(given, *given.setting);
  Network& n = plumbing.network;
  DrivePlumbing out;

  const auto metres = [](double v) { return from_si<Length>(v); };
  const auto new_place = [&](const std::string& id, Length z) { return n.add_place(id, z); };
  const auto add = [&](const std::string& id, Network::PlaceIndex from, Network::PlaceIndex to, auto part) {
    return n.add_part(id, from, to, Part(std::move(part), id));
  };
  const auto hose = [&](const DriveLine& line) {
    plumbing.hose_total += si(line.length);
    return Hose{.length = line.length, .bore = line.bore, .roughness = ground.roughness, .rating = line.rating};
  };

  // Tanks, their own hoses, and the place where they are tied.
  const Length pump_z = drive.pump_height;
  Network::PlaceIndex at = 0, first_tank = 0;
  const bool tied = drive.tanks.size() > 1 || si(drive.tanks.front().line_length) > 0.0;
  if (tied) at = new_place("tank tie", pump_z);
  for (std::size_t k = 0; k < drive.tanks.size(); ++k) {
    const DriveTank& t = drive.tanks[k];
    const std::string id = tank_name(drive, k);
    const Length bottom = metres(si(t.height) + si(t.ahead) * ground.fore_aft + si(t.right) * ground.side);
    const auto place = add_tank(n, id, t.tank, t.level, liquid, bottom);
    plumbing.tanks.push_back({place, t.tank, si(t.level)});
    if (k == 0) first_tank = place;
    if (!tied) {
      at = place;
      continue;
    }
    out.suction_hoses.push_back(add(id + " line", place, at, hose({t.line_length, t.line_bore, std::nullopt})));
  }

  // Parts in series; each ends in a new place at the pump's height.
  const auto behind = [&](const std::string& id, auto part) {
    const auto next = new_place("behind " + id, pump_z);
    const auto index = add(id, at, next, std::move(part));
    at = next;
    return index;
  };
  if (drive.suction_strainer) behind("suction strainer", *drive.suction_strainer);
  if (si(drive.suction.length) > 0.0) out.suction_hoses.push_back(behind("suction hose", hose(drive.suction)));
  out.pump_inlet = at;
  out.pump = std::visit(
      [&](auto pump) {
        if constexpr (requires { pump.ground_speed; }) pump.ground_speed = ground.speed;
        return behind("pump", std::move(pump));
      },
      drive.pump);
  out.pump_outlet = at;
  if (drive.relief) out.relief = add("relief valve", at, first_tank, *drive.relief);
  if (drive.bypass) out.bypass = add("bypass valve", at, first_tank, *drive.bypass);
  if (drive.agitation) out.agitation = add("agitation jet", at, first_tank, *drive.agitation);

  // Delivery parts; the last one ends at the gauge.
  std::size_t left = std::size_t{si(drive.delivery.length) > 0.0} + std::size_t{drive.meter.has_value()} +
                     std::size_t{drive.line_strainer.has_value()} + std::size_t{drive.throttle.has_value()} +
                     std::size_t{drive.pulse.has_value()} + std::size_t{drive.regulator.has_value()} +
                     std::size_t{drive.section_valve.has_value()};
  if (left == 0) {
    throw InputError("delivery", "nothing lies between the pump and the gauge",
                     "a delivery hose with a length, a valve, a meter or a strainer");
  }
  const auto towards_gauge = [&](const std::string& id, auto part) {
    if (--left > 0) return behind(id, std::move(part));
    return add(id, at, gauge, std::move(part));
  };
  if (drive.meter) out.meter = towards_gauge("flow meter", *drive.meter);
  if (drive.line_strainer) towards_gauge("line strainer", *drive.line_strainer);
  if (drive.throttle) towards_gauge("throttle valve", *drive.throttle);
  if (drive.pulse) towards_gauge("pulsed valve", *drive.pulse);
  if (drive.regulator) out.regulator = towards_gauge("regulator", *drive.regulator);
  if (drive.section_valve) towards_gauge("section valve", *drive.section_valve);
  if (si(drive.delivery.length) > 0.0) {
    out.delivery_hoses.push_back(towards_gauge("delivery hose", hose(drive.delivery)));
  }
  plumbing.drive = std::move(out);
}

}  // namespace libflow
