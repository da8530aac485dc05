// SPDX-License-Identifier: MIT
/// @file
/// The integration of a drawdown in time, with its events.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

// Boost 1.74: the steppers use it and do not include it.
#include <boost/numeric/odeint/util/unwrap_reference.hpp>

#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint/stepper/dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

#include <libflow/study/drawdown_record.hpp>

namespace libflow {

namespace drawdown_detail {

double net_out(const Network& n, const Solution& s, Network::PlaceIndex place);

class Fill : private FillRecord {
 public:
  Fill(Plant& plant, Drawdown& out, const Progress& progress) : FillRecord(plant, out, progress) {}

  void run() {
    begin();
    if (!go_on(progress_, 0, out_.options.samples)) stop(DrawdownEnd::stopped);
    while (!over_) advance();
    finish();
  }

 private:
  using Stepper =
      boost::numeric::odeint::result_of::make_dense_output<boost::numeric::odeint::runge_kutta_dopri5<State>>::type;

  void begin() {
    begin_record();
    for (std::size_t k = 0; k < tanks(); ++k) {
      if (out_.tanks[k].start <= out_.tanks[k].unusable) empty_now(k, 0.0);
    }
    if (over_) return;
    sample(0.0, state_);
    note_full(state_);
    State slope;
    derivative(state_, slope);
    for (std::size_t k = 0; k < tanks(); ++k) {
      const bool full = state_[k] >= out_.tanks[k].capacity;
      if (full && slope[k] == 0.0 && slope[tanks()] > 0.0) {
        add_event(DrawdownEventKind::overflow_begins, 0.0, out_.tanks[k].id);
      }
    }
    restart(0.0);
  }

  /// Which tanks stand at the brim as a stride begins. Within a stride a tank that comes to it rises on: a kink there
  /// would put the moment off that is looked for.
  void note_full(const State& y) {
    full_.assign(tanks(), false);
    for (std::size_t k = 0; k < tanks(); ++k) full_[k] = y[k] >= out_.tanks[k].capacity;
  }

  void derivative(const State& y, State& dydt) {
    const Solution s = plant_.solve(levels(y));
    const Plumbing& p = plant_.plumbing();
    const Network& n = p.network;
    dydt.assign(y.size(), 0.0);
    double out = 0.0;
    for (std::size_t k = 0; k < tanks(); ++k) {
      const double net = plant_.empty()[k] ? 0.0 : net_out(n, s, p.tanks[k].place);
      const bool brim = full_[k] && y[k] >= out_.tanks[k].capacity && net < 0.0;
      dydt[k] = brim ? 0.0 : -net;
      if (brim) dydt[tanks()] -= net;
      out += net;
    }
    for (std::size_t r = 0; r < p.rows.size(); ++r) {
      const double q = p.rows[r].shut ? 0.0 : row_flow(n, s, p.rows[r]);
      dydt[tanks() + 2 + r] = q;
      out -= q;
    }
    dydt[tanks() + 1] = out;
  }

  /// Which one-way parts are shut.
  [[nodiscard]] std::vector<bool> shut_valves(const State& y) {
    const Solution s = plant_.solve(levels(y));
    std::vector<bool> shut;
    for (const PartResult& part : s.parts) shut.push_back(part.valve == ValveState::closed);
    return shut;
  }
  [[nodiscard]] double rows_flow(const State& y) {
    const Solution s = plant_.solve(levels(y));
    double sum = 0.0;
    for (const RowPlumbing& row : plant_.plumbing().rows) {
      if (!row.shut) sum += row_flow(plant_.plumbing().network, s, row);
    }
    return sum;
  }

  /// @param valves  which are shut from here on; empty: as the state has it
  void restart(double time, std::vector<bool> valves = {}) {
    shut_ = valves.empty() ? shut_valves(state_) : std::move(valves);
    note_full(state_);
    State slope;
    derivative(state_, slope);
    double fastest = 0.0;
    for (std::size_t k = 0; k < tanks(); ++k) fastest = std::max(fastest, std::abs(slope[k]));
    if (rows_flow(state_) <= out_.options.least_flow * wanted_) {
      stop(DrawdownEnd::flow_faded);
      return;
    }
    if (!(fastest > 0.0)) {  // something else feeds the rows, and the tanks rest: so it stays
      now_ = si(out_.options.longest);
      for (std::size_t i = 0; i < state_.size(); ++i) state_[i] += slope[i] * (now_ - time);
      sample(now_, state_);
      stop(DrawdownEnd::time_limit);
      return;
    }
    const double tolerance = out_.options.tolerance;
    stepper_ = std::make_unique<Stepper>(boost::numeric::odeint::make_dense_output(
        tolerance * usable_, tolerance, boost::numeric::odeint::runge_kutta_dopri5<State>()));
    stepper_->initialize(state_, time, 1e-3 * usable_ / fastest);
  }

