// SPDX-License-Identifier: MIT
// Pumps and tanks.
#include "parts.hpp"

#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/pump_curve.hpp>
#include <libflow/parts/tank.hpp>

#include "module.hpp"

namespace libflow::python {

void add_pumps(py::module_& m) {
  Record<CentrifugalPump> pump(m, "CentrifugalPump", "A gain that falls as the flow rises, by two figures.");
  pump.need<&CentrifugalPump::shutoff>("shutoff", "gain at no flow, 1 Pa to 5 MPa")
      .need<&CentrifugalPump::free_flow>("free_flow", "flow at no gain, more than 0, at most 1 m3/s")
      .may<&CentrifugalPump::linear_share>("linear_share", "of the fall that is linear in flow [-], 0.001 to 1")
      .may<&CentrifugalPump::efficiency>("efficiency", "of the pump alone [-], 0.01 to 1; None: no shaft power is told")
      .may<&CentrifugalPump::speed>("speed", "against the curve's speed [-], 0.05 to 3");
  finish_part(pump, "CentrifugalPump");
  Record<PumpPoint>(m, "PumpPoint", "One point of a pump curve.")
      .need<&PumpPoint::flow>("flow", "first row 0, then rising")
      .need<&PumpPoint::gain>("gain", "total, never rising from row to row")
      .may<&PumpPoint::efficiency>("efficiency", "pump alone [-], 0 to 1")
      .may<&PumpPoint::suction_head>("suction_head", "net positive suction head required")
      .may<&PumpPoint::shaft_power>("shaft_power", "[W]")
      .done();
  Record<PumpCurve> curve(m, "PumpCurve", "A centrifugal pump by its points.");
  curve.need<&PumpCurve::points>("points", "4 or more PumpPoint")
      .may<&PumpCurve::speed>("speed", "against the points' speed [-], 0.05 to 3")
      .may<&PumpCurve::points_density>("points_density", "of the liquid in which the gains hold")
      .may<&PumpCurve::atmosphere>("atmosphere", "absolute, for the suction head");
  finish_part(curve, "PumpCurve");
  Record<PumpSlip>(m, "PumpSlip", "What a positive pump delivers less than it sweeps, measured once.")
      .need<&PumpSlip::flow>("flow", "swept less delivered")
      .need<&PumpSlip::gain>("gain", "at which it was measured, 1 kPa to 20 MPa")
      .may<&PumpSlip::viscosity>("viscosity", "of the liquid: water at 20 C")
      .done();
  Record<PositivePump> positive(m, "PositivePump", "A piston, diaphragm or roller pump: swept flow less slip.");
  positive.need<&PositivePump::displacement>("displacement", "swept a revolution, more than 0, at most 0.1 m3")
      .need<&PositivePump::rpm>("rpm", "revolutions a minute, more than 0, at most 10,000")
      .need<&PositivePump::slip>("slip", "measured once")
      .may<&PositivePump::max_pressure>("max_pressure", "at the outlet, gauge, to 20 MPa")
      .may<&PositivePump::efficiency>("efficiency", "of the pump alone [-], 0.01 to 1; None: no shaft power is told");
  finish_part(positive, "PositivePump");
  Record<GroundDrivenPump> ground(m, "GroundDrivenPump", "A positive pump turned by a ground wheel.");
  ground.need<&GroundDrivenPump::displacement>("displacement", "swept over `distance`, more than 0, at most 1 m3")
      .need<&GroundDrivenPump::distance>("distance", "travelled meanwhile, 1 mm to 10 km")
      .need<&GroundDrivenPump::ground_speed>("ground_speed", "0.01 to 20 m/s")
      .need<&GroundDrivenPump::slip>("slip", "measured once")
      .may<&GroundDrivenPump::max_pressure>("max_pressure", "at the outlet, gauge, to 20 MPa")
      .may<&GroundDrivenPump::efficiency>("efficiency",
                                          "of the pump alone [-], 0.01 to 1; None: no shaft power is told");
  finish_part(ground, "GroundDrivenPump");

  Record<UprightTank>(m, "UprightTank", "A tank with upright walls.")
      .need<&UprightTank::plan>("plan", "inside area, 1 cm2 to 1000 m2")
      .need<&UprightTank::height>("height", "inside, 1 cm to 20 m")
      .done();
  Record<LyingTank>(m, "LyingTank", "A round or oval tank that lies down.")
      .need<&LyingTank::height>("height", "inside; equal to the width: round")
      .need<&LyingTank::width>("width", "inside")
      .need<&LyingTank::length>("length", "inside, 1 cm to 100 m")
      .done();
  Record<TankTable::Row>(m, "TankRow", "One row of a tank's table.")
      .need<&TankTable::Row::level>("level", "above the inside bottom; first row 0, then rising")
      .need<&TankTable::Row::volume>("volume", "first row 0, then rising")
      .done();
  Record<TankTable>(m, "TankTable", "A tank of any shape by a table.")
      .need<&TankTable::rows>("rows", "4 or more TankRow")
      .done();
  Record<Tank> tank(m, "Tank", "A tank: level, volume, pressure at its outlet.");
  tank.own(
          "shape", "libflow._libflow.UprightTank | libflow._libflow.LyingTank | libflow._libflow.TankTable",
          "an UprightTank, a LyingTank or a TankTable", true,
          [](Tank& t, py::handle v, std::string_view where) {
            if (py::isinstance<UprightTank>(v)) {
              t.shape = v.cast<UprightTank>();
            } else if (py::isinstance<LyingTank>(v)) {
              t.shape = v.cast<LyingTank>();
            } else if (py::isinstance<TankTable>(v)) {
              t.shape = v.cast<TankTable>();
            } else {
              throw InputError(std::string(where), type_name(v) + " where a tank's shape is wanted",
                               "an UprightTank, a LyingTank or a TankTable");
            }
          },
          [](const Tank& t) { return std::visit([](const auto& s) { return py::cast(s); }, t.shape); })
      .may<&Tank::top_pressure>("top_pressure", "gauge, of the air above the liquid; 0 with an open vent")
      .may<&Tank::outlet_level>("outlet_level", "of the outlet's opening")
      .may<&Tank::lowest_level>("lowest_level", "below it nothing is drawn; at least the outlet's level")
      .done([](const Tank& t, std::string_view where) { t.check(where); })
      .def_property_readonly(
          "capacity", [](const Tank& t) { return si(t.capacity()); }, "[m3]")
      .def(
          "volume", [](const Tank& t, const QuantityArg& l) { return si(t.volume(quantity<Length>(l, "level"))); },
          py::arg("level"), "Volume [m3] of the liquid at a level [m].")
      .def(
          "level", [](const Tank& t, const QuantityArg& v) { return si(t.level(quantity<Volume>(v, "volume"))); },
          py::arg("volume"), "Level [m] of a volume [m3] of liquid.")
      .def(
          "outlet_pressure",
          [](const Tank& t, const QuantityArg& l, const LiquidState& liquid) {
            return si(t.outlet_pressure(quantity<Length>(l, "level"), liquid));
          },
          py::arg("level"), py::arg("liquid"), "Gauge pressure [Pa] at its outlet with the liquid at a level [m].");
}

}  // namespace libflow::python
