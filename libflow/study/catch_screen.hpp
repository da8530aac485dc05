// SPDX-License-Identifier: MIT
/// @file
/// Readings that a person should look at before a part is blamed: empty cups, slipped decimal points, another unit, and
/// what no row can give. They are set aside and named, never dropped in silence.
///
/// A reading is held against what the layout gives in its row and against the other rows: x = ln(reading / layout),
/// less the median of the rows. It is doubtful only if the cup is empty, or if it is an outlier by the modified
/// z-score, |M| > 3.5, and what no fault of a row's parts makes, or just the size of a known slip.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include <libflow/study/catch_readings.hpp>

namespace libflow {

/// Why a reading is doubted.
enum class ReadingDoubt {
  nothing,        ///< the cup is empty, or holds less than any hole gives that is not plugged
  slipped_point,  ///< about 10, 100 or 1/10 of what fits
  other_unit,     ///< about 29.6 times too much or too little: ml and fl oz
  too_much,       ///< more than the row lets through without its orifice
  repeat_apart,   ///< far from the row's other cups
  cups_disagree   ///< two cups of a row that are far apart: nobody knows which is right
};

/// A word for programs.
[[nodiscard]] const char* name_of(ReadingDoubt doubt);

/// Below this share of what fits, a cup counts as empty: a hole of a quarter of the bore, the smallest that a diagnosis
/// tries, has a sixteenth of the area (common practice, no source).
inline constexpr double nothing_share = 1.0 / 16.0;
/// Above this share a reading is too much where nobody says what the row lets through at most: what a hole of twice the
/// bore gives (common practice, no source).
inline constexpr double too_much_share = 4.0;

/// Readings of one row that are doubted for one reason.
struct DoubtfulReading {
  ReadingDoubt kind = ReadingDoubt::nothing;  ///< why
  int row = 0;                                ///< 1-based
  int cups = 0;                               ///< how many readings of the row it is of
  bool whole_row = false;                     ///< true: of all readings of the row
  double volume = 0;                          ///< mean of these readings [m3]
  double fits = 0;        ///< volume that would fit: the slip put right, else what the other rows let expect [m3]
  double share = 0;       ///< volume over what the other rows let expect [-]
  double score = 0;       ///< modified z-score; of an empty cup that of the least share that counts [-]
  double factor = 1;      ///< of a slip: what the reading is divided by to put it right; of two cups that disagree: the
                          ///< larger over the smaller [-]
  std::string where{};    ///< file, line and column of the first one
  std::string written{};  ///< the first one as it was written, e.g. "109 ml" ("3.0 and 9.8 fl oz" of two that
                          ///< disagree); empty: not known
};

/// What of the readings of a catch is trusted.
struct CatchScreen {
  std::vector<DoubtfulReading> doubts;  ///< by row
  bool set_aside = true;                ///< false: fewer than half of the rows would be left, so all readings count
  CatchReadings kept;                   ///< the readings that count
  std::vector<int> rows;                ///< without any reading that counts; empty where all count
};

/// Modified z-scores M = 0.6745 (x - median) / MAD; an |M| above 3.5 is a likely outlier.
/// Source: B. Iglewicz and D. C. Hoaglin, How to Detect and Handle Outliers, ASQC 1993; the rule as quoted in
/// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.
/// @param least_mad  that the median absolute deviation counts at least: readings that are all alike are not exact
[[nodiscard]] std::vector<double> modified_z_scores(const std::vector<double>& x, double least_mad = 0.0);

/// Looks at every reading. Rows that `expected` does not name, or of which it expects nothing, are kept as they are.
/// @param expected  by row: what the layout gives, in any unit, for all rows the same
/// @param most      by row: what it lets through at most, over `expected`; asked of outliers alone; empty:
/// too_much_share
[[nodiscard]] CatchScreen screen_catch(const CatchReadings& readings, const std::map<int, double>& expected,
                                       const std::function<double(int)>& most = {});

}  // namespace libflow
