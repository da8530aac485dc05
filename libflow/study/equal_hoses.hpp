// SPDX-License-Identifier: MIT
/// @file
/// Do my hoses have to be equal? The smallest drop across the orifice at which the shortest hoses are even enough.
#pragma once

#include <cstddef>
#include <limits>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/size_choices.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/toolbar/layout.hpp>

namespace libflow {

/// How even the bar is with one orifice and the shortest, or equal, hoses. SI.
struct HosesAt {
  double bore = 0;               ///< of the orifice [m]; 0: as the layout has it, none or by rating
  double orifice_drop = 0;       ///< mean of the rows [Pa]
  double pressure = 0;           ///< at the gauge [Pa]
  double deviation = 0;          ///< largest of a row from the mean, either way [-]
  int row = 0;                   ///< whose it is
  double cv = 0;                 ///< [-]
  double deviation_by_bore = 0;  ///< d deviation / d bore of all orifices [1/m]; 0 without orifices by bore
  bool exact_slope = false;      ///< deviation_by_bore is known: the junctions' losses do not count
};

/// At one operating point.
struct EqualHosesPoint {
  WorkingPoint point{};  ///< where
  double flow = 0;       ///< total [m3/s]
  /// What the shortest hoses ask for.
  enum class Need {
    some_orifice,  ///< the shortest hoses are even from `needed` on: that bore or a smaller one, that drop or a larger
    any_orifice,   ///< they are even whatever the orifice, up to the hose's own bore
    never  ///< they are not even below `give_up_pressure`: something else than hoses decides, or hoses far too thin
  };
  Need need = Need::some_orifice;  ///< what the shortest hoses ask for
  HosesAt needed{};    ///< the largest bore at which the shortest hoses are within the tolerance; any_orifice: the
                       ///< widest tried; never: the last tried
  HosesAt shortest{};  ///< with the layout's own orifice
  HosesAt equal{};     ///< with the layout's own orifice
  double limit = std::numeric_limits<double>::infinity();  ///< highest gauge pressure allowed here [Pa]

  /// True where that orifice keeps the gauge within what is allowed.
  [[nodiscard]] bool reachable() const { return need != Need::never && needed.pressure <= limit; }
};

/// The answer, at every operating point.
struct EqualHoses {
  SizeProblem problem{};                  ///< as asked
  std::vector<EqualHosesPoint> points{};  ///< one by one
  std::size_t strictest = 0;              ///< the point that asks for the smallest bore (or never)
  double hose_equal = 0;                  ///< with equal hoses, feed hoses included [m]
  double hose_shortest = 0;               ///< with the shortest [m]
  double cut_equal = 0;     ///< the same, every hose rounded up to the tape's step (SizeChoices::cut_to) [m]
  double cut_shortest = 0;  ///< the same [m]
  double cut_longest = 0;   ///< each of equal hoses, so rounded [m]
  bool have_to = false;     ///< with the layout's own orifice the shortest hoses are outside the tolerance somewhere
  /// By point, all with the strictest point's bore and the shortest hoses: one orifice for everything. Empty where no
  /// point asks for a certain bore.
  std::vector<HosesAt> with_one{};
  bool one_allowed = false;  ///< that bore keeps the gauge within what is allowed at every point
  bool complete = false;     ///< false: stopped; what is done is there

  static constexpr double give_up_pressure = 7e6;  ///< at the gauge [Pa]; no row plumbing stands it
  static constexpr double scan_ratio = 1.05;       ///< from bore to bore of the search
};

/// Answers for every operating point of `choices` (its speeds, rates, temperatures, slopes; its pressure window; its
/// `extra`); what it may choose from is not used. The search goes from wide to narrow in steps of 5 % of the bore, so
/// it finds the first bore that is even enough unless that holds over less than a step only; within the step it goes on
/// by Newton's method with the exact derivative (size_slopes.hpp), kept between the two bores.
/// @throws InputError, IllPosedError
[[nodiscard]] EqualHoses equal_hoses(const Layout& layout, SizeChoices choices = {}, const Progress& progress = {});

}  // namespace libflow
