// SPDX-License-Identifier: MIT
/// @file
/// The figures that a liquid is made of: published or measured points, each with its source and its confidence.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/units/quantity.hpp>

namespace libflow {

/// How much a figure can be trusted.
enum class Confidence {
  published,        ///< seen in a published source
  derived,          ///< computed from published inputs, not a measurement
  memory,           ///< recalled, not verified in a document
  common_practice,  ///< a rule of the trade without a source
  user              ///< given by the user (a weighed or measured figure)
};

/// Confidence in a word or two, for reports.
[[nodiscard]] inline std::string_view to_text(Confidence confidence) {
  switch (confidence) {
    case Confidence::published:
      return "published";
    case Confidence::derived:
      return "derived, not measured";
    case Confidence::memory:
      return "memory, not verified";
    case Confidence::common_practice:
      return "common practice, no source";
    case Confidence::user:
      return "measured by the user";
  }
  return "unknown";
}

/// Order of preference: 0 is best. The user's own measurement outranks print, print outranks everything else.
[[nodiscard]] inline int confidence_rank(Confidence confidence) {
  switch (confidence) {
    case Confidence::user:
      return 0;
    case Confidence::published:
      return 1;
    case Confidence::derived:
      return 2;
    case Confidence::common_practice:
      return 3;
    case Confidence::memory:
      return 4;
  }
  return 5;
}

/// One published (or given) figure of a property.
struct PropertyPoint {
  std::optional<double> temperature;  ///< K; empty where the source states none
  double value = 0;                   ///< SI: kg/m3, Pa s, K (salt-out); a plain number for pH and salt index
  std::optional<double> low, high;    ///< band in the same unit, where the source gives one
  Confidence confidence = Confidence::published;  ///< how well it is known
  std::string source;                             ///< key into sources()
  std::string note;                               ///< remark of the source or about it; may be empty
};

/// Guaranteed analysis, mass %: phosphorus and potassium as oxides, as the trade writes it.
struct Analysis {
  double n = 0;     ///< nitrogen, N
  double p2o5 = 0;  ///< phosphate, P2O5
  double k2o = 0;   ///< potash, K2O
  double s = 0;     ///< sulfur, S
};

/// Everything that is known about a liquid, as data. A Liquid checks it and works with it.
struct LiquidRecord {
  std::string id;                         ///< short fixed name, e.g. "uan28"
  std::string name;                       ///< for people
  std::vector<std::string> aliases;       ///< other names, e.g. the grade "28-0-0"
  std::optional<Analysis> analysis;       ///< empty: none (water) or not given
  bool urea = false;                      ///< part of its nitrogen is urea: gives off ammonia beside a seed
  bool thiosulfate = false;               ///< harms seed and seedlings beside it
  bool iapws_water = false;               ///< density and viscosity by the formulas of water.hpp
  std::vector<PropertyPoint> density;     ///< kg/m3, every figure known, in order of preference within a confidence
  std::vector<PropertyPoint> viscosity;   ///< Pa s, each with a temperature
  std::vector<PropertyPoint> salt_out;    ///< K, temperature at which crystals form
  std::optional<PropertyPoint> freezing;  ///< K, for water
  std::optional<PropertyPoint> density_slope;  ///< kg/m3 per K, used when the figures give no slope themselves
  std::optional<PropertyPoint> ph;             ///< -
  std::optional<PropertyPoint> salt_index;     ///< sodium nitrate = 100; ranks products, not rates
  std::optional<PropertyPoint> water_percent;  ///< mass %
  std::vector<std::string> notes;              ///< composition and remarks, plain words
};

/// A weighed density of the user's own liquid, and the temperature at which it was weighed (empty: not known, taken as
/// the trade's 60 F).
struct MeasuredDensity {
  Density value;                           ///< as weighed
  std::optional<Temperature> temperature;  ///< empty: not stated
};

/// A measured viscosity of the user's own liquid.
struct MeasuredViscosity {
  Viscosity value;          ///< dynamic, as measured
  Temperature temperature;  ///< at which it was measured
};

}  // namespace libflow
