// SPDX-License-Identifier: MIT
/// @file
/// What if a row plugs, an orifice is missing, a hose kinks ...: what it does to the total, to the neighbours and to
/// evenness, and whether the operator would notice.
#pragma once

#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/core/caution.hpp>
#include <libflow/core/progress.hpp>
#include <libflow/fluid/liquid.hpp>
#include <libflow/study/fault_options.hpp>
#include <libflow/study/faults.hpp>
#include <libflow/toolbar/evenness.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>

namespace libflow {

/// Which instruments show a fault.
enum class Notice { neither, gauge, meter, both };
/// In words.
[[nodiscard]] constexpr std::string_view name_of(Notice n) {
  switch (n) {
    case Notice::neither:
      return "neither";
    case Notice::gauge:
      return "gauge";
    case Notice::meter:
      return "meter";
    case Notice::both:
      return "gauge and meter";
  }
  return "unknown";
}

/// What a fault does. Changes are against the layout without fault. SI; NaN where there is no such number.
struct FaultEffect {
  std::string why_not{};  ///< why there is no answer, in plain words; empty: there is one
  std::string limit{};    ///< what keeps the controller from holding the total; empty: it holds it

  double total = 0;         ///< [m3/s]
  double gauge = 0;         ///< total gauge pressure at the supply [Pa]; NaN where shut parts cut the gauge off
  double setting = 0;       ///< of the control, SI; 0 where it has none
  double total_change = 0;  ///< [-]
  double gauge_change = 0;  ///< [Pa]; NaN as gauge
  double row_change = std::numeric_limits<double>::quiet_NaN();        ///< of the row at fault, of its rate [-]
  double neighbour_change = std::numeric_limits<double>::quiet_NaN();  ///< of the rows beside it, the larger one [-]
  double largest_change = 0;   ///< of any other running row's rate, the largest one [-]
  double cv = 0;               ///< of the rows that still run [-]; NaN where none does
  int worst_row = 0;           ///< of those, furthest from their mean
  double worst_deviation = 0;  ///< its [-]
  std::vector<int> outside{};  ///< of those, outside the tolerance
  std::vector<int> dry{};      ///< rows that no longer get anything, a section's own left out

  Notice notice = Notice::neither;  ///< which instruments show it
  Evenness evenness{};              ///< dry rows counted
  Cautions cautions{};              ///< that the layout without fault does not have

  /// True where there is an answer.
  [[nodiscard]] bool answered() const { return why_not.empty(); }
};

/// One fault, done twice.
struct FaultAnswer {
  FaultCase fault{};           ///< what goes wrong
  FaultEffect total_held{};    ///< the controller holds the total
  FaultEffect setting_kept{};  ///< the setting stays
};

/// Every fault on one layout.
struct WhatIf {
  Layout layout{};                     ///< as given
  WhatIfOptions options{};             ///< as asked
  LiquidState liquid{};                ///< at its temperature
  Plumbing plumbing{};                 ///< without fault
  Evenness base{};                     ///< without fault
  double base_total = 0;               ///< [m3/s]
  double base_setting = 0;             ///< of the control, SI; 0 where it has none
  std::string moved{};                 ///< to hold the total, e.g. "pump speed"; empty: nothing can be
  std::string kept{};                  ///< what stays otherwise
  bool has_setting = false;            ///< there is a control with a setting
  std::string base_limit{};            ///< why the rate is not reached even without fault; empty: it is
  std::vector<FaultAnswer> answers{};  ///< fault by fault
  bool complete = false;               ///< false: stopped, the rest of the answers is missing
};

/// Tries every fault twice: the controller holds the total; the setting stays. Each is the exact steady answer of the
/// solver for the layout with that one thing changed.
/// @throws InputError, IllPosedError as main_job, InputError for options out of range; a fault that leaves no answer
/// says so in FaultEffect::why_not
[[nodiscard]] WhatIf what_if(const Layout& layout, const WhatIfOptions& options = {}, const Progress& progress = {});

}  // namespace libflow
