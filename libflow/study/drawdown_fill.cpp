// SPDX-License-Identifier: MIT
#include <libflow/study/drawdown_fill.hpp>

#include <cstddef>

namespace libflow {

namespace drawdown_detail {

double net_out(const Network& n, const Solution& s, Network::PlaceIndex place) {
  double sum = 0.0;
  for (std::size_t i = 0; i < n.part_count(); ++i) {
    if (n.from(i) == place) sum += s.parts[i].flow;
    if (n.to(i) == place) sum -= s.parts[i].flow;
  }
  return sum;
}

}  // namespace drawdown_detail

}  // namespace libflow
