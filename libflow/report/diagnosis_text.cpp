// SPDX-License-Identifier: MIT
#include <libflow/report/diagnosis_text.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/catch_doubts_text.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/size_words.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow {

namespace report_detail {

/// "5.2 % (4.0 to 6.1 %)", without the brackets where nothing was fitted.
template <class Show>
std::string with_interval(const LikelyCause& l, const Show& show) {
  if (!(l.high > l.low)) return show(l.cause.size);
  return fmt::format("{} ({} to {})", show(l.cause.size), show(l.low), show(l.high));
}

std::string cause_phrase(const Layout& layout, const LikelyCause& l, UnitSystem u) {
  using Of = CatchCauseKind;
  const CatchCause& c = l.cause;
  const auto& bar = std::get<Toolbar>(layout.plumbing);
  const std::vector<build_detail::Row> rows = build_detail::make_rows(bar);
  const auto bore = [&](double metres) { return format_bore(from_si<Length>(metres), u); };
  const std::string which = fmt::format("row {}", c.row);
  const auto manifold = [&] { return build_detail::manifold_name(bar, c.manifold); };
  switch (c.kind) {
    case Of::orifice: {
      const double own = catch_detail::bore_of(*catch_detail::row_of(rows, c.row).orifice);
      return fmt::format("{}'s orifice is {}: bore {} instead of {}", which,
                         c.size < 1.0 ? "partly plugged or too small" : "worn or too large",
                         with_interval(l, [&](double f) { return bore(f * own); }), bore(own));
    }
    case Of::other_orifice:
      return fmt::format("{} was given another orifice: bore {} instead of {}", which, bore(c.size),
                         bore(catch_detail::bore_of(*catch_detail::row_of(rows, c.row).orifice)));
    case Of::hose_length: {
      const double own = catch_detail::row_of(rows, c.row).hose_length;
      return fmt::format("{}'s hose is {}: {} instead of {}", which, c.size > 1.0 ? "longer" : "shorter",
                         with_interval(l, [&](double f) { return shown<Length>(f * own, u); }), shown<Length>(own, u));
    }
    case Of::hose_bore: {
      const double own = catch_detail::row_of(rows, c.row).hose_bore;
      return fmt::format("{}'s hose is {}: it works like a bore of {} instead of {}", which,
                         c.size < 1.0 ? "kinked, pinched or too narrow" : "wider",
                         with_interval(l, [&](double f) { return bore(f * own); }), bore(own));
    }
    case Of::check_valve: {
      const double own = catch_detail::crack_of(catch_detail::row_of(rows, c.row));
      return fmt::format("{}'s check valve {}: it opens at {} instead of {}", which,
                         c.size > 0.0 ? "sticks or has too strong a spring" : "is weak or held open",
                         with_interval(l, [&](double a) { return shown<Pressure>(std::max(0.0, own + a), u); }),
                         shown<Pressure>(own, u));
    }
    case Of::hoses_swapped:
      return fmt::format("rows {} and {} have each other's hose: {} and {} by the layout", c.row, c.other,
                         shown<Length>(catch_detail::row_of(rows, c.row).hose_length, u),
                         shown<Length>(catch_detail::row_of(rows, c.other).hose_length, u));
    case Of::side_slope:
      return fmt::format("the bar leans: slope {} more than the layout says (+ right end higher)",
                         with_interval(l, [&](double a) { return shown<Angle>(a, u); }));
    case Of::bar_bore:
      return fmt::format("{} is constricted: it works like a bore of {} instead of {}", manifold(),
                         with_interval(l, [&](double f) { return bore(f * si(bar.manifolds[c.manifold].bore)); }),
                         bore(si(bar.manifolds[c.manifold].bore)));
    case Of::feed_place:
      return fmt::format("{} is fed {} instead of {}", manifold(),
                         feed_place_text(static_cast<ManifoldFeed>(static_cast<int>(std::lround(c.size))), "its"),
                         feed_place_text(bar.manifolds[c.manifold].feed, "its"));
    case Of::feed_hose:
      return fmt::format("the feed hose of {} is constricted: it works like a bore of {} instead of {}", manifold(),
                         with_interval(l, [&](double f) { return bore(f * si(bar.manifolds[c.manifold].feed_bore)); }),
                         bore(si(bar.manifolds[c.manifold].feed_bore)));
    case Of::density:
    case Of::viscosity: {
      const bool weight = c.kind == Of::density;
      const LiquidState now = layout.job.liquid.at(layout.job.temperature);
      return fmt::format("the product is {} than the layout says: {} instead of {}",
                         weight ? (c.size > 1.0 ? "heavier" : "lighter") : (c.size > 1.0 ? "thicker" : "thinner"),
                         with_interval(l,
                                       [&](double f) {
                                         return weight ? shown<Density>(f * now.density, u)
                                                       : shown<Viscosity>(f * now.viscosity, u);
                                       }),
                         weight ? shown<Density>(now.density, u) : shown<Viscosity>(now.viscosity, u));
    }
    case Of::gauge:
      return fmt::format("the gauge reads too {}: the true pressure at the bar is {} of its reading",
                         c.size > 1.0 ? "low" : "high, or something behind it takes pressure",
                         with_interval(l, [](double f) { return percent(f); }));
    case Of::measure:
      return fmt::format("the watch or the measure is off: every cup holds {} of what it should",
                         with_interval(l, [](double f) { return percent(f); }));
    case Of::hose_schedule: {
      // The row whose hose changes most tells the schedule; the longest stay as they are.
      const std::vector<double> other = catch_detail::other_schedule(rows);
      double low = HUGE_VAL, high = 0.0;
      std::size_t inner = 0;
      const auto change = [&](std::size_t i) { return rows[i].shut ? 0.0 : other[i] - rows[i].hose_length; };
      for (std::size_t i = 0; i < other.size(); ++i) {
        if (rows[i].shut) continue;
        low = std::min(low, rows[i].hose_length);
        high = std::max(high, rows[i].hose_length);
        if (std::abs(change(i)) > std::abs(change(inner))) inner = i;
      }
      const std::string longest = shown<Length>(high, u);
      const auto range = [&](const std::string& least) {
        return fmt::format("from {}, where a row is near its port, to {}", least, longest);
      };
      const bool equal = catch_detail::equal_hose_lengths(rows);
      const bool to_equal = !equal && std::abs(c.size - 1.0) < 0.15;  // nearer than hoses are cut and cups are read
      const auto at = [&](double size) { return shown<Length>(rows[inner].hose_length + size * change(inner), u); };
      std::string least = at(c.size);
      if (l.high > l.low) {
        const bool falls = change(inner) < 0.0;  // the larger the size, the shorter the hose
        least += fmt::format(" ({} to {})", at(falls ? l.high : l.low), at(falls ? l.low : l.high));
      }
      return fmt::format("the hoses are not those of this file (is it the right file?): {} instead of {}",
                         to_equal ? "all of about " + longest : range(least),
                         equal ? "all of " + longest : shown<Length>(low, u) + " to " + longest);
    }
    case Of::orifice_set: {
      const double own = bar.orifice ? catch_detail::bore_of(*bar.orifice) : 0.0;
      const auto show = [&](double f) { return own > 0.0 ? bore(f * own) : percent(f) + " of the layout's bore"; };
      return fmt::format("all rows have another orifice: {}{}", with_interval(l, show),
                         own > 0.0 ? " instead of " + bore(own) : "");
    }
  }
  return {};
}

/// The same in a few words, for a list of predictions.
static std::string_view short_phrase(CatchCauseKind kind) {
  constexpr std::string_view words[] = {
      "the orifice", "another orifice",  "the hose's length", "the hose's bore",    "the check valve", "swapped hoses",
      "the slope",   "the manifold",     "the feed's place",  "the feed hose",      "the density",     "the viscosity",
      "the gauge",   "watch or measure", "the orifice set",   "the hoses' schedule"};
  return words[static_cast<std::size_t>(kind)];
}

std::string takes_as_right(const std::vector<CatchVerdict>& catches) {
  const bool off = std::any_of(catches.begin(), catches.end(), [](const CatchVerdict& v) { return v.level.off; });
  return off ? "First find out why the whole bar is off, and catch again. What is said below of single rows compares "
               "them "
               "with each other only."
             : "";
}

std::string next_phrase(const FoundCause& f, UnitSystem u, double time) {
  using Ask = NextMeasurement::Kind;
  const NextMeasurement& n = *f.next;
  const std::string p = shown<Pressure>(n.pressure, u);
  std::string text;
  bool gauge = false;
  switch (n.kind) {
    case Ask::pressure:
      text = fmt::format("catch row {} and its neighbours again with the gauge at {}.", n.row, p);
      break;
    case Ask::water:
      text = fmt::format("catch row {} and its neighbours with water, the gauge at {}.", n.row, p);
      break;
    case Ask::swap_orifices:
    case Ask::swap_valves:
    case Ask::swap_hoses:
      text = fmt::format("let rows {} and {} change {} and catch them again at {}.", std::min(n.row, n.other),
                         std::max(n.row, n.other),
                         n.kind == Ask::swap_orifices ? "orifices"
                         : n.kind == Ask::swap_valves ? "check valves"
                                                      : "hoses",
                         p);
      break;
    case Ask::gauge_at_row:
      text =
          fmt::format("put a second gauge between row {}'s hose and its check valve, the first one at {}.", n.row, p);
      gauge = true;
      break;
    case Ask::gauge_at_bar_end:
      text = fmt::format("put a second gauge at the manifold's port of row {}, the first one at {}.", n.row, p);
      gauge = true;
      break;
  }
  std::vector<std::pair<double, std::string>> predictions;
  for (std::size_t k = 0; k < n.predicted.size(); ++k) {
    predictions.emplace_back(n.predicted[k],
                             gauge ? shown<Pressure>(n.predicted[k], u)
                                   : fmt::format("{} {}", cup_number(n.predicted[k] * time, u), cup_unit(u)));
  }
  text += gauge ? " It should then show " : fmt::format(" Row {} should then collect in {:g} s ", n.row, time);
  for (std::size_t k = 0; k < predictions.size(); ++k) {
    text += fmt::format("{}{} if it is {}",
                        k == 0                        ? ""
                        : k + 1 == predictions.size() ? " and "
                                                      : ", ",
                        predictions[k].second, short_phrase(f.likely[k].cause.kind));
  }
  return text + ".";
}

/// What the group of a cause is told apart by where no single measurement is good enough.
static std::string without_next(const FoundCause& f) {
  return f.best().row == 0
             ? "Check each of them at the bar. A catch of all rows at another pressure tells most of them "
               "apart: a slip of watch or measure takes the same share of both."
             : "No single further catch or gauge would tell them apart well: look at the parts.";
}

/// The explanation of the whole bar that a row's size goes with; empty where the whole bar has one only, or none.
static std::string beside_phrase(const Diagnosis& d, const LikelyCause& l) {
  const bool open = std::any_of(d.causes.begin(), d.causes.end(),
                                [](const FoundCause& c) { return c.best().row == 0 && !c.certain(); });
  std::string text;
  for (const CatchCause& c : l.others) {
    if (!open || c.row > 0) continue;
    text += fmt::format("{} {}", text.empty() ? ", where the whole bar's fault is" : " and", short_phrase(c.kind));
  }
  return text;
}

CauseWords cause_words(const Diagnosis& d, std::size_t k, const Layout& layout, UnitSystem u, double time) {
  const FoundCause& f = d.causes.at(k);
  const bool row = f.best().of_row();
  const auto phrase = [&](const LikelyCause& l) {
    return cause_phrase(layout, l, u) + (l.at_end ? ", which is the end of what was tried" : "") +
           (l.cause.of_row() ? beside_phrase(d, l) : "");
  };
  CauseWords words;
  if (f.unexplained()) {
    words.lead = fmt::format("Nothing that was tried explains {} well. The nearest:",
                             row ? fmt::format("row {}", f.best().row) : "what the whole bar does");
    for (const LikelyCause& l : f.likely) {
      if (l.cause.row == f.best().row && words.items.size() < 4) words.items.push_back(phrase(l));
    }
    words.tail = row ? "Look at the row and its cup, and catch it again."
                     : "Check time, measure, gauge, orifices and product, and catch again.";
    return words;
  }
  if (row) {
    words.lead = fmt::format("Row {} gets {} {} than the layout says: ", f.best().row, percent(std::abs(f.effect)),
                             f.effect < 0.0 ? "less" : "more");
  }
  double named = 0.0;
  std::vector<double> shares;
  for (const LikelyCause& l : f.likely) {
    named += l.probability;
    shares.push_back(l.probability);
  }
  if (f.certain()) {
    const LikelyCause& only = f.likely.front();
    words.lead += phrase(only);
    if (!row) words.lead.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.lead.front())));
    // Two causes of the whole bar can stand for two others: each alone would look too sure.
    const auto of_bar =
        std::count_if(d.causes.begin(), d.causes.end(), [](const FoundCause& c) { return c.best().row == 0; });
    words.lead += only.at_end ? "; so it may well be more, or something else. No probability is given."
                  : !row && of_bar > 1
                      ? ". No probability is given: together, other causes of the whole bar may explain it as well."
                      : fmt::format(". Probability {}.", sure_text(only.probability));
    return words;
  }
  words.lead += fmt::format("{} is one of these (probability {} together); the readings cannot tell them apart:",
                            row ? "it" : "It", sure_text(named));
  if (f.unnamed >= 0.01) shares.push_back(f.unnamed);
  const std::vector<std::string> texts = share_texts(shares);
  for (std::size_t i = 0; i < f.likely.size(); ++i) {
    words.items.push_back(fmt::format("{} ({})", phrase(f.likely[i]), texts[i]));
  }
  if (f.unnamed >= 0.01) words.items.push_back(fmt::format("something that was not tried ({})", texts.back()));
  words.tail = f.next ? "To tell them apart, " + next_phrase(f, u, time) : without_next(f);
  return words;
}

