// SPDX-License-Identifier: MIT
/// @file
/// Door of the file room: layout files in, results out. It brings in toml++ and nlohmann-json, so programs that need
/// one of its headers only include that one.
#pragma once

#include <libflow/file/layout_file.hpp>   // layout.toml -> Layout
#include <libflow/file/layout_keys.hpp>   // the words that a layout file may use
#include <libflow/file/results_csv.hpp>   // rows for a spreadsheet
#include <libflow/file/results_json.hpp>  // everything, for programs
#include <libflow/file/text_file.hpp>     // read whole, write whole or not at all
