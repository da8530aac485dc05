// SPDX-License-Identifier: MIT
/// @file
/// What differs from one scenario of a toolbar to the next, as columns of numbers.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include <Eigen/Core>

#include <libflow/core/range.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

/// A number of a part that a scenario can change.
enum class PartQuantity {
  length,                ///< hose [m]
  bore,                  ///< hose, orifice, open end, passage of a check valve [m]
  roughness,             ///< hose [m]
  crack,                 ///< check valve [Pa]
  discharge_coefficient  ///< orifice, at high Reynolds number [-]
};

/// One number of one part in every scenario.
struct PartColumn {
  Network::PartIndex part = 0;                 ///< of the plumbing's network
  PartQuantity quantity = PartQuantity::bore;  ///< which number of it
  Eigen::ArrayXd values{};                     ///< by scenario, SI
};

/// Many scenarios of one layout: a column has one number a scenario, a table one a scenario and row (scenario x row).
/// Empty: as the layout and its job have it. SI throughout.
///
///     Scenarios s{.count = 1000};
///     s.crack = Eigen::ArrayXXd::Constant(1000, 16, 27579.0);
///     s.crack.col(3) = drawn_for_row_4;
struct Scenarios {
  std::size_t count = 0;  ///< number of scenarios

  Eigen::ArrayXd speed{};           ///< of the bar's centre [m/s]
  Eigen::ArrayXd rate{};            ///< wanted rate per area [m3 per m2]
  Eigen::ArrayXd pressure{};        ///< of the supply [Pa gauge]; only where the job's supply is held at a pressure
  Eigen::ArrayXd temperature{};     ///< of the job's liquid [K]
  Eigen::ArrayXd density{};         ///< in place of the liquid's own [kg/m3]
  Eigen::ArrayXd viscosity{};       ///< in place of the liquid's own [Pa s]
  Eigen::ArrayXd side_slope{};      ///< + right end higher [rad]; toolbars only
  Eigen::ArrayXd fore_aft_slope{};  ///< + front higher [rad]; toolbars only

  Eigen::ArrayXXd hose_length{};  ///< of the row's hose [m]
  /// Of the row's hose, and of its open end where that is the hose's own [m]. The tee at its port keeps the layout's
  /// bore: it is a fitting of its own. A bar plumbed with other hoses and their tees is another layout.
  Eigen::ArrayXXd hose_bore{};
  Eigen::ArrayXXd orifice_bore{};  ///< of all the row's orifices [m]
  Eigen::ArrayXXd crack{};         ///< of all the row's check valves [Pa]

  std::vector<PartColumn> parts{};  ///< any other; a part's number is given once, here or above
};

namespace scenarios_detail {

/// The part with another number, checked. @throws InputError when it has no such number or the value is not allowed
Part changed(const Part& part, PartQuantity q, double value, std::string_view where);

/// A column of the inputs bound to the part that it changes.
struct Binding {
  Network::PartIndex part;
  PartQuantity quantity;
  const double* values;  ///< by scenario
};

/// @throws InputError when a column has another length than there are scenarios, or a value is not allowed
void check_column(std::string_view what, const Eigen::ArrayXd& column, std::size_t count, Range range,
                  std::string_view unit);

/// Every column of the inputs with its part; sizes checked.
/// @param ends_follow  open ends of rows have the bore of the row's hose
std::vector<Binding> bind(const Scenarios& s, const Plumbing& plumbing, bool ends_follow);

/// A part as a scenario has it. @throws InputError naming scenario and part
Part part_of_scenario(const Network& network, Network::PartIndex i, const std::vector<Binding>& bound,
                      std::size_t scenario);

/// Holds every value to what its part allows. What a part allows of one number is an interval, so only the least and
/// the largest of each are asked; where one of those is refused, or a hose's bore and roughness both change, all are.
/// @throws InputError naming scenario, part and field
void check_parts(const Network& network, const std::vector<Binding>& bound, std::size_t count);

}  // namespace scenarios_detail

}  // namespace libflow
