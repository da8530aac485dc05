// SPDX-License-Identifier: MIT
/// @file
/// A liquid: density, viscosity and vapour pressure against temperature, with the source and the confidence of
/// every figure kept beside it.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/caution.hpp>
#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>
#include <libflow/fluid/figures.hpp>
#include <libflow/fluid/property.hpp>
#include <libflow/fluid/water.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// Temperatures at which a liquid may be asked for [K], -40 to 100 C. Water: from -20 C (water_temperature).
inline constexpr Range liquid_temperature{233.15, 373.15};
/// Densities accepted as a figure [kg/m3]: lighter is no water solution, heavier no fertilizer.
inline constexpr Range liquid_density{500.0, 3000.0};
/// Viscosities accepted as a figure [Pa s]: a tenth of water's to a thick suspension's.
inline constexpr Range liquid_viscosity{1e-4, 100.0};
/// Published densities further apart than this fraction raise the caution "densities-conflict".
inline constexpr double density_conflict_limit = 0.005;
/// A weighed density further than this fraction from every other figure raises "weighed-density-differs" (common
/// practice, no source: twice the spread of the published figures of one product).
inline constexpr double weighed_density_limit = 0.02;

/// A liquid at one temperature: the plain SI numbers that parts are lowered with.
struct LiquidState {
  std::string name;                                         ///< in full
  double temperature = 293.15;                              ///< K
  double density = 998.2;                                   ///< kg/m3
  double viscosity = 1.0016e-3;                             ///< Pa s (dynamic)
  double vapour_pressure = 0;                               ///< Pa absolute; of water: an upper bound for a solution
  Confidence density_confidence = Confidence::published;    ///< how well the density is known
  Confidence viscosity_confidence = Confidence::published;  ///< how well the viscosity is known
  std::optional<double> density_low, density_high;      ///< kg/m3, spread of the figures, brought to this temperature
  std::optional<double> viscosity_low, viscosity_high;  ///< Pa s, band of the figures, where they have one
  std::string density_source, viscosity_source;         ///< keys into sources(), comma-separated
  Cautions cautions;                                    ///< e.g. below salt-out, outside the measured temperatures
};

/// A liquid that flows with one viscosity whatever the shear (Newtonian), from water to a polyphosphate solution.
///
/// **Which figure is used.** Every figure stays visible in record(); figures of the best confidence are used: the
/// user's own, else published, else derived, else common practice, else memory.
///
/// *Density.* If the best figures state two different temperatures or more, the figures that state one are fitted with
/// a straight line in temperature by least squares. Otherwise the first listed is used, at its own temperature or, if
/// it states none, at 60 F; its slope comes from the lower-ranked figures if they give one, else from
/// LiquidRecord::density_slope, else the density is held constant. Where the best figures differ from the result by
/// more than 0.5 % the caution "densities-conflict" names them.
///
/// *Viscosity.* ln(viscosity) against 1/T, a straight line between neighbouring points (temperature in kelvin). A
/// single best point keeps its value and takes its shape from the lower-ranked points; if there are none, from water's
/// mean slope from 0 to 40 C (ln mu rises by about 2160 K times the change of 1/T), with the caution
/// "one-point-viscosity" away from it. Outside the points' temperatures the end segment goes on, with the caution
/// "outside-measured". A liquid without any viscosity point is refused, never guessed.
///
/// *Vapour pressure* is that of pure water: salts and urea only lower it, so it is an upper bound for the water in a
/// solution. Dissolved ammonia or air is not counted.
class Liquid {
 public:
  /// Water, by the IAPWS formulas.
  Liquid() : Liquid(water_record()) {}

  /// @throws InputError naming the figure: empty name, no density, a value outside liquid_density, liquid_viscosity or
  ///         liquid_temperature, a band that does not hold its value, a viscosity without a temperature, two equally
  ///         ranked viscosities at one temperature.
  explicit Liquid(LiquidRecord record) : record_(std::move(record)) {
    check();
    build_density();
    build_viscosity();
  }

  /// The user's own liquid by measured points. Viscosity may be left empty, but then only density can be asked for.
  /// @throws InputError as the constructor
  [[nodiscard]] static Liquid from_points(std::string name, const std::vector<MeasuredDensity>& density,
                                          const std::vector<MeasuredViscosity>& viscosity) {
    LiquidRecord record;
    record.id = name;
    record.name = std::move(name);
    for (const MeasuredDensity& d : density) record.density.push_back(point(d));
    for (const MeasuredViscosity& v : viscosity) record.viscosity.push_back(point(v));
    return Liquid(std::move(record));
  }

