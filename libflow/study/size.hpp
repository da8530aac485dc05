// SPDX-License-Identifier: MIT
/// @file
/// Sizing: which orifice, hose, cut, manifold and check valve keep everything within its limits at every operating
/// point, at the least price or with the least hose.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/size_bench.hpp>
#include <libflow/study/size_slopes.hpp>

namespace libflow {

/// One choice and what became of it.
struct SizeCandidate {
  SizeChoice choice{};    ///< what is fitted
  double hose = 0;        ///< to cut, feed hoses included [m]
  double price = 0;       ///< as price_of
  SizeOutcome outcome{};  ///< what became of it
  bool pareto =
      false;  ///< no other that fits is better in one of price, evenness and pressure and as good in the others
};

/// The winner over the whole envelope, on a grid that is finer than the search's.
struct SizeVerified {
  std::size_t points = 0;  ///< at so many; 0: there is no winner
  bool holds = false;      ///< every limit holds at all of them
  SizeBinding binding{};   ///< what comes nearest to its limit there; its `point` counts in the grid
  WorkingPoint point{};    ///< where
  double worst_deviation = 0, least_pressure = 0, most_pressure = 0;  ///< of the grid [-], at the gauge [Pa]
  std::size_t added = 0;  ///< points of the grid that a former winner did not hold at; the search took them in
};

/// The answer to a sizing task.
struct SizeAnswer {
  SizeProblem problem{};  ///< as asked
  /// Those that fit: least price first; at one price the one that stays furthest from its limits first.
  std::vector<SizeCandidate> fits{};
  /// Nothing fits: the choice that oversteps its limits least. Something fits: the same of those that are cheaper than
  /// the winner; its binding says why one cannot go cheaper. Empty: there is none.
  std::optional<SizeCandidate> nearest_miss{};
  std::size_t combinations = 0;  ///< in all
  std::size_t tried = 0;         ///< of those, up to where it was stopped
  std::size_t bounded = 0;  ///< of those, left out because a lower bound of their pressure is above what is allowed
  std::size_t refused = 0;  ///< of those, toolbars that cannot be
  std::string refusal{};    ///< why, of the first
  std::size_t solves = 0;   ///< of the network
  bool complete = false;    ///< false: stopped; the list is of what was tried
  SizeVerified verified{};  ///< the winner on a finer grid
  /// How the winner answers to choices between those of the lists, at the operating point where it is least even; empty
  /// where there is no winner.
  std::vector<ChoiceSlope> slopes{};

  /// The cheapest that fits, or nullptr.
  [[nodiscard]] const SizeCandidate* winner() const { return fits.empty() ? nullptr : &fits.front(); }
  /// The layout with a choice.
  [[nodiscard]] Layout layout_with(const SizeCandidate& c) const {
    Layout layout = problem.layout;
    layout.plumbing = toolbar_for(problem, c.choice);
    return layout;
  }
};

/// Most combinations that are tried.
inline constexpr std::size_t most_combinations = 1'000'000;

namespace size_detail {

std::vector<SizeCandidate> all_candidates(const SizeProblem& p);

/// Prices that differ by rounding only are one price.
bool dearer(double a, double b);

}  // namespace size_detail

/// Sizes a bar. Exhaustive: every combination is tried, cheapest first, but for those that a proven bound rules out and
/// those that have already overstepped a limit by more than the nearest miss (what they would show at the other points
/// cannot change the answer). The winner is then verified over the whole envelope (`choices.verify`); a point at which
/// it does not hold joins the search, which starts again, until a winner holds everywhere: the exchange method of J. W.
/// Blankenship, J. E. Falk, J. Optim. Theory Appl. 19 (1976) 261 (from memory). The others of the list hold at the
/// points of the search.
/// @throws InputError, IllPosedError
[[nodiscard]] SizeAnswer size_toolbar(const Layout& layout, const SizeChoices& choices, const Progress& progress = {});

}  // namespace libflow