  [[nodiscard]] State at(double time) {
    State y(state_.size());
    stepper_->calc_state(time, y);
    return y;
  }
  /// Where `f` of the state goes from above zero at `from` to not above zero at `to`; the first time behind it.
  template <class F>
  double root(double from, double to, const F& f) {
    const auto g = [&](double t) { return f(at(t)); };
    const double a = g(from), b = g(to);
    if (!(a > 0.0)) return from;
    std::uintmax_t steps = 100;
    return boost::math::tools::toms748_solve(g, from, to, a, b, boost::math::tools::eps_tolerance<double>(46), steps)
        .second;
  }

  /// The state `dt` after the beginning of the step, by one step of fifth order: the dense output is of fourth.
  [[nodiscard]] State stepped(const State& start, double time, double dt) {
    boost::numeric::odeint::runge_kutta_dopri5<State> step;
    State y(start.size());
    step.do_step([this](const State& x, State& dxdt, double) { derivative(x, dxdt); }, start, time, y, dt);
    return y;
  }
  /// The time of an event near `guess` where `f` of the state is zero, and the state there, by secants over such steps.
  template <class F>
  double polished(double from, double guess, const F& f) {
    const State start = at(from);
    const double scale = 1e-13 * usable_;
    double t0 = guess, t1 = from + (guess - from) * (1.0 - 1e-6);
    state_ = stepped(start, from, t0 - from);
    double f0 = f(state_);
    double f1 = f(stepped(start, from, t1 - from));
    for (int i = 0; i < 8 && std::abs(f0) > scale && f0 != f1; ++i) {
      const double next = t0 - f0 * (t0 - t1) / (f0 - f1);
      if (!(next > from)) break;
      t1 = t0;
      f1 = f0;
      t0 = next;
      state_ = stepped(start, from, t0 - from);
      f0 = f(state_);
    }
    return t0;
  }

  void advance() {
    note_full(stepper_->current_state());
    const auto [from, to] = stepper_->do_step([this](const State& y, State& dydt, double) { derivative(y, dydt); });
    const double longest = si(out_.options.longest);
    double end = std::min(to, longest);
    std::optional<std::size_t> emptied, brimmed;
    bool faded = false;
    std::vector<bool> flipped;  // which valves are shut from here on, where that has changed
    for (std::size_t k = 0; k < tanks(); ++k) {
      const double low = out_.tanks[k].unusable;
      if (!plant_.empty()[k] && at(end)[k] <= low) {
        end = root(from, end, [&](const State& y) { return y[k] - low; });
        emptied = k;
        brimmed.reset();
      } else if (at(from)[k] < out_.tanks[k].capacity && at(end)[k] >= out_.tanks[k].capacity) {
        end = root(from, end, [&](const State& y) { return out_.tanks[k].capacity - y[k]; });
        brimmed = k;
        emptied.reset();
      }
    }
    const double least = out_.options.least_flow * wanted_;
    if (rows_flow(at(end)) <= least) {
      end = root(from, end, [&](const State& y) { return rows_flow(y) - least; });
      faded = true;
      emptied.reset();
      brimmed.reset();
    }
    if (std::vector<bool> now = shut_valves(at(end)); now != shut_) {
      double open = from;  // halved: a valve's state is yes or no
      // Which valves have flipped is taken here: in the state that is worked out anew below a valve stands so near to
      // its edge that it may be shut or open by rounding, and the change would be lost.
      flipped = std::move(now);
      for (int i = 0; i < 60 && end - open > 1e-12 * (1.0 + end); ++i) {
        const double middle = 0.5 * (open + end);
        std::vector<bool> there = shut_valves(at(middle));
        if (there == shut_) {
          open = middle;
        } else {
          end = middle;
          flipped = std::move(there);
        }
      }
      // Both at one moment happens: a tank's end shuts the valves behind it. Then the tank comes first, with a restart.
      if (emptied && at(end)[*emptied] > out_.tanks[*emptied].unusable * (1.0 + 1e-12) + 1e-12 * usable_) {
        emptied.reset();
      }
      if (brimmed && at(end)[*brimmed] < out_.tanks[*brimmed].capacity * (1.0 - 1e-12)) brimmed.reset();
      faded = faded && rows_flow(at(end)) <= least;
    }
    sample_between(from, end);
    if (over_) return;
    if (emptied) {
      end = polished(from, end, [&](const State& y) { return y[*emptied] - out_.tanks[*emptied].unusable; });
    } else if (brimmed) {
      end = polished(from, end, [&](const State& y) { return y[*brimmed] - out_.tanks[*brimmed].capacity; });
    } else {
      state_ = end < to ? stepped(at(from), from, end - from) : at(end);
    }
    const bool event = emptied || brimmed || faded || !flipped.empty();
    note_valves(flipped, end);
    if (emptied) empty_now(*emptied, end);
    if (brimmed) {
      state_[tanks()] += state_[*brimmed] - out_.tanks[*brimmed].capacity;  // the last drop goes over the brim
      state_[*brimmed] = out_.tanks[*brimmed].capacity;
      add_event(DrawdownEventKind::overflow_begins, end, out_.tanks[*brimmed].id);
    }
    now_ = end;
    if (faded) {
      sample(end, state_);
      return stop(DrawdownEnd::flow_faded);
    }
    if (over_) return;
    if (end >= longest) {
      sample(end, state_);
      return stop(DrawdownEnd::time_limit);
    }
    if (out_.events.size() > 2000) return stop(DrawdownEnd::too_many_events);
    // A tank's end changes the plumbing, and with it what its valves do.
    if (event) go_on_behind(end, emptied ? std::vector<bool>() : std::move(flipped));
  }

