// SPDX-License-Identifier: MIT
#include <libflow/report/order_list_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/caution.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/order_list.hpp>

namespace libflow {

namespace report_detail {

std::string order_hose_heading(const HoseOrder& h, const OrderOptions& o, UnitSystem u) {
  return fmt::format("Hose, {} bore{}: {} in {}, buy {} ({:g} % allowance)", format_bore(h.bore, u),
                     h.rating ? ", working pressure " + format(*h.rating, u) : std::string(), format(h.cut_total, u),
                     counted(h.cuts.size(), "cut", "cuts"), format(h.to_buy, u), 100.0 * o.waste);
}

/// Cuts of one length together, longest first.
static std::string order_cuts_table(const HoseOrder& h, UnitSystem u) {
  struct Group {
    Length length{};
    std::size_t count = 0;
    std::vector<int> rows;
    std::vector<std::string> others;
  };
  std::vector<Group> groups;
  for (const HoseCut& cut : h.cuts) {
    auto at = std::find_if(groups.begin(), groups.end(),
                           [&](const Group& g) { return std::abs(si(g.length) - si(cut.cut)) <= 1e-9 * si(cut.cut); });
    if (at == groups.end()) at = groups.insert(groups.end(), Group{.length = cut.cut, .rows = {}, .others = {}});
    ++at->count;
    if (cut.row == 0) {
      at->others.push_back(cut.id);
    } else if (at->rows.empty() || at->rows.back() != cut.row) {
      at->rows.push_back(cut.row);
    }
  }
  std::stable_sort(groups.begin(), groups.end(),
                   [](const Group& a, const Group& b) { return si(a.length) > si(b.length); });
  Table t;
  t.column("cuts");
  t.column("length");
  t.column("for", Table::Align::left);
  for (const Group& g : groups) {
    std::string who = row_list_text(g.rows);
    for (const std::string& id : g.others) who += (who.empty() ? "" : ", ") + id;
    t.line({fmt::format("{}", g.count), cut_text(g.length, u), who});
  }
  return t.text();
}

static std::string order_coils_text(const HoseOrder& h, const OrderOptions& o, UnitSystem u, std::size_t width) {
  const CoilPlan& plan = *h.plan;
  std::string text = wrapped(
      fmt::format("{} of {}{}{}:", counted(plan.coils.size(), "coil", "coils"), format(*o.coil, u),
                  plan.coils.size() == plan.at_least ? std::string(", the fewest possible")
                                                     : fmt::format(" (no plan needs fewer than {})", plan.at_least),
                  o.waste > 0.0
                      ? fmt::format("; every cut fits with {:g} % more of its coil for its allowance", 100.0 * o.waste)
                      : std::string("; the cuts fit, without any allowance")),
      width, 1, " ");
  for (std::size_t i = 0; i < plan.coils.size(); ++i) {
    std::string cuts;
    for (const std::size_t c : plan.coils[i].cuts) cuts += (cuts.empty() ? "" : ", ") + h.cuts[c].id;
    text += wrapped(fmt::format("{}; {} left", cuts, format(plan.coils[i].left, u)), width, 5,
                    fmt::format("  {:2} ", i + 1));
  }
  return text;
}

/// A thing's sizes in lines of at most `most` columns, a number never apart from its unit.
static std::vector<std::string> size_lines(const OrderItem& item, UnitSystem u, std::size_t most) {
  std::vector<std::string> lines{{}};
  for (std::size_t k = 0; k < item.sizes.size(); ++k) {
    const std::string one = order_size_text(item.sizes[k], u) + (k + 1 < item.sizes.size() ? "," : "");
    std::string& line = lines.back();
    if (line.empty()) {
      line = one;
    } else if (columns(line) + 1 + columns(one) <= most) {
      line += " " + one;
    } else {
      lines.push_back(one);
    }
  }
  return lines;
}

/// @param what_width, size_width  columns of these two at most; longer ones go on in the next line
static std::string order_items_table(const OrderList& list, UnitSystem u, std::size_t width, std::size_t what_width,
                                     std::size_t size_width) {
  Table t;
  t.column("count");
  t.column("what", Table::Align::left);
  t.column("size", Table::Align::left);
  t.column("for", Table::Align::left);
  for (const OrderItem& item : list.items) {
    std::string who = row_list_text(item.rows);
    if (who.empty() && item.ids.size() <= 2) {
      for (const std::string& id : item.ids) who += (who.empty() ? "" : ", ") + id;
    }
    if (who == item.what) who.clear();
    const auto owners = name_lines(who, width / 4);
    const auto what = name_lines(item.note.empty() ? item.what : item.what + ", " + item.note, what_width);
    const auto sizes = size_lines(item, u, size_width);
    const auto line_of = [](const std::vector<std::string>& lines, std::size_t k) {
      return k < lines.size() ? lines[k] : std::string();
    };
    for (std::size_t k = 0; k < std::max({what.size(), sizes.size(), owners.size()}); ++k) {
      t.line({k == 0 ? fmt::format("{}", item.count) : std::string(), line_of(what, k), line_of(sizes, k),
              line_of(owners, k)});
    }
  }
  return t.text();
}

}  // namespace report_detail

std::string order_list_text(const OrderList& list, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = options.units.value_or(list.units);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::size_t cuts = 0;
  Length to_buy = from_si<Length>(0.0);
  for (const HoseOrder& h : list.hoses) {
    cuts += h.cuts.size();
    to_buy += h.to_buy;
  }
  std::string text =
      coloured(wrapped(fmt::format("ORDER for {}: {} of hose in {} ({} with {:g} % allowance), and the parts below.",
                                   name_text(list.name), format(list.cut_total, u), counted(cuts, "cut", "cuts"),
                                   format(to_buy, u), 100.0 * list.options.waste),
                       width, 2),
               Colour::strong, options);
  // What may be wrong with the layout is read before what it asks to buy.
  Cautions first = list.cautions, others;
  const auto rest = std::stable_partition(first.begin(), first.end(), stops_the_job);
  others.assign(rest, first.end());
  first.erase(rest, first.end());
  if (!first.empty()) text += "\nBefore you order\n" + cautions_text(first, width);
  for (const HoseOrder& h : list.hoses) {
    text += "\n" + wrapped(order_hose_heading(h, list.options, u), width, 2) + order_cuts_table(h, u);
    if (h.plan) text += order_coils_text(h, list.options, u, width);
  }
  if (!list.hoses.empty()) {
    text += wrapped(
        fmt::format(
            "Cuts are rounded up to {}; the layout's own lengths are {} together. The allowance is for trimmed "
            "ends, kinks and a mistake, and yours to choose (--waste): 5 % is common practice without a source. "
            "Slack of the run is no part of it: that is in the layout's lengths.",
            cut_step_text(cut_step(list.units), u), format(list.hose_total, u)),
        width, 1, " ");
  }
  std::string items;
  for (std::size_t less = 0; less <= 24; less += 6) {
    items = order_items_table(list, u, width, 40 - less / 2, 44 - less);
    if (widest_line(items) <= width) break;
  }
  text += "\nParts\n" + items;
  const bool assumed = std::any_of(list.items.begin(), list.items.end(), [](const OrderItem& item) {
    return std::any_of(item.sizes.begin(), item.sizes.end(), [](const OrderSize& s) { return s.assumed; });
  });
  if (assumed) {
    text += wrapped(
        "Assumed: libflow's own default, for the layout says nothing else: no maker's size. Give your manifold's own "
        "(port_spacing in [[manifold]]).",
        width, 1, " ");
  }
  text += wrapped(
      "A hose end is a barb with its clamp, or a fitting; a branch is a small manifold or several tees. Screws, "
      "brackets, thread sizes, wiring and hydraulics are not in the layout and not listed.",
      width, 1, " ");
  return text + cautions_section(others, width) + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
