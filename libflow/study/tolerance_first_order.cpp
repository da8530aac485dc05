// SPDX-License-Identifier: MIT
#include <libflow/study/tolerance_first_order.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include <libflow/solve/derivatives.hpp>
#include <libflow/study/tolerance_draws.hpp>

namespace libflow {

namespace tolerance_detail {

Eigen::ArrayXd row_weights(const Plumbing& plumbing, const Job& job) {
  Eigen::ArrayXd w(static_cast<Eigen::Index>(plumbing.rows.size()));
  for (std::size_t r = 0; r < plumbing.rows.size(); ++r) {
    const RowPlumbing& row = plumbing.rows[r];
    w[static_cast<Eigen::Index>(r)] = row.shut ? 0.0 : row.width * row_speed(job, row.x) / si(job.speed);
  }
  return w;
}

/// Derivative of one row's flow by one tolerance's quantity of a row or of the machine.
class ByQuantity {
 public:
  ByQuantity(const Plumbing& plumbing, const Job& job, const Toolbar* toolbar, const std::vector<NetworkInput>& inputs)
      : plumbing_(plumbing), job_(job), toolbar_(toolbar), inputs_(inputs) {
    if (toolbar != nullptr) elevations_ = scenarios_detail::elevations_of(*toolbar, job);
  }

  [[nodiscard]] double operator()(const std::vector<double>& gradient, ToleranceOf of, std::size_t row) const {
    const RowPlumbing& r = plumbing_.rows[row];
    switch (of) {
      case ToleranceOf::orifice_bore:
        return parts(gradient, r.orifices, "bore");
      case ToleranceOf::hose_length:
        return parts(gradient, r.hoses, "length");
      case ToleranceOf::hose_bore: {
        double sum = parts(gradient, r.hoses, "bore");
        if (toolbar_ == nullptr || si(toolbar_->outlet_bore) != 0.0) return sum;
        for (const auto e : r.last_parts) {  // the hose's own end
          if (plumbing_.network.part(e).part.as<OpenEnd>() != nullptr) sum += parts(gradient, {e}, "bore");
        }
        return sum;
      }
      case ToleranceOf::crack:
        return parts(gradient, r.check_valves, "crack") + parts(gradient, r.check_valves, "fully-open pressure");
      case ToleranceOf::viscosity:
        return first(gradient, NetworkInput::Kind::viscosity);
      case ToleranceOf::density:
        return first(gradient, NetworkInput::Kind::density);
      case ToleranceOf::temperature: {
        // The liquid's curves are smooth but for corners at measured points: a difference over two hundredths of a
        // degree.
        const double t = si(job_.temperature), h = 0.01;
        const auto up = from_si<Temperature>(t + h), down = from_si<Temperature>(t - h);
        const double density = (si(job_.liquid.density_at(up)) - si(job_.liquid.density_at(down))) / (2.0 * h);
        const double viscosity = (si(job_.liquid.viscosity_at(up)) - si(job_.liquid.viscosity_at(down))) / (2.0 * h);
        return density * first(gradient, NetworkInput::Kind::density) +
               viscosity * first(gradient, NetworkInput::Kind::viscosity);
      }
      case ToleranceOf::speed:
        return supply(gradient, NetworkInput::Kind::given_flow) * wanted_flow(plumbing_, job_) / si(job_.speed);
      case ToleranceOf::rate:
        return supply(gradient, NetworkInput::Kind::given_flow) * wanted_flow(plumbing_, job_) / si(job_.rate);
      case ToleranceOf::pressure:
        return supply(gradient, NetworkInput::Kind::supply_pressure);
      case ToleranceOf::side_slope:
        return elevations(gradient, elevations_.side, std::cos(elevations_.side_slope));
      case ToleranceOf::fore_aft_slope:
        return elevations(gradient, elevations_.fore_aft, std::cos(elevations_.fore_aft_slope));
    }
    return 0.0;
  }