  /// Behind an event. Where the tanks that are left cannot feed the rows, that is the end.
  void go_on_behind(double time, std::vector<bool> valves) {
    try {
      sample(time, state_);
      restart(time, std::move(valves));
    } catch (const IllPosedError& error) {
      if (!out_.first_empty) throw;
      rest_not_fed(error);
    }
  }
  void rest_not_fed(const IllPosedError& error) {
    out_.cautions.push_back({"rest-not-fed", "tanks",
                             std::string("with the empty tank shut the others do not feed the rows: ") + error.what()});
    stop(DrawdownEnd::flow_faded);
  }

  void sample_between(double from, double end) {
    while (next_ < out_.options.samples) {
      const double share = 1.0 - static_cast<double>(next_) / static_cast<double>(out_.options.samples);
      if (left(at(end)) > share) return;
      const double time = root(from, end, [&](const State& y) { return left(y) - share; });
      sample(time, at(time));
      ++next_;
      if (!go_on(progress_, next_ - 1, out_.options.samples)) {
        state_ = at(time);
        now_ = time;
        return stop(DrawdownEnd::stopped);
      }
    }
  }

  void note_valves(const std::vector<bool>& now, double time) {
    for (std::size_t i = 0; i < now.size() && i < shut_.size(); ++i) {
      if (now[i] == shut_[i]) continue;
      add_event(now[i] ? DrawdownEventKind::valve_shut : DrawdownEventKind::valve_open, time,
                plant_.plumbing().network.part(i).id);
    }
  }
  void empty_now(std::size_t k, double time) {
    if (time > 0.0) {
      state_[k] = out_.tanks[k].unusable;
      sample(time, state_);
    }
    add_event(DrawdownEventKind::tank_empty, time, out_.tanks[k].id);
    out_.tanks[k].empty_time = time;
    if (!out_.first_empty) {
      out_.first_empty = k;
      out_.air_time = time;
      out_.air_area = pace_ * time;
    }
    now_ = time;
    const bool all = std::all_of(out_.tanks.begin(), out_.tanks.end(),
                                 [](const DrawdownTank& t) { return t.empty_time.has_value(); });
    if (all) return stop(DrawdownEnd::all_empty);
    try {
      plant_.shut(k);
    } catch (const IllPosedError& error) {
      rest_not_fed(error);
    }
  }

  std::unique_ptr<Stepper> stepper_;
  std::vector<bool> shut_, full_;
};

}  // namespace drawdown_detail
}  // namespace libflow
