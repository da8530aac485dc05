// SPDX-License-Identifier: MIT
/// @file
/// Pulsed valves: the share of time open, with lags.
#include <gtest/gtest.h>

#include <Eigen/Core>

#include <libflow/physics/duty_cycle.hpp>

namespace libflow::physics {
namespace duty_cycle_test {

TEST(DutyCycle, WithoutLagsIsTheSignals) {
  for (const double duty : {0.05, 0.2, 0.5, 0.999, 1.0}) EXPECT_DOUBLE_EQ(effective_duty(duty, 15.0, 0.0, 0.0), duty);
  EXPECT_EQ(effective_duty(0.0, 15.0, 0.0, 0.0), 0.0);
}

// Derived, no publication: at 10 Hz and 20 % the pulse is 20 ms; 5 ms of opening lag take a quarter of it.
TEST(DutyCycle, AnOpeningLagShortensThePulse) {
  EXPECT_NEAR(effective_duty(0.2, 10.0, 0.005, 0.0), 0.15, 1e-15);
  EXPECT_NEAR(effective_duty(0.2, 10.0, 0.005, 0.005), 0.2, 1e-15);
  EXPECT_NEAR(effective_duty(0.2, 10.0, 0.0, 0.005), 0.25, 1e-15);
}

TEST(DutyCycle, TooShortPulsesAndPauses) {
  EXPECT_EQ(effective_duty(0.05, 10.0, 0.006, 0.0), 0.0);    // 5 ms on, 6 ms to open
  EXPECT_EQ(effective_duty(0.96, 10.0, 0.001, 0.006), 1.0);  // 4 ms off, 6 ms to shut
  EXPECT_EQ(effective_duty(1.0, 10.0, 0.005, 0.0), 1.0);
  EXPECT_EQ(effective_duty(0.0, 10.0, 0.0, 0.005), 0.0);
}

// Steps through many pulses, valve state by state, and counts: the formula is what happens.
TEST(DutyCycle, AsCountedInTime) {
  for (const double duty : {0.1, 0.35, 0.6, 0.9}) {
    const double frequency = 20.0, opening = 0.003, closing = 0.002, step = 1e-6;
    int open_steps = 0, steps = 0;
    bool open = false;
    double on_for = 0.0, off_for = 1.0;
    for (int i = 0; i < 1'000'000; ++i) {
      const double phase = i * step * frequency;
      const bool on = phase - static_cast<int>(phase) < duty;
      on_for = on ? on_for + step : 0.0;
      off_for = on ? 0.0 : off_for + step;
      if (on_for > opening) open = true;
      if (off_for > closing) open = false;
      open_steps += open ? 1 : 0;
      ++steps;
    }
    EXPECT_NEAR(static_cast<double>(open_steps) / steps, effective_duty(duty, frequency, opening, closing), 2e-4);
  }
}

TEST(DutyCycle, Packs) {
  using Pack = Eigen::Array<double, 4, 1>;
  Pack duty;
  duty << 0.0, 0.05, 0.5, 0.96;
  const Pack e = effective_duty<Pack>(duty, Pack(10.0), Pack(0.006), Pack(0.005));
  for (int i = 0; i < 4; ++i) EXPECT_DOUBLE_EQ(e[i], effective_duty(duty[i], 10.0, 0.006, 0.005));
}

}  // namespace duty_cycle_test
}  // namespace libflow::physics
