// SPDX-License-Identifier: MIT
#include <libflow/report/envelope_svg.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/envelope_words.hpp>
#include <libflow/report/limits_text.hpp>
#include <libflow/report/markup.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/pressure_limit.hpp>

namespace libflow {

namespace report_detail {

std::string_view state_fill(PointState state) {
  switch (state) {
    case PointState::even:
      return "#eaf5fb";
    case PointState::poor:
      return "#d98c2b";
    case PointState::cannot_run:
      return "#55456b";
  }
  return "#ffffff";
}

static std::string_view state_pattern(PointState state) {
  switch (state) {
    case PointState::even:
      return {};
    case PointState::poor:
      return "url(#hatch)";
    case PointState::cannot_run:
      return "url(#cross)";
  }
  return {};
}

/// One map of speed by rate.
class EnvelopeMap {
 public:
  EnvelopeMap(const Envelope& e, std::size_t t, std::size_t s, UnitSystem u, const std::vector<BindingLetter>& letters)
      : e_(e), t_(t), s_(s), u_(u), letters_(letters) {
    const auto cells = static_cast<double>(std::max(e.axes.speeds.size(), std::size_t{1}));
    const auto lines = static_cast<double>(std::max(e.axes.rates.size(), std::size_t{1}));
    cell_w_ = std::clamp(680.0 / cells, 4.0, 60.0);
    cell_h_ = std::clamp(420.0 / lines, 4.0, 36.0);
  }
  [[nodiscard]] double width() const { return left + cell_w_ * static_cast<double>(e_.axes.speeds.size()) + 20.0; }
  /// The job's own point lies on this map.
  [[nodiscard]] bool has_job() const { return job_at().has_value(); }
  [[nodiscard]] double height() const { return top + cell_h_ * static_cast<double>(e_.axes.rates.size()) + 52.0; }

  [[nodiscard]] std::string draw(double x0, double y0) const {
    std::string out = fmt::format("<g transform=\"translate({:.1f},{:.1f})\">\n", x0, y0);
    const std::optional<Mark> job = job_at();
    if (e_.axes.temperatures.size() * e_.axes.side_slopes.size() > 1) {
      const std::string text =
          fmt::format("{}, side slope {}", format(e_.axes.temperatures[t_], u_), format(e_.axes.side_slopes[s_], u_));
      out += svg_text(left, 14.0, text, "class=\"b\"");
    }
    for (std::size_t r = 0; r < e_.axes.rates.size(); ++r) {
      for (std::size_t v = 0; v < e_.axes.speeds.size(); ++v) out += cell(r, v, job);
    }
    return out + axes() + (job ? job_mark(*job) : "") + "</g>\n";
  }

 private:
  static constexpr double left = 78.0, top = 22.0;
  static constexpr double word_w = 26.0, word_h = 14.0;

  /// Where the job's ring stands, and the ground of its word.
  struct Mark {
    double x, y, word_x, word_y;
  };

  [[nodiscard]] double x_of(std::size_t v) const { return left + cell_w_ * static_cast<double>(v); }
  [[nodiscard]] double y_of(std::size_t r) const {
    return top + cell_h_ * static_cast<double>(e_.axes.rates.size() - 1 - r);
  }

