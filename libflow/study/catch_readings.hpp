// SPDX-License-Identifier: MIT
/// @file
/// What was read from the cups of a catch test.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/units/quantity.hpp>

namespace libflow {

/// One cup.
struct CatchReading {
  int row = 0;            ///< 1-based
  int repeat = 1;         ///< 1-based
  double volume = 0;      ///< [m3], >= 0
  std::string where{};    ///< file and line, for messages
  std::string written{};  ///< the volume as it was written, with its unit, for messages; empty: not known
};

/// A catch test as it was made: all cups at one setting, for one time.
struct CatchReadings {
  std::vector<CatchReading> readings{};          ///< cup by cup
  Time time{};                                   ///< each cup was under its row this long, > 0
  bool water = false;                            ///< water in the tank instead of the product
  std::optional<Pressure> gauge = std::nullopt;  ///< read meanwhile
  /// Standard deviation of one reading as a share of it, where the repeats do not tell [-].
  double reading_error = 0.02;
};

}  // namespace libflow
