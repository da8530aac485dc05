// SPDX-License-Identifier: MIT
/// @file
/// A 90-degree tee whose branch carries the combined flow: two streams meet and leave by the branch, or the branch's
/// stream parts both ways along the run.
///
/// Coefficients are losses of total pressure over the velocity head of the combined flow in the *branch's* bore. How
/// the flow splits is q, the share of one end of the run, 0 to 1.
/// Source: I. E. Idelchik, Handbook of Hydraulic Resistance, 3rd edition, diagram 7-29 (seen in three open
/// reprints). Turbulent flow, as all of physics/tee.hpp.
#pragma once

#include <type_traits>

#include <libflow/physics/scalar.hpp>
#include <libflow/physics/tee.hpp>

namespace libflow::physics {

/// How the loss of two streams that meet depends on their split: 1 + a^2 (1 + 3 (q^2 - q)), the same for both; a the
/// branch's area over the run's. Equal streams lose least.
/// @param q           share of either stream [-], 0 to 1
/// @param area_ratio  branch over run [-], tee_area_ratio
template <class S, class A = double>
[[nodiscard]] S tee_meeting_shape(const S& q, const A& area_ratio) {
  const A square = area_ratio * area_ratio;
  return S(1.0) + S(square) * (S(1.0) + S(3.0) * (q * q - q));
}

/// Loss from either end of the run to the branch where two streams meet: Idelchik's shape, scaled so that one stream
/// alone (q = 0 or 1) loses what tee_dividing says of a tee that sends all of its flow into the branch.
///
/// The reprints differ in the height: one has the shape as it stands (equal areas), two multiply it by the
/// factor of a combining branch (0.55 to 0.9). The scale takes no side: it is exactly 1 for branch bores to 2/3 of the
/// run's, and 0.845 for equal bores. Parameters as tee_meeting_shape.
template <class S, class A = double>
[[nodiscard]] S tee_meeting(const S& q, const A& area_ratio) {
  // tee_dividing is on the run's velocity head, a^2 of the branch's at one flow.
  const A alone = tee_dividing<A>(A(1.0), BasicTeeShape<A>{.area_ratio = area_ratio}).branch * area_ratio * area_ratio;
  return S(alone / tee_meeting_shape<A>(A(1.0), area_ratio)) * tee_meeting_shape<S>(q, area_ratio);
}

/// k of tee_parting: a standard threaded tee, and a welded one with smooth inside.
inline constexpr double tee_parting_threaded = 1.5;
inline constexpr double tee_parting_welded = 0.3;    ///< see tee_parting_threaded
inline constexpr Range tee_parting_range{0.0, 3.0};  ///< of that factor [-]

/// Loss from the branch to one end of the run where the branch's stream parts: 1 + k (a q)^2, a q being the velocity
/// there over the branch's.
/// @param q           share of that end [-], 0 to 1
/// @param area_ratio  branch over run [-], tee_area_ratio
/// @param k           tee_parting_threaded, tee_parting_welded, or between
template <class S, class A = double>
[[nodiscard]] S tee_parting(const S& q, const A& area_ratio, const std::type_identity_t<A>& k) {
  return S(1.0) + S(k * area_ratio * area_ratio) * q * q;
}

}  // namespace libflow::physics
