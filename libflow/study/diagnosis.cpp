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
  std::optional<LevelSlip> slip = slip_of(std::expm1(*middle));
  // Six times the flow takes more than thirty times the pressure: that is a slip, at some other pressure.
  if (!slip && std::abs(*middle) > std::log(6.0)) {
    const auto off = [&](const LevelSlip& s) { return std::abs(std::abs(*middle) - std::log(s.factor)); };
    slip = *std::min_element(level_slips().begin(), level_slips().end(),
                             [&](const LevelSlip& a, const LevelSlip& b) { return off(a) < off(b); });
  }
  if (!slip) return;
  for (CatchReading& r : readings.readings) r.volume *= *middle > 0.0 ? 1.0 / slip->factor : slip->factor;
}

}  // namespace catch_detail

Diagnosis CatchDiagnoser::diagnose(const std::vector<CatchReadings>& catches, bool measure) {
  const CatchData data = catch_data(model_, catches);
  catch_detail::CauseSearch search(model_, data);
  auto rest = search.rest();
  Diagnosis d;
  d.reading_error = data.error;
  d.error_from_repeats = data.error_from_repeats;
  d.threshold = threshold(data);
  d.chi2_before = rest->fit.chi2(rest->left);
  d.spread_before = spread(*rest, data);
  std::vector<double> gains;
  bool unexplained = false;
  while (static_cast<int>(search.causes.size()) < model_.setup().most_causes) {
    const double now = rest->fit.chi2(rest->left);
    // A row that no part explains would be chased by causes elsewhere: first it must be cleared up. It may be one that
    // a part explains once what is wrong with all rows is known.
    const std::optional<CatchFit::Best> next = search.next(*rest, unexplained);
    if (!next || now - next->chi2 < d.threshold) break;
    const std::vector<CatchCause> before = search.causes;
    try {
      search.take(next->cause);
    } catch (const IllPosedError&) {
      break;  // at the end of what parts can be
    }
    const auto more = search.rest();
    const double gain = now - more->fit.chi2(more->left);
    const bool still = has_unexplained_row(search);
    if (gain < d.threshold || (unexplained && still)) {
      search.causes = before;
      break;
    }
    unexplained = still;
    gains.push_back(gain);
    rest = more;
  }
  std::vector<FoundCause> found = judge_all(search);
  rest = search.rest();
  d.chi2_left = rest->fit.chi2(rest->left);
  d.spread_left = spread(*rest, data);
  fill_rest(d, *rest);
  std::vector<CatchCause> built;
  for (std::size_t k = 0; k < found.size(); ++k) {
    FoundCause& f = found[k];
    f.gain = gains[k];
    if (measure && !f.certain()) f.next = next_measurement(model_, f.likely, data.error);
    const bool of_bar = f.best().kind != CatchCauseKind::gauge && f.best().kind != CatchCauseKind::measure;
    if (of_bar && !f.unexplained()) built.push_back(f.best());
  }
  d.calibrated = with_causes(model_.layout(), built);
  d.causes = std::move(found);
  std::stable_sort(d.causes.begin(), d.causes.end(), [](const auto& a, const auto& b) { return a.gain > b.gain; });
  return d;
}

bool CatchDiagnoser::has_unexplained_row(catch_detail::CauseSearch& search) const {
  for (std::size_t k = 0; k < search.causes.size(); ++k) {
    const CatchCause& c = search.causes[k];
    if (!c.of_row()) continue;
    const auto r = search.without(k);
    if (r->score(r->fitted(c).best) > score_of_unnamed(*r, c) + 2.0 * std::log(100.0)) return true;
  }
  return false;
}

// What is likely in one place depends on what stands in the others, and so on what else may stand there. What moves all
// rows alike is hard to tell apart beside any fault of a row.
std::vector<FoundCause> CatchDiagnoser::judge_all(catch_detail::CauseSearch& search) const {
  search.stand_ins.assign(search.causes.size(), {});
  for (std::size_t k = 0; k < search.causes.size(); ++k) {
    for (CatchCause c : model_.common_causes()) {
      if (!search.causes[k].moves_all() || !c.moves_all() || c.same(search.causes[k])) continue;
      c.size = 1.0;  // a factor, still to be fitted
      search.stand_ins[k].push_back(c);
    }
  }
  std::vector<FoundCause> found;
  for (bool more = true; more;) {  // there are so many kinds of causes and no more
    found.clear();
    for (std::size_t k = 0; k < search.causes.size(); ++k) {
      found.push_back(judge(search, k));
      const LikelyCause& best = found.back().likely.front();
      search.causes = best.others;
      search.causes.insert(search.causes.begin() + static_cast<std::ptrdiff_t>(k), best.cause);
    }
    more = false;
    for (std::size_t k = 0; k < found.size() && found.size() > 1; ++k) {
      std::vector<CatchCause>& known = search.stand_ins[k];
      for (const LikelyCause& l : found[k].likely) {
        const auto same = [&](const CatchCause& c) { return c.same(l.cause); };
        if (same(search.causes[k]) || std::any_of(known.begin(), known.end(), same)) continue;
        known.push_back(l.cause);
        more = true;
      }
    }
  }
  return found;
}

