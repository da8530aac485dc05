// SPDX-License-Identifier: MIT
/// @file
/// What every cause does to every row's cup, by exact re-solves of the whole plumbing, kept for further use.
///
/// Rows are compared as logarithms of flow. At a held supply pressure the effects of causes on a row's logarithm hardly
/// add up: an orifice that is half plugged counts for more where all are small. So a model can have causes in it
/// (CatchModel::with), and tells what one more does then.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include <Eigen/Core>
#include <fmt/core.h>

#include <libflow/physics/monotone_curve.hpp>
#include <libflow/study/catch_causes.hpp>
#include <libflow/study/catch_readings.hpp>

namespace libflow {

/// What a diagnosis goes by.
struct DiagnosisSetup {
  int most_causes = 3;         ///< 1 to 5
  double false_alarm = 0.01;   ///< chance that a sound bar is accused, 0.001 to 0.2
  double confidence = 0.95;    ///< of intervals, and of what is left out as worse than the best
  double part_scatter = 0.01;  ///< how far sound rows differ by their parts, of flow, standard deviation [-], 0 to 0.2
                               ///< (common practice, no source)
  double gauge_error = 0.03;   ///< of a good gauge with the stop-watch, of its reading, 0.001 to 0.5 (common practice)
  std::vector<Length> orifice_bores{};  ///< of the orifices in the workshop, one of which may have been fitted
  Temperature water_temperature = from_si<Temperature>(288.15);  ///< where water was caught

  /// @throws InputError
  void check() const {
    require_in("diagnosis, most causes", most_causes, {1, 5}, "");
    require_in("diagnosis, false alarm", false_alarm, {0.001, 0.2}, "");
    require_in("diagnosis, confidence", confidence, {0.5, 0.999}, "");
    require_in("diagnosis, part scatter", part_scatter, {0.0, 0.2}, "");
    require_in("diagnosis, gauge error", gauge_error, {0.001, 0.5}, "");
  }
};

/// One setting at which cups were held. SI.
struct CatchCondition {
  Layout layout;        ///< as caught: its liquid, an ideal supply at `pressure`
  double pressure = 0;  ///< at the supply [Pa]
  bool gauge = false;   ///< it was read; otherwise the layout's own, and the level of the cups says nothing
  bool water = false;   ///< caught with water
};

namespace catch_detail {

/// The layout as it was caught, from an ideal supply.
CatchCondition condition_of(const Layout& layout, const CatchReadings& readings, const DiagnosisSetup& setup,
                            std::optional<double>& job_pressure);

/// Flows of the open rows [m3/s]; empty where the plumbing has no answer.
std::vector<double> row_flows(const Layout& layout);

/// What a row gives without its orifice, over what it gives [-]; too_much_share where that has no answer.
/// @param at  as caught, with an ideal supply
double share_without_orifice(const Layout& at, int row);

/// A row that gives less than this share of the mean counts as giving this: a logarithm needs something.
inline constexpr double least_share = 1e-3;
/// Less than this is no flow [m3/s]: a millilitre in three hours.
inline constexpr double no_flow = 1e-10;

}  // namespace catch_detail

/// What a cause does to the logarithms of the cups, against its size. Cells: setting by setting, open row by open row.
struct CatchEffect {
  CatchCause cause;                            ///< without size
  std::vector<int> cells;                      ///< where it does anything that a cup could ever show
  std::vector<double> sizes;                   ///< solved for, rising
  Eigen::MatrixXd solved;                      ///< cell x size
  bool fitted = true;                          ///< its size is a number to be fitted; false: one of `sizes`
  bool by_factor = false;                      ///< the curves are over the logarithm of the size
  std::vector<physics::MonotoneCurve> curves;  ///< by cell, over abscissa(size)

