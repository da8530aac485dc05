// SPDX-License-Identifier: MIT
#include <libflow/study/cut_length.hpp>

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/core.h>

#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

Length cut_step(UnitSystem units) { return units == UnitSystem::us ? 1.0 * units::inch : 1.0 * units::cm; }

Length cut_length(Length length, Length step) {
  if (!(si(step) > 0.0)) return length;
  constexpr double rounding = 1e-6;  // m: a layout's feet may have six decimals
  const double steps = std::max(1.0, std::ceil((si(length) - rounding) / si(step)));
  // To the last bit what cut_text reads back as, so that a layout written in these words is the same layout.
  if (step == cut_step(UnitSystem::metric)) return from_si<Length>(steps / 100.0);
  if (step != cut_step(UnitSystem::us)) return steps * step;
  const double feet = std::floor(steps / 12.0);
  return feet * units::ft + (steps - 12.0 * feet) * units::inch;
}

std::string cut_text(Length length, UnitSystem units) {
  const double steps = std::round(si(cut_length(length, cut_step(units))) / si(cut_step(units)));
  if (units == UnitSystem::metric) return fmt::format("{:.2f} m", steps / 100.0);
  const double feet = std::floor(steps / 12.0), inches = steps - 12.0 * feet;
  if (feet == 0.0) return fmt::format("{:.0f} in", inches);
  return inches == 0.0 ? fmt::format("{:.0f} ft", feet) : fmt::format("{:.0f} ft {:.0f} in", feet, inches);
}

std::string cut_step_text(Length step, UnitSystem units) {
  if (step == cut_step(UnitSystem::us)) return "one inch";
  return step == cut_step(UnitSystem::metric) ? "one centimetre" : format_bore(step, units);
}

}  // namespace libflow
