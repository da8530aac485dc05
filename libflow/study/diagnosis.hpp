// SPDX-License-Identifier: MIT
/// @file
/// From cups to causes: the smallest set of causes that explains the readings of a catch test, what else would look the
/// same, the measurement that would tell them apart, and the layout as it was built.
///
/// Causes are added one by one while the best one gains more than noise does once in a hundred sound bars
/// (CatchFit::threshold); all sizes are fitted again together, and every cause is held against each alternative in its
/// place. Probabilities are Schwarz's (G. Schwarz, Estimating the Dimension of a Model, Ann. Statist. 6 (1978) 461,
/// from memory) with every cause as likely as another beforehand. All causes together are solved exactly, and the sizes
/// corrected by it, before anything is said. In the place of every cause stands one more that is never named: something
/// that was not tried. It explains all cups of a row (of a cause of the whole bar: leaves what one catch in a hundred
/// leaves), is thought a hundredth as likely beforehand (common practice, no source), and takes what the named ones do
/// not explain: so a cause that fits badly is not sure for want of others.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <libflow/study/catch_fit.hpp>
#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_next.hpp>
#include <libflow/study/catch_screen.hpp>
#include <libflow/study/catch_search.hpp>

namespace libflow {

/// One cause that was found.
struct FoundCause {
  /// The most probable first; more than one where the readings cannot tell them apart: then none is the cause, but one
  /// of them is.
  std::vector<LikelyCause> likely;
  double unnamed = 0;  ///< probability that it is none of those tried [-]
  double gain = 0;     ///< chi-squared that it explains
  double effect = 0;   ///< on its row's flow at the first setting, less one; 0 where it is not of a row [-]
  std::optional<NextMeasurement> next;  ///< that would tell `likely` apart best; empty where it is one, or none does

  /// The most likely cause.
  [[nodiscard]] const CatchCause& best() const { return likely.front().cause; }
  /// True where no other explains the readings about as well.
  [[nodiscard]] bool certain() const { return likely.size() == 1; }
  /// True where something that was not tried is likelier than all that was.
  [[nodiscard]] bool unexplained() const { return unnamed > 0.5; }
};

/// What is wrong with a bar.
struct Diagnosis {
  /// By catch: readings that were set aside before, with the reason (see study/catch_screen.hpp).
  std::vector<std::vector<DoubtfulReading>> doubts;
  bool judged = true;  ///< false: of some catch fewer than half of the rows can be judged; then no cause is looked for
  std::vector<FoundCause> causes;  ///< largest gain first; empty: nothing beyond reading error and parts' scatter
  double threshold = 0;            ///< gain that a cause must have [chi-squared]
  double chi2_before = 0, chi2_left = 0;  ///< of all cells against the layout, and against the causes
  double degrees = 0;                     ///< of freedom of chi2_left
  double left_p = 1;                      ///< probability of so large a rest where the causes are all that there is
  double spread_before = 0;               ///< root mean square of the cells against the layout, levels out [-]
  double spread_left = 0;                 ///< the same against the causes [-]
  double reading_error = 0;               ///< of one cup [-]
  bool error_from_repeats = false;        ///< true: from the repeats; false: as given
  std::vector<double> pressure;           ///< by setting, at the supply: what fits the cups best [Pa]
  /// The layout with the most probable of each cause; a gauge or a measure that is off, and what is not explained, left
  /// out.
  Layout calibrated;
};

/// A layout and its settings, ready for many catches. Holds what it has solved: one for each thread.
class CatchDiagnoser {
 public:
  /// @param settings  readings, or their settings alone
  /// @throws as CatchModel
  CatchDiagnoser(Layout layout, const std::vector<CatchReadings>& settings, DiagnosisSetup setup = {})
      : model_(std::move(layout), settings, std::move(setup)) {}
  /// For a model of the bar and its settings.
  explicit CatchDiagnoser(CatchModel model) : model_(std::move(model)) {}

  /// The model.
  [[nodiscard]] CatchModel& model() { return model_; }

