// SPDX-License-Identifier: MIT
#include <libflow/file/layout_toolbar.hpp>

#include <cstddef>
#include <optional>
#include <set>

#include <libflow/file/layout_job.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/hose.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/toolbar/build_rows.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

namespace file_detail {

/// At which holes are commonly tested (common practice, no source) [Pa]: 40 psi. It matters little: the law of a jet is
/// nearly square at any such pressure.
static constexpr double orifice_test_pressure = 40.0 * 6894.757293168;

/// How much more than new a hole passes; 0 where the layout does not say.
static double read_wear(const TomlTable& table) {
  if (table.has("wear_pressure")) table.need("wear");
  return table.has("wear") ? table.fraction("wear", {0.0, 1.0}) : 0.0;
}

/// A hole by its bore after wear.
static OrificeByBore worn_hole(const TomlTable& table, OrificeByBore orifice, double wear) {
  if (wear == 0.0) return orifice;
  Pressure tested = from_si<Pressure>(orifice_test_pressure);
  if (table.has("wear_pressure")) tested = table.quantity<Pressure>("wear_pressure", layout_limits::pressure);
  orifice.bore = placed(table.where("wear"), [&] {
    return Orifice{
        .bore = orifice.bore, .thickness = orifice.thickness, .discharge_coefficient = orifice.discharge_coefficient}
        .worn(wear, tested)
        .bore;
  });
  return orifice;
}

OrificeChoice read_orifice(const TomlTable& table) {
  if (table.flag("none", false)) {
    table.fail("none", "a row whose orifice is changed has one", "bore, or rated_flow and rated_pressure");
  }
  const bool rated = table.has("rated_flow") || table.has("rated_pressure");
  if (rated) {
    for (const std::string_view key : {"bore", "thickness", "coefficient", "wear_pressure"}) {
      if (table.has(key))
        table.fail(key, "an orifice is given by its bore or by its rated flow, not by both",
                   "bore (thickness, coefficient), or rated_flow and rated_pressure");
    }
    OrificeByRating orifice{.flow = table.quantity<Flow>("rated_flow", {1e-9, 1.0}),
                            .pressure = table.quantity<Pressure>("rated_pressure", layout_limits::pressure)};
    orifice.flow = (1.0 + read_wear(table)) * orifice.flow;
    placed(table.where("rated_flow"), [&] { return Orifice::rated(orifice.flow, orifice.pressure); });
    return orifice;
  }
  OrificeByBore orifice{.bore = table.bore("bore", Orifice::bore_range)};
  const Range thickness{0.0, physics::hole_length_ratio.high * si(orifice.bore)};
  if (table.has("thickness")) orifice.thickness = table.bore("thickness", thickness);
  if (table.has("coefficient")) orifice.discharge_coefficient = table.number("coefficient", Orifice::coefficient_range);
  return worn_hole(table, orifice, read_wear(table));
}

CheckValveChoice read_check_valve(const TomlTable& table) {
  CheckValveChoice valve{.crack = table.quantity<Pressure>("crack", CheckValve::crack_range),
                         .rated_flow = table.quantity<Flow>("rated_flow", {1e-9, 1.0})};
  if (table.has("full_open")) {
    if (table.has("rated_loss")) {
      table.fail("rated_loss", "does not go with 'full_open'", "full_open, the pressure at rated_flow, or rated_loss");
    }
    valve.full_open = table.quantity<Pressure>("full_open", CheckValve::full_open_range);
  } else {
    valve.rated_loss = table.quantity<Pressure>("rated_loss", layout_limits::pressure);
  }
  if (table.has("crack_spread")) {
    valve.crack_spread = table.quantity<Pressure>("crack_spread", {0.0, si(valve.crack)});
  }
  placed(table.where("rated_flow"),
         [&] { return Orifice::rated(valve.rated_flow, valve.full_open.value_or(valve.rated_loss)); });
  return valve;
}

static HoseSchedule read_schedule(const TomlTable& table, int rows) {
  HoseSchedule schedule;
  const char* const ways = "one of length, lengths and schedule";
  const int given = table.has("length") + table.has("lengths") + table.has("schedule");
  if (given == 0) table.fail({}, "no hose length is given", ways);
  if (given > 1) {
    table.fail(table.has("lengths") ? "lengths" : "schedule",
               table.has("length") ? "hose lengths are given twice: 'length' is there too"
                                   : "hose lengths are given twice: 'schedule' is there too",
               ways);
  }
  if (table.has("extra") && !table.has("schedule")) {
    table.fail("extra", "goes with a schedule only", "schedule = \"shortest\", or no extra");
  }
  if (table.has("length")) {
    schedule.kind = HoseSchedule::Kind::same;
    schedule.length = table.quantity<Length>("length", Hose::length_range);
  } else if (table.has("lengths")) {
    schedule.kind = HoseSchedule::Kind::listed;
    schedule.lengths = table.quantities<Length>("lengths", Hose::length_range);
    if (schedule.lengths.size() != static_cast<std::size_t>(rows)) {
      table.fail("lengths", fmt::format("{} lengths for {} rows", schedule.lengths.size(), rows),
                 fmt::format("{} lengths, one a row from the left", rows));
    }
  } else {
    schedule.kind = table.choice<HoseSchedule::Kind>("schedule", {{"shortest", HoseSchedule::Kind::shortest}});
    if (table.has("extra")) schedule.extra = table.quantity<Length>("extra", layout_limits::not_negative);
  }
  return schedule;
}

static Manifold read_manifold(const TomlTable& table, int rows) {
  Manifold m;
  if (table.has("id")) m.id = table.text("id");
  if (table.has("first_row")) m.first_row = table.count("first_row", 1, rows);
  if (table.has("last_row")) m.last_row = table.count("last_row", 1, rows);
  if (m.first_row > 0 && m.last_row > 0 && m.first_row > m.last_row) {
    table.fail("last_row", fmt::format("{} comes before first_row {}", m.last_row, m.first_row), "first_row or more");
  }
  m.position = table.optional_quantity<Length>("position", layout_limits::position);
  if (table.has("bore")) m.bore = table.bore("bore", Hose::bore_range);
  if (table.has("port_spacing"))
    m.port_spacing = table.quantity<Length>("port_spacing", layout_limits::port_spacing, Reads::bore);
  if (table.has("feed")) {
    m.feed = table.choice<ManifoldFeed>("feed", {{"middle", ManifoldFeed::middle},
                                                 {"left", ManifoldFeed::left},
                                                 {"right", ManifoldFeed::right},
                                                 {"both_ends", ManifoldFeed::both_ends}});
  }
  if (table.has("feed_length")) m.feed_length = table.quantity<Length>("feed_length", layout_limits::not_negative);
  m.junction_losses = table.flag("junction_losses", false);
  if (table.has("feed_bore")) m.feed_bore = table.bore("feed_bore", Hose::bore_range);
  if (table.has("height")) m.height = table.quantity<Length>("height", layout_limits::offset);
  return m;
}

static RowChange read_row_change(const TomlTable& table, const Toolbar& bar) {
  RowChange change{.row = table.count("number", 1, bar.rows)};
  change.hose_length = table.optional_quantity<Length>("hose_length", Hose::length_range);
  if (table.has("hose_bore")) change.hose_bore = table.bore("hose_bore", Hose::bore_range);
  if (table.has("orifice")) change.orifice = read_orifice(table.table("orifice", layout_keys::orifice));
  change.crack = table.optional_quantity<Pressure>("crack", CheckValve::crack_range);
  if (change.crack && !bar.check_valve) {
    table.fail("crack", "the rows have no check valve", "a [check_valve] for all rows first");
  }
  change.width = table.optional_quantity<Length>("width", layout_limits::spacing);
  change.height = table.optional_quantity<Length>("height", layout_limits::offset);
  change.shut = table.flag("shut", false);
  return change;
}

Toolbar read_toolbar(const TomlTable& top) {
  const TomlTable table = top.table("toolbar", layout_keys::toolbar);
  Toolbar bar;
  bar.rows = table.count("rows", 1, layout_limits::rows);
  bar.spacing = table.quantity<Length>("spacing", layout_limits::spacing, Reads::bore);
  if (table.has("side_slope")) bar.side_slope = table.quantity<Angle>("side_slope", layout_limits::slope);
  if (table.has("fore_aft_slope")) bar.fore_aft_slope = table.quantity<Angle>("fore_aft_slope", layout_limits::slope);
  if (table.has("outlets_behind")) bar.outlets_behind = table.quantity<Length>("outlets_behind", layout_limits::offset);
  if (table.has("outlets_per_row")) bar.outlets_per_row = table.count("outlets_per_row", 1, 2);
  if (table.has("metering")) {
    bar.metering = table.choice<MeteringPlace>(
        "metering", {{"outlet", MeteringPlace::outlet}, {"manifold", MeteringPlace::manifold}});
  }
  if (table.has("outlet_bore")) bar.outlet_bore = table.bore("outlet_bore", Hose::bore_range);
  if (table.has("outlet_fall")) {
    table.need("outlet_bore");
    bar.outlet_fall = table.quantity<Length>("outlet_fall", RowOutlet::fall_range);
  }
  bar.outlet_vented = table.flag("outlet_vented", false);
  if (bar.outlet_vented && si(bar.outlet_fall) == 0.0) {
    table.fail("outlet_vented", "no tube hangs down", "outlet_fall with it");
  }
  bar.orifice_least = table.optional_quantity<Pressure>("orifice_least", layout_limits::pressure);
  bar.orifice_most = table.optional_quantity<Pressure>("orifice_most", layout_limits::pressure);
  if (bar.orifice_least && bar.orifice_most && si(*bar.orifice_least) >= si(*bar.orifice_most)) {
    table.fail("orifice_most", "is not above orifice_least", "more than orifice_least");
  }

  for (const TomlTable& entry : top.tables("manifold", layout_keys::manifold)) {
    bar.manifolds.push_back(read_manifold(entry, bar.rows));
  }
  if (bar.manifolds.empty()) top.fail({}, "no manifold feeds the rows", "at least one [[manifold]]");

  top.need("hose");
  const TomlTable hose = top.table("hose", layout_keys::hose);
  bar.hose_bore = hose.bore("bore", Hose::bore_range);
  bar.hose = read_schedule(hose, bar.rows);
  if (hose.has("roughness")) {
    bar.hose_roughness = hose.bore("roughness", {0.0, physics::colebrook_roughness.high * si(bar.hose_bore)});
  }
  bar.hose_rating = hose.optional_quantity<Pressure>("rating", layout_limits::pressure);
  if (hose.has("wall_thickness") || hose.has("modulus")) {
    hose.need("wall_thickness");
    hose.need("modulus");
    bar.hose_wall = hose.bore("wall_thickness", Hose::wall_thickness_range);
    bar.hose_modulus = hose.quantity<Pressure>("modulus", layout_limits::hose_modulus);
  }

  // Without the table somebody forgot it; a bar without orifices says so.
  const TomlTable orifice = top.table("orifice", layout_keys::orifice);
  if (!orifice.flag("none", false)) bar.orifice = read_orifice(orifice);
  if (top.has("check_valve")) {
    const TomlTable valve = top.table("check_valve", layout_keys::check_valve);
    bar.check_valve = read_check_valve(valve);
    // What its keys allow one by one may be wrong together.
    placed(valve.where(valve.has("full_open") ? "full_open" : "crack"), [&] {
      build_detail::make_check_valve(*bar.check_valve, std::nullopt, CheckValve::kind).check(CheckValve::kind);
    });
  }

  std::set<int> changed;
  for (const TomlTable& entry : top.tables("row", layout_keys::row)) {
    bar.row_changes.push_back(read_row_change(entry, bar));
    const int number = bar.row_changes.back().row;
    if (!changed.insert(number).second) {
      entry.fail("number", fmt::format("row {} is changed twice", number), "one [[row]] for each row");
    }
  }
  return bar;
}

}  // namespace file_detail

}  // namespace libflow
