// SPDX-License-Identifier: MIT
#include <libflow/study/scenario_alone.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <libflow/study/plumbing_edit.hpp>
#include <libflow/study/scenario_inputs.hpp>
#include <libflow/toolbar/ground.hpp>

namespace libflow {

namespace scenarios_detail {

Elevations elevations_of(Toolbar toolbar, const Job& job) {
  Elevations e;
  e.side_slope = si(toolbar.side_slope);
  e.fore_aft_slope = si(toolbar.fore_aft_slope);
  const auto built = [&](double side, double fore_aft) {
    toolbar.side_slope = from_si<Angle>(side);
    toolbar.fore_aft_slope = from_si<Angle>(fore_aft);
    const Plumbing plumbing = build_network(toolbar, job);
    std::vector<double> z(plumbing.network.place_count());
    for (std::size_t i = 0; i < z.size(); ++i) z[i] = plumbing.network.place(i).elevation;
    return z;
  };
  constexpr double slope = 0.5;
  e.level = built(0.0, 0.0);
  e.side = built(slope, 0.0);
  e.fore_aft = built(0.0, slope);
  for (std::size_t i = 0; i < e.level.size(); ++i) {
    e.side[i] = (e.side[i] - e.level[i]) / std::sin(slope);
    e.fore_aft[i] = (e.fore_aft[i] - e.level[i]) / std::sin(slope);
  }
  return e;
}

double value_or(const Eigen::ArrayXd& column, std::size_t scenario, double otherwise) {
  return column.size() == 0 ? otherwise : column[static_cast<Eigen::Index>(scenario)];
}

DensityViscosity liquid_numbers(const Scenarios& s, std::size_t i, const Liquid& liquid, const LiquidState& nominal) {
  DensityViscosity x{nominal.density, nominal.viscosity};
  if (s.temperature.size() != 0) {
    const auto t = from_si<Temperature>(s.temperature[static_cast<Eigen::Index>(i)]);
    if (s.density.size() == 0) x.density = si(liquid.density_at(t));
    if (s.viscosity.size() == 0) x.viscosity = si(liquid.viscosity_at(t));
  }
  x.density = value_or(s.density, i, x.density);
  x.viscosity = value_or(s.viscosity, i, x.viscosity);
  return x;
}

bool moves_liquid(const Scenarios& s) {
  return s.temperature.size() != 0 || s.density.size() != 0 || s.viscosity.size() != 0;
}

std::vector<Network::PartIndex> parts_of(const std::vector<Binding>& bound) {
  std::vector<Network::PartIndex> parts;
  for (const Binding& b : bound) parts.push_back(b.part);
  std::sort(parts.begin(), parts.end());
  parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
  return parts;
}

Scenario scenario_of(const Base& base, const Scenarios& s, const std::vector<Binding>& bound, std::size_t i) {
  Scenario one{{}, base.job, base.liquid};
  const DensityViscosity numbers = liquid_numbers(s, i, base.job.liquid, base.liquid);
  if (s.temperature.size() != 0) {
    one.job.temperature = from_si<Temperature>(s.temperature[static_cast<Eigen::Index>(i)]);
    one.liquid = base.job.liquid.at(one.job.temperature);
  }
  one.liquid.density = numbers.density;
  one.liquid.viscosity = numbers.viscosity;
  one.job.speed = from_si<Speed>(value_or(s.speed, i, si(base.job.speed)));
  one.job.rate = from_si<AreaRate>(value_or(s.rate, i, si(base.job.rate)));
  PlumbingEdit edit;
  for (const Network::PartIndex part : parts_of(bound)) {
    edit.exchanged.emplace_back(part, part_of_scenario(base.plumbing.network, part, bound, i));
  }
  if (s.side_slope.size() != 0 || s.fore_aft_slope.size() != 0) {
    const double side = std::sin(value_or(s.side_slope, i, base.elevations.side_slope));
    const double fore_aft = std::sin(value_or(s.fore_aft_slope, i, base.elevations.fore_aft_slope));
    for (std::size_t k = 0; k < base.elevations.level.size(); ++k) {
      edit.raised.emplace_back(k, base.elevations.at(k, side, fore_aft) - base.plumbing.network.place(k).elevation);
    }
  }
  one.plumbing = edited(base.plumbing, edit);
  if (s.speed.size() != 0) turn_ground_driven_pumps(one.plumbing.network, base.job.speed, one.job.speed);
  if (moves_liquid(s)) {
    for (const PlumbedTank& t : one.plumbing.tanks) {
      one.plumbing.network.set_supply_pressure(t.place, t.tank.outlet_pressure(from_si<Length>(t.level), one.liquid));
    }
  }
  if (s.pressure.size() != 0) {
    const auto p = from_si<Pressure>(s.pressure[static_cast<Eigen::Index>(i)]);
    one.job.pressure = p;
    one.plumbing.network.set_supply_pressure(one.plumbing.supply, p);
  }
  for (std::size_t r = 0; s.hose_length.size() != 0 && r < one.plumbing.rows.size(); ++r) {
    RowPlumbing& row = one.plumbing.rows[r];
    if (!row.shut) row.hose_length = s.hose_length(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(r));
  }
  if (base.fed() && (s.speed.size() != 0 || s.rate.size() != 0)) {
    feed_wanted_flow(one.plumbing, one.plumbing.supply, one.job);
  }
  return one;
}

}  // namespace scenarios_detail

}  // namespace libflow
