// SPDX-License-Identifier: MIT
/// @file
/// libflow catch: the plan of a catch test, the verdict on its readings, and what is wrong with the bar.

#include <algorithm>
#include <cstddef>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include <libflow/app/catch_options.hpp>
#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/page_options.hpp>
#include <libflow/file/calibrated_layout.hpp>
#include <libflow/file/catch_json.hpp>
#include <libflow/file/diagnosis_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/report/cautions_text.hpp>
#include <libflow/report/diagnosis_text.hpp>
#include <libflow/report/page.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>

namespace libflow::app {

namespace catch_command {

constexpr const char* help =
    R"(Without readings: the sheet to take along, with what each cup should hold. With readings: the verdict, what
is wrong with the bar, and what to measure next. Readings are comma-separated: a heading
'row, volume [ml], repeat' and a line for each cup. A second catch at another pressure, or with water, tells
causes apart that one cannot: a plugged orifice, a kinked hose and a sticking check valve look alike in one.
--calibrated writes the layout as it was built, for every other command.

Examples:
  libflow catch north_bar.toml --time "30 s" --repeats 3
  libflow catch north_bar.toml cups.csv --time "30 s"
  libflow catch north_bar.toml cups.csv --time "30 s" --water --gauge "28 psi"
  libflow catch north_bar.toml full.csv --gauge "28 psi" \
    --second low.csv --second-gauge "14 psi" \
    --orifices "0.042 in, 0.046 in, 0.052 in" --calibrated built.toml

Exit code: 0 plan written, or rows even and the whole bar as the layout says; 1 not so, or not
complete; 2 bad input; 3 unsolved or ill-posed.)";

struct Given {
  std::string file, calibrated, page, date;
  CatchOptions cups;
  OutputOptions output;
};

/// Writes the page that is asked for. @param make  it, from where it is
template <class Make>
void write_page(const Given& given, const Make& make) {
  if (given.page.empty()) return;
  const std::string page = make(page_origin({given.file}, given.date));
  write_text_file(given.page, page, given.output.force ? Existing::replace : Existing::refuse);
}

/// The layout's file with what was found in it.
void write_calibrated(const Given& given, const Layout& layout, const Diagnosis& d, UnitSystem units) {
  const std::vector<std::string> why = report_detail::calibrated_reasons(d, layout, units);
  write_text_file(given.calibrated,
                  calibrated_layout_text(read_text_file(given.file), given.file, layout, d.calibrated, why),
                  given.output.force ? Existing::replace : Existing::refuse);
  std::vector<std::string> left_out;
  for (const FoundCause& f : d.causes) {
    if (!f.unexplained()) continue;
    std::string what = f.best().row > 0 ? fmt::format("row {}", f.best().row) : std::string("the whole bar");
    if (std::find(left_out.begin(), left_out.end(), what) == left_out.end()) left_out.push_back(std::move(what));
  }
  if (!left_out.empty()) {
    fmt::print(
        stderr,
        "libflow: {} leaves out what nothing explains ({}): it is the bar without that fault, and may look even.\n",
        given.calibrated, fmt::join(left_out, ", "));
  }
}

/// The verdicts one after another and the diagnosis; the word that ends the verdicts stands once, at the end.
std::string findings_text(const CatchFindings& found, const Layout& layout, const CatchSetup& setup,
                          const TextOptions& options) {
  const std::size_t width = std::max<std::size_t>(80, options.width);
  const std::string end = "\n" + report_detail::wrapped(last_word, width);
  std::string text = catch_verdicts_text(found.verdicts, options);
  if (text.ends_with(end)) text.resize(text.size() - end.size());
  text += "\n";
  const std::string first = report_detail::takes_as_right(found.verdicts);
  if (found.diagnosis && !first.empty()) text += report_detail::wrapped(first, width) + "\n";
  text += found.diagnosis ? diagnosis_text(*found.diagnosis, layout, si(setup.time), options)
                          : std::string("No diagnosis: the layout is given place by place.\n");
  return text + end;
}

int judge_and_diagnose(const Given& given, const Layout& layout, const CatchSetup& setup) {
  if (!std::holds_alternative<Toolbar>(layout.plumbing) && !given.calibrated.empty()) {
    throw InputError("--calibrated", "the layout is given place by place: it has no diagnosis",
                     "a layout with [toolbar]");
  }
  const CatchFindings found = catch_findings(given.file, layout, given.cups, setup);
  const TextOptions options = text_options(given.output);
  if (found.diagnosis && !given.calibrated.empty()) {
    write_calibrated(given, layout, *found.diagnosis, options.units.value_or(layout.units));
  }
  write_page(given, [&](const PageOrigin& origin) {
    return catch_findings_page(found.verdicts, found.diagnosis ? &*found.diagnosis : nullptr,
                               found.verdicts.front().answer, options, origin);
  });
  if (given.output.format == Format::json) {
    Json json = catch_verdict_to_json(found.verdicts.front());
    json["second"] = found.verdicts.size() > 1 ? catch_verdict_to_json(found.verdicts[1]) : Json(nullptr);
    json["diagnosis"] = found.diagnosis ? diagnosis_to_json(*found.diagnosis) : Json(nullptr);
    deliver(to_text(json), given.output);
  } else {
    deliver(findings_text(found, layout, setup, options), given.output);
  }
  return found.good() ? exit_even : exit_not_even;
}

int plan_or_judge(const Given& given) {
  if (given.output.force && given.output.path.empty() && given.calibrated.empty() && given.page.empty()) {
    throw InputError("--force", "there is no file to replace", "--output, --calibrated or --page with it");
  }
  const Layout layout = read_layout(given.file);
  const CatchSetup setup = catch_setup(given.cups);
  if (given.cups.readings.empty()) {
    if (!given.cups.second.empty() || !given.calibrated.empty()) {
      throw InputError(given.cups.second.empty() ? "--calibrated" : "--second", "there are no readings",
                       "libflow catch FILE READINGS");
    }
    const CatchPlan plan = naming(given.file, [&] { return plan_catch(layout, setup); });
    write_page(given,
               [&](const PageOrigin& origin) { return catch_plan_page(plan, text_options(given.output), origin); });
    deliver(given.output.format == Format::json ? to_text(catch_plan_to_json(plan))
                                                : catch_plan_text(plan, text_options(given.output)),
            given.output);
    return exit_even;
  }
  return judge_and_diagnose(given, layout, setup);
}

}  // namespace catch_command

void add_catch_command(CLI::App& program, int& code) {
  using namespace catch_command;
  CLI::App* command =
      program.add_subcommand("catch", "catch test: the sheet to take along, or the verdict on readings");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  command->add_option("READINGS", given->cups.readings, "cups as comma-separated values; without: the plan")
      ->type_name("");
  command->add_option("--repeats", given->cups.repeats, "of the plan, readings a row")
      ->capture_default_str()
      ->type_name("N");
  add_catch_options(*command, given->cups);
  command->add_option("--calibrated", given->calibrated, "write the layout as it was built into this file")
      ->type_name("OUT");
  command->add_option("--page", given->page, "write a page to print into this file: the sheet, or what was found")
      ->type_name("OUT");
  add_date_option(*command, given->date)->needs("--page");
  add_output_options(*command, given->output, Formats::text_json);
  // Three options of this command name a file, so --force may go with any of them.
  CLI::Option* const force = command->get_option("--force");
  force->remove_needs(command->get_option("--output"));
  force->description("replace files that exist: of --output, --calibrated and --page");
  command->footer(help);
  command->callback([given, &code] { code = plan_or_judge(*given); });
}

}  // namespace libflow::app
