// SPDX-License-Identifier: MIT
/// @file
/// Layouts compared over operating points, as text for people.
#pragma once

#include <string>
#include <vector>

#include <libflow/report/words.hpp>
#include <libflow/study/compare_points.hpp>

namespace libflow {

/// "'B' is the better one: even at 15 of 15 points against 3; what makes the difference: hose lengths (at 5 gal/ac, 3
/// mph)."
[[nodiscard]] std::string compare_points_sentence(const PointComparison& c, UnitSystem u);

/// Units: the first layout's.
[[nodiscard]] std::string compare_points_text(const PointComparison& c, const TextOptions& options = {},
                                              const std::vector<std::string>& files = {});

}  // namespace libflow
