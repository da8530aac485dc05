// SPDX-License-Identifier: MIT
#include <libflow/report/dealer_sections.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/envelope_svg.hpp>
#include <libflow/report/envelope_words.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/report/order_list_text.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/what_if_text.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/setting_card.hpp>

namespace libflow {

PageSection envelope_section(const Envelope& e, UnitSystem u) {
  using namespace report_detail;
  std::string html =
      fmt::format("<div class=\"wide map\" tabindex=\"0\">{}</div>\n", envelope_svg(e, u, EnvelopeHeading::none));
  for (const std::string& assumption : envelope_assumptions(e.layout, u)) html += paragraph(assumption);
  return {"range", "Where it works", std::move(html)};
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
  std::string not_here, smaller;
  for (const FaultAnswer& a : w.answers) {
    const FaultEffect& e = held ? a.total_held : a.setting_kept;
    if (!a.fault.limited.empty()) {
      smaller += (smaller.empty() ? "" : "; ") + fault_text(w, a.fault, u) + " (" + a.fault.limited + ")";
    }
    if (!a.fault.applies()) {
      not_here += (not_here.empty() ? "" : "; ") + fault_text(w, a.fault, u) + " (" + a.fault.why_not + ")";
      continue;
    }
    if (!e.answered()) {
      t.line({fault_text(w, a.fault, u), "", "", "", "", "", "no answer: " + e.why_not});
      continue;
    }
    t.line({fault_text(w, a.fault, u), change_percent(e.total_change), change_percent(e.row_change),
            change_percent(a.fault.rows.empty() ? e.largest_change : e.neighbour_change),
            std::isfinite(e.cv) ? fmt::format("{:.1f}", 100.0 * e.cv) : "-", gauge_text(e.gauge_change, u),
            notice_text(e.notice)});
  }
  std::string html =
      paragraph(what_if_verdict(w)) +
      t.html(held ? "The controller holds the total; changes are against the bar without fault"
                  : "The setting stays; changes are against the bar without fault") +
      paragraph(fmt::format(
          "CV is of the rows that still run, so a plugged row is not in it. The gauge stands {}. Noticed: a "
          "change of {} or more there, of {} or more at the meter.",
          gauge_place(w.layout), shown<Pressure>(si(w.options.gauge_step), u), percent(w.options.meter_step)));
  if (!not_here.empty()) html += fmt::format("<p class=\"note\">Not applicable: {}.</p>\n", xml_text(not_here));
  if (!smaller.empty()) html += fmt::format("<p class=\"note\">Smaller than usual: {}.</p>\n", xml_text(smaller));
  return {"faults", "What if", std::move(html)};
}

PageSection order_section(const OrderList& list, UnitSystem u) {
  using namespace report_detail;
  std::string html;
  for (const HoseOrder& h : list.hoses) {
    HtmlTable t;
    t.column("cut", true);
    t.column("row");
    t.column("length");
    t.column("done", true);
    for (const HoseCut& cut : h.cuts) {
      t.line({cut.id, cut.row == 0 ? std::string("-") : fmt::format("{}", cut.row), cut_text(cut.cut, u),
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
  return {
      "card", "Setting card",
      t.html(fmt::format("{} at {}; the gauge stands {}; a word beside a pressure names what makes it uneven or stops "
                         "it",
                         card.liquid.name, format(card.layout.job.temperature, u), gauge_place(card.layout)))};
}

}  // namespace libflow
