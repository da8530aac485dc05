// SPDX-License-Identifier: MIT
/// @file
/// A network solved in fifty digits with one input moved a little: the truth for derivatives.
#pragma once

#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <utility>
#include <vector>

#include <Eigen/Dense>
#include <boost/multiprecision/eigen.hpp>

#include <libflow/parts.hpp>
#include <libflow/solve/derivative_corrections.hpp>
#include <libflow/solve/derivative_inputs.hpp>
#include <libflow/solve/solution.hpp>
#include <tests/support/many_digits_law.hpp>

namespace libflow::test {

/// Flows by part and total pressures by place.
struct ManyAnswer {
  std::vector<Many> flow, pressure;
};

/// Solves a network in which `moved` turned an input's value into another; Newton's method on the potentials from a
/// double-precision solution, every law inverted, dense elimination.
class ManyNetwork {
 public:
  /// @param tees  whose corrections the solution has; regulators that throttle in it hold their pressure
  ManyNetwork(const Network& network, const LiquidState& liquid, const Solution& near, std::vector<TeeAt> tees = {})
      : network_(network), liquid_(liquid), near_(near), tees_(std::move(tees)) {}

  /// Central difference of every flow and pressure by an input; good to some 25 digits where the answer is smooth.
  [[nodiscard]] ManyAnswer slopes(const NetworkInput& input) const {
    const double x = value_of(network_, liquid_, input, tees_);
    const Many step = x == 0.0 ? Many(1e-18) : Many(Many(x) * Many(1e-15));
    ManyAnswer up = solve(input, step), down = solve(input, Many(-step));
    for (std::size_t e = 0; e < up.flow.size(); ++e) up.flow[e] = (up.flow[e] - down.flow[e]) / (2 * step);
    for (std::size_t i = 0; i < up.pressure.size(); ++i) {
      up.pressure[i] = (up.pressure[i] - down.pressure[i]) / (2 * step);
    }
    return up;
  }

 private:
  using InputKind = NetworkInput::Kind;
  using Matrix = Eigen::Matrix<Many, Eigen::Dynamic, Eigen::Dynamic>;
  using Vector = Eigen::Matrix<Many, Eigen::Dynamic, 1>;

  template <class T, class Moved>
  static bool law_of(const Part& part, const Moved& moved, const LiquidNumbers<Many>& liquid, ManyLaw& law) {
    const T* own = part.as<T>();
    if (own != nullptr) law = own->template law_on<Many>(input_values<Many>(*own, moved), liquid);
    return own != nullptr;
  }

