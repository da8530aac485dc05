// SPDX-License-Identifier: MIT
/// @file
/// Door of the study room: questions that a user asks of a toolbar.
#pragma once

#include <libflow/study/compare.hpp>   // layouts side by side
#include <libflow/study/main_job.hpp>  // is it even, and why not?
