// SPDX-License-Identifier: MIT
/// @file
/// A length and a pressure do not add.
#include <libflow/units/quantity.hpp>

int main() {
  using namespace libflow;
#ifdef LIBFLOW_MUST_FAIL
  const auto length = 14.0 * units::ft + 30.0 * units::psi;
#else
  const auto length = 14.0 * units::ft + 30.0 * units::m;
#endif
  return si(length) > 0.0 ? 0 : 1;
}
