// SPDX-License-Identifier: MIT
/// @file
/// Simulated machines with a known fault and honest noise: does a diagnosis find it?
///
/// The cups come from an exact solve of the whole plumbing with the fault in it, not from the curves that the diagnosis
/// fits; its setup is the default. Noise: every cup is misread by a normal error, every sound row differs from its
/// neighbours by its parts, the level of a setting is off by what gauge and stop-watch are off.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/uniform_int_distribution.hpp>
#include <fmt/core.h>

#include <libflow/study/catch_fit.hpp>
#include <libflow/study/diagnosis.hpp>
#include <libflow/study/in_pieces.hpp>

namespace libflow::test {

/// Causes that only their size's name tells apart: two faults of one class have one remedy.
enum class CatchClass {
  orifice,
  hose,
  check_valve,
  swap,
  slope,
  manifold,
  liquid,
  gauge,
  measure,
  set,
  schedule,
  none
};
inline constexpr std::size_t catch_classes = 12;
inline constexpr std::array<const char*, catch_classes> catch_class_names{
    "orifice", "hose", "valve", "swap", "slope", "manifold", "liquid", "gauge", "measure", "set", "schedule", "none"};

inline CatchClass class_of(CatchCauseKind kind) {
  using Of = CatchCauseKind;
  switch (kind) {
    case Of::orifice:
    case Of::other_orifice:
      return CatchClass::orifice;
    case Of::hose_length:
    case Of::hose_bore:
      return CatchClass::hose;
    case Of::check_valve:
      return CatchClass::check_valve;
    case Of::hoses_swapped:
      return CatchClass::swap;
    case Of::side_slope:
      return CatchClass::slope;
    case Of::bar_bore:
    case Of::feed_place:
    case Of::feed_hose:
      return CatchClass::manifold;
    case Of::density:
    case Of::viscosity:
      return CatchClass::liquid;
    case Of::gauge:
      return CatchClass::gauge;
    case Of::measure:
      return CatchClass::measure;
    case Of::orifice_set:
      return CatchClass::set;
    case Of::hose_schedule:
      return CatchClass::schedule;
  }
  return CatchClass::none;
}

/// How the machines are and how they are read.
struct CatchTrials {
  std::size_t machines = 1000;
  std::uint64_t seed = 1;
  double change = 0.10;         ///< of flow by the fault: of its row, or of the row that it changes most; 0: sound
  double reading_error = 0.02;  ///< of a cup, standard deviation
  int repeats = 3;
  double part_scatter = 0.0;  ///< of sound rows, standard deviation
  bool rows_only = true;      ///< faults of single rows; false: of the whole bar and swaps, too
  int threads = 0;
};

/// What came out.
struct CatchScore {
  std::size_t machines = 0, sound = 0, faulty = 0, row_faults = 0;
  std::size_t accused = 0;         ///< sound ones that were found a cause
  std::size_t detected = 0;        ///< faulty ones that were found any cause
  std::size_t right_row = 0;       ///< row faults: the strongest cause is of that row
  std::size_t only_row = 0;        ///< and no other cause is claimed
  std::size_t named = 0;           ///< the true class is among the likely ones of the strongest cause
  std::size_t distinct = 0;        ///< detected ones whose class these readings can tell from every other
  std::size_t distinct_right = 0;  ///< of those, the most probable class is the true one
  std::size_t alike = 0;           ///< detected ones where they cannot
  std::size_t alike_named = 0;     ///< of those, the true class is among those named
  std::size_t alike_sets = 0;      ///< of those, more than one class was named: these cups fit several about as well
  std::size_t alike_single = 0;    ///< of those, one class alone was named: these cups rule out the others
  std::size_t single_right = 0;    ///< and it is the true one
  std::array<std::array<std::size_t, catch_classes>, catch_classes> confusion{};  ///< true class, most probable class

  void add(const CatchScore& o) {
    for (const auto member :
         {&CatchScore::machines, &CatchScore::sound, &CatchScore::faulty, &CatchScore::row_faults, &CatchScore::accused,
          &CatchScore::detected, &CatchScore::right_row, &CatchScore::only_row, &CatchScore::named,
          &CatchScore::distinct, &CatchScore::distinct_right, &CatchScore::alike, &CatchScore::alike_named,
          &CatchScore::alike_sets, &CatchScore::alike_single, &CatchScore::single_right}) {
      this->*member += o.*member;
    }
    for (std::size_t i = 0; i < catch_classes; ++i) {
      for (std::size_t k = 0; k < catch_classes; ++k) confusion[i][k] += o.confusion[i][k];
    }
  }
};

/// A fault with the flows that it gives.
struct CatchFaultCase {
  CatchCause cause;
  Eigen::VectorXd log_flow;  ///< by cell, exact
  double apart = 0;          ///< chi-squared by which the best cause of another class is expected to fit worse
};

/// Builds and diagnoses machines of one layout at given settings.
class CatchWorkshop {
 public:
  CatchWorkshop(Layout layout, std::vector<CatchReadings> settings, const CatchTrials& trials)
      : trials_(trials), settings_(std::move(settings)), diagnoser_(std::move(layout), settings_) {}

