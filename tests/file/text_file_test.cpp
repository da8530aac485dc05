// SPDX-License-Identifier: MIT
/// @file
/// Files in: what is no sane text is refused. Files out: whole or not at all.

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <gtest/gtest.h>

#include <libflow/file/catch_csv.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/file/text_file.hpp>
#include <tests/support/errors.hpp>

namespace text_file_test {

using namespace libflow;
using libflow::test::expect_refused;
namespace fs = std::filesystem;

/// An empty folder that goes away again.
class TextFile : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("libflow_text_file_" + std::to_string(::getpid()) + "_" +
                                           testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }
  [[nodiscard]] fs::path file(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
    return folder_ / name;
  }
  [[nodiscard]] static std::string content(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  }
  [[nodiscard]] long files() const { return std::distance(fs::directory_iterator(folder_), fs::directory_iterator()); }
  fs::path folder_;
};

TEST_F(TextFile, MissingFoldersAndLargeFilesAreRefused) {
  expect_refused([&] { (void)read_layout(folder_ / "none.toml"); }, "none.toml");
  expect_refused([&] { (void)read_layout(folder_); }, folder_.string());
  const fs::path large = file("large.toml", std::string(largest_text_file + 1, '#'));
  expect_refused([&] { (void)read_layout(large); }, "large.toml");
}

TEST_F(TextFile, ASpecialFileWithoutEndIsRefused) {
  expect_refused([] { (void)read_layout("/dev/zero"); }, "/dev/zero");
}

TEST_F(TextFile, EmptyAndBinaryFilesAreRefused) {
  expect_refused([&] { (void)read_layout(file("empty.toml", "")); }, "empty.toml");
  expect_refused([&] { (void)read_layout(file("blank.toml", " \n\t\r\n")); }, "blank.toml");
  expect_refused([&] { (void)read_layout(file("zero.toml", std::string("a = 1\n\0", 7))); }, "zero.toml:2:1");
  expect_refused([&] { (void)read_layout(file("latin.toml", "name = \"caf\xE9\"\n")); }, "latin.toml:1:12");
  expect_refused([&] { (void)read_layout(file("bell.toml", "name = \"\a\"\n")); }, "bell.toml:1:9");
  expect_refused(
      [&] {
        (void)read_layout(file("elf.toml",
                               "\x7F"
                               "ELF\x02\x01\x01"));
      },
      "elf.toml:1:1");
}

TEST(CheckText, LineAndColumnCountCharactersNotBytes) {
  expect_refused([] { check_text("a = \"äöü\" # \x01", "t"); }, "t:1:13");
  expect_refused([] { check_text("a = 1\r\nb = \x02", "t"); }, "t:2:5");
}

TEST(CheckText, DeepNestingIsRefusedBeforeItIsParsed) {
  expect_refused([] { check_text("a = " + std::string(100000, '['), "t"); }, "t:1:");
  std::string tables = "a = ";
  for (int i = 0; i < 100000; ++i) tables += "{a = ";
  expect_refused([&] { check_text(tables, "t"); }, "t:1:");
  std::string dotted = "a";
  for (int i = 0; i < 100000; ++i) dotted += ".a";
  expect_refused([&] { check_text(dotted + " = 1", "t"); }, "t:1:");
  expect_refused([&] { check_text("[" + dotted + "]", "t"); }, "t:1:");
  // A quote inside a comment, and an escaped quote inside text, must not hide structure.
  expect_refused([&] { check_text("# it's\n" + dotted + " = 1", "t"); }, "t:2:");
  expect_refused([&] { check_text("b = \"\\\"\"\n" + dotted + " = 1", "t"); }, "t:2:");
  expect_refused([&] { check_text("b = '\"' # \"\n" + dotted + " = 1", "t"); }, "t:2:");
  for (const char* line_end_for_some : {"\xE2\x80\xA8", "\xE2\x80\xA9", "\xC2\x85"}) {
    expect_refused([&] { check_text(std::string("# x") + line_end_for_some + dotted + " = 1", "t"); }, "t:1:4");
  }
}

TEST(CheckText, BracketsAndDotsInTextAndCommentsAreText) {
  const std::string many(200, '.'), open(200, '[');
  EXPECT_NO_THROW(check_text("a = \"" + many + open + "\" # " + many + open + "\nb = '" + many + open + "'\n", "t"));
}

TEST(CheckText, LettersOfOtherScriptsStandInQuotesAndComments) {
  EXPECT_NO_THROW(check_text("name = \"l'été 肥料 “so”\" # “so”, été\n'été' = 1\n", "t"));
  // Curly quotes of a text processor, a hidden space, a middle dot.
  expect_refused([] { check_text("a = 1\nname = “bar”\n", "t"); }, "t:2:8");
  expect_refused(
      [] {
        check_text(
            "a =\xC2\xA0"
            "1\n",
            "t");
      },
      "t:1:4");
  expect_refused([] { check_text("\xC2\xB7 = 1\n", "t"); }, "t:1:1");
  // A quote that begins no text hides nothing.
  expect_refused([] { check_text("a = 0\"½\"\n", "t"); }, "t:1:6");
  EXPECT_NO_THROW(check_text("a.\"b c\".'d' = [ \"é\", 'ö' ]\n[ \"t\" ]\nx = {\"k\" = \"v\", 'l'='m'}\n", "t"));
}

