// SPDX-License-Identifier: MIT
#include <libflow/file/lines_json.hpp>

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include <libflow/file/results_csv.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/study/lines.hpp>

namespace libflow {

Json lines_to_json(const Lines& l) {
  using namespace file_detail;
  Json rows = Json::array(), cautions = Json::array();
  for (const RowLines& r : l.rows) {
    rows.push_back({{"row", r.row},
                    {"held_m3", number(r.held)},
                    {"full_after_s", number(r.fill)},
                    {"first_new_liquid_after_s", number(r.first_new)},
                    {"flushed_after_s", number(r.flushed)},
                    {"delay_from_control_s", number(r.delay)},
                    {"pressure_delay_s", number(r.pressure_delay)}});
  }
  for (const Cautions& list : {l.cautions, all_cautions(l.answer)}) {
    for (const Caution& c : list) cautions.push_back(caution_to_json(c));
  }
  return {{"libflow", version},
          {"name", l.answer.layout.name},
          {"job", job_json(l.answer)},
          {"control", l.control},
          {"flushed_share", number(l.options.share)},
          {"held_m3", number(l.held)},
          {"held_in_row_hoses_m3", number(l.held_rows)},
          {"held_before_rows_m3", number(l.held_before)},
          {"held_still_m3", number(l.still)},
          {"fill_time_s", number(l.fill_time)},
          {"flush_time_s", number(l.flush_time)},
          {"flush_liquid_m3", number(l.flush_liquid)},
          {"delay_spread_s", number(l.delay_spread)},
          {"rows", std::move(rows)},
          {"cautions", std::move(cautions)}};
}

std::string lines_to_csv(const Lines& l, UnitSystem u) {
  using namespace file_detail;
  std::string text =
      csv_line({"layout", "row", fmt::format("held ({})", unit_name<Volume>(u)), "full after (s)",
                "first new liquid after (s)", "flushed after (s)", "delay from control (s)", "pressure delay (s)"});
  for (const RowLines& r : l.rows) {
    std::vector<std::string> fields{l.answer.layout.name, fmt::format("{}", r.row), csv_quantity<Volume>(r.held, u)};
    for (const double t : {r.fill, r.first_new, r.flushed, r.delay, r.pressure_delay}) fields.push_back(csv_number(t));
    text += csv_line(fields);
  }
  return text;
}

}  // namespace libflow
