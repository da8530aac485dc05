// SPDX-License-Identifier: MIT
#include <libflow/study/equal_hoses.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <variant>

#include <boost/math/tools/roots.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <libflow/core/error.hpp>
#include <libflow/core/progress.hpp>
#include <libflow/core/range.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/physics/orifice.hpp>
#include <libflow/solve/solution.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/study/size_slopes.hpp>
#include <libflow/toolbar/build.hpp>
#include <libflow/toolbar/evaluate.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/junctions.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/table.hpp>

namespace libflow {

namespace equal_hoses_detail {

/// Solves one point with the shortest or equal hoses and any orifice.
class Bench {
 public:
  Bench(const SizeProblem& p, std::size_t point) : p_(p), point_(point) {}

  /// @param bore  of every row's orifice [m]; 0: as the layout has it
  /// @param slope  with the exact derivative by the bore, where there is one
  [[nodiscard]] HosesAt at(double bore, std::size_t plan, bool slope = false) const {
    Toolbar t = p_.toolbar();
    t.hose = {.kind = HoseSchedule::Kind::listed, .lengths = {}};
    for (const double length : p_.plans[plan].lengths) t.hose.lengths.push_back(from_si<Length>(length));
    for (RowChange& change : t.row_changes) change.hose_length.reset();
    if (bore > 0.0) {
      OrificeByBore plate = own_plate();
      plate.bore = from_si<Length>(bore);
      t.orifice = plate;
    }
    t.side_slope = p_.points[point_].side_slope;
    Job job = p_.layout.job;
    job.speed = p_.points[point_].speed;
    job.rate = p_.points[point_].rate;
    const Plumbing plumbing = build_network(t, job);
    const Solution s = solve_plumbing(plumbing, p_.liquids[point_]);
    if (!s.usable()) throw IllPosedError(s.message);
    const Evenness e = evaluate(plumbing, job, s, p_.liquids[point_]);
    HosesAt out{.bore = bore, .pressure = e.supply_pressure, .cv = e.cv};
    for (const RowResult& r : e.rows) {
      if (r.shut) continue;
      out.orifice_drop += r.orifice_drop / p_.open_rows;
      if (out.row == 0 || std::abs(r.deviation) > out.deviation) {
        out.deviation = std::abs(r.deviation);
        out.row = r.row;
      }
    }
    // A drive's own parts are not there: the shortest and equal hoses are compared at one total from an ideal supply.
    // A row with an orifice of its own keeps it, which the slope of all together does not know.
    const bool all_alike = std::none_of(t.row_changes.begin(), t.row_changes.end(),
                                        [](const RowChange& c) { return c.orifice.has_value(); });
    if (slope && all_alike && plumbing.tees.empty()) {
      for (const ChoiceSlope& by : choice_slopes(plumbing, p_.liquids[point_], s, e)) {
        if (by.choice != "orifice bore") continue;
        out.deviation_by_bore = by.deviation;
        out.exact_slope = true;
      }
    }
    return out;
  }
  [[nodiscard]] double tolerance() const { return p_.layout.job.tolerance; }
  /// The widest and the narrowest hole that is tried [m]: the hose's own bore; what the plate allows.
  [[nodiscard]] Range bores() const {
    const double thick = si(own_plate().thickness) / physics::hole_length_ratio.high;
    return {std::max(Orifice::bore_range.low, thick), std::min(Orifice::bore_range.high, si(p_.toolbar().hose_bore))};
  }

