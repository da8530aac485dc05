// SPDX-License-Identifier: MIT
// Studies that run a machine: operating point, envelope, what-if, drawdown, tolerance, the way to a row.
#include <bit>

#include <libflow/file/compare_points_json.hpp>
#include <libflow/file/drawdown_json.hpp>
#include <libflow/file/envelope_json.hpp>
#include <libflow/file/operating_point_json.hpp>
#include <libflow/file/path_json.hpp>
#include <libflow/file/tolerance_json.hpp>
#include <libflow/file/what_if_json.hpp>
#include <libflow/report/compare_points_text.hpp>
#include <libflow/report/drawdown_text.hpp>
#include <libflow/report/envelope_text.hpp>
#include <libflow/report/explain_text.hpp>
#include <libflow/report/operating_point_text.hpp>
#include <libflow/report/tolerance_text.hpp>
#include <libflow/report/what_if_text.hpp>
#include <libflow/study/compare_points.hpp>
#include <libflow/study/drawdown.hpp>
#include <libflow/study/drawdown_result.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/fault_options.hpp>
#include <libflow/study/operating_point.hpp>
#include <libflow/study/path.hpp>
#include <libflow/study/tolerance.hpp>
#include <libflow/study/what_if.hpp>

#include "module.hpp"
#include "study.hpp"

namespace libflow::python {

namespace {

template <class Work>
auto without_lock(Work&& work) {
  const py::gil_scoped_release release;
  return work();
}

py::tuple run_envelope(const Layout& layout, const py::dict& options, const py::object& progress) {
  std::size_t columns = 25, lines = 17;
  take_count(options, "columns", columns);
  take_count(options, "lines", lines);
  EnvelopeAxes axes = default_axes(layout, columns, lines);
  take(options, "speeds", axes.speeds);
  take(options, "rates", axes.rates);
  take(options, "temperatures", axes.temperatures);
  take(options, "side_slopes", axes.side_slopes);
  EnvelopeOptions o;
  take(options, "usable_speeds", o.usable_speeds);
  take(options, "control", o.control);
  const Progress tell = progress_from(progress);
  const Envelope e = without_lock([&] { return envelope(layout, axes, o, tell); });
  return study(envelope_to_json(e), [&](const TextOptions& t) { return envelope_text(e, t); });
}

py::tuple run_what_if(const Layout& layout, const py::dict& options, const py::object& progress) {
  WhatIfOptions o;
  take(options, "row", o.row);
  take_share(options, "kink_left", o.kink_left);
  take_share(options, "bore_left", o.bore_left);
  take_share(options, "screen_blocked", o.screen_blocked);
  take(options, "colder", o.colder);
  take_share(options, "side_slope", o.side_slope);
  take_share(options, "pump_wear", o.pump_wear);
  take_share(options, "pump_reach", o.pump_reach);
  take(options, "gauge_step", o.gauge_step);
  take_share(options, "meter_step", o.meter_step);
  const Progress tell = progress_from(progress);
  const WhatIf w = without_lock([&] { return what_if(layout, o, tell); });
  return study(what_if_to_json(w), [&](const TextOptions& t) { return what_if_text(w, t); });
}

py::tuple run_drawdown(const Layout& layout, const py::dict& options, const py::object& progress) {
  DrawdownOptions o;
  take(options, "hold_rate", o.hold_rate);
  take(options, "from_full", o.from_full);
  take_count(options, "samples", o.samples);
  take_share(options, "least_flow", o.least_flow);
  take(options, "longest", o.longest);
  const Progress tell = progress_from(progress);
  const Drawdown d = without_lock([&] { return drawdown(layout, o, tell); });
  return study(drawdown_to_json(d), [&](const TextOptions& t) { return drawdown_text(d, t); });
}

py::tuple run_tolerance(const Layout& layout, const py::dict& options, const py::object& progress) {
  std::size_t machines = 32768, seed = 1;
  bool shares = true;
  ToleranceOptions o;
  take_count(options, "machines", machines);
  take_count(options, "seed", seed);
  take(options, "threads", o.threads);
  take(options, "shares", shares);
  take(options, "levels", o.levels);
  require_in("machines", static_cast<double>(machines), {128.0, 1e9}, "");
  o.seed = seed;
  // As the program does: whole powers of two in each replicate, at least as many machines as asked for.
  o.points = std::bit_ceil((machines + o.replicates - 1) / o.replicates);
  o.share_points = shares ? std::max<std::size_t>(256, o.points / 16) : 0;
  const Progress tell = progress_from(progress);
  const ToleranceResult r = without_lock([&] { return tolerance_study(layout, layout.tolerances, o, tell); });
  return study(tolerance_to_json(r), [&](const TextOptions& t) { return tolerance_text(r, t); });
}

py::tuple run_operating_point(const Layout& layout, const std::string& control) {
  const OperatingPoint p = without_lock([&] { return operating_point(layout, control); });
  return study(operating_point_to_json(p), [&](const TextOptions& t) { return operating_point_text(p, t); });
}

py::tuple run_compare_points(const py::object& layouts, const py::dict& options, const py::object& progress) {
  const auto all = Convert<std::vector<Layout>>::from(layouts, "layouts");
  std::vector<Speed> speeds;
  std::vector<AreaRate> rates;
  take(options, "speeds", speeds);
  take(options, "rates", rates);
  const Progress tell = progress_from(progress);
  const PointComparison c = without_lock([&] { return compare_points(all, speeds, rates, tell); });
  return study(compare_points_to_json(c), [&](const TextOptions& t) { return compare_points_text(c, t); });
}

py::tuple run_path(const Answer& answer, int row) {
  if (!answer.solution.usable()) throw IllPosedError(answer.solution.message);
  return study(path_to_json(answer, path_to_row(answer, row)),
               [&](const TextOptions& t) { return explain_text(answer, row, t); });
}

}  // namespace

void add_studies_run(py::module_& m) {
  m.def("_envelope", &run_envelope);
  m.def("_what_if", &run_what_if);
  m.def("_drawdown", &run_drawdown);
  m.def("_tolerance", &run_tolerance);
  m.def("_operating_point", &run_operating_point);
  m.def("_compare_points", &run_compare_points);
  m.def("_path", &run_path);
}

}  // namespace libflow::python
