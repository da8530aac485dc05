// SPDX-License-Identifier: MIT
/// @file
/// How parts answer to their numeric inputs and to the liquid: exact slopes against 50-digit differences of the same
/// law, and inputs that can be read and set.
#include <array>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include <libflow/parts.hpp>
#include <tests/support/errors.hpp>
#include <tests/support/liquids.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow {
namespace inputs_test {

using namespace units;
using test::Many;

/// Slope of a part's drop by input k (most_inputs: density, then viscosity), by a difference in fifty digits.
template <class T>
double inputs_test_truth(const T& part, double flow, const LiquidState& liquid, std::size_t k) {
  const auto drop = [&](int way) {
    const auto moved = [&](double x, std::size_t i) {
      const Many step = x == 0.0 ? Many(1e-20) : Many(x) * Many(1e-16);
      return i == k ? Many(Many(x) + way * step) : Many(x);
    };
    const auto in = input_values<Many>(part, moved);
    const LiquidNumbers<Many> numbers{moved(liquid.density, most_inputs), moved(liquid.viscosity, most_inputs + 1)};
    return part.template law_on<Many>(in, numbers)(Many(flow)).dp;
  };
  double x = k == most_inputs ? liquid.density : liquid.viscosity;
  if (k < most_inputs) x = input_of(part, k).value.value();
  const Many step = x == 0.0 ? Many(1e-20) : Many(x) * Many(1e-16);
  return static_cast<double>(Many((drop(1) - drop(-1)) / (2 * step)));
}

/// @param flows  in which its law has its different shapes
template <class T>
void inputs_test_expect_exact(const T& part, const LiquidState& liquid, std::initializer_list<double> flows) {
  part.check(T::kind);
  for (const double flow : flows) {
    const DropSlopes s = drop_slopes(part, flow, liquid);
    const Drop<double> plain = part.law(liquid)(flow);
    EXPECT_NEAR(s.drop, plain.dp, 1e-13 * std::abs(plain.dp));
    EXPECT_NEAR(s.flow, plain.slope, 1e-11 * plain.slope);
    const auto expect = [&](double found, std::size_t k, const std::string& name, double size) {
      // In the scale of a drop: what the input moves when it moves by its own size.
      const double floor = size == 0.0 ? 0.0 : 1e-14 * std::abs(plain.dp) / size;
      const double truth = inputs_test_truth(part, flow, liquid, k);
      EXPECT_NEAR(found, truth, 1e-10 * std::abs(truth) + floor) << T::kind << ", " << name << " at " << flow;
    };
    for (std::size_t k = 0; k < input_count<T>; ++k) {
      const PartInput in = input_of(part, k);
      if (in.value) {
        expect(s.inputs[k], k, std::string(in.name), *in.value);
      } else {
        EXPECT_EQ(s.inputs[k], 0.0);
      }
    }
    expect(s.density, most_inputs, "density", liquid.density);
    expect(s.viscosity, most_inputs + 1, "viscosity", liquid.viscosity);
  }
}

// Water in 6.35 mm: Re 2000 at about 1e-5 m3/s, so the flows are laminar, between, turbulent; and backwards.
TEST(Inputs, HosesAreExactInEveryRegime) {
  const Hose hose{.length = 4.0 * m, .bore = 6.35 * mm, .roughness = 0.01 * mm};
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    inputs_test_expect_exact(hose, liquid, {1e-8, 5e-6, 1.2e-5, 1.7e-5, 4e-5, -4e-5, 1e-3});
    Hose coiled = hose;
    coiled.coil_diameter = 0.3 * m;
    inputs_test_expect_exact(coiled, liquid, {1e-8, 5e-6, 2.5e-5, 5e-5, 2e-4});
    Hose entered = hose;
    entered.entrance = true;
    inputs_test_expect_exact(entered, liquid, {1e-8, 5e-6, 1.2e-5, 4e-5, -4e-5});
  }
  inputs_test_expect_exact(SuspensionHose{.length = 3.0 * m, .bore = 13.0 * mm, .consistency = 0.2, .flow_index = 0.6},
                           test::water(), {1e-9, 1e-5, 3e-4, 8e-4, 3e-3});
}

