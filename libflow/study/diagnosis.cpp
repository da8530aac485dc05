// SPDX-License-Identifier: MIT
#include <libflow/study/diagnosis.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <libflow/study/catch_level.hpp>
#include <libflow/study/catch_model.hpp>
#include <libflow/study/catch_screen.hpp>

namespace libflow {

namespace catch_detail {

/// Supply pressures at which the layout as it is gives what was caught, where no gauge was read; else as they are.
static std::vector<double> pressures_of_level(const CatchModel& model, const std::vector<CatchReadings>& catches) {
  const CatchData data = catch_data(model, catches);
  std::vector<double> out;
  for (std::size_t s = 0; s < catches.size(); ++s) {
    const CatchCondition& c = model.conditions()[s];
    double off = 0.0, slope = 0.0, count = 0.0;
    std::vector<double> gaps;
    for (std::size_t i = 0; i < model.rows().size(); ++i) {
      const int k = model.cell(s, i);
      if (data.repeats[static_cast<std::size_t>(k)] == 0) continue;
      gaps.push_back(data.log_flow[k] - model.base()[k]);
      slope += model.by_pressure()[k];
      count += 1.0;
    }
    std::nth_element(gaps.begin(), gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() / 2), gaps.end());
    off = gaps[gaps.size() / 2];
    const double change = c.gauge || !(slope > 0.0) ? 0.0 : std::clamp(off / (slope / count), -1.5, 1.5);
    out.push_back(c.pressure * std::exp(change));
  }
  return out;
}

/// Volumes with a slip of units or of a decimal point put right, where no gauge was read and so the level says nothing:
/// otherwise a pressure would be taken for it at which the rows share otherwise.
static void put_slip_right(const std::map<int, double>& expected, CatchReadings& readings) {
  if (readings.gauge) return;
  std::vector<double> gaps;
  for (const CatchReading& r : readings.readings) {
    const auto found = expected.find(r.row);
    if (found == expected.end() || !(found->second > 0.0) || !(r.volume > 0.0)) continue;
    gaps.push_back(std::log(r.volume / (found->second * si(readings.time))));
  }
  if (gaps.empty()) return;
  const auto middle = gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() / 2);
  std::nth_element(gaps.begin(), middle, gaps.end());
  const std::optional<LevelSlip> slip = slip_of(std::expm1(*middle));
  if (!slip) return;
  for (CatchReading& r : readings.readings) r.volume *= *middle > 0.0 ? 1.0 / slip->factor : slip->factor;
}

}  // namespace catch_detail

Diagnosis diagnose(const Layout& layout, const std::vector<CatchReadings>& catches, const DiagnosisSetup& setup) {
  CatchModel model(layout, catches, setup);
  static_cast<void>(catch_data(model, catches));  // what cannot be is refused before anything is set aside
  Diagnosis before;
  std::vector<CatchReadings> kept;
  for (std::size_t s = 0; s < catches.size(); ++s) {
    std::map<int, double> expected;
    for (std::size_t i = 0; i < model.rows().size(); ++i) {
      expected[model.rows()[i]] = std::exp(model.base()[model.cell(s, i)]);
    }
    CatchScreen screen = screen_catch(catches[s], expected, [&](int row) {
      return catch_detail::share_without_orifice(model.conditions()[s].layout, row);
    });
    before.judged = before.judged && screen.set_aside;
    before.doubts.push_back(std::move(screen.doubts));
    catch_detail::put_slip_right(expected, screen.kept);
    kept.push_back(std::move(screen.kept));
  }
  if (!before.judged) {
    before.calibrated = layout;
    return before;
  }
  // Where no gauge was read the supply was at whatever pressure gives the total; near it the level is a straight line.
  for (int turn = 0; turn < 2; ++turn) {
    const std::vector<double> pressures = catch_detail::pressures_of_level(model, kept);
    double most = 0.0;
    for (std::size_t s = 0; s < pressures.size(); ++s) {
      most = std::max(most, std::abs(std::log(pressures[s] / model.conditions()[s].pressure)));
    }
    if (most < 0.02) break;
    try {
      model = model.at_pressures(pressures);
    } catch (const Error&) {
      break;  // the layout gives nothing at such a level: its own pressure is as good as any
    }
  }
  Diagnosis d = CatchDiagnoser(std::move(model)).diagnose(kept);
  d.doubts = std::move(before.doubts);
  return d;
}

}  // namespace libflow
