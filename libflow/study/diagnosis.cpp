// SPDX-License-Identifier: MIT
#include <libflow/study/diagnosis.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include <boost/math/distributions/chi_squared.hpp>

#include <libflow/study/catch_fit.hpp>
#include <libflow/study/catch_level.hpp>
#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_screen.hpp>
#include <libflow/study/catch_search.hpp>

namespace libflow {

namespace catch_detail {

/// Supply pressures at which the layout as it is gives what was caught, where no gauge was read; else as they are.
static std::vector<double> pressures_of_level(const CatchModel& model, const std::vector<CatchReadings>& catches) {
  const CatchData data = catch_data(model, catches);
  std::vector<double> out;
  for (std::size_t s = 0; s < catches.size(); ++s) {
    const CatchCondition& c = model.conditions()[s];
    double off = 0.0, slope = 0.0, count = 0.0;
    std::vector<double> gaps;
    for (std::size_t i = 0; i < model.rows().size(); ++i) {
      const int k = model.cell(s, i);
      if (data.repeats[static_cast<std::size_t>(k)] == 0) continue;
      gaps.push_back(data.log_flow[k] - model.base()[k]);
      slope += model.by_pressure()[k];
      count += 1.0;
    }
    std::nth_element(gaps.begin(), gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() / 2), gaps.end());
    off = gaps[gaps.size() / 2];
    const double change = c.gauge || !(slope > 0.0) ? 0.0 : std::clamp(off / (slope / count), -1.5, 1.5);
    out.push_back(c.pressure * std::exp(change));
  }
  return out;
}

/// Volumes with a slip of units or of a decimal point put right, where no gauge was read and so the level says nothing:
/// otherwise a pressure would be taken for it at which the rows share otherwise.
static void put_slip_right(const std::map<int, double>& expected, CatchReadings& readings) {
  if (readings.gauge) return;
  std::vector<double> gaps;
  for (const CatchReading& r : readings.readings) {
    const auto found = expected.find(r.row);
    if (found == expected.end() || !(found->second > 0.0) || !(r.volume > 0.0)) continue;
    gaps.push_back(std::log(r.volume / (found->second * si(readings.time))));
  }
  if (gaps.empty()) return;
  const auto middle = gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() / 2);
  std::nth_element(gaps.begin(), middle, gaps.end());
  const std::optional<LevelSlip> slip = slip_of(std::expm1(*middle));
  if (!slip) return;
  for (CatchReading& r : readings.readings) r.volume *= *middle > 0.0 ? 1.0 / slip->factor : slip->factor;
}

}  // namespace catch_detail

Diagnosis CatchDiagnoser::diagnose(const std::vector<CatchReadings>& catches, bool measure) {
  const CatchData data = catch_data(model_, catches);
  CatchFit fit(model_, data);
  Diagnosis d;
  d.reading_error = data.error;
  d.error_from_repeats = data.error_from_repeats;
  d.threshold = threshold(data);
  catch_detail::CauseSearch search{model_, fit, data.log_flow - model_.base(), {}};
  d.chi2_before = fit.chi2(search.residual);
  d.spread_before = spread(fit, data, search.residual);
  std::vector<double> gains;
  while (static_cast<int>(search.causes.size()) < model_.setup().most_causes) {
    const Eigen::VectorXd rest = search.rest();
    const double now = fit.chi2(rest);
    const std::optional<CatchFit::Best> next = search.strongest(rest);
    if (!next || now - next->chi2 < d.threshold) break;
    search.causes.push_back(next->cause);
    gains.push_back(now - next->chi2);
    search.refine();
    search.exchange();
    // A row that no part explains would be chased by causes elsewhere: first it must be cleared up.
    if (std::any_of(search.causes.begin(), search.causes.end(), [&](const CatchCause& c) {
          const auto k = static_cast<std::size_t>(&c - search.causes.data());
          const Eigen::VectorXd without = search.rest(k);
          return c.of_row() &&
                 search.score(fit.best(c, without)) > score_of_unnamed(search, k, without) + 2.0 * std::log(100.0);
        }))
      break;
  }
  search.correct();
  const Eigen::VectorXd rest = search.rest();
  d.chi2_left = fit.chi2(rest);
  d.spread_left = spread(fit, data, rest);
  fill_rest(d, fit, rest);
  d.calibrated = model_.layout();
  for (std::size_t k = 0; k < search.causes.size(); ++k) {
    FoundCause found = judge(search, k);
    found.gain = gains[k];
    if (measure && !found.certain()) found.next = next_measurement(model_, search.causes, k, found.likely, data.error);
    const bool of_bar = found.best().kind != CatchCauseKind::gauge && found.best().kind != CatchCauseKind::measure;
    if (of_bar && !found.unexplained()) d.calibrated = with_cause(std::move(d.calibrated), found.best());
    d.causes.push_back(std::move(found));
  }
  std::stable_sort(d.causes.begin(), d.causes.end(), [](const auto& a, const auto& b) { return a.gain > b.gain; });
  return d;
}

