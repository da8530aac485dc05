// SPDX-License-Identifier: MIT
#include <libflow/report/size_band_words.hpp>

#include <algorithm>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include <fmt/core.h>

#include <libflow/fluid/liquid.hpp>
#include <libflow/report/list_words.hpp>
#include <libflow/report/main_job_text.hpp>
#include <libflow/report/size_words.hpp>
#include <libflow/report/words.hpp>
#include <libflow/study/size.hpp>
#include <libflow/study/size_problem.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

namespace report_detail {

std::string dearer_text(const SizeAnswer& a, std::size_t k) {
  const bool priced = !a.problem.choices.hose_prices.empty();
  const double more = a.winner()->price > 0.0 ? a.fits[k].price / a.winner()->price - 1.0 : 0.0;
  if (!(more > 5e-4)) return priced ? "at the same price" : "with no more hose";
  return fmt::format("{} {}", priced ? "at a price higher by" : "with more hose, by", percent(more));
}

/// What the viscosity is known to be at the operating points.
static std::string band_span(const SizeProblem& p, UnitSystem u) {
  double low = std::numeric_limits<double>::infinity(), high = 0.0;
  for (const LiquidState& liquid : p.liquids) {
    low = std::min(low, liquid.viscosity_low.value_or(liquid.viscosity));
    high = std::max(high, liquid.viscosity_high.value_or(liquid.viscosity));
  }
  return shown<Viscosity>(low, u) + " to " + shown<Viscosity>(high, u);
}

/// The end of the band that is nearest to a limit, or oversteps it most.
static const SizeBandEnd& harder_end(const std::vector<SizeBandEnd>& band) {
  return *std::max_element(band.begin(), band.end(),
                           [](const auto& x, const auto& y) { return x.binding.use < y.binding.use; });
}

std::string band_breaks(const std::vector<SizeBandEnd>& band, UnitSystem u) {
  const SizeBandEnd& end = harder_end(band);
  const std::string at = "at " + shown<Viscosity>(end.viscosity, u);
  return end.refused.empty() ? fmt::format("{} it breaks: {}", at, binding_text(end.point, end.binding, u))
                             : fmt::format("{} it has no answer: {}", at, end.refused);
}

std::string band_text(const SizeAnswer& a, UnitSystem u) {
  const std::string span = band_span(a.problem, u);
  if (a.is_sure()) {
    const SizeBandEnd& end = harder_end(a.band);
    return fmt::format(
        "sure: every limit holds at both ends of its band too ({} at these temperatures, {} each); "
        "what binds there: {}, with {}.",
        span, counted(end.points, "point", "points"), binding_text(end.point, end.binding, u),
        shown<Viscosity>(end.viscosity, u));
  }
  std::string text =
      fmt::format("NOT SURE: it is somewhere from {} at these temperatures, and {}.", span, band_breaks(a.band, u));
  if (a.sure && *a.sure != a.best) {
    text += fmt::format(" The cheapest that holds over the whole band is number {} of the list, {}: it stands below.",
                        *a.sure + 1, dearer_text(a, *a.sure));
  } else if (!a.sure && a.complete) {
    text += fmt::format(" {} over the whole band.", a.fits.size() == 1
                                                        ? std::string("Nothing else fits that would hold")
                                                        : fmt::format("None of the {} that fit holds", a.fits.size()));
  }
  return text + " Measure your product's viscosity and give it in [product].";
}

}  // namespace report_detail

}  // namespace libflow
