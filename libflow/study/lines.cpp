// SPDX-License-Identifier: MIT
#include <libflow/study/lines.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <limits>
#include <set>
#include <utility>
#include <variant>
#include <vector>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>
#include <boost/graph/topological_sort.hpp>
#include <boost/property_map/function_property_map.hpp>
#include <fmt/core.h>

#include <libflow/physics/discharge.hpp>
#include <libflow/physics/tube_flushing.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

namespace lines_detail {

struct Tube {
  double volume = 0;  ///< [m3]
  double length = 0;  ///< [m]
  double bore = 0;    ///< [m]
  double wall = 0;    ///< [m]
};

/// Of a part that holds liquid worth counting; length 0: none (a fitting, valve or orifice).
static Tube tube_of(const Part& part, double wall_share) {
  Tube t;
  if (const auto* hose = part.as<Hose>()) {
    t = {0.0, si(hose->length), si(hose->bore), hose->wall_thickness ? si(*hose->wall_thickness) : 0.0};
  } else if (const auto* thick = part.as<SuspensionHose>()) {
    t = {0.0, si(thick->length), si(thick->bore), 0.0};
  } else if (const auto* barb = part.as<Barb>()) {
    t = {0.0, si(barb->length), si(barb->bore), 0.0};
  }
  if (t.wall == 0.0) t.wall = wall_share * t.bore;
  t.volume = physics::tube_volume<double>(t.length, t.bore);
  return t;
}

/// The network as liquid runs through it: an edge for each part with flow, in the direction of its flow.
class FlowGraph {
  using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::bidirectionalS, boost::no_property, std::size_t>;

  [[nodiscard]] auto weights(const std::vector<double>& weight) const {
    return boost::make_function_property_map<Graph::edge_descriptor>(
        [this, &weight](const Graph::edge_descriptor& e) { return weight[graph_[e]]; });
  }

 public:
  static constexpr double never = std::numeric_limits<double>::infinity();

  FlowGraph(const Network& network, const Solution& solution)
      : network_(network), graph_(network.place_count()), flow_(network.part_count()) {
    double largest = 0.0;
    for (const PartResult& p : solution.parts) largest = std::max(largest, std::abs(p.flow));
    for (std::size_t i = 0; i < flow_.size(); ++i) {
      flow_[i] = solution.parts[i].flow;
      // What is left of a balanced flow by rounding does not move liquid.
      if (std::abs(flow_[i]) <= 1e-9 * largest) flow_[i] = 0.0;
      if (flow_[i] == 0.0) continue;
      // Liquid that enters a tank or leaves at an outlet goes no further.
      boost::add_edge(flow_[i] > 0.0 ? network.from(i) : network.to(i),
                      flow_[i] > 0.0 ? network.to(i) : network.from(i), i, graph_);
    }
    // A held place cuts: what comes back to a tank mixes there.
    for (std::size_t v = 0; v < network.place_count(); ++v) {
      if (!network.place(v).held()) continue;
      if (boost::out_degree(v, graph_) > 0) boost::clear_in_edges(v, graph_);
    }
    try {
      boost::topological_sort(graph_, std::back_inserter(order_));
      std::reverse(order_.begin(), order_.end());
    } catch (const boost::not_a_dag&) {
      order_.clear();
    }
  }

  [[nodiscard]] bool circulates() const { return order_.empty(); }
  [[nodiscard]] double flow(std::size_t part) const { return flow_[part]; }

  /// Places where liquid enters the network.
  [[nodiscard]] std::vector<std::size_t> entries() const {
    std::vector<std::size_t> found;
    for (std::size_t v = 0; v < network_.place_count(); ++v) {
      if (boost::out_degree(v, graph_) > 0 && boost::in_degree(v, graph_) == 0) found.push_back(v);
    }
    return found;
  }

  /// Shortest sum of the parts' weights from any of `from`, by place; `never` where no flow leads.
  [[nodiscard]] std::vector<double> earliest(const std::vector<std::size_t>& from, const std::vector<double>& weight) {
    std::vector<double> best(network_.place_count(), never), distance(network_.place_count());
    for (const std::size_t start : from) {
      boost::dijkstra_shortest_paths(
          graph_, start, boost::weight_map(weights(weight)).distance_map(distance.data()).distance_inf(never));
      for (std::size_t v = 0; v < best.size(); ++v) best[v] = std::min(best[v], distance[v]);
    }
    return best;
  }
  /// Longest sum of the parts' weights; the shortest where the flow runs in a circle.
  [[nodiscard]] std::vector<double> latest(const std::vector<std::size_t>& from, const std::vector<double>& weight) {
    if (circulates()) return earliest(from, weight);
    std::vector<double> time(network_.place_count(), -1.0);
    for (const std::size_t v : from) time[v] = 0.0;
    for (const std::size_t v : order_) {
      if (time[v] < 0.0) continue;
      for (auto [e, end] = boost::out_edges(v, graph_); e != end; ++e) {
        double& next = time[boost::target(*e, graph_)];
        next = std::max(next, time[v] + weight[graph_[*e]]);
      }
    }
    for (double& t : time) {
      if (t < 0.0) t = never;
    }
    return time;
  }

