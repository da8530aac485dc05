// SPDX-License-Identifier: MIT
/// @file
/// A bare number is not a length.
#include <libflow/units/quantity.hpp>

int main() {
  using namespace libflow;
#ifdef LIBFLOW_MUST_FAIL
  const Length length = 14.0;
#else
  const Length length = 14.0 * units::ft;
#endif
  return si(length) > 0.0 ? 0 : 1;
}
