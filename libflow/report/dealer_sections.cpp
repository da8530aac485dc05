// SPDX-License-Identifier: MIT
#include <libflow/report/dealer_sections.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/catch_text.hpp>
#include <libflow/report/envelope_svg.hpp>
#include <libflow/report/envelope_words.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/what_if_text.hpp>
#include <libflow/study/setting_card.hpp>

namespace libflow {

PageSection envelope_section(const Envelope& e, UnitSystem u) {
  using namespace report_detail;
  return {"range", "Where it works",
          fmt::format("<div class=\"wide map\" tabindex=\"0\">{}</div>\n", envelope_svg(e, u))};
}

/// The change of a gauge, with its sign; no sign where it is shown as zero.
static std::string gauge_text(double change, UnitSystem u) {
  if (!std::isfinite(change)) return "-";
  const double shown = value_in(from_si<Pressure>(change), u);
  return std::abs(shown) < 0.05 ? std::string("0.0") : fmt::format("{:+.1f}", shown);
}

PageSection what_if_section(const WhatIf& w, UnitSystem u) {
  using namespace report_detail;
  const bool held = !w.moved.empty();
  HtmlTable t;
  t.column("fault", true);
  t.column("total [%]");
  t.column("its row [%]");
  t.column("others [%]");
  t.column("CV [%]");
  t.column(fmt::format("gauge [{}]", unit_name<Pressure>(u)));
  t.column("noticed at", true);
  std::string not_here;
  for (const FaultAnswer& a : w.answers) {
    const FaultEffect& e = held ? a.total_held : a.setting_kept;
    if (!a.fault.applies()) {
      not_here += (not_here.empty() ? "" : "; ") + a.fault.name + " (" + a.fault.why_not + ")";
      continue;
    }
    if (!e.answered()) {
      t.line({a.fault.name, "", "", "", "", "", "no answer: " + e.why_not});
      continue;
    }
    t.line({a.fault.name, change_percent(e.total_change), change_percent(e.row_change),
            change_percent(a.fault.rows.empty() ? e.largest_change : e.neighbour_change),
            std::isfinite(e.cv) ? fmt::format("{:.1f}", 100.0 * e.cv) : "-", gauge_text(e.gauge_change, u),
            notice_text(e.notice)});
  }
  std::string html =
      paragraph(what_if_verdict(w)) +
      t.html(held ? "The controller holds the total; changes are against the bar without fault"
                  : "The setting stays; changes are against the bar without fault") +
      paragraph(fmt::format("Noticed: a change of {} or more at the gauge, of {} or more at the meter.",
                            shown<Pressure>(si(w.options.gauge_step), u), percent(w.options.meter_step)));
  if (!not_here.empty()) html += fmt::format("<p class=\"note\">Not applicable: {}.</p>\n", xml_text(not_here));
  return {"faults", "What if", std::move(html)};
}

PageSection order_section(const OrderList& list, UnitSystem u) {
  using namespace report_detail;
  std::string html;
  for (const HoseOrder& h : list.hoses) {
    HtmlTable t;
    t.column("cut", true);
    t.column("row");
    t.column(fmt::format("length [{}]", unit_name<Length>(u)));
    t.column("done", true);
    for (const HoseCut& cut : h.cuts) {
      t.line({cut.id, cut.row == 0 ? std::string("-") : fmt::format("{}", cut.row), format_number(cut.length, u),
              std::string(HtmlTable::blank)});
    }
    html += t.html(order_hose_heading(h, list.options, u));
  }
  HtmlTable parts;
  parts.column("count");
  parts.column("what", true);
  parts.column("size", true);
  parts.column("for rows", true);
  for (const OrderItem& item : list.items) {
    std::string size;
    for (const OrderSize& s : item.sizes) size += (size.empty() ? "" : ", ") + order_size_text(s, u);
    parts.line({fmt::format("{}", item.count), item.what, size, row_list_text(item.rows)});
  }
  return {"order", "To order and to cut", html + parts.html("Parts")};
}

PageSection card_section(const SettingCard& card, UnitSystem u) {
  using namespace report_detail;
  const std::vector<BindingLetter> letters = binding_letters(card.points);
  HtmlTable t;
  t.column(fmt::format("speed [{}]", unit_name<Speed>(u)));
  for (const AreaRate& rate : card.options.rates) {
    t.column(fmt::format("{}: gauge [{}]", format(rate, u), unit_name<Pressure>(u)));
    t.column("", true);
  }
  const std::size_t speeds = card.options.speeds.size();
  for (std::size_t v = 0; v < speeds; ++v) {
    std::vector<std::string> cells{format_number(card.options.speeds[v], u)};
    for (std::size_t r = 0; r < card.options.rates.size(); ++r) {
      const EnvelopePoint& p = card.points[r * speeds + v];
      cells.push_back(p.state == PointState::cannot_run ? "cannot run" : shown_number<Pressure>(p.gauge, u));
      cells.push_back(p.state == PointState::even ? "" : p.binding);
    }
    t.line(std::move(cells));
  }
  return {"card", "Setting card",
          t.html(fmt::format("{} at {}; a word beside a pressure names what makes it uneven or stops it",
                             card.liquid.name, format(card.layout.job.temperature, u)))};
}

PageSection catch_section(const CatchPlan& plan, UnitSystem u) {
  using namespace report_detail;
  const std::string unit = cup_unit(u);
  HtmlTable t;
  t.column("row");
  t.column(fmt::format("product [{}]", unit));
  t.column(fmt::format("water [{}]", unit));
  for (int k = 1; k <= std::min(plan.setup.repeats, 5); ++k) t.column(fmt::format("caught {}", k));
  for (const CatchPlanRow& r : plan.rows) {
    std::vector<std::string> cells{fmt::format("{}", r.row)};
    if (r.shut) {
      cells.emplace_back("shut");
    } else {
      cells.insert(cells.end(), {cup_number(r.product, u), cup_number(r.water, u)});
      for (int k = 1; k <= std::min(plan.setup.repeats, 5); ++k) cells.emplace_back(HtmlTable::blank);
    }
    t.line(std::move(cells));
  }
  std::string html = t.html(fmt::format("{:.4g} s under each row, the gauge at {}{}", si(plan.setup.time),
                                        shown<Pressure>(plan.product.evenness.supply_pressure, u),
                                        plan.water_at_same_pressure ? " with product and with water" : ""));
  if (plan.provable_row > 0.0) {
    html += paragraph(fmt::format("{} readings good to {} each prove one row off by {} or more.", plan.setup.repeats,
                                  percent(plan.setup.cup_error()), percent(plan.provable_row)));
  }
  html += cautions_html(plan.cautions);
  return {"catch", "Catch-test sheet", std::move(html)};
}

}  // namespace libflow
