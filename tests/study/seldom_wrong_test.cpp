// SPDX-License-Identifier: MIT
/// @file
/// What was wrong: a gauge reading that no gauge has is refused as the gauge's, by a verdict as by a diagnosis; a fill
/// that is stopped before it begins has emptied no tank.
#include <gtest/gtest.h>

#include <cstddef>
#include <filesystem>
#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>
#include <libflow/study/drawdown.hpp>
#include <tests/support/driven_bars.hpp>

namespace libflow {
namespace seldom_wrong_test {

using namespace units;

// Both take the same file of cups; nobody who reads "job, pressure" looks for it there.
TEST(SeldomWrong, AGaugeAtNothingIsRefusedAsTheGauges) {
  const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / "equal_hoses.toml");
  CatchReadings r{.time = 30.0 * s, .gauge = 0.0 * psi};
  for (int row = 1; row <= 16; ++row) r.readings.push_back({.row = row, .volume = 2e-4});
  const auto refused = [](const auto& asked) {
    try {
      asked();
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string("not refused");
  };
  const std::string diagnosis = refused([&] { (void)diagnose(layout, {r}); });
  EXPECT_TRUE(diagnosis.starts_with("gauge: 0 Pa")) << diagnosis;
  const std::string verdict = refused([&] { (void)judge_catch(layout, r); });
  EXPECT_TRUE(verdict.starts_with("gauge: 0 Pa")) << verdict;
}

// Whoever stops a fill at the first question has full tanks.
TEST(SeldomWrong, StoppedBeforeItBeginsNothingWasDone) {
  const Layout layout = test::driven_layout(test::plain_drive());
  const Drawdown d = drawdown(layout, {}, [](std::size_t, std::size_t) { return false; });
  EXPECT_EQ(d.end, DrawdownEnd::stopped);
  EXPECT_FALSE(d.complete);
  EXPECT_EQ(d.time, 0.0);
  EXPECT_EQ(d.tanks.at(0).end, d.tanks[0].start);
  for (const double v : d.delivered) EXPECT_EQ(v, 0.0);
}

}  // namespace seldom_wrong_test
}  // namespace libflow
