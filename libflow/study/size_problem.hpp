// SPDX-License-Identifier: MIT
/// @file
/// A sizing task with every list filled in: hose plans, operating points, what the drive can give; and the toolbar that
/// a choice makes.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include <libflow/study/size_choices.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

/// One way to cut the hoses of all rows.
struct HosePlan {
  Cut cut = Cut::equal;           ///< which way
  std::vector<double> lengths{};  ///< by row, shut rows too [m]
  double total = 0;               ///< of the open rows' hoses [m]
};

/// One choice: indices into the lists of SizeProblem.
struct SizeChoice {
  std::size_t plan = 0, hose_bore = 0, manifold_bore = 0, feed = 0, crack = 0;  ///< into the lists of the same names
  std::vector<std::size_t> orifices{};                                          ///< by group
};

/// A sizing task, complete.
struct SizeProblem {
  Layout layout{};        ///< a bar, its supply ideal
  SizeChoices choices{};  ///< no list empty, but groups, prices and, without check valves, cracks
  std::vector<RowGroup>
      groups{};  ///< first the rows that no group names ("all rows", "other rows"), where there are any
  std::vector<HosePlan> plans{};       ///< ways to cut
  std::vector<WorkingPoint> points{};  ///< two that ask the same of the plumbing are one
  std::vector<double> flows{};         ///< wanted, by point [m3/s]
  std::vector<LiquidState> liquids{};  ///< by point
  std::vector<Liquid> products{};      ///< by point, where it is not the job's liquid (at_band_end); else empty
  std::vector<Range> supply{};         ///< gauge pressure that the drive can give at that flow, by point [Pa]
  std::vector<double> runs{};          ///< shortest hose of each row [m]
  int open_rows = 0;                   ///< rows that are not shut

  /// The bar.
  [[nodiscard]] const Toolbar& toolbar() const { return std::get<Toolbar>(layout.plumbing); }
};

/// Fills in every list and checks it.
/// @throws InputError  a free-form layout; a list that makes no sense; what the toolbar's own checks refuse
[[nodiscard]] SizeProblem size_problem(const Layout& layout, const SizeChoices& choices);

/// The same task with a grid of points over the whole range of its lists, ends included: `choices.verify` speeds and
/// rates, half as many (rounded up) temperatures and side slopes. A list of one value stays one.
[[nodiscard]] SizeProblem whole_envelope(const SizeProblem& p);

/// The same task with every point's viscosity at an end of its band (LiquidState::viscosity_low, viscosity_high), as
/// over_viscosity_band of the main job takes it. Empty where no point has a band.
[[nodiscard]] std::optional<SizeProblem> at_band_end(const SizeProblem& p, bool upper);

/// Adds a point of another problem of the same layout.
void add_point(SizeProblem& p, const SizeProblem& from, std::size_t point);

/// The toolbar that a choice makes. A row's own orifice, hose bore and crack pressure stay as the layout has them; its
/// own hose length is the shortest that its hose can be.
[[nodiscard]] Toolbar toolbar_for(const SizeProblem& p, const SizeChoice& choice);

/// Hose to cut with a choice, feed hoses included [m].
[[nodiscard]] double hose_needed(const SizeProblem& p, const SizeChoice& choice);

/// What is to be made least: the price of the rows' hose, or where no prices are given all hose [m].
[[nodiscard]] double price_of(const SizeProblem& p, const SizeChoice& choice);

}  // namespace libflow
