// SPDX-License-Identifier: MIT
#include <libflow/report/catch_html.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/catch_doubts_text.hpp>
#include <libflow/report/catch_level_text.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/diagnosis_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow {

namespace report_detail {

static std::string html_list(const std::vector<std::string>& items, bool numbered = false) {
  const char* const kind = numbered ? "ol" : "ul";
  std::string out = fmt::format("<{}>\n", kind);
  for (const std::string& item : items) out += fmt::format("<li>{}</li>\n", xml_text(item));
  return out + fmt::format("</{}>\n", kind);
}

/// The first letter large, for the beginning of a sentence.
static std::string sentence_case(std::string text) {
  if (!text.empty()) text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text;
}

static std::string diagnosis_html(const Diagnosis& d, const Layout& layout, double time, UnitSystem u) {
  if (d.causes.empty()) return paragraph(sentence_case(no_cause_phrase(d)));
  std::string out;
  for (std::size_t k = 0; k < d.causes.size(); ++k) {
    const CauseWords words = cause_words(d, k, layout, u, time);
    out += paragraph(sentence_case(words.lead));
    if (!words.items.empty()) out += html_list(words.items);
    if (!words.tail.empty()) out += paragraph(words.tail);
  }
  return out + paragraph("Relieve the pressure before a part is opened; wear what the product's label asks for.");
}

/// One catch: how it was caught and its rows.
static std::string cups_html(const CatchVerdict& v, UnitSystem u) {
  HtmlTable table;
  table.column("row");
  table.column("cups");
  table.column(fmt::format("caught [{}]", cup_unit(u)));
  table.column(fmt::format("layout [{}]", cup_unit(u)));
  table.column("off mean [%]");
  table.column(fmt::format("{:g} % interval", 100.0 * v.confidence));
  table.column("", true);
  for (const RowCatch& c : v.rows) {
    if (c.cups == 0) {
      table.line({fmt::format("{}", c.row), "0", "", cup_number(c.expected, u), "", "",
                  std::string(report_detail::name_of(c.mark))});
      continue;
    }
    if (c.repeats == 0) {
      table.line({fmt::format("{}", c.row), fmt::format("{}", c.cups), cup_number(c.mean, u), cup_number(c.expected, u),
                  signed_percent(c.deviation), "", std::string(report_detail::name_of(c.mark))});
      continue;
    }
    table.line({fmt::format("{}", c.row), fmt::format("{}", c.repeats), cup_number(c.mean, u),
                cup_number(c.expected, u), signed_percent(c.deviation),
                fmt::format("{} to {}", signed_percent(c.low), signed_percent(c.high)),
                std::string(report_detail::name_of(c.mark))});
  }
  return table.html(catch_setting_text(v, u));
}

/// The product and its cautions, behind what a page is about.
static std::string product_sections(const Answer& a, UnitSystem u) {
  std::string html = section("product", "The product", product_html(a.liquid, u));
  const Cautions cautions = all_cautions(a);
  if (!cautions.empty()) html += section("cautions", "Cautions", cautions_html(cautions));
  return html;
}

}  // namespace report_detail

PageSection catch_plan_section(const CatchPlan& plan, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(plan.product, options);
  const std::string unit = cup_unit(u);
  const bool water_too = plan.product.liquid.name != plan.water.liquid.name;
  const int blanks = std::min(plan.setup.repeats, 4);
  HtmlTable table;
  table.column("row");
  if (water_too) {
    table.column(fmt::format("water [{}]", unit));
    table.column("caught");
  }
  table.column(fmt::format("{} [{}]", water_too ? "product" : "water", unit));
  for (int k = 1; k <= blanks; ++k) table.column(fmt::format("caught {}", k));
  for (const CatchPlanRow& r : plan.rows) {
    std::vector<std::string> cells{fmt::format("{}", r.row)};
    if (r.shut) {
      cells.emplace_back("shut");
    } else {
      if (water_too) {
        cells.push_back(cup_number(r.water, u));
        cells.emplace_back(HtmlTable::blank);
      }
      cells.push_back(cup_number(r.product, u));
      for (int k = 0; k < blanks; ++k) cells.emplace_back(HtmlTable::blank);
    }
    table.line(std::move(cells));
  }
  const double gauge = plan.product.evenness.supply_pressure;
  std::string html = paragraph(fmt::format(
      "A cup under each row for {:.4g} s, the product {} time{}; row 1 is at the left end, looking forward. Gauge at "
      "{} "
      "({}){}",
      si(plan.setup.time), plan.setup.repeats, plan.setup.repeats == 1 ? "" : "s", shown<Pressure>(gauge, u),
      gauge_place(plan.product.layout),
      !water_too                    ? "."
      : plan.water_at_same_pressure ? " with water and with the product."
                                    : fmt::format(" with the product; with water, which runs at the same total, at {}.",
                                                  shown<Pressure>(plan.water.evenness.supply_pressure, u))));
  html +=
      "<p class=\"byhand\">Date ________ Product at ________ Gauge: water ________ product ________ Time "
      "________</p>\n";
  html += table.html("What each cup should hold, and what it holds");
  std::vector<std::string> notes;
  if (water_too) notes.push_back(catch_liquid_advice());
  if (plan.provable_row > 0.0) {
    notes.push_back(
        fmt::format("{} good to {}{} prove{} one row off by {} or more.",
                    report_detail::counted(static_cast<std::size_t>(plan.setup.repeats), "reading", "readings"),
                    percent(plan.setup.cup_error()), plan.setup.repeats == 1 ? "" : " each",
                    plan.setup.repeats == 1 ? "s" : "", percent(plan.provable_row)));
  }
  for (const Caution& c : plan.cautions) {
    notes.push_back(fmt::format("{}. Source: {}.", sentence_case(c.text), source_text(c.source)));
  }
  return {"catch", "Catch-test sheet", html + html_list(notes)};
}

