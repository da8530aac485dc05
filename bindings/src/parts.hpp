// SPDX-License-Identifier: MIT
/// @file
/// Parts as Python objects: every part type is a record with its law; a Part goes to Python as its own type and back.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <libflow/parts/part.hpp>

#include "cautions.hpp"
#include "names.hpp"
#include "record.hpp"

namespace libflow::python {

/// One part type: how its Python objects become a Part and back.
struct PartClass {
  std::string name;
  bool (*is)(py::handle);
  Part (*part)(py::handle, std::string_view where);
  py::object (*object)(const Part&);  ///< None for a part of another type
};
std::vector<PartClass>& part_classes();

/// @throws InputError for an object that is no part, or one that cannot be
Part part_from(py::handle object, std::string_view where);
py::object part_to_python(const Part& part);
/// "libflow._libflow.Hose | libflow._libflow.Orifice | ..."
std::string part_annotation();

/// Adds drop, slope, reynolds, cautions, inputs and drop_slopes to a part's class.
void add_part_methods(py::handle cls, std::string_view kind, Contract contract);

/// Finishes the class of a part type.
template <PartType T>
py::class_<T>& finish_part(Record<T>& record, const char* name) {
  part_classes().push_back({name, [](py::handle h) { return py::isinstance<T>(h); },
                            [](py::handle h, std::string_view where) { return Part(h.cast<T>(), where); },
                            [](const Part& part) -> py::object {
                              const T* found = part.as<T>();
                              return found == nullptr ? py::none() : py::cast(*found);
                            }});
  py::class_<T>& c = record.done([](const T& part, std::string_view) { part.check(T::kind); });
  add_part_methods(c, T::kind, T::contract);
  return c;
}

}  // namespace libflow::python
