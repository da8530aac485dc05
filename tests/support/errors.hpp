// SPDX-License-Identifier: MIT
/// @file
/// Looks at the error that a wrong input gives.
#pragma once

#include <string>

#include <gtest/gtest.h>

#include <libflow/core/error.hpp>

namespace libflow::test {

/// Expects that `act` throws InputError whose place contains `field`, that says what is allowed, and that neither
/// is empty.
template <class Act>
void expect_refused(const Act& act, const std::string& field) {
  try {
    act();
    ADD_FAILURE() << field << ": nothing thrown";
  } catch (const InputError& e) {
    EXPECT_NE(e.where().find(field), std::string::npos) << e.what();
    EXPECT_FALSE(e.what_is_wrong().empty()) << e.what();
    EXPECT_FALSE(e.allowed().empty()) << e.what();
    EXPECT_NE(std::string(e.what()).find(e.allowed()), std::string::npos) << e.what();
  }
}

/// `f` throws InputError whose whole message holds `words`.
template <class F>
void expect_message(F&& f, const std::string& words) {
  try {
    f();
    ADD_FAILURE() << "not refused: " << words;
  } catch (const InputError& e) {
    EXPECT_NE(std::string(e.what()).find(words), std::string::npos) << e.what() << "\n lacks: " << words;
  }
}

}  // namespace libflow::test
