// SPDX-License-Identifier: MIT
/// @file
/// A commented layout file to begin with, from five answers.
#pragma once

#include <string>

namespace libflow {

/// The five answers, as a person writes them: quantities with their unit.
struct StarterAnswers {
  std::string rows = "16";          ///< number of rows
  std::string spacing = "30 in";    ///< between rows
  std::string product = "10-34-0";  ///< name of a liquid
  std::string rate = "5 gal/ac";    ///< wanted, per area
  std::string speed = "5 mph";      ///< over ground
};

/// A layout file's text. It can be read and solved as it is.
/// @throws InputError  naming the answer that cannot be used, as parse_layout does
[[nodiscard]] std::string starter_layout(const StarterAnswers& answers);

}  // namespace libflow
