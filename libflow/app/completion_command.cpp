// SPDX-License-Identifier: MIT
/// @file
/// libflow completion: what a shell needs to complete commands and options.

#include <memory>
#include <string>
#include <vector>

#include <libflow/app/command.hpp>
#include <libflow/app/commands.hpp>
#include <libflow/core/names.hpp>
#include <libflow/units/quote.hpp>

namespace libflow::app {

namespace completion_command {

constexpr const char* help = R"(Examples:
  source <(libflow completion bash)                 for this shell
  libflow completion bash > ~/.local/share/bash-completion/completions/libflow
  libflow completion zsh > "${fpath[1]}/_libflow"
  libflow completion fish > ~/.config/fish/completions/libflow.fish)";

struct Given {
  std::string shell;
};

/// The long options of a command.
std::string options_of(const CLI::App& command) {
  std::string words = "--help";
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) {
      if (name != "help") words += " --" + name;
    }
  }
  return words;
}

std::string bash_script(const CLI::App& program) {
  std::string names, cases;
  for (const CLI::App* command : program.get_subcommands({})) {
    names += " " + command->get_name();
    cases += fmt::format("    {}) words=\"{}\" ;;\n", command->get_name(), options_of(*command));
  }
  return fmt::format(R"(_libflow() {{
  local current=${{COMP_WORDS[COMP_CWORD]}} words="--help --version"
  case ${{COMP_WORDS[1]}} in
{}  esac
  if ((COMP_CWORD == 1)); then
    COMPREPLY=($(compgen -W "--help --version{}" -- "$current"))
  elif [[ $current == -* ]]; then
    COMPREPLY=($(compgen -W "$words" -- "$current"))
  else
    COMPREPLY=($(compgen -f -- "$current"))
  fi
}}
complete -o filenames -F _libflow libflow
)",
                     cases, names);
}

std::string fish_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' || c == '\\' ? std::string("\\") + c : std::string(1, c);
  return out + "'";
}

std::string fish_script(const CLI::App& program) {
  std::string out;
  for (const CLI::App* command : program.get_subcommands({})) {
    const std::string name = command->get_name();
    out += fmt::format("complete -c libflow -n __fish_use_subcommand -a {} -d {}\n", name,
                       fish_quoted(command->get_description()));
    for (const CLI::Option* option : command->get_options()) {
      for (const std::string& long_name : option->get_lnames()) {
        out += fmt::format("complete -c libflow -n '__fish_seen_subcommand_from {}' -l {}{} -d {}\n", name, long_name,
                           option->get_expected_min() > 0 ? " -r" : "", fish_quoted(option->get_description()));
      }
    }
  }
  return out;
}

std::string script_for(const std::string& shell, const CLI::App& program) {
  if (shell == "bash") return bash_script(program);
  if (shell == "zsh") {
    return "#compdef libflow\nautoload -U +X bashcompinit && bashcompinit\n" + bash_script(program);
  }
  if (shell == "fish") return fish_script(program);
  const std::vector<std::string> shells{"bash", "zsh", "fish"};
  throw InputError("libflow completion", "does not know the shell " + in_quotes(shell), "bash, zsh, fish",
                   nearest_name(shell, shells));
}

}  // namespace completion_command

void add_completion_command(CLI::App& program, int& code) {
  using namespace completion_command;
  CLI::App* command = program.add_subcommand("completion", "completion of commands and options for bash, zsh, fish");
  const auto given = std::make_shared<Given>();
  command->add_option("SHELL", given->shell, "bash, zsh or fish")->required()->type_name("");
  command->footer(help);
  command->callback([given, &program, &code] {
    deliver(script_for(given->shell, program), {});
    code = exit_even;
  });
}

}  // namespace libflow::app
