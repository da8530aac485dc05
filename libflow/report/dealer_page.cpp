// SPDX-License-Identifier: MIT
#include <libflow/report/dealer_page.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/progress.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/comparison_text.hpp>
#include <libflow/report/dealer_sections.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/rows_svg.hpp>
#include <libflow/report/toolbar_svg.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/order_list.hpp>
#include <libflow/study/setting_card.hpp>
#include <libflow/study/what_if.hpp>

namespace libflow {

namespace report_detail {

/// Runs one study for a page. What it cannot do for this layout is said on the page instead.
template <class Make>
void add_section(std::vector<PageSection>& sections, const char* id, const char* heading, const Make& make) {
  try {
    sections.push_back(make());
  } catch (const Error& error) {
    sections.push_back({id, heading, paragraph(fmt::format("Not for this layout: {}", error.what()))});
  }
}

}  // namespace report_detail

std::string dealer_page(const Layout& layout, const Answer& answer, const TextOptions& options,
                        const Progress& progress, const PageFindings& findings, const PageOrigin& origin) {
  using namespace report_detail;
  const UnitSystem u = units_of(answer, options);
  std::vector<PageSection> sections;
  std::size_t done = 0;
  constexpr std::size_t all = 5;
  const auto next = [&] { return go_on(progress, ++done, all); };
  const auto stopped = [&] {
    sections.push_back({"stopped", "Not complete", paragraph("The studies after this were stopped by the user.")});
    return layout_page(answer, sections, options, findings, origin);
  };
  add_section(sections, "range", "Where it works",
              [&] { return envelope_section(envelope(layout, default_axes(layout)), u); });
  if (!next()) return stopped();
  add_section(sections, "faults", "What if", [&] { return what_if_section(what_if(layout), u); });
  if (!next()) return stopped();
  add_section(sections, "order", "To order and to cut",
              [&] { return order_section(order_list(layout, {.tape = u}), u); });
  if (!next()) return stopped();
  add_section(sections, "card", "Setting card", [&] { return card_section(setting_card(layout), u); });
  if (!next()) return stopped();
  add_section(sections, "catch", "Catch-test sheet", [&] { return catch_plan_section(plan_catch(layout), options); });
  static_cast<void>(next());
  return layout_page(answer, sections, options, findings, origin);
}

std::string comparison_page(const Comparison& c, const TextOptions& options, const PageOrigin& origin) {
  using namespace report_detail;
  const UnitSystem u = units_of(c.answers.front(), options);
  // Good news where one of them is good; what is not sure is no good news yet.
  VerdictState state = VerdictState::bad;
  for (const Answer& a : c.answers) state = std::min(state, verdict_state(a));
  // What a reader must know before any number comes first.
  std::string said;
  for (const std::string& sentence : rate_not_reached_sentences(c, u)) said += sentence + " ";
  std::string body = verdict_box(said + verdict_sentence(c, false), state,
                                 state == VerdictState::unsure ? "NOT SURE: none of them is good for certain." : "");
  body +=
      fmt::format("<p class=\"facts\">All at the same total rate: {}</p>\n", xml_text(job_text(c.answers.front(), u))) +
      origin_html(origin);
  // What has no answer has no numbers to compare: the sentence says which layout that is.
  const bool usable =
      std::all_of(c.answers.begin(), c.answers.end(), [](const Answer& a) { return a.solution.usable(); });
  if (!usable) return whole_page(c.answers.front().layout.name, body);
  HtmlTable t;
  t.column("", true);
  for (std::size_t k = 0; k < c.answers.size(); ++k) {
    t.column(fmt::format("{} {}", letter(k), name_text(c.answers[k].layout.name)));
  }
  const auto line = [&](const char* name, const auto& of) {
    std::vector<std::string> cells{name};
    for (const Answer& a : c.answers) cells.push_back(of(a));
    t.line(std::move(cells));
  };
  line("verdict", [](const Answer& a) { return verdict_word(a); });
  if (std::any_of(c.answers.begin(), c.answers.end(), [](const Answer& a) { return short_of_rate(a) != nullptr; })) {
    line("wanted rate", rate_word);
  }
  line("coefficient of variation", [](const Answer& a) { return percent(a.evenness.cv); });
  line("furthest row", [](const Answer& a) {
    const RowResult* w = worst_row(a.evenness);
    return w == nullptr
               ? std::string("-")
               : fmt::format("{}: {} %", furthest_rows_text(a.evenness), deviation_text(w->deviation, a.evenness));
  });
  line("rows outside", [](const Answer& a) { return fmt::format("{}", a.evenness.outside.size()); });
  line("gauge pressure", [&](const Answer& a) { return shown<Pressure>(a.evenness.supply_pressure, u); });
  line("hose to cut", [&](const Answer& a) { return shown<Length>(a.plumbing.hose_total, u); });
  line("what decides it", [](const Answer& a) {
    return a.evenness.causes.empty() || a.evenness.cv < least_cv_explained ? std::string("-")
                                                                           : a.evenness.causes.front().name;
  });
  body += section("difference", "The difference", t.html());
  std::string rows = "<div class=\"side\">";
  for (std::size_t k = 0; k < c.answers.size(); ++k) {
    rows += fmt::format("<div><h3>{} {}</h3>\n{}{}</div>\n", letter(k), xml_text(name_text(c.answers[k].layout.name)),
                        rows_svg(c.answers[k]), toolbar_svg(c.answers[k], u));
  }
  body += section("rows", "Every row", rows + "</div>\n");
  Cautions cautions = c.cautions;
  for (const Answer& a : c.answers) {
    for (Caution caution : all_cautions(a)) {
      caution.subject = a.layout.name + (caution.subject.empty() ? "" : ", " + caution.subject);
      cautions.push_back(std::move(caution));
    }
  }
  body += section("product", "The product", product_html(c.answers.front().liquid, u));
  if (!cautions.empty()) body += section("cautions", "Cautions", cautions_html(cautions));
  return whole_page(c.answers.front().layout.name, body);
}

}  // namespace libflow
