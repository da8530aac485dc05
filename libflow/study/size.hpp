// SPDX-License-Identifier: MIT
/// @file
/// Sizing: which orifice, hose, cut, manifold and check valve keep everything within its limits at every operating
/// point, at the least price or with the least hose.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/progress.hpp>
#include <libflow/study/size_bench.hpp>

namespace libflow {

/// One choice and what became of it.
struct SizeCandidate {
  SizeChoice choice{};
  double hose = 0;   ///< to cut, feed hoses included [m]
  double price = 0;  ///< as price_of
  SizeOutcome outcome{};
  bool pareto =
      false;  ///< no other that fits is better in one of price, evenness and pressure and as good in the others
};

/// The answer to a sizing task.
struct SizeAnswer {
  SizeProblem problem{};
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

inline std::vector<SizeCandidate> all_candidates(const SizeProblem& p) {
  const SizeChoices& c = p.choices;
  double count = static_cast<double>(p.plans.size() * c.hose_bores.size() * c.manifold_bores.size() * c.feeds.size() *
                                     std::max<std::size_t>(1, c.cracks.size()));
  std::size_t orifices = 1;
  for (std::size_t g = 0; g < p.groups.size(); ++g) {
    count *= static_cast<double>(c.orifices.size());
    if (count <= static_cast<double>(most_combinations)) orifices *= c.orifices.size();
  }
  if (count > static_cast<double>(most_combinations)) {
    throw InputError("size", fmt::format("{:.3g} combinations", count),
                     fmt::format("at most {}: shorter lists or fewer groups", most_combinations));
  }
  std::vector<SizeCandidate> all;
  all.reserve(static_cast<std::size_t>(count));
  for (std::size_t plan = 0; plan < p.plans.size(); ++plan) {
    for (std::size_t bore = 0; bore < c.hose_bores.size(); ++bore) {
      for (std::size_t bar = 0; bar < c.manifold_bores.size(); ++bar) {
        for (std::size_t feed = 0; feed < c.feeds.size(); ++feed) {
          for (std::size_t crack = 0; crack < std::max<std::size_t>(1, c.cracks.size()); ++crack) {
            for (std::size_t k = 0; k < orifices; ++k) {
              SizeCandidate candidate;
              candidate.choice = {plan, bore, bar, feed, crack, {}};
              std::size_t rest = k;
              for (std::size_t g = 0; g < p.groups.size(); ++g) {
                candidate.choice.orifices.push_back(rest % c.orifices.size());
                rest /= c.orifices.size();
              }
              candidate.hose = hose_needed(p, candidate.choice);
              candidate.price = price_of(p, candidate.choice);
              all.push_back(std::move(candidate));
            }
          }
        }
      }
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.price < b.price; });
  return all;
}

/// Prices that differ by rounding only are one price.
inline bool dearer(double a, double b) { return a > b * (1.0 + 1e-9) + 1e-12; }

inline void flag_pareto(std::vector<SizeCandidate>& fits) {
  for (SizeCandidate& a : fits) {
    a.pareto = std::none_of(fits.begin(), fits.end(), [&](const SizeCandidate& b) {
      const SizeOutcome &x = a.outcome, &y = b.outcome;
      const bool as_good =
          !dearer(b.price, a.price) && y.worst_deviation <= x.worst_deviation && y.most_pressure <= x.most_pressure;
      const bool better =
          dearer(a.price, b.price) || y.worst_deviation < x.worst_deviation || y.most_pressure < x.most_pressure;
      return as_good && better;
    });
  }
}

}  // namespace size_detail

/// Sizes a bar. Exhaustive: every combination is tried, cheapest first, but for those that a proven bound rules out and
/// those that have already overstepped a limit by more than the nearest miss (what they would show at the other points
/// cannot change the answer). Everything holds at the operating points given, not between them: list what matters.
/// @throws InputError, IllPosedError
[[nodiscard]] inline SizeAnswer size_toolbar(const Layout& layout, const SizeChoices& choices,
                                             const Progress& progress = {}) {
  using namespace size_detail;
  SizeAnswer out;
  out.problem = size_problem(layout, choices);
  std::vector<SizeCandidate> all = all_candidates(out.problem);
  out.combinations = all.size();
  SizeBench bench(out.problem);

  constexpr double infinite = std::numeric_limits<double>::infinity();
  std::optional<SizeCandidate> miss_here;  // at the present price
  double price = -infinite;
  const auto use_of = [&](const std::optional<SizeCandidate>& c) { return c ? c->outcome.binding.use : infinite; };
  for (SizeCandidate& candidate : all) {
    if (out.tried % 16 == 0 && !go_on(progress, out.tried, all.size())) break;
    if (dearer(candidate.price, price)) {
      price = candidate.price;
      if (out.fits.empty() && use_of(miss_here) < use_of(out.nearest_miss)) std::swap(out.nearest_miss, miss_here);
      miss_here.reset();
    }
    const double nearest = std::min(use_of(miss_here), use_of(out.nearest_miss));
    const double give_up = out.fits.empty() ? std::max(1.0 + 1e-9, nearest) : 1.0 + 1e-9;
    candidate.outcome = bench.try_choice(candidate.choice, give_up);
    ++out.tried;
    if (!candidate.outcome.refused.empty()) {
      if (out.refused++ == 0) out.refusal = candidate.outcome.refused;
      continue;
    }
    if (candidate.outcome.fits()) {
      out.fits.push_back(std::move(candidate));
    } else if (out.fits.empty() && candidate.outcome.whole && candidate.outcome.binding.use < nearest) {
      miss_here = std::move(candidate);
    }
  }
  if (out.fits.empty() && use_of(miss_here) < use_of(out.nearest_miss)) out.nearest_miss = std::move(miss_here);
  out.complete = out.tried == all.size();
  out.bounded = bench.bounded();
  out.solves = bench.solves();
  std::stable_sort(out.fits.begin(), out.fits.end(), [](const SizeCandidate& a, const SizeCandidate& b) {
    if (dearer(b.price, a.price)) return true;
    if (dearer(a.price, b.price)) return false;
    return a.outcome.binding.use < b.outcome.binding.use;
  });
  flag_pareto(out.fits);
  if (out.complete) (void)go_on(progress, all.size(), all.size());
  return out;
}

}  // namespace libflow