TEST(Inputs, HolesAndFittingsAreExact) {
  const auto everywhere = {1e-8, 1e-6, 1e-5, -1e-5};
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    inputs_test_expect_exact(Orifice{.bore = 1.2 * mm}, liquid, everywhere);
    inputs_test_expect_exact(Orifice{.bore = 1.2 * mm, .thickness = 3.0 * mm}, liquid, everywhere);
    inputs_test_expect_exact(Orifice{.bore = 1.2 * mm, .discharge_coefficient = 0.7}, liquid, everywhere);
    inputs_test_expect_exact(
        OrificePair{.first = {.bore = 1.8 * mm}, .second = {.bore = 1.5 * mm, .thickness = 1.0 * mm}, .gap = 2.0 * cm},
        liquid, everywhere);
    inputs_test_expect_exact(Fitting::elbow_90(6.35 * mm), liquid, everywhere);
    inputs_test_expect_exact(Barb{.bore = 5.0 * mm, .hose_bore = 6.35 * mm, .length = 2.0 * cm}, liquid, everywhere);
    inputs_test_expect_exact(Reducer{.from_bore = 10.0 * mm, .to_bore = 6.0 * mm, .cone = 60.0 * deg}, liquid,
                             everywhere);
    inputs_test_expect_exact(Reducer{.from_bore = 6.0 * mm, .to_bore = 10.0 * mm, .cone = 20.0 * deg}, liquid,
                             everywhere);
    inputs_test_expect_exact(OpenEnd{.bore = 6.35 * mm}, liquid, everywhere);
    inputs_test_expect_exact(RowOutlet{.bore = 6.0 * mm, .count = 2, .fall = 0.3 * m}, liquid, everywhere);
    inputs_test_expect_exact(VentedTube{.bore = 4.0 * mm, .fall = 0.3 * m}, liquid, {0.0, 1e-6, 2e-5, 1e-4});
    inputs_test_expect_exact(
        FlowMeter{
            .bore = 10.0 * mm, .rated_flow = 2.0 * gpm, .rated_loss = 3.0 * psi, .least = 0.2 * gpm, .most = 3.0 * gpm},
        liquid, everywhere);
    inputs_test_expect_exact(Strainer{.bore = 20.0 * mm,
                                      .rated_flow = 10.0 * gpm,
                                      .rated_loss = 1.0 * psi,
                                      .opening = 0.3 * mm,
                                      .open_area = from_si<Area>(2e-3),
                                      .blocked = 0.3},
                             liquid, everywhere);
  }
}

TEST(Inputs, ValvesAreExact) {
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    inputs_test_expect_exact(CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm}, liquid, {0.0, 1e-8, 1e-5});
    // Part open, near its stop, fully open.
    inputs_test_expect_exact(CheckValve{.crack = 4.0 * psi, .passage_bore = 3.0 * mm, .full_open = 8.0 * psi}, liquid,
                             {1e-8, 1e-5, 2.7e-5, 1e-4});
    inputs_test_expect_exact(ReliefValve{.set = 60.0 * psi, .passage_bore = 6.0 * mm}, liquid, {0.0, 1e-5});
    inputs_test_expect_exact(PressureRegulator{.set = 30.0 * psi, .passage_bore = 6.0 * mm}, liquid, {1e-6, 1e-4});
    inputs_test_expect_exact(Valve{.kv = 8.0 * gpm, .bore = 19.0 * mm, .open = 0.6}, liquid, {1e-7, 1e-4, -1e-4});
    inputs_test_expect_exact(
        Valve{.kv = 2.0 * gpm, .bore = 19.0 * mm, .open = 0.4, .characteristic = ValveCharacteristic::linear}, liquid,
        {1e-7, 1e-4});
    inputs_test_expect_exact(PulsedValve{.passage_bore = 2.0 * mm,
                                         .outlet_bore = 1.2 * mm,
                                         .duty = 0.6,
                                         .opening_lag = from_si<Time>(0.008),
                                         .closing_lag = from_si<Time>(0.005)},
                             liquid, {1e-7, 1e-5, -1e-5});
  }
}

TEST(Inputs, PumpsAreExact) {
  const PumpSlip slip{.flow = 0.2 * gpm, .gain = 40.0 * psi};
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    inputs_test_expect_exact(CentrifugalPump{.shutoff = 60.0 * psi, .free_flow = 40.0 * gpm, .speed = 0.9}, liquid,
                             {0.0, 1e-3});
    inputs_test_expect_exact(PositivePump{.displacement = 0.05 * L, .rpm = 300.0, .slip = slip}, liquid, {0.0, 2e-4});
    inputs_test_expect_exact(
        GroundDrivenPump{.displacement = 0.5 * L, .distance = 2.0 * m, .ground_speed = 2.0 * m_per_s, .slip = slip},
        liquid, {0.0, 4e-4});
  }
}