 private:
  [[nodiscard]] OrificeByBore own_plate() const {
    const auto& own = p_.toolbar().orifice;
    const auto* plate = own ? std::get_if<OrificeByBore>(&*own) : nullptr;
    return plate == nullptr ? OrificeByBore{} : *plate;
  }
  const SizeProblem& p_;
  std::size_t point_;
};

/// From the widest hole down in steps until the shortest hoses are even enough; then the bore between the last two by
/// Newton's method with the exact derivative, kept between the two (Boost.Math); without a derivative by bracketing
/// (algorithm 748).
static void find_needed(const Bench& bench, std::size_t plan, EqualHosesPoint& out) {
  const Range bores = bench.bores();
  const auto miss = [&](double bore) { return bench.at(bore, plan).deviation / bench.tolerance() - 1.0; };
  double wider = bores.high;
  out.needed = bench.at(wider, plan);
  if (out.needed.deviation <= bench.tolerance()) {
    out.need = EqualHosesPoint::Need::any_orifice;
    return;
  }
  for (;;) {
    const double bore = wider / EqualHoses::scan_ratio;
    if (bore < bores.low) break;
    out.needed = bench.at(bore, plan);
    if (out.needed.pressure > EqualHoses::give_up_pressure) break;
    if (out.needed.deviation > bench.tolerance()) {
      wider = bore;
      continue;
    }
    std::uintmax_t steps = 60;
    double root = 0.0;
    if (bench.at(bore, plan, true).exact_slope) {
      const auto miss_and_slope = [&](double at) {
        const HosesAt h = bench.at(at, plan, true);
        return std::pair(h.deviation / bench.tolerance() - 1.0, h.deviation_by_bore / bench.tolerance());
      };
      root = boost::math::tools::newton_raphson_iterate(miss_and_slope, 0.5 * (bore + wider), bore, wider, 40, steps);
      // Newton's last step may end a hair too wide.
      for (double hair = 1e-12; miss(root) > 0.0; hair *= 4.0) root = std::max(bore, root * (1.0 - hair));
    } else {
      root = boost::math::tools::toms748_solve(miss, bore, wider, boost::math::tools::eps_tolerance<double>(40), steps)
                 .first;  // the narrower end: within the tolerance
    }
    out.needed = bench.at(root, plan, true);
    out.need = EqualHosesPoint::Need::some_orifice;
    return;
  }
  out.need = EqualHosesPoint::Need::never;
}

}  // namespace equal_hoses_detail

EqualHoses equal_hoses(const Layout& layout, SizeChoices choices, const Progress& progress) {
  choices.cuts = {Cut::shortest, Cut::equal};
  const std::optional<Length> cut_to = std::exchange(choices.cut_to, from_si<Length>(0.0));  // runs are compared
  choices.groups.clear();
  choices.hose_bores.clear();
  choices.hose_prices.clear();
  choices.manifold_bores.clear();
  choices.feeds.clear();
  choices.cracks.clear();
  EqualHoses out;
  out.problem = size_problem(layout, choices);
  const SizeProblem& p = out.problem;
  SizeChoice cut;
  out.hose_shortest = hose_needed(p, cut);
  cut.plan = 1;
  out.hose_equal = hose_needed(p, cut);
  choices.cut_to = cut_to;
  const SizeProblem as_cut = size_problem(layout, choices);
  out.cut_equal = hose_needed(as_cut, cut);
  out.cut_longest = as_cut.plans[cut.plan].lengths.front();
  cut.plan = 0;
  out.cut_shortest = hose_needed(as_cut, cut);
  for (std::size_t k = 0; k < p.points.size(); ++k) {
    if (!go_on(progress, k, p.points.size())) return out;
    const equal_hoses_detail::Bench bench(p, k);
    EqualHosesPoint at{.point = p.points[k], .flow = p.flows[k]};
    at.shortest = bench.at(0.0, 0);
    at.equal = bench.at(0.0, 1);
    at.limit = std::min(si(p.choices.most_pressure), p.supply[k].high);
    if (p.layout.job.pump_limit) at.limit = std::min(at.limit, si(*p.layout.job.pump_limit));
    if (p.toolbar().hose_rating) at.limit = std::min(at.limit, si(*p.toolbar().hose_rating));
    equal_hoses_detail::find_needed(bench, 0, at);
    out.have_to = out.have_to || at.shortest.deviation > p.layout.job.tolerance;
    out.points.push_back(std::move(at));
    const auto strictness = [](const EqualHosesPoint& x) {
      return x.need == EqualHosesPoint::Need::never ? 0.0 : x.needed.bore;
    };
    if (strictness(out.points[k]) < strictness(out.points[out.strictest])) out.strictest = k;
  }
  const EqualHosesPoint& strict = out.points[out.strictest];
  if (strict.need == EqualHosesPoint::Need::some_orifice) {
    out.one_allowed = true;
    for (std::size_t k = 0; k < p.points.size(); ++k) {
      out.with_one.push_back(equal_hoses_detail::Bench(p, k).at(strict.needed.bore, 0));
      out.one_allowed = out.one_allowed && out.with_one.back().pressure <= out.points[k].limit;
    }
  }
  out.complete = true;
  (void)go_on(progress, p.points.size(), p.points.size());
  return out;
}

}  // namespace libflow
