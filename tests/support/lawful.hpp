// SPDX-License-Identifier: MIT
/// @file
/// One line tests a part: `expect_lawful(my_part, water())`.
#pragma once

#include <gtest/gtest.h>

#include <libflow/parts/lawful.hpp>

namespace libflow::test {

/// Fails the test for everything that a part breaks of its contract (see unlawful()).
inline void expect_lawful(const Part& part, const LiquidState& liquid, const LawfulOptions& options = {}) {
  for (const std::string& fault : unlawful(part, liquid, options)) ADD_FAILURE() << fault;
}

/// The same for a law by itself.
inline void expect_lawful(const Law& law, Contract contract, const LawfulOptions& options = {}) {
  for (const std::string& fault : unlawful(law, contract, options)) ADD_FAILURE() << fault;
}

/// True when one of the faults is of this kind.
[[nodiscard]] inline bool has_fault(const std::vector<std::string>& faults, const std::string& kind) {
  for (const std::string& fault : faults) {
    if (fault.find(kind) != std::string::npos) return true;
  }
  return false;
}

}  // namespace libflow::test