/// Catch by catch, what was set aside: "in the first catch row 4 (nothing caught)".
static std::string set_aside_text(const Diagnosis& d) {
  std::string text;
  for (std::size_t k = 0; k < d.doubts.size(); ++k) {
    if (d.doubts[k].empty()) continue;
    text += fmt::format("{}{}{}", text.empty() ? "" : ", ",
                        d.doubts.size() > 1 ? "in the " + which_catch(k, d.doubts.size()) + " " : "",
                        doubts_in_short(d.doubts[k]));
  }
  return text;
}

std::string no_cause_phrase(const Diagnosis& d) {
  if (!d.judged) {
    return "none made: fewer than half of the rows can be judged. Clear up what is doubtful, and catch again: " +
           set_aside_text(d) + ".";
  }
  const std::string aside = set_aside_text(d);
  return aside.empty() ? "no cause. The cups agree with the layout as far as reading error and sound parts let them."
                       : "no cause besides what was set aside: " + aside +
                             ". All other cups agree with the layout as far as reading error and sound parts let them.";
}

std::vector<std::string> calibrated_reasons(const Diagnosis& d, const Layout& layout, UnitSystem u) {
  std::vector<std::string> why{"As built, from a catch test. The most probable of each cause is put in:"};
  for (const FoundCause& f : d.causes) {
    const bool of_bar = f.best().kind != CatchCauseKind::gauge && f.best().kind != CatchCauseKind::measure;
    why.push_back(fmt::format("- {} ({}){}{}", cause_phrase(layout, f.likely.front(), u),
                              f.unexplained() ? "not explained well" : sure_text(f.likely.front().probability),
                              f.certain() ? "" : "; others look the same in these readings",
                              of_bar && !f.unexplained() ? "" : "; left out: it is not known of the bar itself"));
  }
  if (d.causes.empty()) why.emplace_back("- nothing: " + no_cause_phrase(d));
  const std::string aside = set_aside_text(d);
  if (!aside.empty() && !d.causes.empty()) why.push_back("Set aside and not put in: " + aside);
  return why;
}

}  // namespace report_detail

