// SPDX-License-Identifier: MIT
#include <libflow/study/size.hpp>

#include <algorithm>
#include <cstddef>
#include <limits>
#include <numeric>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/progress.hpp>
#include <libflow/study/as_built.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/size_bench.hpp>
#include <libflow/toolbar/tolerances.hpp>

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
  // Only what is nearer than all before it becomes a miss, see below.
  const auto keep_nearer = [&] {
    if (miss_here) out.nearest_miss = std::move(miss_here);
  };
  for (SizeCandidate& candidate : all) {
    if (out.tried % 16 == 0 && !go_on(progress, out.tried, all.size())) break;
    if (dearer(candidate.price, price)) {
      price = candidate.price;
      if (out.fits.empty()) keep_nearer();
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
    } else if (out.fits.empty() && candidate.outcome.whole &&
               // What oversteps without bound is still nearer than nothing.
               (candidate.outcome.binding.use < nearest || (!miss_here && !out.nearest_miss))) {
      miss_here = std::move(candidate);
    }
  }
  if (out.fits.empty()) keep_nearer();
  out.complete = out.tried == all.size();
  out.bounded = bench.bounded();
  out.solves += bench.solves();
  std::stable_sort(out.fits.begin(), out.fits.end(), [](const SizeCandidate& a, const SizeCandidate& b) {
    if (dearer(b.price, a.price)) return true;
    if (dearer(a.price, b.price)) return false;
    return a.outcome.binding.use < b.outcome.binding.use;
  });
}

/// A task at the ends of the viscosity's band, the thin one first.
class BandBench {
 public:
  explicit BandBench(const SizeProblem& p) {
    for (const bool upper : {false, true}) {
      if (auto problem = at_band_end(p, upper)) ends_.push_back({upper, std::move(*problem)});
    }
    benches_.reserve(ends_.size());
    for (const End& end : ends_) benches_.emplace_back(end.problem);
  }
  /// Asks at the thick end first, which is mostly the harder one.
  [[nodiscard]] bool holds(const SizeChoice& choice) {
    return std::all_of(benches_.rbegin(), benches_.rend(),
                       [&](SizeBench& bench) { return tried(bench, choice, 1.0 + 1e-9).fits(); });
  }
  [[nodiscard]] std::vector<SizeBandEnd> ends(const SizeChoice& choice) {
    std::vector<SizeBandEnd> out;
    for (std::size_t k = 0; k < ends_.size(); ++k) {
      const SizeProblem& problem = ends_[k].problem;
      const SizeOutcome whole = tried(benches_[k], choice, std::numeric_limits<double>::infinity());
      const std::size_t point = whole.binding.point;
      out.push_back({.upper = ends_[k].upper,
                     .holds = whole.fits(),
                     .binding = whole.binding,
                     .point = problem.points[point],
                     .viscosity = problem.liquids[point].viscosity,
                     .refused = whole.refused,
                     .points = problem.points.size()});
    }
    return out;
  }
  [[nodiscard]] std::size_t solves() const {
    return std::accumulate(benches_.begin(), benches_.end(), std::size_t{0},
                           [](std::size_t sum, const SizeBench& bench) { return sum + bench.solves(); });
  }

 private:
  struct End {
    bool upper;
    SizeProblem problem;
  };
  /// A drive that has no answer with so thick a product is no answer for the choice.
  static SizeOutcome tried(SizeBench& bench, const SizeChoice& choice, double give_up) {
    try {
      return bench.try_choice(choice, give_up);
    } catch (const Error& error) {
      SizeOutcome none;
      none.refused = error.what();
      none.binding.use = std::numeric_limits<double>::infinity();
      return none;
    }
  }

  std::vector<End> ends_;
  std::vector<SizeBench> benches_;  // each holds on to its problem in ends_
};

/// How even the choice is as built, and its orifices' share, at the point where it is least even.
static void judge_as_built(const SizeAnswer& a, SizeCandidate& c) {
  Answer answer;
  answer.layout = a.layout_with(c);
  Layout& layout = answer.layout;
  const WorkingPoint& at = a.problem.points[c.outcome.worst_point];
  layout.job.speed = at.speed;
  layout.job.rate = at.rate;
  layout.job.temperature = at.temperature;
  layout.job.pressure.reset();
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.side_slope = at.side_slope;
  bar.drive.reset();  // the rows alone are judged, at the wanted rate: the supply's own pressure is none of theirs
  std::erase_if(layout.tolerances, [](const Tolerance& t) { return t.of == ToleranceOf::pressure; });
  answer.liquid = a.problem.liquids[c.outcome.worst_point];
  answer.plumbing = build_network(bar, layout.job);
  answer.solution = solve_plumbing(answer.plumbing, answer.liquid);
  if (!answer.solution.usable()) return;
  answer.evenness = evaluate(answer.plumbing, layout.job, answer.solution, answer.liquid);
  c.built = as_built(answer);
  double share = 0.0, rows = 0.0;
  for (const RowResult& r : answer.evenness.rows) {
    if (r.shut || !(r.orifice_share > 0.0)) continue;
    share += r.orifice_share;
    rows += 1.0;
  }
  c.orifice_share = rows > 0.0 ? share / rows : 0.0;
}

