// SPDX-License-Identifier: MIT
/// @file
/// Nutrients in a liquid and on a field: analysis by mass, density and rate to mass per area, and back.
#pragma once

#include <array>
#include <charconv>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/fluid/property.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/quote.hpp>

namespace libflow {

/// Mass per field area of each nutrient, phosphorus and potassium as oxides, as the trade counts them.
struct NutrientRates {
  MassPerArea n{};     ///< nitrogen, N
  MassPerArea p2o5{};  ///< phosphate, P2O5
  MassPerArea k2o{};   ///< potash, K2O
  MassPerArea s{};     ///< sulfur, S

  /// What extension limits for fertilizer placed with the seed count: N + K2O.
  [[nodiscard]] MassPerArea salt() const { return n + k2o; }
};

/// @throws InputError for a figure below 0 or above 100 %, or figures that add up to more than 100 %
inline void check(const Analysis& a, std::string_view where = "analysis") {
  const std::array<std::pair<std::string_view, double>, 4> all{
      {{"N", a.n}, {"P2O5", a.p2o5}, {"K2O", a.k2o}, {"S", a.s}}};
  double sum = 0.0;
  for (const auto& [name, value] : all) {
    require_in(fmt::format("{}, {}", where, name), value, {0.0, 100.0}, "%");
    sum += value;
  }
  require_in(fmt::format("{}, N + P2O5 + K2O + S", where), sum, {0.0, 100.0}, "%");
}

/// A grade as it stands on a label: "10-34-0", "12-0-0-26S", "9.5-20-0". Three figures N-P2O5-K2O or four with sulfur,
/// mass %, the S after the last one may be left out.
/// @throws InputError for anything else
[[nodiscard]] inline Analysis parse_analysis(std::string_view text, std::string_view where = "analysis") {
  const auto refuse = [&] {
    throw InputError(std::string(where), in_quotes(text) + " is not a grade",
                     "N-P2O5-K2O in mass %, sulfur as a fourth figure, e.g. \"10-34-0\" or \"12-0-0-26S\"");
  };
  std::array<double, 4> figure{};
  std::size_t count = 0;
  const char* at = text.data();
  const char* const end = text.data() + text.size();
  for (;;) {
    if (count == figure.size() || at == end || (*at != '.' && (*at < '0' || *at > '9'))) refuse();
    const auto read = std::from_chars(at, end, figure[count], std::chars_format::fixed);
    if (read.ec != std::errc()) refuse();
    ++count;
    at = read.ptr;
    if (at == end) break;
    if (count == 4 && end - at == 1 && (*at == 'S' || *at == 's')) break;
    if (*at != '-') refuse();
    ++at;
  }
  if (count < 3) refuse();
  const Analysis analysis{figure[0], figure[1], figure[2], figure[3]};
  check(analysis, where);
  return analysis;
}

/// "10-34-0", or "12-0-0-26S" where there is sulfur.
[[nodiscard]] inline std::string grade_text(const Analysis& a) {
  const std::string npk = fmt::format("{:.3g}-{:.3g}-{:.3g}", a.n, a.p2o5, a.k2o);
  return a.s > 0.0 ? fmt::format("{}-{:.3g}S", npk, a.s) : npk;
}

/// Nutrients that a rate of liquid brings: rate x density x mass fraction.
/// @param density  of the liquid at the temperature at which the rate is measured
[[nodiscard]] inline NutrientRates nutrient_rates(AreaRate rate, Density density, const Analysis& analysis) {
  const double liquid = si(rate) * si(density) / 100.0;  // kg/m2 for each per cent
  return {from_si<MassPerArea>(liquid * analysis.n), from_si<MassPerArea>(liquid * analysis.p2o5),
          from_si<MassPerArea>(liquid * analysis.k2o), from_si<MassPerArea>(liquid * analysis.s)};
}

/// Rate of liquid that brings so much of one nutrient.
/// @param percent  of that nutrient by mass, more than 0
/// @throws InputError for a liquid that holds none of it
[[nodiscard]] inline AreaRate rate_for_nutrient(MassPerArea wanted, Density density, double percent) {
  require_in("analysis, nutrient", percent, {1e-6, 100.0}, "%");
  require_in("wanted nutrient", si(wanted), {0.0, 1e3}, "kg/m2");
  return from_si<AreaRate>(si(wanted) / (si(density) * percent / 100.0));
}

}  // namespace libflow
