// SPDX-License-Identifier: MIT
/// @file
/// Door of the study room: questions that a user asks of a toolbar.
#pragma once

#include <libflow/study/agronomy.hpp>         // nutrients, salt with the seed, test with water
#include <libflow/study/as_built.hpp>         // how even it is with its tolerances, to first order
#include <libflow/study/catch_level.hpp>      // why a whole bar collects more or less
#include <libflow/study/catch_plan.hpp>       // what the cups of a catch test should hold
#include <libflow/study/catch_screen.hpp>     // readings that cannot be right
#include <libflow/study/catch_verdict.hpp>    // what the cups say
#include <libflow/study/compare.hpp>          // layouts side by side
#include <libflow/study/compare_points.hpp>   // the same over many operating points
#include <libflow/study/cut_length.hpp>       // to what length a hose is cut
#include <libflow/study/diagnosis.hpp>        // what the cups say is wrong, and what to measure next
#include <libflow/study/drawdown.hpp>         // one fill from full to empty
#include <libflow/study/envelope.hpp>         // over which speeds and rates it works
#include <libflow/study/equal_hoses.hpp>      // do my hoses have to be equal?
#include <libflow/study/layout_doubts.hpp>    // figures of a layout that look like slips
#include <libflow/study/limits.hpp>           // how near every limit is
#include <libflow/study/lines.hpp>            // what the lines hold, filling, flushing
#include <libflow/study/main_job.hpp>         // is it even, and why not?
#include <libflow/study/operating_point.hpp>  // the setting that gives the rate
#include <libflow/study/order_list.hpp>       // what to buy and to cut
#include <libflow/study/path.hpp>             // the way to a row, part by part
#include <libflow/study/pressure_limit.hpp>   // the highest pressure: stated, or assumed
#include <libflow/study/row_inputs.hpp>       // which single inputs make a row differ
#include <libflow/study/scenarios.hpp>        // many scenarios side by side
#include <libflow/study/setting_card.hpp>     // one page for the operator
#include <libflow/study/size.hpp>             // which parts keep every limit, cheapest first
#include <libflow/study/tolerance.hpp>        // how even it will be as built, and which tolerance matters
#include <libflow/study/verdict.hpp>          // what an answer is worth: even, sure, its rate reached
#include <libflow/study/what_if.hpp>          // what a fault does, and who would notice
