// SPDX-License-Identifier: MIT
#include <libflow/study/setting_card.hpp>

#include <algorithm>
#include <cstddef>
#include <utility>

#include <libflow/study/envelope.hpp>
#include <libflow/study/main_job.hpp>
#include <libflow/study/pressure_limit.hpp>

namespace libflow {

SettingCard setting_card(const Layout& layout, SettingCardOptions options) {
  SettingCard card;
  card.layout = layout;
  Job& job = card.layout.job;
  job.pressure.reset();
  job.turn_radius.reset();
  auto* bar = std::get_if<Toolbar>(&card.layout.plumbing);
  if (bar != nullptr) {
    card.outlets_per_row = bar->outlets_per_row;
    if (bar->drive) bar->drive->setting.reset();
  }
  require_in("setting card, catch time", si(options.catch_time), {1.0, 3600.0}, "s");
  if (options.speeds.empty()) options.speeds = layout.range.speeds;
  if (options.speeds.empty()) options.speeds = spread(0.6 * job.speed, 1.4 * job.speed, 5);
  if (options.rates.empty()) options.rates = layout.range.rates;
  if (options.rates.empty()) options.rates = {job.rate};
  const auto few = [](const char* name, std::size_t count, std::size_t most) {
    if (count > most) {
      throw InputError(fmt::format("setting card, {}", name), fmt::format("{} values", count),
                       fmt::format("1 to {}, so that the card stays one page", most));
    }
  };
  few("speeds", options.speeds.size(), 20);
  few("rates", options.rates.size(), 6);

  Envelope map = envelope(card.layout, {.speeds = options.speeds, .rates = options.rates}, {.usable_speeds = false});
  card.points = std::move(map.points);
  card.control = std::move(map.control);

  OperatingSolver solver(card.layout);
  card.liquid = solver.liquid();
  const double time = si(options.catch_time);
  std::size_t open = 0;
  for (const RowPlumbing& row : solver.plumbing().rows) open += row.shut ? 0 : 1;
  for (const EnvelopePoint& p : card.points) {
    Job at = job;
    at.speed = from_si<Speed>(p.speed);
    at.rate = from_si<AreaRate>(p.rate);
    card.mean_catch.push_back(wanted_flow(solver.plumbing(), at) * time / static_cast<double>(open));
  }
  const OperatingState state = solver.at(job.rate, job.speed);
  card.job = envelope_detail::point_of(state, job);
  card.job.speed = si(job.speed);
  card.job.rate = si(job.rate);
  if (bar != nullptr) card.job.side_slope = si(bar->side_slope);
  if (state.reached) {
    for (const RowResult& r : state.evenness.rows) {
      const double wanted = si(job.rate) * r.width * r.speed * time;
      card.rows.push_back(
          {r.row, r.flow * time, wanted * (1.0 - job.tolerance), wanted * (1.0 + job.tolerance), r.shut});
    }
    card.cautions = state.evenness.cautions;
  } else {
    card.cautions = card.liquid.cautions;
    card.cautions.push_back(rate_not_reached(state.stop, NAN, state.wanted));
  }
  if (auto assumed = assumed_limit_caution(card.layout, state.gauge)) card.cautions.push_back(std::move(*assumed));
  Layout own = card.layout;
  if (auto* plumbing = std::get_if<Plumbing>(&own.plumbing)) {
    feed_wanted_flow(*plumbing, plumbing->supply, own.job);  // it is fed: the solver above takes no other
  }
  card.main = main_job(std::move(own));
  for (const Caution& c : card.main.evenness.cautions) {
    const auto same = [&](const Caution& b) { return b.code == c.code && b.subject == c.subject; };
    if (std::none_of(card.cautions.begin(), card.cautions.end(), same)) card.cautions.push_back(c);
  }
  card.options = std::move(options);
  return card;
}

}  // namespace libflow
