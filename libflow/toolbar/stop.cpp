// SPDX-License-Identifier: MIT
#include <libflow/toolbar/stop.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include <fmt/core.h>

#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/words.hpp>
#include <libflow/toolbar/build_rows.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

namespace stop_detail {

/// Bulk modulus of water at room temperature [Pa] (common practice, no source); hose stretches far more.
constexpr double bulk_modulus = 2.2e9;

/// A filled line that runs evenly from one height to another.
struct FilledLine {
  double volume = 0, from = 0, to = 0;  // [m3], elevations [m]

  [[nodiscard]] double above(double level) const {
    const double low = std::min(from, to), high = std::max(from, to);
    if (level >= high) return 0.0;
    return level <= low ? volume : volume * (high - level) / (high - low);
  }
};

static double tube_volume(double bore, double length) { return std::numbers::pi / 4.0 * bore * bore * length; }

}  // namespace stop_detail

StopDribble stop_dribble(const Toolbar& toolbar, const LiquidState& liquid, Pressure pressure) {
  using namespace stop_detail;
  build_detail::check(toolbar);
  const double side = std::sin(si(toolbar.side_slope));
  const double behind = si(toolbar.outlets_behind) * std::sin(si(toolbar.fore_aft_slope));
  const bool at_outlet = toolbar.metering == MeteringPlace::outlet;
  const std::vector<build_detail::Row> rows = build_detail::make_rows(toolbar);

  std::vector<FilledLine> lines;
  double top = -std::numeric_limits<double>::infinity();
  for (std::size_t m = 0; m < toolbar.manifolds.size(); ++m) {
    double left = std::numeric_limits<double>::infinity(), right = -left;
    for (const build_detail::Row& row : rows) {
      if (row.manifold != m) continue;
      left = std::min(left, row.port_x);
      right = std::max(right, row.port_x);
    }
    const double height = si(toolbar.manifolds[m].height);
    lines.push_back(
        {tube_volume(si(toolbar.manifolds[m].bore), right - left), left * side + height, right * side + height});
  }
  for (const build_detail::Row& row : rows) {
    if (row.shut || !at_outlet) continue;
    const double port = row.port_x * side + si(toolbar.manifolds[row.manifold].height);
    lines.push_back({tube_volume(row.hose_bore, row.hose_length), port, row.x * side - behind + row.height});
  }
  StopDribble out;
  for (const FilledLine& line : lines) {
    top = std::max({top, line.from, line.to});
    out.trapped += line.volume;
  }
  const double storage = toolbar.hose_wall && toolbar.hose_modulus
                             ? physics::tube_storage<double>(bulk_modulus, si(toolbar.hose_bore),
                                                             si(*toolbar.hose_wall), si(*toolbar.hose_modulus))
                             : 0.0;
  double most = -std::numeric_limits<double>::infinity();
  for (const build_detail::Row& row : rows) {
    if (row.shut || !row.check_valve) continue;
    const CheckValve own = build_detail::make_check_valve(*row.check_valve, row.crack, CheckValve::kind);
    const CheckValve earliest{.crack = own.crack - own.crack_spread, .passage_bore = own.passage_bore};
    const double outlet = row.x * side - behind + row.height;
    const double valve = at_outlet ? outlet : row.port_x * side + si(toolbar.manifolds[row.manifold].height);
    const StoppedRow stopped{.column = from_si<Length>(std::max(0.0, top - valve)),
                             .trapped = from_si<Volume>(out.trapped),
                             .storage = storage,
                             .before = from_si<Pressure>(std::max(0.0, si(pressure))),
                             .tail_bore = at_outlet ? toolbar.outlet_bore : from_si<Length>(row.hose_bore),
                             .tail = at_outlet ? toolbar.outlet_fall : from_si<Length>(row.hose_length)};
    const Dribble d = dribble(earliest, stopped, liquid);
    if (!d.below_hangs) out.below += si(d.below) * toolbar.outlets_per_row;
    if (si(d.standing) - si(earliest.crack) <= most) continue;
    most = si(d.standing) - si(earliest.crack);
    out.row = row.number;
    out.standing = si(d.standing);
    out.crack = si(earliest.crack);
    out.relaxed = si(d.relaxed);
    out.column = 0.0;
    for (const FilledLine& line : lines) out.column += d.holds ? 0.0 : line.above(top - si(d.drains));
  }
  return out;
}

Cautions stop_cautions(const Toolbar& toolbar, const LiquidState& liquid, Pressure pressure) {
  using parts_detail::pressure_words, parts_detail::volume_words;
  const StopDribble d = stop_dribble(toolbar, liquid, pressure);
  if (d.row == 0 || d.standing <= d.crack) return {};
  std::string text = fmt::format(
      "after a stop the liquid that stands above this row's check valve opens it: {} against {} that cracks the "
      "earliest valve; up to {} of what is in bars and hoses runs out there",
      pressure_words(d.standing), pressure_words(d.crack), volume_words(d.column));
  if (d.relaxed > 0.0) text += fmt::format(", after {} that the stretched hoses give back", volume_words(d.relaxed));
  return {{"dribbles-after-stop", fmt::format("row {}", d.row), std::move(text), d.standing, d.crack,
           "hydrostatics; crack pressure and its spread given"}};
}

}  // namespace libflow
