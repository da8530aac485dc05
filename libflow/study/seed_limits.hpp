// SPDX-License-Identifier: MIT
/// @file
/// Published limits for fertilizer placed in the furrow with the seed, as data.
///
/// Extension services disagree, and soil moisture, variety and placement decide as much as the rate. Nothing here is a
/// permission: the product label and local guidance come first.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/core/range.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/quote.hpp>

namespace libflow {

enum class Crop { corn, soybean, dry_bean, sunflower, spring_wheat };

/// Soil in the furrow. The sources speak of texture or of cation exchange capacity (CEC); a CEC under 7 meq/100 g is
/// read as sandy here, 8 and more as medium or fine.
enum class Soil { sandy, medium_or_fine };

inline constexpr std::array<std::string_view, 5> crop_names{"corn", "soybean", "dry bean", "sunflower", "spring wheat"};
[[nodiscard]] constexpr std::string_view name_of(Crop crop) { return crop_names[static_cast<std::size_t>(crop)]; }
[[nodiscard]] constexpr std::string_view name_of(Soil soil) { return soil == Soil::sandy ? "sandy" : "medium or fine"; }

/// "corn", "dry bean" or "dry-bean" ... @throws InputError with the nearest name
[[nodiscard]] inline Crop parse_crop(std::string_view text, std::string_view where = "crop") {
  std::string name(text);
  for (char& c : name) {
    if (c == '-' || c == '_') c = ' ';
  }
  for (std::size_t i = 0; i < crop_names.size(); ++i) {
    if (name == crop_names[i]) return static_cast<Crop>(i);
  }
  throw InputError(std::string(where), in_quotes(text) + " is not a crop with a published limit here",
                   "corn, soybean, dry-bean, sunflower, spring-wheat", nearest_name(name, crop_names));
}
/// "sandy" or "medium" ("fine", "medium or fine"). @throws InputError
[[nodiscard]] inline Soil parse_soil(std::string_view text, std::string_view where = "soil") {
  if (text == "sandy") return Soil::sandy;
  if (text == "medium" || text == "fine" || text == "medium or fine") return Soil::medium_or_fine;
  static constexpr std::array<std::string_view, 3> names{"sandy", "medium", "fine"};
  throw InputError(std::string(where), in_quotes(text) + " is not a soil", "sandy, medium, fine",
                   nearest_name(text, names));
}

/// One published limit of N + K2O with the seed.
struct SeedLimit {
  Crop crop = Crop::corn;
  Range spacing{};             ///< row spacings for which it is used [m]: above low, up to high
  std::optional<Soil> soil{};  ///< empty: the source makes no difference
  MassPerArea limit{};         ///< 0: none with the seed
  std::string_view words{};    ///< what the source says
  std::string_view source{};   ///< key into sources()
};

/// Every limit. Where a source prints limits for some row spacings, each holds for spacings down to the next one
/// printed: between them the lower limit is taken. No limit is carried to wider rows than its source prints.
[[nodiscard]] inline const std::vector<SeedLimit>& seed_limits() {
  using units::inch;
  using units::lb_per_acre;
  constexpr double any = std::numeric_limits<double>::infinity();
  const auto up_to = [](double low, double high) { return Range{low * si(inch), (high + 1e-6) * si(inch)}; };
  const Range all{0.0, any};
  static const std::vector<SeedLimit> limits = {
      {Crop::corn, up_to(0, 20), Soil::medium_or_fine, 12.0 * lb_per_acre, "20 in rows, no urea", "KSU"},
      {Crop::corn, up_to(20, 30), Soil::medium_or_fine, 8.0 * lb_per_acre, "30 in rows, no urea", "KSU"},
      {Crop::corn, up_to(30, 40), Soil::medium_or_fine, 6.0 * lb_per_acre, "40 in rows, no urea", "KSU"},
      {Crop::corn, up_to(0, 20), Soil::sandy, 8.0 * lb_per_acre, "20 in rows, no urea", "KSU"},
      {Crop::corn, up_to(20, 30), Soil::sandy, 6.0 * lb_per_acre, "30 in rows, no urea", "KSU"},
      {Crop::corn, up_to(30, 40), Soil::sandy, 4.0 * lb_per_acre, "40 in rows, no urea", "KSU"},
      {Crop::corn, all, Soil::sandy, 5.0 * lb_per_acre, "CEC under 7", "MSUE"},
      {Crop::corn, all, Soil::medium_or_fine, 8.0 * lb_per_acre, "CEC 8 or more", "MSUE"},
      {Crop::corn, up_to(0, 30), std::nullopt, 10.0 * lb_per_acre, "30 in rows, no urea; half is better", "NDSU02"},
      {Crop::corn, all, std::nullopt, 10.0 * lb_per_acre, "not over this in the row", "PSUVT"},
      {Crop::sunflower, up_to(0, 30), std::nullopt, 10.0 * lb_per_acre, "30 in rows, no urea; half is better",
       "NDSU02"},
      {Crop::soybean, all, std::nullopt, 0.0 * lb_per_acre, "not in contact with the seed", "MSUE"},
      {Crop::soybean, Range{15.0 * si(inch), any}, std::nullopt, 0.0 * lb_per_acre, "none in wide rows", "NDSU02"},
      {Crop::dry_bean, Range{15.0 * si(inch), any}, std::nullopt, 0.0 * lb_per_acre, "none in wide rows", "NDSU02"},
  };
  return limits;
}

/// The limits that speak of a crop at a row spacing, on a soil (empty: on any).
[[nodiscard]] inline std::vector<SeedLimit> seed_limits_for(Crop crop, Length spacing,
                                                            std::optional<Soil> soil = std::nullopt) {
  std::vector<SeedLimit> found;
  for (const SeedLimit& one : seed_limits()) {
    const bool spaced = si(spacing) > one.spacing.low && si(spacing) <= one.spacing.high;
    const bool on_soil = !soil || !one.soil || *soil == *one.soil;
    if (one.crop == crop && spaced && on_soil) found.push_back(one);
  }
  return found;
}

/// Slope of stand loss for a fertilizer with the seed of a crop, in the units of the source's equation.
struct SeedSafety {
  Crop crop = Crop::corn;
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
[[nodiscard]] inline const SeedSafety* find_seed_safety(Crop crop, std::string_view fertilizer) {
  for (const SeedSafety& one : seed_safety) {
    if (one.crop == crop && one.fertilizer == fertilizer) return &one;
  }
  return nullptr;
}

/// Fertilizer with the seed that costs so much of the stand: F = 30 S T / (|C| R M), F in lb/ac, S the furrow's width
/// and R the row spacing in inches, T the loss in per cent.
/// @param loss     share of the stand, 0 to 1
/// @param furrow   width over which seed and fertilizer are spread, 0.1 in to the spacing
/// @param factor   M, for soil moisture and texture, 0.1 to 10; 1 is the source's reference
/// Source: South Dakota State University Extension, worksheet for fertilizer placed with seeds (key SDSU); its
/// printed check: corn, urea, 1 in, 15 %, 30 in gives 15.5 lb/ac.
[[nodiscard]] inline MassPerArea seed_safe_rate(const SeedSafety& safety, double loss, Length furrow, Length spacing,
                                                double factor = 1.0) {
  require_in("seed safety, slope", safety.slope, {1e-6, 1e6}, "");
  require_in("seed safety, stand loss", loss, {0.0, 1.0}, "");
  require_in("seed safety, row spacing", si(spacing), {0.05, 10.0}, "m");
  require_in("seed safety, furrow width", si(furrow), {0.1 * si(units::inch), si(spacing)}, "m");
  require_in("seed safety, moisture and texture factor", factor, {0.1, 10.0}, "");
  return 30.0 * (si(furrow) / si(units::inch)) * (100.0 * loss) /
         (safety.slope * (si(spacing) / si(units::inch)) * factor) * units::lb_per_acre;
}

}  // namespace libflow
