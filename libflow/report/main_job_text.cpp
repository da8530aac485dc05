// SPDX-License-Identifier: MIT
#include <libflow/report/main_job_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/verdict.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

UnitSystem units_of(const Answer& a, const TextOptions& o) { return o.units.value_or(a.layout.units); }

std::string job_text(const Answer& a, UnitSystem u) {
  const Job& job = a.layout.job;
  std::string text = fmt::format("{} at {} ({}, {}), {} at {}", a.liquid.name, format(job.temperature, u),
                                 shown<Density>(a.liquid.density, u), shown<Viscosity>(a.liquid.viscosity, u),
                                 format(job.rate, u), format(job.speed, u));
  if (job.turn_radius) {
    text += fmt::format(", turning {} on {}", si(*job.turn_radius) > 0.0 ? "left" : "right",
                        shown<Length>(std::abs(si(*job.turn_radius)), u));
  }
  const auto* bar = std::get_if<Toolbar>(&a.layout.plumbing);
  if (bar != nullptr && bar->drive && bar->drive->setting) {
    const DriveControl control = bar->drive->control;
    const double setting = *bar->drive->setting;
    text += fmt::format(", {} at {}", name_of(control),
                        is_pressure(control) ? shown<Pressure>(setting, u) : percent(setting));
  }
  if (job.pressure) text += fmt::format(", held at {} at the gauge", format(*job.pressure, u));
  return text + ".";
}

double bar_reach(const Evenness& e, double so_far) {
  double reach = std::fmax(so_far, 2.0 * e.tolerance);
  for (const RowResult& r : e.rows) reach = std::fmax(reach, r.shut ? 0.0 : std::abs(r.deviation));
  return reach;
}

std::string mark(const RowResult& r, const Evenness& e) {
  if (r.shut) return "shut";
  if (r.valve == ValveState::closed) return "CLOSED";  // the check valve of an outlet
  if (std::abs(r.deviation) <= e.tolerance) return "";
  return r.deviation < 0.0 ? "LOW" : "HIGH";
}

static std::string regime_text(Regime regime, bool words) {
  if (words) return std::string(name_of(regime));
  switch (regime) {
    case Regime::still:
      return "still";
    case Regime::laminar:
      return "lam.";
    case Regime::transition:
      return "trans.";
    case Regime::turbulent:
      return "turb.";
  }
  return {};
}

std::string rows_table(const Answer& a, UnitSystem u, const Detail& detail) {
  const Evenness& e = a.evenness;
  const auto headed = [](const char* name, std::string_view unit) { return fmt::format("{}\n{}", name, unit); };
  const auto any = [&](auto&& test) { return std::any_of(e.rows.begin(), e.rows.end(), test); };
  const bool valves = any([](const RowResult& r) { return r.valve != ValveState::none; });
  const bool lifts = any([](const RowResult& r) { return std::abs(r.lift) > 1.0; });
  const double reach = bar_reach(e);

  Table t;
  t.column("row");
  t.column(headed("hose", unit_name<Length>(u)));
  t.column(headed("flow", unit_name<Flow>(u)));
  t.column(headed("rate", unit_name<AreaRate>(u)));
  t.column("off\nmean %");
  if (detail.bar > 0) t.column(fmt::format("±{:.0f} %", 100.0 * reach), Table::Align::left);
  t.column(headed("orifice", unit_name<Pressure>(u)));
  if (valves) t.column(headed("check", unit_name<Pressure>(u)));
  t.column(headed("line", unit_name<Pressure>(u)));
  if (lifts) t.column(headed("lift", unit_name<Pressure>(u)));
  t.column("orif.\nshare");
  t.column("hose\nflow", Table::Align::left);
  t.column("", Table::Align::left);
  for (const RowResult& r : e.rows) {
    std::vector<std::string> cells{fmt::format("{}", r.row)};
    if (r.shut) {
      cells.resize(t.column_count());
      cells.back() = mark(r, e);
      t.line(std::move(cells));
      continue;
    }
    cells.insert(cells.end(), {shown_number<Length>(r.hose_length, u), shown_number<Flow>(r.flow, u),
                               shown_number<AreaRate>(r.rate, u), deviation_text(r.deviation, e)});
    if (detail.bar > 0) cells.push_back(deviation_bar(r.deviation, reach, detail.bar));
    cells.push_back(shown_number<Pressure>(r.orifice_drop, u));
    if (valves) cells.push_back(shown_number<Pressure>(r.check_valve_drop, u));
    cells.push_back(shown_number<Pressure>(r.line_drop, u));
    if (lifts) cells.push_back(shown_number<Pressure>(r.lift, u));
    cells.insert(cells.end(),
                 {fmt::format("{:.0f} %", 100.0 * r.orifice_share), regime_text(r.regime, detail.words), mark(r, e)});
    t.line(std::move(cells));
  }
  return t.text();
}

std::string gauge_place(const Layout& layout) {
  if (const auto* bar = std::get_if<Toolbar>(&layout.plumbing)) {
    const bool many = bar->manifolds.size() > 1;
    const bool fed_by_hose = std::any_of(bar->manifolds.begin(), bar->manifolds.end(),
                                         [](const Manifold& m) { return si(m.feed_length) > 0.0; });
    if (fed_by_hose) return many ? "where the manifolds' feed hoses part" : "where the manifold's feed hose begins";
    return many ? "where the liquid enters the manifolds" : "where the liquid enters the manifold";
  }
  const auto& plumbing = std::get<Plumbing>(layout.plumbing);
  return "at " + name_text(plumbing.network.place(plumbing.supply).id);
}

