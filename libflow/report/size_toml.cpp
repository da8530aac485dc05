// SPDX-License-Identifier: MIT
#include <libflow/report/size_toml.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/size_choices.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

namespace size_toml_detail {

static std::string bore_word(double metres, UnitSystem u) {
  return u == UnitSystem::us ? fmt::format("\"{:.12g} in\"", metres / 0.0254)
                             : fmt::format("\"{:.12g} mm\"", metres * 1e3);
}
static std::string length_word(double metres, UnitSystem u) {
  return u == UnitSystem::us ? fmt::format("\"{:.12g} ft\"", metres / 0.3048) : fmt::format("\"{:.12g} m\"", metres);
}
static std::string pressure_word(double pascals, UnitSystem u) {
  return u == UnitSystem::us ? fmt::format("\"{:.12g} psi\"", pascals / 6894.757293168)
                             : fmt::format("\"{:.12g} kPa\"", pascals / 1e3);
}

/// An orifice's keys with their values.
static std::vector<std::string> orifice_keys(const OrificeChoice& choice, UnitSystem u) {
  if (const auto* rated = std::get_if<OrificeByRating>(&choice)) {
    return {fmt::format("rated_flow = \"{:.12g} L/min\"", si(rated->flow) * 60e3),
            fmt::format("rated_pressure = {}", pressure_word(si(rated->pressure), u))};
  }
  const auto& plate = std::get<OrificeByBore>(choice);
  std::vector<std::string> keys{fmt::format("bore = {}", bore_word(si(plate.bore), u))};
  if (si(plate.thickness) > 0.0) keys.push_back(fmt::format("thickness = {}", bore_word(si(plate.thickness), u)));
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
  text += "[hose]\nbore = " + bore_word(si(p.choices.hose_bores[c.choice.hose_bore]), u) + "\n";
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
  text += "bore = " + bore_word(si(p.choices.manifold_bores[c.choice.manifold_bore]), u) + "\n";
  text += fmt::format("feed = \"{}\"\n", [&] {
    switch (p.choices.feeds[c.choice.feed]) {
      case ManifoldFeed::left:
        return "left";
      case ManifoldFeed::right:
        return "right";
      case ManifoldFeed::both_ends:
        return "both_ends";
      case ManifoldFeed::middle:
        break;
    }
    return "middle";
  }());
  if (t.check_valve) {
    text += "\n[check_valve]\ncrack = " + pressure_word(si(p.choices.cracks[c.choice.crack]), u) + "\n";
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
