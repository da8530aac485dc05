// SPDX-License-Identifier: MIT
/// @file
/// Layouts side by side as text for people: which is evener, by how much, what decides it, row by row.
#pragma once

#include <cstddef>
#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/compare.hpp>

namespace libflow {

namespace report_detail {

/// Layouts are A, B, C ... in tables; more than 26 go on with numbers.
std::string letter(std::size_t i);

/// The layouts from `first` on that one table holds.
inline constexpr std::size_t layouts_in_a_table = 4;

}  // namespace report_detail

/// The comparison, at most TextOptions::width columns wide; opens with the verdict. Units: the first layout's.
[[nodiscard]] std::string comparison_text(const Comparison& c, const TextOptions& options = {});

}  // namespace libflow
