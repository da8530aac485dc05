// SPDX-License-Identifier: MIT
/// @file
/// libflow catch: the plan of a catch test, the verdict on its readings, and what is wrong with the bar.

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/calibrated_layout.hpp>
#include <libflow/file/catch_csv.hpp>
#include <libflow/file/catch_json.hpp>
#include <libflow/file/diagnosis_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/catch_text.hpp>
#include <libflow/report/diagnosis_text.hpp>
#include <libflow/report/page.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>
#include <libflow/units/text.hpp>

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
  libflow catch north_bar.toml full.csv --gauge "28 psi" --second low.csv --second-gauge "14 psi" \
    --orifices "0.042 in, 0.046 in, 0.052 in" --calibrated as_built.toml

Exit code: 0 plan written, or rows even; 1 not even or not complete; 2 bad input; 3 unsolved or ill-posed.)";

struct Given {
  std::string file, readings, second, time = "30 s", gauge, second_gauge, calibrated, page;
  std::vector<std::string> orifices;
  double error = 2.0;
  int repeats = 3;
  bool water = false, second_water = false, one_by_one = false;
  OutputOptions output;
};

/// The layout's page with a section on the catch test.
void write_page(const Given& given, const Answer& answer, const std::vector<PageSection>& sections) {
  if (given.page.empty()) return;
  write_text_file(given.page, layout_page(answer, sections, {.units = given.output.units}),
                  given.output.force ? Existing::replace : Existing::refuse);
}

/// One file of readings with its setting.
CatchReadings readings_of(const Given& given, const CatchSetup& setup, bool second) {
  CatchReadings r;
  r.readings = read_catch(second ? given.second : given.readings);
  r.time = setup.time;
  r.water = second ? given.second_water : given.water;
  r.reading_error = setup.cup_error();
  const std::string& gauge = second ? given.second_gauge : given.gauge;
  if (!gauge.empty()) r.gauge = parse_quantity<Pressure>(gauge, second ? "--second-gauge" : "--gauge");
  return r;
}

/// The layout's file with what was found in it.
void write_calibrated(const Given& given, const Layout& layout, const Diagnosis& d, UnitSystem units) {
  std::vector<std::string> why{"As built, from a catch test. The most probable of each cause is put in:"};
  for (const FoundCause& f : d.causes) {
    why.push_back(fmt::format("- {} ({:.0f} %){}", report_detail::cause_phrase(layout, f.likely.front(), units),
                              100.0 * f.likely.front().probability,
                              f.certain() ? "" : "; others look the same in these readings"));
  }
  if (d.causes.empty()) why.emplace_back("- nothing: the cups agree with the layout");
  write_text_file(given.calibrated,
                  calibrated_layout_text(read_text_file(given.file), given.file, layout, d.calibrated, why),
                  given.output.force ? Existing::replace : Existing::refuse);
}