FoundCause CatchDiagnoser::judge(catch_detail::CauseSearch& search, std::size_t k) {
  const Eigen::VectorXd rest = search.rest(k);
  std::vector<CatchFit::Best> all = search.candidates(rest, k);
  if (std::none_of(all.begin(), all.end(), [&](const auto& b) { return b.cause.same(search.causes[k]); })) {
    all.push_back(search.fit.best(search.causes[k], rest));
  }
  double best_score = search.score(all.front()), best_chi2 = all.front().chi2;
  for (const auto& b : all) {
    best_score = std::min(best_score, search.score(b));
    best_chi2 = std::min(best_chi2, b.chi2);
  }
  const double unnamed = score_of_unnamed(search, k, rest);
  best_score = std::min(best_score, unnamed);
  double total = std::exp(-0.5 * (unnamed - best_score));
  for (const auto& b : all) total += std::exp(-0.5 * (search.score(b) - best_score));
  const double rise = quantile(boost::math::chi_squared(1.0), model_.setup().confidence);
  FoundCause found;
  found.unnamed = std::exp(-0.5 * (unnamed - best_score)) / total;
  for (const auto& b : all) {
    if (b.chi2 - best_chi2 > rise) continue;
    LikelyCause likely{.cause = b.cause, .chi2 = b.chi2};
    likely.probability = std::exp(-0.5 * (search.score(b) - best_score)) / total;
    std::tie(likely.low, likely.high) = search.fit.interval(b.cause, rest, rise);
    likely.at_end = at_end(b.cause);
    found.likely.push_back(likely);
  }
  // Of those that are equally probable to a hundredth, the order of the kinds.
  std::stable_sort(found.likely.begin(), found.likely.end(), [](const auto& x, const auto& y) {
    return std::lround(100.0 * x.probability) > std::lround(100.0 * y.probability);
  });
  search.causes[k] = found.best();
  const CatchCause& c = found.best();
  if (c.row > 0) {
    Eigen::VectorXd all_cells = Eigen::VectorXd::Zero(model_.cells());
    search.add(c, 1.0, all_cells);
    const auto i = std::find(model_.rows().begin(), model_.rows().end(), c.row) - model_.rows().begin();
    found.effect = std::exp(all_cells[model_.cell(0, static_cast<std::size_t>(i))]) - 1.0;
  }
  return found;
}

double CatchDiagnoser::score_of_unnamed(const catch_detail::CauseSearch& search, std::size_t k,
                                        const Eigen::VectorXd& rest) const {
  const double rarer = 2.0 * std::log(100.0);
  const Eigen::VectorXd gradient = search.fit.precision() * rest;
  const CatchCause& cause = search.causes[k];
  if (cause.of_row()) {
    const auto i = std::find(model_.rows().begin(), model_.rows().end(), cause.row) - model_.rows().begin();
    return rest.dot(gradient) - search.fit.row_statistic(static_cast<std::size_t>(i), gradient) +
           search.fit.size_cost() * static_cast<double>(model_.conditions().size()) + rarer;
  }
  const double degrees = std::max(1.0, search.fit.degrees());
  return quantile(boost::math::chi_squared(degrees), 0.99) + search.fit.size_cost() + rarer;
}

bool CatchDiagnoser::at_end(const CatchCause& cause) {
  const CatchEffect& e = model_.effect(cause);
  if (!e.fitted) return false;
  const double low = e.abscissa(e.sizes.front()), high = e.abscissa(e.sizes.back()), x = e.abscissa(cause.size);
  const double step = 0.005 * (high - low);
  if (cause.kind == CatchCauseKind::check_valve) return x > high - step;
  return x < low + step || x > high - step;
}

