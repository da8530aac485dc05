// SPDX-License-Identifier: MIT
/// @file
/// Door of the report room: answers for people.
#pragma once

#include <libflow/report/text.hpp>  // tables and sentences for a terminal
