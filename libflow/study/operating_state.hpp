// SPDX-License-Identifier: MIT
/// @file
/// Finds the control's setting for a rate: the rows are solved once with the wanted total, then the drive alone is
/// brought to the pressure that they need at the gauge. Fast enough for maps of many operating points.
///
/// Rows and drive meet in one place only, the gauge, so the split is exact: same total, same pressure.
#pragma once

#include <cmath>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include <boost/math/tools/toms748_solve.hpp>

#include <libflow/core/error.hpp>
#include <libflow/solve/system.hpp>
#include <libflow/study/limits.hpp>
#include <libflow/study/operating_control.hpp>
#include <libflow/study/pressure_limit.hpp>
#include <libflow/toolbar.hpp>
#include <libflow/toolbar/drive_network.hpp>

namespace libflow {

/// A toolbar at one rate and speed, in parts. SI.
struct OperatingState {
  bool solved = false;           ///< the rows have an answer at the wanted total
  bool reached = false;          ///< the control can give the wanted total
  double wanted = 0;             ///< total [m3/s]
  double gauge = 0;              ///< total pressure that the rows need at the gauge [Pa]
  double setting = 0;            ///< of the control, or the end of its range that comes nearest
  std::string stop;              ///< where not reached: the limit that stops it; "" where reached
  Solution rows;                 ///< of the rows' network
  Evenness evenness;             ///< at the wanted total
  std::optional<PumpDuty> duty;  ///< of the pump; empty: there is none
  Limits limits;                 ///< least margin first; where not reached only what stops it
};

/// Range of a layout's control, SI: of its drive, or of the supply's pressure (up to its limit, pressure_limit.hpp).
[[nodiscard]] Range control_range(const Layout& layout);

namespace operating_detail {

/// A drive alone, a flow drawn at its gauge or a pressure held there.
class DriveBench {
 public:
  DriveBench(const Toolbar& toolbar, const Job& job, const LiquidState& liquid, Length gauge_elevation)
      : drive_(*toolbar.drive), liquid_(liquid), gauge_z_(gauge_elevation) {
    ground_ = {.side = std::sin(si(toolbar.side_slope)),
               .fore_aft = std::sin(si(toolbar.fore_aft_slope)),
               .speed = job.speed,
               .roughness = toolbar.hose_roughness};
  }
  void set_speed(Speed speed) { ground_.speed = speed; }

  struct Run {
    Plumbing plumbing;
    Solution solution;
    [[nodiscard]] double gauge() const { return solution.places[plumbing.supply].total_pressure; }
  };
  /// With `flow` drawn at the gauge [m3/s]; a regulator is wide open.
  [[nodiscard]] Run drawn(double setting, double flow) const {
    Run run;
    run.plumbing.supply = run.plumbing.network.add_drawn("gauge", from_si<Flow>(flow), gauge_z_);
    return finished(std::move(run), setting);
  }
  /// Flow that reaches a gauge held at `pressure` [m3/s]; a regulator is wide open.
  [[nodiscard]] double flow_against(double setting, double pressure) const {
    Run run;
    run.plumbing.supply = run.plumbing.network.add_supply("gauge", from_si<Pressure>(pressure), gauge_z_);
    run = finished(std::move(run), setting);
    double flow = 0.0;
    for (std::size_t i = 0; i < run.plumbing.network.part_count(); ++i) {
      if (run.plumbing.network.to(i) == run.plumbing.supply) flow += run.solution.parts[i].flow;
    }
    return flow;
  }
  [[nodiscard]] const Drive& drive() const { return drive_; }

 private:
  [[nodiscard]] Run finished(Run run, double setting) const {
    Drive drive = drive_;
    drive.setting = setting;
    add_drive(run.plumbing, drive, liquid_, ground_, run.plumbing.supply);
    run.solution = solve(run.plumbing.network, liquid_);
    if (!run.solution.usable()) throw Error("drive: " + run.solution.message);
    return run;
  }

