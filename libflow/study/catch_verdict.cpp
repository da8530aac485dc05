// SPDX-License-Identifier: MIT
#include <libflow/study/catch_verdict.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <fmt/core.h>

#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_readings.hpp>
#include <libflow/study/catch_screen.hpp>
#include <libflow/study/catch_statistics.hpp>
#include <libflow/toolbar/uniformity.hpp>
#include <libflow/units/text.hpp>

namespace libflow {

namespace catch_detail {

/// The layout as it was caught: with water or product, at the gauge's reading where there is one.
static Answer answer_as_caught(const Layout& layout, const CatchReadings& readings, const CatchSetup& setup) {
  Answer product = main_job(layout);
  if (!product.solution.usable()) throw IllPosedError(product.solution.message);
  Layout as = product.layout;
  bool same = true;
  if (readings.water) as = with_water(product, setup, same);
  if (readings.gauge) {
    auto* bar = std::get_if<Toolbar>(&as.plumbing);
    if (bar == nullptr) {
      throw InputError("gauge", "a free-form layout is solved at its own supply", "no gauge reading, or a plain bar");
    }
    require_in("gauge", si(*readings.gauge), layout_limits::pressure, "Pa");
    bar->drive.reset();
    as.job.pressure = *readings.gauge;
  }
  Answer answer = readings.water || readings.gauge ? main_job(std::move(as)) : std::move(product);
  if (!answer.solution.usable()) throw IllPosedError(answer.solution.message);
  return answer;
}

/// Refuses a gauge reading at which rows give nothing, and says from where on they do.
static void check_gauge(const Answer& caught, const Layout& layout, const CatchReadings& readings) {
  const auto nothing = [](const Answer& a) {
    return std::any_of(a.evenness.rows.begin(), a.evenness.rows.end(),
                       [](const RowResult& r) { return !r.shut && r.flow <= no_flow; });
  };
  if (!readings.gauge || !nothing(caught)) return;
  const double own = main_job(layout).evenness.supply_pressure;
  Layout at = caught.layout;
  const auto opens = [&](double pressure) {
    at.job.pressure = from_si<Pressure>(pressure);
    const Answer a = main_job(at);
    return a.solution.usable() && !nothing(a);
  };
  double low = si(*readings.gauge), high = own;
  const UnitSystem u = layout.units;
  std::string about;
  if (high > low && opens(high)) {
    for (int k = 0; k < 8; ++k) {
      const double half = 0.5 * (low + high);
      (opens(half) ? high : low) = half;
    }
    about = fmt::format(" (about {})", format(from_si<Pressure>(high), u));
  }
  const double ten = 10.0 * si(*readings.gauge);
  const bool slipped = std::abs(std::log(ten / own)) < std::log(2.0);
  const std::string question = slipped ? fmt::format("; did you mean {}?", format(from_si<Pressure>(ten), u)) : "";
  throw InputError("gauge", fmt::format("{} is below what opens every row{}", format(*readings.gauge, u), about),
                   "a pressure at which every open row delivers" + question);
}

/// Readings by row.
static std::map<int, std::vector<double>> by_row(const CatchReadings& readings, const Evenness& e) {
  std::map<int, std::vector<double>> rows;
  for (const CatchReading& r : readings.readings) {
    const std::string where = r.where.empty() ? fmt::format("row {}", r.row) : r.where;
    const auto found = std::find_if(e.rows.begin(), e.rows.end(), [&](const RowResult& x) { return x.row == r.row; });
    if (found == e.rows.end()) {
      throw InputError(where, fmt::format("there is no row {}", r.row), fmt::format("1 to {}", e.rows.size()));
    }
    if (found->shut) throw InputError(where, fmt::format("row {} is valved off in the layout", r.row), "an open row");
    require_in(where + ", volume", r.volume, {0.0, 1.0}, "m3");
    rows[r.row].push_back(r.volume);
  }
  return rows;
}

/// Against what the layout gives.
static CatchScreen screen_readings(const CatchReadings& readings, const Answer& answer) {
  const Evenness& e = answer.evenness;
  std::map<int, double> expected;
  for (const RowResult& r : e.rows) {
    if (!r.shut && r.flow > no_flow) expected[r.row] = r.flow;
  }
  Layout at = answer.layout;
  auto* bar = std::get_if<Toolbar>(&at.plumbing);
  if (bar == nullptr) return screen_catch(readings, expected);
  bar->drive.reset();
  at.job.pressure = from_si<Pressure>(e.supply_pressure);
  return screen_catch(readings, expected, [&](int row) { return share_without_orifice(at, row); });
}

/// The file that readings name as theirs ("folder/cups.csv:3:1"), without its folder, line and column.
static std::string source_of(const CatchReadings& readings) {
  if (readings.readings.empty()) return {};
  std::string where = readings.readings.front().where;
  bool numbered = false;
  for (std::size_t mark = where.rfind(':'); mark != std::string::npos && mark > 0; mark = where.rfind(':')) {
    if (mark + 1 == where.size() || where.find_first_not_of("0123456789", mark + 1) != std::string::npos) break;
    where.resize(mark);
    numbered = true;
  }
  if (!numbered) return {};
  const std::size_t folder = where.rfind('/');
  return folder == std::string::npos ? where : where.substr(folder + 1);
}

}  // namespace catch_detail

CatchVerdict judge_catch(const Layout& layout, const CatchReadings& readings, const CatchSetup& setup) {
  using namespace catch_detail;
  setup.power.check();
  require_in("catch test, time", si(readings.time), {1.0, 3600.0}, "s");
  require_in("catch test, reading error", readings.reading_error, {1e-6, 0.5}, "");
  CatchVerdict v;
  v.answer = answer_as_caught(layout, readings, setup);
  check_gauge(v.answer, layout, readings);
  v.time = readings.time;
  v.water = readings.water;
  v.gauge = readings.gauge;
  v.source = source_of(readings);
  v.confidence = setup.power.confidence;
  v.tolerance = v.answer.evenness.tolerance;
  const double time = si(readings.time);
  const auto all_rows = by_row(readings, v.answer.evenness);
  if (all_rows.size() < 2)
    throw InputError("catch test", fmt::format("rows that were read: {}", all_rows.size()), "two rows or more");
  CatchScreen screen = screen_readings(readings, v.answer);
  const auto rows = by_row(screen.kept, v.answer.evenness);
  v.doubts = std::move(screen.doubts);
  v.doubts_set_aside = screen.set_aside;
  v.rows_set_aside = std::move(screen.rows);

  std::vector<double> rates, means, layout_flows, all_rates;
  std::vector<int> repeats;
  std::vector<std::vector<double>> groups;
  for (const RowResult& r : v.answer.evenness.rows) {
    if (r.shut) continue;
    RowCatch c{.row = r.row};
    c.expected = r.flow * time;
    const auto read = all_rows.find(r.row);
    if (read == all_rows.end()) {
      v.missing.push_back(r.row);
      v.rows.push_back(c);
      continue;
    }
    c.cups = static_cast<int>(read->second.size());
    double whole = 0.0;
    for (const double x : read->second) whole += x / c.cups;
    v.mean_of_all += whole / static_cast<double>(all_rows.size());
    all_rates.push_back(whole / (time * r.width * r.speed));
    const auto found = rows.find(r.row);
    if (found == rows.end()) {
      c.mark = CatchMark::set_aside;
      c.mean = whole;
      c.rate = all_rates.back();
      c.low = c.high = c.outside_probability = c.against_layout = c.against_layout_error = NAN;
      v.rows.push_back(c);
      continue;
    }
    c.repeats = static_cast<int>(found->second.size());
    for (const double x : found->second) c.mean += x / c.repeats;
    c.rate = c.mean / (time * r.width * r.speed);
    rates.push_back(c.rate);
    means.push_back(c.mean);
    repeats.push_back(c.repeats);
    layout_flows.push_back(r.flow);
    groups.push_back(found->second);
    v.rows.push_back(c);
  }
  const double n = static_cast<double>(means.size());
  for (const double m : means) v.mean += m / n;
  for (const double r : rates) v.total_rate += r / n;
  if (!(v.mean > 0.0)) throw InputError("catch test", "every cup is empty", "at least one reading above zero");
  v.cv = coefficient_of_variation(rates);
  for (const double r : all_rates) v.total_rate_of_all += r / static_cast<double>(all_rates.size());
  v.cv_of_all = coefficient_of_variation(all_rates);

  // One reading's error as a share of it: pooled over rows, each against its own mean.
  double squares = 0.0, dof = 0.0;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (!(means[i] > 0.0)) continue;
    for (const double x : groups[i]) squares += (x / means[i] - 1.0) * (x / means[i] - 1.0);
    dof += repeats[i] - 1;
  }
  // A handful of repeats says little of the error: what was given then counts as eight more, as in catch_data.
  constexpr double given_counts = 8.0;
  v.error_from_repeats = dof >= given_counts && squares > 0.0;
  if (v.error_from_repeats) {
    v.reading_error = std::sqrt(squares / dof);
  } else {
    const double given = readings.reading_error;
    v.reading_error = std::sqrt((given_counts * given * given + squares) / (given_counts + dof));
    dof = dof > 0.0 ? dof + given_counts : 1e6;
  }
  if (v.error_from_repeats) {
    for (std::size_t i = 0; i < groups.size(); ++i) {
      for (double& x : groups[i]) x *= rates[i] / (means[i] > 0.0 ? means[i] * v.total_rate : 1.0);
    }
    v.spread_p = analysis_of_variance(groups).p;
  } else {
    std::vector<double> relative;
    for (const double r : rates) relative.push_back(r / v.total_rate);
    v.spread_p = spread_by_error_alone(relative, repeats, v.reading_error);
  }
  v.spread_is_real = v.spread_p < 1.0 - v.confidence;
  double one_over_repeats = 0.0;
  for (const int r : repeats) one_over_repeats += 1.0 / r;
  v.cv_beyond_error = std::sqrt(std::fmax(0.0, v.cv * v.cv - v.reading_error * v.reading_error * one_over_repeats / n));