  /// Chi-squared apart at which two causes are mistaken for each other once in 20: the difference of two fits is normal
  /// about it with a standard deviation of twice its root.
  static constexpr double distinct_from = 4.0 * 1.6449 * 1.6449;

  [[nodiscard]] CatchScore judge(std::size_t machine) {
    boost::random::mt19937_64 dice(trials_.seed + 7919 * machine);
    CatchModel& model = diagnoser_.model();
    const CatchFaultCase* fault = nullptr;
    for (int turn = 0; trials_.change > 0.0 && fault == nullptr && turn < 50; ++turn) fault = draw(dice);
    CatchScore score;
    score.machines = 1;
    const Diagnosis d = diagnoser_.diagnose(read(fault != nullptr ? fault->log_flow : model.base(), dice), false);
    const CatchClass found = d.causes.empty() ? CatchClass::none : class_of(d.causes.front().best().kind);
    if (fault == nullptr) {
      score.sound = 1;
      score.accused = d.causes.empty() ? 0 : 1;
      ++score.confusion[static_cast<std::size_t>(CatchClass::none)][static_cast<std::size_t>(found)];
      return score;
    }
    const CatchClass truth = class_of(fault->cause.kind);
    score.faulty = 1;
    ++score.confusion[static_cast<std::size_t>(truth)][static_cast<std::size_t>(found)];
    const bool of_row = fault->cause.of_row();
    score.row_faults = of_row ? 1 : 0;
    if (d.causes.empty()) return score;
    score.detected = 1;
    const FoundCause& first = d.causes.front();
    const bool right_row = of_row && first.best().row == fault->cause.row && first.best().of_row();
    score.right_row = right_row ? 1 : 0;
    score.only_row = right_row && d.causes.size() == 1 ? 1 : 0;
    const bool named = std::any_of(first.likely.begin(), first.likely.end(),
                                   [&](const LikelyCause& l) { return class_of(l.cause.kind) == truth; });
    const bool several = std::any_of(first.likely.begin(), first.likely.end(), [&](const LikelyCause& l) {
      return class_of(l.cause.kind) != class_of(first.best().kind);
    });
    score.named = named ? 1 : 0;
    if (fault->apart >= distinct_from) {
      score.distinct = 1;
      score.distinct_right = found == truth ? 1 : 0;
    } else {
      score.alike = 1;
      score.alike_named = named ? 1 : 0;
      score.alike_sets = several ? 1 : 0;
      score.alike_single = several ? 0 : 1;
      score.single_right = !several && named ? 1 : 0;
    }
    return score;
  }

 private:
  /// A fault at random, of a size that changes flow as wanted; nothing where its part cannot.
  const CatchFaultCase* draw(boost::random::mt19937_64& dice) {
    CatchModel& model = diagnoser_.model();
    const auto up_to = [&](std::size_t n) {
      return boost::random::uniform_int_distribution<std::size_t>(0, n - 1)(dice);
    };
    CatchCause cause;
    const auto& rows = model.rows();
    const bool common = !trials_.rows_only && up_to(2) == 0;
    if (common) {
      std::vector<CatchCause> all = model.common_causes();
      all.push_back({CatchCauseKind::hoses_swapped});
      cause = all[up_to(all.size())];
      if (cause.kind == CatchCauseKind::hoses_swapped) {
        const std::size_t a = up_to(rows.size()), b = up_to(rows.size());
        if (a == b || !model.hoses_differ(rows[a], rows[b])) return nullptr;
        cause = {CatchCauseKind::hoses_swapped, rows[std::min(a, b)], rows[std::max(a, b)]};
      }
    } else {
      const auto of_row = model.row_causes(rows[up_to(rows.size())]);
      cause = of_row[up_to(of_row.size())];
    }
    const double sign = up_to(2) == 0 ? 1.0 : -1.0;
    const auto key = std::tuple(cause.kind, cause.row, cause.other, cause.manifold, sign > 0.0);
    const auto known = faults_.find(key);
    if (known != faults_.end()) return known->second ? &*known->second : nullptr;
    auto made = make(cause, sign);
    const auto& kept = faults_.emplace(key, std::move(made)).first->second;
    return kept ? &*kept : nullptr;
  }

