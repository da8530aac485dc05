// SPDX-License-Identifier: MIT
#include <libflow/report/catch_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>

namespace libflow {

namespace report_detail {

std::string cup_unit(UnitSystem u) { return u == UnitSystem::us ? "fl oz" : "ml"; }

std::string cup_number(double volume, UnitSystem u) {
  const double in_unit = volume / si(u == UnitSystem::us ? units::floz : units::mL);
  return fmt::format("{:.{}f}", in_unit, in_unit < 10.0 ? 2 : in_unit < 100.0 ? 1 : 0);
}

static std::string rows_text(const std::vector<int>& rows) {
  std::string text;
  for (const int r : rows) text += (text.empty() ? "" : ", ") + fmt::format("{}", r);
  return text;
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
      return "not read";
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
      wrapped(fmt::format("Gauge at {} with the product.", shown<Pressure>(plan.product.evenness.supply_pressure, u)) +
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
  const double per_acre = si(units::acre) / si(plan.setup.strip);
  text += "\n" +
          wrapped(fmt::format("The strip is 1/{:.4g} of an acre for each row{}: time a row over its length at working "
                              "speed, and catch for as long.",
                              per_acre,
                              std::abs(per_acre - 128.0) < 1e-6 ? ", so fluid ounces on it are gallons per acre" : ""),
                  width);
  if (plan.provable_row > 0.0) {
    text +=
        wrapped(fmt::format("What the cups can prove: with readings good to {} each, one row off by {} or more, or a "
                            "coefficient of variation of {} or more ({:g} % confidence, found {:g} times in 100).",
                            percent(plan.setup.cup_error()), percent(plan.provable_row), percent(plan.provable_cv),
                            100.0 * plan.setup.power.confidence, 100.0 * plan.setup.power.power),
                width);
  }
  Cautions cautions = plan.cautions;
  const Cautions more = all_cautions(plan.product);
  cautions.insert(cautions.end(), more.begin(), more.end());
  return text + cautions_section(cautions, width) + "\n" + wrapped(last_word, width);
}

std::string catch_sentence(const CatchVerdict& v) {
  using namespace report_detail;
  std::vector<int> proved, open;
  for (const RowCatch& c : v.rows) {
    if (c.mark == CatchMark::outside) proved.push_back(c.row);
    if (c.mark == CatchMark::unproved) open.push_back(c.row);
  }
  std::string text =
      v.even ? fmt::format("EVEN: every row reads within ±{:g} % of the mean", 100.0 * v.tolerance)
      : v.outside.empty()
          ? fmt::format("NOT COMPLETE: no row reads outside ±{:g} %, but row{} {} {} not read", 100.0 * v.tolerance,
                        v.missing.size() == 1 ? "" : "s", rows_text(v.missing), v.missing.size() == 1 ? "was" : "were")
          : fmt::format("NOT EVEN: row{} {} outside ±{:g} %", v.outside.size() == 1 ? "" : "s",
                        rows_text(v.outside) + (v.outside.size() == 1 ? " reads" : " read"), 100.0 * v.tolerance);
  if (!proved.empty()) text += fmt::format("; proved for {}", rows_text(proved));
  if (!open.empty()) text += fmt::format("; the cups cannot tell for {}", rows_text(open));
  return text + ".";
}

std::string catch_verdict_text(const CatchVerdict& v, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(v.answer, options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::string text = coloured(wrapped(catch_sentence(v), width), v.even ? Colour::good : Colour::bad, options);
  text +=
      "\n" + wrapped(fmt::format("{}: {}", name_text(v.answer.layout.name), job_text(v.answer, u)), width, 2) + "\n";
  const double reach = [&] {
    double r = 2.0 * v.tolerance;
    for (const RowCatch& c : v.rows) r = std::fmax(r, std::abs(c.deviation));
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
    if (c.repeats == 0) {
      t.line({fmt::format("{}", c.row), "0", "", cup_number(c.expected, u), "", "", "", "", "", "not read"});
      continue;
    }
    t.line({fmt::format("{}", c.row), fmt::format("{}", c.repeats), cup_number(c.mean, u), cup_number(c.expected, u),
            shown_number<AreaRate>(c.rate, u), signed_percent(c.deviation), deviation_bar(c.deviation, reach, 5),
            fmt::format("{} to {}", signed_percent(c.low), signed_percent(c.high)),
            std::abs(c.against_layout) > 2.0 * c.against_layout_error ? signed_percent(c.against_layout) + " *"
                                                                      : signed_percent(c.against_layout) + "  ",
            std::string(report_detail::name_of(c.mark))});
  }
  text += t.text();
  text +=
      "\n" + wrapped(fmt::format("Mean rate {} (the layout gives {}). Coefficient of variation {} as read, {} when the "
                                 "reading error of {} ({}) is taken out.",
                                 shown<AreaRate>(v.total_rate, u), shown<AreaRate>(v.expected_rate, u), percent(v.cv),
                                 percent(v.cv_beyond_error), percent(v.reading_error),
                                 v.error_from_repeats ? "from the repeats" : "as given"),
                     width);
  text +=
      wrapped(v.spread_is_real
                  ? fmt::format("The rows differ by more than reading error: so large a spread by chance has a "
                                "probability of {:.2g}.",
                                v.spread_p)
                  : fmt::format("The spread is no more than reading error may give (probability {:.2g}).", v.spread_p),
              width);
  text += wrapped("* differs from the layout's expectation by more than twice its standard error.", width);
  return text + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
