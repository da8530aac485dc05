// SPDX-License-Identifier: MIT
/// @file
/// Door of the report room: answers for people.
#pragma once

#include <libflow/report/catch_text.hpp>            // plan and verdict of a catch test
#include <libflow/report/compare_points_text.hpp>   // layouts over many operating points
#include <libflow/report/dealer_page.hpp>           // one page to print
#include <libflow/report/diagnosis_text.hpp>        // what is wrong, and what to measure next
#include <libflow/report/envelope_svg.hpp>          // a picture of speeds and rates
#include <libflow/report/envelope_text.hpp>         // the same as text
#include <libflow/report/explain_text.hpp>          // where the pressure to a row goes
#include <libflow/report/operating_point_text.hpp>  // setting, pump, limits
#include <libflow/report/setting_card_text.hpp>     // one page for the operator
#include <libflow/report/text.hpp>                  // tables and sentences for a terminal
#include <libflow/report/tolerance_text.hpp>        // how even as built
