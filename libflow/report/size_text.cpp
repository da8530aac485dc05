// SPDX-License-Identifier: MIT
#include <libflow/report/size_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/size_band_words.hpp>
#include <libflow/report/size_table.hpp>
#include <libflow/report/size_toml.hpp>
#include <libflow/report/size_words.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/as_built.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_bench.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/tolerances.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

/// More machines are even as built with the recommended than with the cheapest: "about 78 % of such machines are even
/// as built, not 1 %"; empty where that is not so.
static std::string evener_as_built(const SizeAnswer& a) {
  const std::optional<AsBuilt>&best = a.recommended()->built, &cheapest = a.winner()->built;
  if (!best || !cheapest || !(best->within > cheapest->within)) return {};
  return fmt::format("{} of such machines are even as built, not {}", percent(best->within), percent(cheapest->within));
}

/// The cheapest does not hold over the whole band of the viscosity.
static bool cheapest_is_unsure(const SizeAnswer& a) {
  return std::any_of(a.winner_band.begin(), a.winner_band.end(), [](const SizeBandEnd& end) { return !end.holds; });
}

static std::string why_not_the_cheapest(const SizeAnswer& a) {
  std::string why;
  if (cheapest_is_unsure(a) && a.is_sure()) why = "it holds over the whole band of the viscosity";
  if (const std::string built = evener_as_built(a); !built.empty()) why += (why.empty() ? "" : " and ") + built;
  return why;
}

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
    which = fmt::format("below is number {} of the list, {}, because {}", a.best + 1, dearer_text(a, a.best),
                        why_not_the_cheapest(a));
  } else if (!a.band.empty()) {
    which += a.is_sure() ? "; it holds over the whole band of the viscosity too"
                         : ". NOT SURE: it holds at the most likely viscosity, not over the whole of its band";
  }
  const std::string text = fmt::format("FITS: {} of {} combinations keep{} every limit {}; {}.", a.fits.size(), a.tried,
                                       a.fits.size() == 1 ? "s" : "", where, which);
  const std::optional<AsBuilt>& built = a.recommended()->built;
  if (!built || built->within >= 0.5) return text;
  return fmt::format("{} BUT: with the layout's tolerances only {} of such machines are even as built.", text,
                     percent(built->within));
}

/// The window of the gauge pressure, and whose it is.
static std::string window_text(const SizeProblem& p, UnitSystem u) {
  const SizeChoices usual;
  const SizeChoices& c = p.choices;
  if (p.layout.job.pump_limit && *p.layout.job.pump_limit < c.most_pressure) {
    return fmt::format("The gauge has to stay from {} to {}, the limit that the layout states.",
                       format(c.least_pressure, u), format(*p.layout.job.pump_limit, u));
  }
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
                fmt::format("{} bore, fed {}", format_bore(p.choices.manifold_bores[c.choice.manifold_bore], u),
                            feed_place_text(p.choices.feeds[c.choice.feed], "the")),
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

/// The one of the list that is even as built most often, where that is not the recommended one.
static std::string evenest_built_entry(const SizeAnswer& a, std::size_t width) {
  const auto less = [&](std::size_t x, std::size_t y) {
    const auto within = [&](std::size_t k) { return a.fits[k].built ? a.fits[k].built->within : -1.0; };
    return within(x) < within(y);
  };
  const std::vector<std::size_t> listed = a.listed();
  const std::size_t k = *std::max_element(listed.begin(), listed.end(), less);
  const std::optional<AsBuilt>&most = a.fits[k].built, &own = a.recommended()->built;
  if (!most || !own || most->within <= own->within + SizeAnswer::as_even) return {};
  const bool unsure = a.is_sure() && !a.band.empty();  // else it would be the recommended, or costs too much
  const bool dear = a.fits[k].price > (1.0 + SizeAnswer::may_cost_more) * a.winner()->price;
  return entry("Evener as built",
               fmt::format("number {} of the list, {}: {} of such machines are even, not {}{}.", k + 1,
                           dearer_text(a, k), percent(most->within), percent(own->within),
                           dear     ? ""
                           : unsure ? "; but it does not hold over the whole band of the viscosity"
                                    : ""),
               width);
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

/// How even such machines are at the choice's least even point, and what share of a row's pressure its orifices take.
static std::string as_built_entries(const SizeAnswer& a, const SizeCandidate& c, std::size_t width) {
  std::string text;
  if (c.built) {
    text =
        entry("As built", "with the layout's tolerances, at its least even point: " + as_built_words(*c.built), width);
  } else if (a.problem.layout.tolerances.empty()) {
    text = entry("As drawn",
                 "this is the choice as drawn; real parts vary: with [[tolerance]] in the file the choice goes by how "
                 "many of such machines are even.",
                 width);
  } else {
    text = entry("As built", "'libflow tolerance' of the layout with this choice says how even it is as built.", width);
  }
  if (c.orifice_share > 0.0) {
    text +=
        entry("Orifices' share",
              fmt::format("{:.0f} % of what a row loses, on average, at its least even point; the larger it is, the "
                          "less hoses that differ count.",
                          100.0 * c.orifice_share),
              width);
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
                              window_text(p, u)),
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
    text += evenest_built_entry(a, width);
    if (cheapest_is_unsure(a) && a.is_sure()) {
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
        ranked_table(a, u) + ranked_table_note(a, width) + slopes_section(a, u, width) + "\n" +
        wrapped("For the layout file: write these keys over those of the same name; the other keys of each table stay",
                width) +
        size_toml(p, *best, u);
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