  [[nodiscard]] std::string cell(std::size_t r, std::size_t v, const std::optional<Mark>& job) const {
    const std::size_t index =
        ((t_ * e_.axes.side_slopes.size() + s_) * e_.axes.rates.size() + r) * e_.axes.speeds.size() + v;
    if (index >= e_.points.size()) return {};  // not done
    const EnvelopePoint& p = e_.points[index];
    const auto rect = [&](std::string_view fill) {
      return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\"/>", x_of(v),
                         y_of(r), cell_w_, cell_h_, fill);
    };
    std::string out = rect(state_fill(p.state));
    if (const auto pattern = state_pattern(p.state); !pattern.empty()) out += rect(pattern);
    const double size = std::min(11.0, 0.72 * std::min(cell_w_ * 1.2, cell_h_));
    const double x = x_of(v) + 0.5 * cell_w_, y = y_of(r) + 0.5 * cell_h_;
    const bool under_word = job && std::abs(x - job->word_x - 0.5 * word_w) < 0.5 * (word_w + size) &&
                            std::abs(y - job->word_y - 0.5 * word_h) < 0.5 * (word_h + size);
    if (size >= 5.0 && !under_word) {
      out += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{:.1f}\" class=\"c {}\">{}</text>", x,
                         y + 0.36 * size, size, p.state == PointState::cannot_run ? "w" : "k",
                         letter_of(letters_, p.binding));
    }
    if (!p.advised && p.state != PointState::cannot_run) {
      out += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"1.6\" fill=\"#000\"/>", x_of(v) + cell_w_ - 3.0,
                         y_of(r) + 3.0);
    }
    return out + "\n";
  }

  [[nodiscard]] std::string axes() const {
    std::string out;
    const double right = x_of(e_.axes.speeds.size()), bottom = y_of(0) + cell_h_;
    out += fmt::format(
        "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"none\" "
        "stroke=\"#222\"/>\n",
        left, top, right - left, bottom - top);
    const auto every = [](std::size_t n, double step, double room) {
      const auto least = static_cast<std::size_t>(std::ceil(room / step));
      return std::max<std::size_t>(1, std::min(n, least));
    };
    const std::size_t vs = every(e_.axes.speeds.size(), cell_w_, 44.0);
    for (std::size_t v = 0; v < e_.axes.speeds.size(); v += vs) {
      const double x = x_of(v) + 0.5 * cell_w_;
      out += fmt::format("<path d=\"M{0:.1f} {1:.1f}v5\" stroke=\"#222\"/>", x, bottom);
      out += svg_text(x, bottom + 18.0, format_number(e_.axes.speeds[v], u_), "class=\"c k\"");
    }
    const std::size_t rs = every(e_.axes.rates.size(), cell_h_, 22.0);
    for (std::size_t r = 0; r < e_.axes.rates.size(); r += rs) {
      const double y = y_of(r) + 0.5 * cell_h_;
      out += fmt::format("<path d=\"M{0:.1f} {1:.1f}h-5\" stroke=\"#222\"/>", left, y);
      out += svg_text(left - 9.0, y + 4.0, format_number(e_.axes.rates[r], u_), "text-anchor=\"end\"");
    }
    out += svg_text(0.5 * (left + right), bottom + 38.0, fmt::format("ground speed [{}]", unit_name<Speed>(u_)),
                    "class=\"c k\"");
    const double middle = 0.5 * (top + bottom);
    out += svg_text(16.0, middle, fmt::format("rate [{}]", unit_name<AreaRate>(u_)),
                    fmt::format("class=\"c k\" transform=\"rotate(-90 16 {:.1f})\"", middle));
    return out;
  }

  /// At the job's speed and rate, where they lie inside the axes.
  [[nodiscard]] std::optional<Mark> job_at() const {
    const auto place = [](const auto& values, double value) -> double {
      if (values.size() == 1) return std::abs(si(values.front()) - value) <= 1e-9 * value ? 0.0 : -1.0;
      if (value < si(values.front()) || value > si(values.back())) return -1.0;
      std::size_t i = 1;
      while (i + 1 < values.size() && si(values[i]) < value) ++i;
      const double a = si(values[i - 1]), b = si(values[i]);
      return static_cast<double>(i - 1) + (value - a) / (b - a);
    };
    const Job& job = e_.layout.job;
    const double v = place(e_.axes.speeds, si(job.speed)), r = place(e_.axes.rates, si(job.rate));
    const auto* bar = std::get_if<Toolbar>(&e_.layout.plumbing);
    const bool level = bar == nullptr || std::abs(si(e_.axes.side_slopes[s_]) - si(bar->side_slope)) < 1e-9;
    if (v < 0.0 || r < 0.0 || !level || e_.axes.temperatures[t_] != job.temperature) return std::nullopt;
    const double x = left + cell_w_ * (v + 0.5);
    const double y = top + cell_h_ * (static_cast<double>(e_.axes.rates.size()) - 0.5 - r);
    // Its word, on a ground of its own, stands above it, or beside it where cells are low.
    const bool above = cell_h_ >= 28.0, rightwards = x + 46.0 < x_of(e_.axes.speeds.size());
    return Mark{x, y, above ? x - 0.5 * word_w : rightwards ? x + 10.0 : x - 10.0 - word_w, above ? y - 24.0 : y - 7.5};
  }

  [[nodiscard]] static std::string job_mark(const Mark& m) {
    return fmt::format(
               "<circle cx=\"{0:.1f}\" cy=\"{1:.1f}\" r=\"8\" fill=\"none\" stroke=\"#fff\" stroke-width=\"5\"/>"
               "<circle cx=\"{0:.1f}\" cy=\"{1:.1f}\" r=\"8\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\"/>\n"
               "<rect x=\"{2:.1f}\" y=\"{3:.1f}\" width=\"{4:.0f}\" height=\"{5:.0f}\" fill=\"#fff\" "
               "stroke=\"#000\"/>\n",
               m.x, m.y, m.word_x, m.word_y, word_w, word_h) +
           svg_text(m.word_x + 0.5 * word_w, m.word_y + 11.0, "job", "class=\"c k b\"");
  }

  const Envelope& e_;
  std::size_t t_, s_;
  UnitSystem u_;
  const std::vector<BindingLetter>& letters_;
  double cell_w_ = 0, cell_h_ = 0;
};

}  // namespace report_detail

