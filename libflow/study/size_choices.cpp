// SPDX-License-Identifier: MIT
#include <libflow/study/size_choices.hpp>

#include <array>
#include <vector>

#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

std::vector<OrificeChoice> generic_orifices() {
  constexpr std::array<double, 19> bores{0.40, 0.45, 0.50, 0.56, 0.63, 0.71, 0.80, 0.90, 1.00, 1.12,
                                         1.25, 1.40, 1.60, 1.80, 2.00, 2.24, 2.50, 2.80, 3.15};
  std::vector<OrificeChoice> all;
  for (const double mm : bores) all.emplace_back(OrificeByBore{.bore = from_si<Length>(1e-3 * mm)});
  return all;
}

}  // namespace libflow
