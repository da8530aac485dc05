// SPDX-License-Identifier: MIT
/// @file
/// Sizing: which orifice, hose, cut, manifold and check valve keep everything within its limits at every operating
/// point, at the least price or with the least hose.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/as_built.hpp>
#include <libflow/study/size_bench.hpp>
#include <libflow/study/size_slopes.hpp>

namespace libflow {

/// One choice and what became of it.
struct SizeCandidate {
  SizeChoice choice{};    ///< what is fitted
  double hose = 0;        ///< to cut, feed hoses included [m]
  double price = 0;       ///< as price_of
  SizeOutcome outcome{};  ///< what became of it
  /// How even such machines are by the layout's tolerances, at the point where it is least even. Empty: no tolerances,
  /// no first-order answer, or neither listed nor cheap enough to be recommended.
  std::optional<AsBuilt> built{};
  /// What the orifices take of a row's loss there, the mean of the rows [-]; 0: not asked, as above.
  double orifice_share = 0;
  bool pareto =
      false;  ///< no other that fits is better in one of price, evenness and pressure and as good in the others
};

/// The recommended choice over the whole envelope, on a grid that is finer than the search's.
struct SizeVerified {
  std::size_t points = 0;  ///< at so many; 0: there is none
  bool holds = false;      ///< every limit holds at all of them
  SizeBinding binding{};   ///< what comes nearest to its limit there; its `point` counts in the grid
  WorkingPoint point{};    ///< where
  double worst_deviation = 0, least_pressure = 0, most_pressure = 0;  ///< of the grid [-], at the gauge [Pa]
  std::size_t added = 0;  ///< points of the grid that a former winner did not hold at; the search took them in
};

/// A choice with the product's viscosity at one end of its band, at every operating point.
struct SizeBandEnd {
  bool upper = false;      ///< the thick end
  bool holds = false;      ///< every limit holds at all points
  SizeBinding binding{};   ///< what comes nearest to its limit, or oversteps it most; its `point` counts in the grid
  WorkingPoint point{};    ///< where
  double viscosity = 0;    ///< there [Pa s]
  std::string refused{};   ///< why there is no answer; empty: there is one
  std::size_t points = 0;  ///< tried at so many
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
  SizeVerified verified{};  ///< the recommended one on a finer grid
  /// How the recommended one answers to choices between those of the lists, at the operating point where it is least
  /// even; empty where there is none.
  std::vector<ChoiceSlope> slopes{};

  /// Which of `fits` is recommended, of those that cost at most `may_cost_more` more than the cheapest: one that is
  /// sure, where there is one; of these, where the layout has tolerances, the cheapest that is, but for `as_even`, as
  /// often even as built as the best; otherwise the cheapest.
  std::size_t best = 0;
  /// The first of `fits` that keeps every limit at both ends of the viscosity's band too; empty where none does. Where
  /// no band is known, 0.
  std::optional<std::size_t> sure{};
  std::vector<SizeBandEnd> band{};         ///< of the recommended, thin end first; empty where no band is known
  std::vector<SizeBandEnd> winner_band{};  ///< of the cheapest, where another one is recommended; otherwise empty

  /// What being sure, and even as built, may cost more, as a share of the cheapest's price. Ours, no source.
  static constexpr double may_cost_more = 0.10;
  /// Choices are alike as built where their shares of even machines differ by no more than this. Ours, no source.
  static constexpr double as_even = 0.01;

  /// The cheapest that fits, or nullptr.
  [[nodiscard]] const SizeCandidate* winner() const { return fits.empty() ? nullptr : &fits.front(); }
  /// What to buy, or nullptr.
  [[nodiscard]] const SizeCandidate* recommended() const { return fits.empty() ? nullptr : &fits[best]; }
  /// The recommended one keeps every limit at both ends of the viscosity's band; true where no band is known.
  [[nodiscard]] bool is_sure() const {
    return std::all_of(band.begin(), band.end(), [](const SizeBandEnd& end) { return end.holds; });
  }
  /// Which of `fits` a person reads: the first ten, the recommended, the first sure one and, up to sixteen in all,
  /// those that are best in one of price, evenness and pressure (`pareto`).
  [[nodiscard]] std::vector<std::size_t> listed() const {
    std::vector<std::size_t> out;
    for (std::size_t k = 0; k < fits.size(); ++k) {
      const bool must = k < 10 || k == best || (!band.empty() && sure == k);
      if (must || (fits[k].pareto && out.size() < 16)) out.push_back(k);
    }
    return out;
  }
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
/// cannot change the answer). Of those that fit, cheapest first, it then looks for the first that holds at both ends of
/// the viscosity's band too, and recommends that where it costs little more; among choices that cost little more and
/// are as sure, a layout with tolerances decides by how many machines are even as built. The recommended one is
/// verified over the whole envelope (`choices.verify`), and where it is called sure at both ends of the band there too;
/// a point at which it does not hold joins the search, which starts again, until it holds everywhere: the exchange
/// method of J. W. Blankenship, J. E. Falk, J. Optim. Theory Appl. 19 (1976) 261 (from memory). The others of the list
/// hold at the points of the search.
/// @throws InputError, IllPosedError
[[nodiscard]] SizeAnswer size_toolbar(const Layout& layout, const SizeChoices& choices, const Progress& progress = {});

}  // namespace libflow
