// SPDX-License-Identifier: MIT
/// @file
/// What the studies have to say on a dealer's page: operating range, faults, order list, setting card.
#pragma once

#include <libflow/report/page.hpp>
#include <libflow/study/envelope.hpp>
#include <libflow/study/order_list.hpp>
#include <libflow/study/setting_card.hpp>
#include <libflow/study/what_if.hpp>
#include <libflow/units/system.hpp>

namespace libflow {

/// Over which speeds and rates the bar is even.
[[nodiscard]] PageSection envelope_section(const Envelope& e, UnitSystem u);

/// What faults do, with the total held (where something can hold it).
[[nodiscard]] PageSection what_if_section(const WhatIf& w, UnitSystem u);

/// Hose to cut and parts to buy.
[[nodiscard]] PageSection order_section(const OrderList& list, UnitSystem u);

/// Pressure at the gauge against speed.
[[nodiscard]] PageSection card_section(const SettingCard& card, UnitSystem u);

}  // namespace libflow
