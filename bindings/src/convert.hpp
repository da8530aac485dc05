// SPDX-License-Identifier: MIT
/// @file
/// Python objects to the numbers and quantities of libflow and back.
///
/// A quantity comes in as an SI number or as text with its unit and goes out as an SI float. Whatever is wrong throws
/// InputError that names the argument.
#pragma once

#include <array>
#include <concepts>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>
#include <libflow/units/table.hpp>

namespace libflow::python {

namespace py = pybind11;

/// A Python argument that is a quantity: shown as `float | str` in signatures.
class QuantityArg : public py::object {
 public:
  PYBIND11_OBJECT_DEFAULT(QuantityArg, object, is_any)
  static bool is_any(PyObject* /*object*/) { return true; }
};
/// The same where arrays are taken too.
class ArrayArg : public py::object {
 public:
  PYBIND11_OBJECT_DEFAULT(ArrayArg, object, is_any)
  static bool is_any(PyObject* /*object*/) { return true; }
};

/// "a Hose", "an int": what a Python object is, for messages.
std::string type_name(py::handle object);
/// Text of a Python str. @throws InputError for anything else
std::string text_from(py::handle object, std::string_view where, std::string_view wanted = "text");
/// A finite number that is neither text nor truth value. @throws InputError
double number_from(py::handle object, std::string_view where, std::string_view wanted = "a plain number");
int count_from(py::handle object, std::string_view where);
bool bool_from(py::handle object, std::string_view where);
/// SI number of a quantity of `kind`: an SI number or text with a unit. @throws InputError
double quantity_from(Kind kind, py::handle object, std::string_view where);
/// As the name of what is allowed, with the nearest. @throws InputError
std::size_t choice_from(const std::vector<std::string>& names, py::handle object, std::string_view where);
/// "[m]" of a kind, "[-]" of a fraction.
std::string unit_note(Kind kind);
/// Array of float64 from numbers or text, of any shape. @throws InputError
py::array_t<double, py::array::c_style> array_from(std::optional<Kind> kind, py::handle object, std::string_view where);
/// The shape that broadcasts all of them. @throws InputError naming the arguments and their shapes
std::vector<py::ssize_t> broadcast_shape(std::string_view function, const std::vector<std::string>& names,
                                         const std::vector<py::array>& arrays);
/// "(3, 2)".
std::string shape_text(const py::array& array);

/// A typed quantity, one that may be missing, a list of them.
template <class M>
concept Quantity = requires {
  units_detail::KindOf<M>::value;
};
template <class M>
concept MaybeQuantity = Quantity<typename M::value_type> && requires(const M& m) {
  m.has_value();
};
template <class M>
concept ManyQuantities = Quantity<typename M::value_type> && requires(const M& m) {
  m.size();
};

template <class Q>
[[nodiscard]] Q quantity(const py::handle& object, std::string_view where) {
  return from_si<Q>(quantity_from(kind_of<Q>, object, where));
}
/// None: not given.
template <class Q>
[[nodiscard]] std::optional<Q> maybe_quantity(const py::handle& object, std::string_view where) {
  if (object.is_none()) return std::nullopt;
  return quantity<Q>(object, where);
}

/// Adds a method to a class of any type.
template <class F, class... Extra>
void add_method(py::handle cls, const char* name, F&& f, const Extra&... extra) {
  cls.attr(name) = py::cpp_function(std::forward<F>(f), py::name(name), py::is_method(cls), extra...);
}

/// Names of an enum's values in their order; specialised where the enum is bound.
template <class E>
struct Names;
template <class E>
concept Named = requires {
  Names<E>::all();
};

/// How one type of field comes from Python and goes there.
template <class M>
struct Convert {
  /// An object of a class that is bound.
  static M from(py::handle object, std::string_view where) {
    if (!py::isinstance<M>(object)) {
      const std::string wanted = py::type::of<M>().attr("__name__").template cast<std::string>();
      throw InputError(std::string(where), type_name(object) + " where " + wanted + " is wanted", "a " + wanted);
    }
    return object.cast<M>();
  }
  static py::object to(const M& value) { return py::cast(value); }
  static std::string annotation() {
    return "libflow._libflow." + py::type::of<M>().attr("__name__").template cast<std::string>();
  }
};
template <class Unit>
struct Convert<boost::units::quantity<Unit>> {
  using Q = boost::units::quantity<Unit>;
  static Q from(py::handle object, std::string_view where) { return quantity<Q>(object, where); }
  static py::object to(const Q& value) { return py::float_(si(value)); }
  static std::string annotation() { return "float | str"; }
};
template <>
struct Convert<double> {
  static double from(py::handle object, std::string_view where) { return number_from(object, where); }
  static py::object to(double value) { return py::float_(value); }
  static std::string annotation() { return "float"; }
};
template <>
struct Convert<int> {
  static int from(py::handle object, std::string_view where) { return count_from(object, where); }
  static py::object to(int value) { return py::int_(value); }
  static std::string annotation() { return "int"; }
};
template <>
struct Convert<bool> {
  static bool from(py::handle object, std::string_view where) { return bool_from(object, where); }
  static py::object to(bool value) { return py::bool_(value); }
  static std::string annotation() { return "bool"; }
};
template <>
struct Convert<std::string> {
  static std::string from(py::handle object, std::string_view where) { return text_from(object, where); }
  static py::object to(const std::string& value) { return py::str(value); }
  static std::string annotation() { return "str"; }
};
template <Named E>
struct Convert<E> {
  static E from(py::handle object, std::string_view where) {
    return static_cast<E>(choice_from(Names<E>::all(), object, where));
  }
  static py::object to(E value) { return py::str(Names<E>::all()[static_cast<std::size_t>(value)]); }
  static std::string annotation() {
    std::string text = "typing.Literal[";
    for (const std::string& name : Names<E>::all()) text += (text.ends_with('[') ? "'" : ", '") + name + "'";
    return text + "]";
  }
};
template <class M>
struct Convert<std::optional<M>> {
  static std::optional<M> from(py::handle object, std::string_view where) {
    if (object.is_none()) return std::nullopt;
    return Convert<M>::from(object, where);
  }
  static py::object to(const std::optional<M>& value) { return value ? Convert<M>::to(*value) : py::none(); }
  static std::string annotation() { return Convert<M>::annotation() + " | None"; }
};
template <class M>
struct Convert<std::vector<M>> {
  static std::vector<M> from(py::handle object, std::string_view where) {
    if (py::isinstance<py::str>(object) || !py::isinstance<py::iterable>(object)) {
      throw InputError(std::string(where), type_name(object) + " where a list is wanted", "a list or an array");
    }
    std::vector<M> values;
    for (const py::handle item : object.cast<py::iterable>()) {
      values.push_back(Convert<M>::from(item, std::string(where) + ", item " + std::to_string(values.size())));
    }
    return values;
  }
  static py::object to(const std::vector<M>& values) {
    py::list list;
    for (const M& value : values) list.append(Convert<M>::to(value));
    return list;
  }
  static std::string annotation() { return "collections.abc.Sequence[" + Convert<M>::annotation() + "]"; }
};

}  // namespace libflow::python

namespace pybind11::detail {
template <>
struct handle_type_name<libflow::python::QuantityArg> {
  static constexpr auto name = const_name("float | str");
};
template <>
struct handle_type_name<libflow::python::ArrayArg> {
  static constexpr auto name = const_name("numpy.typing.ArrayLike");
};
}  // namespace pybind11::detail
