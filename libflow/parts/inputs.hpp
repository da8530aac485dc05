// SPDX-License-Identifier: MIT
/// @file
/// The numeric inputs of a part: what its law is differentiated by and what a study varies.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <string_view>
#include <tuple>
#include <type_traits>

#include <libflow/fluid/liquid.hpp>
#include <libflow/parts/law.hpp>
#include <libflow/physics/dual.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

/// One numeric input of a part type.
/// @tparam Field  pointer to a member, or a callable that gives a reference to it: a quantity, a number, or an optional
///                of one
template <class Field>
struct Input {
  std::string_view name;  ///< as the part's check names it
  std::string_view unit;  ///< SI; empty: a plain number
  Field field;            ///< pointer to the member
};
/// From the three, so that a list of inputs needs no types.
template <class Field>
Input(const char*, const char*, Field) -> Input<Field>;

/// A part type that lists its numeric inputs and whose law is a formula on any scalar S:
///   static constexpr std::tuple inputs{Input{"length", "m", &Hose::length}, ...}        most_inputs at most
///   `template <class S> BasicLaw<S> law_on(const std::array<S, N>& in, const LiquidNumbers<S>&) const`
///   Law law(const LiquidState& liquid) const { return lower(*this, liquid); }
/// `in` holds the inputs in their order, 0 for one that is not set. What is not an input comes from the part itself.
template <class T>
concept HasInputs = requires {
  std::tuple_size<std::remove_cvref_t<decltype(T::inputs)>>::value;
};

/// What laws need of a liquid, on any scalar.
template <class S>
struct LiquidNumbers {
  S density;    ///< [kg/m3]
  S viscosity;  ///< [Pa s]
};

/// No part has more inputs than this.
inline constexpr std::size_t most_inputs = 6;

/// Number of inputs that a part type lists.
template <HasInputs T>
inline constexpr std::size_t input_count = std::tuple_size_v<std::remove_cvref_t<decltype(T::inputs)>>;

/// A number with its slopes against the inputs of a part, then density, then viscosity. Even counts only: fewer types
/// of number to compile.
template <HasInputs T>
using TangentOf = physics::Dual<(input_count<T> + 3) / 2 * 2>;

/// One input of a certain part.
struct PartInput {
  std::string_view name;        ///< as Input
  std::string_view unit;        ///< SI; empty: a plain number
  std::optional<double> value;  ///< empty: not set, its default rules
};

namespace inputs_detail {

inline std::optional<double> get(double x) { return x; }
template <class Unit>
std::optional<double> get(const boost::units::quantity<Unit>& x) {
  return si(x);
}
template <class T>
std::optional<double> get(const std::optional<T>& x) {
  return x ? get(*x) : std::nullopt;
}
inline void set(double& x, double value) { x = value; }
template <class Unit>
void set(boost::units::quantity<Unit>& x, double value) {
  x = from_si<boost::units::quantity<Unit>>(value);
}
template <class T>
void set(std::optional<T>& x, double value) {
  T given{};
  set(given, value);
  x = given;
}

template <class T, class Visit>
void each_input(Visit&& visit) {
  std::apply(
      [&](const auto&... input) {
        std::size_t k = 0;
        (visit(k++, input), ...);
      },
      T::inputs);
}

}  // namespace inputs_detail

/// @param k  < input_count<T>
template <HasInputs T>
[[nodiscard]] PartInput input_of(const T& part, std::size_t k) {
  PartInput found{};
  inputs_detail::each_input<T>([&](std::size_t i, const auto& input) {
    if (i == k) found = {input.name, input.unit, inputs_detail::get(std::invoke(input.field, part))};
  });
  return found;
}

/// Gives an input another value [SI]; the part is not checked.
template <HasInputs T>
void set_input(T& part, std::size_t k, double value) {
  inputs_detail::each_input<T>([&](std::size_t i, const auto& input) {
    if (i == k) inputs_detail::set(std::invoke(input.field, part), value);
  });
}

/// The inputs as numbers, 0 for one that is not set. @param wrap  (value, k) to S
template <class S, HasInputs T, class Wrap>
[[nodiscard]] std::array<S, input_count<T>> input_values(const T& part, Wrap&& wrap) {
  static_assert(input_count<T> <= most_inputs);
  std::array<S, input_count<T>> values{};
  inputs_detail::each_input<T>([&](std::size_t k, const auto& input) {
    values[k] = wrap(inputs_detail::get(std::invoke(input.field, part)).value_or(0.0), k);
  });
  return values;
}

/// A part's law in a liquid: law_on at its own inputs.
template <HasInputs T>
[[nodiscard]] Law lower(const T& part, const LiquidState& liquid) {
  return part.template law_on<double>(input_values<double>(part, [](double x, std::size_t) { return x; }),
                                      LiquidNumbers<double>{liquid.density, liquid.viscosity});
}

/// How a part's drop at one flow answers to its inputs and to the liquid.
struct DropSlopes {
  double drop = 0;                           ///< [Pa]
  double flow = 0;                           ///< against the flow [Pa per m3/s]
  std::array<double, most_inputs> inputs{};  ///< against each input [Pa per its unit]; 0 for one that is not set
  double density = 0;                        ///< [Pa per kg/m3]
  double viscosity = 0;                      ///< [Pa per Pa s]
};

/// Exact, by the law's own formula on numbers that carry their slopes. @param flow  [m3/s]
template <HasInputs T>
[[nodiscard]] DropSlopes drop_slopes(const T& part, double flow, const LiquidState& liquid) {
  using Tangent = TangentOf<T>;
  constexpr std::size_t n = input_count<T>;
  const auto in = input_values<Tangent>(part, [](double x, std::size_t k) { return Tangent::input(x, k); });
  const LiquidNumbers<Tangent> numbers{Tangent::input(liquid.density, n), Tangent::input(liquid.viscosity, n + 1)};
  const Drop<Tangent> at = part.template law_on<Tangent>(in, numbers)(Tangent(flow));
  const Tangent& drop = at.dp;
  DropSlopes s;
  s.drop = drop.v;
  s.flow = at.slope.v;
  inputs_detail::each_input<T>([&](std::size_t k, const auto& input) {
    if (inputs_detail::get(std::invoke(input.field, part))) s.inputs[k] = drop.d[k];
  });
  s.density = drop.d[n];
  s.viscosity = drop.d[n + 1];
  return s;
}

}  // namespace libflow
