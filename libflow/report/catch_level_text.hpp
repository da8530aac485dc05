// SPDX-License-Identifier: MIT
/// @file
/// A bar that collects too little or too much as a whole: what to check, likeliest first, before a row is blamed.
#pragma once

#include <string>
#include <vector>

#include <libflow/study/catch_verdict.hpp>
#include <libflow/units/system.hpp>

namespace libflow::report_detail {

/// What to check where a whole bar is off.
struct LevelAdvice {
  std::string lead;                ///< how far off it is; empty: it is not
  std::vector<std::string> items;  ///< likeliest first
};

/// The end of a verdict: "; BUT every row collects some 62 % less than the layout says"; empty where the bar is not
/// off.
std::string level_phrase(const CatchVerdict& v);

/// The order is common practice, with what fits the cups of all catches ahead of what does not.
/// @param catches  one, or two of the same bar
LevelAdvice level_advice(const std::vector<CatchVerdict>& catches, UnitSystem u);

}  // namespace libflow::report_detail
