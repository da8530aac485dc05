// SPDX-License-Identifier: MIT
/// @file
/// A commented layout file to begin with, from six answers, each of which can be checked as it is given.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace libflow {

/// What a starter layout assumes where nobody gave a temperature.
inline constexpr std::string_view starter_temperature = "40 F";

/// The answers, as a person writes them: quantities with their unit.
struct StarterAnswers {
  std::string rows = "16";          ///< number of rows
  std::string spacing = "30 in";    ///< between rows
  std::string product = "10-34-0";  ///< name of a liquid
  /// Of the liquid on the coldest day; decides most where it is thick. Empty: nobody said, and the file holds
  /// starter_temperature as an assumption to change.
  std::string temperature{};
  std::string rate = "5 gal/ac";  ///< wanted, per area
  std::string speed = "5 mph";    ///< over ground
};

/// One of the questions behind a starter layout.
struct StarterQuestion {
  std::string_view name;                ///< "rows": also the option's name
  std::string_view question;            ///< as it is asked
  std::string_view example;             ///< of an answer, with its unit
  std::string StarterAnswers::*answer;  ///< what it fills
};

/// The questions in the order in which they are asked; an answer is checked with those before it.
inline constexpr std::array<StarterQuestion, 6> starter_questions{{
    {"rows", "How many rows?", "16", &StarterAnswers::rows},
    {"spacing", "From row to row?", "30 in or 76 cm", &StarterAnswers::spacing},
    {"product", "Which product?", "10-34-0; ? lists all", &StarterAnswers::product},
    {"temperature", "How cold is the liquid on the coldest day you work?",
     "40 F or 5 C; it decides most where the "
     "liquid is thick",
     &StarterAnswers::temperature},
    {"rate", "Which rate?", "5 gal/ac or 50 L/ha", &StarterAnswers::rate},
    {"speed", "Which speed?", "5 mph or 8 km/h", &StarterAnswers::speed},
}};

/// Checks one answer, with the others as they stand (those before it checked already).
/// @throws InputError  named after the question: what is wrong with the answer, what is allowed, what is near
void check_starter_answer(const StarterAnswers& answers, const StarterQuestion& question);

/// The built-in liquids, a line each: the name to write, what it is, and whether it needs a viscosity of the user's
/// own.
[[nodiscard]] std::string starter_products();

/// A layout file's text. It can be read and solved as it is.
/// @throws InputError  naming the question whose answer cannot be used
[[nodiscard]] std::string starter_layout(const StarterAnswers& answers);

}  // namespace libflow