FoundCause CatchDiagnoser::judge(catch_detail::CauseSearch& search, std::size_t k) const {
  const std::vector<catch_detail::CatchAlternative> all = search.alternatives(k);
  const auto score = [](const catch_detail::CatchAlternative& a) { return a.rest->score(a.best); };
  double best_score = score(all.front()), best_chi2 = all.front().best.chi2;
  for (const auto& a : all) {
    best_score = std::min(best_score, score(a));
    best_chi2 = std::min(best_chi2, a.best.chi2);
  }
  const double unnamed = score_of_unnamed(*search.without(k), search.causes[k]);
  best_score = std::min(best_score, unnamed);
  double total = std::exp(-0.5 * (unnamed - best_score));
  for (const auto& a : all) total += std::exp(-0.5 * (score(a) - best_score));
  const double rise = quantile(boost::math::chi_squared(1.0), model_.setup().confidence);
  FoundCause found;
  found.unnamed = std::exp(-0.5 * (unnamed - best_score)) / total;
  for (const auto& a : all) {
    const CatchCause& c = a.best.cause;
    if (a.best.chi2 - best_chi2 > rise) continue;
    LikelyCause likely{.cause = c, .chi2 = a.best.chi2, .others = a.others};
    likely.probability = std::exp(-0.5 * (score(a) - best_score)) / total;
    std::tie(likely.low, likely.high) = a.rest->fit.interval(c, a.left, rise);
    likely.at_end = at_end(a.rest->model->effect(c), c);
    found.likely.push_back(std::move(likely));
  }
  // Of those that are equally probable to a hundredth, the order of the kinds.
  std::stable_sort(found.likely.begin(), found.likely.end(), [](const auto& x, const auto& y) {
    return std::lround(100.0 * x.probability) > std::lround(100.0 * y.probability);
  });
  const CatchCause& c = found.best();
  if (c.row > 0) {
    const auto beside = std::find_if(all.begin(), all.end(), [&](const auto& a) { return a.best.cause.same(c); });
    const CatchEffect& e = beside->rest->model->effect(c);
    const auto row = std::find(model_.rows().begin(), model_.rows().end(), c.row) - model_.rows().begin();
    const auto at = std::find(e.cells.begin(), e.cells.end(), model_.cell(0, static_cast<std::size_t>(row)));
    Eigen::VectorXd v;
    e.at(c.size, v);
    if (at != e.cells.end()) found.effect = std::exp(v[at - e.cells.begin()]) - 1.0;
  }
  return found;
}

double CatchDiagnoser::score_of_unnamed(const catch_detail::CatchRest& rest, const CatchCause& cause) const {
  const double rarer = 2.0 * std::log(100.0);
  if (cause.of_row()) {
    const Eigen::VectorXd gradient = rest.fit.precision() * rest.left;
    const auto i = std::find(model_.rows().begin(), model_.rows().end(), cause.row) - model_.rows().begin();
    return rest.left.dot(gradient) - rest.fit.row_statistic(static_cast<std::size_t>(i), gradient) +
           rest.fit.size_cost() * static_cast<double>(model_.conditions().size()) + rarer;
  }
  const double degrees = std::max(1.0, rest.fit.degrees());
  return quantile(boost::math::chi_squared(degrees), 0.99) + rest.fit.size_cost() + rarer;
}

bool CatchDiagnoser::at_end(const CatchEffect& e, const CatchCause& cause) {
  if (!e.fitted) return false;
  const double low = e.abscissa(e.sizes.front()), high = e.abscissa(e.sizes.back()), x = e.abscissa(cause.size);
  const double step = 0.005 * (high - low);
  if (cause.kind == CatchCauseKind::check_valve) return x > high - step;
  return x < low + step || x > high - step;
}

double CatchDiagnoser::spread(const catch_detail::CatchRest& rest, const CatchData& data) {
  const Eigen::VectorXd level = rest.fit.levels(rest.left);
  double squares = 0.0, count = 0.0;
  for (std::size_t s = 0; s < rest.model->conditions().size(); ++s) {
    for (std::size_t i = 0; i < rest.model->rows().size(); ++i) {
      const int k = rest.model->cell(s, i);
      if (data.repeats[static_cast<std::size_t>(k)] == 0) continue;
      squares += std::pow(rest.left[k] - level[static_cast<Eigen::Index>(s)] * rest.model->by_pressure()[k], 2);
      count += 1.0;
    }
  }
  return std::sqrt(squares / std::max(1.0, count));
}

void CatchDiagnoser::fill_rest(Diagnosis& d, const catch_detail::CatchRest& rest) const {
  const Eigen::VectorXd level = rest.fit.levels(rest.left);
  for (std::size_t s = 0; s < model_.conditions().size(); ++s) {
    d.pressure.push_back(model_.conditions()[s].pressure * std::exp(level[static_cast<Eigen::Index>(s)]));
  }
  // Sizes were chosen, not only fitted: they are not taken off. Of two rows or more at each setting (catch_data) and a
  // level there is one at least.
  d.degrees = rest.fit.degrees();
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
