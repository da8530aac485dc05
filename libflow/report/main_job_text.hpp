// SPDX-License-Identifier: MIT
/// @file
/// One layout's answer as text for people: verdict, rows, summary, what decides it, cautions, proof.
#pragma once

#include <cmath>
#include <cstddef>
#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

template <class Q>
std::string shown(double value, UnitSystem units) {
  return without_exponent(format(from_si<Q>(value), units));
}
template <class Q>
std::string shown_number(double value, UnitSystem units) {
  return std::isfinite(value) ? without_exponent(format_number(from_si<Q>(value), units)) : std::string("-");
}

UnitSystem units_of(const Answer& a, const TextOptions& o);

/// "10-34-0 at 40.0 °F (11.70 lb/gal, 128 cP), 5.00 gal/ac at 5.0 mph".
std::string job_text(const Answer& a, UnitSystem u);

/// What a bar of deviations reaches: at least twice the tolerance, so that the tolerance is seen.
double bar_reach(const Evenness& e, double so_far = 0.0);

std::string mark(const RowResult& r, const Evenness& e);

/// How much a table of rows leaves out so that it fits.
struct Detail {
  std::size_t bar;  ///< columns of a deviation bar on each side of its middle; 0: no bars
  bool words;       ///< regimes in full
};
inline constexpr Detail details[] = {{5, true}, {3, true}, {3, false}, {0, false}};

/// The first of `details` whose table fits the width; the last one if none does.
template <class Make>
std::string fitting(std::size_t width, const Make& make) {
  std::string text;
  for (const Detail& detail : details) {
    text = make(detail);
    if (widest_line(text) <= width) break;
  }
  return text;
}

std::string rows_table(const Answer& a, UnitSystem u, const Detail& detail);

/// Where the gauge is whose pressure is told: "where the liquid enters the manifold", "at 'feed'".
std::string gauge_place(const Layout& layout);

std::string summary(const Answer& a, UnitSystem u);

/// What the band of the viscosity does to the furthest row; empty where no band is known.
/// "the gauge at 22.8 psi to 26.3 psi for the same rate", over the band of the viscosity; empty where it is one
/// pressure.
std::string gauge_over_band(const Answer& a, UnitSystem u);
std::string viscosity_band_text(const Answer& a, UnitSystem u, std::size_t width);

std::string proof_text(const Solution& s, std::size_t width);

std::string cautions_section(const Cautions& cautions, std::size_t width);

}  // namespace report_detail

/// The answer for one layout, at most TextOptions::width columns wide; opens with the verdict.
[[nodiscard]] std::string main_job_text(const Answer& answer, const TextOptions& options = {});

}  // namespace libflow
