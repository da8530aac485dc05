// SPDX-License-Identifier: MIT
#include <libflow/file/layout_tees.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/core.h>

#include <libflow/file/layout_job.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/solve/tees.hpp>

namespace libflow {

namespace file_detail {

using PartList = std::vector<Network::PartIndex>;

static bool ends_at(const Network& network, Network::PartIndex part, Network::PlaceIndex place) {
  return network.from(part) == place || network.to(part) == place;
}

/// The parts of one key, each a leg of the tee; `legs` holds those of the keys before.
static PartList read_legs(const TomlTable& table, std::string_view key, const Network& network,
                          Network::PlaceIndex place, PartList& legs) {
  PartList read;
  for (const auto& [where, id] : table.placed_texts(key)) {
    const Network::PartIndex part = placed(where, [&, &name = id] { return network.find_part(name, ""); });
    if (!ends_at(network, part, place)) {
      std::string there;
      for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
        if (ends_at(network, i, place)) there += (there.empty() ? "" : ", ") + in_quotes(network.part(i).id);
      }
      throw InputError(where, fmt::format("{} does not end at {}", in_quotes(id), in_quotes(network.place(place).id)),
                       there);
    }
    if (std::find(legs.begin(), legs.end(), part) != legs.end()) {
      throw InputError(where, in_quotes(id) + " is a leg of this tee already", "each part once");
    }
    legs.push_back(part);
    read.push_back(part);
  }
  return read;
}

static TeeAt read_tee(const TomlTable& table, const Network& network, const std::vector<TeeAt>& before) {
  TeeAt at;
  const std::string id = table.text("at");
  at.place = placed(table.where("at"), [&] { return network.find_place(id, ""); });
  if (network.place(at.place).kind != PlaceKind::junction) {
    table.fail("at", in_quotes(id) + " is no junction: liquid enters or leaves the plumbing there",
               "a place with kind = \"junction\"");
  }
  if (std::any_of(before.begin(), before.end(), [&](const TeeAt& other) { return other.place == at.place; })) {
    table.fail("at", in_quotes(id) + " has a tee already", "one tee at a place");
  }
  PartList legs;
  const PartList run = read_legs(table, "run", network, at.place, legs);
  if (run.empty() || run.size() > 2) {
    table.fail("run", fmt::format("{} parts", run.size()), "one or two; with one the other end is plugged");
  }
  at.left = run.front();
  if (run.size() == 2) at.right = run.back();
  at.branches = read_legs(table, "branch", network, at.place, legs);
  if (at.branches.empty()) table.fail("branch", "no part", "one part or more");
  for (Network::PartIndex i = 0; i < network.part_count(); ++i) {
    if (ends_at(network, i, at.place) && std::find(legs.begin(), legs.end(), i) == legs.end()) {
      table.fail("at", fmt::format("{} ends there too and is no leg of the tee", in_quotes(network.part(i).id)),
                 "every part of the place in run or branch");
    }
  }
  if (table.has("run_bore")) at.tee.run_bore = table.bore("run_bore", Tee::bore_range);
  if (table.has("branch_bore")) {
    at.tee.branch_bore = table.bore("branch_bore", {0.1 * Tee::bore_range.low, Tee::bore_range.high});
  }
  if (table.has("parting")) at.tee.parting = table.number("parting", physics::tee_parting_range);
  // Bores that are not given are the parts'; what is wrong with them is told with the tee that they make.
  const std::string_view key = table.has("branch_bore") ? "branch_bore" : table.has("run_bore") ? "run_bore" : "";
  return placed(table.where(key), [&] {
    TeeAt whole = with_bores_of_parts(network, at);
    whole.tee.check(fmt::format("tee at '{}'", id));
    return whole;
  });
}

std::vector<TeeAt> read_tees(const TomlTable& top, const Network& network) {
  std::vector<TeeAt> tees;
  for (const TomlTable& table : top.tables("tee", layout_keys::tee)) tees.push_back(read_tee(table, network, tees));
  return tees;
}

}  // namespace file_detail

}  // namespace libflow
