// SPDX-License-Identifier: MIT
/// @file
/// What the readers of parts share: keys that go together, values with a default, a part checked as a whole.
#pragma once

#include <algorithm>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <libflow/file/layout_job.hpp>
#include <libflow/file/toml_table.hpp>
#include <libflow/parts.hpp>

namespace libflow::file_detail {

/// Refuses keys that another choice, of a kind of part, say, would take.
/// @param choice  as it is written: kind = "hose"
inline void require_fitting_keys(const TomlTable& table, std::span<const LayoutKey> keys, std::string_view choice,
                                 const std::vector<std::string_view>& fitting) {
  std::string allowed;
  for (const std::string_view key : fitting) allowed += (allowed.empty() ? "" : ", ") + std::string(key);
  for (const LayoutKey& key : keys) {
    if (!table.has(key.name) || std::find(fitting.begin(), fitting.end(), key.name) != fitting.end()) continue;
    table.fail(key.name, fmt::format("does not go with {}", choice), allowed);
  }
}

/// True where the part is given by `first`, false where by any of `others`.
inline bool given_by(const TomlTable& table, std::string_view first, std::initializer_list<std::string_view> others) {
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

inline double share_or(const TomlTable& table, std::string_view key, Range range, double otherwise) {
  return table.has(key) ? table.fraction(key, range) : otherwise;
}
inline double number_or(const TomlTable& table, std::string_view key, Range range, double otherwise) {
  return table.has(key) ? table.number(key, range) : otherwise;
}
template <class Q>
[[nodiscard]] Q quantity_or(const TomlTable& table, std::string_view key, Range range, Q otherwise) {
  return table.has(key) ? table.quantity<Q>(key, range) : otherwise;
}

/// A part, checked as a whole: what its keys allow one by one may be wrong together.
template <PartType T>
[[nodiscard]] Part whole(const TomlTable& table, T part) {
  const std::string name = table.has("id") ? fmt::format("{} '{}'", T::kind, table.text("id")) : std::string(T::kind);
  return placed(table.where(table.has("id") ? "id" : ""), [&] { return Part(std::move(part), name); });
}

/// What Orifice::rated takes [m3/s].
inline constexpr Range rated_flow_range{1e-9, 1.0};

/// Bore of the hole that loses the pressure of `loss_key` at rated_flow of water.
inline Length rated_bore(const TomlTable& table, std::string_view loss_key) {
  const Flow flow = table.quantity<Flow>("rated_flow", rated_flow_range);
  const Pressure loss = table.quantity<Pressure>(loss_key, layout_limits::pressure);
  return placed(table.where("rated_flow"), [&] { return Orifice::rated(flow, loss).bore; });
}

}  // namespace libflow::file_detail
