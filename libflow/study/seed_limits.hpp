// SPDX-License-Identifier: MIT
/// @file
/// Published limits for fertilizer placed in the furrow with the seed, as data.
///
/// Extension services disagree, and soil moisture, variety and placement decide as much as the rate. Nothing here is a
/// permission: the product label and local guidance come first.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include <libflow/core/range.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// Whose seed lies beside the liquid.
enum class Crop { corn, soybean, dry_bean, sunflower, spring_wheat };

/// Soil in the furrow. The sources speak of texture or of cation exchange capacity (CEC); a CEC under 7 meq/100 g is
/// read as sandy here, 8 and more as medium or fine.
enum class Soil { sandy, medium_or_fine };

/// In the order of Crop.
inline constexpr std::array<std::string_view, 5> crop_names{"corn", "soybean", "dry bean", "sunflower", "spring wheat"};
/// In words.
[[nodiscard]] constexpr std::string_view name_of(Crop crop) { return crop_names[static_cast<std::size_t>(crop)]; }
/// In words.
[[nodiscard]] constexpr std::string_view name_of(Soil soil) { return soil == Soil::sandy ? "sandy" : "medium or fine"; }

/// "corn", "dry bean" or "dry-bean" ... @throws InputError with the nearest name
[[nodiscard]] Crop parse_crop(std::string_view text, std::string_view where = "crop");
/// "sandy" or "medium" ("fine", "medium or fine"). @throws InputError
[[nodiscard]] Soil parse_soil(std::string_view text, std::string_view where = "soil");

/// One published limit of N + K2O with the seed.
struct SeedLimit {
  Crop crop = Crop::corn;      ///< whose seed
  Range spacing{};             ///< row spacings for which it is used [m]: above low, up to high
  std::optional<Soil> soil{};  ///< empty: the source makes no difference
  MassPerArea limit{};         ///< 0: none with the seed
  std::string_view words{};    ///< what the source says
  std::string_view source{};   ///< key into sources()
};

/// Every limit. Where a source prints limits for some row spacings, each holds for spacings down to the next one
/// printed: between them the lower limit is taken. No limit is carried to wider rows than its source prints.
[[nodiscard]] const std::vector<SeedLimit>& seed_limits();

/// The limits that speak of a crop at a row spacing, on a soil (empty: on any).
[[nodiscard]] std::vector<SeedLimit> seed_limits_for(Crop crop, Length spacing,
                                                     std::optional<Soil> soil = std::nullopt);

/// Slope of stand loss for a fertilizer with the seed of a crop, in the units of the source's equation.
struct SeedSafety {
  Crop crop = Crop::corn;         ///< whose seed
  std::string_view fertilizer{};  ///< "urea" or a grade
  double slope = 0;               ///< |C|, > 0
};

/// The coefficients that were seen. Source: SDSU.
inline constexpr std::array<SeedSafety, 7> seed_safety{{{Crop::corn, "urea", 0.965},
                                                        {Crop::corn, "28-0-0", 0.236},
                                                        {Crop::corn, "ammonium nitrate", 0.215},
                                                        {Crop::soybean, "urea", 3.330},
                                                        {Crop::soybean, "28-0-0", 1.703},
                                                        {Crop::spring_wheat, "urea", 1.436},
                                                        {Crop::spring_wheat, "28-0-0", 0.258}}};

/// The coefficient of a fertilizer for a crop, or nullptr.
[[nodiscard]] const SeedSafety* find_seed_safety(Crop crop, std::string_view fertilizer);

/// Fertilizer with the seed that costs so much of the stand: F = 30 S T / (|C| R M), F in lb/ac, S the furrow's width
/// and R the row spacing in inches, T the loss in per cent.
/// @param loss     share of the stand, 0 to 1
/// @param furrow   width over which seed and fertilizer are spread, 0.1 in to the spacing
/// @param factor   M, for soil moisture and texture, 0.1 to 10; 1 is the source's reference
/// Source: South Dakota State University Extension, worksheet for fertilizer placed with seeds (key SDSU); its
/// printed check: corn, urea, 1 in, 15 %, 30 in gives 15.5 lb/ac.
[[nodiscard]] MassPerArea seed_safe_rate(const SeedSafety& safety, double loss, Length furrow, Length spacing,
                                         double factor = 1.0);

}  // namespace libflow
