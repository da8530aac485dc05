// SPDX-License-Identifier: MIT
/// @file
/// Liquids for tests of parts: water, and two that stretch a law towards laminar flow.
#pragma once

#include <libflow/fluid/liquid.hpp>

namespace libflow::test {

inline LiquidState liquid_of(const char* name, double density, double viscosity) {
  LiquidState state;
  state.name = name;
  state.density = density;
  state.viscosity = viscosity;
  return state;
}

/// 20 C; IAPWS SR6-08(2011) rounded to five figures.
inline LiquidState water() { return liquid_of("water", 998.21, 1.0016e-3); }
/// As heavy and thick as a polyphosphate solution gets in the cold (an example, not a product's figure).
inline LiquidState thick() { return liquid_of("thick", 1400.0, 0.150); }
/// Thinner than any fertilizer, to reach high Reynolds numbers.
inline LiquidState thin() { return liquid_of("thin", 750.0, 3e-4); }

}  // namespace libflow::test
