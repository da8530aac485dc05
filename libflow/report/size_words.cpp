// SPDX-License-Identifier: MIT
#include <libflow/report/size_words.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/limits_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/cut_length.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/toolbar/build_rows.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

std::string orifice_text(const OrificeChoice& choice, UnitSystem u) {
  if (const auto* rated = std::get_if<OrificeByRating>(&choice)) {
    return fmt::format("{} at {}", format(rated->flow, u), format(rated->pressure, u));
  }
  const Length bore = std::get<OrificeByBore>(choice).bore;
  const std::string text = format_bore(bore, u);
  return u == UnitSystem::us ? fmt::format("{} ({})", text, format_bore(bore, UnitSystem::metric)) : text;
}

std::string working_point_text(const WorkingPoint& p, UnitSystem u) {
  return fmt::format("{}, {}, {}, {}", format(p.speed, u), format(p.rate, u), format(p.temperature, u),
                     si(p.side_slope) == 0.0 ? std::string("level") : format(p.side_slope, u) + " side slope");
}

std::string span_text(const std::vector<WorkingPoint>& points, UnitSystem u) {
  const auto span = [&](auto get) {
    const auto [low, high] = std::minmax_element(points.begin(), points.end(),
                                                 [&](const auto& a, const auto& b) { return get(a) < get(b); });
    return std::pair(get(*low), get(*high));
  };
  const auto text = [&](const auto& pair) {
    const std::string high = format(pair.second, u);
    return pair.first == pair.second ? high : fmt::format("{} to {}", format_number(pair.first, u), high);
  };
  const auto slope = span([](const WorkingPoint& p) { return p.side_slope; });
  return fmt::format(
      "{}, {}, {}, {}", text(span([](const WorkingPoint& p) { return p.speed; })),
      text(span([](const WorkingPoint& p) { return p.rate; })),
      text(span([](const WorkingPoint& p) { return p.temperature; })),
      si(slope.first) == 0.0 && si(slope.second) == 0.0 ? std::string("level ground") : "side slope " + text(slope));
}

std::string pieces_text(const SizeProblem& p, const HosePlan& plan, UnitSystem u) {
  std::vector<std::pair<double, std::vector<int>>> pieces;
  const Toolbar& t = p.toolbar();
  const auto rows = build_detail::make_rows(t);
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    if (rows[i].shut) continue;
    const auto same = std::find_if(pieces.begin(), pieces.end(),
                                   [&](const auto& piece) { return std::abs(piece.first - plan.lengths[i]) < 1e-3; });
    (same == pieces.end() ? pieces.emplace_back(plan.lengths[i], std::vector<int>{}) : *same)
        .second.push_back(static_cast<int>(i) + 1);
  }
  std::sort(pieces.begin(), pieces.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  const std::size_t each = t.metering == MeteringPlace::manifold ? static_cast<std::size_t>(t.outlets_per_row) : 1;
  std::string text;
  for (const auto& [length, whose] : pieces) {
    text += fmt::format("{}{} of {} ({})", text.empty() ? "" : ", ", each * whose.size(),
                        cut_text(from_si<Length>(length), u),
                        pieces.size() == 1 ? std::string("every row") : row_list_text(whose));
  }
  return text;
}

std::string short_cut_text(double metres, UnitSystem u) {
  const std::string text = cut_text(from_si<Length>(metres), u);
  if (u == UnitSystem::metric) return text.substr(0, text.find(' '));
  const std::size_t feet = text.find(" ft");
  if (feet == std::string::npos) return text.substr(0, text.find(' ')) + "\"";
  const std::string rest = text.substr(feet + 3);
  return text.substr(0, feet) + "'" + (rest.empty() ? rest : rest.substr(1, rest.rfind(' ') - 1) + "\"");
}

std::string feed_text(ManifoldFeed feed) {
  switch (feed) {
    case ManifoldFeed::middle:
      return "middle";
    case ManifoldFeed::left:
      return "left end";
    case ManifoldFeed::right:
      return "right end";
    case ManifoldFeed::both_ends:
      return "both ends";
  }
  return "-";
}

std::string feed_place_text(ManifoldFeed feed, std::string_view whose) {
  if (feed == ManifoldFeed::both_ends) return "at both ends";
  return fmt::format("{} {} {}", feed == ManifoldFeed::middle ? "in" : "at", whose, feed_text(feed));
}

std::string binding_text(const SizeProblem& p, const SizeBinding& b, UnitSystem u) {
  return binding_text(p.points[b.point], b, u);
}

std::string binding_text(const WorkingPoint& at, const SizeBinding& b, UnitSystem u) {
  std::string text;
  switch (b.limit) {
    case SizeLimit::evenness:
      text = fmt::format("evenness, row {} is {} {} the mean and {} is allowed", b.row, percent(std::abs(b.value)),
                         b.value < 0.0 ? "below" : "above", percent(b.allowed));
      break;
    case SizeLimit::row_dry:
      text = fmt::format("row {} gets nothing", b.row);
      break;
    case SizeLimit::least_pressure:
      text = fmt::format("gauge pressure, it falls to {} and {} is the least", shown<Pressure>(b.value, u),
                         shown<Pressure>(b.allowed, u));
      break;
    case SizeLimit::most_pressure:
      text = fmt::format("gauge pressure, it rises to {} and {} is the most", shown<Pressure>(b.value, u),
                         shown<Pressure>(b.allowed, u));
      break;
    case SizeLimit::pump:
      text = b.allowed > -1e300 && b.allowed < 1e300
                 ? fmt::format("pump, {} is needed at the gauge and its limit there is {}", shown<Pressure>(b.value, u),
                               shown<Pressure>(b.allowed, u))
                 : fmt::format("pump, it cannot give that flow at all");
      break;
    case SizeLimit::hose_rating:
      text = fmt::format("hose rating, {} at the gauge against {}", shown<Pressure>(b.value, u),
                         shown<Pressure>(b.allowed, u));
      break;
    case SizeLimit::orifice_least:
    case SizeLimit::orifice_most:
      text = fmt::format("drop across the orifice of row {}, {} and {} is the {}", b.row, shown<Pressure>(b.value, u),
                         shown<Pressure>(b.allowed, u), b.limit == SizeLimit::orifice_least ? "least" : "most");
      break;
    case SizeLimit::metering:
      text = fmt::format(
          "metering, the orifice of row {} takes {} of the pressure and {} is the least: below it the hose "
          "meters",
          b.row, percent(b.value), percent(b.allowed));
      break;
    case SizeLimit::supply_line:
      text = fmt::format("{}, {} against {}", b.name, si_value_text(b.value, b.unit, u),
                         si_value_text(b.allowed, b.unit, u));
      break;
  }
  return fmt::format("{}, at {}", text, working_point_text(at, u));
}

}  // namespace report_detail

}  // namespace libflow
