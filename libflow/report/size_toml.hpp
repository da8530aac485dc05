// SPDX-License-Identifier: MIT
/// @file
/// A choice of parts as lines of a layout file.
#pragma once

#include <string>

#include <libflow/study/size.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// Tables and keys of a layout file that make a choice of sizing: [orifice], [hose], [[manifold]], [check_valve] and,
/// for groups of rows, [[row]]. They go into the tables that the file has, in place of the same keys (the lengths in
/// place of length, schedule and extra). Every value is the shortest text that reads back as exactly the same number,
/// so that the layout answers as the choice did.
[[nodiscard]] std::string size_toml(const SizeProblem& p, const SizeCandidate& c, UnitSystem u);

}  // namespace libflow
