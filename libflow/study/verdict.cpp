// SPDX-License-Identifier: MIT
#include <libflow/study/verdict.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/study/layout_doubts.hpp>
#include <libflow/toolbar/ground.hpp>

namespace libflow {

VerdictState verdict_state(const Answer& answer) {
  if (!answer.solution.usable()) return VerdictState::bad;
  // A bar that is uneven over the whole band is surely so, whether the rate is reached or not.
  const bool good = answer.evenness.even && short_of_rate(answer) == nullptr;
  for (const ViscosityEnd& end : answer.viscosity_band) {
    if ((end.solved && end.even && end.stop.empty()) != good) return VerdictState::unsure;
  }
  if (!good) return VerdictState::bad;
  return layout_doubt(answer.evenness) != nullptr ? VerdictState::unsure : VerdictState::good;
}

std::string verdict_word(const Answer& answer) {
  if (!answer.solution.usable()) return "NOT SOLVED";
  return std::string(answer.evenness.even ? "EVEN" : "NOT EVEN") +
         (verdict_state(answer) == VerdictState::unsure ? ", not sure" : "");
}

std::optional<Caution> other_rate_held(const Plumbing& plumbing, const Job& job, const Evenness& e) {
  const double wanted = wanted_flow(plumbing, job), off = e.total_flow / wanted - 1.0;
  if (!(wanted > 0.0) || !(std::abs(off) > level_limit(job.tolerance))) return std::nullopt;
  return Caution{"other-rate-held",
                 "rate",
                 fmt::format("what the layout holds gives {:.3g} % {} than the wanted rate", 100.0 * std::abs(off),
                             off < 0.0 ? "less" : "more"),
                 e.total_flow,
                 wanted,
                 "the layout's own figures"};
}

const Caution* short_of_rate(const Answer& answer) {
  static constexpr std::string_view codes[] = {"above-pump-limit", "above-assumed-limit", "rate-not-reached",
                                               "other-rate-held"};
  for (const Caution& c : answer.evenness.cautions) {
    if (std::find(std::begin(codes), std::end(codes), c.code) != std::end(codes)) return &c;
  }
  return nullptr;
}

int row_that_pulls_the_mean(const std::vector<std::pair<int, double>>& rates, double tolerance) {
  if (rates.size() < 3) return 0;
  double sum = 0.0;
  for (const auto& [row, rate] : rates) sum += rate;
  const auto outside = [&](double mean, int without) {
    return std::count_if(rates.begin(), rates.end(), [&](const auto& r) {
      return r.first != without && std::abs(r.second - mean) > tolerance * mean;
    });
  };
  const double count = static_cast<double>(rates.size());
  for (const auto& [row, rate] : rates) {
    const double others = (sum - rate) / (count - 1.0);
    if (std::abs(rate - others) > tolerance * others && outside(others, row) == 0 && outside(sum / count, row) > 0) {
      return row;
    }
  }
  return 0;
}

int row_that_pulls_the_mean(const Evenness& e) {
  if (e.outside.size() < 2) return 0;
  std::vector<std::pair<int, double>> rates;
  for (const RowResult& r : e.rows) {
    if (!r.shut) rates.emplace_back(r.row, r.rate);
  }
  return row_that_pulls_the_mean(rates, e.tolerance);
}

bool changes_verdict(const Answer& a, const ViscosityEnd& end) {
  return !end.solved || end.even != a.evenness.even || end.stop.empty() != (short_of_rate(a) == nullptr);
}

bool verdict_depends_on_viscosity(const Answer& answer) {
  return std::any_of(answer.viscosity_band.begin(), answer.viscosity_band.end(),
                     [&](const ViscosityEnd& end) { return changes_verdict(answer, end); });
}

}  // namespace libflow
