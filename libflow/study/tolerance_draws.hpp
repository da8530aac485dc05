// SPDX-License-Identifier: MIT
/// @file
/// From points of a cube to scenarios: every tolerance's draws, by row, by batch or for the whole machine.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <boost/math/distributions/normal.hpp>
#include <fmt/core.h>

#include <libflow/study/scenarios.hpp>
#include <libflow/toolbar/tolerances.hpp>

namespace libflow {

/// Standard normal quantiles, fast: cubic pieces through Boost.Math's values and slopes in the middle, Boost.Math
/// itself in the tails (below 1/64 and above 63/64). Within 1e-9 of it.
class NormalQuantile {
 public:
  NormalQuantile() : value_(cells + 1), slope_(cells + 1) {
    const boost::math::normal unit;
    for (std::size_t i = cells / 64; i <= cells - cells / 64; ++i) {
      value_[i] = boost::math::quantile(unit, static_cast<double>(i) / cells);
      slope_[i] = 1.0 / (cells * boost::math::pdf(unit, value_[i]));
    }
  }
  /// @param u  more than 0, less than 1
  [[nodiscard]] double operator()(double u) const {
    if (!(u >= 1.0 / 64.0 && u < 63.0 / 64.0)) return boost::math::quantile(boost::math::normal(), u);
    const double x = u * cells;
    const auto i = static_cast<std::size_t>(x);
    const double t = x - static_cast<double>(i), rise = value_[i + 1] - value_[i];
    const double m0 = slope_[i], m1 = slope_[i + 1];
    return value_[i] + t * (m0 + t * (3.0 * rise - 2.0 * m0 - m1 + t * (m0 + m1 - 2.0 * rise)));
  }

 private:
  static constexpr std::size_t cells = 8192;
  std::vector<double> value_, slope_;
};

/// The tolerances of one layout, ready to draw.
class ToleranceDraws {
 public:
  /// @throws InputError for a tolerance of what the layout does not have, or whose tails no part allows
  /// @param toolbar  the layout's; nullptr for plumbing given place by place
  ToleranceDraws(const ScenarioSolver& solver, std::vector<Tolerance> tolerances, const Toolbar* toolbar)
      : liquid_(solver.job().liquid), state_(solver.liquid()), job_(solver.job()), tolerances_(std::move(tolerances)) {
    if (tolerances_.empty()) {
      throw InputError("tolerances", "none are given", "what may differ from the layout, and by how much");
    }
    const Plumbing& plumbing = solver.plumbing();
    for (std::size_t j = 0; j < tolerances_.size(); ++j) {
      const Tolerance& t = tolerances_[j];
      const std::string where = fmt::format("tolerance {}, {}", j + 1, name_of(t.of).words);
      t.difference.check(where);
      check_presence(t, plumbing, toolbar != nullptr, where);
      Source source;
      source.nominal = nominal_of(t.of, plumbing, toolbar);
      source.first = group_.size();
      source.draw = draws_of(t, plumbing.rows.size(), where);
      group_.resize(source.first + 1 + *std::max_element(source.draw.begin(), source.draw.end()), j);
      check_tails(t, source.nominal, plumbing, where);
      sources_.push_back(std::move(source));
    }
    rows_ = plumbing.rows.size();
  }

  /// By dimension: which tolerance it belongs to.
  [[nodiscard]] const std::vector<std::size_t>& group() const { return group_; }
  /// As given.
  [[nodiscard]] const std::vector<Tolerance>& tolerances() const { return tolerances_; }

  /// Which dimension a tolerance draws for a row (what is not of a row: any row).
  [[nodiscard]] std::size_t dimension(std::size_t tolerance, std::size_t row) const {
    const Source& s = sources_[tolerance];
    return s.first + s.draw[s.draw.size() == 1 ? 0 : row];
  }
  /// What a difference of 1 in a tolerance's own measure is for a row [SI].
  [[nodiscard]] double scale(std::size_t tolerance, std::size_t row) const {
    const Source& s = sources_[tolerance];
    return tolerances_[tolerance].relative ? s.nominal[s.nominal.size() == 1 ? 0 : row] : 1.0;
  }

  /// Differences, each in its tolerance's own measure, at points of the unit cube, one a row.
  [[nodiscard]] Eigen::ArrayXXd differences(const Eigen::ArrayXXd& u) const {
    Eigen::ArrayXXd z(u.rows(), u.cols());
    for (Eigen::Index d = 0; d < u.cols(); ++d) {
      const Distribution& difference = tolerances_[group_[static_cast<std::size_t>(d)]].difference;
      if (difference.kind == Distribution::Kind::normal) {
        for (Eigen::Index i = 0; i < u.rows(); ++i) z(i, d) = difference.deviation * normal_(u(i, d));
      } else {
        for (Eigen::Index i = 0; i < u.rows(); ++i) z(i, d) = difference.quantile(u(i, d));
      }
    }
    return z;
  }
  /// Scenarios with these differences from the layout.
  [[nodiscard]] Scenarios scenarios(const Eigen::ArrayXXd& z) const {
    Scenarios out;
    out.count = static_cast<std::size_t>(z.rows());
    for (std::size_t j = 0; j < tolerances_.size(); ++j) add(j, z, out);
    if (out.temperature.size() != 0) {
      // Given for the layout's temperature; at another one they differ as the liquid's own do.
      for (Eigen::Index i = 0; i < out.temperature.size(); ++i) {
        const auto t = from_si<Temperature>(out.temperature[i]);
        if (out.viscosity.size() != 0) out.viscosity[i] *= si(liquid_.viscosity_at(t)) / state_.viscosity;
        if (out.density.size() != 0) out.density[i] *= si(liquid_.density_at(t)) / state_.density;
      }
    }
    return out;
  }

