// SPDX-License-Identifier: MIT
/// @file
/// A pressure is not a length even when asked for.
#include <libflow/units/quantity.hpp>

int main() {
  using namespace libflow;
#ifdef LIBFLOW_MUST_FAIL
  const Length length(30.0 * units::psi);
#else
  const Length length(30.0 * units::ft);
#endif
  return si(length) > 0.0 ? 0 : 1;
}
