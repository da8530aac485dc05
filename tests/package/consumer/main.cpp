// SPDX-License-Identifier: MIT
/// @file
/// The smallest use of libflow: what 14 ft of hose costs at a flow, and with all of libflow how even two rows are.
#include <fmt/core.h>

#ifdef WITH_TOOLBARS
#include <libflow/libflow.hpp>
#else
#include <libflow/fluid.hpp>
#include <libflow/parts.hpp>
#include <libflow/version.hpp>
#endif

int main() {
  using namespace libflow::units;
  const libflow::Hose hose{.length = 14.0 * ft, .bore = 0.25 * inch};
  const libflow::LiquidState water;  // 20 C
  fmt::print("libflow version {}\n", libflow::version);
  fmt::print("drop {:.0f} Pa\n", hose.law(water)(libflow::si(0.5 * gpm)).dp);
#ifdef WITH_TOOLBARS
  // Mean 2, sample standard deviation sqrt(2).
  fmt::print("variation {:.4f}\n", libflow::coefficient_of_variation({1.0, 3.0}));
#endif
}
