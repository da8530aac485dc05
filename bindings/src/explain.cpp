// SPDX-License-Identifier: MIT
// Which single input makes the rows differ, what drips after a stop, layout files to begin with.
#include <variant>

#include <libflow/file/layout_schema.hpp>
#include <libflow/file/starter_layout.hpp>
#include <libflow/toolbar/attribution_by_input.hpp>
#include <libflow/toolbar/stop.hpp>

#include "answers.hpp"
#include "module.hpp"

namespace libflow::python {

namespace {

const Toolbar& toolbar_of(const Layout& layout, const char* where) {
  if (const auto* bar = std::get_if<Toolbar>(&layout.plumbing)) return *bar;
  throw InputError(where, "the layout is given place by place", "a layout with a Toolbar");
}

py::array_t<double> numbers(const std::vector<double>& v) {
  return py::array_t<double>(static_cast<py::ssize_t>(v.size()), v.data());
}

py::dict by_input(const Answer& a, const py::object& tolerance) {
  if (!a.solution.usable()) throw IllPosedError(a.solution.message);
  const Toolbar& bar = toolbar_of(a.layout, "attribute_by_input");
  const InputAttributionOptions options{.tolerance = number_from(tolerance, "attribute_by_input, tolerance")};
  const InputAttribution found = [&] {
    const py::gil_scoped_release release;
    return attribute_by_input(bar, a.layout.job, a.liquid, options);
  }();
  py::list inputs;
  for (const InputShare& in : found.inputs) {
    py::dict d;
    d["name"] = in.name;
    d["group"] = in.group;
    d["unit"] = in.unit;
    d["reference"] = in.reference;
    d["value"] = in.value;
    d["share"] = in.share;
    d["deviation"] = numbers(in.deviation);
    inputs.append(d);
  }
  py::dict all;
  all["inputs"] = inputs;
  all["deviation"] = numbers(found.deviation);
  all["reference"] = found.reference;
  all["left_over"] = found.left_over;
  all["solves"] = found.solves;
  return all;
}

py::dict after_stop(const Layout& layout, const QuantityArg& pressure) {
  const Toolbar& bar = toolbar_of(layout, "stop_dribble");
  const auto p = quantity<Pressure>(pressure, "stop_dribble, pressure");
  const StopDribble s = stop_dribble(bar, layout.job.liquid.at(layout.job.temperature), p);
  py::dict d;
  d["row"] = s.row;
  d["standing"] = s.standing;
  d["crack"] = s.crack;
  d["column"] = s.column;
  d["trapped"] = s.trapped;
  d["relaxed"] = s.relaxed;
  d["below"] = s.below;
  return d;
}

}  // namespace

void add_explain(py::module_& m) {
  m.def(
      "attribute_by_input", &by_input, py::arg("answer"), py::kw_only(), py::arg("tolerance") = 1e-7,
      "Which hose, which orifice: how much of every row's deviation each single input of a bar makes, by derivatives\n"
      "integrated from an even bar. A dict: inputs (a list, largest share first: name, group, unit, reference, value,\n"
      "share of the variance [-], deviation by row [-], which add up to the rows'), deviation of every row [-],\n"
      "reference in words, left_over: what the parts miss [-], solves.\n\n"
      "answer: of main_job(), a Toolbar's. tolerance: of the sum of a row's parts [-], 1e-10 to 1e-3.\n"
      "Raises InputError for junction losses, or rows with different parts.");
  m.def(
      "stop_dribble", &after_stop, py::arg("layout"), py::kw_only(), py::arg("pressure"),
      "What drips after a stop with the supply shut off just ahead of the manifolds: a dict of row (whose check valve\n"
      "gives way first; 0: none has one), standing head on it and its crack pressure [Pa], column that runs out "
      "through\n"
      "it, trapped between supply and check valves, relaxed by stretched hoses, below the check valves [m3].\n\n"
      "pressure: at the supply when the flow stopped [Pa gauge].");
  m.def(
      "starter_layout",
      [](const std::string& rows, const std::string& spacing, const std::string& product,
         const std::string& temperature, const std::string& rate, const std::string& speed) {
        return starter_layout({.rows = rows,
                               .spacing = spacing,
                               .product = product,
                               .temperature = temperature,
                               .rate = rate,
                               .speed = speed});
      },
      py::kw_only(), py::arg("rows") = StarterAnswers{}.rows, py::arg("spacing") = StarterAnswers{}.spacing,
      py::arg("product") = StarterAnswers{}.product, py::arg("temperature") = StarterAnswers{}.temperature,
      py::arg("rate") = StarterAnswers{}.rate, py::arg("speed") = StarterAnswers{}.speed,
      "The text of a commented layout file to begin with, as `libflow new` writes it; every answer as text, "
      "quantities\n"
      "with their unit. temperature: of the liquid on the coldest day; '' writes an assumption to change. Raises\n"
      "InputError for an answer that cannot be used.");
  m.def(
      "layout_schema", [] { return py::module_::import("json").attr("loads")(to_text(layout_schema())); },
      "The layout file's vocabulary as a JSON Schema (draft 2020-12), a dict, as `libflow schema` prints it.");
}

}  // namespace libflow::python
