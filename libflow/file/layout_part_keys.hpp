// SPDX-License-Identifier: MIT
/// @file
/// What the readers of parts share: keys that go together, values with a default, a part checked as a whole.
#pragma once

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
void require_fitting_keys(const TomlTable& table, std::span<const LayoutKey> keys, std::string_view choice,
                          const std::vector<std::string_view>& fitting);

/// True where the part is given by `first`, false where by any of `others`.
bool given_by(const TomlTable& table, std::string_view first, std::initializer_list<std::string_view> others);

double share_or(const TomlTable& table, std::string_view key, Range range, double otherwise);
double number_or(const TomlTable& table, std::string_view key, Range range, double otherwise);
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
Length rated_bore(const TomlTable& table, std::string_view loss_key);

}  // namespace libflow::file_detail