 private:
  struct Source {
    std::vector<double> nominal;    ///< [SI], by row or one
    std::size_t first = 0;          ///< its first dimension
    std::vector<std::size_t> draw;  ///< by row or one: which of its dimensions
  };

  static void check_presence(const Tolerance& t, const Plumbing& plumbing, bool toolbar, const std::string& where) {
    const auto none = [&](auto parts) {
      return std::all_of(plumbing.rows.begin(), plumbing.rows.end(), [&](const auto& r) { return (r.*parts).empty(); });
    };
    std::string lacks;
    if (t.of == ToleranceOf::orifice_bore && none(&RowPlumbing::orifices)) lacks = "orifices";
    if (t.of == ToleranceOf::crack && none(&RowPlumbing::check_valves)) lacks = "check valves";
    if ((t.of == ToleranceOf::hose_length || t.of == ToleranceOf::hose_bore) && none(&RowPlumbing::hoses)) {
      lacks = "hoses of rows";
    }
    if ((t.of == ToleranceOf::side_slope || t.of == ToleranceOf::fore_aft_slope) && !toolbar) lacks = "toolbar";
    const PlaceKind supply = plumbing.network.place(plumbing.supply).kind;
    if (t.of == ToleranceOf::pressure && supply != PlaceKind::supply) lacks = "supply held at a pressure";
    if ((t.of == ToleranceOf::speed || t.of == ToleranceOf::rate) && supply != PlaceKind::fed) {
      lacks = "supply that gives what the job asks for";
    }
    if (!lacks.empty()) {
      throw InputError(where, fmt::format("this layout has no {}", lacks), "a tolerance of what the layout has");
    }
    if (t.relative &&
        (t.of == ToleranceOf::temperature || t.of == ToleranceOf::side_slope || t.of == ToleranceOf::fore_aft_slope)) {
      throw InputError(where, "a share of it has no meaning", "a difference in its own unit");
    }
    if (!t.batch.empty() && !by_row(t.of)) {
      throw InputError(where, "rows of one batch, but this is of the whole machine", "no batch");
    }
  }

