// SPDX-License-Identifier: MIT
/// @file
/// Holds a part to its contract over many decades of flow and says in words where it breaks it.
#pragma once

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/parts/part.hpp>

namespace libflow {

/// Over which flows a law is held to its contract, and how finely.
struct LawfulOptions {
  double lowest_flow = 1e-12;     ///< m3/s, > 0
  double highest_flow = 1e-2;     ///< m3/s, > lowest_flow
  int per_decade = 200;           ///< flows tried per decade; 200 finds jumps of 0.01 % and more
  double slope_tolerance = 1e-5;  ///< relative, slope against a difference quotient
  double jump_tolerance = 1e-4;   ///< relative, sudden change of drop or slope
};

namespace lawful_detail {

/// Keeps the first finding of each kind.
class Findings {
 public:
  void add(const char* kind, double flow, const std::string& text) {
    if (std::find(kinds_.begin(), kinds_.end(), kind) != kinds_.end()) return;
    kinds_.emplace_back(kind);
    texts_.push_back(fmt::format("{} at {:.9g} m3/s: {}", kind, flow, text));
  }
  [[nodiscard]] std::vector<std::string> take() { return std::move(texts_); }

 private:
  std::vector<std::string> kinds_, texts_;
};

/// Narrows [a, b] twenty times to the half where `f` changes more; returns the change left, relative to the value.
/// A continuous law has almost none left; a jump keeps its height.
template <class F>
[[nodiscard]] double jump_inside(const F& f, double a, double b) {
  double fa = f(a), fb = f(b);
  const double size = std::max(std::abs(fa), std::abs(fb));
  for (int i = 0; i < 20; ++i) {
    const double m = 0.5 * (a + b), fm = f(m);
    if (std::abs(fm - fa) > std::abs(fb - fm)) {
      b = m;
      fb = fm;
    } else {
      a = m;
      fa = fm;
    }
  }
  return size > 0.0 ? std::abs(fb - fa) / size : 0.0;
}

/// The passage part of a law (no threshold) in the direction `way` (+1 forward, -1 back).
inline void check_passage(const Law& law, double way, const LawfulOptions& o, Findings& found) {
  const auto drop = [&](double q) { return way * law(way * q).dp; };
  const auto slope = [&](double q) { return law(way * q).slope; };

  const double decades = std::log10(o.highest_flow / o.lowest_flow);
  const int steps = std::max(2, static_cast<int>(std::ceil(decades * o.per_decade)));
  double before = 0.0, drop_before = 0.0;
  for (int i = 0; i <= steps; ++i) {
    const double q = o.lowest_flow * std::pow(10.0, decades * i / steps);
    const double dp = drop(q), s = slope(q);
    if (!std::isfinite(dp) || !std::isfinite(s)) {
      found.add("not a finite number", way * q, fmt::format("drop {} Pa, slope {}", dp, s));
      return;
    }
    if (!(dp > drop_before)) {
      found.add("drop does not rise", way * q, fmt::format("{:.9g} Pa after {:.9g} Pa", dp, drop_before));
    }
    if (!(s > 0.0)) found.add("slope is not positive", way * q, fmt::format("{:.9g} Pa per m3/s", s));
    const double h = 1e-6 * q;
    const double quotient = (drop(q + h) - drop(q - h)) / (2.0 * h);
    if (!(std::abs(s - quotient) <= o.slope_tolerance * std::abs(quotient))) {
      found.add("slope is not the drop's", way * q, fmt::format("{:.9g}, by differences {:.9g}", s, quotient));
    }
    if (i > 0) {
      if (const double jump = jump_inside(drop, before, q); jump > o.jump_tolerance) {
        found.add("drop jumps", way * q, fmt::format("by {:.3g} of its value", jump));
      }
      if (const double jump = jump_inside(slope, before, q); jump > o.jump_tolerance) {
        found.add("slope jumps", way * q, fmt::format("by {:.3g} of its value", jump));
      }
    }
    before = q;
    drop_before = dp;
  }
}

/// Zero flow: no drop, a positive finite slope, and the slope that the drop has just beside it.
inline void check_zero(const Law& law, double way, const LawfulOptions& o, Findings& found) {
  const Drop<double> rest = law(0.0);
  if (!(rest.dp == 0.0)) found.add("drop without flow", 0.0, fmt::format("{:.9g} Pa", rest.dp));
  if (!(rest.slope > 0.0) || !std::isfinite(rest.slope)) {
    found.add("slope at zero flow is not positive", 0.0, fmt::format("{:.9g} Pa per m3/s", rest.slope));
    return;
  }
  const double h = 1e-6 * o.lowest_flow;
  const double quotient = way * (law(way * h).dp - rest.dp) / h;
  if (!(std::abs(rest.slope - quotient) <= o.slope_tolerance * rest.slope)) {
    found.add("slope at zero flow is not the drop's", 0.0,
              fmt::format("{:.9g}, by differences {:.9g}", rest.slope, quotient));
  }
}

inline void check_odd(const Law& law, const LawfulOptions& o, Findings& found) {
  const int steps = static_cast<int>(std::log(o.highest_flow / o.lowest_flow) / std::log(1.1));
  for (int i = 0; i <= steps; ++i) {
    const double q = o.lowest_flow * std::pow(1.1, i);
    const Drop<double> there = law(q), back = law(-q);
    if (!(std::abs(there.dp + back.dp) <= 1e-12 * std::abs(there.dp)) ||
        !(std::abs(there.slope - back.slope) <= 1e-12 * std::abs(there.slope))) {
      found.add("not the same in both directions", q, fmt::format("{:.9g} and {:.9g} Pa", there.dp, back.dp));
    }
  }
}

}  // namespace lawful_detail

/// What a law breaks of a contract, one line for each kind of fault; empty when it keeps it.
///   passage: drop and slope finite and continuous, drop rising, slope positive (at zero flow too) and equal to the
///            drop's difference quotient, odd (unless it says that it is not symmetric: then a passage each way),
///            liquid passes both ways, no threshold
///   one_way: liquid passes one way; in that way a finite threshold (a crack pressure), then a passage
///   source:  the same with a threshold below zero: a gain that falls with the flow
///   outer_corrected: as one_way, by itself
[[nodiscard]] inline std::vector<std::string> unlawful(const Law& law, Contract contract, const LawfulOptions& o = {},
                                                       bool symmetric = true) {
  lawful_detail::Findings found;
  const bool one_way = contract != Contract::passage;
  const bool backward = law.passes == Passes::backward;
  const double way = one_way && backward ? -1.0 : 1.0;
  if (one_way && law.passes != Passes::forward && !backward) {
    found.add("passes the wrong way", 0.0, "a one-way part passes liquid one way");
  }
  if (!one_way && law.passes != Passes::both) {
    found.add("passes the wrong way", 0.0, "a passage passes liquid both ways");
  }
  if (one_way && !std::isfinite(law.threshold)) {
    found.add("threshold is not a finite number", 0.0, fmt::format("{} Pa", law.threshold));
  }
  if (contract == Contract::source && !(way * law.threshold < 0.0)) {
    found.add("no gain at no flow", 0.0, fmt::format("threshold {:.9g} Pa", law.threshold));
  }
  if (!one_way && law.threshold != 0.0) {
    found.add("threshold in a passage", 0.0, fmt::format("{:.9g} Pa", law.threshold));
  }
  // At the least flow the drop is the threshold and next to nothing more.
  const double least = way * 1e-6 * o.lowest_flow;
  const double excess = law(least).dp - law.threshold;
  if (!(std::abs(excess) <= 1e-6 * std::abs(law.threshold) + 2.0 * std::abs(least) * law(0.0).slope)) {
    found.add("drop does not start at the threshold", least, fmt::format("{:.9g} Pa away", excess));
  }
  // Without the threshold, so that small drops are not lost in it.
  Law passage = law;
  passage.threshold = 0.0;
  lawful_detail::check_zero(passage, way, o, found);
  lawful_detail::check_passage(passage, way, o, found);
  if (!one_way && symmetric) lawful_detail::check_odd(passage, o, found);
  if (!one_way && !symmetric) lawful_detail::check_passage(passage, -1.0, o, found);
  return found.take();
}

/// What a part breaks of its own contract with a liquid; empty when it keeps it.
[[nodiscard]] inline std::vector<std::string> unlawful(const Part& part, const LiquidState& liquid,
                                                       const LawfulOptions& o = {}) {
  const Law law = part.law(liquid);
  std::vector<std::string> faults;
  if (part.passes() != Passes::neither) {
    faults = unlawful(law, part.contract(), o, part.symmetric());
  } else if (law.passes != Passes::neither) {
    faults = {"says that it is shut, but its law passes liquid"};
  }
  for (std::string& fault : faults) fault = fmt::format("{} with {}: {}", part.kind(), liquid.name, fault);
  return faults;
}

/// A part that breaks its contract, with everything that it breaks in the text.
struct UnlawfulPart : std::logic_error {
  using std::logic_error::logic_error;
};

/// One line in any test of a part of your own, whatever the test framework: `expect_lawful(MyPart{...}, liquid)`.
/// @throws UnlawfulPart  for what the part breaks of its contract (see unlawful())
inline void expect_lawful(const Part& part, const LiquidState& liquid, const LawfulOptions& options = {}) {
  std::string faults;
  for (const std::string& fault : unlawful(part, liquid, options)) faults += faults.empty() ? fault : "\n" + fault;
  if (!faults.empty()) throw UnlawfulPart(faults);
}

}  // namespace libflow
