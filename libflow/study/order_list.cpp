// SPDX-License-Identifier: MIT
#include <libflow/study/order_list.hpp>

#include <algorithm>
#include <cstddef>
#include <functional>
#include <iterator>
#include <limits>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/caution.hpp>
#include <libflow/core/error.hpp>
#include <libflow/study/coils.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/layout_doubts.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/order_items.hpp>
#include <libflow/toolbar.hpp>
#include <libflow/toolbar/build_rows.hpp>

namespace libflow {

namespace order_detail {

/// The layout's network with everything that has to be bought in it.
static Plumbing everything(const Layout& layout) {
  const auto* given = std::get_if<Toolbar>(&layout.plumbing);
  if (given == nullptr) return std::get<Plumbing>(layout.plumbing);
  Toolbar toolbar = *given;
  Job job = layout.job;
  if (toolbar.drive) {
    // Which setting does not matter for what is bought.
    if (!toolbar.drive->setting) toolbar.drive->setting = setting_range(*toolbar.drive).high;
    job.pressure.reset();
  }
  return build_network(toolbar, job);
}

class Collector {
 public:
  Collector(const Plumbing& plumbing, bool is_toolbar) : p_(plumbing), is_toolbar_(is_toolbar) {
    row_of_.assign(p_.network.part_count(), 0);
    for (const RowPlumbing& row : p_.rows) {
      for (const auto* list : {&row.last_parts, &row.orifices, &row.check_valves, &row.hoses}) {
        for (const auto part : *list) row_of_[part] = row.row;
      }
    }
    cut_.insert(p_.cut_hoses.begin(), p_.cut_hoses.end());
    if (p_.drive) {
      cut_.insert(p_.drive->suction_hoses.begin(), p_.drive->suction_hoses.end());
      cut_.insert(p_.drive->delivery_hoses.begin(), p_.drive->delivery_hoses.end());
    }
  }

  void fill(OrderList& list) {
    for (const auto part : cut_) add_cut(list, part);
    for (HoseOrder& hose : list.hoses) finish(hose, list.options, cut_step(list.units));
    std::stable_sort(list.hoses.begin(), list.hoses.end(),
                     [](const HoseOrder& a, const HoseOrder& b) { return si(a.bore) > si(b.bore); });
    for (const HoseOrder& hose : list.hoses) {
      list.hose_total += hose.total;
      list.cut_total += hose.cut_total;
      add(list, {.what = "hose end", .sizes = {bore(hose.bore, "hose")}}, 2 * hose.cuts.size());
    }
    for (std::size_t i = 0; i < p_.network.part_count(); ++i) {
      if (auto item = item_of(p_.network.part(i).part)) {
        item->ids = {p_.network.part(i).id};
        if (row_of_[i] > 0) item->rows = {row_of_[i]};
        add(list, std::move(*item), 1);
      } else if (!is_toolbar_ && !cut_.contains(i) && p_.network.part(i).part.as<OpenEnd>() == nullptr) {
        add_pipe(list, i);
      }
    }
    add_branches(list);
    for (const PlumbedTank& tank : p_.tanks) {
      add(list,
          {.what = "tank", .sizes = {volume(tank.tank.capacity(), "holds")}, .ids = {p_.network.place(tank.place).id}},
          1);
    }
  }

  /// Merges what is alike.
  static void add(OrderList& list, OrderItem item, std::size_t count) {
    const auto same =
        std::find_if(list.items.begin(), list.items.end(), [&](const OrderItem& other) { return alike(other, item); });
    if (same == list.items.end()) {
      item.count = count;
      list.items.push_back(std::move(item));
      return;
    }
    same->count += count;
    same->ids.insert(same->ids.end(), item.ids.begin(), item.ids.end());
    for (const int row : item.rows) {
      if (std::find(same->rows.begin(), same->rows.end(), row) == same->rows.end()) same->rows.push_back(row);
    }
    std::sort(same->rows.begin(), same->rows.end());
  }

 private:
  struct Tube {
    Length length{}, bore{};
    std::optional<Pressure> rating;
  };
  [[nodiscard]] Tube tube(std::size_t i) const {
    const Part& part = p_.network.part(i).part;
    if (const auto* hose = part.as<Hose>()) return {hose->length, hose->bore, hose->rating};
    const auto* hose = part.as<SuspensionHose>();
    return {hose->length, hose->bore, hose->rating};
  }

  void add_cut(OrderList& list, std::size_t i) const {
    const Tube t = tube(i);
    const auto same_rating = [&](const HoseOrder& h) {
      return h.rating.has_value() == t.rating.has_value() && (!t.rating || alike(si(*h.rating), si(*t.rating)));
    };
    auto at = std::find_if(list.hoses.begin(), list.hoses.end(),
                           [&](const HoseOrder& h) { return alike(si(h.bore), si(t.bore)) && same_rating(h); });
    if (at == list.hoses.end()) {
      at = list.hoses.insert(list.hoses.end(), HoseOrder{.bore = t.bore, .rating = t.rating});
    }
    at->cuts.push_back({p_.network.part(i).id, row_of_[i], t.length, t.length});
  }

