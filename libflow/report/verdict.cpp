// SPDX-License-Identifier: MIT
#include <libflow/report/verdict.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/as_built.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/layout_doubts.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

const RowResult* worst_row(const Evenness& e) {
  const RowResult* worst = nullptr;
  for (const RowResult& r : e.rows) {
    if (!r.shut && (worst == nullptr || std::abs(r.deviation) > std::abs(worst->deviation))) worst = &r;
  }
  return worst;
}

std::vector<int> furthest_rows(const Evenness& e) {
  std::vector<int> rows;
  const RowResult* worst = worst_row(e);
  for (const RowResult& r : e.rows) {
    if (!r.shut && std::abs(r.deviation - worst->deviation) < 1e-6) rows.push_back(r.row);
  }
  return rows;
}

std::string furthest_rows_text(const Evenness& e) {
  const std::vector<int> rows = furthest_rows(e);
  if (rows.empty()) return "-";
  if (rows.size() > 2) return fmt::format("{} and {} more", rows.front(), rows.size() - 1);
  return rows.size() == 1 ? fmt::format("{}", rows[0]) : fmt::format("{}, {}", rows[0], rows[1]);
}

std::string deviation_text(double deviation, const Evenness& e) {
  const RowResult* worst = worst_row(e);
  if (worst == nullptr || std::abs(worst->deviation) >= 0.00995) return signed_percent(deviation);
  return std::abs(deviation) < 5e-5 ? "0.00" : fmt::format("{:+.2f}", 100.0 * deviation);
}

std::string share_text(double share, const char* of) {
  return share >= 0.995 ? fmt::format("all of {}", of) : fmt::format("{:.0f} % of {}", 100.0 * share, of);
}

/// Rows with the same doubt.
static std::vector<int> rows_in_doubt(const Evenness& e, const Caution& doubt) {
  std::vector<int> rows;
  for (const Caution& c : e.cautions) {
    if (c.code != doubt.code || !c.subject.starts_with("row ")) continue;
    rows.push_back(std::stoi(c.subject.substr(4)));
  }
  return rows;
}

/// "is the orifice of rows 1 to 16 right? ..."; empty where nothing speaks against the layout.
static std::string doubt_sentence(const Evenness& e) {
  const Caution* doubt = layout_doubt(e);
  if (doubt == nullptr) return {};
  const std::string rows = rows_in_words(rows_in_doubt(e, *doubt));
  const auto ask = [&](const char* what, const std::string& why) {
    return fmt::format("is the {} of {} right? It {} (see the cautions).", what, rows, why);
  };
  if (doubt->code == "hose-too-short") return ask("hose length", "does not reach from the port to the row");
  if (doubt->code == "hose-too-wide") return ask("hose bore", "is too wide for a row's hose");
  if (doubt->code == "valve-takes-too-much") return ask("check valve", "takes far more pressure than there is");
  if (doubt->code == "line-takes-too-much") {
    return fmt::format(
        "are hose bore, rate, speed and spacing right? The hose of {} takes far more pressure than there "
        "is (see the cautions).",
        rows);
  }
  if (doubt->code == "orifice-takes-too-much") return ask("orifice", "takes far more pressure than there is");
  return ask("orifice", doubt->code == "orifice-not-smaller-than-hose"
                            ? "is not smaller than its hose, so it meters nothing"
                            : fmt::format("takes {} of the pressure, so it meters nothing",
                                          doubt->value < 5e-4 ? std::string("less than 0.1 %")
                                                              : fmt::format("{:.1f} %", 100.0 * doubt->value)));
}

static std::size_t counted_rows(const Evenness& e) {
  std::size_t n = 0;
  for (const RowResult& r : e.rows) n += r.shut ? 0 : 1;
  return n;
}

/// "row 1 gets 12.3 % more than the mean", "rows 8 and 9 get ...".
static std::string worst_text(const Evenness& e, const RowResult& r) {
  const std::vector<int> rows = furthest_rows(e);
  return fmt::format("{} {} {} {} than the mean", rows_in_words(rows), rows.size() == 1 ? "gets" : "get",
                     percent(std::abs(r.deviation)), r.deviation < 0.0 ? "less" : "more");
}

/// "the furthest, rows 8 and 9, are 0.03 % above it".
static std::string furthest_text(const Evenness& e, const RowResult& worst) {
  const std::vector<int> rows = furthest_rows(e);
  if (rows.size() > 1 && rows.size() == counted_rows(e)) return "all get the same";
  return fmt::format("the furthest, {}, {} {} {} it", rows_in_words(rows), rows.size() == 1 ? "is" : "are",
                     percent(std::abs(worst.deviation)), worst.deviation < 0.0 ? "below" : "above");
}

