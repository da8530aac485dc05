// SPDX-License-Identifier: MIT
/// @file
/// Layouts side by side as text for people: which is evener, by how much, what decides it, row by row.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <libflow/report/words.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

/// Layouts are A, B, C ... in tables; more than 26 go on with numbers.
std::string letter(std::size_t i);

/// " (north_bar.toml)": a layout's file, to stand behind its name; empty where the name holds it already, as those of
/// two layouts with one name do.
std::string file_beside(const std::string& name, const std::string& file);

/// The layouts from `first` on that one table holds.
inline constexpr std::size_t layouts_in_a_table = 4;

}  // namespace report_detail

/// What a reader must know before any number: which layouts do not reach the rate that all are compared at, each in a
/// sentence. Empty where all reach it.
[[nodiscard]] std::vector<std::string> rate_not_reached_sentences(const Comparison& c, UnitSystem units);

/// The comparison, at most TextOptions::width columns wide; opens with the layouts that do not reach the rate, then the
/// verdict. Units: the first layout's.
/// @param files  the layouts' files, to be named beside their letters; may be empty
[[nodiscard]] std::string comparison_text(const Comparison& c, const TextOptions& options = {},
                                          const std::vector<std::string>& files = {});

}  // namespace libflow
