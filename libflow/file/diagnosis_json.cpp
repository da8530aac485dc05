// SPDX-License-Identifier: MIT
#include <libflow/file/diagnosis_json.hpp>

#include <utility>

#include <nlohmann/json.hpp>

#include <libflow/file/catch_json.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow {

/// Kind, size and rows of a cause.
static Json cause_json(const CatchCause& c) {
  Json rows = Json::array();
  if (c.row > 0) rows.push_back(c.row);
  if (c.other > 0) rows.push_back(c.other);
  return {{"kind", name_of(c.kind)},
          {"size", file_detail::number(c.size)},
          {"size_means", size_meaning(c.kind)},
          {"rows", std::move(rows)}};
}

Json diagnosis_to_json(const Diagnosis& d) {
  using file_detail::number;
  Json causes = Json::array();
  for (const FoundCause& f : d.causes) {
    Json likely = Json::array();
    for (const LikelyCause& l : f.likely) {
      Json one = cause_json(l.cause);
      one["size_low"] = number(l.low);
      one["size_high"] = number(l.high);
      one["at_end_of_range"] = l.at_end;
      one["probability"] = number(l.probability);
      one["beside"] = Json::array();
      for (const CatchCause& c : l.others) one["beside"].push_back(cause_json(c));
      likely.push_back(std::move(one));
    }
    Json cause{{"gain", number(f.gain)},
               {"effect_on_row", number(f.effect)},
               {"unnamed_probability", number(f.unnamed)},
               {"likely", std::move(likely)}};
    cause["next_measurement"] = nullptr;
    if (f.next) {
      const bool gauge = f.next->kind == NextMeasurement::Kind::gauge_at_row ||
                         f.next->kind == NextMeasurement::Kind::gauge_at_bar_end;
      Json predicted = Json::array();
      for (const double p : f.next->predicted) predicted.push_back(number(p));
      cause["next_measurement"] = {{"kind", name_of(f.next->kind)},
                                   {"row", f.next->row},
                                   {"other_row", f.next->other},
                                   {"pressure_Pa", number(f.next->pressure)},
                                   {gauge ? "predicted_Pa" : "predicted_m3_per_s", std::move(predicted)},
                                   {"resolved", number(f.next->resolved)}};
    }
    causes.push_back(std::move(cause));
  }
  Json pressures = Json::array();
  for (const double p : d.pressure) pressures.push_back(number(p));
  Json doubts = Json::array();
  for (const auto& of_catch : d.doubts) doubts.push_back(doubts_to_json(of_catch));
  return {{"causes", std::move(causes)},
          {"judged", d.judged},
          {"doubtful_readings", std::move(doubts)},
          {"threshold", number(d.threshold)},
          {"chi_squared_before", number(d.chi2_before)},
          {"chi_squared_left", number(d.chi2_left)},
          {"left_p", number(d.left_p)},
          {"spread_before", number(d.spread_before)},
          {"spread_left", number(d.spread_left)},
          {"reading_error", number(d.reading_error)},
          {"reading_error_from_repeats", d.error_from_repeats},
          {"supply_pressure_Pa", std::move(pressures)}};
}

}  // namespace libflow
