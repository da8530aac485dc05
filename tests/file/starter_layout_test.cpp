// SPDX-License-Identifier: MIT
/// @file
/// The starter layout: its answers are checked one by one, by what reads a layout.

#include <string>

#include <gtest/gtest.h>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/people_limit.hpp>
#include <libflow/file/starter_layout.hpp>
#include <libflow/toolbar/layout.hpp>
#include <tests/support/errors.hpp>

namespace libflow {
namespace starter_layout_test {

/// The question of that name.
const StarterQuestion& question(std::string_view name) {
  for (const StarterQuestion& q : starter_questions) {
    if (q.name == name) return q;
  }
  throw InputError("question", std::string(name));
}

void refused(const StarterAnswers& answers, std::string_view name, const std::string& message) {
  test::expect_message([&] { check_starter_answer(answers, question(name)); }, message);
}

TEST(StarterLayout, EachAnswerIsRefusedUnderItsOwnName) {
  refused({.rows = "sixteen"}, "rows", "rows: 'sixteen' is not a whole number; allowed: a whole number, 1 to 200");
  refused({.rows = "0"}, "rows", "rows: 0 is out of range");
  refused({.rows = ""}, "rows", "rows: '' is not a whole number");
  refused({.spacing = "30"}, "spacing", "spacing: '30' has no unit");
  refused({.product = "watr"}, "product", "did you mean 'water'");
  refused({.product = "7-21-7"}, "product", "product: the viscosity of '7-21-7' is not known, and it is never guessed");
  refused({.product = "water", .temperature = "500 F"}, "temperature", "temperature: '500 F' is out of range");
  refused({.rate = "5 psi"}, "rate", "rate: '5 psi' is a pressure");
  refused({.speed = "5000 mph"}, "speed", "speed: '5000 mph' is out of range");
  refused({.speed = "a\nb"}, "speed", "plain text");
  EXPECT_NO_THROW(check_starter_answer({.product = "28%", .rate = "nonsense"}, question("product")));  // not asked yet
}

TEST(StarterLayout, SaysThatATemperatureIsAssumed) {
  const std::string assumed = starter_layout({});
  EXPECT_NE(assumed.find("temperature = \"40 F\"           # ASSUMED"), std::string::npos) << assumed;
  const std::string given = starter_layout({.temperature = "5 C"});
  EXPECT_NE(given.find("temperature = \"5 C\""), std::string::npos) << given;
  EXPECT_EQ(given.find("ASSUMED"), std::string::npos) << given;
  EXPECT_EQ(std::get<Toolbar>(parse_layout(given, "t").plumbing).rows, 16);
}

TEST(StarterLayout, EveryExampleOfAQuestionIsAnAnswer) {
  for (const StarterQuestion& q : starter_questions) {
    const std::string examples(q.example.substr(0, q.example.find(';')));
    const std::size_t other = examples.find(" or ");
    for (const std::string& answer :
         {examples.substr(0, other), other == std::string::npos ? examples : examples.substr(other + 4)}) {
      StarterAnswers answers;
      answers.*q.answer = answer;
      EXPECT_NO_THROW(check_starter_answer(answers, q)) << q.name << ": " << answer;
    }
  }
}

// A program may ask in its own language: the answer is checked, and refused under the name that it was asked by.
TEST(StarterLayout, AQuestionInOtherWordsIsCheckedToo) {
  const StarterQuestion reihen{"Reihen", "Wie viele Reihen?", "16", &StarterAnswers::rows};
  EXPECT_NO_THROW(check_starter_answer({.rows = "8"}, reihen));
  test::expect_message([&] { check_starter_answer({.rows = "0"}, reihen); }, "Reihen: 0 is out of range");
  test::expect_message([&] { check_starter_answer({.rows = "viele"}, reihen); },
                       "Reihen: 'viele' is not a whole number; allowed: a whole number, 1 to 200");
}

TEST(StarterLayout, ListsTheProductsByTheNameToWrite) {
  const std::string list = starter_products();
  EXPECT_NE(list.find("  10-34-0 "), std::string::npos) << list;
  EXPECT_NE(list.find("  water "), std::string::npos) << list;
  EXPECT_NE(list.find("(needs your viscosity)"), std::string::npos) << list;
}

TEST(PeopleLimit, IsShortAndInsideTheRange) {
  using file_detail::people_limit;
  EXPECT_EQ(people_limit(0.0039370078740157, true), "0.004");  // 0.1 mm in inches
  EXPECT_EQ(people_limit(19.685039370078741, false), "19");    // 0.5 m
  EXPECT_EQ(people_limit(1.9685, false), "1.9");
  EXPECT_EQ(people_limit(1.0936, false), "1.09");  // two digits would be 9 % off
  EXPECT_EQ(people_limit(211.99999999997, false), "212");
  EXPECT_EQ(people_limit(30.0, true), "30");
  EXPECT_EQ(people_limit(29.999999999, true), "30");
  EXPECT_EQ(people_limit(-40.0, true), "-40");
  EXPECT_EQ(people_limit(-17.78, true), "-17");
  EXPECT_EQ(people_limit(0.0, true), "0");
}

}  // namespace starter_layout_test
}  // namespace libflow
