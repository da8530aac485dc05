// SPDX-License-Identifier: MIT
#include <libflow/study/size_slopes.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <libflow/core/error.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/solve/derivatives.hpp>
#include <libflow/toolbar/build.hpp>
#include <libflow/toolbar/evaluate.hpp>
#include <libflow/toolbar/junctions.hpp>

namespace libflow {

namespace size_slopes_detail {

/// A direction in the space of a network's inputs: how fast each moves with the choice.
struct Direction {
  std::string choice, unit;
  std::vector<std::pair<std::size_t, double>> inputs{};  ///< index into Derivatives::inputs(), factor
  double sum = 0.0;                                      ///< of the values of those that are the choice itself
  std::size_t count = 0;
};

static void add_inputs(Direction& d, const Plumbing& p, const std::vector<NetworkInput>& inputs,
                       Network::PartIndex part, std::string_view name, double factor, bool is_choice = true) {
  for (std::size_t k = 0; k < inputs.size(); ++k) {
    if (inputs[k].kind != NetworkInput::Kind::part || inputs[k].index != part) continue;
    const PartInput input = p.network.part(part).part.input(inputs[k].field);
    if (input.name != name) continue;
    d.inputs.emplace_back(k, factor);
    if (!is_choice) continue;
    d.sum += input.value.value_or(0.0);
    ++d.count;
  }
}

/// Length of a hose of any kind [m]; 0 where something without a length stands in its place.
static double hose_length(const Part& part) {
  for (std::size_t k = 0; k < part.input_count(); ++k) {
    const PartInput input = part.input(k);
    if (input.name == "length") return input.value.value_or(0.0);
  }
  return 0.0;
}

static std::vector<Direction> directions(const Plumbing& p, const std::vector<NetworkInput>& inputs) {
  Direction orifice{"orifice bore", "m"}, bore{"hose bore", "m"}, equal{"hose length towards equal", "1"},
      crack{"crack pressure", "Pa"};
  double longest = 0.0;
  for (const RowPlumbing& row : p.rows) {
    if (row.shut) continue;
    for (const auto e : row.hoses) longest = std::max(longest, hose_length(p.network.part(e).part));
  }
  for (const RowPlumbing& row : p.rows) {
    if (row.shut) continue;
    for (const auto e : row.orifices) add_inputs(orifice, p, inputs, e, "bore", 1.0);
    for (const auto e : row.hoses) {
      // The branch of a port's tee is as wide as its hose, and a tee's own sizes are no inputs.
      if (p.tees.empty()) add_inputs(bore, p, inputs, e, "bore", 1.0);
      const double short_of = longest - hose_length(p.network.part(e).part);
      if (short_of > 1e-9 * longest) add_inputs(equal, p, inputs, e, "length", short_of, false);
    }
    for (const auto e : row.check_valves) {
      add_inputs(crack, p, inputs, e, "crack", 1.0);
      add_inputs(crack, p, inputs, e, "fully-open pressure", 1.0, false);
    }
  }
  std::vector<Direction> all;
  for (Direction* d : {&orifice, &bore, &equal, &crack}) {
    if (!d->inputs.empty()) all.push_back(std::move(*d));
  }
  return all;
}

}  // namespace size_slopes_detail

std::vector<ChoiceSlope> choice_slopes(const Plumbing& p, const LiquidState& liquid, const Solution& s,
                                       const Evenness& e) {
  using namespace size_slopes_detail;
  if (!(e.mean_rate > 0.0)) return {};
  Derivatives derivatives(p.network, liquid, s, AtCrack::shut, p.tees);
  const std::vector<Direction> ways = directions(p, derivatives.inputs());
  const auto along = [](const std::vector<double>& gradient, const Direction& d) {
    double sum = 0.0;
    for (const auto& [k, factor] : d.inputs) sum += factor * gradient[k];
    return sum;
  };
  // Of every open row's rate, by direction.
  std::vector<const RowResult*> open;
  std::vector<std::vector<double>> rates(ways.size());
  for (std::size_t i = 0; i < p.rows.size(); ++i) {
    const RowPlumbing& row = p.rows[i];
    const RowResult& r = e.rows[i];
    if (row.shut) continue;
    open.push_back(&r);
    FlowSum outlets;
    for (std::size_t k = 0; k < row.airs.size(); ++k) {
      outlets.emplace_back(row.last_parts[k], p.network.to(row.last_parts[k]) == row.airs[k] ? 1.0 : -1.0);
    }
    const std::vector<double> gradient = derivatives.of_flow(outlets);
    const double rate_of_flow = r.flow > 0.0 ? r.rate / r.flow : 0.0;  // a dry row stays dry
    for (std::size_t d = 0; d < ways.size(); ++d) rates[d].push_back(rate_of_flow * along(gradient, ways[d]));
  }
  const std::vector<double> by_pressure = derivatives.of_pressure(p.supply);
  const auto worst = std::max_element(open.begin(), open.end(), [](const RowResult* a, const RowResult* b) {
    return std::abs(a->deviation) < std::abs(b->deviation);
  });
  const auto n = static_cast<double>(open.size());
  std::vector<ChoiceSlope> all;
  for (std::size_t d = 0; d < ways.size(); ++d) {
    double mean = 0.0;
    for (const double rate : rates[d]) mean += rate / n;
    ChoiceSlope slope{.choice = ways[d].choice, .unit = ways[d].unit, .row = (*worst)->row};
    if (ways[d].count > 0) slope.value = ways[d].sum / static_cast<double>(ways[d].count);
    double squares = 0.0;  // half the slope of the sum of squares
    for (std::size_t i = 0; i < open.size(); ++i) {
      const double deviation = rates[d][i] / e.mean_rate - (1.0 + open[i]->deviation) * mean / e.mean_rate;
      squares += open[i]->deviation * deviation;
      if (open[i] == *worst) slope.deviation = std::copysign(1.0, open[i]->deviation) * deviation;
    }
    if (e.cv > 0.0 && n > 1.0) slope.cv = squares / ((n - 1.0) * e.cv);
    slope.pressure = along(by_pressure, ways[d]);
    all.push_back(std::move(slope));
  }
  return all;
}

std::vector<ChoiceSlope> choice_slopes(const Toolbar& toolbar, const Job& job, const LiquidState& liquid) {
  const Plumbing plumbing = build_network(toolbar, job);
  const Solution s = solve_plumbing(plumbing, liquid);
  if (!s.usable()) throw IllPosedError(s.message);
  return choice_slopes(plumbing, liquid, s, evaluate(plumbing, job, s, liquid));
}

}  // namespace libflow
