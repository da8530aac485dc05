// SPDX-License-Identifier: MIT
#include <libflow/report/envelope_text.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/cautions_text.hpp>
#include <libflow/report/envelope_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/envelope.hpp>

namespace libflow {

namespace report_detail {

static std::string usable_table(const Envelope& e, UnitSystem u, double temperature, double slope) {
  Table t;
  t.column(fmt::format("rate\n{}", unit_name<AreaRate>(u)));
  t.column(fmt::format("usable from\n{}", unit_name<Speed>(u)));
  t.column(fmt::format("to\n{}", unit_name<Speed>(u)));
  t.column("below that", Table::Align::left);
  t.column("above that", Table::Align::left);
  const auto stop = [](const std::string& name) { return name.empty() ? std::string("(end of the axis)") : name; };
  for (const UsableSpeeds& r : e.usable) {
    if (r.temperature != temperature || r.side_slope != slope) continue;
    const std::string rate = shown_number<AreaRate>(r.rate, u);
    if (r.spans.empty()) t.line({rate, "none", "", "", ""});
    for (const auto& s : r.spans) {
      t.line(
          {rate, shown_number<Speed>(s.low, u), shown_number<Speed>(s.high, u), stop(s.low_stop), stop(s.high_stop)});
    }
  }
  return t.text();
}

/// One line a rate, highest on top; capital letters of the limits, marked by state.
static std::string small_map(const Envelope& e, UnitSystem u, std::size_t t, std::size_t s,
                             const std::vector<BindingLetter>& letters) {
  const std::size_t speeds = e.axes.speeds.size(), rates = e.axes.rates.size();
  const std::size_t step_v = (speeds + 24) / 25, step_r = (rates + 19) / 20;
  std::string out;
  for (std::size_t r = rates; r-- > 0;) {
    if ((rates - 1 - r) % step_r != 0) continue;
    out += padded(format_number(e.axes.rates[r], u), 8, true) + " |";
    for (std::size_t v = 0; v < speeds; v += step_v) {
      const std::size_t i = ((t * e.axes.side_slopes.size() + s) * rates + r) * speeds + v;
      if (i >= e.points.size()) {
        out += "  ?";
        continue;
      }
      const EnvelopePoint& p = e.points[i];
      const char mark = p.state == PointState::even ? ' ' : p.state == PointState::poor ? '~' : '#';
      out += fmt::format(" {}{}", mark, mark == ' ' ? '.' : letter_of(letters, p.binding));
    }
    out += "\n";
  }
  out += std::string(9, ' ') + "+" + std::string(3 * ((speeds + step_v - 1) / step_v), '-') + "\n";
  out += fmt::format("{}{} to {} (columns), {} (lines)\n", std::string(11, ' '),
                     format_number(e.axes.speeds.front(), u), format(e.axes.speeds.back(), u), unit_name<AreaRate>(u));
  return out;
}

}  // namespace report_detail

std::string envelope_text(const Envelope& e, const TextOptions& options) {
  using namespace report_detail;
  const UnitSystem u = options.units.value_or(e.layout.units);
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::size_t even = 0, poor = 0;
  for (const EnvelopePoint& p : e.points) {
    even += p.state == PointState::even ? 1 : 0;
    poor += p.state == PointState::poor ? 1 : 0;
  }
  std::string text = coloured(
      wrapped(
          fmt::format("{} of {} points are even and as wanted, {} run but are uneven or outside a wanted window, {} "
                      "cannot run.",
                      even, e.points.size(), poor, e.points.size() - even - poor),
          width),
      Colour::strong, options);
  if (!e.complete) text += "STOPPED: not every point is done.\n";
  text += "\n" + wrapped(fmt::format("{}: {}, control: {}, rows within ±{:g} % of the mean.", name_text(e.layout.name),
                                     e.layout.job.liquid.name(), e.control, 100.0 * e.layout.job.tolerance),
                         width, 2);
  const std::vector<BindingLetter> letters = binding_letters(e.points);
  for (std::size_t t = 0; t < e.axes.temperatures.size(); ++t) {
    for (std::size_t s = 0; s < e.axes.side_slopes.size(); ++s) {
      text += "\n" + fmt::format("At {}, side slope {}\n", format(e.axes.temperatures[t], u),
                                 format(e.axes.side_slopes[s], u));
      if (!e.usable.empty()) {
        text += usable_table(e, u, si(e.axes.temperatures[t]), si(e.axes.side_slopes[s])) + "\n";
      }
      text += small_map(e, u, t, s, letters);
    }
  }
  text += "\n . even   ~ runs, but uneven or outside a wanted window   # cannot run; the letter is the limit:\n";
  for (const BindingLetter& b : letters) {
    const bool shown = std::any_of(e.points.begin(), e.points.end(), [&](const EnvelopePoint& p) {
      return p.binding == b.name && p.state != PointState::even;
    });
    if (shown) text += fmt::format("   {}  {}\n", b.letter, b.name);
  }
  return text + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
