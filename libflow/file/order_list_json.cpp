// SPDX-License-Identifier: MIT
#include <libflow/file/order_list_json.hpp>

#include <string>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/order_list.hpp>

namespace libflow {

namespace file_detail {

/// "crack pressure" of 4 psi as the key "crack_pressure_Pa".
static std::string order_key(const OrderSize& size) {
  std::string key;
  for (const char c : size.name) key += c == ' ' ? '_' : c;
  const std::string unit(kind_row(size.kind).units[0].name);
  return key + "_" + (size.kind == Kind::flow ? std::string("m3_per_s") : unit);
}

static Json order_hose_json(const HoseOrder& h) {
  Json cuts = Json::array();
  for (const HoseCut& c : h.cuts) {
    cuts.push_back({{"id", c.id},
                    {"row", c.row == 0 ? Json(nullptr) : Json(c.row)},
                    {"length_m", number(si(c.length))},
                    {"cut_m", number(si(c.cut))}});
  }
  Json coils = nullptr;
  if (h.plan) {
    Json list = Json::array();
    for (const Coil& coil : h.plan->coils) {
      Json ids = Json::array();
      for (const std::size_t i : coil.cuts) ids.push_back(h.cuts[i].id);
      list.push_back({{"cuts", std::move(ids)}, {"left_m", number(si(coil.left))}});
    }
    coils = {{"count", h.plan->coils.size()}, {"at_least", h.plan->at_least}, {"coils", std::move(list)}};
  }
  return {{"bore_m", number(si(h.bore))},     {"working_pressure_Pa", number(h.rating)},
          {"total_m", number(si(h.total))},   {"cut_total_m", number(si(h.cut_total))},
          {"to_buy_m", number(si(h.to_buy))}, {"cuts", std::move(cuts)},
          {"coils", std::move(coils)}};
}

}  // namespace file_detail

Json order_list_to_json(const OrderList& list) {
  using namespace file_detail;
  Json hoses = Json::array(), items = Json::array(), cautions = Json::array();
  for (const HoseOrder& h : list.hoses) hoses.push_back(order_hose_json(h));
  for (const OrderItem& item : list.items) {
    Json sizes = Json::object(), ways = Json::array(), assumed = Json::array();
    for (const OrderSize& s : item.sizes) {
      if (s.count > 0) {
        ways.push_back({{"what", s.name}, {"count", s.count}, {"bore_m", number(s.value)}});
      } else {
        sizes[order_key(s)] = number(s.value);
      }
      if (s.assumed) assumed.push_back(order_key(s));
    }
    items.push_back({{"what", item.what},
                     {"count", item.count},
                     {"note", item.note},
                     {"sizes", std::move(sizes)},
                     {"assumed", std::move(assumed)},
                     {"ways", std::move(ways)},
                     {"rows", item.rows},
                     {"ids", item.ids}});
  }
  for (const Caution& c : list.cautions) cautions.push_back(caution_to_json(c));
  return {{"libflow", version},
          {"name", list.name},
          {"waste_allowance", number(list.options.waste)},
          {"coil_m", number(list.options.coil)},
          {"cut_step_m", number(si(cut_step(list.units)))},
          {"hose_total_m", number(si(list.hose_total))},
          {"cut_total_m", number(si(list.cut_total))},
          {"hoses", std::move(hoses)},
          {"items", std::move(items)},
          {"cautions", std::move(cautions)}};
}

std::string order_list_to_csv(const OrderList& list, UnitSystem u) {
  using namespace file_detail;
  std::string text = csv_line({"layout", "what", "count", "row", fmt::format("length ({})", unit_name<Length>(u)),
                               "cut", fmt::format("bore ({})", bore_unit_name(u)), "other sizes", "name"});
  for (const HoseOrder& h : list.hoses) {
    for (const HoseCut& c : h.cuts) {
      text += csv_line({list.name, "hose", "1", c.row == 0 ? std::string() : fmt::format("{}", c.row),
                        csv_quantity<Length>(si(c.cut), u), cut_text(c.cut, u), csv_number(bore_value_in(h.bore, u)),
                        "", c.id});
    }
  }
  for (const OrderItem& item : list.items) {
    std::string bore, length, others, rows;
    for (const OrderSize& s : item.sizes) {
      if (s.name == "bore") {
        bore = csv_number(bore_value_in(from_si<Length>(s.value), u));
      } else if (s.name == "length") {
        length = csv_quantity<Length>(s.value, u);
      } else {
        others += (others.empty() ? "" : "; ") + order_size_text(s, u);
      }
    }
    for (const int row : item.rows) rows += (rows.empty() ? "" : " ") + fmt::format("{}", row);
    text += csv_line({list.name, item.what, fmt::format("{}", item.count), rows, length, "", bore, others,
                      item.ids.size() == 1 ? item.ids.front() : std::string()});
  }
  return text;
}

}  // namespace libflow
