// SPDX-License-Identifier: MIT
/// @file
/// Tries one choice of parts at every operating point, and stops as soon as it is no use going on.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <map>
#include <memory>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include <libflow/solve/system.hpp>
#include <libflow/study/layout_doubts.hpp>
#include <libflow/study/limits.hpp>
#include <libflow/study/operating_state.hpp>
#include <libflow/study/size_problem.hpp>

namespace libflow {

/// What became of a choice. SI.
struct SizeOutcome {
  bool whole = false;           ///< tried at every point; otherwise the numbers are of some points only
  std::string refused{};        ///< why such a toolbar cannot be at all; empty: it can
  SizeBinding binding{};        ///< what it comes nearest to, or oversteps most
  double worst_deviation = 0;   ///< largest deviation of a row from the mean, of all points [-]
  double worst_cv = 0;          ///< [-]
  std::size_t worst_point = 0;  ///< where the largest deviation is, of SizeProblem::points
  double least_pressure = std::numeric_limits<double>::infinity();      ///< at the gauge [Pa]
  double most_pressure = 0;                                             ///< at the gauge [Pa]
  double least_orifice_drop = std::numeric_limits<double>::infinity();  ///< [Pa]; infinite without orifices
  double most_orifice_drop = 0;                                         ///< [Pa]

  /// Every limit holds at every point.
  [[nodiscard]] bool fits() const { return whole && refused.empty() && binding.use <= 1.0 + 1e-9; }
};

/// Tries choices. One for each thread.
class SizeBench {
 public:
  /// Of one task.
  explicit SizeBench(const SizeProblem& problem) : p_(problem), order_(problem.points.size()) {
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    prepare_bound();
  }

  /// Tries a choice at every point, or until it uses more than `give_up` of some limit.
  [[nodiscard]] SizeOutcome try_choice(const SizeChoice& choice, double give_up) {
    SizeOutcome out;
    if (bound_holds_ && least_use(choice) > give_up) {
      ++bounded_;
      out.binding.use = std::numeric_limits<double>::infinity();
      return out;
    }
    const Toolbar toolbar = toolbar_for(p_, choice);
    std::map<double, std::unique_ptr<Rig>> rigs;                                   // by slope
    std::map<std::pair<double, double>, std::unique_ptr<OperatingSolver>> drives;  // by slope and temperature
    for (std::size_t k = 0; k < order_.size(); ++k) {
      const std::size_t point = order_[k];
      try {
        std::unique_ptr<Rig>& rig = rigs[si(p_.points[point].side_slope)];
        if (!rig) rig = make_rig(toolbar, p_.points[point]);
        const double pressure = judge(*rig, point, out);
        if (toolbar.drive && out.binding.use <= give_up) {
          auto& drive = drives[{si(p_.points[point].side_slope), si(p_.points[point].temperature)}];
          if (!drive) drive = std::make_unique<OperatingSolver>(layout_at(toolbar, point));
          judge_drive(*drive, point, pressure, out);
        }
      } catch (const InputError& error) {
        out.refused = error.what();
        out.binding.use = std::numeric_limits<double>::infinity();
        return out;
      }
      if (out.binding.use > give_up) {
        // What stopped this choice will stop its neighbours too: ask there first.
        std::rotate(order_.begin(), order_.begin() + static_cast<std::ptrdiff_t>(k),
                    order_.begin() + static_cast<std::ptrdiff_t>(k) + 1);
        out.whole = k + 1 == order_.size();
        return out;
      }
    }
    out.whole = true;
    return out;
  }

  /// Networks solved.
  [[nodiscard]] std::size_t solves() const { return solves_; }
  /// Choices left out by a bound.
  [[nodiscard]] std::size_t bounded() const { return bounded_; }

 private:
  /// A toolbar on one slope, ready for every flow and liquid.
  struct Rig {
    Plumbing plumbing;
    std::unique_ptr<System> system;  ///< none where junction losses need outer rounds
    const LiquidState* liquid = nullptr;
  };

