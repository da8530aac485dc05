// SPDX-License-Identifier: MIT
/// @file
/// From single figures to a curve against temperature: the rules that a Liquid follows, and their words for messages.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/fluid/property.hpp>
#include <libflow/fluid/water.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// The trade's reference temperature for lb/gal, 60 F [K]; figures printed without one are taken here (common
/// practice, no source).
inline constexpr double trade_reference_temperature = 288.7055555555556;

namespace fluid_detail {

// Whoever reads these chose neither system of units: both are given, US first, as in parts/words.hpp.

/// "60 °F (15.6 °C)"
inline std::string temperature_text(double kelvin) {
  // Adding zero turns a rounded minus zero into zero.
  return fmt::format("{:.0f} °F ({:.1f} °C)", std::round(kelvin * 1.8 - 459.67) + 0.0,
                     std::round(10.0 * (kelvin - 273.15)) / 10.0 + 0.0);
}
/// "11.65 lb/gal (1396 kg/m3)"
inline std::string density_text(double rho) {
  return fmt::format("{:.2f} lb/gal ({:.0f} kg/m3)", rho / si(units::lb_per_gal), rho);
}
/// "119 cP"; one cP is one mPa s, so one number serves both systems.
inline std::string viscosity_text(double mu) {
  return mu < 1.0 ? fmt::format("{:.3g} cP", 1e3 * mu) : fmt::format("{:.0f} cP", 1e3 * mu);
}

/// The keys of the sources of some points, each once, comma-separated.
inline std::string source_keys(const std::vector<PropertyPoint>& points) {
  std::vector<std::string> seen;
  for (const PropertyPoint& p : points) {
    if (std::find(seen.begin(), seen.end(), p.source) == seen.end()) seen.push_back(p.source);
  }
  std::string text;
  for (const std::string& key : seen) text += (text.empty() ? "" : ", ") + key;
  return text;
}

/// The best-ranked points into `.first`, the rest into `.second`; order kept.
inline std::pair<std::vector<PropertyPoint>, std::vector<PropertyPoint>> split_best(
    const std::vector<PropertyPoint>& points) {
  std::pair<std::vector<PropertyPoint>, std::vector<PropertyPoint>> parts;
  int best = 99;
  for (const PropertyPoint& p : points) best = std::min(best, confidence_rank(p.confidence));
  for (const PropertyPoint& p : points) {
    (confidence_rank(p.confidence) == best ? parts.first : parts.second).push_back(p);
  }
  return parts;
}

/// Slope of water's own ln(mu) against 1/T [K], the mean from 0 to 40 C (about 2160 K).
inline double water_viscosity_slope() {
  return std::log(water_viscosity(273.15) / water_viscosity(313.15)) / (1.0 / 273.15 - 1.0 / 313.15);
}

/// ln(mu) against 1/T, a straight line between neighbouring points; outside, the end segment goes on.
/// `points` are sorted by temperature, at least two; `get` takes the figure from a point.
template <class Get>
double interpolate_viscosity(const std::vector<PropertyPoint>& points, double t, Get get) {
  std::size_t i = 1;
  while (i + 1 < points.size() && t > *points[i].temperature) ++i;
  const double x0 = 1.0 / *points[i - 1].temperature, x1 = 1.0 / *points[i].temperature;
  const double y0 = std::log(get(points[i - 1])), y1 = std::log(get(points[i]));
  return std::exp(y0 + (y1 - y0) * (1.0 / t - x0) / (x1 - x0));
}

/// The temperature of a density figure [K].
inline double figure_temperature(const PropertyPoint& p) { return p.temperature.value_or(trade_reference_temperature); }

/// "60 °F (15.6 °C)", or words for a figure that states no temperature.
inline std::string figure_temperature_text(const PropertyPoint& p) {
  return p.temperature ? temperature_text(*p.temperature) : std::string("a temperature not stated, taken as 60 °F");
}

/// Density against temperature: rho(T) = rho0 + slope (T - t0) [kg/m3].
struct DensityLine {
  double t0 = 0, rho0 = 0, slope = 0;
  bool slope_known = false;         ///< false: held constant
  std::vector<PropertyPoint> used;  ///< the figures that set it
  [[nodiscard]] double operator()(double t) const { return rho0 + slope * (t - t0); }
};

/// The line of the best-ranked figures (not empty), by the rule in Liquid's docstring.
/// @param fallback_slope  kg/m3 per K, for figures that give no slope themselves; empty: constant density
inline DensityLine density_line(const std::vector<PropertyPoint>& points,
                                const std::optional<PropertyPoint>& fallback_slope) {
  const auto [best, rest] = split_best(points);
  DensityLine line;
  for (const PropertyPoint& p : best) {
    if (p.temperature) line.used.push_back(p);
  }
  const double count = static_cast<double>(line.used.size());
  double tt = 0, td = 0;
  for (const PropertyPoint& p : line.used) {
    line.t0 += *p.temperature / count;
    line.rho0 += p.value / count;
  }
  for (const PropertyPoint& p : line.used) {
    tt += (*p.temperature - line.t0) * (*p.temperature - line.t0);
    td += (*p.temperature - line.t0) * (p.value - line.rho0);
  }
  // Two figures a kelvin apart at least: a slope from closer ones would be the error of the scale.
  if (count >= 2 && tt >= 0.5) {
    line.slope = td / tt;
    line.slope_known = true;
    return line;
  }
  const PropertyPoint first = line.used.empty() ? best.front() : line.used.front();
  line.used = {first};
  line.t0 = figure_temperature(first);
  line.rho0 = first.value;
  if (!rest.empty()) {
    const DensityLine other = density_line(rest, fallback_slope);
    line.slope = other.slope * line.rho0 / other(line.t0);
    line.slope_known = other.slope_known;
  } else if (fallback_slope) {
    line.slope = fallback_slope->value;
    line.slope_known = true;
  }
  return line;
}

}  // namespace fluid_detail

}  // namespace libflow