 private:
  const Network& network_;
  Graph graph_;
  std::vector<double> flow_;
  std::vector<std::size_t> order_;  // upstream first; empty: the flow runs in a circle
};

/// Times that parts take, by part.
struct PartTimes {
  std::vector<double> mean, first, flushed, pressure;
};

static PartTimes part_times(const Plumbing& plumbing, const Answer& answer, const FlowGraph& graph,
                            const LinesOptions& options) {
  const Network& n = plumbing.network;
  PartTimes t;
  for (auto* list : {&t.mean, &t.first, &t.flushed, &t.pressure}) list->assign(n.part_count(), 0.0);
  constexpr double bulk_modulus = 2.2e9;  // of water, Pa (from memory); the hose wall decides
  double modulus = 20e6;
  const auto* toolbar = std::get_if<Toolbar>(&answer.layout.plumbing);
  if (toolbar != nullptr && toolbar->hose_modulus) modulus = si(*toolbar->hose_modulus);
  if (options.hose_modulus) modulus = si(*options.hose_modulus);
  std::vector<bool> of_bar(n.part_count(), false);  // rows' hoses whose wall the bar gives
  for (const RowPlumbing& row : plumbing.rows) {
    if (toolbar == nullptr || !toolbar->hose_wall) break;
    for (const auto hose : row.hoses) of_bar[hose] = true;
  }
  for (std::size_t i = 0; i < n.part_count(); ++i) {
    Tube tube = tube_of(n.part(i).part, options.wall_share);
    if (tube.volume == 0.0 || graph.flow(i) == 0.0) continue;
    if (of_bar[i]) tube.wall = si(*toolbar->hose_wall);
    t.mean[i] = tube.volume / std::abs(graph.flow(i));
    // Between laminar and turbulent the old layer at the wall may hold: it is counted as laminar.
    const bool plug = answer.solution.parts[i].regime == Regime::turbulent;
    t.first[i] = t.mean[i] * (plug ? 1.0 : physics::laminar_breakthrough);
    t.flushed[i] = t.mean[i] * (plug ? 1.0 : physics::laminar_flushing_time<double>(options.share));
    const double storage = physics::tube_storage<double>(bulk_modulus, tube.bore, tube.wall, modulus);
    t.pressure[i] = tube.length * std::sqrt(answer.liquid.density * storage);
  }
  return t;
}

}  // namespace lines_detail

Lines lines(Layout layout, const LinesOptions& options) {
  using namespace lines_detail;
  require_in("flushed share", options.share, {0.5, 0.9999}, "");
  if (options.hose_modulus) require_in("hose modulus", si(*options.hose_modulus), {1e5, 1e12}, "Pa");
  require_in("hose wall over bore", options.wall_share, {0.01, 2.0}, "");
  Lines out;
  out.options = options;
  out.answer = main_job(std::move(layout));
  if (!out.answer.solution.usable()) throw IllPosedError(out.answer.solution.message);
  const Plumbing& plumbing = out.answer.plumbing;
  const Network& n = plumbing.network;
  const auto control = options.control ? n.find_place(*options.control, "control") : plumbing.supply;
  out.control = n.place(control).id;

  FlowGraph graph(n, out.answer.solution);
  const PartTimes times = part_times(plumbing, out.answer, graph, options);
  const auto entries = graph.entries();
  const auto fill = graph.latest(entries, times.mean), first = graph.earliest(entries, times.first),
             flushed = graph.latest(entries, times.flushed), delay = graph.earliest({control}, times.mean),
             pressure = graph.earliest({control}, times.pressure);

  std::set<Network::PartIndex> own;
  for (const RowPlumbing& row : plumbing.rows) own.insert(row.hoses.begin(), row.hoses.end());
  for (std::size_t i = 0; i < n.part_count(); ++i) {
    const double volume = tube_of(n.part(i).part, options.wall_share).volume;
    (own.contains(i) ? out.held_rows : out.held_before) += volume;
    if (graph.flow(i) == 0.0) out.still += volume;
  }
  out.held = out.held_rows + out.held_before;

  double soonest = FlowGraph::never, last = 0.0;
  for (const RowPlumbing& row : plumbing.rows) {
    if (row.shut) continue;
    RowLines r;
    r.row = row.row;
    for (const auto part : row.hoses) r.held += tube_of(n.part(part).part, options.wall_share).volume;
    r.first_new = FlowGraph::never;
    for (const auto air : row.airs) {
      r.fill = std::max(r.fill, fill[air]);
      r.first_new = std::min(r.first_new, first[air]);
      r.flushed = std::max(r.flushed, flushed[air]);
      r.delay = std::max(r.delay, delay[air]);
      r.pressure_delay = std::max(r.pressure_delay, pressure[air]);
    }
    if (std::isfinite(r.fill)) {
      out.fill_time = std::max(out.fill_time, r.fill);
      out.flush_time = std::max(out.flush_time, r.flushed);
    } else {
      out.cautions.push_back({"row-not-reached", fmt::format("row {}", r.row),
                              "nothing flows here at this setting: its lines neither fill nor flush"});
    }
    if (std::isfinite(r.delay)) {
      soonest = std::min(soonest, r.delay);
      last = std::max(last, r.delay);
    }
    out.rows.push_back(r);
  }
  out.delay_spread = std::isfinite(soonest) ? last - soonest : 0.0;
  out.flush_liquid = out.flush_time * out.answer.evenness.total_flow;
  if (graph.circulates()) {
    out.cautions.push_back({"circulation", "lines",
                            "liquid runs in a circle: old and new mix there, and a flush takes longer than computed"});
  }
  if (out.still > 0.0) {
    out.cautions.push_back({"still-liquid", "lines",
                            "some lines hold liquid that does not move at this setting: open them and flush them by "
                            "themselves",
                            out.still});
  }
  out.cautions.push_back({"flushing", "lines",
                          "liquid stays in valves, strainers, pump and low spots. Flush into a container or the field "
                          "as the label says, with eye and hand protection; never into a ditch or a well"});
  return out;
}

}  // namespace libflow