/// "the rate needs 74.0 psi at the gauge, 60.0 psi is the limit"
static std::string stop_text(const Caution& stop, const Evenness& e, UnitSystem u) {
  if (stop.code == "other-rate-held") {
    return fmt::format("what the layout holds, {} at the gauge, gives {} where {} is wanted",
                       shown<Pressure>(e.supply_pressure, u), shown<AreaRate>(e.mean_rate, u),
                       shown<AreaRate>(e.target_rate, u));
  }
  if (stop.code != "above-pump-limit") return stop.text;
  // A figure far above what is there says that a part is wrong, not how much pressure is needed.
  if (stop.value > most_metering_pressure * stop.limit) {
    return fmt::format("the rate needs more than {:g} times the pressure that there is, {}", most_metering_pressure,
                       shown<Pressure>(stop.limit, u));
  }
  return fmt::format("the rate needs {} at the gauge, {} is the limit", shown<Pressure>(stop.value, u),
                     shown<Pressure>(stop.limit, u));
}

static std::string viscosity_end_text(const Answer& a, const ViscosityEnd& end, UnitSystem u) {
  std::string text = fmt::format("at the {} end of its band, {}, ", end.upper ? "upper" : "lower",
                                 format(from_si<Viscosity>(end.viscosity), u));
  if (!end.solved) return text + "NO ANSWER: " + end.stop;
  if (end.even != a.evenness.even) {
    text += end.even ? "EVEN" : "NOT EVEN";
    if (end.worst_row != 0) {
      text += fmt::format(": row {} is {} {} the mean", end.worst_row, percent(std::abs(end.worst_deviation)),
                          end.worst_deviation < 0.0 ? "below" : "above");
    }
  }
  const bool short_here = short_of_rate(a) != nullptr;
  if (end.stop.empty() == short_here) {
    if (end.even != a.evenness.even) text += ", and ";
    text += short_here ? "the wanted rate is reached" : fmt::format("the wanted rate is NOT REACHED ({})", end.stop);
  }
  return text;
}

}  // namespace report_detail

std::string as_built_words(const AsBuilt& built) {
  const double within = 100.0 * built.within;
  return fmt::format(
      "{} of such machines are even, CV {} on average (first order; 'libflow tolerance' solves them one by one).",
      within < 1.0    ? std::string("less than 1 %")
      : within > 99.0 ? std::string("more than 99 %")
                      : fmt::format("about {:.0f} %", within),
      report_detail::percent(built.mean_cv));
}

std::string as_built_sentence(const Answer& answer) {
  if (!answer.solution.usable() || !(answer.evenness.mean_rate > 0.0)) return {};
  if (answer.layout.tolerances.empty()) {
    if (!answer.evenness.even) return {};
    return "This is the layout as drawn; real parts vary: 'libflow tolerance' says how even it is as built.";
  }
  if (!answer.built) {
    return fmt::format("{} on paper; its parts have tolerances: 'libflow tolerance' says how even it is as built.",
                       verdict_word(answer));
  }
  return "AS BUILT, with its tolerances: " + as_built_words(*answer.built);
}

std::string viscosity_sentence(const Answer& answer, std::optional<UnitSystem> units) {
  const UnitSystem u = units.value_or(answer.layout.units);
  std::string text;
  for (const ViscosityEnd& end : answer.viscosity_band) {
    if (!changes_verdict(answer, end)) continue;
    text += (text.empty() ? "" : "; ") + report_detail::viscosity_end_text(answer, end, u);
  }
  if (text.empty()) return text;
  return fmt::format("This is for {}, the most likely viscosity; {}.",
                     format(from_si<Viscosity>(answer.liquid.viscosity), u), text);
}

std::string rate_word(const Answer& answer) {
  const Caution* stop = short_of_rate(answer);
  if (stop == nullptr) return "reached";
  return stop->code == "other-rate-held" && stop->value > stop->limit ? "EXCEEDED" : "NOT REACHED";
}

