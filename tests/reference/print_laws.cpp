// SPDX-License-Identifier: MIT
/// @file
/// Prints laws over a grid for check_laws.py: a line each, "law argument argument ... value", SI.

#include <numbers>
#include <string_view>

#include <fmt/core.h>

#include <libflow/parts.hpp>
#include <libflow/physics.hpp>

namespace {

using namespace libflow;
using namespace libflow::physics;

template <class... Numbers>
void line(std::string_view law, Numbers... numbers) {
  fmt::print("{}", law);
  (fmt::print(" {:.17g}", numbers), ...);
  fmt::print("\n");
}

void friction() {
  for (const double re : {4e3, 1.3e4, 1e5, 3e6, 1e8}) {
    for (const double e : {0.0, 1e-6, 1e-4, 0.003, 0.05}) line("colebrook", re, e, friction_colebrook<double>(re, e).f);
  }
  for (const double re : {1.0, 100.0, 1999.0}) line("laminar", re, friction_laminar<double>(re).f);
  for (const double curvature : {0.01, 0.05, 0.14}) {
    line("coil_limit", curvature, coil_laminar_limit_re<double>(curvature));
    for (const double re : {500.0, 1000.0, 1900.0}) {
      line("coil_laminar", re, curvature,
           friction_laminar<double>(re).f * coil_ratio_laminar<double>(dean_number<double>(re, curvature)).ratio);
    }
    for (const double re : {3e4, 1e5})
      line("coil_turbulent", re, curvature, friction_coil_turbulent<double>(re, 0.0, curvature).f);
  }
}

void fittings() {
  using Make = Fitting (*)(Length, LossMethod);
  const std::pair<std::string_view, Make> makes[] = {{"elbow_90", Fitting::elbow_90},
                                                     {"elbow_45", Fitting::elbow_45},
                                                     {"tee_run", Fitting::tee_run},
                                                     {"tee_branch", Fitting::tee_branch},
                                                     {"ball_valve", Fitting::ball_valve}};
  for (const auto& [name, make] : makes) {
    for (const double inches : {0.25, 0.5, 1.0, 2.0}) {
      for (const double re : {10.0, 400.0, 3e3, 1e6}) {
        for (const auto& [method, method_name] :
             {std::pair{LossMethod::two_constant, "two"}, std::pair{LossMethod::three_constant, "three"}}) {
          const Fitting f = make(from_si<Length>(inches * 0.0254), method);
          fmt::print("{}_constant {} {:.17g} {:.17g} {:.17g}\n", method_name, name, inches, re, f.k1 / re + f.k_inf);
        }
      }
    }
  }
  for (const double ratio : {0.2, 0.5, 0.8}) {
    for (const double degrees : {10.0, 30.0, 60.0, 120.0, 180.0}) {
      const double angle = degrees * std::numbers::pi / 180.0;
      line("contraction", ratio, degrees, contraction_k_inf<double>(ratio, angle));
      line("expansion", ratio, degrees, expansion_k_inf<double>(ratio, angle));
    }
  }
}

void tees() {
  for (const double angle : {30.0, 45.0, 60.0, 90.0}) {
    for (const double bore_ratio : {0.3, 0.5, 0.7, 0.9, 1.0}) {
      for (const double q : {0.05, 0.2, 0.35, 0.45, 0.55, 0.7, 0.95}) {
        const TeeShape tee{.area_ratio = bore_ratio * bore_ratio, .angle = angle};
        const auto divide = tee_dividing<double>(q, tee), combine = tee_combining<double>(q, tee);
        line("branch_dividing", q, bore_ratio, angle, divide.branch);
        line("run_dividing", q, bore_ratio, angle, divide.run);
        line("branch_combining", q, bore_ratio, angle, combine.branch);
        line("run_combining", q, bore_ratio, angle, combine.run);
      }
    }
  }
}

void valves_and_holes() {
  // Drop of a throttling valve in water at 15 C, so that the standard's Kv can be found back; turbulent.
  for (const double kv : {1.0, 2.0, 4.0}) {
    for (const double bore : {0.015, 0.025}) {
      for (const double flow : {0.7, 3.0}) {  // m3/h
        const auto loss = valve_loss<double>(kv / 3600.0, kv / 3600.0, bore, kv_density, 1.14e-3, 0.9, 0.46);
        const double q = flow / 3600.0;
        line("valve_drop", kv, bore, q, q * (loss.linear + loss.quadratic * q));
      }
    }
  }
  for (const double bore : {1e-3, 3e-3, 1e-2}) {
    const Hole<double> h = hole<double>(bore, 0.0, 998.21, 1.0016e-3, sharp_discharge_coefficient, sharp_uncontracted);
    const double q = 1e5 * std::numbers::pi / 4.0 * bore * 1.0016e-3 / 998.21;  // Re 1e5
    line("sharp_hole", bore, q, discharge_coefficient<double>(q, h, bore, 998.21));
  }
  for (const int mesh : {16, 20, 30, 40, 50, 60, 80, 100, 200}) {
    line("mesh", static_cast<double>(mesh), si(Strainer::mesh_opening(mesh)));
  }
  for (const WallRoughness& wall : wall_roughness_table) {
    std::string name(wall.name);
    for (char& c : name) c = c == ' ' ? '_' : c;
    fmt::print("roughness {} {:.17g}\n", name, si(wall.roughness));
  }
}

void tanks_and_numbers() {
  for (const double level : {0.1, 0.5, 0.75, 1.1})
    line("lying_round", level, lying_filling<double>(1.2, 1.2, 2.5, level).volume);
  for (const double bore : {0.003, 0.0127}) {
    line("bond", bore, bond_number<double>(bore, 998.21, water_surface_tension));
    line("froude", 1e-5, bore, froude_number<double>(1e-5, bore));
  }
}

}  // namespace

int main() {
  friction();
  fittings();
  tees();
  valves_and_holes();
  tanks_and_numbers();
  return 0;
}
