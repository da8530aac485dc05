// SPDX-License-Identifier: MIT
// The catch test: its plan, its readings, the verdict, what is wrong, the layout as built.
#include "catches.hpp"

#include <set>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include <libflow/file/calibrated_layout.hpp>
#include <libflow/file/catch_csv.hpp>
#include <libflow/file/catch_json.hpp>
#include <libflow/file/diagnosis_json.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/report/diagnosis_text.hpp>

#include "module.hpp"

namespace libflow::python {

namespace {

void check_reading(const CatchReading& r, std::string_view name) {
  const std::string where = r.where.empty() ? std::string(name) : r.where;
  if (r.row < 1) throw InputError(where + ", row", std::to_string(r.row), "1, 2, 3 ...");
  if (r.repeat < 1) throw InputError(where + ", repeat", std::to_string(r.repeat), "1, 2, 3 ...");
  require_in(where + ", volume", r.volume, catch_volume, "m3");
}
void check_readings(const CatchReadings& r, std::string_view name) {
  const std::string where(name);
  if (r.readings.empty()) throw InputError(where + ", readings", "none given", "one CatchReading or more");
  std::set<std::pair<int, int>> seen;
  for (const CatchReading& one : r.readings) {
    if (seen.insert({one.row, one.repeat}).second) continue;
    throw InputError(where + ", readings", fmt::format("row {} has a repeat {} twice", one.row, one.repeat),
                     "each repeat of a row once");
  }
  require_in(where + ", time", si(r.time), {1.0, 3600.0}, "s");
  require_in(where + ", reading_error", r.reading_error, {1e-6, 0.5}, "");
}

py::tuple run_plan_catch(const Layout& layout, const py::dict& options) {
  const CatchSetup setup = catch_setup(options);
  const CatchPlan plan = [&] {
    const py::gil_scoped_release release;
    return plan_catch(layout, setup);
  }();
  return study(catch_plan_to_json(plan), [&](const TextOptions& t) { return catch_plan_text(plan, t); });
}

py::tuple run_judge_catch(const Layout& layout, const CatchReadings& readings, const py::dict& options) {
  const CatchSetup setup = catch_setup(options);
  const CatchVerdict v = [&] {
    const py::gil_scoped_release release;
    return judge_catch(layout, readings, setup);
  }();
  return study(catch_verdict_to_json(v), [&](const TextOptions& t) { return catch_verdict_text(v, t); });
}

/// (JSON, three reports, the layout as built, what changed and why).
py::tuple run_diagnose(const Layout& layout, const py::object& catches, const py::dict& options) {
  const auto all = Convert<std::vector<CatchReadings>>::from(catches, "diagnose, catches");
  const DiagnosisSetup how = diagnosis_setup(options);
  const Diagnosis d = [&] {
    const py::gil_scoped_release release;
    return diagnose(layout, all, how);
  }();
  const double time = si(all.front().time);
  const py::tuple found =
      study(diagnosis_to_json(d), [&](const TextOptions& t) { return diagnosis_text(d, layout, time, t); });
  return py::make_tuple(
      found, d.calibrated,
      Convert<std::vector<std::string>>::to(report_detail::calibrated_reasons(d, layout, layout.units)));
}

}  // namespace

CatchSetup catch_setup(const py::dict& options) {
  CatchSetup s;
  take(options, "time", s.time);
  take(options, "repeats", s.repeats);
  take_share(options, "reading_error", s.reading_error);
  take(options, "timing_error", s.timing_error);
  take(options, "together", s.together);
  take(options, "strip", s.strip);
  take(options, "water_temperature", s.water_temperature);
  take_share(options, "confidence", s.power.confidence);
  take_share(options, "power", s.power.power);
  s.check();
  return s;
}

DiagnosisSetup diagnosis_setup(const py::dict& options) {
  DiagnosisSetup how;
  take(options, "most_causes", how.most_causes);
  take_share(options, "false_alarm", how.false_alarm);
  take_share(options, "confidence", how.confidence);
  take_share(options, "part_scatter", how.part_scatter);
  take_share(options, "gauge_error", how.gauge_error);
  take(options, "orifice_bores", how.orifice_bores);
  take(options, "water_temperature", how.water_temperature);
  how.check();
  return how;
}

CatchFindings catch_findings(const Layout& layout, const std::vector<CatchReadings>& catches, const CatchSetup& setup,
                             const DiagnosisSetup& how) {
  CatchFindings found;
  for (const CatchReadings& r : catches) found.verdicts.push_back(judge_catch(layout, r, setup));
  if (std::holds_alternative<Toolbar>(layout.plumbing)) found.diagnosis = diagnose(layout, catches, how);
  return found;
}

void add_catches(py::module_& m) {
  Record<CatchReading>(m, "CatchReading", "One cup of a catch test.")
      .need<&CatchReading::row>("row", "from 1 at the left end")
      .si<&CatchReading::volume>("volume", Kind::volume, "in the cup, 0 to 1 m3")
      .may<&CatchReading::repeat>("repeat", "from 1: a row may be caught several times")
      .may<&CatchReading::where>("where", "file and line, for messages")
      .may<&CatchReading::written>("written", "the volume as it was written, with its unit, for messages")
      .done([](const CatchReading& r, std::string_view name) { check_reading(r, name); });
  Record<CatchReadings>(m, "CatchReadings",
                        "A catch test as it was made: all cups at one setting, for one time. read_catch(), "
                        "parse_catch() and\ncatch_readings() make it from a file, from text and from an array.")
      .need<&CatchReadings::readings>("readings", "a list of CatchReading")
      .need<&CatchReadings::time>("time", "each cup was under its row this long, 1 s to 1 h")
      .may<&CatchReadings::water>("water", "water in the tank instead of the product")
      .may<&CatchReadings::gauge>("gauge", "pressure read meanwhile; None: what the job needs")
      .si<&CatchReadings::reading_error>("reading_error", Kind::fraction,
                                         "standard deviation of one reading as a share of it, where the repeats do not "
                                         "tell, 1e-6 to 0.5")
      .done([](const CatchReadings& r, std::string_view name) { check_readings(r, name); });
  m.def("_parse_catch", [](const std::string& text, const std::string& name) {
    return Convert<std::vector<CatchReading>>::to(parse_catch(text, name));
  });
  m.def("_read_catch",
        [](const std::string& path) { return Convert<std::vector<CatchReading>>::to(read_catch(path)); });
  m.def("_cup_error", [](const py::dict& options) { return catch_setup(options).cup_error(); });
  m.def("_plan_catch", &run_plan_catch);
  m.def("_judge_catch", &run_judge_catch);
  m.def("_diagnose", &run_diagnose);
  m.def("_calibrated_text",
        [](const std::string& path, const Layout& layout, const Layout& calibrated, const py::object& why) {
          return calibrated_layout_text(read_text_file(path), path, layout, calibrated,
                                        Convert<std::vector<std::string>>::from(why, "reasons"));
        });
}

}  // namespace libflow::python
