// SPDX-License-Identifier: MIT
/// @file
/// A layout on which faults are tried, its total held or its setting kept.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/solve/control.hpp>
#include <libflow/study/faults.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

/// Solves a layout with a fault in it, again and again.
///
/// What is moved to hold the total, and what stays when it is not moved:
/// - a drive on a bar: its control; else
/// - fed places: their flow is given; kept, each is held at the pressure that it has without fault; else
/// - pumps of a free form: all turn faster or slower by one factor; else
/// - supplies held at a pressure: kept, they stay; moved, each gives the flow that it gives without fault; else
/// - tanks alone: nothing can be moved.
class FaultBench {
 public:
  /// A layout solved.
  struct Run {
    Plumbing plumbing;      ///< its network
    Solution solution;      ///< of the network
    Evenness evenness;      ///< of the rows
    double setting = 0;     ///< of the control, SI; as the control has it; 0 where it has none
    std::string message{};  ///< why the total could not be held; empty: it could, or was not asked for
  };

  /// @throws InputError, IllPosedError as main_job
  FaultBench(const Layout& layout, const WhatIfOptions& options)
      : layout_(layout), options_(options), liquid_(layout.job.liquid.at(layout.job.temperature)) {
    libflow::check(layout.job);
    options_.check();
    choose_way();
    find_base();
  }

  /// Without fault.
  [[nodiscard]] const Run& base() const { return base_; }
  /// At the job's temperature.
  [[nodiscard]] const LiquidState& liquid() const { return liquid_; }
  /// Total without fault [m3/s].
  [[nodiscard]] double base_total() const { return total_of(base_.plumbing, base_.solution); }
  /// What is moved to hold the total, e.g. "pump speed"; empty: nothing can be.
  [[nodiscard]] const std::string& moved() const { return moved_; }
  /// What stays where nothing is moved, e.g. "the supply's pressure stays".
  [[nodiscard]] const std::string& kept() const { return kept_; }
  /// True where the control has a setting of its own (Run::setting).
  [[nodiscard]] bool has_setting() const { return way_ == Way::drive || way_ == Way::pumps; }

  /// The layout with the fault and the setting that it had.
  [[nodiscard]] Run keep_setting(const FaultCase& fault) const {
    Run run;
    run.setting = base_.setting;
    run.plumbing = broken(fault, base_.setting, way_ == Way::fed ? hold_pressures_ : PlumbingEdit{});
    return solved(std::move(run), liquid_of(fault), job_of(fault));
  }

  /// The layout with the fault and the control moved until the total is what it was without fault.
  [[nodiscard]] Run hold_total(const FaultCase& fault) const {
    if (way_ == Way::fed || way_ == Way::held) {
      Run run;
      run.plumbing = broken(fault, 0.0, way_ == Way::held ? give_flows_ : PlumbingEdit{});
      return solved(std::move(run), liquid_of(fault), job_of(fault));
    }
    if (way_ == Way::none) throw InputError("what if", "nothing can be moved to hold the total", "a pump or a control");
    return move_until(
        base_total(), [&](double setting) { return broken(fault, setting, {}); }, liquid_of(fault), job_of(fault));
  }

 private:
  enum class Way { drive, fed, pumps, held, none };

  [[nodiscard]] const Toolbar* bar() const { return std::get_if<Toolbar>(&layout_.plumbing); }

  void choose_way() {
    const Toolbar* toolbar = bar();
    if (toolbar != nullptr && toolbar->drive && !layout_.job.pressure) {
      way_ = Way::drive;
      moved_ = name_of(toolbar->drive->control);
      kept_ = fmt::format("the {} stays", moved_);
      range_ = setting_range(*toolbar->drive);
      falling_ = toolbar->drive->control == DriveControl::bypass;
      return;
    }
    const Plumbing plumbing = build(0.0, layout_.job);
    bool fed = false, held = false;
    for (Network::PlaceIndex i = 0; i < plumbing.network.place_count(); ++i) {
      const PlaceKind kind = plumbing.network.place(i).kind;
      fed = fed || kind == PlaceKind::fed;
      held = held || (kind == PlaceKind::supply && !is_tank(plumbing, i));
    }
    if (fed || (held && !faults_detail::any_pump(plumbing))) {
      way_ = fed ? Way::fed : Way::held;
      moved_ = "the supply's flow";
      kept_ = "the supply's pressure stays";
    } else if (faults_detail::any_pump(plumbing)) {
      way_ = Way::pumps;
      moved_ = "pump speed";
      kept_ = "the pump's speed stays";
      range_ = {0.2, options_.pump_reach};
    } else {
      way_ = Way::none;
      kept_ = "the tank's level stays";
    }
  }

  void find_base() {
    const Toolbar* toolbar = bar();
    if (way_ == Way::drive && !toolbar->drive->setting) {
      const double wanted = wanted_flow(build(range_.high, layout_.job), layout_.job);
      base_ = move_until(
          wanted, [&](double setting) { return build(setting, layout_.job); }, liquid_, layout_.job);
    } else {
      base_.setting = way_ == Way::drive ? *toolbar->drive->setting : way_ == Way::pumps ? 1.0 : 0.0;
      base_.plumbing = build(base_.setting, layout_.job);
      base_ = solved(std::move(base_), liquid_, layout_.job);
    }
    const Network& n = base_.plumbing.network;
    for (Network::PlaceIndex i = 0; i < n.place_count(); ++i) {
      const PlaceKind kind = n.place(i).kind;
      if (kind == PlaceKind::fed) hold_pressures_.held.emplace_back(i, base_.solution.places[i].total_pressure);
      if (kind == PlaceKind::supply && way_ == Way::held && !is_tank(base_.plumbing, i)) {
        double out = 0.0;
        for (Network::PartIndex part = 0; part < n.part_count(); ++part) {
          if (n.from(part) == i) out += base_.solution.parts[part].flow;
          if (n.to(part) == i) out -= base_.solution.parts[part].flow;
        }
        if (out >= 0.0) give_flows_.fed.emplace_back(i, out);  // one that takes liquid in stays held
      }
    }
  }

