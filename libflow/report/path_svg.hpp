// SPDX-License-Identifier: MIT
/// @file
/// Pressure falling along the way from the supply to the row that gets most and the row that gets least.
#pragma once

#include <string>

#include <libflow/study/main_job.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// Total pressure after each part on the way, both rows in one picture. The line of the row that gets most is full with
/// round marks; the other is dashed with square ones.
[[nodiscard]] std::string path_svg(const Answer& answer, UnitSystem units);

}  // namespace libflow
