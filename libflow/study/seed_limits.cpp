// SPDX-License-Identifier: MIT
#include <libflow/study/seed_limits.hpp>

#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/core/error.hpp>
#include <libflow/core/names.hpp>
#include <libflow/core/range.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/quote.hpp>

namespace libflow {

Crop parse_crop(std::string_view text, std::string_view where) {
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

Soil parse_soil(std::string_view text, std::string_view where) {
  if (text == "sandy") return Soil::sandy;
  if (text == "medium" || text == "fine" || text == "medium or fine") return Soil::medium_or_fine;
  static constexpr std::array<std::string_view, 3> names{"sandy", "medium", "fine"};
  throw InputError(std::string(where), in_quotes(text) + " is not a soil", "sandy, medium, fine",
                   nearest_name(text, names));
}

const std::vector<SeedLimit>& seed_limits() {
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

std::vector<SeedLimit> seed_limits_for(Crop crop, Length spacing, std::optional<Soil> soil) {
  std::vector<SeedLimit> found;
  for (const SeedLimit& one : seed_limits()) {
    const bool spaced = si(spacing) > one.spacing.low && si(spacing) <= one.spacing.high;
    const bool on_soil = !soil || !one.soil || *soil == *one.soil;
    if (one.crop == crop && spaced && on_soil) found.push_back(one);
  }
  return found;
}

const SeedSafety* find_seed_safety(Crop crop, std::string_view fertilizer) {
  for (const SeedSafety& one : seed_safety) {
    if (one.crop == crop && one.fertilizer == fertilizer) return &one;
  }
  return nullptr;
}

MassPerArea seed_safe_rate(const SeedSafety& safety, double loss, Length furrow, Length spacing, double factor) {
  require_in("seed safety, slope", safety.slope, {1e-6, 1e6}, "");
  require_in("seed safety, stand loss", loss, {0.0, 1.0}, "");
  require_in("seed safety, row spacing", si(spacing), {0.05, 10.0}, "m");
  require_in("seed safety, furrow width", si(furrow), {0.1 * si(units::inch), si(spacing)}, "m");
  require_in("seed safety, moisture and texture factor", factor, {0.1, 10.0}, "");
  return 30.0 * (si(furrow) / si(units::inch)) * (100.0 * loss) /
         (safety.slope * (si(spacing) / si(units::inch)) * factor) * units::lb_per_acre;
}

}  // namespace libflow
