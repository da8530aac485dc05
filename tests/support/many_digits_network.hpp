// SPDX-License-Identifier: MIT
/// @file
/// A network solved in fifty digits with one input moved a little: the truth for derivatives.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <utility>
#include <vector>

#include <Eigen/Dense>
#include <boost/multiprecision/eigen.hpp>

#include <libflow/parts.hpp>
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
  ManyNetwork(const Network& network, const LiquidState& liquid, const Solution& near)
      : network_(network), liquid_(liquid), near_(near) {}

  /// Central difference of every flow and pressure by an input; good to some 25 digits where the answer is smooth.
  [[nodiscard]] ManyAnswer slopes(const NetworkInput& input) const {
    const double x = value_of(network_, liquid_, input);
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
          !law_of<Valve>(p, moved, liquid, laws[e])) {
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
      if (p.kind == PlaceKind::air) potential[i] = lift[i];
      if (p.kind == PlaceKind::fed) inflow[i] = at(p.flow, InputKind::given_flow, i);
      if (p.kind == PlaceKind::drawn) inflow[i] = -at(p.flow, InputKind::given_flow, i);
      if (!p.held()) number[i] = unknowns++;
    }
    std::vector<Many> flow(m), slope(m);
    for (std::size_t e = 0; e < m; ++e) flow[e] = Many(near_.parts[e].flow);
    for (int round = 0; round < 12; ++round) {
      Matrix laplacian = Matrix::Zero(unknowns, unknowns);
      Vector left = Vector::Zero(unknowns);
      for (std::size_t i = 0; i < n; ++i) {
        if (number[i] >= 0) left(number[i]) += inflow[i];
      }
      for (std::size_t e = 0; e < m; ++e) {
        const int a = number[network_.from(e)], b = number[network_.to(e)];
        const FlowAt found = flow_at(laws[e], potential[network_.from(e)] - potential[network_.to(e)], flow[e]);
        flow[e] = found.flow;
        if (a >= 0) laplacian(a, a) += found.slope;
        if (b >= 0) laplacian(b, b) += found.slope;
        if (a >= 0 && b >= 0) {
          laplacian(a, b) -= found.slope;
          laplacian(b, a) -= found.slope;
        }
        if (a >= 0) left(a) -= flow[e];
        if (b >= 0) left(b) += flow[e];
      }
      // A place that shut parts cut off keeps its potential.
      for (int i = 0; i < unknowns; ++i) {
        if (laplacian(i, i) == 0) laplacian(i, i) = 1;
      }
      const Vector change = laplacian.partialPivLu().solve(left);
      for (std::size_t i = 0; i < n; ++i) {
        if (number[i] >= 0) potential[i] += change(number[i]);
      }
    }
    ManyAnswer answer{flow, potential};
    for (std::size_t i = 0; i < n; ++i) answer.pressure[i] -= lift[i];
    return answer;
  }

  const Network& network_;
  const LiquidState& liquid_;
  const Solution& near_;
};

}  // namespace libflow::test
