// SPDX-License-Identifier: MIT
#include <libflow/file/layout_size.hpp>

#include <cmath>
#include <filesystem>
#include <string_view>

#include <libflow/file/layout_drive_keys.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/layout_keys.hpp>
#include <libflow/file/layout_size_keys.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/study/size_choices.hpp>

namespace libflow {

namespace file_detail {

static RowGroup read_group(const TomlTable& table, int rows) {
  RowGroup group{.name = table.text("name")};
  for (const double row : table.numbers("rows", {1.0, static_cast<double>(rows)})) {
    if (row != std::floor(row)) table.fail("rows", fmt::format("{:g} is no row", row), "whole numbers");
    group.rows.push_back(static_cast<int>(row));
  }
  if (group.rows.empty()) table.fail("rows", "the list is empty", "at least one row");
  return group;
}

SizeChoices read_size(const TomlTable& top, const Layout& layout) {
  SizeChoices c;
  if (!top.has("size")) return c;
  const TomlTable t = top.table("size", layout_keys::size);
  const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  if (toolbar == nullptr) top.fail("size", "does not go with [[place]] and [[part]]", "a layout with a [toolbar]");
  const auto list = [&]<class Q>(std::string_view key, std::vector<Q>& values, Range range) {
    if (!t.has(key)) return;
    values = t.quantities<Q>(key, range);
    if (values.empty()) t.fail(key, "the list is empty", "at least one value, or leave it out");
  };
  std::vector<Length> orifices;
  list("orifices", orifices, Orifice::bore_range);
  for (const Length& bore : orifices) {
    OrificeByBore plate{.bore = bore};
    if (toolbar->orifice) {
      if (const auto* own = std::get_if<OrificeByBore>(&*toolbar->orifice)) {
        plate = *own;  // the same plate with another hole
        plate.bore = bore;
      }
    }
    c.orifices.emplace_back(plate);
  }
  for (const TomlTable& group : t.tables("groups", layout_keys::size_group)) {
    c.groups.push_back(read_group(group, toolbar->rows));
  }
  list("hose_bores", c.hose_bores, Hose::bore_range);
  if (t.has("hose_prices")) {
    t.need("hose_bores");
    const double unit = layout.units == UnitSystem::us ? si(units::ft) : 1.0;
    for (const double price : t.numbers("hose_prices", {0.0, 1e6})) c.hose_prices.push_back(price / unit);
    if (c.hose_prices.size() != c.hose_bores.size()) {
      t.fail("hose_prices", fmt::format("{} prices for {} bores", c.hose_prices.size(), c.hose_bores.size()),
             "one price for each of hose_bores");
    }
  }
  if (t.has("cuts")) {
    c.cuts = t.chosen<Cut>("cuts", {{"equal", Cut::equal},
                                    {"shortest", Cut::shortest},
                                    {"rounded", Cut::rounded},
                                    {"two_lengths", Cut::two_lengths}});
    if (c.cuts.empty()) t.fail("cuts", "the list is empty", "at least one way, or leave it out");
  }
  if (t.has("step")) c.step = t.quantity<Length>("step", {0.01, 100.0});
  c.extra = t.optional_quantity<Length>("extra", layout_limits::not_negative);
  list("manifold_bores", c.manifold_bores, Hose::bore_range);
  if (t.has("feeds")) {
    c.feeds = t.chosen<ManifoldFeed>("feeds", {{"middle", ManifoldFeed::middle},
                                               {"left", ManifoldFeed::left},
                                               {"right", ManifoldFeed::right},
                                               {"both_ends", ManifoldFeed::both_ends}});
    if (c.feeds.empty()) t.fail("feeds", "the list is empty", "at least one place, or leave it out");
  }
  list("cracks", c.cracks, CheckValve::crack_range);
  if (!c.cracks.empty() && !toolbar->check_valve) {
    t.fail("cracks", "the rows have no check valve", "a [check_valve] first");
  }
  list("speeds", c.speeds, layout_limits::speed);
  list("rates", c.rates, layout_limits::rate);
  list("temperatures", c.temperatures, liquid_temperature);
  list("side_slopes", c.side_slopes, layout_limits::slope);
  if (t.has("least_pressure")) c.least_pressure = t.quantity<Pressure>("least_pressure", layout_limits::pressure);
  if (t.has("most_pressure")) c.most_pressure = t.quantity<Pressure>("most_pressure", layout_limits::pressure);
  c.good_practice = t.flag("good_practice", false);
  if (t.has("verify")) c.verify = static_cast<std::size_t>(t.count("verify", 1, 50));
  if (c.most_pressure < c.least_pressure) {
    t.fail(t.has("most_pressure") ? "most_pressure" : "least_pressure", "is on the wrong side of the other",
           "most_pressure above least_pressure");
  }
  return c;
}

}  // namespace file_detail

SizeFile parse_size(std::string_view toml_text, std::string_view file_name) {
  SizeFile file{.layout = parse_layout(toml_text, file_name), .choices = {}};
  const toml::table table = file_detail::parse_toml(toml_text, file_name);
  file.choices = file_detail::read_size({table, file_name, "", layout_keys::top, file.layout.units}, file.layout);
  return file;
}

SizeFile read_size(const std::filesystem::path& path) { return parse_size(read_text_file(path), path.string()); }

}  // namespace libflow
