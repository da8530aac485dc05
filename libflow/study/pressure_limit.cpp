// SPDX-License-Identifier: MIT
#include <libflow/study/pressure_limit.hpp>

#include <string>
#include <variant>

#include <fmt/core.h>

#include <libflow/parts/centrifugal_pump.hpp>
#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/part.hpp>
#include <libflow/parts/positive_pump.hpp>
#include <libflow/parts/pump_curve.hpp>

namespace libflow {

/// A place by place layout whose total is given: nothing in it says with which pressure.
static bool fed_without_pump(const Plumbing& p) {
  if (p.network.place(p.supply).kind != PlaceKind::fed) return false;
  for (Network::PartIndex i = 0; i < p.network.part_count(); ++i) {
    const Part& part = p.network.part(i).part;
    if (part.as<CentrifugalPump>() != nullptr || part.as<PumpCurve>() != nullptr ||
        part.as<PositivePump>() != nullptr || part.as<GroundDrivenPump>() != nullptr) {
      return false;
    }
  }
  return true;
}

std::optional<PressureLimit> pressure_limit(const Job& job, const Toolbar* toolbar, const Plumbing* plumbing) {
  if (job.pump_limit) return PressureLimit{.most = si(*job.pump_limit)};
  const bool ideal = toolbar != nullptr ? !toolbar->drive : plumbing != nullptr && fed_without_pump(*plumbing);
  if (!ideal) return std::nullopt;
  return PressureLimit{.most = assumed_pressure_limit, .assumed = true};
}

std::optional<PressureLimit> pressure_limit(const Layout& layout) {
  return pressure_limit(layout.job, std::get_if<Toolbar>(&layout.plumbing), std::get_if<Plumbing>(&layout.plumbing));
}

std::string pressure_limit_name(bool drive) { return drive ? "pump limit" : "pressure limit"; }

/// "60 psi (414 kPa)".
static std::string psi_text(double pressure) {
  return fmt::format("{:.0f} psi ({:.0f} kPa)", pressure / si(units::psi), 1e-3 * pressure);
}

std::string assumed_limit_sentence(const Layout& layout) {
  const auto limit = pressure_limit(layout);
  if (!limit || !limit->assumed) return {};
  return fmt::format(
      "No limit of the pressure is given: {} at the gauge is assumed (common practice, no source); write what your "
      "supply can give into [job], e.g. pump_limit = \"60 psi\"",
      psi_text(limit->most));
}

std::optional<Caution> assumed_limit_caution(const Layout& layout, double gauge) {
  const auto limit = pressure_limit(layout);
  if (!limit || !limit->assumed) return std::nullopt;
  if (!(gauge > limit->most * (1.0 + 1e-9))) {
    return Caution{"assumed-pressure-limit", "", assumed_limit_sentence(layout), gauge, limit->most};
  }
  return Caution{"above-assumed-limit", "supply",
                 fmt::format("it needs {} at the gauge, more than the {} that are assumed where the layout gives no "
                             "limit (common practice, no source); if your supply and hoses can give more, write it "
                             "into [job]: pump_limit = \"... psi\"",
                             psi_text(gauge), psi_text(limit->most)),
                 gauge, limit->most};
}

}  // namespace libflow