  [[nodiscard]] ManyAnswer solve(const NetworkInput& input, const Many& step) const {
    const auto at = [&](double x, InputKind kind, std::size_t index, std::size_t field = 0) {
      return input == NetworkInput{kind, index, field} ? Many(Many(x) + step) : Many(x);
    };
    const LiquidNumbers<Many> liquid{at(liquid_.density, InputKind::density, 0),
                                     at(liquid_.viscosity, InputKind::viscosity, 0)};
    const Many weight = liquid.density * Many(standard_gravity);
    const std::size_t n = network_.place_count(), m = network_.part_count();
    std::vector<ManyLaw> laws(m);
    for (std::size_t e = 0; e < m; ++e) {
      const auto moved = [&](double x, std::size_t k) { return at(x, InputKind::part, e, k); };
      const Part& p = network_.part(e).part;
      if (!law_of<Hose>(p, moved, liquid, laws[e]) && !law_of<Orifice>(p, moved, liquid, laws[e]) &&
          !law_of<CheckValve>(p, moved, liquid, laws[e]) && !law_of<Fitting>(p, moved, liquid, laws[e]) &&
          !law_of<OpenEnd>(p, moved, liquid, laws[e]) && !law_of<CentrifugalPump>(p, moved, liquid, laws[e]) &&
          !law_of<Valve>(p, moved, liquid, laws[e]) && !law_of<ReliefValve>(p, moved, liquid, laws[e]) &&
          !law_of<PressureRegulator>(p, moved, liquid, laws[e])) {
        throw std::logic_error("no many-digit law for this part");
      }
    }
    std::vector<Many> lift(n), potential(n), inflow(n, Many(0));
    std::vector<int> number(n, -1);
    int unknowns = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const Place& p = network_.place(i);
      lift[i] = weight * at(p.elevation, InputKind::elevation, i);
      potential[i] = Many(near_.places[i].total_pressure) + lift[i];
      if (p.kind == PlaceKind::supply) potential[i] = at(p.pressure, InputKind::supply_pressure, i) + lift[i];
      if (p.tank) {  // what stands above the outlet weighs with the liquid's density
        const Many level = at(p.tank->level, InputKind::tank_level, i);
        const Many depth = level - Many(p.tank->level) + Many(p.tank->depth);
        potential[i] += weight * depth - Many(liquid_.density * standard_gravity) * Many(p.tank->depth);
      }
      if (p.kind == PlaceKind::air) potential[i] = lift[i];
      if (p.kind == PlaceKind::fed) inflow[i] = at(p.flow, InputKind::given_flow, i);
      if (p.kind == PlaceKind::drawn) inflow[i] = -at(p.flow, InputKind::given_flow, i);
      if (!p.held()) number[i] = unknowns++;
    }
    std::vector<Many> flow(m), slope(m);
    for (std::size_t e = 0; e < m; ++e) flow[e] = Many(near_.parts[e].flow);
    // Drops by corrections, one more unknown each: a tee's loss, and what a regulator throttles.
    std::vector<Many> extra;
    std::vector<Network::PartIndex> on;
    for (const auto& c : derivatives_detail::tee_extras(network_, tees_, near_, liquid_.density)) {
      on.push_back(c.part);
      extra.push_back(Many(c.drop));
    }
    const std::size_t tee_drops = extra.size();
    for (std::size_t e = 0; e < m; ++e) {
      if (!throttles(e)) continue;
      on.push_back(e);
      extra.push_back(Many(Many(near_.parts[e].drop) - laws[e](flow[e]).dp));
    }
    const int all = unknowns + static_cast<int>(extra.size());
    for (int round = 0; round < 12; ++round) {
      Matrix laplacian = Matrix::Zero(all, all);
      Vector left = Vector::Zero(all);
      for (std::size_t i = 0; i < n; ++i) {
        if (number[i] >= 0) left(number[i]) += inflow[i];
      }
      std::vector<Many> added(m, Many(0));
      for (std::size_t c = 0; c < extra.size(); ++c) added[on[c]] += extra[c];
      for (std::size_t e = 0; e < m; ++e) {
        const int a = number[network_.from(e)], b = number[network_.to(e)];
        const Many across = potential[network_.from(e)] - potential[network_.to(e)] - added[e];
        const FlowAt found = flow_at(laws[e], across, flow[e]);
        flow[e] = found.flow;
        slope[e] = found.slope;
        if (a >= 0) laplacian(a, a) += found.slope;
        if (b >= 0) laplacian(b, b) += found.slope;
        if (a >= 0 && b >= 0) {
          laplacian(a, b) -= found.slope;
          laplacian(b, a) -= found.slope;
        }
        if (a >= 0) left(a) -= flow[e];
        if (b >= 0) left(b) += flow[e];
      }
      const std::vector<Many> wanted = tee_levels(flow, liquid.density, at);
      // Slopes of the tees' drops only steer the steps: those of the double-precision solution are near enough.
      const auto slopes = derivatives_detail::tee_extras(network_, tees_, near_, liquid_.density);
      for (std::size_t c = 0; c < extra.size(); ++c) {
        const int row = unknowns + static_cast<int>(c);
        const int a = number[network_.from(on[c])], b = number[network_.to(on[c])];
        if (a >= 0) laplacian(a, row) -= slope[on[c]];
        if (b >= 0) laplacian(b, row) += slope[on[c]];
        if (c >= tee_drops) {
          const auto behind = network_.to(on[c]);
          const auto& regulator = *network_.part(on[c]).part.as<PressureRegulator>();
          laplacian(row, number[behind]) = 1;
          left(row) = at(si(regulator.set), InputKind::part, on[c], PressureRegulator::set_input) + lift[behind] -
                      potential[behind];
          continue;
        }
        laplacian(row, row) += 1;
        left(row) = wanted[c] - extra[c];
        for (const auto& [e, s] : slopes[c].flows) {
          const Many by = Many(s) * slope[e];
          const int from = number[network_.from(e)], to = number[network_.to(e)];
          if (from >= 0) laplacian(row, from) -= by;
          if (to >= 0) laplacian(row, to) += by;
          for (std::size_t k = 0; k < extra.size(); ++k) {
            if (on[k] == e) laplacian(row, unknowns + static_cast<int>(k)) += by;
          }
        }
      }
      // A place that shut parts cut off keeps its potential.
      for (int i = 0; i < unknowns; ++i) {
        if (laplacian(i, i) == 0) laplacian(i, i) = 1;
      }
      const Vector change = laplacian.partialPivLu().solve(left);
      for (std::size_t i = 0; i < n; ++i) {
        if (number[i] >= 0) potential[i] += change(number[i]);
      }
      for (std::size_t c = 0; c < extra.size(); ++c) extra[c] += change(unknowns + static_cast<int>(c));
    }
    ManyAnswer answer{flow, potential};
    for (std::size_t i = 0; i < n; ++i) answer.pressure[i] -= lift[i];
    return answer;
  }

  /// True of a regulator that flows with more drop than it has wide open.
  [[nodiscard]] bool throttles(std::size_t e) const {
    const Part& part = network_.part(e).part;
    const PartResult& r = near_.parts[e];
    return part.as<PressureRegulator>() != nullptr && r.flow > 0.0 &&
           r.drop > part.law(liquid_)(r.flow).dp + 1e-6 * std::abs(r.drop);
  }
  /// What the tees' drops should be, in the order of tee_corrections.
  template <class Moved>
  [[nodiscard]] std::vector<Many> tee_levels(const std::vector<Many>& flow, const Many& density,
                                             const Moved& moved) const {
    std::vector<Many> drops;
    for (const TeeAt& at : tees_) {
      const tees_detail::Legs legs = tees_detail::legs_of(network_, at);
      const auto out = [&](const std::vector<tees_detail::Leg>& way) {
        Many sum(0);
        for (const auto& leg : way) sum += Many(leg.way) * flow[leg.part];
        return sum;
      };
      const auto levels = Tee::levels_on<Many>(
          input_values<Many>(at.tee, [&](double x, std::size_t k) { return moved(x, InputKind::tee, at.place, k); }),
          {.left = out(legs.left), .right = out(legs.right), .branch = out(legs.branch)}, density);
      for (const auto& leg : legs.left) drops.push_back(Many(-leg.way * levels.left));
      for (const auto& leg : legs.right) drops.push_back(Many(-leg.way * levels.right));
      for (const auto& leg : legs.branch) drops.push_back(Many(-leg.way * levels.branch));
    }
    return drops;
  }

  const Network& network_;
  const LiquidState& liquid_;
  const Solution& near_;
  std::vector<TeeAt> tees_;
};

}  // namespace libflow::test
