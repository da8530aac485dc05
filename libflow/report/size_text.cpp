// SPDX-License-Identifier: MIT
#include <libflow/report/size_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/size_band_words.hpp>
#include <libflow/report/size_toml.hpp>
#include <libflow/report/size_words.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/report/words.hpp>
#include <libflow/solve/derivative_inputs.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_bench.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/toolbar/drive.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/tolerances.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

static std::string size_verdict(const SizeAnswer& a) {
  const std::string where = a.problem.points.size() == 1
                                ? std::string("at the operating point")
                                : fmt::format("at all {} operating points", a.problem.points.size());
  if (a.fits.empty()) {
    return fmt::format("NOTHING FITS: none of {} combinations keeps every limit {}.", a.tried, where);
  }
  std::string which = fmt::format("the one with the {} is below",
                                  a.problem.choices.hose_prices.empty() ? "least hose" : "cheapest hose");
  if (a.best > 0) {
    which = fmt::format("below is number {} of the list, {}, because it holds over the whole band of the viscosity",
                        a.best + 1, dearer_text(a, a.best));
  } else if (!a.band.empty()) {
    which += a.is_sure() ? "; it holds over the whole band of the viscosity too"
                         : ". NOT SURE: it holds at the most likely viscosity, not over the whole of its band";
  }
  return fmt::format("FITS: {} of {} combinations keep{} every limit {}; {}.", a.fits.size(), a.tried,
                     a.fits.size() == 1 ? "s" : "", where, which);
}

/// "13.40 psi to 45.08 psi", or one of them where both read alike.
static std::string from_to(const std::string& low, const std::string& high, const char* between = " to ") {
  return low == high ? low : low + between + high;
}

/// The window of the gauge pressure, and whose it is.
static std::string window_text(const SizeChoices& c, UnitSystem u) {
  const SizeChoices usual;
  const bool given = c.least_pressure != usual.least_pressure || c.most_pressure != usual.most_pressure;
  return fmt::format("The gauge has to stay from {} to {}: {}.", format(c.least_pressure, u),
                     format(c.most_pressure, u),
                     given ? "the least and the most pressure that were asked for"
                           : "common practice, no source; least_pressure and most_pressure in [size] change it");
}

/// A word and what it says, side by side, wrapped.
static std::string entry(std::string_view word, const std::string& what, std::size_t width) {
  const std::string lead = " " + padded(word, 16, false);
  return wrapped(what, width, lead.size(), lead);
}

static std::string parts_of(const SizeAnswer& a, const SizeCandidate& c, UnitSystem u, std::size_t width) {
  const SizeProblem& p = a.problem;
  const Toolbar& t = p.toolbar();
  std::string text;
  for (std::size_t g = 0; g < p.groups.size(); ++g) {
    const RowGroup& group = p.groups[g];
    text += entry(g == 0 ? "Orifices" : "",
                  fmt::format("{}, {}{}", orifice_text(p.choices.orifices[c.choice.orifices[g]], u),
                              p.groups.size() == 1
                                  ? fmt::format("{} in all, one for every outlet", p.open_rows * t.outlets_per_row)
                                  : name_text(group.name) + ": ",
                              p.groups.size() == 1 ? std::string() : row_list_text(group.rows)),
                  width);
  }
  const HosePlan& plan = p.plans[c.choice.plan];
  text += entry("Hose",
                fmt::format("{} bore, {} in all{}: {}{}", format_bore(p.choices.hose_bores[c.choice.hose_bore], u),
                            shown<Length>(c.hose, u), c.hose > plan.total + 1e-9 ? ", feed hoses included" : "",
                            pieces_text(p, plan, u),
                            si(*p.choices.cut_to) > 0.0 && plan.cut != Cut::rounded
                                ? "; runs rounded up to " + cut_step_text(*p.choices.cut_to, u)
                                : std::string()),
                width);
  if (!p.choices.hose_prices.empty())
    text +=
        entry("", fmt::format("price of the rows' hose {:.2f}, in the currency of the prices given", c.price), width);
  if (t.check_valve) {
    text += entry("Check valves", fmt::format("crack {}", format(p.choices.cracks[c.choice.crack], u)), width);
  }
  text += entry("Manifold",
                fmt::format("{} bore, fed in the {}", format_bore(p.choices.manifold_bores[c.choice.manifold_bore], u),
                            feed_text(p.choices.feeds[c.choice.feed])),
                width);
  const SizeOutcome& o = c.outcome;
  std::string then = fmt::format("the furthest row is {} from the mean; {} at the gauge", percent(o.worst_deviation),
                                 from_to(shown<Pressure>(o.least_pressure, u), shown<Pressure>(o.most_pressure, u)));
  if (std::isfinite(o.least_orifice_drop)) {
    then += fmt::format("; {} across the orifices",
                        from_to(shown<Pressure>(o.least_orifice_drop, u), shown<Pressure>(o.most_orifice_drop, u)));
  }
  return text + entry("Then", then, width);
}

