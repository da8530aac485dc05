// SPDX-License-Identifier: MIT
// Hoses, fittings, orifices, valves, strainers, meters and outlets.
#include "parts.hpp"

#include <libflow/parts/barb.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/fitting.hpp>
#include <libflow/parts/flow_meter.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/open_end.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/orifice_pair.hpp>
#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/parts/pulsed_valve.hpp>
#include <libflow/parts/reducer.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/parts/row_outlet.hpp>
#include <libflow/parts/strainer.hpp>
#include <libflow/parts/suspension_hose.hpp>
#include <libflow/parts/table_part.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/parts/vented_tube.hpp>

#include "module.hpp"

namespace libflow::python {

namespace {

void add_hoses(py::module_& m) {
  Record<Hose> hose(m, "Hose",
                    "A hose, a tube or a length of bar. Law: Darcy-Weisbach with 64/Re below Re 2000, Colebrook-White\n"
                    "above 4000, a smooth cubic between; coiled: Mishra and Gupta 1979; entrance: Shah 1978.");
  hose.need<&Hose::length>("length", "more than 0, at most 1000 m")
      .need<&Hose::bore>("bore", "inside diameter, 0.1 mm to 0.5 m")
      .may<&Hose::roughness>("roughness", "of the wall, 0 to 0.05 bore; default: drawn tubing")
      .may<&Hose::rating>("rating", "working pressure (gauge); a caution when the inlet is above it")
      .may<&Hose::wall_thickness>("wall_thickness", "for the outside diameter only")
      .may<&Hose::entrance>("entrance", "add the loss of laminar flow that develops from an even velocity")
      .may<&Hose::coil_diameter>("coil_diameter", "between centres of the hose, if it lies coiled");
  finish_part(hose, "Hose");

  Record<SuspensionHose> suspension(m, "SuspensionHose",
                                    "A hose with a liquid that thins with shear (power law with a plateau): exact\n"
                                    "laminar flow, Dodge and Metzner 1959 when turbulent.");
  suspension.need<&SuspensionHose::length>("length", "more than 0, at most 1000 m")
      .need<&SuspensionHose::bore>("bore", "inside diameter, 0.1 mm to 0.5 m")
      .need<&SuspensionHose::consistency>("consistency", "K [Pa s^n], 1e-5 to 1e4")
      .need<&SuspensionHose::flow_index>("flow_index", "n [-], 0.2 to 1")
      .may<&SuspensionHose::plateau_shear_rate>("plateau_shear_rate", "[1/s] below which the viscosity is constant")
      .may<&SuspensionHose::rating>("rating", "working pressure (gauge); a caution when the inlet is above it");
  finish_part(suspension, "SuspensionHose");

  Record<Barb> barb(m, "Barb", "A short narrow tube inside the end of a hose: contraction, friction, expansion.");
  barb.need<&Barb::bore>("bore", "of the barb, 0.1 mm to 0.5 m")
      .need<&Barb::hose_bore>("hose_bore", "before and behind it, wider than the barb")
      .need<&Barb::length>("length", "of the barb, more than 0, at most 0.5 m")
      .may<&Barb::roughness>("roughness", "of its wall, 0 to 0.05 bore");
  finish_part(barb, "Barb");

  Record<Reducer> reducer(m, "Reducer", "One bore becomes another; loses more one way than the other.");
  reducer.need<&Reducer::from_bore>("from_bore", "at its first place")
      .need<&Reducer::to_bore>("to_bore", "at its second place; at least 1 % wider or narrower")
      .may<&Reducer::cone>("cone", "full angle, 5 degrees to 180 (a sudden change)");
  finish_part(reducer, "Reducer");

  Record<Fitting> fitting(m, "Fitting", "A local loss K = k1/Re + k_inf on the velocity in its bore.");
  fitting.need<&Fitting::bore>("bore", "0.1 mm to 0.5 m")
      .need<&Fitting::k1>("k1", "laminar constant [-], 1 to 1e5")
      .need<&Fitting::k_inf>("k_inf", "loss coefficient at high Reynolds number [-], 0 to 1e5");
  auto& f = finish_part(fitting, "Fitting");
  const auto named = [&](const char* name, Fitting (*make)(Length, LossMethod), const char* doc) {
    f.def_static(
        name,
        [make](const QuantityArg& bore, const py::object& method) {
          return make(quantity<Length>(bore, "Fitting, bore"), Convert<LossMethod>::from(method, "Fitting, method"));
        },
        py::kw_only(), py::arg("bore"), py::arg("method") = "two_constant", doc);
  };
  named("elbow_90", &Fitting::elbow_90,
        "A screwed 90 degree elbow. bore [m]; method: 'two_constant' (Hooper 1981) or 'three_constant' (Darby 1999).");
  named("elbow_45", &Fitting::elbow_45, "A screwed 45 degree elbow. bore [m]; method as for elbow_90.");
  named("tee_run", &Fitting::tee_run, "Straight through a tee. bore [m]; method as for elbow_90.");
  named("tee_branch", &Fitting::tee_branch, "Round the corner of a tee. bore [m]; method as for elbow_90.");
  named("ball_valve", &Fitting::ball_valve, "A full-line ball valve, open. bore [m]; method as for elbow_90.");
  f.def_static(
      "rated",
      [](const QuantityArg& bore, const QuantityArg& flow, const QuantityArg& loss, const py::object& k1) {
        return Fitting::rated(quantity<Length>(bore, "Fitting, bore"), quantity<Flow>(flow, "Fitting, flow"),
                              quantity<Pressure>(loss, "Fitting, loss"), number_from(k1, "Fitting, k1"));
      },
      py::kw_only(), py::arg("bore"), py::arg("flow"), py::arg("loss"), py::arg("k1") = Fitting::rated_k1,
      "A device by one rating point: exactly `loss` [Pa] at `flow` [m3/s] of water at 20 C.");
}

void add_holes(py::module_& m) {
  Record<Orifice> orifice(
      m, "Orifice",
      "A metering orifice: a sharp plate, or a hole with a length. Creeping flow by Sampson 1891 and\n"
      "Dagan 1982, free jet at high Reynolds number, bridge fitted to Wu 2002.");
  orifice.need<&Orifice::bore>("bore", "0.05 mm to 50 mm")
      .may<&Orifice::thickness>("thickness", "length of the hole, 0 (sharp plate) to 10 bores")
      .may<&Orifice::discharge_coefficient>("discharge_coefficient", "[-] at high Reynolds number; default by shape")
      .may<&Orifice::bore_tolerance>("bore_tolerance", "holes of one box are this much wider or narrower");
  finish_part(orifice, "Orifice")
      .def_static(
          "rated",
          [](const QuantityArg& flow, const QuantityArg& pressure) {
            return Orifice::rated(quantity<Flow>(flow, "Orifice, flow"),
                                  quantity<Pressure>(pressure, "Orifice, pressure"));
          },
          py::kw_only(), py::arg("flow"), py::arg("pressure"),
          "The sharp orifice that passes `flow` [m3/s] of water at 20 C with `pressure` [Pa] across it.")
      .def(
          "flow_at",
          [](const Orifice& s, const ArrayArg& pressure, const LiquidState& liquid) -> py::object {
            const auto p = array_from(Kind::pressure, pressure, "pressure");
            py::array_t<double, py::array::c_style> out(std::vector<py::ssize_t>(p.shape(), p.shape() + p.ndim()));
            for (py::ssize_t i = 0; i < p.size(); ++i) {
              out.mutable_data()[i] = si(s.flow_at(from_si<Pressure>(p.data()[i]), liquid));
            }
            if (out.ndim() == 0) return py::float_(*out.data());
            return out;
          },
          py::arg("pressure"), py::arg("liquid"), "Flow [m3/s] with pressures [Pa] across it; takes arrays.");
  Record<OrificePair> pair(m, "OrificePair", "Two orifices in series.");
  pair.need<&OrificePair::first>("first", "the one upstream")
      .need<&OrificePair::second>("second", "the one downstream")
      .need<&OrificePair::gap>("gap", "between the plates, more than 0 to 1 m");
  finish_part(pair, "OrificePair");
  Record<OpenEnd> end(m, "OpenEnd", "The end of a tube in the air: its velocity head is lost.");
  end.need<&OpenEnd::bore>("bore", "0.1 mm to 0.5 m");
  finish_part(end, "OpenEnd");
  Record<RowOutlet> outlet(m, "RowOutlet", "One or two tubes at the row's end, hanging or not.");
  outlet.need<&RowOutlet::bore>("bore", "of each tube, 0.1 mm to 0.5 m")
      .may<&RowOutlet::count>("count", "tubes that share the row's flow equally, 1 or 2")
      .may<&RowOutlet::fall>("fall", "of the hanging tube, 0 to 5 m")
      .may<&RowOutlet::surface_tension>("surface_tension", "[N/m], 0.01 to 0.1");
  finish_part(outlet, "RowOutlet");
  Record<VentedTube> vented(m, "VentedTube",
                            "Hanging tubes that take in air at their head while they do not run full.");
  vented.need<&VentedTube::bore>("bore", "of each tube, 0.1 mm to 0.5 m")
      .may<&VentedTube::count>("count", "tubes that share the row's flow equally, 1 or 2")
      .may<&VentedTube::fall>("fall", "from head to foot, 0 to 5 m");
  finish_part(vented, "VentedTube");
}

void add_valves(py::module_& m) {
  const auto rated = [](auto& c, auto make, const char* first, const char* third, const char* doc) {
    c.def_static(
        "rated",
        [make, first, third](const QuantityArg& a, const QuantityArg& flow, const QuantityArg& b) {
          return make(quantity<Pressure>(a, first), quantity<Flow>(flow, "flow"), quantity<Pressure>(b, third));
        },
        py::kw_only(), py::arg(first), py::arg("flow"), py::arg(third), doc);
  };
  Record<CheckValve> check_valve(m, "CheckValve",
                                 "A spring check valve: no flow until the crack pressure, then a passage; never back.");
  check_valve.need<&CheckValve::crack>("crack", "0 to 2 MPa")
      .need<&CheckValve::passage_bore>("passage_bore", "of the sharp hole that loses as much, 0.05 mm to 50 mm")
      .may<&CheckValve::full_open>("full_open", "pressure across it at which it is fully open; None: at once")
      .may<&CheckValve::crack_spread>("crack_spread", "valves of one box crack within this much of `crack`");
  auto& c = finish_part(check_valve, "CheckValve");
  rated(
      c, [](Pressure a, Flow q, Pressure b) { return CheckValve::rated(a, q, b); }, "crack", "loss",
      "A valve that cracks at `crack` [Pa] and loses `loss` [Pa] more at `flow` [m3/s] of water at 20 C.");
  c.def_static(
      "sprung",
      [](const QuantityArg& crack, const QuantityArg& full_open, const QuantityArg& flow) {
        return CheckValve::sprung(quantity<Pressure>(crack, "crack"), quantity<Pressure>(full_open, "full_open"),
                                  quantity<Flow>(flow, "flow"));
      },
      py::kw_only(), py::arg("crack"), py::arg("full_open"), py::arg("flow"),
      "A valve that cracks at `crack` [Pa] and is fully open at `full_open` [Pa], then passing `flow` [m3/s] of "
      "water.");
  Record<ReliefValve> relief(m, "ReliefValve", "Opens at its set pressure.");
  relief.need<&ReliefValve::set>("set", "more than 0, at most 20 MPa")
      .need<&ReliefValve::passage_bore>("passage_bore", "of the sharp hole that loses as much");
  rated(
      finish_part(relief, "ReliefValve"), [](Pressure a, Flow q, Pressure b) { return ReliefValve::rated(a, q, b); },
      "set", "accumulation",
      "A valve set at `set` [Pa] that passes `flow` [m3/s] of water at 20 C with `accumulation` [Pa] more.");
  Record<PressureRegulator> regulator(m, "PressureRegulator", "Holds the pressure behind it.");
  regulator.need<&PressureRegulator::set>("set", "gauge pressure to hold behind it, more than 0, at most 5 MPa")
      .need<&PressureRegulator::passage_bore>("passage_bore", "of the sharp hole that loses as much wide open");
  rated(
      finish_part(regulator, "PressureRegulator"),
      [](Pressure a, Flow q, Pressure b) { return PressureRegulator::rated(a, q, b); }, "set", "loss",
      "A regulator set at `set` [Pa] that loses `loss` [Pa] wide open at `flow` [m3/s] of water at 20 C.");
  Record<Valve> valve(m, "Valve", "A section, ball or throttling valve by its Kv (IEC 60534-2-1). open=0 is shut.");
  valve.need<&Valve::kv>("kv", "water at 1 bar across it, fully open")
      .need<&Valve::bore>("bore", "of the valve and of the line beside it, 0.1 mm to 0.5 m")
      .may<&Valve::open>("open", "share of its travel [-], 0 (shut) to 1")
      .may<&Valve::characteristic>("characteristic", "how its coefficient follows its travel")
      .may<&Valve::rangeability>("rangeability", "rated over least controllable coefficient [-], 2 to 1000")
      .may<&Valve::recovery>("recovery", "pressure recovery FL [-], 0.3 to 1")
      .may<&Valve::style>("style", "style modifier Fd [-], 0.05 to 1");
  finish_part(valve, "Valve")
      .def_static(
          "ball",
          [](const QuantityArg& kv, const QuantityArg& bore, const py::object& open) {
            return Valve::ball(quantity<Flow>(kv, "Valve, kv"), quantity<Length>(bore, "Valve, bore"),
                               number_from(open, "Valve, open"));
          },
          py::kw_only(), py::arg("kv"), py::arg("bore"), py::arg("open") = 1.0, "A ball valve. kv [m3/s], bore [m].");
  Record<PulsedValve> pulsed(m, "PulsedValve", "A solenoid valve that is open a share of the time.");
  pulsed.need<&PulsedValve::passage_bore>("passage_bore", "of the sharp hole that loses the same, 0.05 mm to 50 mm")
      .may<&PulsedValve::outlet_bore>("outlet_bore", "sharp metering orifice right behind it")
      .may<&PulsedValve::duty>("duty", "share of the time that the signal is on [-], more than 0 to 1")
      .may<&PulsedValve::frequency>("frequency", "pulses a second [Hz], 0.1 to 100")
      .may<&PulsedValve::opening_lag>("opening_lag", "from signal to open, 0 to 1 s")
      .may<&PulsedValve::closing_lag>("closing_lag", "from its end to shut, 0 to 1 s")
      .may<&PulsedValve::least_usable_duty>("least_usable_duty", "below it a caution [-]");
  finish_part(pulsed, "PulsedValve")
      .def_static(
          "rated",
          [](const QuantityArg& flow, const QuantityArg& loss) {
            return PulsedValve::rated(quantity<Flow>(flow, "flow"), quantity<Pressure>(loss, "loss"));
          },
          py::kw_only(), py::arg("flow"), py::arg("loss"),
          "A valve that loses `loss` [Pa] at `flow` [m3/s] of water at 20 C while it is open.");
}

void add_devices(py::module_& m) {
  Record<Strainer> strainer(m, "Strainer", "A screen in its body, clean or partly blocked.");
  strainer.need<&Strainer::bore>("bore", "of its ports, 0.1 mm to 0.5 m")
      .need<&Strainer::rated_flow>("rated_flow", "water, 20 C")
      .need<&Strainer::rated_loss>("rated_loss", "clean, at rated_flow")
      .need<&Strainer::opening>("opening", "of one mesh, 0.01 mm to 10 mm; see mesh_opening()")
      .need<&Strainer::open_area>("open_area", "of the clean screen, all openings together")
      .may<&Strainer::blocked>("blocked", "share of the open area [-], 0 to 0.99")
      .may<&Strainer::orifice_bore>("orifice_bore", "smallest hole that it protects; for cautions");
  finish_part(strainer, "Strainer")
      .def_static(
          "mesh_opening", [](int mesh) { return si(Strainer::mesh_opening(mesh)); }, py::arg("mesh"),
          "Opening [m] of a mesh number.");
  Record<FlowMeter> meter(m, "FlowMeter", "A loss known at one flow, and a range of flows in which it reads true.");
  meter.need<&FlowMeter::bore>("bore", "of its ports, 0.1 mm to 0.5 m")
      .need<&FlowMeter::rated_flow>("rated_flow", "water, 20 C")
      .need<&FlowMeter::rated_loss>("rated_loss", "at rated_flow")
      .need<&FlowMeter::least>("least", "of its working range")
      .need<&FlowMeter::most>("most", "of its working range");
  finish_part(meter, "FlowMeter");
  Record<TablePoint>(m, "TablePoint", "One measured point of a part.")
      .need<&TablePoint::flow>("flow", "through it, more than 0")
      .need<&TablePoint::drop>("drop", "across it, more than 0")
      .done();
  Record<TablePart> table(m, "TablePart", "A part by a table of flow and drop; by similarity in another liquid.");
  table.need<&TablePart::points>("points", "2 to 1000 TablePoint, flow and drop both rising")
      .may<&TablePart::density>("density", "of the measured liquid")
      .may<&TablePart::viscosity>("viscosity", "of the measured liquid")
      .may<&TablePart::rigid>("rigid", "nothing in it moves with the flow");
  finish_part(table, "TablePart");
}

}  // namespace

void add_parts(py::module_& m) {
  add_hoses(m);
  add_holes(m);
  add_valves(m);
  add_devices(m);
}

}  // namespace libflow::python
