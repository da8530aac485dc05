// SPDX-License-Identifier: MIT
#include <libflow/study/metering_cautions.hpp>

#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include <fmt/core.h>

#include <libflow/parts/orifice.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/physics/discharge.hpp>
#include <libflow/units/system.hpp>
#include <libflow/units/text.hpp>

namespace libflow {

constexpr const char* not_smaller = "orifice-not-smaller-than-hose";
constexpr const char* meters_nothing = "orifice-meters-nothing";

static std::string bore_text(Length bore) {
  return fmt::format("{} ({})", format_bore(bore, UnitSystem::us), format_bore(bore, UnitSystem::metric));
}

/// What a hole of a tenth of the bore would take of the row's drop; empty where it is no hole, or no way out.
static std::optional<double> share_of_a_tenth(const Orifice& orifice, const RowResult& row, double flow,
                                              const LiquidState& liquid, double gauge, double most_gauge) {
  const Orifice tenth = orifice.with_bore(0.1 * orifice.bore);
  const bool drilled = Orifice::bore_range.contains(si(tenth.bore)) &&
                       si(tenth.thickness) <= physics::hole_length_ratio.high * si(tenth.bore);
  if (!drilled) return std::nullopt;
  const double drop = physics::drop_hole<double>(flow, tenth.hole(liquid.density, liquid.viscosity)).dp;
  const double others = row.orifice_drop * (1.0 / row.orifice_share - 1.0), share = drop / (drop + others);
  const bool sensible = share >= least_metering_share && gauge - row.orifice_drop + drop <= most_gauge;
  return sensible ? std::optional(share) : std::nullopt;
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
    const bool wide = bore >= hose_bore * (1.0 - 1e-9);
    if (!wide && r.orifice_share >= least_metering_share) continue;

    const auto key = std::pair(std::llround(1e7 * bore), wide ? std::llround(1e7 * hose_bore) : 0LL);
    std::string& text = texts[key];
    if (text.empty()) {
      const std::string takes =
          r.orifice_share < 5e-4 ? "less than 0.1 %" : fmt::format("{:.1f} %", 100.0 * r.orifice_share);
      text = wide ? fmt::format(
                        "the orifice, {}, is not smaller than the hose that it sits in, {}, and takes {} of the "
                        "pressure: it meters nothing; is its bore right?",
                        bore_text(orifice->bore), bore_text(*hose), takes)
                  : fmt::format(
                        "the orifice, {}, takes {} of the pressure: it meters nothing, the hose does (below "
                        "{:.0f} %: common practice, no source); is its bore right?",
                        bore_text(orifice->bore), takes, 100.0 * least_metering_share);
      const double flow = r.flow / static_cast<double>(row.orifices.size());
      if (const auto share = share_of_a_tenth(*orifice, r, flow, liquid, e.supply_pressure, most_gauge)) {
        text += fmt::format(" Nearest: {}, which would take {:.0f} %", bore_text(0.1 * orifice->bore), 100.0 * *share);
      }
    }
    found.push_back({wide ? not_smaller : meters_nothing, fmt::format("row {}", r.row), text,
                     wide ? bore : r.orifice_share, wide ? hose_bore : least_metering_share});
  }
  return found;
}

const Caution* metering_doubt(const Evenness& e) {
  for (const Caution& c : e.cautions) {
    if (c.code == not_smaller || c.code == meters_nothing) return &c;
  }
  return nullptr;
}

}  // namespace libflow