std::string summary(const Answer& a, UnitSystem u) {
  const Evenness& e = a.evenness;
  const auto line = [](const char* left, const std::string& l, const char* right, const std::string& r) {
    return fmt::format(" {}{}{}{}\n", padded(left, 26, false), padded(l, 20, false), padded(right, 17, false), r);
  };
  // Where nothing flows there is nothing to be uniform.
  const auto measure = [&](double v) { return e.mean_rate > 0.0 ? percent(v) : std::string("-"); };
  return line("Mean rate", shown<AreaRate>(e.mean_rate, u), "Wanted", shown<AreaRate>(e.target_rate, u)) +
         line("Coefficient of variation", measure(e.cv) + " (n-1)", "Gauge pressure",
              shown<Pressure>(e.supply_pressure, u)) +
         line("Christiansen uniformity", measure(e.christiansen), "Total flow", shown<Flow>(e.total_flow, u)) +
         line("Low-quarter uniformity", measure(e.low_quarter), "Hose to cut",
              shown<Length>(a.plumbing.hose_total, u)) +
         fmt::format(
             " The gauge stands {}.\n Orif. share: the orifice's part of all that a row loses from gauge to air.\n",
             gauge_place(a.layout));
}

std::string gauge_over_band(const Answer& a, UnitSystem u) {
  double low = a.evenness.supply_pressure, high = low;
  for (const ViscosityEnd& end : a.viscosity_band) {
    if (!end.solved) continue;
    low = std::fmin(low, end.pressure);
    high = std::fmax(high, end.pressure);
  }
  if (!(high > 1.01 * low)) return {};
  return fmt::format("the gauge at {} to {} for the same rate", shown<Pressure>(low, u), shown<Pressure>(high, u));
}

std::string viscosity_band_text(const Answer& a, UnitSystem u, std::size_t width) {
  if (a.viscosity_band.empty()) return {};
  double low = a.liquid.viscosity, high = low, nearest = std::numeric_limits<double>::infinity(), furthest = 0.0;
  if (const RowResult* worst = worst_row(a.evenness)) nearest = furthest = std::abs(worst->deviation);
  for (const ViscosityEnd& end : a.viscosity_band) {
    low = std::fmin(low, end.viscosity);
    high = std::fmax(high, end.viscosity);
    if (!end.solved) return {};  // the verdict says so
    nearest = std::fmin(nearest, std::abs(end.worst_deviation));
    furthest = std::fmax(furthest, std::abs(end.worst_deviation));
  }
  const std::string least = percent(nearest), most = percent(furthest), gauge = gauge_over_band(a, u);
  return wrapped(fmt::format("Over the band of its viscosity, {} to {}, the furthest row is {} from the mean{}{}.",
                             shown<Viscosity>(low, u), shown<Viscosity>(high, u),
                             least == most ? most : least + " to " + most, gauge.empty() ? gauge : ", " + gauge,
                             verdict_depends_on_viscosity(a) ? "" : ": the verdict stays the same"),
                 width, 1, " ");
}

static std::string causes_text(const Evenness& e, std::size_t width) {
  if (e.causes.empty()) return {};
  if (e.cv < least_cv_explained) {
    return "\n" + wrapped(fmt::format("What decides it: nothing that matters (spread {}).", percent(e.cv)), width);
  }
  const RowResult* worst = worst_row(e);
  const auto at = static_cast<std::size_t>(worst - e.rows.data());
  Table t;
  t.column("", Table::Align::left);
  t.column("share of all\nvariation");
  t.column(fmt::format("in row {}\n%", worst->row));
  for (const Cause& c : e.causes) {
    t.line({c.name, fmt::format("{:.0f} %", std::round(100.0 * c.share) + 0.0),  // + 0: no minus zero
            at < c.deviation.size() ? deviation_text(c.deviation[at], e) : std::string()});
  }
  std::string text = "\nWhat decides it\n" + t.text();
  if (!e.reference.empty()) text += wrapped("Measured from an even reference: " + e.reference + ".", width, 1, " ");
  return text;
}

std::string proof_text(const Solution& s, std::size_t width) {
  return wrapped(
      fmt::format("Solved in {} step{}. Flows balance at every place to within {} of the largest flow; every "
                  "part's pressure drop agrees with its law to within {} of the largest drop.",
                  s.iterations, s.iterations == 1 ? "" : "s", residual(s.mass_residual), residual(s.energy_residual)),
      width);
}

std::string cautions_section(const Cautions& cautions, std::size_t width) {
  return cautions.empty() ? std::string() : "\nCautions\n" + cautions_text(cautions, width);
}

}  // namespace report_detail

std::string main_job_text(const Answer& answer, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(answer, options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  const VerdictState state = verdict_state(answer);
  std::string text = coloured(wrapped(verdict_sentence(answer, u), width),
                              state == VerdictState::unsure ? Colour::strong
                              : state == VerdictState::good ? Colour::good
                                                            : Colour::bad,
                              options);
  if (const std::string built = as_built_sentence(answer); !built.empty()) text += wrapped(built, width);
  text += "\n" + wrapped(fmt::format("{}: {}", name_text(answer.layout.name), job_text(answer, u)), width, 2);
  if (answer.solution.usable()) {
    text += "\n" + fitting(width, [&](const Detail& detail) { return rows_table(answer, u, detail); }) + "\n" +
            summary(answer, u) + viscosity_band_text(answer, u, width) + causes_text(answer.evenness, width);
  }
  text += cautions_section(all_cautions(answer), width);
  if (answer.solution.usable()) text += "\n" + proof_text(answer.solution, width);
  return text + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
