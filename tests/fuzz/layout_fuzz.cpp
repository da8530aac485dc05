// SPDX-License-Identifier: MIT
/// @file
/// Any bytes as a layout file: read with all that a layout may hold, sizing and tolerances included.
#include <cstddef>
#include <cstdint>

#include <libflow/file/layout_size.hpp>
#include <tests/fuzz/target.hpp>

using namespace libflow;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    (void)parse_size(fuzz::text(data, size), "any.toml");
  } catch (const InputError& error) {
    fuzz::promise(error.where().rfind("any.toml", 0) == 0, "an error names the file");
    fuzz::promise(!error.what_is_wrong().empty(), "an error says what is wrong");
  }
  return 0;
}
