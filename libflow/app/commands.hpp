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

void add_new_command(CLI::App& program, int& code);
void add_check_command(CLI::App& program, int& code);
void add_solve_command(CLI::App& program, int& code);
void add_explain_command(CLI::App& program, int& code);
void add_compare_command(CLI::App& program, int& code);
void add_point_command(CLI::App& program, int& code);
void add_envelope_command(CLI::App& program, int& code);
void add_card_command(CLI::App& program, int& code);
void add_catch_command(CLI::App& program, int& code);
void add_report_command(CLI::App& program, int& code);
void add_completion_command(CLI::App& program, int& code);
void add_schema_command(CLI::App& program, int& code);
void add_whatif_command(CLI::App& program, int& code);
void add_size_command(CLI::App& program, int& code);
void add_equal_command(CLI::App& program, int& code);
void add_drawdown_command(CLI::App& program, int& code);
void add_order_command(CLI::App& program, int& code);
void add_nutrients_command(CLI::App& program, int& code);
void add_blend_command(CLI::App& program, int& code);
void add_lines_command(CLI::App& program, int& code);
void add_tolerance_command(CLI::App& program, int& code);

inline constexpr AddCommand commands[] = {
    add_new_command,         //
    add_check_command,       //
    add_solve_command,       //
    add_explain_command,     //
    add_compare_command,     //
    add_point_command,       //
    add_envelope_command,    //
    add_card_command,        //
    add_whatif_command,      //
    add_size_command,        //
    add_equal_command,       //
    add_drawdown_command,    //
    add_order_command,       //
    add_nutrients_command,   //
    add_blend_command,       //
    add_tolerance_command,   //
    add_lines_command,       //
    add_catch_command,       //
    add_report_command,      //
    add_schema_command,      //
    add_completion_command,  //
};

}  // namespace libflow::app
