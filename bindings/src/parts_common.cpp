// SPDX-License-Identifier: MIT
#include "parts.hpp"

#include <libflow/core/names.hpp>

namespace libflow::python {

std::vector<PartClass>& part_classes() {
  static std::vector<PartClass> all;
  return all;
}

Part part_from(py::handle object, std::string_view where) {
  for (const PartClass& c : part_classes()) {
    if (c.is(object)) return c.part(object, where);
  }
  std::string allowed;
  for (const PartClass& c : part_classes()) allowed += (allowed.empty() ? "" : ", ") + c.name;
  throw InputError(std::string(where), type_name(object) + " where a part is wanted", allowed);
}

py::object part_to_python(const Part& part) {
  for (const PartClass& c : part_classes()) {
    py::object found = c.object(part);
    if (!found.is_none()) return found;
  }
  return py::none();
}

std::string part_annotation() {
  std::string text;
  for (const PartClass& c : part_classes())
    text += (text.empty() ? "libflow._libflow." : " | libflow._libflow.") + c.name;
  return text;
}

namespace {

template <class Of>
py::object at_flows(py::handle flow, Of of) {
  const auto q = array_from(Kind::flow, flow, "flow");
  py::array_t<double, py::array::c_style> out(std::vector<py::ssize_t>(q.shape(), q.shape() + q.ndim()));
  for (py::ssize_t i = 0; i < q.size(); ++i) out.mutable_data()[i] = of(q.data()[i]);
  if (out.ndim() == 0) return py::float_(*out.data());
  return out;
}

py::object part_drop(const Part& part, py::handle flow, const LiquidState& liquid, bool slope) {
  const Law law = part.law(liquid);
  return at_flows(flow, [&](double q) {
    const Drop<double> d = law(q);
    return slope ? d.slope : d.dp;
  });
}

py::object part_reynolds(const Part& part, py::handle flow, const LiquidState& state) {
  return at_flows(flow, [&](double q) { return part.reynolds_number(q, state); });
}

py::dict part_inputs(const Part& part) {
  py::dict all;
  for (std::size_t k = 0; k < part.input_count(); ++k) {
    const PartInput in = part.input(k);
    all[py::str(std::string(in.name))] =
        py::make_tuple(Convert<std::optional<double>>::to(in.value), std::string(in.unit));
  }
  return all;
}

py::dict part_drop_slopes(const Part& part, py::handle flow, const LiquidState& liquid) {
  const auto slopes = part.drop_slopes(quantity_from(Kind::flow, flow, "flow"), liquid);
  py::dict all;
  if (!slopes) return all;
  all["drop"] = slopes->drop;
  py::dict inputs;
  for (std::size_t k = 0; k < part.input_count(); ++k) {
    inputs[py::str(std::string(part.input(k).name))] = slopes->inputs[k];
  }
  all["inputs"] = inputs;
  all["density"] = slopes->density;
  all["viscosity"] = slopes->viscosity;
  return all;
}

}  // namespace

void add_part_methods(py::handle cls, std::string_view kind, Contract contract) {
  add_method(
      cls, "drop",
      [](const py::object& s, const ArrayArg& q, const LiquidState& liquid) {
        return part_drop(part_from(s, "part"), q, liquid, false);
      },
      py::arg("flow"), py::arg("liquid"),
      "Total-pressure drop [Pa] at flows [m3/s or text], from its first place to its second; takes arrays.");
  add_method(
      cls, "slope",
      [](const py::object& s, const ArrayArg& q, const LiquidState& liquid) {
        return part_drop(part_from(s, "part"), q, liquid, true);
      },
      py::arg("flow"), py::arg("liquid"), "Slope of the drop against the flow [Pa per m3/s] at flows; takes arrays.");
  add_method(
      cls, "reynolds",
      [](const py::object& s, const ArrayArg& q, const LiquidState& liquid) {
        return part_reynolds(part_from(s, "part"), q, liquid);
      },
      py::arg("flow"), py::arg("liquid"), "Reynolds number [-] on its bore at flows; 0 for a part without a bore.");
  add_method(
      cls, "cautions",
      [](const py::object& s, const QuantityArg& q, const LiquidState& liquid, const QuantityArg& pressure) {
        return cautions_to_python(part_from(s, "part").cautions(
            quantity_from(Kind::flow, q, "flow"), quantity_from(Kind::pressure, pressure, "pressure"), liquid));
      },
      py::arg("flow"), py::arg("liquid"), py::kw_only(), py::arg("pressure") = 0.0,
      "Cautions of the part at a flow [m3/s] and a gauge pressure at its ends [Pa].");
  add_method(
      cls, "inputs", [](const py::object& s) { return part_inputs(part_from(s, "part")); },
      "Its numeric inputs: name to (value in SI or None, unit).");
  add_method(
      cls, "drop_slopes",
      [](const py::object& s, const QuantityArg& q, const LiquidState& liquid) {
        return part_drop_slopes(part_from(s, "part"), q, liquid);
      },
      py::arg("flow"), py::arg("liquid"),
      "The drop [Pa] at a flow [m3/s] and its exact slopes: against each input [Pa per its unit], density\n"
      "[Pa per kg/m3] and viscosity [Pa per Pa s].");
  cls.attr("kind") = py::str(std::string(kind));
  cls.attr("contract") = Convert<Contract>::to(contract);
}

}  // namespace libflow::python
