// SPDX-License-Identifier: MIT
/// @file
/// libflow blend: density and analysis of a mix by mass balance.

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/nutrients_json.hpp>
#include <libflow/fluid/catalogue.hpp>
#include <libflow/report/nutrients_text.hpp>
#include <libflow/units/text.hpp>

namespace libflow::app {

namespace blend_command {

constexpr const char* blend_help =
    R"(Each part is an amount, "of", and a product: a volume ("10 gal of 32-0-0") or a mass ("500 lb of 10-34-0").

Examples:
  libflow blend "100 gal of 32-0-0" "19 gal of water"
  libflow blend "60 L of 10-34-0" "40 L of 28-0-0" --at "15 C" --units metric

Read the labels, and try a jar first: nothing here says that products may be mixed.
Exit code: 0 done, 2 bad input.)";

struct Given {
  std::vector<std::string> parts;
  Temperature at = from_si<Temperature>(288.7055555555556);  // 60 F, the trade's reference
  OutputOptions output;
};

BlendPart read_part(const std::string& text, Temperature at) {
  const std::string where = "part " + in_quotes(text);
  const std::size_t of = text.find(" of ");
  if (of == std::string::npos) throw InputError(where, "no product is named", "e.g. \"10 gal of 28-0-0\"");
  const Liquid& liquid = [&]() -> const Liquid& {
    try {
      return find_liquid(text.substr(of + 4));
    } catch (const InputError& error) {
      throw error.inside(where);
    }
  }();
  BlendPart part{.name = liquid.id(), .density = liquid.density_at(at), .volume = {}};
  if (liquid.analysis()) part.analysis = *liquid.analysis();
  const std::string amount = text.substr(0, of);
  try {
    part.volume = parse_quantity<Volume>(amount, where);
  } catch (const InputError& not_a_volume) {
    try {
      part.volume = from_si<Volume>(si(parse_quantity<Mass>(amount, where)) / si(part.density));
    } catch (const InputError&) {
      throw InputError(not_a_volume.where(), not_a_volume.what_is_wrong(),
                       not_a_volume.allowed() + ", or a mass such as \"100 lb\"");
    }
  }
  return part;
}

int blend_parts(const Given& given) {
  std::vector<BlendPart> parts;
  for (const std::string& text : given.parts) parts.push_back(read_part(text, given.at));
  const Blend mix = blend(parts);
  if (given.output.format == Format::json) {
    deliver(to_text(blend_to_json(parts, mix)), given.output);
  } else {
    deliver(blend_text(parts, mix, given.output.units.value_or(UnitSystem::us), output_width(given.output)),
            given.output);
  }
  return exit_even;
}

}  // namespace blend_command

void add_blend_command(CLI::App& program, int& code) {
  using namespace blend_command;
  CLI::App* command = program.add_subcommand("blend", "density and analysis of a mix or a dilution");
  const auto given = std::make_shared<Given>();
  command->add_option("PART", given->parts, "\"AMOUNT of PRODUCT\"")->required()->type_name("");
  command
      ->add_option_function<std::string>(
          "--at", [given](const std::string& text) { given->at = parse_quantity<Temperature>(text, "--at"); },
          "temperature of all parts; default 60 F")
      ->type_name("TEMPERATURE");
  add_output_options(*command, given->output, Formats::text_json);
  command->footer(blend_help);
  command->callback([given, &code] { code = blend_parts(*given); });
}

}  // namespace libflow::app
