// SPDX-License-Identifier: MIT
/// @file
/// What each subcommand prints for a person, word for word, on an example: tests/app/snapshots/<name>.txt. After a
/// meant change, `LIBFLOW_RENEW=1 ctest --preset release -R Snapshot` writes the files anew (and fails, so that no test
/// ever passes by renewing); read their difference before it is kept. Output into a file is 100 columns wide and
/// without colour. `schema` and `completion` print for machines and have tests of their own.

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <ostream>
#include <regex>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <tests/support/app.hpp>

namespace libflow {
namespace snapshot_test {

namespace fs = std::filesystem;

struct Shown {
  const char* name;
  std::vector<std::string> arguments;
};
void PrintTo(const Shown& shown, std::ostream* out) { *out << shown.name; }

class Snapshot : public test::App, public testing::WithParamInterface<Shown> {
 protected:
  void SetUp() override {
    App::SetUp();
    // Parameterised names hold a slash.
    folder_ = fs::temp_directory_path() / ("libflow_snapshot_" + std::to_string(::getpid()) + "_" + GetParam().name);
    fs::create_directories(folder_ / "work");
    for (const auto& entry : fs::directory_iterator(LIBFLOW_EXAMPLES)) {
      const fs::path kind = entry.path().extension();
      if (kind == ".toml" || kind == ".csv") fs::copy_file(entry.path(), folder_ / "work" / entry.path().filename());
    }
  }
};

/// The words of a page, in their order: no style, no tags, one blank between words and a line for each block.
std::string words_of_page(std::string html) {
  html = std::regex_replace(html, std::regex("<style>[^<]*</style>"), "");
  html = std::regex_replace(html, std::regex("</(p|tr|li|h1|h2|h3|caption|text|title)>"), "\n");
  html = std::regex_replace(html, std::regex("</t[hd]>"), " | ");
  html = std::regex_replace(html, std::regex("<[^>]*>"), "");
  return std::regex_replace(html, std::regex("[ \t]*\n[ \t\n]*"), "\n");
}

TEST_P(Snapshot, IsPrintedWordForWord) {
  const test::Outcome r = run(GetParam().arguments);
  std::string now = "$ libflow";
  for (const std::string& a : GetParam().arguments) {
    now += " " + (a.find_first_of(" ,") == std::string::npos ? a : "\"" + a + "\"");
  }
  const bool page = r.out.rfind("<!DOCTYPE html>", 0) == 0;
  now += "\n" + (page ? words_of_page(r.out) : r.out) + r.err + "exit code " + std::to_string(r.code) + "\n";
  const fs::path kept = fs::path(LIBFLOW_TESTS) / "app" / "snapshots" / (std::string(GetParam().name) + ".txt");
  const char* const renew = std::getenv("LIBFLOW_RENEW");
  if (renew != nullptr && *renew != '\0') {
    std::ofstream(kept, std::ios::binary) << now;
    FAIL() << "written anew: " << kept;
  }
  EXPECT_EQ(now, test::content(kept)) << "If the change is meant, run it with LIBFLOW_RENEW=1 and read the difference.";
}

INSTANTIATE_TEST_SUITE_P(
    Texts, Snapshot,
    testing::Values(
        Shown{"new", {"new", "--rows", "12", "--spacing", "20 in", "--product", "28-0-0"}},
        Shown{"check", {"check", "equal_hoses.toml", "free_form.toml"}}, Shown{"solve", {"solve", "short_hoses.toml"}},
        Shown{"solve_tees", {"solve", "tees.toml"}},
        Shown{"solve_metric", {"solve", "pump_and_tank_bar.toml", "--units", "metric"}},
        Shown{"explain", {"explain", "short_hoses.toml", "8"}},
        Shown{"compare", {"compare", "equal_hoses.toml", "short_hoses.toml"}},
        Shown{"compare_over_points",
              {"compare", "equal_hoses.toml", "short_hoses.toml", "--speeds", "4 mph, 6 mph", "--rates",
               "4 gal/ac, 6 gal/ac"}},
        Shown{"point", {"point", "pump_and_tank_bar.toml"}}, Shown{"envelope", {"envelope", "short_hoses.toml"}},
        Shown{"card", {"card", "pump_and_tank_bar.toml"}}, Shown{"whatif", {"whatif", "pump_and_tank_bar.toml"}},
        Shown{"size", {"size", "sizing.toml"}}, Shown{"equal", {"equal", "short_hoses.toml"}},
        Shown{"drawdown", {"drawdown", "pump_and_tank_bar.toml"}}, Shown{"order", {"order", "pump_and_tank_bar.toml"}},
        Shown{"nutrients", {"nutrients", "equal_hoses.toml"}},
        Shown{"blend", {"blend", "100 gal of 32-0-0", "19 gal of water"}},
        Shown{"tolerance", {"tolerance", "as_built.toml", "--machines", "5000"}},
        Shown{"lines", {"lines", "tank_and_pump.toml"}}, Shown{"catch_plan", {"catch", "equal_hoses.toml"}},
        Shown{"catch",
              {"catch", "equal_hoses.toml", "catch_day.csv", "--gauge", "39 psi", "--second", "catch_day_low.csv",
               "--second-gauge", "15 psi"}},
        Shown{"report",
              {"report", "equal_hoses.toml", "--catch", "catch_day.csv", "--gauge", "39 psi", "--units", "us", "--date",
               "2026-11-26"}},
        Shown{"report_compared", {"report", "equal_hoses.toml", "short_hoses.toml", "--date", "2026-11-26"}}),
    [](const testing::TestParamInfo<Shown>& shown) { return std::string(shown.param.name); });

}  // namespace snapshot_test
}  // namespace libflow
