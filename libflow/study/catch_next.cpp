// SPDX-License-Identifier: MIT
#include <libflow/study/catch_next.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include <libflow/study/catch_model.hpp>

namespace libflow {

namespace catch_detail {

/// Exchanges a kind of part between two rows.
static Layout with_parts_swapped(Layout layout, NextMeasurement::Kind kind, int a, int b) {
  using Ask = NextMeasurement::Kind;
  if (kind == Ask::swap_hoses) return with_cause(std::move(layout), {CatchCauseKind::hoses_swapped, a, b, 0, 1.0});
  Toolbar& bar = bar_of(layout);
  const auto rows = build_detail::make_rows(bar);
  for (const auto& [to, from] : {std::pair(a, b), std::pair(b, a)}) {
    RowChange& change = change_of(bar, to);
    if (kind == Ask::swap_orifices) change.orifice = row_of(rows, from).orifice;
    if (kind == Ask::swap_valves) change.crack = from_si<Pressure>(crack_of(row_of(rows, from)));
  }
  return layout;
}

/// A gauge's reading: total pressure at the end of a row's hose, or at its port.
static std::optional<double> pressure_at(const Layout& layout, int row, bool at_port) {
  const LiquidState liquid = layout.job.liquid.at(layout.job.temperature);
  const Plumbing plumbing = build_network(std::get<Toolbar>(layout.plumbing), layout.job);
  const Solution solution = solve_plumbing(plumbing, liquid);
  if (!solution.usable()) return std::nullopt;
  const RowPlumbing& r = plumbing.rows.at(static_cast<std::size_t>(row - 1));
  if (r.hoses.empty()) return std::nullopt;
  const auto place = at_port ? plumbing.network.from(r.hoses.front()) : plumbing.network.to(r.hoses.front());
  return solution.places[place].total_pressure;
}

/// Looks at measurements one by one and keeps the best.
class NextSearch {
 public:
  NextSearch(const CatchModel& model, std::vector<Layout> suspects, std::vector<double> weights, double error)
      : model_(model), suspects_(std::move(suspects)), weights_(std::move(weights)), error_(error) {}

  /// @param layouts  the suspects as they are in the measurement; @param cups  standard error of a cup
  void cups(NextMeasurement m, const std::vector<Layout>& layouts) {
    std::vector<std::vector<double>> logs, flows;
    for (const Layout& l : layouts) {
      try {
        flows.push_back(row_flows(l));
      } catch (const InputError&) {
        return;
      }
      if (flows.back().empty()) return;
      double mean = 0.0;
      for (const double q : flows.back()) mean += q / static_cast<double>(flows.back().size());
      if (!(mean > 0.0)) return;
      logs.emplace_back();
      for (const double q : flows.back()) logs.back().push_back(std::log(std::max(q, 0.02 * mean)));
      // Rows are compared with each other: the level says little.
      std::vector<double> sorted = logs.back();
      std::nth_element(sorted.begin(), sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2), sorted.end());
      const double level = sorted[sorted.size() / 2];
      for (double& x : logs.back()) x -= level;
    }
    std::size_t show = 0;
    double widest = -1.0;
    for (std::size_t i = 0; i < model_.rows().size(); ++i) {
      double low = logs[0][i], high = logs[0][i];
      for (const auto& l : logs) {
        low = std::min(low, l[i]);
        high = std::max(high, l[i]);
      }
      // The row in question is shown unless another is clearly better.
      const double width = (high - low) * (model_.rows()[i] == m.row ? 1.5 : 1.0);
      if (width > widest) {
        widest = width;
        show = i;
      }
    }
    m.row = model_.rows()[show];
    for (const auto& f : flows) m.predicted.push_back(f[show]);
    rate(m, [&](std::size_t a, std::size_t b) {
      double squares = 0.0;
      for (std::size_t i = 0; i < logs[a].size(); ++i) squares += std::pow(logs[a][i] - logs[b][i], 2);
      return std::sqrt(squares) / (error_ / std::sqrt(3.0));  // three cups, as before
    });
  }
  void gauge(NextMeasurement m, bool at_port) {
    for (const Layout& l : suspects_) {
      const auto p = pressure_at(l, m.row, at_port);
      if (!p) return;
      m.predicted.push_back(*p);
    }
    const double error = model_.setup().gauge_error * m.pressure;
    rate(m, [&](std::size_t a, std::size_t b) { return std::abs(m.predicted[a] - m.predicted[b]) / error; });
  }
  [[nodiscard]] const std::vector<Layout>& suspects() const { return suspects_; }
  [[nodiscard]] const std::optional<NextMeasurement>& best() const { return best_; }

