// SPDX-License-Identifier: MIT
/// @file
/// What sizing may choose from, over which operating points, and within which limits.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/study/pressure_limit.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// How hoses are cut.
enum class Cut {
  equal,       ///< all as long as the longest run
  shortest,    ///< each as short as its run
  rounded,     ///< each run rounded up to a step
  two_lengths  ///< two lengths; every way to split the rows between them is tried
};
/// In words.
[[nodiscard]] constexpr std::string_view name_of(Cut cut) {
  switch (cut) {
    case Cut::equal:
      return "equal";
    case Cut::shortest:
      return "shortest";
    case Cut::rounded:
      return "rounded";
    case Cut::two_lengths:
      return "two lengths";
  }
  return "unknown";
}

/// "middle", "left", "right" or "both_ends", as in a layout file.
[[nodiscard]] constexpr std::string_view name_of(ManifoldFeed feed) {
  switch (feed) {
    case ManifoldFeed::middle:
      return "middle";
    case ManifoldFeed::left:
      return "left";
    case ManifoldFeed::right:
      return "right";
    case ManifoldFeed::both_ends:
      return "both_ends";
  }
  return "unknown";
}

/// Rows that get one orifice.
struct RowGroup {
  std::string name{};       ///< for reports
  std::vector<int> rows{};  ///< 1-based
};

/// Orifice bores to choose from where the user gives none, 0.40 to 3.15 mm. The steps are ours, by preferred numbers:
/// each bore is about 12 % and passes about 26 % more than the one before. Source of the numbers: ISO 3, series R 20
/// (from memory).
[[nodiscard]] std::vector<OrificeChoice> generic_orifices();

/// What sizing may choose from. An empty list: as the layout has it, but for orifices and cuts.
struct SizeChoices {
  std::vector<OrificeChoice> orifices{};  ///< empty: generic_orifices()
  std::vector<RowGroup> groups{};     ///< each with an orifice of its own, besides all other rows; empty: one for all
  std::vector<Length> hose_bores{};   ///< of all rows' hoses
  std::vector<double> hose_prices{};  ///< a metre of each of hose_bores, any money; empty: the least hose is the best
  std::vector<Cut> cuts{};            ///< empty: all four
  Length step = from_si<Length>(2.0 * 0.3048);  ///< Cut::rounded, 1 cm to 100 m
  std::optional<Length> extra = std::nullopt;   ///< drop to the row and slack on every run; empty: the layout's
  /// Every cut is rounded up to a multiple of this, 0 (as the runs are) to 1 m; empty: an inch, or a centimetre in a
  /// metric layout, as one reads it from a tape (cut_length.hpp). Cut::rounded has its own step.
  std::optional<Length> cut_to = std::nullopt;
  std::vector<Length> manifold_bores{};  ///< of all manifolds
  std::vector<ManifoldFeed> feeds{};     ///< of all manifolds
  std::vector<Pressure> cracks{};        ///< of all check valves

  /// The corners at which everything has to hold: every combination. Empty: the layout's range, or its job.
  std::vector<Speed> speeds{};
  std::vector<AreaRate> rates{};            ///< wanted, per area
  std::vector<Temperature> temperatures{};  ///< of the product
  std::vector<Angle> side_slopes{};         ///< of the bar

  /// Window of the gauge pressure (common practice, no source: 10 to 60 psi).
  Pressure least_pressure = from_si<Pressure>(10.0 * 6894.757293168);
  Pressure most_pressure = from_si<Pressure>(assumed_pressure_limit);  ///< upper end of that window

  /// Limits of good practice (LimitKind::advised: line velocity, pump reserve, relief valve shut) count too.
  bool good_practice = false;
  /// The winner is verified at so many speeds and rates from the least to the most of the lists, 1 to 50, and at about
  /// half as many temperatures and side slopes; 1: at the points of the lists only.
  std::size_t verify = 9;
};

/// One operating point.
struct WorkingPoint {
  Speed speed{};              ///< over ground
  AreaRate rate{};            ///< wanted, per area
  Temperature temperature{};  ///< of the product
  Angle side_slope{};         ///< of the bar
};

/// What can stand in the way of a choice.
enum class SizeLimit {
  evenness,
  row_dry,
  least_pressure,
  most_pressure,
  pump,
  hose_rating,
  orifice_least,
  orifice_most,
  metering,    ///< the orifice's share of a row's pressure: below it the hose meters (layout_doubts.hpp)
  supply_line  ///< one of `limits.hpp` from the tank to the rows; SizeBinding::name says which
};
/// In words.
[[nodiscard]] constexpr std::string_view name_of(SizeLimit limit) {
  switch (limit) {
    case SizeLimit::evenness:
      return "evenness";
    case SizeLimit::row_dry:
      return "a row without flow";
    case SizeLimit::least_pressure:
      return "least gauge pressure";
    case SizeLimit::most_pressure:
      return "most gauge pressure";
    case SizeLimit::pump:
      return "pump";
    case SizeLimit::hose_rating:
      return "hose rating";
    case SizeLimit::orifice_least:
      return "least orifice drop";
    case SizeLimit::orifice_most:
      return "most orifice drop";
    case SizeLimit::metering:
      return "metering by the orifice";
    case SizeLimit::supply_line:
      return "supply line";
  }
  return "unknown";
}

/// The limit that a choice comes nearest to, or oversteps most.
struct SizeBinding {
  SizeLimit limit = SizeLimit::evenness;  ///< which
  std::size_t point = 0;                  ///< of SizeProblem::points
  int row = 0;                            ///< 0: the whole bar
  double value = 0;                       ///< evenness, metering, row_dry: share [-]; supply_line: [unit]; else [Pa]
  double allowed = 0;                     ///< the same
  double use = 0;      ///< share of the limit that is used up [-]: 1 is at the limit, more oversteps it
  std::string name{};  ///< supply_line: as find_limits names it, and its part
  std::string unit{};  ///< supply_line: of value and allowed, SI
};

}  // namespace libflow
