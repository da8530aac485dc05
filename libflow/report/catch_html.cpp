// SPDX-License-Identifier: MIT
#include <libflow/report/catch_html.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/catch_text.hpp>
#include <libflow/report/diagnosis_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow {

namespace report_detail {

static std::string html_list(const std::vector<std::string>& items) {
  std::string out = "<ul>\n";
  for (const std::string& item : items) out += fmt::format("<li>{}</li>\n", xml_text(item));
  return out + "</ul>\n";
}

static std::string diagnosis_html(const Diagnosis& d, const Layout& layout, double time, UnitSystem u) {
  if (d.causes.empty()) {
    return paragraph("No cause: the cups agree with the layout as far as reading error and sound parts let them.");
  }
  std::string out;
  for (const FoundCause& f : d.causes) {
    std::string lead = f.best().of_row() ? fmt::format("Row {} gets {} {} than the layout says: ", f.best().row,
                                                       percent(std::abs(f.effect)), f.effect < 0.0 ? "less" : "more")
                                         : std::string();
    if (f.certain()) {
      out += paragraph(fmt::format("{}{}. Probability {:.0f} %.", lead, cause_phrase(layout, f.likely.front(), u),
                                   std::min(99.0, 100.0 * f.likely.front().probability)));
      continue;
    }
    out += paragraph(lead + "it is one of these; the readings cannot tell them apart:");
    std::vector<std::string> items;
    for (const LikelyCause& l : f.likely) {
      items.push_back(fmt::format("{} ({:.0f} %)", cause_phrase(layout, l, u), 100.0 * l.probability));
    }
    out += html_list(items);
    out += paragraph(f.next ? "To tell them apart, " + next_phrase(f, u, time)
                            : "No single further catch or gauge would tell them apart well: look at the parts.");
  }
  return out;
}

}  // namespace report_detail

PageSection catch_plan_section(const CatchPlan& plan, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(plan.product, options);
  HtmlTable table;
  table.column("row");
  table.column(fmt::format("product, {}", cup_unit(u)));
  table.column(fmt::format("water, {}", cup_unit(u)));
  const int blanks = std::min(plan.setup.repeats, 4);
  for (int k = 1; k <= blanks; ++k) table.column(fmt::format("caught {}", k));
  for (const CatchPlanRow& r : plan.rows) {
    std::vector<std::string> cells{fmt::format("{}", r.row)};
    if (r.shut) {
      cells.emplace_back("shut");
    } else {
      cells.push_back(cup_number(r.product, u));
      cells.push_back(cup_number(r.water, u));
      for (int k = 0; k < blanks; ++k) cells.emplace_back("______");
    }
    table.line(std::move(cells));
  }
  std::string html = paragraph(fmt::format("A cup under each row for {:g} s, {} time{}. Gauge at {} with the product.",
                                           si(plan.setup.time), plan.setup.repeats, plan.setup.repeats == 1 ? "" : "s",
                                           shown<Pressure>(plan.product.evenness.supply_pressure, u)));
  html += table.html("What each cup should hold");
  if (plan.provable_row > 0.0) {
    html += paragraph(fmt::format("The cups prove one row off by {} or more.", percent(plan.provable_row)));
  }
  html += paragraph(
      "Stay clear of moving parts and of liquid under pressure; wear what the product's label asks for; begin with "
      "water.");
  return {"catch-plan", "Catch test: the sheet", html};
}

PageSection catch_section(const CatchVerdict& v, const Diagnosis* diagnosis, const Layout& layout, double time,
                          const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(v.answer, options);
  HtmlTable table;
  table.column("row");
  table.column("cups");
  table.column(fmt::format("caught, {}", cup_unit(u)));
  table.column(fmt::format("layout, {}", cup_unit(u)));
  table.column("off the mean, %");
  table.column(fmt::format("{:g} % interval", 100.0 * v.confidence));
  table.column("", true);
  for (const RowCatch& c : v.rows) {
    if (c.repeats == 0) {
      table.line({fmt::format("{}", c.row), "0", "", cup_number(c.expected, u), "", "", "not read"});
      continue;
    }
    table.line({fmt::format("{}", c.row), fmt::format("{}", c.repeats), cup_number(c.mean, u),
                cup_number(c.expected, u), signed_percent(c.deviation),
                fmt::format("{} to {}", signed_percent(c.low), signed_percent(c.high)),
                std::string(report_detail::name_of(c.mark))});
  }
  std::string html = paragraph(catch_sentence(v)) + table.html("Cups");
  if (diagnosis != nullptr) html += diagnosis_html(*diagnosis, layout, time, u);
  return {"catch-test", "Catch test", html};
}

}  // namespace libflow
