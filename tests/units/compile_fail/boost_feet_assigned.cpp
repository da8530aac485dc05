// SPDX-License-Identifier: MIT
/// @file
/// Feet of another system of units are not assigned to metres unasked.
#include <libflow/units/quantity.hpp>

#include <boost/units/base_units/us/foot.hpp>

using foot = boost::units::us::foot_base_unit::unit_type;

int main() {
  using namespace libflow;
#ifdef LIBFLOW_MUST_FAIL
  Length length;
  length = 14.0 * foot();
#else
  Length length;
  length = Length(14.0 * foot());
#endif
  return si(length) > 0.0 ? 0 : 1;
}
