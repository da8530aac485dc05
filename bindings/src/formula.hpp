// SPDX-License-Identifier: MIT
/// @file
/// A formula of physics/ as a Python function over arrays that broadcast.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include <libflow/core/range.hpp>
#include <libflow/physics.hpp>

#include "convert.hpp"

namespace libflow::python {

/// One argument of a formula.
struct Argument {
  std::string name;
  std::optional<Kind> kind;  ///< text with a unit is read too; empty: a plain number
  Range range;
  std::optional<double> otherwise{};  ///< its default
};

/// Ranges of arguments that the formula itself leaves open.
namespace formula {

inline constexpr double infinity = std::numeric_limits<double>::infinity();
inline constexpr Range any{};
inline constexpr Range positive{std::numeric_limits<double>::min(), infinity};
inline constexpr Range not_negative{0.0, infinity};
inline constexpr Range share{0.0, 1.0};

inline const Argument re{"re", {}, positive}, bore{"bore", Kind::length, positive},
    density{"density", Kind::density, positive}, viscosity{"viscosity", Kind::viscosity, positive},
    flow{"flow", Kind::flow, any}, length{"length", Kind::length, positive},
    roughness{"roughness", Kind::length, not_negative, 1.5e-6},
    rel_roughness{"rel_roughness", {}, physics::colebrook_roughness, 0.0};

}  // namespace formula

/// Adds the function. @param of  takes the arguments in their order, within their ranges
void add_formula(py::module_& m, const char* name, std::vector<Argument> arguments, const char* doc,
                 double (*of)(const double* x));

/// Formulas of physics_parts.cpp.
void add_physics_of_parts(py::module_& m);

}  // namespace libflow::python