std::string diagnosis_text(const Diagnosis& d, const Layout& layout, double time, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = options.units.value_or(layout.units);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  if (d.causes.empty()) {
    const bool good = d.judged && set_aside_text(d).empty();
    std::string text =
        coloured(wrapped("DIAGNOSIS: " + no_cause_phrase(d), width), good ? Colour::good : Colour::bad, options);
    if (!d.judged) return text;
    return text +
           wrapped(fmt::format("Apart from the level of the whole bar, the rows are {} from the layout (root mean "
                               "square); one cup's error is {}.",
                               percent(d.spread_before), percent(d.reading_error)),
                   width);
  }
  const bool explained = d.left_p >= 0.01 && std::none_of(d.causes.begin(), d.causes.end(),
                                                          [](const FoundCause& f) { return f.unexplained(); });
  const std::string aside = set_aside_text(d);
  std::string text =
      coloured(wrapped(fmt::format("DIAGNOSIS: {} cause{} explain{} the {}cups{}{}.", d.causes.size(),
                                   d.causes.size() == 1 ? "" : "s", d.causes.size() == 1 ? "s" : "",
                                   aside.empty() ? "" : "other ", aside.empty() ? "" : ", without " + aside,
                                   explained ? "" : ", but not all that they say"),
                       width),
               Colour::bad, options);
  for (std::size_t k = 0; k < d.causes.size(); ++k) {
    const CauseWords words = cause_words(d, k, layout, u, time);
    text += "\n" + wrapped(fmt::format("{}. {}", k + 1, words.lead), width, 3);
    for (const std::string& item : words.items) text += wrapped("   - " + item, width, 5);
    if (!words.tail.empty()) text += wrapped("   " + words.tail, width, 3);
  }
  text +=
      "\n" + wrapped(fmt::format("Apart from the level of the whole bar, the rows were {} from the layout (root mean "
                                 "square) and are {} from it with {}; one cup's error is {}.{}",
                                 percent(d.spread_before), percent(d.spread_left),
                                 d.causes.size() == 1 ? "this cause" : "these causes", percent(d.reading_error),
                                 d.left_p < 0.01 ? " That is still more than reading error: something is not "
                                                   "explained. Look at the rows, and catch them again."
                                                 : ""),
                     width);
  return text + wrapped("Relieve the pressure before a part is opened; wear what the product's label asks for.", width);
}

}  // namespace libflow