std::string verdict_sentence(const Answer& answer, std::optional<UnitSystem> units) {
  using namespace report_detail;
  const Evenness& e = answer.evenness;
  if (!answer.solution.usable()) {
    return fmt::format("NOT SOLVED: no numbers can be given ({}).", answer.solution.message);
  }
  const RowResult* worst = worst_row(e);
  if (worst == nullptr || !(e.mean_rate > 0.0)) return "NOT EVEN: nothing flows out of any row.";
  std::string text;
  if (e.even) {
    text = fmt::format("{}: every row is within ±{:g} % of the mean; {}", verdict_word(answer), 100.0 * e.tolerance,
                       furthest_text(e, *worst));
  } else {
    text = fmt::format("{}: {}, {} of {} rows {} outside ±{:g} %", verdict_word(answer), worst_text(e, *worst),
                       e.outside.size(), counted_rows(e), e.outside.size() == 1 ? "is" : "are", 100.0 * e.tolerance);
    if (const int row = row_that_pulls_the_mean(e); row != 0) {
      text += fmt::format("; row {} alone pulls the mean: without it all others are within", row);
    }
  }
  if (!e.causes.empty() && e.cv >= least_cv_explained) {
    const Cause& most = e.causes.front();
    if (!e.even) {
      text += fmt::format("; what decides it: {} ({})", most.name, share_text(most.share));
    } else if (most.share >= 0.995) {
      text += fmt::format("; all of that comes from: {}", most.name);
    } else {
      text += fmt::format("; {} of that comes from: {} ({})", most.share > 0.5 ? "most" : "the largest part", most.name,
                          share_text(most.share));
    }
  }
  text += ".";
  // An even bar that gets too little is no good bar: what stops it comes first.
  if (const Caution* stop = short_of_rate(answer)) {
    const bool held = stop->code == "other-rate-held";
    const char* rows = held || stop->code == "rate-not-reached" ? "At the rate that is reached the rows are"
                                                                : "At that rate the rows would be";
    text = fmt::format("{}: {}. ({} {})", held ? "NOT THE WANTED RATE" : "NOT REACHED",
                       stop_text(*stop, e, units.value_or(answer.layout.units)), rows, text);
  }
  if (const std::string doubt = doubt_sentence(e); !doubt.empty()) text += " BUT: " + doubt;
  const std::string over_band = viscosity_sentence(answer, units);
  return over_band.empty() ? text : text + " " + over_band;
}

static std::string comparison_sentence(const Comparison& c) {
  using namespace report_detail;
  for (const Answer& a : c.answers) {
    if (!a.solution.usable()) {
      return fmt::format("NOT SOLVED: {} has no answer ({}).", name_text(a.layout.name), a.solution.message);
    }
  }
  const Answer& best = c.answers[c.evenest];
  const Answer& worst = c.answers[c.least_even];
  const double gap = worst.evenness.cv - best.evenness.cv;
  std::string text;
  if (gap < 5e-4) {
    text = fmt::format("No difference worth the name: CV {}{} at the same total rate", percent(best.evenness.cv),
                       gap > 0.0 ? " to " + percent(worst.evenness.cv) : std::string());
  } else if (c.answers.size() == 2) {
    text = fmt::format("{} is evener than {}: CV {} against {}", name_text(best.layout.name),
                       name_text(worst.layout.name), percent(best.evenness.cv), percent(worst.evenness.cv));
  } else {
    text = fmt::format("{} is the evenest of {} layouts: CV {} against {} for {}, the least even",
                       name_text(best.layout.name), c.answers.size(), percent(best.evenness.cv),
                       percent(worst.evenness.cv), name_text(worst.layout.name));
  }
  if (gap >= 5e-4 && !c.deciding_cause.empty()) {
    text += fmt::format("; what makes the difference: {}", c.deciding_cause);
  }
  std::size_t even = 0;
  for (const Answer& a : c.answers) even += a.evenness.even ? 1 : 0;
  const double tolerance = 100.0 * best.evenness.tolerance;
  if (even == c.answers.size()) return text + fmt::format(". All are within ±{:g} %.", tolerance);
  if (even == 0) return text + fmt::format(". None is within ±{:g} %.", tolerance);
  std::string names;
  for (const Answer& a : c.answers) {
    if (a.evenness.even) names += (names.empty() ? "" : ", ") + name_text(a.layout.name);
  }
  return text + fmt::format(". Within ±{:g} %: {} only.", tolerance, names);
}

std::string verdict_sentence(const Comparison& c, bool with_stops) {
  std::string text;
  for (const Answer& a : c.answers) {
    const Caution* stop = a.solution.usable() ? short_of_rate(a) : nullptr;
    if (stop != nullptr && with_stops)
      text += fmt::format("RATE {} by {}: {}. ", rate_word(a), report_detail::name_text(a.layout.name), stop->text);
  }
  text += comparison_sentence(c);
  for (const Answer& a : c.answers) {
    if (!a.solution.usable()) continue;
    const std::string doubt = report_detail::doubt_sentence(a.evenness);
    if (!doubt.empty()) text += fmt::format(" {}: {}", report_detail::name_text(a.layout.name), doubt);
    const std::string over_band = viscosity_sentence(a);
    if (!over_band.empty())
      text += fmt::format(" {}: t{}", report_detail::name_text(a.layout.name), over_band.substr(1));
  }
  return text;
}

}  // namespace libflow