  /// The same liquid with weighed densities in place of the default; the other figures stay visible, and give the
  /// slope against temperature when only one was weighed. Earlier weighed figures are dropped.
  [[nodiscard]] Liquid with_density(const std::vector<MeasuredDensity>& weighed) const {
    if (weighed.empty()) throw InputError(place("weighed density"), "none given", "at least one figure");
    LiquidRecord record = record_;
    replace_user_points(record.density, weighed);
    return Liquid(std::move(record));
  }
  /// The same liquid with a density of the user's own.
  /// @param at  where it was weighed; empty: not stated
  /// @throws InputError as the constructor
  [[nodiscard]] Liquid with_density(Density weighed, std::optional<Temperature> at = std::nullopt) const {
    return with_density(std::vector<MeasuredDensity>{{weighed, at}});
  }

  /// The same liquid with measured viscosities in place of the default; the other figures stay visible, and give the
  /// shape against temperature when only one was measured. Earlier measured figures are dropped.
  [[nodiscard]] Liquid with_viscosity(const std::vector<MeasuredViscosity>& measured) const {
    if (measured.empty()) throw InputError(place("measured viscosity"), "none given", "at least one figure");
    LiquidRecord record = record_;
    replace_user_points(record.viscosity, measured);
    return Liquid(std::move(record));
  }
  /// With one viscosity of the user's own: the shape of the curve stays.
  /// @throws InputError as the constructor
  [[nodiscard]] Liquid with_viscosity(Viscosity measured, Temperature at) const {
    return with_viscosity(std::vector<MeasuredViscosity>{{measured, at}});
  }

  /// Everything known, used or not.
  [[nodiscard]] const LiquidRecord& record() const noexcept { return record_; }
  /// Short name, e.g. "uan28".
  [[nodiscard]] const std::string& id() const noexcept { return record_.id; }
  /// Name in full.
  [[nodiscard]] const std::string& name() const noexcept { return record_.name; }
  /// Other names by which it is found.
  [[nodiscard]] const std::vector<std::string>& aliases() const noexcept { return record_.aliases; }
  /// Nutrients by mass; empty where not known.
  [[nodiscard]] const std::optional<Analysis>& analysis() const noexcept { return record_.analysis; }
  /// Whether at() can be asked; false where nobody has given a viscosity.
  [[nodiscard]] bool has_viscosity() const noexcept { return water_viscosity_ || !viscosity_points_.empty(); }

  /// The state at a temperature: numbers, confidence, sources and cautions.
  /// @param temperature  liquid_temperature, water from -20 C
  /// @throws InputError  outside that range; no viscosity known; figures so contradictory that the curve leaves
  ///                     liquid_density or liquid_viscosity
  [[nodiscard]] LiquidState at(Temperature temperature) const {
    const double t = checked(temperature);
    LiquidState state;
    state.name = record_.name;
    state.temperature = t;
    state.vapour_pressure = water_vapour_pressure(t);
    fill_density(state, t);
    fill_viscosity(state, t);
    caution_cold(state, t);
    return state;
  }

  /// Density only; works for a liquid without a viscosity.
  [[nodiscard]] Density density_at(Temperature temperature) const {
    return from_si<Density>(density_si(checked(temperature)));
  }
  /// @throws InputError when no viscosity is known
  [[nodiscard]] Viscosity viscosity_at(Temperature temperature) const {
    return from_si<Viscosity>(viscosity_si(checked(temperature)));
  }
  /// Pa absolute; of pure water, an upper bound for a solution.
  [[nodiscard]] Pressure vapour_pressure_at(Temperature temperature) const {
    return from_si<Pressure>(water_vapour_pressure(checked(temperature)));
  }