static std::string ranked_table(const SizeAnswer& a, UnitSystem u) {
  const SizeProblem& p = a.problem;
  const SizeChoices& c = p.choices;
  constexpr std::size_t most = 10, most_front = 16;
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
  t.column("off\nmean %");
  t.column(fmt::format("gauge\n{}", unit_name<Pressure>(u)));
  t.column("limit\nused %");
  t.column("", Table::Align::left);
  const auto bore = [&](const Length& b) {
    const std::string text = format_bore(b, u);
    return text.substr(0, text.find(' '));
  };
  const auto hole = [&](const OrificeChoice& o) {
    if (const auto* bored = std::get_if<OrificeByBore>(&o)) return bore(bored->bore);
    return orifice_text(o, u);
  };
  std::size_t lines = 0;
  for (std::size_t k = 0; k < a.fits.size(); ++k) {
    const SizeCandidate& f = a.fits[k];
    const bool sure = !a.band.empty() && a.sure == k;
    if (k >= most && !sure && (!f.pareto || lines >= most_front)) continue;
    ++lines;
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
                               fmt::format("{:.0f}", 100.0 * f.outcome.binding.use),
                               fmt::format("{}{}", f.pareto ? "*" : "", sure ? (f.pareto ? " sure" : "sure") : "")});
    t.line(std::move(cells));
  }
  std::string text = t.text();
  if (lines < a.fits.size()) text += fmt::format(" and {} more\n", a.fits.size() - lines);
  return text;
}

/// What the columns of the ranked table mean.
static std::string table_note(const SizeAnswer& a, std::size_t width) {
  return wrapped(
      fmt::format("Off: the furthest row at the worst point. Gauge: the least and the most of all points. Limit "
                  "used: 100 is at the limit that is nearest.{}{}",
                  a.problem.choices.hose_prices.empty() ? "" : " Price: in the currency of the prices given.",
                  !a.band.empty() && a.sure ? " Sure: the first that holds over the whole band of the viscosity." : ""),
      width, 1, " ");
}

/// What the grid over the whole envelope shows.
static std::string verified_entry(const SizeAnswer& a, UnitSystem u, std::size_t width) {
  const SizeVerified& v = a.verified;
  if (v.points == 1 && v.holds && v.added == 0) {
    return entry("Between points", "there is one operating point only, and nothing between to verify.", width);
  }
  std::string text =
      fmt::format("{} at {} over the whole of these speeds, rates, temperatures and slopes; what binds there: {}.",
                  v.holds ? "verified" : "DOES NOT HOLD", counted(v.points, "point", "points"),
                  binding_text(v.point, v.binding, u));
  if (v.added > 0) {
    text += fmt::format(" {} of these joined the search: a choice that held at the points of the lists did not there.",
                        v.added);
  }
  if (a.fits.size() > 1) text += " The others below hold at the points of the search.";
  return entry("Between points", text, width);
}

/// A change with its sign; none has no sign.
static std::string hundredths(double change) {
  return std::abs(change) < 0.005 ? std::string("0.00") : fmt::format("{:+.2f}", change);
}

