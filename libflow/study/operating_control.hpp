// SPDX-License-Identifier: MIT
/// @file
/// A part of a free-form layout as the control that is moved to reach the rate: a pump's speed, a valve's opening, a
/// pulsed valve's duty, what a regulator or a relief valve is set to; or the pressure of a supply.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <libflow/core/range.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// One control of a plumbing. SI.
struct PlumbingControl {
  std::string id;       ///< of the part, or of the supply
  std::string name;     ///< "speed of pump", "opening of section valve" ...
  std::string unit;     ///< of the setting: "Pa", or "1" for a share
  Range settings;       ///< that it can take
  double present = 0;   ///< its setting in the layout, SI
  bool supply = false;  ///< it is a place's pressure
  double full_rpm = 0;  ///< of a positive pump: at setting 1 [1/min]
};

/// The control that a part or a supply makes. Pumps go from 5 % of their speed to full speed (or to what the layout
/// gives, where that is more), valves from 1 % open, pulsed valves from their least usable duty, regulators from 1 Pa
/// to 5 MPa, relief valves from 1 Pa to what they are set to, supplies from 0 to `most`.
/// @param most  highest pressure of a supply [Pa]
/// @throws InputError for an id that is neither, with the nearest; for a part that nothing can be set on; a tank
[[nodiscard]] PlumbingControl plumbing_control(const Plumbing& plumbing, std::string_view id, double most);

/// The plumbing with the control at a setting.
/// @throws InputError as the part's own check
void set_control(Plumbing& plumbing, const PlumbingControl& control, double setting);

}  // namespace libflow
