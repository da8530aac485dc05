// SPDX-License-Identifier: MIT
/// @file
/// The order list as text for people: hose cut by cut, then parts.
#pragma once

#include <string>

#include <libflow/report/words.hpp>
#include <libflow/study/order_list.hpp>

namespace libflow {

namespace report_detail {

std::string order_hose_heading(const HoseOrder& h, const OrderOptions& o, UnitSystem u);

}  // namespace report_detail

/// What to order for one layout. Totals and coils are for cuts by the list's own tape: for other units ask for the list
/// with OrderOptions::tape.
[[nodiscard]] std::string order_list_text(const OrderList& list, const TextOptions& options = {});

}  // namespace libflow
