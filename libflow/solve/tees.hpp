// SPDX-License-Identifier: MIT
/// @file
/// Tees in a network: corrections for the parts that join at each (solve/corrected.hpp).
#pragma once

#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/network/network.hpp>
#include <libflow/network/tee_at.hpp>
#include <libflow/parts/tee.hpp>
#include <libflow/solve/corrected.hpp>

namespace libflow {

namespace tees_detail {

inline void check_legs(const Network& network, const TeeAt& at) {
  if (at.place >= network.place_count()) {
    throw InputError("tee, place", fmt::format("place {} is not in the network", at.place),
                     fmt::format("0 to {}", network.place_count() - 1));
  }
  const std::string where = fmt::format("tee at '{}'", network.place(at.place).id);
  std::vector<Network::PartIndex> legs = at.branches;
  if (at.branches.empty()) throw InputError(where + ", branches", "none given", "one part or more");
  for (const auto& end : {at.left, at.right}) {
    if (end) legs.push_back(*end);
  }
  if (!at.left && !at.right) throw InputError(where + ", run", "both ends are plugged", "a part at one end at least");
  for (std::size_t i = 0; i < legs.size(); ++i) {
    if (legs[i] >= network.part_count()) {
      throw InputError(where, fmt::format("part {} is not in the network", legs[i]),
                       fmt::format("0 to {}", network.part_count() - 1));
    }
    const std::string id = fmt::format("part '{}'", network.part(legs[i]).id);
    if (network.from(legs[i]) != at.place && network.to(legs[i]) != at.place) {
      throw InputError(where, id + " does not join that place", "parts that begin or end there");
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (legs[k] == legs[i]) throw InputError(where, id + " is given twice", "each part as one leg");
    }
  }
}

/// A leg's part and +1 where it leads away from the tee, -1 where it leads there.
struct Leg {
  Network::PartIndex part = 0;
  double way = 1.0;
};
/// A tee with all that its corrections need, the network no more.
struct Legs {
  Tee tee;
  std::vector<Leg> left, right, branch;

  [[nodiscard]] static double out(const std::vector<Leg>& legs, const Solution& s) {
    double flow = 0.0;
    for (const Leg& leg : legs) flow += leg.way * s.parts[leg.part].flow;
    return flow;
  }
  [[nodiscard]] TeeLevels levels(const Solution& s, double density) const {
    return tee.levels({.left = out(left, s), .right = out(right, s), .branch = out(branch, s)}, density);
  }
};

inline Legs legs_of(const Network& network, const TeeAt& at) {
  check_legs(network, at);
  at.tee.check(fmt::format("tee at '{}'", network.place(at.place).id));
  const auto leg = [&](Network::PartIndex part) { return Leg{part, network.from(part) == at.place ? 1.0 : -1.0}; };
  Legs legs{.tee = at.tee, .left = {}, .right = {}, .branch = {}};
  if (at.left) legs.left.push_back(leg(*at.left));
  if (at.right) legs.right.push_back(leg(*at.right));
  for (const auto part : at.branches) legs.branch.push_back(leg(part));
  return legs;
}

}  // namespace tees_detail

/// The corrections of tees, for solve_corrected: every leg gets the drop between it and the tee's place at the flows of
/// the solution. A part between two tees is a leg of both.
/// @param density  of the liquid [kg/m3]
/// @throws InputError  a bore out of range, no branch, a part that does not join the place or is given twice
[[nodiscard]] inline std::vector<Correction> tee_corrections(const Network& network, const std::vector<TeeAt>& tees,
                                                             double density) {
  std::vector<Correction> corrections;
  for (const TeeAt& at : tees) {
    const tees_detail::Legs tee = tees_detail::legs_of(network, at);
    const auto add = [&](const std::vector<tees_detail::Leg>& legs, double TeeLevels::*level) {
      for (const tees_detail::Leg& leg : legs) {
        corrections.push_back({leg.part, [tee, density, level, way = leg.way](const Solution& s, double /*present*/) {
                                 return -way * (tee.levels(s, density).*level);
                               }});
      }
    };
    add(tee.left, &TeeLevels::left);
    add(tee.right, &TeeLevels::right);
    add(tee.branch, &TeeLevels::branch);
  }
  return corrections;
}

/// How each tee flows in a solution and what its legs lose: for reports and cautions (Tee::cautions).
struct TeeResult {
  TeeState state = TeeState::still;  ///< of the solution
  TeeFlows flows{};                  ///< out of the tee [m3/s]
  TeeLevels levels{};                ///< [Pa]
};
/// How a tee flows in a solution.
/// @param density  of the liquid [kg/m3]
[[nodiscard]] inline TeeResult tee_result(const Network& network, const TeeAt& at, const Solution& s, double density) {
  const tees_detail::Legs tee = tees_detail::legs_of(network, at);
  const TeeFlows flows{.left = tees_detail::Legs::out(tee.left, s),
                       .right = tees_detail::Legs::out(tee.right, s),
                       .branch = tees_detail::Legs::out(tee.branch, s)};
  return {Tee::state(flows), flows, tee.tee.levels(flows, density)};
}

/// A tee with the bores that are not given (0) from the parts themselves: the run's is that of its left part (without
/// one, of its right), the branch's that of one tube with the area of all branches.
/// @throws InputError  where the tee's bores are not given (0) and its parts have none; for legs as tee_corrections
[[nodiscard]] inline TeeAt with_bores_of_parts(const Network& network, TeeAt at) {
  tees_detail::check_legs(network, at);
  const std::string where = fmt::format("tee at '{}'", network.place(at.place).id);
  const auto bore = [&](Network::PartIndex part) {
    const auto found = network.part(part).part.bore();
    if (!found) {
      throw InputError(where, fmt::format("part '{}' has no bore", network.part(part).id), "the tee's bores given");
    }
    return si(*found);
  };
  if (si(at.tee.run_bore) == 0.0) {
    at.tee.run_bore = from_si<Length>(bore(at.left ? *at.left : *at.right));
  }
  if (si(at.tee.branch_bore) == 0.0) {
    double area = 0.0;  // times 4/pi
    for (const auto part : at.branches) area += bore(part) * bore(part);
    at.tee.branch_bore = from_si<Length>(std::sqrt(area));
  }
  return at;
}

}  // namespace libflow
