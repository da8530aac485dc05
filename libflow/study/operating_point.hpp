// SPDX-License-Identifier: MIT
/// @file
/// The operating point: the control's setting that gives the wanted rate, what the pump then does, what every row gets,
/// and how near every limit is. Where the rate cannot be reached: what can, and what stops it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <libflow/study/limits.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

/// A toolbar at work. SI.
struct OperatingPoint {
  Answer answer;         ///< at `setting`: every row, every part
  bool reached = false;  ///< the wanted total is delivered, to `rate_tolerance`
  bool held = false;     ///< the layout holds the control: nothing was searched
  std::string control;   ///< "pump speed", "supply pressure", "opening of section valve" ...; "none": as it stands
  std::string unit;      ///< of the setting: "Pa", or "1" for a share
  double setting = 0;    ///< of the control, SI
  Range settings;        ///< what the control can be; its end may be infinite
  double wanted = 0;     ///< total [m3/s]
  double delivered = 0;  ///< total [m3/s]
  std::string stop;      ///< where not reached: what stops it, in words; empty where reached
  std::optional<PumpDuty> duty;  ///< where the layout has a drive
  Limits limits;                 ///< least margin first

  static constexpr double rate_tolerance = 1e-6;  ///< of the wanted total [-]

  /// True when the rate is reached and no limit that stops it is broken.
  [[nodiscard]] bool runs() const {
    if (!reached) return false;
    const Limit* l = binding_limit(limits, true);
    return l == nullptr || !l->broken();
  }
};

/// The layout with its control held at a setting: the supply's pressure [Pa], or of its drive (toolbar/drive.hpp).
/// @throws InputError for a free-form layout whose supply is not held at a pressure
[[nodiscard]] Layout with_setting(Layout layout, double setting);

/// The answer with the control held at a setting, e.g. after a change that the operator does not correct.
/// @throws InputError, IllPosedError as main_job
[[nodiscard]] Answer at_setting(Layout layout, double setting);

/// Finds the operating point at the job's rate, speed and temperature. The control is the drive's; without a drive it
/// is the supply's pressure up to its limit (pressure_limit.hpp: job.pump_limit, or an assumption). A control that the
/// layout holds (drive.setting, job.pressure) stays where it is. A free-form layout that feeds no given flow is brought
/// to the rate by the part named as the control (operating_control.hpp); where none is named it is solved as it stands,
/// `held`, its control "none".
/// @throws InputError, IllPosedError as main_job; as plumbing_control; InputError for a control of a [toolbar]
[[nodiscard]] OperatingPoint operating_point(const Layout& layout, std::string_view control = {});

}  // namespace libflow
