// SPDX-License-Identifier: MIT
/// @file
/// Results as comma-separated values (RFC 4180): a heading with units, then one line a row.
#pragma once

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// A field as RFC 4180 has it: in double quotes where it holds a comma, a quote or a line end.
[[nodiscard]] std::string csv_field(std::string_view text);

namespace file_detail {

/// Seven digits; empty where there is no finite number.
std::string csv_number(double value);

template <class Q>
std::string csv_quantity(double value, UnitSystem units) {
  return std::isfinite(value) ? csv_number(value_in(from_si<Q>(value), units)) : std::string();
}

std::string csv_line(const std::vector<std::string>& fields);

}  // namespace file_detail

/// One line a row; only the heading where the solution is not usable.
[[nodiscard]] std::string results_to_csv(const Answer& answer, UnitSystem units);

/// All layouts one below the other, told apart by the first column.
[[nodiscard]] std::string comparison_to_csv(const Comparison& comparison, UnitSystem units);

}  // namespace libflow