  const Drive& drive_;
  const LiquidState& liquid_;
  DriveGround ground_;
  Length gauge_z_;
};

PumpDuty pump_duty(const Plumbing& p, const Solution& s, const Drive& drive, const LiquidState& liquid);

/// A control's own range as two limits.
Limits control_limits(const std::string& name, double setting, Range range, const std::string& unit);

void sort_by_margin(Limits& limits);

}  // namespace operating_detail

/// Solves one layout at one operating point after another. Neither job.pressure nor a held setting counts: the control
/// is free.
class OperatingSolver {
 public:
  /// @param control  of a free-form layout: the part or supply that is moved (operating_control.hpp); empty: the total
  ///                 is fed at the supply
  /// @throws InputError for a layout that cannot be; a free-form one that names no control and whose supply is not fed;
  ///         a control named for a [toolbar], whose drive has it
  explicit OperatingSolver(const Layout& layout, std::string_view control = {}) : layout_(layout) {
    Job& job = layout_.job;
    job.pressure.reset();
    check(job);
    liquid_ = job.liquid.at(job.temperature);
    if (auto* toolbar = std::get_if<Toolbar>(&layout_.plumbing)) {
      if (!control.empty()) {
        throw InputError("control", "is named for a layout with a [toolbar]", "control in [drive]");
      }
      if (toolbar->drive) {
        toolbar->drive->setting.reset();
        check(*toolbar->drive);
      }
      plumbing_ = build_network(*toolbar, job);
      if (toolbar->drive) {
        const double z = plumbing_.network.place(plumbing_.supply).elevation;
        bench_.emplace(*toolbar, job, liquid_, from_si<Length>(z));
      }
    } else {
      plumbing_ = std::get<Plumbing>(layout_.plumbing);
      if (!control.empty()) {
        if (plumbing_.network.place(plumbing_.supply).kind == PlaceKind::fed) {
          throw InputError("control", "is named, but the supply is fed by a given flow whatever the control does",
                           "no control, or a supply that is a tank or is held at a pressure");
        }
        control_.emplace(plumbing_control(plumbing_, control, most_of_supply(control)));
        return;
      }
      if (plumbing_.network.place(plumbing_.supply).kind != PlaceKind::fed) {
        throw InputError("supply", "is not fed by a given flow, so it cannot be brought to a total rate",
                         "a fed supply, a part named as the control (--control), or a [toolbar] with a drive");
      }
      feed_wanted_flow(plumbing_, plumbing_.supply, job);
    }
    system_ = std::make_unique<System>(plumbing_.network, liquid_);
  }
  OperatingSolver(const OperatingSolver&) = delete;
  OperatingSolver& operator=(const OperatingSolver&) = delete;

  /// At the job's temperature.
  [[nodiscard]] const LiquidState& liquid() const { return liquid_; }
  /// The rows' network.
  [[nodiscard]] const Plumbing& plumbing() const { return plumbing_; }

  /// How much more than `total` the drive could send against this gauge pressure, over `total` [-].
  [[nodiscard]] double reserve(double gauge, double total) const {
    return bench_->flow_against(most_delivering(), gauge) / total - 1.0;
  }

  /// The state at a rate and speed.
  [[nodiscard]] OperatingState at(AreaRate rate, Speed speed) {
    OperatingState state;
    Job& job = layout_.job;
    const Speed before = job.speed;
    job.rate = rate;
    job.speed = speed;
    check(job);
    turn_ground_driven_pumps(plumbing_.network, before, speed);
    if (control_) return at_control(job);
    feed_wanted_flow(plumbing_, plumbing_.supply, job);
    state.wanted = wanted_flow(plumbing_, job);
    state.rows = needs_corrections(plumbing_) ? solve_plumbing(plumbing_, liquid_) : system_->solve({}, Start::warm);
    if (!state.rows.usable()) {
      state.stop = "no answer";
      return state;
    }
    state.solved = true;
    state.evenness = evaluate(plumbing_, job, state.rows, liquid_);
    state.gauge = state.evenness.supply_pressure;
    const auto* toolbar = std::get_if<Toolbar>(&layout_.plumbing);
    LimitView view{.toolbar = toolbar,
                   .job = job,
                   .liquid = liquid_,
                   .rows = plumbing_,
                   .rows_solution = state.rows,
                   .evenness = state.evenness};
    if (!bench_) {
      const auto limit = pressure_limit(layout_);
      state.reached = !limit || state.gauge <= limit->most;
      state.setting = state.reached ? state.gauge : limit->most;
      state.limits = find_limits(view);
      operating_detail::sort_by_margin(state.limits);
      if (!state.reached) state.stop = (limit->assumed ? "assumed " : "") + pressure_limit_name(false);
      return state;
    }
    bench_->set_speed(speed);
    const std::optional<operating_detail::DriveBench::Run> run = find_setting(state);
    if (!run) {
      Limit stop{.name = state.stop,
                 .subject = {},
                 .value = state.setting,
                 .limit = state.setting,
                 .unit = is_pressure(bench_->drive().control) ? "Pa" : "1",
                 .upper = state.stop.starts_with("most"),
                 .margin = -1.0,
                 .kind = LimitKind::stops,
                 .source = "the drive"};
      state.limits = {std::move(stop)};
      return state;
    }
    state.reached = true;
    const Drive drive = with_setting(bench_->drive(), state.setting);
    PumpDuty duty = operating_detail::pump_duty(run->plumbing, run->solution, drive, liquid_);
    duty.reserve = reserve(state.gauge, state.wanted);
    state.duty = duty;
    view.drive = &drive;
    view.drive_plumbing = &run->plumbing;
    view.drive_solution = &run->solution;
    view.duty = &duty;
    state.limits = find_limits(view);
    for (Limit& l : operating_detail::control_limits(std::string(name_of(drive.control)), state.setting,
                                                     setting_range(drive), is_pressure(drive.control) ? "Pa" : "1")) {
      state.limits.push_back(std::move(l));
    }
    operating_detail::sort_by_margin(state.limits);
    return state;
  }

