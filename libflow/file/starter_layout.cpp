// SPDX-License-Identifier: MIT
#include <libflow/file/starter_layout.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/file/layout_file.hpp>
#include <libflow/fluid/catalogue.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/units/quantity.hpp>
#include <libflow/units/quote.hpp>

namespace libflow {

namespace starter_detail {

/// Bore of a sharp orifice that passes one row's flow at 20 psi, to a thousandth of an inch: a place to begin.
/// Free jet, coefficient 0.61.
static double first_bore(const Layout& layout) {
  const auto& bar = std::get<Toolbar>(layout.plumbing);
  const double flow = si(layout.job.rate) * si(layout.job.speed) * si(bar.spacing);
  const double density = layout.job.liquid.at(layout.job.temperature).density;
  const double speed = std::sqrt(2.0 * 20.0 * si(units::psi) / density);
  const double bore = std::sqrt(4.0 * flow / (std::numbers::pi * 0.61 * speed));
  return std::round(bore / (0.001 * 0.0254)) * 0.001;  // inches
}

static std::string quoted(const std::string& text) { return "\"" + text + "\""; }

static std::string starter_text(const StarterAnswers& a, const std::string& bore) {
  return fmt::format(
      R"(# A {rows}-row bar to begin with. Change what is not yours, then:   libflow solve THIS_FILE
# Every quantity carries its unit, US or metric. 'libflow check FILE' finds slips;
# 'libflow schema' is for an editor that completes and checks what you type.

name = "{rows}-row bar"

[job]
product = {product}
temperature = {temperature:<16} # {cold}
rate = {rate}
speed = {speed}
tolerance = "5 %"              # each row within this of the mean
pump_limit = "60 psi"          # assumed (common practice, no source): write what your supply gives

[toolbar]
rows = {rows}
spacing = {spacing}

[[manifold]]                   # one, in the middle; of several each has its first_row and last_row
bore = "1 in"

[hose]                         # from the manifold to each row
bore = "3/8 in"
schedule = "shortest"          # along the bar; or length = "20 ft" for all; or lengths, a list
extra = "3 ft"                 # drop to the row and slack

[check_valve]                  # figures from its data sheet; delete the table where there is none
crack = "4 psi"
rated_flow = "0.5 gpm"         # of water ...
rated_loss = "2 psi"           # ... loses this beyond the crack pressure

[orifice]
bore = "{bore} in"             # about 20 psi across it at this rate; choose from what you can buy
)",
      fmt::arg("rows", a.rows), fmt::arg("spacing", quoted(a.spacing)), fmt::arg("product", quoted(a.product)),
      fmt::arg("temperature", quoted(a.temperature.empty() ? std::string(starter_temperature) : a.temperature)),
      fmt::arg("cold", a.temperature.empty() ? "ASSUMED: write the liquid's on the coldest day you work"
                                             : "of the liquid on the coldest day you work"),
      fmt::arg("rate", quoted(a.rate)), fmt::arg("speed", quoted(a.speed)), fmt::arg("bore", bore));
}

}  // namespace starter_detail

void check_starter_answer(const StarterAnswers& answers, const StarterQuestion& question) {
  const std::string name(question.name);
  const std::string& text = answers.*question.answer;
  if (text.find_first_of("'\"\\\n\r") != std::string::npos) {
    throw InputError(name, in_quotes(text) + " holds a quote, a backslash or a line end", "plain text");
  }
  const bool digits = !text.empty() && text.find_first_not_of("0123456789") == std::string::npos;
  if (question.answer == &StarterAnswers::rows && !digits) {
    throw InputError(name, in_quotes(text) + " is not a whole number",
                     fmt::format("a whole number, 1 to {}", layout_limits::rows));
  }
  if (question.answer == &StarterAnswers::product) {
    const std::vector<Liquid>& known = catalogue();
    const auto own = std::find_if(known.begin(), known.end(), [&](const Liquid& l) {
      return l.id() == text || std::find(l.aliases().begin(), l.aliases().end(), text) != l.aliases().end();
    });
    if (own != known.end() && !own->has_viscosity()) {
      throw InputError(name, fmt::format("the viscosity of {} is not known, and it is never guessed", in_quotes(text)),
                       "a product whose viscosity is known; or take one like it and then put yours and its measured "
                       "viscosity into the file, under [product]");
    }
  }
  // Read by what reads a layout, so that both allow the same: this answer, and those before it.
  StarterAnswers known;
  for (const StarterQuestion& q : starter_questions) {
    known.*q.answer = answers.*q.answer;
    if (q.name == question.name) break;
  }
  try {
    (void)parse_layout(starter_detail::starter_text(known, "0.05"), "answers");
  } catch (const InputError& error) {
    throw InputError(name, error.what_is_wrong(), error.allowed(), error.nearest());
  }
}

std::string starter_products() {
  std::string text;
  for (const Liquid& liquid : catalogue()) {
    const bool named = liquid.id() == "water" || liquid.aliases().empty();
    text += fmt::format("  {:<12} {}{}\n", named ? liquid.id() : liquid.aliases().front(), liquid.name(),
                        liquid.has_viscosity() ? "" : " (needs your viscosity)");
  }
  return text;
}

std::string starter_layout(const StarterAnswers& answers) {
  using namespace starter_detail;
  for (const StarterQuestion& question : starter_questions) check_starter_answer(answers, question);
  const Layout layout = parse_layout(starter_text(answers, "0.05"), "answers");
  return starter_text(answers, fmt::format("{:.3f}", std::fmax(0.01, first_bore(layout))));
}

}  // namespace libflow
