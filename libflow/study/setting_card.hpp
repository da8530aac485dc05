// SPDX-License-Identifier: MIT
/// @file
/// The hand-over card: pressure at the gauge against speed for the chosen rates, and what a cup under every row catches
/// in a chosen time.
#pragma once

#include <string>
#include <vector>

#include <libflow/study/envelope.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

/// What is asked.
struct SettingCardOptions {
  std::vector<Speed> speeds{};    ///< rising, at most 20; empty: the layout's range, or 60 to 140 % of the job's
  std::vector<AreaRate> rates{};  ///< rising, at most 6; empty: the layout's range, or the job's
  Time catch_time = from_si<Time>(30.0);  ///< 1 s to 1 h
};

/// What one row's cup should hold. SI.
struct CardCatch {
  int row = 0;               ///< 1-based
  double volume = 0;         ///< computed [m3]
  double low = 0, high = 0;  ///< a cup within these is within the tolerance of the wanted rate [m3]
  bool shut = false;         ///< valved off: no cup
};

/// One page for the operator. SI.
struct SettingCard {
  Layout layout;                      ///< going straight ahead
  LiquidState liquid;                 ///< at its temperature
  std::string control;                ///< what is moved to reach the rate, in words
  SettingCardOptions options;         ///< every list filled
  std::vector<EnvelopePoint> points;  ///< rate by rate, speed by speed
  std::vector<double> mean_catch;     ///< of an open row at each point, rows of the mean width [m3]
  EnvelopePoint job;                  ///< the job's own point, at which the cups are caught
  std::vector<CardCatch> rows;        ///< empty where the job's point is not reached
  int outlets_per_row = 1;            ///< all of a row's outlets go into its cup
  Answer main;                        ///< the main job at the job's own rate and speed
  Cautions cautions;                  ///< what a person should know
};

/// @throws InputError for options out of range, and as operating_point
[[nodiscard]] SettingCard setting_card(const Layout& layout, SettingCardOptions options = {});

}  // namespace libflow
