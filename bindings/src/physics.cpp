// SPDX-License-Identifier: MIT
// The physics formulas one by one, over arrays.
#include <algorithm>
#include <memory>
#include <string>
#include <vector>

#include <fmt/format.h>

#include <libflow/core/range.hpp>
#include <libflow/fluid/water.hpp>
#include <libflow/physics.hpp>
#include <libflow/toolbar/rate.hpp>

#include "formula.hpp"
#include "module.hpp"

namespace libflow::python {

namespace {

struct Formula {
  std::string name;
  std::vector<Argument> arguments;
  double (*of)(const double* x);
};

void check(const Formula& f, const Argument& a, double x, py::ssize_t i, py::ssize_t size) {
  if (a.range.contains(x)) return;
  const std::string where =
      fmt::format("{}, {}{}", f.name, a.name, size > 1 ? fmt::format(", number {}", i) : std::string());
  if (a.range.low == formula::positive.low) {
    throw InputError(where, fmt::format("{:.6g}", x), "more than 0");
  }
  require_in(where, x, a.range, a.kind ? kind_row(*a.kind).units[0].name : "");
}

py::object apply(const Formula& f, const py::args& args, const py::kwargs& kwargs) {
  const std::size_t n = f.arguments.size();
  std::vector<std::string> names;
  std::string call;
  for (const Argument& a : f.arguments) {
    names.push_back(a.name);
    call += (call.empty() ? "" : ", ") + a.name;
  }
  call = f.name + "(" + call + ")";
  if (args.size() > n) throw InputError(f.name, fmt::format("{} values", args.size()), call);
  for (const auto& item : kwargs) {
    const std::string key = py::str(item.first);
    const auto at = std::find(names.begin(), names.end(), key);
    if (at == names.end()) {
      throw InputError(f.name, fmt::format("there is no argument '{}'", key), call, nearest_name(key, names));
    }
    if (static_cast<std::size_t>(at - names.begin()) < args.size()) {
      throw InputError(f.name, fmt::format("'{}' is given twice", key), call);
    }
  }
  using Array = py::array_t<double, py::array::c_style>;
  std::vector<py::array> arrays;
  for (std::size_t k = 0; k < n; ++k) {
    const Argument& a = f.arguments[k];
    py::object given = py::none();
    if (k < args.size()) {
      given = args[k];
    } else if (kwargs.contains(a.name.c_str())) {
      given = kwargs[a.name.c_str()];
    } else if (a.otherwise) {
      given = py::float_(*a.otherwise);
    } else {
      throw InputError(f.name, fmt::format("'{}' is missing", a.name), call);
    }
    Array array = array_from(a.kind, given, fmt::format("{}, {}", f.name, a.name));
    for (py::ssize_t i = 0; i < array.size(); ++i) check(f, a, array.data()[i], i, array.size());
    arrays.push_back(std::move(array));
  }
  const std::vector<py::ssize_t> shape = broadcast_shape(f.name, names, arrays);
  Array out(shape);
  // Steps of each array over the output, 0 where it is broadcast.
  std::vector<std::vector<py::ssize_t>> step(n, std::vector<py::ssize_t>(shape.size(), 0));
  for (std::size_t k = 0; k < n; ++k) {
    py::ssize_t stride = 1;
    for (py::ssize_t d = arrays[k].ndim() - 1; d >= 0; --d) {
      const auto at = shape.size() - static_cast<std::size_t>(arrays[k].ndim() - d);
      if (arrays[k].shape(d) != 1) step[k][at] = stride;
      stride *= arrays[k].shape(d);
    }
  }
  std::vector<const double*> data(n);
  for (std::size_t k = 0; k < n; ++k) data[k] = static_cast<const double*>(arrays[k].data());
  double* to = out.mutable_data();
  const py::ssize_t size = out.size();
  {
    const py::gil_scoped_release release;
    std::vector<double> x(n);
    for (py::ssize_t i = 0; i < size; ++i) {
      for (std::size_t k = 0; k < n; ++k) {
        py::ssize_t rest = i, offset = 0;
        for (std::size_t d = shape.size(); d-- > 0;) {
          offset += rest % shape[d] * step[k][d];
          rest /= shape[d];
        }
        x[k] = data[k][offset];
      }
      to[i] = f.of(x.data());
    }
  }
  if (shape.empty()) return py::float_(*to);
  return out;
}

}  // namespace

void add_formula(py::module_& m, const char* name, std::vector<Argument> arguments, const char* doc,
                 double (*of)(const double* x)) {
  const auto f = std::make_shared<const Formula>(Formula{name, std::move(arguments), of});
  std::string signature = std::string(name) + "(";
  for (const Argument& a : f->arguments) {
    signature += (signature.ends_with('(') ? "" : ", ") + a.name + ": numpy.typing.ArrayLike";
    if (a.otherwise) signature += " = " + py::repr(py::float_(*a.otherwise)).cast<std::string>();
  }
  signature += ") -> typing.Any\n\n" + std::string(doc) +
               "\n\nTakes numbers or arrays, which broadcast; a quantity "
               "also as text with its unit. Returns a float or an array.";
  py::options options;
  options.disable_function_signatures();
  m.def(
      name, [f](const py::args& args, const py::kwargs& kwargs) { return apply(*f, args, kwargs); }, signature.c_str());
}

namespace {

void add_friction(py::module_& m) {
  using namespace physics;
  using namespace formula;
  add_formula(m, "reynolds_number", {flow, bore, density, viscosity},
              "Reynolds number of a flow [m3/s] in a round bore [m], 4 rho |q| / (pi D mu) [-].",
              [](const double* x) { return physics::reynolds_number<double>(x[0], x[1], x[2], x[3]); });
  add_formula(m, "velocity_head", {flow, bore, density},
              "Velocity head rho V^2/2 [Pa] of a flow [m3/s] in a round bore [m].",
              [](const double* x) { return physics::velocity_head<double>(x[0], x[1], x[2]); });
  add_formula(m, "friction_laminar", {re}, "Darcy friction factor of laminar flow, 64/Re [-]; valid to Re 2000.",
              [](const double* x) { return friction_laminar<double>(x[0]).f; });
  add_formula(m, "friction_colebrook", {{"re", {}, colebrook_re}, rel_roughness},
              "Darcy friction factor of turbulent flow [-] by Colebrook-White (1939), full precision; Re 4e3 to 1e8,\n"
              "rel_roughness e/D 0 to 0.05. Steps of Clamond 2009.",
              [](const double* x) { return friction_colebrook<double>(x[0], x[1]).f; });
  add_formula(
      m, "friction_darcy", {re, rel_roughness},
      "Darcy friction factor over all regimes [-]: 64/Re to Re 2000, Colebrook-White from 4000, between them the "
      "cubic\n"
      "that continues value and slope; rel_roughness e/D 0 to 0.05.",
      [](const double* x) { return friction_darcy<double>(x[0], x[1]).f; });
  add_formula(
      m, "hose_drop", {flow, length, bore, density, viscosity, roughness},
      "Darcy-Weisbach drop [Pa] at a flow [m3/s, either sign] in a straight hose: length [m], bore [m], density "
      "[kg/m3],\n"
      "viscosity [Pa s], roughness [m].",
      [](const double* x) {
        return drop_wall_friction<double>(x[0], wall_friction<double>(x[1], x[2], x[5], x[3], x[4])).dp;
      });
  add_formula(
      m, "coil_drop",
      {flow, length, bore, {"curvature", {}, {0.0, coil_curvature.high}}, density, viscosity, roughness},
      "Drop [Pa] of a coiled hose; curvature: bore over coil diameter [-], 0 to 0.15. Mishra and Gupta 1979, Schmidt "
      "1967.",
      [](const double* x) {
        return drop_coil_friction<double>(
                   x[0], coil_friction<double>(wall_friction<double>(x[1], x[2], x[6], x[4], x[5]), x[3]))
            .dp;
      });
  add_formula(m, "dean_number", {re, {"curvature", {}, {0.0, 0.15}}}, "Dean number Re sqrt(d/D) [-].",
              [](const double* x) { return physics::dean_number<double>(x[0], x[1]); });
  add_formula(m, "coil_laminar_limit_re", {{"curvature", {}, {0.0, 0.15}}},
              "Reynolds number to which flow in a coil is laminar, 2000 + 19780 (d/D)^0.45 [-]. Schmidt 1967.",
              [](const double* x) { return physics::coil_laminar_limit_re<double>(x[0]); });
  add_formula(
      m, "entrance_drop", {flow, length, bore, density, viscosity},
      "Drop [Pa] beyond developed friction of liquid that enters a hose with an even velocity. Shah 1978.",
      [](const double* x) { return drop_development<double>(x[0], development<double>(x[1], x[2], x[3], x[4])).dp; });
  add_formula(m, "reynolds_metzner_reed",
              {{"velocity", Kind::speed, not_negative},
               bore,
               density,
               {"consistency", {}, positive},
               {"index", {}, power_law_index}},
              "Reynolds number of a power-law liquid [-]; consistency K [Pa s^n], index n [-]. Metzner and Reed 1955.",
              [](const double* x) { return physics::reynolds_metzner_reed<double>(x[0], x[1], x[2], x[3], x[4]); });
  add_formula(
      m, "friction_dodge_metzner", {{"re", {}, dodge_metzner_re}, {"index", {}, dodge_metzner_index}},
      "Darcy friction factor of turbulent power-law flow in a smooth tube [-]; re generalised, 2900 to 36000, index n "
      "0.36\n"
      "to 1. Dodge and Metzner 1959.",
      [](const double* x) { return physics::friction_dodge_metzner<double>(x[0], x[1]).f; });
  add_formula(
      m, "power_law_drop",
      {flow,
       length,
       bore,
       density,
       {"consistency", {}, positive},
       {"index", {}, power_law_index},
       {"plateau_shear_rate", {}, positive, 0.01}},
      "Drop [Pa] of a hose with a liquid that thins with shear; consistency K [Pa s^n], index n [-], plateau [1/s].",
      [](const double* x) {
        return drop_power_law<double>(x[0], power_law_tube<double>(x[1], x[2], x[3], x[4], x[5], x[6])).dp;
      });
}

void add_losses(py::module_& m) {
  using namespace physics;
  using namespace formula;
  const Argument ratio{"bore_ratio", {}, {0.0, 1.0}}, cone{"cone", Kind::angle, cone_angle_range, std::numbers::pi};
  add_formula(m, "local_drop", {flow, {"k1", {}, not_negative}, {"k_inf", {}, not_negative}, bore, density, viscosity},
              "Drop [Pa] of a local loss K = k1/Re + k_inf on the velocity in its bore. Hooper 1981.",
              [](const double* x) {
                const auto l = local_loss<double>(x[1], x[2], x[3], x[4], x[5]);
                return x[0] * (l.linear + l.quadratic * std::abs(x[0]));
              });
  add_formula(m, "hooper_k_inf", {{"k", {}, not_negative}, bore},
              "K_inf = K (1 + 1/D), D the bore in inches [-]. Hooper 1981.",
              [](const double* x) { return physics::hooper_k_inf<double>(x[0], x[1]); });
  add_formula(m, "darby_k_inf", {{"ki", {}, not_negative}, {"kd", {}, not_negative}, bore},
              "K_inf = Ki (1 + Kd/D^0.3), D in inches [-]. Silverberg and Darby 1999.",
              [](const double* x) { return physics::darby_k_inf<double>(x[0], x[1], x[2]); });
  add_formula(
      m, "contraction_k_inf", {ratio, cone},
      "Loss coefficient of a narrowing bore on the velocity in the smaller one [-]; bore_ratio smaller over larger, "
      "cone\n"
      "full angle [rad]. Crane TP-410.",
      [](const double* x) { return physics::contraction_k_inf<double>(x[0], x[1]); });
  add_formula(
      m, "expansion_k_inf", {ratio, cone},
      "Loss coefficient of a widening bore on the velocity in the smaller one [-]. Borda, Carnot; Crane TP-410.",
      [](const double* x) { return physics::expansion_k_inf<double>(x[0], x[1]); });
  const Argument hole_length{"length", Kind::length, not_negative, 0.0};
  add_formula(m, "creeping_resistance", {bore, viscosity, hole_length},
              "Resistance of a hole in creeping flow [Pa per m3/s]. Sampson 1891 (exact for length 0), Dagan 1982.",
              [](const double* x) { return physics::creeping_resistance<double>(x[0], x[2], x[1]); });
  add_formula(
      m, "hole_discharge_coefficient",
      {{"length_ratio", {}, hole_length_ratio}, {"sharp", {}, {0.3, 1.0}, sharp_discharge_coefficient}},
      "Discharge coefficient at high Reynolds number of a hole with length [-]; length_ratio L/d 0 to 10. McGreehan "
      "and\n"
      "Schotsch 1988.",
      [](const double* x) { return physics::hole_discharge_coefficient<double>(x[0], x[1]); });
  add_formula(
      m, "orifice_drop", {flow, bore, density, viscosity},
      "Drop [Pa] across a sharp orifice at a flow [m3/s, either sign]: creeping limit, free jet, bridge (Wu 2002).",
      [](const double* x) {
        return drop_hole<double>(x[0],
                                 hole<double>(x[1], 0.0, x[2], x[3], sharp_discharge_coefficient, sharp_uncontracted))
            .dp;
      });
  add_formula(m, "orifice_discharge_coefficient", {{"flow", Kind::flow, positive}, bore, density, viscosity},
              "Discharge coefficient q / (A sqrt(2 dp/rho)) of a sharp orifice that orifice_drop implies [-].",
              [](const double* x) {
                return discharge_coefficient<double>(
                    x[0], hole<double>(x[1], 0.0, x[2], x[3], sharp_discharge_coefficient, sharp_uncontracted), x[1],
                    x[2]);
              });
  add_formula(m, "effective_duty",
              {{"duty", {}, {0.0, 1.0}},
               {"frequency", {}, positive},
               {"opening_lag", Kind::time, not_negative, 0.0},
               {"closing_lag", Kind::time, not_negative, 0.0}},
              "Share of the time that a pulsed valve is open [-]; frequency [Hz], lags [s].",
              [](const double* x) { return physics::effective_duty<double>(x[0], x[1], x[2], x[3]); });
}

void add_outlets(py::module_& m) {
  using namespace physics;
  using namespace formula;
  const Argument tension{"surface_tension", {}, positive, water_surface_tension};
  add_formula(m, "froude_number", {{"flow", Kind::flow, not_negative}, bore},
              "Froude number V / sqrt(g D) of a full tube [-].",
              [](const double* x) { return physics::froude_number<double>(x[0], x[1]); });
  add_formula(m, "bond_number", {bore, density, tension}, "Bond number rho g D^2 / sigma [-]; surface_tension [N/m].",
              [](const double* x) { return physics::bond_number<double>(x[0], x[1], x[2]); });
  add_formula(m, "drained_height",
              {{"column", Kind::length, not_negative}, {"crack", Kind::pressure, not_negative}, density},
              "Height of a standing column that drains through a valve that closes at `crack` [m].",
              [](const double* x) { return physics::drained_height<double>(x[0], x[1], x[2]); });
  add_formula(m, "shaft_power", {flow, {"gain", Kind::pressure, any}, {"efficiency", {}, {1e-6, 1.0}}},
              "Power at a pump's shaft [W].",
              [](const double* x) { return physics::shaft_power<double>(x[0], x[1], x[2]); });
  add_formula(m, "swept_flow", {{"displacement", Kind::volume, not_negative}, {"rate", {}, not_negative}},
              "Flow that a positive pump sweeps [m3/s]; displacement a turn [m3], rate [turns/s].",
              [](const double* x) { return physics::swept_flow<double>(x[0], x[1]); });
  add_formula(
      m, "flow_for_rate", {{"rate", Kind::area_rate, any}, {"speed", Kind::speed, any}, {"width", Kind::length, any}},
      "Flow [m3/s] that gives a rate [m3/m2] over a strip of a width [m] at a speed [m/s].", [](const double* x) {
        return si(flow_for_rate(from_si<AreaRate>(x[0]), from_si<Speed>(x[1]), from_si<Length>(x[2])));
      });
  add_formula(m, "rate_for_flow", {flow, {"speed", Kind::speed, positive}, {"width", Kind::length, positive}},
              "Rate [m3/m2] that a flow [m3/s] gives over a strip of a width [m] at a speed [m/s].",
              [](const double* x) {
                return si(rate_for_flow(from_si<Flow>(x[0]), from_si<Speed>(x[1]), from_si<Length>(x[2])));
              });
  const Argument t{"temperature", Kind::temperature, water_temperature};
  add_formula(m, "water_density", {t}, "Density of water at 0.1 MPa [kg/m3]. IAPWS SR6-08(2011).",
              [](const double* x) { return libflow::water_density<double>(x[0]); });
  add_formula(m, "water_viscosity", {t}, "Viscosity of water at 0.1 MPa [Pa s]. IAPWS SR6-08(2011).",
              [](const double* x) { return libflow::water_viscosity<double>(x[0]); });
  add_formula(m, "water_vapour_pressure", {{"temperature", Kind::temperature, water_vapour_temperature}},
              "Vapour pressure of water [Pa absolute]. IAPWS SR1-86(1992).",
              [](const double* x) { return libflow::water_vapour_pressure<double>(x[0]); });
}

}  // namespace

void add_physics(py::module_& m) {
  py::module_ p = m.def_submodule("physics", "Pure formulas, SI, over arrays; each names its source.");
  add_friction(p);
  add_losses(p);
  add_outlets(p);
  add_physics_of_parts(p);
}

}  // namespace libflow::python
