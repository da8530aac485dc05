// SPDX-License-Identifier: MIT
/// @file
/// The convergence property at full size: solves random well-posed networks from a cold start and counts failures.
///
///     random_networks [COUNT [SEED]]        default 100000 networks, seed 1
///
/// Prints how many networks hold each feature and the rarest pair of features, the iterations, the attained residuals,
/// and every failure with its seed. Exit code 1 if any network failed or a feature (or pair) is rarer than a twentieth.

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/solve.hpp>
#include <tests/support/random_network.hpp>

namespace lt = libflow::testing;

int main(int argc, char** argv) {
  const std::uint64_t count = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 100000;
  const std::uint64_t seed = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1;
  std::vector<std::vector<std::uint64_t>> held(lt::feature_count, std::vector<std::uint64_t>(lt::feature_count, 0));
  std::vector<int> iterations;
  double mass = 0.0, energy = 0.0;
  std::uint64_t failures = 0, shut = 0, cut_off = 0;
  const auto start = std::chrono::steady_clock::now();
  for (std::uint64_t i = 0; i < count; ++i) {
    const std::uint64_t own_seed = seed * 1000000007ULL + i;
    lt::RandomNetwork r = lt::RandomNetworkMaker(own_seed).make();
    for (std::size_t a = 0; a < lt::feature_count; ++a) {
      for (std::size_t b = 0; b < lt::feature_count; ++b) held[a][b] += r.features[a] && r.features[b] ? 1U : 0U;
    }
    std::string trouble;
    try {
      const libflow::Solution s = libflow::solve(r.network, r.liquid);
      if (!s.usable()) trouble = s.message;
      iterations.push_back(s.iterations);
      mass = std::max(mass, s.usable() ? s.mass_residual : 0.0);
      energy = std::max(energy, s.usable() ? s.energy_residual : 0.0);
      shut += std::any_of(s.parts.begin(), s.parts.end(),
                          [](const auto& p) { return p.valve == libflow::ValveState::closed; });
      cut_off += std::any_of(s.places.begin(), s.places.end(), [](const auto& p) { return !p.determined; });
    } catch (const std::exception& e) {
      trouble = e.what();
    }
    if (!trouble.empty()) {
      ++failures;
      if (failures <= 50) {
        fmt::print("FAILED seed {} ({} places, {} parts): {}\n", own_seed, r.network.place_count(),
                   r.network.part_count(), trouble);
      }
    }
  }
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  std::sort(iterations.begin(), iterations.end());
  const auto quantile = [&](double p) {
    return iterations.empty() ? 0
                              : iterations[static_cast<std::size_t>(p * static_cast<double>(iterations.size() - 1))];
  };
  fmt::print(
      "{} networks in {:.1f} s: {} failures; Newton steps median {}, 95 % {}, most {}; worst residuals mass {:.1e}, "
      "energy {:.1e}; {} with shut one-way parts, {} with places cut off\n",
      count, seconds, failures, quantile(0.5), quantile(0.95), quantile(1.0), mass, energy, shut, cut_off);
  std::uint64_t rarest = count;
  std::string rarest_pair;
  for (std::size_t a = 0; a < lt::feature_count; ++a) {
    fmt::print("  {:24} {:8}\n", lt::feature_names[a], held[a][a]);
    for (std::size_t b = a; b < lt::feature_count; ++b) {
      const bool exclusive = (a == lt::thick_liquid && b == lt::thin_liquid) ||
                             (a == lt::near_zero && b == lt::hills) ||
                             (b == lt::near_zero && (a == lt::suction || a == lt::high_pressure)) ||
                             (a == lt::near_zero && (b == lt::suction || b == lt::high_pressure));
      if (!exclusive && held[a][b] < rarest) {
        rarest = held[a][b];
        rarest_pair = fmt::format("{} with {}", lt::feature_names[a], lt::feature_names[b]);
      }
    }
  }
  fmt::print("  rarest pair: {} in {}\n", rarest_pair, rarest);
  return failures == 0 && rarest * 20 >= count ? EXIT_SUCCESS : EXIT_FAILURE;
}
