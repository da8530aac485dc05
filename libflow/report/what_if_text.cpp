// SPDX-License-Identifier: MIT
#include <libflow/report/what_if_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/fault_options.hpp>
#include <libflow/study/what_if.hpp>

namespace libflow {

namespace report_detail {

std::string fault_text(const WhatIf& w, const FaultCase& fault, UnitSystem u) {
  if (fault.fault == Fault::colder) {
    const bool us = u == UnitSystem::us;
    const double step = fault.temperature ? si(w.layout.job.temperature) - si(*fault.temperature) : w.options.colder;
    std::string text = fmt::format("product {:.3g} {} colder", us ? 1.8 * step : step, us ? "°F" : "°C");
    return fault.temperature ? text + fmt::format(" ({})", format(*fault.temperature, u)) : text;
  }
  if (fault.fault == Fault::hose_half_bore && fault.rows.size() == 1 && fault.applies()) {
    for (const RowPlumbing& row : w.plumbing.rows) {
      if (row.row != fault.rows.front() || !(row.hose_length > 0.0)) continue;
      const std::string whole = "whole hose";
      std::string text = fault.name;
      const std::size_t at = text.find(whole);
      if (at != std::string::npos) {
        text.insert(at + whole.size(), fmt::format(" ({})", shown<Length>(row.hose_length, u)));
      }
      return text;
    }
  }
  return fault.name;
}

std::string change_percent(double change) { return std::isfinite(change) ? signed_percent(change) : "-"; }

std::string notice_text(Notice n) {
  switch (n) {
    case Notice::neither:
      return "NEITHER";
    case Notice::both:
      return "both";
    default:
      return std::string(name_of(n));
  }
}

static std::string faults_table(const WhatIf& w, FaultEffect FaultAnswer::*way, UnitSystem u, std::size_t name_width) {
  Table t;
  t.column("", Table::Align::left);
  t.column("total\n%");
  t.column("row\n%");
  t.column("others\n%");
  t.column("CV\n%");
  t.column("furthest\nrow %");
  t.column(fmt::format("gauge\n{}", unit_name<Pressure>(u)));
  if (w.has_setting) t.column("control\n%");
  t.column("noticed\nat", Table::Align::left);
  const auto gauge = [&](double change) {
    if (!std::isfinite(change)) return std::string("-");
    const std::string text = fmt::format("{:+.1f}", value_in(from_si<Pressure>(change), u));
    return text == "-0.0" || text == "+0.0" ? std::string("0.0") : text;
  };
  for (const FaultAnswer& a : w.answers) {
    const FaultEffect& e = a.*way;
    if (!e.answered()) continue;
    std::vector<std::string> name = name_lines(fault_text(w, a.fault, u), name_width);
    std::vector<std::string> cells{
        name.front(),
        change_percent(e.total_change),
        change_percent(e.row_change),
        change_percent(a.fault.rows.empty() ? e.largest_change : e.neighbour_change),
        std::isfinite(e.cv) ? fmt::format("{:.1f}", 100.0 * e.cv) : "-",
        e.worst_row == 0 ? std::string("-") : fmt::format("{}: {}", e.worst_row, signed_percent(e.worst_deviation)),
        gauge(e.gauge_change)};
    if (w.has_setting) cells.push_back(change_percent(e.setting / w.base_setting - 1.0));
    cells.push_back(notice_text(e.notice));
    t.line(std::move(cells));
    for (std::size_t k = 1; k < name.size(); ++k) t.line({name[k]});
  }
  return t.text();
}

/// What the table leaves out: rows that run dry, a controller at its limit, no answer at all.
static std::string faults_notes(const WhatIf& w, FaultEffect FaultAnswer::*way, UnitSystem u, std::size_t width) {
  std::string text;
  for (const FaultAnswer& a : w.answers) {
    const FaultEffect& e = a.*way;
    const auto note = [&](const std::string& what) {
      text += wrapped(fmt::format("{}: {}.", fault_text(w, a.fault, u), what), width, 3, " - ");
    };
    if (!a.fault.applies()) continue;
    if (!e.answered()) note("no answer, " + e.why_not);
    if (!e.limit.empty()) note(e.limit);
    if (e.dry.size() > 1 || (e.dry.size() == 1 && a.fault.rows != e.dry)) {
      note(fmt::format("{} run{} dry", row_list_text(e.dry), e.dry.size() == 1 ? "s" : ""));
    }
  }
  return text;
}

/// How many faults neither instrument shows, of those with an answer.
struct Unseen {
  std::size_t unseen = 0, all = 0;
};

static Unseen unseen(const WhatIf& w, FaultEffect FaultAnswer::*way) {
  Unseen n;
  for (const FaultAnswer& a : w.answers) {
    if (!(a.*way).answered()) continue;
    ++n.all;
    n.unseen += (a.*way).notice == Notice::neither ? 1 : 0;
  }
  return n;
}

std::string what_if_verdict(const WhatIf& w) {
  std::string text;
  if (!w.moved.empty()) {
    const Unseen n = unseen(w, &FaultAnswer::total_held);
    text = fmt::format("With the total held, {} of {} faults show neither at the gauge nor at the meter; ", n.unseen,
                       n.all);
  }
  const Unseen n = unseen(w, &FaultAnswer::setting_kept);
  text += fmt::format("{}ith the setting kept, {} of {}.", text.empty() ? "W" : "w", n.unseen, n.all);
  if (text.find("show neither") == std::string::npos) {
    text.replace(text.size() - 1, 1, " faults show neither at the gauge nor at the meter.");
  }
  return text;
}

}  // namespace report_detail

std::string what_if_text(const WhatIf& w, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = options.units.value_or(w.layout.units);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  Answer as;
  as.layout = w.layout;
  as.liquid = w.liquid;
  std::string text = coloured(wrapped(what_if_verdict(w), width), Colour::strong, options);
  text +=
      "\n" + wrapped(fmt::format("{}: {} Without fault: {} at the gauge, {} in all, CV {}.", name_text(w.layout.name),
                                 job_text(as, u), shown<Pressure>(w.base.supply_pressure, u),
                                 shown<Flow>(w.base_total, u), percent(w.base.cv)),
                     width, 2);
  if (!w.base_limit.empty()) text += wrapped("Even without fault, " + w.base_limit + ".", width);
  if (!w.complete) text += "STOPPED: the faults after these were not tried.\n";

  const auto section = [&](const std::string& heading, FaultEffect FaultAnswer::*way) {
    text += "\n" + wrapped(heading, width);
    std::string table;
    for (std::size_t name = 44; name >= 16; name -= 4) {
      table = faults_table(w, way, u, name);
      if (widest_line(table) <= width) break;
    }
    text += table + faults_notes(w, way, u, width);
  };
  if (w.moved.empty()) {
    text += "\nThe total cannot be held: nothing can be moved.\n";
  } else {
    section(fmt::format("The controller holds the total ({} moves)", w.moved), &FaultAnswer::total_held);
  }
  section(fmt::format("The setting stays ({})", w.kept), &FaultAnswer::setting_kept);
  text +=
      "\n" +
      wrapped(
          fmt::format(
              "Changes are against the layout without fault. Others: the neighbours of the row or section "
              "at fault; of a fault of the whole bar, the row that changes most. CV and furthest row are "
              "of the rows that still run; of rows that are as far, the first is named. A kink narrows the hose at one "
              "place, as a hole of that area; a whole hose "
              "is narrow from end to end. The gauge stands {}. Noticed: a change of {} or more at the gauge, of {} or "
              "more of the meter's "
              "reading{}. A row at fault takes nothing from a held total: the other rows share what it "
              "does not get, so look at the pressure, not at the meter.{}",
              gauge_place(w.layout), shown<Pressure>(si(w.options.gauge_step), u), percent(w.options.meter_step),
              w.options.gauge_step == WhatIfOptions{}.gauge_step && w.options.meter_step == WhatIfOptions{}.meter_step
                  ? " (common practice, no source; give your own instruments')"
                  : "",
              w.has_setting ? " A readout of the control itself would be a third instrument." : ""),
          width);

  std::string not_here;
  for (const FaultAnswer& a : w.answers) {
    if (!a.fault.applies()) {
      not_here += wrapped(fmt::format("{}: {}.", fault_text(w, a.fault, u), a.fault.why_not), width, 3, " - ");
    }
  }
  if (!not_here.empty()) text += "\nNot applicable here\n" + not_here;
  std::string smaller;
  for (const FaultAnswer& a : w.answers) {
    if (a.fault.limited.empty()) continue;
    smaller += wrapped(fmt::format("{}: {}.", fault_text(w, a.fault, u), a.fault.limited), width, 3, " - ");
  }
  if (!smaller.empty()) text += "\nSmaller than usual\n" + smaller;

  Cautions all = w.liquid.cautions;
  for (const FaultAnswer& a : w.answers) {
    for (const FaultEffect* e : {&a.total_held, &a.setting_kept}) {
      for (Caution c : e->cautions) {
        c.subject = fault_text(w, a.fault, u) + (c.subject.empty() ? "" : ", " + c.subject);
        const auto same = [&](const Caution& b) {
          return b.code == c.code && b.text == c.text && b.subject == c.subject;
        };
        if (std::none_of(all.begin(), all.end(), same)) all.push_back(std::move(c));
      }
    }
  }
  return text + cautions_section(all, width) + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