int judge_and_diagnose(const Given& given, const Layout& layout, const CatchSetup& setup) {
  std::vector<CatchReadings> catches{readings_of(given, setup, false)};
  if (!given.second.empty()) catches.push_back(readings_of(given, setup, true));
  std::vector<CatchVerdict> verdicts;
  for (const CatchReadings& r : catches) {
    verdicts.push_back(naming(given.file, [&] { return judge_catch(layout, r, setup); }));
  }
  DiagnosisSetup how;
  how.water_temperature = setup.water_temperature;
  for (const std::string& bore : given.orifices) {
    how.orifice_bores.push_back(parse_quantity<Length>(bore, "--orifices"));
  }
  const bool bar = std::holds_alternative<Toolbar>(layout.plumbing);
  if (!bar && !given.calibrated.empty()) {
    throw InputError("--calibrated", "the layout is given place by place: it has no diagnosis",
                     "a layout with [toolbar]");
  }
  std::optional<Diagnosis> diagnosis;
  if (bar) diagnosis = naming(given.file, [&] { return diagnose(layout, catches, how); });
  const TextOptions options = text_options(given.output);
  if (diagnosis && !given.calibrated.empty()) {
    write_calibrated(given, layout, *diagnosis, options.units.value_or(layout.units));
  }
  std::vector<PageSection> sections;
  for (std::size_t k = 0; k < verdicts.size(); ++k) {
    const Diagnosis* const last = diagnosis && k + 1 == verdicts.size() ? &*diagnosis : nullptr;
    sections.push_back(catch_section(verdicts[k], last, layout, si(setup.time), options));
    if (k > 0) {
      sections.back().id += "-2";
      sections.back().heading += ", second setting";
    }
  }
  write_page(given, verdicts.front().answer, sections);
  if (given.output.format == Format::json) {
    Json json = catch_verdict_to_json(verdicts.front());
    json["second"] = verdicts.size() > 1 ? catch_verdict_to_json(verdicts[1]) : Json(nullptr);
    json["diagnosis"] = diagnosis ? diagnosis_to_json(*diagnosis) : Json(nullptr);
    deliver(to_text(json), given.output);
  } else {
    std::string text;
    for (const CatchVerdict& v : verdicts) text += catch_verdict_text(v, options) + "\n";
    text += diagnosis ? diagnosis_text(*diagnosis, layout, si(setup.time), options)
                      : std::string("No diagnosis: the layout is given place by place.\n");
    deliver(text, given.output);
  }
  bool even = true;
  for (const CatchVerdict& v : verdicts) even = even && v.even;
  return even ? exit_even : exit_not_even;
}

int plan_or_judge(const Given& given) {
  const Layout layout = read_layout(given.file);
  CatchSetup setup;
  setup.time = parse_quantity<Time>(given.time, "--time");
  setup.repeats = given.repeats;
  setup.reading_error = given.error / 100.0;
  setup.together = !given.one_by_one;
  if (given.readings.empty()) {
    if (!given.second.empty() || !given.calibrated.empty()) {
      throw InputError(given.second.empty() ? "--calibrated" : "--second", "there are no readings",
                       "libflow catch FILE READINGS");
    }
    const CatchPlan plan = naming(given.file, [&] { return plan_catch(layout, setup); });
    write_page(given, plan.product, {catch_plan_section(plan, text_options(given.output))});
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
  command->add_option("READINGS", given->readings, "cups as comma-separated values; without: the plan")->type_name("");
  command->add_option("--time", given->time, "each cup under its row")->capture_default_str()->type_name("TIME");
  command->add_option("--repeats", given->repeats, "of the plan, readings a row")
      ->capture_default_str()
      ->type_name("N");
  command->add_option("--error", given->error, "of one reading, standard deviation in % of it")
      ->capture_default_str()
      ->type_name("PERCENT");
  command->add_flag("--one-by-one", given->one_by_one, "cups held one after another: the watch's error counts too");
  command->add_flag("--water", given->water, "the readings were made with water");
  command->add_option("--gauge", given->gauge, "pressure read during the test; default: what the job needs")
      ->type_name("PRESSURE");
  auto* second = command->add_option("--second", given->second, "cups of a catch at another setting")->type_name("");
  command->add_option("--second-gauge", given->second_gauge, "pressure read during it")
      ->needs(second)
      ->type_name("PRESSURE");
  command->add_flag("--second-water", given->second_water, "it was made with water")->needs(second);
  command->add_option("--orifices", given->orifices, "bores in the workshop, one of which may have been fitted")
      ->delimiter(',')
      ->type_name("LENGTH");
  command->add_option("--calibrated", given->calibrated, "write the layout as it was built into this file")
      ->type_name("OUT");
  command->add_option("--page", given->page, "write a page to print into this file: the sheet, or what was found")
      ->type_name("OUT");
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(help);
  command->callback([given, &code] { code = plan_or_judge(*given); });
}

}  // namespace libflow::app
