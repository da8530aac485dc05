// SPDX-License-Identifier: MIT
/// @file
/// Limits for tests that only ask which of them is named.
#pragma once

#include <string>
#include <utility>

#include <libflow/study/limits.hpp>

namespace libflow::test {

/// @param margin  room that is left, below 0 where it is broken [-]
inline Limit limit_named(std::string name, double margin, LimitKind kind) {
  Limit l;
  l.name = std::move(name);
  l.margin = margin;
  l.kind = kind;
  return l;
}

}  // namespace libflow::test