  [[nodiscard]] std::optional<CatchFaultCase> make(CatchCause cause, double sign) {
    CatchModel& model = diagnoser_.model();
    const CatchEffect& e = model.effect(cause);
    if (e.cells.empty()) return std::nullopt;
    const auto rows = static_cast<Eigen::Index>(model.rows().size());
    // The change of the row that changes most at the first setting, with its sign.
    const auto change_at = [&](double size) -> std::optional<double> {
      cause.size = size;
      const auto exact = model.exact({cause});
      if (!exact) return std::nullopt;
      const Eigen::VectorXd change = (*exact - model.base()).head(rows);
      if (cause.of_row())
        return change[std::find(model.rows().begin(), model.rows().end(), cause.row) - model.rows().begin()];
      Eigen::Index at = 0;
      change.cwiseAbs().maxCoeff(&at);
      // Of what changes rows alike, only the level counts; of the others the difference between rows.
      return cause.kind == CatchCauseKind::side_slope ? (size > 0 ? 1.0 : -1.0) * std::abs(change[at]) : change[at];
    };
    const double target = std::log(1.0 + sign * trials_.change);
    if (e.fitted) {
      const double none = e.by_factor ? 1.0 : 0.0;
      bool reached = false;
      for (const double end : {e.sizes.front(), e.sizes.back()}) {
        const auto most = change_at(end);
        if (!most || std::abs(*most) < std::abs(target) || (*most > 0.0) != (target > 0.0)) continue;
        double in = e.abscissa(none), out = e.abscissa(end);
        for (int turn = 0; turn < 40; ++turn) {
          const double middle = 0.5 * (in + out);
          const auto c = change_at(e.size_at(middle));
          (c && std::abs(*c) < std::abs(target) ? in : out) = middle;
        }
        cause.size = e.size_at(in);
        reached = true;
        break;
      }
      if (!reached) return std::nullopt;
    } else {
      const auto most = change_at(e.sizes.front());
      if (!most || std::abs(*most) < std::abs(target)) return std::nullopt;
      cause.size = e.sizes.front();
    }
    const auto exact = model.exact({cause});
    if (!exact) return std::nullopt;
    CatchFaultCase made{.cause = cause, .log_flow = *exact};
    made.apart = apart_from_others(made);
    return made;
  }

  /// Without noise: how much worse the best cause of another class fits.
  [[nodiscard]] double apart_from_others(const CatchFaultCase& made) {
    CatchModel& model = diagnoser_.model();
    CatchData data;
    data.log_flow = made.log_flow;
    data.repeats.assign(static_cast<std::size_t>(model.cells()), trials_.repeats);
    data.error = trials_.reading_error;
    data.error_dof = 1e6;
    CatchFit fit(model, data);
    const Eigen::VectorXd residual = made.log_flow - model.base();
    std::vector<CatchCause> others = model.common_causes();
    for (const int row : model.rows()) {
      if (made.cause.row != 0 && row != made.cause.row && row != made.cause.other) continue;
      for (const CatchCause& c : model.row_causes(row)) others.push_back(c);
    }
    double least = 1e30;
    for (const CatchCause& c : others) {
      if (class_of(c.kind) == class_of(made.cause.kind)) continue;
      const CatchFit::Best b = fit.best(c, residual);
      if (b.possible) least = std::min(least, b.chi2);
    }
    return least;
  }

  [[nodiscard]] std::vector<CatchReadings> read(const Eigen::VectorXd& log_flow,
                                                boost::random::mt19937_64& dice) const {
    boost::random::normal_distribution<double> normal;
    const CatchModel& model = const_cast<CatchDiagnoser&>(diagnoser_).model();
    std::vector<CatchReadings> out = settings_;
    std::vector<double> parts;
    for (std::size_t i = 0; i < model.rows().size(); ++i) parts.push_back(1.0 + trials_.part_scatter * normal(dice));
    for (std::size_t s = 0; s < out.size(); ++s) {
      out[s].reading_error = trials_.reading_error;
      out[s].readings.clear();
      const double level = 1.0 + 0.01 * normal(dice);  // gauge 2 % of pressure, half of that in flow
      for (std::size_t i = 0; i < model.rows().size(); ++i) {
        const double volume = std::exp(log_flow[model.cell(s, i)]) * si(out[s].time) * parts[i] * level;
        for (int k = 1; k <= trials_.repeats; ++k) {
          out[s].readings.push_back({.row = model.rows()[i],
                                     .repeat = k,
                                     .volume = std::max(0.0, volume * (1.0 + trials_.reading_error * normal(dice)))});
        }
      }
    }
    return out;
  }

  CatchTrials trials_;
  std::vector<CatchReadings> settings_;
  CatchDiagnoser diagnoser_;
  std::map<std::tuple<CatchCauseKind, int, int, std::size_t, bool>, std::optional<CatchFaultCase>> faults_;
};

/// All machines, on several threads; the same whatever their number.
inline CatchScore run_catch_trials(const Layout& layout, const std::vector<CatchReadings>& settings,
                                   const CatchTrials& trials) {
  CatchScore total;
  std::mutex gather;
  in_pieces(
      trials.machines, 50, trials.threads, {}, [&] { return CatchWorkshop(layout, settings, trials); },
      [&](CatchWorkshop& workshop, std::size_t first, std::size_t last) {
        CatchScore mine;
        for (std::size_t i = first; i < last; ++i) mine.add(workshop.judge(i));
        const std::lock_guard lock(gather);
        total.add(mine);
      });
  return total;
}

/// A catch at a gauge reading; 0: none was read.
inline CatchReadings catch_setting(double psi, bool water = false) {
  CatchReadings r{.time = from_si<Time>(30.0), .water = water};
  if (psi > 0.0) r.gauge = psi * units::psi;
  return r;
}

inline double share(std::size_t part, std::size_t whole) {
  return whole == 0 ? 0.0 : static_cast<double>(part) / static_cast<double>(whole);
}

}  // namespace libflow::test
