// SPDX-License-Identifier: MIT
/// @file
/// Readings of a catch test on the command line, and what is found in them: for `catch` and for `report`.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <CLI/CLI.hpp>

#include <libflow/app/command.hpp>
#include <libflow/core/error.hpp>
#include <libflow/file/catch_csv.hpp>
#include <libflow/report/catch_html.hpp>
#include <libflow/report/page.hpp>
#include <libflow/study/catch_plan.hpp>
#include <libflow/study/catch_verdict.hpp>
#include <libflow/study/diagnosis.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/text.hpp>

namespace libflow::app {

struct CatchOptions {
  std::string readings, second, time = "30 s", gauge, second_gauge;
  std::vector<std::string> orifices;
  double error = 2.0;
  int repeats = 3;
  bool water = false, second_water = false, one_by_one = false;
};

/// How the cups were filled and read. @param readings  the option without which they mean nothing; nullptr: none
inline void add_catch_options(CLI::App& command, CatchOptions& given, CLI::Option* readings = nullptr) {
  const auto with = [readings](CLI::Option* option) {
    if (readings != nullptr) option->needs(readings);
    return option;
  };
  with(command.add_option("--time", given.time, "each cup under its row"))->capture_default_str()->type_name("TIME");
  with(command.add_option("--error", given.error, "of one reading, standard deviation in % of it"))
      ->capture_default_str()
      ->type_name("PERCENT");
  with(command.add_flag("--one-by-one", given.one_by_one, "cups held one after another: the watch's error counts too"));
  with(command.add_flag("--water", given.water, "the readings were made with water"));
  with(command.add_option("--gauge", given.gauge,
                          "pressure read during the test where the liquid enters the bar; default: what the job needs"))
      ->type_name("PRESSURE");
  auto* second = with(command.add_option("--second", given.second, "cups of a catch at another setting"));
  second->type_name("");
  command.add_option("--second-gauge", given.second_gauge, "pressure read during it")
      ->needs(second)
      ->type_name("PRESSURE");
  command.add_flag("--second-water", given.second_water, "it was made with water")->needs(second);
  with(command.add_option("--orifices", given.orifices, "bores in the workshop, one of which may have been fitted"))
      ->delimiter(',')
      ->type_name("LENGTH");
}

[[nodiscard]] inline CatchSetup catch_setup(const CatchOptions& given) {
  CatchSetup setup;
  setup.time = parse_quantity<Time>(given.time, "--time");
  setup.repeats = given.repeats;
  setup.reading_error = given.error / 100.0;
  setup.together = !given.one_by_one;
  return setup;
}

/// One file of readings with its setting.
[[nodiscard]] inline CatchReadings catch_readings(const CatchOptions& given, const CatchSetup& setup, bool second) {
  CatchReadings r;
  r.readings = read_catch(second ? given.second : given.readings);
  r.time = setup.time;
  r.water = second ? given.second_water : given.water;
  r.reading_error = setup.cup_error();
  const std::string& gauge = second ? given.second_gauge : given.gauge;
  if (second && gauge.empty()) {
    throw InputError("--second", "at which pressure was the second catch made?",
                     "--second-gauge with what the gauge read, e.g. --second-gauge \"14 psi\"");
  }
  if (!gauge.empty()) r.gauge = parse_quantity<Pressure>(gauge, second ? "--second-gauge" : "--gauge");
  return r;
}

/// What the cups say.
struct CatchFindings {
  std::vector<CatchVerdict> verdicts;  ///< one for each file of readings
  std::optional<Diagnosis> diagnosis;  ///< none for plumbing given place by place

  /// Every row even, and the bar as a whole gives what the layout says.
  [[nodiscard]] bool good() const {
    bool all = true;
    for (const CatchVerdict& v : verdicts) all = all && v.even && !v.level.off;
    return all;
  }
};

/// Judges one or two files of readings and looks for causes. @throws InputError naming the file that is wrong
[[nodiscard]] inline CatchFindings catch_findings(const std::string& file, const Layout& layout,
                                                  const CatchOptions& given, const CatchSetup& setup) {
  std::vector<CatchReadings> catches{catch_readings(given, setup, false)};
  if (!given.second.empty()) catches.push_back(catch_readings(given, setup, true));
  // What is wrong with a reading names its own file already.
  const auto in_file = [&](auto&& work) {
    try {
      return work();
    } catch (const InputError& error) {
      const bool of_readings = error.where().starts_with(given.readings + ":") ||
                               (!given.second.empty() && error.where().starts_with(given.second + ":"));
      if (of_readings) throw;
      throw error.inside(file);
    } catch (const IllPosedError& error) {
      throw IllPosedError(file + ": " + error.what());
    }
  };
  CatchFindings found;
  for (const CatchReadings& r : catches) {
    found.verdicts.push_back(in_file([&] { return judge_catch(layout, r, setup); }));
  }
  DiagnosisSetup how;
  how.water_temperature = setup.water_temperature;
  for (const std::string& bore : given.orifices) {
    how.orifice_bores.push_back(parse_quantity<Length>(bore, "--orifices"));
  }
  if (std::holds_alternative<Toolbar>(layout.plumbing)) {
    found.diagnosis = in_file([&] { return diagnose(layout, catches, how); });
  }
  return found;
}

/// The findings for a page.
[[nodiscard]] inline PageFindings page_findings(const CatchFindings& found, const Layout& layout,
                                                const TextOptions& options) {
  return catch_findings_part(found.verdicts, found.diagnosis ? &*found.diagnosis : nullptr, layout, options);
}

}  // namespace libflow::app
