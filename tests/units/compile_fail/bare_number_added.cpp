// SPDX-License-Identifier: MIT
/// @file
/// A bare number does not add to a length.
#include <libflow/units/quantity.hpp>

int main() {
  using namespace libflow;
#ifdef LIBFLOW_MUST_FAIL
  const Length length = 14.0 * units::ft + 2.0;
#else
  const Length length = 14.0 * units::ft + 2.0 * units::ft;
#endif
  return si(length) > 0.0 ? 0 : 1;
}
