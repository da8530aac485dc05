// SPDX-License-Identifier: MIT
/// @file
/// The words that a layout file may use for a drive (toolbar/drive.hpp): what pushes the liquid.
#pragma once

#include <string_view>

#include <libflow/file/layout_key.hpp>

namespace libflow::layout_keys {

/// Keys of [drive].
inline constexpr LayoutKey drive[] = {
    {"control", "pump_speed | regulator | relief | bypass | throttle | pulse", "what is moved to reach the rate"},
    {"least", "per cent, or pressure", "lowest setting; default: what the part allows"},
    {"most", "per cent, or pressure", "highest setting; default: what the part allows"},
    {"setting", "per cent, or pressure", "held here; default: what gives the wanted rate"}};

/// Keys of [[tank]].
inline constexpr LayoutKey drive_tank[] = {
    {"id", "text", "its name; default tank, or tank 1, tank 2 ..."},
    {"shape", "upright_round | upright_box | lying_round | lying_oval | dipstick", "its sizes are inside"},
    {"diameter", "length", "of a round one"},
    {"length", "length", "of a box or a lying tank"},
    {"width", "length", "of a box or an oval tank"},
    {"height", "length", "of an upright or an oval tank"},
    {"dipstick", "list of [level, volume]", "of any other shape, from [0, 0] upwards; four or more"},
    {"level", "length", "of the liquid above the bottom"},
    {"outlet_level", "length", "of the outlet above the bottom; default 0"},
    {"lowest_level", "length", "below it nothing is drawn; default the outlet's level"},
    {"top_pressure", "pressure", "of the air above the liquid; default 0, an open vent"},
    {"above_outlets", "length", "its bottom above the row outlets, on level ground; default 0"},
    {"ahead", "length", "in front of the manifolds; default 0"},
    {"right", "length", "of the middle of the bar; default 0"},
    {"hose_length", "length", "its own hose to where several tanks are tied; default 0"},
    {"hose_bore", "length", "of that hose; default 1 1/2 in"}};

/// Keys of [suction].
inline constexpr LayoutKey suction[] = {
    {"length", "length", "of the hose from tank to pump; default 0, joined directly"},
    {"bore", "length", "inside diameter; default 1 1/2 in"},
    {"rating", "pressure", "working pressure"},
    {"lowest_pressure", "pressure", "allowed at the pump's inlet, gauge: \"-5 psi\" is 5 psi of vacuum"},
    {"velocity", "speed", "advised against above this; default 3 ft/s (from memory)"}};

/// Keys of [delivery].
inline constexpr LayoutKey delivery[] = {
    {"length", "length", "of the hose from pump to manifold; default 0"},
    {"bore", "length", "inside diameter; default 1 in"},
    {"rating", "pressure", "working pressure"},
    {"velocity", "speed", "advised against above this; default 6 ft/s (from memory)"}};

/// Keys of [pump].
inline constexpr LayoutKey pump[] = {
    {"kind", "centrifugal_pump | pump_curve | positive_pump | ground_driven_pump", "what it is"},
    {"above_outlets", "length", "its height above the row outlets; default 0"},
    {"shutoff", "pressure", "gain of a centrifugal pump at no flow"},
    {"free_flow", "flow", "of a centrifugal pump at no gain"},
    {"linear_share", "per cent", "of the fall of its gain; default 5 %"},
    {"points", "list of [flow, pressure]", "gain of a pump curve from no flow upwards"},
    {"suction_heads", "list of lengths", "net positive suction head that a pump curve requires, one a point"},
    {"density", "density", "of the liquid in which a curve's points hold; default water at 20 °C"},
    {"displacement", "volume", "of a positive pump: a revolution; of a ground-driven pump: over distance"},
    {"rpm", "number", "of a positive pump at full speed"},
    {"distance", "length", "that a ground-driven pump travels for its displacement"},
    {"slip_flow", "flow", "of a positive or ground-driven pump, measured once: swept less delivered"},
    {"slip_gain", "pressure", "at which the slip was measured"},
    {"slip_viscosity", "viscosity", "in which the slip was measured; default water at 20 °C"},
    {"max_pressure", "pressure", "of a positive or ground-driven pump at its outlet"},
    {"efficiency", "per cent", "of any pump but a pump curve near its working point, for the power at its shaft"},
    {"efficiencies", "list of per cent", "of a pump curve, one for each of its points"},
    {"shaft_powers", "list of numbers", "of a pump curve in watts, one for each of its points"}};

/// Keys of [relief].
inline constexpr LayoutKey relief[] = {
    {"set", "pressure", "that opens it; with control = \"relief\": its highest setting"},
    {"rated_flow", "flow", "water at 20 °C, back to the tank"},
    {"accumulation", "pressure", "beyond the set pressure at rated_flow"},
    {"passage_bore", "length", "instead of rated_flow: the sharp hole that loses the same"}};

/// Keys of [bypass], [throttle] and [section_valve].
inline constexpr LayoutKey drive_valve[] = {
    {"kv", "flow", "water that it passes fully open at 1 bar across it"},
    {"cv", "flow", "instead of kv: water at 1 psi across it; a Cv of 8 is \"8 gpm\""},
    {"bore", "length", "of the valve"},
    {"open", "per cent", "of its travel, where the control does not move it; default 100 %"},
    {"characteristic", "equal_percentage | linear", "default equal_percentage"},
    {"rangeability", "number", "default 50"},
    {"recovery", "number", "FL; default 0.9"},
    {"style", "number", "Fd; default 0.46"}};

/// Keys of [regulator].
inline constexpr LayoutKey drive_regulator[] = {
    {"set", "pressure", "held behind it, where the control does not move it"},
    {"rated_flow", "flow", "water at 20 °C, wide open"},
    {"rated_loss", "pressure", "at rated_flow"},
    {"passage_bore", "length", "instead of rated_flow: the sharp hole that loses the same"}};

/// Keys of [pulse].
inline constexpr LayoutKey drive_pulse[] = {
    {"rated_flow", "flow", "water at 20 °C, held open"},
    {"rated_loss", "pressure", "at rated_flow"},
    {"passage_bore", "length", "instead of rated_flow: the sharp hole that loses the same"},
    {"outlet_bore", "length", "metering orifice right behind it"},
    {"duty", "per cent", "of the time that its signal is on, where the control does not move it; default 100 %"},
    {"frequency", "number", "pulses a second; default 10"},
    {"opening_lag", "time", "default 0"},
    {"closing_lag", "time", "default 0"}};

/// Keys of [line_strainer] and [suction_strainer].
inline constexpr LayoutKey drive_strainer[] = {{"bore", "length", "of its ports"},
                                               {"rated_flow", "flow", "water at 20 °C"},
                                               {"rated_loss", "pressure", "clean, at rated_flow"},
                                               {"opening", "length", "of the mesh"},
                                               {"mesh", "count", "instead of opening: 16 to 200"},
                                               {"open_area", "area", "all openings of the clean screen"},
                                               {"blocked", "per cent", "of its open area; default 0 %"},
                                               {"orifice_bore", "length", "smallest hole that it protects"}};

/// Keys of [meter].
inline constexpr LayoutKey drive_meter[] = {{"bore", "length", "of its ports"},
                                            {"rated_flow", "flow", "water at 20 °C"},
                                            {"rated_loss", "pressure", "at rated_flow"},
                                            {"least_flow", "flow", "of its working range; default 0"},
                                            {"most_flow", "flow", "of its working range"}};

/// Keys of [range].
inline constexpr LayoutKey range[] = {{"speeds", "list of speeds", "rising; for studies over many operating points"},
                                      {"rates", "list of rates", "rising"}};

}  // namespace libflow::layout_keys