  const boost::math::students_t t(dof);
  const double wide = quantile(t, 0.5 + 0.5 * v.confidence);
  double layout_total = 0.0;
  for (const double q : layout_flows) layout_total += q;
  double layout_rate = 0.0;
  for (RowCatch& c : v.rows) {
    if (c.cups == 0) continue;
    c.deviation = c.rate / v.total_rate - 1.0;
    if (c.repeats == 0) continue;
    const double own = 1.0 / c.repeats;
    const double error =
        v.reading_error * std::sqrt((1.0 - 1.0 / n) * (1.0 - 1.0 / n) * own + (one_over_repeats - own) / (n * n));
    c.low = c.deviation - wide * error;
    c.high = c.deviation + wide * error;
    c.outside_probability =
        1.0 - (cdf(t, (v.tolerance - c.deviation) / error) - cdf(t, (-v.tolerance - c.deviation) / error));
    // With a tolerance far below the reading error either side is beyond it: which one, the interval must say as well.
    const bool one_side = c.low > 0.0 || c.high < 0.0;
    c.mark = c.outside_probability >= v.confidence         ? (one_side ? CatchMark::outside : CatchMark::unproved)
             : c.outside_probability <= 1.0 - v.confidence ? CatchMark::inside
                                                           : CatchMark::unproved;
    if (std::abs(c.deviation) > v.tolerance) v.outside.push_back(c.row);
    const double share = c.mean / (v.mean * n), wanted = layout_total > 0.0 ? c.expected / (layout_total * time) : 0.0;
    c.against_layout = wanted > 0.0 ? share / wanted - 1.0 : 0.0;
    c.against_layout_error = error;
  }
  for (const RowResult& r : v.answer.evenness.rows) {
    if (!r.shut && rows.contains(r.row)) layout_rate += r.rate / n;
  }
  v.expected_rate = layout_rate;
  std::vector<double> volumes;
  for (const RowResult& r : v.answer.evenness.rows) {
    const auto cup = std::find_if(v.rows.begin(), v.rows.end(), [&](const RowCatch& c) { return c.row == r.row; });
    volumes.push_back(cup == v.rows.end() || cup->repeats == 0 ? -1.0 : cup->mean);
  }
  v.level = catch_level(layout, v.answer, volumes, v.reading_error * std::sqrt(one_over_repeats / n), readings, setup);
  v.even = v.outside.empty() && v.missing.empty() && v.rows_set_aside.empty();
  v.proved =
      v.missing.empty() && v.rows_set_aside.empty() &&
      std::none_of(v.rows.begin(), v.rows.end(), [](const RowCatch& c) { return c.mark == CatchMark::unproved; });
  return v;
}

}  // namespace libflow
