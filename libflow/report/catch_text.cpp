// SPDX-License-Identifier: MIT
#include <libflow/report/catch_text.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/catch_doubts_text.hpp>
#include <libflow/report/catch_level_text.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/verdict.hpp>

namespace libflow {

namespace report_detail {

std::string cup_unit(UnitSystem u) { return u == UnitSystem::us ? "fl oz" : "mL"; }

std::string cup_number(double volume, UnitSystem u) {
  const double in_unit = volume / si(u == UnitSystem::us ? units::floz : units::mL);
  return fmt::format("{:.{}f}", in_unit, in_unit < 10.0 ? 2 : in_unit < 100.0 ? 1 : 0);
}

/// "1, 3 to 5".
static std::string rows_text(const std::vector<int>& rows) {
  const std::string text = row_list_text(rows);
  return text.substr(std::min(text.find(' ') + 1, text.size()));
}

std::string which_catch(std::size_t k, std::size_t of) {
  constexpr std::string_view names[] = {"first", "second", "third"};
  if (of < 2) return "catch";
  return k < std::size(names) ? fmt::format("{} catch", names[k]) : fmt::format("catch {}", k + 1);
}

std::string catch_setting_text(const CatchVerdict& v, UnitSystem u) {
  const std::string gauge =
      v.gauge ? fmt::format("gauge at {}", format(*v.gauge, u))
              : fmt::format("no gauge reading given, {} taken", shown<Pressure>(v.answer.evenness.supply_pressure, u));
  return fmt::format("{}{}, {}, {:.4g} s each", v.source.empty() ? "" : v.source + ": ",
                     v.water ? "water" : "the product", gauge, si(v.time));
}

std::string strip_text(const CatchPlan& plan, UnitSystem u) {
  const double area = si(plan.setup.strip);
  const double per_acre = si(units::acre) / area;
  const bool us = u == UnitSystem::us;
  std::string size = us ? fmt::format("1/{:.4g} of an acre", per_acre) : fmt::format("{:.3g} m2", area);
  std::string means;
  if (us && std::abs(per_acre - 128.0) < 1e-6) {
    means = "The cup's fluid ounces are then the row's gallons per acre.";
  } else if (!us) {
    // 1 L/ha is 1e-7 m.
    means = fmt::format("The cup's mL divided by {:.3g} are then the row's L/ha.", area * 1e-7 / 1e-6);
  }
  return fmt::format(
      "The strip is another way, without a table: {} for each row. Drive 'strip {}' at working speed and take the time "
      "(it should be 'strip s'); then stand still, at the same gauge, and catch for as long; 'on strip' is what the "
      "cup "
      "should hold. {}",
      size, unit_name<Length>(u), means);
}

std::string_view name_of(CatchMark mark) {
  switch (mark) {
    case CatchMark::inside:
      return "inside";
    case CatchMark::outside:
      return "OUTSIDE";
    case CatchMark::unproved:
      return "not proved";
    case CatchMark::missing:
      return "no cup";
    case CatchMark::set_aside:
      return "LOOK FIRST";
  }
  return {};
}

}  // namespace report_detail

std::string catch_plan_text(const CatchPlan& plan, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(plan.product, options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  const std::string unit = cup_unit(u);
  std::string text = fmt::format("CATCH TEST: {:.4g} s under each row, {} time{}\n", si(plan.setup.time),
                                 plan.setup.repeats, plan.setup.repeats == 1 ? "" : "s");
  text += wrapped(fmt::format("{}: {}", name_text(plan.product.layout.name), job_text(plan.product, u)), width, 2);
  text +=
      wrapped(fmt::format("Gauge at {} with the product, read {}.",
                          shown<Pressure>(plan.product.evenness.supply_pressure, u), gauge_place(plan.product.layout)) +
                  (plan.water_at_same_pressure
                       ? fmt::format(" With water, keep the same pressure: the water columns are for it.")
                       : fmt::format(" With water, keep the same total: its pressure is then {}.",
                                     shown<Pressure>(plan.water.evenness.supply_pressure, u))),
              width);
  Table t;
  t.column("row");
  t.column(fmt::format("product\n{}", unit));
  t.column(fmt::format("water\n{}", unit));
  t.column(fmt::format("strip\n{}", unit_name<Length>(u)));
  t.column("strip\ns");
  t.column(fmt::format("on strip\n{}", unit));
  for (int k = 1; k <= std::min(plan.setup.repeats, 3); ++k) t.column(fmt::format("caught {}\n{}", k, unit));
  for (const CatchPlanRow& r : plan.rows) {
    std::vector<std::string> cells{fmt::format("{}", r.row)};
    if (r.shut) {
      cells.emplace_back("shut");
    } else {
      cells.insert(cells.end(),
                   {cup_number(r.product, u), cup_number(r.water, u), shown_number<Length>(r.strip_length, u),
                    fmt::format("{:.1f}", r.strip_time), cup_number(r.strip_volume, u)});
      for (int k = 1; k <= std::min(plan.setup.repeats, 3); ++k) cells.emplace_back("______");
    }
    t.line(std::move(cells));
  }
  text += "\n" + t.text();
  text += "\n" + wrapped(strip_text(plan, u), width);
  if (plan.provable_row > 0.0) {
    text +=
        wrapped(fmt::format("What the cups can prove: with readings good to {} each, one row off by {} or more, or a "
                            "coefficient of variation of {} or more ({:g} % confidence, found {:g} times in 100).",
                            percent(plan.setup.cup_error()), percent(plan.provable_row), percent(plan.provable_cv),
                            100.0 * plan.setup.power.confidence, 100.0 * plan.setup.power.power),
                width);
  }
  text += wrapped(catch_liquid_advice(), width);
  Cautions cautions = plan.cautions;
  const Cautions more = all_cautions(plan.product);
  cautions.insert(cautions.end(), more.begin(), more.end());
  return text + cautions_section(cautions, width) + "\n" + wrapped(last_word, width);
}

/// What the cups say of the rows against each other; without its full stop.
static std::string rows_sentence(const CatchVerdict& v) {
  using namespace report_detail;
  std::vector<int> proved, open;
  std::size_t judged = 0;
  for (const RowCatch& c : v.rows) {
    judged += c.repeats > 0 ? 1U : 0U;
    if (c.mark == CatchMark::outside) proved.push_back(c.row);
    if (c.mark == CatchMark::unproved) open.push_back(c.row);
  }
  const double band = 100.0 * v.tolerance;
  const bool without = !v.rows_set_aside.empty();
  const std::string left_out = without ? "without " + row_list_text(v.rows_set_aside) + ", " : "";
  std::string text;
  if (v.even) {
    text = fmt::format("EVEN: every row reads within ±{:g} % of the mean", band);
  } else if (!v.outside.empty()) {
    text = fmt::format("NOT EVEN: {}row{} {} outside ±{:g} %{}", left_out, v.outside.size() == 1 ? "" : "s",
                       rows_text(v.outside) + (v.outside.size() == 1 ? " reads" : " read"), band,
                       without ? " of the others' mean" : "");
  } else if (without) {
    text = fmt::format("NOT COMPLETE: {}each of the other {} rows reads within ±{:g} % of their mean", left_out, judged,
                       band);
  } else {
    text = fmt::format("NOT COMPLETE: no row reads outside ±{:g} %", band);
  }
  if (!proved.empty()) text += fmt::format("; proved for {}", rows_text(proved));
  if (!open.empty()) text += fmt::format("; the cups cannot tell for {}", rows_text(open));
  std::vector<std::pair<int, double>> rates;
  for (const RowCatch& c : v.rows) {
    if (c.repeats > 0) rates.emplace_back(c.row, c.rate);
  }
  if (const int row = row_that_pulls_the_mean(rates, v.tolerance); row != 0) {
    text += fmt::format("; look at row {} first: it alone pulls the mean, and without it all others read within", row);
  }
  if (!v.missing.empty()) {
    text += fmt::format("; {} {} no cup", row_list_text(v.missing), v.missing.size() == 1 ? "has" : "have");
  }
  return text;
}

/// What to look at first, in one text.
static std::string first_text(const CatchVerdict& v, UnitSystem u) {
  std::string text;
  for (const std::string& s : report_detail::doubt_sentences(v, u)) text += (text.empty() ? "" : " ") + s;
  return text;
}

std::string catch_sentence(const CatchVerdict& v, std::optional<UnitSystem> units) {
  const std::string first = first_text(v, units.value_or(v.answer.layout.units));
  return first + (first.empty() ? "" : " ") + rows_sentence(v) + report_detail::level_phrase(v) + ".";
}

std::string catch_sentence(const std::vector<CatchVerdict>& catches, std::optional<UnitSystem> units) {
  if (catches.size() == 1) return catch_sentence(catches.front(), units);
  std::string text;
  for (std::size_t k = 0; k < catches.size(); ++k) {
    std::string which = report_detail::which_catch(k, catches.size());
    which.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(which.front())));
    text += fmt::format("{}{}: {}", k == 0 ? "" : " ", which, catch_sentence(catches[k], units));
  }
  return text;
}