std::string catch_plan_page(const CatchPlan& plan, const TextOptions& options, const PageOrigin& origin) {
  using namespace report_detail;
  const UnitSystem u = units_of(plan.product, options);
  const PageSection sheet = catch_plan_section(plan, options);
  const std::string title = "Catch test: " + plan.product.layout.name;
  return whole_page(title, fmt::format("<h1>{}</h1>\n", xml_text(title)) + facts_html(plan.product, origin, u) +
                               section(sheet.id, sheet.heading, sheet.html) + product_sections(plan.product, u));
}

PageFindings catch_findings_part(const std::vector<CatchVerdict>& catches, const Diagnosis* diagnosis,
                                 const Layout& layout, const TextOptions& options) {
  using namespace report_detail;
  PageFindings found{
      .sentence = "The cups say: " + catch_sentence(catches, options.units), .good = true, .sections = {}};
  for (std::size_t k = 0; k < catches.size(); ++k) {
    const CatchVerdict& v = catches[k];
    const UnitSystem u = units_of(v.answer, options);
    found.good = found.good && v.even && !v.level.off;
    std::string html;
    const LevelAdvice level = k == 0 ? level_advice(catches, u) : LevelAdvice{};
    if (!level.lead.empty()) html += paragraph(level.lead) + html_list(level.items, true);
    if (catches.size() > 1) html += paragraph(catch_sentence(v, u));  // of one catch it stands in the box
    html += cups_html(v, u);
    if (!v.doubts.empty() && v.doubts_set_aside) {
      html += paragraph(fmt::format(
          "Mean rate {}, coefficient of variation {}, without what is to be looked at first; with it, as read: {} and "
          "{}.",
          shown<AreaRate>(v.total_rate, u), percent(v.cv), shown<AreaRate>(v.total_rate_of_all, u),
          percent(v.cv_of_all)));
    }
    if (const std::string cups = cups_note(v); !cups.empty()) html += paragraph(cups);
    if (diagnosis != nullptr && k + 1 == catches.size()) {
      const std::string first = takes_as_right(catches);
      if (!first.empty()) html += paragraph(first);
      html += diagnosis_html(*diagnosis, layout, si(catches.front().time), u);
    }
    std::string heading = catches.size() == 1 ? std::string("Catch test")
                                              : fmt::format("Catch test, {}: {}", which_catch(k, catches.size()),
                                                            shown<Pressure>(v.answer.evenness.supply_pressure, u));
    found.sections.push_back({k == 0 ? std::string("catch-test") : fmt::format("catch-test-{}", k + 1),
                              std::move(heading), std::move(html)});
  }
  return found;
}

std::string catch_findings_page(const std::vector<CatchVerdict>& catches, const Diagnosis* diagnosis,
                                const Answer& answer, const TextOptions& options, const PageOrigin& origin) {
  using namespace report_detail;
  const UnitSystem u = units_of(answer, options);
  const PageFindings found = catch_findings_part(catches, diagnosis, answer.layout, options);
  std::string body = findings_box(found, answer) + facts_html(answer, origin, u);
  for (const PageSection& s : found.sections) body += section(s.id, s.heading, s.html);
  return whole_page("Catch test: " + answer.layout.name, body + product_sections(answer, u));
}

}  // namespace libflow
