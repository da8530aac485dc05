// SPDX-License-Identifier: MIT
#include <libflow/report/drawdown_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/drawdown_result.hpp>

namespace libflow {

namespace report_detail {

static std::string drawdown_end_text(const Drawdown& d) {
  switch (d.end) {
    case DrawdownEnd::all_empty:
      return d.tanks.size() == 1 ? "the tank is empty" : "every tank is empty";
    case DrawdownEnd::flow_faded:
      return fmt::format("the rows get less than {:g} % of what is wanted", 100.0 * d.options.least_flow);
    case DrawdownEnd::time_limit:
      return "the time limit is reached, liquid is left";
    case DrawdownEnd::too_many_events:
      return "given up: valves open and shut without end";
    case DrawdownEnd::stopped:
      return "stopped by you";
  }
  return {};
}

static std::string drawdown_verdict(const Drawdown& d, UnitSystem u) {
  std::string text = fmt::format("{}: {}, {}; then {}", d.complete ? "ONE FILL" : "NOT COMPLETE", duration_text(d.time),
                                 shown<Area>(d.area, u), drawdown_end_text(d));
  if (d.first_empty && d.tanks.size() > 1) {
    text += fmt::format(". {} is empty first, after {} and {}: air at the pump from then on",
                        name_text(d.tanks[*d.first_empty].id), duration_text(d.air_time), shown<Area>(d.air_area, u));
  }
  return text + ".";
}

static std::string drawdown_table(const Drawdown& d, UnitSystem u) {
  const bool inlet = std::any_of(d.samples.begin(), d.samples.end(),
                                 [](const DrawdownSample& s) { return std::isfinite(s.pump_inlet); });
  Table t;
  t.column("after");
  t.column(std::string(unit_name<Area>(u)));
  t.column("left\n%");
  const std::size_t shown_tanks = std::min<std::size_t>(d.tanks.size(), 3);
  for (std::size_t k = 0; k < shown_tanks; ++k) {
    std::string name = report_detail::name_text(d.tanks[k].id);
    name = name.substr(1, name.size() - 2);
    std::replace(name.begin(), name.end(), ' ', '\n');  // narrow
    t.column(fmt::format("{}\n{}", name, unit_name<Length>(u)));
  }
  t.column(fmt::format("liquid\n{}", unit_name<Mass>(u)));
  t.column(fmt::format("gauge\n{}", unit_name<Pressure>(u)));
  if (inlet) t.column(fmt::format("pump\ninlet\n{}", unit_name<Pressure>(u)));
  t.column(fmt::format("rate\n{}", unit_name<AreaRate>(u)));
  t.column("CV");
  t.column("worst\nrow");
  t.column("off\nmean %");
  // At most about a dozen lines, and every moment at which something happens.
  const std::size_t step = (d.samples.size() + 11) / 12;
  for (std::size_t i = 0; i < d.samples.size(); ++i) {
    const DrawdownSample& s = d.samples[i];
    const bool event =
        std::any_of(d.events.begin(), d.events.end(), [&](const DrawdownEvent& e) { return e.time == s.time; });
    if (i % step != 0 && i + 1 != d.samples.size() && !(event && d.events.size() <= 20)) continue;
    std::vector<std::string> cells{duration_text(s.time), shown_number<Area>(s.area, u),
                                   fmt::format("{:.0f}", 100.0 * s.share_left)};
    for (std::size_t k = 0; k < shown_tanks; ++k) cells.push_back(shown_number<Length>(s.level[k], u));
    cells.push_back(fmt::format("{:.0f}", value_in(from_si<Mass>(s.mass), u)));
    cells.push_back(shown_number<Pressure>(s.supply_pressure, u));
    if (inlet) cells.push_back(shown_number<Pressure>(s.pump_inlet, u));
    cells.push_back(shown_number<AreaRate>(s.mean_rate, u));
    cells.push_back(s.mean_rate > 0.0 ? percent(s.cv) : std::string("-"));
    cells.push_back(s.mean_rate > 0.0 ? fmt::format("{}", s.worst_row) : std::string("-"));
    cells.push_back(s.mean_rate > 0.0 ? signed_percent(s.worst) : std::string("-"));
    t.line(std::move(cells));
  }
  return t.text();
}

static std::string drawdown_event_text(const DrawdownEvent& e, UnitSystem u) {
  const std::string when = fmt::format("{}, {}", duration_text(e.time), shown<Area>(e.area, u));
  const std::string who = name_text(e.subject);
  switch (e.kind) {
    case DrawdownEventKind::tank_empty:
      return fmt::format("{}: {} is down to its lowest level", when, who);
    case DrawdownEventKind::valve_shut:
      return fmt::format("{}: {} shuts", when, who);
    case DrawdownEventKind::valve_open:
      return fmt::format("{}: {} opens", when, who);
    case DrawdownEventKind::overflow_begins:
      return fmt::format("{}: {} is full to the brim and spills", when, who);
  }
  return when;
}

static std::string events_text(const Drawdown& d, UnitSystem u, std::size_t width) {
  if (d.events.empty()) return {};
  std::string text = "\nWhat happens\n";
  constexpr std::size_t most = 24;
  for (std::size_t i = 0; i < std::min(most, d.events.size()); ++i) {
    text += wrapped(drawdown_event_text(d.events[i], u), width, 3, " - ");
  }
  if (d.events.size() > most) text += fmt::format(" - and {} more (all with --json)\n", d.events.size() - most);
  return text;
}

static std::string drawdown_tanks_table(const Drawdown& d, UnitSystem u) {
  Table t;
  const auto unit = unit_name<Volume>(u);
  t.column("tank", Table::Align::left);
  t.column(fmt::format("holds\n{}", unit));
  t.column(fmt::format("start\n{}", unit));
  t.column(fmt::format("end\n{}", unit));
  t.column(fmt::format("below the\noutlet {}", unit));
  t.column("empty\nafter");
  for (const DrawdownTank& k : d.tanks) {
    t.line({k.id, shown_number<Volume>(k.capacity, u), shown_number<Volume>(k.start, u), shown_number<Volume>(k.end, u),
            shown_number<Volume>(k.unusable, u), k.empty_time ? duration_text(*k.empty_time) : std::string("-")});
  }
  return t.text();
}

}  // namespace report_detail

std::string drawdown_text(const Drawdown& d, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = options.units.value_or(d.units);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::string text =
      coloured(wrapped(drawdown_verdict(d, u), width), d.complete ? Colour::strong : Colour::bad, options);
  Answer job;
  job.layout.job = d.job;
  job.liquid = d.liquid;
  text += "\n" + wrapped(fmt::format("{}: {}", name_text(d.name), job_text(job, u)), width, 2);
  text += "\n" + drawdown_table(d, u) + "\n" + drawdown_tanks_table(d, u) + "\n";
  if (!d.samples.empty()) {
    text += wrapped(fmt::format("The liquid weighs {} at the beginning and {} at the end. The mean rate is {} to {} "
                                "(wanted {}), CV at most {}.",
                                shown<Mass>(d.samples.front().mass, u), shown<Mass>(d.samples.back().mass, u),
                                shown<AreaRate>(d.lowest_rate, u), shown<AreaRate>(d.highest_rate, u),
                                format(d.job.rate, u), percent(d.highest_cv)),
                    width, 1, " ");
  }
  text += wrapped(std::isfinite(d.samples.empty() ? NAN : d.samples.front().setting)
                      ? "The control is moved all the time so that the rate is held. Driving without a stop."
                      : "No control is moved during the fill. Driving without a stop.",
                  width, 1, " ");
  if (d.spilled > 0.0) {
    text += fmt::format(" {} of liquid spills over a brim.\n", shown<Volume>(d.spilled, u));
  }
  text += events_text(d, u, width);
  return text + cautions_section(d.cautions, width) + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