  static bool is_tank(const Plumbing& p, Network::PlaceIndex i) {
    return std::any_of(p.tanks.begin(), p.tanks.end(), [&](const PlumbedTank& t) { return t.place == i; });
  }

  /// Without fault, the control at a setting.
  [[nodiscard]] Plumbing build(double setting, const Job& job) const {
    if (const Toolbar* toolbar = bar()) {
      if (way_ != Way::drive) return build_network(*toolbar, job);
      Toolbar at = *toolbar;
      at.drive->setting = setting;
      return build_network(at, job);
    }
    const Plumbing& plumbing = std::get<Plumbing>(layout_.plumbing);
    if (way_ != Way::pumps || setting == 1.0) return plumbing;
    PlumbingEdit turned;
    for (Network::PartIndex i = 0; i < plumbing.network.part_count(); ++i) {
      const PlacedPart& placed = plumbing.network.part(i);
      const auto exchange = [&](auto pump) { turned.exchanged.emplace_back(i, Part(std::move(pump), placed.id)); };
      if (const auto* centrifugal = placed.part.as<CentrifugalPump>()) {
        CentrifugalPump pump = *centrifugal;
        pump.speed *= setting;
        exchange(pump);
      } else if (const auto* curve = placed.part.as<PumpCurve>()) {
        PumpCurve pump = *curve;
        pump.speed *= setting;
        exchange(pump);
      } else if (const auto* positive = placed.part.as<PositivePump>()) {
        PositivePump pump = *positive;
        pump.rpm *= setting;
        exchange(pump);
      } else if (const auto* ground = placed.part.as<GroundDrivenPump>()) {
        GroundDrivenPump pump = *ground;
        pump.displacement = setting * ground->displacement;
        exchange(pump);
      }
    }
    return edited(plumbing, turned);
  }

  [[nodiscard]] Job job_of(const FaultCase& fault) const {
    Job job = layout_.job;
    if (fault.temperature) job.temperature = *fault.temperature;
    return job;
  }
  [[nodiscard]] LiquidState liquid_of(const FaultCase& fault) const {
    return fault.temperature ? layout_.job.liquid.at(*fault.temperature) : liquid_;
  }

  /// With the fault, at a setting. A tank's own pressure follows the liquid's density.
  [[nodiscard]] Plumbing broken(const FaultCase& fault, double setting, const PlumbingEdit& supplies) const {
    const Plumbing sound = build(setting, job_of(fault));
    PlumbingEdit edit = fault.edit(sound);
    edit.held.insert(edit.held.end(), supplies.held.begin(), supplies.held.end());
    edit.fed.insert(edit.fed.end(), supplies.fed.begin(), supplies.fed.end());
    if (fault.temperature && way_ != Way::drive) {
      const LiquidState cold = liquid_of(fault);
      for (const PlumbedTank& t : sound.tanks) {
        edit.held.emplace_back(t.place, si(t.tank.outlet_pressure(from_si<Length>(t.level), cold, "tank")));
      }
    }
    return edited(sound, edit);
  }

  static double total_of(const Plumbing& p, const Solution& s) {
    double sum = 0.0;
    for (const RowPlumbing& row : p.rows) {
      for (std::size_t k = 0; k < row.last_parts.size(); ++k) {
        const auto last = row.last_parts[k];
        sum += p.network.to(last) == row.airs[k] ? s.parts[last].flow : -s.parts[last].flow;
      }
    }
    return sum;
  }

  [[nodiscard]] static Run solved(Run run, const LiquidState& liquid, const Job& job) {
    run.solution = solve_plumbing(run.plumbing, liquid);
    return judged(std::move(run), liquid, job);
  }
  [[nodiscard]] static Run judged(Run run, const LiquidState& liquid, const Job& job) {
    if (!run.solution.usable()) throw IllPosedError(run.solution.message);
    run.evenness = evaluate(run.plumbing, job, run.solution, liquid);
    return run;
  }

  template <class Build>
  [[nodiscard]] Run move_until(double wanted, Build build_at, const LiquidState& liquid, const Job& job) const {
    const auto setting_at = [&](double x) { return falling_ ? range_.low + range_.high - x : x; };
    Run run;
    Control control{.setting = moved_, .unit = {}, .limits = range_, .solve_at = {}, .total = {}, .wanted = wanted};
    control.solve_at = [&](double x) {
      run.plumbing = build_at(setting_at(x));
      return solve_plumbing(run.plumbing, liquid);
    };
    control.total = [&](const Solution& s) { return s.usable() ? total_of(run.plumbing, s) : 0.0; };
    ControlledSolution reached = reach_total(control);
    run.setting = setting_at(reached.setting);
    run.solution = std::move(reached.solution);
    if (!reached.reached) {
      run.message =
          fmt::format("{} is at its limit: {:.3g} % {} than wanted", moved_,
                      100.0 * std::abs(reached.total / wanted - 1.0), reached.total < wanted ? "less" : "more");
    }
    return judged(std::move(run), liquid, job);
  }

  Layout layout_;
  WhatIfOptions options_;
  LiquidState liquid_;
  Way way_ = Way::none;
  std::string moved_{}, kept_{};
  Range range_{};
  bool falling_ = false;
  Run base_{};
  PlumbingEdit hold_pressures_{}, give_flows_{};
};

}  // namespace libflow
