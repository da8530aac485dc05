// SPDX-License-Identifier: MIT
/// @file
/// The plumbing as a graph: places joined by parts.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include <boost/graph/adjacency_list.hpp>
#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/core/range.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// What holds at a place.
enum class PlaceKind : unsigned char {
  junction,  ///< parts meet here; what flows in flows out
  supply,    ///< held at a given total pressure: a tank, a regulated supply
  fed,       ///< a given flow is pushed in here whatever the pressure: a metering pump, a rate controller
  drawn,     ///< a given flow is taken out here whatever the pressure: a demand, a metering pump that sucks
  air        ///< open to the air: held at zero gauge pressure, liquid leaves here
};

/// The liquid in a tank that holds a supply's pressure.
struct TankLevel {
  double level = 0;  ///< above the tank's inside bottom [m]
  double depth = 0;  ///< above its outlet, counted in the supply's pressure [m]
};

/// A point of the plumbing.
struct Place {
  std::string id;                        ///< unique among its kind
  double elevation = 0;                  ///< [m] above any one datum
  PlaceKind kind = PlaceKind::junction;  ///< what is known there
  double pressure = 0;                   ///< supply: total pressure [Pa gauge]; air: 0
  double flow = 0;                       ///< fed: flow pushed in; drawn: flow taken out [m3/s], >= 0
  std::optional<TankLevel> tank{};       ///< supply that add_tank made (tank_supply.hpp), until its pressure is set

  /// True where the pressure is given.
  [[nodiscard]] bool held() const { return kind == PlaceKind::supply || kind == PlaceKind::air; }
  /// Given flow into the network, + in [m3/s]; 0 at a junction and where the pressure is given.
  [[nodiscard]] double inflow() const { return kind == PlaceKind::fed ? flow : kind == PlaceKind::drawn ? -flow : 0.0; }
};

/// A part in its place: liquid that goes from `from` to `to` counts as positive.
struct PlacedPart {
  std::string id;        ///< unique among its kind
  Part part;             ///< what it is
  std::size_t from, to;  ///< its places
};

/// What an edge of the graph carries: which part it is.
struct PartNumber {
  std::size_t part = 0;  ///< index of the part on this edge
};

/// Places joined by parts. Built once, then handed to solve(); ids are the names in every message and result.
///
///     Network n;
///     n.add_supply("pump", 30.0 * psi);
///     n.add_air("row 1");
///     n.add_part("hose 1", "pump", "row 1", Hose{.length = 14.0 * ft, .bore = 0.375 * inch});
class Network {
 public:
  /// Places as vertices, parts as edges.
  using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::bidirectionalS, Place, PartNumber>;
  /// Places are counted from 0 in the order of adding.
  using PlaceIndex = std::size_t;
  /// Parts are counted from 0 in the order of adding.
  using PartIndex = std::size_t;

  /// Elevations are allowed within this range [m], pressures [Pa gauge], flows [m3/s].
  static constexpr Range elevation_range{-1000.0, 1000.0};
  static constexpr Range pressure_range{-1.01325e5, 1e8};  ///< of a supply [Pa gauge]
  static constexpr Range flow_range{0.0, 10.0};            ///< of a given flow [m3/s]

  /// A place where parts meet. Ids are unique, not empty. @throws InputError
  PlaceIndex add_place(std::string id, Length elevation = from_si<Length>(0.0)) {
    return insert({.id = std::move(id), .elevation = si(elevation)});
  }
  /// A place held at a total pressure (gauge).
  PlaceIndex add_supply(std::string id, Pressure pressure, Length elevation = from_si<Length>(0.0)) {
    return insert(
        {.id = std::move(id), .elevation = si(elevation), .kind = PlaceKind::supply, .pressure = si(pressure)});
  }
  /// A place into which a flow is pushed.
  PlaceIndex add_fed(std::string id, Flow flow, Length elevation = from_si<Length>(0.0)) {
    return insert({.id = std::move(id), .elevation = si(elevation), .kind = PlaceKind::fed, .flow = si(flow)});
  }
  /// A place from which a flow is taken, whatever the pressure.
  PlaceIndex add_drawn(std::string id, Flow flow, Length elevation = from_si<Length>(0.0)) {
    return insert({.id = std::move(id), .elevation = si(elevation), .kind = PlaceKind::drawn, .flow = si(flow)});
  }
  /// A place open to the air.
  PlaceIndex add_air(std::string id, Length elevation = from_si<Length>(0.0)) {
    return insert({.id = std::move(id), .elevation = si(elevation), .kind = PlaceKind::air});
  }

  /// Joins two places by a part. @throws InputError for an unknown place, a used id, a part joined to one place twice
  PartIndex add_part(std::string id, PlaceIndex from, PlaceIndex to, Part part) {
    const std::string where = fmt::format("part '{}'", id);
    if (id.empty()) throw InputError("part", "an empty id", "a name that no other part has");
    if (part_of_.contains(id)) throw InputError(where, "this id is used twice", "a name that no other part has");
    if (from >= place_count() || to >= place_count()) {
      throw InputError(where, "joins a place that is not in the network", fmt::format("0 to {}", place_count()));
    }
    if (from == to) {
      throw InputError(where, fmt::format("begins and ends at the same place '{}'", place(from).id),
                       "two different places");
    }
    const PartIndex index = parts_.size();
    part_of_.emplace(id, index);
    boost::add_edge(from, to, PartNumber{index}, graph_);
    parts_.push_back({std::move(id), std::move(part), from, to});
    return index;
  }
  /// The same by place ids. The part's own check names it by its id.
  template <PartType T>
  PartIndex add_part(std::string id, std::string_view from, std::string_view to, T part) {
    const std::string where = fmt::format("part '{}'", id);
    const PlaceIndex a = find_place(from, where + ", from");
    const PlaceIndex b = find_place(to, where + ", to");
    Part checked(std::move(part), fmt::format("{} '{}'", T::kind, id));
    return add_part(std::move(id), a, b, std::move(checked));
  }

