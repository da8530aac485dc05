// SPDX-License-Identifier: MIT
#include <libflow/toolbar/ground.hpp>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/toolbar/layout.hpp>
#include <libflow/toolbar/plumbing.hpp>
#include <libflow/toolbar/rate.hpp>

namespace libflow {

double row_speed(const Job& job, double x) {
  return si(job.speed) * (job.turn_radius ? 1.0 + x / si(*job.turn_radius) : 1.0);
}

double wanted_flow(const Plumbing& plumbing, const Job& job) {
  double sum = 0.0;
  for (const RowPlumbing& row : plumbing.rows) {
    if (!row.shut) {
      sum += si(flow_for_rate(job.rate, from_si<Speed>(row_speed(job, row.x)), from_si<Length>(row.width)));
    }
  }
  return sum;
}

void feed_wanted_flow(Plumbing& plumbing, Network::PlaceIndex fed, const Job& job) {
  double flow = wanted_flow(plumbing, job);
  for (Network::PlaceIndex i = 0; i < plumbing.network.place_count(); ++i) {
    if (i != fed) flow -= plumbing.network.place(i).inflow();
  }
  if (!(flow > 0.0)) {
    throw InputError(fmt::format("place '{}'", plumbing.network.place(fed).id),
                     "the flows given at other places are more than the job's rate asks for",
                     "given flows that leave something for this place");
  }
  plumbing.network.set_fed_flow(fed, from_si<Flow>(flow));
}

}  // namespace libflow