  static void finish(HoseOrder& hose, const OrderOptions& options, Length step) {
    std::stable_sort(hose.cuts.begin(), hose.cuts.end(), [](const HoseCut& a, const HoseCut& b) {
      return std::tuple(a.row == 0, a.row) < std::tuple(b.row == 0, b.row);
    });
    std::vector<Length> lengths;
    for (HoseCut& cut : hose.cuts) {
      cut.cut = cut_length(cut.length, step);
      hose.total += cut.length;
      hose.cut_total += cut.cut;
      lengths.push_back((1.0 + options.waste) * cut.cut);
    }
    hose.to_buy = (1.0 + options.waste) * hose.cut_total;
    if (options.coil) {
      try {
        hose.plan = cut_from_coils(lengths, *options.coil);
      } catch (const InputError& error) {
        throw error.inside(
            fmt::format("hose of {} ({:.4g} mm) bore", format_bore(hose.bore, UnitSystem::us), 1e3 * si(hose.bore)));
      }
    }
  }

  /// Pipe of a free form: not cut from a roll, ordered by its length.
  void add_pipe(OrderList& list, std::size_t i) const {
    const Tube t = tube(i);
    OrderItem item{.what = "pipe or tube",
                   .sizes = {bore(t.bore), {"length", Kind::length, si(t.length)}},
                   .ids = {p_.network.part(i).id}};
    if (row_of_[i] > 0) item.rows = {row_of_[i]};
    add(list, std::move(item), 1);
  }

  /// Where three parts or more meet, there is a tee, a cross or a small manifold; ports of a bar come with the bar.
  void add_branches(OrderList& list) const {
    const Network& n = p_.network;
    std::vector<std::size_t> ways(n.place_count(), 0);
    std::vector<bool> on_bar(n.place_count(), false);
    for (std::size_t i = 0; i < n.part_count(); ++i) {
      for (const auto place : {n.from(i), n.to(i)}) {
        ++ways[place];
        if (is_toolbar_ && n.part(i).part.as<Hose>() != nullptr && !cut_.contains(i)) on_bar[place] = true;
      }
    }
    for (const PlumbedTank& tank : p_.tanks) ways[tank.place] = 0;  // each line has its own port
    for (const TeeAt& tee : p_.tees) {
      if (!tee.bar.empty()) continue;  // a port of a bar
      ways[tee.place] = 0;
      add(list, tee_item(tee, n.place(tee.place).id), 1);
    }
    for (std::size_t i = 0; i < n.place_count(); ++i) {
      const PlaceKind kind = n.place(i).kind;
      if (kind == PlaceKind::fed || kind == PlaceKind::drawn) ++ways[i];  // the line that feeds it
      if (on_bar[i] || ways[i] < 3 || kind == PlaceKind::air) continue;
      add(list,
          {.what = ways[i] == 3   ? std::string("tee")
                   : ways[i] == 4 ? std::string("cross, 4 ways")
                                  : fmt::format("branch, {} ways", ways[i]),
           .sizes = hoses_at(i),
           .ids = {n.place(i).id}},
          1);
    }
  }

  /// A tee of the layout by its own bores.
  static OrderItem tee_item(const TeeAt& tee, const std::string& id) {
    const bool through = tee.left && tee.right;
    return {.what = through ? "tee" : "elbow, or tee with one end plugged",
            .sizes = {bore(tee.tee.run_bore, through ? "run" : "one way"),
                      bore(tee.tee.branch_bore, through ? "branch" : "other way")},
            .ids = {id}};
  }

