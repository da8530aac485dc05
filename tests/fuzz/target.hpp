// SPDX-License-Identifier: MIT
/// @file
/// What every fuzz target offers: one input, any bytes at all. A target returns for every input; anything that libflow
/// throws besides its own errors, any sanitizer's finding and any broken promise ends the program.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace libflow::fuzz {

inline std::string_view text(const std::uint8_t* data, std::size_t size) {
  return size == 0 ? std::string_view{} : std::string_view{reinterpret_cast<const char*>(data), size};
}

/// Ends the program where a promise is broken, in every build.
inline void promise(bool kept, const char* what) {
  if (kept) return;
  std::fprintf(stderr, "broken promise: %s\n", what);
  std::abort();
}

}  // namespace libflow::fuzz
