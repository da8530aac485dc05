// SPDX-License-Identifier: MIT
// Text with units to SI numbers and back.
#include <string>
#include <vector>

#include "convert.hpp"
#include "module.hpp"

namespace libflow::python {

namespace {

/// Kinds by the names that Python uses.
const std::vector<std::string>& kind_names() {
  static const std::vector<std::string> names{"length",    "area",        "volume", "time",          "speed",
                                              "mass",      "pressure",    "flow",   "area_rate",     "density",
                                              "viscosity", "temperature", "angle",  "mass_per_area", "fraction"};
  return names;
}

Kind kind_from(py::handle object) { return static_cast<Kind>(choice_from(kind_names(), object, "kind")); }

}  // namespace

void add_units(py::module_& m) {
  m.def(
      "si",
      [](const QuantityArg& value, const py::object& kind) { return quantity_from(kind_from(kind), value, "value"); },
      py::arg("value"), py::arg("kind"),
      "The SI number of a quantity: si('14 ft', 'length') is 4.2672.\n\n"
      "value: an SI number, or text with a unit, e.g. '14 ft', '3/8 in', '12 gal/ac', '40 F', '10 %'.\n"
      "kind: 'length' [m], 'area' [m2], 'volume' [m3], 'time' [s], 'speed' [m/s], 'mass' [kg], 'pressure' [Pa gauge],\n"
      "'flow' [m3/s], 'area_rate' [m3/m2], 'density' [kg/m3], 'viscosity' [Pa s], 'temperature' [K], 'angle' [rad],\n"
      "'mass_per_area' [kg/m2] or 'fraction' [-].\n"
      "Raises InputError for text without a unit, with an unknown one or with one of another kind.");
  m.def(
      "to_unit",
      [](const ArrayArg& value, const std::string& unit, const py::object& kind) -> py::object {
        const Kind k = kind_from(kind);
        const UnitRow* row = nullptr;
        std::vector<std::string> names;
        std::string allowed;
        for (const UnitRow& u : kind_row(k).units) {
          names.emplace_back(u.name);
          allowed += (allowed.empty() ? "" : ", ") + std::string(u.name);
          if (u.name == unit) row = &u;
        }
        if (row == nullptr) {
          throw InputError("unit", "'" + unit + "' is not a unit of " + std::string(kind_row(k).noun), allowed,
                           nearest_name(unit, names));
        }
        auto array = array_from(k, value, "value");
        py::array_t<double, py::array::c_style> out(
            std::vector<py::ssize_t>(array.shape(), array.shape() + array.ndim()));
        for (py::ssize_t i = 0; i < array.size(); ++i) out.mutable_data()[i] = row->from_si(array.data()[i]);
        if (out.ndim() == 0) return py::float_(*out.data());
        return out;
      },
      py::arg("value"), py::arg("unit"), py::arg("kind"),
      "The number of a quantity in a unit: to_unit(4.2672, 'ft', 'length') is 14.0. Takes arrays.\n\n"
      "value: SI numbers or text with units. unit: as libflow writes it, e.g. 'ft', 'gal/ac', '°F'. kind: as in si().\n"
      "Raises InputError for an unknown unit, with the nearest.");
  m.def(
      "unit_names",
      [](const py::object& kind) {
        std::vector<std::string> names;
        for (const UnitRow& u : kind_row(kind_from(kind)).units) names.emplace_back(u.name);
        return Convert<std::vector<std::string>>::to(names).cast<py::list>();
      },
      py::arg("kind"), "The units of a kind of quantity, the SI unit first. kind: as in si().");
  m.def(
      "_to_array",
      [](const ArrayArg& value, const py::object& kind, const std::string& where) {
        return array_from(kind_from(kind), value, where);
      },
      "Numbers or text with units to an array of SI numbers.");
  m.def(
      "_si",
      [](const QuantityArg& value, const py::object& kind, const std::string& where) {
        return quantity_from(kind_from(kind), value, where);
      },
      "As si(), with a place for messages.");
  m.def(
      "_refuse_name",
      [](const std::string& where, const std::string& name, const py::object& listed) {
        const auto names = Convert<std::vector<std::string>>::from(listed, "names");
        std::string allowed;
        for (const std::string& n : names) allowed += (allowed.empty() ? "" : ", ") + n;
        throw InputError(where, "there is no '" + name + "'", allowed, nearest_name(name, names));
      },
      "Raises InputError with the nearest name.");
  m.attr("KINDS") = py::tuple(Convert<std::vector<std::string>>::to(kind_names()));
}

}  // namespace libflow::python
