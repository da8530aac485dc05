// SPDX-License-Identifier: MIT
#include <libflow/report/cautions_text.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/caution.hpp>
#include <libflow/fluid/sources.hpp>
#include <libflow/report/words.hpp>

namespace libflow {

namespace report_detail {

std::string source_text(const std::string& keys) {
  std::string text;
  std::size_t at = 0;
  while (at <= keys.size()) {
    const std::size_t end = std::min(keys.find(", ", at), keys.size());
    const std::string_view key = std::string_view(keys).substr(at, end - at);
    const auto& all = sources();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Citation& s) { return s.key == key; });
    if (found == all.end()) return keys;  // a sentence, not a list of keys
    text += (text.empty() ? "" : "; ") + fmt::format("{} [{}]", found->title, found->key);
    at = end + 2;
  }
  return text.empty() ? keys : text;
}

std::vector<std::string> caution_groups(const Cautions& cautions) {
  struct Group {
    const Caution* first;
    std::vector<std::string> subjects;
  };
  std::vector<Group> groups;
  for (const Caution& c : cautions) {
    const auto same = std::find_if(groups.begin(), groups.end(),
                                   [&](const Group& g) { return g.first->code == c.code && g.first->text == c.text; });
    Group& group = same == groups.end() ? groups.emplace_back(Group{&c, {}}) : *same;
    if (!c.subject.empty()) group.subjects.push_back(c.subject);
  }
  std::vector<std::string> out;
  for (const Group& g : groups) {
    std::string who;
    constexpr std::size_t most = 4;
    for (std::size_t i = 0; i < std::min(most, g.subjects.size()); ++i) who += (i == 0 ? "" : ", ") + g.subjects[i];
    if (g.subjects.size() > most) who += fmt::format(" and {} more", g.subjects.size() - most);
    std::string text = g.first->text;
    if (!text.empty() && text.back() != '.') text += '.';
    if (!g.first->source.empty()) text += " Source: " + source_text(g.first->source) + ".";
    out.push_back(fmt::format("{}{}{}", who, who.empty() ? "" : ": ", text));
  }
  return out;
}

std::string cautions_text(const Cautions& cautions, std::size_t width) {
  std::string out;
  for (const std::string& group : caution_groups(cautions)) out += wrapped(group, width, 3, " - ");
  return out;
}

}  // namespace report_detail

}  // namespace libflow
