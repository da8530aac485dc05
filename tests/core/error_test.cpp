// SPDX-License-Identifier: MIT
/// @file
/// How an error's message is put together.
#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

#include <libflow/core/error.hpp>

namespace libflow {
namespace error_test {

TEST(InputError, MessageIsComposedOfItsParts) {
  const InputError all("orifice, bore", "0 m", "5e-05 to 0.05 m", "bore");
  EXPECT_STREQ(all.what(), "orifice, bore: 0 m; allowed: 5e-05 to 0.05 m; did you mean 'bore'?");
  EXPECT_EQ(all.where(), "orifice, bore");
  EXPECT_EQ(all.what_is_wrong(), "0 m");
  EXPECT_EQ(all.allowed(), "5e-05 to 0.05 m");
  EXPECT_EQ(all.nearest(), "bore");
}

TEST(InputError, LeavesOutWhatIsEmpty) {
  EXPECT_STREQ(InputError("", "empty file").what(), "empty file");
  EXPECT_STREQ(InputError("part", "an empty id").what(), "part: an empty id");
  EXPECT_STREQ(InputError("key", "unknown", "", "rows").what(), "key: unknown; did you mean 'rows'?");
}

TEST(InputError, InsidePutsAWiderPlaceInFront) {
  const InputError field("length", "-2 m", "0 to 1 m", "x");
  const InputError line = field.inside("line 4").inside("bar.toml");
  EXPECT_STREQ(line.what(), "bar.toml: line 4: length: -2 m; allowed: 0 to 1 m; did you mean 'x'?");
  EXPECT_EQ(line.where(), "bar.toml: line 4: length");
  EXPECT_EQ(InputError("", "empty").inside("bar.toml").where(), "bar.toml");
  EXPECT_STREQ(field.what(), "length: -2 m; allowed: 0 to 1 m; did you mean 'x'?");  // the first is as it was
}

TEST(Error, OneFamily) {
  EXPECT_THROW(throw InputError("a", "b"), Error);
  EXPECT_THROW(throw IllPosedError("no way out"), Error);
  EXPECT_THROW(throw InputError("a", "b"), std::runtime_error);
}

}  // namespace error_test
}  // namespace libflow
