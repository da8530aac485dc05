// SPDX-License-Identifier: MIT
/// @file
/// Order list: what a layout needs, hose cut by cut and parts by size and count.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <libflow/core/caution.hpp>
#include <libflow/study/coils.hpp>
#include <libflow/study/order_items.hpp>
#include <libflow/toolbar.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// What is asked.
struct OrderOptions {
  /// Hose bought beyond the cuts, as a share of them, 0 to 1: trimming, kinks, a mistake (common practice, no source).
  double waste = 0.05;
  std::optional<Length> coil = std::nullopt;      ///< hose comes in coils of this length; empty: by the length
  std::optional<UnitSystem> tape = std::nullopt;  ///< by which cuts are read; empty: by the layout's units
};

/// One piece of hose to cut.
struct HoseCut {
  std::string id{};  ///< in the network
  int row = 0;       ///< 1-based; 0: of no row
  Length length{};   ///< that the layout gives it
  Length cut{};      ///< to cut: the same, rounded up to the tape's step (cut_length.hpp)
};

/// All hose of one bore and working pressure.
struct HoseOrder {
  Length bore{};                                  ///< inside diameter
  std::optional<Pressure> rating = std::nullopt;  ///< working pressure that the layout asks for
  std::vector<HoseCut> cuts{};                    ///< by row, then by name; those of no row last
  Length total{};                                 ///< that the layout gives them
  Length cut_total{};                             ///< of the cuts
  Length to_buy{};                                ///< cuts with the waste allowance
  std::optional<CoilPlan> plan = std::nullopt;    ///< indices are those of `cuts`; each cut with its allowance
};

/// What to order.
struct OrderList {
  std::string name{};                 ///< of the layout
  UnitSystem units = UnitSystem::us;  ///< in which it is shown and cut
  OrderOptions options{};             ///< as asked
  std::vector<HoseOrder> hoses{};     ///< widest bore first
  std::vector<OrderItem> items{};     ///< parts to buy, counted
  Length hose_total{};                ///< all hose that the layout has to be cut
  Length cut_total{};                 ///< of all cuts
  Cautions cautions{};                ///< what a person should know
};

/// @throws InputError for a layout that cannot be, options out of range, a cut longer than a coil
[[nodiscard]] OrderList order_list(const Layout& layout, const OrderOptions& options = {});

}  // namespace libflow
