// SPDX-License-Identifier: MIT
#include <libflow/report/size_toml.hpp>

#include <algorithm>
#include <cstddef>
#include <initializer_list>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/cut_length.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>
#include <libflow/units/text.hpp>

namespace libflow {

namespace size_toml_detail {

/// In quotes: the shortest of some texts that all read back as exactly one value; of equals the first. An orifice of
/// 1.12 mm stays that in a layout in inches, where it has no short number.
static std::string shortest(std::initializer_list<std::string> texts) {
  return "\"" +
         *std::min_element(texts.begin(), texts.end(),
                           [](const std::string& a, const std::string& b) { return a.size() < b.size(); }) +
         "\"";
}
static UnitSystem other(UnitSystem u) { return u == UnitSystem::us ? UnitSystem::metric : UnitSystem::us; }

static std::string bore_word(const Length& bore, UnitSystem u) {
  return shortest({bore_to_text(bore, u), bore_to_text(bore, other(u))});
}
template <class Q>
std::string word(const Q& q, UnitSystem u) {
  return shortest({to_text(q, u), to_text(q, other(u))});
}
static std::string length_word(double metres, UnitSystem u) {
  const Length length = from_si<Length>(metres);
  const std::string cut = cut_text(length, u);
  return parse_quantity<Length>(cut, "cut") == length ? "\"" + cut + "\"" : word(length, u);
}

/// An orifice's keys with their values.
static std::vector<std::string> orifice_keys(const OrificeChoice& choice, UnitSystem u) {
  if (const auto* rated = std::get_if<OrificeByRating>(&choice)) {
    return {"rated_flow = " + word(rated->flow, u), "rated_pressure = " + word(rated->pressure, u)};
  }
  const auto& plate = std::get<OrificeByBore>(choice);
  std::vector<std::string> keys{fmt::format("bore = {}", bore_word(plate.bore, u))};
  if (si(plate.thickness) > 0.0) keys.push_back(fmt::format("thickness = {}", bore_word(plate.thickness, u)));
  if (plate.discharge_coefficient) keys.push_back(fmt::format("coefficient = {}", *plate.discharge_coefficient));
  return keys;
}

static std::string joined(const std::vector<std::string>& keys, const char* between) {
  std::string text;
  for (const std::string& key : keys) text += (text.empty() ? "" : between) + key;
  return text;
}

}  // namespace size_toml_detail

std::string size_toml(const SizeProblem& p, const SizeCandidate& c, UnitSystem u) {
  using namespace size_toml_detail;
  const Toolbar& t = p.toolbar();
  std::string text =
      "[orifice]\n" + joined(orifice_keys(p.choices.orifices[c.choice.orifices.front()], u), "\n") + "\n\n";
  text += "[hose]\nbore = " + bore_word(p.choices.hose_bores[c.choice.hose_bore], u) + "\n";
  const std::vector<double>& lengths = p.plans[c.choice.plan].lengths;
  if (std::all_of(lengths.begin(), lengths.end(), [&](double l) { return l == lengths.front(); })) {
    text += "length = " + length_word(lengths.front(), u) + "\n\n";
  } else {
    text += "lengths = [";
    for (std::size_t i = 0; i < lengths.size(); ++i) {
      if (i > 0) text += i % 3 == 0 ? ",\n           " : ", ";
      text += length_word(lengths[i], u);
    }
    text += "]\n\n";
  }
  text += t.manifolds.size() > 1 ? "[[manifold]]                   # each of them\n" : "[[manifold]]\n";
  text += "bore = " + bore_word(p.choices.manifold_bores[c.choice.manifold_bore], u) + "\n";
  text += fmt::format("feed = \"{}\"\n", name_of(p.choices.feeds[c.choice.feed]));
  if (t.check_valve) {
    text += "\n[check_valve]\ncrack = " + word(p.choices.cracks[c.choice.crack], u) + "\n";
  }
  const Toolbar made = toolbar_for(p, c.choice);
  for (std::size_t g = 1; g < p.groups.size(); ++g) {
    for (const int row : p.groups[g].rows) {
      const auto own = std::find_if(made.row_changes.begin(), made.row_changes.end(),
                                    [&](const RowChange& change) { return change.row == row; });
      if (own == made.row_changes.end() || !own->orifice) continue;
      text += fmt::format("\n[[row]]\nnumber = {}\norifice = {{ {} }}\n", row,
                          joined(orifice_keys(*own->orifice, u), ", "));
    }
  }
  const bool own_lengths = std::any_of(t.row_changes.begin(), t.row_changes.end(),
                                       [](const RowChange& change) { return change.hose_length.has_value(); });
  if (own_lengths) text += "\n# and no hose_length in a [[row]]: the lengths above count\n";
  return text;
}

}  // namespace libflow
