// SPDX-License-Identifier: MIT
/// @file
/// The main job: is this layout even at this setting, and if not, why?
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/study/as_built.hpp>
#include <libflow/toolbar.hpp>

namespace libflow {

/// The verdict if the product's viscosity were at one end of its band. SI.
struct ViscosityEnd {
  double viscosity = 0;        ///< at the job's temperature [Pa s]
  bool upper = false;          ///< the upper end of the band
  bool solved = false;         ///< there is an answer
  bool even = false;           ///< every counted row is within the tolerance
  double cv = 0;               ///< of the rates [-]
  int worst_row = 0;           ///< the row furthest from the mean; 0: none
  double worst_deviation = 0;  ///< of that row, signed [-]
  double pressure = 0;         ///< at the gauge [Pa]
  std::string stop{};          ///< what keeps it from the wanted rate, or why there is no answer; empty: nothing does
};

/// A layout and everything that was found out about it.
struct Answer {
  Layout layout;       ///< with its drive's setting, where it has a drive
  Plumbing plumbing;   ///< its network
  LiquidState liquid;  ///< at its temperature
  Solution solution;   ///< of the network
  Evenness evenness;   ///< filled when solution.usable()
  /// The same layout at the ends of the viscosity's band (LiquidState::viscosity_low, viscosity_high), the lower end
  /// first, the control brought to the rate anew; empty where no band is known or nothing was solved.
  std::vector<ViscosityEnd> viscosity_band{};
  /// How even it is with its tolerances, to first order; empty as as_built() says, or where nothing was solved.
  std::optional<AsBuilt> built{};
};

/// What main_job and operating_point say of a rate that is not reached.
/// @param stop  the limit that stops it
[[nodiscard]] Caution rate_not_reached(std::string_view stop, double delivered, double wanted);

/// Solves a layout at its job's setting and judges its rows. A drive whose control is free is brought to the wanted
/// rate; where it cannot reach that, to the end of its range that comes nearest, with the caution "rate-not-reached".
/// Where the product's viscosity has a band, the verdict is found at its ends too; where the layout has tolerances, how
/// even it is as built.
/// @throws InputError for a layout that cannot be, IllPosedError for plumbing that cannot have an answer
[[nodiscard]] Answer main_job(Layout layout);

/// The verdict at the ends of the viscosity's band: a solution each, without causes.
/// @throws InputError for a layout that cannot be
[[nodiscard]] std::vector<ViscosityEnd> over_viscosity_band(const Layout& layout);

namespace main_job_detail {

/// main_job without the ends of the viscosity's band, and not as built.
Answer at_most_likely(Layout layout);

}  // namespace main_job_detail

}  // namespace libflow
