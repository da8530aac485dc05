// SPDX-License-Identifier: MIT
/// @file
/// What to order for a part of a network: its name in the trade's words and the sizes that it is bought by.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <libflow/parts.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// One size of a thing, SI, with what it is.
struct OrderSize {
  std::string name{};        ///< "bore", "crack pressure" ...
  Kind kind = Kind::length;  ///< of quantity, for its unit
  double value = 0;          ///< SI
  bool bore = false;         ///< a length that is read in inches or millimetres
  std::size_t count = 0;     ///< so many ways of it, each of this size; 0: the size of the thing itself
  bool assumed = false;      ///< a default of ours that the layout does not change: not what a maker offers
};

/// Things that are alike.
struct OrderItem {
  std::string what{};              ///< "orifice", "check valve" ...
  std::vector<OrderSize> sizes{};  ///< may be empty
  std::size_t count = 0;           ///< how many
  std::vector<int> rows{};         ///< whose they are, 1-based, rising; empty: of no row
  std::vector<std::string> ids{};  ///< names in the network
  std::string note{};              ///< more about it, e.g. where a manifold is fed; empty: nothing
};

/// Name of a valve's size: its Kv, water at 1 bar.
inline constexpr std::string_view order_valve_size = "flow at 1 bar";

/// A size as it is read: "bore 0.046 in", "crack pressure 4.00 psi", "16 ports for hose 0.375 in".
[[nodiscard]] std::string order_size_text(const OrderSize& size, UnitSystem u);

namespace order_detail {

OrderSize bore(Length value, std::string name = "bore");
OrderSize pressure(Pressure value, std::string name);
OrderSize volume(Volume value, std::string name);

/// What one part is ordered as; empty for what is no part to buy (an open end is the end of its hose) and for hoses,
/// which are cut.
std::optional<OrderItem> item_of(const Part& part);

bool alike(double a, double b);
bool alike(const OrderItem& a, const OrderItem& b);

}  // namespace order_detail
}  // namespace libflow
