// SPDX-License-Identifier: MIT
#include <libflow/study/verdict.hpp>

#include <algorithm>
#include <string>

#include <libflow/study/metering_cautions.hpp>

namespace libflow {

VerdictState verdict_state(const Answer& answer) {
  if (!answer.solution.usable()) return VerdictState::bad;
  // A bar that is uneven over the whole band is surely so, whether the rate is reached or not.
  const bool good = answer.evenness.even && short_of_rate(answer) == nullptr;
  for (const ViscosityEnd& end : answer.viscosity_band) {
    if ((end.solved && end.even && end.stop.empty()) != good) return VerdictState::unsure;
  }
  if (!good) return VerdictState::bad;
  return metering_doubt(answer.evenness) != nullptr ? VerdictState::unsure : VerdictState::good;
}

std::string verdict_word(const Answer& answer) {
  if (!answer.solution.usable()) return "NOT SOLVED";
  return std::string(answer.evenness.even ? "EVEN" : "NOT EVEN") +
         (verdict_state(answer) == VerdictState::unsure ? ", not sure" : "");
}

const Caution* short_of_rate(const Answer& answer) {
  for (const Caution& c : answer.evenness.cautions) {
    if (c.code == "above-pump-limit" || c.code == "above-assumed-limit" || c.code == "rate-not-reached") return &c;
  }
  return nullptr;
}

bool changes_verdict(const Answer& a, const ViscosityEnd& end) {
  return !end.solved || end.even != a.evenness.even || end.stop.empty() != (short_of_rate(a) == nullptr);
}

bool verdict_depends_on_viscosity(const Answer& answer) {
  return std::any_of(answer.viscosity_band.begin(), answer.viscosity_band.end(),
                     [&](const ViscosityEnd& end) { return changes_verdict(answer, end); });
}

}  // namespace libflow
