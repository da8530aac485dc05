// SPDX-License-Identifier: MIT
#include <libflow/report/explain_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>
#include <fmt/ranges.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/path.hpp>

namespace libflow {

namespace report_detail {

std::vector<PathStretch> stretches(const Answer& a, const RowPath& path) {
  std::vector<PathStretch> out;
  for (const PathStep& step : path.steps) {
    const PlacedPart& placed = a.plumbing.network.part(step.part);
    const auto bore = placed.part.bore();
    const double d = bore ? si(*bore) : 0.0;
    const auto* hose = placed.part.as<Hose>();
    const bool goes_on = hose != nullptr && !out.empty() && out.back().kind == placed.part.kind() &&
                         out.back().bore == d && out.back().length > 0.0;
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

static std::string stretch_name(const PathStretch& s, UnitSystem u) {
  std::string name = s.parts == 1 ? name_text(s.first) : name_text(s.first) + " to " + name_text(s.last);
  std::vector<std::string> facts{s.kind};
  if (s.length > 0.0) facts.push_back(shown<Length>(s.length, u));
  if (s.bore > 0.0) facts.push_back("bore " + format_bore(from_si<Length>(s.bore), u));
  if (s.length > 0.0 && s.regime != Regime::still) facts.emplace_back(name_of(s.regime));
  name += " (" + fmt::format("{}", fmt::join(facts, ", ")) + ")";
  return name;
}

}  // namespace report_detail

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

  text += "\nWhere the pressure goes, from " + name_text(n.place(path.supply).id) + "\n";
  Table t;
  t.column("", Table::Align::left);
  t.column(fmt::format("flow\n{}", unit_name<Flow>(u)));
  t.column(fmt::format("loses\n{}", unit_name<Pressure>(u)));
  t.column(fmt::format("height\n{}", unit_name<Pressure>(u)));
  t.column(fmt::format("leaves\n{}", unit_name<Pressure>(u)));
  t.line({"supply", "", "", "", shown_number<Pressure>(answer.solution.places[path.supply].total_pressure, u)});
  double largest = 0.0, spent = 0.0;
  std::string most;
  for (const PathStretch& s : stretches(answer, path)) {
    const std::string flow = s.most_flow == s.least_flow ? shown_number<Flow>(s.most_flow, u)
                                                         : fmt::format("{} to {}", shown_number<Flow>(s.most_flow, u),
                                                                       shown_number<Flow>(s.least_flow, u));
    t.line({stretch_name(s, u), flow, shown_number<Pressure>(s.loss, u),
            std::abs(s.lift) < 1.0 ? std::string("0") : shown_number<Pressure>(s.lift, u),
            shown_number<Pressure>(s.after + s.unused_fall, u)});
    if (s.unused_fall >= 1.0) {
      t.line({"  height not used (falls through air)", "", "", shown_number<Pressure>(s.unused_fall, u),
              shown_number<Pressure>(s.after, u)});
    }
    spent += std::fmax(0.0, s.loss) + std::fmax(0.0, s.lift);
    if (s.loss > largest) {
      largest = s.loss;
      most = stretch_name(s, u);
    }
  }
  text += t.text();
  if (largest > 0.0) {
    text += wrapped(
        fmt::format("Most is spent in {}: {} of {}.", most, shown<Pressure>(largest, u), shown<Pressure>(spent, u)),
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

  if (!e.causes.empty()) {
    text += "\nWhy it is off\n";
    Table why;
    why.column("", Table::Align::left);
    why.column("% of the mean");
    for (const Cause& c : e.causes) {
      if (at < c.deviation.size()) why.line({c.name, signed_percent(c.deviation[at])});
    }
    why.line({"together", signed_percent(r.deviation)});
    text += why.text() + wrapped("Measured from an even reference: " + e.reference + ".", width, 1, " ");
  }
  return text + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