std::string envelope_svg(const Envelope& e, std::optional<UnitSystem> units, EnvelopeHeading heading) {
  using namespace report_detail;
  const UnitSystem u = units.value_or(e.layout.units);
  const std::vector<BindingLetter> letters = binding_letters(e.points);
  std::vector<EnvelopeMap> maps;
  for (std::size_t t = 0; t < e.axes.temperatures.size(); ++t) {
    for (std::size_t s = 0; s < e.axes.side_slopes.size(); ++s) maps.emplace_back(e, t, s, u, letters);
  }
  const std::size_t across =
      std::min<std::size_t>(maps.size(), e.axes.side_slopes.size() > 1 ? e.axes.side_slopes.size() : 1);
  const std::size_t down = (maps.size() + across - 1) / across;
  const double map_w = maps.front().width(), map_h = maps.front().height();
  const double head = heading == EnvelopeHeading::own ? 74.0 : 48.0;
  const std::size_t rows_of_letters = (letters.size() + 1) / 2;
  // A page says what is assumed beside the picture.
  const auto limit = pressure_limit(e.layout);
  const bool assumption = heading == EnvelopeHeading::own && limit && limit->assumed;
  const double legend = 30.0 + 20.0 * static_cast<double>(4 + rows_of_letters + (assumption ? 1 : 0));
  const double width = std::max(760.0, map_w * static_cast<double>(across));
  const double height = head + map_h * static_cast<double>(down) + legend;

  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" height=\"{1:.0f}\" "
      "font-family=\"sans-serif\" font-size=\"12\">\n"
      "<title>{2}</title>\n"
      "<defs>\n"
      "<pattern id=\"hatch\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\">"
      "<path d=\"M0 7L7 0\" stroke=\"#6b4208\" stroke-width=\"0.9\" stroke-opacity=\"0.55\"/></pattern>\n"
      "<pattern id=\"cross\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
      "<path d=\"M0 6L6 0M0 0L6 6\" stroke=\"#8d7ea3\" stroke-width=\"0.7\"/></pattern>\n"
      "</defs>\n"
      "<style>.c{{text-anchor:middle}}.k{{fill:#111}}.w{{fill:#fff}}.b{{font-weight:bold}}</style>\n"
      "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
      width, height, xml_text("Operating envelope of " + e.layout.name));
  if (heading == EnvelopeHeading::own) {
    out += svg_text(20.0, 24.0, "Where it works: " + e.layout.name, "font-size=\"17\" class=\"b\"");
  }
  // In two lines: in one, a liquid with a long name reaches out of a picture of one map.
  out += svg_text(20.0, head - 31.0,
                  fmt::format("{} at {}; control: {}", e.layout.job.liquid.name(),
                              e.axes.temperatures.size() > 1 ? std::string("several temperatures")
                                                             : format(e.axes.temperatures.front(), u),
                              control_text(e.control)));
  out += svg_text(20.0, head - 15.0,
                  fmt::format("even means every row within ±{:g} % of the mean{}", 100.0 * e.layout.job.tolerance,
                              e.complete ? "" : " (stopped: not every point is done)"));
  for (std::size_t i = 0; i < maps.size(); ++i) {
    const std::size_t column = i % across, row = i / across;
    out += maps[i].draw(map_w * static_cast<double>(column), head + map_h * static_cast<double>(row));
  }

  double y = head + map_h * static_cast<double>(down) + 14.0;
  double x = 20.0;
  for (const PointState state : {PointState::even, PointState::poor, PointState::cannot_run}) {
    const auto swatch = [&](std::string_view fill) {
      return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"26\" height=\"14\" fill=\"{}\" stroke=\"#222\"/>", x,
                         y - 11.0, fill);
    };
    out += swatch(state_fill(state));
    if (const auto pattern = state_pattern(state); !pattern.empty()) out += swatch(pattern);
    out += svg_text(x + 33.0, y, state_text(state));
    x += state == PointState::even ? 160.0 : 320.0;
  }
  y += 20.0;
  const bool job_on_map = std::any_of(maps.begin(), maps.end(), [](const EnvelopeMap& map) { return map.has_job(); });
  out += fmt::format("<circle cx=\"33\" cy=\"{0:.1f}\" r=\"7\" fill=\"none\" stroke=\"#000\" stroke-width=\"2\"/>",
                     y - 4.0);
  out += svg_text(53.0, y, job_on_map ? "the job's own rate and speed" : "the job itself is outside this map");
  out += fmt::format("<circle cx=\"262\" cy=\"{0:.1f}\" r=\"1.6\" fill=\"#000\"/>", y - 4.0);
  out += svg_text(273.0, y, "dot: outside good practice too (pump reserve, velocity, relief valve)");
  y += 24.0;
  out += svg_text(20.0, y, "Letter: the limit that stops it, that makes it poor, or that comes next", "class=\"b\"");
  for (std::size_t i = 0; i < letters.size(); ++i) {
    if (i % 2 == 0) y += 20.0;
    const double at = i % 2 == 0 ? 20.0 : 380.0;
    out += svg_text(at, y, std::string(1, letters[i].letter), "class=\"b\"");
    out +=
        svg_text(at + 20.0, y,
                 fmt::format("{} ({} point{})", letters[i].name, letters[i].points, letters[i].points == 1 ? "" : "s"));
  }
  if (assumption) {
    out += svg_text(20.0, y + 20.0,
                    fmt::format("No pressure limit is given: {} at the gauge is assumed (common practice, no source)",
                                format(from_si<Pressure>(limit->most), u)));
  }
  return out + "</svg>\n";
}

}  // namespace libflow
