// SPDX-License-Identifier: MIT
#include <libflow/file/layout_part_keys.hpp>

#include <algorithm>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/file/layout_job.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/parts.hpp>

namespace libflow {

namespace file_detail {

void require_fitting_keys(const TomlTable& table, std::span<const LayoutKey> keys, std::string_view choice,
                          const std::vector<std::string_view>& fitting) {
  std::string allowed;
  for (const std::string_view key : fitting) allowed += (allowed.empty() ? "" : ", ") + std::string(key);
  for (const LayoutKey& key : keys) {
    if (!table.has(key.name) || std::find(fitting.begin(), fitting.end(), key.name) != fitting.end()) continue;
    table.fail(key.name, fmt::format("does not go with {}", choice), allowed);
  }
}

bool given_by(const TomlTable& table, std::string_view first, std::initializer_list<std::string_view> others) {
  std::string list;
  for (const std::string_view key : others) list += (list.empty() ? "" : " with ") + std::string(key);
  const std::string allowed = fmt::format("{}, or {}", first, list);
  bool other = false;
  for (const std::string_view key : others) {
    if (!table.has(key)) continue;
    other = true;
    if (table.has(first)) table.fail(key, fmt::format("does not go with '{}'", first), allowed);
  }
  if (!other && !table.has(first)) table.fail({}, fmt::format("'{}' is missing", first), allowed);
  return !other;
}

double share_or(const TomlTable& table, std::string_view key, Range range, double otherwise) {
  return table.has(key) ? table.fraction(key, range) : otherwise;
}

double number_or(const TomlTable& table, std::string_view key, Range range, double otherwise) {
  return table.has(key) ? table.number(key, range) : otherwise;
}

Length rated_bore(const TomlTable& table, std::string_view loss_key) {
  const Flow flow = table.quantity<Flow>("rated_flow", rated_flow_range);
  const Pressure loss = table.quantity<Pressure>(loss_key, layout_limits::pressure);
  return placed(table.where("rated_flow"), [&] { return Orifice::rated(flow, loss).bore; });
}

}  // namespace file_detail

}  // namespace libflow
