// SPDX-License-Identifier: MIT
/// @file
/// Quantities inside the words of parts: both systems, by the exact units of NIST SP 811 (from memory): psi 6894.757
/// Pa, ft 0.3048 m, US fluid ounce 29.57353 mL.
#include <gtest/gtest.h>

#include <libflow/parts/words.hpp>

namespace libflow {
namespace words_test {

TEST(PartWords, BothSystems) {
  EXPECT_EQ(parts_detail::pressure_words(34473.785), "5 psi (34.5 kPa)");
  EXPECT_EQ(parts_detail::pressure_words(-689.4757), "-0.1 psi (-0.689 kPa)");
  EXPECT_EQ(parts_detail::length_words(0.5), "1.64 ft (0.5 m)");
  EXPECT_EQ(parts_detail::length_words(3.048), "10 ft (3.05 m)");
  EXPECT_EQ(parts_detail::volume_words(35e-6), "1.2 fl oz (35 mL)");
  // Never with an exponent.
  EXPECT_EQ(parts_detail::pressure_words(150.0 * 6894.757), "150 psi (1034 kPa)");
  EXPECT_EQ(parts_detail::volume_words(10.0 * 29.57353e-6), "10 fl oz (296 mL)");
  EXPECT_EQ(parts_detail::length_words(304.8), "1000 ft (305 m)");
}

}  // namespace words_test
}  // namespace libflow
