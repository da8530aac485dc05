// SPDX-License-Identifier: MIT
/// @file
/// Door of the units room: typed SI quantities, text such as "14 ft" or "12 gal/ac" to a quantity, and back.
#pragma once

#include <libflow/units/quantity.hpp>  // 14.0 * ft
#include <libflow/units/quote.hpp>     // a stranger's text made safe to print
#include <libflow/units/system.hpp>    // Length -> "14.0 ft" or "4.27 m"
#include <libflow/units/table.hpp>     // the units that are read and written
#include <libflow/units/text.hpp>      // "14 ft" -> Length
