// SPDX-License-Identifier: MIT
/// @file
/// Blends and dilutions by mass balance. Masses add exactly; volumes are taken to add as well.
///
/// That volumes add is an assumption: salts and urea in water take up to about one or two per cent less room than their
/// parts do (from memory), so a mixed tank stands a little lower and is a little denser than computed. Weigh a sample
/// of the mix where it matters. Nothing here says that products may be mixed: some react, heat up or gel.
#pragma once

#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/caution.hpp>
#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/fluid/nutrients.hpp>

namespace libflow {

/// One part of a blend.
struct BlendPart {
  std::string name{};   ///< of the blend
  Analysis analysis{};  ///< all 0: water
  Density density{};    ///< liquid_density
  Volume volume{};      ///< more than 0, at most 1000 m3
};

/// What a mix holds.
struct Blend {
  Analysis analysis{};  ///< mass %, exact by mass balance
  Density density{};    ///< volumes taken to add
  Volume volume{};      ///< volumes taken to add
  Mass mass{};          ///< exact
};

inline constexpr Range blend_volume{1e-9, 1e3};  ///< [m3], of one part

/// @throws InputError for no part, or a part with a density, volume or analysis out of range
[[nodiscard]] inline Blend blend(const std::vector<BlendPart>& parts) {
  if (parts.empty()) throw InputError("blend", "nothing to mix", "one part or more");
  double volume = 0.0, mass = 0.0, n = 0.0, p2o5 = 0.0, k2o = 0.0, s = 0.0;
  for (const BlendPart& part : parts) {
    const std::string where = fmt::format("blend, {}", in_quotes(part.name));
    require_in(where + ", density", si(part.density), liquid_density, "kg/m3");
    require_in(where + ", volume", si(part.volume), blend_volume, "m3");
    check(part.analysis, where);
    const double own = si(part.density) * si(part.volume);
    volume += si(part.volume);
    mass += own;
    n += own * part.analysis.n;
    p2o5 += own * part.analysis.p2o5;
    k2o += own * part.analysis.k2o;
    s += own * part.analysis.s;
  }
  return {.analysis = {n / mass, p2o5 / mass, k2o / mass, s / mass},
          .density = from_si<Density>(mass / volume),
          .volume = from_si<Volume>(volume),
          .mass = from_si<Mass>(mass)};
}

/// Volume of water for each volume of a product that brings one of its nutrients down to a target, by mass balance:
/// (product density / water density) (percent / target - 1). No assumption about volumes is in it.
/// @param percent  of the nutrient in the product, mass %
/// @param target   wanted in the mix, mass %, more than 0, at most `percent`
/// @throws InputError for a target that water cannot give
[[nodiscard]] inline double water_for_dilution(double percent, double target, Density product,
                                               Density water = from_si<Density>(1000.0)) {
  require_in("dilution, nutrient in the product", percent, {1e-6, 100.0}, "%");
  require_in("dilution, nutrient wanted", target, {1e-6, percent}, "%");
  require_in("dilution, density of the product", si(product), liquid_density, "kg/m3");
  require_in("dilution, density of water", si(water), liquid_density, "kg/m3");
  return si(product) / si(water) * (percent / target - 1.0);
}

/// Mass of water for each mass of product: percent / target - 1.
[[nodiscard]] inline double water_mass_for_dilution(double percent, double target) {
  require_in("dilution, nutrient in the product", percent, {1e-6, 100.0}, "%");
  require_in("dilution, nutrient wanted", target, {1e-6, percent}, "%");
  return percent / target - 1.0;
}

/// What a person who mixes has to know, for every blend.
[[nodiscard]] inline Cautions blend_cautions() {
  return {
      {"mixing", "blend", "mixed volumes are taken to add; real solutions shrink a little: weigh a sample of the mix"},
      {"compatibility", "blend",
       "nothing here says that these may be mixed: some blends react, heat up, release gas or gel. Read the labels "
       "and safety data sheets, try a jar first, wear eye and hand protection",
       std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN(),
       "common practice, no source"}};
}

}  // namespace libflow
