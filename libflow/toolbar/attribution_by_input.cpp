// SPDX-License-Identifier: MIT
#include <libflow/toolbar/attribution_by_input.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <boost/math/quadrature/gauss.hpp>
#include <fmt/core.h>

#include <libflow/toolbar/attribution_way.hpp>
#include <libflow/toolbar/evenness.hpp>

namespace libflow {

namespace attribution_detail {

/// Integral of the slopes over the whole way, cut in two wherever the parts do not add up to the deviation's change.
static Eigen::ArrayXXd integrate(Way& way, const InputAttributionOptions& options) {
  using Rule = boost::math::quadrature::gauss<double, 10>;
  struct Piece {
    double from, to;
    Eigen::ArrayXd before, after;
  };
  const auto n = static_cast<Eigen::Index>(way.rows()), k = static_cast<Eigen::Index>(way.movers().size());
  Eigen::ArrayXXd sum = Eigen::ArrayXXd::Zero(n, k);
  std::vector<Piece> todo{{0.0, 1.0, way.deviation(0.0), way.deviation(1.0)}};
  while (!todo.empty()) {
    const Piece piece = std::move(todo.back());
    todo.pop_back();
    const double middle = 0.5 * (piece.from + piece.to), half = 0.5 * (piece.to - piece.from);
    Eigen::ArrayXXd part = Eigen::ArrayXXd::Zero(n, k);
    for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
      for (const double side : {-1.0, 1.0}) {
        part += Rule::weights()[i] * half * way.slopes(middle + side * half * Rule::abscissa()[i]);
      }
    }
    const double miss = (part.rowwise().sum() - (piece.after - piece.before)).abs().maxCoeff();
    // Around a valve that opens, pieces shrink by halves: a hundredth for each keeps their sum within the tolerance.
    const bool good = miss <= options.tolerance * std::max(0.01, 2.0 * half) || half < 1e-12;
    if (good || way.solves > options.max_solves) {
      sum += part;
      continue;
    }
    const Eigen::ArrayXd between = way.deviation(middle);
    todo.push_back({piece.from, middle, piece.before, between});
    todo.push_back({middle, piece.to, between, piece.after});
  }
  return sum;
}

}  // namespace attribution_detail

InputAttribution attribute_by_input(const Toolbar& toolbar, const Job& job, const LiquidState& liquid,
                                    const InputAttributionOptions& options) {
  using attribution_detail::Mover;
  options.check();
  attribution_detail::Way way(toolbar, job, liquid);
  const Eigen::ArrayXXd parts = attribution_detail::integrate(way, options);
  const Eigen::ArrayXd whole = way.deviation(1.0);
  InputAttribution out;
  out.solves = way.solves;
  out.deviation.assign(whole.data(), whole.data() + whole.size());
  out.left_over = (parts.rowwise().sum() - whole).abs().maxCoeff();
  // Below a billionth the rows differ by rounding only: no input has a share of that.
  double variance = (whole * whole).sum();
  if (variance < 1e-18 * static_cast<double>(whole.size())) variance = 0.0;
  const auto by_size = [](const auto& a, const auto& b) { return std::abs(a.share) > std::abs(b.share); };
  for (std::size_t k = 0; k < way.movers().size(); ++k) {
    const Mover& m = way.movers()[k];
    const Eigen::ArrayXd part = parts.col(static_cast<Eigen::Index>(k));
    if ((part == 0.0).all()) continue;  // the elevation of a place inside, for example
    InputShare share;
    share.group = m.group;
    share.reference = m.reference;
    share.value = m.value;
    if (m.kind == Mover::Kind::network) {
      share.name = name_of(way.network(), m.input);
      share.unit = unit_of(way.network(), m.input);
    } else {
      const bool width = m.kind == Mover::Kind::width;
      share.name = fmt::format("row {}, {}", way.plumbing().rows[m.row].row, width ? "width" : "ground speed");
      share.unit = width ? "m" : "m/s";
    }
    share.deviation.assign(part.data(), part.data() + part.size());
    share.share = variance > 0.0 ? (part * whole).sum() / variance : 0.0;
    auto group = std::find_if(out.groups.begin(), out.groups.end(), [&](const Cause& c) { return c.name == m.group; });
    if (group == out.groups.end()) {
      out.groups.push_back({.name = m.group, .deviation = std::vector<double>(out.deviation.size(), 0.0)});
      group = out.groups.end() - 1;
    }
    for (std::size_t r = 0; r < out.deviation.size(); ++r) group->deviation[r] += share.deviation[r];
    group->share += share.share;
    out.inputs.push_back(std::move(share));
  }
  std::stable_sort(out.inputs.begin(), out.inputs.end(), by_size);
  std::stable_sort(out.groups.begin(), out.groups.end(), by_size);
  out.reference =
      "every row with the mean hose length and the common parts, bars and feed hoses a thousandth of a millimetre "
      "long, no loss in tees, level ground, equal strips at one speed";
  return out;
}

}  // namespace libflow
