// SPDX-License-Identifier: MIT
#include <libflow/study/path.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include <boost/graph/adjacency_list.hpp>
#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>

namespace libflow {

namespace path_detail {

/// Calls visit(part, other end) for each part at a place.
template <class Visit>
void each_part(const Network& n, std::size_t place, Visit visit) {
  const auto& graph = n.graph();
  for (auto [e, end] = boost::out_edges(place, graph); e != end; ++e) visit(graph[*e].part, n.to(graph[*e].part));
  for (auto [e, end] = boost::in_edges(place, graph); e != end; ++e) visit(graph[*e].part, n.from(graph[*e].part));
}

static bool source(const Place& p) { return p.kind == PlaceKind::supply || p.kind == PlaceKind::fed; }

/// Parts from the air back to a supply by the largest inflow; empty where nothing flows or the flow goes in a ring.
static std::vector<std::size_t> against_the_flow(const Network& n, const Solution& s, std::size_t air) {
  std::vector<std::size_t> way;
  std::vector<bool> seen(n.place_count(), false);
  std::size_t at = air;
  while (!source(n.place(at))) {
    seen[at] = true;
    double most = 0.0;
    std::size_t through = n.part_count(), next = at;
    each_part(n, at, [&](std::size_t part, std::size_t other) {
      const double in = n.to(part) == at ? s.parts[part].flow : -s.parts[part].flow;
      if (in > most && !seen[other]) {
        most = in;
        through = part;
        next = other;
      }
    });
    if (through == n.part_count()) return {};
    way.push_back(through);
    at = next;
  }
  return way;
}

/// Parts from the air back to the nearest supply by the fewest parts: the way that liquid would take.
static std::vector<std::size_t> by_fewest_parts(const Network& n, std::size_t air) {
  const std::size_t none = n.part_count();
  std::vector<std::size_t> by(n.place_count(), none), queue{air};
  std::vector<bool> seen(n.place_count(), false);
  seen[air] = true;
  for (std::size_t k = 0; k < queue.size(); ++k) {
    if (source(n.place(queue[k]))) {
      std::vector<std::size_t> way;
      for (std::size_t at = queue[k]; at != air;) {
        way.push_back(by[at]);
        at = n.from(by[at]) == at ? n.to(by[at]) : n.from(by[at]);
      }
      std::reverse(way.begin(), way.end());
      return way;
    }
    each_part(n, queue[k], [&](std::size_t part, std::size_t other) {
      if (seen[other]) return;
      seen[other] = true;
      by[other] = part;
      queue.push_back(other);
    });
  }
  return {};
}

}  // namespace path_detail

RowPath path_to_row(const Answer& answer, int row) {
  const auto& rows = answer.plumbing.rows;
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const RowPlumbing& r) { return r.row == row; });
  if (found == rows.end()) {
    throw InputError("row", fmt::format("there is no row {}", row),
                     rows.empty() ? std::string() : fmt::format("{} to {}", rows.front().row, rows.back().row));
  }
  if (found->shut || found->airs.empty()) {
    throw InputError(fmt::format("row {}", row), "is valved off: no way leads to it", "an open row");
  }
  const Network& n = answer.plumbing.network;
  const Solution& s = answer.solution;
  const std::size_t air = found->airs.front();
  std::vector<std::size_t> way = path_detail::against_the_flow(n, s, air);
  if (way.empty()) way = path_detail::by_fewest_parts(n, air);
  RowPath path{.row = row, .supply = air, .steps = {}};
  const double weight = answer.liquid.density * standard_gravity;
  std::size_t at = air;
  for (const std::size_t part : way) {
    const bool forward = n.to(part) == at;
    const double sign = forward ? 1.0 : -1.0;
    const std::size_t from = forward ? n.from(part) : n.to(part);
    const double unused = sign * unused_fall(n, s, part, answer.liquid);
    path.steps.push_back({.part = part,
                          .from = from,
                          .to = at,
                          .flow = sign * s.parts[part].flow,
                          .loss = sign * s.parts[part].drop - unused,
                          .unused_fall = unused,
                          .lift = weight * (n.place(at).elevation - n.place(from).elevation),
                          .before = s.places[from].total_pressure,
                          .after = s.places[at].total_pressure});
    at = from;
  }
  std::reverse(path.steps.begin(), path.steps.end());
  path.supply = at;
  return path;
}

}  // namespace libflow