TEST(CheckText, AQuoteIsClosedOnItsLine) {
  expect_refused([] { check_text("a = 1\nname = \"bar\nb = 2\n", "t"); }, "t:2:8");
  expect_refused([] { check_text("name = 'bar\r\nb = 2\n", "t"); }, "t:1:8");
  expect_refused([] { check_text("name = \"bar \\\"", "t"); }, "t:1:8");  // at the end of the file; the last is escaped
  EXPECT_NO_THROW(check_text("name = \"it's\" # isn't \"it\nb = '\"'\n", "t"));
  EXPECT_NO_THROW(check_text("name\t=\t\"bar\"\n", "t")) << "a tab is a space";
  EXPECT_NO_THROW(check_text("row, volume\n# 8\" cup\n1, 8 fl oz", "t", TextKind::cups));
}

TEST(CheckText, ABackslashEscapesInDoubleQuotesOnly) {
  EXPECT_NO_THROW(check_text("a = 'C:\\'\nb = 1\n", "t"));
  expect_refused([] { check_text("a = \"C:\\\"\nb = 1\n", "t"); }, "t:1:5");
}

TEST(CheckText, TextOfSeveralLinesIsRefusedWhereItBegins) {
  expect_refused([] { check_text("a = \"\"\"x\"\"\"\n", "t"); }, "t:1:5");
  expect_refused([] { check_text("a = '''x'''\n", "t"); }, "t:1:5");
}

// A socket is there, and no folder; it cannot be opened as a file.
TEST_F(TextFile, WhatCannotBeOpenedSaysWhy) {
  const fs::path path = folder_ / "socket";
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  ASSERT_LT(path.string().size(), sizeof(address.sun_path));
  path.string().copy(address.sun_path, path.string().size());
  const int socket = ::socket(AF_UNIX, SOCK_STREAM, 0);
  ASSERT_GE(socket, 0);
  const bool bound = ::bind(socket, reinterpret_cast<const sockaddr*>(&address), sizeof(address)) == 0;
  if (bound) {
    test::expect_message([&] { (void)read_text_file(path, TextKind::layout); },
                         "cannot be read: No such device or address; allowed: a file that you may read");
  }
  ::close(socket);
  EXPECT_TRUE(bound);
}

// A process has no memory at address 0, so its own memory cannot be read from there.
TEST_F(TextFile, WhatFailsWhileItIsReadIsRefused) {
  ASSERT_TRUE(std::ifstream("/proc/self/mem").is_open()) << "of Linux, where these tests run";
  test::expect_message([] { (void)read_text_file("/proc/self/mem", TextKind::layout); },
                       "/proc/self/mem: could not be read to its end");
}

// Longer than any file system takes: nobody has to look for it.
TEST_F(TextFile, ANameThatCannotBeIsNotCalledMissing) {
  try {
    (void)read_text_file(folder_ / std::string(300, 'n'), TextKind::layout);
    FAIL() << "read";
  } catch (const InputError& e) {
    EXPECT_EQ(e.what_is_wrong(), "cannot be read: File name too long");
  }
  test::expect_message([&] { write_text_file(folder_ / std::string(300, 'n'), "x", Existing::refuse); },
                       "cannot be written: File name too long");
}

TEST_F(TextFile, WritesWholeAndRefusesToReplace) {
  const fs::path path = folder_ / "out.json";
  write_text_file(path, "first", Existing::refuse);
  EXPECT_EQ(content(path), "first");
  expect_refused([&] { write_text_file(path, "second", Existing::refuse); }, "out.json");
  EXPECT_EQ(content(path), "first");
  write_text_file(path, "third", Existing::replace);
  EXPECT_EQ(content(path), "third");
  EXPECT_EQ(files(), 1) << "a temporary file was left";
}

TEST_F(TextFile, WritesNothingWhereItCannot) {
  expect_refused([&] { write_text_file(folder_ / "no" / "out.txt", "x", Existing::replace); }, "out.txt");
  expect_refused([&] { write_text_file(folder_, "x", Existing::replace); }, folder_.string());
  expect_refused([] { write_text_file("/dev/null", "x", Existing::replace); }, "/dev/null");
  expect_refused([] { write_text_file("", "x", Existing::replace); }, "output");
  EXPECT_EQ(files(), 0);
}

TEST_F(TextFile, ReplacingThroughALinkKeepsTheLink) {
  const fs::path real = file("real.txt", "old"), link = folder_ / "link.txt";
  fs::create_symlink(real, link);
  write_text_file(link, "new", Existing::replace);
  EXPECT_TRUE(fs::is_symlink(link));
  EXPECT_EQ(content(real), "new");
}

TEST(TextOfAFile, TooLargeIsRefusedUnread) {
  const std::string large(largest_text_file + 1, ' ');
  for (const bool layout : {true, false}) {
    try {
      if (layout) {
        (void)parse_layout(large, "huge");
      } else {
        (void)parse_catch(large, "huge");
      }
      ADD_FAILURE() << "nothing thrown";
    } catch (const InputError& e) {
      EXPECT_EQ(e.where(), "huge");
      EXPECT_NE(e.what_is_wrong().find("is too large for"), std::string::npos) << e.what();
      EXPECT_EQ(e.allowed(), "at most " + std::to_string(largest_text_file) + " bytes");
    }
  }
}

}  // namespace text_file_test
