// SPDX-License-Identifier: MIT
#include <libflow/file/layout_tolerances.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/layout_job.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/tolerances.hpp>

namespace libflow {

namespace file_detail {

/// A difference in words: a quantity, or per cent of the layout's value.
struct DifferenceText {
  double value = 0;
  bool relative = false;
};

static DifferenceText parse_difference(std::string_view text, ToleranceOf of, const std::string& where) {
  const bool slope = of == ToleranceOf::side_slope || of == ToleranceOf::fore_aft_slope;
  if (!slope && text.find('%') != std::string_view::npos) return {parse_fraction(text, where), true};
  switch (of) {
    case ToleranceOf::orifice_bore:
    case ToleranceOf::hose_length:
    case ToleranceOf::hose_bore:
      return {si(parse_quantity<Length>(text, where))};
    case ToleranceOf::crack:
    case ToleranceOf::pressure:
      return {si(parse_quantity<Pressure>(text, where))};
    case ToleranceOf::viscosity:
      return {si(parse_quantity<Viscosity>(text, where))};
    case ToleranceOf::density:
      return {si(parse_quantity<Density>(text, where))};
    case ToleranceOf::temperature: {
      // A difference of temperatures: from zero of its own scale.
      const std::size_t unit = text.find_first_not_of("+-0123456789., ");
      const std::string zero = "0 " + std::string(unit == std::string_view::npos ? "" : text.substr(unit));
      return {si(parse_quantity<Temperature>(text, where)) - si(parse_quantity<Temperature>(zero, where))};
    }
    case ToleranceOf::side_slope:
    case ToleranceOf::fore_aft_slope:
      return {si(parse_quantity<Angle>(text, where))};
    case ToleranceOf::speed:
      return {si(parse_quantity<Speed>(text, where))};
    case ToleranceOf::rate:
      return {si(parse_quantity<AreaRate>(text, where))};
  }
  return {};
}

static Tolerance read_tolerance(const TomlTable& table, std::size_t rows) {
  Tolerance t;
  Choices<ToleranceOf> choices;
  for (const ToleranceName& n : tolerance_names) choices.emplace_back(n.name, n.of);
  t.of = table.choice<ToleranceOf>("of", choices);
  using Shape = Distribution::Kind;
  std::vector<std::pair<std::string_view, Shape>> given;
  for (const auto& [key, kind] : {std::pair<std::string_view, Shape>{"normal", Shape::normal},
                                  {"uniform", Shape::uniform},
                                  {"triangular", Shape::triangular},
                                  {"listed", Shape::listed}}) {
    if (table.has(key)) given.emplace_back(key, kind);
  }
  if (given.size() != 1) {
    table.fail({}, given.empty() ? "says not by how much" : "says by how much more than once",
               "one of normal, uniform, triangular, listed");
  }
  const std::string_view key = given.front().first;
  const Shape kind = given.front().second;
  t.difference.kind = kind;
  std::vector<double> values;
  std::size_t relative = 0;
  const auto add = [&](const std::string& text) {
    const DifferenceText d = parse_difference(text, t.of, table.where(key));
    values.push_back(d.value);
    relative += d.relative ? 1 : 0;
  };
  const bool list = table.is_list(key);
  if (list) {
    for (const std::string& text : table.texts(key)) add(text);
  } else {
    add(table.text(key));
  }
  if (relative != 0 && relative != values.size()) {
    table.fail(key, "mixes per cent and quantities", "all of one kind");
  }
  t.relative = relative != 0;
  switch (kind) {
    case Shape::normal:
      if (list) table.fail(key, "is a list", "one standard deviation");
      t.difference.deviation = values.front();
      break;
    case Shape::uniform:
    case Shape::triangular:
      if (list && values.size() != 2) table.fail(key, "is not one or two differences", "[\"-1 in\", \"2 in\"]");
      t.difference.low = list ? values.front() : -values.front();
      t.difference.high = values.back();
      break;
    case Shape::listed:
      if (!list) table.fail(key, "is not a list", "two or more measured differences");
      std::sort(values.begin(), values.end());
      t.difference.values = std::move(values);
      break;
  }
  placed(table.where(key), [&] {
    t.difference.check("tolerance");
    return 0;
  });
  if (table.has("together") && table.has("batches")) {
    table.fail("batches", "does not go with together", "one of the two");
  }
  const auto of_rows = [&](std::string_view what) {
    if (!by_row(t.of)) table.fail(what, "is of the whole machine in any case", "only with what every row has");
  };
  if (table.flag("together", false)) {
    of_rows("together");
    t.batch.assign(rows, 1);
  }
  if (table.has("batches")) {
    of_rows("batches");
    for (const double number : table.numbers("batches", {0.0, 1e6})) t.batch.push_back(static_cast<int>(number));
    if (t.batch.size() != rows) {
      table.fail("batches", fmt::format("{} numbers for {} rows", t.batch.size(), rows), "one number a row");
    }
  }
  if (table.has("name")) t.name = table.text("name");
  return t;
}

std::vector<Tolerance> read_tolerances(const TomlTable& top, const Layout& layout) {
  const auto* toolbar = std::get_if<Toolbar>(&layout.plumbing);
  const std::size_t rows =
      toolbar != nullptr ? static_cast<std::size_t>(toolbar->rows) : std::get<Plumbing>(layout.plumbing).rows.size();
  std::vector<Tolerance> all;
  for (const TomlTable& table : top.tables("tolerance", layout_keys::tolerance)) {
    all.push_back(read_tolerance(table, rows));
  }
  return all;
}

}  // namespace file_detail

}  // namespace libflow