/// What a little more or less of each choice would do.
static std::string slopes_section(const SizeAnswer& a, UnitSystem u, std::size_t width) {
  if (a.slopes.empty()) return {};
  const Toolbar& bar = a.problem.toolbar();
  const bool tees =
      std::any_of(bar.manifolds.begin(), bar.manifolds.end(), [](const Manifold& m) { return m.junction_losses; });
  const WorkingPoint& at = a.problem.points[a.recommended()->outcome.worst_point];
  std::string text =
      "\n" +
      wrapped(
          fmt::format("A little more of a choice, all rows alike (exact slopes where it is least even, {}{})",
                      working_point_text(at, u), tees ? "; of the hose bore none: the ports' tees change with it" : ""),
          width);
  for (const ChoiceSlope& s : a.slopes) {
    const bool share = s.unit == "1";
    const double step = share ? 0.1 : 0.01 * s.value;  // small: a slope is no forecast
    const std::string what = share ? "hoses 10 % of the way to equal ones" : s.choice + " 1 % larger";
    text += entry(
        share                          ? "Hose cut"
        : s.choice == "crack pressure" ? "Crack"
        : s.choice == "hose bore"      ? "Hose"
                                       : "Orifice",
        fmt::format("{}: row {}, the furthest, goes {} % points; coefficient of variation {}; "
                    "gauge {} {}",
                    what, s.row, hundredths(100.0 * s.deviation * step), hundredths(100.0 * s.cv * step),
                    s.pressure * step < 0.0 ? "falls by" : "rises by", shown<Pressure>(std::abs(s.pressure * step), u)),
        width);
  }
  return text;
}

static bool has_no_slack(const SizeProblem& p) { return si(*p.choices.extra) == 0.0; }

std::string no_slack_note(const SizeProblem& p, std::size_t width) {
  if (!has_no_slack(p)) return {};
  return wrapped(
      "BUT the lengths are the runs along the bar alone, without drop to the row and slack: hoses cut like that are "
      "too short. Give extra in [size], e.g. extra = \"3 ft\", and ask again.",
      width);
}

/// The choice as built, at the point where it is least even: how many of such machines are even, where the layout has
/// tolerances; and what share of a row's pressure its orifices take there.
static std::string as_built_entries(const SizeAnswer& a, const SizeCandidate& c, std::size_t width) {
  Layout layout = a.layout_with(c);
  const WorkingPoint& at = a.problem.points[c.outcome.worst_point];
  layout.job.speed = at.speed;
  layout.job.rate = at.rate;
  layout.job.temperature = at.temperature;
  auto& bar = std::get<Toolbar>(layout.plumbing);
  bar.side_slope = at.side_slope;
  bar.drive.reset();  // the rows alone are judged, at the wanted rate
  const std::string hint = layout.tolerances.empty() ? "this is the choice as drawn; real parts vary: with "
                                                       "[[tolerance]] in the file it says here how many of such "
                                                       "machines are even, and so does 'libflow tolerance'."
                                                     : std::string();
  std::string text;
  try {
    const Answer answer = main_job_detail::at_most_likely(std::move(layout));
    const std::string built = as_built_sentence(answer);
    if (!hint.empty()) {
      text = entry("As drawn", hint, width);
    } else if (!built.empty()) {
      text = entry("As built", "at its least even point: " + built, width);
    }
    double share = 0.0;
    int rows = 0;
    for (const RowResult& r : answer.evenness.rows) {
      if (r.shut || !(r.orifice_share > 0.0)) continue;
      share += r.orifice_share;
      ++rows;
    }
    if (rows > 0) {
      text += entry("Orifices' share",
                    fmt::format("{:.0f} % of what a row loses, on average, at its least even point; the larger it is, "
                                "the less hoses that differ count.",
                                100.0 * share / rows),
                    width);
    }
  } catch (const Error&) {  // solved before, but not as a job of its own
    return hint.empty() ? std::string() : entry("As drawn", hint, width);
  }
  return text;
}

/// Says so where the layout's own hose bore is the only one tried.
static std::string own_bore_entry(const SizeProblem& p, UnitSystem u, std::size_t width) {
  const Length own = p.toolbar().hose_bore;
  if (p.choices.hose_bores.size() != 1 || p.choices.hose_bores.front() != own) return {};
  return wrapped(fmt::format("Tried: hose bores: {}, the layout's own; give hose_bores in [size] to try others.",
                             format_bore(own, u)),
                 width);
}

Cautions size_cautions(const SizeProblem& p) {
  Cautions all;
  for (const LiquidState& liquid : p.liquids) {
    for (const Caution& c : liquid.cautions) {
      if (std::none_of(all.begin(), all.end(),
                       [&](const Caution& b) { return b.code == c.code && b.text == c.text; })) {
        all.push_back(c);
      }
    }
  }
  if (has_no_slack(p)) {
    all.push_back({"no-slack", "hose",
                   "no drop to the row and no slack is added to the runs along the bar: give extra in "
                   "[size], or hoses are cut too short"});
  }
  return all;
}

}  // namespace report_detail

