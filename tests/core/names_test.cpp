// SPDX-License-Identifier: MIT
/// @file
/// Edit distance and the nearest valid name.
#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <vector>

#include <libflow/core/names.hpp>

namespace libflow {
namespace names_test {

TEST(EditDistance, CountsChangesOfLetters) {
  EXPECT_EQ(edit_distance("", ""), 0u);
  EXPECT_EQ(edit_distance("hose", ""), 4u);
  EXPECT_EQ(edit_distance("", "hose"), 4u);
  EXPECT_EQ(edit_distance("hose", "hose"), 0u);
  EXPECT_EQ(edit_distance("hose", "nose"), 1u);      // replace
  EXPECT_EQ(edit_distance("hose", "hoses"), 1u);     // insert
  EXPECT_EQ(edit_distance("length", "lenght"), 2u);  // two letters swapped are two changes
  // The case that most texts on this distance give: kitten, sitting, 3.
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3u);
  EXPECT_EQ(edit_distance("sitting", "kitten"), 3u);
}

TEST(EditDistance, LettersWithoutCaseAndAnyBytes) {
  EXPECT_EQ(edit_distance("Row Spacing", "row spacing"), 0u);
  EXPECT_EQ(edit_distance("\xff\x80", "\xff\x81"), 1u);
}

const std::vector<std::string> keys{"rows", "spacing", "manifold", "orifice", "check_valve", "side_slope"};

TEST(NearestName, FindsTheSlip) {
  EXPECT_EQ(nearest_name("orfice", keys), "orifice");
  EXPECT_EQ(nearest_name("Spaceing", keys), "spacing");
  EXPECT_EQ(nearest_name("checkvalve", keys), "check_valve");
  EXPECT_EQ(nearest_name("row", keys), "rows");
  EXPECT_EQ(nearest_name("rows", keys), "rows");
  EXPECT_EQ(nearest_name("rwos", keys), "rows");  // two neighbours swapped are one slip
  EXPECT_EQ(nearest_name("Spaicng", keys), "spacing");
}

TEST(NearestName, AnotherWordIsNotNear) {
  const std::vector<std::string> shells{"bash", "zsh", "fish"}, liquids{"water", "h2o"};
  EXPECT_EQ(nearest_name("tcsh", shells), "");
  EXPECT_EQ(nearest_name("foo", liquids), "");
  EXPECT_EQ(nearest_name("x", std::vector<std::string>{"a", "xy"}), "");
  EXPECT_EQ(nearest_name("bsh", shells), "bash");
  EXPECT_EQ(nearest_name("zhs", shells), "zsh");
}

TEST(NearestName, NothingNear) {
  EXPECT_EQ(nearest_name("temperature", keys), "");
  EXPECT_EQ(nearest_name("xyz", keys), "");
  EXPECT_EQ(nearest_name(std::string(65, 'r'), keys), "");
  EXPECT_EQ(nearest_name("rows", std::vector<std::string>{}), "");
}

TEST(NearestName, TheNearerOfTwoAndTheFirstOfEquals) {
  const std::vector<std::string_view> names{"hose 10", "hose 1", "hose 2"};
  EXPECT_EQ(nearest_name("hose 1x", names), "hose 10");  // one change from two names: the first
  EXPECT_EQ(nearest_name("hose 2x", names), "hose 2");
  EXPECT_EQ(nearest_name("hose 1", names), "hose 1");
}

TEST(NearestName, TwoNeighboursThatChangedPlacesAreOneSlip) {
  using names_detail::neighbours_swapped;
  EXPECT_TRUE(neighbours_swapped("rwo", "row"));
  EXPECT_TRUE(neighbours_swapped("ROw", "rwo"));
  EXPECT_FALSE(neighbours_swapped("row", "ROW")) << "the same";
  EXPECT_FALSE(neighbours_swapped("rox", "row")) << "another letter at the end";
  EXPECT_FALSE(neighbours_swapped("rwoad", "rowed")) << "and another one";
  EXPECT_FALSE(neighbours_swapped("rw", "row"));
}

}  // namespace names_test
}  // namespace libflow