  [[nodiscard]] std::unique_ptr<Rig> make_rig(Toolbar toolbar, const WorkingPoint& at) const {
    auto rig = std::make_unique<Rig>();
    toolbar.side_slope = at.side_slope;
    rig->plumbing = build_network(toolbar, p_.layout.job);
    return rig;
  }

  [[nodiscard]] Layout layout_at(Toolbar toolbar, std::size_t point) const {
    Layout layout{.job = p_.layout.job};
    if (!p_.products.empty()) layout.job.liquid = p_.products[point];
    layout.job.temperature = p_.points[point].temperature;
    toolbar.side_slope = p_.points[point].side_slope;
    layout.plumbing = std::move(toolbar);
    return layout;
  }

  [[nodiscard]] Solution solved(Rig& rig, std::size_t point) {
    ++solves_;
    const LiquidState& liquid = p_.liquids[point];
    rig.plumbing.network.set_fed_flow(rig.plumbing.supply, from_si<Flow>(p_.flows[point]));
    if (!rig.plumbing.tees.empty()) return solve_plumbing(rig.plumbing, liquid);
    if (!rig.system) {
      rig.system = std::make_unique<System>(rig.plumbing.network, liquid);
    } else if (rig.liquid->temperature != liquid.temperature) {
      rig.system->set_numbers(liquid);
    }
    rig.liquid = &liquid;
    Solution s = rig.system->solve({}, Start::warm);
    return s.usable() ? s : rig.system->solve();
  }

  static void take(SizeOutcome& out, const SizeBinding& binding) {
    if (binding.use > out.binding.use) out.binding = binding;
  }

  /// How much of a limit is used up; its margin is a share of the limit, or of a range.
  [[nodiscard]] static double use_of(const Limit& l) {
    if (l.upper || l.name == "suction vacuum" || l.source == "range of the control") return 1.0 - l.margin;
    return l.margin > -1.0 ? 1.0 / (1.0 + l.margin) : std::numeric_limits<double>::infinity();
  }

  /// Adds the limits that judge does not count itself.
  void take_limits(const Limits& limits, std::size_t point, SizeOutcome& out) const {
    for (const Limit& l : limits) {
      if (l.kind == LimitKind::advised && !p_.choices.good_practice) continue;
      if (l.name == "evenness" || l.name == "least orifice drop" || l.name == "most orifice drop") continue;
      const double use = use_of(l);
      if (use <= out.binding.use) continue;
      out.binding = {SizeLimit::supply_line,
                     point,
                     0,
                     l.value,
                     l.limit,
                     use,
                     l.subject.empty() || l.subject == "pump" ? l.name : l.name + " of " + l.subject,
                     l.unit};
    }
  }

  /// Adds every limit from the tank to the gauge with the control at the setting that gives the rate.
  void judge_drive(OperatingSolver& drive, std::size_t point, double pressure, SizeOutcome& out) {
    ++solves_;
    const OperatingState state = drive.at(p_.points[point].rate, p_.points[point].speed);
    // What the drive cannot give counts by how far it is from what it can (judge): the end of a control has no measure.
    const auto& gives = p_.supply[point];
    constexpr double hair = 1.0 + 1e-9;
    if (!state.reached && (pressure > gives.high * hair || pressure * hair < gives.low)) return;
    take_limits(state.limits, point, out);
  }

