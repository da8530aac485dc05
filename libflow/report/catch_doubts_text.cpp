// SPDX-License-Identifier: MIT
#include <libflow/report/catch_doubts_text.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/report/catch_text.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/words.hpp>

namespace libflow::report_detail {

static std::string cup_text(double volume, UnitSystem u) {
  return fmt::format("{} {}", cup_number(volume, u), cup_unit(u));
}
/// "Row 4", "Rows 1 to 3".
static std::string rows_at_the_start(const std::vector<int>& rows) {
  std::string text = row_list_text(rows);
  if (!text.empty()) text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text;
}
/// The reading as it was written, else in the layout's unit.
static std::string as_written(const DoubtfulReading& d, UnitSystem u) {
  return d.written.empty() ? cup_text(d.volume, u) : safe_text(d.written, 24);
}
/// What a reading is when its point is put right, in the unit in which it was written.
static std::string put_right(const DoubtfulReading& d, UnitSystem u) {
  char* rest = nullptr;
  const double number = std::strtod(d.written.c_str(), &rest);
  std::string_view unit(rest);
  while (unit.starts_with(' ')) unit.remove_prefix(1);
  // A fraction or anything else that is no plain number: in the layout's unit.
  const bool plain = number > 0.0 && !unit.empty() && std::isalpha(static_cast<unsigned char>(unit.front())) != 0;
  return plain ? fmt::format("{:.6g} {}", number / d.factor, safe_text(unit, 12)) : cup_text(d.fits, u);
}

static std::string nothing_sentence(const std::vector<DoubtfulReading>& rows, UnitSystem u) {
  std::vector<int> numbers;
  double most = 0.0;
  for (const DoubtfulReading& d : rows) {
    numbers.push_back(d.row);
    most = std::fmax(most, d.volume);
  }
  const std::string what =
      most > 0.0 ? fmt::format("almost nothing ({}{}, where {} would fit)", rows.size() > 1 ? "at most " : "",
                               rows.size() > 1 ? cup_text(most, u) : as_written(rows.front(), u),
                               cup_text(rows.front().fits, u))
                 : std::string("nothing");
  return fmt::format("{} gave {}: plugged, shut or not caught; look there and catch again.", rows_at_the_start(numbers),
                     what);
}

/// Two cups that disagree: neither is blamed.
static std::string disagree_sentence(const DoubtfulReading& d, UnitSystem u) {
  // From the mean and the ratio where it is not known how they were written.
  const double less = 2.0 * d.volume / (1.0 + d.factor);
  const std::string both =
      d.written.empty() ? cup_number(less, u) + " and " + cup_text(less * d.factor, u) : safe_text(d.written, 48);
  return fmt::format("Row {}'s {}two cups disagree ({}): one of them is not right; catch row {} again.", d.row,
                     d.whole_row ? "" : "other ", both, d.row);
}

static std::string other_sentence(const DoubtfulReading& d, UnitSystem u) {
  const std::string which = d.whole_row
                                ? fmt::format("Look at the reading{} of row {} first: ", d.cups > 1 ? "s" : "", d.row)
                                : fmt::format("Look at row {}'s readings first: ", d.row);
  const std::string read = as_written(d, u);
  switch (d.kind) {
    case ReadingDoubt::nothing:
      return which + fmt::format("one cup holds {}, its others do not: was it caught?",
                                 d.volume > 0.0 ? "almost nothing (" + read + ")" : std::string("nothing"));
    case ReadingDoubt::slipped_point:
      return which + fmt::format("{} looks like {} with a slipped decimal point{}.", read, put_right(d, u),
                                 d.factor < 1.0 && d.whole_row
                                     ? "; if it is right, the row is nearly plugged: look there and catch again"
                                     : "");
    case ReadingDoubt::other_unit:
      return which + fmt::format("{} is {:.1f} times too {}, the ratio of fl oz to ml: is its unit right?", read,
                                 std::fmax(d.factor, 1.0 / d.factor), d.factor > 1.0 ? "much" : "little");
    case ReadingDoubt::too_much:
      return which + fmt::format(
                         "{} is {:.1f} times what would fit ({}), more than the row lets through without any "
                         "orifice: read it again.",
                         read, d.share, cup_text(d.fits, u));
    case ReadingDoubt::cups_disagree:
      return disagree_sentence(d, u);
    case ReadingDoubt::repeat_apart:
      return which + fmt::format("{} is far from its other cups: spilled, or misread?", read);
  }
  return {};
}

std::vector<std::string> doubt_sentences(const CatchVerdict& v, UnitSystem u) {
  std::vector<DoubtfulReading> empty, nearly, others;
  for (const DoubtfulReading& d : v.doubts) {
    const bool row = d.kind == ReadingDoubt::nothing && d.whole_row;
    (row ? (d.volume > 0.0 ? nearly : empty) : others).push_back(d);
  }
  std::vector<std::string> out;
  if (!v.doubts.empty() && !v.doubts_set_aside) {
    out.emplace_back(
        "Too few rows would be left to set aside what is doubtful, so all readings count. Look at pump, valves and "
        "gauge "
        "first, and at the unit of the readings, and catch again.");
  }
  if (!empty.empty()) out.push_back(nothing_sentence(empty, u));
  if (!nearly.empty()) out.push_back(nothing_sentence(nearly, u));
  for (const DoubtfulReading& d : others) out.push_back(other_sentence(d, u));
  return out;
}

std::string doubts_in_short(const std::vector<DoubtfulReading>& doubts) {
  std::map<ReadingDoubt, std::vector<int>> rows;
  for (const DoubtfulReading& d : doubts) rows[d.kind].push_back(d.row);
  std::string text;
  for (const auto& [kind, of] : rows) {
    const std::string_view why = kind == ReadingDoubt::nothing         ? "nothing caught"
                                 : kind == ReadingDoubt::slipped_point ? "a slipped decimal point"
                                 : kind == ReadingDoubt::other_unit    ? "another unit"
                                 : kind == ReadingDoubt::too_much      ? "more than can be"
                                 : kind == ReadingDoubt::cups_disagree ? "two cups that disagree"
                                                                       : "a cup far from its others";
    text += fmt::format("{}{} ({})", text.empty() ? "" : ", ", row_list_text(of), why);
  }
  return text;
}

static std::string times_text(int n) { return n == 1 ? "once" : n == 2 ? "twice" : fmt::format("{} times", n); }

std::string cups_note(const CatchVerdict& v) {
  std::map<int, std::vector<int>> rows;  // by number of cups
  for (const RowCatch& c : v.rows) {
    if (c.cups > 0) rows[c.cups].push_back(c.row);
  }
  if (rows.size() < 2) return {};
  const auto most = std::max_element(rows.begin(), rows.end(),
                                     [](const auto& a, const auto& b) { return a.second.size() < b.second.size(); });
  std::string text;
  for (const auto& [cups, of] : rows) {
    if (cups == most->first) continue;
    const std::string who = text.empty() ? rows_at_the_start(of) : row_list_text(of);
    text += fmt::format("{}{} {} caught {}", text.empty() ? "" : ", ", who, of.size() == 1 ? "was" : "were",
                        times_text(cups));
  }
  return text + fmt::format(", the other rows {}: all cups of a row count, as their mean.", times_text(most->first));
}

std::string chance_text(double p) {
  if (!(p >= 1e-4)) return "less than one in 10,000";
  if (p < 0.01) {
    const double digits = std::pow(10.0, std::floor(std::log10(1.0 / p)) - 1.0);
    return fmt::format("about one in {:.0f}", std::round(1.0 / p / digits) * digits);
  }
  return sure_text(p);
}

std::string sure_text(double p) {
  if (p > 0.99) return "more than 99 %";
  if (p < 0.01) return "less than 1 %";
  return fmt::format("{:.0f} %", 100.0 * p);
}

std::vector<std::string> share_texts(const std::vector<double>& shares) {
  std::vector<long> whole;
  std::vector<double> remainder;
  for (const double s : shares) {
    whole.push_back(static_cast<long>(std::floor(100.0 * s)));
    remainder.push_back(100.0 * s - std::floor(100.0 * s));
  }
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  long left = std::min(100L, std::lround(100.0 * sum)) - std::accumulate(whole.begin(), whole.end(), 0L);
  std::vector<std::size_t> order(shares.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return remainder[a] > remainder[b]; });
  for (const std::size_t i : order) {
    if (left-- <= 0) break;
    ++whole[i];
  }
  std::vector<std::string> out;
  for (const long w : whole) {
    out.push_back(w < 1 ? "less than 1 %" : w > 99 ? "more than 99 %" : fmt::format("{} %", w));
  }
  return out;
}

}  // namespace libflow::report_detail
