// SPDX-License-Identifier: MIT
/// @file
/// The lines that sizing gives for the layout file: put in and solved again, the bar is as even as the answer says.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>
#include <string>

#include <libflow/file/layout_size.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/report/size_toml.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/size.hpp>

namespace libflow {
namespace size_toml_test {

const char* const toml_bar = R"(
[job]
product = "10-34-0"
temperature = "60 F"
rate = "5 gal/ac"
speed = "5 mph"
[toolbar]
rows = 6
spacing = "30 in"
[[manifold]]
bore = "3/4 in"
[hose]
bore = "1/4 in"
schedule = "shortest"
extra = "2 ft"
[check_valve]
crack = "4 psi"
rated_flow = "0.5 gpm"
rated_loss = "2 psi"
[orifice]
bore = "0.06 in"
[size]
orifices = ["0.030 in", "0.036 in", "0.041 in"]
hose_bores = ["1/4 in", "3/8 in"]
manifold_bores = ["3/4 in", "1 in"]
feeds = ["middle", "left"]
cuts = ["shortest", "rounded"]
cracks = ["2 psi", "4 psi"]
)";

/// What a person does: each key goes into the table of that name, in place of the same key.
std::string pasted(const std::string& file, const std::string& lines) {
  std::string out = file, table, line;
  std::istringstream in(lines);
  const auto remove = [&](const std::string& key) {
    const std::size_t head = out.find(table + "\n");
    const std::size_t end = std::min(out.find("\n[", head + 1), out.size());
    const std::size_t at = out.find("\n" + key + " = ", head);
    if (at < end) out.erase(at, out.find('\n', at + 1) - at);
  };
  while (std::getline(in, line)) {
    if (line.starts_with("[")) {
      table = line.substr(0, line.find_last_of(']') + 1);
      if (out.find("\n" + table + "\n") == std::string::npos || table == "[[row]]") out += table + "\n";
      continue;
    }
    if (line.empty() || line.starts_with("#")) continue;
    while (std::count(line.begin(), line.end(), '[') > std::count(line.begin(), line.end(), ']')) {
      std::string more;
      if (!std::getline(in, more)) break;
      line += more;
    }
    const std::string key = line.substr(0, line.find(' '));
    if (table == "[[row]]") {
      out += line + "\n";
      continue;
    }
    remove(key);
    if (table == "[hose]" && key.starts_with("length")) {
      for (const char* old : {"length", "lengths", "schedule", "extra"}) remove(old);
    }
    const std::size_t head = out.find("\n" + table + "\n") + table.size() + 2;
    out.insert(head, line + "\n");
  }
  return out;
}

double furthest_row(const Evenness& e) {
  double worst = 0.0;
  for (const RowResult& r : e.rows) worst = std::max(worst, std::abs(r.deviation));
  return worst;
}

TEST(SizeToml, PastedIntoTheLayoutTheBarIsAsEven) {
  for (const bool groups : {false, true}) {
    const std::string text = std::string(toml_bar) + (groups ? "groups = [{ name = \"outer\", rows = [1, 6] }]\n" : "");
    const SizeFile file = parse_size(text, "bar.toml");
    const SizeAnswer a = size_toolbar(file.layout, file.choices);
    ASSERT_FALSE(a.fits.empty());
    const std::set<std::size_t> some{0, a.fits.size() / 2, a.fits.size() - 1};
    for (const std::size_t k : some) {
      for (const UnitSystem units : {UnitSystem::us, UnitSystem::metric}) {
        const std::string whole = pasted(toml_bar, size_toml(a.problem, a.fits[k], units));
        const Layout layout = parse_size(whole, "pasted.toml").layout;
        const Answer answer = main_job(layout);
        ASSERT_TRUE(answer.solution.usable());
        EXPECT_NEAR(furthest_row(answer.evenness), a.fits[k].outcome.worst_deviation, 1e-9) << whole;
        EXPECT_NEAR(answer.evenness.supply_pressure / a.fits[k].outcome.most_pressure, 1.0, 1e-9) << whole;
      }
    }
  }
}

TEST(SizeToml, StandsInTheText) {
  const SizeFile file = parse_size(toml_bar, "bar.toml");
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_NE(a.winner(), nullptr);
  const std::string text = size_text(a, {.units = UnitSystem::us});
  EXPECT_NE(text.find(size_toml(a.problem, *a.winner(), UnitSystem::us)), std::string::npos) << text;
  EXPECT_NE(text.find("A little more of a choice"), std::string::npos) << text;
}

}  // namespace size_toml_test
}  // namespace libflow
