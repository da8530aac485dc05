// SPDX-License-Identifier: MIT
/// @file
/// The picture of where the pressure goes: the user's own names of parts, cut where they are too long for it.
#include <gtest/gtest.h>

#include <string>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/text_file.hpp>
#include <libflow/report/path_svg.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {
namespace path_svg_test {

/// The free example whose feed hose has another name.
std::string picture_with(const std::string& name) {
  std::string text = read_text_file(std::string(LIBFLOW_EXAMPLES) + "/tees.toml");
  const std::string feed = "\"feed\"";
  for (std::size_t at = text.find(feed); at != std::string::npos; at = text.find(feed, at + name.size() + 2)) {
    text.replace(at, feed.size(), "\"" + name + "\"");
  }
  return path_svg(main_job(parse_layout(text, "tees.toml")), UnitSystem::us);
}

TEST(PathSvg, LongNamesAreCutBetweenCharacters) {
  EXPECT_NE(picture_with("line to the tees").find(">line to the tees ... arm 1<"), std::string::npos)
      << "16 of at most 18";
  // 26 letters, of which the 22nd takes two bytes: 17 stay, and a point.
  const std::string cut = picture_with("Zuleitung zum alten R\u00e4hmen");
  EXPECT_NE(cut.find(">Zuleitung zum alt. ... arm 1<"), std::string::npos) << cut;
  EXPECT_EQ(cut.find("hmen"), std::string::npos);
  // The last letter that stays may take two bytes, too.
  EXPECT_NE(picture_with("Hauptleitung R\u00fcck\u00fcberlauf").find(">Hauptleitung R\u00fcck. ... arm 1<"),
            std::string::npos);
}

}  // namespace path_svg_test
}  // namespace libflow
