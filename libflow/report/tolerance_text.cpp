// SPDX-License-Identifier: MIT
#include <libflow/report/tolerance_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>

#include <fmt/core.h>

#include <libflow/report/words.hpp>
#include <libflow/study/tolerance.hpp>

namespace libflow {

namespace report_detail {

/// A number with so many digits, never a minus before nothing.
static std::string fixed(double value, int digits, bool sign = false) {
  const double scale = std::pow(10.0, digits);
  const double rounded = std::round(scale * value) / scale + 0.0;
  return sign && rounded != 0.0 ? fmt::format("{:+.{}f}", rounded, digits)
                                : fmt::format("{:.{}f}", rounded == 0.0 ? 0.0 : rounded, digits);
}

/// "2.31 ±0.02": per cent, hundredths throughout so that numbers stand under each other; the error is rounded up, and
/// an error of more than a tenth takes the second digit away.
static std::string estimate_text(const Estimate& e, bool sign = false) {
  const double value = 100.0 * e.value, error = 100.0 * e.error;
  if (!std::isfinite(error)) return fixed(value, 2, sign);
  const int digits = error > 0.1 ? 1 : 2;
  const double scale = std::pow(10.0, digits);
  return fixed(value, digits, sign) + " ±" + fixed(std::ceil(scale * error - 1e-9) / scale, digits);
}

/// An index as a whole per cent; sampling puts one below 0 or above 100 now and then, which no share can be.
static std::string share_text(const Estimate& e) {
  const double value = std::clamp(std::round(100.0 * e.value), 0.0, 100.0) + 0.0;
  return fmt::format("{:.0f} ±{:.0f}", value, std::ceil(100.0 * e.error));
}

static std::string optional_percent(const std::optional<double>& x, const char* format = "{:.2f}") {
  return x ? fmt::format(fmt::runtime(format), 100.0 * *x) : std::string("-");
}

static std::string tolerance_verdict(const ToleranceResult& r) {
  if (r.machines == 0) return "NOTHING DONE: stopped before the first machines were solved.";
  if (r.judged == 0) return "NO MACHINE drawn has an answer: nothing flows, or no convergence.";
  const std::string error =
      std::isfinite(r.within.error) ? fmt::format(" (sampling error {:.1g} %)", 100.0 * r.within.error) : std::string();
  return fmt::format("{} of the machines that these tolerances allow have every row within ±{:g} % of the mean{}.{}",
                     percent(r.within.value), 100.0 * r.tolerance, error,
                     r.complete ? "" : " STOPPED before the end: what follows is from a part of the work.");
}

static std::string tolerance_quantiles(const ToleranceResult& r) {
  Table t;
  t.column("", Table::Align::left);
  t.column("layout\n%");
  for (const ToleranceQuantile& q : r.quantiles) t.column(fmt::format("{:g} % are below\n%", 100.0 * q.level));
  std::vector<std::string> cv{"Coefficient of variation", fmt::format("{:.2f}", 100.0 * r.nominal_cv)};
  std::vector<std::string> worst{"Row furthest from the mean", fmt::format("{:.2f}", 100.0 * r.nominal_worst)};
  for (const ToleranceQuantile& q : r.quantiles) {
    cv.push_back(estimate_text(q.cv));
    worst.push_back(estimate_text(q.worst));
  }
  t.line(std::move(cv));
  t.line(std::move(worst));
  return t.text();
}

static std::string tolerance_shares(const ToleranceResult& r) {
  const bool indices = r.share_replicates > 0;
  Table t;
  t.column("", Table::Align::left);
  if (indices) {
    t.column("CV\nalone %");
    t.column("CV with\nothers %");
    t.column("worst row\nalone %");
    t.column("worst row with\nothers %");
  }
  t.column("straight\nline %");
  for (const ToleranceShare& s : r.shares) {
    std::vector<std::string> cells{s.name};
    if (indices) {
      for (const Estimate& e : {s.cv.first_order, s.cv.total, s.worst.first_order, s.worst.total}) {
        cells.push_back(share_text(e));
      }
    }
    cells.push_back(optional_percent(s.first_order, "{:.0f}"));
    t.line(std::move(cells));
  }
  return t.text();
}

static std::string tolerance_rows(const ToleranceResult& r) {
  Table t;
  t.column("row");
  t.column("layout\noff mean %");
  t.column("as built\nmean %");
  t.column("scatter\n%");
  t.column("straight\nline %");
  t.column("", Table::Align::left);
  for (const RowScatter& row : r.rows) {
    t.line({fmt::format("{}", row.row), fixed(100.0 * row.nominal, 2, true), estimate_text(row.mean, true),
            estimate_text(row.spread), optional_percent(row.first_order), row.parts_company ? "NOT STRAIGHT" : ""});
  }
  return t.text();
}

}  // namespace report_detail

std::string tolerance_text(const ToleranceResult& r, const TextOptions& options) {
  using namespace report_detail;
  const std::size_t width = std::max<std::size_t>(80, options.width);
  std::string text = coloured(wrapped(tolerance_verdict(r), width), Colour::strong, options);
  text += "\n" + wrapped(fmt::format("{}: {} machines drawn in {} replicates, seed {}.", name_text(r.layout),
                                     r.machines, std::max<std::size_t>(1, r.replicates), r.seed),
                         width, 2);
  if (r.judged == 0) return text;
  if (r.unsolved > 0) {
    text += wrapped(fmt::format("{} drawn machines have no answer (nothing flows, or no convergence) and count in no "
                                "figure below.",
                                r.unsolved),
                    width, 2);
  }
  text += "\nHow even\n" +
          wrapped(
              "Layout: as drawn, every part exact. 'p % are below': of the machines that the tolerances allow, p in "
              "a hundred have less than this. ± is the standard error of sampling, rounded up.",
              width, 1, " ") +
          tolerance_quantiles(r);
  text += wrapped(fmt::format("Root mean square of the coefficient of variation: {} %{}.", estimate_text(r.rms_cv),
                              r.first_order_rms_cv ? fmt::format("; by the straight line from derivatives {:.2f} %",
                                                                 100.0 * *r.first_order_rms_cv)
                                                   : std::string()),
                  width, 1, " ");
  text += "\nWhich tolerance matters: share of the variance\n";
  text += wrapped(std::string(r.share_replicates > 0
                                  ? "Alone: what would go if this one were held exactly. With others: what would "
                                    "stay if all others were. Both are estimates: their sum may miss 100, and one "
                                    "that sampling puts below 0 or above 100 is shown as 0 or 100. "
                                  : "") +
                      "Straight line: share of the rows' own variances by derivatives at the layout.",
                  width, 1, " ");
  text += tolerance_shares(r);
  if (!r.no_first_order.empty()) text += wrapped("No straight line: " + r.no_first_order, width, 1, " ");
  if (r.at_crack > 0) {
    text +=
        wrapped(fmt::format("{} check valve{} exactly at {} crack pressure in the layout: the straight line is that "
                            "of one side, shut.",
                            r.at_crack, r.at_crack == 1 ? " stands" : "s stand", r.at_crack == 1 ? "its" : "their"),
                width, 1, " ");
  }
  text += "\nRow by row\n";
  const bool apart = std::any_of(r.rows.begin(), r.rows.end(), [](const RowScatter& row) { return row.parts_company; });
  text += wrapped(std::string("As built: the mean of the row over all machines. Scatter: standard deviation of its "
                              "distance from the mean; straight line: the same by derivatives.") +
                      (apart ? " NOT STRAIGHT: it is not what the derivatives at the layout say; the row answers by a "
                               "bend or a step (a check valve near its crack pressure, a wide tolerance)."
                             : ""),
                  width, 1, " ") +
          tolerance_rows(r);
  return text + "\n" +
         wrapped(
             "The figures hold for the tolerances given in the layout; how well "
             "parts are made is for you to measure or the maker to state.",
             width);
}

}  // namespace libflow
