// SPDX-License-Identifier: MIT
/// @file
/// The toolbar drawn to scale, from behind and from above, with hoses, manifolds, tanks and each row's deviation.
#pragma once

#include <string>

#include <libflow/study/main_job.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// Two pictures of a plain bar; empty for a free-form layout, which says nothing of where its parts are. Across the bar
/// lengths are to scale; heights and set-backs too, but never less than can be seen. Tanks are to scale, their heights
/// drawn from the bar; one far ahead is drawn nearer, which its words then say. The pump is drawn aside of the middle,
/// with its lines from the tanks and to the manifolds: where it stands is not known.
[[nodiscard]] std::string toolbar_svg(const Answer& answer, UnitSystem units);

}  // namespace libflow
