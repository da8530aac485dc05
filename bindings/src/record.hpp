// SPDX-License-Identifier: MIT
/// @file
/// A struct of the library as an immutable Python object: made by keywords, compared and pickled by value, printed as
/// the code that makes it.
///
/// All that does not need the struct's type works on pointers to it and is compiled once (record.cpp): there are some
/// sixty such structs, and templates for each would take minutes.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <typeinfo>
#include <utility>
#include <vector>

#include "convert.hpp"

namespace libflow::python {

/// One field, whatever the struct: `record` points to it.
struct Field {
  std::string name, annotation, doc;
  bool needed = false;
  std::string unset{};         ///< its default as code
  std::optional<Kind> kind{};  ///< of a quantity: how it is shown
  void (*set)(const Field& self, void* record, py::handle value, std::string_view where) = nullptr;
  py::object (*get)(const Field& self, const void* record) = nullptr;
};

struct RecordInfo {
  std::string name, doc;
  const std::type_info* type = nullptr;
  const void* blank = nullptr;  ///< an object with every default
  std::vector<Field> fields{};
  void* (*copy)(const void* record) = nullptr;
  void (*destroy)(void* record) = nullptr;
  py::object (*give)(void* record) = nullptr;                          ///< to Python, which then owns it
  void (*check)(const void* record, std::string_view name) = nullptr;  ///< throws InputError
};

/// Adds constructor, properties, comparison, pickling and so on to the class of a record.
void finish_record(py::handle cls, std::shared_ptr<const RecordInfo> info);
/// Fills what can be known of a field from a blank record.
void finish_field(Field& field, const void* blank);

/// Builds the Python class of a struct: need() for fields without a default, may() for those with one.
template <class T>
class Record {
 public:
  Record(py::module_& module, const char* name, std::string doc) : class_(module, name) {
    static const T blank{};
    info_->name = name;
    info_->doc = std::move(doc);
    info_->type = &typeid(T);
    info_->blank = &blank;
    info_->copy = [](const void* r) -> void* { return new T(*static_cast<const T*>(r)); };
    info_->destroy = [](void* r) { delete static_cast<T*>(r); };
    info_->give = [](void* r) { return py::cast(static_cast<T*>(r), py::return_value_policy::take_ownership); };
  }

  template <auto Member>
  Record& need(const char* name, const char* doc) {
    return add<Member>(name, doc, true);
  }
  template <auto Member>
  Record& may(const char* name, const char* doc) {
    return add<Member>(name, doc, false);
  }
  /// A plain double, or an optional one, that holds an SI quantity.
  template <auto Member>
  Record& si(const char* name, Kind kind, const char* doc) {
    using M = std::remove_cvref_t<decltype(std::declval<T&>().*Member)>;
    constexpr bool optional = !std::is_same_v<M, double>;
    Field f{.name = name, .annotation = optional ? "float | str | None" : "float | str", .doc = doc, .kind = kind};
    f.set = [](const Field& self, void* r, py::handle v, std::string_view where) {
      M& field = static_cast<T*>(r)->*Member;
      if constexpr (optional) {
        if (v.is_none()) return field.reset();
      }
      field = quantity_from(*self.kind, v, where);
    };
    f.get = [](const Field&, const void* r) { return Convert<M>::to(static_cast<const T*>(r)->*Member); };
    return finish(std::move(f));
  }
  /// A field with conversions of its own: set(T&, handle, where) and get(const T&), without captures.
  template <class Set, class Get>
  Record& own(const char* name, std::string annotation, const char* doc, bool needed, Set, Get) {
    static_assert(std::is_empty_v<Set> && std::is_empty_v<Get>);
    Field f{.name = name, .annotation = std::move(annotation), .doc = doc, .needed = needed};
    f.set = [](const Field&, void* r, py::handle v, std::string_view where) { Set{}(*static_cast<T*>(r), v, where); };
    f.get = [](const Field&, const void* r) -> py::object { return Get{}(*static_cast<const T*>(r)); };
    return finish(std::move(f));
  }

  /// The class with all its methods. @param check  (const T&, name), without captures: throws InputError
  template <class Check>
  py::class_<T>& done(Check) {
    static_assert(std::is_empty_v<Check>, "a lambda without captures: it is made anew for each call");
    info_->check = [](const void* r, std::string_view name) { Check{}(*static_cast<const T*>(r), name); };
    finish_record(class_, info_);
    return class_;
  }
  py::class_<T>& done() {
    finish_record(class_, info_);
    return class_;
  }

 private:
  template <auto Member>
  Record& add(const char* name, const char* doc, bool needed) {
    using M = std::remove_cvref_t<decltype(std::declval<T&>().*Member)>;
    Field f{.name = name, .annotation = Convert<M>::annotation(), .doc = doc, .needed = needed};
    f.set = [](const Field&, void* r, py::handle v, std::string_view where) {
      static_cast<T*>(r)->*Member = Convert<M>::from(v, where);
    };
    f.get = [](const Field&, const void* r) -> py::object { return Convert<M>::to(static_cast<const T*>(r)->*Member); };
    if constexpr (Quantity<M>) {
      f.kind = kind_of<M>;
    } else if constexpr (MaybeQuantity<M> || ManyQuantities<M>) {
      f.kind = kind_of<typename M::value_type>;
    }
    return finish(std::move(f));
  }
  Record& finish(Field f) {
    finish_field(f, info_->blank);
    info_->fields.push_back(std::move(f));
    return *this;
  }

  py::class_<T> class_;
  std::shared_ptr<RecordInfo> info_ = std::make_shared<RecordInfo>();
};

}  // namespace libflow::python