 private:
  static LiquidRecord water_record() {
    LiquidRecord record;
    record.id = "water";
    record.name = "Water";
    record.iapws_water = true;
    record.freezing = PropertyPoint{{}, 273.15, {}, {}, Confidence::published, "IAPWS", ""};
    return record;
  }
  static PropertyPoint point(const MeasuredDensity& d) {
    PropertyPoint p;
    if (d.temperature) p.temperature = si(*d.temperature);
    p.value = si(d.value);
    p.confidence = Confidence::user;
    p.source = "user";
    return p;
  }
  static PropertyPoint point(const MeasuredViscosity& v) {
    return {si(v.temperature), si(v.value), {}, {}, Confidence::user, "user", ""};
  }
  template <class Measured>
  static void replace_user_points(std::vector<PropertyPoint>& points, const std::vector<Measured>& measured) {
    std::erase_if(points, [](const PropertyPoint& p) { return p.confidence == Confidence::user; });
    std::vector<PropertyPoint> all;
    for (const Measured& one : measured) all.push_back(point(one));
    all.insert(all.end(), points.begin(), points.end());
    points = std::move(all);
  }

  [[nodiscard]] std::string place(std::string_view field) const {
    return fmt::format("liquid '{}', {}", record_.id, field);
  }

  /// In celsius, with a hair of slack for the rounding of the offset.
  static void require_temperature(const std::string& where, double kelvin, Range range) {
    require_in(where, kelvin - 273.15, {range.low - 273.15 - 1e-9, range.high - 273.15 + 1e-9}, "C");
  }
  [[nodiscard]] double checked(Temperature temperature) const {
    Range range = liquid_temperature;
    if (water_density_ || water_viscosity_) range.low = water_temperature.low;
    require_temperature(place("temperature"), si(temperature), range);
    return si(temperature);
  }

  void check() const {
    if (record_.name.empty() || record_.id.empty()) throw InputError("liquid", "has no name", "a name");
    if (record_.density.empty() && !record_.iapws_water) {
      throw InputError(place("density"), "none given", "at least one figure, e.g. a weighed density");
    }
    check_points("density point", record_.density, liquid_density, "kg/m3");
    check_points("viscosity point", record_.viscosity, liquid_viscosity, "Pa s");
    check_points("salt-out", record_.salt_out, {200.0, liquid_temperature.high}, "K");
    if (record_.freezing) require_in(place("freezing"), record_.freezing->value, {200.0, liquid_temperature.high}, "K");
    if (record_.density_slope) require_in(place("density slope"), record_.density_slope->value, {-5, 5}, "kg/m3 per K");
    for (std::size_t i = 0; i < record_.viscosity.size(); ++i) {
      const PropertyPoint& p = record_.viscosity[i];
      const std::string where = place(fmt::format("viscosity point {}", i + 1));
      if (!p.temperature) throw InputError(where, "has no temperature", "the temperature at which it was measured");
      for (std::size_t k = 0; k < i; ++k) {
        const PropertyPoint& q = record_.viscosity[k];
        // 0.05 K apart: closer points would set a slope by the error of the thermometer.
        const bool rivals = confidence_rank(q.confidence) == confidence_rank(p.confidence);
        if (rivals && std::abs(*q.temperature - *p.temperature) < 0.05) {
          throw InputError(where, fmt::format("same temperature as point {}, {:.1f} C", k + 1, *p.temperature - 273.15),
                           "one viscosity at each temperature");
        }
      }
    }
  }
  void check_points(std::string_view field, const std::vector<PropertyPoint>& points, Range range,
                    std::string_view unit) const {
    for (std::size_t i = 0; i < points.size(); ++i) {
      const std::string where = place(fmt::format("{} {}", field, i + 1));
      require_in(where, points[i].value, range, unit);
      if (points[i].low) require_in(where + ", low", *points[i].low, {range.low, points[i].value}, unit);
      if (points[i].high) require_in(where + ", high", *points[i].high, {points[i].value, range.high}, unit);
      const std::optional<double>& t = points[i].temperature;
      if (t) require_temperature(where + ", temperature", *t, liquid_temperature);
    }
  }

  void build_density() {
    const bool has_user = std::any_of(record_.density.begin(), record_.density.end(),
                                      [](const PropertyPoint& p) { return p.confidence == Confidence::user; });
    water_density_ = record_.iapws_water && !has_user;
    if (water_density_) return;
    line_ = fluid_detail::density_line(record_.density, record_.density_slope);
    if (record_.iapws_water && line_.used.size() == 1) {
      // Weighed water: its own expansion, scaled to the weighed figure.
      water_density_ = true;
      water_density_factor_ = line_.rho0 / water_density(line_.t0);
    }
  }

  [[nodiscard]] double density_si(double t) const {
    if (water_density_) return water_density_factor_ * water_density(t);
    const double rho = line_(t);
    require_curve("density line", rho, liquid_density, "kg/m3", t);
    return rho;
  }

