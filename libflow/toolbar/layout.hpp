// SPDX-License-Identifier: MIT
/// @file
/// What a person says about a toolbar: rows, manifolds, hoses, metering, and the job it has to do.
///
/// Plain data with every default stated once. `build_network` (toolbar/build.hpp) turns it into a Network; the
/// layout file (file/layout_file.hpp) and Python fill the same structs.
///
/// Directions: looking forward, x runs along the bar from its centre, right is positive; rows are numbered from 1 at
/// the left end. Side slope is positive when the right end is higher; fore-aft slope is positive when the front is
/// higher.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <libflow/core/range.hpp>
#include <libflow/fluid/catalogue.hpp>
#include <libflow/toolbar/drive.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <libflow/toolbar/tolerances.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// What a layout may ask for, SI. Wide: they keep out slips of the pen, not unusual machines.
namespace layout_limits {
inline constexpr Range rate{1e-9, 1e-2};           ///< [m3 per m2], 0.01 to 100,000 L/ha
inline constexpr Range speed{0.01, 30.0};          ///< [m/s]
inline constexpr Range tolerance{1e-4, 1.0};       ///< [-]
inline constexpr Range pressure{1.0, 1e8};         ///< [Pa gauge]
inline constexpr Range turn_radius{0.1, 1e5};      ///< [m], either side
inline constexpr int rows = 200;                   ///< at most
inline constexpr Range spacing{0.05, 10.0};        ///< [m], of rows, and the width a row covers
inline constexpr Range slope{-0.7, 0.7};           ///< [rad]
inline constexpr Range offset{-50.0, 50.0};        ///< [m], heights and set-backs
inline constexpr Range not_negative{0.0, 100.0};   ///< [m], slack and feed hoses
inline constexpr Range port_spacing{1e-3, 10.0};   ///< [m]
inline constexpr Range position{-1000.0, 1000.0};  ///< [m], of a manifold
inline constexpr Range hose_modulus{1e5, 1e12};    ///< [Pa], of elasticity: soft rubber to steel
}  // namespace layout_limits

/// A round hole, known by its bore.
struct OrificeByBore {
  Length bore{};                                               ///< of the hole
  Length thickness = from_si<Length>(0.0);                     ///< 0: sharp plate; otherwise the length of the hole
  std::optional<double> discharge_coefficient = std::nullopt;  ///< at high Reynolds number; default by shape
};
/// A hole known by what it passes: `flow` of water at 20 C at `pressure` across it.
struct OrificeByRating {
  Flow flow{};          ///< water, 20 C
  Pressure pressure{};  ///< lost at that flow
};
/// By its bore, or by one point of its rating.
using OrificeChoice = std::variant<OrificeByBore, OrificeByRating>;

/// Spring check valve as bought: the pressure that cracks it, and what it loses beyond that at a rated water flow, or
/// the pressure at which it is fully open and passes that flow.
struct CheckValveChoice {
  Pressure crack{};       ///< >= 0
  Flow rated_flow{};      ///< water, 20 C
  Pressure rated_loss{};  ///< pressure lost at rated_flow beyond the crack pressure, > 0; not used with full_open
  std::optional<Pressure> full_open = std::nullopt;  ///< across the valve that is just fully open, at rated_flow
  Pressure crack_spread = from_si<Pressure>(0.0);    ///< valves of one box crack within this on either side
};

/// How the hoses from the manifold ports to the rows are cut.
struct HoseSchedule {
  /// How lengths are given.
  enum class Kind {
    same,     ///< one length for all rows
    listed,   ///< one length a row, in row order
    shortest  ///< each hose as short as its run along the bar allows, plus `extra`
  };
  Kind kind = Kind::same;         ///< how lengths are given
  Length length{};                ///< same
  std::vector<Length> lengths{};  ///< listed
  Length extra{};                 ///< shortest: drop to the row and slack, added to every run
};

/// Where the metering (check valve and orifice) sits on each row's hose.
enum class MeteringPlace {
  outlet,   ///< at the row end: the hose is under pressure and full
  manifold  ///< at the manifold port, upstream of the hose
};

/// Where liquid enters a manifold.
enum class ManifoldFeed { middle, left, right, both_ends };

/// A bar with one port a row. Ports are in row order, `port_spacing` apart, centred on `position`.
struct Manifold {
  std::string id{};                               ///< empty: "manifold 1", "manifold 2", ...
  int first_row = 0;                              ///< 1-based, inclusive; 0: first row of the toolbar
  int last_row = 0;                               ///< 1-based, inclusive; 0: last row of the toolbar
  std::optional<Length> position = std::nullopt;  ///< x of its middle; empty: the middle of its rows
  Length bore = from_si<Length>(0.0254);          ///< inside diameter of the bar
  Length port_spacing = from_si<Length>(0.05);    ///< between neighbouring ports
  ManifoldFeed feed = ManifoldFeed::middle;       ///< where liquid enters
  Length feed_length = from_si<Length>(0.0);      ///< hose from the supply to each feed point; 0: joined directly
  Length feed_bore = from_si<Length>(0.0254);     ///< inside diameter of that hose
  Length height = from_si<Length>(0.0);           ///< of the ports above the row outlets
  /// True: ports take the loss of a tee from the rows and give the regain of its run to the bar beyond, and a feed hose
  /// amid the bar parts in a tee (junctions.hpp). A cross (feed and row at one port) and a feed wider than the bar lose
  /// nothing, for want of a published law, and are cautioned where that counts.
  bool junction_losses = false;
};

