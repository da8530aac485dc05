// SPDX-License-Identifier: MIT
/// @file
/// The version of libflow: its only home; CMake and Python read it from here.
#pragma once

#define LIBFLOW_VERSION "0.1.0"  ///< the same for the preprocessor

namespace libflow {

/// major.minor.patch
inline constexpr const char* version = LIBFLOW_VERSION;

}  // namespace libflow
