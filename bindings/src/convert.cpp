// SPDX-License-Identifier: MIT
#include "convert.hpp"

#include <algorithm>
#include <climits>
#include <cmath>

#include <fmt/format.h>

#include <libflow/units/quote.hpp>
#include <libflow/units/text.hpp>

namespace libflow::python {

std::string type_name(py::handle object) {
  if (object.is_none()) return "None";
  if (py::isinstance<py::array>(object)) {
    return "an array of shape " + shape_text(py::reinterpret_borrow<py::array>(object));
  }
  const auto name = py::type::of(object).attr("__name__").cast<std::string>();
  const bool vowel = std::string_view("aeiouAEIO").find(name.front()) != std::string_view::npos;
  return (vowel ? "an " : "a ") + name;
}

std::string shape_text(const py::array& array) {
  std::string text = "(";
  for (py::ssize_t k = 0; k < array.ndim(); ++k) text += fmt::format("{}{}", k > 0 ? ", " : "", array.shape(k));
  return text + (array.ndim() == 1 ? ",)" : ")");
}

std::string text_from(py::handle object, std::string_view where, std::string_view wanted) {
  if (!py::isinstance<py::str>(object)) {
    throw InputError(std::string(where), fmt::format("{} where {} is wanted", type_name(object), wanted), "a str");
  }
  Py_ssize_t size = 0;
  const char* bytes = PyUnicode_AsUTF8AndSize(object.ptr(), &size);
  if (bytes == nullptr) {
    PyErr_Clear();
    throw InputError(std::string(where), "text with characters that are no Unicode", "a str of Unicode characters");
  }
  return {bytes, static_cast<std::size_t>(size)};
}

double number_from(py::handle object, std::string_view where, std::string_view wanted) {
  const auto refuse = [&] {
    throw InputError(std::string(where), fmt::format("{} where {} is wanted", type_name(object), wanted),
                     std::string(wanted));
  };
  if (object.is_none() || py::isinstance<py::str>(object) || PyBool_Check(object.ptr()) ||
      py::isinstance<py::bytes>(object)) {
    refuse();
  }
  if (py::hasattr(object, "ndim") && py::hasattr(object, "dtype")) {
    if (object.attr("ndim").cast<int>() != 0 || object.attr("dtype").attr("kind").cast<std::string>() == "b") refuse();
  }
  const double value = PyFloat_AsDouble(object.ptr());
  if (PyErr_Occurred() != nullptr) {
    PyErr_Clear();
    refuse();
  }
  if (!std::isfinite(value)) {
    throw InputError(std::string(where), fmt::format("{} is not a finite number", value), std::string(wanted));
  }
  return value;
}

int count_from(py::handle object, std::string_view where) {
  if (!PyBool_Check(object.ptr()) && PyIndex_Check(object.ptr()) != 0) {
    const Py_ssize_t value = PyNumber_AsSsize_t(object.ptr(), nullptr);
    if (value >= INT_MIN && value <= INT_MAX) return static_cast<int>(value);
    throw InputError(std::string(where), "a number too large to count with", "a whole number");
  }
  throw InputError(std::string(where), type_name(object) + " where a whole number is wanted", "an int");
}

bool bool_from(py::handle object, std::string_view where) {
  if (PyBool_Check(object.ptr())) return object.ptr() == Py_True;
  throw InputError(std::string(where), type_name(object) + " where True or False is wanted", "True or False");
}

double quantity_from(Kind kind, py::handle object, std::string_view where) {
  if (py::isinstance<py::str>(object)) return parse_si(kind, text_from(object, where), where);
  const KindRow& row = kind_row(kind);
  const std::string wanted = kind == Kind::fraction
                                 ? std::string("a plain number, or text in per cent, e.g. '5 %'")
                                 : fmt::format("{} as a number in {}, or text with its unit, e.g. '{}'", row.noun,
                                               row.units[0].name, row.example);
  return number_from(object, where, wanted);
}

std::size_t choice_from(const std::vector<std::string>& names, py::handle object, std::string_view where) {
  std::string allowed;
  for (const std::string& name : names) allowed += (allowed.empty() ? "'" : ", '") + name + "'";
  const std::string text = py::isinstance<py::str>(object) ? text_from(object, where) : std::string();
  const auto found = std::find(names.begin(), names.end(), text);
  if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
  const std::string what = py::isinstance<py::str>(object) ? in_quotes(text) : type_name(object);
  throw InputError(std::string(where), what + " is not one of the choices", allowed, nearest_name(text, names));
}

std::string unit_note(Kind kind) {
  return kind == Kind::fraction ? std::string("[-]") : fmt::format("[{}]", kind_row(kind).units[0].name);
}

py::array_t<double, py::array::c_style> array_from(std::optional<Kind> kind, py::handle object,
                                                   std::string_view where) {
  using Array = py::array_t<double, py::array::c_style>;
  const auto one = [&](py::handle item) { return kind ? quantity_from(*kind, item, where) : number_from(item, where); };
  if (py::isinstance<py::str>(object) || PyFloat_Check(object.ptr()) || PyLong_Check(object.ptr()) ||
      object.is_none()) {
    Array single(std::vector<py::ssize_t>{});
    *single.mutable_data() = one(object);
    return single;
  }
  const py::module_ numpy = py::module_::import("numpy");
  py::array given;
  try {
    given = numpy.attr("asarray")(object);
  } catch (const py::error_already_set&) {
    throw InputError(std::string(where), type_name(object) + " is not an array of numbers",
                     "numbers in an array or in lists of equal length");
  }
  const auto type = given.dtype().kind();
  if (type == 'U' || type == 'O' || type == 'T') {  // text with units, or mixed
    const py::array objects = numpy.attr("asarray")(object, py::arg("dtype") = "object");
    Array out(std::vector<py::ssize_t>(objects.shape(), objects.shape() + objects.ndim()));
    double* to = out.mutable_data();
    for (const py::handle item : objects.attr("ravel")().cast<py::iterable>()) *to++ = one(item);
    return out;
  }
  if (type != 'f' && type != 'i' && type != 'u') {
    throw InputError(std::string(where), fmt::format("an array of {}", std::string(py::str(given.dtype()))),
                     "an array of numbers");
  }
  Array out = Array::ensure(given);
  const double* data = out.data();
  for (py::ssize_t i = 0; i < out.size(); ++i) {
    if (std::isfinite(data[i])) continue;
    throw InputError(fmt::format("{}, number {}", where, i), fmt::format("{} is not a finite number", data[i]),
                     "finite numbers");
  }
  return out;
}

std::vector<py::ssize_t> broadcast_shape(std::string_view function, const std::vector<std::string>& names,
                                         const std::vector<py::array>& arrays) {
  std::vector<py::ssize_t> shape;
  for (const py::array& a : arrays) {
    if (static_cast<std::size_t>(a.ndim()) > shape.size()) {
      shape.insert(shape.begin(), static_cast<std::size_t>(a.ndim()) - shape.size(), 1);
    }
    for (py::ssize_t k = 0; k < a.ndim(); ++k) {
      py::ssize_t& mine = shape[shape.size() - static_cast<std::size_t>(a.ndim() - k)];
      const py::ssize_t its = a.shape(k);
      if (mine == 1) mine = its;
      if (its == 1 || its == mine) continue;
      std::string all;
      for (std::size_t i = 0; i < arrays.size(); ++i) {
        if (arrays[i].ndim() > 0)
          all += fmt::format("{}{} {}", all.empty() ? "" : ", ", names[i], shape_text(arrays[i]));
      }
      throw InputError(std::string(function), "arrays whose shapes do not fit together: " + all,
                       "shapes that NumPy broadcasts: equal, or 1, from the last axis backwards");
    }
  }
  return shape;
}

}  // namespace libflow::python
