// SPDX-License-Identifier: MIT
/// @file
/// Any bytes as a layout that is solved and told: whatever can be read gets an answer or an error in words.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
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

/// Text in quotes is the layout's own and may be printed as it is: a name such as "left inf" is no number.
bool quotes_read_like_numbers(std::string_view text) {
  bool inside = false;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find_first_of("'\"", at), text.size());
    const std::string_view part = text.substr(at, end - at);
    if (inside && (part.find("nan") != std::string_view::npos || part.find("inf") != std::string_view::npos))
      return true;
    inside = !inside;
    at = end + 1;
  }
  return false;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    Layout layout = parse_layout(fuzz::text(data, size), "any.toml");
    if (!small(layout)) return 0;
    const Answer answer = main_job(std::move(layout));
    const std::string told = main_job_text(answer, {});
    const bool own_words = quotes_read_like_numbers(fuzz::text(data, size));
    for (const char* bad : {" nan", " inf", " -nan", " -inf", "(nan", "(inf"}) {
      fuzz::promise(own_words || told.find(bad) == std::string::npos, "no text shows what is no number");
    }
    fuzz::promise(!results_to_json(answer).dump().empty(), "every answer can be written as JSON");
  } catch (const Error& error) {
    fuzz::promise(*error.what() != '\0', "an error says what is wrong");
  }
  return 0;
}
