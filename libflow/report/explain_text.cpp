// SPDX-License-Identifier: MIT
#include <libflow/report/explain_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <fmt/core.h>
#include <fmt/ranges.h>

#include <libflow/file/results_json.hpp>
#include <libflow/parts/check_valve.hpp>
#include <libflow/parts/orifice.hpp>
#include <libflow/parts/pressure_regulator.hpp>
#include <libflow/parts/relief_valve.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/study/path.hpp>
#include <libflow/study/row_inputs.hpp>
#include <libflow/toolbar/build_rows.hpp>

namespace libflow {

namespace report_detail {

/// Which manifold's bar a part is a piece of; none: it is of no bar.
static std::optional<std::size_t> bar_of(const Answer& a, const std::string& id) {
  const auto* bar = std::get_if<Toolbar>(&a.layout.plumbing);
  for (std::size_t m = 0; bar != nullptr && m < bar->manifolds.size(); ++m) {
    if (id.rfind(build_detail::manifold_name(*bar, m) + " bar ", 0) == 0) return m;
  }
  return std::nullopt;
}

std::vector<PathStretch> stretches(const Answer& a, const RowPath& path) {
  std::vector<PathStretch> out;
  for (const PathStep& step : path.steps) {
    const PlacedPart& placed = a.plumbing.network.part(step.part);
    const auto bore = placed.part.bore();
    const double d = bore ? si(*bore) : 0.0;
    const auto* hose = placed.part.as<Hose>();
    const bool goes_on = hose != nullptr && !out.empty() && out.back().kind == placed.part.kind() &&
                         out.back().bore == d && out.back().length > 0.0 &&
                         bar_of(a, out.back().first) == bar_of(a, placed.id);
    if (!goes_on) {
      out.push_back({.kind = std::string(placed.part.kind()),
                     .first = placed.id,
                     .bore = d,
                     .most_flow = step.flow,
                     .least_flow = step.flow,
                     .regime = a.solution.parts[step.part].regime});
    }
    PathStretch& s = out.back();
    ++s.parts;
    s.last = placed.id;
    if (hose != nullptr) s.length += si(hose->length);
    s.most_flow = std::fmax(s.most_flow, step.flow);
    s.least_flow = std::fmin(s.least_flow, step.flow);
    s.loss += step.loss;
    s.unused_fall += step.unused_fall;
    s.lift += step.lift;
    s.after = step.after;
  }
  return out;
}

static std::string unquoted(std::string_view name) {
  const std::string quoted = name_text(name);
  return quoted.substr(1, quoted.size() - 2);
}

/// "manifold 1", or by the user's own name for it.
static std::string manifold_words(const Toolbar& bar, std::size_t m) {
  return bar.manifolds[m].id.empty() ? build_detail::manifold_name(bar, m)
                                     : "manifold " + name_text(bar.manifolds[m].id);
}

/// A part's id in plain words. What a toolbar's plumbing is made of has names of our own, that of a free form the
/// user's, which stand in quotes.
static std::string plain_name(const Answer& a, const std::string& id) {
  const auto* bar = std::get_if<Toolbar>(&a.layout.plumbing);
  if (bar == nullptr) return name_text(id);
  if (const auto m = bar_of(a, id)) {
    const std::string piece = id.substr(build_detail::manifold_name(*bar, *m).size() + 5);  // behind " bar "
    return fmt::format("{}, piece {} of its bar", manifold_words(*bar, *m), piece);
  }
  return id == "supply" ? "the supply" : unquoted(id);
}

/// Of a bar: how far liquid goes along it.
static std::string along_the_bar(const Answer& a, const PathStretch& s, int row) {
  const auto m = bar_of(a, s.first);
  if (!m) return {};
  return fmt::format("{}, feed to row {}'s port", manifold_words(std::get<Toolbar>(a.layout.plumbing), *m), row);
}

/// True where a row's orifice is known by its rating alone.
static bool rated_orifice(const Answer& a, int row) {
  const auto* bar = std::get_if<Toolbar>(&a.layout.plumbing);
  if (bar == nullptr) return false;
  std::optional<OrificeChoice> choice = bar->orifice;
  for (const RowChange& change : bar->row_changes) {
    if (change.row == row && change.orifice) choice = change.orifice;
  }
  return choice && std::holds_alternative<OrificeByRating>(*choice);
}

/// A bore that nobody gave, only a rating, is that of the hole that would lose the same.
static std::string bore_words(const Answer& a, const std::string& kind, double bore, int row, UnitSystem u) {
  const std::string text = format_bore(from_si<Length>(bore), u);
  if (kind == CheckValve::kind || (kind == Orifice::kind && rated_orifice(a, row))) {
    return "equivalent bore " + text + ", by its rating";
  }
  const bool either_way = kind == ReliefValve::kind || kind == PressureRegulator::kind;
  return (either_way ? "equivalent bore " : "bore ") + text;
}

static std::string stretch_name(const Answer& a, const PathStretch& s, int row, UnitSystem u) {
  std::string name = along_the_bar(a, s, row);
  const bool bar = !name.empty();
  if (!bar) name = s.parts == 1 ? plain_name(a, s.first) : plain_name(a, s.first) + " to " + plain_name(a, s.last);
  std::vector<std::string> facts;
  if (!bar && name.find(s.kind) == std::string::npos) facts.push_back(s.kind);
  if (s.length > 0.0) facts.push_back(shown<Length>(s.length, u));
  if (s.bore > 0.0) facts.push_back(bore_words(a, s.kind, s.bore, row, u));
  if (s.length > 0.0 && s.regime != Regime::still) facts.emplace_back(name_of(s.regime));
  if (!facts.empty()) name += " (" + fmt::format("{}", fmt::join(facts, ", ")) + ")";
  return name;
}

/// Where the pressure goes, in a table that fits: long names go on in the next line.
static std::string path_table(const Answer& a, const RowPath& path, UnitSystem u, std::size_t name_width) {
  Table t;
  t.column("", Table::Align::left);
  t.column(fmt::format("flow\n{}", unit_name<Flow>(u)));
  t.column(fmt::format("loses\n{}", unit_name<Pressure>(u)));
  t.column(fmt::format("height\n{}", unit_name<Pressure>(u)));
  t.column(fmt::format("leaves\n{}", unit_name<Pressure>(u)));
  t.line({plain_name(a, a.plumbing.network.place(path.supply).id), "", "", "",
          shown_number<Pressure>(a.solution.places[path.supply].total_pressure, u)});
  for (const PathStretch& s : stretches(a, path)) {
    const std::string most = shown_number<Flow>(s.most_flow, u), least = shown_number<Flow>(s.least_flow, u);
    const std::vector<std::string> name = name_lines(stretch_name(a, s, path.row, u), name_width);
    t.line({name.front(), most == least ? most : fmt::format("{} to {}", most, least),
            shown_number<Pressure>(s.loss, u),
            std::abs(s.lift) < 1.0 ? std::string("0") : shown_number<Pressure>(s.lift, u),
            shown_number<Pressure>(s.after + s.unused_fall, u)});
    for (std::size_t k = 1; k < name.size(); ++k) t.line({name[k]});
    if (s.unused_fall >= 1.0) {
      t.line({"  height not used (falls through air)", "", "", shown_number<Pressure>(s.unused_fall, u),
              shown_number<Pressure>(s.after, u)});
    }
  }
  return t.text();
}

}  // namespace report_detail

/// "row 8 hose, length": the part's id is put in plain words.
static std::string plain_input(const Answer& a, const std::string& name) {
  const std::size_t comma = name.rfind(", ");
  if (comma == std::string::npos) return report_detail::plain_name(a, name);
  return report_detail::plain_name(a, name.substr(0, comma)) + name.substr(comma);
}

/// A value of an input in the units that a person reads it in.
static std::string input_value(double value, const RowInput& input, UnitSystem u) {
  using report_detail::shown;
  const auto named = [&](std::string_view word) { return input.name.find(word) != std::string::npos; };
  if (input.unit == "Pa") return shown<Pressure>(value, u);
  if (input.unit == "m/s") return shown<Speed>(value, u);
  if (input.unit == "m" && (named("bore") || named("thickness"))) return format_bore(from_si<Length>(value), u);
  // A bar without loss is a thousandth of a millimetre long.
  if (named("length") && std::abs(value) < 1e-5) return "none";
  if (input.unit == "m") return shown<Length>(value, u);
  return input.unit.empty() ? fmt::format("{:.3f}", value) : fmt::format("{:.4g} {}", value, input.unit);
}

/// "Which single inputs": the largest few, what all others do together, and the sum.
static std::string inputs_text(const Answer& a, const RowInputs& found, UnitSystem u, std::size_t width) {
  using namespace report_detail;
  constexpr std::size_t most = 5;
  constexpr double shown_from = 5e-4;  // of the mean: what less does is 0.0 % in print
  std::string text = fmt::format("\nWhich single inputs make row {} differ\n", found.row);
  if (!found.refused.empty()) return text + wrapped("Not told apart here: " + found.refused + ".", width, 1, " ");
  Table t;
  t.column("", Table::Align::left);
  t.column("even bar");
  t.column("here");
  t.column("% of the mean");
  std::size_t told = 0;
  double rest = found.deviation;
  for (const RowInput& in : found.inputs) {
    if (told == most || std::abs(in.deviation) < shown_from) break;
    t.line({plain_input(a, in.name), input_value(in.reference, in, u), input_value(in.value, in, u),
            signed_percent(in.deviation)});
    rest -= in.deviation;
    ++told;
  }
  if (told == 0) {
    return text + wrapped("None: no single input moves this row by 0.05 % of the mean.", width, 1, " ");
  }
  if (const std::size_t others = found.inputs.size() - told; others > 0) {
    t.line({fmt::format("{} other{}", others, others == 1 ? "" : "s"), "", "", signed_percent(rest)});
  }
  t.line({"together", "", "", signed_percent(found.deviation)});
  return text + t.text() +
         wrapped("Each input's part is its exact slope, added up on the straight way from an even bar to this one.",
                 width, 1, " ");
}

std::string explain_text(const Answer& answer, int row, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(answer, options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  const RowPath path = path_to_row(answer, row);
  const Network& n = answer.plumbing.network;
  const Evenness& e = answer.evenness;
  const auto at = static_cast<std::size_t>(
      std::find_if(e.rows.begin(), e.rows.end(), [&](const RowResult& r) { return r.row == row; }) - e.rows.begin());
  const RowResult& r = e.rows[at];

  const std::string verdict = mark(r, e);
  std::string text =
      wrapped(r.flow > 0.0 ? fmt::format("Row {} gets {} ({}), {} % from the mean of {}{}; the tolerance is ±{}.", row,
                                         shown<AreaRate>(r.rate, u), shown<Flow>(r.flow, u),
                                         signed_percent(r.deviation), shown<AreaRate>(e.mean_rate, u),
                                         verdict.empty() ? "" : ": " + verdict, percent(e.tolerance))
                           : fmt::format("Row {} gets nothing.", row),
              width);
  text += wrapped(fmt::format("{}: {}", name_text(answer.layout.name), job_text(answer, u)), width, 2);

  text += "\nWhere the pressure goes, from " + plain_name(answer, n.place(path.supply).id) + "\n";
  for (std::size_t name = 72; name >= 24; name -= 6) {
    const std::string table = path_table(answer, path, u, name);
    if (widest_line(table) > width && name > 24) continue;
    text += table;
    break;
  }
  double largest = 0.0, spent = 0.0;
  std::string most;
  for (const PathStretch& s : stretches(answer, path)) {
    spent += std::fmax(0.0, s.loss) + std::fmax(0.0, s.lift);
    if (s.loss > largest) {
      largest = s.loss;
      most = stretch_name(answer, s, row, u);
    }
  }
  if (largest > 0.0) {
    const char* const how_much = largest >= 0.995 * spent ? "All" : largest > 0.5 * spent ? "Most" : "The largest part";
    text += wrapped(fmt::format("{} is spent in {}: {} of {}.", how_much, most, shown<Pressure>(largest, u),
                                shown<Pressure>(spent, u)),
                    width, 1, " ");
  }

  if (e.mean_rate > 0.0) {
    const auto mean = [&](double RowResult::*field) {
      double sum = 0.0, count = 0.0;
      for (const RowResult& other : e.rows) {
        if (other.shut) continue;
        sum += other.*field;
        count += 1.0;
      }
      return sum / count;
    };
    text += "\nAgainst the mean of all rows\n";
    Table against;
    against.column("", Table::Align::left);
    against.column(fmt::format("row {}", row));
    against.column("mean");
    against.column("more");
    const auto line = [&](const std::string& name, double RowResult::*field, auto as) {
      using Q = decltype(as);
      const double own = r.*field, all = mean(field);
      if (std::abs(own) < 1e-12 && std::abs(all) < 1e-12) return;
      against.line({fmt::format("{} [{}]", name, unit_name<Q>(u)), shown_number<Q>(own, u), shown_number<Q>(all, u),
                    shown_number<Q>(own - all, u)});
    };
    line("hose", &RowResult::hose_length, Length{});
    line("ground speed", &RowResult::speed, Speed{});
    line("lost in hose and bar", &RowResult::line_drop, Pressure{});
    line("lost in the check valve", &RowResult::check_valve_drop, Pressure{});
    line("height not used", &RowResult::unused_fall, Pressure{});
    line("left for the orifice", &RowResult::orifice_drop, Pressure{});
    line("spent on height", &RowResult::lift, Pressure{});
    text += against.text();
  }

  if (!e.causes.empty() && e.cv < least_cv_explained && std::abs(r.deviation) < least_cv_explained) {
    text +=
        "\n" + wrapped(fmt::format("Why it is off: nothing that matters (it is {} off, the spread of all rows is {}).",
                                   percent(std::abs(r.deviation)), percent(e.cv)),
                       width);
  } else if (!e.causes.empty()) {
    text += "\nWhy it is off\n";
    Table why;
    why.column("", Table::Align::left);
    why.column("% of the mean");
    for (const Cause& c : e.causes) {
      if (at < c.deviation.size()) why.line({c.name, signed_percent(c.deviation[at])});
    }
    why.line({"together", signed_percent(r.deviation)});
    text += why.text() + wrapped("Measured from an even reference: " + e.reference + ".", width, 1, " ");
    text += inputs_text(answer, inputs_of_row(answer, row), u, width);
  }
  return text + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
