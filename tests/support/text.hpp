// SPDX-License-Identifier: MIT
/// @file
/// What a text says: to the letter, or in words whatever its lines and columns.
#pragma once

#include <sstream>
#include <string>

namespace libflow::test {

/// True where `text` holds `part` to the letter.
inline bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// The words of a text with one space between them.
inline std::string one_line(const std::string& text) {
  std::istringstream in(text);
  std::string line;
  for (std::string word; in >> word;) line += (line.empty() ? "" : " ") + word;
  return line;
}

/// True where `text` has these words one after another; the last of them may go on.
inline bool says(const std::string& text, const std::string& words) { return holds(one_line(text), one_line(words)); }

}  // namespace libflow::test
