// SPDX-License-Identifier: MIT
/// @file
/// After a catch test: mean, spread and rows outside the tolerance, each with what the cups can prove of it, beside
/// what the layout should give.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/study/catch_level.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_readings.hpp>
#include <libflow/study/catch_screen.hpp>

namespace libflow {

/// What the cups say of one row.
enum class CatchMark {
  inside,    ///< within the tolerance, and proved to be
  outside,   ///< outside, and proved to be
  unproved,  ///< the cups cannot tell
  missing,   ///< no reading
  set_aside  ///< read, but none of its readings can be right: not judged
};

/// One row's cups. Volumes are SI; shares are of the mean. Of a row that was set aside, the mean is as read, its
/// deviation is from the mean of the others, and what the statistics would say is NaN.
struct RowCatch {
  int row = 0;                          ///< 1-based
  int cups = 0;                         ///< readings of it
  int repeats = 0;                      ///< readings of it that count
  double mean = 0;                      ///< of its readings that count [m3]
  double rate = 0;                      ///< [m3 per m2]
  double deviation = 0;                 ///< of its rate from the mean of the rows [-]
  double low = 0, high = 0;             ///< interval that holds the true deviation, at the confidence [-]
  double outside_probability = 0;       ///< that the true deviation is outside the tolerance [-]
  CatchMark mark = CatchMark::missing;  ///< the verdict on it
  double expected = 0;                  ///< what the layout says it collects [m3]
  double against_layout = 0;            ///< its share of the total over the layout's share, less one [-]
  double against_layout_error = 0;      ///< standard error of that [-]
};

/// The verdict of a catch test.
struct CatchVerdict {
  std::vector<RowCatch> rows;           ///< every open row of the layout
  double tolerance = 0.05;              ///< each row within this of the mean [-]
  double confidence = 0.95;             ///< of intervals and proofs [-]
  double mean = 0;                      ///< of the rows' means [m3]
  double total_rate = 0;                ///< mean rate of the rows that were caught [m3 per m2]
  double expected_rate = 0;             ///< what the layout gives there at this setting [m3 per m2]
  double cv = 0;                        ///< of the rows' rates as read, n-1 [-]
  double reading_error = 0;             ///< standard deviation of one reading [-]
  double cv_beyond_error = 0;           ///< what is left when the reading error is taken out; 0 where nothing is [-]
  double spread_p = 1;                  ///< probability of so large a spread by reading error alone
  std::vector<int> outside;             ///< rows that read outside the tolerance
  std::vector<int> missing;             ///< open rows without a reading
  std::vector<DoubtfulReading> doubts;  ///< readings to look at first
  std::vector<int> rows_set_aside;      ///< rows of which no reading counts
  double mean_of_all = 0;               ///< as `mean`, every reading counted [m3]
  double total_rate_of_all = 0;         ///< as `total_rate`, every reading counted [m3 per m2]
  double cv_of_all = 0;                 ///< as `cv`, every reading counted [-]
  bool error_from_repeats = false;      ///< true: from the repeats; false: as given, with what few repeats add
  bool spread_is_real = false;          ///< spread_p is below 1 less the confidence
  bool doubts_set_aside = true;         ///< false: too many to be set aside; all readings count
  bool even = false;                    ///< every row reads within the tolerance; none is missing or set aside
  bool proved = false;                  ///< every row's mark is proved, one way or the other
  Answer answer;                        ///< the layout with this liquid at this setting
  CatchLevel level;                     ///< the bar as a whole against the layout
  Time time{};                          ///< of each cup
  bool water = false;                   ///< caught with water instead of the product
  std::optional<Pressure> gauge = std::nullopt;  ///< as read; empty: none was given, and the layout's own is taken
  std::string source{};                          ///< file that the readings are from; empty: none is named
};

/// Judges the cups. Readings that cannot be right (study/catch_screen.hpp) are set aside and named; mean and spread are
/// given without them and with them.
/// @param layout    as it was built
/// @param setup     tolerance of the statistics and the water's temperature; its time and repeats are not used
/// @throws InputError for readings of rows that are not there or shut, fewer than two rows read, nothing caught at all
[[nodiscard]] CatchVerdict judge_catch(const Layout& layout, const CatchReadings& readings,
                                       const CatchSetup& setup = {});

}  // namespace libflow
