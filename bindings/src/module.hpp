// SPDX-License-Identifier: MIT
/// @file
/// What each file of the bindings adds to the module, in the order of the rooms.
#pragma once

#include <pybind11/pybind11.h>

namespace libflow::python {

void add_errors(pybind11::module_& m);
void add_units(pybind11::module_& m);
void add_fluid(pybind11::module_& m);
void add_physics(pybind11::module_& m);
void add_parts(pybind11::module_& m);
void add_pumps(pybind11::module_& m);
void add_network(pybind11::module_& m);
void add_tees(pybind11::module_& m);
void add_solve(pybind11::module_& m);
void add_toolbar(pybind11::module_& m);
void add_answers(pybind11::module_& m);
void add_explain(pybind11::module_& m);
void add_scenarios(pybind11::module_& m);
void add_derivatives(pybind11::module_& m);
void add_studies_run(pybind11::module_& m);
void add_studies_list(pybind11::module_& m);
void add_catches(pybind11::module_& m);
void add_pages(pybind11::module_& m);

}  // namespace libflow::python
