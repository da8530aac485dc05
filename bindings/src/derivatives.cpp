// SPDX-License-Identifier: MIT
// Exact derivatives of a solved network.
#include <memory>
#include <vector>

#include <libflow/solve/derivatives.hpp>

#include "module.hpp"
#include "solution.hpp"

namespace libflow::python {

namespace {

/// Derivatives with the network that they are of.
struct PyDerivatives {
  std::shared_ptr<const Network> network;
  LiquidState liquid;
  std::vector<TeeAt> tees;
  std::unique_ptr<Derivatives> of;
};

py::array_t<double> array_of(const std::vector<double>& v) {
  return py::array_t<double>(static_cast<py::ssize_t>(v.size()), v.data());
}

std::vector<std::string> names_of(const PyDerivatives& d) {
  std::vector<std::string> names;
  for (const NetworkInput& in : d.of->inputs()) names.push_back(name_of(*d.network, in));
  return names;
}

}  // namespace

void add_derivatives(py::module_& m) {
  py::class_<PyDerivatives>(
      m, "Derivatives",
      "How the answer moves when an input moves: exact derivatives of every flow and pressure of a\n"
      "solved network by every input of its parts (set points too), its liquid, its supplies, given flows\n"
      "and elevations, and of its tees.")
      .def(py::init([](const PySolution& s, const std::string& at_crack) {
             if (at_crack != "shut" && at_crack != "open") {
               throw InputError("Derivatives, at_crack", "'" + at_crack + "'", "'shut' or 'open'",
                                nearest_name(at_crack, std::vector<std::string>{"shut", "open"}));
             }
             auto d = std::make_unique<PyDerivatives>();
             d->network = s.network;
             d->liquid = s.liquid;
             d->tees = s.tees;
             d->of = std::make_unique<Derivatives>(*d->network, d->liquid, s.solution,
                                                   at_crack == "open" ? AtCrack::open : AtCrack::shut, s.tees);
             return d;
           }),
           py::arg("solution"), py::kw_only(), py::arg("at_crack") = "shut",
           "solution: usable; its tees' losses and throttling regulators are differentiated too. at_crack: which "
           "side's\n"
           "derivative is meant where a one-way part stands exactly at its threshold, 'shut' or 'open'.")
      .def_property_readonly(
          "inputs", [](const PyDerivatives& d) { return Convert<std::vector<std::string>>::to(names_of(d)); },
          "Names of the inputs, in the order of every gradient.")
      .def_property_readonly(
          "units",
          [](const PyDerivatives& d) {
            std::vector<std::string> units;
            for (const NetworkInput& in : d.of->inputs()) units.emplace_back(unit_of(*d.network, in));
            return Convert<std::vector<std::string>>::to(units);
          },
          "SI unit of each input; '' for a plain number.")
      .def_property_readonly(
          "values",
          [](const PyDerivatives& d) {
            std::vector<double> values;
            for (const NetworkInput& in : d.of->inputs()) values.push_back(value_of(*d.network, d.liquid, in, d.tees));
            return array_of(values);
          },
          "Value of each input [its unit].")
      .def(
          "of_flow",
          [](PyDerivatives& d, const std::string& part) { return array_of(d.of->of_flow(d.network->find_part(part))); },
          py::arg("part"), "Derivatives of a part's flow by every input [m3/s per unit of the input].")
      .def(
          "of_pressure",
          [](PyDerivatives& d, const std::string& place) {
            return array_of(d.of->of_pressure(d.network->find_place(place)));
          },
          py::arg("place"), "Derivatives of a place's total pressure by every input [Pa per unit of the input].")
      .def(
          "by",
          [](PyDerivatives& d, const std::string& input) {
            const auto names = names_of(d);
            for (std::size_t k = 0; k < names.size(); ++k) {
              if (names[k] != input) continue;
              const auto change = d.of->by(k);
              return py::make_tuple(array_of(change.flow), array_of(change.pressure));
            }
            throw InputError("input", "'" + input + "' is not an input of this network", {},
                             nearest_name(input, names));
          },
          py::arg("input"), "(flows by part [m3/s per unit], pressures by place [Pa per unit]) as one input moves.")
      .def("__repr__", [](const PyDerivatives& d) {
        return "<Derivatives by " + std::to_string(d.of->inputs().size()) + " inputs>";
      });
}

}  // namespace libflow::python
