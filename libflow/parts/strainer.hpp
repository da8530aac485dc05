// SPDX-License-Identifier: MIT
/// @file
/// Strainer: a body that loses a given pressure at a rated flow, and in it a screen of many holes that can block.
#pragma once

#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <string_view>

#include <fmt/core.h>

#include <libflow/parts/fitting.hpp>
#include <libflow/parts/orifice.hpp>

namespace libflow {

/// Law: the screen as equal sharp holes side by side, as many as make up the open area that is not blocked
/// (physics/orifice.hpp), and the body as a local loss that makes up the rest of the rated loss (Fitting::rated), so
/// that the clean strainer meets its rating point exactly. A square mesh counts as round holes of its opening (common
/// practice, no source).
struct Strainer {
  Length bore{};          ///< of its ports, 0.1 mm to 0.5 m
  Flow rated_flow{};      ///< water, 20 C; 1e-9 to 1 m3/s
  Pressure rated_loss{};  ///< clean, at rated_flow, 1 Pa to 1 MPa
  Length opening{};       ///< of one mesh, 0.01 mm to 10 mm
  Area open_area{};       ///< of the clean screen, all openings together, 1e-8 to 10 m2
  double blocked = 0.0;   ///< share of the open area, 0 to 0.99
  std::optional<Length> orifice_bore =
      std::nullopt;  ///< smallest hole that it protects, 0.05 mm to 50 mm; for cautions

  static constexpr std::string_view kind = "strainer";
  static constexpr Contract contract = Contract::passage;
  static constexpr std::tuple inputs{Input{"bore", "m", &Strainer::bore},
                                     Input{"rated flow", "m3/s", &Strainer::rated_flow},
                                     Input{"rated loss", "Pa", &Strainer::rated_loss},
                                     Input{"opening", "m", &Strainer::opening},
                                     Input{"open area", "m2", &Strainer::open_area},
                                     Input{"blocked", "", &Strainer::blocked}};
  static constexpr Range flow_range{1e-9, 1.0};      ///< [m3/s]
  static constexpr Range loss_range{1.0, 1e6};       ///< [Pa]
  static constexpr Range opening_range{1e-5, 0.01};  ///< [m]
  static constexpr Range area_range{1e-8, 10.0};     ///< [m2]
  static constexpr Range blocked_range{0.0, 0.99};   ///< share of the screen [-]

  /// Opening of a mesh number: 16, 20, 30, 40, 50, 60, 80, 100 or 200.
  /// Source: ASTM E11 (from memory, and as an open package has it; tested). @throws InputError for another number
  [[nodiscard]] static Length mesh_opening(int mesh, std::string_view where = kind) {
    struct Mesh {
      int number;
      double mm;
    };
    constexpr std::array<Mesh, 9> table{{{16, 1.18},
                                         {20, 0.85},
                                         {30, 0.60},
                                         {40, 0.425},
                                         {50, 0.30},
                                         {60, 0.25},
                                         {80, 0.18},
                                         {100, 0.15},
                                         {200, 0.075}}};
    const Mesh* nearest = &table.front();
    for (const Mesh& m : table) {
      if (m.number == mesh) return from_si<Length>(m.mm * 1e-3);
      if (std::abs(m.number - mesh) < std::abs(nearest->number - mesh)) nearest = &m;
    }
    throw InputError(fmt::format("{}, mesh", where), fmt::format("{} is not in the table", mesh),
                     "16, 20, 30, 40, 50, 60, 80, 100, 200, or the opening itself", std::to_string(nearest->number));
  }

