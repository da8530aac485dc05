// SPDX-License-Identifier: MIT
/// @file
/// libflow envelope: over which speeds and rates a layout works, as text, picture or data.

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/app/job_options.hpp>
#include <libflow/file/envelope_json.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/report/envelope_svg.hpp>
#include <libflow/report/envelope_text.hpp>
#include <libflow/study/envelope.hpp>

namespace libflow::app {

namespace envelope_command {

constexpr const char* envelope_help =
    R"(Two values of an axis are its ends; more are taken as they are. Without them the file's [range] is taken, and
without that, half to twice the job's speed and rate.

Examples:
  libflow envelope north_bar.toml              usable speeds, and a small map
  libflow envelope north_bar.toml -o map.svg   a picture, by the name's end
  libflow envelope north_bar.toml -o map.json  all points; or .csv
  libflow envelope north_bar.toml --speeds "2 mph, 10 mph" --grid 40x40
  libflow envelope north_bar.toml --temperatures "35 F, 60 F" -o map.svg

Exit code: 0 done, 2 bad input, 3 unsolved or ill-posed, 4 stopped.)";

struct Given {
  std::string file;
  std::vector<Speed> speeds;
  std::vector<AreaRate> rates;
  std::vector<Temperature> temperatures;
  std::vector<Angle> slopes;
  std::size_t columns = 25, lines = 17;
  bool svg = false;
  std::string control;
  OutputOptions output;
};

/// "40x30": columns by lines.
void read_grid(const std::string& text, Given& given) {
  const std::size_t x = text.find('x');
  const auto number = [&](const std::string& digits) -> std::size_t {
    if (digits.empty() || digits.size() > 4 || digits.find_first_not_of("0123456789") != std::string::npos) return 0;
    return std::stoul(digits);
  };
  given.columns = x == std::string::npos ? 0 : number(text.substr(0, x));
  given.lines = x == std::string::npos ? 0 : number(text.substr(x + 1));
  if (given.columns < 2 || given.lines < 2 || given.columns > 400 || given.lines > 400) {
    throw InputError("--grid", in_quotes(text) + " is no grid", "speeds by rates, 2x2 to 400x400, e.g. 40x30");
  }
}

EnvelopeAxes axes_of(const Layout& layout, const Given& given) {
  EnvelopeAxes axes = default_axes(layout, given.columns, given.lines);
  const auto take = [](auto& axis, const auto& list, std::size_t count, auto own) {
    if (list.empty()) return;
    axis = list.size() == 2 ? spread(list.front(), list.back(), count, own) : list;
  };
  take(axes.speeds, given.speeds, given.columns, layout.job.speed);
  take(axes.rates, given.rates, given.lines, layout.job.rate);
  axes.temperatures = given.temperatures;
  axes.side_slopes = given.slopes;
  return axes;
}

int envelope_file(Given given) {
  const Layout layout = read_layout(given.file);
  const std::string end = std::filesystem::path(given.output.path).extension().string();
  if (given.svg && given.output.format != Format::text) {
    throw InputError("--svg", "another format is asked for too", "one of --svg, --json and --csv");
  }
  if (!given.svg && given.output.format == Format::text) {
    given.svg = end == ".svg";
    if (end == ".json") given.output.format = Format::json;
    if (end == ".csv") given.output.format = Format::csv;
  }
  const Envelope e = naming(given.file, [&] {
    return envelope(layout, axes_of(layout, given), {.control = given.control}, watch(given.output));
  });
  std::string text;
  if (given.svg) {
    text = envelope_svg(e, given.output.units);
  } else if (given.output.format == Format::json) {
    text = to_text(envelope_to_json(e));
  } else if (given.output.format == Format::csv) {
    text = envelope_to_csv(e, given.output.units.value_or(layout.units));
  } else {
    text = envelope_text(e, text_options(given.output));
  }
  deliver(text, given.output);
  return e.complete ? exit_even : exit_stopped;
}

}  // namespace envelope_command

void add_envelope_command(CLI::App& program, int& code) {
  using namespace envelope_command;
  CLI::App* command =
      program.add_subcommand("envelope", "over which speeds and rates it works, as text, picture or data");
  const auto given = std::make_shared<Given>();
  command->add_option("FILE", given->file, "layout file")->required()->type_name("");
  add_list(*command, "--speeds", given->speeds, "e.g. \"2 mph, 10 mph\"");
  add_list(*command, "--rates", given->rates, "e.g. \"3 gal/ac, 9 gal/ac\"");
  add_list(*command, "--temperatures", given->temperatures, "one map for each, e.g. \"35 F, 60 F\"");
  add_list(*command, "--slopes", given->slopes, "side slopes, one map for each, e.g. \"0 %, 10 %\"");
  command
      ->add_option_function<std::string>(
          "--grid", [given](const std::string& text) { read_grid(text, *given); },
          "points of an axis given by its ends, speeds by rates; default 25x17")
      ->type_name("NxM");
  command
      ->add_option("--control", given->control,
                   "of a layout place by place: the pump, valve, regulator or supply that is moved to reach the rate")
      ->type_name("PART");
  command->add_flag("--svg", given->svg, "a picture; also where OUT ends in .svg");
  add_output_options(*command, given->output);
  command->footer(envelope_help);
  command->callback([given, &code] { code = envelope_file(*given); });
}

}  // namespace libflow::app