  /// The hoses and pipes that meet at a place, by bore, widest first.
  [[nodiscard]] std::vector<OrderSize> hoses_at(std::size_t place) const {
    const Network& n = p_.network;
    std::vector<std::pair<Length, std::size_t>> bores;
    for (std::size_t i = 0; i < n.part_count(); ++i) {
      const Part& part = n.part(i).part;
      if (n.from(i) != place && n.to(i) != place) continue;
      if (part.as<Hose>() == nullptr && part.as<SuspensionHose>() == nullptr) continue;
      const Length wide = tube(i).bore;
      const auto same =
          std::find_if(bores.begin(), bores.end(), [&](const auto& b) { return alike(si(b.first), si(wide)); });
      ++(same == bores.end() ? bores.emplace_back(wide, 0) : *same).second;
    }
    std::sort(bores.begin(), bores.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<OrderSize> sizes;
    for (const auto& [wide, count] : bores) {
      sizes.push_back(bore(wide, "for hose"));
      sizes.back().count = count;
    }
    return sizes;
  }

  const Plumbing& p_;
  bool is_toolbar_;
  std::vector<int> row_of_;
  std::set<Network::PartIndex> cut_;
};

/// Where a bar is fed, and whether a feed and a row meet at one port.
static std::string feed_words(const Manifold& bar, int first, int ports) {
  switch (bar.feed) {
    case ManifoldFeed::left:
      return "fed at the left end";
    case ManifoldFeed::right:
      return "fed at the right end";
    case ManifoldFeed::both_ends:
      return "fed at both ends";
    case ManifoldFeed::middle:
      break;
  }
  const int middle = first + ports / 2;  // the row behind the middle
  if (ports % 2 == 0) return fmt::format("fed by a port between those of rows {} and {}", middle - 1, middle);
  return ports == 1 ? std::string("a coupling") : fmt::format("fed by a cross at the port of row {}", middle);
}

static void add_manifolds(OrderList& list, const Toolbar& toolbar) {
  const std::vector<build_detail::Row> rows = build_detail::make_rows(toolbar);
  for (std::size_t m = 0; m < toolbar.manifolds.size(); ++m) {
    const Manifold& bar = toolbar.manifolds[m];
    const int first = bar.first_row == 0 ? 1 : bar.first_row;
    const int last = bar.last_row == 0 ? toolbar.rows : bar.last_row;
    const int ports = last - first + 1;
    OrderSize spacing = bore(bar.port_spacing, "port spacing");
    spacing.assumed = bar.port_spacing == Manifold{}.port_spacing;
    OrderItem item{.what = fmt::format("manifold with {} port{}", ports, ports == 1 ? "" : "s"),
                   .sizes = {bore(bar.bore), spacing},
                   .ids = {build_detail::manifold_name(toolbar, m)},
                   .note = feed_words(bar, first, ports)};
    if (toolbar.metering == MeteringPlace::outlet) {  // otherwise a valve or an orifice sits on the port
      std::vector<std::pair<double, std::size_t>> bores;
      std::size_t shut = 0;
      for (const build_detail::Row& row : rows) {
        if (row.manifold != m) continue;
        if (row.shut) {
          ++shut;
          continue;
        }
        const auto same =
            std::find_if(bores.begin(), bores.end(), [&](const auto& b) { return alike(b.first, row.hose_bore); });
        ++(same == bores.end() ? bores.emplace_back(row.hose_bore, 0) : *same).second;
      }
      std::sort(bores.begin(), bores.end(), std::greater<>());
      for (const auto& [wide, count] : bores) {
        item.sizes.push_back(bore(from_si<Length>(wide), count == 1 ? "port for hose" : "ports for hose"));
        item.sizes.back().count = count;
      }
      if (shut > 0) item.note += fmt::format(", {} port{} plugged", shut, shut == 1 ? "" : "s");
    }
    if (si(bar.feed_length) > 0.0) {
      item.sizes.push_back(bore(bar.feed_bore, "feed for hose"));
      item.sizes.back().count = bar.feed == ManifoldFeed::both_ends ? 2 : 1;
    }
    Collector::add(list, std::move(item), 1);
  }
}

/// What speaks against the layout itself, before anything of it is bought.
static Cautions doubts_of(const Layout& layout) {
  static constexpr std::string_view stops[] = {"rate-not-reached", "above-pump-limit", "above-assumed-limit",
                                               "other-rate-held"};
  try {
    Answer answer = main_job_detail::at_most_likely(layout);
    Cautions found;
    for (Caution& c : answer.evenness.cautions) {
      const bool stop = std::find(std::begin(stops), std::end(stops), c.code) != std::end(stops);
      if (stop || is_layout_doubt(c.code)) found.push_back(std::move(c));
    }
    return found;
  } catch (const Error&) {  // a list needs no answer
    return {};
  }
}

}  // namespace order_detail

OrderList order_list(const Layout& layout, const OrderOptions& options) {
  require_in("waste allowance", options.waste, {0.0, 1.0}, "");
  if (options.coil) require_in("coil", si(*options.coil), {1e-3, 1e5}, "m");
  OrderList list;
  list.name = layout.name;
  list.units = options.tape.value_or(layout.units);
  list.options = options;
  const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  const Plumbing plumbing = order_detail::everything(layout);
  order_detail::Collector collector(plumbing, toolbar != nullptr);
  collector.fill(list);
  if (toolbar != nullptr) order_detail::add_manifolds(list, *toolbar);
  list.cautions = order_detail::doubts_of(layout);
  for (const HoseOrder& hose : list.hoses) {
    if (hose.rating) continue;
    list.cautions.push_back({"no-hose-rating", "hose",
                             "the layout gives no working pressure for some hose: choose hose, clamps and fittings "
                             "rated above the highest pressure that pump and relief valve can give"});
    break;
  }
  list.cautions.push_back({"materials", "parts",
                           "fertilizer attacks mild steel, zinc, copper and brass: stainless steel, polyethylene, "
                           "polypropylene or nylon, with seals that the product's maker allows",
                           std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN(),
                           "common practice, no source"});
  return list;
}

}  // namespace libflow
