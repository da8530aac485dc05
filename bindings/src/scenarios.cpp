// SPDX-License-Identifier: MIT
// Many scenarios of one layout.
#include <fmt/format.h>

#include <libflow/study/scenarios.hpp>

#include "answers.hpp"
#include "module.hpp"
#include "progress.hpp"

namespace libflow::python {

namespace {

/// A column of numbers, one a scenario. Shapes are the caller's work.
Eigen::ArrayXd column(py::handle values, std::string_view where) {
  const auto array = array_from(std::nullopt, values, where);
  return Eigen::Map<const Eigen::ArrayXd>(array.data(), array.size());
}
/// A table, scenario x row.
Eigen::ArrayXXd table(py::handle values, std::string_view where) {
  const auto array = array_from(std::nullopt, values, where);
  using RowMajor = Eigen::Array<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  return Eigen::Map<const RowMajor>(array.data(), array.shape(0), array.shape(1));
}

template <class Numbers>
py::array view(const Numbers& numbers, const py::object& owner) {
  const auto size = static_cast<py::ssize_t>(sizeof(double));
  std::vector<py::ssize_t> shape{static_cast<py::ssize_t>(numbers.rows())}, strides{size};
  if (Numbers::ColsAtCompileTime != 1) {
    shape.push_back(static_cast<py::ssize_t>(numbers.cols()));
    strides.push_back(size * static_cast<py::ssize_t>(numbers.rows()));
  }
  py::array_t<double> array(shape, strides, numbers.data(), owner);
  py::detail::array_proxy(array.ptr())->flags &= ~py::detail::npy_api::NPY_ARRAY_WRITEABLE_;
  return array;
}

ScenarioResults solve_columns(const Layout& layout, std::size_t count, const py::dict& columns, int threads,
                              bool packed, const py::object& progress) {
  Scenarios s;
  s.count = count;
  const auto put = [&](const char* name, Eigen::ArrayXd& to) {
    if (columns.contains(name)) to = column(columns[name], name);
  };
  const auto put_table = [&](const char* name, Eigen::ArrayXXd& to) {
    if (columns.contains(name)) to = table(columns[name], name);
  };
  put("speed", s.speed);
  put("rate", s.rate);
  put("pressure", s.pressure);
  put("temperature", s.temperature);
  put("density", s.density);
  put("viscosity", s.viscosity);
  put("side_slope", s.side_slope);
  put("fore_aft_slope", s.fore_aft_slope);
  put_table("hose_length", s.hose_length);
  put_table("hose_bore", s.hose_bore);
  put_table("orifice_bore", s.orifice_bore);
  put_table("crack", s.crack);
  const ScenarioOptions options{.threads = threads, .packed = packed};
  const Progress tell = progress_from(progress);
  const py::gil_scoped_release release;
  if (const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing)) {
    return ScenarioSolver(*toolbar, layout.job).solve(s, options, tell);
  }
  return ScenarioSolver(std::get<Plumbing>(layout.plumbing), layout.job).solve(s, options, tell);
}

}  // namespace

void add_scenarios(py::module_& m) {
  using Results = std::shared_ptr<ScenarioResults>;
  py::class_<ScenarioResults, Results> c(m, "ScenarioResults", "What many scenarios give; read by solve_many().");
  const auto array = [&c](const char* name, auto member, const char* doc) {
    c.def_property_readonly(
        name, [member](const py::object& self) { return view(self.cast<const ScenarioResults&>().*member, self); },
        doc);
  };
  array("flow", &ScenarioResults::flow, "All outlets of a row together [m3/s], scenario x row.");
  array("mean_rate", &ScenarioResults::mean_rate, "Of the counted rows [m3/m2].");
  array("cv", &ScenarioResults::cv, "Coefficient of variation of the rates [-].");
  array("lowest", &ScenarioResults::lowest, "Deviation of the lowest row from the mean [-].");
  array("highest", &ScenarioResults::highest, "Deviation of the highest row from the mean [-].");
  array("supply_pressure", &ScenarioResults::supply_pressure, "Total gauge pressure at the supply [Pa].");
  array("mass_residual", &ScenarioResults::mass_residual, "The certificate [-].");
  array("energy_residual", &ScenarioResults::energy_residual, "The certificate [-].");
  c.def_property_readonly(
       "status",
       [](const ScenarioResults& r) {
         py::array_t<std::uint8_t> codes(static_cast<py::ssize_t>(r.status.size()));
         for (std::size_t i = 0; i < r.status.size(); ++i)
           codes.mutable_data()[i] = static_cast<std::uint8_t>(r.status[i]);
         return codes;
       },
       "0: not reached, 1: solved, 2: not converged, 3: no answer.")
      .def_property_readonly(
          "done", [](const ScenarioResults& r) { return r.done; }, "Scenarios that were reached.")
      .def_property_readonly(
          "alone", [](const ScenarioResults& r) { return r.alone; },
          "Of these, solved one by one because the pack could not, or was not asked to.")
      .def_property_readonly(
          "complete", [](const ScenarioResults& r) { return r.complete; }, "False: stopped by progress.")
      .def_property_readonly(
          "failures",
          [](const ScenarioResults& r) {
            py::dict all;
            for (const auto& f : r.failures) all[py::int_(f.scenario)] = f.message;
            return all;
          },
          "Scenario number to why it has no answer.");
  m.def(
      "_solve_columns",
      [](const Layout& layout, std::size_t count, const py::dict& columns, int threads, bool packed,
         const py::object& progress) {
        return std::make_shared<ScenarioResults>(solve_columns(layout, count, columns, threads, packed, progress));
      },
      "Columns of equal length to results; solve_many() is the way in.");
}

}  // namespace libflow::python
