// SPDX-License-Identifier: MIT
#include <libflow/file/calibrated_layout.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include <fmt/core.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace file_detail {

/// A fitted figure as it is read: in the layout's units, to eight digits. None is known better than to a percent; the
/// digits keep the saved layout's flows within a millionth of the fitted one's.
template <class Q>
void put(toml::table& table, std::string_view key, const Q& value, UnitSystem units) {
  table.insert_or_assign(key, fmt::format("{:.8g} {}", value_in(value, units), unit_name<Q>(units)));
}

static void put_bore(toml::table& table, std::string_view key, const Length& bore, UnitSystem units) {
  table.insert_or_assign(key, fmt::format("{:.8g} {}", bore_value_in(bore, units), bore_unit_name(units)));
}

/// The entry of a list of tables that tells of a row; a new one where there is none.
static toml::table& row_entry(toml::table& top, int row) {
  if (!top.contains("row")) top.insert("row", toml::array{});
  toml::array& list = *top["row"].as_array();
  for (toml::node& node : list) {
    toml::table& entry = *node.as_table();
    if (entry["number"].value_or<std::int64_t>(0) == row) return entry;
  }
  list.push_back(toml::table{});
  toml::table& entry = *list[list.size() - 1].as_table();
  entry.insert("number", static_cast<std::int64_t>(row));
  return entry;
}

static toml::table orifice_entry(const OrificeByBore& hole, UnitSystem units) {
  toml::table t;
  put_bore(t, "bore", hole.bore, units);
  if (si(hole.thickness) > 0.0) put_bore(t, "thickness", hole.thickness, units);
  if (hole.discharge_coefficient) t.insert("coefficient", *hole.discharge_coefficient);
  return t;
}

/// One measured figure at a temperature, as [product] takes it.
template <class Q>
toml::array figure(Temperature at, const Q& value, UnitSystem units) {
  toml::array pair;
  pair.push_back(to_text(at, units));
  pair.push_back(fmt::format("{:.8g} {}", value_in(value, units), unit_name<Q>(units)));
  toml::array list;
  list.push_back(std::move(pair));
  return list;
}

}  // namespace file_detail

std::string calibrated_layout_text(std::string_view toml_text, std::string_view file_name, const Layout& layout,
                                   const Layout& calibrated, const std::vector<std::string>& why) {
  using namespace file_detail;
  const auto* old_bar = std::get_if<Toolbar>(&layout.plumbing);
  const auto* bar = std::get_if<Toolbar>(&calibrated.plumbing);
  if (old_bar == nullptr || bar == nullptr) {
    throw InputError(std::string(file_name), "the layout is given place by place", "a layout with a [toolbar]");
  }
  // The text can have changed since, or be another one: what is changed below is there in one that reads alike.
  const Layout written = parse_layout(toml_text, file_name);
  const auto* there = std::get_if<Toolbar>(&written.plumbing);
  if (there == nullptr || there->manifolds.size() != old_bar->manifolds.size() ||
      bar->manifolds.size() != old_bar->manifolds.size()) {
    throw InputError(std::string(file_name), "its manifolds are not those of the layout",
                     "the file that the layout was read from, unchanged");
  }
  const UnitSystem units = layout.units;
  toml::table top = parse_toml(toml_text, file_name);
  const std::string name = layout.name + ", as built";
  if (name.size() <= 200) top.insert_or_assign("name", name);
  if (si(bar->side_slope) != si(old_bar->side_slope)) {
    put(*top["toolbar"].as_table(), "side_slope", bar->side_slope, units);
  }
  for (std::size_t m = 0; m < bar->manifolds.size(); ++m) {
    toml::table& entry = *top["manifold"].as_array()->get(m)->as_table();
    const Manifold &now = bar->manifolds[m], &old = old_bar->manifolds.at(m);
    if (si(now.bore) != si(old.bore)) put_bore(entry, "bore", now.bore, units);
    if (si(now.feed_bore) != si(old.feed_bore)) put_bore(entry, "feed_bore", now.feed_bore, units);
    if (now.feed != old.feed) entry.insert_or_assign("feed", name_of(now.feed));
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
    if (length) put(entry, "hose_length", *now.hose_length, units);
    if (bore) put_bore(entry, "hose_bore", *now.hose_bore, units);
    if (crack) put(entry, "crack", *now.crack, units);
    if (orifice) entry.insert_or_assign("orifice", orifice_entry(*hole, units));
  }
  const Temperature at = layout.job.temperature;
  const LiquidState was = layout.job.liquid.at(at), is = calibrated.job.liquid.at(at);
  if (was.density != is.density || was.viscosity != is.viscosity) {
    if (!top.contains("product")) top.insert("product", toml::table{});
    toml::table& product = *top["product"].as_table();
    if (was.density != is.density) {
      product.insert_or_assign("density", figure(at, from_si<Density>(is.density), units));
    }
    if (was.viscosity != is.viscosity) {
      product.insert_or_assign("viscosity", figure(at, from_si<Viscosity>(is.viscosity), units));
    }
  }
  std::ostringstream out;
  for (const std::string& line : why) out << "# " << line << '\n';
  out << '\n' << top << '\n';
  return std::move(out).str();
}

}  // namespace libflow
