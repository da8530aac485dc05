// SPDX-License-Identifier: MIT
/// @file
/// The real program, run as a user runs it: exit codes, standard output and error, files.

#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <libflow/version.hpp>
#include <tests/support/app.hpp>
#include <tests/support/text.hpp>

namespace libflow {
namespace app_test {

using namespace test;

TEST_F(App, EvenBarExitsZeroAndOpensWithTheVerdict) {
  const Outcome r = run({"solve", example("equal_hoses.toml")});
  EXPECT_EQ(r.code, 0) << r.err;
  // At the most likely viscosity; the thick end of its band would need too much pressure.
  EXPECT_EQ(r.out.rfind("EVEN, not sure: ", 0), 0U) << r.out;
  EXPECT_EQ(r.err, "");
  EXPECT_TRUE(holds(r.out, "\n  16 ")) << r.out;
  EXPECT_FALSE(holds(r.out, "\x1b")) << "colour without a terminal";
}

TEST_F(App, UnevenBarExitsOneAndNamesTheHoses) {
  const Outcome r = run({"solve", example("short_hoses.toml")});
  EXPECT_EQ(r.code, 1) << r.err;
  EXPECT_EQ(r.out.rfind("NOT EVEN: ", 0), 0U) << r.out;
  EXPECT_TRUE(holds(r.out.substr(0, r.out.find("\n\n")), "hose lengths")) << r.out;
  EXPECT_EQ(r.err, "");
}

TEST_F(App, CompareExitsZeroAndNamesTheEvenerOne) {
  const Outcome r = run({"compare", example("short_hoses.toml"), example("equal_hoses.toml")});
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_EQ(r.out.rfind("'North bar, all hoses 22 ft' is evener than 'North bar, shortest hoses'", 0), 0U) << r.out;
  EXPECT_TRUE(holds(r.out, "Hose to cut")) << r.out;
}

TEST_F(App, LinesFitOneHundredColumns) {
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"solve", example("turn_on_a_hill.toml")},
        std::vector<std::string>{"solve", example("free_form.toml"), "--units", "metric"},
        std::vector<std::string>{"compare", example("equal_hoses.toml"), example("short_hoses.toml"),
                                 example("equal_hoses.toml")}}) {
    std::istringstream in(run(arguments).out);
    int lines = 0;
    for (std::string line; std::getline(in, line); ++lines) {
      std::size_t columns = 0;
      for (const char c : line) columns += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1U : 0U;
      EXPECT_LE(columns, 100U) << line;
    }
    EXPECT_GT(lines, 15);
  }
}

TEST_F(App, JsonIsJsonWhateverTheVerdict) {
  for (const char* name :
       {"equal_hoses.toml", "short_hoses.toml", "turn_on_a_hill.toml", "free_form.toml", "tees.toml"}) {
    const Outcome r = run({"solve", example(name), "--json"});
    const nlohmann::json j = nlohmann::json::parse(r.out);
    EXPECT_EQ(j.at("solution").at("status"), "converged") << name;
    EXPECT_EQ(r.code, j.at("evenness").at("even").get<bool>() ? 0 : 1) << name;
    EXPECT_EQ(r.err, "");
    // What flows out is what the job asks for: rate x speed x width, rows together.
    double wanted = 0.0, got = 0.0;
    for (const auto& row : j.at("evenness").at("rows")) {
      wanted += j.at("job").at("rate_m3_per_m2").get<double>() * row.at("speed_m_per_s").get<double>() *
                row.at("width_m").get<double>();
      got += row.at("flow_m3_per_s").get<double>();
    }
    EXPECT_NEAR(got / wanted, 1.0, 1e-9) << name;
  }
  const Outcome both = run({"compare", example("equal_hoses.toml"), example("short_hoses.toml"), "--json"});
  EXPECT_EQ(both.code, 0);
  EXPECT_EQ(nlohmann::json::parse(both.out).at("layouts").size(), 2U);
}

TEST_F(App, CsvHasAHeadingAndALineARow) {
  const Outcome r = run({"solve", example("equal_hoses.toml"), "--csv", "--units", "metric"});
  EXPECT_EQ(r.code, 0);
  std::size_t lines = 0;
  for (const char c : r.out) lines += c == '\n' ? 1U : 0U;
  EXPECT_EQ(lines, 17U);
  EXPECT_TRUE(holds(r.out, "rate (L/ha)")) << r.out;
}

