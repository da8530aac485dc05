// SPDX-License-Identifier: MIT
// Networks, and solving them.
#include <mutex>

#include <fmt/format.h>

#include <libflow/solve.hpp>
#include <libflow/toolbar/junctions.hpp>

#include "module.hpp"
#include "solution.hpp"
#include "state.hpp"
#include "tees.hpp"

namespace libflow::python {

namespace {

using NetworkPointer = std::shared_ptr<PyNetwork>;

const char* name_of(PlaceKind kind) {
  constexpr const char* names[] = {"junction", "supply", "fed", "drawn", "air"};
  return names[static_cast<std::size_t>(kind)];
}

py::dict place_dict(const Place& p) {
  py::dict d;
  d["id"] = p.id;
  d["kind"] = name_of(p.kind);
  d["elevation"] = p.elevation;
  d["pressure"] = p.held() ? py::object(py::float_(p.pressure)) : py::none();
  d["flow"] = p.inflow();
  return d;
}
py::dict part_dict(const Network& n, std::size_t i) {
  py::dict d;
  d["id"] = n.part(i).id;
  d["kind"] = std::string(n.part(i).part.kind());
  d["from"] = n.place(n.from(i)).id;
  d["to"] = n.place(n.to(i)).id;
  d["part"] = part_to_python(n.part(i).part);
  return d;
}

PySolution solve_now(const NetworkPointer& self, const LiquidState& liquid, const py::object& tees) {
  PySolution out;
  out.network = std::make_shared<const Network>(self->network);
  out.liquid = liquid;
  out.origin = self;
  out.changes = self->changes;
  out.tees = tees_from(*out.network, tees);
  const py::gil_scoped_release release;
  if (!out.tees.empty()) {
    out.solution = solve_with_tees(*out.network, liquid, out.tees);
    return out;
  }
  Plumbing plumbing;
  plumbing.network = *out.network;
  out.solution = solve_plumbing(plumbing, liquid);
  return out;
}

/// Index of a part or place of a solution; a name that the network got later is explained.
std::size_t solved_part(const PySolution& s, const std::string& id) {
  try {
    return s.network->find_part(id);
  } catch (const InputError& e) {
    if (s.current()) throw;
    throw InputError("solution", e.what_is_wrong() + " in the network as it was solved; it has been changed since",
                     "solve the network again", e.nearest());
  }
}
std::size_t solved_place(const PySolution& s, const std::string& id) {
  try {
    return s.network->find_place(id);
  } catch (const InputError& e) {
    if (s.current()) throw;
    throw InputError("solution", e.what_is_wrong() + " in the network as it was solved; it has been changed since",
                     "solve the network again", e.nearest());
  }
}

/// A System with the network that it works on.
class PySystem {
 public:
  PySystem(const NetworkPointer& network, const LiquidState& liquid)
      : origin_(network), changes_(network->changes), network_(std::make_shared<Network>(network->network)) {
    const py::gil_scoped_release release;
    system_ = std::make_unique<System>(*network_, liquid);
  }

  PySolution solve(const SolveOptions& options, bool warm) {
    if (origin_->changes != changes_) {
      throw InputError(
          "System", "the network was changed after this System was made from it",
          "a new System(network, liquid); a supply's pressure or a fed flow alone can be set on the System");
    }
    PySolution out;
    const py::gil_scoped_release release;
    const std::lock_guard<std::mutex> one_at_a_time(mutex_);
    out.network = std::make_shared<const Network>(*network_);
    out.liquid = system_->liquid();
    out.solution = system_->solve(options, warm ? Start::warm : Start::cold);
    return out;
  }
  void set_liquid(const LiquidState& liquid) {
    const py::gil_scoped_release release;
    const std::lock_guard<std::mutex> one_at_a_time(mutex_);
    system_->set_numbers(liquid);
  }
  template <class Change>
  void change(Change&& apply) {
    const py::gil_scoped_release release;
    const std::lock_guard<std::mutex> one_at_a_time(mutex_);
    apply(*network_);
  }
  [[nodiscard]] std::size_t core_places() const { return system_->core_places(); }
  [[nodiscard]] std::size_t core_parts() const { return system_->core_edges(); }