  /// Size to what the curves are over.
  [[nodiscard]] double abscissa(double size) const { return by_factor ? std::log(size) : size; }
  /// Back.
  [[nodiscard]] double size_at(double abscissa) const { return by_factor ? std::exp(abscissa) : abscissa; }
  /// In its cells. Of a cause that is not fitted: at the nearest of its sizes.
  void at(double size, Eigen::VectorXd& out) const {
    out.resize(static_cast<Eigen::Index>(cells.size()));
    if (!fitted) {
      std::size_t best = 0;
      for (std::size_t k = 1; k < sizes.size(); ++k) {
        if (std::abs(sizes[k] - size) < std::abs(sizes[best] - size)) best = k;
      }
      out = solved.col(static_cast<Eigen::Index>(best));
      return;
    }
    const double x = abscissa(std::clamp(size, sizes.front(), sizes.back()));
    const double low = abscissa(sizes.front()), high = abscissa(sizes.back());
    for (std::size_t k = 0; k < cells.size(); ++k) {
      out[static_cast<Eigen::Index>(k)] = curves[k](std::clamp(x, low, high));
    }
  }
};

/// A layout with all settings of a catch test. Holds what it has solved: one model for each thread.
class CatchModel {
 public:
  /// @param readings  for their settings only
  /// @throws InputError for a free-form layout, a gauge out of range, a setting at which a row gives nothing;
  ///         IllPosedError as main_job
  CatchModel(Layout layout, const std::vector<CatchReadings>& readings, DiagnosisSetup setup = {})
      : layout_(std::move(layout)), setup_(std::move(setup)) {
    setup_.check();
    if (readings.empty()) throw InputError("diagnosis", "no readings", "at least one catch");
    std::optional<double> job_pressure;
    for (const CatchReadings& r : readings) {
      conditions_.push_back(catch_detail::condition_of(layout_, r, setup_, job_pressure));
    }
    begin();
  }

  /// The same settings with other supply pressures [Pa]. @throws as the constructor
  [[nodiscard]] CatchModel at_pressures(const std::vector<double>& pressures) const {
    CatchModel other = *this;
    for (std::size_t s = 0; s < conditions_.size(); ++s) {
      other.conditions_[s].pressure = pressures.at(s);
      other.conditions_[s].layout.job.pressure = from_si<Pressure>(pressures.at(s));
    }
    other.effects_.clear();
    other.begin();
    return other;
  }

  /// The same settings of the bar with these causes in it: base() and effect() are from there. Empty where the plumbing
  /// then has no answer.
  [[nodiscard]] std::optional<CatchModel> with(const std::vector<CatchCause>& causes) const {
    CatchModel other = *this;
    other.held_.insert(other.held_.end(), causes.begin(), causes.end());
    other.effects_.clear();
    return other.solve_base() ? std::optional(std::move(other)) : std::nullopt;
  }

  /// As given.
  [[nodiscard]] const Layout& layout() const { return layout_; }
  /// As given.
  [[nodiscard]] const DiagnosisSetup& setup() const { return setup_; }
  /// Setting by setting.
  [[nodiscard]] const std::vector<CatchCondition>& conditions() const { return conditions_; }
  [[nodiscard]] const std::vector<int>& rows() const { return rows_; }  ///< open ones
  /// Settings times open rows.
  [[nodiscard]] int cells() const { return static_cast<int>(rows_.size() * conditions_.size()); }
  /// Number of a cell.
  /// @param row  index into rows()
  [[nodiscard]] int cell(std::size_t setting, std::size_t row) const {
    return static_cast<int>(setting * rows_.size() + row);
  }
  /// Logarithm of every flow as the layout has it, with the causes that are in it [ln m3/s], by cell.
  [[nodiscard]] const Eigen::VectorXd& base() const { return base_; }
  /// How it rises with the logarithm of the supply pressure, by cell.
  [[nodiscard]] const Eigen::VectorXd& by_pressure() const { return by_pressure_; }
  /// Causes that are of the whole bar.
  [[nodiscard]] const std::vector<CatchCause>& common_causes() const { return common_; }
  /// True where two rows' hoses differ enough to be told apart when swapped.
  [[nodiscard]] bool hoses_differ(int a, int b) const {
    const auto& x = catch_detail::row_of(made_, a);
    const auto& y = catch_detail::row_of(made_, b);
    return std::abs(std::log(x.hose_length / y.hose_length)) > 0.01 ||
           std::abs(std::log(x.hose_bore / y.hose_bore)) > 0.01;
  }
  /// What may be wrong with one row.
  [[nodiscard]] std::vector<CatchCause> row_causes(int row) const {
    using Of = CatchCauseKind;
    std::vector<CatchCause> causes;
    const build_detail::Row& r = catch_detail::row_of(made_, row);
    if (r.orifice) {
      causes.push_back({Of::orifice, row});
      if (bores_.size() > 1) causes.push_back({Of::other_orifice, row});
    }
    causes.push_back({Of::hose_length, row});
    causes.push_back({Of::hose_bore, row});
    if (r.check_valve) causes.push_back({Of::check_valve, row});
    return causes;
  }

