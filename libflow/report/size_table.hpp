// SPDX-License-Identifier: MIT
/// @file
/// The choices that fit, one a line.
#pragma once

#include <cstddef>
#include <string>

#include <libflow/study/size.hpp>
#include <libflow/units/system.hpp>

namespace libflow::report_detail {

/// "13.40 psi to 45.08 psi", or one of them where both read alike.
std::string from_to(const std::string& low, const std::string& high, const char* between = " to ");

/// SizeAnswer::listed(), best first.
std::string ranked_table(const SizeAnswer& a, UnitSystem u);

/// What the columns of the ranked table mean.
std::string ranked_table_note(const SizeAnswer& a, std::size_t width);

}  // namespace libflow::report_detail
