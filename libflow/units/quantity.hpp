// SPDX-License-Identifier: MIT
/// @file
/// Typed SI quantities and the constants a person writes them with: `14.0 * ft`, `0.375 * inch`, `30.0 * psi`.
///
/// Types are Boost.Units quantities in SI dimensions; a bare number, or a quantity of another dimension, does not
/// convert to them. Conversion factors are exact by definition: international foot 0.3048 m, pound 0.45359237 kg,
/// US gallon 231 in3, acre 43,560 ft2 (NIST Special Publication 811, 2008 edition, appendix B; from memory, all
/// exact definitions), standard gravity 9.80665 m/s2 (same).
#pragma once

#include <cmath>
#include <numbers>

#include <boost/units/base_dimension.hpp>
#include <boost/units/base_unit.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/acceleration.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/dynamic_viscosity.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/plane_angle.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <boost/units/systems/si/surface_density.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>
#include <boost/units/systems/si/velocity.hpp>
#include <boost/units/systems/si/volume.hpp>

namespace libflow {

namespace units_detail {
namespace bu = boost::units;
// Volume per field area would be a length by dimension; a dimension of its own keeps 10 gal/ac out of a hose length.
struct area_rate_dimension_tag : bu::base_dimension<area_rate_dimension_tag, 7301> {};
using area_rate_dimension = area_rate_dimension_tag::dimension_type;
struct area_rate_base_unit : bu::base_unit<area_rate_base_unit, area_rate_dimension, 7302> {
  static const char* name() { return "cubic metre per square metre of field"; }
  static const char* symbol() { return "m3/m2"; }
};
using flow_dimension = bu::derived_dimension<bu::length_base_dimension, 3, bu::time_base_dimension, -1>::type;
}  // namespace units_detail

using Length = boost::units::quantity<boost::units::si::length>;         ///< m
using Area = boost::units::quantity<boost::units::si::area>;             ///< m2
using Volume = boost::units::quantity<boost::units::si::volume>;         ///< m3
using Time = boost::units::quantity<boost::units::si::time>;             ///< s
using Speed = boost::units::quantity<boost::units::si::velocity>;        ///< m/s
using Mass = boost::units::quantity<boost::units::si::mass>;             ///< kg
using Pressure = boost::units::quantity<boost::units::si::pressure>;     ///< Pa; gauge unless a name says absolute
using Density = boost::units::quantity<boost::units::si::mass_density>;  ///< kg/m3
using Viscosity = boost::units::quantity<boost::units::si::dynamic_viscosity>;  ///< Pa s
using Temperature = boost::units::quantity<boost::units::si::temperature>;      ///< K (absolute)
using Angle = boost::units::quantity<boost::units::si::plane_angle>;            ///< rad
using MassPerArea = boost::units::quantity<boost::units::si::surface_density>;  ///< kg per m2 of field
/// m3/s
using Flow = boost::units::quantity<boost::units::unit<units_detail::flow_dimension, boost::units::si::system>>;
/// m3 of liquid per m2 of field; its own dimension, not a length
using AreaRate = boost::units::quantity<units_detail::area_rate_base_unit::unit_type>;

/// The plain SI number inside a quantity.
template <class Unit>
[[nodiscard]] constexpr double si(const boost::units::quantity<Unit>& q) {
  return q.value();
}
/// A quantity from its plain SI number.
template <class Quantity>
[[nodiscard]] constexpr Quantity from_si(double value) {
  return Quantity::from_value(value);
}

/// Standard gravity [m/s2].
inline constexpr double standard_gravity = 9.80665;

/// Units to multiply with, in the trade's spelling.
namespace units {

inline constexpr Length m = from_si<Length>(1.0);        ///< metre
inline constexpr Length cm = from_si<Length>(0.01);      ///< centimetre
inline constexpr Length mm = from_si<Length>(0.001);     ///< millimetre
inline constexpr Length ft = from_si<Length>(0.3048);    ///< foot
inline constexpr Length inch = from_si<Length>(0.0254);  ///< inch

inline constexpr Area m2 = from_si<Area>(1.0);                          ///< square metre
inline constexpr Area ha = from_si<Area>(1e4);                          ///< hectare
inline constexpr Area acre = from_si<Area>(43560.0 * 0.3048 * 0.3048);  ///< acre, 43,560 square feet

inline constexpr Volume m3 = from_si<Volume>(1.0);   ///< cubic metre
inline constexpr Volume L = from_si<Volume>(1e-3);   ///< litre
inline constexpr Volume mL = from_si<Volume>(1e-6);  ///< millilitre
/// US gallon, 231 cubic inches
inline constexpr Volume gal = from_si<Volume>(231.0 * 0.0254 * 0.0254 * 0.0254);
/// US fluid ounce
inline constexpr Volume floz = from_si<Volume>(231.0 * 0.0254 * 0.0254 * 0.0254 / 128.0);

inline constexpr Time s = from_si<Time>(1.0);        ///< second
inline constexpr Time minute = from_si<Time>(60.0);  ///< minute
inline constexpr Time hour = from_si<Time>(3600.0);  ///< hour

inline constexpr Speed m_per_s = from_si<Speed>(1.0);                   ///< metre per second
inline constexpr Speed kmh = from_si<Speed>(1000.0 / 3600.0);           ///< kilometre per hour
inline constexpr Speed mph = from_si<Speed>(5280.0 * 0.3048 / 3600.0);  ///< mile per hour

inline constexpr Mass kg = from_si<Mass>(1.0);         ///< kilogram
inline constexpr Mass lb = from_si<Mass>(0.45359237);  ///< pound

inline constexpr Pressure Pa = from_si<Pressure>(1.0);   ///< pascal
inline constexpr Pressure kPa = from_si<Pressure>(1e3);  ///< kilopascal
inline constexpr Pressure bar = from_si<Pressure>(1e5);  ///< bar
/// Pound-force per square inch.
inline constexpr Pressure psi = from_si<Pressure>(0.45359237 * 9.80665 / (0.0254 * 0.0254));

inline constexpr Flow m3_per_s = from_si<Flow>(1.0);            ///< cubic metre per second
inline constexpr Flow L_per_min = from_si<Flow>(1e-3 / 60.0);   ///< litre per minute
inline constexpr Flow mL_per_min = from_si<Flow>(1e-6 / 60.0);  ///< millilitre per minute
/// US gallon per minute
inline constexpr Flow gpm = from_si<Flow>(231.0 * 0.0254 * 0.0254 * 0.0254 / 60.0);

inline constexpr AreaRate L_per_ha = from_si<AreaRate>(1e-7);  ///< litre per hectare
/// US gallon per acre
inline constexpr AreaRate gal_per_acre =
    from_si<AreaRate>(231.0 * 0.0254 * 0.0254 * 0.0254 / (43560.0 * 0.3048 * 0.3048));

inline constexpr Density kg_per_m3 = from_si<Density>(1.0);  ///< kilogram per cubic metre
/// Pound per US gallon.
inline constexpr Density lb_per_gal = from_si<Density>(0.45359237 / (231.0 * 0.0254 * 0.0254 * 0.0254));

inline constexpr Viscosity Pa_s = from_si<Viscosity>(1.0);    ///< pascal second
inline constexpr Viscosity mPa_s = from_si<Viscosity>(1e-3);  ///< millipascal second
inline constexpr Viscosity cP = from_si<Viscosity>(1e-3);     ///< centipoise: a millipascal second

inline constexpr Angle rad = from_si<Angle>(1.0);                       ///< radian
inline constexpr Angle deg = from_si<Angle>(std::numbers::pi / 180.0);  ///< degree

inline constexpr MassPerArea kg_per_ha = from_si<MassPerArea>(1e-4);  ///< kilogram per hectare
/// Pound per acre.
inline constexpr MassPerArea lb_per_acre = from_si<MassPerArea>(0.45359237 / (43560.0 * 0.3048 * 0.3048));

/// Temperatures have offsets, so they are functions, not constants.
[[nodiscard]] constexpr Temperature celsius(double t) { return from_si<Temperature>(t + 273.15); }
/// Temperature from degrees Fahrenheit.
[[nodiscard]] constexpr Temperature fahrenheit(double t) { return from_si<Temperature>((t + 459.67) / 1.8); }
/// In degrees Celsius.
[[nodiscard]] constexpr double to_celsius(Temperature t) { return si(t) - 273.15; }
/// In degrees Fahrenheit.
[[nodiscard]] constexpr double to_fahrenheit(Temperature t) { return si(t) * 1.8 - 459.67; }
/// A slope of `percent` (rise over run, times 100) as an angle.
[[nodiscard]] inline Angle slope_percent(double percent) { return from_si<Angle>(std::atan(percent / 100.0)); }
/// Slope in per cent: 100 times the tangent.
[[nodiscard]] inline double to_slope_percent(Angle a) { return 100.0 * std::tan(si(a)); }

}  // namespace units
}  // namespace libflow
