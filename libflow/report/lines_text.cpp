// SPDX-License-Identifier: MIT
#include <libflow/report/lines_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

#include <fmt/core.h>

#include <libflow/file/results_json.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/lines.hpp>

namespace libflow {

std::string lines_text(const Lines& l, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = units_of(l.answer, options);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  const double speed = si(l.answer.layout.job.speed);
  const auto far = [&](double seconds) { return shown<Length>(seconds * speed, u); };
  double pressure = 0.0, first = 0.0, last = 0.0;
  for (const RowLines& r : l.rows) {
    if (!std::isfinite(r.delay)) continue;
    pressure = std::max(pressure, r.pressure_delay);
    first = first == 0.0 ? r.delay : std::min(first, r.delay);
    last = std::max(last, r.delay);
  }
  std::string text = coloured(
      wrapped(fmt::format("LINES HOLD {}; full after {}, flushed after {} and {} of liquid.", shown<Volume>(l.held, u),
                          duration_text(l.fill_time), duration_text(l.flush_time), shown<Volume>(l.flush_liquid, u)),
              width),
      Colour::strong, options);
  text += "\n" + wrapped(fmt::format("{}: {}", name_text(l.answer.layout.name), job_text(l.answer, u)), width, 2);
  text += fmt::format("\n {}{}\n {}{}\n {}{}\n", padded("Rows' own hoses", 34, false), shown<Volume>(l.held_rows, u),
                      padded("Bars, feed and suction lines", 34, false), shown<Volume>(l.held_before, u),
                      padded("Of that, where nothing moves", 34, false), shown<Volume>(l.still, u));

  Table t;
  t.column("row");
  t.column(fmt::format("holds\n{}", u == UnitSystem::us ? "fl oz" : "mL"));
  t.column("full\nafter");
  t.column("first new\nliquid");
  t.column(fmt::format("{:g} % new\nliquid", 100.0 * l.options.share));
  t.column("from the\ncontrol");
  t.column("driven\nmeanwhile");
  for (const RowLines& r : l.rows) {
    t.line({fmt::format("{}", r.row), fmt::format("{:.1f}", r.held / (u == UnitSystem::us ? si(units::floz) : 1e-6)),
            duration_text(r.fill), duration_text(r.first_new), duration_text(r.flushed), duration_text(r.delay),
            std::isfinite(r.delay) ? far(r.delay) : std::string("-")});
  }
  text += "\n" + t.text() + "\n";
  const auto paragraph = [&](const std::string& words) { text += wrapped(words, width, 1, " "); };
  paragraph(
      fmt::format("A change of the rate is felt at every row within {} of the control at '{}': pressure travels "
                  "fast through full hoses. Air in a line makes it slower.",
                  duration_text(std::max(pressure, 0.01)), l.control));
  paragraph(
      fmt::format("A change of the liquid itself (another product, another mix) arrives at the rows {} to {} after "
                  "the control, {} apart: {} of field.",
                  duration_text(first), duration_text(last), duration_text(l.delay_spread), far(l.delay_spread)));
  paragraph(
      "Flushing: turbulent hoses are pushed clean; in laminar ones the axis runs ahead (first new liquid at half "
      "the mean time) and the wall lags (99 % new after five times the mean time; Danckwerts 1953, Levenspiel "
      "1999). Mixing in fittings makes the true tail shorter.");
  Cautions all = l.cautions;
  for (const Caution& c : all_cautions(l.answer)) all.push_back(c);
  return text + cautions_section(all, width) + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
