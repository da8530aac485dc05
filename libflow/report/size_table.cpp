// SPDX-License-Identifier: MIT
#include <libflow/report/size_table.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/main_job_text.hpp>
#include <libflow/report/size_words.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/size.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow::report_detail {

std::string from_to(const std::string& low, const std::string& high, const char* between) {
  return low == high ? low : low + between + high;
}

std::string ranked_table(const SizeAnswer& a, UnitSystem u) {
  const SizeProblem& p = a.problem;
  const SizeChoices& c = p.choices;
  Table t;
  t.column("");
  t.column(fmt::format("hose\n{}", unit_name<Length>(u)));
  if (!c.hose_prices.empty()) t.column("price");
  t.column("cut", Table::Align::left);
  if (c.hose_bores.size() > 1) t.column(fmt::format("bore\n{}", bore_unit_name(u)));
  t.column(fmt::format("orifice\n{}", bore_unit_name(u)), Table::Align::left);
  if (c.cracks.size() > 1) t.column(fmt::format("crack\n{}", unit_name<Pressure>(u)));
  if (c.manifold_bores.size() > 1) t.column(fmt::format("bar\n{}", bore_unit_name(u)));
  if (c.feeds.size() > 1) t.column("feed", Table::Align::left);
  t.column("off\n%");
  t.column(fmt::format("gauge\n{}", unit_name<Pressure>(u)));
  t.column("limit\n%");
  const bool built = !p.layout.tolerances.empty();
  t.column(built ? "built\n%" : "orif.\n%");
  t.column("", Table::Align::left);
  const auto bore = [&](const Length& b) {
    const std::string text = format_bore(b, u);
    return text.substr(0, text.find(' '));
  };
  const auto hole = [&](const OrificeChoice& o) {
    if (const auto* bored = std::get_if<OrificeByBore>(&o)) return bore(bored->bore);
    return orifice_text(o, u);
  };
  const std::vector<std::size_t> listed = a.listed();
  for (const std::size_t k : listed) {
    const SizeCandidate& f = a.fits[k];
    const bool sure = !a.band.empty() && a.sure == k;
    std::vector<std::string> cells{fmt::format("{}", k + 1), shown_number<Length>(f.hose, u)};
    if (!c.hose_prices.empty()) cells.push_back(fmt::format("{:.2f}", f.price));
    const HosePlan& plan = p.plans[f.choice.plan];
    cells.push_back(plan.cut == Cut::two_lengths
                        ? fmt::format("{}+{}",
                                      short_cut_text(*std::min_element(plan.lengths.begin(), plan.lengths.end()), u),
                                      short_cut_text(*std::max_element(plan.lengths.begin(), plan.lengths.end()), u))
                        : std::string(name_of(plan.cut)));
    if (c.hose_bores.size() > 1) cells.push_back(bore(c.hose_bores[f.choice.hose_bore]));
    std::string holes;
    for (const std::size_t o : f.choice.orifices) holes += (holes.empty() ? "" : "/") + hole(c.orifices[o]);
    cells.push_back(holes);
    if (c.cracks.size() > 1) cells.push_back(shown_number<Pressure>(si(c.cracks[f.choice.crack]), u));
    if (c.manifold_bores.size() > 1) cells.push_back(bore(c.manifold_bores[f.choice.manifold_bore]));
    if (c.feeds.size() > 1) cells.push_back(feed_text(c.feeds[f.choice.feed]));
    const auto psi = [&](double v) { return fmt::format("{:.0f}", value_in(from_si<Pressure>(v), u)); };
    cells.insert(cells.end(), {fmt::format("{:.1f}", 100.0 * f.outcome.worst_deviation),
                               from_to(psi(f.outcome.least_pressure), psi(f.outcome.most_pressure), "-"),
                               fmt::format("{:.0f}", 100.0 * f.outcome.binding.use)});
    const double share = built ? (f.built ? f.built->within : -1.0) : f.orifice_share;
    cells.push_back(share < 0.0 ? std::string("-") : fmt::format("{:.0f}", 100.0 * share));
    cells.push_back(fmt::format("{}{}", f.pareto ? "*" : "", sure ? (f.pareto ? " sure" : "sure") : ""));
    t.line(std::move(cells));
  }
  std::string text = t.text();
  if (listed.size() < a.fits.size()) text += fmt::format(" and {} more\n", a.fits.size() - listed.size());
  return text;
}

std::string ranked_table_note(const SizeAnswer& a, std::size_t width) {
  return wrapped(
      fmt::format(
          "Off: the furthest row from the mean, at the worst point. Gauge: the least and the most of all points. "
          "Limit: 100 is at the limit that is nearest. {}{}{}",
          a.problem.layout.tolerances.empty()
              ? "Orif.: the orifices' share of what a row loses, on average, where it is least even; the larger, "
                "the less hoses that differ count."
              : "Built: how many of such machines are even.",
          a.problem.choices.hose_prices.empty() ? "" : " Price: in the currency of the prices given.",
          !a.band.empty() && a.sure ? " Sure: the first that holds over the whole band of the viscosity." : ""),
      width, 1, " ");
}

}  // namespace libflow::report_detail
