// SPDX-License-Identifier: MIT
/// @file
/// What the sizes of parts may be. A layout that is valid today has to be valid tomorrow: a range may grow, with its
/// line here.
#include <gtest/gtest.h>

#include <libflow/parts.hpp>
#include <libflow/parts/suspension_hose.hpp>

namespace libflow {
namespace parts_ranges_test {

struct Allowed {
  const char* what;
  Range range;
  double low, high;
};

TEST(PartRanges, AreThoseThatFilesWereWrittenFor) {
  const Allowed all[] = {
      {"Barb::bore_range", Barb::bore_range, 1e-4, 0.5},
      {"Barb::length_range", Barb::length_range, 1e-6, 0.5},
      {"CentrifugalPump::shutoff_range", CentrifugalPump::shutoff_range, 1.0, 5e6},
      {"CentrifugalPump::free_flow_range", CentrifugalPump::free_flow_range, 1e-9, 1.0},
      {"CheckValve::crack_range", CheckValve::crack_range, 0.0, 2e6},
      {"CheckValve::full_open_range", CheckValve::full_open_range, 1.0, 4e6},
      {"Fitting::bore_range", Fitting::bore_range, 1e-4, 0.5},
      {"Fitting::k1_range", Fitting::k1_range, 1.0, 1e5},
      {"Fitting::k_inf_range", Fitting::k_inf_range, 0.0, 1e5},
      {"FlowMeter::flow_range", FlowMeter::flow_range, 1e-9, 1.0},
      {"FlowMeter::loss_range", FlowMeter::loss_range, 1.0, 1e6},
      {"GroundDrivenPump::displacement_range", GroundDrivenPump::displacement_range, 1e-9, 1.0},
      {"GroundDrivenPump::distance_range", GroundDrivenPump::distance_range, 1e-3, 1e4},
      {"GroundDrivenPump::speed_range", GroundDrivenPump::speed_range, 0.01, 20.0},
      {"Hose::length_range", Hose::length_range, 1e-6, 1000.0},
      {"Hose::bore_range", Hose::bore_range, 1e-4, 0.5},
      {"Hose::wall_thickness_range", Hose::wall_thickness_range, 1e-5, 0.1},
      {"OpenEnd::bore_range", OpenEnd::bore_range, 1e-4, 0.5},
      {"Orifice::bore_range", Orifice::bore_range, 5e-5, 0.05},
      {"Orifice::coefficient_range", Orifice::coefficient_range, 0.3, 1.0},
      {"OrificePair::gap_range", OrificePair::gap_range, 1e-5, 1.0},
      {"PositivePump::displacement_range", PositivePump::displacement_range, 1e-9, 0.1},
      {"PositivePump::rpm_range", PositivePump::rpm_range, 0.01, 1e4},
      {"PositivePump::slip_flow_range", PositivePump::slip_flow_range, 1e-12, 1.0},
      {"PositivePump::gain_range", PositivePump::gain_range, 1e3, 2e7},
      {"PositivePump::max_pressure_range", PositivePump::max_pressure_range, 1e3, 2e7},
      {"PressureRegulator::set_range", PressureRegulator::set_range, 1.0, 5e6},
      {"PulsedValve::duty_range", PulsedValve::duty_range, 1e-3, 1.0},
      {"PulsedValve::frequency_range", PulsedValve::frequency_range, 0.1, 100.0},
      {"PulsedValve::lag_range", PulsedValve::lag_range, 0.0, 1.0},
      {"PumpCurve::flow_range", PumpCurve::flow_range, 0.0, 1.0},
      {"PumpCurve::gain_range", PumpCurve::gain_range, 0.0, 5e6},
      {"PumpCurve::shutoff_range", PumpCurve::shutoff_range, 1.0, 5e6},
      {"PumpCurve::speed_range", PumpCurve::speed_range, 0.05, 3.0},
      {"PumpCurve::suction_head_range", PumpCurve::suction_head_range, 0.0, 100.0},
      {"PumpCurve::power_range", PumpCurve::power_range, 0.0, 1e6},
      {"PumpCurve::atmosphere_range", PumpCurve::atmosphere_range, 4e4, 1.1e5},
      {"Reducer::bore_range", Reducer::bore_range, 1e-4, 1.0},
      {"ReliefValve::set_range", ReliefValve::set_range, 1.0, 2e7},
      {"RowOutlet::fall_range", RowOutlet::fall_range, 0.0, 5.0},
      {"RowOutlet::surface_tension_range", RowOutlet::surface_tension_range, 0.01, 0.1},
      {"Strainer::flow_range", Strainer::flow_range, 1e-9, 1.0},
      {"Strainer::loss_range", Strainer::loss_range, 1.0, 1e6},
      {"Strainer::opening_range", Strainer::opening_range, 1e-5, 0.01},
      {"Strainer::area_range", Strainer::area_range, 1e-8, 10.0},
      {"Strainer::blocked_range", Strainer::blocked_range, 0.0, 0.99},
      {"SuspensionHose::consistency_range", SuspensionHose::consistency_range, 1e-5, 1e4},
      {"SuspensionHose::plateau_range", SuspensionHose::plateau_range, 1e-4, 1e3},
      {"TablePart::flow_range", TablePart::flow_range, 1e-12, 10.0},
      {"TablePart::drop_range", TablePart::drop_range, 1e-6, 1e8},
      {"Tank::plan_range", Tank::plan_range, 1e-4, 1e3},
      {"Tank::height_range", Tank::height_range, 0.01, 20.0},
      {"Tank::length_range", Tank::length_range, 0.01, 100.0},
      {"Tank::top_pressure_range", Tank::top_pressure_range, -5e4, 1e6},
      {"Tee::bore_range", Tee::bore_range, 1e-3, 0.5},
      {"Tee::factor_range", Tee::factor_range, 0.0, 3.0},
      {"Valve::bore_range", Valve::bore_range, 1e-4, 0.5},
      {"Valve::open_range", Valve::open_range, 0.0, 1.0},
      {"Valve::rangeability_range", Valve::rangeability_range, 2.0, 1000.0},
  };
  for (const Allowed& a : all) {
    EXPECT_EQ(a.range.low, a.low) << a.what;
    EXPECT_EQ(a.range.high, a.high) << a.what;
  }
}

}  // namespace parts_ranges_test
}  // namespace libflow
