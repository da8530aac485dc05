// SPDX-License-Identifier: MIT
#include <libflow/file/layout_pump_parts.hpp>

#include <cstddef>
#include <optional>
#include <string_view>

#include <libflow/file/layout_part_keys.hpp>

namespace libflow {

namespace file_detail {

static std::optional<double> read_efficiency(const TomlTable& t) {
  if (!t.has("efficiency")) return std::nullopt;
  return t.fraction("efficiency", physics::pump_efficiency_range);
}

Part read_centrifugal_pump(const TomlTable& t, const Job& /*job*/) {
  CentrifugalPump pump{.shutoff = t.quantity<Pressure>("shutoff", CentrifugalPump::shutoff_range),
                       .free_flow = t.quantity<Flow>("free_flow", CentrifugalPump::free_flow_range)};
  pump.linear_share = share_or(t, "linear_share", {0.001, 1.0}, pump.linear_share);
  pump.speed = share_or(t, "speed", PumpCurve::speed_range, pump.speed);
  pump.efficiency = read_efficiency(t);
  return whole(t, pump);
}

Part read_pump_curve(const TomlTable& t, const Job& /*job*/) {
  PumpCurve pump;
  for (const auto& [flow, gain] : t.pairs<Flow, Pressure>("points", PumpCurve::flow_range, PumpCurve::gain_range)) {
    pump.points.push_back({.flow = flow, .gain = gain});
  }
  // A further column: as many entries as there are points.
  const auto column = [&](std::string_view key, const auto& values, const auto& put) {
    if (values.size() != pump.points.size()) {
      t.fail(key, fmt::format("{} entries for {} points", values.size(), pump.points.size()),
             fmt::format("one for each point: {}", pump.points.size()));
    }
    for (std::size_t i = 0; i < values.size(); ++i) put(pump.points[i], values[i]);
  };
  if (t.has("efficiencies")) {
    column("efficiencies", t.fractions("efficiencies", {0.0, 1.0}), [](PumpPoint& p, double x) { p.efficiency = x; });
  }
  if (t.has("suction_heads")) {
    column("suction_heads", t.quantities<Length>("suction_heads", PumpCurve::suction_head_range),
           [](PumpPoint& p, Length x) { p.suction_head = x; });
  }
  if (t.has("shaft_powers")) {
    column("shaft_powers", t.numbers("shaft_powers", PumpCurve::power_range),
           [](PumpPoint& p, double x) { p.shaft_power = x; });
  }
  pump.atmosphere = quantity_or(t, "atmosphere", PumpCurve::atmosphere_range, pump.atmosphere);
  pump.speed = share_or(t, "speed", PumpCurve::speed_range, pump.speed);
  pump.points_density = quantity_or(t, "density", liquid_density, pump.points_density);
  return whole(t, pump);
}

static PumpSlip read_slip(const TomlTable& t) {
  PumpSlip slip{.flow = t.quantity<Flow>("slip_flow", PositivePump::slip_flow_range),
                .gain = t.quantity<Pressure>("slip_gain", PositivePump::gain_range)};
  slip.viscosity = quantity_or(t, "slip_viscosity", liquid_viscosity, slip.viscosity);
  return slip;
}

Part read_positive_pump(const TomlTable& t, const Job& /*job*/) {
  return whole(
      t, PositivePump{.displacement = t.quantity<Volume>("displacement", PositivePump::displacement_range),
                      .rpm = t.number("rpm", PositivePump::rpm_range),
                      .slip = read_slip(t),
                      .max_pressure = t.optional_quantity<Pressure>("max_pressure", PositivePump::max_pressure_range),
                      .efficiency = read_efficiency(t)});
}

Part read_ground_driven_pump(const TomlTable& t, const Job& job) {
  return whole(t, GroundDrivenPump{
                      .displacement = t.quantity<Volume>("displacement", GroundDrivenPump::displacement_range),
                      .distance = t.quantity<Length>("distance", GroundDrivenPump::distance_range),
                      .ground_speed = job.speed,
                      .slip = read_slip(t),
                      .max_pressure = t.optional_quantity<Pressure>("max_pressure", PositivePump::max_pressure_range),
                      .efficiency = read_efficiency(t)});
}

}  // namespace file_detail

}  // namespace libflow
