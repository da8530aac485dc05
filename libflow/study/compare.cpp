// SPDX-License-Identifier: MIT
#include <libflow/study/compare.hpp>

#include <cstddef>
#include <string>
#include <variant>
#include <vector>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/study/main_job.hpp>

namespace libflow {

namespace compare_detail {

/// The main job with the supply giving what the job's rate asks for; errors name the layout.
static Answer answer_at_its_rate(Layout layout) {
  const std::string name = layout.name;
  try {
    if (auto* plumbing = std::get_if<Plumbing>(&layout.plumbing)) {
      if (plumbing->network.place(plumbing->supply).kind != PlaceKind::fed) {
        throw InputError("supply", "is not fed by a given flow, so it cannot be brought to a total rate",
                         "a fed supply");
      }
      feed_wanted_flow(*plumbing, plumbing->supply, layout.job);
    }
    return main_job(std::move(layout));
  } catch (const InputError& error) {
    throw error.inside(name);
  } catch (const IllPosedError& error) {
    throw IllPosedError(fmt::format("{}: {}", name, error.what()));
  }
}

}  // namespace compare_detail

Comparison compare(const std::vector<Layout>& layouts) {
  if (layouts.size() < 2) throw InputError("compare", "one layout", "two layouts or more");
  Comparison c;
  for (const Layout& given : layouts) {
    Layout layout = given;
    layout.job.rate = layouts.front().job.rate;
    layout.job.speed = layouts.front().job.speed;
    layout.job.turn_radius = layouts.front().job.turn_radius;
    layout.job.tolerance = layouts.front().job.tolerance;
    layout.job.pressure.reset();
    if (auto* bar = std::get_if<Toolbar>(&layout.plumbing); bar != nullptr && bar->drive) bar->drive->setting.reset();
    c.answers.push_back(compare_detail::answer_at_its_rate(std::move(layout)));
    const Answer& first = c.answers.front();
    const Answer& now = c.answers.back();
    if (now.plumbing.rows.size() != first.plumbing.rows.size()) {
      throw InputError(now.layout.name,
                       fmt::format("has {} rows, '{}' has {}", now.plumbing.rows.size(), first.layout.name,
                                   first.plumbing.rows.size()),
                       "layouts of one toolbar, with the same number of rows");
    }
    if (now.liquid.name != first.liquid.name || now.liquid.temperature != first.liquid.temperature) {
      c.cautions.push_back({"different-product", now.layout.name,
                            "product or temperature differs from the first layout's: the difference is not only the "
                            "plumbing's"});
    }
  }
  for (const Answer& answer : c.answers) {
    if (!answer.solution.usable()) return c;  // nothing to rank; the caller sees which one from its status
  }
  for (std::size_t i = 1; i < c.answers.size(); ++i) {
    if (c.answers[i].evenness.cv < c.answers[c.evenest].evenness.cv) c.evenest = i;
    if (c.answers[i].evenness.cv > c.answers[c.least_even].evenness.cv) c.least_even = i;
  }
  const auto part = [](const Evenness& e, const std::string& name) {
    for (const Cause& cause : e.causes) {
      if (cause.name == name) return cause.share * e.cv * e.cv;
    }
    return 0.0;
  };
  double most = 0.0;
  const Evenness& best = c.answers[c.evenest].evenness;
  const Evenness& worst = c.answers[c.least_even].evenness;
  for (const Evenness* e : {&best, &worst}) {
    for (const Cause& cause : e->causes) {
      const double difference = part(worst, cause.name) - part(best, cause.name);
      if (difference > most) {
        most = difference;
        c.deciding_cause = cause.name;
      }
    }
  }
  return c;
}

}  // namespace libflow
