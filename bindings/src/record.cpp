// SPDX-License-Identifier: MIT
#include "record.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <libflow/units/system.hpp>

namespace libflow::python {

namespace {

using Info = std::shared_ptr<const RecordInfo>;

/// True for lengths that are read in inches or millimetres.
bool is_bore(std::string_view name) {
  const auto ends = [&](std::string_view end) { return name.ends_with(end); };
  return ends("bore") || ends("thickness") || ends("opening") || ends("roughness") || name == "bore_tolerance" ||
         name == "gap";
}

/// Text of a quantity that reads back as the same quantity: '14 ft', '0.25 in'.
std::string show_quantity(Kind kind, double value, bool bore) {
  if (kind == Kind::fraction || !std::isfinite(value)) return py::repr(py::float_(value)).cast<std::string>();
  if (value == 0.0) return "0.0";
  // Both systems read back exactly; the shorter one is what was meant.
  const auto in = [&](UnitSystem system) {
    const units_detail::ShownRow& row =
        bore ? units_detail::shown_bore : units_detail::shown[static_cast<std::size_t>(kind)];
    return units_detail::exact_text(kind, value, units_detail::pick(row, system).unit);
  };
  const std::string us = in(UnitSystem::us), metric = in(UnitSystem::metric);
  return "'" + (metric.size() < us.size() ? metric : us) + "'";
}

std::string show(const Field& f, const void* record) {
  const py::object value = f.get(f, record);
  if (f.kind && PyFloat_Check(value.ptr())) return show_quantity(*f.kind, value.cast<double>(), is_bore(f.name));
  if (f.kind && py::isinstance<py::list>(value)) {
    std::string text;
    for (const py::handle item : value.cast<py::list>()) {
      text += (text.empty() ? "" : ", ") + show_quantity(*f.kind, item.cast<double>(), is_bore(f.name));
    }
    return "[" + text + "]";
  }
  return py::repr(value).cast<std::string>();
}

/// "name(self, *, a: int, b: float = 1.0)".
std::string signature(const RecordInfo& info, const std::string& function, bool all_optional) {
  std::string text = function + "(self: libflow._libflow." + info.name + ", *";
  for (const Field& f : info.fields) {
    text += ", " + f.name + ": " + f.annotation;
    if (all_optional) {
      text += " = ...";
    } else if (!f.needed) {
      text += " = " + (f.unset.find_first_of("(<") == std::string::npos ? f.unset : std::string("..."));
    }
  }
  return text + ")";
}

std::string list_of(const RecordInfo& info) {
  std::string text;
  for (const Field& f : info.fields) {
    text += fmt::format("\n    {}: {}{}", f.name, f.doc, f.needed ? "" : fmt::format(" (default {})", f.unset));
  }
  return text;
}

/// Fills a record from keywords. @throws InputError for positional, unknown or missing ones
void fill(const RecordInfo& info, void* record, const py::args& args, const py::dict& given, bool all_optional) {
  std::vector<std::string> names;
  std::string allowed, example;
  for (const Field& f : info.fields) {
    names.push_back(f.name);
    allowed += (allowed.empty() ? "" : ", ") + f.name;
    if (f.needed) example += (example.empty() ? "" : ", ") + f.name + "=...";
  }
  if (!args.empty()) {
    throw InputError(info.name, "values without the names of their fields",
                     fmt::format("keywords: {}({})", info.name, example.empty() ? names.front() + "=..." : example));
  }
  for (const auto& item : given) {
    const std::string key = py::str(item.first);
    if (std::find(names.begin(), names.end(), key) != names.end()) continue;
    throw InputError(info.name, fmt::format("there is no field '{}'", key), allowed, nearest_name(key, names));
  }
  for (const Field& f : info.fields) {
    if (given.contains(f.name.c_str())) {
      f.set(f, record, given[f.name.c_str()], info.name + ", " + f.name);
    } else if (!all_optional && f.needed) {
      throw InputError(info.name, fmt::format("'{}' is missing", f.name), fmt::format("{}({})", info.name, example));
    }
  }
}

/// A new record: `base` with what is given. Checked.
std::unique_ptr<void, void (*)(void*)> made(const RecordInfo& info, const void* base, const py::args& args,
                                            const py::dict& given, bool all_optional) {
  std::unique_ptr<void, void (*)(void*)> record(info.copy(base), info.destroy);
  fill(info, record.get(), args, given, all_optional);
  if (info.check != nullptr) info.check(record.get(), info.name);
  return record;
}

/// The struct inside a Python object of its class.
const void* inside(const RecordInfo& info, py::handle self) {
  py::detail::type_caster_generic caster(*info.type);
  if (!caster.load(self, false) || caster.value == nullptr) {
    throw py::type_error("a " + info.name + " is wanted, not " + type_name(self));
  }
  return caster.value;
}

py::dict values(const RecordInfo& info, const void* record) {
  py::dict all;
  for (const Field& f : info.fields) all[py::str(f.name)] = f.get(f, record);
  return all;
}

std::string repr(const RecordInfo& info, const void* record) {
  std::string text = info.name + "(";
  for (const Field& f : info.fields) {
    const std::string shown = show(f, record);
    if (!f.needed && shown == f.unset) continue;
    text += (text.ends_with('(') ? "" : ", ") + f.name + "=" + shown;
  }
  return text + ")";
}

/// What a property of this field reads as.
std::string read_annotation(const Field& f) {
  if (!f.annotation.starts_with("float | str")) return f.annotation;
  std::string rest = f.annotation.substr(std::string_view("float | str").size());
  if (rest.starts_with(" | collections.abc.Sequence[float | str]")) {
    rest = " | list[float]" + rest.substr(std::string_view(" | collections.abc.Sequence[float | str]").size());
  }
  return "float" + rest;
}

}  // namespace

void finish_field(Field& f, const void* blank) {
  if (f.kind) f.doc = unit_note(*f.kind) + " " + f.doc;
  if (!f.needed) f.unset = show(f, blank);
}

void finish_record(py::handle cls, Info info) {
  cls.attr("__doc__") = info->doc +
                        "\n\nFields, given by keyword (a quantity as an SI number or as text with its unit) and read "
                        "as SI numbers:\n" +
                        list_of(*info);
  py::options options;
  options.disable_function_signatures();
  const std::string init_doc = signature(*info, "__init__", false) + " -> None\n\n" + info->doc;
  add_method(
      cls, "__init__",
      [info](py::detail::value_and_holder& self, const py::args& args, const py::kwargs& given) {
        self.value_ptr() = made(*info, info->blank, args, given, false).release();
      },
      py::detail::is_new_style_constructor(), py::doc(init_doc.c_str()));
  const std::string replace_doc = signature(*info, "replace", true) + " -> libflow._libflow." + info->name +
                                  "\n\nA new " + info->name + " with some fields changed.";
  add_method(
      cls, "replace",
      [info](const py::object& self, const py::args& args, const py::kwargs& given) {
        return info->give(made(*info, inside(*info, self), args, given, true).release());
      },
      py::doc(replace_doc.c_str()));
  const py::handle property(reinterpret_cast<PyObject*>(&PyProperty_Type));
  for (std::size_t k = 0; k < info->fields.size(); ++k) {
    const Field& f = info->fields[k];
    const std::string doc = "(self: libflow._libflow." + info->name + ") -> " + read_annotation(f) + "\n\n" + f.doc;
    cls.attr(f.name.c_str()) = property(
        py::cpp_function(
            [info, k](const py::object& self) { return info->fields[k].get(info->fields[k], inside(*info, self)); },
            py::is_method(cls), py::doc(doc.c_str())),
        py::none(), py::none(), py::str(doc));
  }
  options.enable_function_signatures();
  add_method(cls, "__repr__", [info](const py::object& self) { return repr(*info, inside(*info, self)); });
  add_method(
      cls, "as_dict", [info](const py::object& self) { return values(*info, inside(*info, self)); },
      "Every field by name, quantities in SI.");
  add_method(cls, "__eq__", [info](const py::object& self, const py::object& other) -> py::object {
    if (!py::type::of(other).is(py::type::of(self))) return py::reinterpret_borrow<py::object>(Py_NotImplemented);
    return py::bool_(values(*info, inside(*info, self)).equal(values(*info, inside(*info, other))));
  });
  cls.attr("__hash__") = py::none();
  add_method(cls, "__getstate__", [info](const py::object& self) { return values(*info, inside(*info, self)); });
  add_method(
      cls, "__setstate__",
      [info](py::detail::value_and_holder& self, const py::dict& state) {
        self.value_ptr() = made(*info, info->blank, py::args(), state, false).release();
      },
      py::detail::is_new_style_constructor());
}

}  // namespace libflow::python