/// By a difference of plain numbers: for laws through points, whose curve is a curve of plain numbers.
template <class T>
void inputs_test_expect_difference(const T& part, const LiquidState& liquid, double flow) {
  const DropSlopes s = drop_slopes(part, flow, liquid);
  const auto difference = [&](double x, auto&& drop_at) {
    const double h = 1e-5 * x;
    return (drop_at(x + h) - drop_at(x - h)) / (2.0 * h);
  };
  for (std::size_t k = 0; k < input_count<T>; ++k) {
    const double truth = difference(input_of(part, k).value.value(), [&](double x) {
      T other = part;
      set_input(other, k, x);
      return other.law(liquid)(flow).dp;
    });
    EXPECT_NEAR(s.inputs[k], truth, 1e-7 * std::abs(truth)) << T::kind << " input " << k << " at " << flow;
  }
  const auto in_liquid = [&](double density, double viscosity) {
    LiquidState other = liquid;
    other.density = density;
    other.viscosity = viscosity;
    return part.law(other)(flow).dp;
  };
  const double by_density = difference(liquid.density, [&](double x) { return in_liquid(x, liquid.viscosity); });
  const double by_viscosity = difference(liquid.viscosity, [&](double x) { return in_liquid(liquid.density, x); });
  EXPECT_NEAR(s.density, by_density, 1e-7 * std::abs(by_density));
  EXPECT_NEAR(s.viscosity, by_viscosity, 1e-7 * std::abs(by_viscosity));
}

TEST(Inputs, LawsThroughPointsMeetTheirDifferences) {
  const PumpCurve curve{.points = {{.flow = 0.0 * gpm, .gain = 60.0 * psi},
                                   {.flow = 10.0 * gpm, .gain = 55.0 * psi},
                                   {.flow = 20.0 * gpm, .gain = 42.0 * psi},
                                   {.flow = 30.0 * gpm, .gain = 20.0 * psi}},
                        .speed = 1.1};
  const TablePart table{.points = {{.flow = 1.0 * gpm, .drop = 1.0 * psi},
                                   {.flow = 2.0 * gpm, .drop = 3.5 * psi},
                                   {.flow = 4.0 * gpm, .drop = 12.0 * psi}}};
  for (const LiquidState& liquid : {test::water(), test::thick()}) {
    for (const double q : {2e-4, 9e-4, 2.5e-3}) inputs_test_expect_difference(curve, liquid, q);
    for (const double q : {2e-5, 9e-5, 5e-4, -9e-5}) inputs_test_expect_difference(table, liquid, q);
  }
}

// Reads the headers, so that a new part of the library cannot be forgotten.
TEST(Inputs, EveryPartOfTheLibraryListsThem) {
  const std::filesystem::path headers = std::filesystem::path(LIBFLOW_TESTS) / ".." / "libflow" / "parts";
  std::size_t parts = 0;
  for (const auto& entry : std::filesystem::directory_iterator(headers)) {
    std::stringstream text;
    text << std::ifstream(entry.path()).rdbuf();
    if (text.str().find("Contract contract = Contract::") == std::string::npos) continue;
    if (entry.path().filename() == "tee.hpp") continue;  // stands at a place: no law of its own to differentiate
    ++parts;
    EXPECT_NE(text.str().find("std::tuple inputs{"), std::string::npos) << entry.path().filename();
  }
  EXPECT_GE(parts, 20U);
}

TEST(Inputs, CanBeReadAndSet) {
  const Part hose(Hose{.length = 4.0 * m, .bore = 6.35 * mm});
  ASSERT_EQ(hose.input_count(), 4U);
  EXPECT_EQ(hose.input(1).name, "bore");
  EXPECT_EQ(hose.input(1).unit, "m");
  EXPECT_EQ(hose.input(1).value, 6.35e-3);
  EXPECT_EQ(hose.input(3).value, std::nullopt);
  const Part longer = hose.with_input(0, 5.0, "hose");
  EXPECT_EQ(longer.input(0).value, 5.0);
  EXPECT_EQ(hose.input(0).value, 4.0);
  EXPECT_EQ(hose.with_input(3, 0.4, "hose").input(3).value, 0.4);
  EXPECT_THROW((void)hose.with_input(0, -1.0, "hose 7"), InputError);
  const Part pump(
      PositivePump{.displacement = 0.05 * L, .rpm = 300.0, .slip = {.flow = 0.2 * gpm, .gain = 40.0 * psi}});
  EXPECT_EQ(pump.with_input(3, 2e5, "pump").as<PositivePump>()->slip.gain, from_si<Pressure>(2e5));
}

}  // namespace inputs_test
}  // namespace libflow
