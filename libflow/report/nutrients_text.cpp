// SPDX-License-Identifier: MIT
#include <libflow/report/nutrients_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/fluid/blend.hpp>
#include <libflow/fluid/sources.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/agronomy.hpp>

namespace libflow {

namespace report_detail {

static std::string mass_rate(MassPerArea value, UnitSystem u) { return format_number(value, u); }

/// "OVER 1 of 2", "within all 4". @param soil  those that speak of it; empty: of no soil
static std::string held_against(const Agronomy& a, const std::optional<Soil>& soil) {
  std::size_t over = 0, all = 0;
  for (const SeedLimitCheck& c : a.limits) {
    // On a soil that is named every limit listed counts.
    if (!a.options.soil && c.limit.soil != soil) continue;
    ++all;
    over += c.over ? 1 : 0;
  }
  if (all == 0) return {};
  if (over > 0) return fmt::format("OVER {} of {} published limit{}", over, all, all == 1 ? "" : "s");
  return all == 1   ? std::string("within the one published limit")
         : all == 2 ? std::string("within both published limits")
                    : fmt::format("within all {} published limits", all);
}

static std::string nutrients_verdict(const Agronomy& a, UnitSystem u) {
  const auto unit = unit_name<MassPerArea>(u);
  std::string text = fmt::format("{} N, {} P2O5, {} K2O, {} S {} at the mean rate of {}", mass_rate(a.mean.n, u),
                                 mass_rate(a.mean.p2o5, u), mass_rate(a.mean.k2o, u), mass_rate(a.mean.s, u), unit,
                                 shown<AreaRate>(a.answer.evenness.mean_rate, u));
  text += fmt::format(". If it lies in the furrow with {} seed: ", name_of(a.options.crop));
  if (a.limits.empty()) return text + "no published limit is known here.";
  if (a.options.soil)
    return text + fmt::format("{} for {} soil.", held_against(a, a.options.soil), name_of(*a.options.soil));
  // What is over stands first: that other limits hold is no comfort.
  std::string over, within;
  const auto add = [&](const std::string& held, const std::string& where) {
    if (held.empty()) return;
    std::string& to = held.starts_with("OVER") ? over : within;
    to += fmt::format("{}{} {}", to.empty() ? "" : "; ", held, where);
  };
  for (const Soil soil : {Soil::sandy, Soil::medium_or_fine}) {
    add(held_against(a, soil), fmt::format("for {} soil", name_of(soil)));
  }
  add(held_against(a, std::nullopt), "that name no soil");
  return text + over + (over.empty() || within.empty() ? "" : "; ") + within + ".";
}

static std::string nutrients_table(const Agronomy& a, UnitSystem u) {
  Table t;
  t.column(std::string(unit_name<MassPerArea>(u)), Table::Align::left);
  for (const char* name : {"N", "P2O5", "K2O", "S", "N + K2O"}) t.column(name);
  const auto line = [&](std::string name, const NutrientRates& r) {
    t.line({std::move(name), mass_rate(r.n, u), mass_rate(r.p2o5, u), mass_rate(r.k2o, u), mass_rate(r.s, u),
            mass_rate(r.salt(), u)});
  };
  line("wanted", a.wanted);
  line("mean of the rows", a.mean);
  if (a.rows.size() > 1) {
    line(fmt::format("row {}, the lowest", a.lowest.row), a.lowest.rates);
    line(fmt::format("row {}, the highest", a.highest.row), a.highest.rates);
  }
  return t.text();
}

static std::string seed_limits_table(const Agronomy& a, UnitSystem u, std::size_t width) {
  Table t;
  t.column(fmt::format("limit\n{}", unit_name<MassPerArea>(u)));
  t.column(fmt::format("product\n{}", unit_name<AreaRate>(u)));
  t.column("soil", Table::Align::left);
  t.column("the source says", Table::Align::left);
  t.column("source", Table::Align::left);
  t.column("", Table::Align::left);
  for (const SeedLimitCheck& c : a.limits) {
    const bool any = !std::isfinite(si(c.highest_rate));
    t.line(
        {mass_rate(c.limit.limit, u), any ? "any" : format_number(c.highest_rate, u),
         !c.limit.soil ? std::string("any") : fmt::format("{}{}", a.options.soil ? "" : "if ", name_of(*c.limit.soil)),
         std::string(c.limit.words), fmt::format("[{}]", c.limit.source), c.over ? "OVER" : "within"});
  }
  std::string text = t.text();
  std::vector<std::string_view> named;
  for (const SeedLimitCheck& c : a.limits) {
    if (std::find(named.begin(), named.end(), c.limit.source) != named.end()) continue;
    named.push_back(c.limit.source);
    if (const Citation* source = find_source(c.limit.source)) {
      text += wrapped(fmt::format("[{}] {}", source->key, source->title), width, 3, " ");
    }
  }
  return text;
}

static std::string seed_limits_text(const Agronomy& a, UnitSystem u, std::size_t width) {
  std::string text = fmt::format("\nIf it lies in the furrow with the seed: {}, {} rows\n", name_of(a.options.crop),
                                 spacing_text(a.spacing, u));
  if (!a.limits.empty()) {
    text += seed_limits_table(a, u, width) +
            wrapped(
                "Limits are of N + K2O, nitrogen and potash added up: the sources' measure of the salt that hurts "
                "seed. The second column is what they allow of this product. CEC is the cation exchange capacity "
                "of a soil test (meq/100 g), low in sandy soil.",
                width, 1, " ");
    if (!a.options.soil) {
      text += wrapped(
          "The layout does not know your soil: a limit with 'if' counts only where that is yours; --soil "
          "leaves the others out.",
          width, 1, " ");
    }
  }
  if (a.product_at_ten_per_cent) {
    const double rate = si(*a.product_at_ten_per_cent) / a.answer.liquid.density;
    text += wrapped(
        fmt::format("By South Dakota State's equation [SDSU] {} ({}) of this product in a furrow {} wide "
                    "costs a tenth of the stand.",
                    format(*a.product_at_ten_per_cent, u), shown<AreaRate>(rate, u), spacing_text(a.options.furrow, u)),
        width, 1, " ");
  }
  return text;
}

static std::string water_test_text(const Agronomy& a, UnitSystem u, std::size_t width) {
  const WaterTest& w = a.water;
  std::string text = fmt::format("\nTest with water at {}\n", shown<Temperature>(w.water_temperature, u));
  const auto paragraph = [&](const std::string& words) { text += wrapped(words, width, 1, " "); };
  if (w.same_setting) {
    paragraph(
        fmt::format("At this setting water comes at {}, the product at {}: a factor of {:.3f}. The square-root "
                    "rule says {:.3f}, for one pressure; it would put the product {} off.",
                    shown<AreaRate>(w.water_rate, u), shown<AreaRate>(w.product_rate, u), w.factor, w.rule_factor,
                    percent(std::abs(w.error))));
  } else {
    paragraph(fmt::format("By the square-root rule (factor {:.3f}) catch {} of water; the bar needs {} for that.",
                          w.rule_factor, shown<AreaRate>(w.water_rate, u), shown<Pressure>(w.pressure, u)));
    if (w.product_rate > 0.0) {
      paragraph(
          fmt::format("At that pressure the product comes at {}: {} {} than wanted. It needs {}. Rows vary by CV "
                      "{} with water and {} with the product.",
                      shown<AreaRate>(w.product_rate, u), percent(std::abs(w.error)), w.error < 0.0 ? "less" : "more",
                      shown<Pressure>(w.right_pressure, u), percent(w.water_cv), percent(w.product_cv)));
    } else {
      paragraph(fmt::format("At that pressure the product does not come at all: it needs {}.",
                            shown<Pressure>(w.right_pressure, u)));
    }
  }
  const double within = 100.0 * a.answer.layout.job.tolerance;
  const std::string viscosity = shown<Viscosity>(a.answer.liquid.viscosity, u);
  if (!w.fails) {
    paragraph(fmt::format("The rule holds here to ±{:g} %.", within));
  } else if (w.same_setting && !a.answer.plumbing.tanks.empty()) {
    paragraph(
        fmt::format("THE RULE FAILS here: it is off by more than ±{:g} %. It is for a held pressure; a tank's own "
                    "goes with the liquid's weight, and this product's viscosity ({}) counts too.",
                    within, viscosity));
  } else {
    paragraph(
        fmt::format("THE RULE FAILS here: it is off by more than ±{:g} %. It knows density only, and this "
                    "product's viscosity ({}) decides.",
                    within, viscosity));
  }
  return text;
}

}  // namespace report_detail

std::string nutrients_text(const Agronomy& a, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(a.answer, options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  const bool over = std::any_of(a.limits.begin(), a.limits.end(),
                                [&](const SeedLimitCheck& c) { return c.over && applies(c, a.options); });
  std::string text = coloured(wrapped(nutrients_verdict(a, u), width), over ? Colour::bad : Colour::strong, options);
  text += "\n" + wrapped(fmt::format("{}: {} Analysis {}.", name_text(a.answer.layout.name), job_text(a.answer, u),
                                     grade_text(a.analysis)),
                         width, 2);
  text += "\n" + nutrients_table(a, u) + seed_limits_text(a, u, width) + water_test_text(a, u, width);
  Cautions all = a.cautions;
  for (const Caution& c : all_cautions(a.answer)) all.push_back(c);
  text += cautions_section(all, width);
  return text + "\n" + wrapped(last_word, width);
}

std::string blend_text(const std::vector<BlendPart>& parts, const Blend& mix, UnitSystem u, std::size_t width) {
  using namespace report_detail;
  std::string text = fmt::format("The mix is {}, {}, {}.\n\n", grade_text(mix.analysis), format(mix.density, u),
                                 format(mix.volume, u));
  Table t;
  t.column("", Table::Align::left);
  t.column(std::string(unit_name<Volume>(u)));
  t.column(std::string(unit_name<Mass>(u)));
  t.column(std::string(unit_name<Density>(u)));
  for (const char* name : {"N %", "P2O5 %", "K2O %", "S %"}) t.column(name);
  const auto line = [&](const std::string& name, Volume volume, Mass mass, Density density, const Analysis& a) {
    std::vector<std::string> cells{name, format_number(volume, u), format_number(mass, u), format_number(density, u)};
    for (const double v : {a.n, a.p2o5, a.k2o, a.s}) cells.push_back(fmt::format("{:.2f}", v));
    t.line(std::move(cells));
  };
  for (const BlendPart& p : parts) {
    line(p.name, p.volume, from_si<Mass>(si(p.density) * si(p.volume)), p.density, p.analysis);
  }
  line("mix", mix.volume, mix.mass, mix.density, mix.analysis);
  return text + t.text() + cautions_section(blend_cautions(), width);
}

}  // namespace libflow
