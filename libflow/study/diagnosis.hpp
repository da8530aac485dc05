// SPDX-License-Identifier: MIT
/// @file
/// From cups to causes: the smallest set of causes that explains the readings of a catch test, what else would look the
/// same, the measurement that would tell them apart, and the layout as it was built.
///
/// Causes are added one by one while the best one gains more than noise does once in a hundred sound bars
/// (CatchFit::threshold); all sizes are fitted again together, and every cause is held against each alternative in its
/// place, by exact solves of the bar that has all others in it, at the sizes that fit best beside it. Probabilities are
/// Schwarz's (G. Schwarz, Estimating the Dimension of a Model, Ann. Statist. 6 (1978) 461, from memory) with every
/// cause as likely as another beforehand. In the place of every cause stands one more that is never named: something
/// that was not tried. It explains all cups of a row (of a cause of the whole bar: leaves what one catch in a hundred
/// leaves), is thought a hundredth as likely beforehand (common practice, no source), and takes what the named ones do
/// not explain: so a cause that fits badly is not sure for want of others.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <libflow/study/catch_data.hpp>
#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_next.hpp>
#include <libflow/study/catch_screen.hpp>

namespace libflow {

namespace catch_detail {
struct CatchRest;
class CauseSearch;
}  // namespace catch_detail

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
  [[nodiscard]] Diagnosis diagnose(const std::vector<CatchReadings>& catches, bool measure = true);

 private:
  /// Every cause against each alternative in its place.
  [[nodiscard]] std::vector<FoundCause> judge_all(catch_detail::CauseSearch& search) const;
  [[nodiscard]] FoundCause judge(catch_detail::CauseSearch& search, std::size_t k) const;

  /// Of something that was not tried, in the place of a cause: see the top of this file.
  [[nodiscard]] double score_of_unnamed(const catch_detail::CatchRest& rest, const CatchCause& cause) const;
  [[nodiscard]] bool has_unexplained_row(catch_detail::CauseSearch& search) const;
  /// Is a size the last that was tried? What cannot go further by nature (a valve that is held open) is not.
  [[nodiscard]] static bool at_end(const CatchEffect& e, const CatchCause& cause);

  /// Root mean square of what is left over the cells read, levels out, as a share of flow.
  [[nodiscard]] static double spread(const catch_detail::CatchRest& rest, const CatchData& data);

  void fill_rest(Diagnosis& d, const catch_detail::CatchRest& rest) const;

  /// By which cells were read how often and, in steps of a quarter, by the reading error: kept for the next catch.
  [[nodiscard]] double threshold(const CatchData& data);

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