  /// @param catches  one for each setting, in the same order
  /// @param measure  look for the next measurement, too
  /// @throws InputError as catch_data
  [[nodiscard]] Diagnosis diagnose(const std::vector<CatchReadings>& catches, bool measure = true) {
    const CatchData data = catch_data(model_, catches);
    CatchFit fit(model_, data);
    Diagnosis d;
    d.reading_error = data.error;
    d.error_from_repeats = data.error_from_repeats;
    d.threshold = threshold(data);
    CauseSearch search{model_, fit, data.log_flow - model_.base(), {}};
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
      if (measure && !found.certain())
        found.next = next_measurement(model_, search.causes, k, found.likely, data.error);
      const bool of_bar = found.best().kind != CatchCauseKind::gauge && found.best().kind != CatchCauseKind::measure;
      if (of_bar && !found.unexplained()) d.calibrated = with_cause(std::move(d.calibrated), found.best());
      d.causes.push_back(std::move(found));
    }
    std::stable_sort(d.causes.begin(), d.causes.end(), [](const auto& a, const auto& b) { return a.gain > b.gain; });
    return d;
  }

 private:
  using CauseSearch = catch_detail::CauseSearch;
  /// Cause k against every alternative in its place.
  [[nodiscard]] FoundCause judge(CauseSearch& search, std::size_t k) {
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

  /// Of something that was not tried, in the place of cause k: see the top of this file.
  [[nodiscard]] double score_of_unnamed(const CauseSearch& search, std::size_t k, const Eigen::VectorXd& rest) const {
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
  /// Is a size the last that was tried? What cannot go further by nature (a valve that is held open) is not.
  [[nodiscard]] bool at_end(const CatchCause& cause) {
    const CatchEffect& e = model_.effect(cause);
    if (!e.fitted || e.sizes.empty()) return false;
    const double low = e.abscissa(e.sizes.front()), high = e.abscissa(e.sizes.back()), x = e.abscissa(cause.size);
    const double step = 0.005 * (high - low);
    if (cause.kind == CatchCauseKind::check_valve) return x > high - step;
    return x < low + step || x > high - step;
  }

  /// Root mean square of a residual over the cells read, levels out, as a share of flow.
  [[nodiscard]] double spread(const CatchFit& fit, const CatchData& data, const Eigen::VectorXd& residual) const {
    double squares = 0.0, count = 0.0;
    const Eigen::VectorXd out = without_level(fit, residual);
    for (std::size_t k = 0; k < data.repeats.size(); ++k) {
      if (data.repeats[k] == 0) continue;
      squares += std::pow(out[static_cast<Eigen::Index>(k)], 2);
      count += 1.0;
    }
    return std::sqrt(squares / std::max(1.0, count));
  }
  [[nodiscard]] Eigen::VectorXd without_level(const CatchFit& fit, const Eigen::VectorXd& residual) const {
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

  void fill_rest(Diagnosis& d, const CatchFit& fit, const Eigen::VectorXd& rest) const {
    const Eigen::VectorXd level = fit.levels(rest);
    for (std::size_t s = 0; s < model_.conditions().size(); ++s) {
      d.pressure.push_back(model_.conditions()[s].pressure * std::exp(level[static_cast<Eigen::Index>(s)]));
    }
    d.degrees = fit.degrees();  // sizes were chosen, not only fitted: they are not taken off
    if (d.degrees >= 1.0) d.left_p = cdf(complement(boost::math::chi_squared(d.degrees), std::max(0.0, d.chi2_left)));
  }

  /// By which cells were read how often and, in steps of a quarter, by the reading error: kept for the next catch.
  [[nodiscard]] double threshold(const CatchData& data) {
    const double step = std::log(1.25);
    const int size = static_cast<int>(std::lround(std::log(data.error) / step));
    const auto key = std::pair(data.repeats, size);
    const auto found = thresholds_.find(key);
    if (found != thresholds_.end()) return found->second;
    CatchData nominal = data;
    nominal.error = std::exp(step * size);
    return thresholds_.emplace(key, CatchFit(model_, nominal).threshold(model_.setup().false_alarm)).first->second;
  }

  CatchModel model_;
  std::map<std::pair<std::vector<int>, int>, double> thresholds_;
};

/// Finds what is wrong.
/// @param layout   as it was meant, with a [toolbar]
/// @param catches  one for each setting (pressure, water or product); two settings tell causes apart that one cannot
/// @throws InputError for readings or a setup that cannot be, a free-form layout, a layout that gives a row nothing;
///         IllPosedError as main_job
[[nodiscard]] Diagnosis diagnose(const Layout& layout, const std::vector<CatchReadings>& catches,
                                 const DiagnosisSetup& setup = {});

}  // namespace libflow