  /// Figures that contradict each other (a steep line through two close temperatures) must not make absurd numbers.
  void require_curve(std::string_view field, double value, Range range, std::string_view unit, double t) const {
    if (range.contains(value)) return;
    require_in(place(fmt::format("{} carried to {} (check the figures and their temperatures)", field,
                                 fluid_detail::temperature_text(t))),
               value, range, unit);
  }

  void fill_density(LiquidState& state, double t) const {
    state.density = density_si(t);
    if (water_density_ && line_.used.empty()) {
      state.density_source = "SR6-08";
      return;
    }
    state.density_confidence = line_.used.front().confidence;
    state.density_source = fluid_detail::source_keys(line_.used);
    if (!water_density_ && !line_.slope_known && std::abs(t - line_.t0) > 5.0) {
      state.cautions.push_back(
          {"one-point-density", record_.name,
           fmt::format("The density is known at {} only and is held constant at {}; fertilizer solutions lose about "
                       "0.03 % per °F (0.05 % per °C). Weigh a sample at the working temperature.",
                       fluid_detail::temperature_text(line_.t0), fluid_detail::temperature_text(t)),
           t, line_.t0, state.density_source});
    }
    if (state.density_confidence == Confidence::memory) {
      state.cautions.push_back({"unverified-density", record_.name,
                                fmt::format("The density {} is not verified in any document. Weigh a sample.",
                                            fluid_detail::density_text(state.density)),
                                state.density, std::numeric_limits<double>::quiet_NaN(), state.density_source});
    }
    compare_densities(state);
  }

  void compare_densities(LiquidState& state) const {
    const auto [best, rest] = fluid_detail::split_best(record_.density);
    const PropertyPoint* farthest = nullptr;
    double widest = density_conflict_limit;
    std::string others;
    for (const PropertyPoint& p : best) {
      const double ratio = p.value / density_si(fluid_detail::figure_temperature(p));
      if (best.size() > 1) {
        const double here = state.density * ratio;
        state.density_low = std::min(state.density_low.value_or(here), here);
        state.density_high = std::max(state.density_high.value_or(here), here);
      }
      if (std::abs(ratio - 1.0) <= density_conflict_limit) continue;
      others +=
          fmt::format("{}{} at {} [{}] ({:+.1f} %)", others.empty() ? "" : "; ", fluid_detail::density_text(p.value),
                      fluid_detail::figure_temperature_text(p), p.source, 100.0 * (ratio - 1.0));
      if (std::abs(ratio - 1.0) > widest) {
        widest = std::abs(ratio - 1.0);
        farthest = &p;
      }
    }
    if (farthest != nullptr) {
      const double t = fluid_detail::figure_temperature(*farthest);
      state.cautions.push_back(
          {"densities-conflict", record_.name,
           fmt::format("The densities given for this liquid disagree. Used: {} at {} [{}]. Others: {}. Weigh a sample.",
                       fluid_detail::density_text(density_si(t)), fluid_detail::temperature_text(t),
                       state.density_source, others),
           density_si(t), farthest->value, state.density_source + ", " + farthest->source});
    }
    if (best.front().confidence == Confidence::user && !rest.empty()) {
      const auto gap = [&](const PropertyPoint& p) {
        return std::abs(density_si(fluid_detail::figure_temperature(p)) / p.value - 1.0);
      };
      const PropertyPoint& nearest =
          *std::min_element(rest.begin(), rest.end(), [&](const auto& a, const auto& b) { return gap(a) < gap(b); });
      if (gap(nearest) > weighed_density_limit) {
        state.cautions.push_back(
            {"weighed-density-differs", record_.name,
             fmt::format("The weighed density differs by {:.1f} % from the nearest other figure for this liquid, {} "
                         "[{}]. Check the weighing, and that it is this product.",
                         100.0 * gap(nearest), fluid_detail::density_text(nearest.value), nearest.source),
             density_si(fluid_detail::figure_temperature(nearest)), nearest.value, nearest.source});
      }
    }
  }

