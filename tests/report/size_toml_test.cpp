// SPDX-License-Identifier: MIT
/// @file
/// The lines that sizing gives for the layout file: put in and solved again, the bar is as even as the answer says.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <sstream>
#include <string>
#include <vector>

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

/// True where a text has seven digits in a row, point aside: a number that nobody chose.
bool has_long_number(const std::string& text) {
  std::size_t digits = 0;
  for (const char c : text) {
    if (c == '.') continue;
    digits = c >= '0' && c <= '9' ? digits + 1 : 0;
    if (digits >= 7) return true;
  }
  return false;
}

TEST(SizeToml, EveryValueReadsBackToTheLastBitAndIsShort) {
  SizeFile file = parse_size(toml_bar, "bar.toml");
  file.choices.orifices = generic_orifices();  // round in millimetres
  file.choices.orifices.emplace_back(OrificeByBore{.bore = 0.044 * units::inch});
  file.choices.cuts = {Cut::shortest, Cut::equal};
  const SizeProblem p = size_problem(file.layout, file.choices);
  const std::vector<SizeCandidate> all = size_detail::all_candidates(p);
  for (const SizeCandidate& c : all) {
    const Toolbar made = toolbar_for(p, c.choice);
    for (const UnitSystem units : {UnitSystem::us, UnitSystem::metric}) {
      const std::string text = size_toml(p, c, units);
      if (units == file.layout.units) {
        EXPECT_FALSE(has_long_number(text)) << text;
      }
      const Layout layout = parse_size(pasted(toml_bar, text), "pasted.toml").layout;
      const auto& bar = std::get<Toolbar>(layout.plumbing);
      ASSERT_TRUE(bar.orifice && made.orifice);
      EXPECT_EQ(std::get<OrificeByBore>(*bar.orifice).bore, std::get<OrificeByBore>(*made.orifice).bore) << text;
      EXPECT_EQ(bar.hose_bore, made.hose_bore) << text;
      EXPECT_EQ(bar.manifolds.front().bore, made.manifolds.front().bore) << text;
      EXPECT_EQ(bar.check_valve->crack, made.check_valve->crack) << text;
      if (bar.hose.kind == HoseSchedule::Kind::listed) {
        EXPECT_EQ(bar.hose.lengths, made.hose.lengths) << text;
      } else {
        for (const Length& length : made.hose.lengths) EXPECT_EQ(bar.hose.length, length) << text;
      }
    }
  }
  // As they are chosen: a bore that is round in millimetres stays that, one in inches too.
  const auto word_of = [&](std::size_t orifice) {
    SizeCandidate c;
    c.choice.orifices = {orifice};
    const std::string text = size_toml(p, c, UnitSystem::us);
    return text.substr(0, text.find("\n\n"));
  };
  EXPECT_EQ(word_of(9), "[orifice]\nbore = \"1.12 mm\"");
  EXPECT_EQ(word_of(file.choices.orifices.size() - 1), "[orifice]\nbore = \"0.044 in\"");
  EXPECT_NE(size_toml(p, all.front(), UnitSystem::us).find(" ft "), std::string::npos) << "feet and inches";
}

TEST(SizeToml, StandsInTheText) {
  const SizeFile file = parse_size(toml_bar, "bar.toml");
  const SizeAnswer a = size_toolbar(file.layout, file.choices);
  ASSERT_NE(a.winner(), nullptr);
  const std::string text = size_text(a, {.units = UnitSystem::us});
  EXPECT_NE(text.find(size_toml(a.problem, *a.recommended(), UnitSystem::us)), std::string::npos) << text;
  EXPECT_NE(text.find("A little more of a choice"), std::string::npos) << text;
}

}  // namespace size_toml_test
}  // namespace libflow