  /// The control of a free form, where one is named.
  [[nodiscard]] const std::optional<PlumbingControl>& control() const { return control_; }

 private:
  using Run = operating_detail::DriveBench::Run;

  /// Of a free form's supply that is the control: what is stated, else assumed, but never less than the layout holds.
  [[nodiscard]] double most_of_supply(std::string_view id) const {
    if (layout_.job.pump_limit) return si(*layout_.job.pump_limit);
    double most = assumed_pressure_limit;
    for (Network::PlaceIndex i = 0; i < plumbing_.network.place_count(); ++i) {
      if (plumbing_.network.place(i).id == id) most = std::fmax(most, plumbing_.network.place(i).pressure);
    }
    return most;
  }

  /// A free form with the control at the setting that gives the wanted total.
  [[nodiscard]] OperatingState at_control(const Job& job);

  /// The end of the range at which most reaches the rows.
  [[nodiscard]] double most_delivering() const {
    const Range range = setting_range(bench_->drive());
    return bench_->drive().control == DriveControl::bypass ? range.low : range.high;
  }

  /// Fills state.setting, and state.stop where there is none. @return the drive at it
  std::optional<Run> find_setting(OperatingState& state) const {
    const Drive& drive = bench_->drive();
    const Range range = setting_range(drive);
    const bool falls = drive.control == DriveControl::bypass;  // more setting, less to the rows
    const std::string name(name_of(drive.control));
    const double most = most_delivering(), least = falls ? range.high : range.low;
    Run run = bench_->drawn(most, state.wanted);
    const double excess = run.gauge() - state.gauge;
    if (excess < 0.0) {
      state.setting = most;
      state.stop = drive.control == DriveControl::regulator ? "pump and lines" : (falls ? "least " : "most ") + name;
      return std::nullopt;
    }
    if (drive.control == DriveControl::regulator) {
      // What a regulator throttles away changes nothing ahead of it.
      const double behind = run.solution.places[run.plumbing.network.to(*run.plumbing.drive->regulator)].total_pressure;
      state.setting = behind - excess;
      if (range.contains(state.setting)) return run;
      state.stop = (state.setting < range.low ? "least " : "most ") + name;
      state.setting = std::clamp(state.setting, range.low, range.high);
      return std::nullopt;
    }
    Run low = bench_->drawn(least, state.wanted);
    const double shortfall = low.gauge() - state.gauge;
    if (shortfall > 0.0) {
      state.setting = least;
      state.stop = (falls ? "most " : "least ") + name;
      return std::nullopt;
    }
    if (excess == 0.0 || shortfall == 0.0) {
      state.setting = excess == 0.0 ? most : least;
      return excess == 0.0 ? std::move(run) : std::move(low);
    }
    std::uintmax_t steps = 200;
    const auto miss = [&](double setting) { return bench_->drawn(setting, state.wanted).gauge() - state.gauge; };
    const auto bracket = boost::math::tools::toms748_solve(miss, range.low, range.high, falls ? excess : shortfall,
                                                           falls ? shortfall : excess,
                                                           boost::math::tools::eps_tolerance<double>(46), steps);
    state.setting = 0.5 * (bracket.first + bracket.second);
    return bench_->drawn(state.setting, state.wanted);
  }

  Layout layout_;
  LiquidState liquid_;
  Plumbing plumbing_;
  std::optional<operating_detail::DriveBench> bench_;
  std::optional<PlumbingControl> control_;
  std::unique_ptr<System> system_;
};

}  // namespace libflow
