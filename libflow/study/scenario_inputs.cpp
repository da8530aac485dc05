// SPDX-License-Identifier: MIT
#include <libflow/study/scenario_inputs.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <Eigen/Core>
#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

namespace scenarios_detail {

static std::string_view to_text(PartQuantity q) {
  switch (q) {
    case PartQuantity::length:
      return "length";
    case PartQuantity::bore:
      return "bore";
    case PartQuantity::roughness:
      return "roughness";
    case PartQuantity::crack:
      return "crack";
    case PartQuantity::discharge_coefficient:
      return "discharge coefficient";
  }
  return "quantity";
}

Part changed(const Part& part, PartQuantity q, double value, std::string_view where) {
  if (const auto* hose = part.as<Hose>()) {
    Hose h = *hose;
    if (q == PartQuantity::length) return h.length = from_si<Length>(value), Part(h, where);
    if (q == PartQuantity::bore) return h.bore = from_si<Length>(value), Part(h, where);
    if (q == PartQuantity::roughness) return h.roughness = from_si<Length>(value), Part(h, where);
  } else if (const auto* orifice = part.as<Orifice>()) {
    Orifice o = *orifice;
    if (q == PartQuantity::bore) return o.bore = from_si<Length>(value), Part(o, where);
    if (q == PartQuantity::discharge_coefficient) return o.discharge_coefficient = value, Part(o, where);
  } else if (const auto* valve = part.as<CheckValve>()) {
    CheckValve v = *valve;
    if (q == PartQuantity::bore) return v.passage_bore = from_si<Length>(value), Part(v, where);
    if (q == PartQuantity::crack) return Part(v.cracking_at(from_si<Pressure>(value)), where);
  } else if (const auto* end = part.as<OpenEnd>()) {
    OpenEnd e = *end;
    if (q == PartQuantity::bore) return e.bore = from_si<Length>(value), Part(e, where);
  }
  throw InputError(std::string(where),
                   fmt::format("{} {} has no {} that a scenario can change", part.kind().starts_with('o') ? "an" : "a",
                               part.kind(), to_text(q)),
                   "length, bore or roughness of a hose; bore or discharge coefficient of an orifice; crack or bore of "
                   "a check valve; bore of an open end");
}

void check_column(std::string_view what, const Eigen::ArrayXd& column, std::size_t count, Range range,
                  std::string_view unit) {
  if (column.size() == 0) return;
  if (column.size() != static_cast<Eigen::Index>(count)) {
    throw InputError(fmt::format("scenarios, {}", what),
                     fmt::format("{} values for {} scenarios", column.size(), count), "none, or one a scenario");
  }
  for (Eigen::Index i = 0; i < column.size(); ++i) {
    if (!range.contains(column[i])) require_in(fmt::format("scenario {}, {}", i, what), column[i], range, unit);
  }
}

/// @throws InputError when a table is not scenarios x rows
static void check_table(std::string_view what, const Eigen::ArrayXXd& table, std::size_t count, std::size_t rows) {
  if (table.size() == 0) return;
  if (table.rows() != static_cast<Eigen::Index>(count) || table.cols() != static_cast<Eigen::Index>(rows)) {
    throw InputError(fmt::format("scenarios, {}", what), fmt::format("a table of {} x {}", table.rows(), table.cols()),
                     fmt::format("none, or one of {} scenarios x {} rows", count, rows));
  }
}

std::vector<Binding> bind(const Scenarios& s, const Plumbing& plumbing, bool ends_follow) {
  std::vector<Binding> bound;
  const Network& network = plumbing.network;
  check_table("hose length", s.hose_length, s.count, plumbing.rows.size());
  check_table("hose bore", s.hose_bore, s.count, plumbing.rows.size());
  check_table("orifice bore", s.orifice_bore, s.count, plumbing.rows.size());
  check_table("crack", s.crack, s.count, plumbing.rows.size());
  for (std::size_t r = 0; r < plumbing.rows.size(); ++r) {
    const RowPlumbing& row = plumbing.rows[r];
    const auto add = [&](const Eigen::ArrayXXd& table, const std::vector<Network::PartIndex>& parts, PartQuantity q) {
      if (table.size() == 0) return;
      for (const auto part : parts) bound.push_back({part, q, table.col(static_cast<Eigen::Index>(r)).data()});
    };
    add(s.hose_length, row.hoses, PartQuantity::length);
    add(s.hose_bore, row.hoses, PartQuantity::bore);
    add(s.orifice_bore, row.orifices, PartQuantity::bore);
    add(s.crack, row.check_valves, PartQuantity::crack);
    if (!ends_follow) continue;
    for (const auto part : row.last_parts) {
      if (network.part(part).part.as<OpenEnd>() != nullptr) add(s.hose_bore, {part}, PartQuantity::bore);
    }
  }
  for (const PartColumn& c : s.parts) {
    if (c.part >= network.part_count()) {
      throw InputError("scenarios, parts", fmt::format("part {} is not in the network", c.part),
                       fmt::format("0 to {}", network.part_count() - 1));
    }
    check_column(network.part(c.part).id, c.values, s.count, Range{}, "");
    if (c.values.size() != 0) bound.push_back({c.part, c.quantity, c.values.data()});
  }
  return bound;
}

Part part_of_scenario(const Network& network, Network::PartIndex i, const std::vector<Binding>& bound,
                      std::size_t scenario) {
  const PlacedPart& placed = network.part(i);
  Part part = placed.part;
  // A bore goes first: what else is allowed depends on it.
  for (const bool bores : {true, false}) {
    for (const Binding& b : bound) {
      if (b.part != i || (b.quantity == PartQuantity::bore) != bores) continue;
      part = changed(part, b.quantity, b.values[scenario], fmt::format("scenario {}, part '{}'", scenario, placed.id));
    }
  }
  return part;
}

void check_parts(const Network& network, const std::vector<Binding>& bound, std::size_t count) {
  if (count == 0) return;
  for (const Binding& b : bound) {
    const auto ask = [&](std::size_t i) { static_cast<void>(part_of_scenario(network, b.part, bound, i)); };
    const auto allowed = [&](double value) {
      try {
        static_cast<void>(changed(network.part(b.part).part, b.quantity, value, {}));
        return true;
      } catch (const InputError&) {
        return false;
      }
    };
    const Eigen::Map<const Eigen::ArrayXd> values(b.values, static_cast<Eigen::Index>(count));
    if (!std::isfinite(values.sum()) || !allowed(values.minCoeff()) || !allowed(values.maxCoeff())) {
      for (std::size_t i = 0; i < count; ++i) ask(i);
    }
    if (b.quantity != PartQuantity::roughness) continue;
    for (const Binding& other : bound) {
      if (other.part != b.part || other.quantity != PartQuantity::bore) continue;
      for (std::size_t i = 0; i < count; ++i) {
        if (!(b.values[i] <= physics::colebrook_roughness.high * other.values[i])) ask(i);
      }
    }
  }
}

}  // namespace scenarios_detail

}  // namespace libflow
