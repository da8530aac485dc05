// SPDX-License-Identifier: MIT
/// @file
/// Every limit of a toolbar at one operating point, as data: how near it is and what it means to break it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/fluid/liquid.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

/// What it means to break a limit.
enum class LimitKind {
  stops,   ///< it cannot be run: not enough, nothing from a row, danger
  wanted,  ///< it runs, but not as asked: uneven, orifices outside their window, a meter outside its range
  advised  ///< good practice only
};

/// One limit. SI.
struct Limit {
  std::string name;     ///< fixed words, e.g. "hose rating"
  std::string subject;  ///< the part or row that is nearest to it; may be empty
  double value = 0;     ///< in `unit`
  double limit = 0;     ///< in `unit`
  std::string unit;     ///< "Pa", "m3/s", "m/s", "m"; "1" for a share
  bool upper = true;    ///< true: the value must not be above the limit; false: not below
  double margin = 0;    ///< room left as a share of the limit (of a control: of its range); negative: broken [-]
  LimitKind kind = LimitKind::advised;  ///< what follows when it is broken
  std::string source;                   ///< where the limit comes from

  /// True when there is no room left.
  [[nodiscard]] bool broken() const { return margin < 0.0; }
};
/// All limits of one answer.
using Limits = std::vector<Limit>;

/// The limit with the least margin, or nullptr where there is none. @param stopping  only among those that stop it
[[nodiscard]] const Limit* binding_limit(const Limits& limits, bool stopping = false);

/// A pump at work. SI.
struct PumpDuty {
  double flow = 0;                               ///< through it [m3/s]
  double gain = 0;                               ///< total pressure behind it less ahead of it [Pa]
  double inlet = 0, outlet = 0;                  ///< total gauge pressure [Pa]
  double suction_available = 0;                  ///< net positive suction head [m]
  std::optional<double> suction_required{};      ///< [m], where its curve says so
  double hydraulic_power = 0;                    ///< flow times gain [W]
  std::optional<double> shaft_power{};           ///< [W], where its efficiency or power is known
  double relief = 0, bypass = 0, agitation = 0;  ///< flows back to the tank [m3/s]
  /// How much more it could send to the rows at this gauge pressure with its control at the most, over what it sends
  /// now [-].
  double reserve = 0;
};

namespace limits_detail {
inline constexpr double atmosphere = 101325.0;

}  // namespace limits_detail

/// What limits are looked up in. The rows and the drive may be one network or two.
struct LimitView {
  const Toolbar* toolbar = nullptr;          ///< nullptr: free form
  const Job& job;                            ///< what it has to do
  const LiquidState& liquid;                 ///< at its temperature
  const Plumbing& rows;                      ///< network of the rows
  const Solution& rows_solution;             ///< of that network
  const Evenness& evenness;                  ///< of the rows
  const Drive* drive = nullptr;              ///< at its setting; nullptr: an ideal supply
  const Plumbing* drive_plumbing = nullptr;  ///< network of the drive
  const Solution* drive_solution = nullptr;  ///< of that network
  const PumpDuty* duty = nullptr;            ///< of its pump
};

/// Every limit but the control's own range, in no order.
[[nodiscard]] Limits find_limits(const LimitView& v);

}  // namespace libflow
