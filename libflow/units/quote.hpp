// SPDX-License-Identifier: MIT
/// @file
/// A stranger's text made safe to print inside a message: short, and without control characters.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <fmt/core.h>

namespace libflow {

namespace units_detail {

/// Length of the valid UTF-8 sequence at the start of `text`, or 0; `code` is its code point.
inline std::size_t utf8_length(std::string_view text, unsigned& code) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(text[i])); };
  const unsigned first = byte(0);
  const std::size_t n = first < 0x80u ? 1 : first < 0xC2u ? 0 : first < 0xE0u ? 2 : first < 0xF0u ? 3 : 4;
  if (n == 0 || first > 0xF4u || text.size() < n) return 0;
  code = n == 1 ? first : first & (0xFFu >> (n + 1));
  for (std::size_t i = 1; i < n; ++i) {
    if ((byte(i) & 0xC0u) != 0x80u) return 0;
    code = (code << 6) | (byte(i) & 0x3Fu);
  }
  const bool overlong = (n == 3 && code < 0x800u) || (n == 4 && code < 0x10000u);
  if (overlong || (code >= 0xD800u && code <= 0xDFFFu) || code > 0x10FFFFu) return 0;
  return n;
}

}  // namespace units_detail

/// `text` in single quotes, cut to `most` characters ("..." says so). Control characters, invalid UTF-8 and the
/// marks that turn the direction of writing are escaped, so that a message stays on one line.
[[nodiscard]] inline std::string in_quotes(std::string_view text, std::size_t most = 40) {
  std::string out = "'";
  std::size_t written = 0;
  while (!text.empty() && written < most) {
    unsigned code = 0;
    std::size_t n = units_detail::utf8_length(text, code);
    std::string piece;
    if (n == 0) {
      n = 1;
      piece = fmt::format("\\x{:02X}", static_cast<unsigned>(static_cast<unsigned char>(text[0])));
    } else if (code == '\n') {
      piece = "\\n";
    } else if (code == '\r') {
      piece = "\\r";
    } else if (code == '\t') {
      piece = "\\t";
    } else if (code < 0x20u || (code >= 0x7Fu && code < 0xA0u)) {
      piece = fmt::format("\\x{:02X}", code);
    } else if ((code >= 0x200Bu && code <= 0x200Fu) || (code >= 0x2028u && code <= 0x202Eu) ||
               (code >= 0x2066u && code <= 0x2069u) || code == 0xFEFFu) {
      piece = fmt::format("\\u{:04X}", code);
    } else {
      piece = std::string(text.substr(0, n));
    }
    const std::size_t wide = piece[0] == '\\' ? piece.size() : 1;
    if (written + wide > most) break;
    out += piece;
    written += wide;
    text.remove_prefix(n);
  }
  if (!text.empty()) out += "...";
  return out + "'";
}

}  // namespace libflow
