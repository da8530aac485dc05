// SPDX-License-Identifier: MIT
/// @file
/// Words for lists and times: rows that follow each other, durations, row spacing, distances.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow::report_detail {

/// "row 4", "rows 1 to 16", "rows 1, 3 to 5"; empty for none.
std::string row_list_text(const std::vector<int>& rows);

/// The same for a sentence: two rows are "rows 1 and 16".
std::string rows_in_words(const std::vector<int>& rows);

/// "0.13 s", "35 s", "12.5 min", "4 h 39 min"; "-" where there is none.
std::string duration_text(double seconds);

/// "30 in", "76.2 cm".
std::string spacing_text(Length spacing, UnitSystem units);

/// A name in lines of at most `most` columns for a table's first column, broken at spaces, the later ones indented; a
/// longer word goes on in the next line.
std::vector<std::string> name_lines(const std::string& text, std::size_t most);

/// "1 hose", "2 hoses".
std::string counted(std::size_t count, std::string_view one, std::string_view more);

}  // namespace libflow::report_detail
