// SPDX-License-Identifier: MIT
/// @file
/// Any bytes as a layout that is solved and told: whatever can be read gets an answer or an error in words.
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>

#include <nlohmann/json.hpp>

#include <libflow/file/layout_file.hpp>
#include <libflow/file/results_json.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/study/main_job.hpp>
#include <tests/fuzz/target.hpp>

using namespace libflow;

namespace {

/// Networks of a few parts hold everything that can go wrong; large ones only take longer.
bool small(const Layout& layout) {
  if (const auto* bar = std::get_if<Toolbar>(&layout.plumbing)) return bar->rows <= 24 && bar->manifolds.size() <= 6;
  return std::get<Plumbing>(layout.plumbing).network.part_count() <= 100;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    Layout layout = parse_layout(fuzz::text(data, size), "any.toml");
    if (!small(layout)) return 0;
    const Answer answer = main_job(std::move(layout));
    const std::string told = main_job_text(answer, {});
    for (const char* bad : {" nan", " inf", " -nan", " -inf", "(nan", "(inf"}) {
      fuzz::promise(told.find(bad) == std::string::npos, "no text shows what is no number");
    }
    fuzz::promise(!results_to_json(answer).dump().empty(), "every answer can be written as JSON");
  } catch (const Error& error) {
    fuzz::promise(*error.what() != '\0', "an error says what is wrong");
  }
  return 0;
}
