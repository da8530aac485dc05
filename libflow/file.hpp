// SPDX-License-Identifier: MIT
/// @file
/// Door of the file room: layout files in, results out. It brings in nlohmann-json, so programs that need one of its
/// headers only include that one.
#pragma once

#include <libflow/file/calibrated_layout.hpp>     // a layout file as the bar was built
#include <libflow/file/catch_csv.hpp>             // cups
#include <libflow/file/catch_json.hpp>            // plan and verdict of a catch test
#include <libflow/file/compare_points_json.hpp>   // layouts over many operating points
#include <libflow/file/diagnosis_json.hpp>        // what is wrong, for programs
#include <libflow/file/drawdown_json.hpp>         // one fill, JSON and CSV
#include <libflow/file/envelope_json.hpp>         // speeds and rates, JSON and CSV
#include <libflow/file/layout_file.hpp>           // layout.toml -> Layout
#include <libflow/file/layout_keys.hpp>           // the words that a layout file may use
#include <libflow/file/layout_schema.hpp>         // its words as a JSON Schema
#include <libflow/file/layout_size.hpp>           // its [size] -> SizeChoices
#include <libflow/file/lines_json.hpp>            // what the lines hold, JSON and CSV
#include <libflow/file/nutrients_json.hpp>        // nutrients and blends, JSON and CSV
#include <libflow/file/operating_point_json.hpp>  // setting, pump, limits
#include <libflow/file/order_list_json.hpp>       // the order list, JSON and CSV
#include <libflow/file/path_json.hpp>             // the way to a row
#include <libflow/file/results_csv.hpp>           // rows for a spreadsheet
#include <libflow/file/results_json.hpp>          // everything, for programs
#include <libflow/file/setting_card_json.hpp>     // the card as data
#include <libflow/file/size_json.hpp>             // sizing and equal hoses, for programs
#include <libflow/file/starter_layout.hpp>        // a layout file to begin with
#include <libflow/file/text_file.hpp>             // read whole, write whole or not at all
#include <libflow/file/tolerance_json.hpp>        // as built, for programs
#include <libflow/file/what_if_json.hpp>          // faults, for programs
