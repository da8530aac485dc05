// SPDX-License-Identifier: MIT
/// @file
/// A rate per area is not a length, though litres over square metres are metres.
#include <libflow/units/quantity.hpp>

int main() {
  using namespace libflow;
#ifdef LIBFLOW_MUST_FAIL
  const Length length = 12.0 * units::gal_per_acre;
#else
  const Length length = 12.0 * units::mm;
#endif
  return si(length) > 0.0 ? 0 : 1;
}
