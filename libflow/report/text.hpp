// SPDX-License-Identifier: MIT
/// @file
/// Answers as text for people.
#pragma once

#include <libflow/report/comparison_text.hpp>   // layouts side by side
#include <libflow/report/drawdown_text.hpp>     // one fill
#include <libflow/report/equal_hoses_text.hpp>  // do my hoses have to be equal?
#include <libflow/report/lines_text.hpp>        // filling and flushing
#include <libflow/report/main_job_text.hpp>     // one layout
#include <libflow/report/nutrients_text.hpp>    // nutrients, blends
#include <libflow/report/order_list_text.hpp>   // what to order
#include <libflow/report/size_text.hpp>         // what to buy
#include <libflow/report/verdict.hpp>           // the verdict in one sentence
#include <libflow/report/what_if_text.hpp>      // what a fault does
