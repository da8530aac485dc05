// SPDX-License-Identifier: MIT
#include <libflow/report/envelope_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/cautions_text.hpp>
#include <libflow/report/envelope_words.hpp>
#include <libflow/report/limits_text.hpp>
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

/// Index of the shown value nearest to `value`, every `step`th one shown; none where it lies outside the axis.
template <class Q>
std::optional<std::size_t> nearest_shown(const std::vector<Q>& axis, double value, std::size_t first,
                                         std::size_t step) {
  const double slack = axis.size() > 1 ? 0.5 * (si(axis[1]) - si(axis[0])) : 1e-9 * value;
  if (value < si(axis.front()) - slack || value > si(axis.back()) + slack) return std::nullopt;
  std::size_t best = first;
  for (std::size_t i = first; i < axis.size(); i += step) {
    if (std::abs(si(axis[i]) - value) < std::abs(si(axis[best]) - value)) best = i;
  }
  return best;
}

/// The job's own point belongs to the slice of its temperature and slope.
static bool slice_of_job(const Envelope& e, std::size_t t, std::size_t s) {
  const auto* bar = std::get_if<Toolbar>(&e.layout.plumbing);
  const double slope = bar == nullptr ? 0.0 : si(bar->side_slope);
  return std::abs(si(e.axes.temperatures[t]) - si(e.layout.job.temperature)) < 1e-6 &&
         (bar == nullptr || std::abs(si(e.axes.side_slopes[s]) - slope) < 1e-9);
}

/// The axis of speeds: a tick and its number at every so many columns.
static std::string speed_axis(const Envelope& e, UnitSystem u, std::size_t step) {
  constexpr std::size_t margin = 9, cell = 3;
  const std::size_t shown = (e.axes.speeds.size() + step - 1) / step;
  std::string line = std::string(margin, ' ') + "+", numbers(margin, ' ');
  const std::size_t every = std::max<std::size_t>(1, (shown + 5) / 6);
  for (std::size_t k = 0; k < shown; ++k) {
    line += k % every == 0 ? "--+" : "---";
    if (k % every != 0) continue;
    const std::string number = format_number(e.axes.speeds[k * step], u);
    const std::size_t middle = margin + cell * (k + 1), begin = middle - columns(number) / 2;
    if (numbers.size() < begin) numbers.resize(begin, ' ');
    numbers += number;
  }
  return line + "\n" + numbers + "  " + std::string(unit_name<Speed>(u)) + "\n";
}

/// One line a rate, highest on top; capital letters of the limits, marked by state; a star before the job's own point.
/// @param starred  set where the star is shown
static std::string small_map(const Envelope& e, UnitSystem u, std::size_t t, std::size_t s,
                             const std::vector<BindingLetter>& letters, bool& starred) {
  const std::size_t speeds = e.axes.speeds.size(), rates = e.axes.rates.size();
  const std::size_t step_v = (speeds + 24) / 25, step_r = (rates + 19) / 20;
  std::optional<std::size_t> own_rate, own_speed;
  if (slice_of_job(e, t, s)) {
    own_rate = nearest_shown(e.axes.rates, si(e.layout.job.rate), (rates - 1) % step_r, step_r);
    own_speed = nearest_shown(e.axes.speeds, si(e.layout.job.speed), 0, step_v);
  }
  std::string out = padded(unit_name<AreaRate>(u), 8, true) + " |\n";
  for (std::size_t r = rates; r-- > 0;) {
    if ((rates - 1 - r) % step_r != 0) continue;
    out += padded(format_number(e.axes.rates[r], u), 8, true) + " |";
    for (std::size_t v = 0; v < speeds; v += step_v) {
      const std::size_t i = ((t * e.axes.side_slopes.size() + s) * rates + r) * speeds + v;
      const bool own = own_rate == r && own_speed == v;
      starred = starred || own;
      if (i >= e.points.size()) {
        out += "  ?";
        continue;
      }
      const EnvelopePoint& p = e.points[i];
      const char mark = p.state == PointState::even ? ' ' : p.state == PointState::poor ? '~' : '#';
      const char letter = mark == ' ' ? '.' : letter_of(letters, p.binding);
      out += own && mark == ' ' ? std::string(" *.") : fmt::format("{}{}{}", own ? '*' : ' ', mark, letter);
    }
    out += "\n";
  }
  return out + speed_axis(e, u, step_v);
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
  text +=
      "\n" + wrapped(fmt::format("{}: {}, control: {}, rows within ±{:g} % of the mean.", name_text(e.layout.name),
                                 e.layout.job.liquid.name(), control_text(e.control), 100.0 * e.layout.job.tolerance),
                     width, 2);
  const std::vector<BindingLetter> letters = binding_letters(e.points);
  bool starred = false;
  for (std::size_t t = 0; t < e.axes.temperatures.size(); ++t) {
    for (std::size_t s = 0; s < e.axes.side_slopes.size(); ++s) {
      text += "\n" + fmt::format("At {}, side slope {}\n", format(e.axes.temperatures[t], u),
                                 format(e.axes.side_slopes[s], u));
      const auto here = [&](const UsableSpeeds& r) {
        return r.temperature == si(e.axes.temperatures[t]) && r.side_slope == si(e.axes.side_slopes[s]);
      };
      if (std::any_of(e.usable.begin(), e.usable.end(), here) &&
          std::none_of(e.usable.begin(), e.usable.end(), [&](const auto& r) { return here(r) && !r.spans.empty(); })) {
        text += " No speed of the map is usable at any of its rates.\n\n";
      } else if (!e.usable.empty()) {
        text += usable_table(e, u, si(e.axes.temperatures[t]), si(e.axes.side_slopes[s])) + "\n";
      }
      text += small_map(e, u, t, s, letters, starred);
    }
  }
  text +=
      "\n . even, as wanted: no limit is broken there\n ~ runs, but uneven or outside a wanted window\n # cannot run\n";
  if (starred) {
    const auto on = [](const auto& axis, auto own) { return std::find(axis.begin(), axis.end(), own) != axis.end(); };
    const bool exact = on(e.axes.rates, e.layout.job.rate) && on(e.axes.speeds, e.layout.job.speed);
    text += wrapped(fmt::format("* the {} own, {} at {}", exact ? "job's" : "point nearest to the job's",
                                format(e.layout.job.rate, u), format(e.layout.job.speed, u)),
                    width, 3, " ");
  }
  if (even < e.points.size()) text += " The letter after ~ or # is the limit that is broken:\n";
  for (const BindingLetter& b : letters) {
    const bool shown = std::any_of(e.points.begin(), e.points.end(), [&](const EnvelopePoint& p) {
      return p.binding == b.name && p.state != PointState::even;
    });
    if (shown) text += fmt::format("   {}  {}\n", b.letter, b.name);
  }
  for (const std::string& assumption : envelope_assumptions(e.layout, u)) text += wrapped(assumption, width, 1, " ");
  return text + "\n" + wrapped(last_word, width);
}

}  // namespace libflow
