// SPDX-License-Identifier: MIT
/// @file
/// Do my hoses have to be equal? The smallest drop across the orifice at which the shortest hoses are even enough.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include <boost/math/tools/toms748_solve.hpp>

#include <libflow/core/progress.hpp>
#include <libflow/study/size_bench.hpp>

namespace libflow {

/// How even the bar is with one orifice and the shortest, or equal, hoses. SI.
struct HosesAt {
  double bore = 0;          ///< of the orifice [m]; 0: as the layout has it, none or by rating
  double orifice_drop = 0;  ///< mean of the rows [Pa]
  double pressure = 0;      ///< at the gauge [Pa]
  double deviation = 0;     ///< largest of a row from the mean, either way [-]
  int row = 0;              ///< whose it is
  double cv = 0;            ///< [-]
};

/// At one operating point.
struct EqualHosesPoint {
  WorkingPoint point{};
  double flow = 0;  ///< total [m3/s]
  enum class Need {
    some_orifice,  ///< the shortest hoses are even from `needed` on: that bore or a smaller one, that drop or a larger
    any_orifice,   ///< they are even whatever the orifice, up to the hose's own bore
    never  ///< they are not even below `give_up_pressure`: something else than hoses decides, or hoses far too thin
  };
  Need need = Need::some_orifice;
  HosesAt needed{};    ///< the largest bore at which the shortest hoses are within the tolerance; any_orifice: the
                       ///< widest tried; never: the last tried
  HosesAt shortest{};  ///< with the layout's own orifice
  HosesAt equal{};     ///< with the layout's own orifice
  double limit = std::numeric_limits<double>::infinity();  ///< highest gauge pressure allowed here [Pa]

  [[nodiscard]] bool reachable() const { return need != Need::never && needed.pressure <= limit; }
};

/// The answer, at every operating point.
struct EqualHoses {
  SizeProblem problem{};
  std::vector<EqualHosesPoint> points{};
  std::size_t strictest = 0;  ///< the point that asks for the smallest bore (or never)
  double hose_equal = 0;      ///< with equal hoses, feed hoses included [m]
  double hose_shortest = 0;   ///< with the shortest [m]
  bool have_to = false;       ///< with the layout's own orifice the shortest hoses are outside the tolerance somewhere
  /// By point, all with the strictest point's bore and the shortest hoses: one orifice for everything. Empty where no
  /// point asks for a certain bore.
  std::vector<HosesAt> with_one{};
  bool one_allowed = false;  ///< that bore keeps the gauge within what is allowed at every point
  bool complete = false;

  static constexpr double give_up_pressure = 7e6;  ///< at the gauge [Pa]; no row plumbing stands it
  static constexpr double scan_ratio = 1.05;       ///< from bore to bore of the search
};

namespace equal_hoses_detail {

/// Solves one point with the shortest or equal hoses and any orifice.
class Bench {
 public:
  Bench(const SizeProblem& p, std::size_t point) : p_(p), point_(point) {}

  /// @param bore  of every row's orifice [m]; 0: as the layout has it
  [[nodiscard]] HosesAt at(double bore, std::size_t plan) const {
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
/// bracketing root finding (Boost.Math, algorithm 748).
inline void find_needed(const Bench& bench, std::size_t plan, EqualHosesPoint& out) {
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
    const auto bracket =
        boost::math::tools::toms748_solve(miss, bore, wider, boost::math::tools::eps_tolerance<double>(40), steps);
    out.needed = bench.at(bracket.first, plan);  // the narrower end: within the tolerance
    out.need = EqualHosesPoint::Need::some_orifice;
    return;
  }
  out.need = EqualHosesPoint::Need::never;
}

}  // namespace equal_hoses_detail

/// Answers for every operating point of `choices` (its speeds, rates, temperatures, slopes; its pressure window; its
/// `extra`); what it may choose from is not used. The search goes from wide to narrow in steps of 5 % of the bore, so
/// it finds the first bore that is even enough unless that holds over less than a step only.
/// @throws InputError, IllPosedError
[[nodiscard]] inline EqualHoses equal_hoses(const Layout& layout, SizeChoices choices = {},
                                            const Progress& progress = {}) {
  choices.cuts = {Cut::shortest, Cut::equal};
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
