// SPDX-License-Identifier: MIT
#include <libflow/report/cautions_text.hpp>

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <iterator>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/caution.hpp>
#include <libflow/fluid/sources.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/layout_doubts.hpp>

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
  return text;
}

bool stops_the_job(const Caution& caution) {
  static constexpr std::string_view codes[] = {
      "rate-not-reached",      "above-pump-limit",   "above-assumed-limit",    "rate-falls-short", "check-valve-shut",
      "unfed-outlet",          "row-not-reached",    "rest-not-fed",           "air-at-pump",      "air-drawn-in",
      "below-vapour-pressure", "pump-over-pressure", "above-working-pressure", "no-relief-valve",  "suction-starved",
      "regulator-cannot-hold", "below-freezing",     "below-salt-out",         "salt-with-seed",   "choked-flow",
      "other-rate-held"};
  return is_layout_doubt(caution.code) ||
         std::find(std::begin(codes), std::end(codes), caution.code) != std::end(codes);
}

namespace {

/// Cautions of one kind and text.
struct CautionGroup {
  const Caution* first;
  std::vector<std::string> subjects;
};

/// What stops the job first; otherwise in the order in which they were found.
std::vector<CautionGroup> grouped(const Cautions& cautions) {
  std::vector<CautionGroup> groups;
  for (const Caution& c : cautions) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const CautionGroup& g) {
      return g.first->code == c.code && g.first->text == c.text;
    });
    CautionGroup& group = same == groups.end() ? groups.emplace_back(CautionGroup{&c, {}}) : *same;
    if (!c.subject.empty()) group.subjects.push_back(c.subject);
  }
  std::stable_partition(groups.begin(), groups.end(), [](const CautionGroup& g) { return stops_the_job(*g.first); });
  return groups;
}

/// The row that a caution speaks of, "row 3"; 0: something else.
int row_of(const std::string& subject) {
  int row = 0;
  if (!subject.starts_with("row ")) return 0;
  const char* const end = subject.data() + subject.size();
  const auto read = std::from_chars(subject.data() + 4, end, row);
  return read.ec == std::errc() && read.ptr == end ? row : 0;
}

/// "rows 3, 4: the pressure does not open this row's check valve."
std::string group_words(const CautionGroup& group) {
  std::string who;
  std::vector<int> rows;
  for (const std::string& subject : group.subjects) {
    if (const int row = row_of(subject); row > 0) rows.push_back(row);
  }
  if (rows.size() > 1 && rows.size() == group.subjects.size()) {
    std::sort(rows.begin(), rows.end());
    rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
    return fmt::format("{}: {}{}", rows_in_words(rows), group.first->text,
                       group.first->text.ends_with('.') || group.first->text.ends_with('?') ? "" : ".");
  }
  constexpr std::size_t most = 4;
  const std::size_t count = group.subjects.size();
  for (std::size_t i = 0; i < std::min(most, count); ++i) who += (i == 0 ? "" : ", ") + group.subjects[i];
  if (count > most) who += fmt::format(" and {} more", count - most);
  std::string text = group.first->text;
  if (!text.empty() && text.back() != '.' && text.back() != '?') text += '.';
  return fmt::format("{}{}{}", who, who.empty() ? "" : ": ", text);
}

/// The source of that key, or nullptr.
const Citation* citation_of(std::string_view key) {
  const auto& all = sources();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Citation& s) { return s.key == key; });
  return found == all.end() ? nullptr : &*found;
}

/// "FFC, UNL16" as its keys; empty where one of them is no key (a sentence).
std::vector<std::string_view> keys_in(std::string_view text) {
  std::vector<std::string_view> keys;
  while (true) {
    const std::size_t end = text.find(", ");
    keys.push_back(text.substr(0, end));
    if (citation_of(keys.back()) == nullptr) return {};
    if (end == std::string_view::npos) return keys;
    text.remove_prefix(end + 2);
  }
}

/// Sources in the order in which they are first named.
class References {
 public:
  /// "[2]", the number of a source, or of a sentence that is one.
  std::string number(std::string_view source) {
    const auto known = std::find(list_.begin(), list_.end(), source);
    const auto at = static_cast<std::size_t>(known - list_.begin());
    if (known == list_.end()) list_.emplace_back(source);
    return fmt::format("[{}]", at + 1);
  }
  /// Every "[KEY]" or "[KEY, KEY]" of a text as numbers.
  std::string numbered(std::string_view text) {
    std::string out;
    while (!text.empty()) {
      const std::size_t open = text.find('[');
      out += text.substr(0, open);
      if (open == std::string_view::npos) break;
      text.remove_prefix(open);
      const std::size_t close = text.find(']');
      const auto keys =
          close == std::string_view::npos ? std::vector<std::string_view>() : keys_in(text.substr(1, close - 1));
      for (const std::string_view key : keys) out += number(key);
      if (keys.empty()) out += '[';
      text.remove_prefix(keys.empty() ? 1 : close + 1);
    }
    return out;
  }
  [[nodiscard]] std::string text(std::size_t width) const {
    std::string out;
    for (std::size_t i = 0; i < list_.size(); ++i) {
      const Citation* known = citation_of(list_[i]);
      const std::string lead = fmt::format(" [{}] ", i + 1);
      out += wrapped(known == nullptr ? list_[i] : std::string(known->title), width, lead.size(), lead);
    }
    return out;
  }

 private:
  std::vector<std::string> list_;
};

}  // namespace

std::vector<std::string> caution_groups(const Cautions& cautions) {
  std::vector<std::string> out;
  for (const CautionGroup& group : grouped(cautions)) {
    std::string text = group_words(group);
    if (!group.first->source.empty()) text += " Source: " + source_text(group.first->source) + ".";
    out.push_back(std::move(text));
  }
  return out;
}

std::string cautions_text(const Cautions& cautions, std::size_t width) {
  References references;
  std::string out;
  for (const CautionGroup& group : grouped(cautions)) {
    std::string text = references.numbered(group_words(group));
    const std::string& source = group.first->source;
    std::string behind;
    const auto keys = keys_in(source);
    for (const std::string_view key : keys) {
      const std::string number = references.number(key);
      if (text.find(number) == std::string::npos) behind += number;
    }
    if (keys.empty() && !source.empty()) behind = references.number(source);
    if (!behind.empty()) text.append(" ").append(behind);
    out += wrapped(text, width, 3, " - ");
  }
  const std::string list = references.text(width);
  return list.empty() ? out : out + " Sources of the cautions\n" + list;
}

}  // namespace report_detail

}  // namespace libflow
