// SPDX-License-Identifier: MIT
/// @file
/// Agronomy check: the nutrients that a layout brings per area and by row, salt with the seed against published limits,
/// and whether a test with water tells the truth about the product.
#pragma once

#include <optional>
#include <vector>

#include <libflow/fluid/nutrients.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/seed_limits.hpp>
#include <libflow/study/water_test.hpp>

namespace libflow {

/// What is asked.
struct AgronomyOptions {
  Crop crop = Crop::corn;                                        ///< of the seed limits
  std::optional<Soil> soil = std::nullopt;                       ///< empty: limits for every soil are listed
  Temperature water_temperature = from_si<Temperature>(293.15);  ///< of a test with water
  Length furrow = from_si<Length>(0.0254);  ///< width over which seed and liquid are spread, for seed_safe_rate
};

/// One row's nutrients.
struct RowNutrients {
  int row = 0;          ///< 1-based
  NutrientRates rates;  ///< mass per area
};

/// The layout's N + K2O held against one published limit.
struct SeedLimitCheck {
  SeedLimit limit;          ///< published
  bool over = false;        ///< the row with the most has more
  AreaRate highest_rate{};  ///< of this product that the limit allows; 0: none
};

/// Whether a limit holds for what is asked: it speaks of every soil, or the soil is named. Others hold if the soil is
/// theirs.
[[nodiscard]] inline bool applies(const SeedLimitCheck& c, const AgronomyOptions& options) {
  return !c.limit.soil || options.soil.has_value();
}

/// What the agronomy check found.
struct Agronomy {
  Answer answer;                                         ///< the layout at its job
  Analysis analysis;                                     ///< of its product
  NutrientRates wanted;                                  ///< at the job's rate
  NutrientRates mean;                                    ///< at the mean rate of the rows
  std::vector<RowNutrients> rows;                        ///< rows that are not shut
  RowNutrients lowest, highest;                          ///< of the rows with the lowest and the highest rate
  AgronomyOptions options;                               ///< as asked
  Length spacing{};                                      ///< widest row: the one with the most liquid for its length
  std::vector<SeedLimitCheck> limits;                    ///< those that speak of the crop at this spacing
  std::optional<MassPerArea> product_at_ten_per_cent{};  ///< product that costs a tenth of the stand, where published
  WaterTest water;                                       ///< what a test with water would say
  Cautions cautions;                                     ///< what a person should know
};

/// @throws InputError for a layout that cannot be, a product without an analysis, options out of range; IllPosedError
///         for plumbing without an answer
[[nodiscard]] Agronomy agronomy(Layout layout, const AgronomyOptions& options = {});

}  // namespace libflow
