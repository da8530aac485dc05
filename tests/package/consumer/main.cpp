// SPDX-License-Identifier: MIT
/// @file
/// The smallest use of libflow: what 14 ft of hose costs at a flow.
#include <fmt/core.h>

#include <libflow/libflow.hpp>

int main() {
  using namespace libflow::units;
  const libflow::Hose hose{.length = 14.0 * ft, .bore = 0.25 * inch};
  const libflow::LiquidState water;  // 20 C
  fmt::print("libflow version {}\n", libflow::version);
  fmt::print("drop {:.0f} Pa\n", hose.law(water)(libflow::si(0.5 * gpm)).dp);
}