std::string size_text(const SizeAnswer& a, const TextOptions& options) {
  using namespace report_detail;
  const SizeProblem& p = a.problem;
  const UnitSystem u = options.units.value_or(p.layout.units);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  const SizeCandidate* best = a.recommended();
  const Colour colour = best == nullptr ? Colour::bad : a.is_sure() ? Colour::good : Colour::strong;
  std::string text = coloured(wrapped(size_verdict(a), width), colour, options);
  if (!a.complete) {
    text += wrapped(
        fmt::format("STOPPED after {} of {} combinations, cheapest first: {}.", a.tried, a.combinations,
                    best != nullptr ? "the best is among them, dearer ones are missing" : "the rest was not tried"),
        width);
  }
  text += "\n" +
          wrapped(fmt::format("{}: {}, {}. Each row within {} of the mean. {}", name_text(p.layout.name),
                              p.liquids.front().name, span_text(p.points, u), percent(p.layout.job.tolerance),
                              window_text(p.choices, u)),
                  width, 2) +
          own_bore_entry(p, u, width);
  if (best != nullptr) {
    const SizeCandidate* to_be_sure = !a.is_sure() && a.sure && *a.sure != a.best ? &a.fits[*a.sure] : nullptr;
    text +=
        "\nWhat to buy\n" + no_slack_note(p, width) + parts_of(a, *best, u, width) + as_built_entries(a, *best, width);
    if (to_be_sure != nullptr) {
      text +=
          "\n" +
          wrapped("What to buy to be sure over the whole band of the viscosity, " + dearer_text(a, *a.sure), width) +
          parts_of(a, *to_be_sure, u, width) + as_built_entries(a, *to_be_sure, width);
    }
    text += "\nWhy\n" + entry("What binds", binding_text(p, best->outcome.binding, u) + ".", width) +
            verified_entry(a, u, width) + (a.band.empty() ? std::string() : entry("Viscosity", band_text(a, u), width));
    if (!a.winner_band.empty()) {
      text += entry("The cheapest", fmt::format("number 1 of the list fits, but {}.", band_breaks(a.winner_band, u)),
                    width);
    }
    if (a.nearest_miss) {
      const SizeCandidate& m = *a.nearest_miss;
      text += entry(
          p.choices.hose_prices.empty() ? "With less hose" : "For less",
          fmt::format("the nearest is {} of {} hose, {}, orifice {}, and it breaks: {}.", shown<Length>(m.hose, u),
                      format_bore(p.choices.hose_bores[m.choice.hose_bore], u), name_of(p.plans[m.choice.plan].cut),
                      orifice_text(p.choices.orifices[m.choice.orifices.front()], u),
                      binding_text(p, m.outcome.binding, u)),
          width);
    } else {
      text +=
          entry(p.choices.hose_prices.empty() ? "With less hose" : "For less", "there is nothing to choose.", width);
    }
    text +=
        "\n" +
        wrapped(fmt::format("What else would do (*: nothing else is better in {}, evenness or pressure without being "
                            "worse in another)",
                            p.choices.hose_prices.empty() ? "hose" : "price"),
                width) +
        ranked_table(a, u) + table_note(a, width) + slopes_section(a, u, width) +
        "\nFor the layout file: these keys in place of those that its tables have\n" + size_toml(p, *best, u);
    if (to_be_sure != nullptr) {
      text += "\nThe same, to be sure over the whole band of the viscosity\n" + size_toml(p, *to_be_sure, u);
    }
  } else if (a.nearest_miss) {
    text += "\nThe nearest miss\n" + parts_of(a, *a.nearest_miss, u, width) +
            entry("It breaks", binding_text(p, a.nearest_miss->outcome.binding, u) + ".", width);
  }
  if (a.refused > 0) {
    text += "\n" + wrapped(fmt::format("{} combinations cannot be built, the first because: {}.", a.refused, a.refusal),
                           width);
  }
  text += "\n" + wrapped(fmt::format("{} combinations tried with {} solutions of the network; {} more were left out "
                                     "because a lower bound of their pressure is above what is allowed.",
                                     a.tried - a.bounded, a.solves, a.bounded),
                         width);
  return text + cautions_section(size_cautions(p), width) + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