 private:
  [[nodiscard]] double parts(const std::vector<double>& gradient, const std::vector<Network::PartIndex>& which,
                             std::string_view name) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < inputs_.size(); ++k) {
      const NetworkInput& in = inputs_[k];
      if (in.kind != NetworkInput::Kind::part || std::find(which.begin(), which.end(), in.index) == which.end())
        continue;
      if (plumbing_.network.part(in.index).part.input(in.field).name == name) sum += gradient[k];
    }
    return sum;
  }
  [[nodiscard]] double first(const std::vector<double>& gradient, NetworkInput::Kind kind) const {
    for (std::size_t k = 0; k < inputs_.size(); ++k) {
      if (inputs_[k].kind == kind) return gradient[k];
    }
    return 0.0;
  }
  [[nodiscard]] double supply(const std::vector<double>& gradient, NetworkInput::Kind kind) const {
    for (std::size_t k = 0; k < inputs_.size(); ++k) {
      if (inputs_[k].kind == kind && inputs_[k].index == plumbing_.supply) return gradient[k];
    }
    return 0.0;
  }
  [[nodiscard]] double elevations(const std::vector<double>& gradient, const std::vector<double>& per_slope,
                                  double cosine) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < inputs_.size(); ++k) {
      if (inputs_[k].kind == NetworkInput::Kind::elevation) sum += gradient[k] * per_slope[inputs_[k].index] * cosine;
    }
    return sum;
  }

  const Plumbing& plumbing_;
  const Job& job_;
  const Toolbar* toolbar_;
  const std::vector<NetworkInput>& inputs_;
  scenarios_detail::Elevations elevations_;
};

}  // namespace tolerance_detail

FirstOrder first_order(const ScenarioSolver& solver, const ToleranceDraws& draws, const Toolbar* toolbar,
                       const Solution& solution) {
  const Plumbing& plumbing = solver.plumbing();
  const Network& network = plumbing.network;
  Derivatives derivatives(network, solver.liquid(), solution);
  const tolerance_detail::ByQuantity by(plumbing, solver.job(), toolbar, derivatives.inputs());
  const Eigen::ArrayXd weight = tolerance_detail::row_weights(plumbing, solver.job());
  const auto n = weight.size(), dims = static_cast<Eigen::Index>(draws.group().size());
  Eigen::ArrayXd rate = Eigen::ArrayXd::Zero(n);
  Eigen::ArrayXXd slope = Eigen::ArrayXXd::Zero(n, dims);  // of the rates by each draw
  double count = 0.0;
  for (Eigen::Index r = 0; r < n; ++r) {
    if (weight[r] == 0.0) continue;
    count += 1.0;
    const RowPlumbing& row = plumbing.rows[static_cast<std::size_t>(r)];
    FlowSum outlets;
    for (std::size_t k = 0; k < row.airs.size(); ++k) {
      const auto last = row.last_parts[k];
      outlets.emplace_back(last, network.to(last) == row.airs[k] ? 1.0 : -1.0);
      rate[r] += outlets.back().second * solution.parts[last].flow / weight[r];
    }
    const std::vector<double> gradient = derivatives.of_flow(outlets);
    for (std::size_t j = 0; j < draws.tolerances().size(); ++j) {
      const ToleranceOf of = draws.tolerances()[j].of;
      const std::size_t sources = by_row(of) ? plumbing.rows.size() : 1;
      for (std::size_t k = 0; k < sources; ++k) {
        slope(r, static_cast<Eigen::Index>(draws.dimension(j, k))) +=
            draws.scale(j, k) * by(gradient, of, k) / weight[r];
      }
    }
  }
  const double mean = rate.sum() / count;
  const Eigen::ArrayXd counted = (weight != 0.0).cast<double>();
  for (Eigen::Index d = 0; d < dims; ++d)
    slope.col(d) = counted * (slope.col(d) - rate / mean * (slope.col(d).sum() / count)) / mean;

  FirstOrder out;
  out.deviation = counted * (rate / mean - 1.0);
  Eigen::ArrayXd variance = Eigen::ArrayXd::Zero(n);
  out.share = Eigen::ArrayXd::Zero(static_cast<Eigen::Index>(draws.tolerances().size()));
  for (Eigen::Index d = 0; d < dims; ++d) {
    const std::size_t group = draws.group()[static_cast<std::size_t>(d)];
    const Distribution& difference = draws.tolerances()[group].difference;
    out.deviation += slope.col(d) * difference.mean();
    const Eigen::ArrayXd part = slope.col(d).square() * difference.variance();
    variance += part;
    out.share[static_cast<Eigen::Index>(group)] += part.sum();
  }
  out.spread = variance.sqrt();
  if (variance.sum() > 0.0) out.share /= variance.sum();
  out.rms_cv = count > 1.0 ? std::sqrt((out.deviation.square() + variance).sum() / (count - 1.0)) : 0.0;
  out.slope = std::move(slope);
  out.at_crack = derivatives.at_crack().size();
  return out;
}

}  // namespace libflow