  void check(std::string_view where) const {
    require_in(fmt::format("{}, rated flow", where), si(rated_flow), flow_range, "m3/s");
    require_in(fmt::format("{}, rated loss", where), si(rated_loss), loss_range, "Pa");
    require_in(fmt::format("{}, opening", where), si(opening), opening_range, "m");
    require_in(fmt::format("{}, open area", where), si(open_area), area_range, "m2");
    require_in(fmt::format("{}, blocked", where), blocked, blocked_range, "");
    if (orifice_bore) require_in(fmt::format("{}, orifice bore", where), si(*orifice_bore), Orifice::bore_range, "m");
    const double one = std::numbers::pi * si(opening) * si(opening) / 4.0;
    if (!(si(open_area) >= one)) {
      throw InputError(fmt::format("{}, open area", where),
                       fmt::format("{:.6g} m2 is less than one opening of {:.6g} m", si(open_area), si(opening)),
                       fmt::format("at least {:.6g} m2", one));
    }
    const double screen_loss = clean_screen_loss();
    if (!(screen_loss < si(rated_loss))) {
      throw InputError(fmt::format("{}, rated loss", where),
                       fmt::format("{:.6g} Pa, but the clean screen alone loses {:.6g} Pa at the rated flow",
                                   si(rated_loss), screen_loss),
                       fmt::format("more than {:.6g} Pa, or a larger open area", screen_loss));
    }
    (void)body(where);
  }

  [[nodiscard]] Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
  template <class S>
  [[nodiscard]] BasicLaw<S> law_on(const std::array<S, 6>& in, const LiquidNumbers<S>& liquid) const {
    const auto& [d, flow, loss, mesh, area, share] = in;
    const S k1(Fitting::rated_k1), body_loss = loss - clean_loss<S>(flow, mesh, area);
    BasicLaw<S> law = Fitting::loss_law<S>(d, k1, Fitting::rated_k_inf<S>(d, flow, body_loss, k1), liquid);
    law.holes.push_back(screen<S>(mesh, area, share, liquid));
    return law;
  }

  [[nodiscard]] Length inside_bore() const { return bore; }

  [[nodiscard]] Cautions cautions(double flow, double /*inlet_pressure*/, const LiquidState& /*liquid*/) const {
    Cautions found;
    if (orifice_bore && opening > *orifice_bore) {
      found.push_back({"strainer-too-coarse",
                       {},
                       "the mesh lets through what can block an orifice: choose an opening a little finer than the "
                       "smallest orifice",
                       si(opening),
                       si(*orifice_bore),
                       "sprayer strainer guidance: progressively finer, ending just finer than the orifice"});
    }
    const double least = std::abs(flow) * area_per_flow;
    if (free_area() < least) {
      found.push_back({"strainer-too-small",
                       {},
                       "the free screen area is small for this flow: it blocks soon (the suction side wants twice as "
                       "much as the limit given)",
                       free_area(),
                       least,
                       "Agrochemical and Pesticide Safety, strainers: 1 in2 per US gal/min on the pressure side"});
    }
    return found;
  }

 private:
  /// One square inch for each US gallon a minute [m2 per m3/s].
  static constexpr double area_per_flow = 0.0254 * 0.0254 / si(units::gpm);

  [[nodiscard]] double free_area() const { return si(open_area) * (1.0 - blocked); }

  /// Equal holes side by side: each carries its share of the flow at the same drop.
  template <class S>
  [[nodiscard]] static physics::Hole<S> screen(const S& mesh, const S& area, const S& share_blocked,
                                               const LiquidNumbers<S>& liquid) {
    const S one = S(std::numbers::pi) * mesh * mesh / S(4.0);
    const S count = area * (S(1.0) - share_blocked) / one;
    physics::Hole<S> h = Orifice::hole_of<S>(mesh, S(0.0), std::nullopt, liquid);
    h.creeping /= count;
    h.inertia /= count * count;
    h.re_per_flow /= count;
    return h;
  }
  template <class S>
  [[nodiscard]] static S clean_loss(const S& flow, const S& mesh, const S& area) {
    const LiquidNumbers<S> water{S(water_density<double>(293.15)), S(water_viscosity<double>(293.15))};
    return physics::drop_hole<S>(flow, screen<S>(mesh, area, S(0.0), water)).dp;
  }
  [[nodiscard]] double clean_screen_loss() const {
    return clean_loss<double>(si(rated_flow), si(opening), si(open_area));
  }
  [[nodiscard]] Fitting body(std::string_view where) const {
    return Fitting::rated(bore, rated_flow, rated_loss - from_si<Pressure>(clean_screen_loss()), Fitting::rated_k1,
                          where);
  }
};

static_assert(PartType<Strainer>);

}  // namespace libflow
