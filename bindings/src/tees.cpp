// SPDX-License-Identifier: MIT
// Tees: their law, and tees at places of a network.
#include "tees.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include <libflow/parts/tee.hpp>
#include <libflow/solve.hpp>
#include <libflow/toolbar/hanging_tubes.hpp>

#include "cautions.hpp"
#include "module.hpp"
#include "names.hpp"
#include "record.hpp"

namespace libflow::python {

LIBFLOW_NAMES(TeeState, "still", "dividing", "combining", "meeting", "parting");

namespace {

/// Flows out of a tee, which have to add up to nothing but for rounding; the branch's is what the ends of the run
/// leave.
TeeFlows flows_from(py::handle left, py::handle right) {
  TeeFlows out{.left = quantity_from(Kind::flow, left, "Tee, left"),
               .right = quantity_from(Kind::flow, right, "Tee, right")};
  out.branch = -(out.left + out.right);
  return out;
}

py::dict levels_dict(const TeeLevels& l) {
  py::dict d;
  d["left"] = l.left;
  d["right"] = l.right;
  d["branch"] = l.branch;
  return d;
}

}  // namespace

std::vector<TeeAt> tees_from(const Network& network, const py::object& tees) {
  std::vector<TeeAt> all;
  for (const NamedTee& named : Convert<std::vector<NamedTee>>::from(tees, "tees")) {
    const std::string where = fmt::format("tee at '{}'", named.place);
    TeeAt at;
    at.place = network.find_place(named.place, "tee, place");
    if (named.left) at.left = network.find_part(*named.left, where + ", left");
    if (named.right) at.right = network.find_part(*named.right, where + ", right");
    for (const std::string& id : named.branches) at.branches.push_back(network.find_part(id, where + ", branches"));
    at.tee.run_bore = named.run_bore.value_or(from_si<Length>(0.0));
    at.tee.branch_bore = named.branch_bore.value_or(from_si<Length>(0.0));
    at.tee.parting = named.parting;
    at.tee.factor = named.factor;
    at = with_bores_of_parts(network, std::move(at));
    at.tee.check(where);
    for (const TeeAt& other : all) {
      if (other.place == at.place) throw InputError(where, "given twice", "one tee at a place");
    }
    all.push_back(std::move(at));
  }
  return all;
}

py::object named_tees(const Network& network, const std::vector<TeeAt>& tees) {
  std::vector<NamedTee> all;
  const auto id = [&](Network::PartIndex part) { return network.part(part).id; };
  for (const TeeAt& at : tees) {
    NamedTee named{.place = network.place(at.place).id,
                   .run_bore = at.tee.run_bore,
                   .branch_bore = at.tee.branch_bore,
                   .parting = at.tee.parting,
                   .factor = at.tee.factor};
    for (const auto part : at.branches) named.branches.push_back(id(part));
    if (at.left) named.left = id(*at.left);
    if (at.right) named.right = id(*at.right);
    all.push_back(std::move(named));
  }
  return Convert<std::vector<NamedTee>>::to(all);
}

Solution solve_with_tees(const Network& network, const LiquidState& liquid, const std::vector<TeeAt>& tees) {
  const auto solve_one = [&](const Network& n) {
    std::vector<Correction> corrections = tee_corrections(n, tees, liquid.density);
    for (Correction& c : regulations(n)) corrections.push_back(std::move(c));
    CorrectedSolution corrected = solve_corrected(n, liquid, corrections);
    if (!corrected.usable()) corrected.solution.status = Status::iteration_limit;
    return std::move(corrected.solution);
  };
  Solution solution = solve_hanging_tubes(network, liquid, solve_one).solution;
  if (!solution.usable()) return solution;
  double largest = 0.0;
  for (const PartResult& p : solution.parts) largest = std::max(largest, std::abs(p.drop));
  for (const TeeAt& at : tees) {
    const TeeResult r = tee_result(network, at, solution, liquid.density);
    for (Caution c : at.tee.cautions(r.flows, liquid, largest)) {
      c.subject = fmt::format("tee at '{}'", network.place(at.place).id);
      solution.cautions.push_back(std::move(c));
    }
  }
  return solution;
}

py::list tee_results(const Network& network, const std::vector<TeeAt>& tees, const Solution& solution, double density) {
  py::list all;
  for (const TeeAt& at : tees) {
    const TeeResult r = tee_result(network, at, solution, density);
    py::dict flows;
    flows["left"] = r.flows.left;
    flows["right"] = r.flows.right;
    flows["branch"] = r.flows.branch;
    py::dict d;
    d["place"] = network.place(at.place).id;
    d["tee"] = at.tee;
    d["state"] = Convert<TeeState>::to(r.state);
    d["flows"] = flows;
    d["levels"] = levels_dict(r.levels);
    all.append(d);
  }
  return all;
}

void add_tees(py::module_& m) {
  Record<Tee>(m, "Tee",
              "A tee with a straight run of one bore and a branch at a right angle: what it does to total pressure,\n"
              "whichever way its three legs flow. It has three ends, so it is no part between two places: TeeAt puts "
              "it\nwhere parts join, for solve(). Dividing and combining: Crane TP-410 2009; meeting and parting: "
              "Idelchik,\ndiagram 7-29; turbulent flow (Re 1e4), else cautioned.")
      .need<&Tee::run_bore>("run_bore", "1 mm to 0.5 m")
      .need<&Tee::branch_bore>("branch_bore", "a tenth of the run's to the run's")
      .may<&Tee::parting>("parting", "k of a parting tee [-], 0 to 3; threaded 1.5, welded 0.3")
      .may<&Tee::factor>("factor", "on all its published losses [-], 0 to 3; 1: as published")
      .done([](const Tee& t, std::string_view where) { t.check(where); })
      .def_static(
          "state",
          [](const QuantityArg& left, const QuantityArg& right) {
            return Convert<TeeState>::to(Tee::state(flows_from(left, right)));
          },
          py::kw_only(), py::arg("left"), py::arg("right"),
          "Which way a tee flows: 'still', 'dividing', 'combining', 'meeting' or 'parting'. left, right: flows out of "
          "it\n"
          "by the ends of its run [m3/s], in negative; the branch takes what they leave.")
      .def(
          "levels",
          [](const Tee& t, const QuantityArg& left, const QuantityArg& right, const QuantityArg& density) {
            return levels_dict(
                t.levels(flows_from(left, right), quantity_from(Kind::density, density, "Tee, density")));
          },
          py::kw_only(), py::arg("left"), py::arg("right"), py::arg("density"),
          "Total pressure just inside each leg over that of the tee's place [Pa], a dict; the leg that the place "
          "stands\n"
          "for has 0. left, right: as in state(). density [kg/m3].")
      .def(
          "cautions",
          [](const Tee& t, const QuantityArg& left, const QuantityArg& right, const LiquidState& liquid,
             const QuantityArg& matters) {
            return cautions_to_python(
                t.cautions(flows_from(left, right), liquid, quantity_from(Kind::pressure, matters, "Tee, matters")));
          },
          py::kw_only(), py::arg("left"), py::arg("right"), py::arg("liquid"), py::arg("matters"),
          "A caution where the flow is not turbulent enough for the published losses and they count: more than a\n"
          "hundredth of `matters` [Pa], such as a row's orifice drop.");
  Record<NamedTee>(m, "TeeAt",
                   "A tee and where it stands: a place of a network and the parts that are its legs there, for\n"
                   "solve(network, liquid, tees=[...]). An end of the run without a part is plugged: an elbow.")
      .need<&NamedTee::place>("place", "id of the place")
      .need<&NamedTee::branches>("branches", "ids of one part or more that leave the branch side by side")
      .may<&NamedTee::left>("left", "id of the part at one end of the run; None: plugged")
      .may<&NamedTee::right>("right", "id of the part at the other end; None: plugged")
      .may<&NamedTee::run_bore>("run_bore", "1 mm to 0.5 m; None: of the part at its left end, else at its right")
      .may<&NamedTee::branch_bore>("branch_bore",
                                   "a tenth of the run's to the run's; None: of a tube with the area of all branches")
      .may<&NamedTee::parting>("parting", "k of a parting tee [-], 0 to 3; threaded 1.5, welded 0.3")
      .may<&NamedTee::factor>("factor", "on all its published losses [-], 0 to 3; 1: as published")
      .done();
}

}  // namespace libflow::python
