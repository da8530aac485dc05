// SPDX-License-Identifier: MIT
#include <libflow/report/equal_hoses_text.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/cautions_text.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/size_text.hpp>
#include <libflow/report/size_words.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/equal_hoses.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

/// The point at which the shortest hoses are worst with the layout's own orifice.
static const EqualHosesPoint& worst_with_own(const EqualHoses& a) {
  return *std::max_element(a.points.begin(), a.points.end(),
                           [](const auto& x, const auto& y) { return x.shortest.deviation < y.shortest.deviation; });
}

static std::string equal_hoses_verdict(const EqualHoses& a, UnitSystem u) {
  const EqualHosesPoint& worst = worst_with_own(a);
  const std::string off = fmt::format("with the shortest hoses row {} is {} off the mean{}, ±{:g} % is allowed",
                                      worst.shortest.row, percent(worst.shortest.deviation),
                                      a.points.size() > 1 ? " at " + working_point_text(worst.point, u) : std::string(),
                                      100.0 * a.problem.layout.job.tolerance);
  if (!a.have_to) return fmt::format("NO: your hoses need not be equal: {}.", off);
  std::string text = fmt::format("YES, with the orifice that you have ({} across it): {}",
                                 shown<Pressure>(worst.shortest.orifice_drop, u), off);
  if (worst.equal.deviation > a.problem.layout.job.tolerance) {
    return text + fmt::format("; but equal hoses alone are not even either ({}).", percent(worst.equal.deviation));
  }
  // Two lengths are not tried here.
  return text + ". That is the shortest schedule; hoses of two lengths may do: see 'libflow size'.";
}

/// What is the same at every point stands above the table, not in it.
static std::string equal_hoses_table(const EqualHoses& a, UnitSystem u) {
  const auto differs = [&](auto get) {
    return std::any_of(a.points.begin(), a.points.end(),
                       [&](const auto& at) { return get(at.point) != get(a.points.front().point); });
  };
  const bool speeds = differs([](const WorkingPoint& p) { return p.speed; });
  const bool rates = differs([](const WorkingPoint& p) { return p.rate; });
  const bool temperatures = differs([](const WorkingPoint& p) { return p.temperature; });
  const bool slopes = differs([](const WorkingPoint& p) { return p.side_slope; });
  Table t;
  if (speeds) t.column(fmt::format("speed\n{}", unit_name<Speed>(u)));
  if (rates) t.column(fmt::format("rate\n{}", unit_name<AreaRate>(u)));
  if (temperatures) t.column(fmt::format("temp.\n{}", unit_name<Temperature>(u)));
  if (slopes) t.column("slope\n%");
  t.column(fmt::format("now:\norifice {}", unit_name<Pressure>(u)));
  t.column("shortest\noff %");
  t.column("equal\noff %");
  t.column(fmt::format("even from:\nbore {}", bore_unit_name(u)));
  t.column(fmt::format("orifice\n{}", unit_name<Pressure>(u)));
  t.column(fmt::format("gauge\n{}", unit_name<Pressure>(u)));
  t.column("", Table::Align::left);
  for (const EqualHosesPoint& at : a.points) {
    std::vector<std::string> cells;
    if (speeds) cells.push_back(format_number(at.point.speed, u));
    if (rates) cells.push_back(format_number(at.point.rate, u));
    if (temperatures) cells.push_back(format_number(at.point.temperature, u));
    if (slopes) cells.push_back(format_number(at.point.side_slope, u));
    cells.insert(cells.end(), {shown_number<Pressure>(at.shortest.orifice_drop, u),
                               fmt::format("{:.1f}", 100.0 * at.shortest.deviation),
                               fmt::format("{:.1f}", 100.0 * at.equal.deviation)});
    if (at.need == EqualHosesPoint::Need::some_orifice) {
      const std::string bore = format_bore(from_si<Length>(at.needed.bore), u);
      cells.insert(cells.end(), {bore.substr(0, bore.find(' ')), shown_number<Pressure>(at.needed.orifice_drop, u),
                                 shown_number<Pressure>(at.needed.pressure, u), at.reachable() ? "" : "TOO HIGH"});
    } else {
      cells.insert(cells.end(), {"-", "-", "-", at.need == EqualHosesPoint::Need::never ? "NEVER" : "always"});
    }
    t.line(std::move(cells));
  }
  return t.text();
}

static std::string equal_hoses_advice(const EqualHoses& a, UnitSystem u) {
  const EqualHosesPoint& at = a.points[a.strictest];
  const std::string where = working_point_text(at.point, u);
  const std::string saved = fmt::format("{} of hose instead of {} with every hose as long as the longest run, {}",
                                        shown<Length>(a.cut_shortest, u), shown<Length>(a.cut_equal, u),
                                        cut_text(from_si<Length>(a.cut_longest), u));
  switch (at.need) {
    case EqualHosesPoint::Need::any_orifice:
      return fmt::format("Whatever the orifice, the shortest hoses are even enough: {}.", saved);
    case EqualHosesPoint::Need::never:
      return fmt::format(
          "No orifice makes the shortest hoses even enough below {} at the gauge, at {}: either the hose is far too "
          "thin, "
          "or something else than the hoses makes the rows differ ('libflow solve' says what).",
          shown<Pressure>(EqualHoses::give_up_pressure, u), where);
    case EqualHosesPoint::Need::some_orifice:
      break;
  }
  std::string text = fmt::format(
      "The shortest hoses ({}) are even enough with an orifice of {} or less: {} across it or more, {} at the gauge, "
      "at "
      "{}.",
      saved, orifice_text(OrificeByBore{.bore = from_si<Length>(at.needed.bore)}, u),
      shown<Pressure>(at.needed.orifice_drop, u), shown<Pressure>(at.needed.pressure, u), where);
  if (a.with_one.empty()) return text;  // stopped before the end
  const auto most = std::max_element(a.with_one.begin(), a.with_one.end(),
                                     [](const HosesAt& x, const HosesAt& y) { return x.pressure < y.pressure; });
  const auto k = static_cast<std::size_t>(most - a.with_one.begin());
  if (a.points.size() > 1) {
    text += fmt::format(" With that one orifice everywhere the gauge rises to {}, at {}.",
                        shown<Pressure>(most->pressure, u), working_point_text(a.points[k].point, u));
  }
  if (!a.one_allowed) {
    const bool usual = a.points[k].limit == si(SizeChoices{}.most_pressure);
    text += fmt::format(
        " {} is allowed at the gauge{}: keep the hoses equal, try two lengths ('libflow size'), or take a wider hose.",
        shown<Pressure>(a.points[k].limit, u),
        usual ? " (common practice, no source; most_pressure in [size] changes it)" : "");
  }
  return text;
}

}  // namespace report_detail

std::string equal_hoses_text(const EqualHoses& a, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = options.units.value_or(a.problem.layout.units);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  if (a.points.empty()) return "STOPPED before the first operating point.\n";
  std::string text =
      coloured(wrapped(equal_hoses_verdict(a, u), width), a.have_to ? Colour::bad : Colour::good, options);
  text += no_slack_note(a.problem, width);
  text += "\n" + wrapped(equal_hoses_advice(a, u), width);
  if (!a.complete) text += "STOPPED: the operating points after these were not tried.\n";
  text += "\n" + wrapped(fmt::format("{}: {}, {}.", name_text(a.problem.layout.name), a.problem.liquids.front().name,
                                     span_text(a.problem.points, u)),
                         width, 2);
  return text + equal_hoses_table(a, u) + cautions_section(size_cautions(a.problem), width) + "\n" +
         wrapped(last_word, width);
}

}  // namespace libflow
