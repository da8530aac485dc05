// SPDX-License-Identifier: MIT
#include <libflow/report/comparison_text.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/compare.hpp>

namespace libflow {

namespace report_detail {

std::string letter(std::size_t i) {
  return i < 26 ? std::string(1, static_cast<char>('A' + static_cast<char>(i))) : fmt::format("#{}", i + 1);
}

std::string file_beside(const std::string& name, const std::string& file) {
  const bool known = name.ends_with("(" + file + ")") || name.ends_with("(" + file.substr(file.rfind('/') + 1) + ")");
  return known ? std::string() : fmt::format(" ({})", safe_text(file, 200));
}

static std::string comparison_summary(const Comparison& c, UnitSystem u, std::size_t first, std::size_t beside) {
  const std::size_t last = std::min(first + beside, c.answers.size());
  Table t;
  t.column("", Table::Align::left);
  for (std::size_t k = first; k < last; ++k) t.column(letter(k));
  const auto line = [&](const std::string& name, auto&& value) {
    std::vector<std::string> cells{name};
    for (std::size_t k = first; k < last; ++k) cells.push_back(value(c.answers[k]));
    t.line(std::move(cells));
  };
  line("Verdict", [](const Answer& a) { return verdict_word(a); });
  line("Coefficient of variation", [](const Answer& a) { return percent(a.evenness.cv); });
  line("Furthest row", [](const Answer& a) {
    const RowResult* r = worst_row(a.evenness);
    return r == nullptr
               ? std::string("-")
               : fmt::format("{}: {} %", furthest_rows_text(a.evenness), deviation_text(r->deviation, a.evenness));
  });
  line("Rows outside the tolerance", [](const Answer& a) { return fmt::format("{}", a.evenness.outside.size()); });
  line("Christiansen uniformity", [](const Answer& a) { return percent(a.evenness.christiansen); });
  line("Low-quarter uniformity", [](const Answer& a) { return percent(a.evenness.low_quarter); });
  if (std::any_of(c.answers.begin(), c.answers.end(), [](const Answer& a) { return short_of_rate(a) != nullptr; })) {
    line("Wanted rate", rate_word);
  }
  line("Mean rate", [&](const Answer& a) { return shown<AreaRate>(a.evenness.mean_rate, u); });
  line("Gauge pressure", [&](const Answer& a) { return shown<Pressure>(a.evenness.supply_pressure, u); });
  line("Hose to cut", [&](const Answer& a) { return shown<Length>(a.plumbing.hose_total, u); });
  return t.text();
}

/// The summaries of all layouts, as many beside each other as fit the width.
static std::string comparison_summaries(const Comparison& c, UnitSystem u, std::size_t width) {
  std::string text;
  for (std::size_t beside = layouts_in_a_table; beside > 0; --beside) {
    text.clear();
    for (std::size_t k = 0; k < c.answers.size(); k += beside) text += "\n" + comparison_summary(c, u, k, beside);
    if (widest_line(text) <= width) break;
  }
  return text;
}

/// Two layouts: hose, deviation and bar of each, then the difference.
static std::string pair_rows(const Comparison& c, UnitSystem u, const Detail& detail) {
  const Evenness &a = c.answers[0].evenness, &b = c.answers[1].evenness;
  const double reach = bar_reach(b, bar_reach(a));
  Table t;
  t.column("row");
  for (std::size_t k = 0; k < 2; ++k) {
    t.column(fmt::format("{} hose\n{}", letter(k), unit_name<Length>(u)));
    t.column(fmt::format("{} rate\n{}", letter(k), unit_name<AreaRate>(u)));
    t.column(letter(k) + " off\nmean %");
    if (detail.bar > 0) t.column(fmt::format("±{:.0f} %", 100.0 * reach), Table::Align::left);
    t.column("", Table::Align::left);
  }
  t.column("B less A\n% points");
  for (std::size_t i = 0; i < std::min(a.rows.size(), b.rows.size()); ++i) {
    std::vector<std::string> cells{fmt::format("{}", a.rows[i].row)};
    for (const Evenness* e : {&a, &b}) {
      const RowResult& r = e->rows[i];
      const auto cell = [&](std::string text) { cells.push_back(r.shut ? std::string() : std::move(text)); };
      cell(shown_number<Length>(r.hose_length, u));
      cell(shown_number<AreaRate>(r.rate, u));
      cell(signed_percent(r.deviation));
      if (detail.bar > 0) cell(deviation_bar(r.deviation, reach, detail.bar));
      cells.push_back(mark(r, *e));
    }
    const bool both = !a.rows[i].shut && !b.rows[i].shut;
    cells.push_back(both ? signed_percent(b.rows[i].deviation - a.rows[i].deviation) : std::string("-"));
    t.line(std::move(cells));
  }
  return t.text();
}

/// Several layouts: deviations side by side, then each one's difference from A.
static std::string many_rows(const Comparison& c, std::size_t first) {
  const std::size_t last = std::min(first + layouts_in_a_table, c.answers.size());
  const std::vector<RowResult>& base = c.answers.front().evenness.rows;
  Table t;
  t.column("row");
  for (std::size_t k = first; k < last; ++k) t.column(letter(k) + "\n%");
  for (std::size_t k = std::max<std::size_t>(1, first); k < last; ++k) t.column(letter(k) + " less A\npoints");
  for (std::size_t i = 0; i < base.size(); ++i) {
    std::vector<std::string> cells{fmt::format("{}", base[i].row)};
    const auto row = [&](std::size_t k) -> const RowResult& { return c.answers[k].evenness.rows[i]; };
    for (std::size_t k = first; k < last; ++k) {
      cells.push_back(row(k).shut ? std::string("shut") : signed_percent(row(k).deviation));
    }
    for (std::size_t k = std::max<std::size_t>(1, first); k < last; ++k) {
      const bool both = !row(k).shut && !base[i].shut;
      cells.push_back(both ? signed_percent(row(k).deviation - base[i].deviation) : std::string("-"));
    }
    t.line(std::move(cells));
  }
  return t.text();
}

}  // namespace report_detail

std::vector<std::string> rate_not_reached_sentences(const Comparison& c, UnitSystem units) {
  using namespace report_detail;
  std::vector<std::string> sentences;
  for (std::size_t k = 0; k < c.answers.size(); ++k) {
    const Answer& a = c.answers[k];
    const Caution* stop = a.solution.usable() ? short_of_rate(a) : nullptr;
    if (stop == nullptr) continue;
    const Evenness& e = a.evenness;
    const bool held = stop->code == "other-rate-held";
    std::string text =
        fmt::format("RATE {}: {}, {}, {} {}: {}.", rate_word(a), letter(k), name_text(a.layout.name),
                    held ? "does not give" : "cannot give", shown<AreaRate>(e.target_rate, units), stop->text);
    // Without a drive the pressure that the rate needs is taken as if the supply had it.
    if (!held && e.mean_rate > 0.999 * e.target_rate) {
      text += " It is compared at that rate nevertheless, as if its supply could.";
    } else {
      text += fmt::format(" It is compared at the {} that it gives.", shown<AreaRate>(e.mean_rate, units));
    }
    sentences.push_back(std::move(text));
  }
  return sentences;
}

std::string comparison_text(const Comparison& c, const TextOptions& options, const std::vector<std::string>& files) {
  using namespace report_detail;
  const UnitSystem u = units_of(c.answers.front(), options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::string text;
  for (const std::string& sentence : rate_not_reached_sentences(c, u)) {
    text += coloured(wrapped(sentence, width), Colour::bad, options);
  }
  text += coloured(wrapped(verdict_sentence(c, false), width), Colour::strong, options) + "\n";
  for (std::size_t k = 0; k < c.answers.size(); ++k) {
    const std::vector<Cause>& causes = c.answers[k].evenness.causes;
    const std::string why = causes.empty() || c.answers[k].evenness.cv < least_cv_explained
                                ? std::string()
                                : fmt::format(", decided by {} ({})", causes.front().name,
                                              share_text(causes.front().share, "its variation"));
    const std::string& name = c.answers[k].layout.name;
    const std::string file = k < files.size() ? file_beside(name, files[k]) : std::string();
    text += wrapped(fmt::format("{}  {}{}{}", letter(k), name_text(name), file, why), width, 3);
  }
  const bool usable =
      std::all_of(c.answers.begin(), c.answers.end(), [](const Answer& a) { return a.solution.usable(); });
  text += wrapped(fmt::format("All at the same total rate, that of A: {}", job_text(c.answers.front(), u)), width, 2);
  if (usable) {
    text += comparison_summaries(c, u, width);
    if (c.answers.size() == 2) {
      text += "\n" + fitting(width, [&](const Detail& detail) { return pair_rows(c, u, detail); });
    } else {
      for (std::size_t k = 0; k < c.answers.size(); k += layouts_in_a_table) text += "\n" + many_rows(c, k);
    }
  }
  Cautions all = c.cautions;
  for (std::size_t k = 0; k < c.answers.size(); ++k) {
    for (Caution one : all_cautions(c.answers[k])) {
      // A part's or a row's name means nothing without its layout; a liquid's does.
      if (!one.subject.empty() && one.subject != c.answers[k].liquid.name) one.subject = letter(k) + ": " + one.subject;
      const bool known = std::any_of(all.begin(), all.end(), [&](const Caution& o) {
        return o.code == one.code && o.subject == one.subject && o.text == one.text;
      });
      if (!known) all.push_back(std::move(one));
    }
  }
  text += cautions_section(all, width);
  double mass = 0.0, energy = 0.0;
  for (const Answer& a : c.answers) {
    mass = std::max(mass, a.solution.mass_residual);
    energy = std::max(energy, a.solution.energy_residual);
  }
  if (usable) {
    text += "\n" + wrapped(fmt::format("Solved. Flows balance to within {} of the largest flow, pressure drops agree "
                                       "with their laws to within {} of the largest drop.",
                                       residual(mass), residual(energy)),
                           width);
  }
  return text + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
