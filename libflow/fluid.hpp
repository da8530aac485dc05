// SPDX-License-Identifier: MIT
/// @file
/// Door of the fluid room: water, fertilizer solutions and the user's own liquid, against temperature.
#pragma once

#include <libflow/fluid/blend.hpp>      // blends and dilutions by mass balance
#include <libflow/fluid/catalogue.hpp>  // the built-in liquids, find_liquid("28-0-0")
#include <libflow/fluid/liquid.hpp>     // Liquid -> LiquidState at a temperature
#include <libflow/fluid/nutrients.hpp>  // nutrients in a liquid and per area
#include <libflow/fluid/property.hpp>   // a figure with its source and confidence
#include <libflow/fluid/sources.hpp>    // where the figures come from
#include <libflow/fluid/water.hpp>      // IAPWS formulas, plain SI
