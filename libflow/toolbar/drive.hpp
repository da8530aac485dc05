// SPDX-License-Identifier: MIT
/// @file
/// What pushes the liquid: tanks, suction line, pump, what returns to the tank, delivery line, and the one control that
/// is moved to reach the rate.
///
///     tanks - (own hoses) - suction strainer - suction hose - PUMP - meter - strainer - throttle, pulsed valve or
///       ^                                                      |     regulator - section valve - delivery hose - GAUGE
///       +--------- relief valve, bypass valve, agitation jet --+     and manifolds
///
/// Plain data; `add_drive` (toolbar/drive_network.hpp) turns it into places and parts.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <libflow/core/range.hpp>
#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/flow_meter.hpp>
#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/parts/pulsed_valve.hpp>
#include <libflow/parts/pump_curve.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/parts/strainer.hpp>
#include <libflow/parts/tank.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// A tank of a drive and how full it is.
struct DriveTank {
  std::string id{};                            ///< empty: "tank", or "tank 1", "tank 2" ... of several
  Tank tank{};                                 ///< shape and fittings
  Length level{};                              ///< of the liquid above its inside bottom
  Length height = from_si<Length>(0.0);        ///< of its inside bottom above the row outlets, on level ground
  Length ahead = from_si<Length>(0.0);         ///< in front of the manifolds (matters on a fore-aft slope)
  Length right = from_si<Length>(0.0);         ///< of the middle of the bar (matters on a side slope)
  Length line_length = from_si<Length>(0.0);   ///< its own hose to where the tanks are tied; 0: joined directly
  Length line_bore = from_si<Length>(0.0381);  ///< of the hose to where the tanks' lines join
};

/// A line of hose; length 0: joined directly.
struct DriveLine {
  Length length = from_si<Length>(0.0);           ///< of the hose; 0: none
  Length bore = from_si<Length>(0.0381);          ///< of the hose
  std::optional<Pressure> rating = std::nullopt;  ///< working pressure
};

/// The pump. A curve's or centrifugal pump's `speed`, a positive pump's `rpm` and a ground-driven pump's `displacement`
/// are those at a setting of 1; a ground-driven pump's ground speed is the job's.
using PumpChoice = std::variant<CentrifugalPump, PumpCurve, PositivePump, GroundDrivenPump>;

/// What is moved to reach the rate. The setting's unit and meaning:
enum class DriveControl {
  pump_speed,  ///< [-] of the pump's own speed (ground-driven: of its displacement, by gear or stroke)
  regulator,   ///< [Pa] pressure held behind a regulator in the delivery line
  relief,      ///< [Pa] set pressure of an adjustable relief valve that returns the rest to the tank
  bypass,      ///< [-] opening of a valve that returns liquid to the tank: more open, less to the rows
  throttle,    ///< [-] opening of a valve in the delivery line
  pulse        ///< [-] duty of a pulsed valve in the delivery line
};

/// What pushes the liquid, from the tank to the gauge.
struct Drive {
  std::vector<DriveTank> tanks{};  ///< at least one; what returns enters the first, at its outlet's pressure
  DriveLine suction{};             ///< from the tanks to the pump
  std::optional<Strainer> suction_strainer = std::nullopt;  ///< ahead of the pump
  PumpChoice pump{};                                        ///< what pushes
  Length pump_height = from_si<Length>(0.0);                ///< above the row outlets, on level ground

  std::optional<ReliefValve> relief = std::nullopt;  ///< from behind the pump back to the tank
  std::optional<Valve> bypass = std::nullopt;        ///< back to the tank
  std::optional<Orifice> agitation = std::nullopt;   ///< jet back into the tank

  std::optional<FlowMeter> meter = std::nullopt;              ///< behind the pump
  std::optional<Strainer> line_strainer = std::nullopt;       ///< behind the pump
  std::optional<Valve> throttle = std::nullopt;               ///< behind the pump
  std::optional<PulsedValve> pulse = std::nullopt;            ///< behind the pump
  std::optional<PressureRegulator> regulator = std::nullopt;  ///< behind the pump
  std::optional<Valve> section_valve = std::nullopt;          ///< last before the rows
  DriveLine delivery{.bore = from_si<Length>(0.0254)};        ///< from the pump to the rows

