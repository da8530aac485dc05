// SPDX-License-Identifier: MIT
/// @file
/// The layout file's vocabulary: every table, every key, what it takes and what it means. The reader refuses every
/// other name, and help is written from the same list.
#pragma once

#include <span>
#include <string_view>

#include <libflow/file/layout_drive_keys.hpp>
#include <libflow/file/layout_key.hpp>
#include <libflow/file/layout_size_keys.hpp>
#include <libflow/file/layout_tolerance_keys.hpp>

namespace libflow {

namespace layout_keys {

/// Keys outside any table.
inline constexpr LayoutKey top[] = {{"name", "text", "name of the layout; default: the file's name"},
                                    {"units", "us | metric", "units in which results are shown; default us"},
                                    {"job", "table", "what the layout has to do"},
                                    {"product", "table", "figures of your own for the liquid"},
                                    {"toolbar", "table", "the bar"},
                                    {"manifold", "tables", "what feeds the rows"},
                                    {"hose", "table", "the hoses from manifold to rows"},
                                    {"orifice", "table", "the metering orifice of every row"},
                                    {"check_valve", "table", "the check valve of every row"},
                                    {"row", "tables", "what single rows have that the others do not"},
                                    {"range", "table", "speeds and rates that the toolbar works at"},
                                    {"size", "table", "what sizing may choose from"},
                                    {"drive", "table", "what pushes the liquid; default: an ideal supply"},
                                    {"tank", "tables", "of the drive: where the liquid comes from"},
                                    {"suction", "table", "of the drive: hose from tank to pump"},
                                    {"suction_strainer", "table", "of the drive: ahead of the pump"},
                                    {"pump", "table", "of the drive"},
                                    {"relief", "table", "of the drive: relief valve back to the tank"},
                                    {"bypass", "table", "of the drive: valve back to the tank"},
                                    {"agitation", "table", "of the drive: jet back into the tank"},
                                    {"meter", "table", "of the drive: flow meter behind the pump"},
                                    {"line_strainer", "table", "of the drive: behind the pump"},
                                    {"throttle", "table", "of the drive: valve towards the rows"},
                                    {"pulse", "table", "of the drive: pulsed valve towards the rows"},
                                    {"regulator", "table", "of the drive: holds the pressure behind it"},
                                    {"section_valve", "table", "of the drive: ahead of the manifold"},
                                    {"delivery", "table", "of the drive: hose from pump to manifold"},
                                    {"tolerance", "tables", "what may differ from the layout as built and at work"},
                                    {"place", "tables", "free form, instead of toolbar: the points of the plumbing"},
                                    {"part", "tables", "free form, instead of toolbar: what joins the points"},
                                    {"tee", "tables", "free form: points that are tees, whose losses count"}};

/// Keys of [job].
inline constexpr LayoutKey job[] = {
    {"product", "text", "the liquid: a name that is known, or the name given in [product]"},
    {"temperature", "temperature", "of the liquid"},
    {"rate", "rate per area", "wanted"},
    {"speed", "speed", "ground speed at the middle of the bar"},
    {"tolerance", "per cent", "each row within this of the mean; default 5 % (common practice, no source)"},
    {"pressure", "pressure", "supply held at this gauge pressure; default: whatever gives the wanted rate"},
    {"turn", "left | right", "the bar turns this way; needs turn_radius; default: straight ahead"},
    {"turn_radius", "length", "of the path of the middle of the bar"},
    {"pump_limit", "pressure",
     "highest pressure that the supply can give at the gauge; without it and without a pump 60 psi is assumed (common "
     "practice, no source)"}};

/// Keys of [product].
inline constexpr LayoutKey product[] = {
    {"name", "text", "makes a new liquid of this name; without it the figures replace those of job's product"},
    {"density", "density, or list of [temperature, density]", "weighed"},
    {"viscosity", "list of [temperature, viscosity]", "measured"},
    {"analysis", "text", "N-P2O5-K2O in mass %, sulfur as a fourth figure, e.g. 10-34-0 or 12-0-0-26S"}};

/// Keys of [toolbar].
inline constexpr LayoutKey toolbar[] = {
    {"rows", "count", "1 to 200"},
    {"spacing", "length", "from row to row"},
    {"side_slope", "slope", "+ right end higher; default level"},
    {"fore_aft_slope", "slope", "+ front higher; default level"},
    {"outlets_behind", "length", "outlets this far behind the manifolds; default 0"},
    {"outlets_per_row", "count", "1 or 2; default 1"},
    {"metering", "outlet | manifold", "where check valve and orifice sit; default outlet"},
    {"outlet_bore", "length", "of the open end; default: the orifice's jet; the hose's where the manifold meters"},
    {"outlet_fall", "length", "each outlet is a tube of outlet_bore that hangs down this far; default 0"},
    {"outlet_vented", "true | false", "that tube takes in air at its head and never pulls; default false"},
    {"orifice_least", "pressure", "across an orifice, below which it meters badly"},
    {"orifice_most", "pressure", "across an orifice, above which it wears or atomises"}};

/// Keys of [[manifold]].
inline constexpr LayoutKey manifold[] = {
    {"id", "text", "its name; default manifold 1, manifold 2 ..."},
    {"first_row", "count", "first row that it feeds; default 1"},
    {"last_row", "count", "last row that it feeds; default the last"},
    {"position", "length", "of its middle from the middle of the bar, + right; default the middle of its rows"},
    {"bore", "length", "inside; default 1 in"},
    {"port_spacing", "length", "default 5 cm"},
    {"feed", "middle | left | right | both_ends", "where liquid enters; default middle"},
    {"feed_length", "length", "hose from the supply to each feed point; default 0, joined directly"},
    {"feed_bore", "length", "of that hose; default 1 in"},
    {"height", "length", "ports above the outlets; default 0"},
    {"junction_losses", "true | false",
     "count the loss and regain of a tee at every port and where the feed parts; default false"}};

/// Keys of [hose].
inline constexpr LayoutKey hose[] = {{"bore", "length", "inside diameter"},
                                     {"length", "length", "one length for all rows"},
                                     {"lengths", "list of lengths", "one a row, from the left"},
                                     {"schedule", "shortest", "each hose as short as its run allows"},
                                     {"extra", "length", "with schedule: drop and slack added to every run; default 0"},
                                     {"roughness", "length", "default 0.0015 mm, drawn tubing"},
                                     {"rating", "pressure", "working pressure"},
                                     {"wall_thickness", "length", "with modulus: how a row's hose stretches"},
                                     {"modulus", "pressure", "of elasticity of the hose's wall, e.g. 30 MPa"}};

/// Keys of [orifice].
inline constexpr LayoutKey orifice[] = {
    {"bore", "length", "diameter of the hole"},
    {"thickness", "length", "length of the hole; default 0, a sharp plate"},
    {"coefficient", "number", "discharge coefficient at high Reynolds number; default by shape"},
    {"rated_flow", "flow", "instead of bore: water at 20 °C that it passes"},
    {"rated_pressure", "pressure", "at this pressure across it"},
    {"wear", "per cent", "more flow than new at the same pressure, for all holes of the table; default 0 %"},
    {"wear_pressure", "pressure", "across a hole given by its bore when its wear was found; default 40 psi"},
    {"none", "true | false", "true, in [orifice]: the rows have none, the hose itself meters; default false"}};

/// Keys of [check_valve].
inline constexpr LayoutKey check_valve[] = {
    {"crack", "pressure", "that opens it"},
    {"rated_flow", "flow", "water at 20 °C"},
    {"rated_loss", "pressure", "lost beyond the crack pressure at that flow"},
    {"full_open", "pressure", "instead of rated_loss: across the valve just fully open, at rated_flow"},
    {"crack_spread", "pressure", "valves of one box crack within this on either side; default 0"}};

/// Keys of [[row]].
inline constexpr LayoutKey row[] = {{"number", "count", "which row, 1 at the left end"},
                                    {"hose_length", "length", "instead of [hose]"},
                                    {"hose_bore", "length", "instead of [hose]"},
                                    {"orifice", "table", "instead of [orifice], with the same keys"},
                                    {"crack", "pressure", "instead of [check_valve]"},
                                    {"width", "length", "field width that the row covers; default the spacing"},
                                    {"height", "length", "of its outlet above the others; default 0"},
                                    {"shut", "true | false", "the row is valved off; default false"}};

/// Keys of a place.
inline constexpr LayoutKey place[] = {
    {"id", "text", "its name"},
    {"kind", "supply | fed | drawn | junction | air | soil",
     "held at a pressure or by a tank, pumped into, pumped out of, parts meet, open to the air, or in soil that pushes "
     "back"},
    {"elevation", "length", "above any one level; default 0"},
    {"pressure", "pressure", "of a supply; of a soil place: its back pressure"},
    {"depth", "length", "of a soil place, instead of pressure: the liquid that stands over the outlet"},
    {"tank", "table", "instead of pressure: the supply is a tank's outlet, elevation that of the tank's bottom"},
    {"flow", "flow", "into a fed place (default: what the job's rate asks) or out of a drawn one"},
    {"gauge", "true | false", "the supply pressure is read here; default: the first fed place, else the first supply"},
    {"row", "count", "of an air or soil place: the row that it waters"},
    {"width", "length", "of an air or soil place with a row: field width that the row covers"},
    {"x", "length", "of an air or soil place with a row: from the middle of the bar, + right; default side by side"}};

/// Keys of a place's tank.
inline constexpr LayoutKey tank[] = {
    {"shape", "upright_round | upright_box | lying_round | lying_oval | dipstick", "its sizes are inside"},
    {"diameter", "length", "of a round one"},
    {"length", "length", "of a box or a lying tank"},
    {"width", "length", "of a box or an oval tank"},
    {"height", "length", "of an upright or an oval tank"},
    {"dipstick", "list of [level, volume]", "of any other shape, from [0, 0] upwards; four or more"},
    {"level", "length", "of the liquid above the bottom"},
    {"outlet_level", "length", "of the outlet above the bottom; default 0"},
    {"lowest_level", "length", "below it nothing is drawn; default the outlet's level"},
    {"top_pressure", "pressure", "of the air above the liquid; default 0, an open vent"}};

/// Words for the kind of a part.
inline constexpr std::string_view part_kinds =
    "hose | pipe | suspension_hose | orifice | orifice_pair | check_valve | relief_valve | valve | pulsed_valve | "
    "elbow | elbow_45 | tee_run | tee_branch | fitting | reducer | barb | strainer | flow_meter | open_end | "
    "row_outlet | vented_tube | table_part | pressure_regulator | centrifugal_pump | pump_curve | positive_pump | "
    "ground_driven_pump";

/// Keys of a part, of any kind.
inline constexpr LayoutKey part[] = {
    {"id", "text", "its name"},
    {"kind", part_kinds, "what it is; a pipe is a hose that is not cut from the roll"},
    {"from", "text", "the place where liquid enters"},
    {"to", "text", "the place where liquid leaves"},
    {"row", "count", "belongs to this row, where that does not follow from the plumbing"},
    {"length", "length", "of a hose, pipe or barb"},
    {"bore", "length", "inside diameter; of an orifice pair: of the first hole"},
    {"roughness", "length", "of a hose, pipe or barb; default 0.0015 mm"},
    {"wall", "drawn tubing | rubber | stainless steel | new steel | galvanized steel | cast iron",
     "of a hose or pipe, instead of roughness"},
    {"rating", "pressure", "working pressure of a hose or pipe"},
    {"wall_thickness", "length", "of a hose or pipe"},
    {"coil_diameter", "length", "of a hose or pipe that lies coiled, between centres; default straight"},
    {"entrance", "true | false", "liquid enters this hose or pipe from a tank or bar; default false"},
    {"consistency", "number", "of the suspension in a hose, K in Pa s^n"},
    {"flow_index", "number", "of the suspension in a hose, n"},
    {"plateau_shear_rate", "number", "of the suspension: no thicker below this, in 1/s; default 0.01"},
    {"thickness", "length", "of an orifice, of the first hole of a pair"},
    {"coefficient", "number", "discharge coefficient of an orifice, of the first hole of a pair"},
    {"second_bore", "length", "of the second hole of an orifice pair"},
    {"second_thickness", "length", "of the second hole"},
    {"second_coefficient", "number", "of the second hole"},
    {"gap", "length", "between the plates of an orifice pair"},
    {"rated_flow", "flow", "of an orifice, valve, regulator, strainer or meter: water at 20 °C"},
    {"rated_pressure", "pressure", "across an orifice at rated_flow"},
    {"wear", "per cent", "of an orifice: more flow than new at the same pressure; default 0 %"},
    {"wear_pressure", "pressure", "across an orifice given by its bore when its wear was found; default 40 psi"},
    {"rated_loss", "pressure", "at rated_flow; of a check valve: beyond the crack pressure; of a regulator: wide open"},
    {"crack", "pressure", "of a check valve"},
    {"full_open", "pressure", "across a check valve that is just fully open, at rated_flow; default opens at once"},
    {"crack_spread", "pressure", "check valves of one box crack within this on either side; default 0"},
    {"set", "pressure", "that opens a relief valve, or that a pressure regulator holds behind it"},
    {"accumulation", "pressure", "beyond the set pressure at a relief valve's rated_flow"},
    {"passage_bore", "length",
     "of a relief or pulsed valve or a regulator, instead of rated_flow: the sharp hole that loses the same"},
    {"kv", "flow", "water that a valve passes fully open at 1 bar across it"},
    {"cv", "flow", "instead of kv: water at 1 psi across it; a Cv of 8 is \"8 gpm\""},
    {"open", "per cent", "of a valve's travel; default 100 %"},
    {"characteristic", "equal_percentage | linear", "of a valve; default equal_percentage"},
    {"rangeability", "number", "of a valve; default 50"},
    {"recovery", "number", "of a valve, FL; default 0.9"},
    {"style", "number", "of a valve, Fd; default 0.46"},
    {"outlet_bore", "length", "metering orifice right behind a pulsed valve"},
    {"duty", "per cent", "of the time that a pulsed valve's signal is on; default 100 %"},
    {"frequency", "number", "of a pulsed valve, pulses a second; default 10"},
    {"opening_lag", "time", "of a pulsed valve; default 0"},
    {"closing_lag", "time", "of a pulsed valve; default 0"},
    {"k1", "number", "of a fitting: laminar constant"},
    {"k_inf", "number", "of a fitting: loss coefficient at high Reynolds number"},
    {"from_bore", "length", "of a reducer, where liquid enters"},
    {"to_bore", "length", "of a reducer, where liquid leaves"},
    {"cone", "angle", "of a reducer, the full angle; default 180 deg, sudden"},
    {"hose_bore", "length", "before and behind a barb"},
    {"opening", "length", "of a strainer's mesh"},
    {"mesh", "count", "instead of opening: 16, 20, 30, 40, 50, 60, 80, 100 or 200"},
    {"open_area", "area", "all openings of a clean strainer's screen"},
    {"blocked", "per cent", "of a strainer's open area; default 0 %"},
    {"orifice_bore", "length", "smallest hole that a strainer protects"},
    {"least_flow", "flow", "of a meter's working range; default 0"},
    {"most_flow", "flow", "of a meter's working range"},
    {"tubes", "count", "of a row outlet or vented tube, 1 or 2; default 1"},
    {"fall", "length", "of a row outlet's hanging tube, or a vented tube, to the air place at its foot; default 0"},
    {"points", "list of [flow, pressure]",
     "gain of a pump curve from no flow upwards; drop of a table part, without 0"},
    {"efficiencies", "list of per cent", "of a pump curve, one for each of its points"},
    {"suction_heads", "list of lengths",
     "net positive suction head that the pump requires, one for each of its points"},
    {"shaft_powers", "list of numbers", "of a pump curve in watts, one for each of its points"},
    {"atmosphere", "pressure", "of the air, absolute, for a pump curve's suction; default 101.325 kPa"},
    {"density", "density", "of the liquid in which the points hold; default water at 20 °C"},
    {"viscosity", "viscosity", "of the liquid in which a table part was measured; default water at 20 °C"},
    {"rigid", "true | false", "nothing in a table part moves with the flow; default true"},
    {"shutoff", "pressure", "gain of a centrifugal pump at no flow"},
    {"free_flow", "flow", "of a centrifugal pump at no gain"},
    {"linear_share", "per cent", "of the fall of its gain; default 5 %"},
    {"speed", "per cent", "of a centrifugal pump or pump curve against its curve's speed; default 100 %"},
    {"displacement", "volume", "of a positive pump: a revolution; of a ground-driven pump: over distance"},
    {"rpm", "number", "of a positive pump"},
    {"distance", "length", "that a ground-driven pump travels for its displacement, at the job's speed"},
    {"slip_flow", "flow", "of a positive or ground-driven pump, measured once: swept less delivered"},
    {"slip_gain", "pressure", "at which the slip was measured"},
    {"slip_viscosity", "viscosity", "in which the slip was measured; default water at 20 °C"},
    {"max_pressure", "pressure", "of a positive or ground-driven pump at its outlet"},
    {"efficiency", "per cent", "of any pump but a pump curve near its working point, for the power at its shaft"}};

/// Keys of a tee.
inline constexpr LayoutKey tee[] = {
    {"at", "text", "the junction place where it stands; all parts that end there are its legs"},
    {"run", "text, or list of text",
     "the part or the two parts on its straight run; with one the other end is plugged"},
    {"branch", "text, or list of text", "the part on its branch at a right angle, or those side by side on it"},
    {"run_bore", "length", "default that of the first part of the run"},
    {"branch_bore", "length",
     "a tenth of the run's to the run's; default one with the area of all parts on the branch"},
    {"parting", "number",
     "how much more a tee loses that is fed by its branch, 0 to 3: threaded 1.5, welded 0.3; default 1.5"}};

/// All tables.
inline constexpr LayoutTable tables[] = {{"", "the layout", top},
                                         {"job", "what the layout has to do", job},
                                         {"product", "figures of your own for the liquid", product},
                                         {"toolbar", "a plain bar", toolbar},
                                         {"manifold", "one entry for each manifold", manifold},
                                         {"hose", "from manifold to rows", hose},
                                         {"orifice", "metering", orifice},
                                         {"check_valve", "spring check valve", check_valve},
                                         {"row", "one entry for each row that differs", row},
                                         {"range", "speeds and rates that the toolbar works at", range},
                                         {"size", "what sizing may choose from", size},
                                         {"groups", "rows that get one orifice, in size", size_group},
                                         {"drive", "what pushes the liquid", drive},
                                         {"tank", "one entry for each tank of a drive", drive_tank},
                                         {"suction", "hose from tank to pump", suction},
                                         {"suction_strainer", "ahead of the pump", drive_strainer},
                                         {"pump", "of the drive", pump},
                                         {"relief", "relief valve back to the tank", relief},
                                         {"bypass", "valve back to the tank", drive_valve},
                                         {"agitation", "jet back into the tank", orifice},
                                         {"meter", "flow meter", drive_meter},
                                         {"line_strainer", "behind the pump", drive_strainer},
                                         {"throttle", "valve towards the rows", drive_valve},
                                         {"pulse", "pulsed valve towards the rows", drive_pulse},
                                         {"regulator", "holds the pressure behind it", drive_regulator},
                                         {"section_valve", "ahead of the manifold", drive_valve},
                                         {"delivery", "hose from pump to manifold", delivery},
                                         {"tolerance", "one entry for each source of difference", tolerance},
                                         {"place", "one entry for each point of a free-form layout", place},
                                         {"place tank", "the table tank of a supply place", tank},
                                         {"part", "one entry for each part of a free-form layout", part},
                                         {"tee", "one entry for each tee of a free-form layout", tee}};

}  // namespace layout_keys

/// Every table and key that a layout file may hold.
[[nodiscard]] constexpr std::span<const LayoutTable> layout_vocabulary() { return layout_keys::tables; }

}  // namespace libflow
