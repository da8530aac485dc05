// SPDX-License-Identifier: MIT
#include <libflow/study/coils.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

CoilPlan cut_from_coils(const std::vector<Length>& lengths, Length coil) {
  require_in("coil", si(coil), {1e-3, 1e5}, "m");
  CoilPlan plan;
  std::vector<std::size_t> order(lengths.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return si(lengths[a]) > si(lengths[b]); });
  const double slack = 1e-9 * si(coil);  // rounding of sums of lengths
  double total = 0.0;
  for (const std::size_t i : order) {
    const double cut = si(lengths[i]);
    if (!(cut > 0.0) || cut > si(coil) + slack) {
      const auto both = [](Length l) {
        return fmt::format("{} ({})", format(l, UnitSystem::us), format(l, UnitSystem::metric));
      };
      throw InputError("coil", fmt::format("a cut of {} does not come from a coil of {}", both(lengths[i]), both(coil)),
                       "coils of at least " + both(lengths[order.front()]));
    }
    total += cut;
    auto at =
        std::find_if(plan.coils.begin(), plan.coils.end(), [&](const Coil& c) { return si(c.left) + slack >= cut; });
    if (at == plan.coils.end()) at = plan.coils.insert(plan.coils.end(), Coil{{}, coil});
    at->cuts.push_back(i);
    at->left = from_si<Length>(std::max(0.0, si(at->left) - cut));
  }
  plan.at_least = static_cast<std::size_t>(std::ceil((total - slack) / si(coil)));
  return plan;
}

}  // namespace libflow
