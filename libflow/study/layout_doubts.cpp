// SPDX-License-Identifier: MIT
#include <libflow/study/layout_doubts.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <map>
#include <numbers>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/parts/orifice.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/discharge.hpp>
#include <libflow/toolbar/build_rows.hpp>
#include <libflow/units/system.hpp>
#include <libflow/units/text.hpp>

namespace libflow {

constexpr const char* not_smaller = "orifice-not-smaller-than-hose";
constexpr const char* meters_nothing = "orifice-meters-nothing";
constexpr const char* takes_too_much = "orifice-takes-too-much";
constexpr const char* valve_too_much = "valve-takes-too-much";
constexpr const char* line_too_much = "line-takes-too-much";
constexpr const char* too_wide = "hose-too-wide";
constexpr const char* too_short = "hose-too-short";

static std::string bore_text(Length bore) {
  if (si(bore) < 0.01 * 0.0254) return fmt::format("{:.4f} in ({:.3f} mm)", si(bore) / 0.0254, 1e3 * si(bore));
  return fmt::format("{} ({})", format_bore(bore, UnitSystem::us), format_bore(bore, UnitSystem::metric));
}

/// What a hole of `times` the bore would take of the row's drop; empty where it is no hole, or no way out.
static std::optional<double> share_of_bore(double times, const Orifice& orifice, const RowResult& row, double flow,
                                           const LiquidState& liquid, double gauge, double most_gauge) {
  const Orifice other = orifice.with_bore(times * orifice.bore);
  const bool drilled = Orifice::bore_range.contains(si(other.bore)) &&
                       si(other.thickness) <= physics::hole_length_ratio.high * si(other.bore);
  if (!drilled) return std::nullopt;
  const double drop = physics::drop_hole<double>(flow, other.hole(liquid.density, liquid.viscosity)).dp;
  const double others = row.orifice_drop * (1.0 / row.orifice_share - 1.0), share = drop / (drop + others);
  const bool sensible = share >= least_metering_share && gauge - row.orifice_drop + drop <= most_gauge;
  return sensible ? std::optional(share) : std::nullopt;
}

/// A check valve, or hose and bar, that take far more than the pressure that there is, row by row.
static void add_greedy_parts(const Evenness& e, double most_gauge, Cautions& found) {
  const double most = most_metering_pressure * most_gauge;
  double valve = 0.0, line = 0.0;  // the largest of all rows, so that they share one text
  for (const RowResult& r : e.rows) {
    valve = std::fmax(valve, r.check_valve_drop);
    line = std::fmax(line, r.line_drop);
  }
  const auto text = [&](const char* part, double drop, const char* which) {
    return fmt::format(
        "the {} would take {:.0f} psi ({:.0f} bar) at the wanted rate, more than {:g} times the pressure "
        "limit: {} right?",
        part, drop / 6894.757293168, 1e-5 * drop, most_metering_pressure, which);
  };
  for (const RowResult& r : e.rows) {
    const std::string row = fmt::format("row {}", r.row);
    if (r.shut) continue;
    if (r.check_valve_drop > most) {
      found.push_back({valve_too_much, row, text("check valve", valve, "are its rated flow, rated loss and crack"),
                       r.check_valve_drop, most});
    }
    if (r.line_drop > most) {
      found.push_back({line_too_much, row,
                       text("hose and bar", line, "are the hose's bore, the rate, the speed and the row spacing"),
                       r.line_drop, most});
    }
  }
}

Cautions metering_cautions(const Plumbing& plumbing, const LiquidState& liquid, const Evenness& e, double most_gauge) {
  Cautions found;
  // Rows of one bore get one text, so that a report can put them together: that of the first of them.
  std::map<std::pair<long long, long long>, std::string> texts;
  for (std::size_t i = 0; i < plumbing.rows.size(); ++i) {
    const RowPlumbing& row = plumbing.rows[i];
    const RowResult& r = e.rows[i];
    if (row.shut || row.orifices.empty() || !(r.flow > 0.0) || !(r.orifice_share > 0.0)) continue;
    const auto* orifice = plumbing.network.part(row.orifices.front()).part.as<Orifice>();
    if (orifice == nullptr) continue;
    const std::optional<Length> hose =
        row.hoses.empty() ? std::nullopt : plumbing.network.part(row.hoses.back()).part.bore();
    const double bore = si(orifice->bore), hose_bore = hose ? si(*hose) : HUGE_VAL;
    const bool narrow = r.orifice_drop > most_metering_pressure * most_gauge;
    const bool wide = !narrow && bore >= hose_bore * (1.0 - 1e-9);
    const bool meters = r.orifice_share >= least_metering_share || r.orifice_drop >= metering_pressure;
    if (!wide && !narrow && meters) continue;

    const auto key = std::pair(std::llround(1e7 * bore), wide ? std::llround(1e7 * hose_bore) : 0LL);
    std::string& text = texts[key];
    if (text.empty()) {
      const std::string takes =
          r.orifice_share < 5e-4 ? "less than 0.1 %" : fmt::format("{:.1f} %", 100.0 * r.orifice_share);
      const double times = narrow ? 10.0 : 0.1;
      text = narrow ? fmt::format(
                          "the orifice, {}, would take {:.0f} psi ({:.0f} bar) at the wanted rate, more than {:g} "
                          "times the pressure limit: is its bore right, and are rate, speed and spacing?",
                          bore_text(orifice->bore), r.orifice_drop / 6894.757293168, 1e-5 * r.orifice_drop,
                          most_metering_pressure)
             : wide ? fmt::format(
                          "the orifice, {}, is not smaller than the hose that it sits in, {}, and takes {} of the "
                          "pressure: it meters nothing; is its bore right?",
                          bore_text(orifice->bore), bore_text(*hose), takes)
                    : fmt::format(
                          "the orifice, {}, takes {} of the pressure: it meters nothing, the hose does (below "
                          "{:.0f} %: common practice, no source); is its bore right?",
                          bore_text(orifice->bore), takes, 100.0 * least_metering_share);
      const double flow = r.flow / static_cast<double>(row.orifices.size());
      if (const auto share = share_of_bore(times, *orifice, r, flow, liquid, e.supply_pressure, most_gauge)) {
        text +=
            fmt::format(" Nearest: {}, which would take {:.0f} %", bore_text(times * orifice->bore), 100.0 * *share);
      }
    }
    if (narrow) {
      found.push_back(
          {takes_too_much, fmt::format("row {}", r.row), text, r.orifice_drop, most_metering_pressure * most_gauge});
      continue;
    }
    found.push_back({wide ? not_smaller : meters_nothing, fmt::format("row {}", r.row), text,
                     wide ? bore : r.orifice_share, wide ? hose_bore : least_metering_share});
  }
  add_greedy_parts(e, most_gauge, found);
  return found;
}

Cautions short_hose_cautions(const Toolbar& toolbar) {
  const std::vector<build_detail::Row> rows = build_detail::make_rows(toolbar);
  const auto lacks = [](const build_detail::Row& r) { return r.shut ? 0.0 : std::abs(r.x - r.port_x) - r.hose_length; };
  const auto worst =
      std::max_element(rows.begin(), rows.end(), [&](const auto& a, const auto& b) { return lacks(a) < lacks(b); });
  Cautions found;
  constexpr double slack = 1e-3;  // [m]: a millimetre is no slip
  if (lacks(*worst) <= slack) return found;
  const auto feet = [](double metres) { return fmt::format("{:.3g} ft ({:.3g} m)", metres / 0.3048, metres); };
  const std::string text = fmt::format(
      "the hose is shorter than its run along the bar, as the layout places its ports (row {}: {} of hose for {}): it "
      "cannot reach the row; is its length right?",
      worst->number, feet(worst->hose_length), feet(std::abs(worst->x - worst->port_x)));
  for (const build_detail::Row& r : rows) {
    if (lacks(r) <= slack) continue;
    found.push_back({too_short, fmt::format("row {}", r.number), text, r.hose_length, std::abs(r.x - r.port_x)});
  }
  return found;
}

Cautions wide_hose_cautions(const Toolbar& toolbar, const Plumbing& plumbing, const Evenness& e) {
  Cautions found;
  for (std::size_t i = 0; i < plumbing.rows.size(); ++i) {
    const RowPlumbing& row = plumbing.rows[i];
    if (row.shut) continue;
    double bore = 0.0;
    for (const Network::PartIndex hose : row.hoses) {
      bore = std::fmax(bore, si(*plumbing.network.part(hose).part.bore()));
    }
    // What feeds it: its manifold and the hose to that.
    std::string wider_than;
    for (const Manifold& m : toolbar.manifolds) {
      if (row.row < m.first_row || (m.last_row > 0 && row.row > m.last_row)) continue;
      const double slack = 1.0 + 1e-9;
      if (bore > si(m.bore) * slack) wider_than = fmt::format("the manifold that feeds it, {}", bore_text(m.bore));
      if (si(m.feed_length) > 0.0 && bore > si(m.feed_bore) * slack) {
        wider_than = fmt::format("the feed hose of its manifold, {}", bore_text(m.feed_bore));
      }
    }
    const double velocity = std::abs(e.rows[i].flow) / (0.25 * std::numbers::pi * bore * bore);
    const bool creeps = bore > wide_row_hose * (1.0 + 1e-9) && velocity < creeping_velocity;
    if (wider_than.empty() && !creeps) continue;
    found.push_back({too_wide, fmt::format("row {}", row.row),
                     fmt::format("the hose has a bore of {}, {}: is it right?", bore_text(from_si<Length>(bore)),
                                 !wider_than.empty()
                                     ? "wider than " + wider_than
                                     : std::string("above 1 in, and the liquid creeps in it (below 0.2 ft/s; common "
                                                   "practice, no source)")),
                     bore, wide_row_hose});
  }
  return found;
}

/// A hose that cannot reach first: it is cut before anything else shows.
static constexpr std::string_view doubts[] = {too_short,      too_wide,    valve_too_much, line_too_much,
                                              takes_too_much, not_smaller, meters_nothing};

bool is_layout_doubt(std::string_view code) {
  return std::find(std::begin(doubts), std::end(doubts), code) != std::end(doubts);
}

const Caution* layout_doubt(const Evenness& e) {
  for (const std::string_view code : doubts) {
    for (const Caution& c : e.cautions) {
      if (c.code == code) return &c;
    }
  }
  return nullptr;
}

}  // namespace libflow