  /// Adds what one point shows. @return pressure at the gauge [Pa]
  double judge(Rig& rig, std::size_t point, SizeOutcome& out) {
    const Solution s = solved(rig, point);
    if (!s.usable()) throw InputError("size", s.message, "a layout that can be solved");
    Job job = p_.layout.job;
    job.speed = p_.points[point].speed;
    job.rate = p_.points[point].rate;
    const Evenness e = evaluate(rig.plumbing, job, s, p_.liquids[point]);
    const double pressure = e.supply_pressure;
    const auto at_most = [&](SizeLimit limit, double value, double allowed, int row = 0) {
      if (allowed >= std::numeric_limits<double>::max()) return;
      const double use = allowed > 0.0 ? std::max(0.0, value) / allowed : std::numeric_limits<double>::infinity();
      take(out, {.limit = limit, .point = point, .row = row, .value = value, .allowed = allowed, .use = use});
    };
    const auto at_least = [&](SizeLimit limit, double value, double allowed, int row = 0) {
      if (!(allowed > 0.0)) return;
      const double use = value > 0.0 ? allowed / value : std::numeric_limits<double>::infinity();
      take(out, {.limit = limit, .point = point, .row = row, .value = value, .allowed = allowed, .use = use});
    };
    for (const RowResult& r : e.rows) {
      if (r.shut) continue;
      const double deviation = e.mean_rate > 0.0 ? r.deviation : -1.0;
      if (std::abs(deviation) > out.worst_deviation) {
        out.worst_deviation = std::abs(deviation);
        out.worst_point = point;
      }
      const bool dry = r.flow <= 0.0;
      take(out, {.limit = dry ? SizeLimit::row_dry : SizeLimit::evenness,
                 .point = point,
                 .row = r.row,
                 .value = deviation,
                 .allowed = e.tolerance,
                 .use = std::abs(deviation) / e.tolerance});
      // A row without flow has no drop to judge: that it is dry is what is wrong with it.
      if (dry || rig.plumbing.rows[static_cast<std::size_t>(r.row - 1)].orifices.empty()) continue;
      out.least_orifice_drop = std::min(out.least_orifice_drop, r.orifice_drop);
      out.most_orifice_drop = std::max(out.most_orifice_drop, r.orifice_drop);
      const Toolbar& t = p_.toolbar();
      if (t.orifice_least) at_least(SizeLimit::orifice_least, r.orifice_drop, si(*t.orifice_least), r.row);
      if (r.orifice_drop < metering_pressure)
        at_least(SizeLimit::metering, r.orifice_share, least_metering_share, r.row);
      if (t.orifice_most) at_most(SizeLimit::orifice_most, r.orifice_drop, si(*t.orifice_most), r.row);
    }
    out.worst_cv = std::max(out.worst_cv, e.cv);
    out.least_pressure = std::min(out.least_pressure, pressure);
    out.most_pressure = std::max(out.most_pressure, pressure);
    at_least(SizeLimit::least_pressure, pressure, si(p_.choices.least_pressure));
    at_most(SizeLimit::most_pressure, pressure, si(p_.choices.most_pressure));
    if (p_.layout.job.pump_limit) at_most(SizeLimit::pump, pressure, si(*p_.layout.job.pump_limit));
    at_most(SizeLimit::pump, pressure, p_.supply[point].high);
    at_least(SizeLimit::pump, pressure, p_.supply[point].low);
    if (p_.toolbar().hose_rating) at_most(SizeLimit::hose_rating, pressure, si(*p_.toolbar().hose_rating));
    if (p_.choices.good_practice && !p_.toolbar().drive) {
      take_limits(find_limits({.toolbar = &p_.toolbar(),
                               .job = job,
                               .liquid = p_.liquids[point],
                               .rows = rig.plumbing,
                               .rows_solution = s,
                               .evenness = e}),
                  point, out);
    }
    return pressure;
  }

  // --- A bound that costs nothing -----------------------------------------------------------------------------------
  // The rows share the wanted flow, so at least one of n open rows carries a share of 1/n or more, and its hose, check
  // valve and orifice lose at least what they lose at that share: their drops rise with the flow. Liquid runs from the
  // supply to that row's port, so the supply is at no less than the least of these. An outlet that drew air could feed
  // the port instead; the bound is used only where it lies above every outlet. Junctions can give pressure back: with
  // them no bound is used.

