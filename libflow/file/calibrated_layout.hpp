// SPDX-License-Identifier: MIT
/// @file
/// The layout file of a bar as it was built: the file as it is, with what a diagnosis found put into it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include <fmt/core.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace file_detail {

inline constexpr const char* feed_word(ManifoldFeed feed) {
  switch (feed) {
    case ManifoldFeed::middle:
      return "middle";
    case ManifoldFeed::left:
      return "left";
    case ManifoldFeed::right:
      return "right";
    case ManifoldFeed::both_ends:
      return "both_ends";
  }
  return "middle";
}

/// The entry of a list of tables that tells of a row; a new one where there is none.
inline toml::table& row_entry(toml::table& top, int row) {
  if (!top.contains("row")) top.insert("row", toml::array{});
  toml::array& list = *top["row"].as_array();
  for (toml::node& node : list) {
    toml::table* entry = node.as_table();
    if (entry != nullptr && (*entry)["number"].value_or<std::int64_t>(0) == row) return *entry;
  }
  list.push_back(toml::table{});
  toml::table& entry = *list[list.size() - 1].as_table();
  entry.insert("number", static_cast<std::int64_t>(row));
  return entry;
}

template <class Q>
void put(toml::table& table, std::string_view key, const Q& value) {
  table.insert_or_assign(key, to_text(value));
}

inline toml::table orifice_entry(const OrificeChoice& choice) {
  toml::table t;
  if (const auto* rated = std::get_if<OrificeByRating>(&choice)) {
    put(t, "rated_flow", rated->flow);
    put(t, "rated_pressure", rated->pressure);
    return t;
  }
  const auto& hole = std::get<OrificeByBore>(choice);
  put(t, "bore", hole.bore);
  if (si(hole.thickness) > 0.0) put(t, "thickness", hole.thickness);
  if (hole.discharge_coefficient) t.insert("coefficient", *hole.discharge_coefficient);
  return t;
}

/// One measured figure at a temperature, as [product] takes it.
template <class Q>
toml::array figure(Temperature at, const Q& value) {
  toml::array pair;
  pair.push_back(to_text(at));
  pair.push_back(to_text(value));
  toml::array list;
  list.push_back(std::move(pair));
  return list;
}

}  // namespace file_detail

/// @param toml_text   of the layout's file
/// @param file_name   its name, for messages
/// @param layout      that the file holds
/// @param calibrated  the same with other parts of rows, slope, manifolds or figures of the product (with_cause)
/// @param why         comment lines for the top of the new file, one sentence each; no line ends
/// @return a layout file with everything that the old one held, but for its comments
/// @throws InputError  as parse_layout; a layout without [toolbar]
[[nodiscard]] inline std::string calibrated_layout_text(std::string_view toml_text, std::string_view file_name,
                                                        const Layout& layout, const Layout& calibrated,
                                                        const std::vector<std::string>& why = {}) {
  using namespace file_detail;
  const auto* old_bar = std::get_if<Toolbar>(&layout.plumbing);
  const auto* bar = std::get_if<Toolbar>(&calibrated.plumbing);
  if (old_bar == nullptr || bar == nullptr) {
    throw InputError(std::string(file_name), "the layout is given place by place", "a layout with a [toolbar]");
  }
  check_text(toml_text, file_name);
  toml::table top = parse_toml(toml_text, file_name);
  const std::string name = layout.name + ", as built";
  if (name.size() <= 200) top.insert_or_assign("name", name);
  if (si(bar->side_slope) != si(old_bar->side_slope)) {
    put(*top["toolbar"].as_table(), "side_slope", bar->side_slope);
  }
  for (std::size_t m = 0; m < bar->manifolds.size(); ++m) {
    toml::table& entry = *top["manifold"].as_array()->get(m)->as_table();
    const Manifold &now = bar->manifolds[m], &old = old_bar->manifolds.at(m);
    if (si(now.bore) != si(old.bore)) put(entry, "bore", now.bore);
    if (si(now.feed_bore) != si(old.feed_bore)) put(entry, "feed_bore", now.feed_bore);
    if (now.feed != old.feed) entry.insert_or_assign("feed", feed_word(now.feed));
  }
  for (const RowChange& now : bar->row_changes) {
    const auto found = std::find_if(old_bar->row_changes.begin(), old_bar->row_changes.end(),
                                    [&](const RowChange& c) { return c.row == now.row; });
    const RowChange old = found == old_bar->row_changes.end() ? RowChange{.row = now.row} : *found;
    const auto differs = [](const auto& a, const auto& b) { return a && (!b || si(*a) != si(*b)); };
    const bool length = differs(now.hose_length, old.hose_length), bore = differs(now.hose_bore, old.hose_bore);
    const bool crack = differs(now.crack, old.crack);
    // An orifice that with_cause set is always given by its bore.
    const auto* hole = now.orifice ? std::get_if<OrificeByBore>(&*now.orifice) : nullptr;
    const auto* before = old.orifice ? std::get_if<OrificeByBore>(&*old.orifice) : nullptr;
    const bool orifice = hole != nullptr && (before == nullptr || si(hole->bore) != si(before->bore));
    if (!length && !bore && !crack && !orifice) continue;
    toml::table& entry = row_entry(top, now.row);
    if (length) put(entry, "hose_length", *now.hose_length);
    if (bore) put(entry, "hose_bore", *now.hose_bore);
    if (crack) put(entry, "crack", *now.crack);
    if (orifice) entry.insert_or_assign("orifice", orifice_entry(*now.orifice));
  }
  const Temperature at = layout.job.temperature;
  const LiquidState was = layout.job.liquid.at(at), is = calibrated.job.liquid.at(at);
  if (was.density != is.density || was.viscosity != is.viscosity) {
    if (!top.contains("product")) top.insert("product", toml::table{});
    toml::table& product = *top["product"].as_table();
    if (was.density != is.density) {
      product.insert_or_assign("density", figure(at, from_si<Density>(is.density)));
    }
    if (was.viscosity != is.viscosity) {
      product.insert_or_assign("viscosity", figure(at, from_si<Viscosity>(is.viscosity)));
    }
  }
  std::ostringstream out;
  for (const std::string& line : why) out << "# " << line << '\n';
  out << '\n' << top << '\n';
  return std::move(out).str();
}

}  // namespace libflow
