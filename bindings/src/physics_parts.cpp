// SPDX-License-Identifier: MIT
// Physics formulas of tees, valves, pumps, tanks, and of liquid that moves through lines; over arrays.
#include <cmath>
#include <limits>

#include "formula.hpp"

namespace libflow::python {

namespace {

/// Smallest step below 1, for shares that never get there.
constexpr double below_one = 1.0 - std::numeric_limits<double>::epsilon() / 2.0;

void add_tee_formulas(py::module_& m) {
  using namespace physics;
  using namespace formula;
  const Argument q{"q", {}, share}, area_ratio{"area_ratio", {}, tee_area_ratio, 1.0};
  const Argument angle{"angle", {}, tee_angle, 90.0};
  add_formula(
      m, "tee_dividing_branch", {q, area_ratio, angle},
      "Loss of total pressure into the branch of a tee that divides, over the run's velocity head [-]; q: the\n"
      "branch's share of the flow [-], area_ratio: branch over run [-], angle [degrees], 30 to 90. Crane TP-410 "
      "2009;\nturbulent flow.",
      [](const double* x) { return tee_dividing<double>(x[0], {.area_ratio = x[1], .angle = x[2]}).branch; });
  add_formula(m, "tee_dividing_run", {q, area_ratio, angle},
              "Loss of total pressure straight on in a tee that divides, over the velocity head of the combined flow "
              "[-].\nArguments as tee_dividing_branch. Crane TP-410 2009.",
              [](const double* x) { return tee_dividing<double>(x[0], {.area_ratio = x[1], .angle = x[2]}).run; });
  add_formula(
      m, "tee_combining_branch", {q, area_ratio, angle},
      "Loss of total pressure from the branch of a tee in which two flows combine, over the velocity head of "
      "the\ncombined flow in the run [-]; negative where it is dragged along. Arguments as tee_dividing_branch. "
      "Crane TP-410\n2009.",
      [](const double* x) { return tee_combining<double>(x[0], {.area_ratio = x[1], .angle = x[2]}).branch; });
  add_formula(m, "tee_combining_run", {q, area_ratio, angle},
              "Loss of total pressure straight on in a tee in which two flows combine, over the velocity head of the\n"
              "combined flow [-]. Arguments as tee_dividing_branch. Crane TP-410 2009.",
              [](const double* x) { return tee_combining<double>(x[0], {.area_ratio = x[1], .angle = x[2]}).run; });
  add_formula(
      m, "tee_meeting", {q, area_ratio},
      "Loss from either end of the run to the branch where two streams meet, over the velocity head in the "
      "branch [-];\nq: share of either stream [-]. Shape: Idelchik, diagram 7-29; height: as tee_dividing_branch "
      "of one stream alone.",
      [](const double* x) { return physics::tee_meeting<double>(x[0], x[1]); });
  add_formula(m, "tee_parting", {q, area_ratio, {"k", {}, tee_parting_range, tee_parting_threaded}},
              "Loss from the branch to one end of the run where the branch's stream parts, over the velocity head in "
              "the\nbranch [-]; q: share of that end [-], k: 1.5 threaded, 0.3 welded. Idelchik, diagram 7-29.",
              [](const double* x) { return physics::tee_parting<double>(x[0], x[1], x[2]); });
}

void add_valve_formulas(py::module_& m) {
  using namespace physics;
  using namespace formula;
  const Argument travel{"travel", {}, share}, rangeability{"rangeability", {}, {2.0, 1000.0}, 50.0};
  add_formula(m, "inherent_linear", {travel, rangeability},
              "Share of a valve's rated coefficient at a share of its travel, linear [-]; rangeability: rated over "
              "least\ncontrollable coefficient [-]. IEC 60534-1.",
              [](const double* x) { return physics::inherent_linear<double>(x[0], x[1]); });
  add_formula(m, "inherent_equal_percentage", {travel, rangeability},
              "Share of a valve's rated coefficient at a share of its travel, R^(h - 1) [-]. IEC 60534-1.",
              [](const double* x) { return physics::inherent_equal_percentage<double>(x[0], x[1]); });
  const Argument kv{"kv", Kind::flow, positive};
  add_formula(m, "valve_drop",
              {flow,
               kv,
               {"rated_kv", Kind::flow, positive},
               bore,
               density,
               viscosity,
               {"recovery", {}, valve_recovery_range, 0.9},
               {"style", {}, valve_style_range, 0.46}},
              "Drop [Pa] of a valve at a flow [m3/s, either sign]; kv at its opening, rated_kv fully open [m3/s of "
              "water at\n1 bar], bore of valve and line [m], recovery FL, style Fd [-]. IEC 60534-2-1.",
              [](const double* x) {
                const auto l = valve_loss<double>(x[1], x[2], x[3], x[4], x[5], x[6], x[7]);
                return x[0] * (l.linear + l.quadratic * std::abs(x[0]));
              });
  add_formula(m, "choked_drop",
              {{"inlet", Kind::pressure, positive},
               {"vapour", Kind::pressure, not_negative},
               {"critical", Kind::pressure, positive, water_critical_pressure},
               {"recovery", {}, valve_recovery_range, 0.9}},
              "Drop [Pa] beyond which more brings no more flow; inlet, vapour and critical pressures [Pa absolute], "
              "recovery\nFL [-]. IEC 60534-2-1.",
              [](const double* x) { return physics::choked_drop<double>(x[0], x[1], x[2], x[3]); });
}

void add_pumps_and_tanks(py::module_& m) {
  using namespace physics;
  using namespace formula;
  const Argument ratio{"ratio", {}, positive}, gain{"gain", Kind::pressure, any};
  add_formula(m, "flow_at_speed", {flow, ratio},
              "Flow [m3/s] of a centrifugal pump at another speed; ratio: new over old speed [-]. Crane TP-410, 7-33.",
              [](const double* x) { return physics::flow_at_speed<double>(x[0], x[1]); });
  add_formula(m, "gain_at_speed", {gain, ratio},
              "Gain [Pa] of a centrifugal pump at another speed; ratio: new over old speed [-]. Crane TP-410, 7-33.",
              [](const double* x) { return physics::gain_at_speed<double>(x[0], x[1]); });
  add_formula(m, "power_at_speed", {{"power", {}, any}, ratio},
              "Power [W] of a centrifugal pump at another speed; ratio: new over old speed [-]. Crane TP-410, 7-33.",
              [](const double* x) { return physics::power_at_speed<double>(x[0], x[1]); });
  add_formula(m, "hydraulic_power", {flow, gain},
              "Power [W] that a pump puts into the liquid: flow [m3/s] x gain [Pa].",
              [](const double* x) { return physics::hydraulic_power<double>(x[0], x[1]); });
  add_formula(
      m, "suction_head_available",
      {{"inlet_pressure", Kind::pressure, any}, {"vapour_pressure", Kind::pressure, not_negative}, density},
      "Net positive suction head available [m]: inlet total pressure over vapour pressure [Pa absolute], over "
      "weight.\nANSI/HI 9.6.1.",
      [](const double* x) { return physics::suction_head_available<double>(x[0], x[1], x[2] * standard_gravity); });
  add_formula(m, "slip_share", {{"swept", Kind::flow, positive}, {"delivered", Kind::flow, any}},
              "Slip of a positive pump, 1 - delivered / swept [-]; both [m3/s].",
              [](const double* x) { return physics::slip_share<double>(x[0], x[1]); });
  const Argument level{"level", Kind::length, not_negative};
  add_formula(m, "lying_tank_volume",
              {level, {"height", Kind::length, positive}, {"width", Kind::length, positive}, length},
              "Volume [m3] in a lying tank of elliptical section up to a level [m]; height, width, length inside [m].",
              [](const double* x) {
                require_in("lying_tank_volume, level", x[0], {0.0, x[1]}, "m");
                return lying_filling<double>(x[1], x[2], x[3], x[0]).volume;
              });
}

void add_moving_liquid(py::module_& m) {
  using namespace physics;
  using namespace formula;
  add_formula(m, "laminar_new_share", {{"time", {}, not_negative}},
              "Share of new liquid in what leaves a tube in laminar flow [-]; time: over the mean transit time [-]. "
              "Danckwerts\n1953, Levenspiel 1999.",
              [](const double* x) { return physics::laminar_new_share<double>(x[0]); });
  add_formula(m, "laminar_flushing_time", {{"share", {}, {0.0, below_one}}},
              "Time, over the mean transit time, after which a tube in laminar flow gives new liquid to a share [-]; 5 "
              "for\n99 %. Danckwerts 1953, Levenspiel 1999.",
              [](const double* x) { return physics::laminar_flushing_time<double>(x[0]); });
  add_formula(m, "tube_volume", {length, bore}, "Volume [m3] of a round tube; length, bore inside [m].",
              [](const double* x) { return physics::tube_volume<double>(x[0], x[1]); });
  add_formula(m, "tube_storage",
              {{"bulk_modulus", Kind::pressure, positive},
               bore,
               {"wall", Kind::length, positive},
               {"modulus", Kind::pressure, positive}},
              "Relative volume that a full elastic tube stores for a pressure, 1/K + D/(E e) [1/Pa]; bulk_modulus K of "
              "the\nliquid, modulus E of the wall [Pa], bore D, wall e [m]. Korteweg 1878.",
              [](const double* x) { return physics::tube_storage<double>(x[0], x[1], x[2], x[3]); });
}

}  // namespace

void add_physics_of_parts(py::module_& m) {
  add_tee_formulas(m);
  add_valve_formulas(m);
  add_pumps_and_tanks(m);
  add_moving_liquid(m);
}

}  // namespace libflow::python
