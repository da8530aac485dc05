// SPDX-License-Identifier: MIT
/// @file
/// Writes the measured bars as numbers, with libflow's answers, for the opponents in SciPy.
#include <fmt/core.h>

#include <nlohmann/json.hpp>

#include <benchmarks/equations.hpp>
#include <benchmarks/networks.hpp>

int main() {
  using namespace libflow;
  using Json = nlohmann::json;
  Json all = Json::array();
  for (const bench::Product& product : {bench::viscous(), bench::water()}) {
    const Plumbing plumbing = bench::bar(16, 1, product);
    const bench::Equations eq = bench::whole(plumbing.network, product.liquid);
    Json parts = Json::array();
    for (std::size_t e = 0; e < eq.edges(); ++e) {
      const Law& law = eq.law[e];
      if (law.linear != 0.0 || law.quadratic != 0.0 || !law.functions.empty() || law.friction.size() > 1 ||
          law.holes.size() > 1) {
        fmt::print(stderr, "bar_equations: part {} has terms that the SciPy script does not know\n", e);
        return 1;
      }
      Json part{{"from", eq.a[e]}, {"to", eq.b[e]}, {"threshold", law.threshold}};
      for (const auto& w : law.friction) {
        part["friction"] = {{"re_per_flow", w.re_per_flow},
                            {"scale", w.scale},
                            {"rel_roughness", w.rel_roughness},
                            {"f_4000", w.upper.f},
                            {"slope_4000", w.upper.slope}};
      }
      for (const auto& h : law.holes) {
        part["hole"] = {{"creeping", h.creeping},
                        {"inertia", h.inertia},
                        {"uncontracted", h.uncontracted},
                        {"re_per_flow", h.re_per_flow}};
      }
      parts.push_back(part);
    }
    Json outlets = Json::array();
    for (const auto& end : eq.outlet) outlets.push_back({end.edge, end.sign});
    all.push_back({{"name", fmt::format("bar16/{}", product.name)},
                   {"unknowns", eq.unknowns},
                   {"held_Pa", eq.held},
                   {"span_Pa", eq.span},
                   {"flow_scale_m3_per_s", eq.flow_scale},
                   {"parts", parts},
                   {"outlets", outlets},
                   {"outflow_m3_per_s", bench::outflow(plumbing.network, solve(plumbing.network, product.liquid))}});
  }
  fmt::print("{}\n", all.dump(1));
}