  /// All causes together and those that are in the model, exactly. Empty where the plumbing then has no answer.
  [[nodiscard]] std::optional<Eigen::VectorXd> exact(std::vector<CatchCause> causes) const {
    causes.insert(causes.begin(), held_.begin(), held_.end());
    std::vector<CatchCause> of_bar;
    Eigen::VectorXd out(cells());
    double misread = 0.0;
    for (const CatchCause& c : causes) {
      misread += c.kind == CatchCauseKind::measure ? std::log(c.size) : 0.0;
      if (!of_product(c.kind)) of_bar.push_back(c);
    }
    for (std::size_t s = 0; s < conditions_.size(); ++s) {
      std::vector<double> flows;
      try {
        flows = catch_detail::row_flows(with_causes(conditions_[s].layout, conditions_[s].water ? of_bar : causes));
      } catch (const InputError&) {
        return std::nullopt;  // no such part
      }
      if (flows.empty()) return std::nullopt;
      double mean = 0.0;
      for (const double q : flows) mean += q / static_cast<double>(flows.size());
      const double floor = std::max(catch_detail::least_share * mean, 0.1 * catch_detail::no_flow);
      for (std::size_t i = 0; i < flows.size(); ++i) out[cell(s, i)] = misread + std::log(std::max(flows[i], floor));
    }
    return out;
  }

  /// What a cause does, solved at first use.
  [[nodiscard]] const CatchEffect& effect(const CatchCause& cause) {
    const auto key = std::tuple(cause.kind, cause.row, cause.other, cause.manifold);
    const auto found = effects_.find(key);
    if (found != effects_.end()) return found->second;
    return effects_.emplace(key, make(cause)).first->second;
  }

 private:
  static bool of_product(CatchCauseKind kind) {
    return kind == CatchCauseKind::density || kind == CatchCauseKind::viscosity;
  }

  void begin() {
    const Toolbar& bar = catch_detail::bar_of(layout_);
    made_ = build_detail::make_rows(bar);
    rows_.clear();
    for (const build_detail::Row& r : made_) {
      if (!r.shut) rows_.push_back(r.number);
    }
    if (rows_.size() < 2) throw InputError("diagnosis", "one open row has no other to be compared with", "two or more");
    bores_ = catch_detail::fitted_bores(layout_, setup_.orifice_bores);
    if (!solve_base()) throw IllPosedError("the layout has no answer at, or near, the setting of the catch test");
    const auto open = static_cast<Eigen::Index>(rows_.size());
    for (std::size_t k = 0; k < conditions_.size(); ++k) {
      const auto setting = base_.segment(static_cast<Eigen::Index>(k) * open, open);
      const double least = setting.maxCoeff() + std::log(2.0 * catch_detail::least_share);
      if (setting.minCoeff() < std::max(least, std::log(catch_detail::no_flow))) {
        throw InputError(fmt::format("diagnosis, setting {}", k + 1), "a row gives nothing by the layout itself",
                         "a pressure at which every open row delivers");
      }
    }
    common_.clear();
    using Of = CatchCauseKind;
    common_.push_back({Of::side_slope});
    for (std::size_t m = 0; m < bar.manifolds.size(); ++m) {
      common_.push_back({.kind = Of::bar_bore, .manifold = m});
      common_.push_back({.kind = Of::feed_place, .manifold = m});
      if (si(bar.manifolds[m].feed_length) > 0.0) common_.push_back({.kind = Of::feed_hose, .manifold = m});
    }
    const auto any = [&](auto test) { return std::any_of(conditions_.begin(), conditions_.end(), test); };
    if (any([](const CatchCondition& c) { return !c.water; })) {
      common_.push_back({Of::density});
      common_.push_back({Of::viscosity});
    }
    if (std::any_of(made_.begin(), made_.end(), [](const build_detail::Row& r) { return !r.shut && r.orifice; })) {
      common_.push_back({Of::orifice_set});
    }
    if (!catch_detail::other_schedule(made_).empty()) common_.push_back({Of::hose_schedule});
    if (any([](const CatchCondition& c) { return c.gauge; })) {  // else the level says nothing
      common_.push_back({Of::gauge});
      common_.push_back({Of::measure});
    }
  }

