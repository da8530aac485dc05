// SPDX-License-Identifier: MIT
/// @file
/// The plumbing of a drawdown: solved again and again while its tanks empty.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <memory>
#include <utility>
#include <vector>

#include <boost/math/tools/toms748_solve.hpp>

#include <libflow/toolbar.hpp>

namespace libflow::drawdown_detail {

/// The plumbing with the outlets of some tanks shut against air: such a tank gives what flows into it and no more.
/// Every place and part keeps its index.
Plumbing with_empty(const Plumbing& plumbing, const std::vector<bool>& empty);

/// Puts a level into each tank that is not empty.
void set_levels(Plumbing& plumbing, const std::vector<double>& level, const std::vector<bool>& empty,
                const LiquidState& liquid);

/// What a row gets [m3/s].
double row_flow(const Network& n, const Solution& s, const RowPlumbing& row);

/// Answers one question: with these levels, and these tanks empty, what flows?
class Plant {
 public:
  Plant(Plumbing plumbing, LiquidState liquid) : whole_(std::move(plumbing)), liquid_(std::move(liquid)) {
    empty_.assign(whole_.tanks.size(), false);
    rebuild();
  }
  virtual ~Plant() = default;
  Plant(const Plant&) = delete;
  Plant& operator=(const Plant&) = delete;

  [[nodiscard]] const Plumbing& plumbing() const { return *now_; }
  [[nodiscard]] const LiquidState& liquid() const { return liquid_; }
  [[nodiscard]] const std::vector<bool>& empty() const { return empty_; }
  /// [SI] of the control, where there is one that moves.
  [[nodiscard]] virtual double setting() const { return std::numeric_limits<double>::quiet_NaN(); }

  virtual void shut(std::size_t tank) {
    empty_[tank] = true;
    rebuild();
  }
  /// @throws IllPosedError where the solver finds no answer
  virtual Solution solve(const std::vector<double>& level) { return solve_as_it_is(level); }

 protected:
  Solution solve_as_it_is(const std::vector<double>& level) {
    set_levels(*now_, level, empty_, liquid_);
    Solution s = system_ ? system_->solve({}, Start::warm) : solve_plumbing(*now_, liquid_);
    if (!s.usable()) throw IllPosedError(s.message);
    return s;
  }
  void rebuild() {
    system_.reset();
    now_ = std::make_unique<Plumbing>(with_empty(whole_, empty_));
    if (!needs_corrections(*now_)) system_ = std::make_unique<System>(now_->network, liquid_);
  }
  void replace(Plumbing plumbing) {
    whole_ = std::move(plumbing);
    rebuild();
  }

 private:
  Plumbing whole_;  // with every tank
  LiquidState liquid_;
  std::vector<bool> empty_;
  std::unique_ptr<Plumbing> now_;
  std::unique_ptr<System> system_;  // refers to *now_
};

/// A toolbar whose drive is moved so that the rows get the wanted total at every moment; at the end of the control's
/// range it stays there.
class RatePlant final : public Plant {
 public:
  RatePlant(Toolbar toolbar, Job job, LiquidState liquid)
      : Plant(built(toolbar, job, setting_range(*toolbar.drive).high), std::move(liquid)),
        toolbar_(std::move(toolbar)),
        job_(std::move(job)),
        range_(setting_range(*toolbar_.drive)),
        setting_(range_.high) {
    wanted_ = wanted_flow(plumbing(), job_);
  }
  [[nodiscard]] double setting() const override { return setting_; }

  Solution solve(const std::vector<double>& level) override {
    if (level == level_) return last_;
    level_ = level;
    const double enough = 1e-10 * wanted_;
    double x = setting_, e = excess(x);
    // Levels change little from call to call: secants from the last setting, with the last slope, mostly take two.
    for (int i = 0; i < 12 && std::abs(e) > enough; ++i) {
      const double step = slope_ > 0.0 ? -e / slope_ : (e > 0.0 ? -1e-3 : 1e-3) * (range_.high - range_.low);
      const double next = std::clamp(x + step, range_.low, range_.high);
      if (next == x) return last_;  // the end of its range: the wanted total is out of reach
      const double there = excess(next);
      const double slope = (there - e) / (next - x);
      if (slope > 0.0) slope_ = slope;
      x = next;
      e = there;
    }
    if (std::abs(e) > enough) bracketed();
    return last_;
  }
  void shut(std::size_t tank) override {
    level_.clear();
    Plant::shut(tank);
  }

 private:
  static Plumbing built(const Toolbar& toolbar, const Job& job, double setting) {
    Toolbar at = toolbar;
    at.drive->setting = setting;
    return build_network(at, job);
  }
  Solution solved_at(double setting, const std::vector<double>& level) {
    replace(built(toolbar_, job_, setting));
    return solve_as_it_is(level);
  }
  /// Flow less what is wanted, + where the control has to be taken back; leaves the solution in `last_`.
  double excess(double setting) {
    setting_ = setting;
    last_ = solved_at(setting, level_);
    double sum = 0.0;
    for (const RowPlumbing& row : plumbing().rows) sum += row.shut ? 0.0 : row_flow(plumbing().network, last_, row);
    // More bypass, less flow.
    return (toolbar_.drive->control == DriveControl::bypass ? -1.0 : 1.0) * (sum - wanted_);
  }
  /// The same over the whole range, where the secants wander: a valve that opens makes a kink.
  void bracketed() {
    const double at_low = excess(range_.low);
    if (at_low >= 0.0) return;
    const double at_high = excess(range_.high);
    if (at_high <= 0.0) return;
    std::uintmax_t steps = 100;
    const auto bracket =
        boost::math::tools::toms748_solve([this](double x) { return excess(x); }, range_.low, range_.high, at_low,
                                          at_high, boost::math::tools::eps_tolerance<double>(44), steps);
    (void)excess(0.5 * (bracket.first + bracket.second));
  }

  Toolbar toolbar_;
  Job job_;
  Range range_;
  double setting_, slope_ = 0, wanted_ = 0;  // slope of the flow against the setting; 0: not known
  std::vector<double> level_;                // of `last_`; empty: none
  Solution last_;
};

}  // namespace libflow::drawdown_detail
