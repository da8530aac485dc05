// SPDX-License-Identifier: MIT
#include "module.hpp"

#include <exception>

#include <libflow/core/error.hpp>
#include <libflow/version.hpp>

namespace libflow::python {

namespace {

namespace py = pybind11;

/// Raises a Python exception of one of the package's own classes.
template <class... Args>
void raise(const char* type, const Args&... args) {
  const py::object cls = py::module_::import("libflow._errors").attr(type);
  PyErr_SetObject(cls.ptr(), cls(args...).ptr());
}

}  // namespace

void add_errors(py::module_& /*m*/) {
  py::register_exception_translator([](std::exception_ptr thrown) {
    try {
      if (thrown) std::rethrow_exception(thrown);
    } catch (const InputError& e) {
      raise("InputError", std::string(e.what()), e.where(), e.what_is_wrong(), e.allowed(), e.nearest());
    } catch (const IllPosedError& e) {
      raise("IllPosedError", std::string(e.what()));
    } catch (const Error& e) {
      raise("Error", std::string(e.what()));
    }
  });
}

}  // namespace libflow::python

PYBIND11_MODULE(_libflow, m) {
  m.doc() = "The C++ part of libflow. Import libflow instead.";
  m.attr("__version__") = libflow::version;
  using namespace libflow::python;
  add_errors(m);
  add_units(m);
  add_fluid(m);
  add_physics(m);
  add_parts(m);
  add_pumps(m);
  add_network(m);
  add_tees(m);
  add_solve(m);
  add_toolbar(m);
  add_answers(m);
  add_explain(m);
  add_scenarios(m);
  add_derivatives(m);
  add_studies_run(m);
  add_studies_list(m);
  add_catches(m);
  add_pages(m);
}
