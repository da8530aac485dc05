// SPDX-License-Identifier: MIT
#include <libflow/file/layout_drive.hpp>

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/layout_job.hpp>
#include <libflow/file/layout_part_keys.hpp>
#include <libflow/file/layout_parts.hpp>
#include <libflow/file/layout_pump_parts.hpp>
#include <libflow/file/layout_tank.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

namespace file_detail {

bool has_drive(const TomlTable& top) {
  return std::any_of(drive_tables.begin(), drive_tables.end(), [&](std::string_view key) { return top.has(key); });
}

/// A table read as a part by one of layout_parts.hpp's readers.
template <PartType T, class Read>
[[nodiscard]] T part_as(const TomlTable& table, const Job& job, Read read) {
  return *read(table, job).template as<T>();
}

static DriveTank read_drive_tank(const TomlTable& t, const Job& job, bool tied) {
  const FilledTank filled = read_tank(t);
  DriveTank tank{.tank = filled.tank, .level = filled.level};
  if (t.has("id")) tank.id = t.text("id");
  tank.height = quantity_or(t, "above_outlets", drive_limits::offset, tank.height);
  tank.ahead = quantity_or(t, "ahead", drive_limits::offset, tank.ahead);
  tank.right = quantity_or(t, "right", drive_limits::offset, tank.right);
  if (tied) t.need("hose_length");
  tank.line_length = quantity_or(t, "hose_length", drive_limits::line, tank.line_length);
  if (tied && si(tank.line_length) == 0.0) {
    t.fail("hose_length", "0 with more than one tank", "more than 0, so that the flow between the tanks is known");
  }
  if (t.has("hose_bore")) tank.line_bore = t.bore("hose_bore", Hose::bore_range);
  placed(t.where("level"), [&] {
    tank.tank.check("tank");
    return tank.tank.outlet_pressure(tank.level, job.liquid.at(job.temperature));
  });
  return tank;
}

static DriveLine read_line(const TomlTable& t, DriveLine line) {
  line.length = quantity_or(t, "length", drive_limits::line, line.length);
  if (t.has("bore")) line.bore = t.bore("bore", Hose::bore_range);
  line.rating = t.optional_quantity<Pressure>("rating", layout_limits::pressure);
  return line;
}

static PumpChoice read_pump(const TomlTable& t, const Job& job) {
  enum class Kind { centrifugal, curve, positive, ground };
  const Kind kind = t.choice<Kind>("kind", {{"centrifugal_pump", Kind::centrifugal},
                                            {"pump_curve", Kind::curve},
                                            {"positive_pump", Kind::positive},
                                            {"ground_driven_pump", Kind::ground}});
  const auto fitting = [&](std::vector<std::string_view> keys) {
    keys.insert(keys.end(), {"kind", "above_outlets"});
    require_fitting_keys(t, layout_keys::pump, fmt::format("kind = \"{}\"", t.text("kind")), keys);
  };
  switch (kind) {
    case Kind::centrifugal:
      fitting({"shutoff", "free_flow", "linear_share", "efficiency"});
      return part_as<CentrifugalPump>(t, job, read_centrifugal_pump);
    case Kind::curve:
      fitting({"points", "efficiencies", "suction_heads", "shaft_powers", "density"});
      return part_as<PumpCurve>(t, job, read_pump_curve);
    case Kind::positive:
      fitting({"displacement", "rpm", "slip_flow", "slip_gain", "slip_viscosity", "max_pressure", "efficiency"});
      return part_as<PositivePump>(t, job, read_positive_pump);
    case Kind::ground:
      break;
  }
  fitting({"displacement", "distance", "slip_flow", "slip_gain", "slip_viscosity", "max_pressure", "efficiency"});
  return part_as<GroundDrivenPump>(t, job, read_ground_driven_pump);
}

static PressureRegulator read_regulator(const TomlTable& t, bool moved) {
  PressureRegulator regulator{.set = from_si<Pressure>(PressureRegulator::set_range.high)};
  if (!moved) {
    regulator.set = t.quantity<Pressure>("set", PressureRegulator::set_range);
  } else if (t.has("set")) {
    t.fail("set", "is what the control moves", "least and most in [drive], or no set");
  }
  regulator.passage_bore = given_by(t, "passage_bore", {"rated_flow", "rated_loss"})
                               ? t.bore("passage_bore", Orifice::bore_range)
                               : rated_bore(t, "rated_loss");
  return regulator;
}

/// A valve that the control may move; then its opening is not given.
static Valve read_drive_valve(const TomlTable& t, const Job& job, bool moved) {
  if (moved && t.has("open")) t.fail("open", "is what the control moves", "least and most in [drive], or no open");
  return part_as<Valve>(t, job, read_valve);
}

static double read_setting(const TomlTable& t, std::string_view key, DriveControl control) {
  const Range allowed = allowed_settings(control);
  return is_pressure(control) ? si(t.quantity<Pressure>(key, allowed)) : t.fraction(key, allowed);
}

Drive read_drive(const TomlTable& top, const Job& job) {
  using C = DriveControl;
  for (const std::string_view key : {"drive", "tank", "pump"}) top.need(key);
  const TomlTable table = top.table("drive", layout_keys::drive);
  Drive d;
  d.control = table.choice<C>("control", {{"pump_speed", C::pump_speed},
                                          {"regulator", C::regulator},
                                          {"relief", C::relief},
                                          {"bypass", C::bypass},
                                          {"throttle", C::throttle},
                                          {"pulse", C::pulse}});
  if (table.has("least")) d.least = read_setting(table, "least", d.control);
  if (table.has("most")) d.most = read_setting(table, "most", d.control);
  if (table.has("setting")) d.setting = read_setting(table, "setting", d.control);

  const std::vector<TomlTable> tanks = top.tables("tank", layout_keys::drive_tank);
  if (tanks.empty() || tanks.size() > drive_limits::tanks) {
    top.fail("tank", fmt::format("{} tanks", tanks.size()), fmt::format("1 to {} tanks", drive_limits::tanks));
  }
  for (const TomlTable& t : tanks) d.tanks.push_back(read_drive_tank(t, job, tanks.size() > 1));

  const auto with = [&](std::string_view key, std::span<const LayoutKey> keys, auto&& read) {
    if (top.has(key)) read(top.table(key, keys));
  };
  with("suction", layout_keys::suction, [&](const TomlTable& t) {
    d.suction = read_line(t, d.suction);
    d.suction_limit = t.optional_quantity<Pressure>("lowest_pressure", drive_limits::suction_pressure);
    d.suction_velocity = quantity_or(t, "velocity", drive_limits::velocity, d.suction_velocity);
  });
  with("delivery", layout_keys::delivery, [&](const TomlTable& t) {
    d.delivery = read_line(t, d.delivery);
    d.delivery_velocity = quantity_or(t, "velocity", drive_limits::velocity, d.delivery_velocity);
  });
  with("suction_strainer", layout_keys::drive_strainer,
       [&](const TomlTable& t) { d.suction_strainer = part_as<Strainer>(t, job, read_strainer); });
  with("pump", layout_keys::pump, [&](const TomlTable& t) {
    d.pump = read_pump(t, job);
    d.pump_height = quantity_or(t, "above_outlets", drive_limits::offset, d.pump_height);
  });
  with("relief", layout_keys::relief,
       [&](const TomlTable& t) { d.relief = part_as<ReliefValve>(t, job, read_relief_valve); });
  with("bypass", layout_keys::drive_valve,
       [&](const TomlTable& t) { d.bypass = read_drive_valve(t, job, d.control == C::bypass); });
  with("agitation", layout_keys::orifice,
       [&](const TomlTable& t) { d.agitation = part_as<Orifice>(t, job, read_orifice_part); });
  with("meter", layout_keys::drive_meter,
       [&](const TomlTable& t) { d.meter = part_as<FlowMeter>(t, job, read_flow_meter); });
  with("line_strainer", layout_keys::drive_strainer,
       [&](const TomlTable& t) { d.line_strainer = part_as<Strainer>(t, job, read_strainer); });
  with("throttle", layout_keys::drive_valve,
       [&](const TomlTable& t) { d.throttle = read_drive_valve(t, job, d.control == C::throttle); });
  with("pulse", layout_keys::drive_pulse, [&](const TomlTable& t) {
    if (d.control == C::pulse && t.has("duty")) {
      t.fail("duty", "is what the control moves", "least and most in [drive], or no duty");
    }
    d.pulse = part_as<PulsedValve>(t, job, read_pulsed_valve);
  });
  with("regulator", layout_keys::drive_regulator,
       [&](const TomlTable& t) { d.regulator = read_regulator(t, d.control == C::regulator); });
  with("section_valve", layout_keys::drive_valve,
       [&](const TomlTable& t) { d.section_valve = read_drive_valve(t, job, false); });
  placed(table.where(), [&] {
    check(d);
    return 0;
  });
  return d;
}

WorkingRange read_range(const TomlTable& top) {
  WorkingRange range;
  if (!top.has("range")) return range;
  const TomlTable t = top.table("range", layout_keys::range);
  const auto rising = [&](std::string_view key, const auto& values) {
    for (std::size_t i = 1; i < values.size(); ++i) {
      if (!(si(values[i]) > si(values[i - 1]))) {
        t.fail(key, fmt::format("value {} is not above the one before it", i + 1), "values that rise");
      }
    }
  };
  if (t.has("speeds")) range.speeds = t.quantities<Speed>("speeds", layout_limits::speed);
  if (t.has("rates")) range.rates = t.quantities<AreaRate>("rates", layout_limits::rate);
  rising("speeds", range.speeds);
  rising("rates", range.rates);
  return range;
}

}  // namespace file_detail

}  // namespace libflow
