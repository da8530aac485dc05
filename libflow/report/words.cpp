// SPDX-License-Identifier: MIT
#include <libflow/report/words.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>

#include <fmt/core.h>

#include <libflow/units/quote.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

std::string residual(double r) {
  if (r < 1e-15) return "rounding";
  if (r < 1e-12) return "a trillionth";
  if (r < 1e-9) return "a billionth";
  if (r < 1e-6) return "a millionth";
  return r < 1e-4 ? std::string("0.01 %") : fmt::format("{:.2g} %", 100.0 * r);
}

std::string without_exponent(std::string number) {
  const std::size_t exponent = number.find("e-");
  if (exponent == std::string::npos) return number;
  const std::size_t end = std::min(number.find(' ', exponent), number.size());
  return (number.front() == '-' ? "0" : "< 0.0001") + number.substr(end);
}

std::size_t columns(std::string_view text) {
  std::size_t n = 0;
  for (const char c : text) n += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
  return n;
}

std::size_t widest_line(std::string_view text) {
  std::size_t widest = 0;
  for (;;) {
    const std::size_t end = text.find('\n');
    widest = std::max(widest, columns(text.substr(0, end)));
    if (end == std::string_view::npos) return widest;
    text.remove_prefix(end + 1);
  }
}

std::string padded(std::string_view text, std::size_t width, bool right) {
  const std::size_t has = columns(text);
  const std::string space(width > has ? width - has : 0, ' ');
  return right ? space + std::string(text) : std::string(text) + space;
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent, std::string_view lead) {
  std::string out(lead);
  std::size_t at = columns(lead);
  bool fresh = true;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    const std::string_view word = text.substr(0, space);
    const std::size_t wide = columns(word);
    if (!fresh && at + 1 + wide > width) {
      out += "\n" + std::string(indent, ' ');
      at = indent;
    } else if (!fresh) {
      out += ' ';
      ++at;
    }
    out += word;
    at += wide;
    fresh = false;
    if (space == std::string_view::npos) break;
    text.remove_prefix(space + 1);
  }
  return out + "\n";
}

std::string percent(double fraction) {
  const double p = 100.0 * fraction;
  if (std::abs(p) < 0.005) return "0.00 %";
  return fmt::format("{:.{}f} %", p, std::abs(p) < 0.995 ? 2 : 1);
}

std::string signed_percent(double fraction) {
  const std::string text = fmt::format("{:+.1f}", 100.0 * fraction);
  return text == "-0.0" || text == "+0.0" ? "0.0" : text;
}

std::string deviation_bar(double deviation, double full, std::size_t half) {
  std::string bar(2 * half + 1, ' ');
  bar[half] = '|';
  const double cells = full > 0.0 ? std::abs(deviation) / full * static_cast<double>(half) : 0.0;
  const auto n = static_cast<std::size_t>(std::lround(std::fmin(cells, static_cast<double>(half))));
  for (std::size_t i = 1; i <= n; ++i) bar[deviation < 0.0 ? half - i : half + i] = '=';
  return bar;
}

std::string coloured(std::string_view text, Colour colour, const TextOptions& options) {
  if (!options.colour || colour == Colour::none) return std::string(text);
  const char* const code = colour == Colour::good ? "1;32" : colour == Colour::bad ? "1;31" : "1";
  return fmt::format("\x1b[{}m{}\x1b[0m", code, text);
}

std::string name_text(std::string_view name) { return in_quotes(name, 60); }

std::string safe_text(std::string_view text, std::size_t most) {
  std::string quoted = in_quotes(text, most);
  return quoted.substr(1, quoted.size() - 2);
}

std::string catch_liquid_advice() {
  return "Catch twice: first with water, to find leaks and how far the rows are apart; then with the product itself, "
         "for "
         "the rate, because water runs differently, more so where the product is cold and thick (common practice, no "
         "source).";
}

}  // namespace report_detail

}  // namespace libflow