  /// base() and by_pressure(). @return false where there is no answer
  bool solve_base() {
    constexpr double step = 0.02;
    const auto base = exact({});
    const auto more = exact({{CatchCauseKind::gauge, 0, 0, 0, std::exp(step)}});
    const auto less = exact({{CatchCauseKind::gauge, 0, 0, 0, std::exp(-step)}});
    if (!base || !more || !less) return false;
    base_ = *base;
    by_pressure_ = (*more - *less) / (2.0 * step);
    return true;
  }

  /// A valve that all but shuts its row has most of its effect in its last step: there are more sizes where a cup's
  /// logarithm changes by more than one.
  /// @param solve_for  adds a size ahead of a place, also to `columns`; false where it has no answer
  template <class Solve>
  static void add_sizes_where_steep(const CatchEffect& e, const std::vector<Eigen::VectorXd>& columns,
                                    const Solve& solve_for) {
    constexpr int most = 24;
    for (int more = 0; more < most; ++more) {
      std::size_t place = 0;
      double steepest = 1.0;
      for (std::size_t k = 1; k < columns.size(); ++k) {
        const double change = (columns[k] - columns[k - 1]).cwiseAbs().maxCoeff();
        if (change <= steepest) continue;
        steepest = change;
        place = k;
      }
      if (place == 0) return;
      const double middle = 0.5 * (e.abscissa(e.sizes[place - 1]) + e.abscissa(e.sizes[place]));
      if (!solve_for(e.size_at(middle), place)) return;
    }
  }

  [[nodiscard]] CatchEffect make(const CatchCause& cause) const {
    CatchEffect e;
    e.cause = cause;
    double pressure = conditions_.front().pressure;
    for (const CatchCondition& c : conditions_) pressure = std::max(pressure, c.pressure);
    const catch_detail::Sizes sizes = catch_detail::sizes_of(layout_, cause, pressure, bores_);
    e.fitted = sizes.only.empty();
    e.by_factor = sizes.factor;
    std::vector<Eigen::VectorXd> columns;
    const auto solve_for = [&](double size, std::size_t place) {
      CatchCause sized = cause;
      sized.size = size;
      const bool none = e.fitted && size == sizes.none;
      const auto cells = none ? std::optional(base_) : exact({sized});
      if (!cells) return false;
      e.sizes.insert(e.sizes.begin() + static_cast<std::ptrdiff_t>(place), size);
      columns.insert(columns.begin() + static_cast<std::ptrdiff_t>(place), *cells - base_);
      return true;
    };
    for (const double size : catch_detail::size_steps(sizes)) {
      static_cast<void>(solve_for(size, columns.size()));  // no such part: the curve ends there
    }
    if (e.fitted && columns.size() < 4) {  // hardly any size is possible
      e.sizes.clear();
      return e;
    }
    if (e.fitted) add_sizes_where_steep(e, columns, solve_for);
    for (int k = 0; k < cells(); ++k) {
      double most = 0.0;
      for (const auto& c : columns) most = std::max(most, std::abs(c[k]));
      if (most > 1e-5) e.cells.push_back(k);
    }
    e.solved.resize(static_cast<Eigen::Index>(e.cells.size()), static_cast<Eigen::Index>(columns.size()));
    for (std::size_t i = 0; i < e.cells.size(); ++i) {
      std::vector<double> x, y;
      for (std::size_t k = 0; k < columns.size(); ++k) {
        x.push_back(e.abscissa(e.sizes[k]));
        y.push_back(columns[k][e.cells[i]]);
        e.solved(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k)) = y.back();
      }
      if (e.fitted) e.curves.emplace_back(std::move(x), std::move(y));
    }
    return e;
  }

  Layout layout_;
  DiagnosisSetup setup_;
  std::vector<CatchCondition> conditions_;
  std::vector<build_detail::Row> made_;
  std::vector<int> rows_;
  std::vector<double> bores_;
  std::vector<CatchCause> common_, held_;
  Eigen::VectorXd base_, by_pressure_;
  std::map<std::tuple<CatchCauseKind, int, int, std::size_t>, CatchEffect> effects_;
};

}  // namespace libflow
