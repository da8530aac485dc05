// SPDX-License-Identifier: MIT
#include "state.hpp"

#include <fmt/format.h>

#include "parts.hpp"

namespace libflow::python {

void require_fields(const py::tuple& state, std::size_t count) {
  if (state.size() == count) return;
  throw InputError("pickle", "made by another version of libflow", "a pickle of this version");
}

py::tuple network_state(const Network& n) {
  py::list places, parts;
  for (std::size_t i = 0; i < n.place_count(); ++i) {
    const Place& p = n.place(i);
    places.append(py::make_tuple(p.id, static_cast<int>(p.kind), p.elevation, p.pressure, p.flow));
  }
  for (std::size_t i = 0; i < n.part_count(); ++i) {
    const py::object part = part_to_python(n.part(i).part);
    if (part.is_none()) {
      throw InputError("network", fmt::format("part '{}' is of a type that Python does not know", n.part(i).id));
    }
    parts.append(py::make_tuple(n.part(i).id, n.from(i), n.to(i), part));
  }
  return py::make_tuple(places, parts);
}

Network network_of(const py::tuple& state) {
  require_fields(state, 2);
  Network n;
  for (const py::handle item : state[0].cast<py::list>()) {
    const auto t = item.cast<py::tuple>();
    const auto id = t[0].cast<std::string>();
    const auto z = from_si<Length>(t[2].cast<double>());
    switch (static_cast<PlaceKind>(t[1].cast<int>())) {
      case PlaceKind::junction:
        n.add_place(id, z);
        break;
      case PlaceKind::supply:
        n.add_supply(id, from_si<Pressure>(t[3].cast<double>()), z);
        break;
      case PlaceKind::fed:
        n.add_fed(id, from_si<Flow>(t[4].cast<double>()), z);
        break;
      case PlaceKind::drawn:
        n.add_drawn(id, from_si<Flow>(t[4].cast<double>()), z);
        break;
      case PlaceKind::air:
        n.add_air(id, z);
        break;
    }
  }
  for (const py::handle item : state[1].cast<py::list>()) {
    const auto t = item.cast<py::tuple>();
    const auto id = t[0].cast<std::string>();
    n.add_part(id, t[1].cast<std::size_t>(), t[2].cast<std::size_t>(), part_from(t[3], "part '" + id + "'"));
  }
  return n;
}

}  // namespace libflow::python