  void prepare_bound() {
    const Toolbar& t = p_.toolbar();
    bound_holds_ =
        std::none_of(t.manifolds.begin(), t.manifolds.end(), [](const auto& m) { return m.junction_losses; });
    const double hose_share = t.metering == MeteringPlace::manifold ? t.outlets_per_row : 1.0;
    for (std::size_t k = 0; k < p_.points.size(); ++k) {
      const LiquidState& liquid = p_.liquids[k];
      const double q = p_.flows[k] / p_.open_rows;
      std::vector<double> orifice, hose;
      for (const OrificeChoice& choice : p_.choices.orifices) {
        const Part part(build_detail::make_orifice(choice, "orifice"), "orifice");
        orifice.push_back(part.law(liquid)(q / t.outlets_per_row).dp);
      }
      for (const Length& bore : p_.choices.hose_bores) {
        const Part part(Hose{.length = from_si<Length>(1.0), .bore = bore, .roughness = t.hose_roughness}, "hose");
        hose.push_back(part.law(liquid)(q / hose_share).dp);
      }
      orifice_drop_.push_back(std::move(orifice));
      hose_drop_.push_back(std::move(hose));
    }
    for (const RowGroup& g : p_.groups) {
      for (const int row : g.rows) group_[row] = static_cast<std::size_t>(&g - p_.groups.data());
    }
    rows_ = build_detail::make_rows(t);
    for (const RowChange& change : t.row_changes) own_[change.row] = &change;
  }

  /// No less than this share of a pressure limit is used, whatever the solver would say.
  [[nodiscard]] double least_use(const SizeChoice& choice) const {
    const Toolbar& t = p_.toolbar();
    double use = 0.0;
    for (std::size_t k = 0; k < p_.points.size(); ++k) {
      const double weight = p_.liquids[k].density * standard_gravity;
      const double side = std::sin(si(p_.points[k].side_slope)), fore_aft = std::sin(si(t.fore_aft_slope));
      double least = std::numeric_limits<double>::infinity(), highest_air = -least;
      for (const build_detail::Row& row : rows_) {
        if (row.shut) continue;
        const double z = row.x * side - si(t.outlets_behind) * fore_aft + row.height - si(t.manifolds.front().height);
        const auto own = own_.find(row.number);
        const RowChange* change = own == own_.end() ? nullptr : own->second;
        double drop = 0.0;  // what a row has of its own is left out: the bound only gets lower
        if (change == nullptr || !change->orifice) drop += orifice_drop_[k][choice.orifices[group_.at(row.number)]];
        if (change == nullptr || !change->hose_bore) {
          drop +=
              hose_drop_[k][choice.hose_bore] * p_.plans[choice.plan].lengths[static_cast<std::size_t>(row.number - 1)];
        }
        if (t.check_valve && (change == nullptr || !change->crack)) drop += si(p_.choices.cracks[choice.crack]);
        least = std::min(least, weight * z + drop);
        highest_air = std::max(highest_air, weight * z);
      }
      if (!(least > highest_air)) continue;
      double most = std::min(si(p_.choices.most_pressure), p_.supply[k].high);
      if (p_.layout.job.pump_limit) most = std::min(most, si(*p_.layout.job.pump_limit));
      if (t.hose_rating) most = std::min(most, si(*t.hose_rating));
      if (most > 0.0) use = std::max(use, least / most);
    }
    return use;
  }

  const SizeProblem& p_;
  std::vector<std::size_t> order_;  // points, the one that stopped the last choice first
  std::size_t solves_ = 0, bounded_ = 0;
  bool bound_holds_ = false;
  std::vector<std::vector<double>> orifice_drop_, hose_drop_;  // by point, by choice [Pa], [Pa/m]
  std::map<int, std::size_t> group_;
  std::map<int, const RowChange*> own_;
  std::vector<build_detail::Row> rows_;
};

}  // namespace libflow