/// Of the choices that cost little more, the one that is even as built most often; as sure as the one recommended so
/// far.
static void prefer_even_as_built(SizeAnswer& out, BandBench& bench, const Progress& progress) {
  const double most = (1.0 + SizeAnswer::may_cost_more) * out.winner()->price;
  std::vector<std::size_t> often;  // of `fits`
  for (std::size_t k = 0; k < out.fits.size() && !dearer(out.fits[k].price, most); ++k) {
    if (k % 16 == 0 && !go_on(progress, out.tried, out.tried)) {
      out.complete = false;
      break;
    }
    judge_as_built(out, out.fits[k]);
    if (out.fits[k].built) often.push_back(k);
  }
  const auto within = [&](std::size_t k) { return out.fits[k].built->within; };
  std::stable_sort(often.begin(), often.end(), [&](std::size_t a, std::size_t b) { return within(a) > within(b); });
  const bool sure = out.sure && *out.sure == out.best;
  const auto as_sure = [&](std::size_t k) { return !sure || k == *out.sure || bench.holds(out.fits[k].choice); };
  const auto top = std::find_if(often.begin(), often.end(), as_sure);
  if (top == often.end()) return;
  const double enough = within(*top) - SizeAnswer::as_even;
  std::sort(often.begin(), often.end());
  const auto best =
      std::find_if(often.begin(), often.end(), [&](std::size_t k) { return within(k) >= enough && as_sure(k); });
  out.best = *best;
}

/// Finds the first that holds over the band of the viscosity, and what to recommend.
static void recommend(SizeAnswer& out, const Progress& progress) {
  BandBench bench(out.problem);
  out.best = 0;
  out.sure.reset();
  out.winner_band.clear();
  for (std::size_t k = 0; k < out.fits.size() && !out.sure; ++k) {
    if (k % 16 == 0 && !go_on(progress, out.tried, out.tried)) {
      out.complete = false;
      break;
    }
    if (bench.holds(out.fits[k].choice)) out.sure = k;
  }
  if (out.sure && !dearer(out.fits[*out.sure].price, (1.0 + SizeAnswer::may_cost_more) * out.winner()->price)) {
    out.best = *out.sure;
  }
  if (out.problem.layout.tolerances.empty()) {
    judge_as_built(out, out.fits[out.best]);
  } else {
    prefer_even_as_built(out, bench, progress);
  }
  if (out.sure && out.fits[*out.sure].orifice_share == 0.0) judge_as_built(out, out.fits[*out.sure]);
  out.band = bench.ends(out.recommended()->choice);
  if (out.best > 0) out.winner_band = bench.ends(out.winner()->choice);
  out.solves += bench.solves();
}

/// Whether the recommended one holds over the whole envelope. @return the point of `fine` to add where it does not
static std::optional<std::size_t> verify(SizeAnswer& out, const SizeProblem& fine) {
  SizeBench bench(fine);
  const SizeOutcome whole = bench.try_choice(out.recommended()->choice, std::numeric_limits<double>::infinity());
  out.solves += bench.solves();
  SizeVerified& v = out.verified;
  v.points = fine.points.size();
  v.holds = whole.fits();
  v.binding = whole.binding;
  v.point = fine.points[whole.binding.point];
  v.worst_deviation = whole.worst_deviation;
  v.least_pressure = whole.least_pressure;
  v.most_pressure = whole.most_pressure;
  if (v.holds || !whole.refused.empty() || v.binding.use < 1.0 + 1e-7) return std::nullopt;
  return whole.binding.point;
}

/// The same at both ends of the viscosity's band, for one that is called sure.
static std::optional<std::size_t> verify_band(SizeAnswer& out, const SizeProblem& fine) {
  if (out.band.empty() || !out.is_sure()) return std::nullopt;
  BandBench bench(fine);
  out.band = bench.ends(out.recommended()->choice);
  out.solves += bench.solves();
  for (const SizeBandEnd& end : out.band) {
    if (!end.holds && end.refused.empty() && end.binding.use >= 1.0 + 1e-7) return end.binding.point;
  }
  return std::nullopt;
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
    recommend(out, progress);
    if (!fine) fine = whole_envelope(out.problem);
    // One that is at its limit to the last digits may hold here and not there: then the answer says so.
    std::optional<std::size_t> broken = verify(out, *fine);
    if (!broken) broken = verify_band(out, *fine);
    if (!broken || !out.complete) break;
    add_point(out.problem, *fine, *broken);
    ++out.verified.added;
  }
  if (out.fits.empty()) out.verified = {.added = out.verified.added};
  flag_pareto(out.fits);
  for (const std::size_t k : out.listed()) {
    if (out.fits[k].orifice_share == 0.0) judge_as_built(out, out.fits[k]);
  }
  if (const SizeCandidate* best = out.recommended()) {
    const std::size_t point = best->outcome.worst_point;
    Job job = out.problem.layout.job;
    job.speed = out.problem.points[point].speed;
    job.rate = out.problem.points[point].rate;
    Toolbar toolbar = toolbar_for(out.problem, best->choice);
    toolbar.side_slope = out.problem.points[point].side_slope;
    toolbar.drive.reset();
    out.slopes = choice_slopes(toolbar, job, out.problem.liquids[point]);
  }
  if (out.complete) (void)go_on(progress, all.size(), all.size());
  return out;
}

}  // namespace libflow
