// SPDX-License-Identifier: MIT
/// @file
/// Every subcommand of the program, in the order of its help. Each is defined in `<name>_command.cpp`.
#pragma once

namespace CLI {
class App;
}

namespace libflow::app {

/// Adds a subcommand to the program. @param code  set to the exit code when the subcommand has run
using AddCommand = void (*)(CLI::App& program, int& code);

void add_solve_command(CLI::App& program, int& code);
void add_compare_command(CLI::App& program, int& code);

inline constexpr AddCommand commands[] = {add_solve_command, add_compare_command};

}  // namespace libflow::app
