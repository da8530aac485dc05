// SPDX-License-Identifier: MIT
/// @file
/// Words for what sizing found over the band of the product's viscosity.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/study/size.hpp>
#include <libflow/units/system.hpp>

namespace libflow::report_detail {

/// "at a price higher by 3.2 %", "with more hose, by 3.2 %", "at the same price": one of `fits` against the cheapest.
std::string dearer_text(const SizeAnswer& a, std::size_t k);

/// "at 226 cP it breaks: gauge pressure, it rises to ...". @param band  not empty
std::string band_breaks(const std::vector<SizeBandEnd>& band, UnitSystem u);

/// Whether the recommended one holds wherever in its band the viscosity is, and which does where it does not.
/// @param a  its band not empty
std::string band_text(const SizeAnswer& a, UnitSystem u);

}  // namespace libflow::report_detail
