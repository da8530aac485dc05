// SPDX-License-Identifier: MIT
#include <libflow/toolbar/ground.hpp>

#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/network/network.hpp>
#include <libflow/parts/ground_driven_pump.hpp>
#include <libflow/parts/part.hpp>
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

bool has_ground_driven_pump(const Network& network) {
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    if (network.part(i).part.as<GroundDrivenPump>() != nullptr) return true;
  }
  return false;
}

void turn_ground_driven_pumps(Network& network, Speed from, Speed to) {
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    const PlacedPart& placed = network.part(i);
    if (const auto* pump = placed.part.as<GroundDrivenPump>()) {
      GroundDrivenPump turned = *pump;
      turned.ground_speed = (si(to) / si(from)) * pump->ground_speed;
      network.replace_part(i, Part(turned, placed.id));
    }
  }
}

}  // namespace libflow
