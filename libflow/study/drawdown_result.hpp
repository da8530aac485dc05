// SPDX-License-Identifier: MIT
/// @file
/// What a drawdown is asked and what it answers (study/drawdown.hpp).
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include <libflow/toolbar.hpp>

namespace libflow {

/// What is asked.
struct DrawdownOptions {
  /// A drive's free control is moved all the time so that the rate is held; false: found once at the beginning, then
  /// left alone. Without a drive, or with a control that the layout holds, nothing moves.
  bool hold_rate = true;
  bool from_full = true;     ///< every tank full at the beginning; false: at the layout's levels
  std::size_t samples = 20;  ///< equal shares of the usable liquid, 2 to 10,000; events are sampled besides
  double least_flow = 0.01;  ///< the fill has ended when the rows get less than this share of the wanted flow, 0 to 0.9
  Time longest = from_si<Time>(48.0 * 3600.0);  ///< gives up after this, 1 s to 1 year
  double tolerance = 1e-8;                      ///< of the integration, relative, 1e-12 to 1e-3
};

/// What can happen on the way.
enum class DrawdownEventKind { tank_empty, valve_shut, valve_open, overflow_begins };
/// Why it ended.
enum class DrawdownEnd {
  all_empty,   ///< every tank is down to its lowest level
  flow_faded,  ///< the rows get less than options.least_flow of what is wanted
  time_limit,
  too_many_events,  ///< valves chatter: something swings that this quasi-steady study cannot follow
  stopped           ///< by the user
};

/// What happened at one moment.
struct DrawdownEvent {
  DrawdownEventKind kind = DrawdownEventKind::tank_empty;  ///< what happened
  double time = 0;                                         ///< [s]
  double area = 0;                                         ///< done by then [m2]
  std::string subject{};                                   ///< the tank or the part
};

/// The state at one moment. SI.
struct DrawdownSample {
  double time = 0;                                               ///< [s]
  double area = 0;                                               ///< [m2]
  double share_left = 1;                                         ///< of the liquid that was usable at the beginning [-]
  std::vector<double> volume;                                    ///< by tank [m3]
  std::vector<double> level;                                     ///< by tank, above its inside bottom [m]
  double mass = 0;                                               ///< of the liquid in all tanks [kg]
  double supply_pressure = 0;                                    ///< where the gauge stands, total [Pa]
  double pump_inlet = std::numeric_limits<double>::quiet_NaN();  ///< total gauge pressure [Pa]; NaN: no drive
  double total_flow = 0;                                         ///< of the rows [m3/s]
  double mean_rate = 0;                                          ///< of the rows [m3/m2]
  double setting = std::numeric_limits<double>::quiet_NaN();     ///< of the control, SI; NaN: none that moves
  double cv = 0;                                                 ///< [-]
  double worst = 0;                                              ///< deviation of the row furthest from the mean [-]
  int worst_row = 0;                                             ///< 1-based; 0: none
  bool even = false;                                             ///< every row within the job's tolerance of the mean
};

/// One tank over the fill. SI.
struct DrawdownTank {
  std::string id{};                                 ///< of the tank
  double capacity = 0;                              ///< [m3]
  double start = 0;                                 ///< volume [m3]
  double end = 0;                                   ///< volume [m3]
  double unusable = 0;                              ///< below its lowest level [m3]
  std::optional<double> empty_time = std::nullopt;  ///< [s]
};

/// A fill. SI.
struct Drawdown {
  std::string name{};                        ///< of the layout
  UnitSystem units = UnitSystem::us;         ///< in which it is shown
  Job job{};                                 ///< with the product
  LiquidState liquid;                        ///< at its temperature
  DrawdownOptions options{};                 ///< as asked
  std::vector<DrawdownTank> tanks;           ///< one by one
  std::vector<DrawdownSample> samples;       ///< in order of time
  std::vector<DrawdownEvent> events;         ///< in order of time
  DrawdownEnd end = DrawdownEnd::all_empty;  ///< why it ended
  bool complete = true;                      ///< false: stopped, or given up, before the end of the fill
  double time = 0;                           ///< of the whole [s]
  double area = 0;                           ///< [m2]
  std::optional<std::size_t> first_empty{};  ///< which tank
  double air_time = 0, air_area = 0;         ///< until then [s], [m2]; the whole where no tank runs empty
  std::vector<double> delivered;             ///< by row, in the order of the plumbing's rows [m3]
  double elsewhere = 0;                      ///< left the network other than by rows, less what others brought [m3]
  double spilled = 0;                        ///< over the brim of a full tank [m3]
  double lowest_rate = 0, highest_rate = 0;  ///< mean rate over the samples [m3/m2]
  double highest_cv = 0;                     ///< over the samples [-]
  Cautions cautions;                         ///< what a person should know
};

}  // namespace libflow