  void build_viscosity() {
    const auto sorted = [](std::vector<PropertyPoint> points) {
      std::sort(points.begin(), points.end(),
                [](const PropertyPoint& a, const PropertyPoint& b) { return *a.temperature < *b.temperature; });
      return points;
    };
    auto [best, rest] = fluid_detail::split_best(record_.viscosity);
    const bool has_user = !best.empty() && best.front().confidence == Confidence::user;
    if (record_.iapws_water && !(has_user && best.size() > 1)) {
      water_viscosity_ = true;
      if (has_user) {
        viscosity_points_ = best;
        water_viscosity_factor_ = best.front().value / water_viscosity(*best.front().temperature);
      }
      return;
    }
    viscosity_points_ = sorted(std::move(best));
    if (viscosity_points_.size() == 1 && !rest.empty()) {
      const auto shape = fluid_detail::split_best(rest).first;
      if (shape.size() > 1) viscosity_shape_ = sorted(shape);
    }
  }

  [[nodiscard]] double viscosity_si(double t) const {
    if (water_viscosity_) return water_viscosity_factor_ * water_viscosity(t);
    const double mu = curve_viscosity(t);
    require_curve("viscosity curve", mu, liquid_viscosity, "Pa s", t);
    return mu;
  }

  [[nodiscard]] double curve_viscosity(double t) const {
    if (viscosity_points_.empty()) {
      throw InputError(
          place("viscosity"), "none is known for this liquid, and it is never guessed",
          "one measured viscosity or more, each with its temperature; in a layout file the lines " + viscosity_lines());
    }
    const auto value = [](const PropertyPoint& p) { return p.value; };
    if (viscosity_points_.size() > 1) return fluid_detail::interpolate_viscosity(viscosity_points_, t, value);
    const PropertyPoint& only = viscosity_points_.front();
    if (!viscosity_shape_.empty()) {
      return only.value * fluid_detail::interpolate_viscosity(viscosity_shape_, t, value) /
             fluid_detail::interpolate_viscosity(viscosity_shape_, *only.temperature, value);
    }
    return only.value * std::exp(fluid_detail::water_viscosity_slope() * (1.0 / t - 1.0 / *only.temperature));
  }

  void fill_viscosity(LiquidState& state, double t) const {
    state.viscosity = viscosity_si(t);
    if (water_viscosity_) {
      state.viscosity_confidence = viscosity_points_.empty() ? Confidence::published : Confidence::user;
      state.viscosity_source = viscosity_points_.empty() ? "SR6-08" : "user";
      return;
    }
    state.viscosity_confidence = viscosity_points_.front().confidence;
    state.viscosity_source = fluid_detail::source_keys(viscosity_points_);
    fill_band(state, t);
    const PropertyPoint& coldest = viscosity_points_.front();
    const PropertyPoint& warmest = viscosity_points_.back();
    const auto caution = [&](const char* code, std::string text, double value, double limit) {
      state.cautions.push_back({code, record_.name, std::move(text), value, limit, state.viscosity_source});
    };
    if (viscosity_points_.size() == 1) {
      if (std::abs(t - *coldest.temperature) > 0.5) {
        caution("one-point-viscosity",
                fmt::format("The viscosity is known at {} only; at {} it is {} by {}. Thick liquids thicken faster in "
                            "the cold than water does: measure at the coldest working temperature.",
                            fluid_detail::temperature_text(*coldest.temperature), fluid_detail::temperature_text(t),
                            fluid_detail::viscosity_text(state.viscosity),
                            viscosity_shape_.empty()
                                ? std::string("the slope of water")
                                : "the slope of unmeasured figures [" + viscosity_shape_.front().source + "]"),
                t, *coldest.temperature);
      }
    } else if (t < *coldest.temperature - 1e-6 || t > *warmest.temperature + 1e-6) {
      caution("outside-measured",
              fmt::format("{} is outside the temperatures of the viscosity points, {} to {}; the end segment of "
                          "ln(viscosity) against 1/T was carried on.",
                          fluid_detail::temperature_text(t), fluid_detail::temperature_text(*coldest.temperature),
                          fluid_detail::temperature_text(*warmest.temperature)),
              t, t < *coldest.temperature ? *coldest.temperature : *warmest.temperature);
    }
    for (std::size_t i = 1; i < viscosity_points_.size(); ++i) {
      if (viscosity_points_[i].value <= viscosity_points_[i - 1].value) continue;
      caution("viscosity-rises",
              fmt::format("The viscosity points rise from {} at {} to {} at {}; liquids thin as they warm. Check them.",
                          fluid_detail::viscosity_text(viscosity_points_[i - 1].value),
                          fluid_detail::temperature_text(*viscosity_points_[i - 1].temperature),
                          fluid_detail::viscosity_text(viscosity_points_[i].value),
                          fluid_detail::temperature_text(*viscosity_points_[i].temperature)),
              viscosity_points_[i].value, viscosity_points_[i - 1].value);
      break;
    }
    caution_confidence(state);
  }

