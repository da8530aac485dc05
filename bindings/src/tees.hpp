// SPDX-License-Identifier: MIT
/// @file
/// Tees at places of a network, as Python names them: by ids.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/solve/solution.hpp>
#include <libflow/solve/tees.hpp>

#include "convert.hpp"

namespace libflow::python {

/// TeeAt by ids.
struct NamedTee {
  std::string place{};
  std::vector<std::string> branches{};
  std::optional<std::string> left{}, right{};
  std::optional<Length> run_bore{}, branch_bore{};  ///< empty: those of the parts
  double parting = physics::tee_parting_threaded;
  double factor = 1.0;
};

/// Tees of a network with their bores. @throws InputError for unknown ids and what cannot be a tee
std::vector<TeeAt> tees_from(const Network& network, const py::object& tees);
/// The same tees by ids.
py::object named_tees(const Network& network, const std::vector<TeeAt>& tees);
/// Solves a network with tees, regulators and hanging tubes. Cautions of the tees are held against its largest drop.
Solution solve_with_tees(const Network& network, const LiquidState& liquid, const std::vector<TeeAt>& tees);
/// How each tee flows, a list of dicts.
py::list tee_results(const Network& network, const std::vector<TeeAt>& tees, const Solution& solution, double density);

}  // namespace libflow::python