TEST_F(App, UnitsAreChosenByTheUser) {
  EXPECT_TRUE(holds(run({"solve", example("equal_hoses.toml")}).out, "gal/ac"));
  const std::string metric = run({"solve", example("equal_hoses.toml"), "--units", "metric"}).out;
  EXPECT_TRUE(holds(metric, "L/ha"));
  EXPECT_FALSE(holds(metric, "gal/ac"));
}

TEST_F(App, OutputGoesWholeIntoAFileThatIsNotReplaced) {
  const Outcome first = run({"solve", example("equal_hoses.toml"), "--json", "-o", "rows.json"});
  EXPECT_EQ(first.code, 0) << first.err;
  EXPECT_EQ(first.out, "");
  const std::string written = content(folder_ / "work" / "rows.json");
  EXPECT_EQ(nlohmann::json::parse(written).at("libflow"), libflow::version);

  const Outcome again = run({"solve", example("short_hoses.toml"), "-o", "rows.json"});
  EXPECT_EQ(again.code, 2);
  EXPECT_TRUE(holds(again.err, "--force")) << again.err;
  EXPECT_EQ(content(folder_ / "work" / "rows.json"), written);

  EXPECT_EQ(run({"solve", example("short_hoses.toml"), "-o", "rows.json", "--force"}).code, 1);
  EXPECT_EQ(content(folder_ / "work" / "rows.json").rfind("NOT EVEN", 0), 0U);
  EXPECT_EQ(std::distance(fs::directory_iterator(folder_ / "work"), fs::directory_iterator()), 1);
}

TEST_F(App, HelpAndVersionExitZero) {
  const Outcome help = run({"--help"});
  EXPECT_EQ(help.code, 0);
  for (const char* part : {"solve", "compare", "Examples:", "Exit code"}) EXPECT_TRUE(holds(help.out, part)) << part;
  for (const char* command : {"solve", "compare"}) {
    const Outcome r = run({command, "--help"});
    EXPECT_EQ(r.code, 0);
    for (const char* part : {"--json", "--csv", "--units", "--force", "Examples:"}) {
      EXPECT_TRUE(holds(r.out, part)) << part;
    }
  }
  const Outcome v = run({"--version"});
  EXPECT_EQ(v.code, 0);
  EXPECT_EQ(v.out, std::string("libflow ") + libflow::version + "\n");
}

TEST_F(App, AWrongCommandLineExitsTwo) {
  expect_refused(run({}), 2, "--help");
  expect_refused(run({"slove", "x.toml"}), 2, "Did you mean 'solve'?");
  expect_refused(run({"solve"}), 2, "FILE");
  expect_refused(run({"solve", example("equal_hoses.toml"), "--jsno"}), 2, "Did you mean '--json'?");
  expect_refused(run({"solve", example("equal_hoses.toml"), "--json", "--csv"}), 2, "--csv");
  expect_refused(run({"solve", example("equal_hoses.toml"), "--units", "imperial"}), 2, "us or metric");
  expect_refused(run({"solve", example("equal_hoses.toml"), "--force"}), 2, "--output");
  expect_refused(run({"compare", example("equal_hoses.toml")}), 2, "2 required");
}

TEST_F(App, ABadFileExitsTwoAndWritesNothing) {
  expect_refused(run({"solve", "missing.toml", "-o", "out.txt"}), 2, "missing.toml: there is no such file");
  expect_refused(run({"solve", folder_.string(), "-o", "out.txt"}), 2, "is a folder");
  expect_refused(run({"solve", file("empty.toml", ""), "-o", "out.txt"}), 2, "is empty");
  expect_refused(run({"solve", file("binary.toml", std::string("\0\1\2", 3)), "-o", "out.txt"}), 2, "binary");
  expect_refused(run({"solve", file("deep.toml", "a = " + std::string(1 << 20, '[')), "-o", "out.txt"}), 2, "deep");
  expect_refused(run({"compare", example("equal_hoses.toml"), "missing.toml", "-o", "out.txt"}), 2, "missing.toml");
}

