// SPDX-License-Identifier: MIT
/// @file
/// Layouts side by side over the same operating points: evenness, worst rows, pressures, pump reserve, hose by bore,
/// pieces to buy, and the cause that makes the difference.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/order_list.hpp>

namespace libflow {

/// One layout over all points. SI.
struct ComparedLayout {
  Layout layout;                               ///< as given
  std::string control;                         ///< what is moved to reach the rate, in words
  std::vector<EnvelopePoint> points;           ///< rate by rate, speed by speed
  std::size_t even = 0, poor = 0, cannot = 0;  ///< how many points
  /// Over the points that every layout can run: the worst; NaN where there is none.
  double cv = NAN, worst = NAN;              ///< worst over the points that every layout can run [-]
  int worst_row = 0;                         ///< 1-based; 0: none
  double gauge_low = NAN, gauge_high = NAN;  ///< [Pa], over the points that it can run
  double least_reserve = NAN;                ///< of its pump [-], over the points that it can run
  OrderList order;                           ///< hose by bore, pieces
  std::size_t pieces = 0;                    ///< parts to buy and hoses to cut, all together
};

/// Layouts over many points. SI.
struct PointComparison {
  std::vector<Speed> speeds;            ///< rising
  std::vector<AreaRate> rates;          ///< rising
  std::vector<ComparedLayout> layouts;  ///< in the order given
  std::size_t shared = 0;               ///< points that every layout can run
  std::size_t best = 0, worst = 0;      ///< most even points, then the lowest worst CV; and the other end
  /// The cause whose part of the unevenness differs most between those two, at the point where their CVs differ most
  /// (compare()); empty where nothing is known or worth the name.
  std::string deciding_cause;
  double deciding_speed = 0, deciding_rate = 0;  ///< at which point [m/s], [m3/m2]
  Cautions cautions;                             ///< what a person should know
  bool complete = false;                         ///< false: stopped; what is done is there
};

/// @param layouts  two or more with the same number of rows; free-form ones must be fed
/// @param speeds   rising, at least one; empty: the first layout's own range, or its job's speed
/// @param rates    the same
/// @throws InputError, IllPosedError naming the layout
[[nodiscard]] PointComparison compare_points(const std::vector<Layout>& layouts, std::vector<Speed> speeds = {},
                                             std::vector<AreaRate> rates = {}, const Progress& progress = {});

}  // namespace libflow
