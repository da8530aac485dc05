// SPDX-License-Identifier: MIT
/// @file
/// What people read: units and digits of each system, and text that loses nothing.
#include <libflow/units/system.hpp>

#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

namespace system_test {

using namespace libflow;
namespace u = libflow::units;
constexpr UnitSystem us = UnitSystem::us;
constexpr UnitSystem metric = UnitSystem::metric;

TEST(system, each_kind_in_the_units_of_the_trade) {
  EXPECT_EQ(format(14.0 * u::ft, us), "14.0 ft");
  EXPECT_EQ(format(14.0 * u::ft, metric), "4.27 m");
  EXPECT_EQ(format(80.0 * u::acre, us), "80.0 ac");
  EXPECT_EQ(format(80.0 * u::acre, metric), "32.4 ha");
  EXPECT_EQ(format(300.0 * u::gal, us), "300.0 gal");
  EXPECT_EQ(format(300.0 * u::gal, metric), "1135.6 L");
  EXPECT_EQ(format(90.0 * u::s, us), "1.5 min");
  EXPECT_EQ(format(10.0 * u::lb, metric), "4.5 kg");
  EXPECT_EQ(format(30.0 * u::psi, us), "30.00 psi");
  EXPECT_EQ(format(30.0 * u::psi, metric), "206.8 kPa");
  EXPECT_EQ(format(0.202 * u::gpm, us), "0.2020 gpm");
  EXPECT_EQ(format(0.202 * u::gpm, metric), "0.7647 L/min");
  EXPECT_EQ(format(5.5 * u::mph, us), "5.5 mph");
  EXPECT_EQ(format(5.5 * u::mph, metric), "8.9 km/h");
  EXPECT_EQ(format(12.0 * u::gal_per_acre, us), "12.00 gal/ac");
  EXPECT_EQ(format(12.0 * u::gal_per_acre, metric), "112.2 L/ha");
  EXPECT_EQ(format(10.65 * u::lb_per_gal, us), "10.65 lb/gal");
  EXPECT_EQ(format(10.65 * u::lb_per_gal, metric), "1276 kg/m3");
  EXPECT_EQ(format(48.25 * u::cP, us), "48.2 cP");
  EXPECT_EQ(format(1.002 * u::cP, metric), "1.00 mPa·s");
  EXPECT_EQ(format(u::celsius(10.0), us), "50.0 °F");
  EXPECT_EQ(format(u::celsius(10.0), metric), "10.0 °C");
  EXPECT_EQ(format(u::slope_percent(-5.0), us), "-5.0 %");
  EXPECT_EQ(format(40.0 * u::lb_per_acre, us), "40.0 lb/ac");
  EXPECT_EQ(format(40.0 * u::lb_per_acre, metric), "44.8 kg/ha");
}

TEST(system, bores_are_read_in_inches_or_millimetres) {
  EXPECT_EQ(format_bore(0.375 * u::inch, us), "0.375 in");
  EXPECT_EQ(format_bore(0.25 * u::inch, metric), "6.35 mm");
  EXPECT_EQ(bore_unit_name(us), "in");
  EXPECT_NEAR(bore_value_in(0.375 * u::inch, metric), 9.525, 1e-12);
  EXPECT_EQ(bore_to_text(parse_quantity<Length>("3/8 in", "bore"), us), "0.375 in");
}

TEST(system, numbers_and_names_apart) {
  EXPECT_DOUBLE_EQ(value_in(30.0 * u::psi, us), 30.0);
  EXPECT_NEAR(value_in(30.0 * u::psi, metric), 206.8427, 0.00005);
  EXPECT_EQ(unit_name<Pressure>(us), "psi");
  EXPECT_EQ(unit_name<AreaRate>(metric), "L/ha");
  EXPECT_EQ(format_number(12.345 * u::gpm, us), "12.35");
}

TEST(system, digits_suit_the_size) {
  EXPECT_EQ(format_number(0.0123456 * u::gpm, us), "0.01235");
  EXPECT_EQ(format_number(123.456 * u::gpm, us), "123.5");
  EXPECT_EQ(format_number(123456.0 * u::gpm, us), "123456");
  EXPECT_EQ(format_number(9.99996 * u::gpm, us), "10.00");
  EXPECT_EQ(format_number(0.0 * u::gpm, us), "0");
  EXPECT_EQ(format_number(1e-9 * u::gpm, us), "1e-09");
  EXPECT_EQ(format_number(1e300 * u::m, metric), "1e+300");
  EXPECT_EQ(format_number(-0.001 * u::psi, us), "0.00");
  EXPECT_EQ(format_number(-0.0 * u::m, metric), "0.00");
}

TEST(system, nothing_prints_what_is_not_a_number) {
  const double bad[] = {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()};
  for (const double b : bad) {
    const Pressure p = from_si<Pressure>(b);
    EXPECT_THROW((void)format(p, us), InputError);
    EXPECT_THROW((void)to_text(p), InputError);
    EXPECT_THROW((void)to_text(p, metric), InputError);
    EXPECT_THROW((void)value_in(p, us), InputError);
  }
}

TEST(system, text_without_loss_uses_the_fewest_digits) {
  EXPECT_EQ(to_text(14.0 * u::ft), "4.2672 m");
  EXPECT_EQ(to_text(14.0 * u::ft, us), "14 ft");
  EXPECT_EQ(to_text(1000.0 * u::ft, us), "1000 ft");
  EXPECT_EQ(to_text(0.202 * u::gpm, us), "0.202 gpm");
  EXPECT_EQ(to_text(u::fahrenheit(50.0), us), "50 °F");
  EXPECT_EQ(to_text(u::slope_percent(10.0), metric), "10 %");
  EXPECT_EQ(to_text(12.0 * u::gal_per_acre, us), "12 gal/ac");
  EXPECT_EQ(to_text(0.0 * u::m, us), "0 ft");
}

// Random values, sizes spread evenly over twelve decades, both signs where the kind has them; fixed seed.
template <class Q>
void expect_round_trip() {
  std::mt19937 random(20240501u + static_cast<unsigned>(kind_of<Q>));
  std::uniform_real_distribution<double> decade(-6.0, 6.0), unit(0.0, 1.0), tilt(-1.5, 1.5);
  for (int i = 0; i < 500; ++i) {
    double value = std::pow(10.0, decade(random)) * (unit(random) < 0.5 ? -1.0 : 1.0);
    if (kind_of<Q> == Kind::temperature) value = std::fabs(value);
    if (kind_of<Q> == Kind::angle) value = tilt(random);
    const Q q = from_si<Q>(value);
    for (const std::string& text : {to_text(q), to_text(q, us), to_text(q, metric)}) {
      EXPECT_EQ(si(parse_quantity<Q>(text, "round trip")), value) << text;
    }
  }
}

TEST(system, every_kind_round_trips_exactly) {
  expect_round_trip<Length>();
  expect_round_trip<Area>();
  expect_round_trip<Volume>();
  expect_round_trip<Time>();
  expect_round_trip<Speed>();
  expect_round_trip<Mass>();
  expect_round_trip<Pressure>();
  expect_round_trip<Flow>();
  expect_round_trip<AreaRate>();
  expect_round_trip<Density>();
  expect_round_trip<Viscosity>();
  expect_round_trip<Temperature>();
  expect_round_trip<Angle>();
  expect_round_trip<MassPerArea>();
}

TEST(system, shown_text_reads_back_to_its_own_digits) {
  // What format() prints is itself a quantity that the parser reads, off by no more than the rounding.
  const Flow flow = 0.20196 * u::gpm;
  EXPECT_NEAR(si(parse_quantity<Flow>(format(flow, us), "")) / si(flow), 1.0, 0.00005 / 0.2);
  const Viscosity mu = 48.26 * u::cP;
  EXPECT_NEAR(si(parse_quantity<Viscosity>(format(mu, metric), "")) / si(mu), 1.0, 0.05 / 48.0);
}

TEST(system, names_of_systems) {
  EXPECT_EQ(parse_unit_system("us", "units"), us);
  EXPECT_EQ(parse_unit_system(" Metric ", "units"), metric);
  EXPECT_EQ(name_of(us), "us");
  EXPECT_EQ(parse_unit_system(name_of(metric), "units"), metric);
  try {
    (void)parse_unit_system("metrik", "units");
    FAIL() << "read a system that does not exist";
  } catch (const InputError& e) {
    EXPECT_EQ(e.where(), "units");
    EXPECT_EQ(e.what_is_wrong(), "'metrik' is not a system of units");
    EXPECT_EQ(e.allowed(), "us or metric");
    EXPECT_EQ(e.nearest(), "metric");
  }
  EXPECT_THROW((void)parse_unit_system("", "units"), InputError);
}

}  // namespace system_test
