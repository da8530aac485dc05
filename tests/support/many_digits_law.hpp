// SPDX-License-Identifier: MIT
/// @file
/// A part's law in fifty digits, and the flow that it passes at a given drop.
#pragma once

#include <algorithm>

#include <libflow/parts/law.hpp>
#include <tests/support/many_digits.hpp>

namespace libflow::test {

using ManyLaw = BasicLaw<Many>;

/// The same terms in fifty digits. Laws with functions of their own have no many-digit form: those functions are left
/// out, so do not give it such a law.
[[nodiscard]] inline ManyLaw many_digits(const Law& law) {
  ManyLaw m;
  m.linear = Many(law.linear);
  m.quadratic = Many(law.quadratic);
  m.threshold = Many(law.threshold);
  m.passes = law.passes;
  for (const auto& w : law.friction) {
    const Many rough(w.rel_roughness);
    m.friction.push_back({Many(w.re_per_flow), Many(w.scale), rough,
                          physics::friction_colebrook<Many>(Many(physics::turbulent_limit_re), rough)});
  }
  for (const auto& h : law.holes) {
    m.holes.push_back({Many(h.creeping), Many(h.inertia), Many(h.uncontracted), Many(h.re_per_flow)});
  }
  return m;
}

/// Flow at a drop, and its slope against the drop: the law inverted by Newton within a bracket, to about 45 digits.
/// A one-way law passes nothing below its threshold.
struct FlowAt {
  Many flow, slope;
};
[[nodiscard]] inline FlowAt flow_at(const ManyLaw& law, const Many& drop, const Many& start) {
  const Many excess = drop - law.threshold;
  const bool forward_only = law.passes == Passes::forward, backward_only = law.passes == Passes::backward;
  if ((forward_only && excess <= 0) || (backward_only && excess >= 0) || law.passes == Passes::neither) {
    return {Many(0), Many(0)};
  }
  if (excess == 0) return {Many(0), Many(1 / law(Many(0)).slope)};
  // The drop rises at least as fast as at zero flow, so the flow lies between 0 and excess / slope there.
  Many low = excess > 0 ? Many(0) : Many(excess / law(Many(0)).slope);
  Many high = excess > 0 ? Many(excess / law(Many(0)).slope) : Many(0);
  Many q = start > low && start < high ? start : Many((low + high) / 2);
  Many slope;
  for (int i = 0; i < 400; ++i) {
    const Drop<Many> d = law(q);
    const Many miss = d.dp - drop;
    slope = d.slope;
    (miss > 0 ? high : low) = q;
    const Many step = miss / slope;
    if (abs(step) <= abs(q) * Many(1e-45)) break;
    const Many next = q - step;
    q = next > low && next < high ? next : Many((low + high) / 2);
  }
  return {q, Many(1 / slope)};
}

}  // namespace libflow::test
