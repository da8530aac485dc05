// SPDX-License-Identifier: MIT
// The page that a dealer prints, and writing files.
#include <variant>

#include <libflow/file/text_file.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/dealer_page.hpp>
#include <libflow/study/compare.hpp>
#include <libflow/study/main_job.hpp>

#include "catches.hpp"
#include "module.hpp"

namespace libflow::python {

namespace {

TextOptions in_units(const py::object& units) {
  TextOptions options;
  if (!units.is_none()) options.units = Convert<UnitSystem>::from(units, "units");
  return options;
}

/// What the cups say, as the program puts it on its page.
PageFindings findings_of(const Layout& layout, const std::vector<CatchReadings>& catches, const py::dict& catch_options,
                         const py::dict& diagnosis_options, const TextOptions& options) {
  if (catches.empty()) return {};
  const CatchSetup setup = catch_setup(catch_options);
  const DiagnosisSetup how = diagnosis_setup(diagnosis_options);
  const py::gil_scoped_release release;
  const CatchFindings found = catch_findings(layout, catches, setup, how);
  return catch_findings_part(found.verdicts, found.diagnosis ? &*found.diagnosis : nullptr, layout, options);
}

/// (HTML, complete).
py::tuple run_report(const Layout& layout, const py::object& catches, const py::dict& catch_options,
                     const py::dict& diagnosis_options, const py::object& units, const std::string& file,
                     const std::string& date, const py::object& progress) {
  const TextOptions options = in_units(units);
  const auto all = Convert<std::vector<CatchReadings>>::from(catches, "report, catches");
  if (all.size() > 2) {
    throw InputError("report, catches", std::to_string(all.size()) + " catches", "one, or two at different settings");
  }
  const PageFindings findings = findings_of(layout, all, catch_options, diagnosis_options, options);
  bool complete = true;
  const Progress tell = [&complete, given = progress_from(progress)](std::size_t done, std::size_t total) {
    const bool on = given(done, total);
    complete = complete && (on || done == total);
    return on;
  };
  std::string html;
  {
    const py::gil_scoped_release release;
    const Answer answer = main_job(layout);
    if (!answer.solution.usable()) throw IllPosedError(answer.solution.message);
    html = dealer_page(layout, answer, options, tell, findings, {.file = file, .date = date});
  }
  return py::make_tuple(html, complete);
}

std::string run_comparison_report(const py::object& layouts, const py::object& units, const std::string& file,
                                  const std::string& date) {
  const TextOptions options = in_units(units);
  const auto all = Convert<std::vector<Layout>>::from(layouts, "report, layouts");
  const py::gil_scoped_release release;
  const Comparison c = compare(all);
  for (const Answer& a : c.answers) {
    if (!a.solution.usable()) throw IllPosedError(a.layout.name + ": " + a.solution.message);
  }
  return comparison_page(c, options, {.file = file, .date = date});
}

void write_file(const std::string& path, const std::string& text, bool overwrite) {
  try {
    write_text_file(path, text, overwrite ? Existing::replace : Existing::refuse);
  } catch (const InputError& e) {
    // The program's own option means nothing here.
    if (e.allowed().find("--force") == std::string::npos) throw;
    throw InputError(e.where(), e.what_is_wrong(), "another name, or overwrite=True to replace it");
  }
}

}  // namespace

void add_pages(py::module_& m) {
  m.def("_report", &run_report);
  m.def("_comparison_report", &run_comparison_report);
  m.def("_write_text", &write_file);
}

}  // namespace libflow::python
