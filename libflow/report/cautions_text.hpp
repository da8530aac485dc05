// SPDX-License-Identifier: MIT
/// @file
/// Cautions in plain words with their sources, and the line that no report goes without.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/core/caution.hpp>

namespace libflow {

/// Who decides, in the end.
inline constexpr std::string_view last_word =
    "This is a computation, not a permission. The product label, local code and a qualified person decide. Liquid "
    "under pressure and fertilizer can hurt people and crops: check the built toolbar with water for leaks, then with "
    "a catch test.";

namespace report_detail {

/// The titles of the sources that a caution names by key; its own words where it names none.
std::string source_text(const std::string& keys);

/// True for what stops the job or can hurt at once: the rate is not reached, a row gets nothing, a part works beyond
/// its pressure, air or vapour stands in the line, the liquid freezes or salts out. These stand before all others.
bool stops_the_job(const Caution& caution);

/// One text for each kind of caution, what stops the job first, with those it speaks of ahead of it and its source
/// behind it.
std::vector<std::string> caution_groups(const Cautions& cautions);

/// The groups as a list, their sources numbered and listed once below: "[1] ...".
std::string cautions_text(const Cautions& cautions, std::size_t width);

}  // namespace report_detail
}  // namespace libflow