/// What one row has that the others do not. Only what is set differs.
struct RowChange {
  int row = 0;                                          ///< 1-based
  std::optional<Length> hose_length = std::nullopt;     ///< empty: as the toolbar's
  std::optional<Length> hose_bore = std::nullopt;       ///< empty: as the toolbar's
  std::optional<OrificeChoice> orifice = std::nullopt;  ///< empty: as the toolbar's
  std::optional<Pressure> crack = std::nullopt;         ///< empty: as the toolbar's
  std::optional<Length> width = std::nullopt;           ///< field width this row covers
  std::optional<Length> height = std::nullopt;          ///< of its outlet above the other outlets
  bool shut = false;                                    ///< the row is valved off: no part of the plumbing
};

/// The plumbing of a bar.
struct Toolbar {
  int rows = 0;                                ///< 1 to 200
  Length spacing{};                            ///< > 0
  Angle side_slope = from_si<Angle>(0.0);      ///< + right end higher
  Angle fore_aft_slope = from_si<Angle>(0.0);  ///< + front higher
  Length outlets_behind =
      from_si<Length>(0.0);           ///< outlets this far behind the manifolds (matters on a fore-aft slope)
  std::vector<Manifold> manifolds{};  ///< at least one; together they feed every row once
  HoseSchedule hose{};                ///< how the hoses are cut
  Length hose_bore{};                 ///< > 0
  Length hose_roughness = from_si<Length>(1.5e-6);     ///< drawn plastic or rubber tube (Moody's drawn tubing)
  std::optional<Pressure> hose_rating = std::nullopt;  ///< working pressure; a caution when exceeded
  std::optional<Length> hose_wall = std::nullopt;  ///< wall thickness; with hose_modulus: how a row's hose stretches
  std::optional<Pressure> hose_modulus = std::nullopt;         ///< of elasticity of that wall
  int outlets_per_row = 1;                                     ///< 1 or 2, each with its own check valve and orifice
  MeteringPlace metering = MeteringPlace::outlet;              ///< where check valve and orifice sit
  std::optional<OrificeChoice> orifice = std::nullopt;         ///< empty: none, the hose itself meters
  std::optional<CheckValveChoice> check_valve = std::nullopt;  ///< empty: none
  Length outlet_bore = from_si<Length>(0.0);  ///< open end of each outlet; 0: the jet leaves the orifice itself
                                              ///< (metering at the outlet) or the hose bore (at the manifold)
  Length outlet_fall = from_si<Length>(0.0);  ///< each outlet is a tube of outlet_bore that hangs down this far
  bool outlet_vented = false;                 ///< that tube takes in air at its head: it never pulls (VentedTube)
  std::vector<RowChange> row_changes{};       ///< what single rows have of their own
  /// Drop across an orifice below which it meters badly; the user's own; empty: none.
  std::optional<Pressure> orifice_least = std::nullopt;
  /// Drop across an orifice above which it wears or atomises; the user's own; empty: none.
  std::optional<Pressure> orifice_most = std::nullopt;
  std::optional<Drive> drive = std::nullopt;  ///< what pushes the liquid; empty: an ideal supply
};

/// What the toolbar has to do.
struct Job {
  Liquid liquid{};                                         ///< the product
  Temperature temperature = from_si<Temperature>(293.15);  ///< of the product
  AreaRate rate{};                                         ///< wanted rate per area, > 0
  Speed speed{};                                           ///< ground speed at the bar's centre, > 0
  std::optional<Pressure> pressure =
      std::nullopt;  ///< set: supply held at this gauge pressure; empty: the supply gives the wanted total
  std::optional<Length> turn_radius =
      std::nullopt;         ///< of the bar's centre; + turning left (right rows faster); empty: straight
  double tolerance = 0.05;  ///< each row within this fraction of the mean (common practice, no source)
  std::optional<Pressure> pump_limit = std::nullopt;  ///< highest pressure the supply can give; a caution when exceeded
};

/// Over what a toolbar works, for studies of more than one operating point. Each list rising, or empty.
struct WorkingRange {
  std::vector<Speed> speeds{};    ///< ground speeds at the bar's centre
  std::vector<AreaRate> rates{};  ///< wanted rates per area
};

/// A layout as a whole: what is plumbed and what it has to do.
struct Layout {
  std::string name{};                          ///< for reports
  UnitSystem units = UnitSystem::us;           ///< for what a person reads
  Job job{};                                   ///< what it has to do
  std::variant<Toolbar, Plumbing> plumbing{};  ///< a plain bar, or places and parts one by one
  WorkingRange range{};                        ///< empty: the job's speed and rate only
  std::vector<Tolerance> tolerances{};         ///< what may differ as built and at work; for the tolerance study
};

}  // namespace libflow
