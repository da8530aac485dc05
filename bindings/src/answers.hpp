// SPDX-License-Identifier: MIT
/// @file
/// Answers as Python objects.
#pragma once

#include <libflow/study/main_job.hpp>

#include "layout.hpp"
#include "solution.hpp"