double CatchDiagnoser::spread(const CatchFit& fit, const CatchData& data, const Eigen::VectorXd& residual) const {
  double squares = 0.0, count = 0.0;
  const Eigen::VectorXd out = without_level(fit, residual);
  for (std::size_t k = 0; k < data.repeats.size(); ++k) {
    if (data.repeats[k] == 0) continue;
    squares += std::pow(out[static_cast<Eigen::Index>(k)], 2);
    count += 1.0;
  }
  return std::sqrt(squares / std::max(1.0, count));
}

Eigen::VectorXd CatchDiagnoser::without_level(const CatchFit& fit, const Eigen::VectorXd& residual) const {
  const Eigen::VectorXd level = fit.levels(residual);
  Eigen::VectorXd out = residual;
  for (std::size_t s = 0; s < model_.conditions().size(); ++s) {
    for (std::size_t i = 0; i < model_.rows().size(); ++i) {
      const int k = model_.cell(s, i);
      out[k] -= level[static_cast<Eigen::Index>(s)] * model_.by_pressure()[k];
    }
  }
  return out;
}

void CatchDiagnoser::fill_rest(Diagnosis& d, const CatchFit& fit, const Eigen::VectorXd& rest) const {
  const Eigen::VectorXd level = fit.levels(rest);
  for (std::size_t s = 0; s < model_.conditions().size(); ++s) {
    d.pressure.push_back(model_.conditions()[s].pressure * std::exp(level[static_cast<Eigen::Index>(s)]));
  }
  // Sizes were chosen, not only fitted: they are not taken off. Of two rows or more at each setting (catch_data) and a
  // level there is one at least.
  d.degrees = fit.degrees();
  d.left_p = cdf(complement(boost::math::chi_squared(d.degrees), std::max(0.0, d.chi2_left)));
}

double CatchDiagnoser::threshold(const CatchData& data) {
  const double step = std::log(1.25);
  const int size = static_cast<int>(std::lround(std::log(data.error) / step));
  const auto key = std::pair(data.repeats, size);
  const auto found = thresholds_.find(key);
  if (found != thresholds_.end()) return found->second;
  CatchData nominal = data;
  nominal.error = std::exp(step * size);
  return thresholds_.emplace(key, CatchFit(model_, nominal).threshold(model_.setup().false_alarm)).first->second;
}

Diagnosis diagnose(const Layout& layout, const std::vector<CatchReadings>& catches, const DiagnosisSetup& setup) {
  CatchModel model(layout, catches, setup);
  static_cast<void>(catch_data(model, catches));  // what cannot be is refused before anything is set aside
  Diagnosis before;
  std::vector<CatchReadings> kept;
  for (std::size_t s = 0; s < catches.size(); ++s) {
    std::map<int, double> expected;
    for (std::size_t i = 0; i < model.rows().size(); ++i) {
      expected[model.rows()[i]] = std::exp(model.base()[model.cell(s, i)]);
    }
    CatchScreen screen = screen_catch(catches[s], expected, [&](int row) {
      return catch_detail::share_without_orifice(model.conditions()[s].layout, row);
    });
    before.judged = before.judged && screen.set_aside;
    before.doubts.push_back(std::move(screen.doubts));
    catch_detail::put_slip_right(expected, screen.kept);
    kept.push_back(std::move(screen.kept));
  }
  if (!before.judged) {
    before.calibrated = layout;
    return before;
  }
  // Where no gauge was read the supply was at whatever pressure gives the total; near it the level is a straight line.
  for (int turn = 0; turn < 2; ++turn) {
    const std::vector<double> pressures = catch_detail::pressures_of_level(model, kept);
    double most = 0.0;
    for (std::size_t s = 0; s < pressures.size(); ++s) {
      most = std::max(most, std::abs(std::log(pressures[s] / model.conditions()[s].pressure)));
    }
    if (most < 0.02) break;
    try {
      model = model.at_pressures(pressures);
    } catch (const Error&) {
      break;  // the layout gives nothing at such a level: its own pressure is as good as any
    }
  }
  Diagnosis d = CatchDiagnoser(std::move(model)).diagnose(kept);
  d.doubts = std::move(before.doubts);
  return d;
}

}  // namespace libflow
