// SPDX-License-Identifier: MIT
/// @file
/// Any text as a quantity of any kind: the first byte chooses the kind.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

#include <libflow/units.hpp>
#include <tests/fuzz/target.hpp>

using namespace libflow;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const auto kind = static_cast<Kind>(data[0] % (static_cast<unsigned>(Kind::fraction) + 1));
  const std::string_view written = fuzz::text(data + 1, size - 1);
  try {
    const double si_value = parse_si(kind, written, "here");
    fuzz::promise(std::isfinite(si_value), "a quantity that was read is a finite number");
    fuzz::promise(parse_si(kind, written, "there") == si_value, "the same text is the same quantity");
  } catch (const InputError& error) {
    fuzz::promise(error.where() == "here", "an error names the place that it was given");
    fuzz::promise(!error.what_is_wrong().empty(), "an error says what is wrong");
  }
  return 0;
}
