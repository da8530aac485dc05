// SPDX-License-Identifier: MIT
#include <libflow/report/setting_card_text.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/catch_text.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/envelope_words.hpp>
#include <libflow/report/limits_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/setting_card.hpp>

namespace libflow {

namespace report_detail {

static std::string card_mark(const EnvelopePoint& p, const std::vector<BindingLetter>& letters) {
  if (p.state == PointState::cannot_run) return fmt::format("x{}", letter_of(letters, p.binding));
  if (p.state == PointState::poor) return fmt::format("~{}", letter_of(letters, p.binding));
  return p.advised ? "" : "o";
}

/// Speeds down, rates across: pressure, setting of the drive, mean cup.
/// @param beside  how many rates beside each other
static std::string card_table(const SettingCard& card, UnitSystem u, std::size_t beside,
                              const std::vector<BindingLetter>& letters) {
  const auto* bar = std::get_if<Toolbar>(&card.layout.plumbing);
  const bool driven = bar != nullptr && bar->drive;
  const std::string unit = driven && !is_pressure(bar->drive->control) ? "1" : "Pa";
  std::string text;
  const std::size_t rates = card.options.rates.size(), speeds = card.options.speeds.size();
  for (std::size_t first = 0; first < rates; first += beside) {
    const std::size_t last = std::min(first + beside, rates);
    Table t;
    t.column(fmt::format("speed\n{}", unit_name<Speed>(u)));
    for (std::size_t r = first; r < last; ++r) {
      const std::string rate = format(card.options.rates[r], u);
      t.column("|\n|");
      t.column(fmt::format("{}\ngauge, {}", rate, unit_name<Pressure>(u)));
      if (driven) t.column(card.control);
      t.column("cup\n" + cup_unit(u));
      t.column("", Table::Align::left);
    }
    for (std::size_t v = 0; v < speeds; ++v) {
      std::vector<std::string> cells{format_number(card.options.speeds[v], u)};
      for (std::size_t r = first; r < last; ++r) {
        const EnvelopePoint& p = card.points[r * speeds + v];
        const bool can = p.state != PointState::cannot_run;
        cells.emplace_back("|");
        cells.push_back(can ? shown_number<Pressure>(p.gauge, u) : "-");
        if (driven) cells.push_back(can ? si_value_text(p.setting, unit, u) : "-");
        cells.push_back(can ? cup_number(card.mean_catch[r * speeds + v], u) : "-");
        cells.push_back(card_mark(p, letters));
      }
      t.line(std::move(cells));
    }
    text += t.text();
  }
  return text;
}

/// What a cup outside its range means; rows that are expected there by the layout itself are named.
static std::string outside_advice(const SettingCard& card) {
  const std::string look = "look for a plugged orifice, a kinked hose, a stuck check valve.";
  std::vector<int> outside;
  for (const CardCatch& r : card.rows) {
    if (!r.shut && (r.volume < r.low || r.volume > r.high)) outside.push_back(r.row);
  }
  if (outside.empty()) return "A cup outside 'good from ... to': " + look;
  return fmt::format(
      "{} {} expected outside 'good from ... to': that is the layout (such as its hose lengths), not a fault. A cup of "
      "{} that is far from the expected one, or of another row outside its range: {}",
      rows_in_words(outside), outside.size() == 1 ? "is" : "are", outside.size() == 1 ? "it" : "them", look);
}

/// Rows in two blocks side by side.
static std::string catch_table(const SettingCard& card, UnitSystem u) {
  const std::size_t n = card.rows.size(), lines = (n + 1) / 2;
  Table t;
  for (int block = 0; block < (n > 1 ? 2 : 1); ++block) {
    if (block > 0) t.column("   ");
    t.column("row");
    t.column(cup_unit(u));
    t.column("good from\n" + cup_unit(u));
    t.column("to\n" + cup_unit(u));
    t.column("caught", Table::Align::left);
  }
  for (std::size_t i = 0; i < lines; ++i) {
    std::vector<std::string> cells;
    for (std::size_t k = i; k < n; k += lines) {
      const CardCatch& r = card.rows[k];
      if (k != i) cells.emplace_back();
      cells.push_back(fmt::format("{}", r.row));
      if (r.shut) {
        cells.insert(cells.end(), {"shut", "", "", ""});
      } else {
        cells.insert(cells.end(), {cup_number(r.volume, u), cup_number(r.low, u), cup_number(r.high, u), "______"});
      }
    }
    t.line(std::move(cells));
  }
  return t.text();
}

}  // namespace report_detail

std::string setting_card_text(const SettingCard& card, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = options.units.value_or(card.layout.units);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  const Job& job = card.layout.job;
  std::string text =
      coloured(wrapped("SETTING CARD  " + name_text(card.layout.name), width, 2), Colour::strong, options);
  text += wrapped(fmt::format("{} at {} ({}, {}). Only for this product at this temperature: colder liquid is thicker "
                              "and needs more pressure.",
                              card.liquid.name, format(job.temperature, u), shown<Density>(card.liquid.density, u),
                              shown<Viscosity>(card.liquid.viscosity, u)),
                  width);
  text += "\n" + wrapped(fmt::format("{} at {}: {}", format(job.rate, u), format(job.speed, u),
                                     verdict_sentence(card.main, u)),
                         width);
  if (const std::string gauge = gauge_over_band(card.main, u); !gauge.empty()) {
    text += wrapped(fmt::format("Until its viscosity is measured: {}.", gauge), width);
  }
  const std::string time = fmt::format("{:g} s", si(card.options.catch_time));
  text +=
      "\n" + wrapped(fmt::format("Pressure at the gauge against speed, and the mean cup of a row in {}", time), width);
  const std::vector<BindingLetter> letters = binding_letters(card.points);
  std::string table;
  for (const std::size_t beside : {4U, 3U, 2U, 1U}) {
    table = card_table(card, u, beside, letters);
    if (widest_line(table) <= width) break;
  }
  text += table;
  const auto any = [&](auto&& test) { return std::any_of(card.points.begin(), card.points.end(), test); };
  std::string key;
  if (any([](const auto& p) { return p.state == PointState::poor; })) {
    key += "~ runs, but uneven or outside a wanted window; ";
  }
  if (any([](const auto& p) { return p.state == PointState::cannot_run; })) key += "x cannot run; ";
  if (any([](const auto& p) { return p.state == PointState::even && !p.advised; })) {
    key += "o outside good practice (pump reserve, velocity, relief valve); ";
  }
  for (const BindingLetter& b : letters) {
    const bool marked = any([&](const auto& p) { return p.binding == b.name && p.state != PointState::even; });
    if (marked) key += fmt::format("{} {}; ", b.letter, b.name);
  }
  if (!key.empty()) text += wrapped(key.substr(0, key.size() - 2) + ".", width, 1, " ");

  if (card.rows.empty()) {
    text += "\n" + wrapped(fmt::format("No catch test: {} at {} cannot be reached ({}).", format(job.rate, u),
                                       format(job.speed, u), card.job.binding),
                           width);
  } else {
    text += "\n" + wrapped(fmt::format("Catch test: {} in every cup{}, standing still, the gauge at {} as for {} at "
                                       "{}. Good: within ±{:g} % of the wanted rate.",
                                       time, card.outlets_per_row > 1 ? " (all outlets of a row in one cup)" : "",
                                       shown<Pressure>(card.job.gauge, u), format(job.rate, u), format(job.speed, u),
                                       100.0 * job.tolerance),
                           width);
    text += catch_table(card, u);
  }
  text += "\nBefore you start\n";
  const std::string gauge =
      fmt::format("The gauge must stand {}: this card's pressures are those there. One nearer the pump reads more.",
                  gauge_place(card.layout));
  std::vector<std::string> before = {
      "Goggles and gloves. Take the pressure off and shut the tank before opening a line: check valves hold pressure "
      "behind them.",
      catch_liquid_advice() + " The cups above are of the product."};
  if (!card.rows.empty()) before.push_back(outside_advice(card));
  before.push_back(gauge);
  for (const std::string& line : before) {
    text += wrapped(line, width, 3, " - ");
  }
  if (!card.cautions.empty()) text += cautions_text(card.cautions, width);
  return text + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
