// SPDX-License-Identifier: MIT
/// @file
/// A flow is not a rate per area.
#include <libflow/units/quantity.hpp>

int main() {
  using namespace libflow;
#ifdef LIBFLOW_MUST_FAIL
  const AreaRate rate = 12.0 * units::gpm;
  const Length length = si(rate) * units::m;
#else
  const AreaRate rate = 12.0 * units::gal_per_acre;
  const Length length = si(rate) * units::m;
#endif
  return si(length) > 0.0 ? 0 : 1;
}
