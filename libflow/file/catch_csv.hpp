// SPDX-License-Identifier: MIT
/// @file
/// Catch-test readings from a table of comma-separated values.
///
///     row, volume, repeat
///     1, 250 ml, 1
///     1, 245 ml, 2
///     2, 8.4 fl oz, 1
///
/// The unit may stand once in the heading: `volume [ml]`. The column `repeat` may be missing: readings of a row then
/// count in the order in which they stand. Empty lines and lines that begin with # are skipped. Rows may be missing.
/// All that is wrong is told at once, up to ten mistakes, each with its line and column.
#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include <libflow/core/range.hpp>
#include <libflow/study/catch_readings.hpp>

namespace libflow {

/// Most that a cup holds [m3]: a cubic metre keeps out slips of the unit.
inline constexpr Range catch_volume{0.0, 1.0};

/// Readings from text. @param file  its name, for messages
/// @throws InputError naming file, line, column, what is wrong and what is allowed; of several mistakes, the file and a
///         line of text for each
[[nodiscard]] std::vector<CatchReading> parse_catch(std::string_view text, std::string_view file);

/// @throws InputError as parse_catch; missing, a folder, unreadable, too large
[[nodiscard]] std::vector<CatchReading> read_catch(const std::filesystem::path& path);

}  // namespace libflow
