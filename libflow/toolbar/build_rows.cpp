// SPDX-License-Identifier: MIT
#include <libflow/toolbar/build_rows.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/parts.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

namespace build_detail {

Orifice make_orifice(const OrificeChoice& choice, std::string_view where) {
  if (const auto* rated = std::get_if<OrificeByRating>(&choice)) {
    return Orifice::rated(rated->flow, rated->pressure, where);
  }
  const auto& bored = std::get<OrificeByBore>(choice);
  return {.bore = bored.bore, .thickness = bored.thickness, .discharge_coefficient = bored.discharge_coefficient};
}

CheckValve make_check_valve(const CheckValveChoice& choice, std::optional<Pressure> crack, std::string_view where) {
  CheckValve valve = choice.full_open ? CheckValve::sprung(choice.crack, *choice.full_open, choice.rated_flow, where)
                                      : CheckValve::rated(choice.crack, choice.rated_flow, choice.rated_loss, where);
  valve.crack_spread = choice.crack_spread;
  return crack ? valve.cracking_at(*crack) : valve;
}

std::string manifold_name(const Toolbar& t, std::size_t m) {
  return t.manifolds[m].id.empty() ? fmt::format("manifold {}", m + 1) : t.manifolds[m].id;
}

void check(const Toolbar& t) {
  require_in("toolbar, rows", t.rows, {1.0, static_cast<double>(layout_limits::rows)}, "");
  require_in("toolbar, spacing", si(t.spacing), layout_limits::spacing, "m");
  require_in("toolbar, side slope", si(t.side_slope), layout_limits::slope, "rad");
  require_in("toolbar, fore-aft slope", si(t.fore_aft_slope), layout_limits::slope, "rad");
  require_in("toolbar, outlets behind", si(t.outlets_behind), layout_limits::offset, "m");
  require_in("toolbar, outlets per row", t.outlets_per_row, {1, 2}, "");
  require_in("hose, bore", si(t.hose_bore), Hose::bore_range, "m");
  if (t.hose_wall) require_in("hose, wall thickness", si(*t.hose_wall), Hose::wall_thickness_range, "m");
  if (t.hose_modulus) require_in("hose, modulus", si(*t.hose_modulus), layout_limits::hose_modulus, "Pa");
  if (si(t.outlet_bore) != 0.0) require_in("toolbar, outlet bore", si(t.outlet_bore), OpenEnd::bore_range, "m");
  require_in("toolbar, outlet fall", si(t.outlet_fall), RowOutlet::fall_range, "m");
  if (si(t.outlet_fall) > 0.0 && si(t.outlet_bore) == 0.0) {
    throw InputError("toolbar, outlet fall", "a tube that hangs down without an outlet bore", "an outlet bore with it");
  }
  if (t.outlet_vented && si(t.outlet_fall) == 0.0) {
    throw InputError("toolbar, outlet vented", "no tube hangs down", "an outlet fall of more than 0 m with it");
  }
  for (const auto& [name, pressure] : {std::pair{"least", t.orifice_least}, std::pair{"most", t.orifice_most}}) {
    if (pressure) {
      require_in(fmt::format("toolbar, {} orifice drop", name), si(*pressure), layout_limits::pressure, "Pa");
    }
  }
  if (t.drive) libflow::check(*t.drive);
  if (t.manifolds.empty()) throw InputError("toolbar", "no manifold", "at least one manifold that feeds the rows");
  if (t.hose.kind == HoseSchedule::Kind::listed && t.hose.lengths.size() != static_cast<std::size_t>(t.rows)) {
    throw InputError("hose, lengths", fmt::format("{} lengths for {} rows", t.hose.lengths.size(), t.rows),
                     fmt::format("one length a row: {}", t.rows));
  }
}

std::vector<Row> make_rows(const Toolbar& t) {
  std::vector<Row> rows(static_cast<std::size_t>(t.rows));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    rows[i].number = static_cast<int>(i) + 1;
    rows[i].x = (static_cast<double>(i) - 0.5 * (t.rows - 1)) * si(t.spacing);
    rows[i].width = si(t.spacing);
    rows[i].hose_bore = si(t.hose_bore);
    rows[i].orifice = t.orifice;
    rows[i].check_valve = t.check_valve;
  }
  std::vector<std::optional<std::size_t>> fed(rows.size());
  for (std::size_t m = 0; m < t.manifolds.size(); ++m) {
    const Manifold& bar = t.manifolds[m];
    const std::string where = manifold_name(t, m);
    const int first = bar.first_row == 0 ? 1 : bar.first_row;
    const int last = bar.last_row == 0 ? t.rows : bar.last_row;
    require_in(where + ", first row", first, {1, static_cast<double>(t.rows)}, "");
    require_in(where + ", last row", last, {static_cast<double>(first), static_cast<double>(t.rows)}, "");
    require_in(where + ", port spacing", si(bar.port_spacing), layout_limits::port_spacing, "m");
    require_in(where + ", bore", si(bar.bore), Hose::bore_range, "m");
    require_in(where + ", height", si(bar.height), layout_limits::offset, "m");
    require_in(where + ", feed length", si(bar.feed_length), layout_limits::not_negative, "m");
    const double middle =
        bar.position ? si(*bar.position)
                     : 0.5 * (rows[static_cast<std::size_t>(first - 1)].x + rows[static_cast<std::size_t>(last - 1)].x);
    require_in(where + ", position", middle, layout_limits::position, "m");
    for (int row = first; row <= last; ++row) {
      const auto i = static_cast<std::size_t>(row - 1);
      if (fed[i]) {
        throw InputError(where, fmt::format("row {} is fed by '{}' already", row, manifold_name(t, *fed[i])),
                         "each row fed by one manifold");
      }
      fed[i] = m;
      rows[i].manifold = m;
      rows[i].port_x = middle + (row - 0.5 * (first + last)) * si(bar.port_spacing);
    }
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!fed[i])
      throw InputError("toolbar", fmt::format("no manifold feeds row {}", i + 1), "each row fed by one manifold");
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    switch (t.hose.kind) {
      case HoseSchedule::Kind::same:
        rows[i].hose_length = si(t.hose.length);
        break;
      case HoseSchedule::Kind::listed:
        rows[i].hose_length = si(t.hose.lengths[i]);
        break;
      case HoseSchedule::Kind::shortest:
        require_in("hose, extra", si(t.hose.extra), layout_limits::not_negative, "m");
        rows[i].hose_length = std::abs(rows[i].x - rows[i].port_x) + si(t.hose.extra);
        break;
    }
  }
  std::vector<bool> changed(rows.size(), false);
  for (const RowChange& change : t.row_changes) {
    require_in("row", change.row, {1, static_cast<double>(t.rows)}, "");
    Row& row = rows[static_cast<std::size_t>(change.row - 1)];
    const std::string where = fmt::format("row {}", change.row);
    if (changed[static_cast<std::size_t>(change.row - 1)]) {
      throw InputError(where, "is changed twice", "one set of changes a row");
    }
    changed[static_cast<std::size_t>(change.row - 1)] = true;
    if (change.hose_length) row.hose_length = si(*change.hose_length);
    if (change.hose_bore) row.hose_bore = si(*change.hose_bore);
    if (change.orifice) row.orifice = *change.orifice;
    if (change.crack) {
      if (!row.check_valve) {
        throw InputError(where + ", crack", "the toolbar has no check valves", "a check valve for the toolbar first");
      }
      row.crack = change.crack;
    }
    if (change.width) row.width = si(*change.width);
    if (change.height) row.height = si(*change.height);
    row.shut = change.shut;
  }
  for (const Row& row : rows) {
    const std::string where = fmt::format("row {}", row.number);
    require_in(where + ", hose length", row.hose_length, Hose::length_range, "m");
    require_in(where + ", hose bore", row.hose_bore, Hose::bore_range, "m");
    require_in(where + ", width", row.width, layout_limits::spacing, "m");
    require_in(where + ", height", row.height, layout_limits::offset, "m");
  }
  if (std::all_of(rows.begin(), rows.end(), [](const Row& r) { return r.shut; })) {
    throw InputError("toolbar", "every row is shut", "at least one open row");
  }
  return rows;
}

void level_rows(std::vector<Row>& rows, const Toolbar& t, const Causes& causes) {
  double sum = 0.0, count = 0.0;
  for (const Row& row : rows) {
    if (row.shut) continue;
    sum += row.hose_length;
    count += 1.0;
  }
  for (Row& row : rows) {
    if (!causes.hoses) {
      row.hose_length = sum / count;
      row.hose_bore = si(t.hose_bore);
    }
    if (!causes.orifices) row.orifice = t.orifice;
    if (!causes.check_valves) row.crack.reset();
    if (!causes.slope) row.height = 0.0;
  }
}

}  // namespace build_detail

}  // namespace libflow
