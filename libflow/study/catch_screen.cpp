// SPDX-License-Identifier: MIT
#include <libflow/study/catch_screen.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <libflow/study/catch_readings.hpp>
#include <libflow/units/quantity.hpp>

namespace libflow {

namespace catch_detail {

/// Beyond this |M| a value is a likely outlier (Iglewicz and Hoaglin).
static constexpr double outlier_score = 3.5;
/// The 0.75 quantile of the normal distribution, to the digits of the source.
static constexpr double normal_quartile = 0.6745;
/// How near to a slip's factor a reading must be: sound rows and what a person reads differ by less (common practice,
/// no source) [-].
static constexpr double slip_width = 0.15;
/// A repeat is apart where it is off its row's others by more than this: spilled, or misread (common practice, no
/// source) [-].
static constexpr double repeat_width = 0.25;
/// How far apart, beyond their spread, two cups of a row are that cannot both be right: with no third one to tell
/// which, nothing is lost by catching the row again. Common practice, no source.
static constexpr double pair_width = 0.15;

static double middle(std::vector<double> x) {
  std::sort(x.begin(), x.end());
  const std::size_t half = x.size() / 2;
  return x.size() % 2 == 1 ? x[half] : 0.5 * (x[half - 1] + x[half]);
}

struct Doubt {
  ReadingDoubt kind = ReadingDoubt::nothing;
  double share = 0, score = 0, factor = 1;
};

/// What is doubtful in a reading of this share of what fits, by itself.
static std::optional<Doubt> doubt_of(double share, double score, const std::function<double()>& most) {
  const double unit = si(units::floz) / si(units::mL);
  const auto near = [&](double factor) { return std::abs(std::log(share / factor)) < std::log(1.0 + slip_width); };
  if (share > 0.0 && std::abs(score) > outlier_score) {
    for (const double factor : {unit, 1.0 / unit}) {
      if (near(factor)) return Doubt{ReadingDoubt::other_unit, share, score, factor};
    }
    for (const double factor : {10.0, 100.0, 0.1}) {
      if (near(factor)) return Doubt{ReadingDoubt::slipped_point, share, score, factor};
    }
  }
  if (share == 0.0 || (share < nothing_share && score < -outlier_score)) {
    return Doubt{ReadingDoubt::nothing, share, score};
  }
  if (share > 1.0 + repeat_width && score > outlier_score && share > (1.0 + slip_width) * most())
    return Doubt{ReadingDoubt::too_much, share, score};
  return std::nullopt;
}

/// Readings far from the others of their row, where it has three or more that are not doubted already.
static void doubt_repeats(const std::map<int, std::vector<std::size_t>>& rows, const std::vector<double>& shares,
                          double error, std::vector<std::optional<Doubt>>& doubts) {
  std::vector<std::size_t> of;
  std::vector<double> apart;
  std::vector<std::pair<std::size_t, std::size_t>> groups;  // first in `of`, and how many
  for (const auto& [row, cups] : rows) {
    std::vector<double> logs;
    std::vector<std::size_t> sound;
    for (const std::size_t i : cups) {
      if (doubts[i]) continue;
      logs.push_back(std::log(shares[i]));
      sound.push_back(i);
    }
    if (logs.size() < 3) continue;
    const double centre = middle(logs);
    groups.emplace_back(of.size(), sound.size());
    for (std::size_t k = 0; k < sound.size(); ++k) {
      of.push_back(sound[k]);
      apart.push_back(logs[k] - centre);
    }
  }
  if (of.empty()) return;
  const std::vector<double> scores = modified_z_scores(apart, normal_quartile * error);
  for (const auto& [first, count] : groups) {
    std::vector<std::size_t> far;
    for (std::size_t k = first; k < first + count; ++k) {
      if (std::abs(scores[k]) > outlier_score && std::abs(std::expm1(apart[k])) > repeat_width) far.push_back(k);
    }
    if (2 * far.size() >= count) continue;  // which of them is right?
    for (const std::size_t k : far) doubts[of[k]] = Doubt{ReadingDoubt::repeat_apart, shares[of[k]], scores[k]};
  }
}

/// Two cups of a row, all that is left of it, that are further apart than repeats are: neither can be called wrong.
static void doubt_pairs(const std::map<int, std::vector<std::size_t>>& rows, const std::vector<double>& shares,
                        double error, std::vector<std::optional<Doubt>>& doubts) {
  std::map<int, std::vector<double>> gaps;  // by row: between each cup and the next
  std::map<int, std::vector<std::size_t>> sound;
  for (const auto& [row, cups] : rows) {
    for (const std::size_t i : cups) {
      if (doubts[i]) continue;
      if (!sound[row].empty()) gaps[row].push_back(std::abs(std::log(shares[i] / shares[sound[row].back()])));
      sound[row].push_back(i);
    }
  }
  for (const auto& [row, cups] : sound) {
    if (cups.size() != 2) continue;
    std::vector<double> others;
    for (const auto& [other, between] : gaps) {
      if (other != row) others.insert(others.end(), between.begin(), between.end());
    }
    // The difference of two readings has sqrt(2) times the error of one; its median size is 0.6745 of that.
    const double given = std::sqrt(2.0) * error;
    const double usual = others.empty() ? given : std::max(given, middle(std::move(others)) / normal_quartile);
    const double gap = gaps[row].front();
    if (!(gap > outlier_score * usual) || !(gap > std::log(1.0 + pair_width))) continue;
    for (const std::size_t i : cups) {
      doubts[i] = Doubt{ReadingDoubt::cups_disagree, shares[i], gap / usual, std::exp(gap)};
    }
  }
}

/// "3.0 and 9.8 fl oz", or with both units where they differ; empty where one is not known as it was written.
static std::string both_written(const std::string& a, const std::string& b) {
  if (a.empty() || b.empty()) return {};
  const std::size_t unit = a.find(' '), same = b.find(' ');
  const bool once = unit != std::string::npos && same != std::string::npos && a.substr(unit) == b.substr(same);
  return (once ? a.substr(0, unit) : a) + " and " + b;
}

}  // namespace catch_detail

const char* name_of(ReadingDoubt doubt) {
  switch (doubt) {
    case ReadingDoubt::nothing:
      return "nothing";
    case ReadingDoubt::slipped_point:
      return "slipped-point";
    case ReadingDoubt::other_unit:
      return "other-unit";
    case ReadingDoubt::too_much:
      return "too-much";
    case ReadingDoubt::repeat_apart:
      return "repeat-apart";
    case ReadingDoubt::cups_disagree:
      return "cups-disagree";
  }
  return "unknown";
}

std::vector<double> modified_z_scores(const std::vector<double>& x, double least_mad) {
  using namespace catch_detail;
  if (x.empty()) return {};
  const double centre = middle(x);
  std::vector<double> off;
  for (const double v : x) off.push_back(std::abs(v - centre));
  const double mad = std::max(middle(off), least_mad);
  std::vector<double> out;
  for (const double v : x) out.push_back(mad > 0.0 ? normal_quartile * (v - centre) / mad : 0.0);
  return out;
}

CatchScreen screen_catch(const CatchReadings& readings, const std::map<int, double>& expected,
                         const std::function<double(int)>& most) {
  using namespace catch_detail;
  CatchScreen screen;
  screen.kept = readings;
  const std::vector<CatchReading>& cups = readings.readings;
  std::map<int, std::vector<std::size_t>> rows;
  for (std::size_t i = 0; i < cups.size(); ++i) {
    const auto row = expected.find(cups[i].row);
    if (row != expected.end() && row->second > 0.0) rows[cups[i].row].push_back(i);
  }
  // The rows by the middle one of their cups, of those that gave anything.
  std::vector<double> logs;
  for (const auto& [row, of] : rows) {
    std::vector<double> volumes;
    for (const std::size_t i : of) volumes.push_back(cups[i].volume);
    const double volume = middle(std::move(volumes));
    if (volume > 0.0) logs.push_back(std::log(volume / expected.at(row)));
  }
  if (logs.empty()) return screen;  // every cup is empty
  const double centre = middle(logs);
  std::vector<double> off;
  for (const double x : logs) off.push_back(std::abs(x - centre));
  const double mad = std::max(middle(off), normal_quartile * readings.reading_error);

  std::vector<double> shares(cups.size(), 1.0);
  std::vector<std::optional<Doubt>> doubts(cups.size());
  for (const auto& [row, of] : rows) {
    for (const std::size_t i : of) {
      shares[i] = cups[i].volume / (expected.at(row) * std::exp(centre));
      const double score = normal_quartile * std::log(std::max(shares[i], nothing_share / 16.0)) / mad;
      doubts[i] = doubt_of(shares[i], score, [&, number = row] { return most ? most(number) : too_much_share; });
    }
  }
  doubt_repeats(rows, shares, readings.reading_error, doubts);
  doubt_pairs(rows, shares, readings.reading_error, doubts);

  std::size_t left = 0;
  for (const auto& [row, of] : rows) {
    std::map<ReadingDoubt, std::vector<std::size_t>> kinds;
    for (const std::size_t i : of) {
      if (doubts[i]) kinds[doubts[i]->kind].push_back(i);
    }
    std::size_t doubted = 0;
    for (const auto& [kind, which] : kinds) {
      const CatchReading& first = cups[which.front()];
      const Doubt& why = *doubts[which.front()];
      DoubtfulReading d{.kind = kind, .row = row, .cups = static_cast<int>(which.size())};
      d.whole_row = which.size() == of.size();
      for (const std::size_t i : which) {
        d.volume += cups[i].volume / static_cast<double>(which.size());
        d.share += shares[i] / static_cast<double>(which.size());
      }
      d.factor = why.factor;
      const bool disagree = kind == ReadingDoubt::cups_disagree;
      d.fits = why.factor != 1.0 && !disagree ? d.volume / why.factor : expected.at(row) * std::exp(centre);
      d.score = why.score;
      d.where = first.where;
      d.written = disagree ? both_written(first.written, cups[which.back()].written) : first.written;
      screen.doubts.push_back(std::move(d));
      doubted += which.size();
    }
    if (doubted < of.size()) {
      ++left;
    } else {
      screen.rows.push_back(row);
    }
  }
  screen.set_aside = left >= 2 && 2 * left >= rows.size();
  if (!screen.set_aside) {
    screen.rows.clear();
    return screen;
  }
  screen.kept.readings.clear();
  for (std::size_t i = 0; i < cups.size(); ++i) {
    if (!doubts[i]) screen.kept.readings.push_back(cups[i]);
  }
  return screen;
}

}  // namespace libflow
