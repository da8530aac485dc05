// SPDX-License-Identifier: MIT
/// @file
/// The library's choices as words.
#pragma once

#include <libflow/fluid/property.hpp>
#include <libflow/parts/fitting.hpp>
#include <libflow/parts/law.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/parts/valve.hpp>
#include <libflow/solve/solution.hpp>

#include "convert.hpp"

namespace libflow::python {

#define LIBFLOW_NAMES(Enum, ...)                                \
  template <>                                                   \
  struct Names<Enum> {                                          \
    static const std::vector<std::string>& all() {              \
      static const std::vector<std::string> names{__VA_ARGS__}; \
      return names;                                             \
    }                                                           \
  }

LIBFLOW_NAMES(Confidence, "published", "derived", "memory", "common_practice", "user");
LIBFLOW_NAMES(Contract, "passage", "one_way", "source", "outer_corrected");
LIBFLOW_NAMES(Passes, "both", "forward", "backward", "neither");
LIBFLOW_NAMES(ValveCharacteristic, "equal_percentage", "linear");
LIBFLOW_NAMES(LossMethod, "two_constant", "three_constant");
LIBFLOW_NAMES(Status, "not_solved", "converged", "iteration_limit");
LIBFLOW_NAMES(Regime, "still", "laminar", "transition", "turbulent");
LIBFLOW_NAMES(ValveState, "none", "open", "closed");

}  // namespace libflow::python
