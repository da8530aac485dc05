// SPDX-License-Identifier: MIT
#include <libflow/study/size.hpp>

#include <algorithm>
#include <cstddef>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/progress.hpp>
#include <libflow/study/size_bench.hpp>

namespace libflow {

namespace size_detail {

std::vector<SizeCandidate> all_candidates(const SizeProblem& p) {
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

bool dearer(double a, double b) { return a > b * (1.0 + 1e-9) + 1e-12; }

/// What differs by rounding only is alike: a millionth of the mean rate, a billionth of a pressure.
static bool unevener(double a, double b) { return a > b + 1e-6; }
static bool higher(double a, double b) { return a > b * (1.0 + 1e-9); }

static void flag_pareto(std::vector<SizeCandidate>& fits) {
  for (SizeCandidate& a : fits) {
    a.pareto = std::none_of(fits.begin(), fits.end(), [&](const SizeCandidate& b) {
      const SizeOutcome &x = a.outcome, &y = b.outcome;
      const bool as_good = !dearer(b.price, a.price) && !unevener(y.worst_deviation, x.worst_deviation) &&
                           !higher(y.most_pressure, x.most_pressure);
      const bool better = dearer(a.price, b.price) || unevener(x.worst_deviation, y.worst_deviation) ||
                          higher(x.most_pressure, y.most_pressure);
      return as_good && better;
    });
  }
}

/// One search over all candidates at the points that the problem has now.
static void search(SizeAnswer& out, std::vector<SizeCandidate> all, const Progress& progress) {
  SizeBench bench(out.problem);
  out.fits.clear();
  out.nearest_miss.reset();
  out.tried = out.refused = 0;
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
  out.solves += bench.solves();
  std::stable_sort(out.fits.begin(), out.fits.end(), [](const SizeCandidate& a, const SizeCandidate& b) {
    if (dearer(b.price, a.price)) return true;
    if (dearer(a.price, b.price)) return false;
    return a.outcome.binding.use < b.outcome.binding.use;
  });
}

/// Whether the winner holds over the whole envelope. @return the point of `fine` to add where it does not
static std::optional<std::size_t> verify(SizeAnswer& out, const SizeProblem& fine) {
  SizeBench bench(fine);
  const SizeOutcome whole = bench.try_choice(out.winner()->choice, std::numeric_limits<double>::infinity());
  out.solves += bench.solves();
  SizeVerified& v = out.verified;
  v.points = fine.points.size();
  v.holds = whole.fits();
  v.binding = whole.binding;
  v.point = fine.points[whole.binding.point];
  v.worst_deviation = whole.worst_deviation;
  v.least_pressure = whole.least_pressure;
  v.most_pressure = whole.most_pressure;
  if (v.holds || !whole.refused.empty()) return std::nullopt;
  return whole.binding.point;
}

}  // namespace size_detail

SizeAnswer size_toolbar(const Layout& layout, const SizeChoices& choices, const Progress& progress) {
  using namespace size_detail;
  SizeAnswer out;
  out.problem = size_problem(layout, choices);
  const std::vector<SizeCandidate> all = all_candidates(out.problem);
  out.combinations = all.size();
  std::optional<SizeProblem> fine;
  for (;;) {
    search(out, all, progress);
    if (out.fits.empty()) break;
    if (!fine) fine = whole_envelope(out.problem);
    const std::optional<std::size_t> broken = verify(out, *fine);
    // A winner that is at its limit to the last digits may hold here and not there: then the answer says so.
    if (!broken || !out.complete || out.verified.binding.use < 1.0 + 1e-7) break;
    add_point(out.problem, *fine, *broken);
    ++out.verified.added;
  }
  if (out.fits.empty()) out.verified = {.added = out.verified.added};
  flag_pareto(out.fits);
  if (out.winner() != nullptr) {
    const std::size_t point = out.winner()->outcome.worst_point;
    Job job = out.problem.layout.job;
    job.speed = out.problem.points[point].speed;
    job.rate = out.problem.points[point].rate;
    Toolbar toolbar = toolbar_for(out.problem, out.winner()->choice);
    toolbar.side_slope = out.problem.points[point].side_slope;
    toolbar.drive.reset();
    out.slopes = choice_slopes(toolbar, job, out.problem.liquids[point]);
  }
  if (out.complete) (void)go_on(progress, all.size(), all.size());
  return out;
}

}  // namespace libflow