  DriveControl control = DriveControl::pump_speed;  ///< what is moved to reach the rate
  std::optional<double> least = std::nullopt;       ///< of the setting, SI; empty: see setting_range
  std::optional<double> most = std::nullopt;        ///< of the setting, SI; empty: see setting_range
  std::optional<double> setting = std::nullopt;     ///< held here, SI; empty: what gives the wanted rate
  /// Lowest total gauge pressure allowed at the pump's inlet, e.g. -20 kPa (a suction hose that may collapse).
  std::optional<Pressure> suction_limit = std::nullopt;
  /// Velocities above these are advised against: 2 to 3 ft/s in suction, 5 to 6 ft/s in delivery hose (extension and
  /// pump texts, from memory).
  Speed suction_velocity = from_si<Speed>(3.0 * 0.3048);
  /// Highest velocity of good practice (common practice, no source).
  Speed delivery_velocity = from_si<Speed>(6.0 * 0.3048);
};

/// What a drive may ask for, SI, beyond what its parts allow.
namespace drive_limits {
inline constexpr Range offset{-50.0, 50.0};          ///< [m], heights and set-backs
inline constexpr Range line{0.0, 100.0};             ///< [m]
inline constexpr Range velocity{0.01, 30.0};         ///< [m/s]
inline constexpr Range suction_pressure{-1e5, 1e6};  ///< [Pa]
inline constexpr Range pump_speed{0.05, 3.0};        ///< [-]
inline constexpr Range pressure{1.0, 5e6};           ///< [Pa], of a regulator or an adjustable relief valve
inline constexpr Range bypass{0.0, 1.0};             ///< [-]
inline constexpr Range throttle{0.01, 1.0};          ///< [-]
inline constexpr Range duty{0.01, 1.0};              ///< [-]
inline constexpr std::size_t tanks = 20;             ///< at most
}  // namespace drive_limits

/// The control in a person's words, e.g. "pump speed".
[[nodiscard]] constexpr std::string_view name_of(DriveControl control) {
  switch (control) {
    case DriveControl::pump_speed:
      return "pump speed";
    case DriveControl::regulator:
      return "regulator";
    case DriveControl::relief:
      return "relief setting";
    case DriveControl::bypass:
      return "bypass opening";
    case DriveControl::throttle:
      return "throttle opening";
    case DriveControl::pulse:
      return "duty";
  }
  return "control";
}
/// True where the setting is a pressure, false where it is a share.
[[nodiscard]] constexpr bool is_pressure(DriveControl control) {
  return control == DriveControl::regulator || control == DriveControl::relief;
}
/// What a setting can be at all, SI.
[[nodiscard]] constexpr Range allowed_settings(DriveControl control) {
  switch (control) {
    case DriveControl::pump_speed:
      return drive_limits::pump_speed;
    case DriveControl::bypass:
      return drive_limits::bypass;
    case DriveControl::throttle:
      return drive_limits::throttle;
    case DriveControl::pulse:
      return drive_limits::duty;
    default:
      return drive_limits::pressure;
  }
}
/// What the setting of this drive can be, SI: as given, otherwise pump speed 5 to 100 %, regulator and relief 1 Pa to
/// 5 MPa (the relief valve: to its own set pressure), bypass 0 to 100 %, throttle 1 to 100 %, duty from the pulsed
/// valve's least usable one (or what its opening lag takes) to 100 %.
[[nodiscard]] Range setting_range(const Drive& d);

/// The drive with its control at a setting. @throws InputError for a part that the control needs and that is not there
[[nodiscard]] Drive with_setting(Drive d, double setting);

/// Its own name, or "tank 1", "tank 2" ...
/// @param k  < number of tanks
[[nodiscard]] std::string tank_name(const Drive& d, std::size_t k);

/// Checks a drive but for what its parts check themselves. @throws InputError
void check(const Drive& d);

}  // namespace libflow
