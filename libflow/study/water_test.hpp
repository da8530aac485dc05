// SPDX-License-Identifier: MIT
/// @file
/// From a test with water to the product: the square-root rule, and what the plumbing really does.
#pragma once

#include <libflow/toolbar.hpp>

namespace libflow {

/// Flow of water over flow of product at one pressure through a sharp orifice at high Reynolds number:
/// sqrt(product density / water density). A rate of product is set as the rate times this on charts made for water.
/// Sources: University of Nebraska-Lincoln CropWatch 2016; P. Sumner, University of Georgia; both with tables.
/// It knows nothing of viscosity.
[[nodiscard]] double square_root_factor(Density product, Density water);

/// A bar set with water by the square-root rule, then run with the product. SI.
struct WaterTest {
  double water_temperature = 293.15;  ///< [K]
  double rule_factor = 1;             ///< water's flow over the product's by the rule [-]
  double factor = 1;                  ///< the same by the plumbing, at one pressure [-]
  double water_rate = 0;              ///< to be caught with water so that, by the rule, the product's is right [m3/m2]
  double pressure = 0;                ///< that this takes with water [Pa gauge]
  double product_rate = 0;            ///< that the product then has at this pressure [m3/m2]
  double product_flow = 0;            ///< [m3/s]
  double error = 0;                   ///< product_rate over what was wanted, less one [-]
  double right_pressure = 0;          ///< that the product needs for what was wanted [Pa gauge]
  double water_cv = 0;                ///< of the rows, with water [-]
  double product_cv = 0;              ///< of the rows, with the product at that pressure [-]
  bool same_setting = false;          ///< the supply is no rate controller: both run at the layout's own setting
  bool fails = false;                 ///< |error| is more than the job's tolerance
};

/// @param plumbing  of the layout, with its job's flow given where it is fed; several fed places change in step
/// @param product   the job's liquid as it is in the plumbing
/// @param water     as it is in the test
/// @throws IllPosedError where one of the two has no answer, or no flow of product has the pressure of the test
[[nodiscard]] WaterTest water_test(Plumbing plumbing, const Job& job, const LiquidState& product,
                                   const LiquidState& water);

}  // namespace libflow