 private:
  NetworkPointer origin_;
  std::uint64_t changes_;
  std::shared_ptr<Network> network_;
  std::unique_ptr<System> system_;
  std::mutex mutex_;
};

}  // namespace

void add_network(py::module_& m) {
  py::class_<PyNetwork, NetworkPointer> c(
      m, "Network",
      "Places joined by parts.\n\n"
      "    n = Network()\n"
      "    n.add_supply('pump', pressure='30 psi')\n"
      "    n.add_air('row 1')\n"
      "    n.add_part('hose 1', 'pump', 'row 1', Hose(length='14 ft', bore='3/8 in'))\n"
      "    solve(n, Liquid('10-34-0').at('40 F')).flow");
  const auto z_doc = " elevation [m] above any one datum.";
  c.def(py::init([] { return std::make_shared<PyNetwork>(); }), "An empty network.")
      .def(
          "add_place",
          [](PyNetwork& s, const std::string& id, const QuantityArg& z) {
            s.network.add_place(id, quantity<Length>(z, "place '" + id + "', elevation"));
            ++s.changes;
          },
          py::arg("id"), py::kw_only(), py::arg("elevation") = 0.0,
          (std::string("A place where parts meet.") + z_doc).c_str())
      .def(
          "add_supply",
          [](PyNetwork& s, const std::string& id, const QuantityArg& p, const QuantityArg& z) {
            s.network.add_supply(id, quantity<Pressure>(p, "place '" + id + "', pressure"),
                                 quantity<Length>(z, "place '" + id + "', elevation"));
            ++s.changes;
          },
          py::arg("id"), py::kw_only(), py::arg("pressure"), py::arg("elevation") = 0.0,
          (std::string("A place held at a total pressure [Pa gauge].") + z_doc).c_str())
      .def(
          "add_fed",
          [](PyNetwork& s, const std::string& id, const QuantityArg& q, const QuantityArg& z) {
            s.network.add_fed(id, quantity<Flow>(q, "place '" + id + "', flow"),
                              quantity<Length>(z, "place '" + id + "', elevation"));
            ++s.changes;
          },
          py::arg("id"), py::kw_only(), py::arg("flow"), py::arg("elevation") = 0.0,
          (std::string("A place into which a flow [m3/s] is pushed, whatever the pressure.") + z_doc).c_str())
      .def(
          "add_drawn",
          [](PyNetwork& s, const std::string& id, const QuantityArg& q, const QuantityArg& z) {
            s.network.add_drawn(id, quantity<Flow>(q, "place '" + id + "', flow"),
                                quantity<Length>(z, "place '" + id + "', elevation"));
            ++s.changes;
          },
          py::arg("id"), py::kw_only(), py::arg("flow"), py::arg("elevation") = 0.0,
          (std::string("A place from which a flow [m3/s] is taken, whatever the pressure.") + z_doc).c_str())
      .def(
          "add_air",
          [](PyNetwork& s, const std::string& id, const QuantityArg& z) {
            s.network.add_air(id, quantity<Length>(z, "place '" + id + "', elevation"));
            ++s.changes;
          },
          py::arg("id"), py::kw_only(), py::arg("elevation") = 0.0,
          (std::string("A place open to the air, where liquid leaves.") + z_doc).c_str())
      .def(
          "add_part",
          [](PyNetwork& s, const std::string& id, const std::string& from, const std::string& to,
             const py::object& part) {
            const std::string where = fmt::format("part '{}'", id);
            const auto a = s.network.find_place(from, where + ", from");
            const auto b = s.network.find_place(to, where + ", to");
            s.network.add_part(id, a, b, part_from(part, where));
            ++s.changes;
          },
          py::arg("id"), py::arg("from_place"), py::arg("to_place"), py::arg("part"),
          "Joins two places by a part; liquid that goes from the first to the second counts as positive.\n"
          "Raises InputError for an unknown place (with the nearest name) or an id used twice.")
      .def(
          "set_supply_pressure",
          [](PyNetwork& s, const std::string& id, const QuantityArg& p) {
            s.network.set_supply_pressure(s.network.find_place(id), quantity<Pressure>(p, "pressure"));
            ++s.changes;
          },
          py::arg("id"), py::arg("pressure"), "Gives a supply another total pressure [Pa gauge].")
      .def(
          "set_fed_flow",
          [](PyNetwork& s, const std::string& id, const QuantityArg& q) {
            s.network.set_fed_flow(s.network.find_place(id), quantity<Flow>(q, "flow"));
            ++s.changes;
          },
          py::arg("id"), py::arg("flow"), "Gives a fed place another flow [m3/s].")
      .def(
          "replace_part",
          [](PyNetwork& s, const std::string& id, const py::object& part) {
            s.network.replace_part(s.network.find_part(id), part_from(part, fmt::format("part '{}'", id)));
            ++s.changes;
          },
          py::arg("id"), py::arg("part"), "Puts another part in the place of one.")
      .def(
          "place",
          [](const PyNetwork& s, const std::string& id) {
            return place_dict(s.network.place(s.network.find_place(id)));
          },
          py::arg("id"), "A place as a dict: kind, elevation [m], given pressure [Pa gauge], flow pushed in [m3/s].")
      .def(
          "part",
          [](const PyNetwork& s, const std::string& id) {
            return part_to_python(s.network.part(s.network.find_part(id)).part);
          },
          py::arg("id"), "The part of this id, as its own type.")
      .def_property_readonly(
          "places",
          [](const PyNetwork& s) {
            py::list all;
            for (std::size_t i = 0; i < s.network.place_count(); ++i) all.append(place_dict(s.network.place(i)));
            return all;
          },
          "Every place as place() has it, in order.")
      .def_property_readonly(
          "parts",
          [](const PyNetwork& s) {
            py::list all;
            for (std::size_t i = 0; i < s.network.part_count(); ++i) all.append(part_dict(s.network, i));
            return all;
          },
          "Every part as a dict: id, kind, from, to, part.")
      .def(
          "copy", [](const PyNetwork& s) { return std::make_shared<PyNetwork>(s); }, "Another network, equal now.")
      .def("__repr__",
           [](const PyNetwork& s) {
             return fmt::format("<Network of {} places and {} parts>", s.network.place_count(), s.network.part_count());
           })
      .def("__eq__",
           [](const PyNetwork& s, const py::object& other) -> py::object {
             if (!py::isinstance<PyNetwork>(other)) return py::reinterpret_borrow<py::object>(Py_NotImplemented);
             return py::bool_(network_state(s.network).equal(network_state(other.cast<const PyNetwork&>().network)));
           })
      .def(py::pickle([](const PyNetwork& s) { return network_state(s.network); },
                      [](const py::tuple& state) {
                        auto made = std::make_shared<PyNetwork>();
                        made->network = network_of(state);
                        return made;
                      }));
  c.attr("__hash__") = py::none();
}

void add_solve(py::module_& m) {
  py::class_<PySolution> c(m, "Solution",
                           "Flow in every part, pressure at every place, and how good the answer is.\n\n"
                           "Arrays are read-only views into the solution, by part (part_ids) or by place (place_ids).\n"
                           "A solution keeps the network as it was solved.");
  const auto part_array = [&](const char* name, double PartResult::*member, const char* doc) {
    c.def_property_readonly(
        name,
        [member](const py::object& self) {
          return column_view(self.cast<const PySolution&>().solution.parts, member, self);
        },
        doc);
  };
  const auto place_array = [&](const char* name, double PlaceResult::*member, const char* doc) {
    c.def_property_readonly(
        name,
        [member](const py::object& self) {
          return column_view(self.cast<const PySolution&>().solution.places, member, self);
        },
        doc);
  };
  part_array("flow", &PartResult::flow, "Flow in each part [m3/s], + from its first place to its second.");
  part_array("drop", &PartResult::drop, "Total-pressure drop of each part, elevation included [Pa].");
  part_array("reynolds", &PartResult::reynolds, "Reynolds number of each part on its bore [-]; 0 where it has none.");
  part_array("velocity", &PartResult::velocity, "Velocity in each part's bore [m/s]; 0 where it has none.");
  part_array("inlet_static", &PartResult::inlet_static,
             "Static gauge pressure just inside each part's first end [Pa].");
  part_array("outlet_static", &PartResult::outlet_static,
             "Static gauge pressure just inside each part's second end [Pa].");
  place_array("pressure", &PlaceResult::total_pressure, "Total gauge pressure at each place [Pa].");
  place_array("lower", &PlaceResult::lower, "Lower bound of each place's pressure [Pa gauge]; see determined.");
  place_array("upper", &PlaceResult::upper, "Upper bound of each place's pressure [Pa gauge]; see determined.");
  c.def_property_readonly(
       "determined",
       [](const py::object& self) {
         return column_view(self.cast<const PySolution&>().solution.places, &PlaceResult::determined, self);
       },
       "False for places that shut one-way parts cut off: any pressure within the bounds is possible.")
      .def_property_readonly(
          "regime", [](const PySolution& s) { return words(s.solution.parts, &PartResult::regime); },
          "'still', 'laminar', 'transition' or 'turbulent' in each part.")
      .def_property_readonly(
          "valve", [](const PySolution& s) { return words(s.solution.parts, &PartResult::valve); },
          "'open' or 'closed' of each part that passes one way, else 'none'.")
      .def_property_readonly(
          "part_ids",
          [](const PySolution& s) {
            py::list ids;
            for (std::size_t i = 0; i < s.network->part_count(); ++i) ids.append(s.network->part(i).id);
            return ids;
          },
          "Ids of the parts, in the order of the arrays.")
      .def_property_readonly(
          "place_ids",
          [](const PySolution& s) {
            py::list ids;
            for (std::size_t i = 0; i < s.network->place_count(); ++i) ids.append(s.network->place(i).id);
            return ids;
          },
          "Ids of the places, in the order of the arrays.")
      .def(
          "part",
          [](const PySolution& s, const std::string& id) {
            const std::size_t i = solved_part(s, id);
            const PartResult& r = s.solution.parts.at(i);
            py::dict d = part_dict(*s.network, i);
            d["flow"] = r.flow;
            d["drop"] = r.drop;
            d["reynolds"] = r.reynolds;
            d["velocity"] = r.velocity;
            d["regime"] = Convert<Regime>::to(r.regime);
            d["valve"] = Convert<ValveState>::to(r.valve);
            d["inlet_static"] = r.inlet_static;
            d["outlet_static"] = r.outlet_static;
            return d;
          },
          py::arg("id"), "Everything known of one part as a dict; flow [m3/s], drop [Pa], velocity [m/s] ...")
      .def(
          "place",
          [](const PySolution& s, const std::string& id) {
            const std::size_t i = solved_place(s, id);
            const PlaceResult& r = s.solution.places.at(i);
            py::dict d = place_dict(s.network->place(i));
            d["pressure"] = r.total_pressure;
            d["determined"] = r.determined;
            d["lower"] = r.lower;
            d["upper"] = r.upper;
            return d;
          },
          py::arg("id"), "Everything known of one place as a dict; pressure and its bounds [Pa gauge], elevation [m].")
      .def_property_readonly(
          "status", [](const PySolution& s) { return Convert<Status>::to(s.solution.status); },
          "'converged', 'iteration_limit' or 'not_solved'.")
      .def_property_readonly(
          "usable", [](const PySolution& s) { return s.solution.usable(); }, "True when the numbers may be used.")
      .def_property_readonly(
          "message", [](const PySolution& s) { return s.solution.message; }, "How it went, in words.")
      .def_property_readonly(
          "iterations", [](const PySolution& s) { return s.solution.iterations; }, "Newton steps.")
      .def_property_readonly(
          "factorisations", [](const PySolution& s) { return s.solution.factorisations; },
          "Linear systems that were factorised.")
      .def_property_readonly(
          "mass_residual", [](const PySolution& s) { return s.solution.mass_residual; },
          "Largest imbalance of a place over the largest flow [-].")
      .def_property_readonly(
          "energy_residual", [](const PySolution& s) { return s.solution.energy_residual; },
          "Largest misfit of a part's law over the largest drop [-].")
      .def_property_readonly(
          "cautions", [](const PySolution& s) { return cautions_to_python(s.solution.cautions); },
          "What a person should know, a list of Caution.")
      .def_property_readonly(
          "liquid", [](const PySolution& s) { return s.liquid; }, "The LiquidState it was solved in.")
      .def_property_readonly(
          "network",
          [](const PySolution& s) {
            auto copy = std::make_shared<PyNetwork>();
            copy->network = *s.network;
            return copy;
          },
          "A copy of the network as it was solved.")
      .def_property_readonly(
          "tees", [](const PySolution& s) { return tee_results(*s.network, s.tees, s.solution, s.liquid.density); },
          "Every tee as a dict: place, tee, state, flows out of its legs [m3/s], levels: total pressure just inside\n"
          "each leg over that of its place [Pa].")
      .def_property_readonly("current", &PySolution::current,
                             "False when the network has been changed since: solve it again.")
      .def(
          "parts_frame", [](const py::object& self) { return call_python("libflow._frames", "parts_frame", self); },
          "The parts as a pandas DataFrame, SI units in the column names.")
      .def(
          "places_frame", [](const py::object& self) { return call_python("libflow._frames", "places_frame", self); },
          "The places as a pandas DataFrame, SI units in the column names.")
      .def(py::pickle(
          [](const PySolution& s) {
            return py::make_tuple(network_state(*s.network), s.liquid, to_state(s.solution), to_state(s.tees));
          },
          [](const py::tuple& state) {
            require_fields(state, 4);
            PySolution s;
            s.network = std::make_shared<const Network>(network_of(state[0].cast<py::tuple>()));
            s.liquid = state[1].cast<LiquidState>();
            s.solution = from_state<Solution>(state[2]);
            s.tees = from_state<std::vector<TeeAt>>(state[3]);
            return s;
          }))
      .def("__repr__", [](const PySolution& s) {
        return fmt::format("<Solution {}{}: {} parts, {} places; mass {:.1e}, energy {:.1e}>",
                           Names<Status>::all()[static_cast<std::size_t>(s.solution.status)],
                           s.current() ? "" : " (the network has been changed since)", s.solution.parts.size(),
                           s.solution.places.size(), s.solution.mass_residual, s.solution.energy_residual);
      });

  m.def(
      "solve",
      [](const NetworkPointer& n, const LiquidState& liquid, const py::object& tees) {
        return solve_now(n, liquid, tees);
      },
      py::arg("network"), py::arg("liquid"), py::kw_only(), py::arg("tees") = py::tuple(),
      "Solves a network in a liquid (Liquid.at) with its regulators and hanging tubes; other threads run meanwhile.\n"
      "tees: a list of TeeAt, whose losses depend on how the flow splits; a solution where they do not settle is not\n"
      "usable. Raises IllPosedError for plumbing that cannot have an answer.");
  py::class_<PySystem>(m, "System",
                       "A network compiled for one liquid, ready to solve again and again with other supply pressures\n"
                       "and fed flows, from the last answer if wanted. It works on its own copy of the network.")
      .def(py::init<const NetworkPointer&, const LiquidState&>(), py::arg("network"), py::arg("liquid"),
           "Raises IllPosedError for plumbing that cannot have an answer.")
      .def(
          "solve",
          [](PySystem& s, bool warm, const py::object& mass, const py::object& energy, int iterations) {
            SolveOptions o{.mass_tolerance = number_from(mass, "mass_tolerance"),
                           .energy_tolerance = number_from(energy, "energy_tolerance"),
                           .max_iterations = iterations};
            return s.solve(o, warm);
          },
          py::kw_only(), py::arg("warm") = false, py::arg("mass_tolerance") = SolveOptions{}.mass_tolerance,
          py::arg("energy_tolerance") = SolveOptions{}.energy_tolerance,
          py::arg("max_iterations") = SolveOptions{}.max_iterations,
          "Solves. warm: from the last answer. mass_tolerance: largest imbalance over the largest flow [-].\n"
          "energy_tolerance: largest misfit of a law over the largest drop [-]. max_iterations: Newton steps.\n"
          "Pressure regulators stay wide open here; solve() moves them.")
      .def("set_liquid", &PySystem::set_liquid, py::arg("liquid"), "Another LiquidState; the shape stays.")
      .def(
          "set_supply_pressure",
          [](PySystem& s, const std::string& id, const QuantityArg& p) {
            const auto pressure = quantity<Pressure>(p, "pressure");
            s.change([&](Network& n) { n.set_supply_pressure(n.find_place(id), pressure); });
          },
          py::arg("id"), py::arg("pressure"), "Gives a supply another total pressure [Pa gauge].")
      .def(
          "set_fed_flow",
          [](PySystem& s, const std::string& id, const QuantityArg& q) {
            const auto flow = quantity<Flow>(q, "flow");
            s.change([&](Network& n) { n.set_fed_flow(n.find_place(id), flow); });
          },
          py::arg("id"), py::arg("flow"), "Gives a fed place another flow [m3/s].")
      .def("__repr__", [](const PySystem& s) {
        return fmt::format("<System with {} unknown pressures and {} parts after reduction>", s.core_places(),
                           s.core_parts());
      });
}

}  // namespace libflow::python
