// SPDX-License-Identifier: MIT
/// @file
/// Networks and their solutions as Python holds them.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <libflow/network/network.hpp>
#include <libflow/solve/solution.hpp>
#include <libflow/solve/tees.hpp>

#include "parts.hpp"

namespace libflow::python {

/// A network that knows how often it was changed.
struct PyNetwork {
  Network network{};
  std::uint64_t changes = 0;
};

/// A solution together with the network as it was solved, which stays as it was whatever is done to the other.
struct PySolution {
  Solution solution{};
  std::shared_ptr<const Network> network{};
  LiquidState liquid{};
  std::vector<TeeAt> tees{};                  ///< that it was solved with
  std::shared_ptr<const PyNetwork> origin{};  ///< where it came from; empty: nobody can change it
  std::uint64_t changes = 0;                  ///< of `origin` when it was solved

  [[nodiscard]] bool current() const { return !origin || origin->changes == changes; }
};

/// A read-only NumPy view of one number of every item of a vector; `owner` keeps the vector alive.
template <class Item, class Number>
py::array column_view(const std::vector<Item>& items, Number Item::*member, const py::object& owner) {
  const Number* first = items.empty() ? nullptr : &(items.front().*member);
  py::array_t<Number> view({static_cast<py::ssize_t>(items.size())}, {static_cast<py::ssize_t>(sizeof(Item))}, first,
                           owner);
  py::detail::array_proxy(view.ptr())->flags &= ~py::detail::npy_api::NPY_ARRAY_WRITEABLE_;
  return view;
}

/// A list of words, one an item.
template <class Item, class Choice>
py::list words(const std::vector<Item>& items, Choice Item::*member) {
  py::list list;
  for (const Item& item : items) list.append(Convert<Choice>::to(item.*member));
  return list;
}

/// Calls a function of the package's Python side.
template <class... Args>
py::object call_python(const char* module, const char* function, const Args&... args) {
  return py::module_::import(module).attr(function)(args...);
}

}  // namespace libflow::python
