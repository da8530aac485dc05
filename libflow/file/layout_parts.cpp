// SPDX-License-Identifier: MIT
#include <libflow/file/layout_parts.hpp>

#include <numbers>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <libflow/file/layout_part_keys.hpp>
#include <libflow/file/layout_pump_parts.hpp>
#include <libflow/file/layout_toolbar.hpp>
#include <libflow/toolbar/build_rows.hpp>

namespace libflow {

namespace file_detail {

static Part read_hose_part(const TomlTable& t, const Job& /*job*/) {
  Hose hose{.length = t.quantity<Length>("length", Hose::length_range), .bore = t.bore("bore", Hose::bore_range)};
  if (t.has("wall")) {
    if (t.has("roughness")) t.fail("wall", "does not go with 'roughness'", "wall or roughness");
    Choices<Wall> walls;
    for (const WallRoughness& row : wall_roughness_table) walls.emplace_back(row.name, row.wall);
    hose.roughness = roughness_of(t.choice<Wall>("wall", walls));
  }
  if (t.has("roughness")) {
    hose.roughness = t.bore("roughness", {0.0, physics::colebrook_roughness.high * si(hose.bore)});
  }
  hose.rating = t.optional_quantity<Pressure>("rating", layout_limits::pressure);
  if (t.has("wall_thickness")) hose.wall_thickness = t.bore("wall_thickness", Hose::wall_thickness_range);
  if (t.has("coil_diameter")) {
    hose.coil_diameter = t.bore("coil_diameter", {si(hose.bore) / physics::coil_curvature.high, 1000.0});
  }
  hose.entrance = t.flag("entrance", false);
  return whole(t, hose);
}

static Part read_suspension_hose(const TomlTable& t, const Job& /*job*/) {
  SuspensionHose hose{.length = t.quantity<Length>("length", Hose::length_range),
                      .bore = t.bore("bore", Hose::bore_range),
                      .consistency = t.number("consistency", SuspensionHose::consistency_range),
                      .flow_index = t.number("flow_index", physics::power_law_index)};
  hose.plateau_shear_rate = number_or(t, "plateau_shear_rate", SuspensionHose::plateau_range, hose.plateau_shear_rate);
  hose.rating = t.optional_quantity<Pressure>("rating", layout_limits::pressure);
  return whole(t, hose);
}

Part read_orifice_part(const TomlTable& t, const Job& /*job*/) {
  const OrificeChoice choice = read_orifice(t);
  if (const auto* rating = std::get_if<OrificeByRating>(&choice)) {
    return whole(t, Orifice::rated(rating->flow, rating->pressure));
  }
  const auto& by = std::get<OrificeByBore>(choice);
  return whole(t,
               Orifice{.bore = by.bore, .thickness = by.thickness, .discharge_coefficient = by.discharge_coefficient});
}

static Part read_orifice_pair(const TomlTable& t, const Job& /*job*/) {
  const auto hole = [&](std::string_view bore, std::string_view thickness, std::string_view coefficient) {
    Orifice o{.bore = t.bore(bore, Orifice::bore_range)};
    if (t.has(thickness)) o.thickness = t.bore(thickness, {0.0, physics::hole_length_ratio.high * si(o.bore)});
    if (t.has(coefficient)) o.discharge_coefficient = t.number(coefficient, Orifice::coefficient_range);
    return o;
  };
  return whole(t, OrificePair{.first = hole("bore", "thickness", "coefficient"),
                              .second = hole("second_bore", "second_thickness", "second_coefficient"),
                              .gap = t.bore("gap", OrificePair::gap_range)});
}

static Part read_check_valve_part(const TomlTable& t, const Job& /*job*/) {
  return whole(t, build_detail::make_check_valve(read_check_valve(t), std::nullopt, CheckValve::kind));
}

Part read_relief_valve(const TomlTable& t, const Job& /*job*/) {
  ReliefValve valve{.set = t.quantity<Pressure>("set", ReliefValve::set_range)};
  valve.passage_bore = given_by(t, "passage_bore", {"rated_flow", "accumulation"})
                           ? t.bore("passage_bore", Orifice::bore_range)
                           : rated_bore(t, "accumulation");
  return whole(t, valve);
}

static Part read_pressure_regulator(const TomlTable& t, const Job& /*job*/) {
  PressureRegulator regulator{.set = t.quantity<Pressure>("set", PressureRegulator::set_range)};
  regulator.passage_bore = given_by(t, "passage_bore", {"rated_flow", "rated_loss"})
                               ? t.bore("passage_bore", Orifice::bore_range)
                               : rated_bore(t, "rated_loss");
  return whole(t, regulator);
}

Part read_valve(const TomlTable& t, const Job& /*job*/) {
  // Only the part knows the largest flow coefficient of a bore; it checks that.
  const Flow kv = given_by(t, "kv", {"cv"}) ? t.quantity<Flow>("kv", rated_flow_range)
                                            : Valve::kv_from_cv(t.quantity<Flow>("cv", rated_flow_range));
  Valve valve{.kv = kv, .bore = t.bore("bore", Valve::bore_range)};
  valve.open = share_or(t, "open", Valve::open_range, valve.open);
  if (t.has("characteristic")) {
    valve.characteristic = t.choice<ValveCharacteristic>(
        "characteristic",
        {{"equal_percentage", ValveCharacteristic::equal_percentage}, {"linear", ValveCharacteristic::linear}});
  }
  valve.rangeability = number_or(t, "rangeability", Valve::rangeability_range, valve.rangeability);
  valve.recovery = number_or(t, "recovery", physics::valve_recovery_range, valve.recovery);
  valve.style = number_or(t, "style", physics::valve_style_range, valve.style);
  return whole(t, valve);
}

Part read_pulsed_valve(const TomlTable& t, const Job& /*job*/) {
  PulsedValve valve{.passage_bore = given_by(t, "passage_bore", {"rated_flow", "rated_loss"})
                                        ? t.bore("passage_bore", Orifice::bore_range)
                                        : rated_bore(t, "rated_loss")};
  if (t.has("outlet_bore")) valve.outlet_bore = t.bore("outlet_bore", Orifice::bore_range);
  valve.duty = share_or(t, "duty", PulsedValve::duty_range, valve.duty);
  valve.frequency = number_or(t, "frequency", PulsedValve::frequency_range, valve.frequency);
  // The part checks the lags: a range of at most a second would be shown in minutes.
  valve.opening_lag = quantity_or(t, "opening_lag", {}, valve.opening_lag);
  valve.closing_lag = quantity_or(t, "closing_lag", {}, valve.closing_lag);
  return whole(t, valve);
}

static Part read_fitting(const TomlTable& t, const Job& /*job*/) {
  return whole(t, Fitting{.bore = t.bore("bore", Fitting::bore_range),
                          .k1 = t.number("k1", Fitting::k1_range),
                          .k_inf = t.number("k_inf", Fitting::k_inf_range)});
}

static Part read_named_fitting(const TomlTable& t, const Job& /*job*/) {
  const Length bore = t.bore("bore", Fitting::bore_range);
  const std::string kind = t.text("kind");
  return whole(t, kind == "elbow"      ? Fitting::elbow_90(bore)
                  : kind == "elbow_45" ? Fitting::elbow_45(bore)
                  : kind == "tee_run"  ? Fitting::tee_run(bore)
                                       : Fitting::tee_branch(bore));
}

static Part read_reducer(const TomlTable& t, const Job& /*job*/) {
  Reducer reducer{.from_bore = t.bore("from_bore", Reducer::bore_range),
                  .to_bore = t.bore("to_bore", Reducer::bore_range)};
  if (t.has("cone")) {
    // As a slope, 180 degrees would be shown as 0 %.
    reducer.cone = t.quantity<Angle>("cone", {});
    const Range range = physics::cone_angle_range;
    if (!range.contains(si(reducer.cone))) {
      const double degrees = 180.0 / std::numbers::pi;
      t.fail("cone", fmt::format("{:.6g} deg is out of range", si(reducer.cone) * degrees),
             fmt::format("{:g} to {:g} deg", range.low * degrees, range.high * degrees));
    }
  }
  return whole(t, reducer);
}

static Part read_barb(const TomlTable& t, const Job& /*job*/) {
  Barb barb{.bore = t.bore("bore", Barb::bore_range)};
  barb.hose_bore = t.bore("hose_bore", {si(barb.bore), 1.0});
  barb.length = t.bore("length", Barb::length_range);
  if (t.has("roughness")) {
    barb.roughness = t.bore("roughness", {0.0, physics::colebrook_roughness.high * si(barb.bore)});
  }
  return whole(t, barb);
}

Part read_strainer(const TomlTable& t, const Job& /*job*/) {
  Strainer strainer{.bore = t.bore("bore", Fitting::bore_range),
                    .rated_flow = t.quantity<Flow>("rated_flow", Strainer::flow_range),
                    .rated_loss = t.quantity<Pressure>("rated_loss", Strainer::loss_range)};
  if (given_by(t, "opening", {"mesh"})) {
    strainer.opening = t.bore("opening", Strainer::opening_range);
  } else {
    const int mesh = t.count("mesh", 1, 1000);
    strainer.opening = placed(t.where("mesh"), [&] { return Strainer::mesh_opening(mesh); });
  }
  // The part checks the area: its range would be shown in acres.
  strainer.open_area = t.quantity<Area>("open_area", {});
  strainer.blocked = share_or(t, "blocked", Strainer::blocked_range, strainer.blocked);
  if (t.has("orifice_bore")) strainer.orifice_bore = t.bore("orifice_bore", Orifice::bore_range);
  return whole(t, strainer);
}

Part read_flow_meter(const TomlTable& t, const Job& /*job*/) {
  FlowMeter meter{.bore = t.bore("bore", Fitting::bore_range),
                  .rated_flow = t.quantity<Flow>("rated_flow", FlowMeter::flow_range),
                  .rated_loss = t.quantity<Pressure>("rated_loss", FlowMeter::loss_range)};
  meter.most = t.quantity<Flow>("most_flow", FlowMeter::flow_range);
  meter.least = quantity_or(t, "least_flow", {0.0, si(meter.most)}, meter.least);
  return whole(t, meter);
}

static Part read_open_end(const TomlTable& t, const Job& /*job*/) {
  return whole(t, OpenEnd{.bore = t.bore("bore", OpenEnd::bore_range)});
}

static Part read_row_outlet(const TomlTable& t, const Job& /*job*/) {
  RowOutlet outlet{.bore = t.bore("bore", OpenEnd::bore_range)};
  if (t.has("tubes")) outlet.count = t.count("tubes", 1, 2);
  outlet.fall = quantity_or(t, "fall", RowOutlet::fall_range, outlet.fall);
  return whole(t, outlet);
}

static Part read_vented_tube(const TomlTable& t, const Job& /*job*/) {
  VentedTube tube{.bore = t.bore("bore", OpenEnd::bore_range)};
  if (t.has("tubes")) tube.count = t.count("tubes", 1, 2);
  tube.fall = quantity_or(t, "fall", RowOutlet::fall_range, tube.fall);
  return whole(t, tube);
}

static Part read_table_part(const TomlTable& t, const Job& /*job*/) {
  TablePart part;
  for (const auto& [flow, drop] : t.pairs<Flow, Pressure>("points", TablePart::flow_range, TablePart::drop_range)) {
    part.points.push_back({.flow = flow, .drop = drop});
  }
  part.density = quantity_or(t, "density", liquid_density, part.density);
  part.viscosity = quantity_or(t, "viscosity", liquid_viscosity, part.viscosity);
  part.rigid = t.flag("rigid", true);
  return whole(t, part);
}

const std::vector<PartKind>& part_kind_table() {
  static const std::vector<std::string_view> hose_keys{"length", "bore",           "roughness",     "wall",
                                                       "rating", "wall_thickness", "coil_diameter", "entrance"};
  static const std::vector<PartKind> table{
      {"hose", hose_keys, read_hose_part},
      {"pipe", hose_keys, read_hose_part},
      {"suspension_hose",
       {"length", "bore", "consistency", "flow_index", "plateau_shear_rate", "rating"},
       read_suspension_hose},
      {"orifice",
       {"bore", "thickness", "coefficient", "rated_flow", "rated_pressure", "wear", "wear_pressure"},
       read_orifice_part},
      {"orifice_pair",
       {"bore", "thickness", "coefficient", "second_bore", "second_thickness", "second_coefficient", "gap"},
       read_orifice_pair},
      {"check_valve", {"crack", "rated_flow", "rated_loss", "full_open", "crack_spread"}, read_check_valve_part},
      {"relief_valve", {"set", "rated_flow", "accumulation", "passage_bore"}, read_relief_valve},
      {"valve", {"kv", "cv", "bore", "open", "characteristic", "rangeability", "recovery", "style"}, read_valve},
      {"pulsed_valve",
       {"rated_flow", "rated_loss", "passage_bore", "outlet_bore", "duty", "frequency", "opening_lag", "closing_lag"},
       read_pulsed_valve},
      {"elbow", {"bore"}, read_named_fitting},
      {"elbow_45", {"bore"}, read_named_fitting},
      {"tee_run", {"bore"}, read_named_fitting},
      {"tee_branch", {"bore"}, read_named_fitting},
      {"fitting", {"bore", "k1", "k_inf"}, read_fitting},
      {"reducer", {"from_bore", "to_bore", "cone"}, read_reducer},
      {"barb", {"bore", "hose_bore", "length", "roughness"}, read_barb},
      {"strainer",
       {"bore", "rated_flow", "rated_loss", "opening", "mesh", "open_area", "blocked", "orifice_bore"},
       read_strainer},
      {"flow_meter", {"bore", "rated_flow", "rated_loss", "least_flow", "most_flow"}, read_flow_meter},
      {"open_end", {"bore"}, read_open_end},
      {"row_outlet", {"bore", "tubes", "fall"}, read_row_outlet},
      {"vented_tube", {"bore", "tubes", "fall"}, read_vented_tube},
      {"table_part", {"points", "density", "viscosity", "rigid"}, read_table_part},
      {"pressure_regulator", {"set", "rated_flow", "rated_loss", "passage_bore"}, read_pressure_regulator},
      {"centrifugal_pump", {"shutoff", "free_flow", "linear_share", "speed", "efficiency"}, read_centrifugal_pump},
      {"pump_curve",
       {"points", "efficiencies", "suction_heads", "shaft_powers", "atmosphere", "speed", "density"},
       read_pump_curve},
      {"positive_pump",
       {"displacement", "rpm", "slip_flow", "slip_gain", "slip_viscosity", "max_pressure", "efficiency"},
       read_positive_pump},
      {"ground_driven_pump",
       {"displacement", "distance", "slip_flow", "slip_gain", "slip_viscosity", "max_pressure", "efficiency"},
       read_ground_driven_pump}};
  return table;
}

}  // namespace file_detail

}  // namespace libflow
