// SPDX-License-Identifier: MIT
/// @file
/// An operating point as text for people: the setting, what the pump does, the room to every limit, the rows.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/operating_point.hpp>

namespace libflow {

/// "REACHED: pump speed 43.3 %, 19.4 psi at the gauge, gives 5.00 gal/ac ...; the nearest limit is ..."
[[nodiscard]] std::string operating_sentence(const OperatingPoint& p, UnitSystem u);

/// At most TextOptions::width columns wide where the names allow it.
[[nodiscard]] std::string operating_point_text(const OperatingPoint& p, const TextOptions& options = {});

}  // namespace libflow