/// The whole bar off: what to check.
static std::string level_text(const std::vector<CatchVerdict>& catches, UnitSystem u, std::size_t width,
                              const TextOptions& options) {
  using namespace report_detail;
  const LevelAdvice advice = level_advice(catches, u);
  if (advice.lead.empty()) return {};
  std::string text = coloured(wrapped(advice.lead, width), Colour::bad, options);
  for (std::size_t i = 0; i < advice.items.size(); ++i) {
    text += wrapped(advice.items[i], width, 4, fmt::format(" {}. ", i + 1));
  }
  return text + "\n";
}

/// "3", or of how many cups some count: "2 of 3".
static std::string cups_cell(const RowCatch& c) {
  return c.repeats == c.cups ? fmt::format("{}", c.cups) : fmt::format("{} of {}", c.repeats, c.cups);
}

/// Is the row's share of the total not the layout's, by the confidence of the interval that is shown?
static bool starred(const RowCatch& c) { return std::abs(c.against_layout) > 0.5 * (c.high - c.low); }

/// Mean and spread, without what was set aside and with it, and whether the spread is more than reading error.
static std::string spread_text(const CatchVerdict& v, UnitSystem u) {
  using namespace report_detail;
  std::string text = fmt::format(
      "Mean rate {} (the layout gives {}). Coefficient of variation {} as read, {} when the reading error of {} ({}) "
      "is "
      "taken out.",
      shown<AreaRate>(v.total_rate, u), shown<AreaRate>(v.expected_rate, u), percent(v.cv), percent(v.cv_beyond_error),
      percent(v.reading_error),
      v.error_from_repeats ? "from the repeats"
      : std::any_of(v.rows.begin(), v.rows.end(), [](const RowCatch& c) { return c.repeats > 1; })
          ? "as given, and from the few repeats"
          : "as given");
  if (!v.doubts.empty() && v.doubts_set_aside) {
    text += fmt::format(
        " These are without what is to be looked at first; with it, as read: mean rate {}, coefficient of variation "
        "{}.",
        shown<AreaRate>(v.total_rate_of_all, u), percent(v.cv_of_all));
  }
  text += v.spread_is_real
              ? fmt::format(
                    " The rows differ by more than reading error: so large a spread by chance has a probability "
                    "of {}.",
                    chance_text(v.spread_p))
              : fmt::format(" The spread is no more than reading error may give (probability {}).",
                            chance_text(v.spread_p));
  const std::string cups = cups_note(v);
  return text + (cups.empty() ? "" : " " + cups);
}

