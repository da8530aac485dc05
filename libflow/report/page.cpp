// SPDX-License-Identifier: MIT
#include <libflow/report/page.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/page_style.hpp>
#include <libflow/report/path_svg.hpp>
#include <libflow/report/rows_svg.hpp>
#include <libflow/report/toolbar_svg.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/version.hpp>

namespace libflow {

namespace report_detail {

std::string whole_page(std::string_view title, std::string_view body) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"generator\" content=\"libflow {}\">\n<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n{}"
      "<main>\n{}</main>\n<footer><p>{}</p></footer>\n</body>\n</html>\n",
      version, xml_text(title), page_style, page_patterns, body, xml_text(last_word));
}

std::string verdict_box(std::string_view sentence, VerdictState state, std::string_view below) {
  const bool good = state == VerdictState::good, unsure = state == VerdictState::unsure;
  const char* const look = good ? "" : unsure ? " unsure" : " bad";
  const char* const sign = good ? "✓" : unsure ? "?" : "✗";
  return fmt::format(
      "<div class=\"verdict{}\"><span class=\"sign\" aria-hidden=\"true\">{}</span><h1>{}</h1>{}</div>\n", look, sign,
      xml_text(sentence), below.empty() ? std::string() : paragraph(std::string(below)));
}

std::string findings_box(const PageFindings& findings, const Answer& answer) {
  if (findings.sentence.empty()) {
    return verdict_box(verdict_sentence(answer), verdict_state(answer), as_built_sentence(answer));
  }
  return verdict_box(findings.sentence, findings.good ? VerdictState::good : VerdictState::bad,
                     "The layout predicts: " + verdict_sentence(answer));
}

std::string origin_html(const PageOrigin& origin) {
  if (origin.file.empty() && origin.date.empty()) return {};
  return fmt::format("<p class=\"facts\">{}{}{}</p>\n", xml_text(origin.file),
                     origin.file.empty() || origin.date.empty() ? "" : ", ", xml_text(origin.date));
}

std::string facts_html(const Answer& answer, const PageOrigin& origin, UnitSystem u) {
  return fmt::format("<p class=\"facts\">{}: {}</p>\n", xml_text(name_text(answer.layout.name)),
                     xml_text(job_text(answer, u))) +
         origin_html(origin);
}

/// Two tables beside each other, below each other on a phone, so that none scrolls sideways: what each row gets, and
/// where its pressure goes.
static std::string rows_html(const Answer& a, UnitSystem u) {
  const Evenness& e = a.evenness;
  const auto headed = [](std::string_view name, std::string_view unit) { return fmt::format("{} [{}]", name, unit); };
  const auto any = [&](auto&& test) { return std::any_of(e.rows.begin(), e.rows.end(), test); };
  const bool valves = any([](const RowResult& r) { return r.valve != ValveState::none; });
  HtmlTable gets;
  gets.column("row");
  gets.column(headed("hose", unit_name<Length>(u)));
  gets.column(headed("flow", unit_name<Flow>(u)));
  gets.column(headed("rate", unit_name<AreaRate>(u)));
  gets.column("off mean [%]");
  gets.column("", true);
  HtmlTable loses;
  loses.column("row");
  loses.column(headed("orifice", unit_name<Pressure>(u)));
  if (valves) loses.column(headed("check valve", unit_name<Pressure>(u)));
  loses.column(headed("hose and bar", unit_name<Pressure>(u)));
  loses.column("flow in hose", true);
  for (const RowResult& r : e.rows) {
    const std::string row = fmt::format("{}", r.row);
    if (r.shut) {
      gets.line({row, "", "", "", "", "shut"});
      loses.line({row});
      continue;
    }
    gets.line({row, shown_number<Length>(r.hose_length, u), shown_number<Flow>(r.flow, u),
               shown_number<AreaRate>(r.rate, u), deviation_text(r.deviation, e), mark(r, e)});
    std::vector<std::string> cells{row, shown_number<Pressure>(r.orifice_drop, u)};
    if (valves) cells.push_back(shown_number<Pressure>(r.check_valve_drop, u));
    cells.insert(cells.end(), {shown_number<Pressure>(r.line_drop, u), std::string(name_of(r.regime))});
    loses.line(std::move(cells));
  }
  return "<div class=\"side\">" + gets.html("What each row gets") + loses.html("Pressure lost on its way") + "</div>\n";
}