  /// Number of places.
  [[nodiscard]] std::size_t place_count() const { return boost::num_vertices(graph_); }
  /// Number of parts.
  [[nodiscard]] std::size_t part_count() const { return parts_.size(); }
  /// A place.
  /// @param i  < place_count()
  [[nodiscard]] const Place& place(PlaceIndex i) const { return graph_[i]; }
  /// A part and where it is.
  /// @param i  < part_count()
  [[nodiscard]] const PlacedPart& part(PartIndex i) const { return parts_[i]; }
  /// First place of a part.
  [[nodiscard]] PlaceIndex from(PartIndex i) const { return parts_[i].from; }
  /// Second place of a part.
  [[nodiscard]] PlaceIndex to(PartIndex i) const { return parts_[i].to; }
  /// The graph itself, for algorithms of Boost.Graph.
  [[nodiscard]] const Graph& graph() const { return graph_; }

  /// Index of a place or part by id. @throws InputError with the nearest name
  [[nodiscard]] PlaceIndex find_place(std::string_view id, std::string_view where = "place") const {
    return find(id, where, "place", place_of_);
  }
  /// Index of a part.
  /// @throws InputError naming the nearest id
  [[nodiscard]] PartIndex find_part(std::string_view id, std::string_view where = "part") const {
    return find(id, where, "part", part_of_);
  }

  /// Gives another flow to a fed place (the shape stays).
  void set_fed_flow(PlaceIndex i, Flow flow) {
    Place changed = graph_[i];
    need_kind(changed, PlaceKind::fed, "is not fed by a flow", "a place fed by a flow");
    changed.flow = si(flow);
    check(changed);
    graph_[i] = std::move(changed);
  }
  /// Gives another total pressure (gauge) to a supply (the shape stays).
  void set_supply_pressure(PlaceIndex i, Pressure pressure) {
    Place changed = graph_[i];
    need_kind(changed, PlaceKind::supply, "is not a supply", "a supply");
    changed.pressure = si(pressure);
    changed.tank.reset();
    check(changed);
    graph_[i] = std::move(changed);
  }
  /// Says of a supply that a tank's level holds its pressure: what Derivatives take the level from.
  void set_tank_level(PlaceIndex i, const TankLevel& tank) {
    need_kind(graph_[i], PlaceKind::supply, "is not a supply", "a supply");
    graph_[i].tank = tank;
  }
  /// Gives a place another elevation (the shape stays).
  void set_elevation(PlaceIndex i, Length elevation) {
    Place changed = graph_[i];
    changed.elevation = si(elevation);
    check(changed);
    graph_[i] = std::move(changed);
  }
  /// Puts another part in the place of one (the shape stays). A System reads its parts when it is made.
  void replace_part(PartIndex i, Part part) { parts_.at(i).part = std::move(part); }

 private:
  using Index = std::unordered_map<std::string, std::size_t>;

  /// A setter of one kind of place, given another: says which places it could have been.
  void need_kind(const Place& place, PlaceKind kind, const char* wrong, const char* kind_words) const {
    if (place.kind == kind) return;
    std::string allowed;
    for (PlaceIndex i = 0; i < place_count(); ++i) {
      if (graph_[i].kind == kind) allowed += fmt::format("{}'{}'", allowed.empty() ? ": " : ", ", graph_[i].id);
    }
    throw InputError(fmt::format("place '{}'", place.id), wrong,
                     kind_words + (allowed.empty() ? " (this network has none)" : allowed));
  }

  static void check(const Place& p) {
    const std::string where = fmt::format("place '{}'", p.id);
    require_in(where + ", elevation", p.elevation, elevation_range, "m");
    if (p.kind == PlaceKind::supply) require_in(where + ", pressure", p.pressure, pressure_range, "Pa");
    if (p.kind == PlaceKind::fed || p.kind == PlaceKind::drawn)
      require_in(where + ", flow", p.flow, flow_range, "m3/s");
  }

  PlaceIndex insert(Place p) {
    if (p.id.empty()) throw InputError("place", "an empty id", "a name that no other place has");
    if (place_of_.contains(p.id)) {
      throw InputError(fmt::format("place '{}'", p.id), "this id is used twice", "a name that no other place has");
    }
    check(p);
    place_of_.emplace(p.id, place_count());
    return boost::add_vertex(p, graph_);
  }

  static std::size_t find(std::string_view id, std::string_view where, std::string_view what, const Index& index) {
    const auto it = index.find(std::string(id));
    if (it != index.end()) return it->second;
    std::vector<std::string> names;
    names.reserve(index.size());
    for (const auto& entry : index) names.push_back(entry.first);
    throw InputError(std::string(where), fmt::format("there is no {} '{}'", what, id.substr(0, 60)), {},
                     nearest_name(id, names));
  }

  Graph graph_;
  std::vector<PlacedPart> parts_;
  Index place_of_, part_of_;
};

}  // namespace libflow
