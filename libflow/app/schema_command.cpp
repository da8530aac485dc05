// SPDX-License-Identifier: MIT
/// @file
/// libflow schema: the layout file as a JSON Schema.

#include <memory>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/file/layout_schema.hpp>

namespace libflow::app {

namespace schema_command {

constexpr const char* help =
    R"(A TOML editor that knows JSON Schema completes and checks a layout with it: name the file in the editor's settings,
or in the first line of the layout where the editor reads it there: #:schema ./layout.schema.json

Example:
  libflow schema -o layout.schema.json)";

struct Given {
  OutputOptions output;
};

}  // namespace schema_command

void add_schema_command(CLI::App& program, int& code) {
  using namespace schema_command;
  CLI::App* command = program.add_subcommand("schema", "JSON Schema of a layout file, for editors");
  const auto given = std::make_shared<Given>();
  add_file_options(*command, given->output);
  command->footer(help);
  command->callback([given, &code] {
    deliver(to_text(layout_schema()), given->output);
    code = exit_even;
  });
}

}  // namespace libflow::app
