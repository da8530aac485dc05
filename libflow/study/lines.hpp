// SPDX-License-Identifier: MIT
/// @file
/// Lines: the liquid that hoses and bars hold, the time to fill them and to flush them, and how long after a change at
/// the control each row has it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/study/main_job.hpp>

namespace libflow {

/// What is asked.
struct LinesOptions {
  /// A row is flushed when what leaves it is new liquid to this share, 0.5 to 0.9999.
  double share = 0.99;
  std::optional<std::string> control = std::nullopt;  ///< place of the control; empty: where the gauge stands
  /// For the speed of a pressure wave: stiffness of the hose wall (soft hose, 5 to 100 MPa: from memory) and its
  /// thickness over the bore where the layout gives none (common practice, no source).
  /// Empty: as the toolbar says, else 20 MPa.
  std::optional<Pressure> hose_modulus = std::nullopt;
  double wall_share = 0.2;  ///< see hose_modulus [-]
};

/// One row's lines, the slower of two outlets. Times [s], infinite where nothing flows.
struct RowLines {
  int row = 0;                ///< 1-based
  double held = 0;            ///< in the row's own hoses [m3]
  double fill = 0;            ///< the front of the liquid from the supply reaches the row's outlet, lines empty before
  double first_new = 0;       ///< the first of a new liquid, let in at the supply, leaves the row
  double flushed = 0;         ///< what leaves is new liquid to the share
  double delay = 0;           ///< mean time that the liquid takes from the control to the outlet
  double pressure_delay = 0;  ///< a change of pressure takes from the control to the outlet
};

/// What the lines hold and how fast it moves. SI.
struct Lines {
  Answer answer;               ///< the layout at its job
  LinesOptions options;        ///< as asked
  std::string control;         ///< the place
  double held_rows = 0;        ///< in the rows' own hoses [m3]
  double held_before = 0;      ///< in bars, feed, delivery and suction lines [m3]
  double held = 0;             ///< all [m3]
  double still = 0;            ///< of it where nothing flows: a flush does not reach it [m3]
  double fill_time = 0;        ///< until the last row has liquid [s]
  double flush_time = 0;       ///< until the last row is flushed [s]
  double flush_liquid = 0;     ///< that leaves all rows meanwhile [m3]
  double delay_spread = 0;     ///< between the first row and the last [s]
  std::vector<RowLines> rows;  ///< rows that are not shut
  Cautions cautions;           ///< what a person should know
};

/// At the layout's job. Flushing takes the new liquid as like the old one in viscosity and density.
/// @throws InputError for a layout that cannot be, options out of range, an unknown place; IllPosedError without answer
[[nodiscard]] Lines lines(Layout layout, const LinesOptions& options = {});

}  // namespace libflow