  static std::optional<double> input_named(const Network& network, const std::vector<Network::PartIndex>& parts,
                                           std::string_view name) {
    for (const auto e : parts) {
      const Part& part = network.part(e).part;
      for (std::size_t k = 0; k < part.input_count(); ++k) {
        if (part.input(k).name == name) return part.input(k).value;
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] std::vector<double> nominal_of(ToleranceOf of, const Plumbing& plumbing, const Toolbar* toolbar) const {
    const Network& n = plumbing.network;
    std::vector<std::optional<double>> found;
    for (const RowPlumbing& row : plumbing.rows) {
      if (of == ToleranceOf::orifice_bore) found.push_back(input_named(n, row.orifices, "bore"));
      if (of == ToleranceOf::hose_length) found.push_back(input_named(n, row.hoses, "length"));
      if (of == ToleranceOf::hose_bore) found.push_back(input_named(n, row.hoses, "bore"));
      if (of == ToleranceOf::crack) found.push_back(input_named(n, row.check_valves, "crack"));
    }
    if (by_row(of)) {
      // A row without the part (it is shut) has a column all the same; any allowed value will do.
      double other = 0.0;
      for (const auto& v : found) other = v.value_or(other);
      std::vector<double> nominal;
      for (const auto& v : found) nominal.push_back(v.value_or(other));
      return nominal;
    }
    switch (of) {
      case ToleranceOf::viscosity:
        return {state_.viscosity};
      case ToleranceOf::density:
        return {state_.density};
      case ToleranceOf::temperature:
        return {state_.temperature};
      case ToleranceOf::speed:
        return {si(job_.speed)};
      case ToleranceOf::rate:
        return {si(job_.rate)};
      case ToleranceOf::pressure:
        return {n.place(plumbing.supply).pressure};
      case ToleranceOf::side_slope:
        return {si(toolbar->side_slope)};
      default:
        return {si(toolbar->fore_aft_slope)};
    }
  }

  static std::vector<std::size_t> draws_of(const Tolerance& t, std::size_t rows, const std::string& where) {
    if (!by_row(t.of)) return {0};
    std::vector<std::size_t> draw(rows);
    if (t.batch.empty()) {
      for (std::size_t r = 0; r < rows; ++r) draw[r] = r;
      return draw;
    }
    if (t.batch.size() != rows) {
      throw InputError(where + ", batch", fmt::format("{} numbers for {} rows", t.batch.size(), rows),
                       fmt::format("one number a row: {}", rows));
    }
    std::vector<int> seen;
    for (std::size_t r = 0; r < rows; ++r) {
      const auto at = std::find(seen.begin(), seen.end(), t.batch[r]);
      draw[r] = static_cast<std::size_t>(at - seen.begin());
      if (at == seen.end()) seen.push_back(t.batch[r]);
    }
    return draw;
  }

  /// The farthest values that can be drawn must be allowed: better said now than after a million scenarios.
  void check_tails(const Tolerance& t, const std::vector<double>& nominal, const Plumbing& plumbing,
                   const std::string& where) const {
    for (const double u : {0x1p-33, 1.0 - 0x1p-33}) {
      for (std::size_t r = 0; r < nominal.size(); ++r) {
        const double value = nominal[r] + (t.relative ? nominal[r] : 1.0) * t.difference.quantile(u);
        const auto tail = [&](auto&& test) {
          try {
            test();
          } catch (const InputError& error) {
            throw InputError(where, fmt::format("is so wide that draws reach what is not allowed: {}", error.what()),
                             "a narrower tolerance, or one with ends (uniform, triangular)");
          }
        };
        if (by_row(t.of)) {
          const RowPlumbing& row = plumbing.rows[r];
          const auto& parts = t.of == ToleranceOf::orifice_bore ? row.orifices
                              : t.of == ToleranceOf::crack      ? row.check_valves
                                                                : row.hoses;
          const PartQuantity q = t.of == ToleranceOf::hose_length ? PartQuantity::length
                                 : t.of == ToleranceOf::crack     ? PartQuantity::crack
                                                                  : PartQuantity::bore;
          for (const auto e : parts) {
            const PlacedPart& placed = plumbing.network.part(e);
            // A part that has no such number is no matter of width: its own message says so.
            (void)scenarios_detail::changed(placed.part, q, nominal[r], placed.id);
            tail([&] { (void)scenarios_detail::changed(placed.part, q, value, placed.id); });
          }
        } else {
          tail([&] { require_in(name_of(t.of).words, value, range_of(t.of), name_of(t.of).unit); });
        }
      }
    }
  }
  static Range range_of(ToleranceOf of) {
    switch (of) {
      case ToleranceOf::viscosity:
        return liquid_viscosity;
      case ToleranceOf::density:
        return liquid_density;
      case ToleranceOf::temperature:
        return liquid_temperature;
      case ToleranceOf::speed:
        return layout_limits::speed;
      case ToleranceOf::rate:
        return layout_limits::rate;
      case ToleranceOf::pressure:
        return layout_limits::pressure;
      default:
        return layout_limits::slope;
    }
  }

  void add(std::size_t j, const Eigen::ArrayXXd& z, Scenarios& out) const {
    const ToleranceOf of = tolerances_[j].of;
    const Source& source = sources_[j];
    if (by_row(of)) {
      Eigen::ArrayXXd& table = of == ToleranceOf::orifice_bore  ? out.orifice_bore
                               : of == ToleranceOf::hose_length ? out.hose_length
                               : of == ToleranceOf::hose_bore   ? out.hose_bore
                                                                : out.crack;
      if (table.size() == 0) {
        table.resize(z.rows(), static_cast<Eigen::Index>(rows_));
        for (std::size_t r = 0; r < rows_; ++r) table.col(static_cast<Eigen::Index>(r)) = source.nominal[r];
      }
      for (std::size_t r = 0; r < rows_; ++r) {
        table.col(static_cast<Eigen::Index>(r)) += scale(j, r) * z.col(static_cast<Eigen::Index>(dimension(j, r)));
      }
      return;
    }
    const Eigen::ArrayXd own = scale(j, 0) * z.col(static_cast<Eigen::Index>(source.first));
    const auto onto = [&](Eigen::ArrayXd& column, double nominal) {
      if (column.size() == 0) column = Eigen::ArrayXd::Constant(z.rows(), nominal);
      column += own;
    };
    switch (of) {
      case ToleranceOf::viscosity:
        return onto(out.viscosity, source.nominal[0]);
      case ToleranceOf::density:
        return onto(out.density, source.nominal[0]);
      case ToleranceOf::temperature:
        return onto(out.temperature, source.nominal[0]);
      case ToleranceOf::speed:
        return onto(out.speed, source.nominal[0]);
      case ToleranceOf::rate:
        return onto(out.rate, source.nominal[0]);
      case ToleranceOf::pressure:
        return onto(out.pressure, source.nominal[0]);
      case ToleranceOf::side_slope:
        return onto(out.side_slope, source.nominal[0]);
      default:
        return onto(out.fore_aft_slope, source.nominal[0]);
    }
  }

  Liquid liquid_;
  LiquidState state_;
  Job job_;
  std::vector<Tolerance> tolerances_;
  std::vector<Source> sources_;
  std::vector<std::size_t> group_;
  std::size_t rows_ = 0;
  NormalQuantile normal_;
};

}  // namespace libflow