/// One catch: what it was, its verdict, its rows.
static std::string one_catch_text(const CatchVerdict& v, std::size_t k, std::size_t of, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(v.answer, options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::string verdict;
  for (const std::string& first : doubt_sentences(v, u)) {
    verdict += coloured(wrapped(first, width), Colour::bad, options);
  }
  verdict +=
      coloured(wrapped(rows_sentence(v) + ".", width), v.even && !v.level.off ? Colour::good : Colour::bad, options);
  std::string which = which_catch(k, of);
  for (char& c : which) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  const std::string title = wrapped(fmt::format("{}  {}", which, catch_setting_text(v, u)), width, 2);
  // Of several catches the title says which one a verdict is of; of one, the verdict opens.
  std::string text = of > 1 ? coloured(title, Colour::strong, options) + verdict : verdict + "\n" + title;
  text += (of > 1 ? "\n" : "") +
          wrapped(fmt::format("{}: {}", name_text(v.answer.layout.name), job_text(v.answer, u)), width, 2) + "\n";
  const double reach = [&] {
    double r = 2.0 * v.tolerance;
    for (const RowCatch& c : v.rows) r = c.repeats > 0 ? std::fmax(r, std::abs(c.deviation)) : r;
    return r;
  }();
  Table t;
  t.column("row");
  t.column("cups");
  t.column(fmt::format("caught\n{}", cup_unit(u)));
  t.column(fmt::format("layout\n{}", cup_unit(u)));
  t.column(fmt::format("rate\n{}", unit_name<AreaRate>(u)));
  t.column("off\nmean %");
  t.column(fmt::format("±{:.0f} %", 100.0 * reach), Table::Align::left);
  t.column(fmt::format("{:g} %\ninterval", 100.0 * v.confidence));
  t.column("against\nlayout %");
  t.column("", Table::Align::left);
  for (const RowCatch& c : v.rows) {
    if (c.cups == 0) {
      t.line({fmt::format("{}", c.row), "0", "", cup_number(c.expected, u), "", "", "", "", "",
              std::string(report_detail::name_of(c.mark))});
      continue;
    }
    if (c.repeats == 0) {
      t.line({fmt::format("{}", c.row), fmt::format("{}", c.cups), cup_number(c.mean, u), cup_number(c.expected, u),
              shown_number<AreaRate>(c.rate, u), signed_percent(c.deviation), "", "", "",
              std::string(report_detail::name_of(c.mark))});
      continue;
    }
    t.line({fmt::format("{}", c.row), cups_cell(c), cup_number(c.mean, u), cup_number(c.expected, u),
            shown_number<AreaRate>(c.rate, u), signed_percent(c.deviation), deviation_bar(c.deviation, reach, 5),
            fmt::format("{} to {}", signed_percent(c.low), signed_percent(c.high)),
            starred(c) ? signed_percent(c.against_layout) + " *" : signed_percent(c.against_layout) + "  ",
            std::string(report_detail::name_of(c.mark))});
  }
  text += t.text();
  text += "\n" + wrapped(spread_text(v, u), width);
  return text +
         wrapped(fmt::format("Layout: what it says a cup holds. Off mean: against the mean of the rows; the "
                             "interval holds the true value in {:g} of 100 tests. Against layout: the row's share of "
                             "the total, held against the share that the layout gives it; * where an interval as "
                             "wide as the row's leaves out 0 there. OUTSIDE (proved): beyond ±{:g} % with {:g} % "
                             "confidence, the interval all on one side of 0; inside: within it with {:g} %; not "
                             "proved: the cups cannot tell.",
                             100.0 * v.confidence, 100.0 * v.tolerance, 100.0 * v.confidence, 100.0 * v.confidence),
                 width);
}

std::string catch_verdicts_text(const std::vector<CatchVerdict>& catches, const TextOptions& options) {
  using namespace report_detail;
  if (catches.empty()) return {};
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::string text = level_text(catches, units_of(catches.front().answer, options), width, options);
  for (std::size_t k = 0; k < catches.size(); ++k) {
    text += (k == 0 ? "" : "\n") + one_catch_text(catches[k], k, catches.size(), options);
  }
  return text + "\n" + wrapped(last_word, width);
}

std::string catch_verdict_text(const CatchVerdict& v, const TextOptions& options) {
  return catch_verdicts_text({v}, options);
}

}  // namespace libflow