static std::string summary_html(const Answer& a, UnitSystem u) {
  const Evenness& e = a.evenness;
  const auto measure = [&](double v) { return e.mean_rate > 0.0 ? percent(v) : std::string("-"); };
  HtmlTable t;
  t.column("", true);
  t.column("");
  t.line({"mean rate", shown<AreaRate>(e.mean_rate, u)});
  t.line({"wanted", shown<AreaRate>(e.target_rate, u)});
  t.line({"coefficient of variation (n-1)", measure(e.cv)});
  t.line({"Christiansen uniformity", measure(e.christiansen)});
  t.line({"low-quarter uniformity", measure(e.low_quarter)});
  t.line({fmt::format("gauge ({})", gauge_place(a.layout)), shown<Pressure>(e.supply_pressure, u)});
  t.line({"total flow", shown<Flow>(e.total_flow, u)});
  t.line({"hose to cut", shown<Length>(a.plumbing.hose_total, u)});
  return t.html();
}

static std::string causes_html(const Evenness& e) {
  const RowResult* worst = worst_row(e);
  if (e.causes.empty() || worst == nullptr) return {};
  const auto at = static_cast<std::size_t>(worst - e.rows.data());
  HtmlTable t;
  t.column("", true);
  t.column("share of all variation");
  t.column(fmt::format("in row {} [%]", worst->row));
  for (const Cause& c : e.causes) {
    t.line({c.name, fmt::format("{:.0f} %", std::round(100.0 * c.share) + 0.0),
            at < c.deviation.size() ? deviation_text(c.deviation[at], e) : std::string()});
  }
  return t.html() + paragraph("Measured from an even reference: " + e.reference + ".");
}

std::string product_html(const LiquidState& l, UnitSystem u) {
  HtmlTable t;
  t.column("", true);
  t.column("");
  t.column("confidence", true);
  t.column("source", true);
  t.line({"density", shown<Density>(l.density, u), std::string(to_text(l.density_confidence)),
          source_text(l.density_source)});
  t.line({"viscosity", shown<Viscosity>(l.viscosity, u), std::string(to_text(l.viscosity_confidence)),
          source_text(l.viscosity_source)});
  return t.html(fmt::format("{} at {}", l.name, format(from_si<Temperature>(l.temperature), u)));
}

std::string cautions_html(const Cautions& cautions) {
  std::string out = "<ul>\n";
  for (const auto& group : caution_groups(cautions)) out += fmt::format("<li>{}</li>\n", xml_text(group));
  return out + "</ul>\n";
}

}  // namespace report_detail

std::string layout_page(const Answer& answer, const std::vector<PageSection>& sections, const TextOptions& options,
                        const PageFindings& findings, const PageOrigin& origin) {
  using namespace report_detail;
  const UnitSystem u = units_of(answer, options);
  const bool solved = answer.solution.usable();
  std::string body = findings_box(findings, answer) + facts_html(answer, origin, u);
  for (const PageSection& s : findings.sections) body += section(s.id, s.heading, s.html);
  if (solved) {
    const std::string band = viscosity_band_text(answer, u, 100000);
    body += section("rows", "Every row",
                    "<div class=\"side\">" + rows_svg(answer) + summary_html(answer, u) + "</div>\n" +
                        rows_html(answer, u) + (band.empty() ? std::string() : paragraph(band)));
    const std::string drawing = toolbar_svg(answer, u);
    if (!drawing.empty()) body += section("toolbar", "The toolbar", "<div class=\"side\">" + drawing + "</div>\n");
    const std::string causes = causes_html(answer.evenness);
    if (!causes.empty()) body += section("causes", "What decides it", causes);
    body += section("pressure", "Where the pressure goes", path_svg(answer, u));
  }
  for (const PageSection& s : sections) body += section(s.id, s.heading, s.html);
  body += section("product", "The product", product_html(answer.liquid, u));
  const Cautions cautions = all_cautions(answer);
  if (!cautions.empty()) body += section("cautions", "Cautions", cautions_html(cautions));
  if (solved) body += fmt::format("<p class=\"note\">{}</p>\n", xml_text(proof_text(answer.solution, 100000)));
  return whole_page(answer.layout.name, body);
}

}  // namespace libflow