TEST_F(App, ABadValueExitsTwoWithItsLine) {
  struct Case {
    const char *from, *to, *message;
  };
  for (const Case& c :
       {Case{"\"22 ft\"", "\"0 ft\"", "[hose] length: '0 ft' is out of range"},
        Case{"\"22 ft\"", "\"-22 ft\"", "[hose] length: '-22 ft' is out of range"},
        Case{"\"22 ft\"", "nan", "[hose] length: nan"}, Case{"\"22 ft\"", "22", "[hose] length: 22 has no unit"},
        Case{"\"22 ft\"", "\"22 psi\"", "a pressure"},
        Case{"bore = \"1/4 in\"", "bore = \"0 in\"", "[hose] bore: '0 in'"},
        Case{"bore = \"1/4 in\"", "bore = \"-1/4 in\"", "[hose] bore: '-1/4 in'"},
        Case{"length = ", "lenght = ", "did you mean 'length'?"}, Case{"10-34-0", "10-43-0", "did you mean '10-34-0'?"},
        Case{"rows = 16", "rows = 1000000000", "[toolbar] rows: 1000000000 is out of range"}}) {
    const std::string path = changed(c.from, c.to);
    const Outcome r = run({"solve", path, "-o", "out.txt"});
    expect_refused(r, 2, c.message);
    EXPECT_TRUE(holds(r.err, path + ":")) << r.err;
  }
}

TEST_F(App, WhatShowsOnlyWhileBuildingNamesTheFileToo) {
  const std::string gap = changed("[[manifold]] ", "[[manifold]]\nlast_row = 15\n#");
  expect_refused(run({"solve", gap}), 2, "row 16");
  EXPECT_TRUE(holds(run({"solve", gap}).err, gap)) << gap;
  const std::string twice = changed("[[manifold]] ",
                                    "[[manifold]]\nfeed_length = \"1 ft\"\n[[manifold]]\n"
                                    "first_row = 16\nfeed_length = \"1 ft\"\n#");
  expect_refused(run({"solve", twice}), 2, "row 16");
  const std::string turn = changed("[toolbar]", "turn = \"left\"\nturn_radius = \"10 ft\"\n[toolbar]");
  expect_refused(run({"solve", turn}), 2, "turn radius");
}

TEST_F(App, LayoutsOfDifferentToolbarsAreNotCompared) {
  expect_refused(run({"compare", example("equal_hoses.toml"), example("turn_on_a_hill.toml")}), 2, "rows");
}

constexpr const char* free_job =
    "\n[job]\nproduct = \"water\"\ntemperature = \"60 F\"\nrate = \"10 gal/ac\"\nspeed = \"6 mph\"\n";

TEST_F(App, PlumbingWithoutASourceOrWithAnUnreachableRowIsRefused) {
  const std::string no_source =
      "place = [ { id = \"a\", kind = \"junction\" }, "
      "  { id = \"row 1\", kind = \"air\", row = 1, width = \"30 in\" } ]\n"
      "part = [ { id = \"h\", kind = \"hose\", from = \"a\", to = \"row 1\", "
      "length = \"9 ft\", bore = \"1/4 in\" } ]\n";
  expect_refused(run({"solve", file("no_source.toml", no_source + free_job)}), 2, "nothing feeds the plumbing");

  const std::string unreachable =
      "place = [ { id = \"pump\", kind = \"supply\", pressure = \"20 psi\" }, { id = \"lost\", kind = \"junction\" },\n"
      "  { id = \"row 1\", kind = \"air\", row = 1, width = \"30 in\" },\n"
      "  { id = \"row 2\", kind = \"air\", row = 2, width = \"30 in\" } ]\n"
      "part = [ { id = \"h1\", kind = \"hose\", from = \"pump\", to = \"row 1\", "
      "length = \"9 ft\", bore = \"1/4 in\" },\n"
      "  { id = \"h2\", kind = \"hose\", from = \"lost\", to = \"row 2\", length = \"9 ft\", bore = \"1/4 in\" } ]\n";
  const Outcome r = run({"solve", file("unreachable.toml", unreachable + free_job), "-o", "out.txt"});
  expect_refused(r, 3, "unreachable.toml");
  EXPECT_TRUE(holds(r.err, "'lost'") || holds(r.err, "'row 2'")) << r.err;
}

TEST_F(App, AFullDiskOrAClosedOutputIsSaid) {
  ASSERT_TRUE(fs::exists("/dev/full"));
  const std::string command = in_shell_quotes(LIBFLOW_APP) + " solve " + in_shell_quotes(example("equal_hoses.toml")) +
                              " >/dev/full 2>" + in_shell_quotes((folder_ / "err").string());
  const int status = std::system(command.c_str());
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 2);
  EXPECT_TRUE(holds(content(folder_ / "err"), "standard output: cannot be written")) << content(folder_ / "err");
}

}  // namespace app_test
}  // namespace libflow
