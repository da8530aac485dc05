// SPDX-License-Identifier: MIT
/// @file
/// The proof of the catch test's diagnosis: 12,000 simulated machines with known faults and honest noise; how often the
/// right row is found, sound bars are accused, and one fault is taken for another. Fixed seeds.
///
///     catch_benchmark [machines of each kind, default 1500]

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/layout_file.hpp>
#include <tests/support/catch_machines.hpp>

namespace libflow::bench {
namespace {

using test::catch_setting;
using test::CatchScore;
using test::CatchTrials;
using test::share;

struct Case {
  const char* name;
  const char* layout;
  std::vector<CatchReadings> settings;
  CatchTrials trials;
};

void print(const Case& c, const CatchScore& s, double seconds) {
  fmt::print("\n{}\n  {} machines in {:.1f} s\n", c.name, s.machines, seconds);
  const auto line = [](const char* what, std::size_t part, std::size_t whole) {
    if (whole > 0) fmt::print("  {:<66} {:6.2f} %  of {}\n", what, 100.0 * share(part, whole), whole);
  };
  line("sound bars accused (false alarms)", s.accused, s.sound);
  line("faults detected", s.detected, s.faulty);
  line("row faults found in the right row", s.right_row, s.row_faults);
  line("... and nothing else accused", s.only_row, s.row_faults);
  line("true class among those named", s.named, s.detected);
  line("classes that can be told apart: most probable class right", s.distinct_right, s.distinct);
  line("classes that cannot: true class among those named", s.alike_named, s.alike);
  line("classes that cannot: these cups leave a set, and it was named", s.alike_sets, s.alike);
  line("... these cups leave one class alone, and that is the true one", s.single_right, s.alike_single);
  fmt::print("  {:<10}", "true\\found");
  for (const char* name : test::catch_class_names) fmt::print("{:>9}", name);
  fmt::print("\n");
  for (std::size_t i = 0; i < test::catch_classes; ++i) {
    std::size_t sum = 0;
    for (const std::size_t n : s.confusion[i]) sum += n;
    if (sum == 0) continue;
    fmt::print("  {:<10}", test::catch_class_names[i]);
    for (const std::size_t n : s.confusion[i]) fmt::print("{:>9}", n);
    fmt::print("\n");
  }
}

int run(std::size_t machines) {
  const std::vector<CatchReadings> one{catch_setting(28.0)}, two{catch_setting(28.0), catch_setting(12.0)},
      liquids{catch_setting(28.0), catch_setting(28.0, true)};
  const char *equal = "equal_hoses.toml", *uneven = "short_hoses.toml";
  const auto trials = [&](std::uint64_t seed, double change, double scatter, bool rows_only) {
    return CatchTrials{
        .machines = machines, .seed = seed, .change = change, .part_scatter = scatter, .rows_only = rows_only};
  };
  const std::vector<Case> cases{
      {"Sound bars, reading error 2 % alone, one setting", equal, one, trials(11, 0.0, 0.0, true)},
      {"Sound bars, reading error 2 % and parts that differ by 1 %, two settings", equal, two,
       trials(12, 0.0, 0.01, true)},
      {"One row changed by 10 %, one setting", equal, one, trials(13, 0.10, 0.0, true)},
      {"One row changed by 10 %, two settings (28 and 12 psi)", equal, two, trials(14, 0.10, 0.0, true)},
      {"One row changed by 10 %, uneven bar, parts that differ by 1 %, two settings", uneven, two,
       trials(15, 0.10, 0.01, true)},
      {"One row changed by 25 %, two settings", equal, two, trials(16, 0.25, 0.0, true)},
      {"One row changed by 25 %, product and water", equal, liquids, trials(17, 0.25, 0.0, true)},
      {"Any fault, rows or the whole bar, 10 %, uneven bar, two settings", uneven, two, trials(18, 0.10, 0.0, false)}};
  std::size_t all = 0;
  for (const Case& c : cases) {
    const Layout layout = read_layout(std::filesystem::path(LIBFLOW_EXAMPLES) / c.layout);
    const auto begin = std::chrono::steady_clock::now();
    const CatchScore s = test::run_catch_trials(layout, c.settings, c.trials);
    print(c, s, std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
    std::fflush(stdout);
    all += s.machines;
  }
  fmt::print("\n{} machines\n", all);
  return 0;
}

}  // namespace
}  // namespace libflow::bench

int main(int argc, char** argv) {
  const long machines = argc > 1 ? std::strtol(argv[1], nullptr, 10) : 1500;
  if (machines < 1) {
    fmt::print(stderr, "catch_benchmark: machines of each kind, a whole number above 0\n");
    return 2;
  }
  try {
    return libflow::bench::run(static_cast<std::size_t>(machines));
  } catch (const libflow::Error& error) {
    fmt::print(stderr, "catch_benchmark: {}\n", error.what());
    return 3;
  }
}
