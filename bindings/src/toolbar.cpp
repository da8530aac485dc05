// SPDX-License-Identifier: MIT
// Toolbars, jobs, drives and layouts.
#include <libflow/toolbar/build.hpp>

#include "layout.hpp"
#include "module.hpp"
#include "solution.hpp"

namespace libflow::python {

OrificeChoice Convert<OrificeChoice>::from(py::handle object, std::string_view where) {
  if (py::isinstance<OrificeByBore>(object)) return object.cast<OrificeByBore>();
  if (py::isinstance<OrificeByRating>(object)) return object.cast<OrificeByRating>();
  throw InputError(std::string(where), type_name(object) + " where an orifice is wanted",
                   "OrificeByBore(bore='0.046 in') or OrificeByRating(flow='0.2 gpm', pressure='10 psi')");
}
py::object Convert<OrificeChoice>::to(const OrificeChoice& value) {
  return std::visit([](const auto& one) { return py::cast(one); }, value);
}

HoseSchedule Convert<HoseSchedule>::from(py::handle object, std::string_view where) {
  HoseSchedule s;
  if (py::isinstance<Shortest>(object)) {
    s.kind = HoseSchedule::Kind::shortest;
    s.extra = object.cast<const Shortest&>().extra;
  } else if (!py::isinstance<py::str>(object) && py::isinstance<py::iterable>(object)) {
    s.kind = HoseSchedule::Kind::listed;
    s.lengths = Convert<std::vector<Length>>::from(object, where);
  } else {
    s.length = quantity<Length>(object, where);
  }
  return s;
}
py::object Convert<HoseSchedule>::to(const HoseSchedule& value) {
  switch (value.kind) {
    case HoseSchedule::Kind::shortest:
      return py::cast(Shortest{value.extra});
    case HoseSchedule::Kind::listed:
      return Convert<std::vector<Length>>::to(value.lengths);
    default:
      return py::float_(si(value.length));
  }
}

PumpChoice Convert<PumpChoice>::from(py::handle object, std::string_view where) {
  if (py::isinstance<CentrifugalPump>(object)) return object.cast<CentrifugalPump>();
  if (py::isinstance<PumpCurve>(object)) return object.cast<PumpCurve>();
  if (py::isinstance<PositivePump>(object)) return object.cast<PositivePump>();
  if (py::isinstance<GroundDrivenPump>(object)) return object.cast<GroundDrivenPump>();
  throw InputError(std::string(where), type_name(object) + " where a pump is wanted",
                   "CentrifugalPump, PumpCurve, PositivePump or GroundDrivenPump");
}
py::object Convert<PumpChoice>::to(const PumpChoice& value) {
  return std::visit([](const auto& one) { return py::cast(one); }, value);
}

Liquid Convert<Liquid>::from(py::handle object, std::string_view where) {
  if (py::isinstance<py::str>(object)) return find_liquid(text_from(object, where));
  if (py::isinstance<Liquid>(object)) return object.cast<Liquid>();
  throw InputError(std::string(where), type_name(object) + " where a liquid is wanted",
                   "a Liquid, or the name of a built-in one, e.g. '10-34-0'");
}

namespace {

void add_bar(py::module_& m) {
  Record<OrificeByBore>(m, "OrificeByBore", "A metering hole of a toolbar by its bore.")
      .need<&OrificeByBore::bore>("bore", "0.05 mm to 50 mm")
      .may<&OrificeByBore::thickness>("thickness", "length of the hole; 0: sharp plate")
      .may<&OrificeByBore::discharge_coefficient>("discharge_coefficient", "[-] at high Reynolds number")
      .done();
  Record<OrificeByRating>(m, "OrificeByRating", "A metering hole of a toolbar by what it passes of water at 20 C.")
      .need<&OrificeByRating::flow>("flow", "at `pressure`")
      .need<&OrificeByRating::pressure>("pressure", "across it")
      .done();
  Record<CheckValveChoice>(m, "CheckValveChoice", "The check valves of a toolbar, as bought.")
      .need<&CheckValveChoice::crack>("crack", "pressure that cracks it, at least 0")
      .need<&CheckValveChoice::rated_flow>("rated_flow", "water, 20 C")
      .need<&CheckValveChoice::rated_loss>("rated_loss",
                                           "lost at rated_flow beyond the crack pressure; not used with full_open")
      .may<&CheckValveChoice::full_open>("full_open",
                                         "across the valve that is just fully open, at rated_flow; None: "
                                         "fully open at once")
      .may<&CheckValveChoice::crack_spread>("crack_spread", "valves of one box crack within this on either side")
      .done();
  Record<Shortest>(m, "Shortest", "Every hose as short as its run along the bar allows.")
      .may<&Shortest::extra>("extra", "drop to the row and slack, added to every run")
      .done();
  Record<Manifold>(m, "Manifold", "A bar with one port a row.")
      .may<&Manifold::id>("id", "'' for 'manifold 1', 'manifold 2', ...")
      .may<&Manifold::first_row>("first_row", "1-based; 0: the first row of the toolbar")
      .may<&Manifold::last_row>("last_row", "1-based; 0: the last row of the toolbar")
      .may<&Manifold::position>("position", "of its middle, + right; None: the middle of its rows")
      .may<&Manifold::bore>("bore", "inside")
      .may<&Manifold::port_spacing>("port_spacing", "between ports")
      .may<&Manifold::feed>("feed", "where liquid enters")
      .may<&Manifold::feed_length>("feed_length", "hose from the supply to each feed point; 0: joined directly")
      .may<&Manifold::feed_bore>("feed_bore", "of that hose")
      .may<&Manifold::height>("height", "of the ports above the row outlets")
      .may<&Manifold::junction_losses>("junction_losses", "ports lose as tees and regain along the bar")
      .done();
  Record<RowChange>(m, "RowChange", "What one row has that the others do not; only what is set differs.")
      .need<&RowChange::row>("row", "1-based")
      .may<&RowChange::hose_length>("hose_length", "of its hose")
      .may<&RowChange::hose_bore>("hose_bore", "of its hose")
      .may<&RowChange::orifice>("orifice", "of its outlets")
      .may<&RowChange::crack>("crack", "of its check valves")
      .may<&RowChange::width>("width", "field width that it covers")
      .may<&RowChange::height>("height", "of its outlet above the other outlets")
      .may<&RowChange::shut>("shut", "valved off")
      .done();
}

void add_drive_records(py::module_& m) {
  Record<DriveTank>(m, "DriveTank", "A tank of a drive and how full it is.")
      .may<&DriveTank::id>("id", "'' for 'tank', or 'tank 1', 'tank 2' ...")
      .need<&DriveTank::tank>("tank", "its shape and outlet")
      .need<&DriveTank::level>("level", "of the liquid above its inside bottom")
      .may<&DriveTank::height>("height", "of its inside bottom above the row outlets")
      .may<&DriveTank::ahead>("ahead", "in front of the manifolds")
      .may<&DriveTank::right>("right", "of the middle of the bar")
      .may<&DriveTank::line_length>("line_length", "its own hose to where the tanks are tied; 0: joined directly")
      .may<&DriveTank::line_bore>("line_bore", "of that hose")
      .done();
  Record<DriveLine>(m, "DriveLine", "A line of hose of a drive.")
      .may<&DriveLine::length>("length", "0: joined directly")
      .may<&DriveLine::bore>("bore", "inside")
      .may<&DriveLine::rating>("rating", "working pressure (gauge)")
      .done();
  Record<Drive>(m, "Drive", "What pushes the liquid: tanks, suction, pump, returns, delivery, and its control.")
      .need<&Drive::tanks>("tanks", "at least one")
      .may<&Drive::suction>("suction", "hose to the pump")
      .may<&Drive::suction_strainer>("suction_strainer", "before the pump")
      .need<&Drive::pump>("pump", "at a setting of 1")
      .may<&Drive::pump_height>("pump_height", "above the row outlets")
      .may<&Drive::relief>("relief", "back to the tank")
      .may<&Drive::bypass>("bypass", "valve back to the tank")
      .may<&Drive::agitation>("agitation", "jet back into the tank")
      .may<&Drive::meter>("meter", "in the delivery line")
      .may<&Drive::line_strainer>("line_strainer", "in the delivery line")
      .may<&Drive::throttle>("throttle", "in the delivery line")
      .may<&Drive::pulse>("pulse", "in the delivery line")
      .may<&Drive::regulator>("regulator", "in the delivery line")
      .may<&Drive::section_valve>("section_valve", "in the delivery line")
      .may<&Drive::delivery>("delivery", "hose to the gauge")
      .may<&Drive::control>("control", "what is moved to reach the rate")
      .may<&Drive::least>("least", "of the setting, SI; None: as libflow allows")
      .may<&Drive::most>("most", "of the setting, SI; None: as libflow allows")
      .may<&Drive::setting>("setting", "held here, SI; None: what gives the wanted rate")
      .may<&Drive::suction_limit>("suction_limit", "lowest total gauge pressure allowed at the pump's inlet")
      .may<&Drive::suction_velocity>("suction_velocity", "above it a caution")
      .may<&Drive::delivery_velocity>("delivery_velocity", "above it a caution")
      .done([](const Drive& d, std::string_view) { check(d); });
}

}  // namespace

void add_toolbar(py::module_& m) {
  add_bar(m);
  add_drive_records(m);
  Record<Toolbar>(m, "Toolbar", "The plumbing of a bar: rows, manifolds, hoses, metering.")
      .need<&Toolbar::rows>("rows", "1 to 200")
      .need<&Toolbar::spacing>("spacing", "of the rows")
      .need<&Toolbar::manifolds>("manifolds", "at least one Manifold; together they feed every row once")
      .need<&Toolbar::hose>("hose_length", "one length [m] for all rows, a list of one a row, or Shortest")
      .need<&Toolbar::hose_bore>("hose_bore", "inside, more than 0")
      .may<&Toolbar::hose_roughness>("hose_roughness", "of the wall; default: drawn tubing")
      .may<&Toolbar::hose_rating>("hose_rating", "working pressure (gauge); a caution when exceeded")
      .may<&Toolbar::hose_wall>("hose_wall", "thickness; with hose_modulus: how a row's hose stretches")
      .may<&Toolbar::hose_modulus>("hose_modulus", "of elasticity of that wall")
      .may<&Toolbar::side_slope>("side_slope", "+ right end higher")
      .may<&Toolbar::fore_aft_slope>("fore_aft_slope", "+ front higher")
      .may<&Toolbar::outlets_behind>("outlets_behind", "outlets this far behind the manifolds")
      .may<&Toolbar::outlets_per_row>("outlets_per_row", "1 or 2, each with its own check valve and orifice")
      .may<&Toolbar::metering>("metering", "check valve and orifice at the row end or at the manifold port")
      .may<&Toolbar::orifice>("orifice", "None: the hose itself meters")
      .may<&Toolbar::check_valve>("check_valve", "None: there is none")
      .may<&Toolbar::outlet_bore>("outlet_bore", "open end of each outlet; 0: see the manual")
      .may<&Toolbar::outlet_fall>("outlet_fall", "each outlet is a tube of outlet_bore that hangs down this far")
      .may<&Toolbar::outlet_vented>("outlet_vented", "that tube takes in air at its head: it never pulls")
      .may<&Toolbar::row_changes>("row_changes", "rows that differ")
      .may<&Toolbar::orifice_least>("orifice_least", "drop below which an orifice meters badly")
      .may<&Toolbar::orifice_most>("orifice_most", "drop above which an orifice wears or atomises")
      .may<&Toolbar::drive>("drive", "what pushes the liquid; None: an ideal supply")
      .done();
  Record<Job>(m, "Job", "What a toolbar has to do.")
      .may<&Job::liquid>("liquid", "a Liquid, or the name of a built-in one")
      .may<&Job::temperature>("temperature", "of the liquid")
      .need<&Job::rate>("rate", "wanted per area")
      .need<&Job::speed>("speed", "of the bar's centre")
      .may<&Job::pressure>("pressure", "supply held at this gauge pressure; None: the supply gives the wanted total")
      .may<&Job::turn_radius>("turn_radius", "of the bar's centre, + turning left; None: straight")
      .si<&Job::tolerance>("tolerance", Kind::fraction, "each row within this fraction of the mean, 0.05 or '5 %'")
      .may<&Job::pump_limit>("pump_limit", "highest pressure that the supply can give; a caution when exceeded")
      .done([](const Job& job, std::string_view) { check(job); });
  Record<Distribution>(m, "Distribution", "A difference from the layout's value as chance; zero is the value itself.")
      .may<&Distribution::kind>("kind", "its shape")
      .may<&Distribution::deviation>("deviation", "standard deviation, of 'normal' [SI, or a share]")
      .may<&Distribution::low>("low", "of 'uniform' and 'triangular', at most 0 [SI, or a share]")
      .may<&Distribution::high>("high", "of 'uniform' and 'triangular', at least 0 [SI, or a share]")
      .may<&Distribution::values>("values", "measured differences, of 'listed' [SI, or shares]")
      .done([](const Distribution& d, std::string_view where) { d.check(where); });
  Record<Tolerance>(m, "Tolerance", "One source of difference between a layout and the machine as built and at work.")
      .need<&Tolerance::of>("of", "what differs")
      .need<&Tolerance::difference>("difference", "by how much, as chance")
      .may<&Tolerance::relative>("relative", "the difference is a share of the layout's value, not SI")
      .may<&Tolerance::batch>("batch", "by row: rows of one number share one draw; empty: each row its own")
      .may<&Tolerance::name>("name", "for reports")
      .done();
  Record<WorkingRange>(m, "WorkingRange", "Over what a toolbar works, for studies of more than one operating point.")
      .may<&WorkingRange::speeds>("speeds", "rising, or empty")
      .may<&WorkingRange::rates>("rates", "rising, or empty")
      .done();
}

}  // namespace libflow::python
