// SPDX-License-Identifier: MIT
/// @file
/// The law of a part: at flow q, what total-pressure drop, and what slope. A short sum of terms of a few kinds.
#pragma once

#include <functional>
#include <utility>
#include <vector>

#include <boost/container/small_vector.hpp>

#include <libflow/physics/friction.hpp>
#include <libflow/physics/minor_loss.hpp>
#include <libflow/physics/orifice.hpp>
#include <libflow/physics/scalar.hpp>

namespace libflow {

using physics::Drop;

/// Which way liquid can pass.
enum class Passes : unsigned char { both, forward, backward, neither };

/// Both limits at once: parts in series pass only what each of them passes.
[[nodiscard]] constexpr Passes operator&(Passes a, Passes b) {
  if (a == Passes::both) return b;
  if (b == Passes::both || a == b) return a;
  return Passes::neither;
}
/// The same seen from the other end.
[[nodiscard]] constexpr Passes reversed(Passes p) {
  if (p == Passes::forward) return Passes::backward;
  if (p == Passes::backward) return Passes::forward;
  return p;
}

/// Sum of terms. Drops are in Pa from the part's first place to its second, flow in m3/s is positive that way.
///
/// A law is *lawful* when every term but `threshold` is odd and rising in the flow (see expect_lawful in
/// tests/support/lawful.hpp): then the flows of a network are the unique minimum of a convex function.
/// A new part is new arithmetic over these terms; what fits none of them brings a function of its own.
template <class S>
struct BasicLaw {
  S linear = S(0.0);             ///< r q [Pa per m3/s]
  S quadratic = S(0.0);          ///< k q|q| [Pa per (m3/s)^2]
  S threshold = S(0.0);          ///< constant drop while liquid flows forward: crack pressure (+) or gain (-) [Pa]
  Passes passes = Passes::both;  ///< which way liquid can pass
  // A hose, a check valve and an orifice in series need no memory of their own.
  boost::container::small_vector<physics::WallFriction<S>, 1> friction;  ///< walls of tubes
  boost::container::small_vector<physics::Hole<S>, 2> holes;             ///< orifices and what is described by one
  std::vector<std::function<Drop<S>(const S&)>> functions;               ///< odd or one-way, rising, slope > 0

  /// Drop and slope at a flow.
  [[nodiscard]] Drop<S> operator()(const S& q) const {
    using std::abs;
    Drop<S> d{S(threshold + q * (linear + quadratic * abs(q))), S(linear + S(2.0) * quadratic * abs(q))};
    for (const auto& term : friction) add(d, physics::drop_wall_friction<S>(q, term));
    for (const auto& term : holes) add(d, physics::drop_hole<S>(q, term));
    for (const auto& term : functions) add(d, term(q));
    return d;
  }

  /// A part, then another, carrying the same flow.
  BasicLaw& operator+=(const BasicLaw& next) {
    linear += next.linear;
    quadratic += next.quadratic;
    threshold += next.threshold;
    passes = passes & next.passes;
    friction.insert(friction.end(), next.friction.begin(), next.friction.end());
    holes.insert(holes.end(), next.holes.begin(), next.holes.end());
    functions.insert(functions.end(), next.functions.begin(), next.functions.end());
    return *this;
  }

  /// The same part seen from its other end: drop'(q) = -drop(-q).
  [[nodiscard]] BasicLaw reversed() const {
    BasicLaw r = *this;
    r.threshold = -threshold;
    r.passes = libflow::reversed(passes);
    for (auto& f : r.functions) {
      f = [g = std::move(f)](const S& q) {
        const Drop<S> d = g(S(-q));
        return Drop<S>{S(-d.dp), d.slope};
      };
    }
    return r;
  }

 private:
  static void add(Drop<S>& sum, const Drop<S>& term) {
    sum.dp += term.dp;
    sum.slope += term.slope;
  }
};

/// On plain numbers: what the solver works with.
using Law = BasicLaw<double>;

}  // namespace libflow
