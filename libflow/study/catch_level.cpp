// SPDX-License-Identifier: MIT
#include <libflow/study/catch_level.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <exception>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include <boost/math/tools/toms748_solve.hpp>

#include <libflow/study/catch_causes.hpp>
#include <libflow/study/catch_model.hpp>
#include <libflow/study/verdict.hpp>

namespace libflow {

namespace catch_detail {

static double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return 0.5 * (*middle + *std::max_element(values.begin(), middle));
}

/// What all open rows of a plain bar do when something moves them alike.
class WholeBar {
 public:
  /// @param read  by open row: was it read
  WholeBar(Layout caught, double pressure, std::vector<bool> read) : at_(std::move(caught)), read_(std::move(read)) {
    auto& bar = std::get<Toolbar>(at_.plumbing);
    bar.drive.reset();
    at_.job.pressure = from_si<Pressure>(pressure);
    before_ = row_flows(at_);
  }
  [[nodiscard]] const Layout& layout() const { return at_; }

  /// Change of the middle row [-]; NaN where there is no answer.
  [[nodiscard]] double change(const Layout& layout) const {
    std::vector<double> shares;
    try {
      const std::vector<double> now = row_flows(layout);
      if (now.size() != before_.size()) return NAN;
      for (std::size_t i = 0; i < now.size(); ++i) {
        if (read_[i] && before_[i] > no_flow) shares.push_back(std::max(0.0, now[i]) / before_[i]);
      }
    } catch (const Error&) {
      return NAN;
    }
    return shares.empty() ? NAN : median(std::move(shares)) - 1.0;
  }

  /// The factor between `low` and `high`, by which `with` changes the layout, that makes the wanted change; NaN: none.
  template <class With>
  [[nodiscard]] double factor_for(double wanted, double low, double high, const With& with) const {
    const auto miss = [&](double log_factor) { return change(with(std::exp(log_factor))) - wanted; };
    try {
      const double a = std::log(low), b = std::log(high), fa = miss(a), fb = miss(b);
      if (!(fa * fb < 0.0)) return NAN;
      std::uintmax_t rounds = 60;
      const auto close = [](double x, double y) { return std::abs(x - y) < 1e-4; };
      const auto [x, y] = boost::math::tools::toms748_solve(miss, a, b, fa, fb, close, rounds);
      const double found = 0.5 * (x + y);
      return std::abs(miss(found)) < 0.01 * (1.0 + wanted) ? std::exp(found) : NAN;
    } catch (const std::exception&) {  // a setting on the way has no answer
      return NAN;
    }
  }

 private:
  Layout at_;
  std::vector<bool> read_;
  std::vector<double> before_;
};

static void look_for_causes(CatchLevel& level, const Layout& layout, const Answer& caught, std::vector<bool> read,
                            const CatchReadings& readings, const CatchSetup& setup) {
  const double pressure = caught.evenness.supply_pressure;
  const WholeBar bar(caught.layout, pressure, std::move(read));
  const auto with_liquid = [&](const Liquid& liquid, Temperature temperature) {
    Layout other = bar.layout();
    other.job.liquid = liquid;
    other.job.temperature = temperature;
    return bar.change(other);
  };
  if (readings.water) {
    level.other_liquid = with_liquid(layout.job.liquid, layout.job.temperature);
  } else {
    level.other_liquid = with_liquid(find_liquid("water"), setup.water_temperature);
    const LiquidState now = layout.job.liquid.at(layout.job.temperature);
    const auto at_viscosity = [&](double viscosity) {
      return with_liquid(layout.job.liquid.with_viscosity(from_si<Viscosity>(viscosity), layout.job.temperature),
                         layout.job.temperature);
    };
    if (now.viscosity_low && now.viscosity_high) {
      level.thinnest = at_viscosity(*now.viscosity_low);
      level.thickest = at_viscosity(*now.viscosity_high);
    }
  }
  level.gauge = pressure * bar.factor_for(level.change, 0.02, 20.0, [&](double factor) {
    Layout other = bar.layout();
    other.job.pressure = from_si<Pressure>(factor * pressure);
    return other;
  });
  level.orifice_share = bar.factor_for(level.change, 0.2, 4.0, [&](double share) {
    return with_cause(bar.layout(), {CatchCauseKind::orifice_set, 0, 0, 0, share});
  });
}

}  // namespace catch_detail

const std::vector<LevelSlip>& level_slips() {
  const double floz = si(units::floz) / si(units::mL), gallon = si(units::gal) / si(units::L);
  static const std::vector<LevelSlip> slips{{floz, "fl oz to ml"},        {gallon, "gal to l"},
                                            {1000.0, "l to ml"},          {128.0, "gal to fl oz"},
                                            {60.0, "minutes to seconds"}, {10.0, "a decimal point one place off"}};
  return slips;
}

std::optional<LevelSlip> slip_of(double change) {
  if (!(change > -1.0)) return std::nullopt;
  const double apart = std::abs(std::log1p(change));
  for (const LevelSlip& slip : level_slips()) {
    if (std::abs(apart - std::log(slip.factor)) < level_slip_width) return slip;
  }
  return std::nullopt;
}

CatchLevel catch_level(const Layout& layout, const Answer& caught, const std::vector<double>& volumes, double error,
                       const CatchReadings& readings, const CatchSetup& setup) {
  using namespace catch_detail;
  CatchLevel level;
  const double time = si(readings.time);
  std::vector<double> shares;
  std::vector<bool> read;
  for (std::size_t i = 0; i < volumes.size(); ++i) {
    const RowResult& row = caught.evenness.rows[i];
    if (row.shut) continue;
    const bool usable = volumes[i] >= 0.0 && row.flow > catch_detail::no_flow;
    read.push_back(usable);
    if (usable) shares.push_back(volumes[i] / (row.flow * time) - 1.0);
  }
  if (shares.empty()) return level;
  level.change = median(shares);
  const double limit = level_limit(layout.job.tolerance);
  // Of a median: 1.25 times the standard error of a mean (sqrt(pi/2), normal errors).
  const double of_median = 1.2533 * error / std::sqrt(static_cast<double>(shares.size()));
  level.off = std::abs(level.change) > std::max(limit, 3.0 * of_median);
  level.every_row =
      std::all_of(shares.begin(), shares.end(), [&](double s) { return (level.change < 0.0 ? -s : s) > 0.5 * limit; });
  if (!level.off || !(level.change > -1.0)) return level;
  level.time = time * (1.0 + level.change);
  level.slip = slip_of(level.change);
  if (std::holds_alternative<Toolbar>(layout.plumbing)) {
    look_for_causes(level, layout, caught, std::move(read), readings, setup);
  }
  return level;
}

}  // namespace libflow
