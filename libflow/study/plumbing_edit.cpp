// SPDX-License-Identifier: MIT
#include <libflow/study/plumbing_edit.hpp>

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include <libflow/parts/valve.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

Part shut_part() { return Part(Valve{.kv = from_si<Flow>(1e-6), .bore = from_si<Length>(0.01), .open = 0.0}, "plug"); }

namespace plumbing_edit_detail {

template <class T>
const T* find(const std::vector<std::pair<std::size_t, T>>& list, std::size_t index) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const auto& entry) { return entry.first == index; });
  return found == list.end() ? nullptr : &found->second;
}

static void add_place(Network& n, const Place& p, const PlumbingEdit& edit, std::size_t index) {
  const double* up = find(edit.raised, index);
  const Length z = from_si<Length>(p.elevation + (up == nullptr ? 0.0 : *up));
  if (const double* pressure = find(edit.held, index)) {
    n.add_supply(p.id, from_si<Pressure>(*pressure), z);
  } else if (const double* flow = find(edit.fed, index)) {
    n.add_fed(p.id, from_si<Flow>(*flow), z);
  } else if (p.kind == PlaceKind::supply) {
    n.add_supply(p.id, from_si<Pressure>(p.pressure), z);
  } else if (p.kind == PlaceKind::fed) {
    n.add_fed(p.id, from_si<Flow>(p.flow), z);
  } else if (p.kind == PlaceKind::drawn) {
    n.add_drawn(p.id, from_si<Flow>(p.flow), z);
  } else if (p.kind == PlaceKind::air) {
    n.add_air(p.id, z);
  } else {
    n.add_place(p.id, z);
  }
}

}  // namespace plumbing_edit_detail

Plumbing edited(const Plumbing& plumbing, const PlumbingEdit& edit) {
  using namespace plumbing_edit_detail;
  const Network& old = plumbing.network;
  Network n;
  for (std::size_t i = 0; i < old.place_count(); ++i) add_place(n, old.place(i), edit, i);
  std::vector<std::pair<std::size_t, std::pair<std::size_t, std::size_t>>> ends;  // of what is put in series
  for (const auto& [part, throttle] : edit.throttled) {
    const bool behind = old.place(old.to(part)).kind == PlaceKind::junction;
    const std::size_t at = behind ? old.to(part) : old.from(part);
    const auto between = n.add_place(old.part(part).id + " throttle", from_si<Length>(n.place(at).elevation));
    ends.push_back({part, behind ? std::pair{between, at} : std::pair{at, between}});
  }
  for (std::size_t i = 0; i < old.part_count(); ++i) {
    const PlacedPart& placed = old.part(i);
    const Part* other = find(edit.exchanged, i);
    std::size_t from = placed.from, to = placed.to;
    for (const auto& [part, pair] : ends) {
      if (part == i) (pair.second == to ? to = pair.first : from = pair.second);
    }
    n.add_part(placed.id, from, to, other == nullptr ? placed.part : *other);
  }
  for (std::size_t k = 0; k < ends.size(); ++k) {
    const auto& [part, pair] = ends[k];
    n.add_part(old.part(part).id + " throttle", pair.first, pair.second, edit.throttled[k].second);
  }
  Plumbing out = plumbing;
  out.network = std::move(n);
  for (TeeAt& tee : out.tees) {
    for (std::size_t k = 0; k < ends.size(); ++k) {
      const auto& [part, pair] = ends[k];
      if (tee.place != (old.to(part) == pair.second ? pair.second : pair.first)) continue;
      // The throttle stands between the tee and the part that was its leg.
      const Network::PartIndex leg = old.part_count() + k;
      if (tee.left == part) tee.left = leg;
      if (tee.right == part) tee.right = leg;
      std::replace(tee.branches.begin(), tee.branches.end(), part, leg);
    }
  }
  for (RowPlumbing& row : out.rows) {
    if (std::find(edit.rows_shut.begin(), edit.rows_shut.end(), row.row) != edit.rows_shut.end()) row.shut = true;
  }
  return out;
}

}  // namespace libflow