 private:
  /// Two normal predictions d standard errors apart are told apart with probability erf(d / (2 sqrt 2)): one less twice
  /// the chance that the reading falls nearer to the wrong one.
  template <class Distance>
  void rate(NextMeasurement& m, const Distance& distance) {
    double sum = 0.0, weight = 0.0, apart = 0.0;
    for (std::size_t a = 0; a < suspects_.size(); ++a) {
      for (std::size_t b = a + 1; b < suspects_.size(); ++b) {
        const double d = distance(a, b), w = weights_[a] * weights_[b];
        sum += w * std::erf(d / std::sqrt(8.0));
        apart += w * d;
        weight += w;
      }
    }
    if (!(weight > 0.0)) return;
    m.resolved = sum / weight;
    m.apart = apart / weight;
    if (!best_ || m.resolved > best_->resolved + 0.02) best_ = m;
  }

  const CatchModel& model_;
  std::vector<Layout> suspects_;
  std::vector<double> weights_;
  double error_;
  std::optional<NextMeasurement> best_;
};

}  // namespace catch_detail

std::optional<NextMeasurement> next_measurement(const CatchModel& model, const std::vector<LikelyCause>& likely,
                                                double error) {
  using namespace catch_detail;
  using Ask = NextMeasurement::Kind;
  const CatchCondition& first = model.conditions().front();
  std::vector<Layout> suspects;
  std::vector<double> weights;
  for (const LikelyCause& l : likely) {
    std::vector<CatchCause> all = l.others;
    all.push_back(l.cause);
    suspects.push_back(with_causes(first.layout, all));
    weights.push_back(std::max(l.probability, 0.02));
  }
  NextSearch search(model, std::move(suspects), std::move(weights), error);
  const int row = likely.front().cause.row;
  const auto changed = [&](const auto& change) {
    std::vector<Layout> out;
    for (const Layout& l : search.suspects()) out.push_back(change(l));
    return out;
  };
  const Toolbar& bar = std::get<Toolbar>(first.layout.plumbing);
  double most = 1.5 * first.pressure;
  if (first.layout.job.pump_limit) most = std::min(most, si(*first.layout.job.pump_limit));
  if (bar.hose_rating) most = std::min(most, si(*bar.hose_rating));
  for (const double factor : {0.5, 0.7, 1.5}) {
    const double p = std::min(first.pressure * factor, most);
    if (factor > 1.0 && p < 1.15 * first.pressure) continue;
    if (std::any_of(model.conditions().begin(), model.conditions().end(),
                    [&](const CatchCondition& c) { return !c.water && std::abs(std::log(p / c.pressure)) < 0.1; }))
      continue;
    search.cups({.kind = Ask::pressure, .row = row, .pressure = p}, changed([&](Layout l) {
                  l.job.pressure = from_si<Pressure>(p * si(*l.job.pressure) / first.pressure);
                  return l;
                }));
  }
  const bool wet = std::any_of(model.conditions().begin(), model.conditions().end(),
                               [](const CatchCondition& c) { return c.water; });
  if (!wet && model.layout().job.liquid.id() != "water") {
    search.cups({.kind = Ask::water, .row = row, .pressure = first.pressure}, changed([&](Layout l) {
                  l.job.liquid = find_liquid("water");
                  l.job.temperature = model.setup().water_temperature;
                  return l;
                }));
  }
  if (row > 0) {
    const auto& rows = model.rows();
    const auto at = std::find(rows.begin(), rows.end(), row);
    const int other = at + 1 != rows.end() ? *(at + 1) : *(at - 1);
    const auto swap = [&](Ask kind) {
      search.cups({.kind = kind, .row = row, .other = other, .pressure = first.pressure},
                  changed([&](Layout l) { return with_parts_swapped(std::move(l), kind, row, other); }));
    };
    if (bar.orifice) swap(Ask::swap_orifices);
    if (bar.check_valve) swap(Ask::swap_valves);
    if (bar.metering == MeteringPlace::outlet) {
      search.gauge({.kind = Ask::gauge_at_row, .row = row, .pressure = first.pressure}, false);
    }
    swap(Ask::swap_hoses);
  }
  for (const int end : {model.rows().front(), model.rows().back()}) {
    search.gauge({.kind = Ask::gauge_at_bar_end, .row = end, .pressure = first.pressure}, true);
  }
  if (!search.best() || search.best()->resolved < 0.5) return std::nullopt;
  return search.best();
}

}  // namespace libflow
