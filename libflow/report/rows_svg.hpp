// SPDX-License-Identifier: MIT
/// @file
/// The rows of a bar as a picture: how far each is from the mean, against the tolerance.
#pragma once

#include <string>

#include <libflow/study/main_job.hpp>

namespace libflow {

/// One line a row, from the left end of the bar downwards. A row outside the tolerance is hatched and says LOW or HIGH.
[[nodiscard]] std::string rows_svg(const Answer& answer);

}  // namespace libflow
