// SPDX-License-Identifier: MIT
/// @file
/// Peak memory of a stretch of a program.
#pragma once

#include <malloc.h>
#include <sys/resource.h>

#include <fstream>

namespace libflow::bench {

/// Gives free memory back and lets the kernel forget the peak so far (Linux; elsewhere the peak stays the process's).
inline void forget_peak_memory() {
  malloc_trim(0);
  std::ofstream("/proc/self/clear_refs") << "5";
}

/// Highest resident memory since then [MB = 1e6 bytes].
inline double peak_memory() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) * 1024.0 / 1e6;
}

}  // namespace libflow::bench
