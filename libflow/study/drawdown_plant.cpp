// SPDX-License-Identifier: MIT
#include <libflow/study/drawdown_plant.hpp>

#include <cstddef>
#include <utility>
#include <vector>

#include <libflow/toolbar.hpp>

namespace libflow {

namespace drawdown_detail {

Plumbing with_empty(const Plumbing& plumbing, const std::vector<bool>& empty) {
  const Network& old = plumbing.network;
  std::vector<bool> shut(old.place_count(), false);
  for (std::size_t k = 0; k < plumbing.tanks.size(); ++k) shut[plumbing.tanks[k].place] = empty[k];
  Plumbing out = plumbing;
  Network n;
  for (std::size_t i = 0; i < old.place_count(); ++i) {
    const Place& p = old.place(i);
    const Length z = from_si<Length>(p.elevation);
    if (shut[i] || p.kind == PlaceKind::junction) {
      n.add_place(p.id, z);
    } else if (p.kind == PlaceKind::supply) {
      n.add_supply(p.id, from_si<Pressure>(p.pressure), z);
    } else if (p.kind == PlaceKind::fed) {
      n.add_fed(p.id, from_si<Flow>(p.flow), z);
    } else if (p.kind == PlaceKind::drawn) {
      n.add_drawn(p.id, from_si<Flow>(p.flow), z);
    } else {
      n.add_air(p.id, z);
    }
  }
  for (std::size_t i = 0; i < old.part_count(); ++i) {
    n.add_part(old.part(i).id, old.from(i), old.to(i), old.part(i).part);
  }
  out.network = std::move(n);
  return out;
}

void set_levels(Plumbing& plumbing, const std::vector<double>& level, const std::vector<bool>& empty,
                const LiquidState& liquid) {
  for (std::size_t k = 0; k < plumbing.tanks.size(); ++k) {
    if (empty[k]) continue;
    PlumbedTank& t = plumbing.tanks[k];
    t.level = level[k];
    plumbing.network.set_supply_pressure(t.place, t.tank.outlet_pressure(from_si<Length>(level[k]), liquid));
  }
}

double row_flow(const Network& n, const Solution& s, const RowPlumbing& row) {
  double sum = 0.0;
  for (std::size_t k = 0; k < row.airs.size(); ++k) {
    const auto last = row.last_parts[k];
    sum += n.to(last) == row.airs[k] ? s.parts[last].flow : -s.parts[last].flow;
  }
  return sum;
}

}  // namespace drawdown_detail

}  // namespace libflow
