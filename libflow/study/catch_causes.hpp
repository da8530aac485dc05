// SPDX-License-Identifier: MIT
/// @file
/// What may be wrong with a bar that was built from a layout: each cause is one change to the layout with one size.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include <libflow/toolbar.hpp>

namespace libflow {

/// Kind of a cause, and what its size means.
enum class CatchCauseKind {
  orifice,        ///< a row's hole worn or partly plugged; bore over the layout's bore [-]
  other_orifice,  ///< another orifice of the list was fitted in a row; its bore [m]
  hose_length,    ///< a row's hose was cut to another length; over the layout's length [-]
  hose_bore,      ///< a row's hose is kinked or of another bore; over the layout's bore [-]
  check_valve,    ///< a row's valve sticks or is weak; its crack pressure less the layout's [Pa]
  hoses_swapped,  ///< two rows have each other's hose; no size
  side_slope,     ///< the bar leans; its slope less the layout's [rad]
  bar_bore,       ///< a manifold is constricted; bore over the layout's bore [-]
  feed_place,     ///< a manifold is fed elsewhere; ManifoldFeed as a number
  feed_hose,      ///< a manifold's feed hose is constricted; bore over the layout's bore [-]
  density,        ///< of the product; over the layout's [-]
  viscosity,      ///< of the product; over the layout's [-]
  gauge,          ///< the gauge is off, or something behind it takes pressure; at the bar over its reading [-]
  measure,        ///< the watch or the measure is off, alike for every cup; as read over what was there [-]
  orifice_set,    ///< all rows have another orifice; bore over the layout's bore [-]
  hose_schedule   ///< all hoses follow the other of the usual schedules: 0 the layout's lengths, 1 the other's [-]
};

/// A word for programs.
[[nodiscard]] constexpr std::string_view name_of(CatchCauseKind kind) {
  constexpr std::string_view names[] = {"orifice",     "other-orifice", "hose-length", "hose-bore",
                                        "check-valve", "hoses-swapped", "side-slope",  "bar-bore",
                                        "feed-place",  "feed-hose",     "density",     "viscosity",
                                        "gauge",       "measure",       "orifice-set", "hose-schedule"};
  return names[static_cast<std::size_t>(kind)];
}

/// One cause, with its size once that is known.
struct CatchCause {
  CatchCauseKind kind = CatchCauseKind::orifice;  ///< what is wrong
  int row = 0;                                    ///< 1-based; 0: not of a row
  int other = 0;                                  ///< the second row of a swap
  std::size_t manifold = 0;                       ///< index, where it is of a manifold
  double size = 0;                                ///< see CatchCauseKind

  /// The same cause, whatever the size.
  [[nodiscard]] bool same(const CatchCause& c) const {
    return kind == c.kind && row == c.row && other == c.other && manifold == c.manifold;
  }
  /// True where it is of one row alone.
  [[nodiscard]] bool of_row() const { return row > 0 && other == 0; }
  /// True where it moves all rows by about the same share and so says little of one row against another.
  [[nodiscard]] bool of_level() const {
    using Of = CatchCauseKind;
    return kind == Of::gauge || kind == Of::measure || kind == Of::orifice_set;
  }
  /// True where it moves all rows by much the same share: as of_level(), or a thicker product.
  [[nodiscard]] bool moves_all() const { return of_level() || kind == CatchCauseKind::viscosity; }
  /// True where it cannot be true together with `c`: of one row's parts one is at fault (two are not told apart by one
  /// cup), and of what moves all rows alike, one thing.
  [[nodiscard]] bool excludes(const CatchCause& c) const {
    return same(c) || (of_row() && c.of_row() && row == c.row) || (of_level() && c.of_level());
  }
};

namespace catch_detail {

Toolbar& bar_of(Layout& layout);

RowChange& change_of(Toolbar& bar, int row);

const build_detail::Row& row_of(const std::vector<build_detail::Row>& rows, int row);

/// The other of the two usual schedules, row by row [m]: all hoses as long as the longest, where they differ; each as
/// much shorter as its run along the bar is, where they are equal. Empty where there is no other.
std::vector<double> other_schedule(const std::vector<build_detail::Row>& rows);

/// The hoses of the open rows are of one length, but for a twentieth.
bool equal_hose_lengths(const std::vector<build_detail::Row>& rows);

double bore_of(const OrificeChoice& choice);

double crack_of(const build_detail::Row& row);

}  // namespace catch_detail

/// The layout with a cause at its size.
/// @throws InputError for a free-form layout, a row or a manifold that there is not, a part that the row does not have;
/// later, when it is built, for a size that no such part can have
[[nodiscard]] Layout with_cause(Layout layout, const CatchCause& c);

/// The layout with several causes, in whatever order they are listed: first those of the whole bar, then hoses that
/// were swapped, then those of one row (whose size is over what the row has by then).
[[nodiscard]] Layout with_causes(Layout layout, const std::vector<CatchCause>& causes);

namespace catch_detail {

/// Sizes that a cause may have, from `low` to `high`; `none` is the layout's own. Wide, but no further than what leaves
/// a machine that somebody would still call built from the layout (common practice, no source).
struct Sizes {
  double low = 0, high = 0, none = 0;
  bool factor = false;         ///< steps in proportion
  std::vector<double> only{};  ///< these alone; no size is fitted
};

Sizes sizes_of(const Layout& layout, const CatchCause& c, double pressure, const std::vector<double>& fitted_bores);

/// Sizes at which a cause is solved: close together near the layout's own.
std::vector<double> size_steps(const Sizes& s);

/// The bores of orifices that may be mixed up: those listed, and those that the layout's rows have.
std::vector<double> fitted_bores(const Layout& layout, const std::vector<Length>& listed);

}  // namespace catch_detail
}  // namespace libflow
