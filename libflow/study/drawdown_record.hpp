// SPDX-License-Identifier: MIT
/// @file
/// What is noted while a drawdown runs: samples, events, totals.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/drawdown_plant.hpp>
#include <libflow/study/drawdown_result.hpp>

namespace libflow::drawdown_detail {

using State = std::vector<double>;  // volumes; spilled, elsewhere; delivered by row

/// The state of a fill and what is written down of it.
class FillRecord {
 protected:
  FillRecord(Plant& plant, Drawdown& out, const Progress& progress) : plant_(plant), out_(out), progress_(progress) {}

  [[nodiscard]] std::size_t tanks() const { return plant_.plumbing().tanks.size(); }
  [[nodiscard]] const Tank& tank(std::size_t k) const { return plant_.plumbing().tanks[k].tank; }

  /// Tanks, pace and wanted flow at the beginning. @throws InputError where no tank holds usable liquid
  void begin_record() {
    const Plumbing& p = plant_.plumbing();
    out_.delivered.assign(p.rows.size(), 0.0);
    state_.assign(tanks() + 2 + p.rows.size(), 0.0);
    for (std::size_t k = 0; k < tanks(); ++k) {
      const PlumbedTank& t = p.tanks[k];
      DrawdownTank info;
      info.id = p.network.place(t.place).id;
      info.capacity = si(t.tank.capacity());
      info.start = out_.options.from_full ? info.capacity : si(t.tank.volume(from_si<Length>(t.level)));
      info.unusable = si(t.tank.volume(t.tank.lowest_level));
      state_[k] = info.start;
      usable_ += std::max(0.0, info.start - info.unusable);
      out_.tanks.push_back(info);
    }
    if (!(usable_ > 0.0)) {
      throw InputError("drawdown", "no tank holds liquid above its lowest level", "at least one tank with liquid");
    }
    double pace = 0.0;  // area per time [m2/s]
    for (const RowPlumbing& row : p.rows) {
      if (!row.shut) pace += row.width * row_speed(out_.job, row.x);
    }
    pace_ = pace;
    wanted_ = wanted_flow(p, out_.job);
  }

  /// Levels of a state; volumes that a step tried beyond a tank's limits count as at the limit.
  [[nodiscard]] std::vector<double> levels(const State& y) const {
    std::vector<double> level(tanks());
    for (std::size_t k = 0; k < tanks(); ++k) {
      const double v = std::clamp(y[k], out_.tanks[k].unusable, out_.tanks[k].capacity);
      level[k] = std::clamp(si(tank(k).level(from_si<Volume>(v))), si(tank(k).lowest_level), si(tank(k).height()));
    }
    return level;
  }

  [[nodiscard]] double left(const State& y) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < tanks(); ++k) sum += std::max(0.0, y[k] - out_.tanks[k].unusable);
    return sum / usable_;
  }
  void add_event(DrawdownEventKind kind, double time, std::string subject) {
    out_.events.push_back({kind, time, pace_ * time, std::move(subject)});
  }
  void sample(double time, const State& y) {
    const std::vector<double> level = levels(y);
    const Solution s = plant_.solve(level);
    const Evenness e = evaluate(plant_.plumbing(), out_.job, s, plant_.liquid());
    DrawdownSample one;
    one.time = time;
    one.area = pace_ * time;
    one.share_left = left(y);
    one.volume.assign(y.begin(), y.begin() + static_cast<std::ptrdiff_t>(tanks()));
    one.level = level;
    for (const double v : one.volume) one.mass += v * plant_.liquid().density;
    one.supply_pressure = e.supply_pressure;
    if (plant_.plumbing().drive) one.pump_inlet = s.places[plant_.plumbing().drive->pump_inlet].total_pressure;
    one.total_flow = e.total_flow;
    one.mean_rate = e.mean_rate;
    one.setting = plant_.setting();
    one.cv = e.cv;
    one.even = e.even;
    for (const RowResult& r : e.rows) {
      if (r.shut || (one.worst_row != 0 && std::abs(r.deviation) <= std::abs(one.worst))) continue;
      one.worst = r.deviation;
      one.worst_row = r.row;
    }
    if (!out_.samples.empty() && out_.samples.back().time == time) out_.samples.pop_back();
    out_.samples.push_back(std::move(one));
    for (const Caution& c : e.cautions) {
      const bool known = std::any_of(out_.cautions.begin(), out_.cautions.end(),
                                     [&](const Caution& k) { return k.code == c.code && k.subject == c.subject; });
      if (!known) out_.cautions.push_back(c);
    }
  }

  void stop(DrawdownEnd end) {
    out_.end = end;
    out_.complete = end == DrawdownEnd::all_empty || end == DrawdownEnd::flow_faded;
    over_ = true;
  }

  void finish() {
    out_.time = now_;
    out_.area = pace_ * now_;
    if (!out_.first_empty) {
      out_.air_time = out_.time;
      out_.air_area = out_.area;
    }
    for (std::size_t k = 0; k < tanks(); ++k) out_.tanks[k].end = state_[k];
    out_.spilled = state_[tanks()];
    out_.elsewhere = state_[tanks() + 1];
    for (std::size_t r = 0; r < out_.delivered.size(); ++r) out_.delivered[r] = state_[tanks() + 2 + r];
    bool first = true;
    for (const DrawdownSample& s : out_.samples) {
      out_.lowest_rate = first ? s.mean_rate : std::min(out_.lowest_rate, s.mean_rate);
      out_.highest_rate = first ? s.mean_rate : std::max(out_.highest_rate, s.mean_rate);
      out_.highest_cv = std::max(out_.highest_cv, s.cv);
      first = false;
    }
    if (out_.complete) (void)go_on(progress_, out_.options.samples, out_.options.samples);
  }

  Plant& plant_;
  Drawdown& out_;
  const Progress& progress_;
  State state_;
  double usable_ = 0, pace_ = 0, wanted_ = 0, now_ = 0;
  std::size_t next_ = 1;  // sample to come
  bool over_ = false;
};

}  // namespace libflow::drawdown_detail
