// SPDX-License-Identifier: MIT
/// @file
/// The order list as JSON and as comma-separated values.
#pragma once

#include <string>

#include <libflow/file/results_json.hpp>
#include <libflow/study/order_list.hpp>

namespace libflow {

/// As JSON, SI units in the names.
[[nodiscard]] Json order_list_to_json(const OrderList& list);

/// A line for each cut of hose, then a line for each kind of part. A hose's `length` is its cut, in words under `cut`.
[[nodiscard]] std::string order_list_to_csv(const OrderList& list, UnitSystem u);

}  // namespace libflow
