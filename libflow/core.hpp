// SPDX-License-Identifier: MIT
/// @file
/// Door of the core room: the few words that every other room speaks.
#pragma once

#include <libflow/core/caution.hpp>   // something a person should know
#include <libflow/core/error.hpp>     // wrong input, ill-posed network
#include <libflow/core/names.hpp>     // nearest valid name
#include <libflow/core/progress.hpp>  // how far a long study is, and how it is stopped
#include <libflow/core/range.hpp>     // valid ranges as data
