// SPDX-License-Identifier: MIT
/// @file
/// Answers as text for people.
#pragma once

#include <libflow/report/comparison_text.hpp>  // layouts side by side
#include <libflow/report/main_job_text.hpp>    // one layout
#include <libflow/report/verdict.hpp>          // the verdict in one sentence