  void fill_band(LiquidState& state, double t) const {
    for (const PropertyPoint& p : viscosity_points_) {
      if (!p.low || !p.high) return;
    }
    const PropertyPoint& first = viscosity_points_.front();
    if (viscosity_points_.size() == 1) {
      state.viscosity_low = state.viscosity * (*first.low / first.value);
      state.viscosity_high = state.viscosity * (*first.high / first.value);
      return;
    }
    // Ratios first: an end that is the likely value is it to the last digit.
    // The band is carried on as ratios that stay within those of the points: beyond them it must not close or cross.
    const double inside = std::clamp(t, *first.temperature, *viscosity_points_.back().temperature);
    const auto get = [&](auto figure) {
      return fluid_detail::interpolate_viscosity(viscosity_points_, inside, figure);
    };
    const double middle = get([](const PropertyPoint& p) { return p.value; });
    state.viscosity_low = state.viscosity * (get([](const PropertyPoint& p) { return *p.low; }) / middle);
    state.viscosity_high = state.viscosity * (get([](const PropertyPoint& p) { return *p.high; }) / middle);
  }

  /// How a measured viscosity is given in a layout file; the figures are only an example.
  static std::string viscosity_lines() {
    return "[product] and viscosity = [[\"40 F\", \"... cP\"], [\"70 F\", \"... cP\"]]";
  }

  void caution_confidence(LiquidState& state) const {
    if (state.viscosity_confidence == Confidence::user || state.viscosity_confidence == Confidence::published) return;
    const std::string band = state.viscosity_low ? fmt::format(", somewhere from {} to {}",
                                                               fluid_detail::viscosity_text(*state.viscosity_low),
                                                               fluid_detail::viscosity_text(*state.viscosity_high))
                                                 : std::string();
    const bool derived = state.viscosity_confidence == Confidence::derived;
    state.cautions.push_back(
        {derived ? "estimated-viscosity" : "unverified-viscosity", record_.name,
         fmt::format("The viscosity {}{} is {}. Measure yours; in a layout file it stands in the lines {}.",
                     fluid_detail::viscosity_text(state.viscosity), band,
                     derived ? "computed, not measured" : "not verified in any document", viscosity_lines()),
         state.viscosity, state.viscosity_high.value_or(std::numeric_limits<double>::quiet_NaN()),
         state.viscosity_source});
  }

  void caution_cold(LiquidState& state, double t) const {
    if (record_.freezing && t < record_.freezing->value - 1e-6) {
      state.cautions.push_back(
          {"below-freezing", record_.name,
           fmt::format("{} is below the freezing point, {}: ice blocks and bursts plumbing.",
                       fluid_detail::temperature_text(t), fluid_detail::temperature_text(record_.freezing->value)),
           t, record_.freezing->value, record_.freezing->source});
    }
    const PropertyPoint* warmest = nullptr;  // the most careful of the published figures
    std::string figures;
    for (const PropertyPoint& p : record_.salt_out) {
      if (warmest == nullptr || p.value > warmest->value) warmest = &p;
      figures +=
          fmt::format("{}{} [{}]", figures.empty() ? "" : "; ", fluid_detail::temperature_text(p.value), p.source);
    }
    if (warmest != nullptr && t < warmest->value - 1e-6) {
      state.cautions.push_back({"below-salt-out", record_.name,
                                fmt::format("{} is below the salt-out temperature ({}): crystals settle and plug "
                                            "orifices and strainers.",
                                            fluid_detail::temperature_text(t), figures),
                                t, warmest->value, fluid_detail::source_keys(record_.salt_out)});
    }
  }

  LiquidRecord record_;
  fluid_detail::DensityLine line_;  // empty `used`: water's formula alone
  bool water_density_ = false, water_viscosity_ = false;
  double water_density_factor_ = 1, water_viscosity_factor_ = 1;
  std::vector<PropertyPoint> viscosity_points_;  // in use, sorted by temperature
  std::vector<PropertyPoint> viscosity_shape_;   // gives one measured point its slope; may be empty
};

}  // namespace libflow
